"""Quantities in the records of a job made in Python, turned to inch and lbf."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from functools import cache
from typing import Any

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.limits import DIMENSIONS
from bracecalc.records.job import Job, job_groups
from bracecalc.text.lengths import Dimension, QuantityError, parse_quantity


@cache
def _dimensions() -> dict[tuple[type[Any], str], Dimension]:
    """Return the dimension of each field of a record that is no length."""
    return {
        (group.record, key.field): DIMENSIONS[key.kind]
        for group in job_groups()
        if group.record is not None
        for key in group.keys
        if DIMENSIONS.get(key.kind, Dimension.LENGTH) is not Dimension.LENGTH
    }


def in_planner_units(job: Job) -> Job:
    """Return a job with each quantity turned to the planner's unit of its field.

    Args:
        job: with pint quantities among its numbers.

    Raises:
        JobError: with every quantity of the wrong dimension.
    """
    mistakes: list[Mistake] = []
    turned = _record(job, job.where, "", mistakes)
    if mistakes:
        raise JobError(*mistakes)
    plain: Job = turned
    return plain


def _record(record: Any, where: str, path: str, mistakes: list[Mistake]) -> Any:
    changed = {}
    for field in fields(record):
        value = getattr(record, field.name)
        place = f"{path}.{field.name}" if path else field.name
        dimension = _dimensions().get((type(record), field.name), Dimension.LENGTH)
        new = _value(value, dimension, Mistake(where, place, "", ""), mistakes)
        if new is not value:
            changed[field.name] = new
    return replace(record, **changed) if changed else record


def _value(value: Any, dimension: Dimension, at: Mistake, mistakes: list[Mistake]) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return _record(value, at.where, at.key, mistakes)
    if isinstance(value, tuple):
        items = tuple(_value(item, dimension, at, mistakes) for item in value)
        return items if any(a is not b for a, b in zip(items, value, strict=True)) else value
    if not hasattr(value, "magnitude"):
        return value
    try:
        return parse_quantity(value, dimension)
    except QuantityError as error:
        mistakes.append(Mistake(at.where, at.key, str(value), str(error)))
        return value
