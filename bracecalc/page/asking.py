"""What the page must know before its engine has started: names, limits, further keys.

The steps of the page are written by hand (site/js/questions.js). Every other key of a job file can
be entered too: what is asked for it is made here from the keys themselves, so that whatever a
finding names has a field.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from bracecalc.jobfile.limits import limits_in_words
from bracecalc.records.job import Units, job_groups
from bracecalc.records.keys import Group, Key, Kind
from bracecalc.tables.load import load_tables

# Arrays of tables that hold one thing more than one entry of the page could say.
LEFT_OUT = (
    "screws.carried",
    "screws.published",
    "unit.doors",
    "wall.layers",
    "floor.down_from_line",
)
CALLED = {"unit": "appliance", "path high": "highest floor on the way in"}
ONE = 1  # an array of tables is asked for its first one
STEPS = frozenset(
    (
        "title",
        "units",
        "niche.width",
        "niche.depth",
        "niche.soffit",
        "niche.soffit_solid",
        "floor.front_left",
        "floor.front_right",
        "floor.rear_left",
        "floor.rear_right",
        "wall.stud.material",
        "wall.stud.species",
        "wall.stud_spots",
        "unit.height",
        "unit.height_overall",
        "unit.width",
        "unit.depth",
        "unit.leg_travel",
        "unit.leg_pitch",
        "unit.weight",
        "unit.cg_height",
        "unit.cg_behind_front_legs",
        "unit.front_legs_behind_front",
        "boards.size",
        "boards.species",
    )
)
SHAPES: dict[Kind, dict[str, Any]] = {
    Kind.FLAG: {"kind": "choice", "shape": "flag"},
    Kind.LENGTH: {"kind": "length", "signed": True},
    Kind.LENGTHS: {"kind": "length", "many": "Another place"},
    Kind.SPOTS: {"kind": "length", "list": True},
    Kind.RANGE: {"kind": "length", "list": True},
    Kind.PAIR: {"kind": "length", "list": True},
    Kind.FORCE: {"kind": "weight"},
}


def choices() -> dict[str, list[str]]:
    """Return the names that the steps offer."""
    tables = load_tables()
    return {
        "materials": list(tables.layers),
        "boards": list(tables.lumber),
        "species": list(tables.species),
    }


def limits() -> dict[str, dict[str, Any]]:
    """Return the limits of each length, in inches, with the words of the command line."""
    found = {}
    for group, key in _keys():
        if key.kind in (Kind.LENGTH, Kind.LENGTHS, Kind.SPOTS) and limits_in_words(key):
            within = key.within
            bounds = {"above": within.above, "least": within.least, "most": within.most}
            told = {name: bound for name, bound in bounds.items() if bound is not None}
            words = {units: limits_in_words(key, units) for units in Units}
            found[_path(group, key)] = {**told, "words": words}
    return found


def more() -> list[dict[str, Any]]:
    """Return the sections of what the steps don't ask, each ``{name, questions}``."""
    sections: dict[str, list[dict[str, Any]]] = {}
    for group, key in _keys():
        path = _path(group, key)
        if path in STEPS or key.kind is Kind.FILE or group.path in LEFT_OUT:
            continue
        sections.setdefault(group.path, []).append(_question(path, key))
    return [
        {"name": f"More: {_section_name(path)}", "questions": questions}
        for path, questions in sections.items()
    ]


def _keys() -> Iterator[tuple[Group, Key]]:
    return ((group, key) for group in job_groups() for key in group.keys)


def _path(group: Group, key: Key) -> str:
    return f"{group.path}.{ONE}.{key.name}" if group.many else group.path_of(key)


def _section_name(path: str) -> str:
    parts = (part.replace("_", " ") for part in path.split("."))
    return ", ".join(CALLED.get(part, part) for part in parts)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _question(path: str, key: Key) -> dict[str, Any]:
    parts = (part.replace("_", " ") for part in path.split(".") if part != str(ONE))
    *tables, name = (CALLED.get(part, part) for part in parts)
    label = f"{_capital(name)} ({', '.join(tables)})"
    shape: Mapping[str, Any] = SHAPES.get(key.kind, {"kind": "text"})
    hint = f"{_capital(key.what)}."
    question: dict[str, Any] = {"key": path, "label": label, "hint": hint, **shape}
    if key.kind is Kind.CHOICE:
        question |= {"kind": "choice", "options": list(key.choices)}
    elif key.kind is Kind.NAME:
        names = getattr(load_tables(), key.table.replace("-", "_"))
        question |= {"kind": "choice", "options": list(names)}
    return question
