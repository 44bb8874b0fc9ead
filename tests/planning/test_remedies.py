"""Remedies of a plan: each was planned again, and is the least of its kind."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given as each
from hypothesis import settings
from hypothesis import strategies as st
from jobs import GYPSUM, job, moved, sixteenths, unit

from bracecalc.planning.floor_change import MARK, mark_down, mark_up
from bracecalc.planning.plan import make_plan
from bracecalc.records.actions import ActionKind, ChangeFloor, MoveSoffit
from bracecalc.records.job import CORNERS, Built, Floor, Job, Stud, StudMaterial, Wall
from bracecalc.records.plan import Fix, Severity, Verdict

NO_WOOD = Wall(layers=(GYPSUM,), stud=Stud(material=StudMaterial.STEEL), stud_spots=(4.0, 20.0))


def floor(*heights: float) -> Floor:
    return Floor(**dict(zip(CORNERS, heights, strict=True)))  # type: ignore[arg-type]


def fixes(given: Job, code: str) -> tuple[Fix, ...]:
    return next(one.fixes for one in make_plan(given).findings if one.code == code)


def holds(given: Job) -> bool:
    return all(one.severity is not Severity.FAILS for one in make_plan(given).findings)


def test_a_floor_that_uses_up_the_travel_is_packed_or_taken_out() -> None:
    given = job(floor=floor(0.0, 0.0, 0.0, 1.5))
    packed, taken = fixes(given, "floor-uses-up-travel")
    # legs of 1-3/8 that carry from 1/8 on: a fall of 1-1/4 leaves no band at all, and 1/4 in of
    # doubt to either side needs a band of 1/2
    assert packed.actions == (
        ChangeFloor((("front_left", 0.75), ("front_right", 0.75), ("rear_left", 0.75)), ()),
    )
    assert taken.actions == (ChangeFloor((), (("rear_right", 0.75),)),)
    for fix in (packed, taken):
        assert fix.margin.worst_case == pytest.approx(0.0)
        assert fix.verdict is Verdict.HOLDS


def test_each_spot_that_stands_too_high_is_named_with_what_must_come_out() -> None:
    taken = fixes(job(floor=floor(0.0, 0.0, 1.375, 1.5)), "floor-uses-up-travel")[-1]
    assert taken.actions == (ChangeFloor((), (("rear_left", 0.625), ("rear_right", 0.75))),)


def test_a_threshold_that_is_too_high_is_named_and_no_leg_spot() -> None:
    given = job(floor=replace(floor(0.0, 0.0, 0.0, 0.0), path_high=1.5))
    taken = fixes(given, "floor-uses-up-travel")[-1]
    assert taken.actions == (ChangeFloor((), (), 0.75),)


def test_a_soffit_too_low_is_raised_by_no_more_than_it_needs() -> None:
    given = moved(job(wall=NO_WOOD), niche={"soffit": (80.5,), "soffit_solid": True,
                                            "soffit_layers": (GYPSUM,)})  # fmt: skip
    (raised,) = fixes(given, "does-not-go-in")
    (action,) = raised.actions
    assert isinstance(action, MoveSoffit)
    assert action.kind is ActionKind.RAISE_SOFFIT
    assert raised.margin.worst_case == pytest.approx(0.0)
    assert action.underside == 81.0  # 80-3/4 to roll in under, and 1/4 in of doubt


def test_a_soffit_above_reach_is_brought_to_the_middle_of_the_band() -> None:
    given = moved(job(wall=NO_WOOD), niche={"soffit": (90.0,), "soffit_solid": True,
                                            "soffit_layers": (GYPSUM,)})  # fmt: skip
    finding = next(one for one in make_plan(given).findings if one.code == "leg-travel-exceeded")
    assert [fix.actions for fix in finding.fixes] == [(MoveSoffit(81.375 - 90.0, 81.375),)]
    assert "Bring the soffit down by 8 5/8 in to 81 3/8 in: planned again" in finding.remedy


def test_what_does_not_hold_is_not_offered() -> None:
    # no plate helps legs that are too short for the doubt of the readings
    given = job(unit=unit(leg_travel_front=0.25, leg_travel_rear=0.25), floor=floor(0, 0, 0, 1.0))
    finding = make_plan(given).findings[0]
    assert finding.code == "floor-uses-up-travel"
    assert all(fix.verdict is Verdict.CLOSE for fix in finding.fixes)
    shorter = replace(given, unit=unit(leg_travel_front=0.125, leg_travel_rear=0.125))
    finding = make_plan(shorter).findings[0]
    assert finding.fixes == ()
    assert "makes it hold by itself" in finding.remedy


@settings(max_examples=60)
@each(
    st.tuples(*(sixteenths(0, 3) for _ in CORNERS)),
    sixteenths(78, 84),
    sixteenths(0.5, 2),
    st.none() | sixteenths(79, 85),
)
def test_every_remedy_that_is_printed_makes_the_plan_hold(
    heights: tuple[float, ...], soffit: float, travel: float, stands: float | None
) -> None:
    given = moved(
        job(floor=floor(*heights), unit=unit(leg_travel_front=travel, leg_travel_rear=travel)),
        niche={"soffit": (soffit,), "soffit_solid": True, "soffit_layers": (GYPSUM,)},
    )
    if stands is not None:
        given = replace(given, built=Built(underside=stands, boards=(1.5, 1.5)))
    for finding in make_plan(given).findings:
        for fix in finding.fixes:
            assert holds(fix.job)
            assert make_plan(fix.job).restraint.margin == fix.margin
            assert fix.margin.nominal >= -1e-9


def test_marks() -> None:
    assert (mark_up(0.07), mark_down(0.07)) == (2 * MARK, MARK)
    assert mark_up(0.125) == mark_down(0.125) == 0.125
