"""Reference tables: ``data/*.csv`` and a user's own tables laid over them, as records.

Each table is read when something is first looked up in it, once, and checked whole.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any, TypeVar

from bracecalc.errors import Mistake, TableError
from bracecalc.records.job import Job
from bracecalc.records.reference import Column, LumberSize, ScrewSize, SoldIn, Tables
from bracecalc.tables.rows import (
    ALIAS,
    NAMES,
    SCHEMAS,
    Fact,
    facts,
    folded,
    nearest,
    number,
    one_of,
)

__all__ = ["NAMES", "SCHEMAS", "Table", "facts", "load_tables", "nearest", "one_of", "spellings"]

Row = TypeVar("Row")
# measures of one thing that must not contradict each other: the less, the more, both as fields
SOLD = (ScrewSize, LumberSize)  # sold by the inch, or by the mm where the table writes mm
_ORDERED = (
    ("root_diameter", "diameter", "root_diameter_in", "at most its diameter_in"),
    ("diameter", "head_diameter", "head_diameter_in", "at least its diameter_in"),
    ("diameter", "washer_diameter", "washer_diameter_in", "at least its diameter_in"),
)


class Table(Mapping[str, Row]):
    """The records of one table by name, read on first use; other spellings find the same record.

    Capitals, blanks and quotes don't matter, "No. 10" and "#10" are "10", and the table's own
    aliases count. Iterating gives the names of the table alone.

    >>> species = load_tables().species
    >>> species["spf"].name, species["SPRUCE-PINE-FIR"].specific_gravity
    ('Spruce-Pine-Fir', 0.42)
    """

    __slots__ = ("_aliases", "_name", "_own", "_rows")

    def __init__(self, name: str, own: Path | None) -> None:
        self._name = name
        self._own = own
        self._rows: dict[str, Row] | None = None
        self._aliases: dict[str, str] = {}

    def _loaded(self) -> dict[str, Row]:
        rows = self._rows
        if rows is None:
            # Two threads may both come here: they make equal tables, and either may stay.
            shown = SCHEMAS[self._name].file if self._own is None else str(self._own)
            rows, aliases = _records(self._name, facts(self._name, own=self._own), shown=shown)
            self._aliases = aliases
            self._rows = rows
        return rows

    def __getitem__(self, name: str) -> Row:
        rows = self._loaded()
        found = rows.get(name)
        return rows[self._aliases[folded(name)]] if found is None else found

    def __iter__(self) -> Iterator[str]:
        return iter(self._loaded())

    def __len__(self) -> int:
        return len(self._loaded())

    @property
    def own(self) -> Path | None:
        """The user's own file that is laid over the table, if there is one."""
        return self._own

    @property
    def aliases(self) -> tuple[str, ...]:
        """Further names that find a record."""
        rows = facts(self._name, own=self._own)
        return tuple(fact.name for fact in rows if fact.property == ALIAS)


def spellings(table: Mapping[str, Any]) -> tuple[str, ...]:
    """Return every name that a job may write for a row of the table, aliases among them.

    >>> "SPF" in spellings(load_tables().species)
    True
    """
    return (*table, *table.aliases) if isinstance(table, Table) else tuple(table)


def load_tables(*, overrides: Mapping[str, Path] | None = None) -> Tables:
    """Return the reference tables, a user's own laid over those of bracecalc.

    Args:
        overrides: the user's file for each table named (one of NAMES). Its rows replace ours of
            the same name and property, and add what is new. Read at once, so that a mistake in
            it is told before anything is worked out.

    Raises:
        TableError: if a user's file can't be read, or isn't a table as docs/tables.md says.

    >>> load_tables().screws["No. 10"].diameter
    0.19
    >>> load_tables() is load_tables()
    True
    """
    if not overrides:
        return _ours()
    for name, path in overrides.items():
        if name not in SCHEMAS:
            raise TableError(Mistake(str(path), "", f"table {name!r}", one_of(name, NAMES)))
    tables = _laid_out(overrides)
    for name in overrides:
        len(getattr(tables, name.replace("-", "_")))
    return tables


def tables_of(job: Job) -> Tables:
    """Return the tables that a job is planned by: its own, or those of bracecalc."""
    return load_tables() if job.tables is None else job.tables


@lru_cache(maxsize=16)
def own_files(tables: Tables) -> tuple[tuple[str, str], ...]:
    """Return the user's own files that are laid over the tables: (name of the table, path).

    >>> own_files(load_tables())
    ()
    """
    laid = ((name, getattr(tables, name.replace("-", "_"))) for name in NAMES)
    return tuple(
        (name, str(table.own)) for name, table in laid if isinstance(table, Table) and table.own
    )


@lru_cache(maxsize=1)
def _ours() -> Tables:
    return _laid_out({})


def _laid_out(own: Mapping[str, Path]) -> Tables:
    return Tables(
        screws=Table("screws", own.get("screws")),
        lumber=Table("lumber", own.get("lumber")),
        species=Table("species", own.get("species")),
        layers=Table("layers", own.get("layers")),
        packers=Table("packers", own.get("packers")),
        timber_classes=Table("timber-classes", own.get("timber-classes")),
    )


def _records(
    table: str, rows: tuple[Fact, ...], *, shown: str
) -> tuple[dict[str, Any], dict[str, str]]:
    """Return the records by name, and the name behind each folded spelling."""
    schema = SCHEMAS[table]
    values: dict[str, dict[str, Any]] = {}
    spelt: dict[str, str] = {}
    for fact in rows:
        if fact.property != ALIAS:
            name = spelt.setdefault(folded(fact.name), fact.name)
            known = schema.properties[fact.property]
            _put(values.setdefault(name, {}), known, fact)
            if schema.record in SOLD and known.number and fact.value.endswith("mm"):
                values[name]["sold_in"] = SoldIn.MM
    mistakes = [
        Mistake(shown, "", f"no row for ({name}, {key})", "a value for each that is needed")
        for name, read in values.items()
        for key, known in schema.properties.items()
        if known.required and not known.many and known.field not in read
    ]
    for fact in rows:
        if fact.property == ALIAS:
            mistakes += _alias_mistakes(fact, spelt, values)
            spelt.setdefault(folded(fact.name), fact.value)
    mistakes += [
        Mistake(shown, f"({name}, {key})", f"{read[less]:g} and {read[more]:g}", right)
        for name, read in values.items()
        for less, more, key, right in _ORDERED
        if less in read and more in read and read[less] > read[more]
    ]
    if mistakes:
        raise TableError(*mistakes)
    many = [known.field for known in schema.properties.values() if known.many]
    records = {}
    for name, read in values.items():
        for field in many:
            read[field] = tuple(sorted(read.get(field, ())))
        records[name] = schema.record(**{schema.name_field: name}, **read)
    return records, spelt


def _put(values: dict[str, Any], known: Column, fact: Fact) -> None:
    if known.many:
        values.setdefault(known.field, []).append(number(fact.value, fact.property))
    elif known.words:
        values[known.field] = known.words[known.words.index(fact.value)]
    else:
        values[known.field] = number(fact.value, fact.property) if known.number else fact.value


def _alias_mistakes(
    fact: Fact, spelt: Mapping[str, str], values: Mapping[str, object]
) -> list[Mistake]:
    key = f"({fact.name}, {ALIAS})"
    if fact.value not in values:
        return [Mistake(fact.where, key, repr(fact.value), one_of(fact.value, values))]
    other = spelt.get(folded(fact.name), fact.value)
    if other != fact.value:
        right = f"a spelling of one name; it already stands for {other!r}"
        return [Mistake(fact.where, key, repr(fact.value), right)]
    return []
