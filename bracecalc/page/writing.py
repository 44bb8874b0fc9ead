"""The job file back out: what was typed put into the text, comments and layout kept."""

from __future__ import annotations

import tomllib
from typing import Any

from bracecalc.page.entries import Asked


def job_text(asked: Asked) -> str:
    """Return the job file with what was typed in it.

    Raises:
        JobError: if the text that the job was opened from isn't TOML.
        ValueError: if the text made would say something else; our fault.
    """
    import tomlkit

    wanted = asked.merged()
    if wanted == asked.base():
        return asked.text
    document = tomlkit.parse(asked.text)
    _lay_over(document, wanted)
    made = tomlkit.dumps(document)
    if tomllib.loads(made) != wanted:
        raise ValueError("the job file written does not say what was typed")
    return made


def bare_text(asked: Asked) -> str:
    """Return the job as a file without comments, as short as it goes.

    Raises:
        JobError: if the text that the job was opened from isn't TOML.
    """
    import tomlkit

    return tomlkit.dumps(asked.merged())


def _lay_over(table: Any, wanted: dict[str, Any]) -> None:
    """Change what differs and nothing else, so that the rest keeps its comments."""
    import tomlkit

    for name in [name for name in table if name not in wanted]:
        del table[name]
    for name, value in wanted.items():
        there = table.get(name)
        if isinstance(value, dict) and there is not None and hasattr(there, "items"):
            _lay_over(there, value)
        elif name not in table:
            table.add(name, _item(value)) if hasattr(table, "add") else table.update({name: value})
        elif tomlkit.item(value).unwrap() != there:
            table[name] = _item(value)


def _item(value: Any) -> Any:
    import tomlkit

    if isinstance(value, dict):
        table = tomlkit.table()
        for name, inside in value.items():
            table.add(name, _inline(inside))
        return table
    return _inline(value)


def _inline(value: Any) -> Any:
    import tomlkit

    if isinstance(value, dict):
        table = tomlkit.inline_table()
        for name, inside in value.items():
            table.append(name, _inline(inside))
        return table
    if isinstance(value, list):
        array = tomlkit.array()
        for inside in value:
            array.append(_inline(inside))
        return array
    return value
