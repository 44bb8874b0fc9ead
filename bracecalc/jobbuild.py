"""Values by key -> a checked job. Every mistake is gathered, then they are told together."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any

from bracecalc.errors import JobError, Mistake
from bracecalc.jobchecks import CROSS_CHECKS, Draft
from bracecalc.keyreaders import Compiled, Context, Entry, compiled, items_of
from bracecalc.quantities import QuantityError
from bracecalc.records.job import (
    Boards,
    Built,
    Earthquake,
    Floor,
    Job,
    Loads,
    Niche,
    Rules,
    Screws,
    Stud,
    StudLayout,
    Unit,
    Units,
    Wall,
)
from bracecalc.records.reference import Tables
from bracecalc.records.surroundings import DoorSwing, FloorLoad, Opening, Route, Surroundings
from bracecalc.schema import ANY_TABLE, Group, is_required

_ALWAYS = ("niche", "unit")  # tables that every job has


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
        if path not in tables or value == {}:  # an empty table still says that it is there
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


def build_job(
    values: Mapping[str, object],
    *,
    where: str,
    tables: Tables | None = None,
    folder: Path | None = None,
    loads_bare: bool = False,
) -> Job:
    """Return the job that values by dotted key say.

    Args:
        values: as ``{"niche.width": "33 1/4 in", ...}``; an array is a list of tables, or goes by
            number (``wall.layers.1.material``).
        where: file or row, for messages.
        tables: reference tables, if not those of bracecalc or of the job itself.
        folder: where paths of the job's own tables start.
        loads_bare: a load without a unit is in pounds-force; inch jobs only.

    Raises:
        JobError: with every mistake found.
    """
    draft = Draft(where)
    schema = compiled()
    units = _units(values, draft, schema)
    own = _own_tables(values, draft, folder)
    used = own if own is not None else tables
    context = Context(units, _ours() if used is None else used, loads_bare and units is Units.INCH)
    single = schema.single
    for path, value in values.items():
        entry = single.get(path)
        if entry is None:
            _read_other(path, value, draft, context)
            continue
        try:
            draft.take(entry.slot, entry.field, entry.read(value, context))
        except QuantityError as error:
            draft.mistake(path, shown(value), str(error))
            draft.take(entry.slot, entry.field, None)
    _read_numbered(draft, context)
    _miss(draft, schema)
    for check in CROSS_CHECKS:
        check(draft)
    if draft.mistakes:
        raise JobError(*draft.mistakes)
    return _assembled(draft, units, used)


def _ours() -> Tables:
    from bracecalc.tables import load_tables

    return load_tables()


def _units(values: Mapping[str, object], draft: Draft, schema: Compiled) -> Units:
    """Return the job's units; a wrong word is told with the other keys."""
    given = values.get("units")
    if type(given) is str and given in ("inch", "mm"):
        return Units.MM if given == "mm" else Units.INCH
    return Units.MM if isinstance(given, str) and given.strip().lower() == "mm" else Units.INCH


def _own_tables(values: Mapping[str, object], draft: Draft, folder: Path | None) -> Tables | None:
    """Return bracecalc's tables with the job's own laid over them, None where it has none."""
    start = Path() if folder is None else folder
    named = {
        path.removeprefix("tables."): str(start / value)
        for path, value in values.items()
        if path.startswith("tables.") and path in compiled().single and isinstance(value, str)
    }
    if not named:
        return None
    try:
        return _laid_over(tuple((name, path, _stamp(path)) for name, path in named.items()))
    except JobError as error:
        draft.mistakes.extend(error.mistakes)
        return None


def _stamp(path: str) -> int:
    try:
        return Path(path).stat().st_mtime_ns
    except (OSError, ValueError):
        return 0


@lru_cache(maxsize=8)
def _laid_over(named: tuple[tuple[str, str, int], ...]) -> Tables:
    from bracecalc.tables import load_tables

    return load_tables(overrides={name: Path(path) for name, path, _ in named})


def _read_other(path: str, value: object, draft: Draft, context: Context) -> None:
    """Read an array, keep a part of one for later, or name the nearest key."""
    schema = compiled()
    if path in schema.arrays:
        _read_array(path, value, draft, context)
        return
    if path in schema.tables and value == {}:
        draft.slots.setdefault(path, {})
        return
    if path in ANY_TABLE:
        right_kind = Mapping if path == "as_found" else (Mapping, list, tuple)
        if isinstance(value, right_kind):
            draft.raw[path] = value
        else:
            draft.mistake(path, shown(value), f"a table, as [{path}]")
        return
    array, _, rest = _numbered(path)
    if array in schema.arrays and rest in schema.arrays[array]:
        draft.numbered.setdefault(array, {})[path] = value
        return
    draft.mistake(path, "an unknown key", _nearest(path, schema))


def _numbered(path: str) -> tuple[str, int, str]:
    """Split ``wall.layers.1.material`` at its number; no number gives ``("", 0, "")``."""
    front, _, name = path.rpartition(".")
    array, _, number = front.rpartition(".")
    if number.isascii() and number.isdigit() and len(number) <= 3:
        return array, int(number), name
    return "", 0, ""


def _read_numbered(draft: Draft, context: Context) -> None:
    for array, parts in draft.numbered.items():
        items: dict[int, dict[str, object]] = {}
        for path, value in parts.items():
            _, number, name = _numbered(path)
            items.setdefault(number, {})[name] = value
        if array in draft.slots:
            draft.mistake(array, "a list and numbered keys", "one of the two")
            continue
        _read_array(array, [items[number] for number in sorted(items)], draft, context)


def _read_array(path: str, value: object, draft: Draft, context: Context) -> None:
    schema = compiled()
    group = schema.groups[path]
    draft.slots[path] = {"items": ()}
    try:
        tables = items_of(value, group)
    except QuantityError as error:
        draft.mistake(path, shown(value), str(error))
        return
    entries = schema.arrays[path]
    count = len(draft.mistakes)
    read = [
        _read_item(f"{path}.{number}", table, entries, draft, context)
        for number, table in enumerate(tables, 1)
    ]
    if len(draft.mistakes) == count and group.record is not None:
        draft.slots[path] = {"items": tuple(group.record(**fields) for fields in read)}


def _read_item(
    path: str,
    table: Mapping[str, object],
    entries: Mapping[str, Entry],
    draft: Draft,
    context: Context,
) -> dict[str, Any]:
    fields: dict[str, Any] = {}
    for name, value in table.items():
        entry = entries.get(name)
        if entry is None:
            right = f"one of {', '.join(entries)}"
            draft.mistake(f"{path}.{name}", "an unknown key", _near(str(name), entries, right))
            continue
        try:
            fields[entry.field] = entry.read(value, context)
        except QuantityError as error:
            draft.mistake(f"{path}.{name}", shown(value), str(error))
            fields[entry.field] = None
    for name, entry in entries.items():
        if entry.field not in fields and _required(entry.group, name):
            draft.mistake(f"{path}.{name}", "nothing", f"{entry.key.what} ({entry.key.kind.value})")
    return fields


@lru_cache(maxsize=512)
def _required(group: Group, name: str) -> bool:
    return any(key.name == name and is_required(group, key) for key in group.keys)


def _near(name: str, names: Mapping[str, object], otherwise: str) -> str:
    from difflib import get_close_matches

    found = get_close_matches(name, list(names), n=1)
    return f"{found[0]}, the nearest known key" if found else otherwise


def _nearest(path: str, schema: Compiled) -> str:
    """Return the advice for an unknown key: the nearest path, or the same name elsewhere."""
    known = {**schema.single, **schema.arrays, **dict.fromkeys(ANY_TABLE)}
    named = dict.fromkeys((*known, *(table for table in schema.tables if table)))
    last = path.rpartition(".")[2]
    same = [each for each in named if each.rpartition(".")[2] == last]
    otherwise = f"{same[0]}" if same else "a key of docs/job-file.md"
    table = path.partition(".")[0]
    if not same and table in schema.tables:
        keys = [each.removeprefix(f"{table}.") for each in known if each.startswith(f"{table}.")]
        otherwise = f"one of {', '.join(keys)} in [{table}]"
    return _near(path[:100], named, otherwise)


@lru_cache(maxsize=1)
def _required_keys() -> Mapping[str, tuple[Entry, ...]]:
    needed: dict[str, list[Entry]] = {}
    for entry in compiled().single.values():
        if is_required(entry.group, entry.key):
            needed.setdefault(entry.slot, []).append(entry)
    return {slot: tuple(entries) for slot, entries in needed.items()}


def _miss(draft: Draft, schema: Compiled) -> None:
    """Tell each key that must stand in its table and doesn't."""
    for slot, entries in _required_keys().items():
        fields = draft.slots.get(slot)
        if fields is None:
            if slot not in _ALWAYS:
                continue
            fields = {}
        for entry in entries:
            if entry.field not in fields:
                path = entry.group.path_of(entry.key)
                draft.mistake(path, "nothing", f"{entry.key.what} ({entry.key.kind.value})")
    if "wall.layers" not in draft.slots:
        right = (
            "the layers on the studs, as [{ material = \"gypsum board\", thickness = '1/2 in' }]"
        )
        draft.mistake("wall.layers", "nothing", f"{right}; [] for bare studs")


@lru_cache(maxsize=1)
def _left_out() -> Mapping[type[Any], Any]:
    """Return each record with nothing given; frozen, so that jobs may share them."""
    records = (Boards, Floor, Loads, Rules, Screws, Stud, Surroundings)
    return {record: record() for record in records}


def _assembled(draft: Draft, units: Units, tables: Tables | None) -> Job:
    fields = draft.fields
    top = fields("")
    loads = fields("loads")
    if "earthquake" in draft.slots:
        loads["earthquake"] = Earthquake(**fields("earthquake"))
    if "loads.load_duration" in draft.slots:
        loads["load_duration"] = fields("loads.load_duration")
    return Job(
        title=top.get("title", _title(draft.where)),
        units=units,
        niche=Niche(**draft.with_items("niche", "soffit_layers")),
        wall=_wall(draft),
        unit=Unit(**draft.with_items("unit", "doors")),
        floor=_record(Floor, fields("floor")),
        boards=_record(Boards, fields("boards")),
        screws=_record(Screws, draft.with_items("screws", "carried", "published")),
        rules=_record(Rules, fields("rules")),
        loads=_record(Loads, loads),
        surroundings=_surroundings(draft),
        built=Built(**fields("built")) if "built" in draft.slots else None,
        tables=tables,
        as_found=draft.raw.get("as_found", {}),
        where=draft.where,
    )


def _record(record: type[Any], fields: Mapping[str, Any]) -> Any:
    return record(**fields) if fields else _left_out()[record]


def _title(where: str) -> str:
    """Return the title of a job that has none: its file's name without the ending."""
    stem = Path(where).stem if where not in ("", "-") else ""
    return stem if stem else "Untitled"


def _wall(draft: Draft) -> Wall:
    fields = draft.with_items("wall", "layers")
    layout = draft.slots.get("wall.stud_layout")
    if layout is not None:
        fields["stud_layout"] = StudLayout(**layout)
    return Wall(stud=_record(Stud, draft.fields("wall.stud")), **fields)


def _surroundings(draft: Draft) -> Surroundings:
    slots = draft.slots
    if not draft.surrounded:
        return _left_out()[Surroundings]  # type: ignore[no-any-return]
    single: dict[str, type[Any]] = {
        "opening": Opening,
        "floor_load": FloorLoad,
        "door_swing": DoorSwing,
    }
    fields = {name: record(**slots[name]) for name, record in single.items() if name in slots}
    if "route" in slots or "route.doorways" in slots:
        fields["route"] = Route(**draft.with_items("route", "doorways"))
    for name in ("clearances", "services", "supply_lines"):
        if name in slots:
            fields[name] = slots[name]["items"]
    return Surroundings(**fields)
