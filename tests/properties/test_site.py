"""What holds for any niche as found."""

from __future__ import annotations

import math
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from jobs import job, jobs, moved, sixteenths

from bracecalc.check.check import check_site
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CORNERS, Job
from bracecalc.records.plan import Plan, RestraintKind, Severity, Verdict
from bracecalc.records.scheme import Backing
from bracecalc.records.site import AsFound, FoundLayer, Reading, SiteCheck

FEW = settings(max_examples=40, deadline=None)


def once(*values: float) -> tuple[Reading, ...]:
    return tuple(Reading((value,)) for value in values)


def as_planned(job: Job, plan: Plan) -> AsFound:
    """Every measurement taken, each just what the plan says."""
    spots = zip(CORNERS, job.floor.spots, strict=True)
    found: dict[str, Any] = {
        "width": once(*job.niche.width),
        "depth": once(*job.niche.depth),
        "soffit": once(*job.niche.soffit),
        "floor": {corner: Reading((spot,)) for corner, spot in spots},
        "layers": tuple(
            FoundLayer(material=layer.material, thickness=Reading((layer.thickness,)))
            for layer in job.wall.layers
        ),
    }
    if job.wall.stud_spots is not None and not job.wall.corner_studs:
        found["stud_spots"] = once(*job.wall.stud_spots)
    if plan.restraint.target_height is not None and plan.restraint.kind is not RestraintKind.SOFFIT:
        found["board_left"] = found["board_right"] = Reading((plan.restraint.target_height,))
    if plan.stack is not None:
        found["projection"] = once(plan.stack.projection)
    return AsFound(**found)


def codes(plan: Plan) -> set[str]:
    return {one.code for one in plan.findings if one.severity is Severity.FAILS}


@st.composite
def as_found(draw: st.DrawFn, job: Job) -> AsFound:
    """Some measurements taken, each off by something."""
    plan = make_plan(job)
    off = sixteenths(-1, 1)
    found: dict[str, Any] = {}
    if draw(st.booleans()):
        found["floor"] = {
            corner: Reading((spot + draw(off),))
            for corner, spot in zip(CORNERS, job.floor.spots, strict=True)
        }
    if draw(st.booleans()):
        found["depth"] = once(max(job.niche.depth) + draw(off))
    target = plan.restraint.target_height
    if target is not None and draw(st.booleans()):
        found["board_left"] = Reading((target + draw(off),))
        found["board_right"] = Reading((target + draw(off),))
    if plan.stack is not None and draw(st.booleans()):
        found["projection"] = once(plan.stack.projection + draw(off) / 2)
    if job.wall.stud_spots and draw(st.booleans()):
        found["stud_spots"] = once(*(abs(spot + draw(off)) for spot in job.wall.stud_spots))
    if draw(st.booleans()):
        found["layers"] = tuple(
            FoundLayer(material=layer.material, thickness=Reading((layer.thickness + 0.125,)))
            for layer in job.wall.layers
        )
    return AsFound(**found)


@FEW
@given(job=jobs())
def test_what_is_measured_as_planned_makes_no_miss(job: Job) -> None:
    plan = make_plan(job)
    check = check_site(job, as_planned(job, plan))
    missed = {miss.finding.code for miss in check.misses}
    if not any(row.positions for row in plan.screws):  # the plan set out no screws to stand
        missed -= {"screws-not-located"}
    assert missed == codes(plan)
    if check.misses == ():
        assert check.verdict is plan.verdict
        assert all(point.verdict is not Verdict.FAILS for point in check.points)


@FEW
@given(job=jobs())
def test_nothing_measured_is_the_plan_itself(job: Job) -> None:
    plan = make_plan(job)
    check = check_site(job, AsFound())
    assert {miss.finding.code for miss in check.misses} == codes(plan)
    assert check.found.legs == plan.legs
    assert not any(point.measured for point in check.points)


@FEW
@given(data=st.data(), job=jobs())
def test_a_remedy_turns_the_verdict_of_its_miss_and_breaks_nothing_else(
    data: st.DataObject, job: Job
) -> None:
    check = check_site(job, data.draw(as_found(job)))
    before = codes(check.found)
    for miss in check.misses:
        for remedy in miss.remedies:
            after = codes(make_plan(remedy.job))
            assert miss.finding.code not in after
            assert after <= before


@FEW
@given(data=st.data(), job=jobs())
def test_all_that_is_listed_turns_the_whole(data: st.DataObject, job: Job) -> None:
    check = check_site(job, data.draw(as_found(job)))
    if check.verdict is not Verdict.FAILS:
        assert check.todo == ()
        assert check.after is check.verdict
    elif check.after is not Verdict.FAILS:
        assert check.todo
        plan = make_plan(check.todo[-1].job)
        assert plan.verdict is check.after
        assert codes(plan) == set()


def out_of_wood(check: SiteCheck) -> bool:
    """Whether a screw of boards that are up has no stud behind it, by the plain distances."""
    studs, half = check.job.wall.stud_spots or (), check.job.wall.stud.width / 2.0
    places = [place for row in check.planned.screws for place, _ in row.positions]
    return any(all(abs(stud - place) > half for stud in studs) for place in places)


HOLDING = moved(job(), boards={"size": "2x6"})
TARGET = make_plan(HOLDING).restraint.target_height or 0.0


@st.composite
def walls(draw: st.DrawFn) -> AsFound:
    """The boards of a plan that holds are up; what is behind them is anything."""
    spots = draw(st.lists(sixteenths(0, 33), min_size=0, max_size=4, unique=True))
    near = [abs(spot + draw(sixteenths(-1, 1))) for spot in (4.0, 16.625, 29.0)]
    ends: dict[str, Any] = {"board_left": Reading((TARGET,)), "board_right": Reading((TARGET,))}
    layers = (FoundLayer(material="gypsum board", thickness=Reading((draw(sixteenths(0.25, 2)),))),)
    return AsFound(
        **ends,
        stud_spots=once(*sorted(draw(st.sampled_from([spots, near])))),
        layers=draw(st.sampled_from([(), layers])),
    )


@settings(max_examples=100, deadline=None)
@given(found=walls())
def test_no_reading_that_takes_the_screws_out_of_wood_ever_holds(found: AsFound) -> None:
    check = check_site(HOLDING, found)
    if found.stud_spots and out_of_wood(check):
        assert check.verdict is Verdict.FAILS
        assert check.todo[0].mends == "screws-miss-wood"
    thicker = sum(layer.thickness.mean for layer in found.layers) - 0.5
    if found.layers and any(
        row.embedment - thicker < row.required_embedment - 1e-9 for row in check.planned.screws
    ):
        assert check.verdict is Verdict.FAILS


def in_wood(plan: Plan) -> bool:
    """Whether every screw of a plan has wood behind it: a stud, or the blocking between two."""
    studs, half = plan.job.wall.stud_spots or (), plan.job.wall.stud.width / 2.0
    blocked = plan.stack is not None and plan.stack.backing is Backing.BLOCKING
    places = [place for row in plan.screws for place, _ in row.positions]
    if blocked:
        return all(abs(stud - place) >= half for stud in studs for place in places)
    return all(any(abs(stud - place) <= half for stud in studs) for place in places)


def on_an_old_hole(plan: Plan) -> bool:
    """Whether a screw of a plan takes the place of one that was backed out."""
    holes = () if plan.job.built is None else plan.job.built.holes
    places = [place for row in plan.screws for place in row.positions]
    return any(
        math.hypot(across - hole.from_left, height - hole.above) < 0.5
        for across, height in places
        for hole in holes
    )


@FEW
@given(found=walls())
def test_a_remedy_that_is_printed_holds_in_wood_and_clear_of_old_holes(found: AsFound) -> None:
    check = check_site(HOLDING, found)
    for one in (*check.todo, *(each for miss in check.misses for each in miss.remedies)):
        if not one.actions:
            continue
        plan = make_plan(one.job)
        assert plan.verdict is one.verdict or plan.verdict is not Verdict.FAILS
        assert in_wood(plan)
        assert not on_an_old_hole(plan)


def margins(check: SiteCheck) -> dict[str, tuple[float, float]]:
    return {
        point.key: (point.margin.worst_case, point.margin.rss)
        for point in check.points
        if point.margin is not None
    }


@FEW
@given(job=jobs(), spread=sixteenths(0, 1))
def test_more_uncertainty_never_widens_a_margin(job: Job, spread: float) -> None:
    # pulls on either side of the plan's value have it for their mean
    plan = make_plan(job)
    close = as_planned(job, plan)
    wide: dict[str, Any] = {
        "floor": {
            corner: Reading((spot - spread, spot + spread))
            for corner, spot in zip(CORNERS, job.floor.spots, strict=True)
        },
        "depth": tuple(Reading((depth - spread, depth + spread)) for depth in job.niche.depth),
        "width": close.width,
        "soffit": close.soffit,
    }
    narrow = {name: getattr(close, name) for name in wide}
    before = margins(check_site(job, AsFound(**narrow)))
    after = margins(check_site(job, AsFound(**wide)))
    for key in before.keys() & after.keys():
        if key.startswith("studs"):  # other screws may be chosen, with other end distances
            continue
        assert after[key][0] <= before[key][0] + 1e-9
        assert after[key][1] <= before[key][1] + 1e-9
