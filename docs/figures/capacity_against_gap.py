"""Draws capacity-against-gap.svg and writes the tables of ../wall-gap.md, from the formulas.

Run it with: python docs/figures/capacity_against_gap.py
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple
from xml.etree import ElementTree as ET

from bracecalc.mechanics.nds import dowel, penetration
from bracecalc.records.reference import ScrewKind, ScrewSize
from bracecalc.tables.load import load_tables

HERE = Path(__file__).parent
FIGURE = HERE / "capacity-against-gap.svg"
PAGE = HERE.parent / "wall-gap.md"

GRAVITY = 0.42  # Spruce-Pine-Fir, board and stud
BOARD = 1.5  # in, a 2-by


class Curve(NamedTuple):
    """A screw of the table, what the picture calls it, and how its line is told from the others."""

    size: ScrewSize
    name: str
    dashes: str
    mark: str

    @property
    def lag(self) -> bool:
        """Whether it is a lag screw."""
        return self.size.kind is ScrewKind.LAG


SIZES = load_tables().screws
SCREWS = (
    Curve(SIZES["8"], "No. 8", "2 4", "dot"),
    Curve(SIZES["10"], "No. 10", "", "ring"),
    Curve(SIZES["12"], "No. 12", "10 4", "square"),
    Curve(SIZES["14"], "No. 14", "10 4 2 4", "box"),
    Curve(SIZES["1/4"], "1/4 lag", "5 3", "triangle"),
    Curve(SIZES["5/16"], "5/16 lag", "16 4", "cross"),
)
FINISHES = (
    (3 / 8, "3/8"),
    (1 / 2, "1/2"),
    (5 / 8, "5/8"),
    (15 / 16, "15/16"),
    (1 + 1 / 4, "1-1/4"),
)


def lateral(screw: Curve, *, gap: float, main_length: float) -> float:
    """Return Z of one screw, load along the stud and across the board, lbf."""
    board, stud = (
        dowel.dowel_bearing_strength(
            specific_gravity=GRAVITY, diameter=screw.size.diameter, angle=angle
        )
        for angle in (90.0, 0.0)
    )
    joint = dowel.Joint(
        diameter=screw.size.root_diameter,
        side_bearing=board,
        main_bearing=stud,
        side_length=BOARD,
        main_length=main_length,
        gap=gap,
        bending_yield=screw.size.bending_yield,
    )
    return dowel.reference_lateral(joint, nominal_diameter=screw.size.diameter, angle=90.0).value


def at_full_penetration(screw: Curve, gap: float) -> float:
    """Return Z where the screw is long enough that only the gap weakens it, lbf."""
    full = (8.0 if screw.lag else 10.0) * screw.size.diameter
    return lateral(screw, gap=gap, main_length=full)


def of_length(screw: Curve, *, length: float, gap: float) -> float:
    """Return Z of a screw of one length by its bearing length, lbf; 0 if it reaches too little."""
    reach = length - BOARD - gap
    if screw.lag:
        reach -= penetration.lag_tip_length(diameter=screw.size.diameter)
    if reach < (4.0 if screw.lag else 6.0) * screw.size.diameter:
        return 0.0
    bearing = (
        reach
        if screw.lag
        else penetration.bearing_length(penetration=reach, diameter=screw.size.diameter)
    )
    return lateral(screw, gap=gap, main_length=bearing)


# the picture: paper size and plot area in points, greatest gap in inches and value in lbf
WIDTH, HEIGHT = 760.0, 520.0
LEFT, RIGHT, TOP, BOTTOM = 76.0, 664.0, 84.0, 456.0
MOST_GAP, MOST_VALUE = 1.5, 160.0
INK = "#000000"
FAINT = "#bbbbbb"


def _x(gap: float) -> float:
    return LEFT + (RIGHT - LEFT) * gap / MOST_GAP


def _y(value: float) -> float:
    return BOTTOM - (BOTTOM - TOP) * value / MOST_VALUE


def _shape(parent: ET.Element, tag: str, **style: str) -> ET.Element:
    return ET.SubElement(parent, tag, {k.replace("_", "-"): v for k, v in style.items()})


def _text(parent: ET.Element, words: str, *, at: tuple[float, float], **style: str) -> None:
    style = {"font_size": "14", "fill": INK} | style
    _shape(parent, "text", x=f"{at[0]:.1f}", y=f"{at[1]:.1f}", **style).text = words


def _line(parent: ET.Element, points: Sequence[tuple[float, float]], **style: str) -> None:
    places = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
    _shape(parent, "polyline", points=places, fill="none", **style)


def _mark(parent: ET.Element, kind: str, x: float, y: float) -> None:
    fill = INK if kind in ("dot", "square") else "#ffffff"
    paint = {"fill": fill, "stroke": INK, "stroke_width": "1.5"}
    if kind in ("dot", "ring"):
        _shape(parent, "circle", cx=f"{x:.1f}", cy=f"{y:.1f}", r="4", **paint)
    elif kind in ("square", "box"):
        corner = {"x": f"{x - 4:.1f}", "y": f"{y - 4:.1f}"}
        _shape(parent, "rect", **corner, width="8", height="8", **paint)
    elif kind == "triangle":
        corners = f"{x:.1f},{y - 5:.1f} {x + 5:.1f},{y + 4:.1f} {x - 5:.1f},{y + 4:.1f}"
        _shape(parent, "polygon", points=corners, **paint)
    else:
        for way in (4, -4):
            _line(parent, [(x - 4, y - way), (x + 4, y + way)], stroke=INK, stroke_width="2")


def _axes(parent: ET.Element) -> None:
    for value in range(0, int(MOST_VALUE) + 1, 20):
        y = _y(value)
        _line(parent, [(LEFT, y), (RIGHT, y)], stroke=FAINT, stroke_width="0.8")
        _text(parent, str(value), at=(LEFT - 8, y + 5), text_anchor="end")
    for gap, name in ((0.0, "0"), *FINISHES, (1.5, "1-1/2")):
        x = _x(gap)
        _line(parent, [(x, BOTTOM), (x, BOTTOM + 6)], stroke=INK, stroke_width="1.2")
        _text(parent, name, at=(x, BOTTOM + 22), text_anchor="middle")
    _line(
        parent,
        [(LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)],
        stroke=INK,
        stroke_width="1.5",
    )
    _text(
        parent,
        "gap between the back of the stack and the stud, in",
        at=((LEFT + RIGHT) / 2.0, BOTTOM + 48),
        text_anchor="middle",
    )
    _text(
        parent,
        "one screw sideways, Z, lbf",
        at=(24.0, (TOP + BOTTOM) / 2.0),
        text_anchor="middle",
        transform=f"rotate(-90 24 {(TOP + BOTTOM) / 2.0:.1f})",
    )
    for gap, words, anchor in (
        (1 / 2, "gypsum board 1/2 ", "end"),
        (5 / 8, " 5/8", "start"),
        (15 / 16, "tile on board, about 15/16", "middle"),
    ):
        x = _x(gap)
        _line(
            parent, [(x, TOP - 8), (x, BOTTOM)], stroke="#777777", stroke_width="1",
            stroke_dasharray="1 3",
        )  # fmt: skip
        _text(parent, words, at=(x, TOP - 14), text_anchor=anchor, font_size="12")


def _spread(places: Sequence[float], apart: float) -> list[float]:
    # labels in the order of their lines, moved down until none covers another
    out: list[float] = []
    for place in places:
        out.append(max(place, out[-1] + apart) if out else place)
    return out


def _curves(parent: ET.Element) -> None:
    steps = [MOST_GAP * i / 60.0 for i in range(61)]
    ends = []
    for screw in SCREWS:
        points = [(_x(gap), _y(at_full_penetration(screw, gap))) for gap in steps]
        style = {"stroke": INK, "stroke_width": "1.8"}
        _line(
            parent, points, **style, **({"stroke_dasharray": screw.dashes} if screw.dashes else {})
        )
        for i in range(0, 61, 10):
            _mark(parent, screw.mark, *points[i])
        ends.append((points[-1][1], screw))
    ends.sort(key=lambda end: end[0])
    for (y, screw), label in zip(ends, _spread([end[0] for end in ends], 18.0), strict=True):
        _line(
            parent,
            [(RIGHT + 4, y), (RIGHT + 18, label), (RIGHT + 22, label)],
            stroke="#777777",
            stroke_width="0.8",
        )
        _text(parent, screw.name, at=(RIGHT + 26, label + 5), font_weight="bold")


def figure() -> str:
    """Return the picture as SVG text."""
    root = ET.Element(
        "svg",
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {WIDTH:.0f} {HEIGHT:.0f}",
        role="img",
    )
    root.set("font-family", "Helvetica, Arial, sans-serif")
    ET.SubElement(root, "title").text = "What one screw holds sideways, against the gap behind it"
    ET.SubElement(root, "desc").text = (
        "Six falling curves. " + "; ".join(_said(screw) for screw in SCREWS) + "."
    )
    ET.SubElement(root, "rect", width=f"{WIDTH:.0f}", height=f"{HEIGHT:.0f}", fill="#ffffff")
    _text(
        root,
        "A gap behind the stack costs more than a smaller screw",
        at=(LEFT, 26),
        font_size="18",
        font_weight="bold",
    )
    _text(
        root,
        "NDS 2018 with AWC TR12; 1-1/2 in board, SPF, full penetration, C_D = 1",
        at=(LEFT, 46),
        font_size="13",
    )
    _axes(root)
    _curves(root)
    ET.indent(root)
    return ET.tostring(root, encoding="unicode") + "\n"


def _said(screw: Curve) -> str:
    return (
        f"{screw.name} falls from {at_full_penetration(screw, 0.0):.0f} lbf at no gap "
        f"to {at_full_penetration(screw, 0.5):.0f} lbf at 1/2 in"
    )


def _full_table() -> Iterator[str]:
    yield "| screw | no gap | " + " | ".join(f"{name} in" for _, name in FINISHES) + " |"
    yield "| --- |" + " ---: |" * (len(FINISHES) + 1)
    for screw in SCREWS:
        bare = at_full_penetration(screw, 0.0)
        cells = []
        for gap, _ in FINISHES:
            value = at_full_penetration(screw, gap)
            cells.append(f"{value:.0f} ({value / bare:.0%})")
        yield f"| {screw.name} | {bare:.0f} | " + " | ".join(cells) + " |"


_BOUGHT = (
    ("No. 10", 3.5),
    ("No. 10", 4.0),
    ("No. 12", 4.0),
    ("No. 14", 4.0),
    ("1/4 lag", 4.0),
    ("1/4 lag", 5.0),
    ("5/16 lag", 5.0),
)


def _length_table() -> Iterator[str]:
    yield "| screw | no gap | " + " | ".join(f"{name} in" for _, name in FINISHES) + " |"
    yield "| --- |" + " ---: |" * (len(FINISHES) + 1)
    by_name = {screw.name: screw for screw in SCREWS}
    gaps = (0.0, *(gap for gap, _ in FINISHES))
    for name, length in _BOUGHT:
        values = [of_length(by_name[name], length=length, gap=gap) for gap in gaps]
        cells = [f"{value:.0f}" if value > 0.0 else "too short" for value in values]
        whole, half = divmod(length, 1.0)
        yield f"| {name} x {whole:.0f}{'-1/2' if half else ''} in | " + " | ".join(cells) + " |"


def page(text: str) -> str:
    """Return the page with its two tables as the formulas give them.

    Args:
        text: of the page, with the places of the tables marked in it.

    Raises:
        ValueError: if the place of a table is missing.
    """
    for name, rows in (("full", _full_table()), ("length", _length_table())):
        start = f"<!-- {name}: written by the script -->\n"
        before, found, rest = text.partition(start)
        _, end, after = rest.partition("\n<!-- end -->")
        if not found or not end:
            raise ValueError(f"{PAGE}: the place of the table {name!r} is missing")
        text = before + start + "\n" + "\n".join(rows) + "\n" + end + after
    return text


if __name__ == "__main__":
    FIGURE.write_text(figure(), encoding="utf-8")
    PAGE.write_text(page(PAGE.read_text(encoding="utf-8")), encoding="utf-8")
