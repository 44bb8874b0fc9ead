"""How screws are asked for at the counter: one name for plan, sheet, site and order."""

from __future__ import annotations

from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.reference import ScrewKind
from bracecalc.text.lengths import format_length

PUBLISHED = "screw"  # an item with its maker's values


def counter_kind(kind: ScrewKind) -> str:
    """Return what kind of screw is asked for.

    >>> counter_kind(ScrewKind.LAG), counter_kind(ScrewKind.PUBLISHED)
    ('lag screw', 'screw')
    """
    return PUBLISHED if kind is ScrewKind.PUBLISHED else kind.value


def counter_size(kind: str, size: str) -> str:
    """Return a size as people say it: a number size with its "No.".

    >>> counter_size("wood screw", "12"), counter_size("wood screw", "5 mm")
    ('No. 12', '5 mm')
    """
    numbered = kind == ScrewKind.WOOD.value and not _millimetres(size)
    return f"No. {size}" if numbered else size


def counter_name(kind: str, size: str, length: float) -> str:
    """Return a screw as people ask for it: metric ones in mm, others in inches.

    >>> counter_name("wood screw", "10", 3.0), counter_name("coach screw", "8 mm", 80 / 25.4)
    ('No. 10 x 3 in wood screw', '8 mm x 80 mm coach screw')
    >>> counter_name("screw", "Timber 6 in", 6.0), counter_name("screw", "for 8 mm plates", 6.0)
    ('Timber 6 in x 6 in', 'for 8 mm plates x 6 in')
    """
    long = f"{round(length * MM_PER_INCH)} mm" if _millimetres(size) else format_length(length)
    name = f"{counter_size(kind, size)} x {long}"
    return name if kind == PUBLISHED else f"{name} {kind}"  # a maker's name says what it is


def washer_name(size: str) -> str:
    """Return the washer of a screw as people ask for it.

    >>> washer_name("1/4"), washer_name("8 mm")
    ('1/4 in washer', '8 mm washer')
    """
    return f"{size} washer" if _millimetres(size) else f"{size} in washer"


def _millimetres(size: str) -> bool:
    """Return whether a size of the tables is written in millimetres: that is its name."""
    return size.endswith(" mm")
