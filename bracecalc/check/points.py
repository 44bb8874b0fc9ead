"""Each measurement against the plan: planned, found, difference, margin and verdict."""

from __future__ import annotations

from collections.abc import Iterator

from bracecalc.check.point import UNLIMITED, Limit, point, several
from bracecalc.check.studs import stud_points
from bracecalc.planning.reach import floor_uncertainty, rolling_height
from bracecalc.records.job import CORNERS
from bracecalc.records.margins import margin
from bracecalc.records.plan import (
    PackerSupport,
    Plan,
    RestraintKind,
    ScrewRow,
    StackSupport,
    Verdict,
)
from bracecalc.records.site import AsFound, ChangedScrews, LimitKind, Point
from bracecalc.text.findings import Lengths


def points_of(as_found: AsFound, planned: Plan, found: Plan) -> tuple[Point, ...]:
    """Return every point, in the order in which a niche is measured."""
    return (
        *_niche_points(as_found, planned, found),
        *_floor_points(as_found, planned, found),
        *stud_points(as_found, planned, found),
        *_layer_points(as_found, planned, found),
        *_restraint_points(as_found, planned, found),
        *_screw_points(as_found, planned, found),
    )


def _niche_points(as_found: AsFound, planned: Plan, found: Plan) -> Iterator[Point]:
    job, tape = found.job, found.job.rules.tape_uncertainty
    for key, name, was, reading in several(
        "width", "niche width", as_found.width, planned.job.niche.narrowest
    ):
        width = was if reading is None else reading.mean
        room = margin((job.niche.narrowest if width is None else width) - job.unit.width, (tape,))
        yield point(key, name, (was, reading), tape, Limit(room, LimitKind.UNIT_WIDTH, False))
    for key, name, was, reading in several(
        "depth", "niche depth", as_found.depth, planned.job.niche.deepest
    ):
        depth = job.niche.deepest if reading is None else reading.mean
        yield point(key, name, (was, reading), tape, _depth_limit(found, depth))
    if job.niche.soffit or as_found.soffit:
        soffit = min(planned.job.niche.soffit, default=None)
        for key, name, was, reading in several("soffit", "soffit", as_found.soffit, soffit):
            height = job.niche.lowest_soffit if reading is None else reading.mean
            yield point(
                key, name, (was, reading), job.rules.height_uncertainty, _roll_limit(found, height)
            )


def _depth_limit(found: Plan, depth: float) -> Limit:
    job = found.job
    gap = depth - job.wall.finish_to_come - job.unit.depth + job.unit.proud
    if not isinstance(found.support, StackSupport):
        return Limit(margin(gap, (job.rules.tape_uncertainty,)), LimitKind.UNIT_DEPTH, False)
    over = found.support.stack.projection - gap - job.rules.overlap
    tape = (job.rules.tape_uncertainty,)
    if gap < over:
        return Limit(margin(gap, tape), LimitKind.UNIT_DEPTH, False)
    return Limit(margin(over, tape), LimitKind.OVERLAP)


def _roll_limit(found: Plan, height: float) -> Limit:
    job = found.job
    uncertainties = (job.rules.height_uncertainty, floor_uncertainty(job))
    return Limit(margin(height - rolling_height(job), uncertainties), LimitKind.ROLLING_IN, False)


def _floor_points(as_found: AsFound, planned: Plan, found: Plan) -> Iterator[Point]:
    uncertainty = floor_uncertainty(planned.job)
    for corner, was in zip(CORNERS, planned.job.floor.spots, strict=True):
        name = corner.replace("_", " ")
        limit = UNLIMITED
        if found.legs is not None:
            leg = found.legs[corner]
            up = leg.travel - leg.extension < leg.extension - found.job.rules.leg_least
            limit = Limit(leg.margin, LimitKind.LEG_TRAVEL if up else LimitKind.LEG_CARRYING)
        yield point(
            f"floor.{corner}",
            f"floor, {name}",
            (was, as_found.floor.get(corner)),
            uncertainty,
            limit,
        )
    path, under = as_found.path_high, found.restraint.target_height
    if path is not None and under is not None:
        yield point(
            "path_high",
            "highest floor on the way in",
            (planned.job.floor.path_high, path),
            uncertainty,
            _roll_limit(found, under),
        )


def _layer_points(as_found: AsFound, planned: Plan, found: Plan) -> Iterator[Point]:
    if not isinstance(found.support, StackSupport):
        return
    tape, before = planned.job.rules.tape_uncertainty, planned.job.wall.layers
    limit = _embedment_limit(planned, found)
    if not as_found.layers:
        for layer in before:
            name = f"{layer.material} on the wall"
            yield point(f"layers.{layer.material}", name, (layer.thickness, None), tape, limit)
    left = list(before)
    for found_layer in as_found.layers:
        alike = next((one for one in left if one.material == found_layer.material), None)
        was = None if alike is None else alike.thickness
        if alike is not None:
            left.remove(alike)
        yield point(
            f"layers.{found_layer.material}",
            f"{found_layer.material} on the wall",
            (was, found_layer.thickness),
            tape,
            limit,
            note="" if was is not None else "not in the plan",
        )


def _embedment_limit(planned: Plan, found: Plan) -> Limit:
    """Return the least room of the screws' embedment, of the planned screws where none fits now."""
    kind, thicker = LimitKind.EMBEDMENT, 0.0
    rows = found.screws
    if not rows:
        rows = planned.screws
        thicker = _build_up(found) - _build_up(planned)
    rooms = [row.embedment - thicker - row.required_embedment for row in rows]
    if not rooms:
        none = any(one.code == "no-stock-screw-long-enough" for one in found.findings)
        return Limit(None, kind, failed=none)
    return Limit(margin(min(rooms), (found.job.rules.tape_uncertainty,)), kind, judged=False)


def _build_up(plan: Plan) -> float:
    wall = plan.job.wall
    return wall.finish_to_come + sum(layer.thickness for layer in wall.layers)


def _restraint_points(as_found: AsFound, planned: Plan, found: Plan) -> Iterator[Point]:
    target, uncertainty = planned.restraint.target_height, planned.job.rules.height_uncertainty
    kind = found.restraint.kind
    if kind in (RestraintKind.SOFFIT, RestraintKind.NONE) and not as_found.built:
        return
    what = "packers" if kind is RestraintKind.PACKERS else "boards"
    ends = {"left": as_found.board_left, "right": as_found.board_right}
    first = min((end.mean for end in ends.values() if end is not None), default=None)
    for side, reading in ends.items():
        touches = reading is None or reading.mean == first
        yield point(
            f"board_{side}",
            f"underside of {what}, {side}",
            (target, reading),
            uncertainty,
            Limit(found.restraint.margin, LimitKind.REACH) if touches else UNLIMITED,
            note="" if touches else "gap here: shim it",
        )
    if not isinstance(found.support, StackSupport):
        return
    depth = None
    if isinstance(planned.support, StackSupport):
        depth = planned.support.stack.projection
    limit = Limit(found.support.stack.overlap_margin, LimitKind.OVERLAP)
    for key, name, was, reading in several("projection", "projection", as_found.projection, depth):
        yield point(key, name, (was, reading), planned.job.rules.tape_uncertainty, limit)


def _screw_points(as_found: AsFound, planned: Plan, found: Plan) -> Iterator[Point]:
    lengths, piece = Lengths(found.job), piece_word(planned)
    for row in planned.screws:
        there = any(
            screw.size == row.size and row.length in screw.lengths for screw in as_found.screws
        )
        note = lengths.say("point.on-hand" if there else "point.not-on-hand")
        yield Point(
            key=f"screws[{row.board}]",
            name=f"screw of {piece} {row.board}: {row.size} x {lengths.near(row.length)}",
            planned=None,
            found=None,
            uncertainty=None,
            limit=None,
            margin=None,
            verdict=Verdict.HOLDS if found.screws else Verdict.FAILS,
            measured=bool(as_found.screws),
            note=note if as_found.screws else "",
        )


def changed_screws(planned: Plan, final: Plan, as_found: AsFound) -> tuple[ChangedScrews, ...]:
    """Return which screws are others than planned, once everything is done."""
    before = {row.board: row for row in planned.screws}
    changed = []
    for row in final.screws:
        was = before.get(row.board)
        if was is not None and _alike(was, row):
            continue
        changed.append(
            ChangedScrews(
                row=row,
                was=was,
                packers=isinstance(final.support, PackerSupport),
                on_hand=any(
                    one.size == row.size and row.length in one.lengths for one in as_found.screws
                ),
            )
        )
    return tuple(changed)


def piece_word(plan: Plan) -> str:
    """Return what the screws of a plan go through: boards, or packers under a soffit."""
    return "packer" if isinstance(plan.support, PackerSupport) else "board"


def _alike(one: ScrewRow, other: ScrewRow) -> bool:
    return (one.size, one.length, one.per_stud, one.counterbore) == (
        other.size,
        other.length,
        other.per_stud,
        other.counterbore,
    )
