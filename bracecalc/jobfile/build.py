"""Values by key -> a checked job. Every mistake is gathered, then they are told together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from bracecalc.errors import JobError
from bracecalc.jobfile.checks import CROSS_CHECKS, Draft
from bracecalc.jobfile.paths import near, nearest_key, numbered, shown
from bracecalc.jobfile.readers import ANY_TABLE, Compiled, Context, Entry, compiled, items_of
from bracecalc.jobfile.sheet_file import with_sheet
from bracecalc.records.job import Job, Units
from bracecalc.records.keys import Table, table_beside
from bracecalc.records.reference import Tables
from bracecalc.text.lengths import QuantityError

_ALWAYS = ("niche", "unit")  # tables that every job has


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
    values = with_sheet(values, where=where, folder=folder)
    draft = Draft(where)
    schema = compiled()
    units = _units(values, draft, schema)
    own = _own_tables(values, draft, folder)
    used = own if own is not None else tables
    context = Context(units, _ours() if used is None else used, loads_bare and units is Units.INCH)
    read_values(values, draft, context)
    tell_missing(draft)
    for check in CROSS_CHECKS:
        check(draft)
    if draft.mistakes:
        raise JobError(*draft.mistakes)
    return _assembled(draft, units, used)


def read_values(values: Mapping[str, object], draft: Draft, context: Context) -> None:
    """Read values by dotted key into a draft; what can't be read is a mistake in it."""
    single = compiled().single
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


def _ours() -> Tables:
    from bracecalc.tables.load import load_tables

    return load_tables()


def _units(values: Mapping[str, object], draft: Draft, schema: Compiled) -> Units:
    """Return the job's units; a wrong word is told with the other keys."""
    given = values.get("units")
    if type(given) is str and given in ("inch", "mm"):
        return Units.MM if given == "mm" else Units.INCH
    return Units.MM if isinstance(given, str) and given.strip().lower() == "mm" else Units.INCH


def _own_tables(values: Mapping[str, object], draft: Draft, folder: Path | None) -> Tables | None:
    """Return bracecalc's tables with the job's own laid over them, None where it has none."""
    named = {
        path.removeprefix("tables."): value
        for path, value in values.items()
        if path.startswith("tables.") and path in compiled().single and isinstance(value, str)
    }
    if not named:
        return None
    start = Path() if folder is None else folder
    paths = {name: str(start / value) for name, value in named.items()}
    try:
        return _laid_over(tuple((name, path, _stamp(path)) for name, path in paths.items()))
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
    from bracecalc.tables.load import load_tables

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
    array, _, rest = numbered(path)
    if array in schema.arrays and rest in schema.arrays[array]:
        draft.numbered.setdefault(array, {})[path] = value
        return
    _unknown(path, draft, nearest_key(path, schema))


def _read_numbered(draft: Draft, context: Context) -> None:
    for array, parts in draft.numbered.items():
        items: dict[int, dict[str, object]] = {}
        for path, value in parts.items():
            _, number, name = numbered(path)
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
            like = near(str(name), entries)
            meant = f"one of {', '.join(entries)}" if like is None else f"{path}.{like}"
            _unknown(f"{path}.{name}", draft, meant)
            continue
        try:
            fields[entry.field] = entry.read(value, context)
        except QuantityError as error:
            draft.mistake(f"{path}.{name}", shown(value), str(error))
            fields[entry.field] = None
    for name, entry in entries.items():
        if entry.field not in fields and entry.key.required:
            draft.missing(f"{path}.{name}", f"{entry.key.kind.value}: {entry.key.what}")
    return fields


def _unknown(path: str, draft: Draft, meant: str) -> None:
    draft.mistake(path, "an unknown key", meant)
    draft.meant.add(meant)


@lru_cache(maxsize=1)
def _required_keys() -> Mapping[str, tuple[Entry, ...]]:
    needed: dict[str, list[Entry]] = {}
    for entry in compiled().single.values():
        if entry.key.required:
            needed.setdefault(entry.slot, []).append(entry)
    return {slot: tuple(entries) for slot, entries in needed.items()}


def tell_missing(draft: Draft, part: str = "") -> None:
    """Tell each key that must stand in its table and doesn't, in one part of the job or in all."""
    for slot, entries in _required_keys().items():
        if part and entries[0].group.path.partition(".")[0] != part:
            continue
        fields = draft.slots.get(slot)
        if fields is None:
            if slot not in _ALWAYS:
                continue
            fields = {}
        for entry in entries:
            if entry.field not in fields:
                path = entry.group.path_of(entry.key)
                draft.missing(path, f"{entry.key.kind.value}: {entry.key.what}")
    if part in ("", "wall") and "wall.layers" not in draft.slots:
        right = (
            "the layers on the studs, as [{ material = \"gypsum board\", thickness = '1/2 in' }]"
        )
        draft.missing("wall.layers", f"{right}; [] for bare studs")


def _assembled(draft: Draft, units: Units, tables: Tables | None) -> Job:
    given = {"title": _title(draft.where), **_fields(Job, "", draft)}
    known = {"units": units, "tables": tables, "where": draft.where}
    return Job(**{**given, **known, "as_found": draft.raw.get("as_found", {})})


def record_of(part: str, draft: Draft) -> Any:
    """Return the record of one part of a job that has one of its own."""
    record: Any = PARTS[part]
    fields = _fields(record, part, draft)
    return record(**fields) if fields else _empty(record)


@cache
def _empty(record: type[Any]) -> Any:
    """Return a record with nothing given; frozen, so that jobs may share it."""
    return record()


@cache
def _tables_in(record: type[Any]) -> tuple[tuple[str, Table], ...]:
    """Return the tables that stand in a record, by the field that each fills."""
    beside = ((one.name, table_beside(one)) for one in fields(record))
    return tuple((name, table) for name, table in beside if table is not None)


def _fields(record: Any, path: str, draft: Draft, slot: str = "") -> dict[str, Any]:
    """Return what was read for a record, the records in it among them."""
    found = dict(draft.fields(slot if slot else path))
    for name, table in _tables_in(record):
        below = name if table.here or not path else f"{path}.{name}"
        given = draft.slots.get(below)
        if table.many:
            if given is not None:
                found[name] = given["items"]
        elif table.record is None:
            if given is not None and name not in found:  # a check may have filled the field
                found[name] = given
        else:
            inside = _fields(table.record, path if table.here else below, draft, below)
            if inside or given is not None:
                found[name] = table.record(**inside)
    return found


def _title(where: str) -> str:
    """Return the title of a job that has none: its file's name without the ending."""
    stem = Path(where).stem if where not in ("", "-") else ""
    return stem if stem else "Untitled"


# the record of each part of a job that has one of its own
PARTS: Mapping[str, type[Any]] = {
    name: table.record
    for name, table in _tables_in(Job)
    if table.record is not None and not table.here
}
