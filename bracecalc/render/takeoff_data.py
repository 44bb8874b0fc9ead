"""A takeoff for other programs: JSON and CSV. Lengths in inches, amounts as decimal numbers."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping
from typing import Any

from bracecalc.cutting import PER_INCH
from bracecalc.order.order import CountedLine, LumberLine, Order
from bracecalc.order.takeoff import Sum
from bracecalc.render.rows import harmless

SCHEMA = "bracecalc takeoff 1"
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


def takeoff_to_dict(order: Order) -> dict[str, Any]:
    """Return a takeoff as plain dicts, lists, strings and numbers (docs/takeoff.md)."""
    tally, prices = order.tally, order.rules.prices
    return {
        "schema": SCHEMA,
        "niches": tally.total.niches,
        "rows": tally.rows,
        "worked_out": tally.planned,
        "failing": tally.total.failing,
        "holding_if_measured_closely": tally.close,
        "skipped_rows": tally.skipped,
        "currency": None if prices is None else prices.currency,
        "cost": amount(order, order.cost(with_waste=False)),
        "cost_with_waste": amount(order, order.cost(with_waste=True)),
        "no_price_for": list(order.unpriced),
        "waste": float(order.rules.waste),
        "overage": float(order.rules.overage),
        "lumber": [_lumber(order, line) for line in order.lumber],
        "screws": [_counted(order, line) for line in order.screws],
        "packers": [_counted(order, line) for line in order.packers],
        "sums": {
            column: {label: _sum(order, part) for label, part in by_label.items()}
            for column, by_label in tally.sums.items()
        },
        "fails": [
            {"where": one.where, "title": one.title, "findings": list(one.codes)}
            for one in tally.listed
        ],
        "fails_not_listed": tally.failing_rows - len(tally.listed),
        "skipped": [str(mistake) for mistake in tally.mistake_lines()],
    }


def _lumber(order: Order, line: LumberLine) -> dict[str, Any]:
    unit = (lambda coins: amount(order, coins)) if line.plan.priced else _inches
    return {
        "size": line.size,
        "species": line.species,
        "sticks": [
            {
                "length": _inches(stick.length),
                "count": stick.count,
                "extra_for_waste": stick.extra,
                "price_each": amount(order, stick.price),
            }
            for stick in line.sticks
        ],
        "pieces": [
            {"use": use, "length": _inches(length), "count": count}
            for (use, length), count in sorted(line.pieces.items())
        ],
        "board_feet": line.board_feet,
        "board_feet_with_waste": line.board_feet_with_waste,
        "weight": line.weight,
        "weight_with_waste": line.weight_with_waste,
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
                    "length": _inches(row.stick.length),
                    "offcut_on_hand": row.stick.on_hand is not None,
                    "count": row.count,
                    "cuts": [
                        {"length": _inches(length), "count": count} for length, count in row.cuts
                    ],
                    "left_over": _inches(row.left_over),
                }
                for row in line.plan.sticks
            ],
        },
    }


def _inches(length: int) -> float:
    return length / PER_INCH


def _counted(order: Order, line: CountedLine) -> dict[str, Any]:
    return {
        "name": line.name,
        "length": None if line.length is None else _inches(line.length),
        "needed": line.needed,
        "to_buy": line.bought,
        "box_of": line.box,
        "boxes": line.boxes,
        "cost": amount(order, line.cost),
    }


def _sum(order: Order, part: Sum) -> Mapping[str, float]:
    return {
        "niches": part.niches,
        "failing": part.failing,
        "boards": part.pieces,
        "net_board_feet": order.board_feet_of(part),
        "blocking": part.blocking,
        "packers": part.packers,
        "screws": part.screws,
    }


def takeoff_csv(order: Order) -> str:
    """Return the order as CSV: a row for each thing to buy, then what it is for, then what fails.

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
    currency = None if order.rules.prices is None else order.rules.prices.currency
    for line in order.lumber:
        wood = {"size": line.size, "species": line.species}
        for stick in line.sticks:
            both = stick.count + stick.extra
            yield {
                "what": "buy",
                "item": "stick",
                **wood,
                "length_in": _inches(stick.length),
                "count": stick.count,
                "with_extra": both,
                "price_each": amount(order, stick.price),
                "cost": None if stick.price is None else amount(order, stick.price * both),
                "currency": currency,
            }
    for counted in (*order.screws, *order.packers):
        yield {
            "what": "buy",
            "item": counted.name,
            "length_in": None if counted.length is None else _inches(counted.length),
            "count": counted.needed,
            "with_extra": counted.bought,
            "boxes": counted.boxes if counted.boxes else None,
            "cost": amount(order, counted.cost),
            "currency": currency,
            "note": f"boxes of {counted.box}" if counted.boxes else None,
        }
    for line in order.lumber:
        for (use, length), count in sorted(line.pieces.items()):
            yield {
                "what": "cut",
                "item": use,
                "size": line.size,
                "species": line.species,
                "length_in": _inches(length),
                "count": count,
            }
    for column, by_label in order.tally.sums.items():
        for label, part in by_label.items():
            for name, number in _sum(order, part).items():
                yield {"what": f"by {column}", "item": label, "count": number, "note": name}
    for one in order.tally.listed:
        note = f"{one.where}: {', '.join(one.codes)}"
        yield {"what": "fails", "item": one.title, "note": note}
    for mistake in order.tally.mistake_lines():
        yield {"what": "skipped", "note": str(mistake)}
