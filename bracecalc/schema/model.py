"""What a key of the job file is: its kind, its limits, and the record field it fills."""

from __future__ import annotations

from dataclasses import MISSING, fields
from enum import Enum
from typing import Any, NamedTuple


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


ANY_TABLE = ("as_found", "as_found_record")  # read by the check on site, passed on as they are


class Key(NamedTuple):
    """One key.

    Attributes:
        name: as written in its table of the job file.
        kind: what may stand there.
        what: what it is, and from where to where it is measured.
        field: field of the record, where it isn't called as the key.
        above: the value must be more than this.
        least: the value must not be less than this.
        most: the value must not be more than this.
        choices: the words, for CHOICE.
        table: the reference table, for NAME.
        optional: may be left out although the record has no default.
        needed: must be given although the record has a default.
        otherwise: what is taken where the key is left out, if its default doesn't say it.
        told: written into a commented job file even at its default.
    """

    name: str
    kind: Kind
    what: str
    field: str = ""
    above: float | None = None
    least: float | None = None
    most: float | None = None
    choices: tuple[str, ...] = ()
    table: str = ""
    optional: bool = False
    needed: bool = False
    otherwise: str = ""
    told: bool = False

    @property
    def target(self) -> str:
        """The field of the record that the key fills."""
        return self.field if self.field else self.name


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


def default_of(group: Group, key: Key) -> Any:
    """Return what the record takes where the key is left out; ``MISSING`` where it has none."""
    if group.record is None:
        return None
    for field in fields(group.record):
        if field.name == key.target:
            return field.default_factory() if callable(field.default_factory) else field.default
    return MISSING


def is_required(group: Group, key: Key) -> bool:
    """Return whether the key must stand wherever its table does."""
    if key.needed:
        return True
    return not key.optional and default_of(group, key) is MISSING
