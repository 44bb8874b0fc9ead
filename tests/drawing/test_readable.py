"""What is on paper can be read: sizes, places and letters are read out of the PDF itself.

Capitals of 1.8 mm and letters of 7 pt are the least (ISO 3098-1:2015 has 1.8 mm as its smallest
height of lettering).
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

import pytest
from jobs import moved
from pdfreading import Letter, letters, page_words
from sheetmaking import DAY, DEMO, demo_job, subject, wishes

from bracecalc.drawing.layout import sheet_pages
from bracecalc.drawing.lettering import bare
from bracecalc.drawing.model import Circle, Drawing, Pen, Polyline, Rect, Role, Text
from bracecalc.drawing.pdf import Leaf, Pdf, make_pdf
from bracecalc.drawing.showing import Paper, ShownUnits
from bracecalc.records.job import Job, Layer, StudMaterial
from bracecalc.records.surroundings import Clearance, Service
from bracecalc.render.words import cautions, set_out

LEAST_LETTER = 7.0  # points
LEAST_CAPITAL = 1.8 * 72.0 / 25.4
TALL = set("BDEFHIKLMNPRTXZ")  # capitals with a flat head and foot
SPLIT_AFTER = re.compile(r"\d$|[\dx]\u00a0$")
SPLIT_BEFORE = re.compile(r"^(?:\d+/\d+|(?:in|mm|lbf|N|psi)\b)")


def crowded_job() -> Job:
    """More of everything than a niche ought to have: screws, services, findings, boards."""
    job = demo_job("4c-deep-niche.toml")
    services = tuple(
        Service(name=f"outlet {number} of the long row", x=2.0 + 2.5 * number, z=6.9 * number + 2.0,
                x_range=(0.0, 40.0), z_range=(0.0, 100.0))
        for number in range(12)
    )  # fmt: skip
    clearances = tuple(
        Clearance(name=f"clearance {number}", required=1.0, measured=0.5 * number)
        for number in range(8)
    )
    layers = tuple(Layer(material="gypsum board", thickness=0.5) for _ in range(5))
    job = replace(
        job,
        title="Quillet Yard 40, the flat at the end of the corridor on the seventh floor, " * 3,
        wall=replace(job.wall, layers=layers,
                     stud_spots=(1.5, 5.0, 9.0, 13.0, 17.0, 21.0, 25.0, 29.0, 32.0)),
    )  # fmt: skip
    job = moved(job, niche={"depth": (job.unit.depth + 6.5,)})
    return moved(job, surroundings={"services": services, "clearances": clearances})


def screwed_job() -> Job:
    """A long stack with 80 screws, services that lie where they may not, and findings of it all."""
    kitchen = demo_job("3b-kitchen.toml")
    services = tuple(
        Service(name=f"water line {number}", x=3.0 + 7.5 * number, z=82.0 + 0.5 * number,
                x_range=(0.0, 1.0), z_range=(0.0, 10.0))
        for number in range(12)
    )  # fmt: skip
    clearances = tuple(
        Clearance(name=f"clearance {number}", required=3.0, measured=2.0) for number in range(8)
    )
    job = moved(
        kitchen,
        wall={"stud_spots": tuple(4.0 + 6.0 * number for number in range(16))},
        niche={"width": (98.0,), "depth": (25.0,)},
        unit={"width": 97.0},
        loads={"minimum": 400.0},
        surroundings={"services": services, "clearances": clearances},
    )
    assert sum(row.count for row in subject(job).plan.screws) >= 40
    assert len(subject(job).plan.findings) >= 21
    return job


def masonry_job() -> Job:
    """Anchors in masonry, a finish still to come, and washers."""
    kitchen = demo_job("3b-kitchen.toml")
    stud = replace(kitchen.wall.stud, material=StudMaterial.MASONRY, depth=8.0)
    deeper = tuple(depth + 0.5 for depth in kitchen.niche.depth)
    wall = {"stud": stud, "finish_to_come": 0.5}
    return moved(kitchen, wall=wall, niche={"depth": deeper})


JOBS = {name: demo_job(name) for name in DEMO} | {
    "crowded": crowded_job(),
    "screwed": screwed_job(),
    "masonry": masonry_job(),
}


@lru_cache(maxsize=256)
def pages_of(name: str, paper: Paper, units: ShownUnits | None) -> tuple[Drawing, ...]:
    return sheet_pages(subject(JOBS[name]), wishes(units), paper)


@lru_cache(maxsize=256)
def pdf_of(name: str, paper: Paper, units: ShownUnits | None) -> Pdf:
    leaves = [Leaf(page) for page in pages_of(name, paper, units)]
    return make_pdf(leaves, title="a sheet", date=DAY)


MATRIX = [
    pytest.param(name, paper, units, id=f"{name}-{paper}-{units}")
    for name in JOBS
    for paper in Paper
    for units in ShownUnits
]


def texts(pages: Sequence[Drawing]) -> list[Text]:
    return [text for page in pages for text in page.texts() if text.words.strip()]


@pytest.mark.parametrize(("name", "paper", "units"), MATRIX)
def test_no_letter_is_small(name: str, paper: Paper, units: ShownUnits) -> None:
    found = [letter for page in letters(pdf_of(name, paper, units).data) for letter in page]
    assert len(found) > 800
    small = [one for one in found if one.size < LEAST_LETTER]
    assert small == []
    capitals = [one for one in found if one.letter in TALL]
    assert capitals
    low = [one for one in capitals if min(wide_and_tall(one)) < 0.4]
    assert low == []
    heights = [max(wide_and_tall(one)) for one in capitals]
    assert min(heights) >= LEAST_CAPITAL - 0.02


def wide_and_tall(one: Letter) -> tuple[float, float]:
    return one.right - one.left, one.bottom - one.top


@pytest.mark.parametrize(("name", "paper", "units"), MATRIX)
def test_no_letter_lies_on_another(name: str, paper: Paper, units: ShownUnits) -> None:
    for page in letters(pdf_of(name, paper, units).data):
        assert touching(page) == []


def touching(page: Sequence[Letter]) -> list[tuple[str, str]]:
    """Return pairs of letters whose ink shares more than a hair."""
    hair, found = 0.35, []
    ordered = sorted(page, key=lambda one: one.left)
    for index, one in enumerate(ordered):
        for other in ordered[index + 1 :]:
            if other.left >= one.right - hair:
                break
            if min(one.bottom, other.bottom) - max(one.top, other.top) > hair:
                shared = min(one.right, other.right) - other.left
                if shared > hair:
                    found.append((one.letter, other.letter))
    return found


@pytest.mark.parametrize(("name", "paper", "units"), MATRIX)
def test_no_letter_is_lost(name: str, paper: Paper, units: ShownUnits) -> None:
    made = pdf_of(name, paper, units)
    assert made.lost == ""
    meant = Counter("".join(bare(text.words) for text in texts(pages_of(name, paper, units))))
    read = Counter("".join(page_words(made.data)))
    for blank in " \r\n\u00a0\ufffe\x02":
        meant.pop(blank, None)
        read.pop(blank, None)
    assert read == meant


@pytest.mark.parametrize(("name", "paper", "units"), MATRIX)
def test_no_number_is_split_over_lines(name: str, paper: Paper, units: ShownUnits) -> None:
    lines = texts(pages_of(name, paper, units))
    split = [
        (one.words, other.words)
        for one, other in pairwise(lines)
        if other.role is Role.MORE
        and SPLIT_AFTER.search(one.words)
        and SPLIT_BEFORE.search(other.words)
    ]
    assert split == []


@pytest.mark.parametrize(("name", "paper", "units"), MATRIX)
def test_no_sign_lies_on_another(name: str, paper: Paper, units: ShownUnits) -> None:
    for page in pages_of(name, paper, units):
        for group in page.groups:
            places = [middle(item) for item in group.items if item.name.startswith("screw ")
                      and isinstance(item, Circle | Rect | Polyline)]  # fmt: skip
            if group.name in ("elevation", "detail"):
                assert len(set(places)) == len(places)
                for index, (x, y) in enumerate(places):
                    for other_x, other_y in places[index + 1 :]:
                        assert max(abs(x - other_x), abs(y - other_y)) > 3.0


def middle(item: Circle | Rect | Polyline) -> tuple[float, float]:
    if isinstance(item, Circle):
        return item.centre
    points = (item.corner, item.opposite) if isinstance(item, Rect) else item.points
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return ((min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0)


@pytest.mark.parametrize(("name", "paper", "units"), MATRIX)
def test_hazards_come_first_and_nothing_is_dropped(
    name: str, paper: Paper, units: ShownUnits
) -> None:
    one = subject(JOBS[name])
    told = " ".join(bare(text.words) for text in texts(pages_of(name, paper, units)))
    steps = [step.text for step in set_out(one.plan)]
    said = [*cautions(one.plan), *(f.text for f in one.plan.findings)]
    plain = " ".join(told.split())
    assert [text for text in (*steps, *said) if " ".join(text.split()) not in plain] == []
    first = " ".join(bare(text.words) for text in pages_of(name, paper, units)[0].texts())
    for caution in cautions(one.plan):
        assert caution in first
        for step in steps[:1]:
            assert step not in first or first.index(caution) < first.index(step)


def test_the_section_says_what_the_wall_is() -> None:
    captions = {
        name: next(text.words for text in pages_of(name, Paper.LETTER, ShownUnits.INCH)[0].texts()
                   if text.name == "caption section")
        for name in ("3b-kitchen.toml", "4a-steel-studs.toml", "5d-nothing-solid.toml", "masonry")
    }  # fmt: skip
    assert captions["3b-kitchen.toml"].startswith("Side section at a stud")
    assert captions["4a-steel-studs.toml"].startswith("Side section at a steel stud")
    assert captions["masonry"].startswith("Side section through the masonry")
    assert "nothing known" in captions["5d-nothing-solid.toml"]


def test_the_first_page_says_whose_sign_is_whose() -> None:
    for name in ("3b-kitchen.toml", "4c-deep-niche.toml", "screwed"):
        first = pages_of(name, Paper.A4, ShownUnits.MM)[0]
        told = {text.words for text in first.texts() if text.name.startswith("sign of ")}
        assert told == {f"board {row.board}" for row in subject(JOBS[name]).plan.screws}


def test_services_near_the_boards_are_drawn_and_named() -> None:
    first = pages_of("screwed", Paper.LETTER, ShownUnits.INCH)[0]
    (front,) = [group for group in first.groups if group.name == "elevation"]
    drawn = [item for item in front.items if item.name.startswith("service ")
             and isinstance(item, Polyline)]  # fmt: skip
    assert len(drawn) == 12
    assert "water line 0" in front.picture


def test_the_checks_find_what_they_look_for() -> None:
    page = [Letter("H", 7.0, 0.0, 0.0, 5.0, 5.0), Letter("I", 7.0, 3.0, 1.0, 8.0, 6.0)]
    assert touching(page) == [("H", "I")]
    assert SPLIT_AFTER.search("cut at 81")
    assert SPLIT_BEFORE.search("5/8 in up")
    assert middle(Circle((3.0, 4.0), 2.0, Pen.EDGE)) == (3.0, 4.0)
