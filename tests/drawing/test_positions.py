"""What is drawn stands where the plan says: the SVG and the PDF are read back as files.

A board drawn where it is not is the worst error that a sheet can make. Places are worked out here
from the plan's own numbers, not from the sheet's code.
"""

from __future__ import annotations

from itertools import accumulate, pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import assume, given, settings
from jobs import jobs, moved
from pdfreading import paths
from sheetmaking import DAY, DEMO, demo_job, subject, wishes

from bracecalc.drawing.detail import has_detail
from bracecalc.drawing.layout import sheet_pages
from bracecalc.drawing.pdf import Leaf, make_pdf
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
        (self.group,) = [
            one for one in root.iter(f"{SVG}g") if one.get("id", "").rpartition("-")[2] == view
        ]
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
        told = [name for name in view.names() if name.startswith("screws at ")]
        for row in plan.screws if not told else ():  # else a count stands for them
            for number, (x, height) in enumerate(row.positions, start=1):
                place = view.mark(f"screw {row.board}.{number}")
                assert place == view.close(x, target + height)
    if plan.studs is not None:
        for number, spot in enumerate(plan.studs.spots, start=1):
            if 0.0 <= spot <= width:
                (x0, _), (x1, _) = view.line(f"stud {number} centre")
                assert (x0, x1) == view.close(spot, spot)


def check_section(plan: Plan, view: Read) -> None:
    to_come = plan.job.wall.finish_to_come
    thick = [*([to_come] if to_come else []), *(one.thickness for one in plan.job.wall.layers)]
    faces = [0.0, *accumulate(thick)]
    for number, (near, far) in enumerate(pairwise(faces), start=1):
        left, right, _, _ = view.span(f"layer {number}")
        assert (left, right) == view.close(-far, -near)
    left, right, _, _ = view.span("stud")
    assert (left, right) == view.close(-faces[-1] - plan.job.wall.stud.depth, -faces[-1])
    target, stack = plan.restraint.target_height, plan.stack
    if stack is None or target is None:
        return
    outs = [-stack.cut_back, *(face - stack.cut_back for face in accumulate(stack.thicknesses))]
    for number, (near, far) in enumerate(pairwise(outs), start=1):
        expected = (near, far, target, target + stack.width)
        assert view.span(f"board {number}") == view.close(*expected)
    corner = view.named("unit's corner").get("points", "").split()[1].split(",")
    assert view.point(corner[0], corner[1]) == view.close(stack.rear_gap, target)
    (gap, _), (out, _) = view.line("overlap")
    assert (gap, out) == view.close(stack.rear_gap, outs[-1])
    assert out - gap == pytest.approx(stack.overlap, abs=2 * NEAR / view.scale)
    drawn = [view.line(name) for name in view.names() if name.startswith("screw ")]
    for row in plan.screws:
        washer = 0.0 if row.washer is None else row.washer.thickness
        head = outs[row.board] - row.counterbore + washer
        for _, height in row.offsets:
            ends = (head, target + height, head - row.length, target + height)
            assert any((*start, *end) == view.close(*ends) for start, end in drawn), ends
        (tip, _), (start, _) = view.line(f"embedment line {row.board}")
        assert start - tip == pytest.approx(row.embedment, abs=2 * NEAR / view.scale)
        # the bite begins where the framing does, behind every layer and what is to come
        assert start == pytest.approx(-faces[-1], abs=2 * NEAR / view.scale)


def check_detail(plan: Plan, view: Read) -> None:
    assert view.scale >= 72.0 / 4.0 - 1e-9  # 1:4 or larger
    places = [(row.board, across, up) for row in plan.screws for across, up in row.offsets]
    for number, (board, across, up) in enumerate(places, start=1):
        assert view.mark(f"screw {board} at {number}") == view.close(across, up)


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
    data = svg_bytes(*sheet_pages(one, wishes(), Paper.LETTER))
    check_elevation(one.plan, Read(data, "elevation"))
    check_section(one.plan, Read(data, "section"))
    if has_detail(one.plan):
        check_detail(one.plan, Read(data, "detail"))
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
    pages = sheet_pages(one, wishes(), Paper.LETTER)
    data = svg_bytes(*pages).replace(b'data-scale="', b'data-scale="1')
    with pytest.raises(AssertionError):
        check_elevation(one.plan, Read(data, "elevation"))


def boxes(runs: list[list[tuple[float, float]]]) -> list[tuple[float, float, float, float]]:
    """Return left, top, right and bottom of each run of points."""
    return [
        (min(x for x, _ in run), min(y for _, y in run), max(x for x, _ in run),
         max(y for _, y in run))
        for run in runs
    ]  # fmt: skip


@pytest.mark.parametrize("name", DEMO)
def test_the_pdf_draws_boards_and_studs_where_the_plan_says(name: str) -> None:
    one = subject(demo_job(name))
    plan = one.plan
    page = sheet_pages(one, wishes(), Paper.A4)[0]
    data = make_pdf([Leaf(page)], title="a sheet", date=DAY).data
    drawn = boxes(paths(data))
    frames = {group.name: group.frame for group in page.groups}
    front, side = frames["elevation"], frames["section"]
    assert front is not None
    assert side is not None
    near = 0.02  # points: the file is written to a hundredth
    if plan.stack is not None and plan.restraint.target_height is not None:
        under = plan.restraint.target_height
        left, top = front.page((plan.stack.left_end, under + plan.stack.width))
        right, bottom = front.page((plan.stack.left_end + plan.stack.length, under))
        assert pytest.approx((left, top, right, bottom), abs=near) in drawn
        for far in accumulate(plan.stack.thicknesses):
            x, y = side.page((far, under))
            assert any(box[2:] == pytest.approx((x, y), abs=near) for box in drawn)
    if plan.restraint.target_height is not None:
        x0, y = front.page((0.0, plan.restraint.target_height))
        x1, _ = front.page((min(plan.job.niche.width), 0.0))
        assert pytest.approx((x0, y, x1, y), abs=near) in drawn
    for spot in () if plan.studs is None else plan.studs.spots:
        x, _ = front.page((spot, 0.0))
        assert any(box[0] == box[2] == pytest.approx(x, abs=near) for box in drawn)


@pytest.mark.parametrize("to_come", [0.5, 1.0])
def test_a_finish_to_come_is_drawn_and_taken_off_the_bite(to_come: float) -> None:
    kitchen = demo_job("3b-kitchen.toml")
    deeper = tuple(depth + to_come for depth in kitchen.niche.depth)
    job = moved(kitchen, wall={"finish_to_come": to_come}, niche={"depth": deeper})
    assert subject(job).plan.screws
    check(job)


def test_a_washer_is_drawn_under_the_head() -> None:
    one = subject(demo_job("4c-deep-niche.toml"))
    view = Read(svg_bytes(*sheet_pages(one, wishes(), Paper.LETTER)), "section")
    drawn = [view.span(name) for name in view.names() if name.startswith("washer 5.")]
    washer = one.plan.screws[-1].washer
    assert washer is not None
    face = one.plan.stack.projection if one.plan.stack is not None else 0.0
    assert drawn
    for left, right, _, _ in drawn:
        assert (left, right) == view.close(face, face + washer.thickness)
