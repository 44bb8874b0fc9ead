"""Parts of the page that are words: tables, and text that flows through columns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from bracecalc.drawing.content import Table
from bracecalc.drawing.flattening import sign
from bracecalc.drawing.lettering import Face, measure, wrap
from bracecalc.drawing.model import Line, PaperItem, Pen, Text, Tone
from bracecalc.drawing.placing import LEADING, SIGN_ROOM

_GUTTER = 7.0  # points between columns of a table


@dataclass(frozen=True, slots=True)
class Place:
    """Where a block starts, how wide it may be, and the size of its letters."""

    left: float
    top: float
    width: float
    letters: float


@dataclass(frozen=True, slots=True)
class Block:
    """A block on the page and the lowest point that it takes up."""

    items: tuple[PaperItem, ...]
    bottom: float


def heading(words: str, at: Place, tone: Tone = Tone.INK) -> Block:
    """Return a heading of a block over its own rule."""
    size = at.letters + 0.8
    base = at.top + size
    items = (
        Text((at.left, base), words, size, face=Face.BOLD, tone=tone),
        Line((at.left, base + 2.5), (at.left + at.width, base + 2.5), Pen.EDGE),
    )
    return Block(items, base + 4.0)


def table_block(table: Table, at: Place, *, row_height: float = 0.0) -> Block:
    """Return a table with its heading; cells are broken into lines where they are too wide.

    With a ``row_height`` the table is one to be written in: rows of at least that height, and
    upright rules between its columns.
    """
    title = heading(table.title, at)
    if not table.rows:
        base = title.bottom + at.letters + 1.0
        return Block((*title.items, Text((at.left, base), "none", at.letters)), base + 3.0)
    indent = SIGN_ROOM if table.signs else 0.0
    widths = _column_widths(table, at.width - indent, at.letters)
    lefts = list(accumulate((w + _GUTTER for w in widths[:-1]), initial=at.left + indent))
    items: list[PaperItem] = [*title.items]
    y = title.bottom
    for number, row in enumerate((table.columns, *table.rows)):
        face = Face.BOLD if number == 0 else Face.REGULAR
        cells = [wrap(c, w, at.letters, face) for c, w in zip(row, widths, strict=True)]
        least = row_height if number else 0.0
        if number and table.signs:
            middle = y + 1.8 + at.letters * 0.6
            items.extend(sign((at.left + 3.0, middle), table.signs[number - 1], 2.6))
        words, y = _row_words(cells, lefts, Place(0.0, y, least, at.letters), face)
        items.extend(words)
        items.append(Line((at.left, y), (at.left + at.width, y), Pen.RULE))
    if row_height:
        uprights = (left - _GUTTER / 2.0 for left in lefts[1:])
        items.extend(Line((x, title.bottom), (x, y), Pen.RULE) for x in uprights)
    return Block(tuple(items), y + 2.0)


def _row_words(
    cells: Sequence[tuple[str, ...]], lefts: Sequence[float], row: Place, face: Face
) -> tuple[list[Text], float]:
    """Return the words of a row, and its lower edge; ``row.width`` is its least height."""
    step = row.letters * LEADING
    filled = max(len(cell) for cell in cells) * step + 2.8
    tall = max(filled, row.width)
    base = row.top + 1.2 + row.letters + (tall - filled) / 2.0
    words = [
        Text((left, base + i * step), line, row.letters, face=face)
        for left, cell in zip(lefts, cells, strict=True)
        for i, line in enumerate(cell)
    ]
    return words, row.top + tall


def _column_widths(table: Table, room: float, size: float) -> list[float]:
    """Natural widths, the widest columns narrowed until all fit; spare room goes to the last."""
    count = len(table.columns)
    room -= _GUTTER * (count - 1)
    if table.shares:
        return [room * share for share in table.shares]
    widths = [
        max(
            [measure(word, size, Face.BOLD) for word in table.columns[i].split()]
            + [measure(row[i], size) for row in table.rows]
        )
        + 0.5
        for i in range(count)
    ]
    while sum(widths) > room + 1e-6:
        widest = max(range(count), key=widths.__getitem__)
        excess = sum(widths) - room
        step = widths[widest] - sorted(widths)[-2] + 1.0
        widths[widest] -= min(excess, step)
    spare = room - sum(widths)
    for i, column in enumerate(table.columns):  # headings on fewer lines first
        wanted = measure(column, size, Face.BOLD) * 0.55 + size
        more = min(max(0.0, wanted - widths[i]), max(0.0, spare))
        widths[i] += more
        spare -= more
    widths[-1] += max(0.0, spare)
    return widths


@dataclass(frozen=True, slots=True)
class Para:
    """A paragraph that flows: a heading, or text with an optional lead that hangs before it."""

    text: str
    lead: str = ""
    face: Face = Face.REGULAR
    tone: Tone = Tone.INK
    is_heading: bool = False


@dataclass(frozen=True, slots=True)
class FlowColumn:
    """A column that text flows through."""

    left: float
    top: float
    width: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Flowed:
    """Text laid into columns; ``left_over`` counts the paragraphs that found no room."""

    items: tuple[PaperItem, ...]
    left_over: int


def flow(paras: Sequence[Para], columns: Sequence[FlowColumn], size: float) -> Flowed:
    """Lay paragraphs into columns at one size of letters; none is split over two columns."""
    items: list[PaperItem] = []
    index, waiting = 0, list(columns)
    column = waiting.pop(0)
    y = column.top
    while index < len(paras):
        block = _para_block(paras[index], column, y, size)
        need = block.bottom
        if paras[index].is_heading and index + 1 < len(paras):  # a heading stays with its text
            need = _para_block(paras[index + 1], column, block.bottom, size).bottom
        if need > column.bottom + 1e-6:
            if not waiting:
                return Flowed(tuple(items), len(paras) - index)
            column = waiting.pop(0)
            y = column.top
            continue
        items.extend(block.items)
        y = block.bottom
        index += 1
    return Flowed(tuple(items), 0)


def _para_block(para: Para, column: FlowColumn, top: float, size: float) -> Block:
    if para.is_heading:
        space = size * 0.6 if top > column.top else 0.0
        at = Place(column.left, top + space, column.width, size)
        return heading(para.text, at, para.tone)
    hang = 0.0
    if para.lead:
        hang = max(size * 1.6, measure(para.lead, size, Face.BOLD) + size * 0.5)
    lines = wrap(para.text, column.width - hang, size, para.face)
    step = size * LEADING
    items: list[PaperItem] = []
    if para.lead:
        lead = (column.left, top + size)
        items.append(Text(lead, para.lead, size, face=Face.BOLD, tone=para.tone))
    items.extend(
        Text((column.left + hang, top + size + i * step), words, size, face=para.face,
             tone=para.tone)
        for i, words in enumerate(lines)
    )  # fmt: skip
    return Block(tuple(items), top + max(len(lines), 1) * step + size * 0.3)
