"""A key of the job file, declared beside the field of the record that it fills.

    width: Readings = lengths_key("finished opening, side to side", within=Within(8, 120))
    doors: tuple[Door, ...] = table(Door, "doors and drawers", many=True, default=())

Reader, writer, interview, phone page and docs go by ``groups_of``; nothing else lists the keys.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import MISSING, Field, dataclass, field, fields
from enum import Enum
from functools import cache, partial
from typing import Any, NamedTuple, TypeVar, dataclass_transform

Readings = tuple[float, ...]
Range = tuple[float, float]
Record = TypeVar("Record")

_KEYS, _TABLE = "keys", "table"  # of a field's metadata


class Kind(Enum):
    """What may stand at a key; the value is how the documentation calls it."""

    TEXT = "text"
    FLAG = "true or false"
    CHOICE = "one of a few words"
    NAME = "a name of a reference table"
    LENGTH = "a length"
    LENGTHS = "a length, or several readings in a list"
    SPOTS = "a list of lengths"
    RANGE = "two lengths, least and greatest"
    PAIR = "two lengths"
    FORCE = "a weight or force with its unit"
    PRESSURE = "a load on an area with its unit"
    RATE = "a force per length with its unit"
    ANGLE = "an angle"
    TEMPERATURE = "a temperature with its unit"
    COUNT = "a whole number"
    PLAIN = "a number"
    FILE = "a file, its path from the job file's folder"


class Within(NamedTuple):
    """What a value may be, in the planner's unit of its kind.

    Attributes:
        least: the least that is plausible; refused below it.
        most: the most that is plausible; refused over it.
        usual: between these it is never asked again.
        above: it must be more than this.
    """

    least: float | None = None
    most: float | None = None
    usual: Range | None = None
    above: float | None = None

    def holds(self, value: float) -> bool:
        """Return whether the value can be.

        >>> Within(8, 120).holds(33.25), Within(above=0).holds(0.0), Within().holds(1e9)
        (True, False, True)
        """
        return (
            (self.above is None or value > self.above)
            and (self.least is None or value >= self.least)
            and (self.most is None or value <= self.most)
        )

    def is_usual(self, value: float) -> bool:
        """Return whether the value needs no second look."""
        return self.usual is None or self.usual[0] <= value <= self.usual[1]


ANY = Within()


class Key(NamedTuple):
    """One key.

    Attributes:
        kind: what may stand there.
        what: what it is, and from where to where it is measured.
        name: as written in its table of the job file.
        field: field of the record that it fills.
        default: what the record takes where the key is left out; ``MISSING`` where it has none.
        within: what a number at the key may be.
        choices: the words, for CHOICE.
        table: the reference table, for NAME.
        optional: may be left out although the record has no default.
        otherwise: what is taken where the key is left out, if its default doesn't say it.
        told: written into a commented job file even at its default.
    """

    kind: Kind
    what: str
    name: str = ""
    field: str = ""
    default: Any = MISSING
    within: Within = ANY
    choices: tuple[str, ...] = ()
    table: str = ""
    optional: bool = False
    otherwise: str = ""
    told: bool = False

    @property
    def required(self) -> bool:
        """Whether the key must stand wherever its table does."""
        return not self.optional and self.default is MISSING


class Table(NamedTuple):
    """Where the keys of a nested record stand.

    Attributes:
        record: the record of its keys; None where ``keys`` lists them.
        what: what the table is.
        many: it is an array of such tables.
        here: its keys stand in the table of the record around it.
        keys: the keys, where no record declares them.
    """

    record: type[Any] | None
    what: str
    many: bool = False
    here: bool = False
    keys: tuple[Key, ...] = ()


class Group(NamedTuple):
    """A table of the job file: its keys fill one record.

    ``many`` is an array of such tables. ``slot`` tells apart two records filled from one table.
    """

    path: str
    record: type[Any] | None
    what: str
    keys: tuple[Key, ...]
    many: bool = False
    slot: str = ""

    @property
    def name(self) -> str:
        """What the group is filed under while a job is read."""
        return self.slot if self.slot else self.path

    def path_of(self, key: Key) -> str:
        """Return the key's whole path."""
        return f"{self.path}.{key.name}" if self.path else key.name


def key(
    kind: Kind,
    what: str,
    *,
    name: str = "",
    default: Any = MISSING,
    default_factory: Any = MISSING,
    within: Within = ANY,
    choices: tuple[str, ...] = (),
    table: str = "",
    optional: bool = False,
    otherwise: str = "",
    told: bool = False,
    also: tuple[Key, ...] = (),
) -> Any:
    """Return the field of a record that a key of the job file fills.

    Args are those of ``Key``; ``also`` are further keys, told after this one, that the reader
    turns into fields. There is a function of its own for each of the frequent kinds.
    """
    own = Key(kind, what, name, "", default, within, choices, table, optional, otherwise, told)
    given: dict[str, Any] = {"default": default, "default_factory": default_factory}
    return field(**given, metadata={_KEYS: (own, *also)})


text_key = partial(key, Kind.TEXT)
flag_key = partial(key, Kind.FLAG)
choice_key = partial(key, Kind.CHOICE)
name_key = partial(key, Kind.NAME)
length_key = partial(key, Kind.LENGTH)
lengths_key = partial(key, Kind.LENGTHS)
spots_key = partial(key, Kind.SPOTS)
range_key = partial(key, Kind.RANGE)
force_key = partial(key, Kind.FORCE)
plain_key = partial(key, Kind.PLAIN)


def table(
    record: type[Any] | None,
    what: str,
    *,
    default: Any = MISSING,
    default_factory: Any = MISSING,
    compare: bool = True,
    repr: bool = True,
    many: bool = False,
    here: bool = False,
    keys: tuple[Key, ...] = (),
) -> Any:
    """Return the field of a record that a table of the job file, or several, fill.

    Args:
        record: the record that the table's keys fill, None where ``keys`` lists them.
        what: what the table is.
        default: what the field holds where there is no such table.
        default_factory: makes that.
        compare: as for a field of a dataclass.
        repr: as for a field of a dataclass.
        many: as for ``Table``.
        here: as for ``Table``.
        keys: as for ``Table``.
    """
    given: dict[str, Any] = {"default": default, "default_factory": default_factory}
    told = {_TABLE: Table(record, what, many, here, keys)}
    return field(**given, compare=compare, repr=repr, metadata=told)


@dataclass_transform(
    kw_only_default=True,
    frozen_default=True,
    field_specifiers=(
        key,
        text_key,
        flag_key,
        choice_key,
        name_key,
        length_key,
        lengths_key,
        spots_key,
        range_key,
        force_key,
        plain_key,
        table,
        field,
    ),
)
def record(cls: type[Record]) -> type[Record]:
    """Make a frozen record of a class: slots, and every field by its name."""
    # one for all: to make one for each slows every start
    cls.__repr__ = _shown  # type: ignore[method-assign]
    return dataclass(frozen=True, slots=True, kw_only=True, repr=False)(cls)


def _shown(self: Any) -> str:
    told = (f"{each.name}={getattr(self, each.name)!r}" for each in fields(self) if each.repr)
    return f"{type(self).__qualname__}({', '.join(told)})"


@cache
def groups_of(of: type[Any], path: str = "", what: str = "") -> tuple[Group, ...]:
    """Return the tables of the file that a record is read from, each with its keys.

    A record's own keys come first, then the tables in it, in the order of the fields.

    >>> from bracecalc.records.niche import Wall
    >>> [group.path for group in groups_of(Wall, "wall")]
    ['wall', 'wall.layers', 'wall.stud', 'wall.stud_layout']
    """
    return tuple(_groups(Table(of, what), path, ""))


def keys_of(of: type[Any]) -> tuple[Key, ...]:
    """Return the keys that stand beside the fields of a record."""
    return tuple(one for each in fields(of) for one in _keys_beside(each))


def table_beside(beside: Field[Any]) -> Table | None:
    """Return the table of the job file that fills a field, None where no table does."""
    return beside.metadata.get(_TABLE)


def within_of(of: type[Any], name: str) -> Within:
    """Return what a field of a record may be.

    >>> from bracecalc.records.niche import Niche
    >>> within_of(Niche, "width").most
    120
    """
    return next(one.within for one in keys_of(of) if one.field == name)


def _keys_beside(beside: Field[Any]) -> Iterator[Key]:
    for one in beside.metadata.get(_KEYS, ()):
        yield one._replace(
            name=one.name if one.name else beside.name,
            field=one.field if one.field else beside.name,
        )


def _groups(of: Table, path: str, slot: str) -> Iterator[Group]:
    keys = of.keys if of.record is None else keys_of(of.record)
    if keys:
        yield Group(path, of.record, of.what, keys, of.many, slot)
    for each in () if of.record is None else fields(of.record):
        inner = table_beside(each)
        if inner is None:
            continue
        if inner.here:
            yield from _groups(inner, path, each.name)
        else:
            yield from _groups(inner, f"{path}.{each.name}" if path else each.name, "")


def find_key(groups: tuple[Group, ...], path: str) -> tuple[Group, Key]:
    """Return the group and the key that a path as ``niche.width`` names.

    Raises:
        ValueError: if there is no such key.

    >>> from bracecalc.records.job import job_groups
    >>> find_key(job_groups(), "niche.width")[1].kind
    <Kind.LENGTHS: 'a length, or several readings in a list'>
    """
    for group in groups:
        for one in group.keys:
            if path == group.path_of(one):
                return group, one
    raise ValueError(f"there is no key {path!r}")
