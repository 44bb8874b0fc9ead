"""The rows of the reference tables: read from CSV, checked one by one, each with its source."""

from __future__ import annotations

import csv
import math
import os
import re
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from importlib import import_module
from io import StringIO
from pathlib import Path
from typing import Any, NamedTuple

from bracecalc.errors import Mistake, TableError
from bracecalc.records.reference import (
    Column,
    LayerMaterial,
    LumberSize,
    PackerStock,
    ScrewSize,
    Species,
    TimberClass,
    columns_of,
)

COLUMNS = ("name", "property", "value", "source", "read")
ALIAS = "alias_of"
CLOSE = 0.7  # share of signs alike from which a spelling counts as a slip
RENAMED = {"height_in": "'width_in', as a board's width is called"}


class Fact(NamedTuple):
    """One row of a table: the value as written, where it comes from and how it was read."""

    name: str
    property: str
    value: str
    source: str
    read: str
    where: str


class Schema(NamedTuple):
    """A table: its file, the record of one name, the field that holds the name, the columns."""

    file: str
    record: Callable[..., Any]
    name_field: str
    properties: Mapping[str, Column]


def _schema(file: str, record: Callable[..., Any], name_field: str = "name") -> Schema:
    return Schema(file, record, name_field, {each.name: each for each in columns_of(record)})


SCHEMAS: Mapping[str, Schema] = {
    "screws": _schema("screws.csv", ScrewSize, "size"),
    "lumber": _schema("lumber.csv", LumberSize, "size"),
    "species": _schema("species.csv", Species),
    "layers": _schema("layers.csv", LayerMaterial),
    "packers": _schema("packers.csv", PackerStock),
    "timber-classes": _schema("timber_classes.csv", TimberClass),
}
NAMES = tuple(SCHEMAS)


def facts(table: str, *, own: Path | None = None) -> tuple[Fact, ...]:
    """Return the rows of a table with their sources, a user's own file laid over ours.

    Raises:
        TableError: if a file can't be read, or a row of it isn't a fact.
    """
    schema = SCHEMAS[table]
    ours = _read(schema, _shipped, schema.file)
    return ours if own is None else _laid_over(ours, _read(schema, _file, str(own)))


def _shipped(file: str) -> bytes:
    """Read by the loader of the package: on the phone it lies in a zip."""
    home = import_module("bracecalc.data")
    get_data: Callable[[str], bytes] = getattr(home.__loader__, "get_data")  # noqa: B009
    return get_data(os.path.join(home.__path__[0], file))


def _file(path: str) -> bytes:
    with open(path, "rb") as file:
        return file.read()


def _laid_over(ours: tuple[Fact, ...], theirs: tuple[Fact, ...]) -> tuple[Fact, ...]:
    aliases = {folded(f.name): folded(f.value) for f in ours if f.property == ALIAS}
    names = {folded(f.name): f.name for f in ours if f.property != ALIAS}

    def named(fact: Fact) -> Fact:
        key = folded(fact.name)
        key = aliases.get(key, key) if fact.property != ALIAS else key
        return fact._replace(name=names.get(key, fact.name))

    theirs = tuple(named(fact) for fact in theirs)
    replaced = {(folded(fact.name), fact.property) for fact in theirs}
    kept = [fact for fact in ours if (folded(fact.name), fact.property) not in replaced]
    return (*kept, *theirs)


def _read(schema: Schema, bytes_of: Callable[[str], bytes], shown: str) -> tuple[Fact, ...]:
    try:
        text = bytes_of(shown).decode("utf-8-sig")
        lines = list(csv.reader(StringIO(text, newline=""), strict=True))
    except OSError as error:
        reason = error.strerror or type(error).__name__
        raise TableError(Mistake(shown, "", reason, "a table as a CSV file")) from error
    except (UnicodeDecodeError, csv.Error) as error:
        raise TableError(Mistake(shown, "", str(error), "a CSV file in UTF-8")) from error
    if not lines or tuple(cell.strip() for cell in lines[0]) != COLUMNS:
        read = ",".join(lines[0])[:80] if lines else "an empty file"
        raise TableError(Mistake(f"{shown}, row 1", "", read, f"the columns {','.join(COLUMNS)}"))
    found: list[Fact] = []
    mistakes: list[Mistake] = []
    seen: dict[tuple[str, str, str], str] = {}
    for number, cells in enumerate(lines[1:], start=2):
        where = f"{shown}, row {number}"
        if not any(cells):
            continue
        if len(cells) != len(COLUMNS):
            right = f"{len(COLUMNS)} values: {','.join(COLUMNS)}"
            mistakes.append(Mistake(where, "", f"{len(cells)} values", right))
            continue
        fact = Fact(*map(str.strip, cells), where)  # type: ignore[call-arg]
        mistake = _mistake(schema, fact, seen)
        if mistake is None:
            found.append(fact)
        else:
            mistakes.append(mistake)
    if mistakes:
        raise TableError(*mistakes)
    return tuple(found)


def _mistake(schema: Schema, fact: Fact, seen: dict[tuple[str, str, str], str]) -> Mistake | None:
    """Return what is wrong with a row, if anything; ``seen`` remembers the rows before it."""
    name, of, value, source, read, where = fact
    if not name:
        return Mistake(where, "name", "nothing", "the name that a job uses")
    known = schema.properties.get(of)
    if known is None and of != ALIAS:
        right = RENAMED.get(of, one_of(of, (*schema.properties, ALIAS)))
        return Mistake(where, "property", repr(of), right)
    key = f"({name}, {of})"
    if not (value and source and read):
        empty = "value" if not value else "source" if not source else "read"
        right = "the document that it comes from" if empty == "source" else f"a {empty}"
        return Mistake(where, f"{key} {empty}", "nothing", right)
    if known is not None and known.words:
        if value not in known.words:
            return Mistake(where, key, repr(value), one_of(value, map(str, known.words)))
    elif known is not None and known.number:
        figure = number(value, of)
        if figure is None or not known.within.holds(figure):
            return Mistake(where, key, repr(value), _wanted(known, value if figure else ""))
    same = (folded(name), of, value if known is not None and known.many else "")
    if same in seen:
        return Mistake(where, key, f"{key} again", f"it once; it stands in {seen[same]} too")
    seen[same] = where
    return None


def _wanted(column: Column, figure: str) -> str:
    """Return what would be right; of a figure past its limits, what was likely meant."""
    within = column.within
    right = f"a number from {within.least:.10g} to {within.most:.10g}"
    if not column.name.endswith("_in"):
        return right
    from bracecalc.records.job import Units
    from bracecalc.text.slips import likely
    from bracecalc.text.units import Dimension

    meant = likely(figure, Dimension.LENGTH, Units.INCH, within).partition("?")[0]
    said = f"; {meant}?" if meant else ""
    return f"{right}, or a length as '3 1/2 in' or '90 mm'{said}"


@lru_cache(maxsize=4096)
def number(text: str, of: str) -> float | None:
    """Return the number of a property that is finite and more than 0, or None.

    A length may also be written with its unit or as a fraction; it is in inches without one.

    >>> number("875", "bending_psi"), number("3 1/2", "width_in"), number("nan", "width_in")
    (875.0, 3.5, None)
    >>> number("127 mm", "width_in")
    5.0
    """
    try:
        value = float(text)
    except ValueError:
        value = _length(text) if of.endswith("_in") else math.nan
    return value if math.isfinite(value) and value > 0.0 and "_" not in text else None


def _length(text: str) -> float:
    from bracecalc.records.job import Units
    from bracecalc.text.lengths import QuantityError, parse_length

    try:
        return parse_length(text, units=Units.INCH)
    except QuantityError:
        return math.nan


@lru_cache(maxsize=1024)
def folded(name: str) -> str:
    """Return a name without what people spell differently: capitals, blanks, quotes, "No.".

    >>> folded("No. 10"), folded("#10"), folded("Spruce-Pine-Fir"), folded('1/4"')
    ('10', '10', 'spruce-pine-fir', '1/4')
    """
    text = "".join(name.casefold().split()).replace('"', "").replace("\u00d7", "x").lstrip("#")
    number = text.removeprefix("no.").removeprefix("no")
    return number if number[:1].isdigit() else text


def nearest(name: str, names: Iterable[str]) -> str | None:
    """Return the known name that is most like the one written, None where none is.

    Whole words count first: a known name all of whose words were written, or one that has all
    the words written. Then spelling, and only where it is close.

    >>> nearest("gypsum bord", ["gypsum board", "plaster"])
    'gypsum board'
    >>> nearest("blue gypsum board", ["gypsum board", "board"]), nearest("foo", ["foam"])
    ('gypsum board', None)
    """
    import difflib

    known = {folded(each): each for each in names}
    written = _words(name)
    within = [each for each in known.values() if _words(each) <= written]
    if within:
        return max(within, key=len)
    around = [each for each in known.values() if written and written <= _words(each)]
    if around:
        return min(around, key=len)
    found = difflib.get_close_matches(folded(name), known, n=1, cutoff=CLOSE)
    return known[found[0]] if found else None


def _words(name: str) -> frozenset[str]:
    return frozenset(re.findall(r"[^\W_]+", name.casefold()))


def one_of(name: str, names: Iterable[str]) -> str:
    """Return what would be right in place of an unknown name: the nearest first, then all.

    >>> one_of("screw", ["screws", "lumber"])
    "'screws' (known: screws, lumber)"
    """
    known = list(names)
    near = nearest(name, known)
    everything = ", ".join(known)
    return f"one of: {everything}" if near is None else f"{near!r} (known: {everything})"
