"""Numbers of a job made in Python: none that is no number, and quantities turned to plain ones.

A job file's are refused or turned where they are read.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from bracecalc.records.job import Job

UNREAD = frozenset(("tables", "as_found", "where"))  # checked where they are loaded, or text


def plain_job(job: Job) -> Job:
    """Return a job with plain numbers alone, in inch and lbf.

    A NaN or an infinity is refused before a least or a greatest hides it. Quantities with a unit
    are turned; a job without one comes back as it is.

    Raises:
        ValueError: with the path of the first number that isn't finite.
        JobError: with every quantity of the wrong dimension.
    """
    if not _any_quantity(job, ""):
        return job
    from bracecalc.jobfile.pint_values import in_planner_units

    return in_planner_units(job)


def _any_quantity(value: Any, path: str) -> bool:
    """Return whether any quantity is in a value; refuse odd numbers on the way."""
    if isinstance(value, float):
        if not math.isfinite(value):
            raise ValueError(f"{path} must be finite, got {value!r}")
        return False
    if isinstance(value, tuple):
        parts = [(str(number), item) for number, item in enumerate(value, start=1)]
    elif isinstance(value, Mapping):
        parts = list(value.items())
    elif hasattr(value, "__dataclass_fields__"):
        parts = [
            (name, getattr(value, name))
            for name in value.__dataclass_fields__
            if name not in UNREAD
        ]
    else:
        return hasattr(value, "magnitude")
    found = [_any_quantity(item, f"{path}.{name}" if path else name) for name, item in parts]
    return any(found)
