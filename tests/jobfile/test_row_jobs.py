"""Rows whose parts are remembered make the jobs, and the mistakes, that a whole reading makes."""

from __future__ import annotations

import random

import pytest

from bracecalc.errors import JobError
from bracecalc.jobfile.build import build_job
from bracecalc.jobfile.checks import ALONE, CROSS_CHECKS, TOGETHER
from bracecalc.jobfile.row_jobs import RowJobs
from bracecalc.records.job import Job

CHOICES: dict[str, list[object]] = {
    "title": ["3B", "=T1", " 4C "],
    "units": ["inch", "mm", "Inch", "yards"],
    "niche.width": ["33 1/4 in", "33.25 in", 33.25, 845, "845 mm", "33 ib", "33 1/4; 33 5/16"],
    "niche.depth": ["24 in", "610 mm", "24 3/4 in", "-1 in"],
    "niche.soffit": ["92 1/2 in", "2350 mm"],
    "niche.soffit_solid": ["true", "no", "perhaps"],
    "floor.front_left": ["0 in", "1/8 in"],
    "floor.front_right": ["1/8 in", "90 in"],
    "floor.down_from_line.front_left": ["44 in"],
    "wall.layers": ["gypsum board 1/2 in", "gypsum board 1/2 in; plywood 3/4 in", "mud 1 in"],
    "wall.stud_spots": ["6 3/8 in; 22 1/4 in", "7 in"],
    "wall.stud_layout.spacing": ["16 in", "400 mm"],
    "wall.stud.species": ["SPF", "Hem-Fir", "oak"],
    "unit.height": ["80 5/8 in", "2048 mm"],
    "unit.height_overall": ["80 7/8 in", "79 in"],
    "unit.width": ["32 3/4 in", "45 in", "832 mm"],
    "unit.depth": ["23 1/8 in", "587 mm"],
    "unit.leg_travel": ["1 3/8 in", "35 mm"],
    "unit.leg_travel_front": ["1 in"],
    "unit.weight": ["540 lb", "245 kg", "heavy"],
    "unit.doors.1.own_weight": ["36 lb"],
    "boards.size": ["2x6", "2x8", "2x7"],
    "boards.end_gap": ["1/8 in", "20 in"],
    "loads.S_DS": ["0.6"],
    "loads.edition": ["7-22"],
    "nich.width": ["33 in"],
}
USUAL = (
    "title", "niche.width", "niche.depth", "wall.layers", "wall.stud_spots", "unit.height",
    "unit.width", "unit.depth", "unit.leg_travel",
)  # fmt: skip


def any_row(draw: random.Random) -> dict[str, object]:
    row: dict[str, object] = {}
    for key, values in CHOICES.items():
        usual = key in USUAL
        if draw.random() < (0.98 if usual else 0.12):
            # the first of each makes a job together; the others often don't
            row[key] = values[0] if draw.random() < 0.7 else draw.choice(values)
    return row


def whole(row: dict[str, object], where: str) -> Job | str:
    try:
        return build_job(row, where=where)
    except JobError as error:
        return str(error)


def by_parts(jobs: RowJobs, row: dict[str, object], where: str) -> Job | str:
    try:
        return jobs.job(row, where=where)
    except JobError as error:
        return str(error)


def test_ten_thousand_rows_make_the_same_jobs_and_the_same_mistakes() -> None:
    draw = random.Random(14)
    jobs = RowJobs()
    made = wrong = 0
    for number in range(10_000):
        row, where = any_row(draw), f"n.csv row {number}"
        expected = whole(row, where)
        assert by_parts(jobs, row, where) == expected
        made, wrong = made + isinstance(expected, Job), wrong + isinstance(expected, str)
    assert made > 1_000
    assert wrong > 1_000


def test_a_row_without_a_title_or_with_a_cell_of_its_own_kind_is_read_whole() -> None:
    row = {key: CHOICES[key][0] for key in USUAL}
    jobs = RowJobs()
    untitled = {key: value for key, value in row.items() if key != "title"}
    assert jobs.job(untitled, where="n.csv row 2").title == "n"
    listed = {**row, "niche.width": ["33 1/4 in", "33 5/16 in"]}
    assert jobs.job(listed, where="n.csv row 2").niche.width == (33.25, 33.3125)
    with pytest.raises(JobError, match="row 9: unit"):
        jobs.job({"title": "x", "niche.width": "33 in"}, where="n.csv row 9")


def test_every_check_concerns_one_part_or_compares_parts() -> None:
    alone = [check for checks in ALONE.values() for check in checks]
    assert sorted(map(repr, [*alone, *TOGETHER])) == sorted(map(repr, CROSS_CHECKS))
