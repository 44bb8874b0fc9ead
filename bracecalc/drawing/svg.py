"""A drawing as SVG, made with ElementTree alone, so that no name can become markup."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from xml.etree import ElementTree as ET

from bracecalc.drawing.lettering import Face, is_measured, measure
from bracecalc.drawing.model import (
    FILLS,
    STROKES,
    Anchor,
    Cells,
    Circle,
    Drawing,
    Group,
    Line,
    PaperItem,
    Polyline,
    Rect,
    Text,
    Tone,
    Turn,
)

TYPEFACES = "'Noto Sans', 'DejaVu Sans', Verdana, Helvetica, Arial, sans-serif"
NAMESPACE = "http://www.w3.org/2000/svg"
_BETWEEN = 12.0  # points between the pages of one sheet


def svg_bytes(*pages: Drawing) -> bytes:
    """Return drawings, one under another, as a whole SVG file, its size in points."""
    if len(pages) == 1:
        root = svg_element(pages[0])
        width, height = pages[0].width, pages[0].height
    else:
        width = max(page.width for page in pages)
        height = sum(page.height for page in pages) + _BETWEEN * (len(pages) - 1)
        root = _root(width, height, pages[0].title, _told(pages), "")
        top = 0.0
        for number, page in enumerate(pages, start=1):
            inner = svg_element(page, prefix=f"page{number}-")
            inner.set("y", _number(top))
            inner.set("width", _number(page.width))
            inner.set("height", _number(page.height))
            root.append(inner)
            top += page.height + _BETWEEN
    root.set("width", f"{_number(width)}pt")
    root.set("height", f"{_number(height)}pt")
    style = ET.Element("style")
    style.text = stylesheet()
    root.insert(2, style)
    root.insert(3, ET.Element("rect", width="100%", height="100%", fill=FILLS[Tone.PAPER]))
    ET.indent(root)
    text: str = ET.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="utf-8"?>\n{text}\n'.encode()


@lru_cache(maxsize=1)
def stylesheet() -> str:
    """Return the CSS of pens and tones that the drawings name as classes."""
    rules = ["text{white-space:pre;user-select:text}"]
    for pen, stroke in STROKES.items():
        dashes = " ".join(_number(dash) for dash in stroke.dashes)
        dashed = f";stroke-dasharray:{dashes}" if dashes else ""
        width = _number(stroke.width)
        rules.append(f".p-{pen.value}{{stroke:{stroke.colour};stroke-width:{width}{dashed}}}")
    for tone in Tone:
        fill = FILLS.get(tone, "none")
        rules.append(f".t-{tone.value},.w-{tone.value}{{fill:{fill}}}")
    return "".join(rules)


def svg_element(drawing: Drawing, *, prefix: str = "") -> ET.Element:
    """Return the drawing as an element; ``prefix`` keeps ids apart where a page holds several."""
    told = _told((drawing,))
    root = _root(drawing.width, drawing.height, drawing.title, told, prefix)
    met: dict[str, int] = {}
    for group in drawing.groups:
        met[group.name] = met.get(group.name, 0) + 1
        again = f"-{met[group.name]}" if met[group.name] > 1 else ""
        root.append(_group(group, f"{prefix}{group.name}{again}"))
    return root


def _told(pages: Iterable[Drawing]) -> str:
    """Return every picture of the pages in words."""
    return " ".join(group.picture for page in pages for group in page.groups if group.picture)


def _root(width: float, height: float, title: str, told: str, prefix: str) -> ET.Element:
    box = f"0 0 {_number(width)} {_number(height)}"
    root = ET.Element("svg", xmlns=NAMESPACE, viewBox=box, role="img")
    root.set("font-family", TYPEFACES)
    ET.SubElement(root, "title", id=f"{prefix}title").text = title
    ET.SubElement(root, "desc", id=f"{prefix}desc").text = told or title
    root.set("aria-labelledby", f"{prefix}title")
    root.set("aria-describedby", f"{prefix}desc")
    return root


def _group(group: Group, name: str) -> ET.Element:
    element = ET.Element("g", id=name)
    if group.label:
        element.set("aria-label", group.label)
    if group.frame is not None:
        element.set("data-scale", repr(group.frame.scale))
        element.set("data-origin", " ".join(repr(part) for part in group.frame.origin))
    element.extend(_elements(group.items))
    return element


def _elements(items: Iterable[PaperItem]) -> Iterator[ET.Element]:
    """Yield an element for each item; lines without a name that follow one another as one path."""
    run: list[Line] = []
    for item in items:
        if isinstance(item, Line) and not item.name:
            if run and run[-1].pen is not item.pen:
                yield _path(run)
                run = []
            run.append(item)
            continue
        if run:
            yield _path(run)
            run = []
        if isinstance(item, Text):
            element = _text(item)
        elif isinstance(item, Cells):
            element = _cells(item)
        else:
            element = _shape(item)
        if item.name:
            element.set("data-name", item.name)
        yield element
    if run:
        yield _path(run)


def _path(lines: list[Line]) -> ET.Element:
    moves = (
        f"{move}{_number(x)} {_number(y)}"
        for one in lines
        for move, (x, y) in (("M", one.start), ("L", one.end))
    )
    return ET.Element("path", {"d": "".join(moves), "class": f"p-{lines[0].pen.value}"})


def _shape(item: Line | Polyline | Rect | Circle) -> ET.Element:
    tone = Tone.NONE if isinstance(item, Line) else item.tone
    if isinstance(item, Line):
        (x1, y1), (x2, y2) = item.start, item.end
        ends = {"x1": x1, "y1": y1, "x2": x2, "y2": y2}
        element = ET.Element("line", {key: _number(value) for key, value in ends.items()})
    elif isinstance(item, Polyline):
        points = " ".join(f"{_number(x)},{_number(y)}" for x, y in item.points)
        element = ET.Element("polygon" if item.closed else "polyline", points=points)
    elif isinstance(item, Rect):
        element = ET.Element("rect", _rect_box(item))
    else:
        circle = {"cx": item.centre[0], "cy": item.centre[1], "r": item.radius}
        element = ET.Element("circle", {key: _number(value) for key, value in circle.items()})
    element.set("class", f"p-{item.pen.value} t-{tone.value}")
    return element


def _rect_box(item: Rect) -> dict[str, str]:
    (x0, y0), (x1, y1) = item.corner, item.opposite
    return {
        "x": _number(min(x0, x1)),
        "y": _number(min(y0, y1)),
        "width": _number(abs(x1 - x0)),
        "height": _number(abs(y1 - y0)),
    }


def _text(item: Text) -> ET.Element:
    x, y = item.at
    element = ET.Element("text", x=_number(x), y=_number(y))
    element.set("class", f"w-{item.tone.value}")
    element.set("font-size", _number(item.size))
    if item.face is Face.BOLD:
        element.set("font-weight", "bold")
    if item.anchor is not Anchor.START:
        element.set("text-anchor", item.anchor.value)
    if item.turn is Turn.UPRIGHT:
        element.set("transform", f"rotate(-90 {_number(x)} {_number(y)})")
    if is_measured(item.words):  # whatever typeface the reader has, the words keep to their box
        element.set("textLength", _number(measure(item.words, item.size, item.face)))
        element.set("lengthAdjust", "spacingAndGlyphs")
    else:
        element.set("style", "unicode-bidi: isolate")
    element.text = item.words
    return element


def _cells(item: Cells) -> ET.Element:
    side = _number(item.cell)
    runs = (
        f"M{_number(x0)} {_number(y0)}h{_number(x1 - x0)}v{side}h{_number(x0 - x1)}z"
        for x0, y0, x1, _ in item.runs()
    )
    return ET.Element("path", {"d": "".join(runs), "fill": FILLS[Tone.INK], "class": "code"})


def _number(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
