"""How an order is made: the saw, what there is to cut from, what is bought beside the need."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction

from bracecalc.cutting import Saw
from bracecalc.order.items import is_metric
from bracecalc.order.naming import FOOT
from bracecalc.order.outcome import Lumber, Section
from bracecalc.order.prices import METRE, PriceList, StickKey
from bracecalc.records.job import Units

STOCK_FEET = (8, 10, 12, 14, 16)
LONGER_FEET = (18, 20, 22, 24)  # where a piece needs it and no lengths were given
STOCK_METRES = ("2.4", "3.0", "3.6", "4.2", "4.8", "5.4", "6.0")  # common practice
OVERAGE = Fraction(10, 100)  # of screws; common practice
WASTE = Fraction(10, 100)  # of sticks spoiled, twisted or split; common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderRules:
    """How the order is made.

    Attributes:
        stock: lengths of stick to cut from, 1/32 in; empty: those with a price, else the usual.
        on_hand: offcuts by size, species and length.
        overage: of screws and washers, as a part of those needed.
        waste: of sticks, as a part of those in the cut plan.
        box: screws in a box where the prices name none; 0: not boxed.
        time_limit: seconds for each cut plan.
        units: in which lengths are shown.
    """

    saw: Saw = field(default_factory=Saw)
    stock: tuple[int, ...] = ()
    on_hand: Mapping[StickKey, int] = field(default_factory=dict)
    overage: Fraction = OVERAGE
    waste: Fraction = WASTE
    box: int = 0
    time_limit: float = 10.0
    prices: PriceList | None = None
    units: Units = Units.INCH

    def usual(self, lumber: Lumber, longest: int) -> tuple[int, ...]:
        """Return the lengths that are commonly stocked, the longer ones where a piece needs them.

        Args:
            lumber: what is cut: metric sections come in metres.
            longest: the longest piece, 1/32 in.
        """
        if is_metric(lumber.size):
            return tuple(int(Decimal(metres) * METRE) for metres in STOCK_METRES)
        longer = LONGER_FEET if longest > self.room(STOCK_FEET[-1] * FOOT) else ()
        return tuple(feet * FOOT for feet in (*STOCK_FEET, *longer))

    def room(self, stick: int) -> int:
        """Return the longest piece that a stick gives once its ends are trimmed, 1/32 in."""
        return stick - (2 * (self.saw.trim + self.saw.kerf) if self.saw.trim else 0)

    def longest_piece(self, lumber: Lumber, section: Section) -> int:
        """Return the longest piece that can be had of some lumber, 1/32 in."""
        lengths = self.stock
        if not lengths and self.prices is not None:
            lengths = tuple(
                length
                for size in sizes(lumber, section)
                for length in self.prices.stick_lengths(size, lumber.species)
            )
        if not lengths:
            lengths = self.usual(lumber, LONGER_FEET[-1] * FOOT)
        offcuts = (
            key.length
            for key in self.on_hand
            if key.size in sizes(lumber, section) and key.species == lumber.species
        )
        return self.room(max((*lengths, *offcuts)))


def sizes(lumber: Lumber, section: Section) -> tuple[str, ...]:
    """Return the names by which lumber may have a price: its own, and that of the table.

    A measured board is the stick of its size; a metric section is another stick.

    >>> plain = Section(1.5, 3.5, 2.0, 4.0, 29.0, table_size="2x4")
    >>> sizes(Lumber("C24", "38x89"), plain), sizes(Lumber("Hem-Fir", "2x4"), plain)
    (('38x89', '2x4'), ('2x4',))
    """
    return tuple(dict.fromkeys((lumber.size, section.table_size or lumber.size)))
