"""What stands in the cells of a table, whatever program wrote it, and what can't be used."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from typing import NamedTuple

MOST_CELLS = 2_000  # in a row; more is no table of niches
MOST_ROWS = 1_048_576  # in a sheet, as the common programs have it
LONGEST_CELL = 10_000
# what spreadsheets show where a formula came to nothing, the older programs' numbers too
ERRORS = frozenset(
    ("#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#SPILL!", "#CALC!")
)


class Unusable(NamedTuple):
    """A cell whose value nobody knows: what was read in it, and what would be right."""

    read: str
    right: str


NOT_CALCULATED = Unusable(
    "a formula that no program has calculated",
    "its value; open the file, let it be calculated and save it",
)
MERGED = Unusable(
    "a cell merged with others",
    "a value in every cell; a merged cell is never read as 'as above', so unmerge it and fill in",
)

ERROR_RIGHT = "a value; correct the formula in the spreadsheet"


class HiddenRow(list[object]):
    """The cells of a row that is hidden or filtered out: meant or not, nobody can tell."""


HIDDEN = Unusable("a hidden row", "it shown, or deleted: what is hidden may be meant or not")

Row = tuple[int, list[str]]
Cells = tuple[int, Sequence[object]]


def unusable(cell: object) -> Unusable | None:
    """Return what is wrong with a cell that has no value to be used, None for any other.

    >>> unusable("#REF!").read
    'the error #REF!'
    >>> unusable("33 1/4 in") is None
    True
    """
    if isinstance(cell, Unusable):
        return cell
    if isinstance(cell, str):
        text = cell.strip()
        if text in ERRORS or (text.startswith("Err:") and text[4:].isdigit()):
            return Unusable(f"the error {text}", ERROR_RIGHT)
    return None


def has_keys(cells: Sequence[object]) -> bool:
    """Return whether a row looks like the heading of a table of niches.

    >>> has_keys(("count", "niche.width")), has_keys(("see over",))
    (True, False)
    """
    return any(isinstance(cell, str) and cell.strip().startswith("niche.") for cell in cells)


def is_date(cell: object) -> bool:
    """Return whether a spreadsheet made a day or a time of a cell.

    >>> is_date(date(2026, 1, 4)), is_date(0.25)
    (True, False)
    """
    return isinstance(cell, (date, time, timedelta))


def is_blank(cell: object) -> bool:
    """Return whether nothing stands in a cell."""
    return cell is None or (isinstance(cell, str) and not cell.strip())


def cell_text(cell: object) -> str:
    """Return what stands in a cell as text; whole numbers without a point.

    >>> cell_text(2.0), cell_text(None), cell_text(33.25)
    ('2', '', '33.25')
    """
    if cell is None:
        return ""
    if isinstance(cell, Unusable):
        return cell.read
    if isinstance(cell, datetime):
        return cell.date().isoformat()
    if isinstance(cell, float) and cell.is_integer() and abs(cell) < 1e15:
        return str(int(cell))
    return str(cell)


def column_letter(place: int) -> str:
    """Return the column as a spreadsheet letters it.

    >>> column_letter(0), column_letter(27)
    ('column A', 'column AB')
    """
    letters = ""
    place += 1
    while place:
        place, rest = divmod(place - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return f"column {letters}"
