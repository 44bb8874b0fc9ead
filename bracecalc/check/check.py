"""As found on site against the plan: every point, the whole, the legs, and what mends a miss.

The plan's own restraint is kept: built boards are judged where they stand, and boards that are not
up yet where they were planned. All verdicts come from the plan's code.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from bracecalc.certainty.held import built_of, planned_screws, worked_out
from bracecalc.check.changes import van_screws
from bracecalc.check.heights import Site, shims_for
from bracecalc.check.points import changed_screws, points_of
from bracecalc.check.remedies import lost, mend_whole, misses
from bracecalc.check.standing import standing_screws
from bracecalc.check.studs import stud_report
from bracecalc.mechanics.geometry.reach import leg_turns
from bracecalc.mechanics.statics import overturning
from bracecalc.planning.bracing import sized
from bracecalc.planning.plan import make_plan
from bracecalc.planning.reach import floor_uncertainty
from bracecalc.records.job import CORNERS, Built, Job, Layer, Screws, StudMaterial
from bracecalc.records.job import Contact as Touch
from bracecalc.records.plan import (
    PackerSupport,
    Plan,
    RestraintKind,
    SoffitSupport,
    StackSupport,
    Verdict,
)
from bracecalc.records.scheme import ScrewState
from bracecalc.records.site import AsFound, Contact, LegTurn, Reading, SiteCheck
from bracecalc.tables.load import tables_of
from bracecalc.text.actions import changed_screw_words

PAPER = 1.0 / 32.0  # in: a gap at one end up to which both carry


def check_site(job: Job, as_found: AsFound) -> SiteCheck:
    """Return what was found on site against the plan of a job.

    Args:
        job: that the plan was made from; inches, heights above the datum.
        as_found: what was measured; what is left out is taken from the plan.

    Returns:
        The check, with every remedy applied to the job and worked out again.

    Raises:
        JobError: if a table that the job names has no row that it asks for.
    """
    planned = make_plan(job)
    job = sized(job, planned.support)
    held = held_job(measured_job(job, as_found), planned, as_found)
    found = make_plan(held)
    site = Site(
        as_found=as_found,
        screws=job.screws,
        gap=gap_of(as_found),
        end=open_end(as_found),
        contact=job.rules.contact,
    )
    missed = misses(found, site, planned=planned)
    todo, after = mend_whole(held, site, missed) if missed else ((), found.verdict)
    final = make_plan(todo[-1].job) if todo else found
    # a remedy names the screws that it moves
    named = bool(todo) and bool(final_states(final))
    changed = () if named else changed_screws(planned, final, as_found)
    return SiteCheck(
        title=job.title,
        verdict=Verdict.FAILS if missed else found.verdict,
        as_found=as_found,
        job=held,
        planned=planned,
        found=found,
        points=points_of(as_found, planned, found),
        legs=leg_turns_at(found, as_found.legs),
        contact=contact_of(held, found, as_found),
        studs=stud_report(as_found, planned, found),
        changed_screws=changed,
        changes=tuple(changed_screw_words(job, one) for one in changed),
        misses=missed,
        todo=(*lost(found), *todo),
        after=after,
        mended=final,
        legs_after=leg_turns_at(final, as_found.legs),
    )


def final_states(plan: Plan) -> tuple[ScrewState, ...]:
    """Return the screws that are in once everything is done, where they are known."""
    return plan.support.standing if isinstance(plan.support, StackSupport) else ()


def measured_job(job: Job, as_found: AsFound) -> Job:
    """Return a job with what was measured in the place of what was planned.

    A spread of repeated readings widens the uncertainty of its kind: floor, height or tape.
    """
    niche = replace(
        job.niche,
        width=_means(as_found.width, job.niche.width),
        depth=_means(as_found.depth, job.niche.depth),
        soffit=_means(as_found.soffit, job.niche.soffit),
        soffit_solid=job.niche.soffit_solid
        if as_found.soffit_solid is None
        else as_found.soffit_solid,
        soffit_depth=job.niche.soffit_depth
        if as_found.soffit_depth is None
        else as_found.soffit_depth.mean,
    )
    heights = {corner: reading.mean for corner, reading in as_found.floor.items()}
    floor = replace(
        job.floor.at(heights),
        path_high=job.floor.path_high if as_found.path_high is None else as_found.path_high.mean,
        uncertainty=_widest(_floor_readings(as_found), floor_uncertainty(job)),
        line=None if as_found.floor else job.floor.line,
    )
    wall = job.wall
    if as_found.stud_spots:
        studs = tuple(sorted(reading.mean for reading in as_found.stud_spots))
        wall = replace(wall, stud_spots=studs, stud_layout=None)
    if as_found.layers:
        wall = replace(wall, layers=_layers(job, as_found), finish_to_come=0.0)
    if as_found.stud_material is not None:
        stud = replace(wall.stud, material=StudMaterial(as_found.stud_material))
        wall = replace(wall, stud=stud)
    if as_found.blocking is not None:
        wall = replace(wall, blocking=as_found.blocking)
    if as_found.unit_in:  # it has come in: nothing is to be rolled over any more
        floor = replace(floor, path_high=max(floor.spots) - job.rules.roll_in)
    rules = replace(
        job.rules,
        tape_uncertainty=_widest(_tape_readings(as_found), job.rules.tape_uncertainty),
        height_uncertainty=_widest(_height_readings(as_found), job.rules.height_uncertainty),
    )
    return replace(job, niche=niche, floor=floor, wall=wall, rules=rules)


def held_job(job: Job, planned: Plan, as_found: AsFound) -> Job:
    """Return a job that keeps the plan's restraint and screws, or has them as they were built."""
    built = built_restraint(job, planned, as_found)
    rules, gap = job.rules, gap_of(as_found)
    if built is not None:
        twist = 0.0 if as_found.twist is None else as_found.twist.mean
        rules = replace(rules, rear_rise=rules.rear_rise + gap + twist)
    if gap > PAPER + 1e-9:  # wider than that, the far end does not carry
        rules = replace(rules, contact=Touch.ONE_END)
    screws = job.screws
    if planned.screws:
        screws = held_screws(job, planned, as_found)
    elif as_found.screws:
        screws = van_screws(job.screws, as_found)
    return replace(job, built=built, rules=rules, screws=screws)


def built_restraint(job: Job, planned: Plan, as_found: AsFound) -> Built | None:
    """Return the restraint as it stands or is held to; None where there is nothing to hold to."""
    underside = _underside(job, planned, as_found)
    kind = planned.restraint.kind
    if underside is None:
        return None
    stuck = tuple((corner, as_found.legs.get(corner, 0.0)) for corner in as_found.seized)
    built = replace(built_of(planned.support, underside), stuck=stuck, trim=as_found.trim)
    if not as_found.projection and kind not in (RestraintKind.STACK, RestraintKind.NONE):
        return built
    boards = _boards(job, planned, as_found)
    screws = standing_screws(planned, as_found, len(boards), tables_of(job))
    wood = job.wall.stud.material is StudMaterial.WOOD
    return replace(
        built,
        boards=boards,
        packers=(),
        start=None if as_found.board_start is None else as_found.board_start.mean,
        length=None if as_found.board_length is None else as_found.board_length.mean,
        rises=gap_of(as_found),
        screws=screws,
        unlocated=as_found.built and not screws and wood,
    )


def _underside(job: Job, planned: Plan, as_found: AsFound) -> float | None:
    ends = [end.mean for end in (as_found.board_left, as_found.board_right) if end is not None]
    if ends:
        return min(ends)
    match planned.support:
        case SoffitSupport() if as_found.soffit:
            return job.niche.lowest_soffit
        case PackerSupport(packers=packers) if as_found.soffit:
            return job.niche.lowest_soffit - packers.total
        case _:
            return planned.restraint.target_height


def _boards(job: Job, planned: Plan, as_found: AsFound) -> tuple[float, ...]:
    """Return board thicknesses that add up to the projection found, the planned ones else."""
    one = job.boards.measured(tables_of(job).lumber[job.boards.chosen]).thickness
    thicknesses: tuple[float, ...] = (one,)
    if isinstance(planned.support, StackSupport):
        thicknesses = planned.support.stack.thicknesses
    if not as_found.projection:
        return thicknesses
    projection = min(reading.mean for reading in as_found.projection)
    if abs(projection - sum(thicknesses)) > one / 2.0:  # other than the planned number of boards
        thicknesses = (one,) * max(1, round(projection / one))
    share = projection / sum(thicknesses)
    # a factor of 1 must leave the planned sizes to the last bit
    return thicknesses if share == 1.0 else tuple(share * size for size in thicknesses)


def held_screws(job: Job, planned: Plan, as_found: AsFound) -> Screws:
    """Return the planned screws as the only ones; what is on the van where one of them is not."""
    sizes = {(row.size, row.length) for row in planned.screws}
    if as_found.screws and not all(on_van(size, length, as_found) for size, length in sizes):
        return van_screws(job.screws, as_found)
    return planned_screws(job, planned)


def on_van(size: str, length: float, as_found: AsFound) -> bool:
    """Return whether a screw of a size and length is on the van."""
    return any(one.size == size and length in one.lengths for one in as_found.screws)


def gap_of(as_found: AsFound) -> float:
    """Return the gap at the end of the boards that the top does not touch first, in."""
    left, right = as_found.board_left, as_found.board_right
    return 0.0 if left is None or right is None else abs(left.mean - right.mean)


def open_end(as_found: AsFound) -> str:
    """Return the end that keeps a gap, "left" or "right"; "" where both touch."""
    left, right = as_found.board_left, as_found.board_right
    if left is None or right is None or left.mean == right.mean:
        return ""
    return "left" if left.mean > right.mean else "right"


def contact_of(job: Job, found: Plan, as_found: AsFound) -> Contact | None:
    """Return where the top touches, and what the gap at the other end costs."""
    height, gap = found.restraint.target_height, gap_of(as_found)
    if height is None:
        return None
    left, right = as_found.board_left, as_found.board_right
    first = "both"
    if gap > 0.0 and left is not None and right is not None:
        first = "left" if left.mean < right.mean else "right"
    support = found.support
    overlap = support.overlap if isinstance(support, StackSupport) else None
    return Contact(
        height=height,
        first_end=first,
        gap=gap,
        shims=shims_for(job, gap),
        overlap=overlap,
        overlap_left=_overlap_left(job, found, job.rules.rear_rise),
        overlap_left_shimmed=_overlap_left(job, found, job.rules.rear_rise - gap),
    )


def _overlap_left(job: Job, found: Plan, rise: float) -> float | None:
    place = worked_out(job).place
    if not isinstance(found.support, StackSupport) or place.arm is None:
        return None
    return overturning.overlap_left(
        overlap=found.support.overlap - job.rules.tape_uncertainty,
        rise=rise,
        height=job.unit.height + place.extension,
        arm=place.arm,
    )


def leg_turns_at(found: Plan, now: Mapping[str, float]) -> dict[str, LegTurn]:
    """Return each leg at contact, and how far that is from where it is now."""
    if found.legs is None:
        return {}
    pitch, legs = found.job.unit.leg_pitch, {}
    for corner in CORNERS:
        leg, stands = found.legs[corner], now.get(corner)
        out = leg.extension if stands is None else leg.extension - stands
        legs[corner] = LegTurn(
            extension=leg.extension,
            now=stands,
            out=out,
            turns=None if pitch is None else leg_turns(extension=out, pitch=pitch),
            margin=leg.margin,
        )
    return legs


def _means(readings: tuple[Reading, ...], planned: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(reading.mean for reading in readings) if readings else planned


def _layers(job: Job, as_found: AsFound) -> tuple[Layer, ...]:
    fixed = {layer.material for layer in job.wall.layers if layer.fixed_to_stud}
    return tuple(
        Layer(
            material=layer.material,
            thickness=layer.thickness.mean,
            fixed_to_stud=layer.material in fixed,
        )
        for layer in as_found.layers
    )


def _widest(readings: tuple[Reading, ...], least: float) -> float:
    return max((reading.uncertainty(least) for reading in readings), default=least)


def _floor_readings(as_found: AsFound) -> tuple[Reading, ...]:
    path = () if as_found.path_high is None else (as_found.path_high,)
    return (*as_found.floor.values(), *path)


def _height_readings(as_found: AsFound) -> tuple[Reading, ...]:
    ends = (as_found.board_left, as_found.board_right)
    return (*as_found.soffit, *(end for end in ends if end is not None))


def _tape_readings(as_found: AsFound) -> tuple[Reading, ...]:
    layers = (layer.thickness for layer in as_found.layers)
    lengths = (*as_found.width, *as_found.depth, *as_found.stud_spots, *as_found.projection)
    return (*lengths, *layers)
