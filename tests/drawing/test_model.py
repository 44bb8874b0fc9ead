"""The drawing model against closed answers: places, boxes, dimensions, hatching, labels."""

from __future__ import annotations

import itertools
import json
import math
import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bracecalc.drawing.flattening import flatten
from bracecalc.drawing.lettering import (
    CAPITAL,
    LEAST,
    Face,
    bare,
    clean,
    letter_widths,
    measure,
    wrap,
)
from bracecalc.drawing.model import (
    STROKES,
    Anchor,
    Bracket,
    Break,
    Cells,
    Circle,
    Dimension,
    Drawing,
    Frame,
    Group,
    Hatch,
    Line,
    Mark,
    MarkKind,
    Pattern,
    Pen,
    Polyline,
    Rect,
    Text,
    Tone,
    Turn,
    View,
    standard_scale,
)
from bracecalc.drawing.placing import Column, Label, column, overlap, spread
from bracecalc.drawing.svg import svg_bytes

FRAME = Frame(scale=6.0, origin=(100.0, 500.0))


def test_a_frame_turns_up_into_down() -> None:
    assert FRAME.page((0.0, 0.0)) == (100.0, 500.0)
    assert FRAME.page((10.0, 20.0)) == (160.0, 380.0)
    assert FRAME.ratio == 12.0  # 6 points an inch: 72 / 6


@given(st.floats(10, 1000), st.floats(0.1, 1000))
def test_a_standard_scale_fits_and_the_next_larger_would_not(room: float, extent: float) -> None:
    scale = standard_scale(room, extent)
    ratio = 72.0 / scale
    assert extent * scale <= room + 1e-6
    assert ratio == pytest.approx(round(ratio))


def test_standard_scales_are_those_of_rules() -> None:
    # architect's scales 3, 1-1/2, 1, 3/4 and 1/2 in to the foot: 1:4, 1:8, 1:12, 1:16, 1:24
    # (common practice), and 1:5, 1:10, 1:20 of ISO 5455:1979
    found = {round(72.0 / standard_scale(100.0, extent / 0.72)) for extent in range(1, 100)}
    assert {4, 8, 12, 16, 24, 5, 10, 20} <= found


def test_an_upright_text_lies_along_the_height() -> None:
    level = Text((50.0, 50.0), "1 1/2 in", 8.0, Anchor.MIDDLE).box()
    upright = Text((50.0, 50.0), "1 1/2 in", 8.0, Anchor.MIDDLE, turn=Turn.UPRIGHT).box()
    assert level[2] - level[0] == pytest.approx(upright[3] - upright[1])
    assert level[3] - level[1] == pytest.approx(upright[2] - upright[0])


def test_a_dimension_has_two_slashes_on_the_measured_places() -> None:
    shape = Dimension((0.0, 0.0), (10.0, 0.0), -12.0, "10 in", name="length")
    marks = flatten(View("v", "a view", FRAME, (shape,))).items
    lines = [one for one in marks if isinstance(one, Line)]
    (named,) = [one for one in lines if one.name == "length"]
    assert (named.start, named.end) == ((100.0, 512.0), (160.0, 512.0))
    slashes = [one for one in lines if one.pen is Pen.EDGE]
    middles = sorted((a.start[0] + a.end[0]) / 2 for a in slashes)
    assert middles == [100.0, 160.0]
    for one in slashes:  # at 45 degrees
        run, rise = one.start[0] - one.end[0], one.start[1] - one.end[1]
        assert abs(run) == pytest.approx(abs(rise))
    (words,) = [one for one in marks if isinstance(one, Text)]
    assert words.at[0] == 130.0
    assert words.box()[3] < 512.0  # over the line, clear of it


def test_an_upright_dimension_reads_from_the_right() -> None:
    shape = Dimension((0.0, 0.0), (0.0, 10.0), 12.0, "10 in", name="height")
    marks = flatten(View("v", "a view", FRAME, (shape,))).items
    (named,) = [one for one in marks if isinstance(one, Line) and one.name == "height"]
    assert named.start[0] == named.end[0] == 112.0
    (words,) = [one for one in marks if isinstance(one, Text)]
    assert words.turn is Turn.UPRIGHT


@given(
    st.floats(-50, 50), st.floats(0.5, 40), st.floats(-50, 50), st.floats(0.5, 40), st.floats(2, 9)
)
def test_hatching_stays_in_its_area(
    left: float, width: float, low: float, height: float, spacing: float
) -> None:
    for pattern in Pattern:
        hatch = Hatch((left, low), (left + width, low + height), pattern, spacing)
        lines = flatten(View("v", "a view", FRAME, (hatch,))).items
        x0, y1 = FRAME.page((left, low))
        x1, y0 = FRAME.page((left + width, low + height))
        for line in lines:
            assert isinstance(line, Line)
            for x, y in (line.start, line.end):
                assert x0 - 1e-6 <= x <= x1 + 1e-6
                assert y0 - 1e-6 <= y <= y1 + 1e-6


@pytest.mark.parametrize("kind", MarkKind)
def test_each_sign_is_drawn_around_its_place(kind: MarkKind) -> None:
    marks = flatten(View("v", "a view", FRAME, (Mark((1.0, 2.0), kind, name="screw"),))).items
    first = marks[0]
    assert not isinstance(first, Text)
    assert first.name == "screw"
    signs = {str(flatten(View("v", "", FRAME, (Mark((0.0, 0.0), one),))).items) for one in MarkKind}
    assert len(signs) == len(MarkKind)  # told apart by their form alone


def test_words_are_not_shapes_of_the_real_thing() -> None:
    with pytest.raises(ValueError, match="notes on the page"):
        flatten(View("v", "", FRAME, (Text((0.0, 0.0), "no", 8.0),)))


def test_cells_cover_what_is_black_and_nothing_else() -> None:
    rows = ((True, True, False), (False, False, False), (True, False, True))
    boxes = list(Cells((10.0, 20.0), 2.0, rows).runs())
    assert boxes == [
        (10.0, 20.0, 14.0, 22.0),
        (10.0, 24.0, 12.0, 26.0),
        (14.0, 24.0, 16.0, 26.0),
    ]


def test_every_item_becomes_an_element() -> None:
    items = (
        Line((0.0, 0.0), (1.0, 1.0), Pen.CUT, "a"),
        Polyline(((0.0, 0.0), (1.0, 0.0)), Pen.EDGE, name="b"),
        Polyline(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), Pen.EDGE, Tone.BOARD, "c", closed=True),
        Rect((1.0, 3.0), (4.0, 1.0), Pen.NONE, Tone.INK, "d"),
        Circle((2.0, 2.0), 1.0, Pen.EDGE, name="e"),
        Text((1.0, 1.0), "<f> & g", 8.0, name="f"),
        Cells((0.0, 0.0), 1.0, ((True,),), "g"),
    )
    root = ET.fromstring(svg_bytes(Drawing("all", 10.0, 10.0, (Group("all", "", items),))))
    found = {
        one.get("data-name"): one.tag.rpartition("}")[2]
        for one in root.iter()
        if one.get("data-name")
    }
    assert found == {
        "a": "line",
        "b": "polyline",
        "c": "polygon",
        "d": "rect",
        "e": "circle",
        "f": "text",
        "g": "path",
    }
    (text,) = [one.text for one in root.iter() if one.get("data-name") == "f"]
    assert text == "<f> & g"


def test_widths_are_those_of_the_embedded_typeface() -> None:
    typst: Any = pytest.importorskip("typst")
    fonts = pytest.importorskip("manimgx_fonts")
    known = list(letter_widths()[Face.REGULAR])
    source = """
        #set text(font: "Noto Sans", size: 1000pt, kerning: false, ligatures: false)
        #let wide(weight, letter) = measure(text(weight: weight, "|" + letter + "|")).width.pt()
        #context [#metadata(json(bytes(sys.inputs.letters)).map(
          one => (wide(400, one), wide(700, one)))) <widths>]"""
    found = typst.query(
        source.encode(),
        "<widths>",
        font_paths=[str(Path(fonts.__file__).parent)],
        ignore_system_fonts=True,
        sys_inputs={"letters": json.dumps([*known, ""])},
    )
    *widths, bars = json.loads(found)[0]["value"]
    for letter, wide in zip(known, widths, strict=True):
        for face, per_mille, bar in zip(Face, wide, bars, strict=True):
            assert measure(letter, 1000.0, face) == pytest.approx(per_mille - bar, abs=0.51), letter


def test_capitals_at_the_least_size_are_as_high_as_they_must_be() -> None:
    assert LEAST * CAPITAL >= 1.8 * 72.0 / 25.4  # ISO 3098-1:2015: 1.8 mm
    widths = {stroke.width * 25.4 / 72.0 for stroke in STROKES.values()}
    series = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7)  # mm, ISO 128-2:2020
    assert all(any(abs(width - one) < 1e-9 for one in series) for width in widths)


def test_numbers_stay_with_their_fraction_and_unit() -> None:
    words = clean("No. 14 x 6 in screw, 81 5/8 in up, 140 lbf")
    assert bare(words) == "No. 14 x 6 in screw, 81 5/8 in up, 140 lbf"
    for width in range(20, 200, 5):
        for line in wrap(words, float(width), 8.0):
            assert not re.search(r"\b81$|^5/8|^in\b|^lbf|No\.$", bare(line)) or width < 50


@pytest.mark.parametrize(("shape", "count"), [("break", 1), ("bracket", 1)])
def test_breaks_and_brackets_are_seen_at_any_scale(shape: str, count: int) -> None:
    item = (
        Break((0.0, 0.0), (10.0, 0.0), "cut")
        if shape == "break"
        else Bracket((0.0, 0.0), (0.0, 0.01), -1.0, "reach")
    )
    marks = flatten(View("v", "", FRAME, (item,))).items
    assert len(marks) == count
    (mark,) = marks
    assert isinstance(mark, Polyline)
    ys = [y for _, y in mark.points]
    assert max(ys) - min(ys) >= 4.0 - 1e-9


@given(st.text(max_size=300), st.floats(20, 300), st.floats(5, 12))
def test_wrapped_lines_fit_and_lose_nothing(text: str, width: float, size: float) -> None:
    text = clean(text)
    lines = wrap(text, width, size)
    assert "".join(bare("".join(lines)).split()) == "".join(bare(text).split())
    for line in lines:
        assert measure(line, size) <= width + 1e-6 or len(line) == 1


@given(
    st.lists(st.floats(0, 500), min_size=1, max_size=12).map(sorted),
    st.floats(1, 30),
)
def test_spread_labels_are_clear_of_each_other(places: list[float], size: float) -> None:
    sizes = [size] * len(places)
    middles = spread(places, sizes, 0.0, 500.0)
    assert all(b - a >= size - 1e-6 for a, b in itertools.pairwise(middles))
    assert middles[0] >= size / 2 - 1e-6
    if len(places) * size <= 500.0:
        assert middles[-1] <= 500.0 - size / 2 + 1e-6
    alone = [b - a > 2 * size for a, b in itertools.pairwise(places)]
    if all(alone) and places[0] > size and places[-1] < 500.0 - size:
        assert middles == pytest.approx(places)


def test_a_column_leads_from_each_place_to_its_words() -> None:
    labels = [Label(100.0, ("top", "85 in")), Label(101.0, ("underside",))]
    marks = column(labels, Column(50.0, 40.0, 0.0, 200.0), 8.0)
    boxes = [one.box() for one in marks if isinstance(one, Text)]
    assert len(boxes) == 3
    assert not any(overlap(a, b) for i, a in enumerate(boxes) for b in boxes[i + 1 :])
    starts = {one.start for one in marks if isinstance(one, Line)}
    assert {(50.0, 100.0), (50.0, 101.0)} <= starts
    assert all(math.isclose(box[2], 38.0) for box in boxes)
