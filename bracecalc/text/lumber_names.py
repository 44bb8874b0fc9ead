"""What a piece of lumber is called by its measured section."""

from __future__ import annotations

from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import Units
from bracecalc.text.lengths import format_length

PER_INCH = 32  # a section is told in 1/32 in


def section_name(thickness: float, width: float, units: Units) -> str:
    """Return what a section is called by its size; from inches.

    >>> section_name(45 / 25.4, 145 / 25.4, Units.MM)
    '45x145'
    >>> section_name(1.5, 5.25, Units.INCH)
    '1 1/2 x 5 1/4 in'
    """
    if units is Units.MM:
        return "x".join(f"{round(side * MM_PER_INCH, 1):g}" for side in (thickness, width))
    thick, wide = (format_length(side, grid=1 / PER_INCH) for side in (thickness, width))
    return f"{thick.removesuffix(' in')} x {wide}"
