"""Plans as rows for a spreadsheet: every screw and every piece, one a row."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from bracecalc.records.plan import ROW_COLUMNS, Plan

HEADINGS = ("title", "verdict", "what", *ROW_COLUMNS)
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


def plan_rows(plans: Iterable[Plan]) -> str:
    """Return the pieces and the screws of plans as CSV, lengths in inches, not rounded to marks."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADINGS)
    for plan in plans:
        for row in plan.rows():
            cells = ("" if row[name] is None else row[name] for name in HEADINGS)
            writer.writerow(harmless(cell) if isinstance(cell, str) else cell for cell in cells)
    return out.getvalue().rstrip("\n")


def harmless(text: str) -> str:
    """Return a text that a spreadsheet won't run as a formula.

    >>> harmless("=1+1"), harmless("3B")
    ("'=1+1", '3B')
    """
    return "'" + text if text.startswith(FORMULA_STARTS) else text
