"""What a published check is: a printed value, ours beside it, and how the printed one was read."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

SAMPLE = 12  # rows of a sold table that the page reprints


class Mark(StrEnum):
    """How a value came to us. Only the first two count as checks."""

    SEEN = "seen"  # read in the document, or in a scan or page that reproduces it
    SECOND_HAND = "second hand"  # read only where somebody else quotes it
    PROGRAM = "another program"  # worked out by somebody else's program, printed nowhere
    MEMORY = "from memory"  # recalled; needs a look in the document before anybody rests on it

    @property
    def counts(self) -> bool:
        """Whether such a value is a check of ours."""
        return self in (Mark.SEEN, Mark.SECOND_HAND)


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A document, named so that it can be found."""

    name: str  # short, for the list of tables
    document: str  # author, title, publisher, edition, year, address where public
    sold: bool = False  # then the page reprints a sample of its tables, no more


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One printed value beside ours.

    ``step`` is one unit of the last printed digit: half of it is the tolerance. ``differs`` says
    why a value that does not agree is kept; such a row must go on to differ, by less than two
    steps unless it is known to be ``far`` off.
    """

    where: str
    printed: float
    ours: float
    step: float
    mark: Mark
    differs: str = ""
    far: bool = False

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
    """Values of one table or example of a source, and what was put in for ours."""

    name: str
    source: Source
    place: str  # table, page, equation
    read: str  # where it was read
    put_in: str
    unit: str
    checks: tuple[Check, ...]
    kept: bool = False  # a value that the package keeps as it is, not one that it works out
    formula: bool = False  # what is printed is a formula, worked out here for the numbers put in

    def sample(self) -> tuple[Check, ...]:
        """Return what the page may reprint: spread over the table, and every row that differs."""
        if not self.source.sold or len(self.checks) <= SAMPLE:
            return self.checks
        spread = {
            round(k * (len(self.checks) - 1) / (SAMPLE - 1)) for k in range(SAMPLE)
        }  # first and last row among them
        return tuple(
            check for k, check in enumerate(self.checks) if k in spread or not check.agrees
        )
