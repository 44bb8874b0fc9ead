"""A drawing as SVG, made with ElementTree alone, so that no name can become markup."""

from __future__ import annotations

from collections.abc import Iterable
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
    Pen,
    Polyline,
    Rect,
    Text,
    Tone,
    Turn,
)

TYPEFACES = "'Bitstream Vera Sans', 'DejaVu Sans', Helvetica, Arial, sans-serif"
NAMESPACE = "http://www.w3.org/2000/svg"


def svg_bytes(drawing: Drawing) -> bytes:
    """Return the drawing as a whole SVG file, its size in points."""
    root = svg_element(drawing)
    root.set("width", f"{_number(drawing.width)}pt")
    root.set("height", f"{_number(drawing.height)}pt")
    paper = ET.Element("rect", width="100%", height="100%", fill=FILLS[Tone.PAPER])
    root.insert(1, paper)
    ET.indent(root)
    text: str = ET.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="utf-8"?>\n{text}\n'.encode()


def svg_element(drawing: Drawing, *, prefix: str = "") -> ET.Element:
    """Return the drawing as an element; ``prefix`` keeps ids apart where a page holds several."""
    box = f"0 0 {_number(drawing.width)} {_number(drawing.height)}"
    root = ET.Element("svg", xmlns=NAMESPACE, viewBox=box, role="img")
    root.set("font-family", TYPEFACES)
    title = ET.SubElement(root, "title", id=f"{prefix}title")
    title.text = drawing.title
    root.set("aria-labelledby", f"{prefix}title")
    for group in drawing.groups:
        root.append(_group(group, prefix))
    return root


def _group(group: Group, prefix: str) -> ET.Element:
    element = ET.Element("g", id=f"{prefix}{group.name}")
    if group.label:
        element.set("aria-label", group.label)
    if group.frame is not None:
        element.set("data-scale", repr(group.frame.scale))
        element.set("data-origin", " ".join(repr(part) for part in group.frame.origin))
    element.extend(_elements(group.items))
    return element


def _elements(items: Iterable[PaperItem]) -> Iterable[ET.Element]:
    for item in items:
        if isinstance(item, Text):
            element = _text(item)
        elif isinstance(item, Cells):
            element = _cells(item)
        else:
            element = _shape(item)
        if item.name:
            element.set("data-name", item.name)
        yield element


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
    if not isinstance(item, Line):
        element.set("fill", FILLS.get(tone, "none"))
    _stroke(element, item.pen)
    return element


def _rect_box(item: Rect) -> dict[str, str]:
    (x0, y0), (x1, y1) = item.corner, item.opposite
    return {
        "x": _number(min(x0, x1)),
        "y": _number(min(y0, y1)),
        "width": _number(abs(x1 - x0)),
        "height": _number(abs(y1 - y0)),
    }


def _stroke(element: ET.Element, pen: Pen) -> None:
    stroke = STROKES.get(pen)
    if stroke is None:
        return
    element.set("stroke", stroke.colour)
    element.set("stroke-width", _number(stroke.width))
    if stroke.dashes:
        element.set("stroke-dasharray", " ".join(_number(dash) for dash in stroke.dashes))


def _text(item: Text) -> ET.Element:
    x, y = item.at
    element = ET.Element("text", x=_number(x), y=_number(y))
    element.set("class", f"w-{item.tone.value}")
    element.set("fill", FILLS[item.tone])
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
