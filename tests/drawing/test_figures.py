"""The figures of the docs are those that the code draws now."""

from __future__ import annotations

import re
import runpy
from pathlib import Path

import pytest

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
HAIR = 0.002  # pt: Pythons sum the last digit differently, and a position is written to 0.001
NAMES = [
    f"sheet-{view}.svg"
    for view in ("elevation", "section", "detail", "legs", "niche", "loads", "tolerances")
]
EXAMPLE = ["worked-example-elevation.svg", "worked-example-section.svg"]
DOCS = Path(__file__).parents[2] / "docs"


def test_figures_are_current() -> None:
    drawn = runpy.run_path(str(DOCS / "figures" / "sheet_views.py"))["pictures"]()
    assert set(drawn) == {*NAMES, *EXAMPLE}
    for name, picture in drawn.items():
        kept = DOCS / "figures" / name
        was, now = kept.read_text(encoding="utf-8"), picture.decode()
        assert NUMBER.sub("", was) == NUMBER.sub("", now), "stale: docs/figures/sheet_views.py"
        places = [[float(number) for number in NUMBER.findall(text)] for text in (was, now)]
        assert places[0] == pytest.approx(places[1], abs=HAIR)
        assert len(picture) < 60_000


def test_the_page_shows_each_figure() -> None:
    for page, names in (("sheet.md", NAMES), ("worked-example.md", EXAMPLE)):
        text = (DOCS / page).read_text(encoding="utf-8")
        for name in names:
            assert f"figures/{name}" in text


def test_the_measures_are_current() -> None:
    drawn = runpy.run_path(str(DOCS / "figures" / "measures.py"))["picture"]()
    assert (DOCS / "figures" / "measures.svg").read_bytes() == drawn
    assert "figures/measures.svg" in (DOCS / "start-carpenter.md").read_text(encoding="utf-8")
