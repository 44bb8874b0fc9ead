"""A takeoff for other programs: JSON and CSV. Lengths in inches, amounts as decimal numbers."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from bracecalc.cutting import PER_INCH
from bracecalc.order.alternates import Alternate
from bracecalc.order.lines import CountedLine, LumberLine
from bracecalc.order.order import Order
from bracecalc.order.tally import Sum, Told
from bracecalc.render.rows import harmless
from bracecalc.render.takeoff_words import warnings

SCHEMA = "bracecalc takeoff 2"
HEADINGS = (
    "what",
    "item",
    "size",
    "species",
    "length_in",
    "count",
    "with_extra",
    "boxes",
    "price_each",
    "cost",
    "currency",
    "note",
)


def amount(order: Order, coins: int | None) -> float | None:
    """Return an amount of the smallest coin in whole units of its currency."""
    prices = order.rules.prices
    return None if coins is None or prices is None else coins / 10**prices.decimals


def inches(length: int | None) -> float | None:
    """Return a length of 1/32 in in inches."""
    return None if length is None else length / PER_INCH


def takeoff_to_dict(order: Order, alternates: Sequence[Alternate] = ()) -> dict[str, Any]:
    """Return a takeoff as plain dicts, lists, strings and numbers (docs/takeoff.md)."""
    tally, prices = order.tally, order.rules.prices
    unread = () if prices is None else prices.unread
    return {
        "schema": SCHEMA,
        "warnings": {one.name: one.number for one in warnings(order)},
        "niches": tally.total.niches,
        "rows": tally.rows,
        "worked_out": tally.planned,
        "failing": tally.total.failing,
        "left_out": tally.left_out,
        "not_checked": tally.total.unchecked,
        "holding_if_measured_closely": tally.close,
        "skipped_rows": tally.skipped,
        "currency": None if prices is None else prices.currency,
        "cost": amount(order, order.cost(with_waste=False)),
        "cost_with_waste": amount(order, order.cost(with_waste=True)),
        "no_price_for": list(order.unpriced),
        "price_rows_not_read": [row._asdict() for row in unread],
        "price_rows_not_known": list(order.unknown_rows),
        "price_rows_not_asked_for": list(order.idle_rows),
        "waste": float(order.rules.waste),
        "overage": float(order.rules.overage),
        "lumber": [_lumber(order, line) for line in order.lumber],
        **{
            name: [_counted(order, line) for line in lines] for name, lines in counted_groups(order)
        },
        "sums": {
            column: {label: _sum(order, part) for label, part in by_label.items()}
            for column, by_label in tally.sums.items()
        },
        "parts": [
            {
                "labels": dict(tally.part_labels(labels)),
                "pieces": [
                    {
                        "use": use.value,
                        "size": wood.size,
                        "species": tally.sections[wood].shown,
                        "measured": wood.measured,
                        "length": inches(length),
                        "count": count,
                    }
                    for (use, wood, length), count in sorted(pieces.items())
                ],
            }
            for labels, pieces in tally.parts.items()
        ],
        "fails": [_told(one) for one in tally.listed],
        "fails_not_listed": tally.failing_rows - len(tally.listed),
        "not_checked_rows": [_told(one) for one in tally.unchecked],
        "not_checked_not_listed": tally.unchecked_rows - len(tally.unchecked),
        "skipped": [str(mistake) for mistake in tally.mistake_lines()],
        "alternates": [{"name": one.name, **takeoff_to_dict(one.order)} for one in alternates],
    }


def counted_groups(order: Order) -> tuple[tuple[str, Sequence[CountedLine]], ...]:
    """Return what is counted, group by group."""
    return (
        ("screws", order.screws),
        ("washers", order.washers),
        ("sheets", order.sheets),
        ("shims", order.shims),
        ("services", order.services),
    )


def _told(one: Told) -> dict[str, Any]:
    return {
        "where": one.where,
        "title": one.title,
        "niches": one.niches,
        "findings": list(one.codes),
    }


def _lumber(order: Order, line: LumberLine) -> dict[str, Any]:
    unit = (lambda coins: amount(order, coins)) if line.plan.priced else inches
    net, gross = (line.length(with_waste=waste) for waste in (False, True))
    return {
        "size": line.lumber.size,
        "measured": line.lumber.measured,
        "species": line.species,
        "sticks": [
            {
                "length": inches(stick.length),
                "count": stick.count,
                "extra_for_waste": stick.extra,
                "to_buy": stick.bought,
                "bundle": 1 if stick.price is None else stick.price.bundle,
                "price_each": None if stick.price is None else amount(order, stick.price.each),
                "cost": amount(order, stick.cost),
            }
            for stick in line.sticks
        ],
        "pieces": [
            {"use": use.value, "length": inches(length), "count": count}
            for (use, length), count in sorted(line.pieces.items())
        ],
        "board_feet": line.board_feet(net),
        "board_feet_with_waste": line.board_feet(gross),
        "cubic_metres": line.cubic_metres(net),
        "cubic_metres_with_waste": line.cubic_metres(gross),
        "weight": line.weight(net),
        "weight_with_waste": line.weight(gross),
        "cost": amount(order, line.cost),
        "cost_with_waste": amount(order, line.cost_with_waste),
        "cut_plan": {
            "objective": "cost" if line.plan.priced else "length bought",
            "value": unit(line.plan.cost),
            "bound": unit(line.plan.bound),
            "proven": line.plan.proven,
            "gap": float(line.plan.gap),
            "method": line.plan.method,
            "sticks": [
                {
                    "length": inches(row.stick.length),
                    "offcut_on_hand": row.stick.on_hand is not None,
                    "count": row.count,
                    "cuts": [
                        {"length": inches(length), "count": count} for length, count in row.cuts
                    ],
                    "left_over": inches(row.left_over),
                }
                for row in line.plan.sticks
            ],
        },
    }


def _counted(order: Order, line: CountedLine) -> dict[str, Any]:
    return {
        "name": line.name,
        "width": inches(line.width),
        "length": inches(line.length),
        "needed": line.needed,
        "to_buy": line.bought,
        "box_of": line.box,
        "boxes": line.boxes,
        "price": None if line.price is None else float(line.price),
        "price_is_for": line.per,
        "cost": amount(order, line.cost),
    }


def _sum(order: Order, part: Sum) -> Mapping[str, float]:
    return {
        "niches": part.niches,
        "failing": part.failing,
        "not_checked": part.unchecked,
        "boards": part.pieces,
        "net_board_feet": order.board_feet_of(part),
        "net_cubic_metres": order.volume_of(part),
        "blocking": part.blocking,
        "spacer_boards": part.packers,
        "screws": part.screws,
    }


def takeoff_csv(order: Order) -> str:
    """Return the order as CSV: what is wrong, what to buy, what it is for, what fails.

    Text that a spreadsheet would run as a formula is made harmless.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADINGS)
    for row in order_rows(order):
        writer.writerow([_cell(row.get(name)) for name in HEADINGS])
    return out.getvalue()


def _cell(value: object) -> object:
    if value is None:
        return ""
    if isinstance(value, str):
        return harmless(value)
    return f"{value:.10g}" if isinstance(value, float) else value


def order_rows(order: Order) -> Iterator[dict[str, Any]]:
    """Yield the rows of the CSV as HEADINGS: numbers stay numbers."""
    for one in warnings(order):
        yield {"what": "warning", "item": one.name, "count": one.number, "note": one.text}
    yield from buy_rows(order)
    for line in order.lumber:
        for (use, length), count in sorted(line.pieces.items()):
            yield {
                "what": "cut",
                "item": use.value,
                "size": line.size,
                "species": line.species,
                "length_in": inches(length),
                "count": count,
            }
    tally = order.tally
    for column, by_label in tally.sums.items():
        for label, part in by_label.items():
            for name, number in _sum(order, part).items():
                yield {"what": f"by {column}", "item": label, "count": number, "note": name}
    for what, rows in (("fails", tally.listed), ("not checked", tally.unchecked)):
        for told in rows:
            note = ": ".join(part for part in (told.where, ", ".join(told.codes)) if part)
            yield {"what": what, "item": told.title, "count": told.niches, "note": note}
    for mistake in tally.mistake_lines():
        yield {"what": "skipped", "note": str(mistake)}
    prices = order.rules.prices
    if prices is not None:
        for row in prices.unread:
            yield {"what": "price not read", "item": row.item, "note": f"row {row.row}: {row.why}"}


def buy_rows(order: Order) -> Iterator[dict[str, Any]]:
    """Yield a row for each thing to buy, as HEADINGS: lumber by size, then the counted things."""
    currency = None if order.rules.prices is None else order.rules.prices.currency
    unpriced = "no price" if order.priced else None
    for line in order.lumber:
        for stick in line.sticks:
            bundle = 1 if stick.price is None else stick.price.bundle
            yield {
                "what": "buy",
                "item": "stick",
                "size": line.size,
                "species": line.species,
                "length_in": inches(stick.length),
                "count": stick.count,
                "with_extra": stick.bought,
                "boxes": stick.bought // bundle if bundle > 1 else None,
                "price_each": None if stick.price is None else amount(order, stick.price.each),
                "cost": amount(order, stick.cost),
                "currency": currency,
                "note": unpriced if stick.price is None else bundle_note(bundle),
            }
    for _, lines in counted_groups(order):
        for counted in lines:
            boxed = f"boxes of {counted.box}" if counted.boxes else None
            said = (counted.note, boxed, unpriced if counted.price is None else None)
            note = ", ".join(part for part in said if part)
            yield {
                "what": "buy",
                "item": counted.name,
                "length_in": inches(counted.length),
                "count": counted.needed,
                "with_extra": counted.bought,
                "boxes": counted.boxes if counted.boxes else None,
                "price_each": None if counted.price is None else float(counted.price / counted.per),
                "cost": amount(order, counted.cost),
                "currency": currency,
                "note": note if note else None,
            }


def bundle_note(bundle: int) -> str | None:
    """Return that sticks come in bundles of so many; None where they don't."""
    return f"bundles of {bundle}" if bundle > 1 else None
