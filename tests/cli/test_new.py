"""``bracecalc new``: a whole interview, answers that are wrong, and stopping."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bracecalc.cli.main import group
from bracecalc.jobfile.read import parse_job, read_job
from bracecalc.records.job import Units

# The least that a job needs, in the order of the questions; "" is Enter.
NICHE = ["Quillet Yard 3B", "33 1/4; 33 3/8", "24 3/4", ""]
FLOOR = [""]
WALL = ["gypsum board 1/2", "6 3/8; 22 3/8"]
UNIT = ["80 5/8", "32 3/4", "23 1/8", "1 3/8"]
MORE = ["", "", "", ""]
LOOK = [""]
LEAST = [*NICHE, *FLOOR, *WALL, *UNIT, *MORE, *LOOK]


def new(answers: list[str], *args: str) -> Result:
    text = "".join(f"{answer}\n" for answer in answers)
    return CliRunner().invoke(group, ["new", *args], input=text)


def test_a_plain_niche_takes_sixteen_answers_at_most() -> None:
    assert len(LEAST) == 16


def test_the_least_interview_writes_a_job(tmp_path: Path) -> None:
    path = tmp_path / "3b.toml"
    result = new(LEAST, str(path))
    assert result.exit_code == 0, result.output
    assert result.output.splitlines()[-1].endswith(f"Wrote {path}. Next: bracecalc plan {path}")
    job = read_job(path)
    assert (job.title, job.niche.width, job.wall.stud_spots) == (
        "Quillet Yard 3B",
        (33.25, 33.375),
        (6.375, 22.375),
    )
    assert job.unit.weight is None
    assert "# Finished opening, side to side; read at bottom, middle and top\n" in path.read_text()
    assert "width = ['33 1/4 in', '33 3/8 in']" in path.read_text()


def test_the_job_can_be_planned(tmp_path: Path) -> None:
    path = tmp_path / "3b.toml"
    new(LEAST, str(path))
    assert CliRunner().invoke(group, ["plan", str(path)]).exit_code in (0, 1)


def test_a_long_interview(tmp_path: Path) -> None:
    path = tmp_path / "3b.toml"
    door = ["y", "36 lb", "22 lb", "14", "1", "31", "n"]
    answers = [
        *["3B", "845 mm", "24 3/4", "92 1/2"],
        "d 41 3/4; 41 1/2; 41 3/4; 41 1/2",
        *["1/2 in gypsum board; plywood 3/4", "every 16 from 6"],
        *["80 5/8", "32 3/4", "23 1/8", "1 3/8"],
        *["y", "y", "", "gypsum board 5/8", "41 1/4", "", "3/8"],
        *["", "wood", "hem-fir", "", "", "y"],
        *["y", "80 7/8", "-1/8", "n", "1 3/8", "1 1/4", "1/16"],
        *["81 5/8", "1/2; 4", "540 lb", "", "43", "9 1/2", "2 3/4", "", *door],
        *["y", "2x6", "", "y", "y", "#10", "3; 3 1/2", "", "n", "0.5", "", "1", "n"],
        *["y", "y", "33; 33 1/2", "", "", "", "98 1/2; 98 1/4", "", "", "", ""],
        *["y", "96", "", "", "", "", "", "y", "kitchen door", "36", "", "n"],
        *["y", "40 psf"],
        *["y", "y", "above", "1", "2", "n", "n", "n", "n"],
        "",
    ]
    result = new(answers, str(path))
    assert result.exit_code == 0, result.output
    job = read_job(path)
    assert job.niche.width == (845 / 25.4,)
    assert (job.floor.down_from_line, job.floor.front_right, job.floor.path_high) == (
        True,
        0.625,
        0.875,
    )
    assert [layer.material for layer in job.wall.layers] == ["gypsum board", "plywood"]
    assert job.wall.stud_layout is not None
    assert (job.wall.stud_layout.spacing, job.wall.stud_layout.first) == (16.0, 6.0)
    assert (job.unit.leg_travel_front, job.unit.leg_travel_rear) == (1.375, 1.25)
    assert (job.unit.proud, job.unit.bearing_zone) == (-0.125, (0.5, 4.0))
    assert job.unit.doors is not None
    assert job.screws.carried[0].lengths == (3.0, 3.5)
    assert job.loads.earthquake is not None
    around = job.surroundings
    assert around.opening is not None
    assert around.opening.diagonals == (98.5, 98.25)
    assert around.route is not None
    assert around.route.doorways[0].width == 36.0
    assert around.floor_load is not None
    assert around.clearances[0].measured == 2.0
    assert "front_left = '41 3/4 in'" in path.read_text()  # as typed, not as a height


def test_studs_not_found_yet_go_by_their_spacing(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    answers = [*NICHE, *FLOOR, WALL[0], "", *UNIT, *MORE, *LOOK]
    assert new(answers, str(path)).exit_code == 0
    layout = read_job(path).wall.stud_layout
    assert layout is not None
    assert (layout.spacing, layout.first) == (16.0, None)


def test_a_floor_line_that_is_short_is_asked_again(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    answers = [*NICHE, "0; 1/8; 0", "0; 1/8; 0; 1/4", *WALL, *UNIT, *MORE, *LOOK]
    result = new(answers, str(path))
    assert "expected four readings with ; between them" in result.output
    assert read_job(path).floor.spots == (0.0, 0.125, 0.0, 0.25)


SHEET = """\
[unit]
height = '80 5/8 in'
width = '32 3/4 in'
depth = '23 1/8 in'
leg_travel = '1 3/8 in'
weight = '540 lb'

[loads]
S_DS = 0.5
horizontal_stop = true
"""


def test_a_sheet_is_given_once_for_a_building(tmp_path: Path) -> None:
    (tmp_path / "sheet.toml").write_text(SHEET, encoding="utf-8")
    path = tmp_path / "a.toml"
    result = new([*NICHE, *FLOOR, *WALL, "none.toml", "sheet.toml", "", "", "", ""], str(path))
    assert result.exit_code == 0, result.output
    assert "expected a TOML file with a [unit] table" in " ".join(result.output.split())
    assert 'unit = "sheet.toml"' in path.read_text()
    job = read_job(path)
    assert (job.unit.height, job.unit.weight) == (80.625, 540.0)
    assert job.loads.earthquake is not None


def test_enter_in_the_review_keeps(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    door = ["y", "36 lb", "22 lb", "14", "1", "31", "n"]
    sheet = ["y", "", "", "", "", "", "", "540 lb", "", "43", "9 1/2", "2 3/4", "", *door]
    boards = ["y", "2x8", "", "n", ""]
    look = ["unit.doors", "", "boards.size", "", "niche.width", "", "wall.layers", "", ""]
    result = new([*NICHE, *FLOOR, *WALL, *UNIT, "", *sheet, *boards, "", *look], str(path))
    assert result.exit_code == 0, result.output
    job = read_job(path)
    assert job.unit.doors is not None
    assert len(job.unit.doors) == 1
    assert job.boards.size == "2x8"
    assert job.niche.width == (33.25, 33.375)
    assert len(job.wall.layers) == 1


def test_an_unusual_answer_is_asked_again(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    niche = [NICHE[0], "90", "n", "845 in", "33 1/4", "42", "y", ""]
    wall = ["gypsum board 2 1/2", "n", *WALL]
    result = new([*niche, *FLOOR, *wall, *UNIT, *MORE, *LOOK], str(path))
    assert result.exit_code == 0, result.output
    assert "90 in; usually 18 in to 84 in (finished opening" in result.output
    assert "Keep it? [y/N]" in result.output
    assert "did you mean 845 mm?" in result.output
    assert "2.5 in; usually 0 to 2 in" in result.output
    job = read_job(path)
    assert (job.niche.width, job.niche.depth) == ((33.25,), (42.0,))
    assert job.wall.layers[0].thickness == 0.5


def test_a_wrong_answer_is_asked_again_with_the_reason(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    niche = [*NICHE[:1], "33 ib", "-3", "", *NICHE[1:]]
    result = new([*niche, *LEAST[len(NICHE) :]], str(path))
    assert result.exit_code == 0
    assert "read '33 ib'; expected a length" in result.output
    assert "read '-3'; expected 8 in to 120 in (finished opening" in result.output
    assert "this one needs an answer; expected a length" in result.output
    assert read_job(path).niche.width == (33.25, 33.375)


def test_two_lengths_are_asked_for_as_they_are_typed_here(tmp_path: Path) -> None:
    sheet = ["y", "", "", "", "", "", "1 1/2", "1/2; 4", ""]
    result = new([*NICHE, *FLOOR, *WALL, *UNIT, "", *sheet, "", "", ""], str(tmp_path / "a.toml"))
    assert "expected two lengths, as 32 in; 34 in (where the top" in " ".join(result.output.split())


def test_a_question_mark_says_what_can_be_typed(tmp_path: Path) -> None:
    wall = ["?", "gypsum bord 1/2", *WALL]
    result = new([*NICHE, *FLOOR, *wall, *UNIT, *MORE, *LOOK], str(tmp_path / "a.toml"))
    assert "One of: gypsum board, cement board" in result.output
    assert (
        "read 'gypsum bord 1/2'; expected 'gypsum board' (bracecalc table layers" in result.output
    )


def test_what_does_not_fit_together_is_asked_for_again(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    sheet = ["y", "80", "", "", "", "", "", ""]
    mend = ["", "unit.height_overal", "unit.height_overall", "80 7/8", "niche.depth", "25", ""]
    result = new([*NICHE, *FLOOR, *WALL, *UNIT, "", *sheet, "", "", *mend], str(path))
    assert result.exit_code == 0, result.output
    assert "unit.height_overall: read less than unit.height" in result.output
    assert "read 'unit.height_overal'; expected unit.height_overall" in result.output
    job = read_job(path)
    assert (job.unit.height_overall, job.niche.depth) == (80.875, (25.0,))


def test_millimetres(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    niche = ["6A", "845", "610", ""]
    wall = ["gypsum board 12.5", "160; 570"]
    unit = ["2048", "832", "587", "35"]
    more = ["y", *[""] * 11]
    result = new([*niche, *FLOOR, *wall, *unit, *more, *LOOK], str(path), "--units", "mm")
    assert result.exit_code == 0, result.output
    job = read_job(path)
    assert job.units is Units.MM
    assert job.niche.width == (845 / 25.4,)
    assert job.wall.layers[0].thickness == 12.5 / 25.4
    assert job.wall.stud.width == 1.5  # the default is shown in mm and still is that default


def test_standard_output_takes_the_file_alone() -> None:
    result = new(LEAST, "-")
    assert result.exit_code == 0
    assert parse_job(result.stdout, where="-").niche.depth == (24.75,)
    assert "niche.width" in result.stderr


@pytest.mark.parametrize("given", [0, 1, 9, len(LEAST) - 1])
def test_stopping_writes_nothing(tmp_path: Path, given: int) -> None:
    path = tmp_path / "a.toml"
    result = new(LEAST[:given], str(path))
    assert result.exit_code == 2
    assert result.stderr.splitlines()[-1] == "stopped before the last answer; nothing was written"
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_exists_is_told_before_the_first_question(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_text("mine")
    result = new(LEAST, str(path))
    assert result.exit_code == 2
    assert "already exists" in result.stderr
    assert result.stdout == ""
    assert path.read_text() == "mine"
    assert new(LEAST, str(path), "--force").exit_code == 0
    assert read_job(path).title == "Quillet Yard 3B"


def test_a_folder_that_is_not_there_is_told_before_the_first_question(tmp_path: Path) -> None:
    result = new(LEAST, str(tmp_path / "none" / "a.toml"))
    assert (result.exit_code, result.stdout) == (2, "")
    assert "folder not found" in result.stderr
