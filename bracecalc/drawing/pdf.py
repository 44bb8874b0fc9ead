"""Drawings as the pages of one PDF, with reportlab and its own embedded typeface."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, Any

from bracecalc.drawing.lettering import Face, is_measured, measure
from bracecalc.drawing.model import (
    FILLS,
    STROKES,
    Anchor,
    Box,
    Cells,
    Circle,
    Drawing,
    Line,
    PaperItem,
    Pen,
    Rect,
    Text,
    Tone,
    Turn,
)
from bracecalc.errors import OutputError

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

_PLAIN = {0x2044: "/", 0x2032: "'", 0x2033: '"'}  # fraction slash and primes
_FILES = {Face.REGULAR: ("Vera", "Vera.ttf"), Face.BOLD: ("VeraBd", "VeraBd.ttf")}


@dataclass(frozen=True, slots=True)
class Link:
    """A place on a page that leads to another page of the same file."""

    box: Box
    page: int


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page of the file, the name that it has among the bookmarks, and its links."""

    drawing: Drawing
    links: tuple[Link, ...] = ()


def pdf_bytes(leaves: Iterable[Leaf], *, title: str) -> bytes:
    """Return one PDF with a page for each leaf, in order.

    Raises:
        OutputError: if reportlab isn't there.
    """
    canvas_class = _reportlab_canvas()
    buffer = BytesIO()
    first = _FILES[Face.REGULAR][0]  # or a page names Helvetica, which isn't embedded
    canvas = canvas_class(buffer, pageCompression=1, lang="en", initialFontName=first)
    canvas.setTitle(title)
    canvas.setSubject("Bracing of a built-in unit: drawings, cut list, screws and set-out")
    canvas.setAuthor("bracecalc")
    canvas.setCreator("bracecalc")
    canvas.setKeywords("bracing, niche, job sheet")
    for number, leaf in enumerate(leaves):
        _draw_page(canvas, leaf, number)
    canvas.save()
    return buffer.getvalue()


def _reportlab_canvas() -> type[Canvas]:
    try:
        from reportlab.pdfbase import pdfmetrics
        from reportlab.pdfbase.ttfonts import TTFont
        from reportlab.pdfgen.canvas import Canvas
    except ImportError as error:
        raise OutputError(
            "a PDF needs reportlab: pip install 'bracecalc[sheet]' (HTML and SVG work without it)"
        ) from error
    for name, file in _FILES.values():
        pdfmetrics.registerFont(TTFont(name, file))
    drawn: type[Canvas] = Canvas
    return drawn


def _draw_page(canvas: Canvas, leaf: Leaf, number: int) -> None:
    drawing = leaf.drawing
    canvas.setPageSize((drawing.width, drawing.height))
    canvas.bookmarkPage(f"page-{number}")
    canvas.addOutlineEntry(drawing.title, f"page-{number}", 0)
    pen = _Pencil(canvas, drawing.height)
    for group in drawing.groups:
        for item in group.items:
            pen.draw(item)
    for link in leaf.links:
        left, top, right, bottom = link.box
        area = (left, drawing.height - bottom, right, drawing.height - top)
        canvas.linkRect("", f"page-{link.page}", area, relative=0, thickness=0)
    canvas.showPage()


class _Pencil:
    """Draws items on the page; remembers the pen in use, as most items share the last one's."""

    def __init__(self, canvas: Canvas, height: float) -> None:
        self._canvas = canvas
        self._height = height
        self._pen: Pen | None = None
        self._tone: Tone | None = None

    def draw(self, item: PaperItem) -> None:
        """Draw one item."""
        if isinstance(item, Text):
            self._text(item)
            return
        if isinstance(item, Cells):
            self._cells(item)
            return
        self._take_up(item.pen)
        stroke = int(item.pen in STROKES)
        if isinstance(item, Line):
            (x1, y1), (x2, y2) = self._flip(item.start, item.end)
            self._canvas.line(x1, y1, x2, y2)
            return
        self._fill_with(item.tone)
        fill = int(item.tone in FILLS)
        if isinstance(item, Rect):
            (x1, y1), (x2, y2) = self._flip(item.corner, item.opposite)
            width, height = abs(x2 - x1), abs(y2 - y1)
            self._canvas.rect(min(x1, x2), min(y1, y2), width, height, stroke=stroke, fill=fill)
        elif isinstance(item, Circle):
            ((x, y),) = self._flip(item.centre)
            self._canvas.circle(x, y, item.radius, stroke=stroke, fill=fill)
        else:
            path = self._canvas.beginPath()
            first, *others = self._flip(*item.points)
            path.moveTo(*first)
            for point in others:
                path.lineTo(*point)
            if item.closed:
                path.close()
            self._canvas.drawPath(path, stroke=stroke, fill=fill)

    def _flip(self, *points: tuple[float, float]) -> Iterator[tuple[float, float]]:
        return ((x, self._height - y) for x, y in points)

    def _take_up(self, pen: Pen) -> None:
        if pen is self._pen or pen not in STROKES:
            return
        stroke = STROKES[pen]
        self._canvas.setLineWidth(stroke.width)
        self._canvas.setStrokeColor(_colour(stroke.colour))
        self._canvas.setDash(list(stroke.dashes))
        self._pen = pen

    def _fill_with(self, tone: Tone) -> None:
        if tone is self._tone or tone not in FILLS:
            return
        self._canvas.setFillColor(_colour(FILLS[tone]))
        self._tone = tone

    def _cells(self, item: Cells) -> None:
        self._fill_with(Tone.INK)
        path = self._canvas.beginPath()
        for x0, y0, x1, y1 in item.runs():
            path.rect(x0, self._height - y1, x1 - x0, y1 - y0)
        self._canvas.drawPath(path, stroke=0, fill=1)

    def _text(self, item: Text) -> None:
        self._fill_with(item.tone)
        words = printable(item.words)
        length = measure(words, item.size, item.face)
        before = {Anchor.START: 0.0, Anchor.MIDDLE: length / 2, Anchor.END: length}[item.anchor]
        ((x, y),) = self._flip(item.at)
        self._canvas.setFont(_FILES[item.face][0], item.size)
        if item.turn is Turn.LEVEL:
            self._canvas.drawString(x - before, y, words)
            return
        self._canvas.saveState()
        self._canvas.translate(x, y)
        self._canvas.rotate(90)
        self._canvas.drawString(-before, 0, words)
        self._canvas.restoreState()


def printable(words: str) -> str:
    """Return the words with letters that the typeface lacks written as near as it can.

    >>> printable("Küche ﬁve 厨房, 1⅝″")
    'Küche five ??, 1 5/8"'
    """
    return words if is_measured(words) else "".join(_printable(letter) for letter in words)


def _printable(letter: str) -> str:
    if is_measured(letter):
        return letter
    near = unicodedata.normalize("NFKC", letter.translate(_PLAIN)).translate(_PLAIN)
    if unicodedata.category(letter) == "No" and "/" in near:
        near = f" {near}"  # or 1 and five eighths would read fifteen eighths
    if is_measured(near):
        return near
    bare = unicodedata.normalize("NFKD", letter).encode("ascii", "ignore").decode()
    return bare if bare or unicodedata.combining(letter) else "?"


def _colour(code: str) -> Any:
    from reportlab.lib.colors import HexColor

    return HexColor(code)
