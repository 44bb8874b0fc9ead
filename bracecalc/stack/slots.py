"""Ways to screw one stud, and what one pound on it uses of each part."""

from __future__ import annotations

from typing import NamedTuple

from bracecalc.mechanics.nds.spacing import Place
from bracecalc.records.reference import ScrewSize
from bracecalc.records.scheme import Part
from bracecalc.stack.screws import Choice


class Slot(NamedTuple):
    """Screws of one size in so many rows on one stud, with those of the covered boards.

    ``seated`` are the lengths that sit, shortest first. ``number`` tells the slots of one make
    apart.
    """

    number: int
    size: ScrewSize
    rows: int
    counterbore: float
    covered: tuple[Choice, ...]  # from the wall outward
    seated: tuple[Choice, ...]
    end: float  # greatest end distance among them, in
    places: tuple[Place, ...] | None  # outermost board's first; None where they have no room
    heights: tuple[float, ...]  # of the outermost board's rows above its underside, in


class PerPound(NamedTuple):
    """Utilisations for one pound on a stud, for load duration factor 1.

    ``lasting`` grow with force over duration, ``steady`` with the force alone: the NDS raises no
    compression across the grain, nor a finish.
    """

    screws: float
    lasting: dict[Part, float]
    steady: dict[Part, float]
    most_lasting: float
    most_steady: float


class Rated(NamedTuple):
    """A slot with its longest screw, and what one pound uses of each part with it."""

    slot: Slot
    screws: float
    lasting: float
    steady: float
    published: bool

    def use(self, over_duration: float, over_published: float, force: float) -> float:
        """Return the use of screws and of what is pressed, for one pound of share."""
        on_screws = over_published if self.published else over_duration
        return max(on_screws * self.screws, over_duration * self.lasting, force * self.steady)
