"""A job as the page keeps it: the text it was opened from, and what was typed over it by key.

A key is that of the job file, tables in an array by number from 1 (``unit.doors.1.reach``). A key
that starts with ``~`` is a choice of the page itself: how floors are read (``~floor``,
``~as_found.floor``: ``up`` or ``down``), how many doors it asks for (``~doors``), or what of the
file is not there (``~without.niche.soffit``, ``~without.unit.doors.2``).
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.as_found import SIDES
from bracecalc.records.job import CORNERS, job_groups
from bracecalc.records.keys import Kind, find_key
from bracecalc.text.lists import split_list
from bracecalc.text.units import QuantityError

OWN = "~"
WITHOUT = "~without."  # before a key of the file that is to be left out
BARE = "~bare"  # what the page gives as the material of a wall that has no finish
AS_FOUND = "as_found"
FLOORS = ("floor", f"{AS_FOUND}.floor")
DOWN = "down_from_line"
MOST = 50  # tables in an array; a unit has a few doors
NAMED = {"floor": CORNERS, "legs": CORNERS, "board": SIDES}

Table = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Asked:
    """One request of the page: a job's text and what was typed over it."""

    text: str
    entries: Mapping[str, Any]

    def base(self) -> Table:
        """Return what the text says, by table.

        Raises:
            JobError: if the text isn't TOML.
        """
        try:
            return tomllib.loads(self.text)
        except ValueError as error:
            raise JobError(Mistake("", "", "", f"a job file ({error})")) from None

    def merged(self) -> Table:
        """Return the tables with what was typed in its place.

        Raises:
            JobError: if the text isn't TOML, or what was typed has a key that no job has.
        """
        nested = self.base()
        _by_name(nested)
        for path, value in self.changes():
            put(nested, path, value)
        for path in self.withdrawn():
            drop(nested, path)
        return nested

    def changes(self) -> Iterator[tuple[str, Any]]:
        """Yield each path and value that was typed, as the job file has it."""
        ways = dict(self._ways())
        for path, value in self.entries.items():
            if path.startswith(OWN) or _other_way(path, ways):
                continue
            if value == BARE:
                yield "wall.layers", []
            elif value in ("true", "false") and _kind(path) is Kind.FLAG:
                yield path, value == "true"
            else:
                yield path, value

    def withdrawn(self) -> Iterator[str]:
        """Yield the paths that what was typed takes the place of."""
        for table, way in self._ways():
            if way == DOWN:
                yield from (f"{table}.{corner}" for corner in CORNERS)
            else:
                yield f"{table}.{DOWN}"
        if "wall.stud_spots" in self.entries:
            yield "wall.stud_layout"
        # the last of an array first, so that the numbers of the others stay true
        yield from sorted(
            (
                key.removeprefix(WITHOUT)
                for key, value in self.entries.items()
                if key.startswith(WITHOUT) and value == "true"
            ),
            key=lambda path: (len(path), path),
            reverse=True,
        )

    def _ways(self) -> Iterator[tuple[str, str]]:
        for table in FLOORS:
            chosen = self.entries.get(f"{OWN}{table}")
            if chosen is not None:
                yield table, DOWN if chosen == "down" else "up"

    @property
    def on_site(self) -> bool:
        """Whether anything was found on site."""
        return any(key.startswith(f"{AS_FOUND}.") for key in self.entries) or (
            AS_FOUND in self.base()
        )


def _other_way(path: str, ways: Mapping[str, str]) -> bool:
    """Return whether a floor height was typed while the floor was read the other way."""
    for table, way in ways.items():
        if path.startswith(f"{table}."):
            return path.startswith(f"{table}.{DOWN}.") != (way == DOWN)
    return False


def _by_name(nested: Table) -> None:
    """Turn readings that stand in one text or list into a table, so that one can be put in it."""
    found = nested.get(AS_FOUND)
    for key, names in NAMED.items():
        value = found.get(key) if isinstance(found, dict) else None
        points = _listed(value)
        if isinstance(points, list) and len(points) == len(names):
            nested[AS_FOUND][key] = dict(zip(names, points, strict=True))


def _listed(value: Any) -> Any:
    """Return the values of a text; what can be read two ways stays whole, to be refused."""
    if not isinstance(value, str):
        return value
    try:
        return split_list(value)
    except QuantityError:
        return value


def put(nested: Table, path: str, value: Any) -> None:
    """Put a value at a path; a number in it counts in an array from 1.

    Raises:
        JobError: if no job has such a path.

    >>> tables = {"wall": {"layers": [{"material": "plaster"}]}}
    >>> put(tables, "wall.layers.1.thickness", "3/4 in")
    >>> put(tables, "floor.front_left", "1/8 in")
    >>> tables["wall"]["layers"][0]["thickness"], tables["floor"]
    ('3/4 in', {'front_left': '1/8 in'})
    """
    *tables, last = path.split(".")
    place: Any = nested
    for name, following in zip(tables, [*tables, last][1:], strict=True):
        if isinstance(place, list):
            if not (name.isdecimal() and 0 < int(name) <= MOST):
                raise _no_such(path)
            place.extend({} for _ in range(int(name) - len(place)))
            place = place[int(name) - 1]
        else:
            if not isinstance(place.get(name), (dict, list)):
                place[name] = [] if following.isdecimal() else {}
            place = place[name]
    if not isinstance(place, dict) or not last:
        raise _no_such(path)
    place[last] = value


def _no_such(path: str) -> JobError:
    return JobError(Mistake("", path[:80], "", "a key of a job file"))


def drop(nested: Table, path: str) -> None:
    """Take the value at a path away, if there is one; with its last table an array goes too.

    >>> tables = {"unit": {"doors": [{"reach": "14 in"}]}, "niche": {"soffit": "90 in"}}
    >>> drop(tables, "unit.doors.1")
    >>> drop(tables, "niche.soffit")
    >>> tables
    {'unit': {}, 'niche': {}}
    """
    *tables, last = path.split(".")
    place: Any = nested
    for name in tables:
        place = _inside(place, name)
    if isinstance(place, dict):
        place.pop(last, None)
    elif isinstance(place, list) and _inside(place, last) is not None:
        del place[int(last) - 1]
        if not place:
            drop(nested, ".".join(tables))


def _inside(place: Any, name: str) -> Any:
    if isinstance(place, dict):
        return place.get(name)
    if isinstance(place, list) and name.isdecimal() and 0 < int(name) <= len(place):
        return place[int(name) - 1]
    return None


def written(nested: Mapping[str, Any], *, units: str) -> dict[str, str]:
    """Return each value as it stands in the file, by its path; a bare length with the job's unit.

    >>> written({"floor": {"front_left": 0}, "title": "3B"}, units="in")
    {'floor.front_left': '0 in', 'title': '3B'}
    """
    return dict(_spread(nested, "", units))


def _spread(value: Any, path: str, units: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, Mapping):
        for name, inside in value.items():
            yield from _spread(inside, f"{path}.{name}" if path else name, units)
    elif isinstance(value, list) and value and all(isinstance(one, Mapping) for one in value):
        for number, inside in enumerate(value, start=1):
            yield from _spread(inside, f"{path}.{number}", units)
    elif isinstance(value, list):
        yield path, ", ".join(_shown(one, path, units) for one in value)
    else:
        yield path, _shown(value, path, units)


def _shown(value: Any, path: str, units: str) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (int, float)) and _is_length(path):
        return f"{value} {units}"
    return str(value)


def _is_length(path: str) -> bool:
    if path.startswith(f"{AS_FOUND}."):
        return True
    return _kind(path) in (Kind.LENGTH, Kind.LENGTHS, Kind.SPOTS)


def _kind(path: str) -> Kind | None:
    plain = ".".join(part for part in path.split(".") if not part.isdigit())
    try:
        return find_key(job_groups(), plain)[1].kind
    except ValueError:
        return None
