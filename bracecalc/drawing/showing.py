"""How the sheet is to look: paper, units, size of its letters; and lengths as it shows them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bracecalc.drawing.lettering import LEAST, clean
from bracecalc.records.job import Job, Units
from bracecalc.text.lengths import Rounding, format_length


class Paper(StrEnum):
    """Sizes of paper."""

    LETTER = "letter"
    A4 = "a4"

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in points."""
        return (612.0, 792.0) if self is Paper.LETTER else (595.28, 841.89)


class ShownUnits(StrEnum):
    """Units of the lengths on the sheet."""

    INCH = "inch"
    MM = "mm"
    BOTH = "both"


class Shown:
    """Lengths of one job as the sheet shows them, rounded the safe way."""

    __slots__ = ("_grid", "_units")

    def __init__(self, job: Job, units: ShownUnits | None) -> None:
        self._units: tuple[Units, ...] = (job.units,)
        if units is ShownUnits.BOTH:
            self._units = (job.units, Units.MM if job.units is Units.INCH else Units.INCH)
        elif units is not None:
            self._units = (Units(units.value),)
        self._grid = job.rules.rounding

    @property
    def count(self) -> int:
        """Return how many units a length is shown in."""
        return len(self._units)

    @property
    def first(self) -> Units:
        """Return the unit that stands first."""
        return self._units[0]

    def near(self, value: float) -> tuple[str, ...]:
        """Return the nearest mark, a line a unit."""
        return self._lines(value, Rounding.NEAREST)

    def up(self, value: float) -> tuple[str, ...]:
        """Return the next mark up: for what must be at least so much."""
        return self._lines(value, Rounding.UP)

    def down(self, value: float) -> tuple[str, ...]:
        """Return the next mark down: for a margin, or what is at most so much."""
        return self._lines(value, Rounding.DOWN)

    def _lines(self, value: float, towards: Rounding) -> tuple[str, ...]:
        return tuple(
            clean(format_length(value, units=units, grid=self._grid, towards=towards))
            for units in self._units
        )


def beside(lines: tuple[str, ...]) -> str:
    """Return a length on one line, the second unit in brackets.

    >>> beside(("2 in", "51 mm")), beside(("2 in",))
    ('2 in (51 mm)', '2 in')
    """
    first, *others = lines
    return f"{first} ({', '.join(others)})" if others else first


@dataclass(frozen=True, slots=True)
class Room:
    """A part of the page for a view: its left top corner, size, and the size of letters."""

    left: float
    top: float
    width: float
    height: float
    letters: float = LEAST
