"""Drift found by halving, against what geometry says in closed form."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable

import pytest
from jobs import job, moved

from bracecalc.certainty.drift import FINE, first_change, tolerance_report
from bracecalc.certainty.held import SEARCHED, hold, verdict_of
from bracecalc.planning.plan import make_plan
from bracecalc.records.plan import Verdict
from bracecalc.records.tolerance import Drift, ToleranceReport

STEPS = 2 * FINE


@pytest.fixture(scope="module")
def report() -> ToleranceReport:
    given = job()
    plan = make_plan(given)
    assert plan.verdict is Verdict.HOLDS
    return tolerance_report(given, plan)


def named(report: ToleranceReport, name: str) -> Drift:
    return next(drift for drift in report.drifts if drift.name == name)


def upto(limit: float) -> Callable[[float], Verdict]:
    return lambda by: Verdict.HOLDS if by <= limit else Verdict.CLOSE


@pytest.mark.parametrize("limit", [0.0, 1e-3, 0.0155, 0.0157, 0.125, 0.3, 1.0, 1.999])
def test_the_first_change_is_found_to_within_the_fineness(limit: float) -> None:
    found = first_change(upto(limit), Verdict.HOLDS, SEARCHED)
    assert found is not None
    assert limit - FINE <= found[0] <= limit + 1e-12
    assert found[1] is Verdict.CLOSE


def test_no_change_as_far_as_was_looked_is_none() -> None:
    assert first_change(upto(5.0), Verdict.HOLDS, SEARCHED) is None


def test_a_change_that_changes_back_later_is_not_stepped_over() -> None:
    # a verdict that differs only between 0.5 and 0.75 in: doubling steps alone would miss it
    def window(by: float) -> Verdict:
        return Verdict.FAILS if 0.5 < by < 0.75 else Verdict.HOLDS

    found = first_change(window, Verdict.HOLDS, SEARCHED)
    assert found is not None
    assert found[0] == pytest.approx(0.5, abs=FINE)


def test_the_drift_itself_keeps_the_verdict_and_just_beyond_it_does_not() -> None:
    given = job()
    held = hold(given, make_plan(given))
    found = first_change(
        lambda by: verdict_of(moved(held, floor={"rear_left": by})), Verdict.HOLDS, SEARCHED
    )
    assert found is not None
    assert verdict_of(moved(held, floor={"rear_left": found[0]})) is Verdict.HOLDS
    assert verdict_of(moved(held, floor={"rear_left": found[0] + STEPS})) is found[1]


def test_a_height_may_drift_by_the_worst_case_margin(report: ToleranceReport) -> None:
    # level floor: the underside may rise by its worst-case margin to the travel and fall by that
    # to the least extension, and a leg spot the other way round
    given = job()
    underside = named(report, "underside of the restraint")
    unit, rules = given.unit, given.rules
    extension = underside.value - unit.height
    worst = 2 * rules.height_uncertainty  # of the height and of the floor
    room_up = unit.leg_travel_front - extension - worst
    room_down = extension - rules.leg_least - worst
    assert underside.above == pytest.approx(room_up, abs=STEPS)
    assert underside.below == pytest.approx(room_down, abs=STEPS)
    spot = named(report, "floor, rear right")
    assert spot.below == pytest.approx(room_up, abs=STEPS)
    assert spot.above == pytest.approx(room_down, abs=STEPS)


def test_the_depth_may_grow_by_the_worst_case_of_the_overlap(report: ToleranceReport) -> None:
    given = job()
    depth = named(report, "niche depth")
    plan = make_plan(given)
    assert plan.stack is not None
    worst = plan.stack.overlap - given.rules.overlap - given.rules.tape_uncertainty
    assert depth.above is not None
    assert depth.above <= worst + STEPS
    # less depth till the housing no longer goes back so far
    assert depth.below == pytest.approx(given.niche.depth[0] - given.unit.depth, abs=STEPS)


def test_height_and_floor_off_at_once_share_the_margin(report: ToleranceReport) -> None:
    # worst for a leg's travel: the underside high and that spot low, each by half of the room
    travel = next(one for one in report.together if one.limit.startswith("travel of"))
    alone = named(report, "underside of the restraint").above
    assert alone is not None
    assert travel.drift == pytest.approx(alone / 2.0, abs=STEPS)


def test_the_least_drift_comes_first(report: ToleranceReport) -> None:
    drifts = [one.drift for one in report.together]
    assert drifts == sorted(drifts)


def test_a_layer_can_not_get_thinner_than_nothing(report: ToleranceReport) -> None:
    layer = named(report, "gypsum board on the wall")
    assert layer.below is None or layer.below <= 0.5


def test_shares_are_of_the_same_plan_and_repeat(report: ToleranceReport) -> None:
    given = job()
    again = tolerance_report(given, make_plan(given))
    assert report.shares == again.shares
    assert report.shares is not None
    assert report.shares.draws == 100_000


def test_without_numpy_the_drifts_are_still_told() -> None:
    code = """
import sys
sys.modules["numpy"] = None
import importlib.util
find = importlib.util.find_spec
import bracecalc.certainty.drift
bracecalc.certainty.drift.find_spec = lambda name: None
sys.path.insert(0, "tests")
from jobs import job
from bracecalc.planning.plan import make_plan
report = bracecalc.certainty.drift.tolerance_report(job(), make_plan(job()))
assert report.drifts and report.shares is None
"""
    subprocess.run([sys.executable, "-c", code], check=True)
