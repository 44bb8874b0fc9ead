"""Each deviation of the table comes to what was worked out by hand."""

from __future__ import annotations

import pytest
from check.deviations import BOARDS_DOWN, BOARDS_UP, TARGET, Deviation
from jobs import job, moved

from bracecalc.check.check import check_site
from bracecalc.planning.plan import make_plan
from bracecalc.records.plan import Severity, Verdict
from bracecalc.records.site import AsFound

JOB = moved(job(), boards={"size": "2x6"})
ROWS = [*(("down", one) for one in BOARDS_DOWN), *(("up", one) for one in BOARDS_UP)]


def test_the_table_is_of_that_niche() -> None:
    plan = make_plan(JOB)
    assert plan.restraint.target_height == TARGET
    assert (plan.reach_band.low, plan.reach_band.high) == (80.75, 82.0)
    assert plan.stack is not None
    assert plan.stack.overlap == 2.375
    assert [row.embedment for row in plan.screws] == [1.5, 1.5]
    assert len(ROWS) > 60


@pytest.mark.parametrize(
    ("state", "deviation"), ROWS, ids=[f"{state}: {one.name}" for state, one in ROWS]
)
def test_a_deviation_comes_to_what_was_worked_out_by_hand(state: str, deviation: Deviation) -> None:
    found = AsFound(**deviation.found)
    assert found.built is (state == "up")
    check = check_site(JOB, found)
    assert check.verdict is deviation.verdict, deviation.why
    codes = [miss.finding.code for miss in check.misses]
    assert codes[:1] == ([deviation.code] if deviation.code else [])
    done = [remedy for remedy in check.todo if remedy.actions]
    if deviation.first is not None:
        assert done[0].actions[0].kind is deviation.first
        assert check.after is not Verdict.FAILS
        own = {
            one.actions[0].kind
            for miss in check.misses
            if miss.finding.code == deviation.code
            for one in miss.remedies
        }
        assert own == deviation.offered
    if check.after is not Verdict.FAILS and done:
        last = make_plan(done[-1].job)
        assert not [one for one in last.findings if one.severity is Severity.FAILS]
