"""Answers as they were typed -> a commented job file that keeps them as they are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from bracecalc.jobfile.paths import SHEET
from bracecalc.jobfile.write import comment_lines, quoted
from bracecalc.records.job import job_groups
from bracecalc.records.keys import Group, Key, Kind

SHEET_WHAT = "The appliance's spec sheet, a file for the whole building"
IN_QUOTES = (Kind.TEXT, Kind.CHOICE, Kind.NAME, Kind.FILE)
SEVERAL = (Kind.LENGTHS, Kind.SPOTS, Kind.RANGE, Kind.PAIR)


def answers_to_toml(values: Mapping[str, object]) -> str:
    """Return a commented job file with values as they were typed, by dotted key.

    Args:
        values: texts and flags by path; an array is a list of such mappings by key.

    >>> print(answers_to_toml({"boards.size": "2x4", "boards.end_gap": "1/8 in"}), end="")
    # The lumber of the stack
    [boards]
    # Nominal size
    size = "2x4"
    # From each end of the board to the side of the niche
    end_gap = '1/8 in'
    """
    lines: list[str] = []
    opened = ""
    for group in job_groups():
        if group.path and SHEET in values and not any(SHEET_WHAT in line for line in lines):
            lines.extend((f"# {SHEET_WHAT}", f"{SHEET} = {quoted(str(values[SHEET]))}"))
        if group.many:
            lines.extend(_tables(group, values.get(group.path)))
            continue
        body = list(_body(group, values))
        if body and group.path != opened:
            opened = group.path
            lines.extend(("", *comment_lines(group.what), f"[{group.path}]"))
        lines.extend(body)
    return "\n".join(lines).strip("\n") + "\n"


def _body(group: Group, values: Mapping[str, object]) -> Iterator[str]:
    for key in group.keys:
        path = group.path_of(key)
        if path in values:
            yield from comment_lines(key.what)
            yield f"{key.name} = {_typed(key, values[path])}"
    for inner in job_groups():  # an empty list has no table to stand in but its parent's
        parent, _, name = inner.path.rpartition(".")
        if inner.many and parent == group.path and values.get(inner.path) == [] and not group.slot:
            yield from comment_lines(inner.what)
            yield f"{name} = []"


def _tables(group: Group, items: Any) -> Iterator[str]:
    for number, item in enumerate(() if items is None else items):
        yield ""
        if not number:
            yield from comment_lines(group.what)
        yield f"[[{group.path}]]"
        for key in group.keys:
            if key.name in item:
                yield from comment_lines(key.what)
                yield f"{key.name} = {_typed(key, item[key.name])}"


def _typed(key: Key, value: object) -> str:
    """Write one answer; numbers stay the text that was typed, for the reader to read."""
    if isinstance(value, bool):
        return "true" if value else "false"
    text = str(value)
    if key.kind in SEVERAL:
        parts = text.replace(" to ", ";").split(";")
        if len(parts) > 1:
            return f"[{', '.join(_literal(part.strip()) for part in parts)}]"
    return quoted(text) if key.kind in IN_QUOTES else _literal(text)


def _literal(text: str) -> str:
    """Write a length or a load: as it stands between single quotes where that can be."""
    return quoted(text) if "'" in text or not text.isprintable() else f"'{text}'"
