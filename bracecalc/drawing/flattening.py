"""Shapes of the real thing to marks on the page."""

from __future__ import annotations

import math
from collections.abc import Iterable

from bracecalc.drawing.lettering import DESCENT
from bracecalc.drawing.model import (
    Anchor,
    Bracket,
    Break,
    Circle,
    Dimension,
    Frame,
    Group,
    Hatch,
    Item,
    Line,
    Mark,
    MarkKind,
    PaperItem,
    Pattern,
    Pen,
    Point,
    Polyline,
    Rect,
    Role,
    Text,
    Tone,
    Turn,
    View,
)

TICK = 2.2  # half the length of a dimension's slash, along each axis, in points
_WITNESS_GAP = 1.5  # between the thing and its witness line
_OVERRUN = 2.5  # of witness and dimension lines past each other
_ZIGZAG = 4.0  # half the width of a zigzag in a break line
_LEAST_BRACKET = 4.0  # points: a bracket is seen at any scale


def flatten(view: View) -> Group:
    """Turn a view into marks on the page: shapes first, notes over them."""
    shapes = tuple(mark for shape in view.shapes for mark in flatten_shape(shape, view.frame))
    items = shapes + view.notes
    return Group(view.name, view.label, items, view.frame, told_by(view.told or view.label, items))


def told_by(head: str, items: Iterable[PaperItem]) -> str:
    """Return a picture in words: its head, then everything that is written in it.

    >>> told_by("A niche.", (Text((0.0, 0.0), "cut", 8.0), Text((0.0, 9.0), "33 in", 8.0)))
    'A niche. Written in it: cut; 33 in.'
    """
    parts: list[str] = []
    for item in items:
        if isinstance(item, Text):
            if item.role is Role.MORE and parts:
                parts[-1] += f" {item.words}"
            else:
                parts.append(item.words)
    return f"{head} Written in it: {'; '.join(parts)}." if parts else head


def flatten_shape(shape: Item, frame: Frame) -> tuple[PaperItem, ...]:
    """Return the marks on the page that draw one shape."""
    page = frame.page
    if isinstance(shape, Line):
        return (Line(page(shape.start), page(shape.end), shape.pen, shape.name),)
    if isinstance(shape, Polyline):
        points = tuple(page(point) for point in shape.points)
        return (Polyline(points, shape.pen, shape.tone, shape.name, shape.closed),)
    if isinstance(shape, Rect):
        return (Rect(page(shape.corner), page(shape.opposite), shape.pen, shape.tone, shape.name),)
    if isinstance(shape, Circle):
        return (Circle(page(shape.centre), shape.radius, shape.pen, shape.tone, shape.name),)
    if isinstance(shape, Hatch):
        return _hatch_lines(shape, frame)
    if isinstance(shape, Dimension):
        return dimension_marks(shape, frame)
    if isinstance(shape, Break):
        return _break_line(page(shape.start), page(shape.end), shape.name)
    if isinstance(shape, Bracket):
        return _bracket(page(shape.low), page(shape.high), shape)
    if isinstance(shape, Mark):
        return sign(page(shape.at), shape.kind, shape.radius, shape.name)
    raise ValueError(f"words are notes on the page, not shapes: {shape!r}")


def _break_line(start: Point, end: Point, name: str) -> tuple[PaperItem, ...]:
    """Return a line with two zigzags, a third of its length from either end."""
    (x0, y0), (x1, y1) = start, end
    long = math.hypot(x1 - x0, y1 - y0)
    if long < 1e-9:
        return ()
    along, across = ((x1 - x0) / long, (y1 - y0) / long), ((y0 - y1) / long, (x1 - x0) / long)

    def point(far: float, off: float) -> Point:
        return (
            x0 + along[0] * far + across[0] * off,
            y0 + along[1] * far + across[1] * off,
        )

    half = min(_ZIGZAG, long / 8.0)
    points = [point(-_OVERRUN, 0.0)]
    for middle in (long / 3.0, 2.0 * long / 3.0):
        points += [point(middle - half, 0.0), point(middle - half / 2.0, half)]
        points += [point(middle + half / 2.0, -half), point(middle + half, 0.0)]
    points.append(point(long + _OVERRUN, 0.0))
    return (Polyline(tuple(points), Pen.DIMENSION, name=name),)


def _bracket(low: Point, high: Point, shape: Bracket) -> tuple[PaperItem, ...]:
    middle = (low[1] + high[1]) / 2.0
    half = max((low[1] - high[1]) / 2.0, _LEAST_BRACKET / 2.0)
    near, far = low[0] + shape.out * 1.5, low[0] + shape.out * 4.5
    top, bottom = middle - half, middle + half
    points = ((near, top), (far, top), (far, bottom), (near, bottom))
    return (Polyline(points, Pen.TARGET, Tone.NONE, shape.name),)


def sign(at: Point, kind: MarkKind, radius: float, name: str = "") -> tuple[PaperItem, ...]:
    """Return the marks of a sign around a point of the page; the first one carries its name."""
    x, y = at
    pen = Pen.EDGE
    if kind is MarkKind.DOT:
        return (Circle(at, radius * 0.8, pen, Tone.INK, name),)
    if kind is MarkKind.SQUARE:
        side = radius * 0.85
        return (Rect((x - side, y + side), (x + side, y - side), pen, Tone.PAPER, name),)
    if kind is MarkKind.DIAMOND:
        points = ((x, y - radius), (x + radius, y), (x, y + radius), (x - radius, y))
        return (Polyline(points, pen, Tone.PAPER, name, closed=True),)
    if kind is MarkKind.ALERT:
        foot = y + radius * 0.8
        corners = ((x, y - radius), (x + radius, foot), (x - radius, foot))
        dot = Circle((x, y + radius * 0.45), 0.6, pen, Tone.INK)
        stroke = Line((x, y - radius * 0.45), (x, y + radius * 0.15), pen)
        return (Polyline(corners, pen, Tone.PAPER, name, closed=True), stroke, dot)
    ring = Circle(at, radius, pen, Tone.PAPER, name)
    if kind is MarkKind.RING:
        return (ring,)
    reach = radius if kind is MarkKind.RING_CROSS else radius * math.sqrt(0.5)
    if kind is MarkKind.RING_CROSS:
        ends = (((x - reach, y), (x + reach, y)), ((x, y - reach), (x, y + reach)))
    else:
        ends = (
            ((x - reach, y - reach), (x + reach, y + reach)),
            ((x - reach, y + reach), (x + reach, y - reach)),
        )
    return (ring, *(Line(start, end, Pen.DIMENSION) for start, end in ends))


def dimension_marks(shape: Dimension, frame: Frame) -> tuple[PaperItem, ...]:
    """Return witness lines, dimension line, slashes and words of a measured distance."""
    start, end = frame.page(shape.start), frame.page(shape.end)
    level = abs(end[0] - start[0]) >= abs(end[1] - start[1])
    if level:
        at = (start[1] if shape.offset < 0 else min(start[1], end[1])) - shape.offset
        first, last = (start[0], at), (end[0], at)
    else:
        at = (start[0] if shape.offset < 0 else max(start[0], end[0])) + shape.offset
        first, last = (at, start[1]), (at, end[1])
    marks: list[PaperItem] = [Line(first, last, Pen.DIMENSION, shape.name)]
    for thing, foot in ((start, first), (end, last)):
        if shape.witness:
            marks.extend(_witness(thing, foot, level=level))
        marks.append(slash(foot))
    if shape.words:
        marks.append(_dimension_words(shape, first, last, level=level))
    return tuple(marks)


def slash(foot: Point) -> Line:
    """Return the slash that ends a dimension line."""
    x, y = foot
    return Line((x - TICK, y + TICK), (x + TICK, y - TICK), Pen.EDGE)


def _witness(thing: Point, foot: Point, *, level: bool) -> tuple[Line, ...]:
    axis = 1 if level else 0
    span = foot[axis] - thing[axis]
    if abs(span) <= _WITNESS_GAP:
        return ()
    way = math.copysign(1.0, span)
    near, far = thing[axis] + way * _WITNESS_GAP, foot[axis] + way * _OVERRUN
    if level:
        return (Line((foot[0], near), (foot[0], far), Pen.DIMENSION),)
    return (Line((near, foot[1]), (far, foot[1]), Pen.DIMENSION),)


def _dimension_words(shape: Dimension, first: Point, last: Point, *, level: bool) -> Text:
    lift = DESCENT * shape.size + 0.8  # clear of the line
    x, y = (first[0] + last[0]) / 2, (first[1] + last[1]) / 2
    if level:
        return Text((x, y - lift), shape.words, shape.size, Anchor.MIDDLE)
    return Text((x - lift, y), shape.words, shape.size, Anchor.MIDDLE, turn=Turn.UPRIGHT)


def _hatch_lines(shape: Hatch, frame: Frame) -> tuple[Line, ...]:
    (x0, y0), (x1, y1) = frame.page(shape.corner), frame.page(shape.opposite)
    left, right = sorted((x0, x1))
    top, bottom = sorted((y0, y1))
    if shape.pattern is Pattern.CROSSED:
        ends = [((left, top), (right, bottom)), ((left, bottom), (right, top))]
    elif shape.pattern is Pattern.GRAIN:
        count = max(1, int((right - left) / shape.spacing))
        step = (right - left) / (count + 1)
        ends = [
            ((left + step * (i + 1), top), (left + step * (i + 1), bottom)) for i in range(count)
        ]
    else:
        ends = _diagonals(left, top, right, bottom, shape.spacing)
    return tuple(Line(start, end, Pen.HATCH) for start, end in ends)


def _diagonals(
    left: float, top: float, right: float, bottom: float, spacing: float
) -> list[tuple[Point, Point]]:
    """Lines x + y = c at 45 degrees, clipped to the box."""
    lines = []
    step = spacing * math.sqrt(2.0)
    c = left + top + step / 2
    while c < right + bottom:
        start = (max(left, c - bottom), min(bottom, c - left))
        end = (min(right, c - top), max(top, c - right))
        lines.append((start, end))
        c += step
    return lines
