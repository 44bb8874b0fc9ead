"""What would put a failing height right, each planned again before it is offered."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import NamedTuple

from bracecalc.planning.bracing import Bracing
from bracecalc.planning.floor_change import floor_change, mark_down, mark_up, reading_doubt
from bracecalc.planning.reach import leg_travels, rolling_height
from bracecalc.records.actions import Action, ActionKind, MoveBoards, MoveSoffit
from bracecalc.records.job import Job
from bracecalc.records.plan import Finding, Fix, ReachBand, Severity, Verdict
from bracecalc.records.reference import Tables
from bracecalc.text.actions import remedy_words
from bracecalc.text.findings import Lengths

HEIGHTS = (
    "floor-uses-up-travel",
    "leg-travel-exceeded",
    "restraint-too-low",
    "does-not-go-in",
    "reach-uncertain",
)


class _Proposal(NamedTuple):
    """A change not yet checked, and the job with it made."""

    action: Action
    job: Job


def with_fixes(
    job: Job,
    tables: Tables,
    core: Bracing,
    findings: tuple[Finding, ...],
    again: Callable[[Job], tuple[Bracing, Verdict]],
) -> tuple[Finding, ...]:
    """Return findings, those of a height that fails with every change that makes the plan hold.

    Args:
        job: one niche.
        tables: reference tables.
        core: of that job.
        findings: of its plan.
        again: returns the bracing of a changed job, and what it comes to.
    """
    if not any(one.severity is Severity.FAILS and one.code in HEIGHTS for one in findings):
        return findings
    fixes = tuple(_holding(job, tables, core.band, again))
    return tuple(
        replace(one, fixes=fixes, remedy=_words(job, fixes, one.remedy))
        if one.severity is Severity.FAILS and one.code in HEIGHTS
        else one
        for one in findings
    )


def _holding(
    job: Job, tables: Tables, band: ReachBand, again: Callable[[Job], tuple[Bracing, Verdict]]
) -> Iterator[Fix]:
    tried: set[Action] = set()
    held: set[ActionKind] = set()
    for action, changed in _proposals(job, tables, band):
        if action in tried or action.kind in held:  # the smallest of its kind holds already
            continue
        tried.add(action)
        core, verdict = again(changed)
        margin = core.choice.restraint.margin
        if verdict is not Verdict.FAILS and margin is not None:
            held.add(action.kind)
            yield Fix(actions=(action,), margin=margin, verdict=verdict, job=changed)


def _proposals(job: Job, tables: Tables, band: ReachBand) -> Iterator[_Proposal]:
    for spare in (reading_doubt(job), 0.0):
        for underside in _undersides(job, spare):
            changed = floor_change(job, underside, spare=spare)
            if changed is not None:
                yield _Proposal(*changed)
        if job.built is not None and job.built.boards and not job.built.screws:
            yield from _moved(job, band, spare)
    if job.built is None and job.niche.soffit:
        yield from _other_soffit(job, tables, band)


def _undersides(job: Job, spare: float) -> Iterator[float]:
    """Yield where the top may go: what stands; else over the highest spot, under the lowest."""
    if job.built is not None:
        yield job.built.underside
        return
    unit, spots = job.unit, job.floor.spots
    over = max(max(spots) + unit.height + job.rules.leg_least, rolling_height(job))
    yield mark_up(over + spare)
    reaches = (spot + travel for spot, travel in zip(spots, leg_travels(job), strict=True))
    yield mark_down(min(reaches) + unit.height - spare)


def _moved(job: Job, band: ReachBand, spare: float) -> Iterator[_Proposal]:
    built = job.built
    low, high = mark_up(band.low + spare), mark_down(band.high - spare)
    if built is None or low > high:
        return
    under = min(max(built.underside, low), high)
    action = MoveBoards(by=under - built.underside, underside=under, stand=True, level=False)
    if action.by:
        yield _Proposal(action, replace(job, built=replace(built, underside=under)))


def _other_soffit(job: Job, tables: Tables, band: ReachBand) -> Iterator[_Proposal]:
    """Yield the soffit brought down into reach, or raised: at last over the boards too."""
    widths = sorted({size.width for size in tables.lumber.values()})
    over = max(rolling_height(job), band.low) + reading_doubt(job)
    heights = [mark_up(over + width) for width in (0.0, *widths)]
    if job.niche.lowest_soffit > band.high:
        heights = [mark_down((band.low + band.high) / 2.0)]
    for height in heights:
        by = height - job.niche.lowest_soffit
        soffit = tuple(reading + by for reading in job.niche.soffit)
        if by:
            changed = replace(job, niche=replace(job.niche, soffit=soffit))
            yield _Proposal(MoveSoffit(by=by, underside=height), changed)


def _words(job: Job, fixes: tuple[Fix, ...], otherwise: str) -> str:
    if not fixes:
        return otherwise
    lengths = Lengths(job)
    told = []
    for fix in fixes:
        spare = f"{lengths.down(fix.margin.worst_case)} to spare, worst case"
        how = spare if fix.verdict is Verdict.HOLDS else "if measured closely"
        told.append(f"{remedy_words(job, fix.actions, None)}: planned again, it then holds, {how}.")
    return " Or: ".join(told)
