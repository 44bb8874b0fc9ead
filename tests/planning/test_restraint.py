"""Which restraint: each kind, each reason, each finding that fails."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given as each
from hypothesis import strategies as st
from jobs import GYPSUM, job, moved, unit

from bracecalc.planning.options import RANK
from bracecalc.planning.plan import make_plan
from bracecalc.planning.reach import height_margin, reach_band
from bracecalc.records.job import (
    Boards,
    Built,
    Earthquake,
    Floor,
    Job,
    Layer,
    Loads,
    Niche,
    Stud,
    StudLayout,
    StudMaterial,
    Wall,
)
from bracecalc.records.plan import OverSpot, Plan, RestraintKind, Severity, Verdict
from bracecalc.records.scheme import Backing
from bracecalc.render.words import set_out
from bracecalc.text.findings import used


def codes(plan: Plan, severity: Severity = Severity.FAILS) -> set[str]:
    return {finding.code for finding in plan.findings if finding.severity is severity}


def with_soffit(height: float, **niche: object) -> Job:
    given = {"soffit": (height,), "soffit_solid": True, "soffit_layers": (GYPSUM,), **niche}
    return moved(job(), niche=given)


# band of the test's unit on a level floor: 80-5/8 + 1/8 = 80-3/4 to 80-5/8 + 1-3/8 = 82
def test_a_solid_soffit_in_the_band_is_the_restraint() -> None:
    plan = make_plan(with_soffit(81.5, soffit_depth=23.75))
    assert plan.restraint.kind is RestraintKind.SOFFIT
    assert plan.restraint.target_height == 81.5
    assert plan.stack is None
    assert plan.screws == ()
    assert plan.verdict is Verdict.HOLDS
    assert {one.kind for one in plan.restraint.alternatives} == {
        RestraintKind.PACKERS,
        RestraintKind.STACK,
    }


def test_packers_bring_a_higher_soffit_into_the_band_with_the_fewest_pieces() -> None:
    plan = make_plan(with_soffit(83.0))
    assert plan.restraint.kind is RestraintKind.PACKERS
    assert plan.packers is not None
    assert plan.packers.pieces == (1.5,)
    assert plan.restraint.target_height == 81.5
    # up into the framing through 5/8... here 1/2 in board: 1-1/2 + 1/2 + 1-1/2, common practice
    assert plan.screws[0].length == 3.5
    assert plan.screws[0].embedment >= 1.5


def test_packers_ask_for_the_soffits_layers() -> None:
    plan = make_plan(with_soffit(83.0, soffit_layers=None))
    assert plan.screws == ()
    assert "soffit-build-up-not-given" in codes(plan, Severity.WARNS)


def test_a_soffit_that_is_not_solid_leaves_the_rear_wall() -> None:
    plan = make_plan(with_soffit(92.0, soffit_solid=False))
    assert plan.restraint.kind is RestraintKind.STACK
    assert all("not solid" in one.why_not for one in plan.restraint.alternatives)


def test_a_soffit_that_stops_short_of_the_housing_does_not_count() -> None:
    plan = make_plan(with_soffit(81.5, soffit_depth=1.0))
    assert plan.restraint.kind is not RestraintKind.SOFFIT


def test_a_stack_must_fit_below_the_soffit() -> None:
    low = make_plan(with_soffit(84.5, soffit_solid=False))
    assert low.restraint.kind is RestraintKind.STACK
    assert low.stack is not None
    assert low.restraint.target_height is not None
    assert low.restraint.target_height + low.stack.width <= 84.5
    too_low = make_plan(with_soffit(84.0, soffit_solid=False))
    assert too_low.restraint.kind is RestraintKind.NONE
    assert "no-restraint" in codes(too_low)


def test_a_soffit_out_of_level_counts_at_its_lowest_and_is_shimmed() -> None:
    plan = make_plan(with_soffit(81.5, soffit=(81.75, 81.5)))
    assert plan.restraint.target_height == 81.5
    assert "shim-the-gap" in codes(plan, Severity.WARNS)


def test_a_unit_that_does_not_go_in_says_by_how_much() -> None:
    plan = make_plan(with_soffit(80.5))
    assert plan.restraint.kind is RestraintKind.NONE
    assert "does-not-go-in" in codes(plan)
    text = next(one.text for one in plan.findings if one.code == "does-not-go-in")
    assert "1/4 in too low" in text


def test_legs_too_short_for_the_units_highest_point_are_not_blamed_on_the_floor() -> None:
    tall = unit(height_overall=82.0)  # 1-3/8 over the housing, and 1/8 to roll in
    finding = make_plan(job(unit=tall)).findings[0]
    assert finding.text.startswith("No height is in reach of all legs")
    # plates go in under all four once it stands
    assert "Put solid plates under the legs" in finding.remedy
    assert "Take floor out" not in finding.remedy


def test_a_soffit_that_gives_is_no_restraint() -> None:
    foam = Layer(material="rigid foam", thickness=1.0)
    plan = make_plan(with_soffit(81.5, soffit_layers=(GYPSUM, foam)))
    assert plan.restraint.kind is RestraintKind.NONE
    assert "rigid foam lies below its framing" in plan.restraint.alternatives[0].why_not


def test_packers_as_wide_as_narrow_boards_reach_too_little() -> None:
    narrow = replace(with_soffit(83.0), boards=Boards(size="2x4", width=1.5))
    plan = make_plan(narrow)
    packers = next(one for one in plan.restraint.alternatives if one.kind is RestraintKind.PACKERS)
    assert "1 1/2 in) reach too little" in packers.why_not


def test_a_soffit_out_of_reach_with_no_wood_behind_exceeds_the_travel() -> None:
    wall = Wall(layers=(GYPSUM,), stud=Stud(material=StudMaterial.STEEL), stud_spots=(4.0, 20.0))
    plan = make_plan(replace(with_soffit(92.0), wall=wall))
    assert codes(plan) == {"leg-travel-exceeded", "no-wood-to-bite", "no-restraint"}


@pytest.mark.parametrize("material", [StudMaterial.MASONRY, StudMaterial.UNKNOWN])
def test_no_wood_no_screws(material: StudMaterial) -> None:
    wall = Wall(layers=(GYPSUM,), stud=Stud(material=material), stud_spots=(4.0, 20.0))
    plan = make_plan(job(wall=wall))
    assert plan.screws == ()
    assert "no-wood-to-bite" in codes(plan)


def test_foam_behind_the_boards_is_no_wall_to_pull_against() -> None:
    foam = Layer(material="rigid foam", thickness=1.0)
    plan = make_plan(moved(job(), wall={"layers": (GYPSUM, foam)}))
    assert "compressible-wall" in codes(plan)
    assert plan.screws == ()


def test_one_stud_is_too_few() -> None:
    plan = make_plan(moved(job(), wall={"stud_spots": (16.0,)}))
    assert codes(plan) == {"too-few-studs"}
    # what would do stands beside it: the same boards on solid blocking
    assert plan.scheme is not None
    assert plan.scheme.chosen.backing is Backing.BLOCKING
    assert plan.stack is not None
    assert plan.stack.backing is Backing.BLOCKING


def test_with_the_blocking_built_in_one_stud_is_no_matter() -> None:
    plan = make_plan(moved(job(), wall={"stud_spots": (16.0,), "blocking": True}))
    assert plan.verdict is Verdict.HOLDS
    clear = 0.75 + 10 * 0.19 + 0.0625  # no nearer to the stud than the blocking's end asks for
    for row in plan.screws:
        assert all(abs(x - 16.0) >= clear - 0.75 for x, _ in row.positions)


def test_a_stud_at_the_boards_end_does_not_count_and_says_why() -> None:
    plan = make_plan(moved(job(), wall={"stud_spots": (0.75, 16.0, 29.0)}))
    assert plan.studs is not None
    assert plan.studs.used == (16.0, 29.0)
    assert "end" in plan.studs.why_not[0.75]


def test_spacing_alone_gives_sure_and_best_case_and_the_blocking() -> None:
    wall = Wall(layers=(GYPSUM,), stud_layout=StudLayout(spacing=16.0))
    plan = make_plan(job(wall=wall))
    assert plan.studs is not None
    assert (plan.studs.sure, plan.studs.best_case) == (1, 2)
    assert "too-few-studs" in codes(plan, Severity.WARNS)
    assert "too-few-studs" not in codes(plan)
    assert "solid blocking" in {need.item for need in plan.materials.boards}
    assert plan.scheme is not None
    places = plan.scheme.chosen.places
    assert all(row.count == places * row.per_stud for row in plan.screws)


def test_a_deep_stack_is_flagged() -> None:
    four = make_plan(job(niche=Niche(width=(33.25,), depth=(27.0,))))
    assert "stack-too-deep" in codes(four, Severity.WARNS)
    five = make_plan(job(niche=Niche(width=(33.25,), depth=(28.5,))))
    assert "stack-too-deep" in codes(five)


def test_screws_that_are_too_short_are_said_to_be() -> None:
    from bracecalc.records.job import CarriedScrew, Screws

    screws = Screws(carried=(CarriedScrew(size="10", lengths=(2.0, 2.5)),))
    plan = make_plan(job(screws=screws))
    assert "no-stock-screw-long-enough" in codes(plan)


def test_overlap_is_lost_where_the_rear_can_rise() -> None:
    plan = make_plan(moved(job(), rules={"rear_rise": 0.5}))
    assert "overlap-lost" in codes(plan)


def test_an_earthquake_needs_a_stop() -> None:
    shaken = job(loads=Loads(minimum=1.0, earthquake=Earthquake(s_ds=0.2)))
    assert "sliding-not-restrained" in codes(make_plan(shaken))
    stopped = moved(shaken, loads={"horizontal_stop": True})
    assert "sliding-not-restrained" not in codes(make_plan(stopped))


def test_unknown_weight_leaves_the_minimum_case_and_a_child_alone() -> None:
    plan = make_plan(job(unit=unit(weight=None)))
    assert [case.name for case in plan.demand.cases] == ["minimum", "child alone"]
    assert not plan.demand.checked
    assert "demand-not-checked" in codes(plan, Severity.WARNS)


def test_an_overstressed_stack_offers_what_was_worked_out() -> None:
    plan = make_plan(job(loads=Loads(minimum=400.0)))
    finding = next(one for one in plan.findings if one.code == "overstressed")
    free = make_plan(job(loads=Loads(minimum=400.0), boards=Boards()))
    assert free.scheme is not None
    worst = max(case.utilisation or 0.0 for case in free.demand.cases)
    assert f"use two {free.scheme.chosen.board}" in finding.remedy.lower()
    assert f"{used(worst)} used" in finding.remedy


def test_wires_are_warned_of_with_the_depth() -> None:
    # IRC P2603.2.1 and NEC 300.4: within 1-1/4 in of the face a plate is needed
    plan = make_plan(job())
    finding = next(one for one in plan.findings if one.code == "concealed-services")
    assert "1 1/4 in" in finding.text


@pytest.mark.parametrize(
    ("asked", "got"),
    [(81.5, 81.5), (None, 81.375), (81.9, 81.375), (79.0, 81.375)],
    ids=["in the band", "not asked", "too near its end", "below it"],
)
def test_target_height(asked: float | None, got: float) -> None:
    # middle of 80-3/4 to 82 is 81-3/8, an eighth mark
    plan = make_plan(job(unit=unit(restraint_height=asked)))
    assert plan.restraint.target_height == got
    said = "sheet-height-out-of-reach" in codes(plan, Severity.WARNS)
    assert said == (asked is not None and asked != got)


@pytest.mark.parametrize(
    ("underside", "code"),
    [(82.25, "leg-travel-exceeded"), (80.70, "restraint-too-low"), (81.5, None)],
)
def test_a_restraint_that_stands_already_is_judged_as_it_is(
    underside: float, code: str | None
) -> None:
    built = Built(underside=underside, boards=(1.5, 1.5))
    plan = make_plan(job(built=built, boards=Boards(size="2x6")))
    assert plan.restraint.kind is RestraintKind.STACK
    assert plan.restraint.target_height == underside
    assert codes(plan) == (set() if code is None else {code})


def test_two_studs_in_one_anothers_wood_are_one_measured_twice() -> None:
    plan = make_plan(moved(job(), wall={"stud_spots": (6.0, 6.75, 22.0)}))
    assert "studs-overlap" in codes(plan, Severity.WARNS)
    doubled = make_plan(moved(job(), wall={"stud_spots": (6.0, 7.5, 22.0)}))  # two studs nailed
    assert "studs-overlap" not in codes(doubled, Severity.WARNS)


def test_a_niche_far_too_shallow_is_a_finding_not_a_fault() -> None:
    # a slip of the tape on site: the depth read 10 in short
    plan = make_plan(
        job(
            niche=Niche(width=(33.25,), depth=(13.0,)),
            boards=Boards(size="1x4"),
            loads=Loads(minimum=400.0),
        )
    )
    assert {"niche-too-shallow", "overstressed"} <= codes(plan)


def test_a_soffit_that_is_not_at_the_sheets_height_is_said_to_be() -> None:
    asked = moved(with_soffit(81.5), unit={"restraint_height": 81.625})
    text = next(
        one.text for one in make_plan(asked).findings if one.code == "sheet-height-not-kept"
    )
    assert text.endswith("at 81 5/8 in; the soffit is at 81 1/2 in.")
    kept = moved(with_soffit(81.5), unit={"restraint_height": 81.5})
    assert "sheet-height-not-kept" not in codes(make_plan(kept), Severity.WARNS)


def test_a_level_floor_is_not_blamed_for_legs_that_are_too_short() -> None:
    tall = make_plan(job(unit=unit(height_overall=83.0)))
    text = next(one.text for one in tall.findings if one.code == "floor-uses-up-travel")
    assert text.startswith("No height is in reach of all legs")
    uneven = make_plan(job(floor=Floor(rear_right=1.5)))
    text = next(one.text for one in uneven.findings if one.code == "floor-uses-up-travel")
    assert text.startswith("The floor is so far out of level that no height")


def test_eighths_are_left_where_they_would_lose_the_margin() -> None:
    # legs of 5/8 in: a band of 1/2 in about 84-5/16, and each reading 1/8 in uncertain. At an
    # eighth 3/16 in is left to the nearer end, less than 1/4 in; at the middle just that.
    given = job(unit=unit(height=83.9375, leg_travel_front=0.625, leg_travel_rear=0.625))
    plan = make_plan(given)
    assert plan.restraint.target_height == 84.3125
    assert plan.restraint.margin is not None
    assert plan.restraint.margin.worst_case == pytest.approx(0.0)
    assert plan.verdict is Verdict.HOLDS
    for eighth in (84.25, 84.375):
        built = make_plan(replace(given, built=Built(underside=eighth, boards=(1.5, 1.5))))
        assert built.restraint.margin is not None
        assert built.restraint.margin.verdict is Verdict.CLOSE


@each(st.integers(8, 120).map(lambda n: n / 64), st.integers(0, 63).map(lambda n: n / 64))
def test_no_height_in_the_band_has_a_better_verdict(travel: float, over: float) -> None:
    given = job(unit=unit(height=80.0 + over, leg_travel_front=travel, leg_travel_rear=travel))
    band = reach_band(given)
    restraint = make_plan(given).restraint
    if restraint.target_height is None or restraint.margin is None:
        return
    steps = [band.low + (band.high - band.low) * share / 40 for share in range(41)]
    best = min(RANK[height_margin(given, band, height).verdict] for height in steps)
    assert RANK[restraint.margin.verdict] <= best


def test_the_target_is_told_from_the_line_and_from_the_floor_too() -> None:
    read = job(
        floor=Floor(
            front_left=0.0, front_right=0.0, rear_left=0.125, rear_right=0.25,
            down_from_line=True, line=40.0,
        )
    )  # fmt: skip
    restraint = make_plan(read).restraint
    assert restraint.target_height is not None
    assert restraint.from_line == restraint.target_height - 40.0
    assert restraint.over_spot == OverSpot("rear_right", restraint.target_height - 0.25)
    marked = " ".join(one.text for one in set_out(make_plan(read)) if one.step == "Mark")
    assert "in above the laser's line" in marked
    assert "rear right leg spot" in marked
    unread = make_plan(job(floor=Floor())).restraint
    assert (unread.from_line, unread.over_spot) == (None, None)
