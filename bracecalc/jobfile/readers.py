"""One reader for each key of the schema, made once: a value as written in, a checked value out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache
from typing import Any, NamedTuple

from bracecalc.jobfile.limits import DIMENSIONS, refuse_outside
from bracecalc.records.job import Layer, Units, job_groups
from bracecalc.records.keys import ANY, Group, Key, Kind
from bracecalc.records.reference import Tables
from bracecalc.text.layers import read_layer, read_layers
from bracecalc.text.lengths import Dimension, QuantityError, parse_length, parse_quantity
from bracecalc.text.lists import split_list

LONGEST_NAME = 200
MOST_READINGS = 64  # in one list; a niche has a few studs, a unit a few doors
TWO_LENGTHS = "['32 in', '34 in']"  # the example in a file

ANY_TABLE = ("as_found", "as_found_record")  # read by the check on site, passed on as they are
_FLAGS = {"true": True, "yes": True, "false": False, "no": False}


class Context(NamedTuple):
    """What a value is read against.

    ``loads_bare`` lets a number without a unit be a load in pounds-force, as records take them.
    """

    units: Units
    tables: Tables
    loads_bare: bool = False


Reader = Callable[[object, Context], Any]


class Entry(NamedTuple):
    """Where the value of a key goes, and how it is read."""

    group: Group
    key: Key
    slot: str
    field: str
    read: Reader


class Compiled(NamedTuple):
    """The schema made ready: single keys by path, arrays by path, paths that are tables."""

    single: Mapping[str, Entry]
    arrays: Mapping[str, Mapping[str, Entry]]
    groups: Mapping[str, Group]
    tables: frozenset[str]


@lru_cache(maxsize=1)
def compiled() -> Compiled:
    """Return the schema ready for reading; built once."""
    single: dict[str, Entry] = {}
    arrays: dict[str, dict[str, Entry]] = {}
    groups: dict[str, Group] = {}
    tables: set[str] = set()
    for group in job_groups():
        groups[group.name] = group
        entries = {
            key.name: Entry(group, key, group.name, key.field, reader_of(key)) for key in group.keys
        }
        if group.many:
            arrays[group.path] = entries
            continue
        tables.add(group.path)
        single.update((group.path_of(entry.key), entry) for entry in entries.values())
    return Compiled(single, arrays, groups, frozenset(tables))


def reader_of(key: Key) -> Reader:
    """Return the function that reads and checks one key."""
    kind = key.kind
    if kind is Kind.LENGTH:
        return _length_reader(key)
    if kind in (Kind.LENGTHS, Kind.SPOTS):
        return _lengths_reader(key)
    if kind in (Kind.RANGE, Kind.PAIR):
        return _pair_reader(key)
    if kind in DIMENSIONS:
        return _quantity_reader(key, DIMENSIONS[kind])
    if kind is Kind.CHOICE:
        return _choice_reader(key)
    if kind is Kind.NAME:
        return _name_reader(key)
    return _read_flag if kind is Kind.FLAG else _read_text


def _check(number: float, key: Key, value: object, context: Context) -> None:
    refuse_outside(number, key.within, value, kind=key.kind, what=key.what, units=context.units)


def _length_reader(key: Key) -> Reader:
    if key.within == ANY:
        return lambda value, context: parse_length(value, units=context.units)

    def read(value: object, context: Context) -> float:
        number = parse_length(value, units=context.units)
        _check(number, key, value, context)
        return number

    return read


def _several(value: object) -> tuple[object, ...]:
    """Return the readings in a list, or in a text as ``split_list`` reads it."""
    if isinstance(value, (list, tuple)):
        return tuple(value[: MOST_READINGS + 1])
    if isinstance(value, str) and (";" in value or "," in value):
        return tuple(split_list(value))
    return (value,)


def _lengths_reader(key: Key) -> Reader:
    one = _length_reader(key)
    wanted = f"at least one length ({key.what})"

    def read(value: object, context: Context) -> tuple[float, ...]:
        if type(value) is str and ";" not in value and "," not in value:
            return (one(value, context),)
        parts = _several(value)
        if len(parts) > MOST_READINGS:
            raise QuantityError(f"at most {MOST_READINGS} lengths")
        if not parts and key.kind is Kind.LENGTHS:
            raise QuantityError(wanted)
        return tuple(one(part, context) for part in parts)

    return read


def _pair_reader(key: Key) -> Reader:
    one = _length_reader(key)
    wanted = f"two lengths, as {TWO_LENGTHS} ({key.what})"

    def read(value: object, context: Context) -> tuple[float, float]:
        split = value.replace(" to ", ";") if isinstance(value, str) else value
        parts = _several(split)
        if len(parts) != 2:
            raise QuantityError(wanted)
        low, high = (one(part, context) for part in parts)
        if low > high and key.kind is Kind.RANGE:
            raise QuantityError(f"the least first: {wanted}")
        return low, high

    return read


def _quantity_reader(key: Key, dimension: Dimension) -> Reader:
    whole = dimension is Dimension.COUNT
    load = dimension in (Dimension.FORCE, Dimension.PRESSURE, Dimension.RATE)

    def read(value: object, context: Context) -> float:
        if load and context.loads_bare and type(value) in (int, float):
            value = f"{value!r} {dimension.unit}"
        number = parse_quantity(value, dimension)
        _check(number, key, value, context)
        return int(number) if whole else number

    return read


def _choice_reader(key: Key) -> Reader:
    choices = {choice.casefold(): choice for choice in key.choices}
    wanted = " or ".join(f'"{choice}"' for choice in key.choices)

    def read(value: object, context: Context) -> str:
        found = choices.get(value.strip().casefold()) if isinstance(value, str) else None
        if found is None:
            raise QuantityError(f"{wanted} ({key.what})")
        return found

    return read


@lru_cache(maxsize=16)
def _spelt(tables: Tables, table: str) -> dict[str, str]:
    """Return the name to use for each folded spelling of a table; found once."""
    from bracecalc.tables.names import spelt

    return spelt(getattr(tables, table), table.replace("_", "-"))


def _name_reader(key: Key) -> Reader:
    def read(value: object, context: Context) -> str:
        from bracecalc.tables.names import row_name
        from bracecalc.tables.rows import folded

        text = str(value) if type(value) in (str, int) else ""
        if not text:
            raise QuantityError(f"a name in quotes ({key.what})")
        found = _spelt(context.tables, key.table).get(folded(text[:LONGEST_NAME]))
        if found is not None:
            return found
        return row_name(
            getattr(context.tables, key.table), text, called=key.table.replace("_", "-")
        )

    return read


def _read_flag(value: object, context: Context) -> bool:
    if isinstance(value, bool):
        return value
    found = _FLAGS.get(value.strip().casefold()) if isinstance(value, str) else None
    if found is None:
        raise QuantityError("true or false")
    return found


def _read_text(value: object, context: Context) -> str:
    text = str(value) if type(value) in (str, int) else ""
    if not text.strip() or len(text) > LONGEST_NAME or not text.isprintable():
        raise QuantityError(f"text on one line, 1 to {LONGEST_NAME} characters")
    return text.strip()


def items_of(value: object, group: Group) -> list[Mapping[str, object]]:
    """Return the tables of an array; layers may be a text, as in a spreadsheet's cell.

    Raises:
        QuantityError: if it isn't a list of tables.

    >>> items_of("gypsum board 1/2 in; plywood 3/4 in", compiled().groups["wall.layers"])[1]
    {'material': 'plywood', 'thickness': '3/4 in'}
    """
    of_layers = group.record is Layer
    parts: list[object]
    if isinstance(value, str) and of_layers and len(value) <= LONGEST_NAME * 5:
        parts = [_layer(*layer) for layer in read_layers(value)]
    else:
        parts = list(value) if isinstance(value, (list, tuple)) else [None]
    if len(parts) > MOST_READINGS:
        raise QuantityError(f"at most {MOST_READINGS} of them")
    return [_item(part, group, of_layers) for part in parts]


def _item(part: object, group: Group, of_layers: bool) -> Mapping[str, object]:
    if isinstance(part, Mapping):
        return part
    if of_layers and isinstance(part, str):
        return _layer(*read_layer(part))
    names = ", ".join(f"{key.name} = ..." for key in group.keys)
    raise QuantityError(f"a list of tables, as [{{ {names} }}]")


def _layer(material: str, thickness: str) -> Mapping[str, object]:
    return {"material": material, "thickness": thickness}
