"""What a takeoff says, in words that text, markdown, CSV and workbook share."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from bracecalc.cutting import CutPlan
from bracecalc.order.lines import LumberLine
from bracecalc.order.naming import run_text
from bracecalc.order.order import Order
from bracecalc.order.outcome import SCREWS_A_BLOCK
from bracecalc.order.tally import runs_text
from bracecalc.records.conversions import KG_PER_LB
from bracecalc.records.job import Units

CAUTIONS = (
    "Where studs are given by spacing alone, strength counts only the studs certain to be hit, and "
    "the screw order covers the most.",
    "Weights are of dry lumber. Shop prices change; look at the list's date.",
    "An order is not an approval: local codes, the appliance's own instructions and licensed "
    "trades come first.",
)
CUT_TO_THE_END = (
    "Some sticks are used up to the last cut: measure them before you start, and give --end-trim "
    "where the ends are not square."
)
BLOCKS = (
    f"The screws count {SCREWS_A_BLOCK} for each piece of solid blocking, two at each end (common "
    "practice)."
)


class Warned(NamedTuple):
    """Something wrong that a sum would hide: its stable name, how many, and the words."""

    name: str
    number: int
    text: str


def warnings(order: Order) -> tuple[Warned, ...]:
    """Return what is wrong with an order, counted; what isn't there is left out."""
    tally, prices = order.tally, order.rules.prices
    unread = 0 if prices is None else len(prices.unread)
    failing = tally.total.failing
    told = (
        Warned(
            "failing",
            failing,
            f"{niches(failing, 'fail')} and {'is' if failing == 1 else 'are'} in the order all the "
            "same: put right what is listed, or give --only-holding.",
        ),
        Warned(
            "left_out",
            tally.left_out,
            f"{niches(tally.left_out, 'fail')}, listed and NOT in the order (--only-holding).",
        ),
        Warned(
            "skipped_rows",
            tally.skipped,
            f"{rows(tally.skipped)} skipped for mistakes, listed and NOT in the order.",
        ),
        Warned(
            "unchecked",
            tally.total.unchecked,
            f"{counted(tally.total.unchecked, 'niche')}: tip-over NOT fully checked, as weight or "
            "doors are not given.",
        ),
        Warned(
            "unpriced",
            len(order.unpriced),
            f"{counted(len(order.unpriced), 'line')} without a price, NOT in the sums.",
        ),
        Warned(
            "unread_prices",
            unread,
            f"{counted(unread, 'row')} of the price list could not be read: listed, nothing is "
            "priced by them.",
        ),
        Warned(
            "close",
            tally.close,
            f"{counted(tally.close, 'niche')} {'holds' if tally.close == 1 else 'hold'} only if "
            "measured closely.",
        ),
    )
    return tuple(one for one in told if one.number)


def niches(number: int, verb: str) -> str:
    """Return so many niches with what they do.

    >>> niches(1, "fail"), niches(12, "fail")
    ('1 niche fails', '12 niches fail')
    """
    return f"1 niche {verb}s" if number == 1 else f"{number:,} niches {verb}"


def rows(number: int) -> str:
    """Return so many rows or job files.

    >>> rows(1), rows(2000)
    ('1 row or job file', '2,000 rows or job files')
    """
    return "1 row or job file" if number == 1 else f"{number:,} rows or job files"


def counted(number: int, what: str) -> str:
    """Return a number with its thing in one or many.

    >>> counted(1, "niche"), counted(1200, "niche")
    ('1 niche', '1,200 niches')
    """
    return f"{number:,} {what}" if number == 1 else f"{number:,} {what}s"


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


def mass(order: Order, pounds: float) -> str:
    """Return a weight in pounds or kilograms."""
    if order.rules.units is Units.MM:
        return f"{pounds * KG_PER_LB:,.0f} kg"
    return f"{pounds:,.0f} lb"


def amount_of_wood(order: Order, board_feet: float, cubic_metres: float) -> str:
    """Return how much wood it is: board feet, or cubic metres by real size."""
    if order.rules.units is Units.MM:
        return f"{cubic_metres:,.3f} m3"
    return f"{board_feet:,.1f} board feet"


def proof_words(order: Order, plan: CutPlan) -> str:
    """Return how good a cut plan is: cost, bound, and proven or the gap."""
    if plan.priced and order.priced:
        cost, bound = money(order, plan.cost), money(order, plan.bound)
        least = "no plan out of the sticks with a price is cheaper"
    else:
        units = order.rules.units
        cost, bound = (run_text(at, units) for at in (plan.cost, plan.bound))
        least = "no plan buys less length"
    if plan.proven:
        said = f"Cut plan {cost}, bound {bound}: proven, {least}."
    else:
        said = (
            f"Cut plan {cost}, bound {bound}: not proven, at most {percent(float(plan.gap))} "
            "above the least possible."
        )
    return said if "not installed" not in plan.method else f"{said} ({plan.method}.)"


def bundle_words(line: LumberLine) -> str:
    """Return that sticks come in bundles, which are filled up after the cut plan; or nothing."""
    if not any(stick.price is not None and stick.price.bundle > 1 for stick in line.sticks):
        return ""
    return "The plan reckons by the stick; bundles are filled up after it."


def cautions(order: Order) -> tuple[str, ...]:
    """Return what the reader must bear in mind."""
    said = list(CAUTIONS)
    if order.tally.total.blocking:
        said.insert(1, BLOCKS)
    full = any(not row.left_over for line in order.lumber for row in line.plan.sticks)
    if full and not order.rules.saw.trim:
        said.append(CUT_TO_THE_END)
    return tuple(said)


def price_list_lines(order: Order) -> Iterator[str]:
    """Yield each row of the price list that nothing is priced by: first those nobody could read."""
    prices = order.rules.prices
    if prices is None:
        return
    for row in prices.unread:
        yield f"row {row.row}: {row.item!r}: {row.why}"
    for number in order.unknown_rows:
        yield f"row {number}: {prices.items[number]!r}: nothing that is known here"
    if order.idle_rows:
        yield f"read, and not asked for by this order: rows {runs_text(order.idle_rows)}"
