"""ODS read as a stream, with what a formula, a merged cell or an error value would hide told.

Read here and not by a package: those that are kept up give an empty text for an error value and
for the cells under a merged one, and say nothing of formulas.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, time
from typing import IO
from xml.etree.ElementTree import Element, iterparse

from bracecalc.errors import JobError
from bracecalc.jobfile.cells import (
    ERROR_RIGHT,
    MERGED,
    MOST_CELLS,
    MOST_ROWS,
    NOT_CALCULATED,
    Cells,
    HiddenRow,
    Unusable,
    has_keys,
    is_blank,
)
from bracecalc.jobfile.zipped import no_sheet, opened, too_large, two_sheets

RIGHT = "an ODS workbook, or a CSV"
CONTENT = "content.xml"

# OASIS Open Document Format 1.3, part 3: names of elements and attributes
_OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
_TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
_CALC = "{urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0}"
_NUMBERS = ("float", "percentage", "currency")
_CELLS = (f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell")


def ods_rows(where: str, sheet: str | None = None) -> Iterator[Cells]:
    """Yield the rows of the first sheet, or of the one named; numbers stay numbers.

    A cell whose value isn't known is an ``Unusable``.

    Raises:
        JobError: if the file isn't a workbook that can be read, or has no such sheet.
    """
    names: list[str] = []
    number = 0
    with (
        opened(where, streamed=CONTENT, right=RIGHT) as archive,
        archive.open(CONTENT) as stream,
    ):
        for name, element in _row_elements(stream):
            if not names or name != names[-1]:
                names.append(name)
                number = 0
            first, number = number + 1, number + _repeated(element, "rows")
            if name != (names[0] if sheet is None else sheet):
                if sheet is None and first == 1 and has_keys(_cells(where, element, first)):
                    raise JobError(two_sheets(where, [names[0], name]))
                continue
            cells = _cells(where, element, first)
            if all(is_blank(cell) for cell in cells):
                continue
            if number > MOST_ROWS:
                raise JobError(too_large(where, number, len(cells)))
            if element.get(f"{_TABLE}visibility", "visible") != "visible":
                cells = HiddenRow(cells)
            for row in range(first, number + 1):
                yield row, cells
    if sheet is not None and sheet not in names:
        raise JobError(no_sheet(where, sheet, names))


def _row_elements(stream: IO[bytes]) -> Iterator[tuple[str, Element]]:
    """Yield (name of the sheet, row), and let go of each row when the next is asked for."""
    above: list[Element] = []
    name = ""
    for event, element in iterparse(stream, events=("start", "end")):
        if event == "start":
            above.append(element)
            if element.tag == f"{_TABLE}table":
                name = element.get(f"{_TABLE}name", "")
            continue
        above.pop()
        if element.tag == f"{_TABLE}table-row":
            yield name, element
            above[-1].remove(element)


def _repeated(element: Element, what: str) -> int:
    return max(1, int(element.get(f"{_TABLE}number-{what}-repeated", "1")))


def _cells(where: str, row: Element, number: int) -> list[object]:
    cells: list[object] = []
    blanks = 0
    for element in row:
        if element.tag not in _CELLS:
            continue
        value, times = _value(element), _repeated(element, "columns")
        if value is None:  # a row ends in thousands of blanks
            blanks += times
            continue
        if len(cells) + blanks + times > MOST_CELLS:
            raise JobError(too_large(where, number, len(cells) + blanks + times))
        cells += [*[None] * blanks, *[value] * times]
        blanks = 0
    return cells


def _value(cell: Element) -> object:
    spans = (cell.get(f"{_TABLE}number-{what}-spanned", "1") for what in ("columns", "rows"))
    if cell.tag == f"{_TABLE}covered-table-cell" or any(span != "1" for span in spans):
        return MERGED
    kind = cell.get(f"{_OFFICE}value-type")
    if kind in _NUMBERS:
        return float(cell.get(f"{_OFFICE}value", "nan"))
    if kind == "date":
        return date.fromisoformat(cell.get(f"{_OFFICE}date-value", "")[:10])
    if kind == "time":
        return time()
    if kind == "boolean":
        return cell.get(f"{_OFFICE}boolean-value") == "true"
    paragraphs = cell.findall(f"{_TEXT}p")
    if not paragraphs:
        return None if cell.get(f"{_TABLE}formula") is None else NOT_CALCULATED
    text = "\n".join(map(_paragraph, paragraphs))
    if cell.get(f"{_CALC}value-type") == "error":
        return Unusable(f"the error {text}", ERROR_RIGHT)
    return text if text else None


def _paragraph(element: Element) -> str:
    """Return the text of a paragraph; blanks in a row and tabs are elements of their own."""
    parts = [element.text or ""]
    for child in element:
        if child.tag == f"{_TEXT}s":
            parts.append(" " * min(int(child.get(f"{_TEXT}c", "1")), 64))
        elif child.tag == f"{_TEXT}tab":
            parts.append(" ")
        elif child.tag != f"{_OFFICE}annotation":
            parts.append(_paragraph(child))
        parts.append(child.tail or "")
    return "".join(parts)
