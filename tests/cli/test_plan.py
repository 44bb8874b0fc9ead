"""``bracecalc plan``: input from everywhere, output to everywhere, exit status, nothing lost."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from bracecalc.cli.main import group
from bracecalc.jobfile.read import read_job
from bracecalc.planning.plan import make_plan
from bracecalc.render.text import plan_text

DEMO = Path(__file__).parents[2] / "data" / "demo"
MAIN = DEMO / "3b-kitchen.toml"
LOW = DEMO / "1b-soffit-too-low.toml"
METRIC = DEMO / "6a-metric.toml"


def run(*arguments: str | Path, text: str | bytes | None = None) -> Result:
    result = CliRunner().invoke(group, ["plan", *map(str, arguments)], input=text)
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_exit_status_0_where_it_holds() -> None:
    result = run(MAIN)
    assert result.exit_code == 0
    assert "It holds." in result.output


def test_exit_status_1_where_something_fails_and_the_plan_is_shown_all_the_same() -> None:
    result = run(LOW, "--full")
    assert result.exit_code == 1
    assert "does-not-go-in" in result.output
    assert "Cautions" in result.output


def test_exit_status_1_where_one_of_several_fails() -> None:
    assert run(MAIN, LOW).exit_code == 1
    assert run(MAIN, MAIN).exit_code == 0


def test_exit_status_2_where_the_input_is_wrong_and_nothing_is_written(here: Path) -> None:
    Path("bad.toml").write_text("[niche]\nwidth = '33 ib'\n", encoding="utf-8")
    result = run(MAIN, "bad.toml", "-o", "out.txt")
    assert result.exit_code == 2
    assert not Path("out.txt").exists()
    assert "bad.toml: niche.width: read '33 ib'" in result.output
    assert "It holds." not in result.output


def test_all_mistakes_of_all_jobs_are_told_at_once(here: Path) -> None:
    result = run("one.toml", MAIN, "two.toml")
    assert result.exit_code == 2
    assert [line.split(":")[0] for line in result.output.strip().split("\n")] == [
        "one.toml",
        "two.toml",
    ]


def test_a_job_is_asked_for() -> None:
    result = run()
    assert result.exit_code == 2
    assert "JOB" in result.output


def test_standard_input() -> None:
    result = run("-", text=MAIN.read_bytes())
    assert result.exit_code == 0
    assert result.output == run(MAIN).output


def test_a_mistake_in_standard_input_names_it_by_its_sign() -> None:
    result = run("-", text="[niche]\nwidth = -1\n")
    assert result.exit_code == 2
    assert result.output.startswith("-: niche.width: ")


def test_a_folder_is_all_job_files_in_it_by_name(here: Path) -> None:
    Path("jobs").mkdir()
    for name, source in (("b.toml", LOW), ("a.toml", MAIN)):
        Path("jobs", name).write_bytes(source.read_bytes())
    Path("jobs", "notes.txt").write_text("no job", encoding="utf-8")
    result = run("jobs", "--format", "json")
    assert result.exit_code == 1
    assert [plan["verdict"] for plan in json.loads(result.output)] == ["holds", "fails"]


def test_an_empty_folder_is_said_to_be_one(here: Path) -> None:
    Path("empty").mkdir()
    result = run("empty")
    assert result.exit_code == 2
    assert result.output == "empty: read a folder with no job in it; expected job files, *.toml\n"


def test_one_job_is_an_object_and_several_are_an_array() -> None:
    one = json.loads(run(MAIN, "--format", "json").output)
    several = json.loads(run(MAIN, METRIC, "--format", "json").output)
    assert one["schema"] == "bracecalc plan 1"
    assert several[0] == one
    assert len(several) == 2
    assert several[1]["title"] != one["title"]


@pytest.mark.parametrize("form", ["table", "markdown", "json", "csv"])
def test_no_form_has_codes_of_colour_in_a_pipe(form: str) -> None:
    assert "\x1b" not in run(MAIN, "--format", form).output


def test_csv_has_one_heading_for_all_jobs() -> None:
    rows = list(csv.DictReader(io.StringIO(run(MAIN, METRIC, "--format", "csv").output)))
    assert len({row["title"] for row in rows}) == 2
    assert {row["what"] for row in rows} == {"buy", "screw"}


def test_units_change_what_is_shown_and_no_figure() -> None:
    inch, metric = run(MAIN).output, run(MAIN, "--units", "mm").output
    # 81-5/8 in is 2073.3 mm
    assert "81 5/8 in above the datum" in inch
    assert "2073 mm above the datum" in metric
    one = json.loads(run(MAIN, "--units", "mm", "--format", "json").output)
    other = json.loads(run(MAIN, "--format", "json").output)
    one["scheme"].pop("why")  # in the words of the units
    other["scheme"].pop("why")
    texts = {"findings", "checks", "restraint"}
    assert {key: one[key] for key in one if key not in texts} == {
        key: other[key] for key in other if key not in texts
    }
    assert "in above the datum" in run(METRIC, "--units", "inch").output


def test_explain_adds_the_work_and_leaves_the_rest() -> None:
    plain, shown = run(MAIN, "--full").output, run(MAIN, "--explain").output
    assert "Work shown" not in plain
    assert "Work shown" in shown
    assert "Source: " in shown
    without = shown[: shown.index("Work shown")]
    assert plain.startswith(without.rstrip())


def test_tolerance_adds_the_drift_of_each_measurement() -> None:
    plain, shown = run(MAIN).output, run(MAIN, "--tolerance").output
    assert shown.startswith(plain.rstrip("\n"))
    assert len(shown) > len(plain)
    assert max(map(len, shown.split("\n"))) <= 80


def keys_in(value: object) -> set[str]:
    if isinstance(value, dict):
        return set(value) | {key for one in value.values() for key in keys_in(one)}
    if isinstance(value, list):
        return {key for one in value for key in keys_in(one)}
    return set()


def test_tolerance_in_json_has_the_keys_that_the_docs_name() -> None:
    shown = json.loads(run(MAIN, "--tolerance", "--format", "json").output)
    plain = json.loads(run(MAIN, "--format", "json").output)
    tolerance = shown.pop("tolerance")
    assert shown == plain
    page = (DEMO.parents[1] / "docs" / "json.md").read_text(encoding="utf-8")
    assert keys_in({"tolerance": tolerance}) <= set(re.findall(r"[A-Za-z_]+", page))


def test_a_table_is_a_job_a_row(here: Path) -> None:
    rows = (DEMO / "quillet-yard.csv").read_text(encoding="utf-8").split("\n")[:3]
    Path("niches.csv").write_text("\n".join(rows), encoding="utf-8")
    shown = json.loads(run("niches.csv", "--format", "json").output)
    titles = [row.split(",")[4] for row in rows[1:]]
    for plan, title in zip(shown, titles, strict=True):
        assert plan["title"].startswith(title)


def test_each_bad_row_of_a_table_is_named(here: Path) -> None:
    rows = (DEMO / "quillet-yard.csv").read_text(encoding="utf-8").split("\n")[:3]
    wrong = [row.replace(" 1/4 in,24 in", " ib,24 in") for row in rows]
    assert wrong[1:] != rows[1:]
    Path("niches.csv").write_text("\n".join(wrong), encoding="utf-8")
    result = run("niches.csv")
    assert result.exit_code == 2
    lines = result.output.strip().split("\n")
    assert [line.split(": ")[:2] for line in lines] == [
        ["niches.csv row 2", "niche.width"],
        ["niches.csv row 3", "niche.width"],
    ]


def test_a_file_is_written_whole_and_said_so(here: Path) -> None:
    result = run(MAIN, "-o", "plan.txt")
    assert result.exit_code == 0
    assert result.stdout == ""
    assert result.stderr == "wrote plan.txt\n"
    assert Path("plan.txt").read_text(encoding="utf-8") == run(MAIN).output
    assert [one.name for one in here.iterdir()] == ["plan.txt"]


def test_a_file_that_exists_is_kept_without_force(here: Path) -> None:
    Path("plan.txt").write_text("mine", encoding="utf-8")
    result = run(MAIN, "-o", "plan.txt")
    assert result.exit_code == 2
    assert "plan.txt: already exists" in result.output
    assert "--force" in result.output
    assert Path("plan.txt").read_text(encoding="utf-8") == "mine"
    assert run(MAIN, "-o", "plan.txt", "--force").exit_code == 0
    assert "It holds." in Path("plan.txt").read_text(encoding="utf-8")


def test_a_failing_plan_is_written_too(here: Path) -> None:
    assert run(LOW, "-o", "plan.json", "--format", "json").exit_code == 1
    assert json.loads(Path("plan.json").read_text(encoding="utf-8"))["verdict"] == "fails"


def test_a_dash_is_standard_output(here: Path) -> None:
    assert run(MAIN, "-o", "-").output == run(MAIN).output
    assert list(here.iterdir()) == []


def test_a_folder_that_is_not_there_is_said_to_be_missing(here: Path) -> None:
    result = run(MAIN, "-o", "no/such/plan.txt")
    assert result.exit_code == 2
    assert "folder not found" in result.output


def test_a_form_that_is_none_names_those_that_are() -> None:
    result = run(MAIN, "--format", "cvs")
    assert result.exit_code == 2
    for form in ("table", "markdown", "json", "csv"):
        assert form in result.output


def titled(title: str) -> Path:
    """The main demo job under another title, as TOML writes it."""
    lines = MAIN.read_text(encoding="utf-8").split("\n")
    first = next(index for index, line in enumerate(lines) if line.startswith("title"))
    lines[first] = f'title = "{title}"'
    path = Path("job.toml")
    path.write_text("\n".join(lines), encoding="utf-8")
    return path


@pytest.mark.parametrize("form", ["table", "markdown", "csv"])
@pytest.mark.parametrize(
    "title",
    ["\\u001b[2J\\u001b[31m3B", "\\u202e3B", "3B\\n3C", "<b>3B</b> | *x*", "3B " * 66, "3B" * 200,
     "\u05e9\u05dc\u05d5\u05dd 3B", "=1+1"],
    ids=["escape", "override", "line break", "markup", "long", "too long",
         "right to left", "formula"],
)  # fmt: skip
def test_a_hostile_title_is_refused_in_a_line_or_shown_as_text(
    title: str, form: str, here: Path
) -> None:
    result = run(titled(title), "--format", form)
    assert result.exit_code in (0, 2)
    assert "\x1b" not in result.output
    assert "\u202e" not in result.output
    if result.exit_code == 2:
        assert result.output.startswith("job.toml: title: ")
        assert result.output.count("\n") == 1
    elif form == "table":
        assert max(map(len, result.output.split("\n"))) <= 80
    elif form == "markdown":
        assert "<b>" not in result.output
    else:
        assert not any(line.startswith("=") for line in result.output.split("\n"))


def test_the_shown_work_is_in_the_json_too() -> None:
    steps = json.loads(run(MAIN, "--explain", "--format", "json").output)["steps"]
    assert {"part", "meaning", "equation", "inputs", "result", "unit", "source"} == set(steps[0])
    assert "steps" not in json.loads(run(MAIN, "--format", "json").output)


def test_words_are_those_of_the_english_asked_for() -> None:
    assert "centers expected" in run(MAIN).output
    uk = run(MAIN, "--english", "uk").output
    assert "centres expected" in uk
    assert "Fix  " in uk
    assert "Fasten" in run(METRIC, "--english", "us").output


@pytest.mark.parametrize("width", [60, 100, 120])
def test_the_screen_fits_the_terminal(width: int) -> None:
    plan = make_plan(read_job(MAIN))
    lines = click.unstyle(plan_text(plan, width=width, full=True)).splitlines()
    assert max(map(len, lines)) <= width
    parted = re.compile(r"\d$\n\s*(\d+/\d+|in\b|lbf\b)", re.MULTILINE)
    assert parted.findall("\n".join(lines)) == []


def test_the_other_ways_to_build_it_are_listed_with_what_they_hold() -> None:
    shown = run(MAIN, "--alternatives").output
    told = shown.split("Ways to build it")[1]
    assert "this one" in told
    assert "lbf" in told
    soffit = run(DEMO / "1a-solid-soffit.toml", "--alternatives").output
    assert "There is no stack to choose" in soffit
