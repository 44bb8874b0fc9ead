"""What must hold of niches with every odd key in use: readings, built, methods, makers' screws."""

from __future__ import annotations

import json
from dataclasses import replace

import click
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs import jobs, sixteenths

from bracecalc.planning.plan import make_plan
from bracecalc.records.job import (
    Built,
    Earthquake,
    Job,
    Loads,
    Method,
    PublishedScrew,
    Screws,
    StudMaterial,
    Units,
)
from bracecalc.records.plan import RestraintKind, Severity, Verdict
from bracecalc.records.reference import ScrewKind
from bracecalc.render.text import plan_text

MAKER = PublishedScrew(
    size="invented", diameter=0.22, head_diameter=0.6, length=6.0, thread_length=3.0,
    least_embedment=1.5, lateral=250.0, withdrawal=180.0, pull_through=500.0, largest_gap=0.6,
    source="invented for a test",
)  # fmt: skip
SCREWS = (
    Screws(),
    Screws(counterbore=0.5),
    Screws(washer=0.125),
    Screws(published=(MAKER, replace(MAKER, size="invented, short", length=4.0))),
)
EARTHQUAKES = (None, Earthquake(s_ds=0.8))
WHERE = (StudMaterial.WOOD, StudMaterial.WOOD, StudMaterial.STEEL, StudMaterial.UNKNOWN)


@st.composite
def built(draw: st.DrawFn, height: float) -> Built | None:
    """What may stand already, or nothing."""
    under = height + draw(sixteenths(0, 2))
    kinds = (None, None, ((), ()), ((1.5, 0.75), ()), ((), (1.5,)))
    kind = draw(st.sampled_from(kinds))
    return None if kind is None else Built(underside=under, boards=kind[0], packers=kind[1])


@st.composite
def odd_jobs(draw: st.DrawFn) -> Job:
    """Any niche, with keys that few use."""
    job = draw(jobs())
    deeper = job.niche.depth[0] + draw(sixteenths(-1, 1))
    soffit = job.niche.soffit
    if soffit:
        soffit = (soffit[0], soffit[0] + draw(sixteenths(0, 1)))
    over = job.unit.height + draw(sixteenths(0, 2))
    return replace(
        job,
        niche=replace(
            job.niche, depth=(job.niche.depth[0], deeper), soffit=soffit,
            soffit_depth=draw(st.none() | sixteenths(0.5, 20)),
        ),
        wall=replace(
            job.wall, stud=replace(job.wall.stud, material=draw(st.sampled_from(WHERE))),
            corner_studs=draw(st.booleans()), finish_to_come=draw(st.sampled_from((0.0, 0.5))),
        ),
        unit=replace(
            job.unit, height_overall=draw(st.none() | st.just(over)),
            restraint_height=draw(st.none() | st.just(over)),
            front_legs_behind_front=draw(st.sampled_from((2.75, 18.0, None))),
            cg_behind_front_legs=draw(st.sampled_from((9.5, -2.0, None))),
        ),
        screws=draw(st.sampled_from(SCREWS)),
        loads=Loads(
            minimum=draw(st.sampled_from((20.0, 100.0))), method=draw(st.sampled_from(Method)),
            earthquake=draw(st.sampled_from(EARTHQUAKES)), wet_service=draw(st.booleans()),
        ),
        rules=replace(
            job.rules, even_contact=draw(st.booleans()), shared_contact=draw(st.booleans())
        ),
        built=draw(built(job.unit.height)),
        units=draw(st.sampled_from(Units)),
    )  # fmt: skip


@settings(max_examples=80, deadline=None)
@given(odd_jobs())
def test_a_plan_that_holds_holds_every_case_by_screws_that_bite(job: Job) -> None:
    plan = make_plan(job)
    failing = [one for one in plan.findings if one.severity is Severity.FAILS]
    assert (plan.verdict is Verdict.FAILS) >= bool(failing)
    if plan.restraint.kind is RestraintKind.NONE:
        assert failing
    if plan.verdict is Verdict.FAILS or plan.restraint.kind is not RestraintKind.STACK:
        return
    assert plan.screws
    assert plan.restraint.target_height is not None
    assert plan.reach_band.low - 1e-9 <= plan.restraint.target_height <= plan.reach_band.high + 1e-9
    for case in plan.demand.cases:
        assert case.capacity is not None
        assert case.force <= case.capacity * (1.0 + 1e-9)


@settings(max_examples=80, deadline=None)
@given(odd_jobs())
def test_no_wood_screw_goes_into_a_wall_without_wood(job: Job) -> None:
    plan = make_plan(job)
    if (
        job.wall.stud.material is StudMaterial.WOOD
        or plan.restraint.kind is not RestraintKind.STACK
    ):
        return
    assert {row.kind for row in plan.screws} <= {ScrewKind.PUBLISHED}
    if not job.screws.published:
        assert plan.strength is None
        assert plan.verdict is Verdict.FAILS


@settings(max_examples=60, deadline=None)
@given(odd_jobs())
def test_any_plan_can_be_shown_with_its_work(job: Job) -> None:
    plan = make_plan(job, show_work=True)
    json.dumps(plan.to_dict(), allow_nan=False)
    for full in (False, True):
        shown = click.unstyle(plan_text(plan, full=full)).splitlines()
        assert max(map(len, shown)) <= 80
