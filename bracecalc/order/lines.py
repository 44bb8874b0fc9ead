"""The lines of an order: sticks, screws, sheets, services, each with what it comes to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from bracecalc.cutting import PER_INCH, CutPlan
from bracecalc.order.items import is_metric
from bracecalc.order.naming import FOOT, stick_text
from bracecalc.order.outcome import Lumber, Section, Use
from bracecalc.order.prices import StickPrice
from bracecalc.records.job import Units

CUBIC_METRES = 0.0254**3  # in a cubic inch


@dataclass(frozen=True, slots=True, kw_only=True)
class StickLine:
    """Sticks of one length: ``count`` are cut, ``extra`` bought against waste beside them."""

    length: int
    count: int
    extra: int
    price: StickPrice | None

    @property
    def bought(self) -> int:
        """Sticks to buy, bundles filled up."""
        wanted = self.count + self.extra
        return wanted if self.price is None else self.price.bundles(wanted) * self.price.bundle

    @property
    def cost(self) -> int | None:
        """What they cost, smallest coin; None without a price."""
        return None if self.price is None else self.price.cost(self.count + self.extra)


@dataclass(frozen=True, slots=True, kw_only=True)
class LumberLine:
    """Lumber of one species and size: what to buy, and how to cut it.

    Lengths 1/32 in; board feet by nominal size (DOC PS 20); weight lb, dry.
    """

    lumber: Lumber
    section: Section
    sticks: tuple[StickLine, ...]
    pieces: Mapping[tuple[Use, int], int]  # by use and length
    plan: CutPlan

    @property
    def species(self) -> str:
        """The species or class as the jobs write it."""
        return self.section.shown or self.lumber.species

    @property
    def size(self) -> str:
        """The size as it is asked for, with its measured size where one was given."""
        measured = self.lumber.measured
        return f"{self.lumber.size} ({measured})" if measured else self.lumber.size

    @property
    def name(self) -> str:
        """Size and species."""
        return f"{self.size} {self.species}"

    def stick_text(self, length: int, units: Units) -> str:
        """Return what a stick of it is called: sections in mm are sold in mm, whatever is shown."""
        return stick_text(length, Units.MM if is_metric(self.lumber.size) else units)

    @property
    def cost(self) -> int | None:
        """Cost of the sticks that are cut, whole bundles; None where one has no price."""
        costs = [
            None if stick.price is None else stick.price.cost(stick.count) for stick in self.sticks
        ]
        known = [cost for cost in costs if cost is not None]
        return sum(known) if len(known) == len(costs) else None

    @property
    def cost_with_waste(self) -> int | None:
        """Cost with the extra sticks."""
        costs = [stick.cost for stick in self.sticks]
        known = [cost for cost in costs if cost is not None]
        return sum(known) if len(known) == len(costs) else None

    def board_feet(self, length: float) -> float:
        """Return the board feet of a length of it, 1/32 in."""
        return board_feet(self.section, length)

    def cubic_metres(self, length: float) -> float:
        """Return the volume of a length of it, 1/32 in."""
        return volume(self.section, length)

    def weight(self, length: float) -> float:
        """Return the weight of a length of it, 1/32 in; lb, dry."""
        return weight(self.section, length)

    def length(self, *, with_waste: bool) -> int:
        """Return the length of all sticks, 1/32 in."""
        return sum(s.length * (s.bought if with_waste else s.count) for s in self.sticks)


@dataclass(frozen=True, slots=True, kw_only=True)
class CountedLine:
    """What is counted: so many needed, so many bought, in boxes where they come so.

    ``width`` and ``length`` (1/32 in) are those of a spacer board or shim.
    """

    name: str
    needed: int
    bought: int
    box: int = 0  # pieces in a box; 0 where they are not boxed
    boxes: int = 0
    price: Decimal | None = None  # as the list has it: for ``per`` of them
    per: int = 1
    cost: int | None = None  # smallest coin, rounded up
    width: int | None = None
    length: int | None = None
    note: str = ""

    @property
    def quantity(self) -> int:
        """How many are paid for: whole boxes where they come so."""
        return self.boxes * self.box if self.boxes else self.bought


def board_feet(section: Section, length: float) -> float:
    """Return board feet: 1 in x 12 in x 1 ft by nominal size.

    Args:
        section: nominal sizes in inches.
        length: 1/32 in.

    Source: DOC PS 20, board measure.

    >>> two_by_four = Section(1.5, 3.5, 2, 4, density=27.0)
    >>> round(board_feet(two_by_four, 8 * 12 * 32), 2)
    5.33
    """
    return section.nominal_thickness * section.nominal_width * length / (12 * FOOT)


def volume(section: Section, length: float) -> float:
    """Return the volume of a stick in cubic metres, from its dressed size.

    Args:
        section: dressed sizes in inches.
        length: 1/32 in.

    >>> section = Section(45 / 25.4, 145 / 25.4, 0.0, 0.0, density=27.0)
    >>> round(volume(section, 4800 / 25.4 * 32), 6)
    0.03132
    """
    return section.thickness * section.width * (length / PER_INCH) * CUBIC_METRES


def weight(section: Section, length: float) -> float:
    """Return the weight of a stick, lb, dry, from its dressed size.

    Args:
        section: dressed sizes in inches, density in lb per cubic foot.
        length: 1/32 in.
    """
    return section.thickness * section.width * (length / PER_INCH) / 1728 * section.density
