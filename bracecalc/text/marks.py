"""Lengths as people write them, on a grid and rounded to the safe side."""

from __future__ import annotations

import math
from enum import StrEnum

from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import Units


class Rounding(StrEnum):
    """Which way a length is rounded for people: a gap up, a margin down."""

    NEAREST = "nearest"
    UP = "up"
    DOWN = "down"


def format_length(
    value: float,
    *,
    units: Units = Units.INCH,
    grid: float = 1 / 16,
    towards: Rounding = Rounding.NEAREST,
) -> str:
    """Return a length as people write it, on the grid: ``84 1/4 in`` or ``2140 mm``.

    Millimetres are whole, or halves where the grid is finer than 1/16 in. A value within a
    millionth of a grid step of a mark is on that mark, whichever way is rounded.

    Args:
        value: length, in.
        units: the system to write in.
        grid: what inches are rounded to, in.
        towards: UP never shows less than the value, DOWN never more.

    Raises:
        ValueError: if the value isn't finite, or the grid isn't more than 0.

    >>> format_length(33.26, units=Units.INCH, towards=Rounding.UP)
    '33 5/16 in'
    >>> format_length(-0.125, units=Units.INCH)
    '-1/8 in'
    >>> format_length(84.25, units=Units.MM, towards=Rounding.DOWN)
    '2139 mm'
    """
    if not math.isfinite(value):
        raise ValueError(f"a length must be finite, got {value!r}")
    if not 0 < grid < math.inf:
        raise ValueError(f"grid must be more than 0 in, got {grid!r}")
    if units is Units.MM:
        halves = 2 if grid < 1 / 16 else 1
        return f"{_halves_text(_steps(value * MM_PER_INCH * halves, towards), halves)} mm"
    top, bottom = grid.as_integer_ratio()
    steps = _steps(value / grid, towards)
    if bottom > 64:
        return f"{steps * grid:.4f}".rstrip("0").rstrip(".") + " in"
    whole, rest = divmod(abs(steps) * top, bottom)
    sign = "-" if steps < 0 else ""
    if not rest:
        return f"{sign}{whole} in"
    common = math.gcd(rest, bottom)
    fraction = f"{rest // common}/{bottom // common}"
    return f"{sign}{whole} {fraction} in" if whole else f"{sign}{fraction} in"


def _steps(steps: float, towards: Rounding) -> int:
    nearest = math.floor(steps + 0.5)
    if towards is Rounding.NEAREST or abs(steps - nearest) <= 1e-6:
        return nearest
    return math.ceil(steps) if towards is Rounding.UP else math.floor(steps)


def _halves_text(steps: int, halves: int) -> str:
    if halves == 1 or steps % 2 == 0:
        return str(steps // halves)
    return f"{'-' if steps < 0 else ''}{abs(steps) // 2}.5"
