"""Sheets of a workbook that print as they should: landscape, fitted, headings on every page.

A formula is written with the value that it has, so that a program that only shows files shows it.
"""

from __future__ import annotations

import io
import textwrap
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, NamedTuple

from bracecalc.records.job import Units
from bracecalc.render.text import printable

if TYPE_CHECKING:
    from xlsxwriter import Workbook
    from xlsxwriter.worksheet import Worksheet

NARROWEST, WIDEST = 6, 46  # of a column, in letters
PAGE_WIDE = 120  # letters of a sheet of words alone
LINE = 17  # points that a line of a folded cell is high, whatever font is at hand
LETTER, A4 = 1, 9  # paper, as the file format numbers it
Cell = Any


class Formula(NamedTuple):
    """A formula and what it comes to."""

    text: str
    value: float
    form: str = ""


class Number(NamedTuple):
    """A number with a format of its own."""

    value: float
    form: str


class Warn(NamedTuple):
    """A text that must be seen."""

    text: str


class Head(NamedTuple):
    """A heading within a sheet."""

    text: str


def address(row: int, column: int) -> str:
    """Return a cell as a formula names it; row and column from 0.

    >>> address(0, 0), address(9, 27)
    ('A1', 'AB10')
    """
    letters, column = "", column + 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return f"{letters}{row + 1}"


@dataclass(slots=True)
class Page:
    """One sheet: its rows, and how its columns are written.

    Attributes:
        name: of the sheet, at most 31 letters.
        rows: cells by row; the first is the heading unless ``titled`` says otherwise.
        formats: number format by column, counted from 0.
        wrapped: columns that are folded at the greatest width.
        right: columns of numbers, whose headings stand over them on the right.
    """

    name: str
    rows: list[Sequence[Cell]] = field(default_factory=list)
    formats: Mapping[int, str] = field(default_factory=dict)
    wrapped: frozenset[int] = frozenset()
    right: frozenset[int] = frozenset()
    titled: bool = True


def workbook_bytes(pages: Iterable[Page], *, units: Units, title: str, footer: str) -> bytes:
    """Return a workbook of the pages.

    Raises:
        ImportError: if xlsxwriter, of the extra ``takeoff``, is not installed.
    """
    from xlsxwriter import Workbook

    out = io.BytesIO()
    options = {
        "in_memory": True,
        "strings_to_numbers": False,
        "strings_to_formulas": False,
        "strings_to_urls": False,
    }
    with Workbook(out, options) as book:
        book.set_properties({"title": printable(title)})
        book.set_calc_mode("auto")
        styles = _Styles(book)
        for page in pages:
            _write(book.add_worksheet(page.name), page, styles, units, (title, footer))
    return out.getvalue()


class _Styles:
    """Formats of cells, each made once."""

    def __init__(self, book: Workbook) -> None:
        self.book = book
        self.made: dict[tuple[tuple[str, Any], ...], Any] = {}

    def of(self, **properties: Any) -> Any:
        """Return the format with these properties."""
        key = tuple(sorted(properties.items()))
        if key not in self.made:
            self.made[key] = self.book.add_format({"valign": "top", **properties})
        return self.made[key]


def _write(
    sheet: Worksheet, page: Page, styles: _Styles, units: Units, said: tuple[str, str]
) -> None:
    widths = _widths(page)
    for number, row in enumerate(page.rows):
        lines = 1
        for place, cell in enumerate(row):
            if cell is None:
                continue
            heading = page.titled and number == 0
            _put(sheet, (number, place), cell, page, styles, heading=heading)
            if heading:
                lines = max(lines, _lines(str(cell), widths[place] - 1))
            elif place in page.wrapped:
                lines = max(lines, _lines(str(cell), widths[place] * 9 // 10))
        if lines > 1:  # no program works the height out when it opens a file
            sheet.set_row(number, LINE * lines)
    for place, width in widths.items():
        sheet.set_column(place, place, width)
    if page.titled:
        sheet.freeze_panes(1, 0)
        sheet.repeat_rows(0)
    sheet.set_landscape()
    sheet.set_paper(A4 if units is Units.MM else LETTER)
    sheet.fit_to_pages(1, 0)
    columns = max((len(row) for row in page.rows), default=1)
    sheet.print_area(0, 0, max(0, len(page.rows) - 1), columns - 1)
    sheet.set_margins(left=0.5, right=0.5, top=0.7, bottom=0.7)
    title, footer = (printable(text).replace("&", "&&")[:200] for text in said)
    sheet.set_header(f"&L{title}&R&A")
    sheet.set_footer(f"&L{footer}&RPage &P of &N")


def _lines(text: str, width: int) -> int:
    return len(textwrap.wrap(text, max(1, width))) or 1


def _widths(page: Page) -> dict[int, int]:
    """Return how wide each column is, in letters; headings are folded at their blanks."""
    widths: dict[int, int] = {}
    widest = PAGE_WIDE if page.titled and len(page.rows[0]) == 1 else WIDEST
    for number, row in enumerate(page.rows):
        for place, cell in enumerate(row):
            if cell is None or (not page.titled and place == 0 and len(row) == 1):
                continue  # a line of words may run over the columns beside it
            text = _shown(cell)
            if page.titled and number == 0:
                text = max(text.split(), key=len, default="")
            folded = place in page.wrapped and not (page.titled and number == 0)
            letters = min(widest, (len(text) * 10 // 9 if folded else len(text)) + 2)
            widths[place] = max(widths.get(place, NARROWEST), letters)
    return widths


def _shown(cell: Cell) -> str:
    if isinstance(cell, (Warn, Head)):
        return cell.text
    value = cell.value if isinstance(cell, (Formula, Number)) else cell
    return f"{value:,.2f}" if isinstance(value, float) else str(value)


def _put(
    sheet: Worksheet,
    at: tuple[int, int],
    cell: Cell,
    page: Page,
    styles: _Styles,
    *,
    heading: bool,
) -> None:
    row, place = at
    numbers = page.formats.get(place, "")
    if isinstance(cell, (Formula, Number)) and cell.form:
        numbers = cell.form
    style: dict[str, Any] = {"num_format": numbers} if numbers else {}
    if heading or isinstance(cell, Head):
        align = "right" if place in page.right else "left"
        indent = 1 if place - 1 in page.right and align == "left" else 0
        bold = styles.of(bold=True, text_wrap=True, bottom=1, align=align, indent=indent)
        text = cell.text if isinstance(cell, Head) else str(cell)
        sheet.write_string(row, place, printable(text), bold)
    elif isinstance(cell, Formula):
        sheet.write_formula(row, place, cell.text, styles.of(**style), cell.value)
    elif isinstance(cell, Warn):
        red = styles.of(bold=True, font_color="#B00000")
        sheet.write_string(row, place, printable(cell.text), red)
    elif isinstance(cell, str):
        wrap = place in page.wrapped
        beside = {"indent": 1, "align": "left"} if place - 1 in page.right else {}
        sheet.write_string(row, place, printable(cell), styles.of(text_wrap=wrap, **beside))
    elif isinstance(cell, Number):
        sheet.write_number(row, place, cell.value, styles.of(**style))
    else:
        sheet.write_number(row, place, cell, styles.of(**style))
