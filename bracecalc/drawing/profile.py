"""Floor and levelling legs at contact: the four leg spots side by side, heights to scale."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from bracecalc.drawing.flattening import flatten_shape, told_by
from bracecalc.drawing.lettering import Face, wrap
from bracecalc.drawing.model import (
    Frame,
    Group,
    Hatch,
    Item,
    Line,
    PaperItem,
    Pattern,
    Pen,
    Polyline,
    Rect,
    Role,
    Text,
    Tone,
    standard_scale,
)
from bracecalc.drawing.placing import LEADING
from bracecalc.drawing.showing import Room, Shown, beside
from bracecalc.records.job import CORNERS
from bracecalc.records.niche import Floor
from bracecalc.records.plan import Leg, Plan, Verdict
from bracecalc.render.words import corner_words

_GAUGE = 12.0  # points: width of a leg
_TALL = 74.0  # points: room for floor and legs
_SIDE = 6.2  # left of the first spot, of the letter size: for the datum's words and sign
_DEEP = 5.0  # points of floor that are drawn under its lowest spot


class Figure(NamedTuple):
    """A drawing that flows with the tables: its marks, and the lowest point that it takes up."""

    group: Group
    bottom: float


def profile(plan: Plan, shown: Shown, room: Room) -> Figure:
    """Return the floor at the four leg spots, and how far each leg is out of its travel."""
    size, legs, floor = room.letters, plan.legs, plan.job.floor
    side = _SIDE * size
    spots = floor_spots(floor)
    low = min(0.0, *spots.values())
    high = max(
        [0.0, *(spots[corner] + _reach(legs, corner) for corner in CORNERS)],
    )
    scale = standard_scale(_TALL - _DEEP - size, max(high - low, 0.125))
    top = room.top + size
    base = top + (high - low) * scale + low * scale  # the page's height of the datum
    frame = Frame(scale, (room.left + side, base))
    wide = (room.width - side) / len(CORNERS)
    items: list[PaperItem] = []
    for place, corner in enumerate(CORNERS):
        left = place * wide / scale
        leg = None if legs is None else legs[corner]
        shapes = _spot_shapes(corner, spots[corner], leg, left, wide, low, scale)
        items.extend(mark for shape in shapes for mark in flatten_shape(shape, frame))
    items.extend(_datum(room, frame, base))
    under = top + (high - low) * scale + _DEEP + 3.0
    bottom = under
    for place, corner in enumerate(CORNERS):
        spot = None if corner in floor.unread else spots[corner]
        words = _words(corner, spot, None if legs is None else legs[corner], shown)
        y = under
        for number, line in enumerate(words):
            face = Face.REGULAR if number else Face.BOLD
            for part in wrap(line, wide - 4.0, size, face):
                y += size * LEADING
                at = (room.left + side + place * wide, y)
                name = f"leg {corner} words" if number == 0 else ""
                role = Role.MORE if number else Role.PLAIN
                items.append(Text(at, part, size, face=face, name=name, role=role))
        bottom = max(bottom, y)
    label = "Floor and legs at contact"
    picture = told_by(f"{label}, heights 1:{frame.ratio:g}.", items)
    return Figure(Group("legs", label, tuple(items), frame, picture), bottom + size * 0.5)


def floor_spots(floor: Floor) -> Mapping[str, float]:
    """Return the height of each leg spot above the datum."""
    return dict(zip(CORNERS, floor.spots, strict=True))


def datum_words(floor: Floor, shown: Shown) -> str:
    """Return where the datum lies, told from a leg spot, and where the laser's line is over it."""
    spots = floor_spots(floor)
    if len(floor.unread) == len(CORNERS):
        return "the floor, which was NOT MEASURED and is taken as level"
    read = [corner for corner in CORNERS if corner not in floor.unread]
    level = next((corner for corner in read if abs(spots[corner]) < 1e-9), None)
    if level is not None:
        words = f"the floor at the {corner_words(level)} leg"
    else:
        near = min(read, key=lambda corner: abs(spots[corner]))
        side = "below" if spots[near] > 0.0 else "above"
        words = f"{beside(shown.near(abs(spots[near])))} {side} the floor at the "
        words += f"{corner_words(near)} leg"
    if floor.line is not None:
        words += f"; the laser's line is {beside(shown.near(floor.line))} above it"
    return words


def mark_words(floor: Floor, target: float, shown: Shown) -> str:
    """Return how far from the laser's line the mark is struck; empty where no line was used."""
    if floor.line is None:
        return ""
    far = target - floor.line
    if abs(far) < 1e-9:
        return "on the laser's line"
    return f"{beside(shown.near(abs(far)))} {'above' if far > 0.0 else 'below'} the laser's line"


def _reach(legs: Mapping[str, Leg] | None, corner: str) -> float:
    return 0.25 if legs is None else max(legs[corner].travel, legs[corner].extension, 0.0)


def _spot_shapes(
    corner: str, spot: float, leg: Leg | None, left: float, wide: float, low: float, scale: float
) -> Iterator[Item]:
    """Yield the floor under one leg, the leg's travel, and how far it is out."""
    right = left + wide / scale
    under = low - _DEEP / scale
    yield Rect((left, under), (right, spot), Pen.NONE, Tone.STUD, f"floor {corner}")
    yield Hatch((left, under), (right, spot), Pattern.DIAGONAL, 3.0)
    yield Line((left, spot), (right, spot), Pen.CUT, f"floor line {corner}")
    if leg is None:
        return
    start = left + 6.0 / scale
    end = start + _GAUGE / scale
    out = spot + max(leg.extension, 0.0)
    fails = leg.margin.verdict is Verdict.FAILS
    yield Rect((start, spot), (end, spot + leg.travel), Pen.HIDDEN, Tone.PAPER, f"travel {corner}")
    tone = Tone.FAIL if fails else Tone.BAND
    yield Rect((start, spot), (end, out), Pen.EDGE, tone, f"leg {corner}")
    yield Hatch((start, spot), (end, out), Pattern.DIAGONAL, 2.4)
    yield Line((left, out), (right - 8.0 / scale, out), Pen.EDGE, f"underside {corner}")


def _datum(room: Room, frame: Frame, base: float) -> Iterator[PaperItem]:
    """Yield the datum's line with its sign: a triangle that stands on it."""
    right = room.left + room.width
    yield Line((room.left, base), (right, base), Pen.CENTRE, "datum")
    x = room.left + (_SIDE - 1.3) * room.letters
    points = ((x, base), (x - 4.0, base - 6.0), (x + 4.0, base - 6.0))
    yield Polyline(points, Pen.EDGE, Tone.INK, "datum sign", closed=True)
    size = room.letters
    yield Text((room.left, base - 2.5), "datum", size, face=Face.BOLD)


def _words(corner: str, spot: float | None, leg: Leg | None, shown: Shown) -> list[str]:
    at = "NOT MEASURED" if spot is None else beside(shown.near(spot))
    lines = [corner_words(corner), f"floor {at}"]
    if leg is None:
        return lines
    lines.append(f"leg out {beside(shown.near(leg.extension))}")
    lines.append(f"of {beside(shown.down(leg.travel))}")
    if leg.turns is not None:
        lines.append(f"{leg.turns:.1f}\u00a0turns")
    if leg.margin.verdict is not Verdict.HOLDS:
        lines.append("FAILS" if leg.margin.verdict is Verdict.FAILS else "measure closely")
    return lines
