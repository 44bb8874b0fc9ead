"""The design of a rear-wall stack: what its schemes are worked out from, and which is chosen."""

from __future__ import annotations

from dataclasses import replace

from bracecalc.mechanics.statics.contact import FrontToBack
from bracecalc.planning.bearing import place_of
from bracecalc.planning.options import Choice, stack_height
from bracecalc.records.job import Job
from bracecalc.records.plan import ReachBand, Stack
from bracecalc.records.reference import Tables
from bracecalc.records.scheme import Backing, Design
from bracecalc.stack import advice
from bracecalc.stack.check import contact_points_of
from bracecalc.stack.make import SILENT
from bracecalc.stack.search import Site, Tried, search
from bracecalc.strength.demand import Cases, load_cases


def designed(site: Site, *, helps: bool, whole: bool) -> tuple[Design, Tried]:
    """Return the design; beside a size that is given, what every size would come to."""
    job = site.job
    found = search(site, whole=whole)
    if job.boards.size is None or (job.built is not None and job.built.boards):
        return advice.design(site, found, None)
    given, holds = found, found.holds
    eased = holds is not None and (
        holds.scheme.finish_cut or holds.scheme.backing is Backing.BLOCKING
    )
    if whole or (helps and (holds is None or eased)):
        free = site._replace(job=replace(job, boards=replace(job.boards, size=None)))
        found = search(free, whole=whole)
    return advice.design(site, found, given)


def site_of(job: Job, tables: Tables, band: ReachBand, choice: Choice) -> Site:
    """Return what the schemes are worked out from: the demand at each point of contact."""
    known: dict[tuple[float, float], dict[FrontToBack, Cases]] = {}
    target = choice.restraint.target_height

    heights: dict[float, float | None] = {}

    def height_of(width: float) -> float | None:
        if width not in heights:
            built = job.built is not None
            heights[width] = target if built else stack_height(job, band, width)
        return heights[width]

    def demand_of(stack: Stack) -> dict[FrontToBack, Cases]:
        height = height_of(stack.width)
        extension = 0.0 if height is None else height - job.unit.height - min(job.floor.spots)
        key = stack.overlap, extension
        if key not in known:
            known[key] = {
                out: load_cases(job, place_of(job, stack.overlap, out, extension), SILENT)
                for out in contact_points_of(job)
            }
        return known[key]

    return Site(job, tables, demand_of, height_of)
