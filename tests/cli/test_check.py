"""``bracecalc check`` as an installer calls it."""

from __future__ import annotations

import json
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from bracecalc.data import demo_path
from click.testing import CliRunner, Result
from golden import agrees

from bracecalc.cli.main import group

GOLDEN = Path(__file__).parent / "golden" / "check"

JOB = """\
title = "Quillet Yard, invented for a test"

[niche]
width = '33 1/4 in'
depth = '23 3/4 in'

[wall]
layers = [{ material = "gypsum board", thickness = '1/2 in' }]
stud_spots = ['4 in', '16 5/8 in', '29 in']
[floor]
front_left = 0
front_right = 0
rear_left = 0
rear_right = 0

[unit]
height = '80 5/8 in'
width = '32 3/4 in'
depth = '23 1/8 in'
leg_travel = '1 3/8 in'
leg_pitch = '1/16 in'

[boards]
size = "2x6"

[loads]
minimum = '60 lb'
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    file = tmp_path / "niche.toml"
    file.write_text(JOB, encoding="utf-8")
    return file


def check(*args: object, text: str | None = None) -> Result:
    return CliRunner().invoke(group, ["check", *map(str, args)], input=text)


CASES = {
    "as-planned": ("3a-no-weight", ()),
    "solid-soffit-lower": ("1a-solid-soffit", ("--opening", "soffit 81 1/4, 81 3/8")),
    "floor-out-of-level": ("1c-floor-out-of-level", ()),
    "packed-soffit-floor-lower": ("2c-packed-soffit", ("--floor", "-1/2, 0, 0, 0")),
    "one-stud": ("2d-one-stud", ("--studs", "16 1/4")),
    "kitchen-as-found": (
        "3b-kitchen",
        (
            "--floor", "0, 1/8 and 3/16, 0, 5/16",
            "--studs", "6 3/8, 22 3/4",
            "--board", "81 9/16, 81 5/8 and 81 11/16",
            "--projection", "3, 2 15/16",
            "--legs", "1/4, 1/4, 1/4, 1/4",
        ),
    ),
    "kitchen-boards-too-high": ("3b-kitchen", ("--board", "82 1/4, 82 1/2")),
    "kitchen-down-from-the-line": (
        "3b-kitchen",
        ("--line", "48 1/4", "--floor-down", "48 1/4, 48 1/8, 48 1/4, 47 15/16"),
    ),
    "short-screws": ("3c-short-screws", ("--layers", "gypsum board 5/8")),
    "metric": ("6a-metric", ("--opening", "depth 620, 622")),
    "spacing-alone-studs-found": ("6b-spacing-alone", ("--studs", "5 1/2, 21 5/8, 37 1/2")),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_the_whole_output_for_the_demo_niches(name: str) -> None:
    job, args = CASES[name]
    done = check(demo_path(f"{job}.toml"), *args)
    shown = f"exit {done.exit_code}\n--- out\n{done.stdout}--- err\n{done.stderr}"
    agrees(GOLDEN / f"{name}.txt", shown)


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("form", ["table", "markdown"])
def test_lines_fit_the_terminal_and_no_length_goes_without_its_unit(name: str, form: str) -> None:
    job, args = CASES[name]
    done = check(demo_path(f"{job}.toml"), *args, "--format", form)
    assert done.exit_code in (0, 1)
    if form == "table":
        assert max(map(len, done.stdout.splitlines())) <= 80


def test_the_exit_status_tells_a_script_which_niches_fail(path: Path) -> None:
    assert check(path).exit_code == 0
    assert check(path, "--board", "83, 83").exit_code == 1
    assert check(path, "--board", "83 ib").exit_code == 2


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (("--studs", "4, 16 ib"), "--studs: read '16 ib'; expected a length"),
        (("--floor", "0, 0"), "--floor: read '0, 0'; expected 4 values"),
        (("--floor", "0,0,0,0", "--floor-down", "9,9,9,9"), "expected one of them"),
        (("--board-up", "33, 33"), "--board-up: read readings up from a line"),
        (("--opening", "girth 33"), "--opening: read 'girth 33'; expected 'width"),
        (("--opening", "width"), "--opening: read 'width'"),
        (("--screws", "10"), "--screws: read '10'; expected a size and a length"),
        (("--layers", "gypsum 1/2, nothing 3"), "--layers: read 'nothing'"),
        (("--save",), "--save: read no measurement"),
    ],
)
def test_a_mistake_is_one_line_exit_2_and_nothing_written(
    path: Path, args: tuple[str, ...], told: str
) -> None:
    out = path.with_name("out.txt")
    done = check(path, *args, "--out", out)
    assert done.exit_code == 2
    assert told in done.stderr
    assert len(done.stderr.splitlines()) == 1
    assert done.stdout == ""
    assert not out.exists()
    assert path.read_text(encoding="utf-8") == JOB


@pytest.mark.parametrize(
    "args", [("none.toml",), (), ("x.toml", "--format", "csv"), ("x.toml", "--date", "tomorrow")]
)
def test_a_wrong_call_is_exit_2(args: tuple[str, ...]) -> None:
    done = check(*args)
    assert done.exit_code == 2
    assert "Traceback" not in done.output


def test_a_mistake_in_the_files_own_table_names_its_key(path: Path) -> None:
    path.write_text(JOB + "\n[as_found]\nstuds = ['4 in', '16 ib']\n", encoding="utf-8")
    done = check(path)
    assert done.exit_code == 2
    assert done.stderr.startswith(f"{path}: as_found.studs[2]: read '16 ib'")


def test_the_files_own_table_counts_and_an_option_goes_before_it(path: Path) -> None:
    path.write_text(JOB + "\n[as_found]\nboard = ['83 in', '83 in']\n", encoding="utf-8")
    assert check(path).exit_code == 1
    assert check(path, "--board", "81 3/8, 81 3/8").exit_code == 0


def test_a_job_from_standard_input(path: Path) -> None:
    done = check("-", "--board", "81 3/8, 81 3/8", text=JOB)
    assert done.exit_code == 0
    assert done.stdout == check(path, "--board", "81 3/8, 81 3/8").stdout
    for option in ("--save", "--ask"):
        refused = check("-", option, text=JOB)
        assert refused.exit_code == 2
        assert f"{option}: read a job from standard input" in refused.stderr


def test_json_has_the_unrounded_figures(path: Path) -> None:
    done = check(path, "--board", "83.01, 83.25", "--format", "json")
    assert done.exit_code == 1
    read = json.loads(done.stdout)
    assert read["schema"] == "bracecalc check 1"
    assert read["verdict"] == "fails"
    left = next(point for point in read["points"] if point["key"] == "board_left")
    assert left["found"] == 83.01
    assert left["difference"] == pytest.approx(83.01 - 81.375)
    assert left["worst_case_margin"] < left["rss_margin"] < left["margin"]
    assert read["contact"]["gap"] == pytest.approx(0.24)
    assert read["misses"][0]["code"] == "leg-travel-exceeded"
    assert read["misses"][0]["remedies"]
    assert read["mended"]["verdict"] == read["after"] != "fails"


def test_a_title_can_not_become_markup(path: Path) -> None:
    path.write_text(JOB.replace("Quillet Yard", "<b>*x*|"), encoding="utf-8")
    assert "# &lt;b&gt;\\*x\\*\\|" in check(path, "--format", "markdown").stdout


def test_lengths_in_millimetres_when_asked(path: Path) -> None:
    done = check(path, "--depth", "x")
    assert done.exit_code == 2  # no such option: the opening's name goes inside --opening
    done = check(path, "--opening", "depth 24", "--units", "mm")
    assert "point (mm)" in done.stdout
    assert "610" in done.stdout
    assert " in " not in done.stdout.split("Points")[1].split("Spare:")[0]


def test_output_to_a_file_is_not_written_over_unasked(path: Path) -> None:
    out = path.with_name("check.txt")
    assert check(path, "-o", out).exit_code == 0
    first = out.read_text(encoding="utf-8")
    assert "As planned it holds." in first
    again = check(path, "-o", out, "--board", "83, 83")
    assert again.exit_code == 2
    assert out.read_text(encoding="utf-8") == first
    assert check(path, "-o", out, "--board", "83, 83", "--force").exit_code == 1
    assert "It FAILS as found" in out.read_text(encoding="utf-8")


def test_save_keeps_what_was_found_the_date_and_the_verdict(path: Path) -> None:
    done = check(path, "--studs", "4, 16 3/4", "--save", "--date", "2026-03-04")
    assert done.exit_code == 0
    assert f"saved in {path}" in done.stderr
    again = check(path, "--board", "83, 83", "--save", "--date", "2026-03-05")
    assert again.exit_code == 1
    text = path.read_text(encoding="utf-8")
    assert text.startswith(JOB)
    one, two = tomllib.loads(text)["as_found_record"]
    assert (str(one["date"]), one["verdict"], one["studs"]) == ("2026-03-04", "holds", "4, 16 3/4")
    assert (str(two["date"]), two["verdict"]) == ("2026-03-05", "fails")
    assert two["fails"] == ["leg-travel-exceeded"]


DOOR = [""]  # highest floor on the way in
NICHE = ["", "", ""]  # width, depth, soffit
FLOOR = ["", ""]  # the laser's line, the leg spots
WALL = ["", ""]  # studs, layers
DOWN = ["n"]  # no boards up
LEFT = ["", "", "n"]  # legs, screws, nothing else


def typed(*parts: list[str]) -> str:
    return "".join(f"{answer}\n" for part in parts for answer in part)


def test_a_walk_with_nothing_to_say_keeps_the_plan_in_twelve_answers(path: Path) -> None:
    answers = typed(DOOR, NICHE, FLOOR, WALL, DOWN, LEFT)
    assert answers.count("\n") == 12
    done = check(path, "--ask", "--format", "json", text=answers)
    assert done.exit_code == 0, done.output
    assert "Stud centers from the left side of the niche [4 in; 16 5/8 in; 29 in]" in done.stderr
    assert not any(point["measured"] for point in json.loads(done.stdout)["points"])


def test_a_walk_goes_one_by_one_and_asks_again_for_what_can_not_be_read(path: Path) -> None:
    niche = ["", "23 3/4 and 23 13/16", ""]
    studs = ["4 ib", "4; 16 5/8; 29", ""]
    boards = ["y", "81 3/8; 81 3/8", "3", "", ""]
    legs = ["1/4; -; -; -", "", "n"]
    floor = ["", "0; 1/8; -; 0"]
    answers = typed(DOOR, niche, floor, studs, boards, legs)
    done = check(path, "--ask", "--format", "json", text=answers)
    assert done.exit_code == 0, done.output
    assert "expected a length" in done.stderr
    read = json.loads(done.stdout)
    found = {point["key"]: point["found"] for point in read["points"] if point["measured"]}
    assert found["depth[1]"] == pytest.approx(23.78125)
    assert found["floor.front_right"] == 0.125
    assert "floor.rear_left" not in found
    assert found["board_right"] == 81.375
    assert read["legs"]["front_left"]["now"] == 0.25


def test_the_floor_is_asked_down_from_a_line_of_unknown_height(path: Path) -> None:
    answers = typed(DOOR, ["?", "0", "", "", ""], ["", "d 41 3/4; 41 5/8; 41 3/4; 41 3/4"])
    done = check(path, "--ask", "--format", "json", text=answers + typed(WALL, DOWN, LEFT))
    assert "back goes back" in done.stderr
    assert "read '0'; expected 8 in to 120 in" in " ".join(done.stderr.split())
    read = json.loads(done.stdout)
    found = {point["key"]: point["found"] for point in read["points"] if point["measured"]}
    assert found["floor.front_right"] == pytest.approx(0.125)
    assert found["floor.rear_left"] == pytest.approx(0.0)


def test_back_goes_back_to_the_question_before(path: Path) -> None:
    answers = typed(["back"], DOOR, ["33", "back", "33 3/16", "", ""], FLOOR, WALL, DOWN, LEFT)
    done = check(path, "--ask", "--format", "json", text=answers)
    assert "That was the first question." in done.stderr
    found = {point["key"]: point["found"] for point in json.loads(done.stdout)["points"]}
    assert found["width[1]"] == 33.1875


def test_a_walk_that_is_stopped_keeps_what_was_typed_and_goes_on_with_it(path: Path) -> None:
    side = path.with_name("niche.asked.toml")
    done = check(path, "--ask", "--save", text=typed(DOOR, ["33 3/16", "23 7/8"]))
    assert done.exit_code == 2
    assert "stopped; what was typed is kept in" in done.stderr
    assert path.read_text(encoding="utf-8") == JOB
    assert tomllib.loads(side.read_text(encoding="utf-8"))["depth"] == "23 7/8"
    rest = typed(["y", ""], FLOOR, WALL, DOWN, LEFT)
    done = check(path, "--ask", "--format", "json", text=rest)
    assert "stopped after 2 answers" in done.stderr
    found = {point["key"]: point["found"] for point in json.loads(done.stdout)["points"]}
    assert (found["width[1]"], found["depth[1]"]) == (33.1875, 23.875)
    assert not side.exists()


def test_answers_of_a_walk_that_was_stopped_may_be_left(path: Path) -> None:
    check(path, "--ask", text=typed(DOOR, ["33 3/16"]))
    anew = typed(["n"], DOOR, NICHE, FLOOR, WALL, DOWN, LEFT)
    done = check(path, "--ask", "--format", "json", text=anew)
    assert not any(point["measured"] for point in json.loads(done.stdout)["points"])


@pytest.mark.parametrize(
    ("others", "code"),
    [
        (("trim",), "trim-in-the-way"),
        (("framing steel",), "no-wood-to-bite"),
        (("board_length 20", "board_start 6"), "screws-near-end"),
    ],
)
def test_anything_else_that_was_found_is_said(
    path: Path, others: tuple[str, ...], code: str
) -> None:
    options = [word for one in others for word in ("--also", one)]
    done = check(path, "--board", "81 3/8; 81 3/8", *options, "--format", "json")
    assert code in [one["code"] for one in json.loads(done.stdout)["misses"]]


def test_a_leg_that_does_not_turn_is_told_with_how_far_it_is_out(path: Path) -> None:
    stuck = ("--also", "seized rear left")
    refused = check(path, *stuck)
    assert refused.exit_code == 2
    assert "how far out the rear left leg is too (legs)" in refused.stderr
    done = check(path, *stuck, "--legs", "0; 0; 1/4; 0", "--format", "json")
    read = json.loads(done.stdout)
    assert read["misses"][0]["code"] == "leg-seized"
    assert "Free or replace the rear left leg" in [
        one["text"] for one in read["misses"][0]["remedies"]
    ]


def test_remedies_behind_an_appliance_that_is_in_begin_by_rolling_it_out(path: Path) -> None:
    options = ("--board", "81 3/8; 81 3/8", "--studs", "5; 17 5/8; 30", "--also", "unit_in")
    read = json.loads(check(path, *options, "--format", "json").stdout)
    done = [one["text"] for one in read["todo"] if one["needs"]]
    assert done[0].startswith("Roll the appliance out first")


def test_what_is_lost_stands_in_the_record_too(path: Path) -> None:
    options = ("--board", "81 3/8; 81 3/8", "--studs", "8; 20 5/8; 25", "--save")
    assert check(path, *options, "--date", "2026-03-06").exit_code == 1
    kept = tomllib.loads(path.read_text(encoding="utf-8"))["as_found_record"][0]
    assert kept["fails"][0] == "screws-miss-wood"
    assert kept["lost"][0].startswith("Do not rely on the boards that stand.")


@pytest.mark.parametrize(
    ("option", "said"),
    [
        (
            "--opening=width 0; 33",
            "--opening: read '0'; expected 8 in to 120 in (width of the niche",
        ),
        ("--board=0; 81", "--board: read '0'; expected 12 in to 240 in (underside of the boards"),
        ("--projection=0", "--projection: read '0'; expected 0.25 in to 24 in (finished wall"),
        ("--studs=162; 565", '"mm" is missing'),
        ("--screws=10 x 0", "--screws: read '0'; expected 0.25 in to 24 in (length of a screw"),
        ("--screws=10 x 3,5", "expected a semicolon between values, as '10 x 3; 5'"),
        ("--board=2139,95", "as '2139; 95'; or a point in a decimal, as '2139.95'"),
        ("--floor=0,1/8,0,5/16", "expected a semicolon between values, as '0; 1/8; 0; 5/16'"),
        ("--floor=48; 0; 0; 200", "expected -120 in to 120 in (floor above the datum"),
        ("--legs=0; 0; 0; 35", "did you mean 35 mm?"),
    ],
)
def test_what_can_not_be_is_refused(path: Path, option: str, said: str) -> None:
    done = check(path, option)
    assert done.exit_code == 2
    assert said in done.stderr
    assert done.stdout == ""


def test_a_decimal_comma_is_read_in_a_metric_length(path: Path) -> None:
    done = check(path, "--board", "2070,1 mm, 2071 mm", "--format", "json")
    found = {point["key"]: point["found"] for point in json.loads(done.stdout)["points"]}
    assert found["board_left"] == pytest.approx(2070.1 / 25.4)


def test_a_check_of_nothing_does_not_say_as_found(path: Path) -> None:
    assert "Nothing was measured yet. As planned it holds." in check(path).stdout
    assert "It holds as found." in check(path, "--legs", "0, 0, 0, 0").stdout


def test_what_was_given_is_not_asked_for(path: Path) -> None:
    done = check(path, "--board", "81 3/8, 81 3/8", "--ask", text="\n" * 20)
    assert done.exit_code == 0
    assert "Underside of the boards" not in done.stderr
    assert "Niche width" in done.stderr


def test_a_check_loads_no_library_that_it_does_not_use(path: Path) -> None:
    code = (
        "import sys\nfrom click.testing import CliRunner\nfrom bracecalc.cli.main import group\n"
        f"CliRunner().invoke(group, ['check', {str(path)!r}, '--format', 'json'])\n"
        "print('\\n'.join(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.splitlines())
    assert "bracecalc.check.check" in loaded
    assert loaded.isdisjoint({"pint", "numpy", "tomlkit", "tabulate"})
