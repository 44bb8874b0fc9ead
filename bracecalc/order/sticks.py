"""Lumber of one species and size: which sticks there are, and the cut plan out of them."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from bracecalc.cutting import CutPlan, CutTask, Piece, StickKind, plan_cuts
from bracecalc.errors import JobError, Mistake
from bracecalc.order.lines import LumberLine, StickLine, board_feet
from bracecalc.order.naming import length_text, stick_text
from bracecalc.order.outcome import Lumber, Section, Use
from bracecalc.order.prices import StickKey, StickPrice
from bracecalc.order.rules import OrderRules, sizes


@dataclass(frozen=True, slots=True)
class Stock:
    """The sticks that some lumber can be cut from."""

    lumber: Lumber
    section: Section
    rules: OrderRules
    unpriced: list[str]

    @property
    def name(self) -> str:
        """Size and species as they are asked for."""
        return f"{self.lumber.size} {self.section.shown or self.lumber.species}"

    def price(self, length: int) -> StickPrice | None:
        """Return what a stick of a length costs, by the first of its names that has a price."""
        prices = self.rules.prices
        if prices is None:
            return None
        feet = board_feet(self.section, length)
        for size in sizes(self.lumber, self.section):
            found = prices.stick(StickKey(size, self.lumber.species, length), feet)
            if found is not None:
                return found
        return None

    def lengths(self, longest: int) -> tuple[int, ...]:
        """Return the lengths to cut from: those asked for, those with a price, or the usual."""
        if self.rules.stock:
            return self.rules.stock
        prices = self.rules.prices
        own: set[int] = set()
        if prices is not None:
            for size in sizes(self.lumber, self.section):
                own.update(prices.stick_lengths(size, self.lumber.species))
        return tuple(sorted(own)) if own else self.rules.usual(self.lumber, longest)

    def kinds(self, longest: int) -> tuple[StickKind, ...]:
        """Return the sticks; what has no price is named and left out, or all go unpriced."""
        lengths = sorted(self.lengths(longest))
        priced = [(length, self.price(length)) for length in lengths]
        bought = [
            StickKind(length=length, price=None if price is None else price.each)
            for length, price in priced
        ]
        if self.rules.prices is not None:
            bought = self._name_unpriced(bought)
        names = sizes(self.lumber, self.section)
        offcuts = [
            StickKind(length=key.length, price=0, on_hand=count)
            for key, count in self.rules.on_hand.items()
            if key.size in names and key.species == self.lumber.species
        ]
        return (*bought, *offcuts)

    def _name_unpriced(self, kinds: list[StickKind]) -> list[StickKind]:
        priced = [kind for kind in kinds if kind.price is not None]
        if priced or not kinds:
            self.unpriced.extend(
                f"{self.name} {stick_text(kind.length, self.rules.units)} (so it is not used)"
                for kind in kinds
                if kind.price is None
            )
            return priced
        self.unpriced.append(f"{self.name}, any length")
        return kinds


def lumber_line(pieces: Mapping[tuple[Use, int], int], stock: Stock) -> LumberLine:
    """Return what to buy of some lumber, and how to cut it.

    Raises:
        JobError: if a piece is longer than every stick that can be had.
    """
    longest = max(length for _, length in pieces)
    lengths: Counter[int] = Counter()
    for (_, length), count in pieces.items():
        lengths[length] += count
    kinds = stock.kinds(longest)
    task = CutTask(
        pieces=tuple(Piece(length=length, count=count) for length, count in lengths.items()),
        sticks=kinds,
        saw=stock.rules.saw,
    )
    try:
        plan = plan_cuts(task, time_limit=stock.rules.time_limit)
    except ValueError:
        raise JobError(_too_long(stock, longest, kinds)) from None
    return LumberLine(
        lumber=stock.lumber,
        section=stock.section,
        sticks=_stick_lines(plan, stock, stock.rules.waste),
        pieces=dict(pieces),
        plan=plan,
    )


def _too_long(stock: Stock, longest: int, kinds: Iterable[StickKind]) -> Mistake:
    most = max((kind.length for kind in kinds), default=0)
    units = stock.rules.units
    right = f"{stock.name} sticks of {length_text(longest, units)} or longer, enough of them"
    return Mistake("stock lengths", "", f"{stick_text(most, units)} at most", right)


def _stick_lines(plan: CutPlan, stock: Stock, waste: Fraction) -> tuple[StickLine, ...]:
    """Return the sticks bought by length; the waste is bought in the length most bought."""
    counts: Counter[int] = Counter()
    for row in plan.sticks:
        if row.stick.on_hand is None:
            counts[row.stick.length] += row.count
    extra = math.ceil(sum(counts.values()) * waste)
    most = max(counts, key=lambda length: (counts[length], length), default=None)
    return tuple(
        StickLine(
            length=length,
            count=count,
            extra=extra if length == most else 0,
            price=stock.price(length),
        )
        for length, count in sorted(counts.items())
    )
