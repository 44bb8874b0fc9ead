"""``bracecalc sheet`` as it is called."""

from __future__ import annotations

import importlib.util
import io
import subprocess
import sys
from importlib.resources import as_file, files
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from bracecalc.cli.main import group
from bracecalc.drawing.code import unpack
from bracecalc.jobfile.read import parse_job

JOB = "3b-kitchen.toml"
DAY = ("--as-of", "2026-11-25")


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    folder = tmp_path / "demo"
    folder.mkdir()
    for name in (JOB, "1b-soffit-too-low.toml", "6a-metric.toml"):
        with as_file(files("bracecalc.data.demo").joinpath(name)) as path:
            (folder / name).write_bytes(path.read_bytes())
    return folder


def call(*words: str | Path) -> Result:
    return CliRunner().invoke(group, ["sheet", *map(str, words), *DAY])


@pytest.mark.parametrize(
    ("ending", "start"), [("pdf", b"%PDF"), ("html", b"<!DOC"), ("svg", b"<?x")]
)
def test_the_ending_says_what_is_written(
    demo: Path, tmp_path: Path, ending: str, start: bytes
) -> None:
    out = tmp_path / f"sheet.{ending}"
    done = call(demo / JOB, "-o", out)
    assert (done.exit_code, done.stdout, done.stderr) == (0, "", f"wrote {out}\n")
    assert out.read_bytes().startswith(start)


def test_the_same_job_and_day_give_the_same_sheet(demo: Path, tmp_path: Path) -> None:
    one, other = tmp_path / "one.svg", tmp_path / "other.svg"
    call(demo / JOB, "-o", one)
    call(demo / JOB, "-o", other)
    assert one.read_bytes() == other.read_bytes()
    assert b"2026-11-25" in one.read_bytes()


def test_a_plan_that_fails_is_drawn_and_said(demo: Path, tmp_path: Path) -> None:
    out = tmp_path / "sheet.pdf"
    done = call(demo / "1b-soffit-too-low.toml", "-o", out)
    assert done.exit_code == 1
    text = PdfReader(io.BytesIO(out.read_bytes())).pages[0].extract_text()
    assert "FAILS: DO NOT BUILD AS IT IS" in text
    assert "too low" in text


def test_nothing_is_overwritten_unasked(demo: Path, tmp_path: Path) -> None:
    out = tmp_path / "sheet.svg"
    out.write_text("mine")
    done = call(demo / JOB, "-o", out)
    assert done.exit_code == 2
    assert "--force" in done.stderr
    assert out.read_text() == "mine"
    assert call(demo / JOB, "-o", out, "--force").exit_code == 0
    assert out.read_text() != "mine"


@pytest.mark.parametrize("name", ["sheet.doc", "sheet", "sheet.pdf.txt"])
def test_another_ending_is_refused(demo: Path, tmp_path: Path, name: str) -> None:
    done = call(demo / JOB, "-o", tmp_path / name)
    assert done.exit_code == 2
    assert ".pdf, .html or .svg" in done.stderr
    assert not (tmp_path / name).exists()


def test_a_job_that_is_wrong_writes_nothing(tmp_path: Path) -> None:
    job, out = tmp_path / "bad.toml", tmp_path / "sheet.pdf"
    job.write_text("[niche]\nwidth = '33 ib'\n")
    done = call(job, "-o", out)
    assert done.exit_code == 2
    assert "33 ib" in done.stderr
    assert "Traceback" not in done.output
    assert not out.exists()


def test_a_folder_makes_one_pdf_with_an_index(demo: Path, tmp_path: Path) -> None:
    out = tmp_path / "all.pdf"
    done = call(demo, "-o", out)
    assert done.exit_code == 1  # one of them fails
    reader = PdfReader(io.BytesIO(out.read_bytes()))
    assert len(reader.pages) >= 1 + 3 * 2
    assert "3 sheets, 1 that fail" in reader.pages[0].extract_text()


def test_many_jobs_in_one_html(demo: Path, tmp_path: Path) -> None:
    out = tmp_path / "all.html"
    call(demo, "-o", out)
    text = out.read_text()
    assert text.count("<article") == 3
    assert text.count('class="page"') >= 3 * 2
    ids = [part.split('"')[0] for part in text.split(' id="')[1:]]
    assert len(ids) == len(set(ids))


def test_a_table_makes_a_sheet_a_row(tmp_path: Path) -> None:
    out = tmp_path / "all.pdf"
    with as_file(files("bracecalc.data.demo").joinpath("quillet-yard.csv")) as table:
        done = call(table, "-o", out)
        rows = table.read_text(encoding="utf-8").strip().count("\n")
    assert done.exit_code in (0, 1)
    reader = PdfReader(io.BytesIO(out.read_bytes()))
    text = [page.extract_text() for page in reader.pages]
    assert sum("Set-out in working order" in page for page in text) >= rows / 2
    assert len(text) > 2 * rows
    assert "Quillet Yard A1 studio (invented demo): 12 alike" in " ".join(text[0].split())


def test_every_bad_row_of_a_table_is_told_at_once(tmp_path: Path) -> None:
    table, out = tmp_path / "niches.csv", tmp_path / "all.pdf"
    table.write_text("title,niche.width\nA,33 ib\nB,34 ib\n")
    done = call(table, "-o", out)
    assert done.exit_code == 2
    assert "33 ib" in done.stderr
    assert "34 ib" in done.stderr
    assert not out.exists()


def test_a_job_from_standard_input(demo: Path, tmp_path: Path) -> None:
    text = (demo / JOB).read_text(encoding="utf-8")
    words = ["sheet", "-", "-o", str(tmp_path / "a.svg"), *DAY]
    assert CliRunner().invoke(group, words, input=text).exit_code == 0


def test_an_svg_holds_one(demo: Path, tmp_path: Path) -> None:
    done = call(demo, "-o", tmp_path / "all.svg")
    assert done.exit_code == 2
    assert "one sheet" in done.stderr


def test_paper_follows_the_job_unless_it_is_said(demo: Path, tmp_path: Path) -> None:
    out = tmp_path / "sheet.svg"
    for job, options, wanted in (
        (JOB, (), "612pt"),
        ("6a-metric.toml", (), "595.28pt"),
        (JOB, ("--paper", "a4"), "595.28pt"),
    ):
        call(demo / job, "-o", out, "--force", *options)
        assert ET.fromstring(out.read_bytes()).get("width") == wanted


@pytest.mark.parametrize(
    ("units", "there", "absent"),
    [("inch", " in", " mm"), ("mm", " mm", "1/2 in above"), ("both", " mm", None)],
)
def test_units(demo: Path, tmp_path: Path, units: str, there: str, absent: str | None) -> None:
    out = tmp_path / "sheet.svg"
    call(demo / JOB, "-o", out, "--units", units)
    words = [
        one.text or "" for one in ET.fromstring(out.read_bytes()).iter() if one.tag[-4:] == "text"
    ]
    plain = [word.replace("\u00a0", " ") for word in words]
    assert any(there in word for word in plain)
    assert absent is None or not any(absent in word for word in plain)


def test_the_units_shown_leave_revision_and_code_alone(demo: Path, tmp_path: Path) -> None:
    found = set()
    for units in ("inch", "mm", "both"):
        out = tmp_path / f"{units}.svg"
        call(demo / JOB, "-o", out, "--units", units)
        words = [one.text or "" for one in ET.fromstring(out.read_bytes()).iter()]
        found.add(next(word for word in words if word.startswith("This job, ")))
    assert len(found) == 1


@pytest.mark.parametrize("missing", ["typst", "manimgx_fonts"])
def test_without_its_packages_a_pdf_asks_for_them(
    demo: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, missing: str
) -> None:
    real = importlib.util.find_spec
    monkeypatch.setattr(
        "bracecalc.drawing.pdf.find_spec", lambda name: None if name == missing else real(name)
    )
    out = tmp_path / "sheet.pdf"
    done = call(demo / JOB, "-o", out)
    assert done.exit_code == 2
    assert missing.replace("_", "-") in done.stderr
    assert "bracecalc[sheet]" in done.stderr
    assert done.stderr.count("\n") == 1
    assert not out.exists()
    assert call(demo / JOB, "-o", tmp_path / "sheet.html").exit_code == 0
    assert call(demo / JOB, "-o", tmp_path / "sheet.svg").exit_code == 0


def test_a_letter_that_no_font_has_is_told(demo: Path, tmp_path: Path) -> None:
    text = (demo / JOB).read_text(encoding="utf-8").replace("3B", "3\U00013000")
    job, out = tmp_path / "rare.toml", tmp_path / "rare.pdf"
    job.write_text(text, encoding="utf-8")
    done = call(job, "-o", out)
    assert done.exit_code == 0
    assert "U+13000" in done.stderr
    assert out.exists()


def test_many_sheets_in_html_are_a_file_each_beside_the_index(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    folder.mkdir()
    text = files("bracecalc.data.demo").joinpath(JOB).read_text(encoding="utf-8")
    for number in range(13):
        (folder / f"{number:02d}.toml").write_text(text, encoding="utf-8")
    out = tmp_path / "all.html"
    assert call(folder, "-o", out).exit_code == 0
    sheets = tmp_path / "all-sheets"
    assert len(list(sheets.iterdir())) == 13
    assert "all-sheets/013.html" in out.read_text(encoding="utf-8")
    out.unlink()
    done = call(folder, "-o", out)  # the folder is there: nothing is written over it unasked
    assert done.exit_code == 2
    assert "--force" in done.stderr
    assert not out.exists()


def test_the_same_job_and_day_give_the_same_bytes(demo: Path, tmp_path: Path) -> None:
    one, other = tmp_path / "one.pdf", tmp_path / "other.pdf"
    call(demo / JOB, "-o", one)
    call(demo / JOB, "-o", other)
    assert one.read_bytes() == other.read_bytes()


def test_what_is_not_needed_is_not_loaded(demo: Path, tmp_path: Path) -> None:
    program = (
        "import sys; from bracecalc.cli.main import group; "
        f"group(['sheet', {str(demo / JOB)!r}, '-o', {str(tmp_path / 'a.svg')!r}], "
        "standalone_mode=False); "
        "print([name for name in ('typst', 'pint', 'numpy', 'tabulate', 'PIL') "
        "if name in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


def test_the_code_on_the_sheet_is_the_job(demo: Path, tmp_path: Path) -> None:
    from bracecalc.drawing.code import pack, revision
    from bracecalc.jobfile.read import read_job
    from bracecalc.jobfile.write import job_to_toml

    job = read_job(demo / JOB)
    text = job_to_toml(job, comments=False)
    out = tmp_path / "sheet.svg"
    call(demo / JOB, "-o", out)
    assert revision(text) in out.read_text()
    assert parse_job(unpack(pack(text)), where="code") == job
