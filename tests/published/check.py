"""What a published check is: the value printed, ours, and how the printed one was read."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Mark(StrEnum):
    """How a value came to us."""

    SEEN = "seen"  # read in the document, or in a scan or page that reproduces it
    SECOND_HAND = "second hand"  # read only where somebody else quotes it
    MEMORY = "from memory"  # recalled; needs a look in the document before anybody rests on it


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One printed value beside ours.

    ``step`` is one unit of the last printed digit: half of it is the tolerance. ``differs`` says
    why a value that does not agree is kept; such a row must go on to differ.
    """

    where: str
    printed: float
    ours: float
    step: float
    mark: Mark
    differs: str = ""

    @property
    def difference(self) -> float:
        """Ours less the printed value."""
        return self.ours - self.printed

    @property
    def agrees(self) -> bool:
        """Whether ours rounds to the printed value."""
        return abs(self.difference) <= self.step / 2.0 + 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Checks of one table or example, with its full reference and what was put in."""

    name: str
    reference: str
    put_in: str
    unit: str
    checks: tuple[Check, ...]
