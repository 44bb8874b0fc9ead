"""Drawings as the pages of one PDF: tagged (PDF/UA-1), for archives (PDF/A-2a), letters embedded.

The pages go as data to a template of typst, which embeds the letters, shapes scripts that are
joined or read from the right, and writes tags, language, metadata and output intent.
"""

from __future__ import annotations

import datetime
import json
import math
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from bracecalc.drawing.lettering import Face, is_measured, letter_widths, measure
from bracecalc.drawing.model import (
    FILLS,
    STROKES,
    Anchor,
    Box,
    Cells,
    Circle,
    Drawing,
    Group,
    Line,
    PaperItem,
    Pen,
    Point,
    Polyline,
    Rect,
    Role,
    Text,
    Tone,
    Turn,
)
from bracecalc.errors import OutputError

STANDARDS = ("a-2a", "ua-1")  # ISO 19005-2 for archives, ISO 14289-1 for who hears it
_PENS = {pen: place for place, pen in enumerate(Pen)}
_TONES = {tone: place for place, tone in enumerate(Tone)}
_FACE = "Noto Sans"
_SCRIPTS = (
    "Arabic", "Armenian", "Bengali", "Devanagari", "Ethiopic", "Georgian", "Gujarati", "Gurmukhi",
    "Hebrew", "Kannada", "Khmer", "Lao", "Malayalam", "Myanmar", "Oriya", "Sinhala", "Symbols",
    "Tamil", "Telugu", "Thai",
)  # fmt: skip
_FALLBACKS = (*(f"{_FACE} {script}" for script in _SCRIPTS), f"{_FACE} CJK SC", "Noto Emoji")
_FONT_PACKAGES = ("manimgx_fonts", "manimgx_fonts_cjk")
_CORNERS_OF_CIRCLE = 20


@dataclass(frozen=True, slots=True)
class Link:
    """A place on a page that leads to the page with that mark."""

    box: Box
    mark: str


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page of the file: its drawing, the mark that links lead to, and its own links."""

    drawing: Drawing
    mark: str = ""
    links: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True)
class Pdf:
    """A whole file, and the letters of its names that no font at hand has."""

    data: bytes
    lost: str


def make_pdf(leaves: Iterable[Leaf], *, title: str, date: datetime.date) -> Pdf:
    """Return one PDF with a page for each leaf, in order; the same bytes for the same pages.

    Raises:
        OutputError: if typst or the typeface isn't there.
    """
    writer = _Writer(_font_paths())
    pages = [writer.page(leaf) for leaf in leaves]
    given = {
        "title": writer.shown(title),
        "author": "bracecalc",
        "subject": "Bracing of a built-in appliance: drawings, cut list, screws and set-out",
        "keywords": ["bracing", "niche", "wall sheet"],
        "date": [date.year, date.month, date.day],
        "fonts": writer.fonts,
        "pens": [_pen(pen) for pen in Pen],
        "fills": [FILLS.get(tone) for tone in Tone],
        "pages": pages,
    }
    template = files("bracecalc.drawing").joinpath("pages.typ").read_bytes()
    inputs = {"pages": json.dumps(given, ensure_ascii=False, separators=(",", ":"))}
    data = _compiled(template, writer.paths, inputs, *STANDARDS)
    return Pdf(data, writer.lost)


def _font_paths() -> list[str]:
    """Return the folders of fonts that are installed.

    Raises:
        OutputError: if typst or the typeface of the sheet isn't there.
    """
    found = {name: find_spec(name) for name in ("typst", *_FONT_PACKAGES)}
    missing = [name for name in ("typst", _FONT_PACKAGES[0]) if found[name] is None]
    if missing:
        what = " and ".join(name.replace("_", "-") for name in missing)
        raise OutputError(
            f"a PDF needs {what}: pip install 'bracecalc[sheet]' (HTML and SVG work without)"
        )
    return [
        str(Path(spec.origin).parent)
        for name, spec in found.items()
        if name != "typst" and spec is not None and spec.origin is not None
    ]


def _compiled(source: bytes, paths: list[str], inputs: dict[str, str], *standards: str) -> bytes:
    import typst

    # its stub has no bytes as source, and no settings of fonts
    compiled: Any = typst.compile
    made: bytes = compiled(
        source,
        font_paths=paths,
        ignore_system_fonts=True,
        sys_inputs=inputs,
        pdf_standards=list(standards),
    )
    return made


def _pen(pen: Pen) -> list[Any]:
    stroke = STROKES.get(pen)
    if stroke is None:
        return [0, "#000000", []]
    return [_whole(stroke.width), stroke.colour, [_whole(dash) for dash in stroke.dashes]]


def _whole(value: float) -> int:
    """Return points as whole hundredths."""
    return round(value * 100.0)


class _Writer:
    """Turns pages into the template's data, and keeps account of the letters in them."""

    def __init__(self, paths: list[str]) -> None:
        self.paths = paths
        self.fonts = [_FACE]
        self._known: dict[str, bool] = {}

    @property
    def lost(self) -> str:
        """Letters that were met and that no font has, in order."""
        return "".join(sorted(letter for letter, known in self._known.items() if not known))

    def shown(self, words: str) -> str:
        """Return words with the number in Unicode for each letter that no font has."""
        if is_measured(words):
            return words
        self._learn(words)
        return "".join(
            letter if self._known.get(letter, True) else f"[{ord(letter):X}]" for letter in words
        )

    def _learn(self, words: str) -> None:
        new = [one for one in dict.fromkeys(words) if one not in self._known and _is_rare(one)]
        if not new:
            return
        if len(self.fonts) == 1:
            cjk = any(Path(path).name == _FONT_PACKAGES[1] for path in self.paths)
            self.fonts += [name for name in _FALLBACKS if cjk or "CJK" not in name]
        every = self._drawable("".join(new))
        for letter in new:
            self._known[letter] = every or self._drawable(letter)

    def _drawable(self, letters: str) -> bool:
        """Return whether the fonts have all letters: a file for archives may not lack one."""
        import typst

        source = b"#set text(font: json(bytes(sys.inputs.fonts)), fallback: false)\n"
        source += b"#text(sys.inputs.letters)"
        inputs = {"fonts": json.dumps(self.fonts), "letters": letters}
        try:
            _compiled(source, self.paths, inputs, "a-2u")
        except typst.TypstError:
            return False
        return True

    def page(self, leaf: Leaf) -> dict[str, Any]:
        """Return one page as the template reads it."""
        drawing = leaf.drawing
        return {
            "width": _whole(drawing.width),
            "height": _whole(drawing.height),
            "mark": leaf.mark or None,
            "groups": [self._group(group) for group in drawing.groups],
            "links": [
                [_whole(left), _whole(top), _whole(right - left), _whole(low - top), link.mark]
                for link in leaf.links
                for left, top, right, low in (link.box,)
            ],
        }

    def _group(self, group: Group) -> dict[str, Any]:
        if group.picture:
            drawn = list(self._drawn(group.items))
            picture = self.shown(group.picture)
            return {
                "artifacts": [], "picture": picture, "drawn": drawn, "paragraphs": [], "tables": [],
            }  # fmt: skip
        shapes = [item for item in group.items if not isinstance(item, Text)]
        words = [item for item in group.items if isinstance(item, Text)]
        return {
            "artifacts": list(self._drawn(shapes)),
            "picture": None,
            "drawn": [],
            "paragraphs": self._paragraphs([one for one in words if one.cell is None]),
            "tables": self._tables([one for one in words if one.cell is not None]),
        }

    def _paragraphs(self, words: Sequence[Text]) -> list[list[Any]]:
        found: list[list[Any]] = []
        for one in words:
            if one.role is Role.MORE and found:
                found[-1][1].append(self._line(one))
            else:
                found.append([one.role.value, [self._line(one)]])
        return found

    def _tables(self, words: Sequence[Text]) -> list[list[Any]]:
        tables: list[list[Any]] = []
        cells: dict[tuple[int, int], list[Any]] = {}
        for one in words:
            place = one.cell or (0, 0)
            if place == (0, 0) and one.role is not Role.MORE and cells:
                tables.append(_rows(cells))
                cells = {}
            cells.setdefault(place, []).append(self._line(one))
        if cells:
            tables.append(_rows(cells))
        return tables

    def _drawn(self, items: Iterable[PaperItem]) -> Iterator[list[Any]]:
        """Yield items as the template draws them; lines that follow one another as one."""
        last: list[Any] | None = None
        for item in items:
            if isinstance(item, Text):
                last = None
                yield self._line(item)
            elif isinstance(item, Cells):
                last = None
                yield _code(item)
            else:
                made = _shape(item)
                if last is not None and made[1:4] == last[1:4] and made[2] == 0:
                    last[4].extend(made[4])
                    continue
                last = made
                yield made

    def _line(self, item: Text) -> list[Any]:
        width = measure(item.words, item.size, item.face)
        before = {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[item.anchor]
        (x, y), up = item.at, item.turn is Turn.UPRIGHT
        x, y = (x, y + before) if up else (x - before, y)
        exact = is_measured(item.words)
        words = item.words if exact else self.shown(item.words)
        return [
            "t", _whole(x), _whole(y), _whole(width), _whole(item.size), item.face is Face.BOLD,
            _TONES[item.tone], up, not exact, words,
        ]  # fmt: skip


def _is_rare(letter: str) -> bool:
    known = letter in letter_widths()[Face.REGULAR]
    return not known and unicodedata.category(letter) != "Cf"


def _rows(cells: dict[tuple[int, int], list[Any]]) -> list[Any]:
    high, wide = (1 + max(place[axis] for place in cells) for axis in (0, 1))
    rows = [[cells.get((down, across), []) for across in range(wide)] for down in range(high)]
    return [wide, rows]


def _shape(item: Line | Polyline | Rect | Circle) -> list[Any]:
    if isinstance(item, Line):
        return ["s", _PENS[item.pen], 0, False, [_run((item.start, item.end))]]
    tone, closed = _TONES[item.tone], True
    points: Sequence[Point]
    if isinstance(item, Polyline):
        points, closed = item.points, item.closed
    elif isinstance(item, Rect):
        (x0, y0), (x1, y1) = item.corner, item.opposite
        points = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    else:
        (x, y), radius = item.centre, item.radius
        points = [(x + radius * across, y + radius * up) for across, up in _round()]
    return ["s", _PENS[item.pen], tone, closed, [_run(points)]]


@lru_cache(maxsize=1)
def _round() -> tuple[Point, ...]:
    angles = (2.0 * math.pi * part / _CORNERS_OF_CIRCLE for part in range(_CORNERS_OF_CIRCLE))
    return tuple((math.cos(angle), math.sin(angle)) for angle in angles)


def _run(points: Sequence[Point]) -> list[int]:
    return [round(value * 100.0) for point in points for value in point]


def _code(item: Cells) -> list[Any]:
    count = len(item.rows)
    plain = Cells((0.0, 0.0), 1.0, item.rows)
    runs = "".join(f"M{x0:g} {y0:g}h{x1 - x0:g}v1h{x0 - x1:g}z" for x0, y0, x1, _ in plain.runs())
    picture = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {count} {count}">'
        f'<path d="{runs}"/></svg>'
    )
    x, y = item.corner
    return ["c", _whole(x), _whole(y), _whole(count * item.cell), picture]
