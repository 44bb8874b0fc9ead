"""Where the stack does not hold: what is said, and that each help was worked out."""

from __future__ import annotations

import math
import re

import pytest
from jobs import GYPSUM, job, moved

from bracecalc.planning.plan import make_materials, make_plan
from bracecalc.records.job import Boards, Built, CarriedScrew, Contact, Job, Loads, Screws, Wall
from bracecalc.records.plan import Finding, Plan, Verdict
from bracecalc.records.scheme import Reason

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
    finding = overstressed(make_plan(WEAK))
    helps = offered(finding)
    even = moved(WEAK, rules={"even_contact": True})
    name = "if the appliance is shown to bear evenly front to back (rules.even_contact)"
    assert helps[name] == math.ceil(100 * worst_use(even)) / 100
    # the scheme that would hold, beside the size that was given
    free = make_plan(moved(WEAK, boards={"size": None}))
    assert free.scheme is not None
    assert free.scheme.chosen.holds
    assert f"use two {free.scheme.chosen.board}" in finding.remedy.lower()
    assert worst_use(moved(WEAK, boards={"size": None})) in [
        pytest.approx(use, abs=0.01) for use in helps.values()
    ]


def test_a_help_that_does_not_suffice_says_so() -> None:
    remedy = overstressed(make_plan(job(loads=Loads(minimum=5000.0)))).remedy
    for part in remedy.rstrip(".").split("; "):
        use = re.search(r"(\d+)% used", part)
        if use is not None:
            assert ("not enough" in part) == (int(use[1]) > 100)


def test_only_what_helps_is_offered() -> None:
    for force in (250.0, 400.0, 5000.0):
        given = job(loads=Loads(minimum=force))
        for use in offered(overstressed(make_plan(given))).values():
            assert use < worst_use(given)


def test_where_nothing_suffices_an_engineer_is_asked_for() -> None:
    plan = make_plan(job(loads=Loads(minimum=5000.0)))
    remedy = overstressed(plan).remedy
    assert remedy.lower().rstrip(".").endswith("have an engineer design the restraint")
    assert plan.scheme is not None
    assert plan.scheme.would_hold is None
    assert plan.scheme.reason is Reason.STRONGEST
    assert "engineer" not in overstressed(make_plan(WEAK)).remedy


def test_any_stocked_screw_is_offered_to_a_crew_that_carries_others() -> None:
    assert not any("stocked" in words for words in offered(overstressed(make_plan(WEAK))))
    few = make_plan(job(boards=Boards(), loads=Loads(minimum=700.0), screws=ONE_SIZE))
    assert any("stocked" in words for words in offered(overstressed(few)))


def test_contact_at_one_end_asks_for_the_shim_and_never_blames_the_practice() -> None:
    far = job(
        wall=Wall(layers=(GYPSUM,), stud_spots=(10.0, 23.0)),
        loads=Loads(minimum=80.0),
        screws=ONE_SIZE,
        built=Built(underside=81.5, boards=(1.5, 1.5)),
    )
    both = make_plan(far)
    assert "overstressed" not in {finding.code for finding in both.findings}
    found = overstressed(make_plan(moved(far, rules={"contact": Contact.ONE_END})))
    assert "contact at one end only: the shim at the other end matters" in found.text
    shimmed = "shim until paper just drags at both ends"
    assert offered(found)[shimmed] == math.ceil(100 * worst_use(far)) / 100


def test_a_takeoff_does_not_spend_time_on_helps_but_finds_the_same() -> None:
    verdict, _, findings = make_materials(WEAK)
    assert verdict is Verdict.FAILS
    finding = next(one for one in findings if one.code == "overstressed")
    assert finding.text == overstressed(make_plan(WEAK)).text
    assert offered(finding) == {}
