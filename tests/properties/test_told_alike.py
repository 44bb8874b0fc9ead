"""The same job told in several ways comes to the same: takeoff, shown work, JSON, rows."""

from __future__ import annotations

import csv
import io
import json
import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from jobs import jobs

from bracecalc.planning.plan import make_materials, make_plan
from bracecalc.records.job import Job
from bracecalc.records.plan import CaseName
from bracecalc.render.markdown import plan_markdown
from bracecalc.render.rows import plan_rows

FEW = settings(max_examples=60, deadline=None)


@FEW
@given(job=jobs())
def test_a_takeoff_needs_what_the_plan_needs(job: Job) -> None:
    plan = make_plan(job)
    _, materials, findings = make_materials(job)
    assert materials == plan.materials
    codes = {finding.code for finding in plan.findings}
    assert {finding.code for finding in findings} <= codes


@FEW
@given(job=jobs())
def test_shown_forces_and_uses_are_the_plans(job: Job) -> None:
    plan = make_plan(job, show_work=True)
    cases = {case.name: case for case in plan.demand.cases}
    for step in plan.steps:
        assert math.isfinite(step.result)
        if step.meaning.startswith("restraint force at the"):
            assert step.result == cases[CaseName(step.part.removeprefix("Demand: "))].force
    uses = [step.result for step in plan.steps if step.meaning.startswith("use of ")]
    if uses:
        assert plan.demand.governs is not None
        governing = cases[plan.demand.governs]
        assert governing.utilisation is not None
        # another part of the stack may be used more
        assert max(uses) <= governing.utilisation + 1e-9
        if governing.limited_by == "the screws of the outermost board":
            assert max(uses) == pytest.approx(governing.utilisation)


@FEW
@given(job=jobs())
def test_the_governing_case_is_the_most_used(job: Job) -> None:
    demand = make_plan(job).demand
    assert demand.governs in {case.name for case in demand.cases}
    uses = {case.name: case.utilisation for case in demand.cases if case.utilisation is not None}
    if uses:
        assert demand.governs is not None
        assert uses[demand.governs] == max(uses.values())
    assert demand.cases[0].name == "minimum"


@FEW
@given(job=jobs())
def test_rows_and_json_count_the_same_screws(job: Job) -> None:
    plan = make_plan(job)
    shown = json.loads(json.dumps(plan.to_dict(), allow_nan=False))
    rows = list(csv.DictReader(io.StringIO(plan_rows([plan]))))
    placed = sum(len(row["positions"]) for row in shown["screws"])
    assert sum(row["what"] == "screw" for row in rows) == placed
    bought = sum(need["count"] for need in shown["materials"]["screws"])
    assert bought == sum(row["count"] for row in shown["screws"])


@FEW
@given(job=jobs())
def test_markdown_of_any_job_keeps_its_tables_whole(job: Job) -> None:
    lines = plan_markdown(make_plan(job)).split("\n")
    for before, line in pairwise(lines):
        if before.startswith("|") and line.startswith("|"):
            assert before.replace("\\|", "").count("|") == line.replace("\\|", "").count("|")
