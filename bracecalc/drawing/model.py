"""The drawing model: shapes in inches of the real thing, a scale a view, and what lies on paper.

A view holds shapes in inches of the real thing (first across, then up) and a ``Frame`` that says
where they lie on the page; its notes (words and leaders) are given on the page. ``flatten`` turns
a view into a group of plain marks on the page, in points from its top left corner, y downward.
The writers know only those.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from bracecalc.drawing.lettering import ASCENT, DESCENT, LEAST, Face, measure

Point = tuple[float, float]
Box = tuple[float, float, float, float]  # left, top, right, bottom on the page
POINTS_PER_INCH = 72.0


class Pen(StrEnum):
    """Lines by what they mean; ``STROKES`` says how each is drawn."""

    CUT = "cut"  # what the section cuts through
    EDGE = "edge"  # an edge that is seen
    HIDDEN = "hidden"  # an edge behind something
    CENTRE = "centre"  # the middle line of a stud
    TARGET = "target"  # the height that the top is raised to
    DIMENSION = "dimension"
    HATCH = "hatch"
    RULE = "rule"  # lines of tables and blanks
    FAIL = "fail"
    NONE = "none"


class Tone(StrEnum):
    """Areas by what they mean."""

    NONE = "none"
    PAPER = "paper"
    BOARD = "board"
    STUD = "stud"
    FINISH = "finish"
    UNIT = "unit"
    BAND = "band"
    INK = "ink"
    FAIL = "fail"


@dataclass(frozen=True, slots=True)
class Stroke:
    """How a pen draws: width in points, dashes in points, colour."""

    width: float
    colour: str = "#000000"
    dashes: tuple[float, ...] = ()


MM = 72.0 / 25.4  # points
# widths in mm of the series of ISO 128-2:2020: 0.13, 0.18, 0.25, 0.35, 0.5, 0.7
STROKES: Mapping[Pen, Stroke] = {
    Pen.CUT: Stroke(0.5 * MM),
    Pen.EDGE: Stroke(0.25 * MM),
    Pen.HIDDEN: Stroke(0.25 * MM, "#333333", (3.0, 1.8)),
    Pen.CENTRE: Stroke(0.18 * MM, "#333333", (8.0, 1.6, 1.6, 1.6)),
    Pen.TARGET: Stroke(0.7 * MM, "#00527f"),
    Pen.DIMENSION: Stroke(0.18 * MM, "#222222"),
    Pen.HATCH: Stroke(0.13 * MM, "#666666"),
    Pen.RULE: Stroke(0.18 * MM, "#555555"),
    Pen.FAIL: Stroke(0.7 * MM, "#a33c00"),
}
# light enough that black words stay readable on each, told apart by hatching too
FILLS: Mapping[Tone, str] = {
    Tone.PAPER: "#ffffff",
    Tone.BOARD: "#f3ead6",
    Tone.STUD: "#f0f0ec",
    Tone.FINISH: "#e2e2e2",
    Tone.UNIT: "#f4f6f8",
    Tone.BAND: "#d3e8f6",
    Tone.INK: "#000000",
    Tone.FAIL: "#a33c00",
}


class Role(StrEnum):
    """What a line of words is to somebody who hears the page."""

    PLAIN = "plain"
    TITLE = "title"
    HEADING = "heading"
    MORE = "more"  # goes on from the line before it


class Anchor(StrEnum):
    """Which part of a line of words stands at its point."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


class Turn(StrEnum):
    """Words lie level, or read from the right side of the page."""

    LEVEL = "level"
    UPRIGHT = "upright"


class Pattern(StrEnum):
    """Fillings drawn with lines."""

    DIAGONAL = "diagonal"
    CROSSED = "crossed"  # corner to corner twice: lumber cut across
    GRAIN = "grain"  # along the height: lumber cut along its length


class MarkKind(StrEnum):
    """Signs of a size of their own on paper; one a board, so that rows are told apart."""

    RING_CROSS = "ring-cross"
    DOT = "dot"
    RING_SALTIRE = "ring-saltire"
    SQUARE = "square"
    DIAMOND = "diamond"
    RING = "ring"
    ALERT = "alert"  # a service: never the sign of a screw


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    pen: Pen
    name: str = ""


@dataclass(frozen=True, slots=True)
class Polyline:
    """A run of straight lines, closed where it bounds an area."""

    points: tuple[Point, ...]
    pen: Pen
    tone: Tone = Tone.NONE
    name: str = ""
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Rect:
    """An upright rectangle from one corner to the opposite one."""

    corner: Point
    opposite: Point
    pen: Pen
    tone: Tone = Tone.NONE
    name: str = ""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle; its radius is in points on paper."""

    centre: Point
    radius: float
    pen: Pen
    tone: Tone = Tone.NONE
    name: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """One line of words with its base line at ``at``; size in points."""

    at: Point
    words: str
    size: float
    anchor: Anchor = Anchor.START
    face: Face = Face.REGULAR
    turn: Turn = Turn.LEVEL
    tone: Tone = Tone.INK
    name: str = ""
    role: Role = Role.PLAIN
    cell: tuple[int, int] | None = None  # row and column of the table that it stands in

    def box(self) -> Box:
        """Return the box that the words take up on the page.

        >>> Text((10.0, 50.0), "00", 10.0).box()
        (10.0, 42.4, 21.44, 52.4)
        """
        length = measure(self.words, self.size, self.face)
        before = {Anchor.START: 0.0, Anchor.MIDDLE: length / 2, Anchor.END: length}[self.anchor]
        up, down = ASCENT * self.size, DESCENT * self.size
        x, y = self.at
        if self.turn is Turn.LEVEL:
            return (x - before, y - up, x - before + length, y + down)
        return (x - up, y + before - length, x + down, y + before)


@dataclass(frozen=True, slots=True)
class Mark:
    """A sign at a place of the real thing, of a size on paper."""

    at: Point
    kind: MarkKind
    radius: float = 2.6
    name: str = ""


@dataclass(frozen=True, slots=True)
class Hatch:
    """Lines that fill an upright rectangle; spacing in points on paper."""

    corner: Point
    opposite: Point
    pattern: Pattern
    spacing: float = 5.0
    name: str = ""


@dataclass(frozen=True, slots=True)
class Dimension:
    """A level or upright measured distance: witness lines, a line with slashes, its words.

    ``offset`` is how far on paper the line lies from the measured points, in points: above them
    (level) or right of them (upright) where positive. ``witness`` False leaves out witness lines.
    """

    start: Point
    end: Point
    offset: float
    words: str
    size: float = LEAST
    witness: bool = True
    name: str = ""


@dataclass(frozen=True, slots=True)
class Break:
    """A level or upright edge where a thing goes on that isn't drawn: a line with two zigzags."""

    start: Point
    end: Point
    name: str = ""


@dataclass(frozen=True, slots=True)
class Bracket:
    """A bracket beside an upright span, ``out`` (-1 left, 1 right) of it; never under 4 points."""

    low: Point
    high: Point
    out: float
    name: str = ""


@dataclass(frozen=True, slots=True)
class Cells:
    """Black square cells on paper, as in a code that is scanned; ``rows`` from the top."""

    corner: Point
    cell: float
    rows: tuple[tuple[bool, ...], ...]
    name: str = ""

    def runs(self) -> Iterator[Box]:
        """Yield the box of each run of black cells."""
        left, top = self.corner
        for down, row in enumerate(self.rows):
            start = None
            for across, black in enumerate((*row, False)):
                if black and start is None:
                    start = across
                elif not black and start is not None:
                    y = top + down * self.cell
                    yield (left + start * self.cell, y, left + across * self.cell, y + self.cell)
                    start = None


PaperItem = Line | Polyline | Rect | Circle | Text | Cells
Item = PaperItem | Mark | Hatch | Dimension | Break | Bracket


@dataclass(frozen=True, slots=True)
class Frame:
    """Where inches of the real thing lie on the page: points an inch, and the page's point of 0, 0.

    >>> Frame(scale=6.0, origin=(100.0, 500.0)).page((10.0, 20.0))
    (160.0, 380.0)
    """

    scale: float
    origin: Point

    def page(self, point: Point) -> Point:
        """Return the page's point of a point of the real thing."""
        return (self.origin[0] + point[0] * self.scale, self.origin[1] - point[1] * self.scale)

    @property
    def ratio(self) -> float:
        """The scale as 1 to so much."""
        return POINTS_PER_INCH / self.scale


@dataclass(frozen=True, slots=True)
class View:
    """One drawing to scale: shapes in inches, notes in points on the page."""

    name: str
    label: str
    frame: Frame
    shapes: tuple[Item, ...]
    notes: tuple[PaperItem, ...] = ()
    told: str = ""  # the view in words


@dataclass(frozen=True, slots=True)
class Group:
    """Marks on the page that belong together; ``frame`` says how a view was placed.

    A group with a ``picture`` is one to somebody who hears the page: these words tell it.
    """

    name: str
    label: str
    items: tuple[PaperItem, ...]
    frame: Frame | None = None
    picture: str = ""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A page, or a figure of its own; its size in points."""

    title: str
    width: float
    height: float
    groups: tuple[Group, ...]

    def texts(self) -> Iterator[Text]:
        """Yield every line of words on the page."""
        for group in self.groups:
            yield from (item for item in group.items if isinstance(item, Text))


def standard_scale(room: float, extent: float) -> float:
    """Return the largest usual scale, in points an inch, at which so many inches fit in ``room``.

    >>> standard_scale(240.0, 33.25), standard_scale(300.0, 33.25)
    (7.2, 9.0)
    """
    usual = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 24, 25, 30, 32, 40, 48, 50, 60, 64, 80, 96)
    for ratio in usual:
        if extent * POINTS_PER_INCH / ratio <= room:
            return POINTS_PER_INCH / ratio
    return POINTS_PER_INCH / (100.0 * math.ceil(extent * POINTS_PER_INCH / room / 100.0))
