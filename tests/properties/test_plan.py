"""What holds for any job."""

from __future__ import annotations

import json
import math
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from jobs import jobs, moved, sixteenths

from bracecalc.jobfile.read import parse_job
from bracecalc.jobfile.write import job_to_toml
from bracecalc.planning.plan import make_plan
from bracecalc.planning.reach import reach_band
from bracecalc.records.job import CORNERS, Job, Units
from bracecalc.records.plan import RestraintKind, Severity, Verdict
from bracecalc.render.text import plan_text
from bracecalc.stack import screws as fixing
from bracecalc.tables.load import load_tables

FEW = settings(max_examples=60, deadline=None)


@given(job=jobs(), corner=st.sampled_from(CORNERS), by=sixteenths(0, 2))
def test_raising_the_floor_at_one_leg_never_widens_the_band(
    job: Job, corner: str, by: float
) -> None:
    before = reach_band(job)
    after = reach_band(moved(job, floor={corner: getattr(job.floor, corner) + by}))
    assert after.high - after.low <= before.high - before.low + by + 1e-9
    assert after.low >= before.low - 1e-9
    others = [getattr(job.floor, name) for name in CORNERS if name != corner]
    if getattr(job.floor, corner) >= max(others):  # the highest spot rises, the lowest stays
        assert after.high - after.low <= before.high - before.low + 1e-9


@FEW
@given(job=jobs(), by=sixteenths(-50, 110))  # as far as heights are read at all
def test_the_datum_can_be_anywhere(job: Job, by: float) -> None:
    higher = moved(
        job,
        floor={corner: getattr(job.floor, corner) + by for corner in CORNERS},
        niche={"soffit": tuple(one + by for one in job.niche.soffit)},
    )
    here, there = make_plan(job), make_plan(higher)
    assert there.restraint.kind is here.restraint.kind
    assert there.reach_band.low == pytest.approx(here.reach_band.low + by)
    assert there.reach_band.high == pytest.approx(here.reach_band.high + by)
    assert [row.size for row in there.screws] == [row.size for row in here.screws]


@FEW
@given(job=jobs())
def test_the_shortest_screw_is_minimal(job: Job) -> None:
    plan = make_plan(job)
    assume(plan.stack is not None and len(plan.screws) > 1)
    options = fixing.options_of(job.screws, load_tables(), job.loads.method).screws
    for row in plan.screws[:-1]:  # a covered board: the next shorter of its size must not reach
        shorter = [
            one for one in options if one.size.size == row.size and one.length < row.length - 1e-9
        ]
        if shorter:
            lost = row.length - shorter[-1].length
            too_short = row.embedment - lost < row.required_embedment - 1e-9
            assert too_short


@FEW
@given(job=jobs())
def test_every_plan_is_told_whole(job: Job) -> None:
    plan = make_plan(job)
    shown = plan.to_dict()
    json.dumps(shown, allow_nan=False)
    failing = any(finding.severity is Severity.FAILS for finding in plan.findings)
    if failing:
        assert plan.verdict is Verdict.FAILS
    text = plan_text(plan, full=True)
    for finding in plan.findings:
        assert finding.code in text
    assert "engineer's" in text
    assert (plan.restraint.kind is RestraintKind.NONE) == (plan.restraint.target_height is None)
    if plan.restraint.kind is RestraintKind.NONE:
        assert failing


@FEW
@given(job=jobs())
def test_every_screw_stands_where_it_may(job: Job) -> None:
    plan = make_plan(job)
    assume(plan.stack is not None)
    assert plan.stack is not None
    for row in plan.screws:
        assert row.embedment >= row.required_embedment - 1e-9
        assert row.tip_to_far_side > -1e-9
        assert row.embedment <= row.thread_length + 1e-9
        for across, height in row.positions:
            assert plan.stack.left_end < across < plan.stack.left_end + plan.stack.length
            assert 0 < height < plan.stack.width


@FEW
@given(job=jobs(), factor=st.floats(1.0, 3.0))
def test_more_load_never_gives_more_margin(job: Job, factor: float) -> None:
    heavier = moved(job, loads={"minimum": job.loads.minimum * factor})
    light, heavy = make_plan(job), make_plan(heavier)
    assume(light.demand.cases[0].capacity is not None)
    assume(heavy.demand.cases[0].capacity is not None)
    if light.verdict is Verdict.FAILS and any(
        finding.code == "overstressed" for finding in light.findings
    ):
        assert any(finding.code == "overstressed" for finding in heavy.findings)


@FEW
@given(job=jobs())
def test_utilisation_is_force_over_capacity_and_finite(job: Job) -> None:
    for case in make_plan(job).demand.cases:
        if case.capacity is not None and case.utilisation is not None:
            assert math.isfinite(case.capacity)
            assert case.capacity > 0
            assert case.utilisation == pytest.approx(case.force / case.capacity)


@FEW
@given(job=jobs(), by=sixteenths(0, 3))
def test_moving_studs_and_the_left_side_together_changes_nothing(job: Job, by: float) -> None:
    assume(job.wall.stud_spots is not None)
    assert job.wall.stud_spots is not None
    width = min(job.niche.width)
    # the tape is hooked ``by`` to the left of the niche: readings and side move together
    spots = tuple((spot + by) - by for spot in job.wall.stud_spots)
    same = replace(job, wall=replace(job.wall, stud_spots=spots))
    assert make_plan(same).to_dict() == make_plan(job).to_dict()
    mirrored = tuple(sorted(width - spot for spot in job.wall.stud_spots))
    mirror = make_plan(replace(job, wall=replace(job.wall, stud_spots=mirrored)))
    plan = make_plan(job)
    assert mirror.verdict is plan.verdict
    assert [row.count for row in mirror.screws] == [row.count for row in plan.screws]


NUMBERS = ("verdict", "reach_band", "legs", "stack", "packers", "studs", "screws", "strength")


@FEW
@given(job=jobs())
def test_metric_and_inch_writings_of_one_job_give_one_plan(job: Job) -> None:
    assume(job.niche.soffit or not job.niche.soffit_solid)  # else no job file says so
    written = job_to_toml(replace(job, units=Units.MM), comments=False)
    metric, inch = make_plan(parse_job(written, where="")), make_plan(job)
    assert metric.job.units is Units.MM
    one, other = metric.to_dict(), inch.to_dict()
    assert {key: one[key] for key in NUMBERS} == {key: other[key] for key in NUMBERS}
    assert metric.restraint.target_height == inch.restraint.target_height
    assert one["demand"] == other["demand"]
    assert [finding.code for finding in metric.findings] == [
        finding.code for finding in inch.findings
    ]
