"""XLSX read as a stream, with what a formula, a merged cell or an error value would hide told."""

from __future__ import annotations

import re
import warnings
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from itertools import islice
from typing import IO, TYPE_CHECKING, Any, NamedTuple

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.cells import (
    MERGED,
    MOST_CELLS,
    MOST_ROWS,
    NOT_CALCULATED,
    Cells,
    HiddenRow,
    has_keys,
)
from bracecalc.jobfile.zipped import no_sheet, opened, too_large, two_sheets

if TYPE_CHECKING:
    from openpyxl import Workbook

RIGHT = "an XLSX workbook, or a CSV"
SHEETS = "xl/worksheets/"
BLOCK = 1 << 20
OVERLAP = 256  # bytes of a block that are looked at again with the next: longer than any tag here
AT_ONCE = 500  # rows

_FORMULA = re.compile(rb"<(?:[A-Za-z0-9]+:)?f[ >/]")
_MERGED = re.compile(
    rb"<(?:[A-Za-z0-9]+:)?mergeCell [^>]{0,100}?ref=[\"']([A-Z]+[0-9]+:[A-Z]+[0-9]+)"
)

_ROW = re.compile(rb"<(?:[A-Za-z0-9]+:)?row ([^>]*)>")
_HIDDEN = re.compile(rb"(?<![A-Za-z])hidden=[\"'](?:1|true)[\"']")
_NUMBER = re.compile(rb"(?<![A-Za-z:])r=[\"']([0-9]+)[\"']")


class Marks(NamedTuple):
    """What a sheet says before its rows are read.

    Attributes:
        calculated: it has no formula.
        merged: columns by row, both from 1, of cells that are merged with others.
        hidden: rows that are hidden or filtered out.
    """

    calculated: bool
    merged: Mapping[int, set[int]]
    hidden: frozenset[int]


def xlsx_rows(where: str, sheet: str | None = None) -> Iterator[Cells]:
    """Yield the rows of the first sheet, or of the one named; numbers stay numbers.

    A cell whose value isn't known is an ``Unusable``.

    Raises:
        JobError: if the file isn't a workbook that can be read, or has no such sheet.
    """
    try:
        import openpyxl  # noqa: F401
    except ImportError:
        right = "the extra 'takeoff' installed, which reads XLSX; or the sheet saved as CSV"
        raise JobError(Mistake(where, "", "an XLSX file", right)) from None
    with (
        opened(where, streamed=SHEETS, right=RIGHT) as archive,
        open(where, "rb") as for_values,
        open(where, "rb") as for_formulas,
    ):
        book = _book(for_values, data_only=True)
        values = book.worksheets[_place(where, book, sheet)]
        marks = _scan(archive, values)
        if marks.calculated:
            rows = values.iter_rows(values_only=True)
        else:
            rows = _with_formulas(values, _book(for_formulas, data_only=False)[values.title])
        yield from _checked(where, rows, marks)


def _book(file: IO[bytes], *, data_only: bool) -> Workbook:
    import openpyxl

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of styles and rules of validation, which aren't used
        book = openpyxl.load_workbook(file, read_only=True, data_only=data_only)
    for sheet in book.worksheets:
        sheet.reset_dimensions()  # a file may say too little of its size
    return book


def _place(where: str, book: Workbook, sheet: str | None) -> int:
    names = [each.title for each in book.worksheets]
    if sheet is not None:
        if sheet not in names:
            raise JobError(no_sheet(where, sheet, names))
        return names.index(sheet)
    others = [name for name in names[1:] if _has_keys(book[name])]
    if others:
        raise JobError(two_sheets(where, [names[0], *others]))
    return 0


def _has_keys(sheet: Any) -> bool:
    return has_keys(next(sheet.iter_rows(max_row=1, values_only=True), ()))


def _scan(archive: zipfile.ZipFile, sheet: Any) -> Marks:
    """Return what is to be known of a sheet before it is read.

    Merged cells are told after the last row, so the part is passed over once before it is read.
    """
    from openpyxl.utils.cell import range_boundaries

    calculated = True
    ranges: set[bytes] = set()
    hidden: set[int] = set()
    with archive.open(sheet._worksheet_path) as stream:
        rest = b""
        while block := stream.read(BLOCK):
            text = rest + block
            calculated = calculated and _FORMULA.search(text) is None
            ranges.update(_MERGED.findall(text))
            if b"hidden" in text:
                for attributes in _ROW.findall(text):
                    number = _NUMBER.search(attributes)
                    if number is not None and _HIDDEN.search(attributes) is not None:
                        hidden.add(int(number[1]))
            rest = text[-OVERLAP:]
    merged: dict[int, set[int]] = {}
    for name in ranges:
        left, top, right, bottom = range_boundaries(name.decode())
        for row in range(top, min(bottom, MOST_ROWS) + 1):
            merged.setdefault(row, set()).update(range(left, min(right, MOST_CELLS) + 1))
    return Marks(calculated, merged, frozenset(hidden))


def _with_formulas(values: Any, written: Any) -> Iterator[Sequence[object]]:
    """Yield rows in which a formula without a value is told, the values beside what is written."""
    for known, formulas in zip(values.iter_rows(), written.iter_rows(), strict=True):
        yield [
            # a formula that was calculated to an empty text says that it is a text
            NOT_CALCULATED
            if formula.data_type == "f" and cell.value is None and cell.data_type != "str"
            else cell.value
            for cell, formula in zip(known, formulas, strict=True)
        ]


def _checked(where: str, rows: Iterator[Sequence[object]], marks: Marks) -> Iterator[Cells]:
    number = 0
    while True:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            block = list(islice(rows, AT_ONCE))
        if not block:
            return
        for cells in block:
            number += 1
            if len(cells) > MOST_CELLS or number > MOST_ROWS:
                raise JobError(too_large(where, number, len(cells)))
            covered = marks.merged.get(number)
            if covered is not None:
                wide = max(len(cells), *covered)
                padded = (*cells, *[None] * (wide - len(cells)))
                cells = [MERGED if n in covered else c for n, c in enumerate(padded, start=1)]
            yield number, HiddenRow(cells) if number in marks.hidden else cells
