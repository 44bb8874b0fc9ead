"""The HTML as a page: headings, labels, tables, and what is printed."""

from __future__ import annotations

import itertools
import re
from html.parser import HTMLParser

import pytest
from sheetmaking import DEMO, demo_job, subject, wishes

from bracecalc.drawing.html import html_bytes, html_parts
from bracecalc.drawing.model import FILLS, STROKES, Pen, Tone
from bracecalc.drawing.showing import Paper
from bracecalc.records.plan import Severity

OBJECTS = {Pen.CUT, Pen.EDGE, Pen.HIDDEN, Pen.CENTRE, Pen.TARGET, Pen.DIMENSION, Pen.HATCH}
VOID = {"meta", "br", "img", "link", "input"}


class Outline(HTMLParser):
    """Keeps the nesting, the headings in order, and what has an id or points to one."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.headings: list[tuple[int, str]] = []
        self.ids: list[str] = []
        self.labelled: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.broken: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        self.elements.append((tag, found))
        if tag not in VOID:
            self.open.append(tag)
        if re.fullmatch(r"h\d", tag):
            self.headings.append((int(tag[1]), ""))
        if found.get("id"):
            self.ids.append(str(found["id"]))
        if found.get("aria-labelledby"):
            self.labelled.append(str(found["aria-labelledby"]))

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.broken.append(tag)

    def handle_data(self, data: str) -> None:
        if any(re.fullmatch(r"h\d", tag) for tag in self.open) and self.headings:
            level, words = self.headings[-1]
            self.headings[-1] = (level, words + data)


def outline(name: str, paper: Paper = Paper.LETTER) -> Outline:
    found = Outline()
    found.feed(html_bytes([subject(demo_job(name))], wishes(), paper).decode())
    return found


@pytest.mark.parametrize("name", DEMO)
def test_the_page_is_whole(name: str) -> None:
    found = outline(name)
    assert found.broken == []
    assert found.open == []
    assert len(found.ids) == len(set(found.ids))
    assert set(found.labelled) <= set(found.ids)


@pytest.mark.parametrize("name", DEMO)
def test_headings_go_down_one_step_at_a_time(name: str) -> None:
    levels = [level for level, _ in outline(name).headings]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(later - level <= 1 for level, later in itertools.pairwise(levels))


def test_what_fails_comes_before_the_drawings() -> None:
    one = subject(demo_job("1b-soffit-too-low.toml"))
    text = html_bytes([one], wishes(), Paper.LETTER).decode()
    (failing,) = [f for f in one.plan.findings if f.severity is Severity.FAILS]
    told = text.replace("\u00a0", " ")
    assert told.index(failing.text) < told.index("<figure")
    assert told.index("DO NOT BUILD") < told.index(failing.text)


def test_screen_readers_get_names_for_drawings_and_heads_for_tables() -> None:
    found = outline("3b-kitchen.toml")
    drawings = [attrs for tag, attrs in found.elements if tag == "svg"]
    assert all(one.get("role") == "img" and one.get("aria-labelledby") for one in drawings)
    heads = [attrs for tag, attrs in found.elements if tag == "th"]
    assert heads
    assert all(one.get("scope") in ("row", "col") for one in heads)
    (html,) = [attrs for tag, attrs in found.elements if tag == "html"]
    assert html.get("lang") == "en"
    (printed,) = [attrs for tag, attrs in found.elements if attrs.get("class") == "print"]
    assert printed.get("aria-hidden") == "true"  # said once, on the screen's part


@pytest.mark.parametrize(("paper", "size"), [(Paper.LETTER, "612pt 792pt"), (Paper.A4, "595.28pt")])
def test_the_print_is_the_page(paper: Paper, size: str) -> None:
    text = html_bytes([subject(demo_job("3b-kitchen.toml"))], wishes(), paper).decode()
    assert f"size: {size}" in text
    width, height = paper.size
    assert f'viewBox="0 0 {width:g} {height:g}"' in text
    assert 'name="viewport"' in text
    assert "prefers-color-scheme: dark" in text


def colours(text: str, name: str) -> list[tuple[float, float, float]]:
    """Return each value that a style gives to a colour of its own, light first, 0 to 1."""
    found = re.findall(rf"--{name}: #([0-9a-f]{{3,6}})", text)
    long = [one if len(one) == 6 else "".join(2 * letter for letter in one) for one in found]
    return [(int(c[:2], 16) / 255, int(c[2:4], 16) / 255, int(c[4:], 16) / 255) for c in long]


def contrast(one: tuple[float, float, float], other: tuple[float, float, float]) -> float:
    """Return the contrast ratio of WCAG 2.2 (relative luminance of sRGB)."""

    def light(colour: tuple[float, float, float]) -> float:
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour]
        return sum(w * c for w, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))

    low, high = sorted((light(one), light(other)))
    return (high + 0.05) / (low + 0.05)


def hexed(code: str) -> tuple[float, float, float]:
    """Return a colour of the drawing model, 0 to 1."""
    red, green, blue = (int(code[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return (red, green, blue)


def test_the_page_reads_in_black_and_white() -> None:
    # WCAG 2.2 success criteria 1.4.3 (words, 4.5 to 1) and 1.4.11 (lines that matter, 3 to 1)
    paper = hexed(FILLS[Tone.PAPER])
    for tone, code in FILLS.items():
        ground = Tone.PAPER if tone in (Tone.INK, Tone.FAIL) else Tone.INK
        assert contrast(hexed(code), hexed(FILLS[ground])) >= 4.5
    for pen, stroke in STROKES.items():
        assert contrast(hexed(stroke.colour), paper) >= 3.0, pen
    styles = {(stroke.width, stroke.dashes) for pen, stroke in STROKES.items() if pen in OBJECTS}
    assert len(styles) == len(OBJECTS)  # told apart without their colour


@pytest.mark.parametrize("area", ["paper", "board", "stud", "finish", "unit", "band"])
def test_words_stand_out_from_every_area_in_light_and_dark(area: str) -> None:
    # WCAG 2.2 success criterion 1.4.3: at least 4.5 to 1
    text = html_bytes([subject(demo_job("3b-kitchen.toml"))], wishes(), Paper.A4).decode()
    inks, areas = colours(text, "ink"), colours(text, area)
    assert len(inks) == len(areas) == 2
    for ink, ground in zip(inks, areas, strict=True):
        assert contrast(ink, ground) >= 4.5
    for name, ground_name in (("soft", "paper"), ("fail", "paper"), ("on-fail", "fail")):
        pairs = zip(colours(text, name), colours(text, ground_name), strict=True)
        assert all(contrast(ink, ground) >= 4.5 for ink, ground in pairs)


def test_hazards_stand_before_the_first_step_and_numbers_of_drawings_in_words() -> None:
    text = html_bytes([subject(demo_job("3b-kitchen.toml"))], wishes(), Paper.LETTER).decode()
    screen = text[: text.index('class="print"')]
    assert screen.index("Hazards: read before") < screen.index("Set-out in working order")
    drawn = re.findall(r"<text[^>]*>([^<]*)</text>", screen)
    told = re.sub(r"<svg.*?</svg>", "", screen, flags=re.S)
    numbers = {number for words in drawn for number in re.findall(r"\d[\d/.]*", words)}
    assert len(numbers) > 25
    assert [number for number in numbers if number not in told] == []


def test_many_sheets_are_a_file_each_and_an_index_that_a_phone_opens_at_once() -> None:
    one = subject(demo_job("3a-no-weight.toml"))
    made = dict(html_parts([one] * 30, wishes(), Paper.LETTER, "parts"))
    index = made.pop("").decode()
    assert list(made) == [f"{number:03d}.html" for number in range(1, 31)]
    assert re.findall(r'href="([^"]+)"', index) == [f"parts/{name}" for name in made]
    assert len(index) < 40_000
    assert max(len(data) for data in made.values()) < 400_000
    found = Outline()
    found.feed(made["002.html"].decode())
    assert found.broken == found.open == []
    links = [attrs["href"] for tag, attrs in found.elements if tag == "a"]
    assert links == ["001.html", "003.html"]
