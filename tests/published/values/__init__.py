"""Printed values, as rows: one CSV a table."""

from __future__ import annotations

import csv
from pathlib import Path

_HERE = Path(__file__).parent


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of one table of printed values."""
    with (_HERE / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))
