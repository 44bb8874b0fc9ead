"""The figures of the docs are those that the code draws now."""

from __future__ import annotations

import runpy
from pathlib import Path

DOCS = Path(__file__).parents[2] / "docs"


def test_figures_are_current() -> None:
    drawn = runpy.run_path(str(DOCS / "figures" / "sheet_views.py"))["pictures"]()
    assert set(drawn) == {"sheet-elevation.svg", "sheet-section.svg", "sheet-legs.svg"}
    for name, picture in drawn.items():
        kept = DOCS / "figures" / name
        assert kept.read_bytes() == picture, "stale: python docs/figures/sheet_views.py"
        assert len(picture) < 40_000


def test_the_page_shows_each_figure() -> None:
    text = (DOCS / "sheet.md").read_text(encoding="utf-8")
    for name in ("sheet-elevation.svg", "sheet-section.svg", "sheet-legs.svg"):
        assert f"figures/{name}" in text
