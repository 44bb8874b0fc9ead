"""The PDF as other programs see it: its text, typefaces, pages, links and metadata."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from pypdf import PdfReader
from sheetmaking import DEMO, demo_job, golden_words, subject, wishes

from bracecalc.drawing.index import index_leaves
from bracecalc.drawing.layout import sheet_page
from bracecalc.drawing.model import Text
from bracecalc.drawing.pdf import Leaf, pdf_bytes
from bracecalc.drawing.showing import Paper, ShownUnits
from bracecalc.render.words import cautions, set_out

GOLDEN = Path(__file__).parent / "golden"


def read(leaves: list[Leaf]) -> PdfReader:
    return PdfReader(io.BytesIO(pdf_bytes(leaves, title="Quillet Yard")))


@pytest.mark.parametrize("paper", Paper)
def test_one_niche_is_one_page_of_its_paper(paper: Paper) -> None:
    reader = read([Leaf(sheet_page(subject(demo_job("3b-kitchen.toml")), wishes(), paper))])
    assert len(reader.pages) == 1
    box = reader.pages[0].mediabox
    # ISO 216 for A4 (210 x 297 mm), ANSI/ASME Y14.1 for Letter (8-1/2 x 11 in); 72 points an inch
    inches = {Paper.LETTER: (8.5, 11.0), Paper.A4: (210 / 25.4, 297 / 25.4)}[paper]
    assert (box.width / 72, box.height / 72) == pytest.approx(inches, abs=0.001)


def test_typefaces_are_embedded() -> None:
    reader = read([Leaf(sheet_page(subject(demo_job("3b-kitchen.toml")), wishes(), Paper.A4))])
    fonts = reader.pages[0]["/Resources"]["/Font"]  # type: ignore[index]
    used = [font.get_object() for font in fonts.values()]
    assert len(used) >= 2
    for font in used:
        assert "/FontFile2" in font["/FontDescriptor"]
        assert "/ToUnicode" in font  # so that words can be searched and copied


def test_metadata_says_what_it_is() -> None:
    reader = read([Leaf(sheet_page(subject(demo_job("3b-kitchen.toml")), wishes(), Paper.A4))])
    found = reader.metadata
    assert found is not None
    assert found.title == "Quillet Yard"
    assert found.subject
    assert found.author == "bracecalc"
    assert [one["/Title"] for one in reader.outline]  # type: ignore[call-overload]


def test_the_index_leads_to_each_sheet() -> None:
    subjects = [subject(demo_job(name)) for name in DEMO]
    first = index_leaves(subjects, wishes(), Paper.LETTER)
    leaves = [*first, *(Leaf(sheet_page(one, wishes(), Paper.LETTER)) for one in subjects)]
    reader = read(leaves)
    assert len(reader.pages) == len(first) + len(subjects)
    text = reader.pages[0].extract_text()
    for number, one in enumerate(subjects, start=len(first)):
        assert one.plan.job.title in text
        assert one.plan.job.title in reader.pages[number].extract_text()
    links = [note.get_object() for note in reader.pages[0]["/Annots"]]  # type: ignore[attr-defined]
    pages = [link["/Dest"][0].get_object() for link in links]
    assert pages == [reader.pages[len(first) + i].get_object() for i in range(len(subjects))]


def test_many_sheets_have_index_pages_enough() -> None:
    one = subject(demo_job("3a-no-weight.toml"))
    leaves = index_leaves([one] * 400, wishes(), Paper.LETTER)
    links = [link for leaf in leaves for link in leaf.links]
    assert [link.page for link in links] == list(range(len(leaves), len(leaves) + 400))
    assert all(link.box[3] <= 792.0 - 29.0 for link in links)


@pytest.mark.parametrize("units", ShownUnits)
def test_the_words_can_be_searched(units: ShownUnits) -> None:
    one = subject(demo_job("3b-kitchen.toml"))
    page = sheet_page(one, wishes(units), Paper.LETTER)
    text = read([Leaf(page)]).pages[0].extract_text()
    for wanted in ("Set-out in working order", "Cautions", "As found", "2026-11-25", "UNDERSIDE"):
        assert wanted in text
    assert (" mm" in text) == (units is not ShownUnits.INCH)


@pytest.mark.parametrize("name", ["3b-kitchen", "1b-soffit-too-low", "2c-packed-soffit"])
def test_golden_words(name: str) -> None:
    words = golden_words(name)
    golden = GOLDEN / f"{name}.txt"
    assert words == golden.read_text(encoding="utf-8"), "renew by: python tests/sheet/renew.py"


@pytest.mark.parametrize(
    "name", ["3b-kitchen.toml", "2c-packed-soffit.toml", "4a-steel-studs.toml"]
)
def test_everything_that_the_crew_is_told_is_on_the_page(name: str) -> None:
    one = subject(demo_job(name))
    page = sheet_page(one, wishes(), Paper.LETTER)
    (group,) = [group for group in page.groups if group.name == "words"]
    told = " ".join(item.words for item in group.items if isinstance(item, Text))
    texts = [step.text for step in set_out(one.plan)] + list(cautions(one.plan))
    texts += [text for f in one.plan.findings for text in (f.text, f.remedy) if text]
    assert [text for text in texts if text not in told] == []
