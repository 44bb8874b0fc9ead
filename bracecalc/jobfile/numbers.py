"""Numbers of a job: none that is no number, none past what can be, and which are unusual.

A job file's are refused or turned where they are read; these are for jobs made in Python too.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import MISSING, Field, fields
from functools import cache
from typing import Any, NamedTuple

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.limits import limits_in_words
from bracecalc.records.job import Job
from bracecalc.records.keys import ANY, Key, Within, keys_of, table_beside

UNREAD = frozenset(("tables", "as_found", "where"))  # checked where they are loaded, or text


class Number(NamedTuple):
    """A number of a job, by the path of its key."""

    path: str
    value: float
    key: Key


class Looked(NamedTuple):
    """A job in plain numbers, and those of them that can be but seldom are."""

    job: Job
    unusual: tuple[Number, ...]


class _Part(NamedTuple):
    """A field of a record: its name in paths, its key, or the keys of what stands in it."""

    field: str
    path: str
    default: Any
    key: Key | None
    within: Within
    inner: Mapping[str, Key]


def looked_over(job: Job) -> Looked:
    """Return a job with plain numbers alone, in inch and lbf, and what is unusual in it.

    A NaN or an infinity is refused before a least or a greatest hides it, and so is what can't
    be. Quantities with a unit are turned; a job without one comes back as it is.

    Raises:
        ValueError: with the path of the first number that isn't finite.
        JobError: with every quantity of the wrong dimension, and every number past its limits.

    >>> from bracecalc.jobfile.read import read_job
    >>> from bracecalc.data import demo_path
    >>> looked_over(read_job(demo_path("3b-kitchen.toml"))).unusual
    ()
    """
    look = _Look()
    look.record(job, "")
    if look.quantities:
        from bracecalc.jobfile.pint_values import in_planner_units

        job, look = in_planner_units(job), _Look()
        look.record(job, "")
    mistakes = [
        Mistake(job.where, path, f"{value:.10g}", f"{limits_in_words(key)} ({key.what})")
        for path, value, key in look.odd
        if not key.within.holds(value)
    ]
    if mistakes:
        raise JobError(*mistakes)
    return Looked(job, tuple(look.odd))


class _Look:
    """One walk through a job. What is left at its default is not looked at: a plan is fast."""

    __slots__ = ("odd", "quantities")

    def __init__(self) -> None:
        self.odd: list[Number] = []
        self.quantities = False

    def record(self, record: Any, path: str) -> None:
        for part in _parts_of(record.__class__):
            held = getattr(record, part.field)
            if held is not part.default and held is not None:
                place = f"{path}.{part.path}" if path and part.path else path or part.path
                self.value(held, place, part)

    def value(self, held: Any, path: str, part: _Part) -> None:
        kind = held.__class__
        if kind is float or kind is int:
            self.number(held, path, part.key, part.within)
        elif kind is tuple:
            for number, item in enumerate(held, start=1):
                self.value(item, f"{path}.{number}", part)
        elif kind is str or kind is bool:
            return
        elif hasattr(held, "__dataclass_fields__"):
            self.record(held, path)
        elif isinstance(held, Mapping):
            for name, item in held.items():
                key = part.inner.get(name)
                self.value(item, f"{path}.{name}", _of_key(key))
        elif hasattr(held, "magnitude"):
            self.quantities = True
        elif isinstance(held, (float, int)):  # numpy's own
            self.number(held, path, part.key, part.within)

    def number(self, value: float, path: str, key: Key | None, within: Within) -> None:
        if not math.isfinite(value):
            raise ValueError(f"{path} must be finite, got {value!r}")
        if key is not None and not (within.holds(value) and within.is_usual(value)):
            self.odd.append(Number(path, value, key))


@cache
def _parts_of(record: Any) -> tuple[_Part, ...]:
    keys = {key.field: key for key in keys_of(record)}
    return tuple(
        _part(each, keys.get(each.name)) for each in fields(record) if each.name not in UNREAD
    )


def _part(beside: Field[Any], key: Key | None) -> _Part:
    table = table_beside(beside)
    if table is None:
        return _of_key(key)._replace(field=beside.name, default=beside.default)
    inner = {each.name: each for each in table.keys}
    path = "" if table.here else beside.name
    return _Part(beside.name, path, MISSING, None, ANY, inner)


def _of_key(key: Key | None) -> _Part:
    if key is None:
        return _Part("", "", MISSING, None, ANY, {})
    return _Part("", key.name, MISSING, key, key.within, {})
