"""Plans as rows for a spreadsheet: every screw and every piece, one a row."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from bracecalc.records.plan import ROW_COLUMNS, Plan
from bracecalc.render.text import printable

HEADINGS = ("title", "verdict", "what", *ROW_COLUMNS)
FORMULA_STARTS = ("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20")


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
    r"""Return a text that a spreadsheet won't run as a formula, with nothing unseen in it.

    The signs of a formula count in their full width too, which some programs take for the plain
    ones; characters that steer a terminal or turn the direction of writing are made visible.

    >>> harmless("=1+1"), harmless("3B"), harmless(" \uff1dA1"), harmless("3B\u202e")
    ("'=1+1", '3B', "' \uff1dA1", '3B\\u202e')
    """
    text = "\n".join(map(printable, text.split("\n")))  # a quoted line break is no harm
    start = text.lstrip()
    return "'" + text if start.startswith(FORMULA_STARTS) and start != "-" else text
