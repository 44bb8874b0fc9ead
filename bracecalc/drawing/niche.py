"""The niche as a whole from the front: walls, floor, appliance, boards, services, clearances."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bracecalc.drawing.flattening import flatten
from bracecalc.drawing.lettering import Face, clean, wrap
from bracecalc.drawing.model import (
    Anchor,
    Break,
    Dimension,
    Frame,
    Hatch,
    Item,
    Line,
    Mark,
    MarkKind,
    PaperItem,
    Pattern,
    Pen,
    Polyline,
    Rect,
    Text,
    Tone,
    View,
    standard_scale,
)
from bracecalc.drawing.placing import Column, Label, column, label_height, label_width
from bracecalc.drawing.profile import Figure
from bracecalc.drawing.scene import Scene, scene_of
from bracecalc.drawing.showing import Room, Shown, beside
from bracecalc.records.plan import Plan, RestraintKind

_OVER = 3.0  # in: of the wall that is shown over all else
_UNDER = 2.0
_LEADER = 15.0
_WORDS = 96.0  # points: widest label of a service


def whole_niche(plan: Plan, shown: Shown, room: Room) -> Figure:
    """Return the niche with everything in it whose place is known."""
    scene, size = scene_of(plan), room.letters
    high = _high(plan, scene) + _OVER
    low = min(0.0, *_floor(plan)) - _UNDER
    services = _service_labels(plan, shown, size)
    heights = _height_labels(plan, scene, shown)
    right = max((label_width(one, size) for one in services), default=0.0) + _LEADER
    left = max(label_width(one, size) for one in heights) + _LEADER
    below = 2.0 * size + 8.0
    across = standard_scale(max(room.width - left - right, 40.0), scene.width)
    tall = max(sum(label_height(one, size) for one in services), room.height - below)
    scale = min(across, standard_scale(tall, high - low))
    x = room.left + left
    frame = Frame(scale, (x, room.top + high * scale))
    shapes = tuple(_shapes(plan, scene, (low, high)))
    notes = _notes(scene, frame, (low, high), services, heights, shown, size)
    told = _told(plan, scene, shown)
    view = View("niche", "The niche as a whole", frame, shapes, notes, told)
    marks = max(note.box()[3] for note in notes if isinstance(note, Text))
    return Figure(flatten(view), max(frame.page((0.0, low))[1] + below, marks + 2.0))


def _high(plan: Plan, scene: Scene) -> float:
    tops = [scene.high, scene.highest, *(one.z for one in plan.job.surroundings.services)]
    if scene.soffit is not None:
        tops.append(scene.soffit)
    return max(tops)


def _floor(plan: Plan) -> tuple[float, float]:
    """Return the floor's height at the front legs, left and right."""
    left, right, _, _ = plan.job.floor.spots
    return left, right


def _shapes(plan: Plan, scene: Scene, span: tuple[float, float]) -> Iterator[Item]:
    low, high = span
    width, (left, right) = scene.width, scene.unit
    at_left, at_right = _floor(plan)
    bottom = scene.unit_top - plan.job.unit.height
    if right > left:
        yield Rect((left, bottom), (right, scene.unit_top), Pen.EDGE, Tone.UNIT, "appliance")
        if scene.highest > scene.unit_top + 1e-9:
            ends = (left, scene.highest), (right, scene.highest)
            yield Line(*ends, Pen.HIDDEN, "highest point")
        inset = min(1.5, (right - left) / 8.0)
        for x in (left + inset, right - inset):
            foot = at_left if x < width / 2.0 else at_right
            yield Line((x, foot), (x, bottom), Pen.CUT)
    if scene.across is not None:
        start, end = scene.across
        name = "boards" if plan.restraint.kind is RestraintKind.STACK else "packers"
        yield Rect((start, scene.low), (end, scene.high), Pen.CUT, Tone.BOARD, name)
    yield Polyline(
        ((0.0, low), (0.0, at_left), (width, at_right), (width, low)),
        Pen.NONE, Tone.STUD, "floor", closed=True,
    )  # fmt: skip
    yield Hatch((0.0, low), (width, min(at_left, at_right)), Pattern.DIAGONAL, 3.0)
    yield Line((0.0, at_left), (width, at_right), Pen.CUT, "finished floor")
    for x, name in ((0.0, "left side"), (width, "right side")):
        yield Line((x, low), (x, high), Pen.CUT, name)
    if scene.soffit is not None:
        yield Line((0.0, scene.soffit), (width, scene.soffit), Pen.CUT, "soffit")
        yield Hatch((0.0, scene.soffit), (width, high), Pattern.DIAGONAL, 3.0)
    else:
        yield Break((0.0, high), (width, high))
    for number, service in enumerate(plan.job.surroundings.services, start=1):
        yield Mark((service.x, service.z), MarkKind.ALERT, 3.6, f"service {number}")


def _service_labels(plan: Plan, shown: Shown, size: float) -> list[Label]:
    found = []
    for service in plan.job.surroundings.services:
        name = wrap(clean(service.name), _WORDS, size, Face.BOLD)
        place = f"{beside(shown.near(service.x))} from left"
        lines = (*name, place, f"{beside(shown.near(service.z))} up")
        found.append(Label(service.z, lines, name=f"service {service.z:.4f}", bold=len(name)))
    return found


def _height_labels(plan: Plan, scene: Scene, shown: Shown) -> list[Label]:
    """Return the heights that the crew looks for, and the room over the appliance."""
    found = [(scene.unit_top, "top of appliance", shown.near(scene.unit_top))]
    if scene.highest > scene.unit_top + 1e-9:
        found.append((scene.highest, "highest point", shown.up(scene.highest)))
    if scene.soffit is not None:
        found.append((scene.soffit, "soffit", shown.near(scene.soffit)))
    if plan.stack is not None:
        found.append((scene.high, "top of boards", shown.near(scene.high)))
    return [Label(z, (name, *lines), name=f"at {name}", bold=1) for z, name, lines in found]


def _notes(
    scene: Scene,
    frame: Frame,
    span: tuple[float, float],
    services: list[Label],
    heights: list[Label],
    shown: Shown,
    size: float,
) -> tuple[PaperItem, ...]:
    low, high = span
    left, top = frame.page((0.0, high))
    right, bottom = frame.page((scene.width, low))
    notes: list[PaperItem] = []
    columns = (
        (heights, Column(left, left - _LEADER + 2.0, top, bottom)),
        (services, Column(right, right + _LEADER - 2.0, top, bottom)),
    )
    for labels, where in columns:
        placed = [replace(one, place=frame.page((0.0, one.place))[1]) for one in labels]
        notes.extend(column(placed, where, size))
    words = f"niche {beside(shown.near(scene.width))}"
    line = Dimension((0.0, low), (scene.width, low), -(size + 5.0), "", size, name="niche width")
    notes.extend(flatten(View("", "", frame, (line,))).items)
    at = ((left + right) / 2.0, bottom + 2.0 * size + 6.0)
    notes.append(Text(at, words, size, Anchor.MIDDLE))
    return tuple(notes)


def _told(plan: Plan, scene: Scene, shown: Shown) -> str:
    words = [f"The niche as a whole, {beside(shown.near(scene.width))} wide."]
    words += [
        f"{one.name}: {beside(shown.near(one.x))} from the left, {beside(shown.near(one.z))} up."
        for one in plan.job.surroundings.services
    ]
    return " ".join(words)
