"""Names from a job never become markup, and never turn the page round."""

from __future__ import annotations

import io
import unicodedata
from dataclasses import replace
from html.parser import HTMLParser
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs import job
from sheetmaking import demo_job, subject, wishes

from bracecalc.drawing.content import content_of
from bracecalc.drawing.html import html_bytes
from bracecalc.drawing.layout import sheet_page
from bracecalc.drawing.pdf import Leaf, pdf_bytes
from bracecalc.drawing.showing import Paper
from bracecalc.drawing.svg import svg_bytes
from bracecalc.records.job import Job, Layer

TITLES = [
    "<script>alert(1)</script>",
    "</title></style></svg><img src=x onerror=alert(1)>",
    "]]> &amp; &lt; \" ' --> <!--",
    "Quillet\x00Court\x1b[31m\r\n3B\ufffe",
    "\u202etruoC worraH\u202c \u2066x",
    "حرو كورت \u05d4\u05e8\u05d5 3B",
    "厨房 \U0001f468\u200d\U0001f373 3B",
    "A" * 5000,
    "long " * 2000,
    "e\u0301" * 50,
    "",
    "   ",
    "{{7*7}} ${jndi} %s %(x)s",
]


class Tags(HTMLParser):
    """Collects the elements of a page, and every value that could ask for something elsewhere."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.links: list[str] = []
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}
        self.links += [value or "" for name, value in attrs if name in ("href", "src", "data")]

    def handle_data(self, data: str) -> None:
        self.words.append(data)


PLAIN = (
    "html head meta title style body main article header h1 h2 bdi p dl dt dd figure figcaption "
    "svg g line polyline polygon rect circle text path section div table thead tbody tr th td ol "
    "ul li strong"
)


def titled(title: str) -> Job:
    layer = Layer(material=title or "gypsum board", thickness=0.5)
    one = demo_job("3b-kitchen.toml")
    return replace(one, title=title, where=str(layer))


def read_html(data: bytes) -> Tags:
    tags = Tags()
    tags.feed(data.decode())
    return tags


@pytest.mark.parametrize("title", TITLES)
def test_a_title_is_only_ever_words(title: str) -> None:
    one = subject(titled(title))
    page = sheet_page(one, wishes(), Paper.LETTER)
    root = ET.fromstring(svg_bytes(page))  # well formed, whatever the title
    allowed = {"svg", "title", "g", "line", "polyline", "polygon", "rect", "circle", "text", "path"}
    assert {element.tag.rpartition("}")[2] for element in root.iter()} <= allowed
    tags = read_html(html_bytes([one], wishes(), Paper.LETTER))
    assert tags.tags <= set(PLAIN.split())
    assert not [name for name in tags.attributes if name.startswith("on")]
    assert pdf_bytes([Leaf(page)], title="a sheet").startswith(b"%PDF")


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=120))
def test_any_title_is_only_ever_words(title: str) -> None:
    one = subject(replace(job(), title=title))
    ET.fromstring(svg_bytes(sheet_page(one, wishes(), Paper.A4)))
    tags = read_html(html_bytes([one], wishes(), Paper.A4))
    assert tags.tags <= set(PLAIN.split())
    shown = content_of(one, wishes()).title
    kinds = {unicodedata.category(letter) for letter in shown}
    assert not kinds & {"Cc", "Cs", "Zl", "Zp"}
    assert not {"\u202a", "\u202b", "\u202d", "\u202e", "\u2066", "\u2067"} & set(shown)


def test_the_markup_is_shown_as_it_was_written() -> None:
    title = "<b>Quillet</b> & Court"
    tags = read_html(html_bytes([subject(titled(title))], wishes(), Paper.LETTER))
    assert title in tags.words
    root = ET.fromstring(svg_bytes(sheet_page(subject(titled(title)), wishes(), Paper.LETTER)))
    assert title in [element.text for element in root.iter()]


def test_nothing_is_asked_for_from_elsewhere() -> None:
    one = subject(demo_job("3b-kitchen.toml"))
    data = html_bytes([one, one], wishes(), Paper.LETTER)
    tags = read_html(data)
    assert [link for link in tags.links if not link.startswith("#")] == []
    text = data.decode()
    assert "url(" not in text
    assert "@import" not in text
    assert text.count("http") == text.count("http://www.w3.org/2000/svg")
    assert "<script" not in text


def test_a_pdf_writes_what_its_letters_can() -> None:
    from pypdf import PdfReader

    one = subject(titled("Küche 厨房 ½ 3B"))
    data = pdf_bytes([Leaf(sheet_page(one, wishes(), Paper.A4))], title="Küche 厨房")
    reader = PdfReader(io.BytesIO(data))
    assert "Küche ?? ½ 3B" in reader.pages[0].extract_text()
    assert reader.metadata is not None
    assert reader.metadata.title == "Küche 厨房"
