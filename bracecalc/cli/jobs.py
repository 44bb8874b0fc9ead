"""The jobs that a command is called with: files, folders, tables with a row a niche."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bracecalc.jobfile.rows import NicheRow
    from bracecalc.records.job import Job

STANDARD_INPUT = "-"


def read_jobs(sources: Iterable[str]) -> list[Job]:
    """Read every job, and tell all mistakes of all of them at once.

    Args:
        sources: job files, folders of them, tables (CSV, XLSX or ODS), or - for a job file on
            standard input.

    Raises:
        JobError: with every mistake of every source.
    """
    from bracecalc.errors import JobError, Mistake

    found: list[Job] = []
    mistakes: list[Mistake] = []
    for source in sources:
        for read in _readers(source):
            try:
                found.append(read())
            except JobError as error:
                mistakes.extend(error.mistakes)
    if mistakes:
        raise JobError(*mistakes)
    return found


def _readers(source: str) -> Iterator[Callable[[], Job]]:
    """Yield what reads each job of a source, so that one mistake doesn't hide the next."""
    from bracecalc.jobfile.read import read_job

    if source == STANDARD_INPUT or source.lower().endswith(".toml"):
        yield partial(read_job, source)
        return
    from bracecalc.jobfile.rows import Columns
    from bracecalc.order.takeoff import niche_rows

    for row in niche_rows([source], Columns()):
        yield partial(_job_of_row, row) if row.number else partial(read_job, row.where)


def _job_of_row(row: NicheRow) -> Job:
    from dataclasses import replace

    from bracecalc.errors import JobError
    from bracecalc.jobfile.build import build_job

    if row.mistakes:
        raise JobError(*row.mistakes)
    job = build_job(row.values, where=row.where)
    return job if row.count == 1 else replace(job, title=f"{job.title}: {row.count} alike")
