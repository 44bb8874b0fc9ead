"""Rows of a table to jobs, each part of a job read once: most rows share wall, appliance and loads.

The same readers and checks as for a job file; a row with any mistake is read whole by those, so
that it is told alike.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from operator import itemgetter
from pathlib import Path
from typing import Any, NamedTuple

from bracecalc.jobfile.build import PARTS, build_job, read_values, record_of, tell_missing
from bracecalc.jobfile.checks import ALONE, TOGETHER, Draft
from bracecalc.jobfile.readers import LONGEST_NAME, Context
from bracecalc.records.job import Job, Units
from bracecalc.records.reference import Tables
from bracecalc.tables.load import load_tables

REMEMBERED = 20_000  # parts of jobs; a file of niches has a few hundred, or all different ones
TOP = frozenset(("title", "units"))
NEEDED = ("niche", "wall", "unit")  # parts without which there is no job


class _Part(NamedTuple):
    """One part of a job: its record, and what was read for it, for the checks across parts."""

    record: Any
    slots: Mapping[str, dict[str, Any]]


class Layout(NamedTuple):
    """Which values of a row belong to which part of the job, for rows with the same keys filled.

    ``own`` are keys that make a row too rare to be remembered; ``told`` are the places of what
    equal niches share: all but the title.
    """

    parts: tuple[tuple[str, tuple[str, ...], Callable[[Sequence[object]], Any]], ...]
    title: int | None
    units: int | None
    own: bool
    told: Callable[[Sequence[object]], Any]


@lru_cache(maxsize=1024)
def layout_of(paths: tuple[str, ...]) -> Layout:
    """Return the layout of rows with these keys."""
    split: dict[str, list[int]] = {}
    for place, path in enumerate(paths):
        split.setdefault(path.partition(".")[0], []).append(place)
    told = [place for place, path in enumerate(paths) if path != "title"]
    return Layout(
        parts=tuple(
            (part, tuple(paths[place] for place in places), itemgetter(*places))
            for part, places in split.items()
            if part not in TOP
        ),
        title=paths.index("title") if "title" in paths else None,
        units=paths.index("units") if "units" in paths else None,
        own=any(part not in PARTS and part not in TOP for part in split)
        or any(part not in split for part in NEEDED),
        told=itemgetter(*told) if told else lambda _: None,
    )


class RowJobs:
    """Makes jobs of rows, and remembers their parts."""

    def __init__(self, tables: Tables | None = None) -> None:
        self.tables = tables
        self.parts: dict[tuple[Units, tuple[str, ...], Any], _Part | None] = {}

    def job(self, values: Mapping[str, object], *, where: str, folder: Path | None = None) -> Job:
        """Return the job of a row, equal to what ``build_job`` makes of it.

        Raises:
            JobError: with every mistake in the row.
        """
        made = self._made(values, where)
        if made is None:  # a mistake, or what is too rare to be remembered
            return build_job(values, where=where, tables=self.tables, folder=folder)
        return made

    def _made(self, values: Mapping[str, object], where: str) -> Job | None:
        layout = layout_of(tuple(values))
        if layout.own or layout.title is None:
            return None
        written = tuple(values.values())
        title = written[layout.title]
        units = "inch" if layout.units is None else written[layout.units]
        if units not in ("inch", "mm") or type(title) is not str or not _is_plain(title):
            return None
        system = Units.MM if units == "mm" else Units.INCH
        records: dict[str, Any] = {}
        slots: dict[str, dict[str, Any]] = {}
        for part, paths, pick in layout.parts:
            found = self._part(part, system, paths, pick(written))
            if found is None:
                return None
            records[part] = found.record
            slots.update(found.slots)
        draft = Draft(where)
        draft.slots = slots
        for check in TOGETHER:
            check(draft)
        if draft.mistakes:
            return None
        return Job(title=title.strip(), units=system, tables=self.tables, where=where, **records)

    def _part(self, part: str, units: Units, paths: tuple[str, ...], written: Any) -> _Part | None:
        key = (units, paths, written)
        try:
            return self.parts[key]
        except KeyError:
            pass
        except TypeError:  # a cell that is no text and no number
            return None
        values = dict(zip(paths, written if len(paths) > 1 else (written,), strict=True))
        draft = Draft("")
        tables = load_tables() if self.tables is None else self.tables
        read_values(values, draft, Context(units, tables, False))
        tell_missing(draft, part)
        for check in ALONE.get(part, ()):
            check(draft)
        found = None if draft.mistakes else _Part(record_of(part, draft), draft.slots)
        if len(self.parts) >= REMEMBERED:
            self.parts.clear()
        self.parts[key] = found
        return found


def _is_plain(title: str) -> bool:
    return bool(title.strip()) and len(title) <= LONGEST_NAME and title.isprintable()
