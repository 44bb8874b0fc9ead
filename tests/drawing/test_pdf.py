"""The PDF as other programs see it: its text, typefaces, pages, tags, links and metadata."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pytest
from golden import agrees
from pdfreading import page_words
from pypdf import PdfReader
from sheetmaking import DAY, DEMO, demo_job, golden_words, subject, wishes

from bracecalc.drawing.index import index_leaves, mark_of
from bracecalc.drawing.layout import sheet_pages
from bracecalc.drawing.pdf import Leaf, make_pdf
from bracecalc.drawing.showing import Paper, ShownUnits

GOLDEN = Path(__file__).parent / "golden"


def leaves_of(name: str, paper: Paper, units: ShownUnits | None = None) -> list[Leaf]:
    return [Leaf(page) for page in sheet_pages(subject(demo_job(name)), wishes(units), paper)]


def written(leaves: list[Leaf]) -> bytes:
    return make_pdf(leaves, title="Quillet Yard", date=DAY).data


def read(leaves: list[Leaf]) -> PdfReader:
    return PdfReader(io.BytesIO(written(leaves)))


@pytest.mark.parametrize("paper", Paper)
def test_each_page_is_one_of_its_paper(paper: Paper) -> None:
    leaves = leaves_of("3b-kitchen.toml", paper)
    reader = read(leaves)
    assert len(reader.pages) == len(leaves) >= 2
    # ISO 216 for A4 (210 x 297 mm), ANSI/ASME Y14.1 for Letter (8-1/2 x 11 in); 72 points an inch
    inches = {Paper.LETTER: (8.5, 11.0), Paper.A4: (210 / 25.4, 297 / 25.4)}[paper]
    for page in reader.pages:
        box = page.mediabox
        assert (box.width / 72, box.height / 72) == pytest.approx(inches, abs=0.001)


def test_typefaces_are_embedded() -> None:
    reader = read(leaves_of("3b-kitchen.toml", Paper.A4))
    fonts: Any = reader.pages[0]["/Resources"]["/Font"]  # type: ignore[index]
    used = [font.get_object() for font in fonts.values()]
    assert len(used) >= 2
    for font in used:
        assert "/ToUnicode" in font  # so that words can be searched and copied
        (inner,) = font["/DescendantFonts"]
        descriptor = inner.get_object()["/FontDescriptor"]
        assert "/FontFile2" in descriptor or "/FontFile3" in descriptor


def test_metadata_says_what_it_is() -> None:
    reader = read(leaves_of("3b-kitchen.toml", Paper.A4))
    found = reader.metadata
    assert found is not None
    assert found.title == "Quillet Yard"
    assert found.subject
    assert found.author == "bracecalc"
    assert [one["/Title"] for one in reader.outline]  # type: ignore[call-overload]


def test_it_says_that_it_is_for_archives_and_has_what_that_asks_for() -> None:
    # ISO 19005-2:2011: 6.6.4 identification, 6.2.3 output intent, 6.7.2 tags, 6.7.4 language,
    # 6.2.11.4 embedded typefaces, 6.1.3 no encryption; 6.7.3.4 alternative text of figures
    data = written(leaves_of("3b-kitchen.toml", Paper.LETTER))
    reader = PdfReader(io.BytesIO(data))
    root: Any = reader.trailer["/Root"]
    said = root["/Metadata"].get_data().decode()
    assert "<pdfaid:part>2</pdfaid:part>" in said
    assert "<pdfaid:conformance>A</pdfaid:conformance>" in said
    assert "<pdfuaid:part>1</pdfuaid:part>" in said  # ISO 14289-1:2014, 5
    (intent,) = root["/OutputIntents"]
    assert intent.get_object()["/S"] == "/GTS_PDFA1"
    assert intent.get_object()["/DestOutputProfile"]["/N"] == 3
    assert root["/Lang"].startswith("en")
    assert root["/MarkInfo"]["/Marked"]
    assert "/Encrypt" not in reader.trailer
    assert "/ID" in reader.trailer
    kinds = tags(root["/StructTreeRoot"])
    names = [kind for kind, _ in kinds]
    assert {"/Document", "/H1", "/H2", "/P", "/Figure", "/Table", "/TH", "/TD"} <= set(names)
    told = [alt for kind, alt in kinds if kind == "/Figure"]
    assert all(told)
    assert any("Front elevation" in alt for alt in told)
    assert any("Screws at one stud" in alt for alt in told)


def tags(element: Any) -> list[tuple[str, str]]:
    """Return the kind and the alternative text of each element of the structure, in order."""
    found = []
    if "/S" in element:
        found.append((str(element["/S"]), str(element.get("/Alt", ""))))
    kids = element.get("/K", [])
    for kid in kids if isinstance(kids, list) else [kids]:
        inner = kid.get_object()
        if hasattr(inner, "get"):
            found += tags(inner)
    return found


def test_every_number_of_a_drawing_is_in_its_alternative_text() -> None:
    for page in sheet_pages(subject(demo_job("3b-kitchen.toml")), wishes(), Paper.LETTER):
        for group in page.groups:
            if not group.picture:
                continue
            for item in group.items:
                words = getattr(item, "words", "")
                for number in re.findall(r"\d[\d/]*", words):
                    assert number in group.picture


def test_the_same_pages_give_the_same_bytes() -> None:
    one, other = (written(leaves_of("6a-metric.toml", Paper.A4)) for _ in range(2))
    assert one == other


def test_the_index_leads_to_each_sheet() -> None:
    subjects = [subject(demo_job(name)) for name in DEMO]
    leaves = index_leaves(subjects, wishes(), Paper.LETTER)
    first = len(leaves)
    at: list[int] = []
    for number, one in enumerate(subjects, start=1):
        head, *others = sheet_pages(one, wishes(), Paper.LETTER)
        at.append(len(leaves))
        leaves += [Leaf(head, mark_of(number)), *(Leaf(page) for page in others)]
    data = written(leaves)
    reader, words = PdfReader(io.BytesIO(data)), page_words(data)
    assert len(reader.pages) == len(leaves)
    text = " ".join("".join(words[:first]).split())
    for page, one in zip(at, subjects, strict=True):
        assert one.plan.job.title in text
        assert one.plan.job.title in words[page]
    led: list[int] = []
    for index in reader.pages[:first]:
        notes: Any = index["/Annots"]
        for note in notes:
            target = note.get_object().get("/Dest") or note.get_object()["/A"]["/D"]
            led.append(number_of(reader, target[0]))
    assert sorted(led) == sorted(at * 2)  # once from the map, once from the list


def number_of(reader: PdfReader, page: Any) -> int:
    return next(i for i, one in enumerate(reader.pages) if one.indirect_reference == page)


def test_many_sheets_have_index_pages_enough() -> None:
    one = subject(demo_job("3a-no-weight.toml"))
    leaves = index_leaves([one] * 400, wishes(), Paper.LETTER)
    links = [link for leaf in leaves for link in leaf.links]
    wanted = [mark_of(number) for number in range(1, 401)]
    assert sorted(link.mark for link in links) == sorted(wanted * 2)
    assert all(link.box[3] <= 792.0 - 29.0 for link in links)


@pytest.mark.parametrize("units", ShownUnits)
def test_the_words_can_be_searched(units: ShownUnits) -> None:
    data = written(leaves_of("3b-kitchen.toml", Paper.LETTER, units))
    text = " ".join(page_words(data)).replace("\u00a0", " ")
    for wanted in ("Set-out in working order", "Hazards", "As found", "2026-11-25", "UNDERSIDE"):
        assert wanted in text
    assert (" mm" in text) == (units is not ShownUnits.INCH)


@pytest.mark.parametrize("name", ["3b-kitchen", "1b-soffit-too-low", "2c-packed-soffit"])
def test_golden_words(name: str) -> None:
    agrees(GOLDEN / f"{name}.txt", golden_words(name))
