"""Many niches to what they need together: read as a stream, planned once each, added up.

Equal niches are planned once; long inputs go over all cores, with the results in input order.
"""

from __future__ import annotations

import hashlib
import os
from collections import Counter, OrderedDict
from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import chain, islice
from pathlib import Path

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.rows import TABLES, Columns, NicheRow, table_rows
from bracecalc.records.job import Job
from bracecalc.records.plan import Need, Severity, Verdict
from bracecalc.records.reference import Tables

PER_INCH = 32  # lengths of pieces are added up in 1/32 in
CHUNK = 2_000  # rows that are read before they are planned
BATCH = 50  # niches that go to a worker at once
POOL_FROM = 400  # distinct niches from which a second process pays
REMEMBERED = 4_096  # distinct niches whose outcome is kept
MOST_LISTED = 1_000  # failing niches that are named; the rest are counted
BOARD, BLOCKING, PACKER = "board", "solid blocking", "packer"

Cut = tuple[str, str, str, int, int]  # use, species, size, length in 1/32 in, count
Screw = tuple[str, str, float, int]  # kind, size, length in in, count
Progress = Callable[[int], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """What a size of lumber of a species is: inches, and pounds per cubic foot when dry."""

    thickness: float
    width: float
    nominal_thickness: float
    nominal_width: float
    density: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What one niche comes to and needs; small, as it travels between processes."""

    verdict: Verdict
    codes: tuple[str, ...]  # of the findings that fail
    cuts: tuple[Cut, ...]
    screws: tuple[Screw, ...]
    sections: tuple[tuple[str, str, Section], ...]  # species, size, what they are


@dataclass(frozen=True, slots=True, kw_only=True)
class Failing:
    """A niche that does not hold, and why."""

    where: str
    title: str
    codes: tuple[str, ...]
    count: int = 1


@dataclass(slots=True)
class Sum:
    """What the niches with one label need together, net."""

    niches: int = 0
    failing: int = 0
    pieces: int = 0
    blocking: int = 0
    packers: int = 0
    screws: int = 0
    lengths: Counter[tuple[str, str]] = field(default_factory=Counter)  # 1/32 in by species, size

    def copy(self) -> Sum:
        """Return an equal sum of its own."""
        return replace(self, lengths=Counter(self.lengths))

    def add(self, outcome: Outcome, count: int) -> None:
        """Add so many niches of one outcome."""
        self.niches += count
        self.failing += count * (outcome.verdict is Verdict.FAILS)
        self.screws += count * sum(screw[3] for screw in outcome.screws)
        for use, species, size, length, number in outcome.cuts:
            if use == PACKER:
                self.packers += count * number
                continue
            if use == BLOCKING:
                self.blocking += count * number
            else:
                self.pieces += count * number
            self.lengths[species, size] += count * number * length


@dataclass(slots=True)
class Tally:
    """Everything added up, in whole numbers.

    Attributes:
        rows: rows and job files read.
        planned: niches worked out; the others were equal to one of these.
        cuts: pieces by (use, species, size, length in 1/32 in).
        screws: by (kind, size, length in in).
        sums: by label column, then by what stands in it.
        listed: rows of failing niches, the first of them; ``failing_rows`` counts all.
        mistakes: rows by file, key, what was read and what would be right.
    """

    rows: int = 0
    planned: int = 0
    skipped: int = 0
    total: Sum = field(default_factory=Sum)
    close: int = 0  # niches that hold only if measured closely
    cuts: Counter[tuple[str, str, str, int]] = field(default_factory=Counter)
    screws: Counter[tuple[str, str, float]] = field(default_factory=Counter)
    sections: dict[tuple[str, str], Section] = field(default_factory=dict)
    sums: dict[str, dict[str, Sum]] = field(default_factory=dict)
    failing_rows: int = 0
    codes: Counter[str] = field(default_factory=Counter)
    listed: list[Failing] = field(default_factory=list)
    mistakes: dict[tuple[str, str, str, str], list[int]] = field(default_factory=dict)

    def add(self, row: NicheRow, outcome: Outcome) -> None:
        """Add a niche that was worked out."""
        count = row.count
        for column in row.labels:
            if column not in self.sums:  # what came before had no such column
                self.sums[column] = {"": self.total.copy()} if self.total.niches else {}
        for column, by_label in self.sums.items():
            by_label.setdefault(row.labels.get(column, ""), Sum()).add(outcome, count)
        self.total.add(outcome, count)
        for use, species, size, length, number in outcome.cuts:
            self.cuts[use, species, size, length] += count * number
        for kind, size, inches, number in outcome.screws:
            self.screws[kind, size, inches] += count * number
        for species, size, section in outcome.sections:
            self.sections.setdefault((species, size), section)
        if outcome.verdict is Verdict.CLOSE:
            self.close += count
        if outcome.verdict is Verdict.FAILS and count:
            self.failing_rows += 1
            self.codes.update(outcome.codes)
            if len(self.listed) < MOST_LISTED:
                title = str(row.values.get("title", ""))
                failing = Failing(where=row.where, title=title, codes=outcome.codes, count=count)
                self.listed.append(failing)

    def skip(self, row: NicheRow, mistakes: Iterable[Mistake]) -> None:
        """Keep the mistakes of a row that can't be worked out."""
        self.skipped += 1
        for mistake in mistakes:
            file = row.where.removesuffix(f" row {row.number}")
            same = (file, mistake.key, mistake.read, mistake.right)
            self.mistakes.setdefault(same, []).append(row.number)

    def mistake_lines(self) -> tuple[Mistake, ...]:
        """Return the mistakes, a line for each; rows that have the same one share a line."""
        return tuple(
            Mistake(f"{file}{_rows_text(rows)}", key, read, right)
            for (file, key, read, right), rows in self.mistakes.items()
        )


def _rows_text(rows: list[int]) -> str:
    """Return row numbers as people write them.

    >>> _rows_text([3]), _rows_text([3, 4, 5, 9]), _rows_text([0])
    (' row 3', ' rows 3-5, 9', '')
    """
    if rows == [0]:
        return ""
    parts: list[list[int]] = []
    for row in sorted(set(rows)):
        if parts and row == parts[-1][1] + 1:
            parts[-1][1] = row
        else:
            parts.append([row, row])
    text = ", ".join(str(a) if a == b else f"{a}-{b}" for a, b in parts)
    return f" row {text}" if len(rows) == 1 else f" rows {text}"


def niche_rows(jobs: Iterable[str], columns: Columns) -> Iterator[NicheRow]:
    """Yield every niche of job files, folders of them, and tables, in order.

    Args:
        jobs: paths; ``-`` is a table on standard input.
        columns: what the columns of a table are, beside the keys.

    Raises:
        JobError: if a file or folder can't be read or holds no job.
    """
    for job in jobs:
        if job != "-" and Path(job).is_dir():
            inside = sorted(str(path) for path in Path(job).glob("*.toml"))
            if not inside:
                raise JobError(Mistake(job, "", "a folder with no job in it", "job files, *.toml"))
            yield from map(_job_file, inside)
        elif job == "-" or job.lower().endswith(TABLES):
            yield from table_rows(job, columns)
        else:
            yield _job_file(job)


def _job_file(path: str) -> NicheRow:
    return NicheRow(where=path, number=0, values={}, count=1, labels={})


def take(rows: Iterable[NicheRow], *, progress: Progress | None = None) -> Tally:
    """Return everything that the niches need, added up; rows with mistakes are kept apart.

    Args:
        rows: niches to work out, as ``niche_rows`` yields them.
        progress: called with the number of rows done.
    """
    tally = Tally()
    with _Workers() as workers:
        for running in workers.ahead(rows):
            for row, result in zip(running.rows, workers.finish(running), strict=True):
                tally.rows += 1
                if isinstance(result, Outcome):
                    tally.add(row, result)
                else:
                    tally.skip(row, result)
            if progress is not None:
                progress(len(running.rows))
        tally.planned = workers.planned
    return tally


Result = Outcome | tuple[Mistake, ...]
Task = tuple[str, Mapping[str, object]]


@dataclass(slots=True)
class _Running:
    """Rows that are being worked out: what is known of them, and what is on its way."""

    rows: list[NicheRow]
    marks: list[bytes]
    here: dict[bytes, Result]
    fresh: list[bytes]
    coming: Iterator[Result]


class _Workers:
    """Works niches out, each different one once; over all cores where that pays."""

    def __init__(self) -> None:
        self.planned = 0
        self.known: OrderedDict[bytes, Result] = OrderedDict()
        self.started: set[bytes] = set()
        self.pool: ProcessPoolExecutor | None = None

    def __enter__(self) -> _Workers:
        return self

    def __exit__(self, *_: object) -> None:
        if self.pool is not None:
            self.pool.shutdown(cancel_futures=True)

    def ahead(self, rows: Iterable[NicheRow]) -> Iterator[_Running]:
        """Yield chunk after chunk to be finished, each when the next one has been started."""
        stream = iter(rows)
        before: _Running | None = None
        while chunk := list(islice(stream, CHUNK)):
            running = self.start(chunk)
            if before is not None:
                yield before
            before = running
        if before is not None:
            yield before

    def start(self, rows: list[NicheRow]) -> _Running:
        """Begin to work out what isn't known yet; ``finish`` in the same order."""
        marks = [_mark(row) for row in rows]
        fresh: dict[bytes, Task] = {}
        here: dict[bytes, Result] = {}
        for row, mark in zip(rows, marks, strict=True):
            if row.mistakes:
                here[mark] = row.mistakes
            elif mark in self.known:
                self.known.move_to_end(mark)
                here[mark] = self.known[mark]
            elif mark not in self.started:
                fresh.setdefault(mark, (row.where, row.values))
        self.planned += len(fresh)
        self.started.update(fresh)
        return _Running(rows, marks, here, list(fresh), self._work(list(fresh.values())))

    def finish(self, running: _Running) -> list[Result]:
        """Return what each row comes to, in order."""
        for mark, result in zip(running.fresh, running.coming, strict=True):
            self.known[mark] = result
        self.started.difference_update(running.fresh)
        here = running.here
        found = [here[mark] if mark in here else self.known[mark] for mark in running.marks]
        while len(self.known) > REMEMBERED:
            self.known.popitem(last=False)
        return found

    def _work(self, tasks: list[Task]) -> Iterator[Result]:
        cores = os.cpu_count()
        if self.pool is None and (len(tasks) < POOL_FROM or cores is None or cores < 2):
            return iter(work_batch(tasks))
        if self.pool is None:
            self.pool = ProcessPoolExecutor(cores, initializer=_leave_interrupts_to_the_parent)
        batches = [tasks[start : start + BATCH] for start in range(0, len(tasks), BATCH)]
        with _interrupts_held():  # a worker that is interrupted while it starts says a traceback
            results = self.pool.map(work_batch, batches)
        return chain.from_iterable(results)


@contextmanager
def _interrupts_held() -> Iterator[None]:
    """Hold Ctrl-C back, where the system can, until what is inside is done."""
    import signal

    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _leave_interrupts_to_the_parent() -> None:
    import signal

    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _mark(row: NicheRow) -> bytes:
    """Return what equal niches share; a job file is always a niche of its own."""
    if row.mistakes or not row.values:
        return row.where.encode()
    told = repr([(key, value) for key, value in row.values.items() if key != "title"])
    return hashlib.blake2b(told.encode(), digest_size=16).digest()


def work_batch(tasks: list[Task]) -> list[Result]:
    """Return what each of some niches comes to: an outcome, or what is wrong with it."""
    from bracecalc.tables.load import load_tables

    return [_work_one(where, values, load_tables()) for where, values in tasks]


def _work_one(where: str, values: Mapping[str, object], tables: Tables) -> Result:
    from bracecalc.jobfile.read import job_from_values, read_job

    try:
        if values:
            folder = Path(where).parent
            job = job_from_values(values, where=where, tables=tables, folder=folder)
            return work_out(job)
        return work_out(read_job(where, tables=tables))
    except JobError as error:
        return error.mistakes


def work_out(job: Job) -> Outcome:
    """Return what one niche comes to and what it needs.

    Raises:
        JobError: if a table that the job names has no row that it asks for.
    """
    from bracecalc.planning.plan import make_materials
    from bracecalc.tables.load import tables_of

    verdict, materials, findings = make_materials(job)
    tables = tables_of(job)
    cuts = tuple(map(_cut, materials.boards))
    lumber = {(species, size) for use, species, size, _, _ in cuts if use != PACKER}
    return Outcome(
        verdict=verdict,
        codes=tuple(f.code for f in findings if f.severity is Severity.FAILS),
        cuts=cuts,
        screws=tuple((n.item, n.size, _inches(n), n.count) for n in materials.screws),
        sections=tuple(map(partial(_section, tables), sorted(lumber))),
    )


def _cut(need: Need) -> Cut:
    # rounded up, but not by what a float is off a mark
    length = -int(-(_inches(need) * PER_INCH - 1e-6) // 1)
    return need.item, need.species, need.size, length, need.count


def _inches(need: Need) -> float:
    if need.length is None:
        raise ValueError(f"a piece without a length: {need!r}")
    return need.length


def _section(tables: Tables, lumber: tuple[str, str]) -> tuple[str, str, Section]:
    species, size = lumber
    row, wood = tables.lumber[size], tables.species[species]
    return (
        species,
        size,
        Section(
            thickness=row.thickness,
            width=row.width,
            nominal_thickness=row.nominal_thickness,
            nominal_width=row.nominal_width,
            density=wood.density_pcf,
        ),
    )
