"""The bracing as a plan has it, held while single measurements of the job are moved.

Kept apart from the rest of the check on site: every plan that is printed asks for it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from bracecalc.planning.bracing import Bracing, sized
from bracecalc.planning.plan import brace, overall
from bracecalc.planning.reach import floor_uncertainty
from bracecalc.records.job import CORNERS, Built, CarriedScrew, Job, Screws
from bracecalc.records.plan import PackerSupport, Plan, StackSupport, TopSupport, Verdict
from bracecalc.records.reference import ScrewKind
from bracecalc.records.scheme import Backing
from bracecalc.tables.load import tables_of

SEARCHED = 2.0  # in: farther off than this is no error of reading


class Measured(NamedTuple):
    """One measurement of a job that may be off. ``moved`` returns the job with it off by so much.

    ``least`` is how far down it can go at all: a layer's thickness stays above 0.
    """

    name: str
    value: float
    uncertainty: float
    moved: Callable[[Job, float], Job]
    least: float = SEARCHED


def worked_out(job: Job) -> Bracing:
    """Return the core of a job's plan, without advice on what would help."""
    return brace(job, tables_of(job), helps=False)


def verdict_of(job: Job) -> Verdict:
    """Return what a job's bracing comes to."""
    core = worked_out(job)
    return overall(core, core.findings)


def hold(job: Job, plan: Plan) -> Job:
    """Return a job whose restraint and screws stay as the plan has them."""
    target = plan.restraint.target_height
    if target is None:
        return job
    screws = planned_screws(job, plan) if plan.screws else job.screws
    built = built_of(plan.support, target)
    held = replace(job, screws=screws, built=built if job.built is None else job.built)
    return sized(held, plan.support)


def built_of(support: TopSupport | None, underside: float) -> Built:
    """Return a planned restraint as if it stood, its underside at a height above the datum."""
    match support:
        case StackSupport(stack=stack):
            return Built(
                underside=underside,
                boards=stack.thicknesses,
                finish_cut=stack.cut_back > 0.0,
                blocking=stack.backing is Backing.BLOCKING,
            )
        case PackerSupport(packers=packers):
            return Built(underside=underside, packers=packers.pieces)
        case _:
            return Built(underside=underside)


def planned_screws(job: Job, plan: Plan) -> Screws:
    """Return the screws of a plan as the only ones that a job may use."""
    rows = {(row.size, row.length): row for row in plan.screws}
    carried = tuple(
        CarriedScrew(size=row.size, lengths=(row.length,), thread_length=row.thread_length)
        for row in rows.values()
        if row.kind is not ScrewKind.PUBLISHED
    )
    counterbore = max((row.counterbore for row in plan.screws[-1:]), default=0.0)
    return replace(
        job.screws,
        carried=carried,
        published=tuple(one for one in job.screws.published if (one.size, one.length) in rows),
        counterbore=max(job.screws.counterbore, counterbore),
    )


def measurements(job: Job) -> tuple[Measured, ...]:
    """Return every measurement of a job that can be off, each with how to move it."""
    tape = job.rules.tape_uncertainty
    found = [*_heights(job)]
    found.append(_reading("unit height", job.unit.height, 0.0, _move_unit_height))
    found.append(_reading("niche depth", job.niche.deepest, tape, _move_depth))
    found.append(_reading("unit depth", job.unit.depth, 0.0, _move_unit_depth))
    if job.built is not None and not job.built.boards:
        return tuple(found)
    if job.wall.stud_spots is not None:
        found.extend(_stud(job, index, tape) for index in range(len(job.wall.stud_spots)))
    found.extend(_layer(job, index, tape) for index in range(len(job.wall.layers)))
    return tuple(found)


def _reading(
    name: str, value: float, uncertainty: float, moved: Callable[[Job, float], Job]
) -> Measured:
    return Measured(name=name, value=value, uncertainty=uncertainty, moved=moved)


def _heights(job: Job) -> list[Measured]:
    floor = floor_uncertainty(job)
    found = [
        _reading(f"floor, {corner.replace('_', ' ')}", spot, floor, _moved_corner(corner))
        for corner, spot in zip(CORNERS, job.floor.spots, strict=True)
    ]
    if job.floor.path_high is not None:
        found.append(
            _reading("highest floor on the way in", job.floor.path_high, floor, _move_path)
        )
    if job.built is not None:
        height = job.rules.height_uncertainty
        found.append(
            _reading("underside of the restraint", job.built.underside, height, _move_underside)
        )
    return found


def _moved_corner(corner: str) -> Callable[[Job, float], Job]:
    def moved(job: Job, by: float) -> Job:
        stood = job.floor.spots[CORNERS.index(corner)]
        return replace(job, floor=job.floor.at({corner: stood + by}))

    return moved


def _move_path(job: Job, by: float) -> Job:
    path = job.floor.path_high
    return job if path is None else replace(job, floor=replace(job.floor, path_high=path + by))


def _move_underside(job: Job, by: float) -> Job:
    built = job.built
    if built is None:
        return job
    return replace(job, built=replace(built, underside=built.underside + by))


def _move_unit_height(job: Job, by: float) -> Job:
    unit = job.unit
    overall_height = None if unit.height_overall is None else unit.height_overall + by
    return replace(job, unit=replace(unit, height=unit.height + by, height_overall=overall_height))


def _move_depth(job: Job, by: float) -> Job:
    depth = tuple(reading + by for reading in job.niche.depth)
    return replace(job, niche=replace(job.niche, depth=depth))


def _move_unit_depth(job: Job, by: float) -> Job:
    return replace(job, unit=replace(job.unit, depth=job.unit.depth + by))


def _stud(job: Job, index: int, uncertainty: float) -> Measured:
    def moved(job: Job, by: float) -> Job:
        spots = list(() if job.wall.stud_spots is None else job.wall.stud_spots)
        spots[index] += by
        return replace(job, wall=replace(job.wall, stud_spots=tuple(sorted(spots))))

    spots = () if job.wall.stud_spots is None else job.wall.stud_spots
    return _reading(f"stud {index + 1}", spots[index], uncertainty, moved)


def _layer(job: Job, index: int, uncertainty: float) -> Measured:
    def moved(job: Job, by: float) -> Job:
        layers = list(job.wall.layers)
        layers[index] = replace(layers[index], thickness=layers[index].thickness + by)
        return replace(job, wall=replace(job.wall, layers=tuple(layers)))

    layer = job.wall.layers[index]
    return Measured(
        name=f"{layer.material} on the wall",
        value=layer.thickness,
        uncertainty=uncertainty,
        moved=moved,
        least=layer.thickness,
    )
