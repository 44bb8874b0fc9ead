"""The four levelling legs at contact: how far each is out of its travel, and its turns."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from bracecalc.drawing.flattening import flatten_shape
from bracecalc.drawing.lettering import Face, shorten, wrap
from bracecalc.drawing.model import (
    Frame,
    Group,
    Hatch,
    Line,
    PaperItem,
    Pattern,
    Pen,
    Rect,
    Text,
    Tone,
    standard_scale,
)
from bracecalc.drawing.placing import LEADING
from bracecalc.drawing.showing import Room, Shown
from bracecalc.records.job import CORNERS
from bracecalc.records.plan import Leg, Verdict

_GAUGE = 9.0  # points: width of a gauge


class Order(Enum):
    """How the four legs are drawn: as seen from above with the crew in front, or in one row."""

    SQUARE = "square"
    ROW = "row"


# place across and down of each leg's cell
_CELLS = {
    Order.SQUARE: {
        "rear_left": (0, 0), "rear_right": (1, 0), "front_left": (0, 1), "front_right": (1, 1),
    },
    Order.ROW: {
        "front_left": (0, 0), "front_right": (1, 0), "rear_left": (2, 0), "rear_right": (3, 0),
    },
}  # fmt: skip


def legs_height(letters: float, units: int, *, known: bool, order: Order = Order.SQUARE) -> float:
    """Return the height in points that the drawing takes up with so many units of length."""
    if not known:
        return 3.0 * letters * LEADING
    if order is Order.ROW:
        return _cell_height(letters, units)
    return 2.0 * _cell_height(letters, units) + 2.0 * letters * LEADING


def _cell_height(letters: float, units: int) -> float:
    return (4.0 + units) * letters * LEADING + 4.0


def legs_group(
    legs: Mapping[str, Leg] | None, shown: Shown, room: Room, order: Order = Order.SQUARE
) -> Group:
    """Return the drawing of the legs: a gauge each, filled as far as the leg is out."""
    size, label = room.letters, "Levelling legs at contact, seen from above"
    if legs is None:
        words = "Legs: not worked out, as there is no restraint to raise the unit to."
        lines = wrap(words, room.width, size)
        step = size * LEADING
        texts = (
            Text((room.left, room.top + size + i * step), line, size)
            for i, line in enumerate(lines)
        )
        return Group("legs", label, tuple(texts))
    tall = _cell_height(size, shown.count)
    longest = max(max(leg.travel, leg.extension) for leg in legs.values())
    scale = standard_scale(tall - size - 4.0, max(longest, 0.125))
    items: list[PaperItem] = []
    first, wide = room.top, room.width / 4.0
    if order is Order.SQUARE:
        first, wide = room.top + size * LEADING, room.width / 2.0
        items.extend(_edge_words("rear", room.top, room))
        items.extend(_edge_words("front", first + 2.0 * tall, room))
    for corner in CORNERS:
        across, down = _CELLS[order][corner]
        cell = Room(room.left + across * wide, first + down * tall, wide, tall, size)
        items.extend(_cell(corner, legs[corner], shown, cell, scale))
    frame = Frame(scale, (room.left, room.top + room.height))
    return Group("legs", label, tuple(items), frame)


def _edge_words(words: str, top: float, room: Room) -> tuple[PaperItem, ...]:
    size = room.letters
    y = top + size * 0.45
    text = Text((room.left, y + size * 0.35), words, size, face=Face.BOLD)
    return (text, Line((text.box()[2] + 4.0, y), (room.left + room.width - 6.0, y), Pen.RULE))


def _cell(corner: str, leg: Leg, shown: Shown, cell: Room, scale: float) -> tuple[PaperItem, ...]:
    size = cell.letters
    frame = Frame(scale, (cell.left + 4.0, cell.top + cell.height - 5.0))
    wide = _GAUGE / scale
    out = min(max(leg.extension, 0.0), max(leg.travel, leg.extension))
    fill = (0.0, 0.0), (wide, out)
    fails = leg.margin.verdict is Verdict.FAILS
    shapes = (
        Rect((0.0, 0.0), (wide, leg.travel), Pen.HIDDEN, Tone.PAPER, f"travel {corner}"),
        Rect(*fill, Pen.EDGE, Tone.FAIL if fails else Tone.BAND, f"leg {corner}"),
        Hatch(*fill, Pattern.DIAGONAL, 2.4),
        Line((-3.0 / scale, 0.0), (wide + 3.0 / scale, 0.0), Pen.CUT),
    )
    marks = [mark for shape in shapes for mark in flatten_shape(shape, frame)]
    left = cell.left + _GAUGE + 12.0
    room = cell.left + cell.width - left - 2.0
    for number, (words, face) in enumerate(_words(corner, leg, shown)):
        y = cell.top + size + 2.0 + number * size * LEADING
        name = f"leg {corner} {number}"
        marks.append(Text((left, y), shorten(words, room, size, face), size, face=face, name=name))
    return tuple(marks)


def _words(corner: str, leg: Leg, shown: Shown) -> list[tuple[str, Face]]:
    from bracecalc.render.words import corner_words

    out, travel = shown.near(leg.extension), shown.down(leg.travel)
    lines = [(corner_words(corner), Face.REGULAR), (f"out {out[0]}", Face.BOLD)]
    lines += [(f"({other})", Face.BOLD) for other in out[1:]]
    if leg.turns is not None:
        lines.append((f"{leg.turns:.1f} turns", Face.BOLD))
    lines.append((f"of {travel[0]}", Face.REGULAR))
    if leg.margin.verdict is not Verdict.HOLDS:
        short = "FAILS" if leg.margin.verdict is Verdict.FAILS else "measure closely"
        lines.append((short, Face.BOLD))
    return lines
