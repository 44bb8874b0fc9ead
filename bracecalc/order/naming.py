"""How sticks, pieces and screws are called, in the units asked for."""

from __future__ import annotations

from bracecalc.cutting import PER_INCH
from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import Units
from bracecalc.text.lengths import Rounding, format_length

FOOT = 12 * PER_INCH
ROUND_MM = 50  # what metric sticks are sold by


def length_text(length: int, units: Units = Units.INCH, *, down: bool = False) -> str:
    """Return a length of 1/32 in as people write it, the unit with it.

    >>> length_text(1060), length_text(1060, Units.MM)
    ('33 1/8 in', '841.5 mm')
    """
    towards = Rounding.DOWN if down else Rounding.NEAREST
    return format_length(length / PER_INCH, units=units, grid=1 / PER_INCH, towards=towards)


def stick_text(length: int, units: Units = Units.INCH) -> str:
    """Return a stick's length: in feet where they are whole, else in inches; or in mm.

    Sticks are rounded down to 1/32 in: one that is sold at a round length in mm is called by it.

    >>> stick_text(3072), stick_text(2272), stick_text(3072, Units.MM)
    ('8 ft', '71 in', '2438.5 mm')
    >>> stick_text(3023, Units.MM)
    '2400 mm'
    """
    if units is Units.INCH and length % FOOT == 0:
        return f"{length // FOOT} ft"
    if units is Units.MM:
        exact = length / PER_INCH * MM_PER_INCH
        sold = ROUND_MM * round(exact / ROUND_MM)
        if 0.0 <= sold - exact < MM_PER_INCH / PER_INCH:
            return f"{sold} mm"
    return length_text(length, units)


def run_text(length: float, units: Units) -> str:
    """Return a length that is bought, in feet or metres.

    >>> run_text(3072, Units.INCH), run_text(3072, Units.MM)
    ('8.0 ft', '2.44 m')
    """
    if units is Units.MM:
        return f"{length / PER_INCH * MM_PER_INCH / 1000:,.2f} m"
    return f"{length / FOOT:,.1f} ft"


def size_key(size: str) -> tuple[float, float]:
    """Return what sorts sizes as a yard's counter does: 2x4 before 2x10.

    >>> sorted(["2x10", "1x4", "2x4"], key=size_key)
    ['1x4', '2x4', '2x10']
    """
    thick, _, wide = size.partition("x")
    try:
        return float(thick), float(wide)
    except ValueError:
        return 0.0, 0.0
