"""Names from a job never become markup, and never turn the page round."""

from __future__ import annotations

import io
import re
import unicodedata
from dataclasses import replace
from html.parser import HTMLParser
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs import job
from pdfreading import page_words
from pypdf import PdfReader
from sheetmaking import DAY, demo_job, subject, wishes

from bracecalc.drawing.content import content_of
from bracecalc.drawing.html import html_bytes
from bracecalc.drawing.layout import sheet_pages
from bracecalc.drawing.lettering import bare
from bracecalc.drawing.pdf import Leaf, make_pdf
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
    "ul li strong span desc details summary nav a"
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
    pages = sheet_pages(one, wishes(), Paper.LETTER)
    root = ET.fromstring(svg_bytes(*pages))  # well formed, whatever the title
    allowed = {
        "svg", "title", "desc", "style", "g", "line", "polyline", "polygon", "rect", "circle",
        "text", "path",
    }  # fmt: skip
    assert {element.tag.rpartition("}")[2] for element in root.iter()} <= allowed
    tags = read_html(html_bytes([one], wishes(), Paper.LETTER))
    assert tags.tags <= set(PLAIN.split())
    assert not [name for name in tags.attributes if name.startswith("on")]
    made = make_pdf([Leaf(page) for page in pages], title="a sheet", date=DAY)
    assert made.data.startswith(b"%PDF")


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=120))
def test_any_title_is_only_ever_words(title: str) -> None:
    one = subject(replace(job(), title=title))
    ET.fromstring(svg_bytes(*sheet_pages(one, wishes(), Paper.A4)))
    tags = read_html(html_bytes([one], wishes(), Paper.A4))
    assert tags.tags <= set(PLAIN.split())
    shown = content_of(one, wishes()).title
    kinds = {unicodedata.category(letter) for letter in shown}
    assert not kinds & {"Cc", "Cs", "Zl", "Zp"}
    assert not {"\u202a", "\u202b", "\u202d", "\u202e", "\u2066", "\u2067"} & set(bare(shown))


def test_the_markup_is_shown_as_it_was_written() -> None:
    title = "<b>Quillet</b> & Court"
    tags = read_html(html_bytes([subject(titled(title))], wishes(), Paper.LETTER))
    assert title in tags.words
    pages = sheet_pages(subject(titled(title)), wishes(), Paper.LETTER)
    root = ET.fromstring(svg_bytes(*pages))
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


SCRIPTS = {
    "latin": "Küche ½ 3B",
    "cyrillic": "Кухня 3Б, дом 7",
    "greek": "Κουζίνα 3Β",
    "arabic": "مطبخ الشقة 3B",
    "hebrew": "\u05de\u05d8\u05d1\u05d7 3B",
    "chinese": "厨房 3B 廚房",
    "japanese": "台所 キッチン 3B",
    "korean": "주방 3B",
    "thai": "ห้องครัว 3B",
    "devanagari": "रसोई 3B",
}


@pytest.mark.parametrize("script", SCRIPTS)
def test_a_pdf_has_the_letters_of_every_script(script: str) -> None:
    title = SCRIPTS[script]
    leaves = [Leaf(page) for page in sheet_pages(subject(titled(title)), wishes(), Paper.A4)]
    made = make_pdf(leaves, title=title, date=DAY)
    assert made.lost == ""
    reader = PdfReader(io.BytesIO(made.data))
    assert reader.metadata is not None
    assert reader.metadata.title == title
    (first, *_) = page_words(made.data)
    told = unicodedata.normalize("NFKC", first)
    for letter in set(unicodedata.normalize("NFKC", title)) - {" "}:
        assert letter in told, letter


def test_a_letter_that_no_font_has_is_told_and_tells_names_apart() -> None:
    titles = ("\U00013000 flat", "\U00013001 flat")
    words = []
    for title in titles:
        leaves = [Leaf(page) for page in sheet_pages(subject(titled(title)), wishes(), Paper.A4)]
        made = make_pdf(leaves, title=title, date=DAY)
        assert made.lost == title[0]
        words.append(page_words(made.data)[0])
    assert "[13000]" in words[0]
    assert "[13001]" in words[1]


def test_an_arabic_name_leaves_the_numbers_beside_it_in_their_place() -> None:
    # by Unicode Standard Annex 9 a number after Arabic letters would be moved to their left;
    # an isolate (RLI or FSI to PDI) keeps them apart
    layer = Layer(material="gypsum board", thickness=0.5)
    one = subject(replace(titled("مطبخ 3B"), where=str(layer)))
    for data in (
        svg_bytes(*sheet_pages(one, wishes(), Paper.LETTER)),
        html_bytes([one], wishes(), Paper.LETTER),
    ):
        told = data.decode()
        for found in re.finditer("مطبخ", told):
            before = told[max(0, found.start() - 1) : found.start()]
            assert before in ("\u2067", "\u2068") or told[: found.start()].endswith(
                ("<bdi>", "<title>", 'title">')
            )


def test_a_long_title_is_never_cut() -> None:
    title = "The flat at the end of the corridor, " * 6 + "number 7B"
    pages = sheet_pages(subject(titled(title)), wishes(), Paper.LETTER)
    for page in pages:
        told = " ".join(text.words for text in page.texts())
        assert "number 7B" in told
