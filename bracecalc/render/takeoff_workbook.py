"""A takeoff as an XLSX workbook: an order that can be sent as it is. Live formulas, real numbers.

The first sheet says what it is for and what is wrong; the order is sorted as a yard's counter
sorts it; a price, a count, the waste or the overage can be changed, and the sums follow.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bracecalc import __version__
from bracecalc.order.alternates import Alternate
from bracecalc.order.lines import CountedLine, LumberLine, StickLine
from bracecalc.order.naming import length_text
from bracecalc.order.order import Order
from bracecalc.order.pile import natural
from bracecalc.order.tally import Sum
from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import Units
from bracecalc.render.cut_list import bars, saw_words
from bracecalc.render.takeoff_data import HEADINGS, amount, buy_rows
from bracecalc.render.takeoff_words import (
    amount_of_wood,
    cautions,
    mass,
    percent,
    price_list_lines,
    proof_words,
    warnings,
)
from bracecalc.render.workbook import (
    Cell,
    Formula,
    Head,
    Number,
    Page,
    Warn,
    address,
    workbook_bytes,
)

COUNTS = "#,##0"
WASTE_AT, OVERAGE_AT = "Summary!$B$8", "Summary!$B$9"
ORDER_HEADINGS = (
    "item", "size", "species", "length", "needed", "against waste", "to buy", "sold by", "packs",
    "price", "price is for", "cost", "cost without waste", "note",
)  # fmt: skip
(ITEM, SIZE, SPECIES, LENGTH, NEEDED, EXTRA, BUY, PACK, PACKS, PRICE, PER, COST, PLAIN, NOTE) = (
    range(len(ORDER_HEADINGS))
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """What the first sheet says of the order itself."""

    project: str
    date: datetime.date


def takeoff_workbook(order: Order, heading: Heading, alternates: Sequence[Alternate] = ()) -> bytes:
    """Return the workbook's bytes.

    Raises:
        ImportError: if xlsxwriter, of the extra ``takeoff``, is not installed.
    """
    buying = _Buying(order)
    rows = buying.page()  # first: the summary adds its columns up
    pages = [_summary(order, heading, buying, alternates), rows, _cut_list(order), _parts(order)]
    if order.tally.sums:
        pages.append(_sums(order))
    pages += [*_told(order), _notes(order), _plain(order)]
    footer = f"bracecalc {__version__}, {heading.date.isoformat()}"
    return workbook_bytes(
        pages, units=order.rules.units, title=f"Order: {heading.project}", footer=footer
    )


class _Buying:
    """The sheet of the order, with where its columns and its lumber stand."""

    def __init__(self, order: Order) -> None:
        self.order = order
        self.money = "#,##0" + ("." + "0" * self._decimals if self._decimals else "")
        self.last = 1

    @property
    def _decimals(self) -> int:
        prices = self.order.rules.prices
        return 2 if prices is None else prices.decimals

    def page(self) -> Page:
        """Return the sheet; each row's sums hang on its own cells."""
        rows: list[Sequence[Cell]] = [list(ORDER_HEADINGS)]
        for line in self.order.lumber:
            rows += self._sticks(len(rows), line)
        counted = (
            *((line, False) for line in self.order.sheets),
            *((line, True) for line in (*self.order.screws, *self.order.washers)),
            *((line, False) for line in (*self.order.shims, *self.order.services)),
        )
        for one, more in counted:
            rows.append(self._counted(len(rows), one, more=more))
        self.last = len(rows)
        if self.order.priced:
            rows.append(self._total())
        counts = dict.fromkeys((NEEDED, EXTRA, BUY, PACK, PACKS, PER), COUNTS)
        amounts = {PRICE: "#,##0.00##", COST: self.money, PLAIN: self.money}
        numbers = frozenset((NEEDED, EXTRA, BUY, PACK, PACKS, PRICE, PER, COST, PLAIN))
        return Page("Order", rows, {**counts, **amounts}, frozenset((ITEM, NOTE)), numbers)

    def _sticks(self, first: int, line: LumberLine) -> Iterator[list[Cell]]:
        """Yield a row for each length; the waste is bought in the length most bought."""
        block = address(first, NEEDED), address(first + len(line.sticks) - 1, NEEDED)
        waste = f"=ROUNDUP(ROUND(SUM({':'.join(block)})*{WASTE_AT},6),0)"
        most = max(line.sticks, key=lambda stick: (stick.count, stick.length), default=None)
        for at, stick in enumerate(line.sticks, start=first):
            cells = self._stick(at, line, stick)
            cells[EXTRA] = Formula(waste, stick.extra) if stick is most else 0
            yield cells

    def _stick(self, at: int, line: LumberLine, stick: StickLine) -> list[Cell]:
        bundle = 1 if stick.price is None else stick.price.bundle
        cells: list[Cell] = [None] * len(ORDER_HEADINGS)
        cells[ITEM], cells[SIZE], cells[SPECIES] = "lumber", line.size, line.species
        cells[LENGTH] = line.stick_text(stick.length, self.order.rules.units)
        cells[NEEDED], cells[PACK] = stick.count, bundle
        cells[BUY] = Formula(f"={address(at, PACKS)}*{address(at, PACK)}", stick.bought)
        wanted = f"{address(at, NEEDED)}+{address(at, EXTRA)}"
        cells[PACKS] = Formula(
            f"=ROUNDUP(({wanted})/{address(at, PACK)},0)", stick.bought // bundle
        )
        if stick.price is not None:
            price = stick.price.bundle_price if bundle > 1 else stick.price.each
            cells[PRICE], cells[PER] = amount(self.order, price), bundle
            self._costs(cells, at, stick.cost, stick.price.cost(stick.count))
        elif self.order.priced:
            cells[NOTE] = "NO PRICE: not in the sums"
        return cells

    def _counted(self, at: int, line: CountedLine, *, more: bool) -> list[Cell]:
        cells: list[Cell] = [None] * len(ORDER_HEADINGS)
        units = self.order.rules.units
        cells[ITEM] = line.name
        sides = [length_text(side, units) for side in (line.width, line.length) if side is not None]
        cells[LENGTH] = " x ".join(sides) if sides else None
        cells[NEEDED], cells[PACK] = line.needed, line.box if line.boxes else 1
        cells[EXTRA] = 0
        if more:
            text = f"=ROUNDUP(ROUND({address(at, NEEDED)}*(1+{OVERAGE_AT}),6),0)"
            cells[EXTRA] = Formula(f"{text}-{address(at, NEEDED)}", line.bought - line.needed)
        wanted = f"{address(at, NEEDED)}+{address(at, EXTRA)}"
        packs = line.boxes if line.boxes else line.bought
        cells[PACKS] = Formula(f"=ROUNDUP(({wanted})/{address(at, PACK)},0)", packs)
        cells[BUY] = Formula(f"={address(at, PACKS)}*{address(at, PACK)}", line.quantity)
        notes = [line.note] if line.note else []
        if line.price is not None:
            cells[PRICE], cells[PER] = float(line.price), line.per
            self._costs(cells, at, line.cost, line.cost)
        elif self.order.priced:
            notes.append("NO PRICE: not in the sums")
        cells[NOTE] = "; ".join(notes) if notes else None
        return cells

    def _costs(self, cells: list[Cell], at: int, cost: int | None, plain: int | None) -> None:
        each = f"{address(at, PRICE)}/{address(at, PER)}"
        for place, bought, coins in (
            (COST, address(at, BUY), cost),
            (PLAIN, self._without(cells, at), plain),
        ):
            text = f"=ROUNDUP(ROUND({bought}*{each},6),{self._decimals})"
            value = amount(self.order, coins)
            cells[place] = Formula(text, 0.0 if value is None else value)

    def _without(self, cells: list[Cell], at: int) -> str:
        """Return what is bought without waste; the overage of screws is bought all the same."""
        if cells[SIZE] is None:
            return address(at, BUY)
        pack = address(at, PACK)
        return f"ROUNDUP({address(at, NEEDED)}/{pack},0)*{pack}"

    def _total(self) -> list[Cell]:
        cells: list[Cell] = [None] * len(ORDER_HEADINGS)
        cells[ITEM] = Head("total of what has a price")
        for place, with_waste in ((COST, True), (PLAIN, False)):
            value = amount(self.order, self.order.cost(with_waste=with_waste))
            cells[place] = Formula(f"=SUM({self.column(place)})", 0.0 if value is None else value)
        return cells

    def column(self, place: int) -> str:
        """Return the cells of a column, all rows of the order."""
        return f"{address(1, place)}:{address(max(1, self.last - 1), place)}"


def _summary(
    order: Order, heading: Heading, buying: _Buying, alternates: Sequence[Alternate]
) -> Page:
    prices = order.rules.prices
    tally = order.tally
    rows: list[Sequence[Cell]] = [
        [Head(heading.project)],
        ["date", heading.date.isoformat()],
        ["made by", f"bracecalc {__version__}"],
        ["price list", "none given: no costs" if prices is None else prices.where],
        ["currency", "" if prices is None else prices.currency],
        ["niches", tally.total.niches],
        ["rows and job files", tally.rows],
        ["waste of sticks (change it here)", Number(float(order.rules.waste), "0.##%")],
        ["more screws (change it here)", Number(float(order.rules.overage), "0.##%")],
    ]
    if order.priced:
        for name, place, with_waste in (
            ("cost with waste", COST, True),
            ("cost without waste", PLAIN, False),
        ):
            value = amount(order, order.cost(with_waste=with_waste))
            text = f"=SUM(Order!{buying.column(place)})"
            rows.append([name, Formula(text, 0.0 if value is None else value, buying.money)])
    told = warnings(order)
    if told:
        rows += [[], [Warn("Look at this before you order")]]
        rows += [[Warn(one.text)] for one in told]
    rows += [[], *_sum_blocks(order), *_beside(order, alternates)]
    rows += [[Head("Bear in mind")], *([text] for text in cautions(order))]
    formats = dict.fromkeys(range(1, 9), "#,##0.##")
    return Page("Summary", rows, formats, right=frozenset(range(1, 9)), titled=False)


def _sum_headings(order: Order) -> list[Cell]:
    wood = "cubic metres" if order.rules.units is Units.MM else "board feet"
    names = ("niches", "failing", "not checked", "boards", wood, "blocks", "spacers", "screws")
    return list(names)


def _sum_row(order: Order, part: Sum) -> list[Cell]:
    metric = order.rules.units is Units.MM
    wood = order.volume_of(part) if metric else order.board_feet_of(part)
    counts = (part.niches, part.failing, part.unchecked, part.pieces)
    measure = Number(wood, "#,##0.000" if metric else "#,##0.0")
    return [*counts, measure, part.blocking, part.packers, part.screws]


def _sum_blocks(order: Order) -> Iterator[Sequence[Cell]]:
    for column in ("building", "floor"):
        by_label = order.tally.sums.get(column)
        if by_label is None:
            continue
        yield [Head(f"by {column}"), *map(Head, _sum_headings(order))]
        for label in sorted(by_label, key=natural):
            yield [label if label else "(none)", *_sum_row(order, by_label[label])]
        yield []


def _beside(order: Order, alternates: Sequence[Alternate]) -> Iterator[Sequence[Cell]]:
    if not alternates:
        return
    every = (Alternate("as given", order), *alternates)
    yield [Head("side by side"), *(Head(one.name) for one in every)]
    yield ["niches that fail", *(one.order.tally.total.failing for one in every)]
    yield ["boards", *(one.order.tally.total.pieces for one in every)]
    if order.priced:
        costs = (amount(one.order, one.order.cost(with_waste=True)) for one in every)
        money = "#,##0.00"
        yield ["cost with waste", *(Number(cost or 0.0, money) for cost in costs)]
    yield []


def _cut_list(order: Order) -> Page:
    rows: list[Sequence[Cell]] = [
        ["lumber", "sticks", "from", "cut alike", "pieces, longest first", "left over"]
    ]
    for line in order.lumber:
        for bar in bars(line, order.rules.units):
            source = line.stick_text(bar.stick.stick.length, order.rules.units)
            on_hand = " offcut on hand" if bar.stick.stick.on_hand is not None else ""
            numbers = bar.numbers.removeprefix("sticks ").removeprefix("stick ")
            row = [line.name, numbers, f"{source}{on_hand}", bar.stick.count]
            rows.append([*row, bar.cuts, bar.left_over])
    return Page("Cut list", rows, {3: COUNTS}, frozenset((4,)), frozenset((3,)))


def _parts(order: Order) -> Page:
    tally, units = order.tally, order.rules.units
    rows: list[Sequence[Cell]] = [[*tally.columns, "size", "species", "use", "length", "pieces"]]
    for part in sorted(tally.parts, key=lambda labels: [natural(label) for label in labels]):
        place = list(tally.part_labels(part).values())
        for (use, wood, length), count in sorted(tally.parts[part].items()):
            size = f"{wood.size} ({wood.measured})" if wood.measured else wood.size
            what = [size, tally.sections[wood].shown, use.value, length_text(length, units)]
            rows.append([*place, *what, count])
    last = len(rows[0]) - 1
    return Page("Pieces by part", rows, {last: COUNTS}, right=frozenset((last,)))


def _sums(order: Order) -> Page:
    rows: list[Sequence[Cell]] = [["by", "what", *_sum_headings(order)]]
    for column, by_label in order.tally.sums.items():
        for label in sorted(by_label, key=natural):
            rows.append([column, label, *_sum_row(order, by_label[label])])
    rows.append(["", "all", *_sum_row(order, order.tally.total)])
    numbers = range(2, len(rows[0]))
    return Page("Sums", rows, dict.fromkeys(numbers, COUNTS), right=frozenset(numbers))


def _told(order: Order) -> Iterator[Page]:
    tally = order.tally
    for name, told in (("Fails", tally.listed), ("Not checked", tally.unchecked)):
        if told:
            rows: list[Sequence[Cell]] = [["where", "niche", "niches", "findings that fail"]]
            rows += [[one.where, one.title, one.niches, ", ".join(one.codes)] for one in told]
            yield Page(name, rows, wrapped=frozenset((3,)))
    for name, lines in (
        ("Skipped", [str(mistake) for mistake in tally.mistake_lines()]),
        ("Prices not used", list(price_list_lines(order))),
    ):
        if lines:
            yield Page(name, [["what"], *([line] for line in lines)], wrapped=frozenset((0,)))


def _notes(order: Order) -> Page:
    rows: list[Sequence[Cell]] = [["notes"]]
    for line in order.lumber:
        rows.append([f"{line.name}: {proof_words(order, line.plan)}"])
        for with_waste, said in ((False, "cut"), (True, "with waste")):
            length = line.length(with_waste=with_waste)
            wood = amount_of_wood(order, line.board_feet(length), line.cubic_metres(length))
            rows.append([f"{line.name}, {said}: {wood}, {mass(order, line.weight(length))} dry."])
    rows.append([saw_words(order)])
    rows.append([f"Waste {percent(float(order.rules.waste))} of sticks, common practice."])
    rows += [[f"No price in the list for {name}; not in the sums."] for name in order.unpriced]
    rows += [[text] for text in cautions(order)]
    return Page("Notes", rows, wrapped=frozenset((0,)))


def _plain(order: Order) -> Page:
    """Return plain rows for another program: no formulas, one kind of value in a column."""
    names = [name for name in HEADINGS if name != "what"]
    metric = order.rules.units is Units.MM
    shown = ["length_mm" if metric and name == "length_in" else name for name in names]
    rows: list[Sequence[Cell]] = [shown]
    for row in buy_rows(order):
        cells = [row.get(name) for name in names]
        length = cells[names.index("length_in")]
        if metric and isinstance(length, float):
            cells[names.index("length_in")] = round(length * MM_PER_INCH, 1)
        rows.append(cells)
    return Page("Import", rows)
