"""Where the stack does not hold: what is said, and that each help was worked out."""

from __future__ import annotations

import math
import re
from pathlib import Path

from jobs import job, moved

from bracecalc.jobfile.read import read_job
from bracecalc.planning.plan import make_materials, make_plan
from bracecalc.records.job import CarriedScrew, Job, Loads, Screws
from bracecalc.records.plan import Finding, Plan, Verdict

WEAK = job(loads=Loads(minimum=400.0))
ONE_SIZE = Screws(carried=(CarriedScrew(size="12", lengths=(5.0,)),
                           CarriedScrew(size="10", lengths=(3.5,))))  # fmt: skip


def overstressed(plan: Plan) -> Finding:
    return next(finding for finding in plan.findings if finding.code == "overstressed")


def worst_use(given: Job) -> float:
    uses = [case.utilisation for case in make_plan(given).demand.cases]
    return max(use for use in uses if use is not None)


def offered(finding: Finding) -> dict[str, float]:
    """Each way that is offered, with the use it comes to."""
    found = re.findall(r"([^;]+): (\d+)% used", finding.remedy)
    return {words.strip().lower(): int(use) / 100 for words, use in found}


def test_a_stack_that_holds_has_nothing_to_say() -> None:
    assert "overstressed" not in {finding.code for finding in make_plan(job()).findings}


def test_it_says_the_case_the_force_and_what_limits() -> None:
    plan = make_plan(WEAK)
    said = overstressed(plan).text
    case = plan.demand.cases[0]
    assert plan.verdict is Verdict.FAILS
    assert case.capacity is not None
    assert "minimum case" in said
    assert "400 lbf" in said
    assert f"{math.floor(case.capacity)} lbf" in said
    assert (case.limited_by or "nothing") in said


def test_every_help_comes_to_what_it_says() -> None:
    helps = offered(overstressed(make_plan(WEAK)))
    wider = moved(WEAK, boards={"size": "2x6"})
    even = moved(WEAK, rules={"even_contact": True})
    assert helps["with 2x6 boards"] == math.ceil(100 * worst_use(wider)) / 100
    name = "if the housing is shown to bear evenly front to back (rules.even_contact)"
    assert helps[name] == math.ceil(100 * worst_use(even)) / 100


def test_a_help_that_does_not_suffice_says_so() -> None:
    remedy = overstressed(make_plan(job(loads=Loads(minimum=5000.0)))).remedy
    for part in remedy.rstrip(".").split("; "):
        use = re.search(r"(\d+)% used", part)
        if use is not None:
            assert ("not enough" in part) == (int(use[1]) > 100)


def test_only_what_helps_is_offered() -> None:
    for force in (150.0, 400.0, 5000.0):
        given = job(loads=Loads(minimum=force))
        for use in offered(overstressed(make_plan(given))).values():
            assert use < worst_use(given)


def test_where_nothing_suffices_an_engineer_is_asked_for() -> None:
    remedy = overstressed(make_plan(job(loads=Loads(minimum=5000.0)))).remedy
    assert remedy.lower().rstrip(".").endswith("have an engineer design the restraint")
    little = overstressed(make_plan(job(loads=Loads(minimum=88.0))))
    assert any(use <= 1.0 for use in offered(little).values())
    assert "engineer" not in little.remedy


def test_blocking_has_places_that_every_screw_may_take() -> None:
    demo = read_job(Path(__file__).parents[2] / "data" / "demo" / "5c-heavy-doors.toml")
    helps = offered(overstressed(make_plan(demo)))
    name = "with solid blocking between the studs and screws at four places"
    # four places, so that the load at an end no longer levers about a stud far from it
    assert helps[name] < worst_use(demo) - 0.5


def test_any_stocked_screw_is_offered_to_a_crew_that_carries_others() -> None:
    assert not any("stocked" in words for words in offered(overstressed(make_plan(WEAK))))
    few = make_plan(job(loads=Loads(minimum=400.0), screws=ONE_SIZE))
    assert any("stocked" in words for words in offered(overstressed(few)))


def test_solid_blocking_gives_four_places_by_the_levers_of_the_board() -> None:
    plan = make_plan(WEAK)
    helps = offered(overstressed(plan))
    name = "with solid blocking between the studs and screws at four places"
    assert helps[name] < worst_use(WEAK)


def test_a_takeoff_does_not_spend_time_on_helps_but_finds_the_same() -> None:
    verdict, _, findings = make_materials(WEAK)
    assert verdict is Verdict.FAILS
    finding = next(one for one in findings if one.code == "overstressed")
    assert finding.text == overstressed(make_plan(WEAK)).text
    assert offered(finding) == {}
