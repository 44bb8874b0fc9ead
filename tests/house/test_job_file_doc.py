"""docs/job-file.md is what the keys beside the records say."""

from __future__ import annotations

from dataclasses import MISSING, fields

import pytest
from house.make_job_file_page import HEAD, PAGE, job_file_page

from bracecalc.jobfile.read import parse_job
from bracecalc.jobfile.readers import compiled
from bracecalc.records.job import Built, Floor, Job, Wall, job_groups
from bracecalc.records.keys import Group, find_key

GROUPS = job_groups()
# Filled by the reader itself, or by tables of their own.
OTHERWISE = {
    Job: {"niche", "wall", "unit", "floor", "boards", "screws", "rules", "loads", "surroundings"}
    | {"built", "tables", "as_found", "where"},
    Wall: {"layers", "stud", "stud_layout"},
    Floor: {"line"},
    Built: {
        "screws",
        "holes",
        "rises",
        "unlocated",
        "start",
        "length",
        "stuck",
        "trim",
    },  # by the check on site
}
NESTED = {"soffit_layers", "doors", "carried", "published", "doorways", "earthquake"} | {
    "load_duration",
    "down_from_line",
}


def test_the_page_is_current() -> None:
    made = job_file_page()
    assert PAGE.read_text(encoding="utf-8") == made, "tests/house/make_job_file_page.py renews it"


@pytest.mark.parametrize("group", GROUPS, ids=lambda group: f"{group.path}/{group.slot}")
def test_every_field_of_a_record_has_a_key_and_every_key_a_field(group: Group) -> None:
    if group.record is None:
        return
    named = {field.name for field in fields(group.record)}
    keys = {key.field for key in group.keys}
    assert keys - named <= {"leg_travel"}
    assert named - keys <= OTHERWISE.get(group.record, set()) | NESTED


def test_no_path_is_listed_twice() -> None:
    paths = [f"{group.slot}:{group.path_of(key)}" for group in GROUPS for key in group.keys]
    assert len(paths) == len(set(paths))
    assert len(compiled().single) == sum(len(g.keys) for g in GROUPS if not g.many)


def test_a_default_is_the_record_s_own() -> None:
    assert find_key(GROUPS, "rules.overlap")[1].default == 2.0
    assert find_key(GROUPS, "built.underside")[1].default is MISSING
    assert Built(underside=1.0).boards == find_key(GROUPS, "built.boards")[1].default


def test_every_default_is_inside_its_own_limits() -> None:
    for group in GROUPS:
        for key in group.keys:
            value = key.default
            if not isinstance(value, float | int) or isinstance(value, bool):
                continue
            assert key.within.holds(value), group.path_of(key)
            assert key.within.is_usual(value), group.path_of(key)


def test_the_example_on_the_page_is_a_job() -> None:
    block = [line[4:] for line in HEAD.splitlines() if line.startswith("    ") or not line]
    text = "\n".join(block)
    job = parse_job(text, where="the page")
    assert job.niche.width == (33.25, 33.375)
    assert job.floor.front_right == 0.25
