"""What a notebook shows of a plan, and a study over changed jobs."""

from __future__ import annotations

import datetime
from pathlib import Path
from xml.etree import ElementTree

import pytest
from bracecalc.data import demo_path

from bracecalc import Job, Plan, check_site, draw_sheet, make_plan, read_job, takeoff
from bracecalc.errors import JobError, OutputError


@pytest.fixture
def job() -> Job:
    return read_job(demo_path("3b-kitchen.toml"))


@pytest.fixture
def plan(job: Job) -> Plan:
    return make_plan(job)


def test_a_plan_is_one_short_line(plan: Plan) -> None:
    shown = repr(plan)
    assert "\n" not in shown
    assert len(shown) < 120
    assert plan.job.title in shown
    assert plan.verdict.value in shown


def test_a_notebook_shows_words_and_elevation(plan: Plan) -> None:
    html, svg = plan._repr_html_(), plan._repr_svg_()
    assert html is not None
    assert svg is not None
    assert svg in html
    assert ElementTree.fromstring(svg).tag.endswith("svg")


def test_a_title_stays_text_in_the_notebook(job: Job) -> None:
    html = make_plan(job.with_("title", "<script>x</script>"))._repr_html_()
    assert html is not None
    assert "<script>" not in html


def test_rows_name_the_same_columns_and_every_screw(plan: Plan) -> None:
    rows = plan.rows()
    assert len({tuple(row) for row in rows}) == 1
    screws = [row for row in rows if row["what"] == "screw"]
    assert len(screws) == sum(len(row.positions) for row in plan.screws)
    bought = sum(row["count"] for row in rows if row["what"] == "buy")
    assert bought == sum(n.count for n in (*plan.materials.boards, *plan.materials.screws))


def test_a_study_of_the_finish_is_a_few_lines(job: Job) -> None:
    studied = (0.25, 0.5, 0.75)
    plans = [make_plan(job.with_("wall.layers.1.thickness", finish)) for finish in studied]
    assert tuple(plan.strength.gap for plan in plans if plan.strength) == studied


def test_the_job_that_is_changed_stays_as_it_was(job: Job) -> None:
    changed = job.with_("niche.width", ["34 in", 34.125])
    assert changed.niche.width == (34.0, 34.125)
    assert job == read_job(demo_path("3b-kitchen.toml"))
    assert changed.with_("niche.width", list(job.niche.width)) == job


def test_a_key_is_taken_out_and_an_item_added(job: Job) -> None:
    assert job.with_("unit.restraint_height", None).unit.restraint_height is None
    doors = len(job.unit.doors or ())
    more = job.with_("unit.doors", [])
    assert (doors, more.unit.doors) == (1, ())


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("niche.widht", 33.0, "niche.width"),
        ("niche.width", -1.0, "niche.width"),
        ("wall.layers.9.thickness", 0.5, "wall.layers.1 to wall.layers.2"),
    ],
)
def test_a_change_that_cannot_be_is_refused(job: Job, path: str, value: float, said: str) -> None:
    with pytest.raises(JobError, match=said):
        job.with_(path, value)


def test_readings_go_in_by_their_keys(job: Job) -> None:
    check = check_site(job, {"board": ["81 5/8 in", "81 5/8 in"]})
    assert check.as_found.built
    with pytest.raises(JobError, match="bord"):
        check_site(job, {"bord": ["81 5/8 in", "81 5/8 in"]})


def test_an_order_of_jobs_and_of_files_is_the_same(job: Job) -> None:
    path = demo_path("3b-kitchen.toml")
    assert takeoff([job]).tally.screws == takeoff([path]).tally.screws


def test_a_sheet_is_written_once(plan: Plan, tmp_path: Path) -> None:
    day = datetime.date(2026, 3, 2)
    out = draw_sheet(plan, tmp_path / "niche.svg", date=day)
    assert ElementTree.parse(out).getroot().tag.endswith("svg")
    with pytest.raises(OutputError, match="force"):
        draw_sheet(plan, out, date=day)
    with pytest.raises(ValueError, match=r"\.svg"):
        draw_sheet(plan, tmp_path / "niche.docx")
