"""One value of a job changed, by the path of its key."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.paths import flatten, numbered


def changed_values(
    nested: Mapping[str, object], path: str, value: object, *, where: str
) -> dict[str, object]:
    """Return the values of a job by dotted path, one of them changed, added or taken out.

    Args:
        nested: tables as in a job file.
        path: of a key; an array goes by number from 1, as ``wall.layers.1.thickness``.
        value: what stands there then; None takes the key out.
        where: what to call the job in messages.

    Raises:
        JobError: if an array has no such place.

    >>> niche = {"wall": {"layers": [{"material": "plywood", "thickness": 0.5}]}}
    >>> changed_values(niche, "wall.layers.1.thickness", 0.75, where="")
    {'wall.layers': [{'material': 'plywood', 'thickness': 0.75}]}
    """
    values = flatten(nested, where=where)
    array, number, name = numbered(path)
    if not array:
        return _with(values, path, value)
    given: Any = values.get(array, [])
    items = [dict(item) for item in given]
    if not 1 <= number <= len(items) + 1:
        right = f"{array}.1 to {array}.{len(items) + 1}"
        raise JobError(Mistake(where, path, f"{array}.{number}", right))
    if number > len(items):
        items.append({})
    items[number - 1] = _with(items[number - 1], name, value)
    return {**values, array: items}


def _with(values: Mapping[str, object], name: str, value: object) -> dict[str, object]:
    kept = {key: item for key, item in values.items() if key != name}
    return kept if value is None else {**kept, name: value}
