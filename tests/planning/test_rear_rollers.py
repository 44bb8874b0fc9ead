"""A rear on rollers that do not lift: what is read, and what a plan says of it."""

from __future__ import annotations

import pytest
from jobs import job, moved, unit

from bracecalc.jobfile.read import parse_job
from bracecalc.planning.plan import make_plan
from bracecalc.records.plan import Severity, Verdict
from bracecalc.render.text import plan_text

JOB = job(unit=unit(leg_travel_rear=0.0))
TEXT = """\
title = "Quillet Yard, invented for a test"

[niche]
width = '33 1/4 in'
depth = '23 3/4 in'

[wall]
layers = [{{ material = "gypsum board", thickness = '1/2 in' }}]
stud_spots = ['4 in', '16 5/8 in', '29 in']

[unit]
height = '80 5/8 in'
width = '32 3/4 in'
depth = '23 1/8 in'
{travel}
"""


def test_zero_travel_at_the_rear_is_read() -> None:
    travel = "leg_travel_front = '1 3/8 in'\nleg_travel_rear = 0"
    assert not parse_job(TEXT.format(travel=travel), where="").unit.rear_lifts


@pytest.mark.parametrize(("front", "rear"), [(0.0, 0.0), (0.0, 1.0)])
def test_a_front_without_travel_has_no_reach(front: float, rear: float) -> None:
    plan = make_plan(job(unit=unit(leg_travel_front=front, leg_travel_rear=rear)))
    assert plan.verdict is Verdict.FAILS
    assert "floor-uses-up-travel" in {one.code for one in plan.findings}


def test_boards_go_just_over_the_top_and_the_gap_is_shimmed_from_above() -> None:
    plan = make_plan(JOB)
    # 1/8 in to roll in and 1/4 in of doubt over the top at 80 5/8 in
    assert plan.restraint.target_height == 81.0
    assert plan.verdict is Verdict.HOLDS
    told = {one.code: one for one in plan.findings}["rear-does-not-lift"]
    assert told.severity is Severity.WARNS
    assert "3/8 in" in told.text
    assert "solid shims tight over the whole overlap" in " ".join(plan_text(plan).split())


def test_the_front_legs_level_the_top() -> None:
    plan = make_plan(moved(JOB, floor={"front_left": -0.5, "rear_left": 0.25}))
    assert plan.legs is not None
    out = {corner: leg.extension for corner, leg in plan.legs.items()}
    assert out == {"front_left": 0.75, "front_right": 0.25, "rear_left": 0.0, "rear_right": 0.0}


def test_a_front_that_is_higher_than_the_rear_can_not_be_levelled() -> None:
    plan = make_plan(moved(JOB, floor={"front_left": 0.5}))
    assert plan.verdict is Verdict.FAILS
    assert "floor-uses-up-travel" in {one.code for one in plan.findings}
