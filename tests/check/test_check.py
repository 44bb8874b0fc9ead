"""As found against the plan, by numbers worked out by hand."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace

import pytest
from jobs import GYPSUM, job, moved

from bracecalc.check.check import check_site, gap_of, held_job, measured_job
from bracecalc.check.studs import doubtful_spots
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CarriedScrew
from bracecalc.records.plan import Verdict
from bracecalc.records.site import AsFound, FoundLayer, Point, Reading, SiteCheck

JOB = job()
PLAN = make_plan(JOB)
TARGET = 81.375  # the mark nearest the middle of the band, 80 3/4 to 82


def once(*values: float) -> tuple[Reading, ...]:
    return tuple(Reading((value,)) for value in values)


def boards(left: float, right: float) -> AsFound:
    return AsFound(board_left=Reading((left,)), board_right=Reading((right,)))


def one_end(end: str, height: float) -> AsFound:
    reading = Reading((height,))
    return AsFound(board_left=reading) if end == "left" else AsFound(board_right=reading)


def point(check: SiteCheck, key: str) -> Point:
    return next(one for one in check.points if one.key == key)


def codes(check: SiteCheck) -> list[str]:
    return [miss.finding.code for miss in check.misses]


def test_the_test_job_holds_as_planned() -> None:
    assert PLAN.verdict is Verdict.HOLDS
    assert PLAN.restraint.target_height == TARGET
    check = check_site(JOB, AsFound())
    assert check.verdict is Verdict.HOLDS
    assert (check.todo, check.changes, check.misses) == ((), (), ())


def test_what_was_not_measured_is_the_plans_and_marked_so() -> None:
    check = check_site(JOB, AsFound(depth=once(23.75)))
    assert point(check, "depth[1]").measured
    spot = point(check, "floor.rear_left")
    assert not spot.measured
    assert spot.found is None
    assert spot.difference is None
    assert spot.planned == 0.0


def test_difference_is_found_less_planned() -> None:
    check = check_site(JOB, AsFound(floor={"rear_left": Reading((0.125, 0.25))}))
    spot = point(check, "floor.rear_left")
    assert spot.found == 0.1875
    assert spot.difference == 0.1875
    assert spot.uncertainty == 0.125  # the height's own; the spread is 1/16
    assert spot.note == "mean of 2 readings"


def test_a_spread_of_pulls_comes_off_the_margins() -> None:
    close = check_site(JOB, AsFound(floor={"rear_left": Reading((0.0,))}))
    wide = check_site(JOB, AsFound(floor={"rear_left": Reading((-0.25, 0.25))}))
    room, less = (point(check, "floor.rear_left").margin for check in (close, wide))
    assert room is not None
    assert less is not None
    assert less.nominal == room.nominal
    assert less.worst_case == pytest.approx(room.worst_case - 0.125)  # 1/4 instead of 1/8


def test_boards_touch_at_their_lowest_end_and_keep_a_gap_at_the_other() -> None:
    check = check_site(JOB, boards(TARGET, TARGET - 0.25))
    assert check.contact is not None
    assert check.contact.height == TARGET - 0.25
    assert check.contact.first_end == "right"
    assert check.contact.gap == 0.25
    assert check.contact.shims == ("1/4 shim",)
    for leg in check.legs.values():
        assert leg.extension == pytest.approx(TARGET - 0.25 - JOB.unit.height)


def test_the_gap_costs_overlap_as_the_rear_rises_through_it() -> None:
    # forward movement r h / a, the same lever for both rises
    level = check_site(JOB, boards(TARGET, TARGET)).contact
    tilted = check_site(JOB, boards(TARGET, TARGET + 0.125)).contact
    assert level is not None
    assert tilted is not None
    assert level.overlap is not None
    assert level.overlap_left is not None
    assert tilted.overlap_left is not None
    worst = level.overlap - JOB.rules.tape_uncertainty
    lost = worst - level.overlap_left  # by the job's own rise of 1/8 in
    assert worst - tilted.overlap_left == pytest.approx(2.0 * lost)
    assert tilted.overlap_left_shimmed == pytest.approx(level.overlap_left)


def test_the_projection_found_sets_the_overlap() -> None:
    check = check_site(JOB, AsFound(projection=once(2.875, 3.0)))
    assert PLAN.stack is not None
    assert PLAN.stack.projection == 3.0
    assert check.contact is not None
    assert check.contact.overlap == pytest.approx(PLAN.stack.overlap - 0.125)
    assert check.found.stack is not None
    assert check.found.stack.boards == 2


def test_a_projection_of_another_number_of_boards_is_seen() -> None:
    check = check_site(JOB, AsFound(projection=once(4.5)))
    assert check.found.stack is not None
    assert check.found.stack.boards == 3


@pytest.mark.parametrize("end", ["left", "right"])
def test_boards_too_high_and_too_low_miss_by_the_leg(end: str) -> None:
    high = JOB.unit.height + JOB.unit.leg_travel_front
    too_high = check_site(JOB, one_end(end, high + 0.25))
    assert codes(too_high)[0] == "leg-travel-exceeded"
    assert point(too_high, f"board_{end}").verdict is Verdict.FAILS
    too_low = check_site(JOB, one_end(end, JOB.unit.height))
    assert codes(too_low)[0] in ("restraint-too-low", "does-not-go-in")


def test_turns_are_from_where_the_leg_is_now() -> None:
    found = replace(boards(81.625, 81.625), legs={"front_left": 0.5})
    legs = check_site(JOB, found).legs
    assert legs["front_left"].out == 0.5  # 81 5/8 less 80 5/8 is 1 in, half of it is out
    assert legs["front_left"].turns == 8.0  # of 1/16 in
    assert legs["front_right"].now is None
    assert legs["front_right"].turns == 16.0


def test_studs_found_elsewhere_are_planned_for_and_old_holes_are_lost() -> None:
    check = check_site(JOB, AsFound(stud_spots=once(4.0, 18.0, 29.0)))
    assert check.studs is not None
    assert check.studs.lost == (16.625,)
    assert check.studs.found == (4.0, 18.0, 29.0)
    assert check.found.studs is not None
    assert 18.0 in check.found.studs.used
    across = {round(place, 3) for row in check.found.screws for place, _ in row.positions}
    assert not any(abs(place - 16.625) < 0.5 for place in across)
    assert point(check, "studs[2]").difference == pytest.approx(1.375)


def test_a_stud_off_by_less_than_its_edge_keeps_its_holes() -> None:
    check = check_site(JOB, AsFound(stud_spots=once(4.0, 16.65, 29.0)))
    assert check.studs is not None
    assert check.studs.lost == ()


@pytest.mark.parametrize(
    ("spots", "told"),
    [
        ((6.0, 22.0, 38.0), ()),
        ((6.0, 18.25, 37.5), ()),  # 12 and 19.2, out by what framing is
        ((6.0, 7.5, 23.0), ()),  # studs nailed together
        ((6.0, 38.0), ("a stud between them may have been missed",)),
        ((6.0, 22.75), ("the edge of a stud",)),
        ((6.0, 20.1), ("not a usual stud spacing",)),
    ],
)
def test_spots_at_no_distance_that_walls_are_framed_at_are_doubted(
    spots: tuple[float, ...], told: tuple[str, ...]
) -> None:
    from bracecalc.text.findings import Lengths

    doubts = doubtful_spots(spots, Lengths(JOB))
    assert len(doubts) == len(told)
    for doubt, words in zip(doubts, told, strict=True):
        assert words in doubt


def test_a_thicker_wall_takes_the_screws_embedment() -> None:
    thicker = FoundLayer(material="gypsum board", thickness=Reading((1.25,)))
    check = check_site(JOB, AsFound(layers=(thicker,)))
    assert codes(check) == ["no-stock-screw-long-enough"]
    assert point(check, "layers.gypsum board").difference == 0.75


def test_the_planned_screw_is_held_to_unless_it_is_not_on_the_van() -> None:
    held = held_job(measured_job(JOB, AsFound()), PLAN, AsFound())
    assert {(one.size, *one.lengths) for one in held.screws.carried} == {
        (row.size, row.length) for row in PLAN.screws
    }
    van = AsFound(screws=(CarriedScrew(size="14", lengths=(3.5, 6.0)),))
    assert held_job(measured_job(JOB, van), PLAN, van).screws.carried == van.screws


def test_a_screw_that_is_not_on_the_van_is_told_and_what_is_used_instead() -> None:
    lengths = (3.5, 4.0, 5.0, 6.0)
    sizes = ("14", "5/16", "3/8")
    van = tuple(CarriedScrew(size=size, lengths=lengths) for size in sizes)
    check = check_site(JOB, AsFound(screws=van))
    planned = {(row.size, row.length) for row in PLAN.screws}
    on_it = {(size, length) for size in sizes for length in lengths}
    assert not planned <= on_it
    assert any(one.note == "not on the truck" for one in check.points)
    if check.verdict is not Verdict.FAILS:
        assert any("on the truck" in change for change in check.changes)
    assert {(row.size, row.length) for row in check.found.screws} <= on_it


def test_a_niche_narrower_than_the_unit_fails_and_nothing_mends_it() -> None:
    check = check_site(JOB, AsFound(width=once(33.25, 32.5)))
    assert "niche-too-narrow" in codes(check)
    assert check.verdict is Verdict.FAILS
    assert check.after is Verdict.FAILS
    assert point(check, "width[2]").verdict is Verdict.FAILS
    assert point(check, "width[1]").verdict is Verdict.HOLDS


def test_a_plan_that_fails_by_itself_is_said_to() -> None:
    one_stud = moved(JOB, wall={"stud_spots": (16.0,)})
    check = check_site(one_stud, AsFound())
    assert all(miss.in_plan for miss in check.misses)
    assert "too-few-studs" in codes(check)


def test_a_gap_needs_both_ends() -> None:
    assert gap_of(AsFound(board_left=Reading((81.0,)))) == 0.0
    assert gap_of(boards(81.0, 81.5)) == 0.5


def test_layers_keep_what_the_job_says_of_their_fixing() -> None:
    fixed = replace(GYPSUM, material="plywood", thickness=0.75, fixed_to_stud=True)
    given = moved(JOB, wall={"layers": (GYPSUM, fixed)})
    found = AsFound(
        layers=(
            FoundLayer(material="gypsum board", thickness=Reading((0.625,))),
            FoundLayer(material="plywood", thickness=Reading((0.71875,))),
        )
    )
    layers = measured_job(given, found).wall.layers
    assert [layer.fixed_to_stud for layer in layers] == [False, True]


def test_the_check_runs_on_the_standard_library_alone() -> None:
    code = """
import sys
for name in ("click", "pint", "numpy", "tabulate", "tomlkit"):
    sys.modules[name] = None
sys.path.insert(0, "tests")
import bracecalc.check.check
from bracecalc.jobfile.as_found import read_as_found
from bracecalc.records.job import Job, Niche, Unit, Wall, Layer
job = Job(
    title="x", niche=Niche(width=(33.25,), depth=(23.75,)),
    wall=Wall(
        layers=(Layer(material="gypsum board", thickness=0.5),), stud_spots=(4.0, 16.625, 29.0)
    ),
    unit=Unit(
        height=80.625, width=32.75, depth=23.125, leg_travel_front=1.375, leg_travel_rear=1.375
    ),
)
found = read_as_found({"board": "82 1/2, 82 1/4", "depth": "24 and 24 1/16"}, job)
check = bracecalc.check.check.check_site(job, found)
assert check.verdict.value == "fails" and check.misses[0].remedies
"""
    subprocess.run([sys.executable, "-c", code], check=True)
