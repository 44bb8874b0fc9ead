"""Phrases that read as quaint, or as something else on a site, stand in no output of the demo."""

from __future__ import annotations

import html
import re
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from bracecalc.cli.main import group

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "data" / "demo"
JOBS = sorted(DEMO.glob("*.toml"))
READINGS = ("--floor", "0; 1/8; 0; 5/16", "--board", "81 1/2 and 81 9/16; 81 5/8")

# each says on a site something else than it means, or nothing that a practitioner would say
GONE = {
    "lead hole": r"\blead \d[\d/ ]* in\b|\bbit in stud",
    "driven": r"never driven",
    "a stud": r"\b\d a stud\b",
    "turn more": r"no turn more",
    "lift far": r"lift far more than",
    "keep them up": r"only keep them up",
    "count on it": r"screws count on it|give its place and plan",
    "sure to meet": r"sure to meet|the sure number",
    "finish to come": r"of finish to come",
    "checked in full": r"not checked in full",
    "still open": r"\bStill open:",
    "across": r"pulled out\b|\bhead pulled through",
    "rest of the job": r"\bThe rest of the job\b",
    "other ways": r"\bOther ways\b",
    "at worst": r"\bat worst\b",
    "hold by": r"for the screws to hold by",
    "prouder": r"\bprouder\b",
    "leg carrying": r"leg would not carry|\bleg carrying\b",
    "had between": r"solid can be had",
    "bite in": r"for (the )?screws to bite in",
    "answers for": r"\bsomebody qualified\b|\bwhoever answers\b",
    "nothing more": r"keeps the top down, nothing more",
    "unplated": r"run unplated",
    "leave out": r"leave that place out",
    "bears": r"no published value is known for what it bears",
    "the least": r"\bis the least\b",
    "relied on": r"before bracing is relied on",
    "take floor out": r"\btake floor out\b",
    "steadies": r"\bsteadies\b|what tips it counts",
    "level force": r"\blevel force counts\b",
    "mend": r"\bmend(s|ed|ing)?\b",
    "tried": r"least effort first, each tried",
    "miss": r"\beach miss\b|\bMiss: ",
    "minus is in": r"\bminus is in\b",
    "fetched": r"screws to be fetched",
    "anew of": r"\bstack anew\b",
    "a file that exists": r"read a file that exists|read nothing; expected",
    "waved": r"waved away",
    "so far": r"screwed out so far",
    "keeps a gap": r"\bkeeps a gap\b",
    "framed at": r"that walls are framed at",
    "slip": r"slip of the pen",
    "stick": r"on a stick or by mail|film of a code",
    "pass over": r"\bto pass over\b|\bpassed over\b",
    "unit": r"\bunit's (sheet|own|top|maker)\b|\bthe unit (is|stands|tips|itself|can)\b",
    "housing": r"\bthe housing\b",
}


def said(text: str) -> list[str]:
    """Return each phrase that stands in ``text``, with what is around it."""
    lines = " ".join(text.split())
    return [
        f"{name}: ...{lines[max(0, found.start() - 40) : found.end() + 40]}..."
        for name, phrase in GONE.items()
        for found in re.finditer(phrase, lines, re.IGNORECASE)
    ]


def told(*args: object) -> str:
    result = CliRunner().invoke(group, [*map(str, args)])
    assert result.exit_code in {0, 1}, result.output
    assert len(result.output) > 100
    return result.output


def prose(page: Path) -> str:
    """Return a page without code spans and blocks: keys and values of files keep their names."""
    text = re.sub(r"^( *)```.*?^\1```", "", page.read_text("utf-8"), flags=re.DOTALL | re.MULTILINE)
    return re.sub(r"`[^`\n]+`", "", text)


def commands() -> list[str]:
    return ["", *sorted(group.list_commands(click.Context(group)))]


@pytest.mark.parametrize("name", sorted(GONE))
def test_a_phrase_is_a_pattern_that_finds_something_and_not_everything(name: str) -> None:
    assert not re.search(GONE[name], "Fasten the boards: 2 screws per stud.", re.IGNORECASE)


def test_a_phrase_is_found_across_lines_and_whatever_its_case() -> None:
    assert said("It is worked out AT\n  worst") == ["at worst: ...It is worked out AT worst..."]


@pytest.mark.parametrize("how", ["--full", "--explain"])
@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_no_plan_says_it(job: Path, how: str) -> None:
    assert said(told("plan", how, job)) == []


@pytest.mark.parametrize("job", [job for job in JOBS if job.stem[0] in "123"], ids=lambda j: j.stem)
def test_no_site_check_says_it(job: Path) -> None:
    assert said(told("check", job, *READINGS)) == []


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_no_wall_sheet_says_it(job: Path, tmp_path: Path) -> None:
    out = tmp_path / "sheet.html"
    result = CliRunner().invoke(group, ["sheet", str(job), "-o", str(out)])
    assert result.exit_code in {0, 1}, result.output
    page = re.sub(r"<(style|script)\b.*?</\1>", "", out.read_text("utf-8"), flags=re.DOTALL)
    assert said(html.unescape(re.sub(r"<[^>]+>", " ", page))) == []


def test_no_takeoff_says_it() -> None:
    assert said(told("takeoff", DEMO / "quillet-yard.csv")) == []


@pytest.mark.parametrize("command", commands())
def test_no_help_says_it(command: str) -> None:
    assert said(told(*filter(None, [command]), "--help")) == []


@pytest.mark.parametrize(
    "page", [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))], ids=lambda page: page.name
)
def test_no_page_of_the_docs_says_it(page: Path) -> None:
    assert said(prose(page)) == []
