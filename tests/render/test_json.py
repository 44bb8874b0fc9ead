"""The JSON of a plan: the keys that docs/json.md and other programs rely on."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from jobs import GYPSUM, job, moved, unit

from bracecalc.jobfile.read import read_job
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Earthquake, Job, Loads
from bracecalc.records.plan import Plan

ROOT = Path(__file__).parents[2]
DEMOS = sorted((ROOT / "data" / "demo").glob("*.toml"))
SOFFIT = {"soffit": (81.5,), "soffit_solid": True, "soffit_layers": (GYPSUM,)}
KINDS: dict[str, Job] = {
    "stack": job(),
    "soffit": moved(job(), niche=SOFFIT),
    "packers": moved(job(), niche={**SOFFIT, "soffit": (83.5,)}),
    "none": moved(job(), niche={**SOFFIT, "soffit": (80.0,)}),
}
TOP = {
    "schema", "title", "verdict", "reach_band", "restraint", "legs", "stack", "packers", "studs",
    "screws", "strength", "demand", "scheme", "open", "findings", "materials", "checks",
}  # fmt: skip
LEG = {"extension", "turns", "margin", "worst_case_margin", "rss_margin"}
SCREW = {
    "board", "size", "kind", "length", "counterbore", "embedment", "per_stud", "count",
    "tip_to_far_side", "washer", "holes", "positions",
}  # fmt: skip
STRENGTH = {"method", "gap", "mode", "lateral", "withdrawal", "pull_through", "factors"}
CASE = {
    "name", "force", "C_D", "capacity", "utilisation", "moments", "limited_by", "contact",
    "assumed",
}  # fmt: skip


def shown(given: Job) -> dict[str, Any]:
    read: dict[str, Any] = json.loads(json.dumps(make_plan(given).to_dict(), allow_nan=False))
    return read


def test_the_top_keys_in_their_order() -> None:
    found = make_plan(job()).to_dict()
    assert set(found) == TOP
    assert list(found)[:3] == ["schema", "title", "verdict"]
    assert found["schema"] == "bracecalc plan 1"


@pytest.mark.parametrize("kind", KINDS)
def test_the_restraint_and_what_is_null_with_it(kind: str) -> None:
    found = shown(KINDS[kind])
    assert found["restraint"]["kind"] == kind
    assert set(found["restraint"]) == {
        "kind",
        "target_height",
        "from_line",
        "over_spot",
        "alternatives",
    }
    for one in found["restraint"]["alternatives"]:
        assert set(one) == {"kind", "why_not"}
        assert one["why_not"]
    assert (found["stack"] is None) == (kind != "stack")
    assert (found["studs"] is None) == (kind != "stack")
    assert (found["packers"] is None) == (kind != "packers")
    assert (found["legs"] is None) == (kind == "none")
    assert (found["restraint"]["target_height"] is None) == (kind == "none")
    assert (found["strength"] is None) == (kind != "stack")


def test_every_part_has_its_keys() -> None:
    found = shown(job())
    assert set(found["reach_band"]) == {"low", "high"}
    assert set(found["legs"]) == {"front_left", "front_right", "rear_left", "rear_right"}
    assert all(set(leg) == LEG for leg in found["legs"].values())
    assert set(found["stack"]) == {"boards", "board", "length", "rear_gap", "overlap"}
    assert set(found["studs"]) == {"spots", "used", "sure", "best_case"}
    for row in found["screws"]:
        assert set(row) == SCREW
        assert all(set(hole) == {"member", "bit", "purpose"} for hole in row["holes"])
        assert all(len(place) == 2 for place in row["positions"])
    assert set(found["strength"]) == STRENGTH
    assert set(found["demand"]) == {"checked", "governs", "cases"}
    assert all(set(case) == CASE for case in found["demand"]["cases"])
    assert set(found["materials"]) == {"boards", "screws", "washers"}
    for need in (*found["materials"]["boards"], *found["materials"]["screws"]):
        assert set(need) == {"item", "size", "length", "count", "species", "called"}
    for finding in found["findings"]:
        assert set(finding) == {"code", "severity", "text", "remedy"}
        assert finding["severity"] in {"fails", "warns", "notes"}
    packers = shown(KINDS["packers"])["packers"]
    assert set(packers) == {"pieces", "total", "length", "depth", "from_wall"}
    assert packers["total"] == pytest.approx(sum(packers["pieces"]))


def keys_in(value: object) -> set[str]:
    if isinstance(value, dict):
        return set(value) | {key for one in value.values() for key in keys_in(one)}
    if isinstance(value, list):
        return {key for one in value for key in keys_in(one)}
    return set()


FREE = {"moments", "factors"}  # their keys are names of loads and of factors


def test_docs_name_every_key() -> None:
    page = (ROOT / "docs" / "json.md").read_text(encoding="utf-8")
    words = set(re.findall(r"[A-Za-z_]+", page))
    for given in KINDS.values():
        found = shown(given)
        for case in found["demand"]["cases"]:
            case["moments"] = {}
        if found["strength"] is not None:
            found["strength"]["factors"] = {}
        assert keys_in(found) <= words
    assert {"bracecalc", "plan", "holds", "fails", "warns", "notes"} <= words


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_every_demo_is_valid_json_without_nan(path: Path) -> None:
    plan: Plan = make_plan(read_job(path))
    text = json.dumps(plan.to_dict(), allow_nan=False)
    assert json.loads(text)["verdict"] == plan.verdict.value


def test_an_empty_band_has_its_high_end_below_its_low() -> None:
    band = shown(moved(job(), floor={"rear_right": 1.5}))["reach_band"]
    assert band["high"] < band["low"]


def test_without_a_pitch_turns_are_null() -> None:
    legs = shown(job(unit=unit(leg_pitch=None)))["legs"]
    assert {leg["turns"] for leg in legs.values()} == {None}


def test_margins_go_by_their_names() -> None:
    plan = make_plan(job())
    legs = plan.to_dict()["legs"]
    assert plan.legs is not None
    for corner, leg in plan.legs.items():
        told = legs[corner]
        assert told["extension"] == leg.extension
        assert told["margin"] == leg.margin.nominal
        assert told["worst_case_margin"] == leg.margin.worst_case
        assert told["rss_margin"] == leg.margin.rss
        # all uncertainties against it, or their root sum of squares
        assert told["worst_case_margin"] < told["rss_margin"] < told["margin"]


def test_figures_are_unrounded() -> None:
    found = shown(moved(job(), niche={"depth": (23.7512345,)}))
    assert found["stack"]["rear_gap"] == 23.7512345 - 23.125


def test_cases_come_with_capacity_and_name_the_governing() -> None:
    shaken = Loads(earthquake=Earthquake(s_ds=0.5), horizontal_stop=True)
    demand = shown(job(loads=shaken))["demand"]
    names = [case["name"] for case in demand["cases"]]
    assert names == ["minimum", "service", "climb", "pull", "earthquake"]
    assert demand["governs"] in names
    assert demand["checked"] is True
    hung = shown(KINDS["soffit"])["demand"]
    assert {case["capacity"] for case in hung["cases"]} == {None}


def test_unicode_stays_readable_text() -> None:
    assert shown(job(title="84\u00bc\u2033 \u05e9"))["title"] == "84\u00bc\u2033 \u05e9"
