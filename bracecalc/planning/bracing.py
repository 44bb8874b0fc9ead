"""The core of a plan, as the rooms that build on it pass it on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import NamedTuple

from bracecalc.planning.options import Choice
from bracecalc.records.job import Job
from bracecalc.records.plan import (
    Demand,
    Finding,
    Leg,
    ReachBand,
    ScrewRow,
    StackSupport,
    TopSupport,
)
from bracecalc.records.scheme import Design
from bracecalc.stack.boards import DEFAULT_SIZE, sold_in
from bracecalc.stack.check import Held, StackCheck
from bracecalc.strength.demand import Place


class Bracing(NamedTuple):
    """What is built, what it holds, and what is to be said of it."""

    band: ReachBand
    choice: Choice
    legs: Mapping[str, Leg] | None
    support: TopSupport | None
    demand: Demand
    findings: tuple[Finding, ...]
    place: Place
    design: Design | None = None
    check: StackCheck | None = None
    held: Held | None = None

    @property
    def screws(self) -> tuple[ScrewRow, ...]:
        """The screws of the boards or of the packers."""
        return () if self.support is None else self.support.screws


def sized(job: Job, support: TopSupport | None) -> Job:
    """Return a job whose boards have the size that its plan chose, where it gives none itself."""
    if job.boards.size is not None:
        return job
    size = DEFAULT_SIZE[sold_in(job)]
    if isinstance(support, StackSupport):
        size = support.stack.board
    return replace(job, boards=replace(job.boards, size=size))
