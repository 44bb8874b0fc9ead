"""A takeoff for people: what to buy, how to cut it, what fails. Terminal and markdown."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from bracecalc.cutting import PER_INCH, CutPlan
from bracecalc.order.naming import FOOT, length_text, stick_text
from bracecalc.order.order import LumberLine, Order
from bracecalc.order.takeoff import BLOCKING, Sum
from bracecalc.records.job import Units
from bracecalc.render.cut_list import cut_list_text, saw_words
from bracecalc.render.document import Block, Grid, Items, Paragraph, Section
from bracecalc.render.markdown import section_markdown
from bracecalc.render.text import section_text

MOST_BARS = 60  # in the terminal; a longer cut list goes to a file
CAUTIONS = (
    "Where studs are given by spacing alone, strength counts the sure number, and screws to buy "
    "the best case.",
    "Weights are of dry lumber. Shop prices change; look at the list's date.",
    "An order is not an approval: local codes, the unit's own instructions and licensed trades "
    "come first.",
)
CUT_TO_THE_END = (
    "Some sticks are used up to the last cut: measure them before you start, and give --end-trim "
    "where the ends are not square."
)


def money(order: Order, coins: int) -> str:
    """Return an amount of the smallest coin as people write it, with its currency."""
    prices = order.rules.prices
    if prices is None:
        raise ValueError("an order without prices has no amounts")
    whole, rest = divmod(coins, 10**prices.decimals)
    decimals = f".{rest:0{prices.decimals}}" if prices.decimals else ""
    return f"{whole:,}{decimals} {prices.currency}"


def percent(part: float) -> str:
    """Return a part of one in percent.

    >>> percent(0.1), percent(0.0017)
    ('10 %', '0.17 %')
    """
    return f"{100 * part:.2f}".rstrip("0").rstrip(".") + " %"


def takeoff_document(order: Order) -> tuple[Section, ...]:
    """Return the sections of a takeoff, the order first; the cut list is beside it."""
    sections = [_summary(order), *_lumber(order), *_counted(order), *_cost(order)]
    sections += [*_sums(order), *_failing(order), *_skipped(order)]
    items = tuple(("-", one) for one in cautions(order))
    sections.append(Section("Cautions", (Items(items),)))
    return tuple(sections)


def cautions(order: Order) -> tuple[str, ...]:
    """Return what the reader must bear in mind."""
    full = any(not row.left_over for line in order.lumber for row in line.plan.sticks)
    return (*CAUTIONS, CUT_TO_THE_END) if full and not order.rules.saw.trim else CAUTIONS


def takeoff_text(order: Order) -> str:
    """Return a takeoff for a terminal, 80 columns."""
    parts = [section_text(section).lstrip("\n") for section in takeoff_document(order)]
    alike = sum(len(line.plan.sticks) for line in order.lumber)
    if alike:
        fits = alike <= MOST_BARS
        left_out = f"{alike:,} different bars are too many here: --cut-list FILE writes them."
        said = Paragraph(saw_words(order) if fits else left_out)
        heading = section_text(Section("Cut list", (said,))).lstrip("\n")
        parts.insert(-1, f"{heading}\n\n{cut_list_text(order)}" if fits else heading)
    return "\n\n".join(parts)


def takeoff_markdown(order: Order) -> str:
    """Return a takeoff as markdown."""
    first, *rest = takeoff_document(order)
    parts = [section_markdown(first, 1), *(section_markdown(section, 2) for section in rest)]
    if order.lumber:
        saw = section_markdown(Section("Cut list", (Paragraph(saw_words(order)),)), 2)
        bars = textwrap.indent(cut_list_text(order), "    ")
        parts.insert(-1, f"{saw}\n{bars}\n")
    return "\n".join(parts)


def counted(number: int, what: str) -> str:
    """Return a number with its thing in one or many.

    >>> counted(1, "niche"), counted(1200, "niche")
    ('1 niche', '1,200 niches')
    """
    return f"{number:,} {what}" if number == 1 else f"{number:,} {what}s"


def _summary(order: Order) -> Section:
    tally = order.tally
    same = (
        f"; {tally.planned:,} worked out, the others are equal to one of these"
        if tally.planned < tally.rows and not tally.skipped
        else ""
    )
    niches = counted(tally.total.niches, "niche")
    blocks: list[Block] = [Paragraph(f"{niches} out of {_rows(tally.rows)}{same}.")]
    if tally.total.failing:
        blocks.append(
            Paragraph(
                f"{_fail(tally.total.failing)}: listed below. What could be worked out for them "
                "is in the order; mend them before you buy."
            )
        )
    if tally.close:
        blocks.append(Paragraph(f"{counted(tally.close, 'niche')} hold only if measured closely."))
    if tally.skipped:
        blocks.append(
            Paragraph(
                f"{_rows(tally.skipped)} skipped for mistakes: listed below, NOT in the order."
            )
        )
    if not order.priced:
        blocks.append(Paragraph("No prices were given (--prices FILE), so there are no costs."))
    return Section("Takeoff", tuple(blocks))


def _rows(number: int) -> str:
    return "1 row or job file" if number == 1 else f"{number:,} rows or job files"


def _fail(number: int) -> str:
    return "1 niche fails" if number == 1 else f"{number:,} niches fail"


def _lumber(order: Order) -> Iterator[Section]:
    if not order.lumber:
        yield Section("Lumber to buy", (Paragraph("None."),))
        return
    waste = percent(float(order.rules.waste))
    headings = ["size", "species", "stick", "cut plan", f"+ {waste} waste"]
    headings += ["one", "together"] if order.priced else []
    rows = []
    for line in order.lumber:
        for stick in line.sticks:
            row = [
                line.size,
                line.species,
                stick_text(stick.length, order.rules.units),
                f"{stick.count:,}",
            ]
            row.append(f"{stick.extra:,}" if stick.extra else "-")
            if order.priced:
                known = stick.price
                both = stick.count + stick.extra
                row += (
                    ["no price", "-"]
                    if known is None
                    else [money(order, known), money(order, known * both)]
                )
            rows.append(tuple(row))
    blocks: list[Block] = [Grid(tuple(headings), tuple(rows))]
    blocks += [Paragraph(_line_words(order, line)) for line in order.lumber]
    yield Section("Lumber to buy", tuple(blocks))
    rows = [
        (line.size, line.species, length_text(length, order.rules.units), f"{count:,}")
        for line in order.lumber
        for (use, length), count in sorted(line.pieces.items())
        if use == BLOCKING
    ]
    if rows:
        yield Section(
            "Solid blocking to build in",
            (
                Paragraph(
                    "Between the studs, before the wall is closed; cut from the sticks above."
                ),
                Grid(("size", "species", "length", "pieces"), tuple(rows)),
            ),
        )


def _line_words(order: Order, line: LumberLine) -> str:
    pieces = sum(line.pieces.values())
    offcuts = sum(row.count for row in line.plan.sticks if row.stick.on_hand is not None)
    hand = f" and {counted(offcuts, 'offcut')} on hand" if offcuts else ""
    sticks = sum(stick.count for stick in line.sticks)
    return (
        f"{line.size} {line.species}: {counted(pieces, 'piece')} out of "
        f"{counted(sticks, 'stick')}{hand}; {line.board_feet:,.1f} board feet "
        f"({line.board_feet_with_waste:,.1f} with waste), {_mass(order, line.weight)} "
        f"({_mass(order, line.weight_with_waste)}). {proof_words(order, line.plan)}"
    )


def _mass(order: Order, pounds: float) -> str:
    return f"{pounds / 2.2046226:,.0f} kg" if order.rules.units is Units.MM else f"{pounds:,.0f} lb"


def proof_words(order: Order, plan: CutPlan) -> str:
    """Return how good a cut plan is: cost, bound, and proven or the gap."""
    if plan.priced and order.priced:
        cost, bound, least = money(order, plan.cost), money(order, plan.bound), "cheaper"
    else:
        cost, bound, least = (*(_run(order, at) for at in (plan.cost, plan.bound)), "shorter")
    if plan.proven:
        said = f"Cut plan {cost}, bound {bound}: proven, no plan is {least}."
    else:
        said = (
            f"Cut plan {cost}, bound {bound}: not proven, at most {percent(float(plan.gap))} "
            "above the least possible."
        )
    return said if "not installed" not in plan.method else f"{said} ({plan.method}.)"


def _run(order: Order, length: int) -> str:
    """Return a length that is bought, in feet or metres."""
    if order.rules.units is Units.MM:
        return f"{length / PER_INCH * 0.0254:,.2f} m"
    return f"{length / FOOT:,.1f} ft"


def _counted(order: Order) -> Iterator[Section]:
    overage = percent(float(order.rules.overage))
    if order.screws:
        boxes = ", in whole boxes" if any(line.boxes for line in order.screws) else ""
        said = Paragraph(f"To buy is what is needed and {overage} more{boxes}.")
        yield Section("Screws to buy", (said, _screw_grid(order)))
    if order.packers:
        yield Section("Packers and shims", (_packer_grid(order),))


def _screw_grid(order: Order) -> Grid:
    boxed = any(line.boxes for line in order.screws)
    headings = ["screw", "needed", "to buy"]
    headings += ["boxes"] if boxed else []
    headings += ["cost"] if order.priced else []
    rows = []
    for line in order.screws:
        row = [line.name, f"{line.needed:,}", f"{line.bought:,}"]
        if boxed:
            row.append(f"{line.boxes:,} of {line.box:,}" if line.boxes else "-")
        if order.priced:
            row.append("no price" if line.cost is None else money(order, line.cost))
        rows.append(tuple(row))
    return Grid(tuple(headings), tuple(rows))


def _packer_grid(order: Order) -> Grid:
    headings = ["piece", "length", "pieces", "together"]
    headings += ["cost"] if order.priced else []
    rows = []
    for line in order.packers:
        length = 0 if line.length is None else line.length
        row = [line.name, length_text(length, order.rules.units), f"{line.bought:,}"]
        row.append(_run(order, length * line.bought))
        if order.priced:
            row.append("no price" if line.cost is None else money(order, line.cost))
        rows.append(tuple(row))
    return Grid(tuple(headings), tuple(rows))


def _cost(order: Order) -> Iterator[Section]:
    plain, padded = order.cost(with_waste=False), order.cost(with_waste=True)
    if plain is None or padded is None:
        return
    waste = percent(float(order.rules.waste))
    blocks: list[Block] = [
        Items(
            (
                ("without waste:", money(order, plain)),
                (f"with {waste} waste of lumber:", money(order, padded)),
            )
        )
    ]
    if order.unpriced:
        blocks.append(Paragraph("No price in the list, and not in these sums:"))
        blocks.append(Items(tuple(("-", name) for name in order.unpriced)))
    yield Section("Cost", tuple(blocks))


def _sums(order: Order) -> Iterator[Section]:
    for column, by_label in order.tally.sums.items():
        rows = [
            _sum_row(order, label if label else "(none)", part)
            for label, part in sorted(by_label.items(), key=lambda item: _natural(item[0]))
        ]
        rows.append(_sum_row(order, "all", order.tally.total))
        headings = (column, "niches", "fail", "boards", "bd ft", "blocks", "packers", "screws")
        yield Section(f"By {column}", (Grid(headings, tuple(rows)),))
    if order.tally.sums:
        yield Section(
            "What the sums count",
            (Paragraph("Pieces, not sticks; bd ft are the board feet of the pieces alone."),),
        )


def _natural(label: str) -> tuple[int, int, str]:
    """Sort 2 before 10, and numbers before words."""
    return (0, int(label), "") if label.isascii() and label.isdigit() else (1, 0, label.casefold())


def _sum_row(order: Order, label: str, part: Sum) -> tuple[str, ...]:
    return (
        label,
        f"{part.niches:,}",
        f"{part.failing:,}",
        f"{part.pieces:,}",
        f"{order.board_feet_of(part):,.1f}",
        f"{part.blocking:,}",
        f"{part.packers:,}",
        f"{part.screws:,}",
    )


def _failing(order: Order) -> Iterator[Section]:
    tally = order.tally
    if not tally.listed:
        return
    items = tuple(
        (
            "-",
            f"{one.where}{f', {one.title}' if one.title else ''}"
            f"{f' ({one.count:,} niches)' if one.count > 1 else ''}: {', '.join(one.codes)}",
        )
        for one in tally.listed
    )
    blocks: list[Block] = [Items(items)]
    more = tally.failing_rows - len(tally.listed)
    if more:
        blocks.append(Paragraph(f"And {more:,} more rows; by finding:"))
        blocks.append(Items(tuple(("-", f"{c}: {n:,} rows") for c, n in tally.codes.most_common())))
    blocks.append(Paragraph("bracecalc plan shows each with its remedy."))
    yield Section("Niches that fail", tuple(blocks))


def _skipped(order: Order) -> Iterator[Section]:
    if order.tally.skipped:
        lines = tuple(("-", str(mistake)) for mistake in order.tally.mistake_lines())
        yield Section(f"Skipped: {_rows(order.tally.skipped)}, not in the order", (Items(lines),))
