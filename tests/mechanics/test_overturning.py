"""Tipping: free bodies that a reader can check with a pencil, and refusals."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from bracecalc.mechanics.statics import overturning

BAD = (math.nan, math.inf, -math.inf)

EXAMPLE = {
    overturning.restraint_arm: {"behind_front": 21.6875, "front_legs_behind_front": 2.75},
    overturning.restraint_force: {"overturning": 5000.0, "stabilising": 3000.0, "arm": 20.0},
    overturning.door_moment: {
        "own_weight": 36.0,
        "contents": 22.0,
        "reach": 14.0,
        "closed_reach": 1.0,
    },
    overturning.stabilising_moment: {"weight": 540.0, "behind_front_legs": 9.5, "share": 0.6},
    overturning.climb_moment: {"load": 60.0, "edge": 31.0, "dynamic_factor": 1.0},
    overturning.pull_moment: {"pull": 10.0, "height": 56.0},
    overturning.forward_movement: {"rise": 0.125, "height": 80.0, "arm": 20.0},
    overturning.overlap_left: {"overlap": 2.875, "rise": 0.125, "height": 80.0, "arm": 20.0},
    overturning.leg_loads: {"weight": 540.0, "cg_behind_front_legs": 9.0, "leg_base": 18.0},
}


@pytest.mark.parametrize(
    ("formula", "name"),
    [(formula, name) for formula, inputs in EXAMPLE.items() for name in inputs],
    ids=lambda each: each if isinstance(each, str) else each.__name__,
)
@pytest.mark.parametrize("bad", BAD)
def test_what_is_not_finite_is_refused(
    formula: Callable[..., object], name: str, bad: float
) -> None:
    formula(**EXAMPLE[formula])
    with pytest.raises(ValueError, match=r"must be|finite"):
        formula(**{**EXAMPLE[formula], name: bad})


def test_infinite_moments_on_both_sides_are_not_no_force() -> None:
    with pytest.raises(ValueError, match="finite"):
        overturning.restraint_force(overturning=math.inf, stabilising=math.inf, arm=20.0)


@pytest.mark.parametrize("arm", [0.0, -1.0])
def test_a_restraint_over_the_legs_is_refused(arm: float) -> None:
    with pytest.raises(ValueError, match="arm"):
        overturning.restraint_force(overturning=1.0, stabilising=0.0, arm=arm)


def test_a_unit_that_stands_needs_no_force() -> None:
    assert overturning.restraint_force(overturning=1.0, stabilising=2.0, arm=20.0) == 0.0


def test_the_force_brings_the_free_body_into_balance() -> None:
    # statics: with F on the top, moments about the front leg line sum to zero
    force = overturning.restraint_force(overturning=7412.5, stabilising=3078.0, arm=18.9375)
    assert force * 18.9375 + 3078.0 - 7412.5 == pytest.approx(0.0, abs=1e-9)


def test_a_door_moves_weight_that_was_already_counted() -> None:
    # statics: the unit weighs 540 lbf with its door shut, door 36 lbf moved from 1 in to 14 in
    body, shut = (540.0 - 36.0), (36.0 * -1.0)
    x_body = (540.0 * 9.5 - shut) / body
    open_moment = body * x_body + 36.0 * -14.0
    added = overturning.door_moment(own_weight=36.0, contents=0.0, reach=14.0, closed_reach=1.0)
    assert 540.0 * 9.5 - open_moment == pytest.approx(added)


def test_a_drawer_that_closes_behind_the_legs_adds_more() -> None:
    ahead = overturning.door_moment(own_weight=20.0, contents=0.0, reach=10.0, closed_reach=0.0)
    behind = overturning.door_moment(own_weight=20.0, contents=0.0, reach=10.0, closed_reach=-8.0)
    assert behind - ahead == 160.0


def test_contents_behind_the_legs_do_not_steady() -> None:
    assert (
        overturning.door_moment(own_weight=20.0, contents=40.0, reach=-2.0, closed_reach=-12.0)
        == 200.0
    )


def test_a_door_that_steadies_is_left_shut() -> None:
    assert overturning.door_moment(own_weight=5.0, contents=0.0, reach=1.0, closed_reach=3.0) == 0.0


def test_a_centre_of_gravity_before_the_legs_tips_in_full() -> None:
    assert overturning.stabilising_moment(weight=500.0, behind_front_legs=-2.0) == -1000.0


def test_a_child_behind_the_legs_does_not_steady() -> None:
    assert overturning.climb_moment(load=60.0, edge=-4.0, dynamic_factor=2.0) == 0.0


@pytest.mark.parametrize("share", [0.0, 1.01, -0.6])
def test_a_share_out_of_range_is_refused(share: float) -> None:
    with pytest.raises(ValueError, match="share"):
        overturning.stabilising_moment(weight=500.0, behind_front_legs=9.0, share=share)


def test_a_dynamic_factor_under_one_is_refused() -> None:
    with pytest.raises(ValueError, match="dynamic_factor"):
        overturning.climb_moment(load=60.0, edge=31.0, dynamic_factor=0.9)


def test_the_top_moves_some_four_times_the_rise() -> None:
    # geometry of the exact turn: a bar from (0, 0), its rear point lifted by the rise
    arm, height, rise = 19.0, 81.625, 0.125
    angle = math.asin(rise / arm)
    exact = height * math.sin(angle)
    moved = overturning.forward_movement(rise=rise, height=height, arm=arm)
    assert moved == pytest.approx(exact, rel=1e-4)
    assert 4.0 < moved / rise < 4.5


def test_legs_carry_the_weight_and_its_moment() -> None:
    front, rear = overturning.leg_loads(weight=540.0, cg_behind_front_legs=9.5, leg_base=17.25)
    assert front + rear == pytest.approx(540.0)
    assert rear * 17.25 == pytest.approx(540.0 * 9.5)


def test_a_pair_of_legs_that_would_lift_reads_below_zero() -> None:
    assert overturning.leg_loads(weight=100.0, cg_behind_front_legs=-1.0, leg_base=10.0) == (
        110.0,
        -10.0,
    )


def test_the_arm_meets_the_middle_of_the_overlap() -> None:
    # legs 2-3/4 in behind the front, housing 23-1/8 in deep, overlap its last 2-7/8 in
    rear_edge, inner_edge = 23.125 - 2.75, 23.125 - 2.75 - 2.875
    arms = []
    for middle in (True, False):
        behind = overturning.contact_behind_front(unit_depth=23.125, overlap=2.875, middle=middle)
        arms.append(overturning.restraint_arm(behind_front=behind, front_legs_behind_front=2.75))
    assert arms == pytest.approx([(rear_edge + inner_edge) / 2.0, inner_edge])
