"""What the stack must hold: each case as a free body about the front leg line."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from jobs import DOOR, job, moved, unit

from bracecalc.mechanics.statics.contact import FrontToBack
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Door, Earthquake, Job, Loads, Method
from bracecalc.records.plan import Assumed, CaseName
from bracecalc.strength.demand import (
    Case,
    Cases,
    Place,
    load_cases,
    load_duration,
    missing_measurements,
)
from bracecalc.strength.workings import Workings

ARM = 19.0
LEGS = 2.75
PLACE = Place(FrontToBack.MIDDLE, behind_front=ARM + LEGS, legs=LEGS, extension=0.75)
LIGHT = unit(weight=200.0)  # tips: every case below has a force to check


def cases_of(given: Job, place: Place = PLACE) -> Cases:
    return load_cases(given, place, Workings())


def case_of(given: Job, name: str, place: Place = PLACE) -> Case:
    return next(case for case in cases_of(given, place).cases if case.name == name)


def test_the_minimum_is_what_the_job_says() -> None:
    # ASTM F3096-23 (second hand), by analogy
    assert case_of(job(loads=Loads()), "minimum").force == 60.0
    assert case_of(job(loads=Loads(minimum=250.0)), "minimum").force == 250.0
    assert case_of(job(loads=Loads(minimum=0.0)), "minimum").force == 0.0


def test_service_is_open_doors_against_six_tenths_of_the_empty_unit() -> None:
    door = Door(own_weight=60.0, contents=80.0, reach=15.0, closed_reach=-2.0, edge=31.0)
    given = job(unit=unit(weight=200.0, doors=(door, DOOR)))
    # contents about the line, the door's own weight by how far it moves; 0.6 W holds it back
    tips = 80 * 15 + 60 * (15 + 2) + 22 * 14 + 36 * (14 - 1)
    holds = 0.6 * 200 * 9.5
    case = case_of(given, "service")
    assert case.force == pytest.approx((tips - holds) / ARM)
    assert case.moments == {"doors and contents": tips, "weight of the appliance": -holds}


def test_leaving_the_shut_door_behind_the_line_out_would_be_unsafe() -> None:
    behind = replace(DOOR, closed_reach=-8.0)
    with_it = case_of(job(unit=unit(weight=100.0, doors=(behind,))), "service")
    at_line = case_of(
        job(unit=unit(weight=100.0, doors=(replace(DOOR, closed_reach=0.0),))), "service"
    )
    assert with_it.force - at_line.force == pytest.approx(36 * 8 / ARM)


def test_climb_adds_a_child_at_the_farthest_edge_of_any_door() -> None:
    given = job(
        unit=unit(weight=200.0, doors=(DOOR, replace(DOOR, edge=24.0))),
        loads=Loads(climb=60.0, dynamic_factor=1.5),
    )
    service, climb = case_of(given, "service"), case_of(given, "climb")
    child = 1.5 * 60 * 31
    assert climb.moments["child at the door's edge"] == child
    holds = 0.6 * 200 * 9.5
    tips = service.moments["doors and contents"] + child
    assert climb.force == pytest.approx((tips - holds) / ARM)


@pytest.mark.parametrize(
    ("loads", "height", "moment"),
    # 10 lbf at 56 in, F2057-23 (from memory), by analogy; at the top of a lower unit
    [
        (Loads(), 80.625, 10 * 56.0),
        (Loads(), 40.0, 10 * 40.0),
        (Loads(pull=25.0, pull_height=60.0), 80.625, 25 * 60.0),
    ],
)
def test_the_pull_is_a_case_of_its_own(loads: Loads, height: float, moment: float) -> None:
    pull = case_of(job(unit=unit(weight=60.0, height=height), loads=loads), "pull")
    assert pull.moments["pull at hand height"] == moment
    assert pull.force == pytest.approx((776 + moment - 0.6 * 60 * 9.5) / ARM)


def test_no_pull_no_case() -> None:
    assert "pull" not in {case.name for case in cases_of(job(loads=Loads(pull=0.0))).cases}


def test_a_child_alone_by_hand() -> None:
    # nothing known but the width, 32.75 in: F = 60 (32.75 + 3) / a, legs 3 in behind the front
    unknown = job(unit=unit(weight=None, doors=None, front_legs_behind_front=None))
    place = Place(FrontToBack.OUTER_EDGE, behind_front=21.0, legs=None, extension=0.0)
    alone = case_of(unknown, "child alone", place)
    assert alone.force == pytest.approx(60 * (32.75 + 3.0) / (21.0 - 3.0))
    assert set(alone.assumed) == {Assumed.DOOR_EDGE, Assumed.FRONT_LEGS}


def test_a_child_alone_stands_on_what_is_given() -> None:
    known = case_of(job(unit=unit(weight=None)), "child alone")
    assert known.force == pytest.approx(60 * 31 / ARM)  # the door's own edge
    assert known.assumed == ()
    legs = case_of(job(unit=unit(weight=None, doors=None)), "child alone")
    assert legs.force == pytest.approx(60 * (32.75 + LEGS) / ARM)
    assert legs.assumed == (Assumed.DOOR_EDGE,)


def test_the_climb_takes_the_place_of_the_child_alone() -> None:
    names = {case.name for case in cases_of(job()).cases}
    assert names == {"minimum", "service", "climb", "pull"}


def test_every_force_balances_its_moments_about_the_leg_line() -> None:
    given = job(
        unit=LIGHT,
        loads=Loads(dynamic_factor=2.0, earthquake=Earthquake(s_ds=1.0), horizontal_stop=True),
    )
    worked_out = cases_of(given)
    assert [case.name for case in worked_out.cases] == [
        "minimum",
        "service",
        "climb",
        "pull",
        "earthquake",
    ]
    for case in worked_out.cases[1:]:
        assert case.force == pytest.approx(max(0.0, sum(case.moments.values()) / ARM))
    assert worked_out.cases[2].force > 0.0
    assert worked_out.cases[4].force > 0.0


def test_earthquake_by_the_2016_edition() -> None:
    # ASCE 7-16 13.3 (from memory): 0.4 a_p S_DS W (1 + 2 z/h) / (R_p / I_p), contents in W
    given = job(unit=replace(LIGHT, contents=60.0), loads=Loads(earthquake=Earthquake(s_ds=1.0)))
    level = 0.4 * 1.0 * 260 * 3.0 / 2.5
    tips = 0.7 * level * (43.0 + 0.75)  # centre of gravity, legs out by 3/4 in
    holds = (0.6 - 0.14) * 200 * 9.5  # contents don't hold it back
    case = case_of(given, "earthquake")
    assert case.moments["level force"] == pytest.approx(tips)
    assert case.moments["weight of the appliance"] == pytest.approx(-holds)
    assert case.force == pytest.approx((tips - holds) / ARM)


def test_earthquake_by_the_2022_edition() -> None:
    # ASCE 7-22 13.3 (from memory): 0.4 S_DS I_p W (H_f / R_mu) (C_AR / R_po)
    shaken = Earthquake(s_ds=1.0, edition="7-22", i_p=1.0, h_f=3.5, r_mu=1.3, c_ar=1.0, r_po=1.5)
    case = case_of(job(unit=LIGHT, loads=Loads(earthquake=shaken)), "earthquake")
    level = 0.4 * (200 + 22) * (3.5 / 1.3) * (1.0 / 1.5)  # with what the door holds
    assert case.moments["level force"] == pytest.approx(0.7 * level * 43.75)


def test_eurocode_factors_stand_on_both_sides() -> None:
    # EN 1990 table A1.2(A), EQU (from memory): 1.5 on what tips, 0.9 on what steadies
    given = job(unit=LIGHT, loads=Loads(method=Method.EC5))
    assert case_of(given, "minimum").force == 90.0
    climb = case_of(given, "climb")
    assert climb.moments["doors and contents"] == 1.5 * 776
    assert climb.moments["child at the door's edge"] == 1.5 * 60 * 31
    assert climb.moments["weight of the appliance"] == -0.9 * 200 * 9.5


def test_a_unit_that_stands_by_itself_needs_no_force() -> None:
    service = case_of(job(), "service")
    assert service.force == 0.0
    assert sum(service.moments.values()) < 0.0


def test_the_limit_of_standing_by_itself() -> None:
    # W x 0.6 = the moment of the door: 776 = 0.6 W 9.5
    just = 776 / (0.6 * 9.5)
    assert case_of(job(unit=unit(weight=just)), "service").force == pytest.approx(0.0, abs=1e-9)
    assert case_of(job(unit=unit(weight=just - 10)), "service").force == pytest.approx(57 / ARM)


def test_no_doors_no_child() -> None:
    climb = case_of(job(unit=unit(doors=(), weight=20.0)), "climb")
    assert "child at the door's edge" not in climb.moments
    assert climb.force == 0.0


def test_heavier_doors_never_need_less() -> None:
    forces = [
        case_of(job(unit=unit(weight=150.0, doors=(replace(DOOR, contents=c),))), "climb").force
        for c in (0.0, 22.0, 60.0, 200.0)
    ]
    assert forces == sorted(forces)
    assert forces[0] < forces[-1]


@pytest.mark.parametrize(
    "key", ["weight", "cg_behind_front_legs", "front_legs_behind_front", "doors"]
)
def test_what_is_not_given_is_named_and_nothing_is_invented(key: str) -> None:
    given = job(unit=unit(**{key: None}))
    assert missing_measurements(given) == (f"unit.{key}",)
    worked_out = cases_of(given, PLACE._replace(legs=given.unit.front_legs_behind_front))
    assert not worked_out.checked
    assert [case.name for case in worked_out.cases] == ["minimum", "child alone"]


def test_an_earthquake_counts_what_the_doors_hold_unless_all_contents_are_given() -> None:
    shaken = Loads(earthquake=Earthquake(s_ds=1.0))
    level = 0.4 * 1.0 * 3.0 / 2.5  # of W_p: ASCE 7-16 eq. 13.3-1, z/h 1, a_p 1, R_p 2.5
    told = case_of(job(unit=unit(contents=90.0), loads=shaken), "earthquake")
    untold = case_of(job(loads=shaken), "earthquake")
    assert told.moments["level force"] == pytest.approx(0.7 * level * (540 + 90) * 43.75)
    assert untold.moments["level force"] == pytest.approx(0.7 * level * (540 + 22) * 43.75)


def test_each_case_stands_on_its_own_measurements() -> None:
    shaken = Loads(earthquake=Earthquake(s_ds=1.0))
    no_height = cases_of(job(unit=unit(cg_height=None), loads=shaken))
    assert [case.name for case in no_height.cases] == ["minimum", "service", "climb", "pull"]
    assert no_height.missing == ("unit.cg_height",)
    no_doors = cases_of(job(unit=unit(doors=None), loads=shaken))
    assert [case.name for case in no_doors.cases] == ["minimum", "child alone", "earthquake"]
    assert not no_doors.checked


def test_front_legs_behind_the_restraint_are_not_taken_for_checked() -> None:
    worked_out = cases_of(job(), PLACE._replace(behind_front=LEGS - 0.5))
    assert [case.name for case in worked_out.cases] == ["minimum"]
    assert worked_out.missing == ("a restraint behind the front legs",)


def test_the_height_of_the_centre_of_gravity_counts_in_an_earthquake_only() -> None:
    flat = job(unit=unit(cg_height=None))
    assert missing_measurements(flat) == ()
    shaken = replace(flat, loads=Loads(earthquake=Earthquake(s_ds=0.5)))
    assert missing_measurements(shaken) == ("unit.cg_height",)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize(
    "key", ["weight", "cg_behind_front_legs", "front_legs_behind_front", "cg_height"]
)
def test_what_is_no_number_never_reads_as_no_force(bad: float, key: str) -> None:
    shaken = Loads(earthquake=Earthquake(s_ds=0.5), horizontal_stop=True)
    with pytest.raises(ValueError, match="finite"):
        make_plan(job(unit=unit(**{key: bad}), loads=shaken))


@pytest.mark.parametrize("bad", [math.nan, math.inf])
@pytest.mark.parametrize("key", ["own_weight", "contents", "reach", "closed_reach", "edge"])
def test_a_door_that_is_no_number_never_reads_as_no_force(bad: float, key: str) -> None:
    with pytest.raises(ValueError, match="finite"):
        make_plan(job(unit=unit(doors=(replace(DOOR, **{key: bad}),))))


@pytest.mark.parametrize("bad", [math.nan, math.inf])
@pytest.mark.parametrize("key", ["minimum", "climb", "dynamic_factor"])
def test_a_load_that_is_no_number_never_reads_as_no_force(bad: float, key: str) -> None:
    with pytest.raises(ValueError, match="finite"):
        make_plan(moved(job(), loads={key: bad}))


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_a_pull_that_is_no_number_never_reads_as_no_force(bad: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        make_plan(job(loads=Loads(pull=bad, pull_height=56.0)))


# NDS 2018 table 2.3.2 (second hand): 1.0 ten years, 1.25 seven days, 1.6 ten minutes
@pytest.mark.parametrize(
    ("case", "factor"),
    [
        ("minimum", 1.25),
        ("child alone", 1.25),
        ("service", 1.0),
        ("climb", 1.25),
        ("pull", 1.25),
        ("earthquake", 1.6),
    ],
)
def test_load_duration(case: str, factor: float) -> None:
    assert load_duration(job(), CaseName(case)) == factor


def test_load_duration_by_the_job_is_never_above_1_6() -> None:
    # NDS 11.3.2, seen in Civil Engineering Formulas p. 171: never above 1.6 for a connection
    given = job(loads=Loads(load_duration={"climb": 2.0, "service": 1.15}))
    assert load_duration(given, CaseName("climb")) == 1.6
    assert load_duration(given, CaseName("service")) == 1.15
    assert load_duration(given, CaseName("minimum")) == 1.25
