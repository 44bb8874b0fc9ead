"""Panel pieces laid out on sheets: in strips, as a table saw takes them."""

from __future__ import annotations

from collections.abc import Iterable

from bracecalc.cutting import PER_INCH

SHEET = 48 * PER_INCH, 96 * PER_INCH  # 4 by 8 ft, common practice

Piece = tuple[int, int, int]  # width, length, count


def sheets_needed(pieces: Iterable[Piece], kerf: int) -> int:
    """Return how many sheets the pieces take, ripped into strips that are then cut to length.

    Strips run along the sheet, the longest pieces first and the widest strips first, each where
    it first fits: a layout that a shop can follow, not proven to be the least.

    Args:
        pieces: width, length and count, 1/32 in; none greater than the sheet.
        kerf: width of a cut, 1/32 in.

    Raises:
        ValueError: if a piece is greater than the sheet.

    >>> sheets_needed([(7 * 32, 32 * 32, 18)], 4)  # 2 in each strip, 6 strips in each sheet
    2
    """
    wide, long = SHEET
    strips: dict[int, list[int]] = {}  # by width: what is left of each strip
    for width, length, count in sorted(pieces, reverse=True, key=lambda piece: piece[:2]):
        if width > wide or length > long:
            raise ValueError(f"a piece of {width} by {length} is greater than a sheet")
        rows = strips.setdefault(width, [])
        for _ in range(count):
            place = next((n for n, left in enumerate(rows) if left >= length), None)
            if place is None:
                rows.append(long)
                place = len(rows) - 1
            rows[place] -= length + kerf
    sheets: list[int] = []  # what is left of the width of each
    for width in sorted(strips, reverse=True):
        for _ in strips[width]:
            place = next((n for n, left in enumerate(sheets) if left >= width), None)
            if place is None:
                sheets.append(wide)
                place = len(sheets) - 1
            sheets[place] -= width + kerf
    return len(sheets)
