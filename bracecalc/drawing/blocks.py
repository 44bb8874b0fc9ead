"""Parts of the page that are words, and how each is cut where a column of the page ends."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from typing import Protocol

from bracecalc.drawing.content import Table
from bracecalc.drawing.flattening import sign
from bracecalc.drawing.lettering import Face, measure, widest_word, wrap
from bracecalc.drawing.model import Group, Line, PaperItem, Pen, Rect, Role, Text, Tone
from bracecalc.drawing.placing import LEADING, SIGN_ROOM
from bracecalc.drawing.profile import Figure
from bracecalc.drawing.showing import Room

_GUTTER = 7.0  # points between columns of a table
_CELL = 2.8  # points over and under the words of a row together
_BOX = 7.0  # side of a box to tick
BETWEEN = 7.0  # points between blocks


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part of a block starts, how wide it may be, and the size of its letters."""

    left: float
    top: float
    width: float
    letters: float


class Block(Protocol):
    """What flows down the columns of a page, in parts that are never cut."""

    def heights(self, width: float) -> Sequence[float]:
        """Return the height of each part in a column of that width."""
        ...

    def heading(self, width: float) -> float:
        """Return the height of what stands before the first part on each column."""
        ...

    def draw(self, parts: range, at: Place) -> tuple[Group, ...]:
        """Return so many of the parts one under another, with their heading."""
        ...


def heading_height(size: float) -> float:
    """Return the height of a heading over its rule."""
    return size + 0.8 + 4.0


def heading(words: str, at: Place, tone: Tone = Tone.INK) -> tuple[PaperItem, ...]:
    """Return a heading of a block over its own rule."""
    size = at.letters + 0.8
    base = at.top + size
    return (
        Text((at.left, base), words, size, face=Face.BOLD, tone=tone, role=Role.HEADING),
        Line((at.left, base + 2.5), (at.left + at.width, base + 2.5), Pen.EDGE),
    )


@dataclass(frozen=True, slots=True)
class Para:
    """A paragraph with an optional lead that hangs before it, or a box to tick."""

    text: str
    lead: str = ""
    face: Face = Face.REGULAR
    tick: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """Paragraphs under a heading."""

    title: str
    paras: tuple[Para, ...]
    letters: float
    tone: Tone = Tone.INK

    def heights(self, width: float) -> Sequence[float]:
        """Return the height of each paragraph."""
        step, space = self.letters * LEADING, self.letters * 0.3
        return [len(self._lines(one, width)) * step + space for one in self.paras]

    def heading(self, width: float) -> float:
        """Return the height of the heading."""
        return heading_height(self.letters)

    def _hang(self, para: Para) -> float:
        box = _BOX + 4.0 if para.tick else 0.0
        if not para.lead:
            return box
        lead = measure(para.lead, self.letters, Face.BOLD) + self.letters * 0.5
        return box + max(self.letters * 1.6, lead)

    def _lines(self, para: Para, width: float) -> tuple[str, ...]:
        return wrap(para.text, width - self._hang(para), self.letters, para.face) or ("",)

    def draw(self, parts: range, at: Place) -> tuple[Group, ...]:
        """Return so many paragraphs under the heading."""
        size, step = self.letters, self.letters * LEADING
        title = self.title if parts.start == 0 else f"{self.title}, continued"
        items: list[PaperItem] = [
            *heading(title, Place(at.left, at.top, at.width, size), self.tone)
        ]
        y = at.top + self.heading(at.width)
        for number in parts:
            para = self.paras[number]
            x = at.left
            if para.tick:
                corners = (x, y + size - _BOX + 0.6), (x + _BOX, y + size + 0.6)
                items.append(Rect(*corners, Pen.EDGE, Tone.PAPER, f"tick {number + 1}"))
                x += _BOX + 4.0
            if para.lead:
                at_lead = (x, y + size)
                items.append(Text(at_lead, para.lead, size, face=Face.BOLD, tone=self.tone))
            hung = at.left + self._hang(para)
            for place, line in enumerate(self._lines(para, at.width)):
                role = Role.MORE if place or para.lead else Role.PLAIN
                y += step if place else size
                items.append(Text((hung, y), line, size, face=para.face, role=role))
            y += step - size + size * 0.3
        return (Group("words", title, tuple(items)),)


@dataclass(frozen=True, slots=True)
class Grid:
    """A table that goes on in the next column with its headings again.

    With a ``row_height`` it is one to be written in: rows of at least that height, and upright
    rules between its columns.
    """

    table: Table
    letters: float
    row_height: float = 0.0

    def heights(self, width: float) -> Sequence[float]:
        """Return the height of each row."""
        widths = self._widths(width)
        return [self._row_height(row, widths) for row in self.table.rows] or [self.letters + 4.0]

    def heading(self, width: float) -> float:
        """Return the height of the title and the row of column headings."""
        title = heading_height(self.letters)
        if not self.table.rows:
            return title
        return title + self._row_height(self.table.columns, self._widths(width), Face.BOLD, 0.0)

    def _widths(self, width: float) -> tuple[float, ...]:
        indent = SIGN_ROOM if self.table.signs else 0.0
        return column_widths(self.table, width - indent, self.letters)

    def _row_height(
        self,
        row: Sequence[str],
        widths: Sequence[float],
        face: Face = Face.REGULAR,
        least: float | None = None,
    ) -> float:
        lines = max(
            len(wrap(cell, wide, self.letters, face))
            for cell, wide in zip(row, widths, strict=True)
        )
        least = self.row_height if least is None else least
        return max(max(lines, 1) * self.letters * LEADING + _CELL, least)

    def draw(self, parts: range, at: Place) -> tuple[Group, ...]:
        """Return so many rows under title and column headings."""
        table, size = self.table, self.letters
        title = table.title if parts.start == 0 else f"{table.title}, continued"
        items: list[PaperItem] = [*heading(title, Place(at.left, at.top, at.width, size))]
        y = at.top + heading_height(size)
        if not table.rows:
            items.append(Text((at.left, y + size), "none", size))
            return (Group("tables", title, tuple(items)),)
        indent = SIGN_ROOM if table.signs else 0.0
        widths = self._widths(at.width)
        lefts = list(accumulate((w + _GUTTER for w in widths[:-1]), initial=at.left + indent))
        top = y
        rows = [(table.columns, Face.BOLD, 0.0)]
        rows += [(table.rows[number], Face.REGULAR, self.row_height) for number in parts]
        for down, (row, face, least) in enumerate(rows):
            tall = self._row_height(row, widths, face, least)
            if down and table.signs:
                middle = y + _CELL / 2.0 + size * 0.6
                kind = table.signs[parts[down - 1]]
                items.extend(sign((at.left + 3.0, middle), kind, 2.6))
            words = _row_words(row, (lefts, widths), (y, tall), size, face)
            items.extend(words(down))
            y += tall
            items.append(Line((at.left, y), (at.left + at.width, y), Pen.RULE))
        if self.row_height:
            uprights = (left - _GUTTER / 2.0 for left in lefts[1:])
            items.extend(Line((x, top), (x, y), Pen.RULE) for x in uprights)
        return (Group("tables", title, tuple(items)),)


def _row_words(
    row: Sequence[str],
    across: tuple[Sequence[float], Sequence[float]],
    down: tuple[float, float],
    size: float,
    face: Face,
) -> Callable[[int], list[Text]]:
    """Return what makes a row's words once its number in the table is known."""
    step, (top, tall) = size * LEADING, down
    cells = [
        wrap(cell, wide, size, face) or ("",) for cell, wide in zip(row, across[1], strict=True)
    ]
    filled = max(len(cell) for cell in cells) * step + _CELL
    base = top + _CELL / 2.0 + size + (tall - filled) / 2.0

    def words(number: int) -> list[Text]:
        return [
            Text(
                (left, base + line * step), text, size, face=face,
                role=Role.MORE if line else Role.PLAIN, cell=(number, column),
            )
            for column, (left, cell) in enumerate(zip(across[0], cells, strict=True))
            for line, text in enumerate(cell)
        ]  # fmt: skip

    return words


@lru_cache(maxsize=64)
def column_widths(table: Table, room: float, size: float) -> tuple[float, ...]:
    """Natural widths, the widest columns narrowed until all fit, none under its widest word."""
    count = len(table.columns)
    room -= _GUTTER * (count - 1)
    if table.shares:
        return tuple(room * share for share in table.shares)
    least, widths = [], []
    for i in range(count):
        cells = [row[i] for row in table.rows]
        words = [widest_word(table.columns[i], size, Face.BOLD)]
        words += [widest_word(cell, size) for cell in cells]
        least.append(max(words) + 0.5)
        widths.append(max([least[i], *(measure(cell, size) + 0.5 for cell in cells)]))
    while sum(widths) > room + 1e-6:
        spare = [wide - low for wide, low in zip(widths, least, strict=True)]
        if max(spare) < 1e-6:
            break
        widest = max((i for i in range(count) if spare[i] > 1e-6), key=widths.__getitem__)
        excess = sum(widths) - room
        others = sorted(widths)
        step = max(widths[widest] - (others[-2] if count > 1 else 0.0), 0.0) + 1.0
        widths[widest] -= min(excess, step, spare[widest])
    spare_room = room - sum(widths)
    for i, column in enumerate(table.columns):  # headings on fewer lines first
        wanted = measure(column, size, Face.BOLD) * 0.55 + size
        more = min(max(0.0, wanted - widths[i]), max(0.0, spare_room))
        widths[i] += more
        spare_room -= more
    widths[-1] += max(0.0, spare_room)
    return tuple(widths)


def fits(table: Table, room: float, size: float) -> bool:
    """Return whether a table's words fit its columns at that size, none of them cut."""
    indent = SIGN_ROOM if table.signs else 0.0
    gutters = _GUTTER * (len(table.columns) - 1)
    return sum(column_widths(table, room - indent, size)) <= room - indent - gutters + 1e-3


def as_words(table: Table, letters: float) -> Words:
    """Return a table that is too wide for the page as a paragraph for each row."""
    paras = tuple(
        Para(
            "; ".join(
                f"{column}: {cell}"
                for column, cell in zip(table.columns[1:], row[1:], strict=True)
                if cell
            ),
            f"{table.columns[0]} {row[0]}",
        )
        for row in table.rows
    )
    return Words(table.title, paras, letters)


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing under a heading; it is never cut. Its height in its column is known."""

    title: str
    make: Callable[[Room], Figure | None]
    letters: float
    offered: float  # height of the room that is offered to it
    tall: float

    def heights(self, width: float) -> Sequence[float]:
        """Return its height."""
        return [self.tall]

    def heading(self, width: float) -> float:
        """Return the height of the heading."""
        return heading_height(self.letters) + 2.0

    def draw(self, parts: range, at: Place) -> tuple[Group, ...]:
        """Return heading and drawing."""
        head = heading(self.title, Place(at.left, at.top, at.width, self.letters))
        top = at.top + self.heading(at.width)
        figure = self.make(Room(at.left, top, at.width, self.offered, self.letters))
        drawn = () if figure is None else (figure.group,)
        return (Group("heading", self.title, head), *drawn)


def picture(
    title: str,
    make: Callable[[Room], Figure | None],
    width: float,
    letters: float,
    tall: float = 0.0,
) -> list[Picture]:
    """Return a block for a drawing in a column of that width; none where nothing is drawn."""
    figure = make(Room(0.0, 0.0, width, tall, letters))
    return [] if figure is None else [Picture(title, make, letters, tall, figure.bottom)]
