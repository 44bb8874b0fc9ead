"""Labels that stand clear of each other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bracecalc.drawing.flattening import sign
from bracecalc.drawing.lettering import ASCENT, DESCENT, Face, measure
from bracecalc.drawing.model import (
    Anchor,
    Box,
    Line,
    MarkKind,
    PaperItem,
    Pen,
    Point,
    Role,
    Text,
    Tone,
    Turn,
    View,
)

LEADING = 1.22  # base line to base line, of the letter size
SIGN_ROOM = 8.0  # points across that a sign before words takes up


@dataclass(frozen=True, slots=True)
class Fitted:
    """A view placed on the page, and the lowest point that it takes up."""

    view: View
    bottom: float


@dataclass(frozen=True, slots=True)
class Label:
    """Lines of words that belong to a place on one axis of the page, in points."""

    place: float
    lines: tuple[str, ...]
    face: Face = Face.REGULAR
    tone: Tone = Tone.INK
    name: str = ""
    sign: MarkKind | None = None  # stands before the words
    bold: int = 0  # so many lines from the first stand out, so that no name is read with a number


def spread(places: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Return middles that are near the places and at least half of both sizes apart, in order.

    Places must be in rising order. The middles stay between ``low`` and ``high`` where all fit;
    where they don't, they run on past ``high``, still clear of each other.

    >>> spread([10.0, 11.0, 40.0], [8.0, 8.0, 8.0], 0.0, 60.0)
    [6.5, 14.5, 40.0]
    """
    blocks: list[tuple[float, float, int]] = []  # wanted start, size, how many labels
    for place, size in zip(places, sizes, strict=True):
        blocks.append((place - size / 2, size, 1))
        while len(blocks) > 1 and sum(blocks[-2][:2]) > blocks[-1][0]:
            (start, length, count), (other, more, others) = blocks[-2:]
            # the mean of where each label wants the block to start
            middle = (start * count + (other - length) * others) / (count + others)
            blocks[-2:] = [(middle, length + more, count + others)]
    starts = _clamped([block[0] for block in blocks], [block[1] for block in blocks], low, high)
    middles, index = [], 0
    for start, (_, _, count) in zip(starts, blocks, strict=True):
        for size in sizes[index : index + count]:
            middles.append(start + size / 2)
            start += size
        index += count
    return middles


def _clamped(starts: list[float], lengths: list[float], low: float, high: float) -> list[float]:
    placed = list(starts)
    limit = high
    for index in reversed(range(len(placed))):
        placed[index] = min(placed[index], limit - lengths[index])
        limit = placed[index]
    edge = low
    for index, length in enumerate(lengths):
        placed[index] = max(placed[index], edge)
        edge = placed[index] + length
    return placed


def lines_at(at: Point, label: Label, size: float, anchor: Anchor) -> tuple[Text, ...]:
    """Return a label's lines, one under another, their middle at the height of ``at``."""
    x, middle = at
    step = size * LEADING
    tall = step * (len(label.lines) - 1) + size * (ASCENT + DESCENT)
    first = middle - tall / 2 + ASCENT * size
    return tuple(
        Text((x, first + step * i), words, size, anchor,
             Face.BOLD if i < label.bold else label.face, tone=label.tone,
             name=label.name if i == 0 else "", role=Role.MORE if i else Role.PLAIN)
        for i, words in enumerate(label.lines)
    )  # fmt: skip


def label_width(label: Label, size: float) -> float:
    """Return the width of the widest line of a label in points, its sign included."""
    words = max(
        (
            measure(words, size, Face.BOLD if place < label.bold else label.face)
            for place, words in enumerate(label.lines)
        ),
        default=0.0,
    )
    return words + (0.0 if label.sign is None else SIGN_ROOM)


def label_height(label: Label, size: float) -> float:
    """Return the height of a label and the space to the next one, in points."""
    return (len(label.lines) - 1) * size * LEADING + size * 1.25


def that_fit(labels: Sequence[Label], room: float, size: float) -> list[Label]:
    """Return as many labels, from the first, as fit one under another in ``room`` points."""
    kept: list[Label] = []
    for label in labels:
        room -= label_height(label, size)
        if room < 0.0:
            break
        kept.append(label)
    return kept


@dataclass(frozen=True, slots=True)
class Column:
    """Where a column of labels stands: the thing's edge, the words' edge, and its height."""

    thing: float
    words: float
    top: float
    bottom: float


def column(labels: Sequence[Label], where: Column, size: float) -> tuple[PaperItem, ...]:
    """Return a column of labels, each with a leader from its height on the thing to its words."""
    ordered = sorted(labels, key=lambda label: label.place)
    tall = [label_height(label, size) for label in ordered]
    middles = spread([label.place for label in ordered], tall, where.top, where.bottom)
    leftward = where.words < where.thing
    way = -1.0 if leftward else 1.0
    anchor = Anchor.END if leftward else Anchor.START
    marks: list[PaperItem] = []
    for label, middle in zip(ordered, middles, strict=True):
        marks.extend(_leader(where, label.place, middle, way))
        start = where.words + way * 2.0
        if label.sign is not None:
            marks.extend(sign((start + way * 3.0, middle), label.sign, 2.6))
            start += way * SIGN_ROOM
        marks.extend(lines_at((start, middle), label, size, anchor))
    return tuple(marks)


def _leader(where: Column, place: float, middle: float, way: float) -> tuple[Line, ...]:
    knee, foot = where.thing + way * 4.0, where.words - way * 2.0
    return (
        Line((where.thing, place), (knee, place), Pen.DIMENSION),
        Line((knee, place), (foot, middle), Pen.DIMENSION),
        Line((foot, middle), (where.words, middle), Pen.DIMENSION),
    )


@dataclass(frozen=True, slots=True)
class Row:
    """Where a row of labels over a thing stands: its edge, and the words' edge above it."""

    thing: float
    words: float
    left: float
    right: float


def row_above(labels: Sequence[Label], where: Row, size: float) -> tuple[PaperItem, ...]:
    """Return a row of labels over a thing: level where they fit so, else upright, one line each.

    Where not even upright ones fit, the last ones are left out.
    """
    ordered = sorted(labels, key=lambda label: label.place)
    wide = [label_width(label, size) + size for label in ordered]
    level = sum(wide) <= where.right - where.left
    if not level:
        ordered = ordered[: int((where.right - where.left) / (size * LEADING))]
    room = wide if level else [size * LEADING] * len(ordered)
    middles = spread([label.place for label in ordered], room, where.left, where.right)
    marks: list[PaperItem] = []
    for label, middle in zip(ordered, middles, strict=True):
        marks.extend(_leader_up(where, label.place, middle))
        if level:
            tall = label_height(label, size)
            marks.extend(lines_at((middle, where.words - tall / 2), label, size, Anchor.MIDDLE))
        else:
            at = (middle + size * (ASCENT - DESCENT) / 2, where.words)
            words, turn = upright_words(label), Turn.UPRIGHT
            marks.append(Text(at, words, size, Anchor.START, label.face, turn, name=label.name))
    return tuple(marks)


def _leader_up(where: Row, place: float, middle: float) -> tuple[Line, ...]:
    knee = where.thing - 3.0
    return (
        Line((place, where.thing), (place, knee), Pen.DIMENSION),
        Line((place, knee), (middle, where.words + 1.5), Pen.DIMENSION),
    )


def row_height(labels: Sequence[Label], room: float, size: float) -> float:
    """Return the height in points that ``row_above`` needs for its words in so much width."""
    wide = [label_width(label, size) + size for label in labels]
    if sum(wide) <= room:
        return max((label_height(label, size) for label in labels), default=0.0)
    return max(measure(upright_words(label), size, label.face) for label in labels)


def upright_words(label: Label) -> str:
    """Return a label's lines as the one line that stands upright.

    >>> upright_words(Label(0.0, ("4 in", "102 mm")))
    '4 in, 102 mm'
    """
    return ", ".join(label.lines)


def clear_of_each_other(places: Sequence[Point], apart: float) -> bool:
    """Return whether no two points are nearer to each other than ``apart``.

    >>> clear_of_each_other([(0.0, 0.0), (3.0, 4.0)], 5.0)
    True
    """
    ordered = sorted(places)
    for index, (x, y) in enumerate(ordered):
        for other_x, other_y in ordered[index + 1 :]:
            if other_x - x >= apart:
                break
            if math.hypot(other_x - x, other_y - y) < apart - 1e-9:
                return False
    return True


def overlap(one: Box, other: Box) -> bool:
    """Return whether two boxes share any area."""
    return (
        one[0] < other[2] - 1e-6
        and other[0] < one[2] - 1e-6
        and one[1] < other[3] - 1e-6
        and other[1] < one[3] - 1e-6
    )
