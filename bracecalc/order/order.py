"""What was added up over all niches, made into an order: sticks, screws, packers, cost."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction

from bracecalc.cutting import PER_INCH, CutPlan, CutTask, Piece, Saw, StickKind, plan_cuts
from bracecalc.errors import JobError, Mistake
from bracecalc.order.naming import FOOT, length_text, stick_text
from bracecalc.order.prices import Price, PriceList, screw_key
from bracecalc.order.takeoff import PACKER, Section, Sum, Tally
from bracecalc.records.job import Units
from bracecalc.records.reference import Tables
from bracecalc.text.screw_names import counter_name

STOCK_FEET = (8, 10, 12, 14, 16)
LONGER_FEET = (18, 20, 22, 24)  # where a piece needs it and no lengths were given
OVERAGE = Fraction(10, 100)  # of screws; common practice
WASTE = Fraction(10, 100)  # of sticks spoiled, twisted or split; common practice

Lumber = tuple[str, str]  # species and size, by their names in the tables


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderRules:
    """How the order is made.

    Attributes:
        stock: lengths of stick to cut from, 1/32 in; empty: those with a price, else the usual.
        on_hand: offcuts by (size, species, length in 1/32 in).
        overage: of screws, as a part of those needed.
        waste: of sticks, as a part of those in the cut plan.
        box: screws in a box where the prices name none; 0: not boxed.
        time_limit: seconds for each cut plan.
        units: in which lengths are shown.
    """

    saw: Saw = field(default_factory=Saw)
    stock: tuple[int, ...] = ()
    on_hand: Mapping[tuple[str, str, int], int] = field(default_factory=dict)
    overage: Fraction = OVERAGE
    waste: Fraction = WASTE
    box: int = 0
    time_limit: float = 10.0
    prices: PriceList | None = None
    units: Units = Units.INCH


@dataclass(frozen=True, slots=True, kw_only=True)
class StickLine:
    """Sticks of one length. ``price`` is of one, ``extra`` is bought against waste beside them."""

    length: int
    count: int
    extra: int
    price: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LumberLine:
    """Lumber of one species and size: what to buy, and how to cut it.

    Lengths 1/32 in; board feet by nominal size (DOC PS 20); weight lb, dry.
    """

    species: str
    size: str
    sticks: tuple[StickLine, ...]
    pieces: Mapping[tuple[str, int], int]  # by use and length
    plan: CutPlan
    board_feet: float
    board_feet_with_waste: float
    weight: float
    weight_with_waste: float

    @property
    def cost(self) -> int | None:
        """Cost of the cut plan, smallest coin; None without prices."""
        return self.plan.cost if self.plan.priced and self.sticks_priced else None

    @property
    def cost_with_waste(self) -> int | None:
        """Cost with the extra sticks."""
        if self.cost is None:
            return None
        return self.cost + sum(s.extra * s.price for s in self.sticks if s.price is not None)

    @property
    def sticks_priced(self) -> bool:
        """Whether every length bought has a price."""
        return all(stick.price is not None for stick in self.sticks)


@dataclass(frozen=True, slots=True, kw_only=True)
class CountedLine:
    """Screws or packers: so many needed, so many bought, in boxes where they come so."""

    name: str
    needed: int
    bought: int
    box: int  # pieces in a box; 0 where they are not boxed
    boxes: int
    cost: int | None
    length: int | None = None  # of one packer, 1/32 in


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """All that is bought, what it comes to, and the niches that it is for."""

    tally: Tally
    rules: OrderRules
    lumber: tuple[LumberLine, ...]
    screws: tuple[CountedLine, ...]
    packers: tuple[CountedLine, ...]
    unpriced: tuple[str, ...]  # what the price list has no price for

    @property
    def priced(self) -> bool:
        """Whether there is a price list at all."""
        return self.rules.prices is not None

    def cost(self, *, with_waste: bool) -> int | None:
        """Return the sum of all that has a price, smallest coin; None without prices."""
        if not self.priced:
            return None
        lumber = (line.cost_with_waste if with_waste else line.cost for line in self.lumber)
        counted = (line.cost for line in (*self.screws, *self.packers))
        return sum(cost for cost in (*lumber, *counted) if cost is not None)

    def board_feet_of(self, part: Sum) -> float:
        """Return the net board feet of a sum: its pieces alone, no cutting waste."""
        return sum(
            board_feet(self.tally.sections[lumber], length)
            for lumber, length in part.lengths.items()
        )


def board_feet(section: Section, length: float) -> float:
    """Return board feet: 1 in x 12 in x 1 ft by nominal size.

    Args:
        section: nominal sizes in inches.
        length: 1/32 in.

    Source: DOC PS 20, board measure.

    >>> two_by_four = Section(thickness=1.5, width=3.5, nominal_thickness=2, nominal_width=4,
    ...                       density=27.0)
    >>> round(board_feet(two_by_four, 8 * 12 * 32), 2)
    5.33
    """
    return section.nominal_thickness * section.nominal_width * length / (12 * FOOT)


def weight(section: Section, length: float) -> float:
    """Return the weight of a stick, lb, dry, from its dressed size.

    Args:
        section: dressed sizes in inches, density in lb per cubic foot.
        length: 1/32 in.
    """
    return section.thickness * section.width * (length / PER_INCH) / 1728 * section.density


def make_order(tally: Tally, rules: OrderRules, tables: Tables) -> Order:
    """Return the order for everything that was added up.

    Raises:
        JobError: if a piece is longer than every stick that can be had.
    """
    unpriced: list[str] = []
    groups: dict[Lumber, Counter[tuple[str, int]]] = defaultdict(Counter)
    names: dict[Lumber, Lumber] = {}
    for (use, species, size, length), count in tally.cuts.items():
        if use == PACKER or not count:
            continue
        lumber = _name(species, tables.species), _name(size, tables.lumber)
        names.setdefault(lumber, (species, size))
        groups[lumber][use, length] += count
    lines = tuple(
        _lumber_line(names[lumber], groups[lumber], _Stock(tally, rules, lumber, unpriced))
        for lumber in sorted(groups)
    )
    return Order(
        tally=tally,
        rules=rules,
        lumber=lines,
        screws=tuple(_screw_lines(tally, rules, unpriced)),
        packers=tuple(_packer_lines(tally, rules, tables, unpriced)),
        unpriced=tuple(unpriced),
    )


def _name(name: str, table: Mapping[str, object]) -> str:
    found = table.get(name)
    if found is None:
        return name  # of the job's own table
    return str(getattr(found, "name", getattr(found, "size", name)))


@dataclass(frozen=True, slots=True)
class _Stock:
    """The sticks that one species and size can be cut from."""

    tally: Tally
    rules: OrderRules
    lumber: Lumber
    unpriced: list[str]

    def kinds(self, label: Lumber, longest: int) -> tuple[StickKind, ...]:
        """Return the sticks; what has no price is named and left out, or all go unpriced."""
        species, size = self.lumber
        section = self.tally.sections[label]
        lengths = self.rules.stock
        prices = self.rules.prices
        if not lengths:
            lengths = self._usual(longest) if prices is None else self._priced_or_usual(longest)
        kinds = []
        for length in sorted(lengths):
            price = None
            if prices is not None:
                price = prices.stick(size, species, length, board_feet(section, length))
            kinds.append(StickKind(length=length, price=price))
        if prices is not None:
            kinds = self._name_unpriced(label, kinds)
        offcuts = [
            StickKind(length=length, price=0, on_hand=count)
            for (at, wood, length), count in self.rules.on_hand.items()
            if (at, wood) == (size, species)
        ]
        return (*kinds, *offcuts)

    def _usual(self, longest: int) -> tuple[int, ...]:
        saw = self.rules.saw
        need = longest + (2 * (saw.trim + saw.kerf) if saw.trim else 0)
        longer = LONGER_FEET if need > STOCK_FEET[-1] * FOOT else ()
        return tuple(feet * FOOT for feet in (*STOCK_FEET, *longer))

    def _priced_or_usual(self, longest: int) -> tuple[int, ...]:
        assert self.rules.prices is not None
        species, size = self.lumber
        own = self.rules.prices.stick_lengths(size, species)
        return own if own else self._usual(longest)

    def _name_unpriced(self, label: Lumber, kinds: list[StickKind]) -> list[StickKind]:
        priced = [kind for kind in kinds if kind.price is not None]
        species, size = label
        missing = [kind for kind in kinds if kind.price is None]
        if priced or not kinds:
            self.unpriced.extend(
                f"{size} {species} {stick_text(kind.length, self.rules.units)} (so it is not used)"
                for kind in missing
            )
            return priced
        self.unpriced.append(f"{size} {species}, any length")
        return kinds


def _lumber_line(label: Lumber, pieces: Mapping[tuple[str, int], int], stock: _Stock) -> LumberLine:
    species, size = label
    longest = max(length for _, length in pieces)
    lengths: Counter[int] = Counter()
    for (_, length), count in pieces.items():
        lengths[length] += count
    kinds = stock.kinds(label, longest)
    task = CutTask(
        pieces=tuple(Piece(length=length, count=count) for length, count in lengths.items()),
        sticks=kinds,
        saw=stock.rules.saw,
    )
    try:
        plan = plan_cuts(task, time_limit=stock.rules.time_limit)
    except ValueError:
        raise JobError(_too_long(label, longest, kinds, stock.rules.units)) from None
    section = stock.tally.sections[label]
    sticks = _stick_lines(plan, stock.rules.waste)
    bought = sum(line.length * line.count for line in sticks)
    extra = sum(line.length * line.extra for line in sticks)
    return LumberLine(
        species=species,
        size=size,
        sticks=sticks,
        pieces=dict(pieces),
        plan=plan,
        board_feet=board_feet(section, bought),
        board_feet_with_waste=board_feet(section, bought + extra),
        weight=weight(section, bought),
        weight_with_waste=weight(section, bought + extra),
    )


def _too_long(label: Lumber, longest: int, kinds: Iterable[StickKind], units: Units) -> Mistake:
    species, size = label
    most = max((kind.length for kind in kinds), default=0)
    right = f"{size} {species} sticks of {length_text(longest, units)} or longer, enough of them"
    return Mistake("stock lengths", "", f"{stick_text(most, units)} at most", right)


def _stick_lines(plan: CutPlan, waste: Fraction) -> tuple[StickLine, ...]:
    """Return the sticks bought by length; the waste is bought in the length most bought."""
    counts: Counter[tuple[int, int | None]] = Counter()
    for row in plan.sticks:
        if row.stick.on_hand is None:
            counts[row.stick.length, row.stick.price] += row.count
    extra = math.ceil(sum(counts.values()) * waste)
    most = max(counts, key=lambda key: (counts[key], key[0]), default=None)
    return tuple(
        StickLine(length=key[0], count=count, extra=extra if key == most else 0, price=key[1])
        for key, count in sorted(counts.items(), key=lambda item: item[0][0])
    )


def _screw_lines(tally: Tally, rules: OrderRules, unpriced: list[str]) -> Iterable[CountedLine]:
    for (kind, size, length), needed in sorted(tally.screws.items()):
        if not needed:
            continue
        bought = math.ceil(needed * (1 + rules.overage))
        price = (
            None if rules.prices is None else rules.prices.screws.get(screw_key(kind, size, length))
        )
        name = counter_name(kind, size, length)
        if rules.prices is not None and price is None:
            unpriced.append(name)
        yield _counted(name, (needed, bought), price, rules)


def _packer_lines(
    tally: Tally, rules: OrderRules, tables: Tables, unpriced: list[str]
) -> Iterable[CountedLine]:
    for (use, _, size, length), needed in sorted(tally.cuts.items()):
        if use != PACKER or not needed:
            continue
        price = (
            None if rules.prices is None else rules.prices.packers.get(_name(size, tables.packers))
        )
        name = f"{size} packer" if "shim" not in size else size
        if rules.prices is not None and price is None:
            unpriced.append(name)
        if price is not None and price.by == "foot":
            feet = Decimal(length) / FOOT
            price = Price(amount=price.amount * feet)
        yield _counted(name, (needed, needed), price, rules, length=length)


def _counted(
    name: str,
    numbers: tuple[int, int],
    price: Price | None,
    rules: OrderRules,
    *,
    length: int | None = None,
) -> CountedLine:
    needed, bought = numbers
    box = rules.box if length is None else 0
    if price is not None and price.many > 1:
        box = price.many
    boxes = -(-bought // box) if box else 0
    cost = None
    if price is not None and rules.prices is not None:
        times = boxes if price.many > 1 else (boxes * box if boxes else bought)
        cost = rules.prices.coins(price.amount * times)
    return CountedLine(
        name=name, needed=needed, bought=bought, box=box, boxes=boxes, cost=cost, length=length
    )
