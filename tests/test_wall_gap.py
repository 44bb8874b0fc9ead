"""The picture and the tables of docs/wall-gap.md are what the formulas give now."""

from __future__ import annotations

import importlib.util
import sys
from itertools import pairwise
from pathlib import Path
from types import ModuleType
from xml.etree import ElementTree as ET

import pytest

SCRIPT = Path(__file__).parents[1] / "docs" / "figures" / "capacity_against_gap.py"
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def drawing() -> ModuleType:
    spec = importlib.util.spec_from_file_location("capacity_against_gap", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module  # dataclasses look their module up there
    spec.loader.exec_module(module)
    return module


def test_the_picture_is_current(drawing: ModuleType) -> None:
    assert drawing.FIGURE.read_text(encoding="utf-8") == drawing.figure(), (
        "stale: python docs/figures/capacity_against_gap.py"
    )


def test_the_tables_are_current(drawing: ModuleType) -> None:
    text = drawing.PAGE.read_text(encoding="utf-8")
    assert text == drawing.page(text), "stale: python docs/figures/capacity_against_gap.py"


def test_a_page_without_its_marks_is_refused(drawing: ModuleType) -> None:
    with pytest.raises(ValueError, match="'full' is missing"):
        drawing.page("no table here")


def test_what_the_page_says_in_words_is_so(drawing: ModuleType) -> None:
    by_name = {screw.name: screw for screw in drawing.SCREWS}

    def holds(name: str, gap: float) -> float:
        value: float = drawing.at_full_penetration(by_name[name], gap)
        return value

    for name in by_name:
        assert 0.50 < holds(name, 0.5) / holds(name, 0.0) < 0.67
    assert holds("No. 14", 0.5) < holds("No. 10", 0.0)
    assert holds("1/4 lag", 0.0) <= holds("No. 12", 0.0)


def test_lines_are_told_apart_without_colour(drawing: ModuleType) -> None:
    assert len({screw.dashes for screw in drawing.SCREWS}) == len(drawing.SCREWS)
    assert len({screw.mark for screw in drawing.SCREWS}) == len(drawing.SCREWS)
    root = ET.fromstring(drawing.figure())
    paints = {element.get(kind, "none") for element in root.iter() for kind in ("fill", "stroke")}
    for paint in paints - {"none"}:
        red, green, blue = (paint[i : i + 2] for i in (1, 3, 5))
        assert red == green == blue, f"{paint} is a colour"


def test_labels_stand_clear_and_inside(drawing: ModuleType) -> None:
    root = ET.fromstring(drawing.figure())
    names = {screw.name for screw in drawing.SCREWS}
    places = sorted(
        float(text.get("y", "nan")) for text in root.iter(f"{SVG}text") if text.text in names
    )
    assert len(places) == len(names)
    assert min(low - high for high, low in pairwise(places)) >= 18.0 - 0.11
    assert places[-1] < drawing.HEIGHT
