"""Niches worked out each different one once, over all cores where that pays.

A worker ends when its parent does, however that ends, and one that is killed is told in a line.
"""

from __future__ import annotations

import os
from collections import OrderedDict
from collections.abc import Hashable, Iterable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from itertools import chain, islice
from pathlib import Path

from bracecalc.errors import BraceError, JobError, Mistake
from bracecalc.jobfile.row_jobs import RowJobs, layout_of
from bracecalc.jobfile.rows import NicheRow
from bracecalc.order.outcome import Outcome, work_out
from bracecalc.records.reference import Tables

CHUNK = 2_000  # rows that are read before they are planned
BATCH = 50  # niches that go to a worker at once
POOL_FROM = 400  # distinct niches from which a second process pays
REMEMBERED = 4_096  # distinct niches whose outcome is kept
LOOK_UP = 0.5  # seconds between a worker's looks whether its parent is still there


class WorkerLostError(BraceError):
    """A worker was ended from outside; nothing was written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """How niches are worked out.

    ``board`` is the size of every stack, whatever the jobs say; with ``pass_faults`` a fault of
    ours in one niche is kept as its mistake, so that the others are worked out.
    """

    board: str | None = None
    pass_faults: bool = False


Result = Outcome | tuple[Mistake, ...]
Task = tuple[str, Mapping[str, object]]
Mark = Hashable  # what tells one niche from another


@dataclass(slots=True)
class Running:
    """Rows that are being worked out: what is known of them, and what is on its way."""

    rows: list[NicheRow]
    marks: list[Mark]
    here: dict[Mark, Result]
    fresh: list[Mark]
    coming: Iterator[Result]


class Workers:
    """Works niches out, each different one once; over all cores where that pays."""

    def __init__(self, how: How) -> None:
        self.how = how
        self.planned = 0
        self.known: OrderedDict[Mark, Result] = OrderedDict()
        self.started: set[Mark] = set()
        self.pool: ProcessPoolExecutor | None = None

    def __enter__(self) -> Workers:
        return self

    def __exit__(self, *_: object) -> None:
        if self.pool is not None:
            self.pool.shutdown(cancel_futures=True)

    def ahead(self, rows: Iterable[NicheRow]) -> Iterator[Running]:
        """Yield chunk after chunk to be finished, each when the next one has been started."""
        stream = iter(rows)
        before: Running | None = None
        while chunk := list(islice(stream, CHUNK)):
            running = self.start(chunk)
            if before is not None:
                yield before
            before = running
        if before is not None:
            yield before

    def start(self, rows: list[NicheRow]) -> Running:
        """Begin to work out what isn't known yet; ``finish`` in the same order."""
        marks = [_mark(row) for row in rows]
        fresh: dict[Mark, Task] = {}
        here: dict[Mark, Result] = {}
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
        return Running(rows, marks, here, list(fresh), self._work(list(fresh.values())))

    def finish(self, running: Running) -> list[Result]:
        """Return what each row comes to, in order."""
        try:
            for mark, result in zip(running.fresh, running.coming, strict=True):
                self.known[mark] = result
        except BrokenProcessPool:
            raise WorkerLostError(
                "a process that works niches out was ended from outside, for want of memory or by "
                "somebody; nothing was written"
            ) from None
        self.started.difference_update(running.fresh)
        here = running.here
        found = [here[mark] if mark in here else self.known[mark] for mark in running.marks]
        while len(self.known) > REMEMBERED:
            self.known.popitem(last=False)
        return found

    def _work(self, tasks: list[Task]) -> Iterator[Result]:
        cores = os.cpu_count()
        if self.pool is None and (len(tasks) < POOL_FROM or cores is None or cores < 2):
            return iter(work_batch(tasks, self.how))
        if self.pool is None:
            self.pool = ProcessPoolExecutor(
                cores, initializer=_begin_worker, initargs=(os.getpid(),)
            )
        batches = [tasks[start : start + BATCH] for start in range(0, len(tasks), BATCH)]
        with _interrupts_held():  # a worker that is interrupted while it starts says a traceback
            results = self.pool.map(partial(work_batch, how=self.how), batches)
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


def _begin_worker(parent: int) -> None:
    """Leave interrupts to the parent, and end when it has ended, even if it was killed."""
    import signal
    import threading

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    threading.Thread(target=_watch, args=(parent,), daemon=True).start()


def _watch(parent: int) -> None:
    import time

    while os.getppid() == parent:
        time.sleep(LOOK_UP)
    os._exit(1)


def _mark(row: NicheRow) -> Mark:
    """Return what equal niches share; a job file is always a niche of its own."""
    if row.mistakes or not row.values:
        return row.where
    paths = tuple(row.values)
    told = paths, layout_of(paths).told(tuple(row.values.values()))
    try:
        hash(told)
    except TypeError:  # a cell that is no text and no number
        return row.where
    return told


def work_batch(tasks: list[Task], how: How) -> list[Result]:
    """Return what each of some niches comes to: an outcome, or what is wrong with it.

    Raises:
        RuntimeError: if bracecalc itself is at fault, and the niche is not to be passed over.
    """
    from bracecalc.tables.load import load_tables

    found: list[Result] = []
    for where, values in tasks:
        try:
            found.append(_work_one(where, values, load_tables(), how.board))
        except Exception as error:
            fault = f"{type(error).__name__}: {error}"
            if not how.pass_faults:
                raise RuntimeError(f"{where}: {fault}") from error
            right = "no fault of bracecalc itself; please report it with this niche (SECURITY.md)"
            found.append((Mistake(where, "", f"a fault ({fault})"[:200], right),))
    return found


@lru_cache(maxsize=1)
def _row_jobs() -> RowJobs:
    """Return this process's own, which remembers what rows share."""
    return RowJobs()


def _work_one(
    where: str, values: Mapping[str, object], tables: Tables, board: str | None
) -> Result:
    from bracecalc.jobfile.read import read_job

    try:
        if values:
            job = _row_jobs().job(values, where=where, folder=Path(where).parent)
        else:
            job = read_job(where, tables=tables)
        if board is not None:
            boards = replace(job.boards, size=board, thickness=None, width=None)
            job = replace(job, boards=boards)
        return work_out(job)
    except JobError as error:
        return error.mistakes
