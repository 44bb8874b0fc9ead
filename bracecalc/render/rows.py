"""Plans as rows for a spreadsheet: every screw and every piece, one a row."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator

from bracecalc.records.plan import Plan

HEADINGS = (
    "title", "verdict", "what", "item", "size", "length_in", "count",
    "from_left_in", "above_underside_in",
)  # fmt: skip
PLACES = 6  # of an inch: what is finer is the noise of floats
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


def plan_rows(plans: Iterable[Plan]) -> str:
    """Return the pieces and the screws of plans as CSV, lengths in inches, not rounded to marks."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADINGS)
    for plan in plans:
        writer.writerows(_rows(plan))
    return out.getvalue().rstrip("\n")


def harmless(text: str) -> str:
    """Return a text that a spreadsheet won't run as a formula.

    >>> harmless("=1+1"), harmless("3B")
    ("'=1+1", '3B')
    """
    return "'" + text if text.startswith(FORMULA_STARTS) else text


def _rows(plan: Plan) -> Iterator[tuple[object, ...]]:
    head = harmless(plan.job.title), plan.verdict.value
    for need in (*plan.materials.boards, *plan.materials.screws):
        size = harmless(need.size)
        yield (*head, "buy", need.item, size, need.length, need.count, "", "")
    for row in plan.screws:
        for across, height in sorted(row.positions):
            item = f"board {row.board}"
            place = round(across, PLACES), round(height, PLACES)
            yield (*head, "screw", item, harmless(row.size), row.length, 1, *place)
