"""A plan on the terminal: 80 columns, no codes in a pipe, nothing that steers the terminal."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import click
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs import job, jobs
from tabulate import tabulate

from bracecalc.jobfile.read import read_job
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CarriedScrew, Job, PublishedScrew, Screws
from bracecalc.records.plan import Verdict
from bracecalc.records.surroundings import Clearance, Surroundings
from bracecalc.render.sections import Grid, Items, Paragraph, Section, SectionCode
from bracecalc.render.text import (
    WIDTH,
    columns_text,
    plan_text,
    printable,
    section_text,
    title_text,
)

DEMOS = sorted((Path(__file__).parents[2] / "data" / "demo").glob("*.toml"))
HOSTILE = {
    "escape": "3B\x1b[2J\x1b]0;owned\x07\x1b[31m",
    "controls": "3B\r\nnext\tline\x00\x08\x7f\x9b31m",
    "right to left": "3B \u202egnihton\u202c \u2066x\u2069",
    "markup": "<script>alert(1)</script> [a](javascript:b) **c**",
    "very long": "Quillet Yard " * 40,
    "one long word": "x" * 500,
    "capitals that grow": "\u00df" * 90,
    "separators": "a\u2028b\u2029c\u0085d",
}


def wide(text: str) -> list[str]:
    return [line for line in click.unstyle(text).split("\n") if len(line) > WIDTH]


@pytest.mark.parametrize("show_work", [False, True], ids=["plan", "explain"])
@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_no_line_of_a_demo_is_wider_than_80(path: Path, show_work: bool) -> None:
    assert wide(plan_text(make_plan(read_job(path), show_work=show_work))) == []


@settings(max_examples=60, deadline=None)
@given(job=jobs())
def test_no_line_of_any_job_is_wider_than_80(job: Job) -> None:
    assert wide(plan_text(make_plan(job, show_work=True))) == []


@pytest.mark.parametrize("title", HOSTILE.values(), ids=list(HOSTILE))
def test_a_title_can_not_steer_the_terminal_nor_break_the_page(title: str) -> None:
    text = plan_text(make_plan(job(title=title)))
    assert wide(text) == []
    plain = click.unstyle(text)
    assert all(sign.isprintable() for sign in plain.replace("\n", ""))
    # colour of our own, and no other code
    assert set(re.findall(r"\x1b\[[^m]*m", text)) <= {"\x1b[0m", "\x1b[1m", "\x1b[32m"}
    assert "\x1b" not in re.sub(r"\x1b\[\d+m", "", text)


@pytest.mark.parametrize("hostile", HOSTILE.values(), ids=list(HOSTILE))
def test_no_other_text_of_a_job_can_steer_the_terminal_either(hostile: str) -> None:
    makers = PublishedScrew(
        size=hostile, diameter=0.19, head_diameter=0.5, length=5.5, thread_length=3.0,
        least_embedment=1.5, lateral=150.0, withdrawal=120.0, pull_through=300.0,
        largest_gap=0.5, source=hostile,
    )  # fmt: skip
    inner = CarriedScrew(size="10", lengths=(3.5,))
    clearance = Clearance(name=hostile, required=1.0, measured=0.5)
    given = replace(
        job(screws=Screws(carried=(inner,), published=(makers,))),
        surroundings=Surroundings(clearances=(clearance,)),
    )
    plan = make_plan(given)
    assert plan.screws[-1].size == hostile
    plain = click.unstyle(plan_text(plan))
    assert wide(plain) == []
    assert all(sign.isprintable() for sign in plain.replace("\n", ""))


def test_control_signs_are_made_visible_not_dropped() -> None:
    assert printable("a\x1bb\nc") == "a\\x1bb\\nc"
    assert printable("\u202e") == "\\u202e"
    assert printable("84\u00bc\u2033, caf\u00e9, \u05e9\u05dc\u05d5\u05dd") == (
        "84\u00bc\u2033, caf\u00e9, \u05e9\u05dc\u05d5\u05dd"
    )


@pytest.mark.parametrize(
    ("verdict", "colour"), [(Verdict.HOLDS, 32), (Verdict.CLOSE, 33), (Verdict.FAILS, 31)]
)
def test_the_verdict_is_said_in_words_before_colour(verdict: Verdict, colour: int) -> None:
    section = Section(SectionCode.VERDICT, "3B", (Paragraph("It is so."),))
    text = title_text(section, verdict)
    assert f"\x1b[{colour}m" in text
    title, rule, said = click.unstyle(text).split("\n")
    assert (title, set(rule), said) == ("3B", {"="}, "It is so.")


def test_a_table_too_wide_is_folded_not_cut() -> None:
    words = "one two three four five six seven eight nine ten eleven twelve thirteen"
    grid = Grid(("a", "a long heading here", "c"), ((words, words, words),))
    text = section_text(Section(SectionCode.POINTS, "Table", (grid,)))
    assert wide(text) == []
    cells = " ".join(text.split())
    for word in words.split():
        assert cells.count(word) >= 3


def test_numbers_in_tables_stay_as_they_were_written() -> None:
    grid = Grid(("bit", "turns"), (("1/8 in", "16.0"), ("01", "1e3")))
    text = section_text(Section(SectionCode.POINTS, "Table", (grid,)))
    assert "16.0" in text
    assert "01" in text
    assert "1e3" in text


def test_items_hang_under_their_first_word() -> None:
    text = section_text(Section(SectionCode.POINTS, "List", (Items((("1.", "word " * 40),)),)))
    first, *rest = text.split("\n")[2:]
    assert first.startswith("  1. word")
    assert rest
    assert all(line.startswith("     word") for line in rest)


def some_words(most: int) -> st.SearchStrategy[str]:
    words = st.sampled_from(["the", "screws", "1 1/4 in", "concealed-services", "holds", "-"])
    return st.lists(words, max_size=most).map(" ".join)


@given(st.integers(2, 5).flatmap(lambda n: st.lists(st.tuples(*[some_words(2)] * n), min_size=1)))
@settings(max_examples=60)
def test_a_table_that_fits_is_as_tabulate_writes_it(rows: list[tuple[str, ...]]) -> None:
    headings = ["leg", "must hold", "x", "turns", "out"][: len(rows[0])]
    by_tabulate = tabulate(rows, headers=headings, tablefmt="simple", disable_numparse=True)
    if wide(by_tabulate) == []:
        assert columns_text(headings, rows) == by_tabulate
