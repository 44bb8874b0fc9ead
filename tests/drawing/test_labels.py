"""No label lies on another or off the page, whatever the niche."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sheetmaking import DEMO, any_jobs, demo_job, subject, wishes

from bracecalc.drawing.html import figures, pictures
from bracecalc.drawing.layout import sheet_pages
from bracecalc.drawing.model import Drawing, Text
from bracecalc.drawing.placing import overlap
from bracecalc.drawing.showing import Paper, Shown, ShownUnits
from bracecalc.records.job import Job


def crowded(drawing: Drawing) -> list[str]:
    """Return what is wrong with the labels of a drawing, in words."""
    found = []
    labels = sorted(((text.box(), text.words) for text in drawing.texts() if text.words),
                    key=lambda label: label[0][1])  # fmt: skip
    for number, (box, words) in enumerate(labels):
        left, top, right, bottom = box
        if left < -0.01 or top < -0.01 or right > drawing.width + 0.01:
            found.append(f"off the page: {words!r} {box}")
        if bottom > drawing.height + 0.01:
            found.append(f"under the page: {words!r} {box}")
        for other, others in labels[number + 1 :]:
            if other[1] > bottom:  # in order of their tops: none further down can touch it
                break
            if overlap(box, other):
                found.append(f"{words!r} {box} lies on {others!r} {other}")
    return found


@pytest.mark.parametrize("units", [None, *ShownUnits])
@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("name", DEMO)
def test_demo_sheets_are_not_crowded(name: str, paper: Paper, units: ShownUnits | None) -> None:
    for page in sheet_pages(subject(demo_job(name)), wishes(units), paper):
        assert crowded(page) == []


@settings(max_examples=60, deadline=None)
@given(any_jobs(), st.sampled_from(Paper), st.sampled_from(ShownUnits))
def test_no_page_is_crowded(job: Job, paper: Paper, units: ShownUnits) -> None:
    for page in sheet_pages(subject(job), wishes(units), paper):
        assert crowded(page) == []
        assert page.width == paper.size[0]


@settings(max_examples=30, deadline=None)
@given(any_jobs(), st.sampled_from(ShownUnits))
def test_no_figure_for_a_phone_is_crowded(job: Job, units: ShownUnits) -> None:
    one = subject(job)
    shown = Shown(job, units)
    for drawing, _ in (*figures(one, shown), *pictures(one, shown)):
        assert crowded(drawing) == []


def test_the_check_finds_what_it_looks_for() -> None:
    from bracecalc.drawing.model import Group

    texts = (Text((10.0, 20.0), "one", 8.0), Text((12.0, 22.0), "two", 8.0))
    page = Drawing("a page", 100.0, 100.0, (Group("words", "", texts),))
    assert len(crowded(page)) == 1
    outside = Drawing("a page", 18.0, 100.0, (Group("words", "", texts[:1]),))
    assert len(crowded(outside)) == 1
