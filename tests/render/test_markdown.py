"""A plan as markdown: the same as on the terminal, and no text of a job becomes markup."""

from __future__ import annotations

import re
from pathlib import Path

import click
import pytest
from jobs import job

from bracecalc.jobfile.read import read_job
from bracecalc.planning.plan import make_plan
from bracecalc.render.document import plan_document
from bracecalc.render.markdown import escaped, plan_markdown, section_markdown
from bracecalc.render.sections import Grid, Items, Paragraph, Section, SectionCode

DEMOS = sorted((Path(__file__).parents[2] / "data" / "demo").glob("*.toml"))


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_every_section_has_its_heading_and_every_table_its_rows(path: Path) -> None:
    plan = make_plan(read_job(path), show_work=True)
    text = plan_markdown(plan)
    headings = re.findall(r"^#+ (.*)$", text, re.MULTILINE)
    document = plan_document(plan)
    assert headings == [escaped(section.heading) for section in document]
    rows = sum(
        len(block.rows) for section in document for block in section.blocks
        if isinstance(block, Grid)
    )  # fmt: skip
    grids = sum(isinstance(block, Grid) for section in document for block in section.blocks)
    assert len(re.findall(r"^\|", text, re.MULTILINE)) == rows + 2 * grids
    assert "\x1b" not in text


@pytest.mark.parametrize(
    "title",
    [
        "<script>alert(1)</script>",
        "[here](javascript:alert(1)) ![x](http://x)",
        "a | b\n\n# another heading",
        "*b* _i_ `c` \\ #",
        "&lt; &#x3c;",
        "\x1b[31mred\u202e",
    ],
)
def test_a_title_can_not_become_markup(title: str) -> None:
    first = plan_markdown(make_plan(job(title=title))).split("\n")[0]
    assert first.startswith("# ")
    body = first[2:]
    assert "<" not in body
    assert ">" not in body
    # each sign that markdown acts on stands behind a backslash
    assert not re.search(r"(?<!\\)(?:\\\\)*[`*_\[\]|#]", body)
    assert body.isprintable()


def test_ampersands_stay_what_they_were() -> None:
    assert escaped("&lt;b&gt;") == "&amp;lt;b&amp;gt;"
    assert escaped("plain text, 1/4 in") == "plain text, 1/4 in"


def test_a_cell_can_not_break_its_table() -> None:
    grid = Grid(("a", "b"), (("x | y", "line\nbreak"),))
    lines = section_markdown(Section(SectionCode.POINTS, "T", (grid,)), 2).strip().split("\n")
    assert len(lines) == 5  # heading, blank, headings, rule, one row
    assert len(re.findall(r"(?<!\\)\|", lines[-1])) == 3


def test_lists_and_levels() -> None:
    section = Section(
        SectionCode.MARK, "Mark", (Items((("1.", "first"), ("2.", "second"))), Paragraph("Then."))
    )
    assert section_markdown(section, 3) == "### Mark\n\n1. first\n2. second\n\nThen.\n"
    loose = Section(SectionCode.FINDINGS, "Find", (Items((("Note", "a"), ("-", "b"))),))
    assert section_markdown(loose, 2) == "## Find\n\n- **Note** a\n- b\n"


def test_terminal_and_markdown_tell_the_same() -> None:
    from bracecalc.render.text import plan_text

    plan = make_plan(job())
    words = set(re.findall(r"\w+", click.unstyle(plan_text(plan, full=True)).lower()))
    marked = set(re.findall(r"\w+", plan_markdown(plan).replace("\\", "").lower()))
    assert marked - words <= set()
