"""Offcuts: what is left on hand from other buildings, and what this one leaves for the next."""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from pathlib import Path

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.csv_table import csv_rows
from bracecalc.order.items import Unread, is_metric, lumber_item
from bracecalc.order.naming import length_text
from bracecalc.order.order import Order
from bracecalc.order.prices import StickKey
from bracecalc.order.rules import sizes
from bracecalc.records.job import Units
from bracecalc.records.reference import Tables

COLUMNS = ("item", "count")
LEAST = 12 * 32  # 1/32 in: shorter ends are firewood


def read_on_hand(path: str | Path, tables: Tables) -> dict[StickKey, int]:
    """Return offcuts on hand from a CSV with the columns item, count: ``2x4 SPF 71 in``, ``3``.

    Raises:
        JobError: with every mistake.
    """
    where = str(path)
    rows = csv_rows(where)
    names = [cell.strip().casefold() for cell in next(rows, (0, []))[1]]
    if any(name not in names for name in COLUMNS):
        raise JobError(Mistake(where, "", ", ".join(names), f"the columns {', '.join(COLUMNS)}"))
    found: dict[StickKey, int] = {}
    mistakes = []
    for number, cells in rows:
        if not any(cell.strip() for cell in cells):
            continue
        padded = [*cells, *[""] * len(names)]
        item, count = (padded[names.index(name)].strip() for name in COLUMNS)
        lumber = lumber_item(item, tables)
        row = f"{where} row {number}"
        if lumber is None or isinstance(lumber, Unread) or not lumber.length:
            why = lumber.why if isinstance(lumber, Unread) else "size, species and length"
            mistakes.append(Mistake(row, "item", repr(item), f"{why}, as 2x4 SPF 71 in"))
        elif lumber.treated:
            mistakes.append(Mistake(row, "item", repr(item), "untreated lumber"))
        elif not re.fullmatch("[0-9]{1,6}", count):
            mistakes.append(Mistake(row, "count", repr(count), "a number, as 3"))
        else:
            key = StickKey(lumber.size, lumber.species, lumber.length)
            found[key] = found.get(key, 0) + int(count)
    if mistakes:
        raise JobError(*mistakes)
    return found


def offcuts_left(order: Order) -> dict[StickKey, int]:
    """Return what is left on hand when everything is cut: ends a foot long or more, and offcuts.

    Sticks that are bought against waste are not among them: nobody knows yet what is left of those.
    """
    left: Counter[StickKey] = Counter(order.rules.on_hand)
    for line in order.lumber:
        names = sizes(line.lumber, line.section)
        for row in line.plan.sticks:
            if row.stick.on_hand is not None:
                key = next(
                    key
                    for key in order.rules.on_hand
                    if (key.species, key.length) == (line.lumber.species, row.stick.length)
                    and key.size in names
                )
                left[key] -= row.count
            if row.left_over >= LEAST:
                left[StickKey(line.lumber.size, line.lumber.species, row.left_over)] += row.count
    return {key: count for key, count in sorted(left.items()) if count > 0}


def offcuts_csv(order: Order) -> str:
    """Return what is left as a CSV that ``read_on_hand`` takes for the next building."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for key, count in offcuts_left(order).items():
        units = Units.MM if is_metric(key.size) else Units.INCH
        length = length_text(key.length, units, down=True)
        writer.writerow([f"{key.size} {key.species} {length}", count])
    return out.getvalue()
