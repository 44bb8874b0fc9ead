"""A spec sheet in a file of its own: read once for a building, refused in one line."""

from __future__ import annotations

from pathlib import Path

import pytest

from bracecalc.errors import JobError
from bracecalc.jobfile.read import parse_job

JOB = """\
title = "Quillet Yard, invented for a test"
unit = "sheet.toml"

[niche]
width = '33 1/4 in'
depth = '24 3/4 in'

[wall]
layers = [{ material = "gypsum board", thickness = '1/2 in' }]
stud_spots = ['6 in', '22 in']
"""
SHEET = """\
[unit]
height = '80 5/8 in'
width = '32 3/4 in'
depth = '23 1/8 in'
leg_travel = '1 3/8 in'

[loads]
minimum = '80 lb'
"""


def read(folder: Path, text: str = JOB) -> object:
    return parse_job(text, where="niche.toml", folder=folder)


def test_the_sheet_fills_the_table_of_the_appliance(tmp_path: Path) -> None:
    (tmp_path / "sheet.toml").write_text(SHEET, encoding="utf-8")
    job = parse_job(JOB, where="niche.toml", folder=tmp_path)
    assert (job.unit.height, job.loads.minimum) == (80.625, 80.0)


def test_what_the_job_says_itself_goes_first(tmp_path: Path) -> None:
    (tmp_path / "sheet.toml").write_text(SHEET, encoding="utf-8")
    text = f"{JOB}[loads]\nminimum = '120 lb'\n"
    job = parse_job(text, where="niche.toml", folder=tmp_path)
    assert job.loads.minimum == 120.0


@pytest.mark.parametrize(
    ("sheet", "told"),
    [
        (None, "No such file or directory"),
        ("[unit", "expected a TOML file with a [unit] table"),
        ("units = 'mm'\n[unit]\n", "in other units"),
        (f"{SHEET}[niche]\nwidth = '30 in'\n", "niche.width; expected [unit] and [loads] alone"),
        ("[unit]\nheight = '80 in'\n", "unit.width"),
    ],
)
def test_a_sheet_that_can_not_be_read_is_one_clear_line(
    tmp_path: Path, sheet: str | None, told: str
) -> None:
    if sheet is not None:
        (tmp_path / "sheet.toml").write_text(sheet, encoding="utf-8")
    with pytest.raises(JobError) as caught:
        read(tmp_path)
    assert told in str(caught.value)
