"""What was added up over all niches, made into an order: sticks, screws, sheets, cost."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace

from bracecalc.order.lines import CountedLine, LumberLine, board_feet, volume
from bracecalc.order.naming import size_key
from bracecalc.order.outcome import Lumber, Use
from bracecalc.order.prices import By, Price, screw_key
from bracecalc.order.rules import OrderRules
from bracecalc.order.sheets import sheets_needed
from bracecalc.order.sticks import Stock, lumber_line
from bracecalc.order.tally import Sum, Tally
from bracecalc.records.reference import PackerKind
from bracecalc.tables.rows import folded
from bracecalc.text.screw_names import counter_name, washer_name


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """All that is bought, what it comes to, and the niches that it is for."""

    tally: Tally
    rules: OrderRules
    lumber: tuple[LumberLine, ...]
    screws: tuple[CountedLine, ...]
    washers: tuple[CountedLine, ...]
    sheets: tuple[CountedLine, ...]
    shims: tuple[CountedLine, ...]
    services: tuple[CountedLine, ...]  # labour, delivery
    unpriced: tuple[str, ...]  # what the price list has no price for
    used_rows: frozenset[int]  # of the price list

    @property
    def counted(self) -> tuple[CountedLine, ...]:
        """All that is not lumber."""
        return (*self.screws, *self.washers, *self.sheets, *self.shims, *self.services)

    @property
    def priced(self) -> bool:
        """Whether there is a price list at all."""
        return self.rules.prices is not None

    @property
    def idle_rows(self) -> tuple[int, ...]:
        """Rows of the price list that were read, and that nothing here is bought by."""
        prices = self.rules.prices
        if prices is None:
            return ()
        unread = {row.row for row in prices.unread}
        return tuple(sorted(set(prices.items) - self.used_rows - unread - set(self.unknown_rows)))

    @property
    def unknown_rows(self) -> tuple[int, ...]:
        """Rows of the price list whose item is nothing that is known here."""
        prices = self.rules.prices
        others = () if prices is None else (price.row for price in prices.others.values())
        return tuple(sorted(set(others) - self.used_rows))

    def cost(self, *, with_waste: bool) -> int | None:
        """Return the sum of all that has a price, smallest coin; None without prices."""
        if not self.priced:
            return None
        lumber = (line.cost_with_waste if with_waste else line.cost for line in self.lumber)
        counted = (line.cost for line in self.counted)
        return sum(cost for cost in (*lumber, *counted) if cost is not None)

    def board_feet_of(self, part: Sum) -> float:
        """Return the net board feet of a sum: its pieces alone, no cutting waste."""
        sections = self.tally.sections
        return sum(board_feet(sections[wood], length) for wood, length in part.lengths.items())

    def volume_of(self, part: Sum) -> float:
        """Return the net volume of a sum in cubic metres: its pieces alone."""
        sections = self.tally.sections
        return sum(volume(sections[wood], length) for wood, length in part.lengths.items())


def make_order(tally: Tally, rules: OrderRules) -> Order:
    """Return the order for everything that was added up.

    Raises:
        JobError: if a piece is longer than every stick that can be had.
    """
    maker = _Maker(tally, rules)
    groups: dict[Lumber, Counter[tuple[Use, int]]] = defaultdict(Counter)
    for (use, lumber, length), count in tally.cuts.items():
        if count:
            groups[lumber][use, length] += count
    lines = tuple(
        lumber_line(groups[wood], Stock(wood, tally.sections[wood], rules, maker.unpriced))
        for wood in sorted(groups, key=lambda wood: (wood.species, size_key(wood.size), wood))
    )
    for line in lines:
        maker.used.update(s.price.row for s in line.sticks if s.price is not None)
    return Order(
        tally=tally,
        rules=rules,
        lumber=lines,
        screws=tuple(maker.screws()),
        washers=tuple(maker.washers()),
        sheets=tuple(maker.sheets()),
        shims=tuple(maker.shims()),
        services=tuple(maker.services()),
        unpriced=tuple(maker.unpriced),
        used_rows=frozenset(maker.used),
    )


class _Maker:
    """Makes the counted lines, and remembers what has no price and which rows are used."""

    def __init__(self, tally: Tally, rules: OrderRules) -> None:
        self.tally = tally
        self.rules = rules
        self.prices = rules.prices
        self.unpriced: list[str] = []
        self.used: set[int] = set()

    def screws(self) -> Iterator[CountedLine]:
        """Yield the screws with what is bought of them beside the need."""
        for (kind, size, length), needed in sorted(self.tally.screws.items()):
            name, price = counter_name(kind, size, length), None
            if self.prices is not None:
                price = self.prices.screws.get(screw_key(kind, size, length))
                price = self.prices.others.get(folded(name)) if price is None else price
            yield from self._counted(name, needed, price, boxed=True)

    def washers(self) -> Iterator[CountedLine]:
        """Yield a washer for each screw that stands on one."""
        for size, needed in sorted(self.tally.washers.items()):
            price = None if self.prices is None else self.prices.washers.get(folded(size))
            yield from self._counted(washer_name(size), needed, price, boxed=True)

    def sheets(self) -> Iterator[CountedLine]:
        """Yield the panels that spacer boards are ripped from, by whole sheets."""
        pieces: dict[str, list[tuple[int, int, int]]] = defaultdict(list)
        for (name, kind, width, length), count in sorted(self.tally.flats.items()):
            if kind is PackerKind.PANEL and count:
                pieces[name].append((width, length, count))
        for name, cut in pieces.items():
            count = sheets_needed(cut, self.rules.saw.kerf)
            price = None if self.prices is None else self.prices.packers.get(name)
            if price is not None and price.by is not By.PIECE:  # sold ripped, by its length
                for width, length, needed in cut:
                    yield from self._by_length(f"{name}, ripped", needed, price, (width, length))
                continue
            said = f"for {sum(one[2] for one in cut):,} spacer boards, ripped to width"
            yield from self._counted(f"{name} sheet, 4 x 8 ft", count, price, note=said, exact=True)

    def shims(self) -> Iterator[CountedLine]:
        """Yield what is bought as it is, by its length."""
        for (name, kind, width, length), needed in sorted(self.tally.flats.items()):
            if kind is PackerKind.PANEL or not needed:
                continue
            price = None if self.prices is None else self.prices.packers.get(name)
            yield from self._by_length(name, needed, price, (width, length))

    def services(self) -> Iterator[CountedLine]:
        """Yield what the list has for labour and delivery."""
        if self.prices is None:
            return
        for name, price in self.prices.services.items():
            each = price.by is By.NICHE
            count = self.tally.total.niches if each else 1
            note = "for each niche" if each else "for the order"
            yield from self._counted(name, count, price, exact=True, note=note)

    def _by_length(
        self, name: str, needed: int, price: Price | None, size: tuple[int, int]
    ) -> Iterator[CountedLine]:
        if price is not None and self.prices is not None and price.by is not By.PIECE:
            price = Price(amount=self.prices.run(price, size[1]), row=price.row)
        yield from self._counted(name, needed, price, exact=True, size=size)

    def _counted(
        self,
        name: str,
        needed: int,
        price: Price | None,
        *,
        boxed: bool = False,
        exact: bool = False,
        size: tuple[int, int] | None = None,
        note: str = "",
    ) -> Iterator[CountedLine]:
        """Yield a line if anything is needed; in boxes where they are sold so."""
        if not needed:
            return
        bought = needed if exact else math.ceil(needed * (1 + self.rules.overage))
        box = self.rules.box if boxed else 0
        if price is not None and price.whole:
            box = price.many
        boxes = -(-bought // box) if box else 0
        line = CountedLine(
            name=name,
            needed=needed,
            bought=bought,
            box=box,
            boxes=boxes,
            width=None if size is None else size[0],
            length=None if size is None else size[1],
            note=note,
        )
        if self.prices is not None and price is not None:
            self.used.add(price.row)
            cost = self.prices.coins(price.amount * line.quantity / price.many)
            line = replace(line, price=price.amount, per=price.many, cost=cost)
        elif self.prices is not None:
            self.unpriced.append(name)
        yield line
