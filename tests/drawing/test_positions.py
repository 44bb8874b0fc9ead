"""What is drawn stands where the plan says: the SVG and the PDF are read back as files.

A board drawn where it is not is the worst error that a sheet can make. Places are worked out here
from the plan's own numbers, not from the sheet's code.
"""

from __future__ import annotations

import io
from itertools import accumulate, pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import assume, given, settings
from jobs import jobs
from sheetmaking import DEMO, demo_job, subject, wishes

from bracecalc.drawing.layout import sheet_page
from bracecalc.drawing.model import Drawing
from bracecalc.drawing.pdf import Leaf, pdf_bytes
from bracecalc.drawing.showing import Paper
from bracecalc.drawing.svg import svg_bytes
from bracecalc.records.job import CORNERS, Job
from bracecalc.records.plan import Plan, RestraintKind

SVG = "{http://www.w3.org/2000/svg}"
NEAR = 0.002  # points: the files are written to a thousandth


class Read:
    """One view of an SVG file, its places turned back to inches by its own scale and origin."""

    def __init__(self, data: bytes, view: str) -> None:
        root = ET.fromstring(data)
        (self.group,) = [one for one in root.iter(f"{SVG}g") if one.get("id") == view]
        self.scale = float(self.group.get("data-scale", ""))
        self.origin = [float(part) for part in self.group.get("data-origin", "").split()]

    def named(self, name: str) -> ET.Element:
        (found,) = [one for one in self.group if one.get("data-name") == name]
        return found

    def names(self) -> set[str]:
        return {one.get("data-name", "") for one in self.group}

    def point(self, x: str, y: str) -> tuple[float, float]:
        across = (float(x) - self.origin[0]) / self.scale
        return (across, (self.origin[1] - float(y)) / self.scale)

    def span(self, name: str) -> tuple[float, float, float, float]:
        """Return left, right, low, high of a rectangle in inches."""
        rect = self.named(name)
        x, y = float(rect.get("x", "")), float(rect.get("y", ""))
        right, down = x + float(rect.get("width", "")), y + float(rect.get("height", ""))
        left, low = self.point(str(x), str(down))
        right, high = self.point(str(right), str(y))
        return (left, right, low, high)

    def line(self, name: str) -> tuple[tuple[float, float], tuple[float, float]]:
        one = self.named(name)
        start = self.point(one.get("x1", ""), one.get("y1", ""))
        return (start, self.point(one.get("x2", ""), one.get("y2", "")))

    def mark(self, name: str) -> tuple[float, float]:
        """Return the middle of a sign, whatever its form."""
        one = self.named(name)
        if one.tag == f"{SVG}circle":
            return self.point(one.get("cx", ""), one.get("cy", ""))
        if one.tag == f"{SVG}rect":
            left, right, low, high = self.span(name)
            return ((left + right) / 2, (low + high) / 2)
        points = [part.split(",") for part in one.get("points", "").split()]
        inches = [self.point(x, y) for x, y in points]
        xs, ys = [x for x, _ in inches], [y for _, y in inches]
        return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)

    def close(self, *values: float) -> object:
        return pytest.approx(values, abs=2 * NEAR / self.scale)


def check_elevation(plan: Plan, view: Read) -> None:
    width, target = min(plan.job.niche.width), plan.restraint.target_height
    for name, x in (("left side", 0.0), ("right side", width)):
        (start, _), (end, _) = view.line(name)
        assert (start, end) == view.close(x, x)
    if target is not None:
        (x0, z0), (x1, z1) = view.line("target")
        assert (x0, z0, x1, z1) == view.close(0.0, target, width, target)
    if plan.reach_band.high > plan.reach_band.low and "reach band" in view.names():
        _, _, low, high = view.span("reach band")
        if target is not None:
            assert (low, high) == view.close(plan.reach_band.low, plan.reach_band.high)
    if plan.stack is not None and target is not None:
        left, stack = plan.stack.left_end, plan.stack
        expected = (left, left + stack.length, target, target + stack.width)
        assert view.span("boards") == view.close(*expected)
        assert view.span("boards edge") == view.close(*expected)
        for row in plan.screws:
            for number, (x, height) in enumerate(row.positions, start=1):
                place = view.mark(f"screw {row.board}.{number}")
                assert place == view.close(x, target + height)
    if plan.studs is not None:
        for number, spot in enumerate(plan.studs.spots, start=1):
            if 0.0 <= spot <= width:
                (x0, _), (x1, _) = view.line(f"stud {number} centre")
                assert (x0, x1) == view.close(spot, spot)


def check_section(plan: Plan, view: Read) -> None:
    faces = [0.0, *accumulate(layer.thickness for layer in plan.job.wall.layers)]
    for number, (near, far) in enumerate(pairwise(faces), start=1):
        left, right, _, _ = view.span(f"layer {number}")
        assert (left, right) == view.close(-far, -near)
    left, right, _, _ = view.span("stud")
    assert (left, right) == view.close(-faces[-1] - plan.job.wall.stud.depth, -faces[-1])
    target, stack = plan.restraint.target_height, plan.stack
    if stack is None or target is None:
        return
    outs = [0.0, *accumulate(stack.thicknesses)]
    for number, (near, far) in enumerate(pairwise(outs), start=1):
        expected = (near, far, target, target + stack.width)
        assert view.span(f"board {number}") == view.close(*expected)
    corner = view.named("unit's corner").get("points", "").split()[1].split(",")
    assert view.point(corner[0], corner[1]) == view.close(stack.rear_gap, target)
    (gap, _), (out, _) = view.line("overlap")
    assert (gap, out) == view.close(stack.rear_gap, outs[-1])
    assert out - gap == pytest.approx(stack.overlap, abs=2 * NEAR / view.scale)
    heads = {name for name in view.names() if name.startswith("screw ")}
    drawn = [view.line(name) for name in heads]
    for row in plan.screws:
        head = outs[row.board] - row.counterbore
        for _, height in row.offsets:
            ends = (head, target + height, head - row.length, target + height)
            assert any((*start, *end) == view.close(*ends) for start, end in drawn), ends
        (tip, _), (start, _) = view.line(f"embedment line {row.board}")
        assert start - tip == pytest.approx(row.embedment, abs=2 * NEAR / view.scale)


def check_legs(plan: Plan, view: Read) -> None:
    if plan.legs is None:
        return
    for corner in CORNERS:
        leg = plan.legs[corner]
        _, _, low, high = view.span(f"leg {corner}")
        assert high - low == pytest.approx(max(leg.extension, 0.0), abs=2 * NEAR / view.scale)
        _, _, low, high = view.span(f"travel {corner}")
        assert high - low == pytest.approx(leg.travel, abs=2 * NEAR / view.scale)


def check(job: Job) -> None:
    one = subject(job)
    data = svg_bytes(sheet_page(one, wishes(), Paper.LETTER))
    check_elevation(one.plan, Read(data, "elevation"))
    check_section(one.plan, Read(data, "section"))
    if one.plan.legs is not None:
        check_legs(one.plan, Read(data, "legs"))


@pytest.mark.parametrize("name", DEMO)
def test_demo_sheets_draw_everything_where_it_is(name: str) -> None:
    check(demo_job(name))


@settings(max_examples=40, deadline=None)
@given(jobs())
def test_any_sheet_draws_everything_where_it_is(job: Job) -> None:
    check(job)


@settings(max_examples=15, deadline=None)
@given(jobs())
def test_a_board_in_a_wrong_place_is_found(job: Job) -> None:
    one = subject(job)
    assume(one.plan.restraint.kind is RestraintKind.STACK)
    page = sheet_page(one, wishes(), Paper.LETTER)
    data = svg_bytes(page).replace(b'data-scale="', b'data-scale="1')
    with pytest.raises(AssertionError):
        check_elevation(one.plan, Read(data, "elevation"))


def pdf_paths(drawing: Drawing) -> tuple[list[tuple[float, ...]], list[tuple[float, ...]]]:
    """Return the rectangles and straight lines of a one-page PDF, y from the top."""
    from pypdf import PdfReader
    from pypdf.generic import ContentStream

    reader = PdfReader(io.BytesIO(pdf_bytes([Leaf(drawing)], title="a sheet")))
    contents = reader.pages[0].get_contents()
    assert contents is not None
    rects: list[tuple[float, ...]] = []
    lines: list[tuple[float, ...]] = []
    at = (0.0, 0.0)
    for operands, operator in ContentStream(contents, reader).operations:
        numbers = [float(one) for one in operands] if operator in (b"re", b"m", b"l") else []
        if operator == b"re":
            x, y, width, height = numbers
            rects.append((x, drawing.height - y - height, x + width, drawing.height - y))
        elif operator == b"m":
            at = (numbers[0], drawing.height - numbers[1])
        elif operator == b"l":
            end = (numbers[0], drawing.height - numbers[1])
            lines.append((*at, *end))
            at = end
    return rects, lines


@pytest.mark.parametrize("name", DEMO)
def test_the_pdf_draws_boards_and_studs_where_the_plan_says(name: str) -> None:
    one = subject(demo_job(name))
    plan = one.plan
    page = sheet_page(one, wishes(), Paper.A4)
    rects, lines = pdf_paths(page)
    frames = {group.name: group.frame for group in page.groups}
    front = frames["elevation"]
    assert front is not None
    if plan.stack is not None and plan.restraint.target_height is not None:
        under = plan.restraint.target_height
        left, top = front.page((plan.stack.left_end, under + plan.stack.width))
        right, bottom = front.page((plan.stack.left_end + plan.stack.length, under))
        assert pytest.approx((left, top, right, bottom), abs=0.01) in rects
        side = frames["section"]
        assert side is not None
        for far in accumulate(plan.stack.thicknesses):
            x, y = side.page((far, under))
            assert any(r[2:] == pytest.approx((x, y), abs=0.01) for r in rects)
    if plan.restraint.target_height is not None:
        x0, y = front.page((0.0, plan.restraint.target_height))
        x1, _ = front.page((min(plan.job.niche.width), 0.0))
        assert pytest.approx((x0, y, x1, y), abs=0.01) in lines
    for spot in () if plan.studs is None else plan.studs.spots:
        x, _ = front.page((spot, 0.0))
        assert any(one[0] == one[2] == pytest.approx(x, abs=0.01) for one in lines)
