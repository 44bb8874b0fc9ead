"""Paths of keys: from nested tables, with numbers in them, and the nearest to a wrong one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.readers import ANY_TABLE, Compiled, compiled

LONGEST_KEY = 100
SHEET = "unit"  # a table, or the name of a file that has it
EXPECTED_ELSEWHERE = {
    "boards.height": "boards.width, its width as measured",
    "loads.earthquake": "loads.S_DS and its companions in [loads] itself",
}


def flatten(nested: Mapping[Any, object], *, where: str) -> dict[str, object]:
    """Return the values of nested tables by dotted path; arrays stay whole.

    Raises:
        JobError: where a value stands in place of a table.
    """
    found: dict[str, object] = {}
    mistakes: list[Mistake] = []
    _spread(nested, "", found, mistakes, where)
    if mistakes:
        raise JobError(*mistakes)
    return found


def _spread(
    nested: Mapping[Any, object],
    prefix: str,
    found: dict[str, object],
    mistakes: list[Mistake],
    where: str,
) -> None:
    tables = compiled().tables
    for name, value in nested.items():
        path = f"{prefix}{name}"
        named = path == SHEET and isinstance(value, str)
        if path not in tables or named or value == {}:  # an empty table still says that it is there
            found[path] = value
        elif isinstance(value, Mapping):
            _spread(value, f"{path}.", found, mistakes, where)
        else:
            mistakes.append(Mistake(where, path, shown(value), f"a table, as [{path}]"))


def shown(value: object) -> str:
    """Return what was read as one short line.

    >>> shown(True), shown("33 ib"), shown([1, 2, 3])
    ('true', "'33 ib'", '[1, 2, 3]')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int) and abs(value) > 10**40:
        return f"a number of {value.bit_length() * 3 // 10} digits"
    if isinstance(value, Mapping):
        return "a table"
    text = repr(value[:80]) if isinstance(value, (str, list, tuple)) else str(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def numbered(path: str) -> tuple[str, int, str]:
    """Split ``wall.layers.1.material`` at its number; no number gives ``("", 0, "")``."""
    front, _, name = path.rpartition(".")
    array, _, number = front.rpartition(".")
    if number.isascii() and number.isdigit() and len(number) <= 3:
        return array, int(number), name
    return "", 0, ""


def near(name: str, names: Iterable[str]) -> str | None:
    """Return the name that is most like another, None where none is."""
    from difflib import get_close_matches

    found = get_close_matches(name[:LONGEST_KEY], list(names), n=1)
    return found[0] if found else None


def nearest_key(path: str, schema: Compiled) -> str:
    """Return the key that an unknown one may stand for, or which there are.

    Looked for in its own table first, then by its name in others, then anywhere.

    >>> nearest_key("niche.widht", compiled()), nearest_key("unit.soffit", compiled())
    ('niche.width', 'niche.soffit')
    """
    if path in EXPECTED_ELSEWHERE:
        return EXPECTED_ELSEWHERE[path]
    known = (*schema.single, *schema.arrays, *(table for table in schema.tables if table))
    table, _, last = path.rpartition(".")
    inside = {each.rpartition(".")[2]: each for each in known if each.rpartition(".")[0] == table}
    beside = near(last, inside) if table in schema.tables else None
    if beside is not None:
        return inside[beside]
    for each in known:
        if each.rpartition(".")[2] == last:
            return each
    if table and table in schema.tables:
        return f"one of {', '.join(inside)} in [{table}]"
    anywhere = near(path, (*known, *ANY_TABLE))
    return "a key of docs/job-file.md" if anywhere is None else anywhere
