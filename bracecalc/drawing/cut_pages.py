"""The cut list on pages for print: each stick a bar to scale, with a box to tick off."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence

from bracecalc.drawing.lettering import CAPITAL, LEAST, Face, clean, measure, wrap
from bracecalc.drawing.model import (
    Anchor,
    Drawing,
    Group,
    Line,
    PaperItem,
    Pen,
    Rect,
    Role,
    Text,
    Tone,
)
from bracecalc.drawing.placing import LEADING
from bracecalc.drawing.showing import Paper
from bracecalc.drawing.title import MARGIN
from bracecalc.render.cut_list import ScaledBar

_HIGH = 17.0  # points: of a bar
_SIZE = 8.2
_BOX = 8.0
_INDENT = _BOX + 6.0


def cut_pages(
    bars: Sequence[ScaledBar], saw: str, *, date: datetime.date, paper: Paper
) -> list[Drawing]:
    """Return the bars on as many pages as they need, none cut by the end of a page.

    Args:
        bars: in the order of the saw.
        saw: what is said of the saw over all of them.
        date: on each page.
        paper: size of the pages.
    """
    width, height = paper.size
    inner, bottom = width - 2.0 * MARGIN, height - MARGIN - 14.0
    longest = max((bar.length for bar in bars), default=1)
    scale = (inner - _INDENT) / longest
    pages: list[list[Group]] = []
    groups, y = _head(saw, inner)
    for bar in bars:
        tall = _height(bar, inner)
        if y + tall > bottom and len(groups) > 1:
            pages.append(groups)
            groups, y = _head("", inner)
        groups.append(_bar(bar, y, inner, scale))
        y += tall
    pages.append(groups)
    drawn = []
    for number, found in enumerate(pages, start=1):
        words = f"Cut list, page {number} of {len(pages)}, {date.isoformat()}"
        foot = Text((width - MARGIN, height - MARGIN), words, LEAST, Anchor.END)
        title = "Cut list" if number == 1 else f"Cut list, page {number}"
        drawn.append(Drawing(title, width, height, (*found, Group("foot", "Page", (foot,)))))
    return drawn


def _head(saw: str, inner: float) -> tuple[list[Group], float]:
    """Return the head of a page: on the first one what is reckoned with too."""
    size = 14.0 if saw else 10.0
    y = MARGIN + size
    role = Role.TITLE if saw else Role.PLAIN
    title = "Cut list" if saw else "Cut list, continued"
    items: list[PaperItem] = [Text((MARGIN, y), title, size, face=Face.BOLD, role=role)]
    for number, line in enumerate(wrap(clean(saw), inner, _SIZE)):
        y += _SIZE * LEADING + (3.0 if number == 0 else 0.0)
        role = Role.MORE if number else Role.PLAIN
        items.append(Text((MARGIN, y), line, _SIZE, role=role))
    items.append(Line((MARGIN, y + 4.0), (MARGIN + inner, y + 4.0), Pen.CUT))
    return [Group("head", title, tuple(items))], y + 10.0


def _lines(bar: ScaledBar, inner: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    wide = inner - _INDENT
    return (
        wrap(clean(bar.heading), wide, _SIZE, Face.BOLD),
        wrap(clean(bar.below), wide, _SIZE),
    )


def _height(bar: ScaledBar, inner: float) -> float:
    heading, below = _lines(bar, inner)
    return (len(heading) + len(below)) * _SIZE * LEADING + _HIGH + 14.0


def _bar(bar: ScaledBar, top: float, inner: float, scale: float) -> Group:
    """Return one bar: heading, the stick with its pieces, and the cuts in words."""
    heading, below = _lines(bar, inner)
    left, y = MARGIN + _INDENT, top
    items: list[PaperItem] = [
        Rect((MARGIN, top + 1.0), (MARGIN + _BOX, top + 1.0 + _BOX), Pen.EDGE, Tone.PAPER, "tick")
    ]
    items += _words(heading, left, y, Face.BOLD)
    y += len(heading) * _SIZE * LEADING + 3.0
    end = left + bar.length * scale
    items.append(Rect((left, y), (end, y + _HIGH), Pen.EDGE, Tone.FINISH, "stick"))
    base = y + (_HIGH + _SIZE * CAPITAL) / 2.0
    for start, length, name in bar.pieces:
        at, far = left + start * scale, left + (start + length) * scale
        items.append(Rect((at, y), (far, y + _HIGH), Pen.EDGE, Tone.BOARD, "piece"))
        if measure(name, _SIZE) + 4.0 < far - at:
            items.append(Text(((at + far) / 2.0, base), clean(name), _SIZE, Anchor.MIDDLE))
    y += _HIGH + 2.0
    items += _words(below, left, y, Face.REGULAR)
    return Group("bar", bar.heading, tuple(items))


def _words(lines: Sequence[str], left: float, top: float, face: Face) -> Iterator[Text]:
    for number, line in enumerate(lines):
        at = (left, top + _SIZE + number * _SIZE * LEADING)
        yield Text(at, line, _SIZE, face=face, role=Role.MORE if number else Role.PLAIN)
