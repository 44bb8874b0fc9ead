"""Remedies: the smallest change, checked by the plan's own code before it is offered."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from jobs import job, moved

from bracecalc.check.check import check_site
from bracecalc.check.heights import shims_for
from bracecalc.planning.floor_change import mark_up
from bracecalc.planning.plan import make_plan
from bracecalc.planning.reach import height_margin, reach_band
from bracecalc.records.job import CarriedScrew, Job, Screws
from bracecalc.records.plan import Severity, Verdict
from bracecalc.records.site import AsFound, FoundLayer, Miss, Reading, SiteCheck

JOB = job()
HIGH = JOB.unit.height + JOB.unit.leg_travel_front
LOW = JOB.unit.height + JOB.rules.leg_least
WORST = 2 * JOB.rules.height_uncertainty


def once(*values: float) -> tuple[Reading, ...]:
    return tuple(Reading((value,)) for value in values)


def boards(left: float, right: float, **others: Any) -> AsFound:
    return AsFound(board_left=Reading((left,)), board_right=Reading((right,)), **others)


def miss(check: SiteCheck, code: str) -> Miss:
    return next(one for one in check.misses if one.finding.code == code)


def texts(check: SiteCheck, code: str) -> list[str]:
    return [remedy.text for remedy in miss(check, code).remedies]


def fails(given: Job) -> set[str]:
    return {one.code for one in make_plan(given).findings if one.severity is Severity.FAILS}


def test_boards_that_come_down_go_back_at_the_target_of_a_plan() -> None:
    # 2x6 boards leave the studs room beside the old holes
    wide = moved(JOB, boards={"size": "2x6"})
    target = make_plan(wide).restraint.target_height
    check = check_site(wide, boards(HIGH + 0.25, HIGH + 0.25))
    lower = next(
        one for one in miss(check, "leg-travel-exceeded").remedies if one.text.startswith("Lower")
    )
    assert lower.job.built is not None
    assert lower.job.built.underside == target
    assert lower.verdict is Verdict.HOLDS


def test_boards_too_low_go_up_to_the_target_of_a_plan() -> None:
    check = check_site(JOB, boards(LOW - 0.25, LOW - 0.25))
    code = check.misses[0].finding.code
    lifted = next(
        one for one in miss(check, code).remedies if one.text.startswith("Raise the boards")
    )
    assert lifted.job.built is not None
    room = height_margin(JOB, reach_band(JOB), lifted.job.built.underside)
    assert room.verdict is Verdict.HOLDS
    assert not any("Shim under" in text for text in texts(check, code))


def test_a_shim_under_the_boards_is_less_effort_than_moving_them() -> None:
    check = check_site(JOB, boards(HIGH + 0.25, HIGH + 0.25))
    offered = miss(check, "leg-travel-exceeded").remedies
    efforts = [remedy.effort for remedy in offered]
    assert efforts == sorted(efforts)
    assert offered[0].text.startswith("Shim under the boards")
    # 1/4 in over the travel and 1/4 in of uncertainty: the thinnest single stock piece that does
    assert "3/4 plywood" in offered[0].text or "1/2" in offered[0].text
    assert offered[0].job.built is not None
    assert offered[0].job.built.underside <= HIGH - WORST + 1e-9


def test_boards_that_are_not_up_yet_are_set_elsewhere() -> None:
    raised = {corner: Reading((0.75,)) for corner in ("front_left", "rear_left")}
    check = check_site(JOB, AsFound(floor=raised))
    assert check.verdict is Verdict.FAILS
    texts_of_all = [remedy.text for one in check.misses for remedy in one.remedies]
    assert any(text.startswith("Set the boards") for text in texts_of_all)
    assert check.after is not Verdict.FAILS


def test_a_plate_under_a_leg_is_named_with_its_spot_and_thickness() -> None:
    # only the rear left spot is low: 3/8 in under the others
    target = HIGH - WORST
    low = {"rear_left": Reading((-0.375,))}
    check = check_site(JOB, boards(target, target, floor=low))
    plate = next(
        one
        for one in miss(check, "leg-travel-exceeded").remedies
        if "plates under the legs" in one.text
    )
    assert plate.text == "Put solid plates under the legs (rear left 3/8 in)"
    assert plate.job.floor.rear_left == 0.0


def test_a_floor_that_uses_up_the_travel_is_packed_or_taken_out() -> None:
    steep = {"rear_left": Reading((1.5,)), "rear_right": Reading((1.5,))}
    check = check_site(JOB, AsFound(floor=steep))
    offered = texts(check, "floor-uses-up-travel")
    assert offered
    assert all("lower the floor" in text.lower() or "plates" in text for text in offered)
    assert check.after is not Verdict.FAILS
    assert "floor-uses-up-travel" not in fails(check.todo[-1].job)


def test_too_little_overlap_gets_the_thinnest_board_that_does_in_front() -> None:
    strong = replace(JOB, loads=replace(JOB.loads, minimum=20.0, climb=0.0))
    check = check_site(strong, AsFound(projection=once(2.5)))
    first = miss(check, "overlap-too-small").remedies[0]
    assert first.text.startswith("Add a 1x4 in front (3/4 in)")
    assert first.job.built is not None
    assert first.job.built.boards[-1] == 0.75
    assert "through board 3: at" in first.text


def test_a_gap_that_costs_the_overlap_is_shimmed() -> None:
    target = make_plan(JOB).restraint.target_height
    assert target is not None
    check = check_site(JOB, boards(target - 0.375, target + 0.25))
    assert "overlap-lost" in [one.finding.code for one in check.misses]
    assert texts(check, "overlap-lost")[0].startswith("Shim the gap of 5/8 in")


LIGHT = moved(JOB, loads={"minimum": 40.0})  # held over a thicker wall too
THICKER = (FoundLayer(material="gypsum board", thickness=Reading((1.25,))),)
NO_SCREW = "no-stock-screw-long-enough"


def as_carried(given: Job) -> tuple[CarriedScrew, ...]:
    rows = make_plan(given).screws
    return tuple(CarriedScrew(size=row.size, lengths=(row.length,)) for row in rows)


def test_a_planned_screw_too_short_for_the_wall_found_gets_a_longer_one_named() -> None:
    check = check_site(LIGHT, AsFound(layers=THICKER))
    first = miss(check, NO_SCREW).remedies[0]
    assert first.text.startswith(
        "Use other screws to get: not on the truck; fix the front board with"
    )
    longest = max(row.length for row in make_plan(LIGHT).screws)
    assert max(row.length for row in make_plan(first.job).screws) > longest


def test_screws_on_the_van_come_before_those_to_be_fetched() -> None:
    needed = miss(check_site(LIGHT, AsFound(layers=THICKER)), NO_SCREW).remedies[0].job
    # the planned screws are on the truck, and those that are needed instead
    van = (*as_carried(LIGHT), *as_carried(needed))
    check = check_site(LIGHT, AsFound(layers=THICKER, screws=van))
    assert texts(check, NO_SCREW)[0].startswith("Use other screws from the truck")


def test_one_stud_gets_blocking_and_is_told_between_which() -> None:
    strong = replace(JOB, loads=replace(JOB.loads, minimum=20.0, climb=0.0))
    check = check_site(strong, AsFound(stud_spots=once(16.0)))
    offered = texts(check, "too-few-studs")
    assert offered[0].startswith(
        "Add solid blocking between the stud at 16 in and the next ones to its left and right"
    )


def test_a_niche_too_shallow_lets_the_unit_stand_prouder() -> None:
    shallow = JOB.unit.depth - 0.25
    check = check_site(JOB, AsFound(depth=once(shallow)))
    assert texts(check, "niche-too-shallow")[0].startswith(
        "Let the appliance stand 5/16 in farther out of the niche"
    )


def test_what_nothing_here_mends_is_said_so() -> None:
    foam = (FoundLayer(material="rigid foam", thickness=Reading((1.0,))),)
    check = check_site(JOB, AsFound(layers=foam))
    assert check.verdict is Verdict.FAILS
    assert check.after is Verdict.FAILS


def test_several_misses_are_mended_together() -> None:
    strong = replace(JOB, loads=replace(JOB.loads, minimum=20.0, climb=0.0))
    found = boards(HIGH + 0.25, HIGH + 0.5, projection=once(2.5))
    check = check_site(strong, found)
    assert len(check.misses) >= 2
    assert check.after is not Verdict.FAILS
    assert fails(check.todo[-1].job) == set()


def test_a_move_into_the_soffit_is_not_offered() -> None:
    # boards 3 1/2 in high under a soffit that leaves them no room to go up
    low = LOW - 0.25
    under = moved(JOB, niche={"soffit": (low + 3.5,)})
    check = check_site(under, boards(low, low))
    offered = [remedy.text for one in check.misses for remedy in one.remedies]
    assert not any(text.startswith("Raise the boards") for text in offered)


@pytest.mark.parametrize(
    ("gap", "names"),
    [
        (0.0, ()),
        (0.03, ()),
        (0.0625, ("1/16 shim",)),
        (0.25, ("1/4 shim",)),
        (0.3125, ("1/4 shim", "1/16 shim")),
    ],
)
def test_a_gap_is_filled_with_the_fewest_stock_pieces(gap: float, names: tuple[str, ...]) -> None:
    assert shims_for(JOB, gap) == names


def test_changes_are_rounded_up_to_a_mark() -> None:
    assert mark_up(0.25) == 0.25
    assert mark_up(0.251) == 0.3125


def test_screws_that_the_job_lists_come_before_those_to_be_fetched() -> None:
    needed = miss(check_site(LIGHT, AsFound(layers=THICKER)), NO_SCREW).remedies[0].job
    listed = replace(LIGHT, screws=Screws(carried=(*as_carried(LIGHT), *as_carried(needed))))
    check = check_site(listed, AsFound(layers=THICKER))
    assert texts(check, NO_SCREW)[0].startswith("Use other screws of those that the job lists")
