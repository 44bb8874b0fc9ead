"""A job -> the text of a job file that reads back to an equal job."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime, time
from typing import Any

from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import CORNERS, Floor, Job, Units, job_groups
from bracecalc.records.keys import Group, Key, Kind
from bracecalc.text.lengths import Dimension, format_length, parse_length, parse_quantity

WIDTH = 80
FINEST = 1 / 64  # in: no tape is read finer
LINE_OVER = 36.0  # in: a laser's line is drawn at least so far over the floor

# Metric spellings tried where a value isn't short in ours: units of ours in one of theirs.
_METRIC = {
    Kind.FORCE: (Dimension.FORCE, "lb", 0.45359237, "kg"),
    Kind.PRESSURE: (Dimension.PRESSURE, "psf", 0.047880259, "kPa"),
    Kind.RATE: (Dimension.RATE, "lb/in", 0.17512684, "N/mm"),
}


def job_to_toml(job: Job, *, comments: bool = True) -> str:
    """Return a job file that reads back to an equal job.

    Keys at their default are left out. The job's own tables aren't written: their files aren't
    known here.

    Args:
        job: the job.
        comments: say over each key what it is; without, lengths are bare numbers, as short as
            they come.

    >>> from bracecalc.jobfile.read import make_job, parse_job
    >>> wall = {"layers": "gypsum board 1/2 in", "stud_spots": [6, 22]}
    >>> unit = {"height": 80, "width": 32, "depth": 23, "leg_travel": 1.375}
    >>> niche = {"width": 33.25, "depth": "24 in"}
    >>> job = make_job({"niche": niche, "wall": wall, "unit": unit})
    >>> parse_job(job_to_toml(job), where="") == job
    True
    """
    writer = _Writer(job, comments=comments)
    lines = list(writer.lines())
    return "\n".join(lines).strip("\n") + "\n"


class _Writer:
    """Writes one job in its own units."""

    def __init__(self, job: Job, *, comments: bool) -> None:
        self.job = job
        self.comments = comments
        self._open = ""

    def lines(self) -> Iterator[str]:
        for group in job_groups():
            record = _record_of(self.job, group)
            if record is None:
                continue
            if group.many:
                if "." not in group.path:  # nested ones stand in their parent's table
                    yield from self._tables(group, record)
                continue
            yield from self._table(group, record)
        if self.job.as_found:
            yield from self._header("as_found", "what was found on site")
            yield from (
                f"{_bare(name)} = {_raw(value)}" for name, value in self.job.as_found.items()
            )

    def _header(self, path: str, what: str) -> Iterator[str]:
        if self.comments:
            yield ""
            yield from comment_lines(what)
        yield f"[{path}]"

    def _table(self, group: Group, record: Any) -> Iterator[str]:
        body = [line for key in group.keys for line in self._key(group, key, record)]
        for inner in job_groups():
            if inner.many and inner.path.rpartition(".")[0] == group.path and group.path:
                body.extend(self._array(inner, record))
        if not body and not _stands_empty(group, record):
            return
        if group.path != self._open:  # one table may fill two records
            self._open = group.path
            yield from self._header(group.path, group.what)
        yield from body

    def _key(self, group: Group, key: Key, record: Any) -> Iterator[str]:
        value = _value_of(group, key, record)
        if value is None:
            return
        told = key.name == "title" or (self.comments and key.told)
        if value == key.default and not told:
            return
        if self.comments:
            yield from comment_lines(key.what)
            yield f"{key.name} = {self._written(key, value)}"
        else:
            yield f"{key.name}={self._written(key, value)}"

    def _array(self, group: Group, record: Any) -> Iterator[str]:
        """Write an array as inline tables in its parent's table."""
        name = group.path.rpartition(".")[2]
        items = getattr(record, name)
        if items is None or (not items and name in ("carried", "published", "doorways")):
            return
        tables = [self._inline(group, item) for item in items]
        if not self.comments:
            yield f"{name}=[{','.join(tables)}]"
            return
        yield from comment_lines(group.what)
        if len(tables) < 2:
            yield f"{name} = [{''.join(tables)}]"
            return
        yield f"{name} = ["
        yield from (f"    {table}," for table in tables)
        yield "]"

    def _inline(self, group: Group, item: Any) -> str:
        pairs = []
        for key in group.keys:
            value = getattr(item, key.field)
            if value is not None and value != key.default:
                pairs.append((key.name, self._written(key, value)))
        if not self.comments:
            return "{" + ",".join(f"{name}={text}" for name, text in pairs) + "}"
        return "{ " + ", ".join(f"{name} = {text}" for name, text in pairs) + " }"

    def _tables(self, group: Group, items: Sequence[Any]) -> Iterator[str]:
        for number, item in enumerate(items):
            if self.comments:
                yield ""
                if not number:
                    yield from comment_lines(group.what)
            yield f"[[{group.path}]]"
            for key in group.keys:
                yield from self._key(group, key, item)

    def _written(self, key: Key, value: Any) -> str:
        kind = key.kind
        if kind is Kind.FLAG:
            return "true" if value else "false"
        if kind in (Kind.TEXT, Kind.CHOICE, Kind.NAME):
            return quoted(str(value))
        if kind is Kind.LENGTH:
            return self._length(value)
        if kind in (Kind.LENGTHS, Kind.SPOTS, Kind.RANGE, Kind.PAIR):
            if kind is Kind.LENGTHS and len(value) == 1:
                return self._length(value[0])
            joint = ", " if self.comments else ","
            return f"[{joint.join(self._length(each) for each in value)}]"
        if kind in _METRIC:
            return self._load(kind, value)
        if kind is Kind.TEMPERATURE:
            return self._temperature(value)
        return _number(value)

    def _length(self, value: float) -> str:
        if self.job.units is Units.INCH and not self.comments:
            return _number(value)
        text = length_text(value, self.job.units)
        bare = text.removesuffix(" mm") if self.job.units is Units.MM else text
        return bare if bare != text else f"'{text}'"

    def _load(self, kind: Kind, value: float) -> str:
        dimension, ours, factor, theirs = _METRIC[kind]
        own = f"{_number(value)} {ours}"
        if self.job.units is Units.INCH and len(own) <= 12:
            return f"'{own}'"
        short = _shortest(value, factor, theirs, lambda text: parse_quantity(text, dimension))
        return f"'{own if short is None else short}'"

    def _temperature(self, value: float) -> str:
        if self.job.units is Units.MM:
            text = f"{_number(round((value - 32) / 1.8, 1))} degC"
            if parse_quantity(text, Dimension.TEMPERATURE) == value:
                return f"'{text}'"
        return f"'{_number(value)} degF'"


def length_text(value: float, units: Units) -> str:
    """Return a length as people write it, in a text that reads back to the same float.

    >>> length_text(33.25, Units.INCH), length_text(12.5 / 25.4, Units.INCH)
    ('33 1/4 in', '12.5 mm')
    """
    if units is Units.INCH:
        text = format_length(value, grid=FINEST)
        if parse_length(text, units=units) == value:
            return text
    short = _shortest(value, MM_PER_INCH, "mm", lambda text: parse_length(text, units=Units.MM))
    return f"{_number(value)} in" if short is None else short


def _shortest(value: float, factor: float, unit: str, read: Any) -> str | None:
    """Return the value in another unit with at most 4 decimals, if it reads back the same."""
    for digits in range(5):
        text = f"{value * factor:.{digits}f} {unit}"
        if read(text) == value:
            return text
    return None


def _record_of(job: Job, group: Group) -> Any:
    """Return the record that a group fills, a tuple of them for an array."""
    if group.path == "floor.down_from_line":
        return _Floor(job.floor).readings if job.floor.down_from_line else None
    if group.path == "floor":
        return _Floor(job.floor).heights
    if group.path == "unit":
        return _unit_fields(job)
    if group.path == "tables":
        return None
    found: Any = job
    parts = group.slot if group.slot == "" else f"{group.path}.{group.slot}"
    for name in (parts if parts else group.path).split("."):
        if not name or found is None:
            continue
        found = getattr(found, name, getattr(job.surroundings, name, None))
    return found


def _unit_fields(job: Job) -> Any:
    return _Unit(job.unit)


class _Unit:
    """The unit as its keys name it: one leg travel where front and rear are the same."""

    def __init__(self, unit: Any) -> None:
        self._unit = unit

    def __getattr__(self, name: str) -> Any:
        unit = self._unit
        same = unit.leg_travel_front == unit.leg_travel_rear
        if name == "leg_travel":
            return unit.leg_travel_front if same else None
        if name in ("leg_travel_front", "leg_travel_rear") and same:
            return None
        return getattr(unit, name)


class _Floor:
    """The floor as it was written: without the finish to come, and as readings from a line."""

    def __init__(self, floor: Floor) -> None:
        self.floor = floor

    @property
    def heights(self) -> Mapping[str, float | None]:
        """The keys of [floor]."""
        floor = self.floor
        others = {"finish_to_come": floor.finish_to_come, "uncertainty": floor.uncertainty}
        if floor.down_from_line:
            return others
        return {**self._bare(), **others}

    @property
    def readings(self) -> Mapping[str, float]:
        """The keys of [floor.down_from_line]; floats for which line - reading is the height."""
        bare = self._bare()
        drawn = float(math.ceil(max(bare.values()) + LINE_OVER))
        for line in (self.floor.line, drawn):
            if line is None:
                continue
            readings = {name: line - height for name, height in bare.items()}
            if all(line - readings[name] == height for name, height in bare.items()):
                return {**readings, "line": line}
        return {**{name: -height for name, height in bare.items()}, "line": 0.0}

    def _bare(self) -> dict[str, float]:
        heights = {name: getattr(self.floor, name) for name in (*CORNERS, "path_high")}
        to_come = self.floor.finish_to_come
        return {
            name: _less(height, to_come) for name, height in heights.items() if height is not None
        }


def _less(total: float, part: float) -> float:
    """Return the float that the part is added to for exactly the total."""
    rest = total - part
    for close in (rest, math.nextafter(rest, -math.inf), math.nextafter(rest, math.inf)):
        if close + part == total:
            return close
    return rest


def _value_of(group: Group, key: Key, record: Any) -> Any:
    if isinstance(record, Mapping):
        return record.get(key.name)
    return getattr(record, key.field)


def _stands_empty(group: Group, record: Any) -> bool:
    """Return whether a table without keys still says something."""
    optional = ("opening", "route", "floor_load", "built")
    return group.path in optional and record is not None


def comment_lines(what: str) -> Iterator[str]:
    """Yield a text as comment of a job file."""
    from textwrap import wrap

    yield from (f"# {line}" for line in wrap(what[:1].upper() + what[1:], WIDTH - 2))


def _number(value: float) -> str:
    """Return a number that TOML and the reader take: whole ones without a point."""
    if isinstance(value, float) and value.is_integer() and abs(value) < 10**15:
        return str(int(value))
    return repr(value)


def quoted(text: str) -> str:
    """Return a text as TOML writes it, between double quotes."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _bare(name: str) -> str:
    plain = name.isascii() and name.replace("_", "").replace("-", "").isalnum()
    return name if plain else quoted(name)


def _raw(value: object) -> str:
    """Write a value that the schema doesn't know."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (int, float)):
        return repr(value)
    if isinstance(value, (date, datetime, time)):
        return value.isoformat()
    if isinstance(value, Mapping):
        pairs: Iterable[str] = (
            f"{_bare(str(name))} = {_raw(each)}" for name, each in value.items()
        )
        return "{ " + ", ".join(pairs) + " }"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(_raw(each) for each in value) + "]"
    return quoted(str(value))
