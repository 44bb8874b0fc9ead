"""Records as plain dicts, lists, strings and numbers, ready for ``json.dumps``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any


def plain(value: Any) -> Any:
    """Return a value of a record, or a record, as plain Python.

    A record tells the fields (or properties) that its ``TOLD`` names, all fields without one.
    Names written ``a=b`` are told as ``a`` and read from ``b``; a dotted ``b`` reaches into a
    record that may be ``None``.

    >>> from bracecalc.records.plan import Alternative, RestraintKind
    >>> plain(Alternative(RestraintKind.SOFFIT, "too high"))
    {'kind': 'soffit', 'why_not': 'too high'}
    """
    if value is None or isinstance(value, float | int | bool):
        return value
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, str):
        return value
    if isinstance(value, Mapping):
        return {key: plain(item) for key, item in value.items()}
    told = _told(value.__class__)
    if told is not None:
        return {name: plain(_reached(value, path)) for name, path in told}
    return [plain(item) for item in value]


@cache
def _told(record: Any) -> tuple[tuple[str, tuple[str, ...]], ...] | None:
    """Return what a kind of record tells and where it reads it; None for a plain sequence."""
    names: tuple[str, ...] | None = getattr(record, "TOLD", None)
    if names is None and is_dataclass(record):
        names = tuple(field.name for field in fields(record))
    if names is None:
        names = getattr(record, "_fields", None)
    if names is None:
        return None
    pairs = (name.partition("=") for name in names)
    return tuple((name, tuple((path or name).split("."))) for name, _, path in pairs)


def _reached(value: Any, path: tuple[str, ...]) -> Any:
    for name in path:
        if value is None:
            return None
        value = getattr(value, name)
    return value
