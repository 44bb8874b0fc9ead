"""Which restraint: soffit, packers, rear-wall stack or none; all are worked out and ranked."""

from __future__ import annotations

from dataclasses import replace

from bracecalc.planning.as_built import as_built
from bracecalc.planning.at_height import height_findings
from bracecalc.planning.no_restraint import no_band, none_possible
from bracecalc.planning.options import (
    RANK,
    Choice,
    Option,
    packers_option,
    soffit_option,
    stack_option,
)
from bracecalc.records.job import CORNERS, Job
from bracecalc.records.plan import Alternative, OverSpot, ReachBand, Restraint, RestraintKind
from bracecalc.records.reference import Tables
from bracecalc.text.findings import Lengths

REAR = ("rear_left", "rear_right")


def choose_restraint(job: Job, tables: Tables, band: ReachBand) -> Choice:
    """Return the best restraint that is possible, and every other with its reason."""
    choice = _chosen(job, tables, band)
    target = choice.restraint.target_height
    if target is None:
        return choice
    line = job.floor.line
    told = replace(
        choice.restraint,
        from_line=None if line is None else target - line,
        over_spot=_over_rear(job, target),
    )
    return choice._replace(restraint=told)


def _over_rear(job: Job, target: float) -> OverSpot | None:
    """Return the height over the higher leg spot of the rear: the top comes to it first."""
    rear = [
        (spot, corner)
        for spot, corner in zip(job.floor.spots, CORNERS, strict=True)
        if corner in REAR and corner not in job.floor.unread
    ]
    if not rear:
        return None
    spot, corner = max(rear, key=lambda read: read[0])
    return OverSpot(corner, target - spot)


def _chosen(job: Job, tables: Tables, band: ReachBand) -> Choice:
    lengths = Lengths(job)
    if band.high < band.low - 1e-9:
        return no_band(job, band, lengths)
    if job.built is not None:
        return as_built(job, job.built, tables, band)
    soffit = soffit_option(job, tables, band)
    packers = packers_option(job, tables, band, lengths)
    stack = stack_option(job, tables, band, lengths)
    worked_out = (soffit, packers, stack)
    possible = sorted(
        (option for option in worked_out if isinstance(option, Option)),
        key=lambda option: RANK[option.margin.verdict],
    )
    if not possible:
        return none_possible(job, tables, band, worked_out)
    best = possible[0]
    others = tuple(
        Alternative(kind=one.kind, why_not=_ranked_after(one, best, lengths))
        if isinstance(one, Option)
        else Alternative(kind=one.kind, why_not=one.why_not)
        for one in worked_out
        if one is not best
    )
    restraint = Restraint(
        kind=best.kind,
        target_height=best.height,
        margin=best.margin,
        why=_why(best, job, lengths),
        alternatives=others,
    )
    return Choice(restraint, best.packers, height_findings(job, band, best, lengths))


def _why(best: Option, job: Job, lengths: Lengths) -> str:
    if best.kind is RestraintKind.SOFFIT:
        return "the soffit is solid and within reach of the legs"
    if best.kind is RestraintKind.PACKERS and best.packers is not None:
        total = lengths.near(best.packers.total)
        return f"the soffit is solid; packers of {total} bring it into reach"
    if best.height == job.unit.restraint_height:
        return "boards on the rear wall, at the height that the spec sheet asks for"
    return "boards on the rear wall, near the middle of the reach band"


def _ranked_after(one: Option, best: Option, lengths: Lengths) -> str:
    at = f"possible at {lengths.near(one.height)}"
    if RANK[one.margin.verdict] > RANK[best.margin.verdict]:
        return f"{at}, but it only {one.margin.verdict.value}"
    return f"{at}; the {best.kind.value} needs less work"
