"""How sticks, pieces and screws are called, in the units asked for."""

from __future__ import annotations

from bracecalc.cutting import PER_INCH
from bracecalc.records.job import Units
from bracecalc.text.lengths import format_length

FOOT = 12 * PER_INCH


def length_text(length: int, units: Units = Units.INCH) -> str:
    """Return a length of 1/32 in as people write it, the unit with it.

    >>> length_text(1060), length_text(1060, Units.MM)
    ('33 1/8 in', '841.5 mm')
    """
    return format_length(length / PER_INCH, units=units, grid=1 / PER_INCH)


def stick_text(length: int, units: Units = Units.INCH) -> str:
    """Return a stick's length: in feet where they are whole, else in inches; or in mm.

    >>> stick_text(3072), stick_text(2272), stick_text(3072, Units.MM)
    ('8 ft', '71 in', '2438.5 mm')
    """
    if units is Units.INCH and length % FOOT == 0:
        return f"{length // FOOT} ft"
    return length_text(length, units)
