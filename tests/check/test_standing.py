"""What stands is judged by the very screws that are in it: three boards that must never pass."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import job, moved

from bracecalc.check.check import check_site
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CarriedScrew, Contact
from bracecalc.records.plan import Severity, Verdict
from bracecalc.records.scheme import Fault
from bracecalc.records.site import AsFound, FoundLayer, Reading, SiteCheck

JOB = job()
PLAN = make_plan(JOB)
TARGET = 81.375
STUDS = (4.0, 16.625, 29.0)


def once(*values: float) -> tuple[Reading, ...]:
    return tuple(Reading((value,)) for value in values)


def up(left: float = TARGET, right: float = TARGET, **found: Any) -> SiteCheck:
    """The boards up, and what else was found."""
    ends: dict[str, Any] = {"board_left": Reading((left,)), "board_right": Reading((right,))}
    return check_site(JOB, AsFound(**ends, **found))


def codes(check: SiteCheck) -> list[str]:
    return [miss.finding.code for miss in check.misses]


def layer(thickness: float, material: str = "gypsum board") -> tuple[FoundLayer, ...]:
    return (FoundLayer(material=material, thickness=Reading((thickness,))),)


def test_boards_as_planned_hold_by_the_screws_of_the_plan() -> None:
    check = up(stud_spots=once(*STUDS))
    assert check.verdict is Verdict.HOLDS
    assert check.todo == ()
    placed = sorted((one.screw.from_left, one.screw.above) for one in check.standing)
    assert placed == sorted(place for row in PLAN.screws for place in row.positions)
    assert {one.fault for one in check.standing} == {None}
    assert check.found.demand == PLAN.demand


def test_studs_where_no_screw_of_the_boards_bites_fail() -> None:
    check = up(stud_spots=once(8.0, 20.625, 25.0))  # 4 in from every screw
    assert check.verdict is Verdict.FAILS
    assert {one.fault for one in check.standing} == {Fault.NO_WOOD}
    assert codes(check)[0] == "screws-miss-wood"
    assert "hold nothing" in check.misses[0].finding.text
    assert check.todo[0].mends == "screws-miss-wood"
    assert check.todo[0].text.startswith("Do not rely on the boards that stand.")
    assert check.to_dict()["todo"][0]["mends"] == "screws-miss-wood"


def test_a_thicker_plaster_behind_boards_that_are_fixed_fails() -> None:
    check = up(layers=layer(0.875, "plaster"))  # 3/8 in more than the plan's 1/2 in
    assert check.verdict is Verdict.FAILS
    assert "screws-too-short" in codes(check)
    for state, row in zip(check.standing, PLAN.screws, strict=False):
        assert state.embedment == pytest.approx(row.embedment - 0.375)
    assert {one.fault for one in check.standing} == {Fault.TOO_SHORT}


def test_boards_that_stand_through_the_soffit_by_their_own_readings_fail() -> None:
    check = up(soffit=once(TARGET + 3.5 - 0.0625))  # a 2x4 is 3 1/2 in wide
    assert check.verdict is Verdict.FAILS
    assert codes(check) == ["boards-through-soffit"]
    assert check.todo[0].mends == "boards-through-soffit"
    assert up(soffit=once(TARGET + 3.5)).verdict is not Verdict.FAILS


def test_the_higher_end_of_boards_out_of_level_meets_the_soffit_first() -> None:
    assert "boards-through-soffit" in codes(up(right=TARGET + 0.25, soffit=once(TARGET + 3.625)))


def test_one_stud_that_is_not_there_is_lost_though_the_others_hold() -> None:
    check = up(stud_spots=once(4.0, 29.0))
    assert check.verdict is Verdict.FAILS
    gone = [one for one in check.standing if one.fault is not None]
    assert {round(one.screw.spot, 3) for one in gone} == {16.625}
    assert "hold nothing" not in check.misses[0].finding.text


def test_a_stud_read_a_little_off_asks_for_its_edges_again() -> None:
    # 1/16 in off: the least distance to the edge is kept as read, not with the tape's 1/16 in
    check = up(stud_spots=once(*(spot + 0.0625 for spot in STUDS)))
    assert check.verdict is Verdict.CLOSE
    assert any(one.close for one in check.standing)
    assert "screws-near-edge" in {one.code for one in check.found.findings}


@pytest.mark.parametrize(("gap", "one_end"), [(0.0, False), (1 / 32, False), (1 / 16, True)])
def test_a_gap_over_a_thirty_second_is_contact_at_one_end(gap: float, one_end: bool) -> None:
    check = up(right=TARGET + gap)
    assert (check.job.rules.contact is Contact.ONE_END) is one_end


def test_a_gap_that_the_screws_do_not_hold_is_shimmed_first() -> None:
    check = up(right=TARGET + 0.125)
    assert codes(check) == ["overstressed"]
    assert check.todo[0].text.startswith("Shim the gap of 1/8 in")
    assert check.after is Verdict.HOLDS
    assert check.todo[-1].job.rules.contact is Contact.BOTH_ENDS


def test_other_screws_found_in_the_boards_are_those_that_count() -> None:
    short = CarriedScrew(size="10", lengths=(3.0,))
    check = up(fixed=(short,))
    assert "screws-too-short" in codes(check)
    assert {one.screw.length for one in check.standing} == {3.0}
    as_planned = tuple(CarriedScrew(size=row.size, lengths=(row.length,)) for row in PLAN.screws)
    assert up(fixed=as_planned).verdict is PLAN.verdict


def test_places_of_screws_that_were_read_go_before_those_of_the_plan() -> None:
    check = up(stud_spots=once(*STUDS), fixed_at=once(4.0, 18.5, 29.0))
    assert "screws-miss-wood" in codes(check)
    both = up(stud_spots=once(5.0, 17.5, 28.0), fixed_at=once(5.0, 17.5, 28.0))
    assert both.verdict is Verdict.HOLDS


def test_boards_whose_screws_nobody_placed_are_not_relied_on() -> None:
    unknown = moved(JOB, wall={"stud_spots": None})
    found = AsFound(board_left=Reading((TARGET,)), board_right=Reading((TARGET,)))
    check = check_site(unknown, found)
    assert check.verdict is Verdict.FAILS
    assert "screws-not-located" in codes(check)


def test_screws_are_never_designed_anew_for_boards_that_stand() -> None:
    check = up(layers=layer(0.5625))
    was = {(row.board, row.size, row.length, row.per_stud) for row in PLAN.screws}
    assert {(row.board, row.size, row.length, row.per_stud) for row in check.found.screws} == was


def test_a_remedy_backs_out_what_is_lost_and_keeps_clear_of_its_holes() -> None:
    check = up(stud_spots=once(5.0, 17.625, 30.0))
    remedy = check.todo[-1]
    built = remedy.job.built
    assert built is not None
    assert remedy.text.startswith("Back out 6 screws")
    assert len(built.holes) == 6
    plan = make_plan(remedy.job)
    assert plan.verdict is not Verdict.FAILS
    assert not [one for one in plan.findings if one.severity is Severity.FAILS]
