"""What was typed on the page, laid over the job file's text; and the bridge's answers."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from bracecalc.check.check import check_site
from bracecalc.errors import JobError
from bracecalc.jobfile.as_found import read_as_found
from bracecalc.jobfile.read import parse_job
from bracecalc.page.bridge import call
from bracecalc.page.entries import Asked, put
from bracecalc.page.writing import job_text
from bracecalc.planning.plan import make_plan
from bracecalc.render.sections import SectionCode

DEMO = (Path(__file__).parents[2] / "data/demo/3b-kitchen.toml").read_text()


def answer(method: str, text: str, entries: dict[str, Any]) -> Any:
    request = {"method": method, "params": {"text": text, "entries": entries}}
    return json.loads(call(json.dumps(request)))


@pytest.mark.parametrize(
    "path",
    ["", "wall.layers.x.material", "unit.doors.999999999.reach", "unit.doors.0.reach", "niche."],
)
def test_a_path_that_no_job_has_is_refused(path: str) -> None:
    with pytest.raises(JobError, match="a key of a job file"):
        put(tomllib.loads(DEMO), path, "1 in")


@pytest.mark.parametrize("entries", [{"niche.width": {"a": 1}}, {"a..b": "c"}, {"title.x": [[1]]}])
def test_what_no_page_types_is_a_refusal_and_no_crash(entries: dict[str, Any]) -> None:
    told = answer("look", DEMO, entries)
    assert "error" in told or told["result"]["problems"]


def test_a_found_height_keeps_the_other_three_that_the_file_has_in_one_text() -> None:
    text = f'{DEMO}\n[as_found]\nfloor = "0, 1/8 in, 1/16 in, 1/4 in"\n'
    merged = Asked(text, {"as_found.floor.rear_right": "3/8 in"}).merged()
    assert merged["as_found"]["floor"] == {
        "front_left": "0",
        "front_right": "1/8 in",
        "rear_left": "1/16 in",
        "rear_right": "3/8 in",
    }


def test_floors_read_the_other_way_take_the_place_of_the_file_s() -> None:
    corners = ("front_left", "front_right", "rear_left", "rear_right")
    typed = {f"floor.down_from_line.{corner}": "40 in" for corner in corners}
    merged = Asked(DEMO, {"~floor": "down", "floor.front_left": "1 in", **typed}).merged()
    assert merged["floor"] == {"down_from_line": dict.fromkeys(corners, "40 in")}
    assert Asked(DEMO, {"~floor": "up", **typed}).merged() == Asked(DEMO, {}).merged()


def test_a_wall_without_a_finish() -> None:
    merged = Asked(DEMO, {"wall.layers.1.material": "~bare"}).merged()
    assert merged["wall"]["layers"] == []


def test_the_check_is_that_of_the_engine() -> None:
    entries = {"as_found.floor.rear_right": "7/8 in", "as_found.studs": ["6 in", "22 in"]}
    job = parse_job(job_text(Asked(DEMO, entries)), where="")
    check = check_site(job, read_as_found(job.as_found, job))
    wanted = json.loads(json.dumps(check.to_dict()))
    assert answer("check data", DEMO, entries)["result"] == wanted
    shown = answer("check", DEMO, entries)["result"]
    assert shown["verdict"].lower() == check.verdict.value
    assert shown["sections"][0]["code"] == SectionCode.TODO
    told = " ".join(item for _, item in shown["sections"][0]["blocks"][0]["items"])
    assert all(remedy.text in told for remedy in check.todo)


def test_the_quick_answer_has_the_verdict_of_the_whole_one() -> None:
    for value in ("1/4 in", "7/8 in"):
        entries = {"as_found.floor.rear_right": value}
        quick, whole = (answer(name, DEMO, entries)["result"] for name in ("look", "check"))
        assert quick["verdict"] == whole["verdict"]


def test_a_job_written_from_nothing_reads_back() -> None:
    entries = {
        "title": "Quillet Yard 7Z",
        "niche.width": ["33 1/4 in", "33 5/16 in"],
        "niche.depth": "24 in",
        "wall.layers.1.material": "gypsum board",
        "wall.layers.1.thickness": "1/2 in",
        "wall.stud_spots": ["6 3/8 in", "22 1/4 in"],
        "unit.height": "80 5/8 in",
        "unit.width": "32 3/4 in",
        "unit.depth": "23 1/8 in",
        "unit.leg_travel": "1 3/8 in",
        "as_found.legs.front_left": "1/4 in",
    }
    text = job_text(Asked("", entries))
    job = parse_job(text, where="made")
    assert job.niche.width == (33.25, 33.3125)
    assert job.title == "Quillet Yard 7Z"
    assert answer("plan data", "", entries)["result"] == json.loads(
        json.dumps(make_plan(job, alternatives=True).to_dict())
    )


def test_what_was_not_changed_keeps_its_comments_and_layout() -> None:
    text = job_text(Asked(DEMO, {"niche.soffit": "92 in", "as_found.studs": ["6 in"]}))
    changed = [line for line in DEMO.splitlines() if line not in text.splitlines()]
    assert [line.split("=")[0].strip() for line in changed] == ["soffit"]
    assert job_text(Asked(DEMO, {})) == DEMO


def test_a_missing_value_says_what_is_needed_beside_its_field() -> None:
    told = answer("check", "", {"niche.width": "33 ib"})["error"]["mistakes"]
    by_key = {one["key"]: one for one in told}
    assert by_key["niche.width"]["told"].startswith("Read '33 ib'; expected a length")
    assert by_key["unit.height"]["told"].startswith("Needed: ")
    assert by_key["unit.height"]["text"].startswith("unit.height: read nothing")
