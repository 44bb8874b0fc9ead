"""Many niches to what they need together: read as a stream, planned once each, added up."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.rows import TABLES, Columns, NicheRow, table_rows
from bracecalc.order.outcome import Lumber, Outcome, Section
from bracecalc.order.tally import Tally
from bracecalc.order.workers import How, Workers

PER_INCH = 32
AS_GIVEN = How()
Progress = Callable[[int], None]
Longest = Callable[[Lumber, Section], int]  # length of the longest stick, 1/32 in


def niche_rows(jobs: Iterable[str], columns: Columns) -> Iterator[NicheRow]:
    """Yield every niche of job files, folders of them, and tables, in order.

    Args:
        jobs: paths; ``-`` is a table on standard input.
        columns: what the columns of a table are, beside the keys.

    Raises:
        JobError: if a file or folder can't be read or holds no job, or one is named twice.
    """
    seen: dict[object, str] = {}
    for job in jobs:
        _once(job, seen)
        if job != "-" and Path(job).is_dir():
            inside = sorted(str(path) for path in Path(job).glob("*.toml"))
            if not inside:
                raise JobError(Mistake(job, "", "a folder with no job in it", "job files, *.toml"))
            for path in inside:
                _once(path, seen)
                yield _job_file(path)
        elif job == "-" or job.lower().endswith(TABLES):
            yield from table_rows(job, columns)
        else:
            yield _job_file(job)


def _once(job: str, seen: dict[object, str]) -> None:
    try:
        found = os.stat(job)
        same: object = (found.st_dev, found.st_ino)
    except (OSError, ValueError):  # standard input, or what is told when it is opened
        same = job
    if same in seen:
        other = "" if seen[same] == job else f", which is {seen[same]!r}"
        raise JobError(Mistake(job, "", f"{job!r}{other} a second time", "each file once"))
    seen[same] = job


def _job_file(path: str) -> NicheRow:
    return NicheRow(where=path, number=0, values={}, count=1, labels={})


def take(
    rows: Iterable[NicheRow],
    *,
    progress: Progress | None = None,
    only_holding: bool = False,
    longest: Longest | None = None,
    how: How = AS_GIVEN,
) -> Tally:
    """Return everything that the niches need, added up; rows with mistakes are kept apart.

    Args:
        rows: niches to work out, as ``niche_rows`` yields them.
        progress: called with the number of rows done.
        only_holding: leave out niches that fail; they are told all the same.
        longest: the longest stick that some lumber can be had in; a niche that needs a longer
            piece is kept apart too.
        how: what differs from what the jobs say.
    """
    tally = Tally(only_holding=only_holding)
    with Workers(how) as workers:
        for running in workers.ahead(rows):
            for row, result in zip(running.rows, workers.finish(running), strict=True):
                tally.rows += 1
                if not isinstance(result, Outcome):
                    tally.skip(row, result)
                    continue
                wrong = () if longest is None else _too_long(row, result, longest)
                if wrong:
                    tally.skip(row, wrong)
                else:
                    tally.add(row, result)
            if progress is not None:
                progress(len(running.rows))
        tally.planned = workers.planned
    return tally


def _too_long(row: NicheRow, outcome: Outcome, longest: Longest) -> tuple[Mistake, ...]:
    sections = dict(outcome.sections)
    wrong = []
    for cut in outcome.cuts:
        most = longest(cut.lumber, sections[cut.lumber])
        if cut.length > most:
            read = f"a {cut.use.value} {cut.length / PER_INCH:g} in long"
            right = f"at most {most / PER_INCH:g} in, which the longest stick gives"
            key = f"{cut.lumber.size} {sections[cut.lumber].shown}"
            wrong.append(Mistake(row.where, key, read, right))
    return tuple(dict.fromkeys(wrong))
