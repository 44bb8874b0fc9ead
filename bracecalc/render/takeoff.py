"""A takeoff for people: what is wrong, what to buy, how to cut it. Terminal and markdown."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator, Sequence

from bracecalc.order.alternates import Alternate
from bracecalc.order.lines import CountedLine, LumberLine
from bracecalc.order.naming import length_text, run_text
from bracecalc.order.order import Order
from bracecalc.order.outcome import Use
from bracecalc.order.pile import natural
from bracecalc.order.tally import Sum, Told, runs_text
from bracecalc.records.job import Units
from bracecalc.render.cut_list import cut_list_text, saw_words
from bracecalc.render.markdown import section_markdown
from bracecalc.render.sections import Block, Grid, Items, Paragraph, Section, SectionCode
from bracecalc.render.takeoff_words import (
    amount_of_wood,
    bundle_words,
    cautions,
    counted,
    mass,
    money,
    percent,
    proof_words,
    rows,
    warnings,
)
from bracecalc.render.text import WIDTH, section_text

MOST_BARS = 60  # in the terminal; a longer cut list goes to a file
MOST_TOLD = 20  # niches not checked that are named here; workbook and JSON have them all


def takeoff_document(order: Order, alternates: Sequence[Alternate] = ()) -> tuple[Section, ...]:
    """Return the sections of a takeoff, what is wrong first; the cut list is beside it."""
    sections = [_summary(order), *_lumber(order), *_counted(order), *_cost(order)]
    sections += [*_side_by_side(order, alternates), *_price_list(order), *_sums(order)]
    sections += [*_failing(order), *_unchecked(order), *_skipped(order)]
    items = tuple(("-", one) for one in cautions(order))
    sections.append(Section(SectionCode.CAUTIONS, "Cautions", (Items(items),)))
    return tuple(sections)


def takeoff_text(order: Order, alternates: Sequence[Alternate] = (), *, width: int = WIDTH) -> str:
    """Return a takeoff for a terminal, as wide as asked; the cut list's bars keep to 80 columns."""
    document = takeoff_document(order, alternates)
    parts = [section_text(section, width=width).lstrip("\n") for section in document]
    alike = sum(len(line.plan.sticks) for line in order.lumber)
    if alike:
        fits = alike <= MOST_BARS
        left_out = f"{alike:,} different bars are too many here: --cut-list FILE writes them."
        said = Paragraph(saw_words(order) if fits else left_out)
        heading = section_text(_saw(said), width=width).lstrip("\n")
        parts.insert(-1, f"{heading}\n\n{cut_list_text(order)}" if fits else heading)
    return "\n\n".join(parts)


def _saw(said: Paragraph) -> Section:
    return Section(SectionCode.CUT_LIST, "Cut list", (said,))


def takeoff_markdown(order: Order, alternates: Sequence[Alternate] = ()) -> str:
    """Return a takeoff as markdown."""
    first, *rest = takeoff_document(order, alternates)
    parts = [section_markdown(first, 1), *(section_markdown(section, 2) for section in rest)]
    if order.lumber:
        saw = section_markdown(_saw(Paragraph(saw_words(order))), 2)
        bars = textwrap.indent(cut_list_text(order), "    ")
        parts.insert(-1, f"{saw}\n{bars}\n")
    return "\n".join(parts)


def _summary(order: Order) -> Section:
    tally = order.tally
    same = (
        f"; {tally.planned:,} worked out, the others are equal to one of these"
        if tally.planned < tally.rows and not tally.skipped
        else ""
    )
    said = f"{counted(tally.total.niches, 'niche')} out of {rows(tally.rows)}{same}."
    blocks: list[Block] = [Paragraph(said)]
    wrong = tuple(("!", one.text) for one in warnings(order))
    if wrong:
        blocks.append(Items(wrong))
    if not order.priced:
        blocks.append(Paragraph("No prices were given (--prices FILE), so there are no costs."))
    return Section(SectionCode.VERDICT, "Takeoff", tuple(blocks))


def _lumber(order: Order) -> Iterator[Section]:
    if not order.lumber:
        yield Section(SectionCode.LUMBER, "Lumber to buy", (Paragraph("None."),))
        return
    waste = percent(float(order.rules.waste))
    headings = ["size", "species", "stick", "cut", "waste", "buy"]
    headings += ["each", "total"] if order.priced else []
    grid = Grid(tuple(headings), tuple(_stick_rows(order)))
    words = [Paragraph(_line_words(order, line)) for line in order.lumber]
    bought = Paragraph(f"To buy is what is cut and {waste} more, in the length most cut.")
    yield Section(SectionCode.LUMBER, "Lumber to buy", (bought, grid, *words))
    blocks = tuple(
        (line.size, line.species, length_text(length, order.rules.units), f"{count:,}")
        for line in order.lumber
        for (use, length), count in sorted(line.pieces.items())
        if use is Use.BLOCKING
    )
    if blocks:
        said = "Between the studs, before the wall is closed; cut from the sticks above."
        grid = Grid(("size", "species", "length", "pieces"), blocks)
        yield Section(SectionCode.BLOCKING, "Solid blocking to build in", (Paragraph(said), grid))


def _stick_rows(order: Order) -> Iterator[tuple[str, ...]]:
    for line in order.lumber:
        for stick in line.sticks:
            bundle = 1 if stick.price is None else stick.price.bundle
            bought = f"{stick.bought:,}"
            if bundle > 1:
                bought = f"{stick.bought // bundle:,} x {bundle}"
            row = [
                line.size,
                line.species,
                line.stick_text(stick.length, order.rules.units),
                f"{stick.count:,}",
                f"{stick.extra:,}" if stick.extra else "-",
                bought,
            ]
            if order.priced and (stick.price is None or stick.cost is None):
                row += ["no price", "-"]
            elif stick.price is not None and stick.cost is not None:
                row += [money(order, stick.price.each), money(order, stick.cost)]
            yield tuple(row)


def _line_words(order: Order, line: LumberLine) -> str:
    pieces = sum(line.pieces.values())
    offcuts = sum(row.count for row in line.plan.sticks if row.stick.on_hand is not None)
    hand = f" and {counted(offcuts, 'offcut')} on hand" if offcuts else ""
    sticks = sum(stick.count for stick in line.sticks)
    wood, heavy = [], []
    for with_waste in (False, True):
        length = line.length(with_waste=with_waste)
        feet, cubic = line.board_feet(length), line.cubic_metres(length)
        wood.append(amount_of_wood(order, feet, cubic))
        heavy.append(mass(order, line.weight(length)))
    said = (
        f"{line.name}: {counted(pieces, 'piece')} out of {counted(sticks, 'stick')}{hand}; "
        f"{wood[0]} ({wood[1]} with waste), {heavy[0]} ({heavy[1]}). "
        f"{proof_words(order, line.plan)} {bundle_words(line)}"
    )
    return said.rstrip()


def _counted(order: Order) -> Iterator[Section]:
    overage = percent(float(order.rules.overage))
    screws = (*order.screws, *order.washers)
    if screws:
        boxes = ", in whole boxes" if any(line.boxes for line in screws) else ""
        said = Paragraph(f"To buy is what is needed and {overage} more{boxes}.")
        yield Section(
            SectionCode.SCREWS_TO_BUY,
            "Screws to buy",
            (said, _counted_grid(order, screws, "screw")),
        )
    if order.sheets:
        said = Paragraph("Laid out in strips, where each first fits; not proven to be the least.")
        yield Section(
            SectionCode.SHEETS, "Sheets to buy", (said, _counted_grid(order, order.sheets, "sheet"))
        )
    if order.shims:
        yield Section(SectionCode.PIECES, "Shims and pieces to buy", (_piece_grid(order),))
    if order.services:
        yield Section(
            SectionCode.SERVICES,
            "Labor and delivery",
            (_counted_grid(order, order.services, "what"),),
        )


def _counted_grid(order: Order, lines: Sequence[CountedLine], what: str) -> Grid:
    boxed = any(line.boxes for line in lines)
    noted = any(line.note for line in lines)
    headings = [what, "needed", "to buy"]
    headings += ["boxes"] if boxed else []
    headings += ["cost"] if order.priced else []
    headings += ["note"] if noted else []
    rows = []
    for line in lines:
        row = [line.name, f"{line.needed:,}", f"{line.bought:,}"]
        if boxed:
            row.append(f"{line.boxes:,} of {line.box:,}" if line.boxes else "-")
        if order.priced:
            row.append("no price" if line.cost is None else money(order, line.cost))
        if noted:
            row.append(line.note)
        rows.append(tuple(row))
    return Grid(tuple(headings), tuple(rows))


def _piece_grid(order: Order) -> Grid:
    units = order.rules.units
    headings = ["piece", "width", "length", "pieces", "total"]
    headings += ["cost"] if order.priced else []
    rows = []
    for line in order.shims:
        width, length = (0 if side is None else side for side in (line.width, line.length))
        row = [line.name, length_text(width, units), length_text(length, units)]
        row += [f"{line.bought:,}", run_text(length * line.bought, units)]
        if order.priced:
            row.append("no price" if line.cost is None else money(order, line.cost))
        rows.append(tuple(row))
    return Grid(tuple(headings), tuple(rows))


def _cost(order: Order) -> Iterator[Section]:
    plain, padded = order.cost(with_waste=False), order.cost(with_waste=True)
    if plain is None or padded is None:
        return
    waste = percent(float(order.rules.waste))
    sums = (
        ("without waste:", money(order, plain)),
        (f"with {waste} waste of lumber:", money(order, padded)),
    )
    blocks: list[Block] = [Items(sums)]
    if order.unpriced:
        blocks.append(Paragraph("No price in the list, and not in these sums:"))
        blocks.append(Items(tuple(("-", name) for name in order.unpriced)))
    yield Section(SectionCode.COST, "Cost", tuple(blocks))


def _side_by_side(order: Order, alternates: Sequence[Alternate]) -> Iterator[Section]:
    if not alternates:
        return
    every = (Alternate("as given", order), *alternates)
    headings = ("", *(one.name for one in every))
    names = ("niches that fail", "boards", "board feet to buy", "screws to buy")
    table = [(name, *(_figures(one.order)[n] for one in every)) for n, name in enumerate(names)]
    if order.priced:
        costs = [one.order.cost(with_waste=True) for one in every]
        shown = ("-" if cost is None else money(order, cost) for cost in costs)
        table.append(("cost with waste", *shown))
        table.append(("lines without a price", *(str(len(one.order.unpriced)) for one in every)))
    yield Section(SectionCode.SIDE_BY_SIDE, "Side by side", (Grid(headings, tuple(table)),))


def _figures(order: Order) -> tuple[str, ...]:
    feet = sum(line.board_feet(line.length(with_waste=True)) for line in order.lumber)
    return (
        f"{order.tally.total.failing:,}",
        f"{order.tally.total.pieces:,}",
        f"{feet:,.1f}",
        f"{sum(line.bought for line in order.screws):,}",
    )


def _price_list(order: Order) -> Iterator[Section]:
    prices = order.rules.prices
    if prices is None:
        return
    blocks: list[Block] = []
    if prices.unread:
        blocks.append(Paragraph("Could not be read, so nothing is priced by them:"))
        lines = tuple(("-", f"row {row.row}: {row.item}: {row.why}") for row in prices.unread)
        blocks.append(Items(lines))
    if order.unknown_rows:
        blocks.append(
            Paragraph("Neither lumber, screws, washers, spacer boards, labor nor delivery:")
        )
        first, more = order.unknown_rows[:MOST_TOLD], order.unknown_rows[MOST_TOLD:]
        lines = tuple(("-", f"row {row}: {prices.items[row]}") for row in first)
        blocks.append(Items((*lines, ("-", f"rows {runs_text(more)}")) if more else lines))
    if order.idle_rows:
        said = f"Read, and not asked for by this order: rows {runs_text(order.idle_rows)}."
        blocks.append(Paragraph(said))
    if blocks:
        yield Section(
            SectionCode.UNUSED_PRICES, "Rows of the price list that are not used", tuple(blocks)
        )


def _sums(order: Order) -> Iterator[Section]:
    total = order.tally.total
    for column, by_label in order.tally.sums.items():
        parts = sorted(by_label.items(), key=lambda item: natural(item[0]))
        named = [(label if label else "(none)", part) for label, part in parts]
        columns = _sum_columns(order)
        table = [
            (label, *(value(part) for _, value in columns))
            for label, part in [*named, ("all", total)]
        ]
        headings = (column, *(heading for heading, _ in columns))
        yield Section(SectionCode.SUMS, f"By {column}", (Grid(headings, tuple(table)),), of=column)
    if order.tally.sums:
        said = "Pieces, not sticks, and the wood of the pieces alone."
        if total.unchecked:
            said += " Open are niches whose tip-over was not fully checked."
        yield Section(SectionCode.SUMS_COUNT, "What the sums count", (Paragraph(said),))


def _sum_columns(order: Order) -> list[tuple[str, Callable[[Sum], str]]]:
    """Return the columns of the sums, without those of what there is none of."""
    total = order.tally.total
    if order.rules.units is Units.MM:
        wood = "m3", lambda part: f"{order.volume_of(part):,.3f}"
    else:
        wood = "bd ft", lambda part: f"{order.board_feet_of(part):,.1f}"
    columns: list[tuple[str, Callable[[Sum], str], bool]] = [
        ("niches", lambda part: f"{part.niches:,}", True),
        ("fail", lambda part: f"{part.failing:,}", True),
        ("open", lambda part: f"{part.unchecked:,}", total.unchecked > 0),
        ("boards", lambda part: f"{part.pieces:,}", True),
        (*wood, True),
        ("blocks", lambda part: f"{part.blocking:,}", total.blocking > 0),
        ("spacers", lambda part: f"{part.packers:,}", total.packers > 0),
        ("screws", lambda part: f"{part.screws:,}", True),
    ]
    return [(heading, value) for heading, value, there in columns if there]


def _told(one: Told) -> tuple[str, str]:
    title = f", {one.title}" if one.title else ""
    alike = f" ({one.niches:,} niches)" if one.niches > 1 else ""
    codes = f": {', '.join(one.codes)}" if one.codes else ""
    return "-", f"{one.where}{title}{alike}{codes}"


def _failing(order: Order) -> Iterator[Section]:
    tally = order.tally
    if not tally.listed:
        return
    blocks: list[Block] = [Items(tuple(map(_told, tally.listed)))]
    more = tally.failing_rows - len(tally.listed)
    if more:
        blocks.append(Paragraph(f"And {more:,} more rows; by finding:"))
        blocks.append(Items(tuple(("-", f"{c}: {n:,} rows") for c, n in tally.codes.most_common())))
    blocks.append(Paragraph("bracecalc plan shows each with its remedy."))
    left_out = ", not in the order" if tally.only_holding else ""
    yield Section(SectionCode.FAILING, f"Niches that fail{left_out}", tuple(blocks))


def _unchecked(order: Order) -> Iterator[Section]:
    tally = order.tally
    if not tally.unchecked:
        return
    blocks: list[Block] = [Items(tuple(map(_told, tally.unchecked[:MOST_TOLD])))]
    more = tally.unchecked_rows - min(MOST_TOLD, len(tally.unchecked))
    if more:
        blocks.append(Paragraph(f"And {more:,} more rows."))
    yield Section(
        SectionCode.UNCHECKED, "Niches whose tip-over was not fully checked", tuple(blocks)
    )


def _skipped(order: Order) -> Iterator[Section]:
    if order.tally.skipped:
        lines = tuple(("-", str(mistake)) for mistake in order.tally.mistake_lines())
        yield Section(
            SectionCode.SKIPPED,
            f"Skipped: {rows(order.tally.skipped)}, not in the order",
            (Items(lines),),
        )
