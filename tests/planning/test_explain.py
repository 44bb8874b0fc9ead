"""The shown work: each step's result is a number of the plan, and every step says its source."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest
from jobs import DOOR, GYPSUM, job, moved, unit

from bracecalc.jobfile.read import read_job
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Built, Earthquake, Job, Loads, Method, Niche, Rules, Stud
from bracecalc.records.plan import CaseName, Plan, Step
from bracecalc.records.scheme import Part

DEMO = Path(__file__).parents[2] / "data" / "demo"
TIPS = unit(weight=150.0, doors=(DOOR, replace(DOOR, contents=60.0, reach=16.0)))
JOBS = {
    "minimum governs": job(),
    "climb governs": job(unit=TIPS),
    "earthquake": job(
        unit=TIPS, loads=Loads(earthquake=Earthquake(s_ds=1.2), horizontal_stop=True)
    ),
    "eurocode": moved(
        job(unit=TIPS, loads=Loads(method=Method.EC5)), wall={"stud": Stud(width=3.0)}
    ),
    "main demo": read_job(DEMO / "3b-kitchen.toml"),
}


@pytest.fixture(scope="module", params=JOBS, ids=list(JOBS))
def plan(request: pytest.FixtureRequest) -> Plan:
    return make_plan(JOBS[request.param], show_work=True)


def results(plan: Plan, meaning: str) -> list[float]:
    found = [step.result for step in plan.steps if meaning in step.meaning]
    assert found, meaning
    return found


def step_of(plan: Plan, meaning: str) -> Step:
    return next(step for step in plan.steps if meaning in step.meaning)


def test_every_load_case_that_is_worked_out_is_shown_with_its_force(plan: Plan) -> None:
    shown = {
        step.part.removeprefix("Demand: "): step.result
        for step in plan.steps
        if step.meaning.startswith("restraint force at the outer edge of the boards")
    }
    forces = {case.name: case.force for case in plan.demand.cases if case.name != "minimum"}
    assert forces
    assert shown == forces


def test_shown_moments_add_up_to_those_of_the_plan(plan: Plan) -> None:
    by_name = {case.name: case for case in plan.demand.cases}
    for step in plan.steps:
        if step.meaning.startswith("restraint force at the outer edge of the boards"):
            moments = by_name[CaseName(step.part.removeprefix("Demand: "))].moments
            tips, holds = step.inputs["overturning"], step.inputs["stabilising"]
            assert isinstance(tips, float)
            assert isinstance(holds, float)
            assert tips - holds == pytest.approx(sum(moments.values()))


def test_the_strength_of_one_screw_is_the_plans(plan: Plan) -> None:
    assert plan.strength is not None
    metric = plan.job.loads.method is Method.EC5
    newton = 4.4482216152605 if metric else 1.0
    through = "washer pressed" if metric else "head pull-through"
    pulled = "withdrawal of the thread" if metric else "withdrawal, thread in the stud"
    across = "characteristic lateral" if metric else "reference lateral value"
    assert results(plan, through) == [pytest.approx(plan.strength.pull_through * newton)]
    assert results(plan, pulled) == [pytest.approx(plan.strength.withdrawal * newton)]
    assert min(results(plan, across)) == pytest.approx(plan.strength.lateral * newton)


def test_the_shown_resistance_gives_the_shown_use_of_the_screws(plan: Plan) -> None:
    governing = next(case for case in plan.demand.cases if case.name == plan.demand.governs)
    assert governing.utilisation is not None
    share = step_of(plan, "moment that turns the stack up").inputs["share"]
    assert isinstance(share, float)
    tension = results(plan, "tension of the lowest row")[0]
    shear = share / plan.screws[-1].per_stud
    if plan.job.loads.method is Method.EC5:
        use = results(plan, "tension and shear together")[-1]
    else:
        resistance = results(plan, "resistance of one screw to tension and shear together")[0]
        together = results(plan, "use of the lowest screw")[0]
        assert together == pytest.approx(math.hypot(tension, shear) / resistance)
        use = max(together, *results(plan, "use of a screw by shear alone or tension alone"))
    assert use <= governing.utilisation * (1.0 + 1e-9)  # another part may be used more
    if governing.limited_by is Part.SCREWS:
        assert use == pytest.approx(governing.utilisation)


def test_the_share_is_of_the_governing_force(plan: Plan) -> None:
    governing = next(case for case in plan.demand.cases if case.name == plan.demand.governs)
    shares = [
        max(map(abs, map(float, str(step.inputs["reactions"]).split(", "))))
        for step in plan.steps
        if "bending of the outermost board" in step.meaning
    ]
    share = step_of(plan, "moment that turns the stack up").inputs["share"]
    assert isinstance(share, float)
    assert share <= governing.force * max(shares) * (1.0 + 1e-4)


def test_every_step_can_be_checked_by_hand(plan: Plan) -> None:
    assert plan.steps
    for step in plan.steps:
        assert step.part
        assert step.meaning
        assert step.inputs
        assert step.equation, step.meaning
        assert step.source, step.meaning
        assert math.isfinite(step.result)
        if step.unit:
            assert step.unit.split("/")[0] in {"in", "lbf", "in-lbf", "psi", "N", "mm", "N mm"}


def test_showing_the_work_changes_no_number(plan: Plan) -> None:
    assert make_plan(plan.job).to_dict() == plan.to_dict()
    assert make_plan(plan.job).steps == ()


@pytest.mark.parametrize(
    "given",
    [
        job(unit=unit(weight=None)),
        moved(job(), niche={"soffit": (81.5,), "soffit_solid": True, "soffit_layers": (GYPSUM,)}),
        moved(job(), wall={"stud_spots": (16.0,)}),
        job(unit=unit(weight=None), loads=Loads(minimum=0.001)),
        job(
            niche=Niche(width=(33.25,), depth=(20.0,)),
            built=Built(underside=81.5, boards=(1.5, 1.5)),
            rules=Rules(even_contact=True),
        ),
    ],
    ids=["no weight", "soffit", "too few studs", "next to no force", "too deep for the niche"],
)
def test_what_is_not_worked_out_is_not_shown(given: Job) -> None:
    plan = make_plan(given, show_work=True)
    parts = {step.part for step in plan.steps}
    assert ("Demand: service" in parts) == plan.demand.checked
    has_strength = plan.strength is not None
    assert any(part.startswith("One screw") for part in parts) == has_strength
