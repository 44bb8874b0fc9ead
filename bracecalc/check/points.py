"""Each measurement against the plan: planned, found, difference, margin and verdict."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from bracecalc.mechanics.nds.spacing import least_distances
from bracecalc.planning.reach import floor_uncertainty, rolling_height
from bracecalc.records.job import CORNERS
from bracecalc.records.margins import margin
from bracecalc.records.plan import (
    Margin,
    PackerSupport,
    Plan,
    RestraintKind,
    ScrewRow,
    StackSupport,
    Verdict,
)
from bracecalc.records.site import AsFound, ChangedScrews, LimitKind, Point, Reading, StudReport
from bracecalc.tables.load import tables_of
from bracecalc.text.findings import Lengths

SPACINGS = (
    12.0,
    16.0,
    19.2,
    24.0,
)  # in, centre to centre: what walls are framed at, common practice
NEAR_SPACING = 0.5  # in: framing is seldom truer, common practice
DOUBLED = 3.5  # in: studs nailed together, or a corner


class Limit(NamedTuple):
    """The room that one measurement has, to what, and whether the plan itself judges by it."""

    room: Margin | None
    kind: LimitKind | None
    judged: bool = True
    failed: bool = False  # where there is no room to tell it by


UNLIMITED = Limit(None, None)


def points_of(as_found: AsFound, planned: Plan, found: Plan) -> tuple[Point, ...]:
    """Return every point, in the order in which a niche is measured."""
    return (
        *_niche_points(as_found, planned, found),
        *_floor_points(as_found, planned, found),
        *_stud_points(as_found, planned, found),
        *_layer_points(as_found, planned, found),
        *_restraint_points(as_found, planned, found),
        *_screw_points(as_found, planned, found),
    )


def _point(
    key: str,
    name: str,
    values: tuple[float | None, Reading | None],
    uncertainty: float,
    limit: Limit,
    *,
    note: str = "",
) -> Point:
    planned, reading = values
    return Point(
        key=key,
        name=name,
        planned=planned,
        found=None if reading is None else reading.mean,
        uncertainty=uncertainty if reading is None else reading.uncertainty(uncertainty),
        limit=limit.kind,
        margin=limit.room,
        verdict=_verdict(limit),
        measured=reading is not None,
        note="; ".join(part for part in (note, _pulls(reading)) if part),
    )


def _pulls(reading: Reading | None) -> str:
    if reading is None or len(reading.pulls) == 1:
        return ""
    return f"mean of {len(reading.pulls)} readings"


def _verdict(limit: Limit) -> Verdict:
    if limit.room is None:
        return Verdict.FAILS if limit.failed else Verdict.HOLDS
    if limit.room.verdict is Verdict.FAILS and not limit.judged and limit.room.nominal >= -1e-9:
        return Verdict.CLOSE
    return limit.room.verdict


def _several(
    key: str, name: str, readings: Sequence[Reading], planned: float | None
) -> Iterator[tuple[str, str, float | None, Reading | None]]:
    """Yield one row for each reading, or one for the plan's value where none was taken."""
    if not readings:
        yield key, name, planned, None
    for number, reading in enumerate(readings, start=1):
        of = f", point {number}" if len(readings) > 1 else ""
        yield f"{key}[{number}]", name + of, planned, reading


def _niche_points(as_found: AsFound, planned: Plan, found: Plan) -> Iterator[Point]:
    job, tape = found.job, found.job.rules.tape_uncertainty
    for key, name, was, reading in _several(
        "width", "niche width", as_found.width, planned.job.niche.narrowest
    ):
        width = was if reading is None else reading.mean
        room = margin((job.niche.narrowest if width is None else width) - job.unit.width, (tape,))
        yield _point(key, name, (was, reading), tape, Limit(room, LimitKind.UNIT_WIDTH, False))
    for key, name, was, reading in _several(
        "depth", "niche depth", as_found.depth, planned.job.niche.deepest
    ):
        depth = job.niche.deepest if reading is None else reading.mean
        yield _point(key, name, (was, reading), tape, _depth_limit(found, depth))
    if job.niche.soffit or as_found.soffit:
        soffit = min(planned.job.niche.soffit, default=None)
        for key, name, was, reading in _several("soffit", "soffit", as_found.soffit, soffit):
            height = job.niche.lowest_soffit if reading is None else reading.mean
            yield _point(
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
        yield _point(
            f"floor.{corner}",
            f"floor, {name}",
            (was, as_found.floor.get(corner)),
            uncertainty,
            limit,
        )
    path, under = as_found.path_high, found.restraint.target_height
    if path is not None and under is not None:
        yield _point(
            "path_high",
            "highest floor on the way in",
            (planned.job.floor.path_high, path),
            uncertainty,
            _roll_limit(found, under),
        )


def _stud_points(as_found: AsFound, planned: Plan, found: Plan) -> Iterator[Point]:
    if found.studs is None:
        return
    before = () if planned.studs is None else planned.studs.spots
    readings = sorted(as_found.stud_spots, key=lambda reading: reading.mean)
    tape = planned.job.rules.tape_uncertainty
    if not readings:
        for number, spot in enumerate(before, start=1):
            yield _point(
                f"studs[{number}]", f"stud {number}", (spot, None), tape, _end_limit(found, spot),
                note=_why_not(found, spot),
            )  # fmt: skip
        return
    for number, reading in enumerate(readings, start=1):
        was = _nearest(reading.mean, before)
        note = _why_not(found, reading.mean)
        if was is None and before:
            note = "; ".join(part for part in ("none planned near it", note) if part)
        yield _point(
            f"studs[{number}]",
            f"stud {number}",
            (was, reading),
            tape,
            _end_limit(found, reading.mean),
            note=note,
        )


def _why_not(found: Plan, spot: float) -> str:
    if found.studs is None or spot in found.studs.used or spot not in found.studs.why_not:
        return ""
    return f"not used: {found.studs.why_not[spot]}"


def _nearest(spot: float, others: Sequence[float]) -> float | None:
    near = min(others, key=lambda other: abs(other - spot), default=None)
    return None if near is None or abs(near - spot) > SPACINGS[0] / 2.0 else near


def _end_limit(found: Plan, spot: float) -> Limit:
    """Return the room of a stud to the ends of the boards; one that isn't used has no limit."""
    support = found.support
    if not isinstance(support, StackSupport) or support.studs is None or not support.screws:
        return UNLIMITED
    if spot not in support.studs.used:
        return UNLIMITED
    stack = support.stack
    end = max(least_distances(diameter=_diameter(found, row)).end for row in found.screws)
    room = min(spot - stack.left_end, stack.left_end + stack.length - spot) - end
    return Limit(margin(room, (found.job.rules.tape_uncertainty,)), LimitKind.BOARD_END, False)


def _diameter(plan: Plan, row: ScrewRow) -> float:
    built = plan.job.built
    standing = () if built is None else built.screws
    own = (one.published for one in standing if one.published is not None)
    for screw in (*plan.job.screws.published, *own):
        if screw.size == row.size:
            return screw.diameter
    return tables_of(plan.job).screws[row.size].diameter


def _layer_points(as_found: AsFound, planned: Plan, found: Plan) -> Iterator[Point]:
    if not isinstance(found.support, StackSupport):
        return
    tape, before = planned.job.rules.tape_uncertainty, planned.job.wall.layers
    limit = _embedment_limit(planned, found)
    if not as_found.layers:
        for layer in before:
            name = f"{layer.material} on the wall"
            yield _point(f"layers.{layer.material}", name, (layer.thickness, None), tape, limit)
    left = list(before)
    for found_layer in as_found.layers:
        alike = next((one for one in left if one.material == found_layer.material), None)
        was = None if alike is None else alike.thickness
        if alike is not None:
            left.remove(alike)
        yield _point(
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
        yield _point(
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
    for key, name, was, reading in _several("projection", "projection", as_found.projection, depth):
        yield _point(key, name, (was, reading), planned.job.rules.tape_uncertainty, limit)


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


def stud_report(as_found: AsFound, planned: Plan, found: Plan) -> StudReport | None:
    """Return what became of the studs; None where none were measured."""
    if not as_found.stud_spots or found.studs is None:
        return None
    spots = found.studs.spots
    before = () if planned.studs is None else planned.studs.used
    return StudReport(
        planned=before,
        found=spots,
        lost=tuple(spot for spot in before if _holes_lost(spot, planned, found)),
        doubtful=doubtful_spots(spots, Lengths(found.job)),
    )


def _holes_lost(spot: float, planned: Plan, found: Plan) -> bool:
    """Return whether any planned hole at a stud misses the wood that was found there."""
    studs = () if found.studs is None else found.studs.spots
    half, tape = found.job.wall.stud.width / 2.0, found.job.rules.tape_uncertainty
    for row in planned.screws:
        edge = least_distances(diameter=_diameter(planned, row)).stud_edge
        for across, _ in row.offsets:
            hole = spot + across
            if not any(abs(hole - stud) <= half - edge - tape + 1e-9 for stud in studs):
                return True
    return False


def doubtful_spots(spots: Sequence[float], lengths: Lengths) -> tuple[str, ...]:
    """Return in words which neighbours are at no distance that walls are framed at."""
    doubts = []
    for left, right in pairwise(spots):
        apart = right - left
        if apart <= DOUBLED or _framed_at(apart):
            continue
        text = f"{lengths.near(left)} and {lengths.near(right)} are {lengths.near(apart)} apart"
        if any(_framed_at(apart / bays) for bays in (2, 3)):
            doubts.append(f"{text}: a stud between them may have been missed")
        elif _framed_at(apart - 0.75) or _framed_at(apart + 0.75):
            doubts.append(f"{text}: one may be the edge of a stud and not its middle")
        else:
            doubts.append(f"{text}: not a usual stud spacing; find both again")
    return tuple(doubts)


def _framed_at(apart: float) -> bool:
    return any(abs(apart - spacing) <= NEAR_SPACING for spacing in SPACINGS)
