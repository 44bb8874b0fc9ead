"""What people write of a niche as found: the ``[as_found]`` table and the texts of the options.

Pulls of one length are joined by ``and`` (or stand in a list of their own); points stand in a list
as ``split_list`` reads it (or are the items of a list). A point that is ``-`` was not measured.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.limits import refuse_outside
from bracecalc.jobfile.paths import shown
from bracecalc.jobfile.readers import MOST_READINGS
from bracecalc.records.job import CORNERS, CarriedScrew, Job, job_groups
from bracecalc.records.keys import Key, Kind, Within, find_key, keys_of
from bracecalc.records.site import AsFound, FoundLayer, Reading
from bracecalc.tables.load import one_of, tables_of
from bracecalc.tables.names import row_name
from bracecalc.text.layers import read_layer
from bracecalc.text.lengths import QuantityError, parse_length
from bracecalc.text.lists import split_list

SIDES = ("left", "right")
LINE = find_key(job_groups(), "floor.down_from_line.line")[1]
KEYS = {key.name: key for key in (*keys_of(AsFound), LINE)}
FROM_LINE = Within(0, 240)  # down or up from a level line
FARTHEST_APART = 1.0  # in: pulls of one length that differ by more are not of one length
NOT_MEASURED = "-"
YES_OR_NO = {"yes": True, "y": True, "true": True, "no": False, "n": False, "false": False}
SCREW = "a size and a length, as '10 x 3 1/2'"
_SCREW = re.compile(r"(?P<size>.+?)\s+(?:x|by|\N{MULTIPLICATION SIGN})\s+(?P<length>.+)", re.I)


def read_as_found(
    raw: Mapping[str, Any], job: Job, *, wheres: Mapping[str, str] | None = None
) -> AsFound:
    """Return what was found, from a raw table as the job file or the options give it.

    Args:
        raw: by the keys of ``[as_found]``; lengths as text, or numbers in the job's units.
        job: for its units, its tables and its datum.
        wheres: where each key was written, where that isn't the job file.

    Raises:
        JobError: with every mistake that was found.
    """
    reader = _Reader(job, {} if wheres is None else wheres)
    found = reader.read(raw)
    if reader.mistakes:
        raise JobError(*reader.mistakes)
    return found


class _Reader:
    """Reads one table and gathers its mistakes."""

    def __init__(self, job: Job, wheres: Mapping[str, str]) -> None:
        self.job = job
        self.wheres = wheres
        self.mistakes: list[Mistake] = []

    def read(self, raw: Mapping[str, Any]) -> AsFound:
        for key in raw:
            if key not in KEYS:
                self._wrong(key, shown(raw[key]), one_of(key, KEYS))
        line = self._one(raw, "line")
        floor, datum = self._floor(raw, None if line is None else line.mean)
        board = self._board(raw, datum)
        return AsFound(
            floor=floor,
            board_left=board.get("left"),
            board_right=board.get("right"),
            **{
                key.field: self._value(key, raw)
                for key in keys_of(AsFound)
                if key.name not in ("floor", "board")
            },
        )

    def _value(self, key: Key, raw: Mapping[str, Any]) -> Any:
        """Return what stands at a key, read as it is or as its kind is."""
        own: dict[str, Callable[[Mapping[str, Any]], Any]] = {
            "layers": self._layers,
            "fixed": self._fixed,
            "seized": self._seized,
            "screws": self._screws,
            "legs": self._legs,
        }
        if key.name in own:
            return own[key.name](raw)
        by_kind: dict[Kind, Callable[[Mapping[str, Any], str], Any]] = {
            Kind.SPOTS: self._points,
            Kind.LENGTH: self._one,
            Kind.FLAG: self._flag,
            Kind.CHOICE: self._word,
        }
        return by_kind[key.kind](raw, key.name)

    def _wrong(self, key: str, read: str, right: str) -> None:
        where = self.wheres.get(re.split(r"[.\[]", key)[0])
        if where is None:
            self.mistakes.append(Mistake(self.job.where, f"as_found.{key}", read, right))
        else:
            self.mistakes.append(Mistake(where, "", read, right))

    def _length(self, key: str, value: object, within: Within | None = None) -> float | None:
        declared, units = KEYS[re.split(r"[.\[]", key)[0]], self.job.units
        allowed = declared.within if within is None else within
        try:
            length = parse_length(value, units=units)
            refuse_outside(
                length, allowed, value, kind=declared.kind, what=declared.what, units=units
            )
        except QuantityError as error:
            self._wrong(key, shown(value), str(error))
            return None
        return length

    def _split(self, key: str, value: object) -> Any:
        """Return the values of a text; what is no text comes back as it is."""
        if not isinstance(value, str):
            return value
        try:
            return split_list(value)
        except QuantityError as error:
            self._wrong(key, shown(value), str(error))
            return None

    def _reading(self, key: str, value: object, within: Within | None = None) -> Reading | None:
        """Return one length from text, a number or a list of pulls; None where not measured."""
        if isinstance(value, str):
            if value.strip() in ("", NOT_MEASURED):
                return None
            pulls: Iterable[object] = re.split(r"\s+and\s+", value.strip())
        else:
            pulls = value if isinstance(value, list) else [value]
        lengths = [self._length(key, pull, within) for pull in pulls]
        known = [length for length in lengths if length is not None]
        if not known or len(known) < len(lengths):
            if not lengths:
                self._wrong(key, shown(value), "at least one reading")
            return None
        if max(known) - min(known) > FARTHEST_APART:
            self._wrong(key, shown(value), "readings of one length; these are more than 1 in apart")
            return None
        return Reading(tuple(known))

    def _one(self, raw: Mapping[str, Any], key: str) -> Reading | None:
        return self._reading(key, raw[key]) if key in raw else None

    def _points(self, raw: Mapping[str, Any], key: str) -> tuple[Reading, ...]:
        if key not in raw:
            return ()
        points = self._split(key, raw[key])
        if points is None:
            return ()
        if not isinstance(points, list):
            points = [points]
        if len(points) > MOST_READINGS:
            self._wrong(key, f"{len(points)} points", f"at most {MOST_READINGS}")
            return ()
        found = [self._reading(f"{key}[{number}]", point) for number, point in enumerate(points, 1)]
        return tuple(reading for reading in found if reading is not None)

    def _by_name(
        self,
        raw: Mapping[str, Any],
        key: str,
        names: tuple[str, ...],
        within: Within | None = None,
    ) -> dict[str, Reading]:
        if key not in raw:
            return {}
        table = self._split(key, raw[key])
        if table is None:
            return {}
        if isinstance(table, list):
            if len(table) != len(names):
                said = ", ".join(name.replace("_", " ") for name in names)
                self._wrong(key, shown(raw[key]), f"{len(names)} values: {said}")
                return {}
            table = dict(zip(names, table, strict=True))
        if not isinstance(table, Mapping):
            self._wrong(key, shown(table), f"a table with {', '.join(names)}")
            return {}
        found = {}
        for name, value in table.items():
            if name not in names:
                self._wrong(f"{key}.{name}", shown(value), one_of(name, names))
                continue
            reading = self._reading(f"{key}.{name}", value, within)
            if reading is not None:
                found[name] = reading
        return found

    def _floor(
        self, raw: Mapping[str, Any], line: float | None
    ) -> tuple[dict[str, Reading], float | None]:
        """Return the floor above the datum, and the line's height over it where one was used."""
        table = raw.get("floor", {})
        if not isinstance(table, Mapping) or "down_from_line" not in table:
            return self._by_name(raw, "floor", CORNERS), line
        if len(table) > 1:
            others = ", ".join(sorted(set(table) - {"down_from_line"}))
            self._wrong("floor", others, "heights above the datum or down from the line, not both")
            return {}, line
        given = table["down_from_line"]
        if isinstance(given, Mapping) and "line" in given:  # as the job file's own table has it
            above = self._reading("line", given["line"])
            line = line if above is None else above.mean
            given = {name: value for name, value in given.items() if name != "line"}
        down = self._by_name({"floor": given}, "floor", CORNERS, FROM_LINE)
        if line is None:
            line = self._line_over_lowest(down)
        if line is None:
            return {}, None
        heights = {
            corner: Reading(tuple(line - pull for pull in reading.pulls))
            for corner, reading in down.items()
        }
        return heights, line

    def _line_over_lowest(self, down: Mapping[str, Reading]) -> float | None:
        """Return the line's height where the lowest leg spot is the datum."""
        if len(down) < len(CORNERS):
            read = f"{len(down)} readings down from the line"
            self._wrong("floor", read, "all four leg spots, or the line's height above the datum")
            return None
        floor = self.job.floor
        if abs(min(floor.spots)) > 1e-9:
            self._wrong(
                "floor",
                "readings down from a line",
                "the line's height above the plan's datum too (line): the plan's lowest leg spot "
                "is not its datum",
            )
            return None
        return max(reading.mean for reading in down.values())

    def _board(self, raw: Mapping[str, Any], line: float | None) -> dict[str, Reading]:
        table = raw.get("board", {})
        if not isinstance(table, Mapping) or "up_from_line" not in table:
            return self._by_name(raw, "board", SIDES)
        up = self._by_name({"board": table["up_from_line"]}, "board", SIDES, FROM_LINE)
        if line is None:
            self._wrong(
                "board",
                "readings up from a line",
                "the floor down from the same line, or the line's height above the datum (line)",
            )
            return {}
        return {
            side: Reading(tuple(line + pull for pull in reading.pulls))
            for side, reading in up.items()
        }

    def _items(self, raw: Mapping[str, Any], key: str, wanted: str) -> list[tuple[str, object]]:
        """Return what stands in a list, each with a key of its own."""
        items = self._split(key, raw.get(key, []))
        if items is None:
            return []
        if not isinstance(items, list):
            self._wrong(key, shown(raw[key]), wanted)
            return []
        return [(f"{key}[{number}]", item) for number, item in enumerate(items, 1)]

    def _layers(self, raw: Mapping[str, Any]) -> tuple[FoundLayer, ...]:
        items = self._items(raw, "layers", "a list of layers, from the room to the studs")
        found = [self._layer(key, item) for key, item in items]
        return tuple(layer for layer in found if layer is not None)

    def _layer(self, key: str, item: object) -> FoundLayer | None:
        wanted = "a material and its thickness, as 'gypsum board 1/2'"
        if isinstance(item, str):
            try:
                material, thickness = read_layer(item)
            except QuantityError:
                self._wrong(key, shown(item), wanted)
                return None
            item = {"material": material, "thickness": thickness}
        if not isinstance(item, Mapping) or set(item) - {"material", "thickness"} or len(item) < 2:
            self._wrong(key, shown(item), wanted)
            return None
        materials, name = tables_of(self.job).layers, str(item["material"])
        reading = self._reading(key, item["thickness"])
        try:
            known = row_name(materials, name, called="layers")
        except QuantityError as error:
            self._wrong(key, shown(name), str(error))
            return None
        if reading is None:
            return None
        spelt = {materials[layer.material].name: layer.material for layer in self.job.wall.layers}
        return FoundLayer(material=spelt.get(known, known), thickness=reading)

    def _screws(self, raw: Mapping[str, Any]) -> tuple[CarriedScrew, ...]:
        lengths: dict[str, set[float]] = {}
        for key, item in self._items(raw, "screws", f"a list, each {SCREW}"):
            for size, length in self._screw(key, item):
                lengths.setdefault(size, set()).add(length)
        return tuple(
            CarriedScrew(size=size, lengths=tuple(sorted(found))) for size, found in lengths.items()
        )

    def _legs(self, raw: Mapping[str, Any]) -> dict[str, float]:
        read = self._by_name(raw, "legs", CORNERS)
        return {corner: reading.mean for corner, reading in read.items()}

    def _flag(self, raw: Mapping[str, Any], key: str) -> bool | None:
        """Return yes or no; the key's default where nothing was said."""
        value = raw.get(key)
        if value is None or value == NOT_MEASURED:
            default: bool | None = KEYS[key].default
            return default
        if isinstance(value, bool):
            return value
        word = str(value).strip().casefold()
        if word not in YES_OR_NO:
            self._wrong(key, shown(value), "yes or no")
            return None
        return YES_OR_NO[word]

    def _word(self, raw: Mapping[str, Any], key: str) -> str | None:
        """Return one of the few words of a key; None where nothing was said."""
        value = raw.get(key)
        if value is None or value == NOT_MEASURED:
            return None
        choices = tuple(str(choice) for choice in KEYS[key].choices)
        word = str(value).strip().casefold()
        if word not in choices:
            self._wrong(key, shown(value), f"one of {', '.join(choices)}")
            return None
        return word

    def _seized(self, raw: Mapping[str, Any]) -> tuple[str, ...]:
        """Return the legs that don't turn; how far out each is must be known."""
        given = self._split("seized", raw.get("seized", []))
        if given is None:
            return ()
        found = []
        for item in given if isinstance(given, list) else [given]:
            corner = str(item).strip().casefold().replace(" ", "_")
            if corner in ("", NOT_MEASURED):
                continue
            if corner not in CORNERS:
                self._wrong("seized", shown(item), one_of(corner, CORNERS))
            elif corner not in self._by_name(raw, "legs", CORNERS):
                how = corner.replace("_", " ")
                self._wrong("seized", shown(item), f"how far out the {how} leg is too (legs)")
            else:
                found.append(corner)
        return tuple(found)

    def _fixed(self, raw: Mapping[str, Any]) -> tuple[CarriedScrew, ...]:
        """Return the screw in each board that is up, from the wall outward."""
        wanted = f"a list from the wall outward, each {SCREW}"
        return tuple(
            CarriedScrew(size=size, lengths=(length,))
            for key, item in self._items(raw, "fixed", wanted)
            for size, length in self._screw(key, item)
        )

    def _screw(self, key: str, item: object) -> list[tuple[str, float]]:
        if isinstance(item, str):
            match = _SCREW.fullmatch(item.strip())
            if match is None:
                self._wrong(key, shown(item), SCREW)
                return []
            item = {"size": match["size"], "lengths": [match["length"]]}
        if not isinstance(item, Mapping) or "size" not in item or "lengths" not in item:
            self._wrong(key, shown(item), "a size and its lengths")
            return []
        size = self._size(key, str(item["size"]))
        given = item["lengths"] if isinstance(item["lengths"], list) else [item["lengths"]]
        found = [self._length(key, length) for length in given]
        if size is None:
            return []
        return [(size, length) for length in found if length is not None]

    def _size(self, key: str, name: str) -> str | None:
        """Return the table's name of a screw size, or that of a screw with published values."""
        if any(screw.size == name for screw in self.job.screws.published):
            return name
        sizes = tables_of(self.job).screws
        try:
            return row_name(sizes, name, called="screws")
        except QuantityError as error:
            self._wrong(key, shown(name), str(error))
            return None
