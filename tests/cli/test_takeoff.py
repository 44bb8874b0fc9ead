"""``bracecalc takeoff`` from the outside: what is written, where, and the exit status."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path

import pytest
from bracecalc.data import demo_path
from click.testing import CliRunner, Result

from bracecalc.cli.main import group

HEADING = (
    "building,count,title,niche.width,niche.depth,niche.soffit,wall.layers,wall.stud.species,"
    "wall.stud_spots,unit.height,unit.width,unit.depth,unit.leg_travel,boards.size,boards.species"
)
GOOD = (
    'A,12,"Quillet Yard, 3A","33 1/4""",24 in,92 1/2 in,gypsum board 1/2 in,SPF,'
    "6 3/8 in; 22 1/4 in,80 5/8 in,32 3/4 in,23 1/8 in,1 3/8 in,2x6,SPF"
)
WIDER = GOOD.replace('"33 1/4"""', "33 1/2 in").replace("32 3/4 in", "33 in")
WRONG = GOOD.replace('"33 1/4"""', "33 ib").replace("A,12", "B,3")
LOW = GOOD.replace("92 1/2 in", "79 in").replace("A,12", "B,5")  # the unit does not go in


def table(folder: Path, *rows: str) -> str:
    path = folder / "niches.csv"
    path.write_text("\n".join([HEADING, *rows, ""]), encoding="utf-8")
    return str(path)


def run(*arguments: str, text: str | None = None) -> Result:
    return CliRunner().invoke(group, ["takeoff", *arguments], input=text)


def prices() -> str:
    return str(demo_path("prices.csv"))


def test_niches_that_hold(tmp_path: Path) -> None:
    result = run(table(tmp_path, GOOD, WIDER), "--prices", prices())
    assert (result.exit_code, result.stderr) == (0, "")
    for said in ("24 niches", "Lumber to buy", "proven", "Screws to buy", "Cost", "Cut list"):
        assert said in result.stdout
    assert max(map(len, result.stdout.splitlines())) <= 80


def test_equal_rows_and_a_count_come_to_the_same(tmp_path: Path) -> None:
    one = json.loads(run(table(tmp_path, GOOD), "--format", "json").stdout)
    twice = [GOOD.replace("A,12", f"A,{count}") for count in (5, 7)]
    two = json.loads(run(table(tmp_path, *twice), "--format", "json").stdout)
    assert (two["rows"], two["worked_out"], two["niches"]) == (2, 1, 12)
    for key in ("lumber", "screws", "sheets", "sums", "niches"):
        assert one[key] == two[key]


def test_a_niche_that_fails_is_listed_and_the_status_is_1(tmp_path: Path) -> None:
    result = run(table(tmp_path, GOOD, LOW))
    assert result.exit_code == 1
    assert "5 niches fail" in result.stdout
    assert "row 3, Quillet Yard, 3A (5 niches): does-not-go-in" in " ".join(result.stdout.split())


def test_a_row_with_a_mistake_stops_everything(tmp_path: Path) -> None:
    out = tmp_path / "order.csv"
    result = run(table(tmp_path, GOOD, WRONG, WRONG), "--out", str(out))
    assert result.exit_code == 2
    assert result.stdout == ""
    assert "niches.csv rows 3-4: niche.width: read '33 ib'" in result.stderr
    assert not out.exists()


def test_bad_rows_are_skipped_when_asked_and_listed(tmp_path: Path) -> None:
    result = run(table(tmp_path, GOOD, WRONG, WIDER), "--skip-bad")
    assert result.exit_code == 1
    assert "24 niches" in result.stdout
    assert "NOT in the order" in result.stdout
    assert "row 3 (Quillet Yard, 3A): niche.width: read '33 ib'" in " ".join(result.stdout.split())


def test_nothing_to_work_out_is_refused(tmp_path: Path) -> None:
    for rows in ((), (WRONG,)):
        result = run(table(tmp_path, *rows), "--skip-bad")
        assert result.exit_code == 2
        assert "at least one niche" in result.stderr


def test_lengths_in_millimetres(tmp_path: Path) -> None:
    result = run(table(tmp_path, GOOD), "--units", "mm")
    assert result.exit_code == 0
    assert "838 mm" in result.stdout  # 33 in is 838.2 mm
    assert " in;" not in result.stdout.partition("Cut list")[2].replace("rounded", "")


def test_standard_input() -> None:
    result = run("-", "--format", "json", text=f"{HEADING}\n{GOOD}\n")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["niches"] == 12


def test_a_folder_of_jobs(tmp_path: Path) -> None:
    source = demo_path("3a-no-weight.toml").read_text(encoding="utf-8")
    for name in ("a.toml", "b.toml"):
        (tmp_path / name).write_text(source, encoding="utf-8")
    result = run(str(tmp_path), "--format", "json")
    assert json.loads(result.stdout)["niches"] == 2
    empty = tmp_path / "empty"
    empty.mkdir()
    refused = run(str(empty))
    assert refused.exit_code == 2
    assert "a folder with no job in it" in refused.stderr


@pytest.mark.parametrize(
    ("name", "starts"),
    [
        ("o.csv", b"what,item"),
        ("o.md", b"# Takeoff"),
        ("o.json", b"{"),
        ("o.txt", b"Takeoff"),
        ("o.xlsx", b"PK"),
    ],
)
def test_files_by_their_ending(tmp_path: Path, name: str, starts: bytes) -> None:
    if name.endswith("xlsx"):
        pytest.importorskip("openpyxl")
    out = tmp_path / name
    source = table(tmp_path, GOOD)
    result = run(source, "--out", str(out))
    assert (result.exit_code, result.stdout) == (0, "")
    data = out.read_bytes()
    assert data.startswith(starts)
    again = run(source, "--out", str(out), "--time-limit", "5")
    assert again.exit_code == 2
    assert "--force" in again.stderr
    assert out.read_bytes() == data
    assert run(source, "--out", str(out), "--force").exit_code == 0


def test_the_cut_list_as_a_drawing(tmp_path: Path) -> None:
    drawing = tmp_path / "cuts.svg"
    result = run(table(tmp_path, GOOD), "--cut-list", str(drawing), "--end-trim", "1/2 in")
    assert result.exit_code == 0
    text = drawing.read_text(encoding="utf-8")
    assert "1/2 in is trimmed off each end" in text
    assert "2x6 SPF" in text


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--kerf", "wide"], "--kerf"),
        (["--kerf", "-1 in"], "0 or more"),
        (["--waste", "much"], "a percentage"),
        (["--stock", "0 ft"], "a length of 0"),
        (["--stock", "8,10,12"], "expected a semicolon between values, as '8; 10; 12'"),
        (["--stock", "8 ft, 12"], "read '12'; expected its unit too"),
        (["--time-limit", "0"], "--time-limit"),
        (["--out", "order.pdf"], ".xlsx"),
        (["--cut-list", "cuts.png"], ".svg"),
        (["--prices", "absent.csv"], "no such file"),
        (["--group-by", "wing"], "wing"),
        (["--sheet", "Tower"], "no workbook among JOBS"),
        (["--out", "a.xlsx", "--format", "csv"], "workbook"),
    ],
)
def test_calls_that_are_wrong(tmp_path: Path, arguments: list[str], said: str) -> None:
    result = run(table(tmp_path, GOOD), *arguments)
    assert result.exit_code == 2
    assert said in result.stderr
    assert "Traceback" not in result.output


def test_without_the_solver_it_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("bracecalc.cutting.installed", lambda: False)
    result = run(table(tmp_path, GOOD))
    assert result.exit_code == 0
    assert "'takeoff' is not installed" in " ".join(result.stdout.split())


GROUPED = (
    "building,type,count,title,niche.width,niche.depth,wall.layers,wall.stud_spots,boards.size,"
    "unit.height,unit.width,unit.depth,unit.leg_travel\n"
    'A,x,2,One,"33 1/4""",24 in,gypsum board 1/2 in,7 in; 23 in,2x8,80 5/8,32 3/4,23 1/8,1 3/8\n'
    'B,y,3,Two,"33 1/4""",24 in,gypsum board 1/2 in,16 in,2x4,80 5/8,32 3/4,23 1/8,1 3/8\n'
)


def test_adding_up_by_one_column_passes_over_the_usual_others() -> None:
    result = run("-", "--group-by", "type", "--format", "json", text=GROUPED)
    assert list(json.loads(result.stdout)["sums"]) == ["type"]


def test_a_key_that_is_added_up_by_is_still_a_key() -> None:
    result = run("-", "--group-by", "boards.size", text=GROUPED)
    assert "2x8 SPF: 4 pieces" in result.stdout
    assert "By boards.size" in result.stdout


def test_failing_niches_are_told_with_how_many_they_are() -> None:
    result = run("-", text=GROUPED)
    assert result.exit_code == 1
    assert "3 niches fail" in result.stdout
    assert "row 3, Two (3 niches): too-few-studs" in result.stdout
    assert "whole boxes" not in result.stdout
    boxed = run("-", "--box", "50", text=GROUPED)
    assert "10 % more, in whole boxes." in boxed.stdout


def test_skipped_rows_are_not_said_to_be_equal_to_others() -> None:
    result = run("-", "--skip-bad", text=GROUPED + GROUPED.splitlines()[1].replace(",2,", ",x,"))
    assert "are equal to one of these" not in result.stdout


# --- what is refused before the work, and what goes beside the order


def test_an_output_that_exists_is_refused_before_the_work(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def never(*_: object, **__: object) -> None:
        raise AssertionError("worked niches out for an order that can't be written")

    monkeypatch.setattr("bracecalc.cli.takeoff_run.take", never)
    there = tmp_path / "there.csv"
    there.write_text("kept", encoding="utf-8")
    source = table(tmp_path, GOOD)
    for option in ("--out", "--offcuts-out", "--labels"):
        result = run(source, option, str(there))
        assert result.exit_code == 2
        assert "--force" in result.stderr
    missing = run(source, "--out", str(tmp_path / "no" / "o.csv"))
    assert (missing.exit_code, "folder not found" in missing.stderr) == (2, True)
    same = str(tmp_path / "same.csv")
    twice = run(source, "--out", same, "--labels", same)
    assert (twice.exit_code, "the file of --out" in twice.stderr) == (2, True)
    assert there.read_text(encoding="utf-8") == "kept"


def test_labels_offcuts_and_cut_list_are_written_beside_the_order(tmp_path: Path) -> None:
    files = [tmp_path / name for name in ("o.json", "l.html", "left.csv", "cuts.txt")]
    options = ("--out", "--labels", "--offcuts-out", "--cut-list")
    named = [part for pair in zip(options, map(str, files), strict=True) for part in pair]
    assert run(table(tmp_path, GOOD, WIDER), *named).exit_code == 0
    order = json.loads(files[0].read_text(encoding="utf-8"))
    pieces = sum(piece["count"] for line in order["lumber"] for piece in line["pieces"])
    assert files[1].read_text(encoding="utf-8").count("<div>") == pieces
    assert "building A" in files[3].read_text(encoding="utf-8")
    again = run(table(tmp_path, GOOD), "--on-hand", str(files[2]), "--format", "json")
    assert again.exit_code == 0


def test_failing_niches_are_left_out_when_asked(tmp_path: Path) -> None:
    source = table(tmp_path, GOOD, LOW)
    result = run(source, "--only-holding", "--format", "json")
    assert result.exit_code == 1
    told = json.loads(result.stdout)
    assert (told["niches"], told["left_out"], told["failing"]) == (12, 5, 0)
    assert told["warnings"]["left_out"] == 5
    assert [one["findings"] for one in told["fails"]] == [["does-not-go-in"]]


@pytest.mark.parametrize("form", ["table", "csv", "json", "markdown"])
def test_an_order_in_which_nothing_is_left_says_so(tmp_path: Path, form: str) -> None:
    result = run(table(tmp_path, LOW), "--only-holding", "--format", form, "--out", "-")
    assert (result.exit_code, result.stderr) == (1, "")
    assert "does-not-go-in" in result.stdout


def test_another_board_stands_side_by_side(tmp_path: Path) -> None:
    source = table(tmp_path, GOOD)
    result = run(source, "--alternate", "2x10", "--format", "json")
    told = json.loads(result.stdout)
    (other,) = told["alternates"]
    assert (other["name"], {line["size"] for line in other["lumber"]}) == ("2x10", {"2x10"})
    assert {line["size"] for line in told["lumber"]} == {"2x6"}
    wrong = run(source, "--alternate", "2x7")
    assert (wrong.exit_code, "2x7" in wrong.stderr) == (2, True)


def test_a_niche_too_wide_for_every_stick_is_told_by_row_and_skipped(tmp_path: Path) -> None:
    source = table(tmp_path, GOOD, WIDER.replace("A,12", "B,1"))
    stock = ("--stock", "33 1/8 in, 33 1/16 in")
    stopped = run(source, *stock)
    assert stopped.exit_code == 2
    assert "niches.csv row 3 (Quillet Yard, 3A): 2x6 SPF: read a board 33.25 in long" in (
        stopped.stderr
    )
    skipped = run(source, *stock, "--skip-bad", "--format", "json")
    assert skipped.exit_code == 1
    told = json.loads(skipped.stdout)
    assert (told["niches"], told["skipped_rows"]) == (12, 1)


def test_the_same_file_twice_is_refused(tmp_path: Path) -> None:
    source = table(tmp_path, GOOD)
    result = run(source, source)
    assert (result.exit_code, "each file once" in result.stderr) == (2, True)


def test_own_tables_of_the_jobs_hold_for_prices_too(tmp_path: Path) -> None:
    own = "name,property,value,source,read\n" + "".join(
        f"2x7,{name},{value},measured in the shop,measured\n"
        for name, value in (
            ("thickness_in", 1.5), ("width_in", 6.25), ("nominal_thickness_in", 2),
            ("nominal_width_in", 7),
        )
    )  # fmt: skip
    (tmp_path / "sizes.csv").write_text(own, encoding="utf-8")
    path = tmp_path / "n.csv"
    row = GOOD.replace("2x6", "2x7")
    path.write_text(f"{HEADING},tables.lumber\n{row},sizes.csv\n", encoding="utf-8")
    prices = tmp_path / "p.csv"
    prices.write_text("item,unit,price,currency\n2x7 SPF 12 ft,each,11.00,USD\n", encoding="utf-8")
    result = run(str(path), "--prices", str(prices), "--format", "json")
    told = json.loads(result.stdout)
    (line,) = [line for line in told["lumber"] if line["size"] == "2x7"]
    assert [stick["price_each"] for stick in line["sticks"]] == [11.0]
    assert told["price_rows_not_read"] == []


def test_a_metric_job_is_ordered_by_its_section_and_class() -> None:
    told = json.loads(run(str(demo_path("6a-metric.toml")), "--format", "json").stdout)
    assert {(line["size"], line["species"]) for line in told["lumber"]} == {("45x145", "C24")}
    lengths = [stick["length"] for line in told["lumber"] for stick in line["sticks"]]
    assert all(length * 25.4 % 600 > 599 for length in lengths)  # 2.4 to 6 m, 1/32 in down


class Terminal(io.StringIO):
    """Stands for standard error on a terminal."""

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize("kind", ["csv", "folder", "workbook"])
def test_progress_is_told_for_every_kind_of_input(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kind: str
) -> None:
    from bracecalc.cli import takeoff_run

    jobs = {
        "csv": table(tmp_path, *[GOOD] * 600),
        "folder": str(tmp_path),
        "workbook": str(tmp_path / "n.xlsx"),
    }
    if kind == "folder":
        for number in range(501):
            (tmp_path / f"{number}.toml").touch()
    shown = Terminal()
    monkeypatch.setattr(sys, "stderr", shown)
    with takeoff_run._progress([jobs[kind]]) as progress:
        assert progress is not None
        progress(300)
    assert "niches" in shown.getvalue()


def test_what_a_table_holds_never_steers_the_terminal(tmp_path: Path) -> None:
    hostile = "\x1b[2J\u202e3B"
    heading = HEADING.replace("building", f"niche.{hostile}")
    path = tmp_path / "n.csv"
    path.write_text(f"{heading}\n{GOOD}\n", encoding="utf-8")
    titled = WRONG.replace("Quillet Yard, 3A", hostile)
    for result in (run(str(path)), run(table(tmp_path, GOOD, titled))):
        assert result.exit_code == 2
        told = result.stderr.replace("\n", "")
        assert "\\x1b[2J\\u202e3B" in told
        assert told.isprintable()
