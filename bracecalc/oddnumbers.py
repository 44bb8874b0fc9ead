"""Numbers that are none in a job made in Python; a job file's are refused where they are read."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from bracecalc.records.job import Job

UNREAD = frozenset(("tables", "as_found", "where"))  # checked where they are loaded, or text


def refuse_odd_numbers(job: Job) -> None:
    """Refuse a NaN or an infinity anywhere in a job, before a least or a greatest hides it.

    Raises:
        ValueError: with the path of the first one.
    """
    for name in job.__dataclass_fields__:
        if name not in UNREAD:
            _refuse(getattr(job, name), name)


def _refuse(value: Any, path: str) -> None:
    if isinstance(value, float):
        if not math.isfinite(value):
            raise ValueError(f"{path} must be finite, got {value!r}")
    elif isinstance(value, tuple):
        for number, item in enumerate(value, start=1):
            _refuse(item, f"{path}.{number}")
    elif isinstance(value, Mapping):
        for key, item in value.items():
            _refuse(item, f"{path}.{key}")
    else:
        for name in getattr(value, "__dataclass_fields__", ()):
            _refuse(getattr(value, name), f"{path}.{name}")
