"""The cut list that a saw operator follows: each stick as a bar with its cuts in order."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple
from xml.etree import ElementTree

from bracecalc.cutting import PER_INCH, CutStick, Saw
from bracecalc.order.lines import LumberLine
from bracecalc.order.naming import length_text
from bracecalc.order.order import Order
from bracecalc.order.outcome import Use
from bracecalc.order.pile import natural
from bracecalc.order.rules import OrderRules
from bracecalc.records.job import Units
from bracecalc.render.text import WIDTH, printable
from bracecalc.text.lengths import Rounding, format_length

BAR = 76  # columns that the longest stick takes
SVG = "http://www.w3.org/2000/svg"
WIDE, MARGIN = 1000.0, 40.0  # of the drawing, in its own units (100 to the inch when printed)
ROW, HIGH = 84.0, 30.0  # from bar to bar, and a bar's height
LETTERS = 6.6  # wide, of the small type


@dataclass(frozen=True, slots=True)
class Bar:
    """Sticks cut alike, with what stands beside the bar."""

    stick: CutStick
    numbers: str  # which sticks of this lumber these are
    heading: str
    cuts: str
    left_over: str


def bars(line: LumberLine, units: Units) -> Iterator[Bar]:
    """Yield the bars of one species and size, the longest sticks first, numbered through."""
    blocking = {length for use, length in line.pieces if use is Use.BLOCKING}
    boards = {length for use, length in line.pieces if use is not Use.BLOCKING}
    first = 1
    for stick in line.plan.sticks:
        last = first + stick.count - 1
        numbers = f"stick {first}" if first == last else f"sticks {first} to {last}"
        source = line.stick_text(stick.stick.length, units)
        offcut = " offcut on hand" if stick.stick.on_hand is not None else ""
        alike = f" ({stick.count} alike)" if stick.count > 1 else ""
        heading = f"{line.name}, {source}{offcut}: {numbers}{alike}"
        cuts = []
        for length, count in stick.cuts:
            only = " blocking" if length in blocking - boards else ""
            cuts.append(f"{count} x {length_text(length, units)}{only}")
        left = format_length(
            stick.left_over / PER_INCH, units=units, grid=1 / PER_INCH, towards=Rounding.DOWN
        )
        yield Bar(stick, numbers, heading, ", ".join(cuts), left)
        first = last + 1


class ScaledBar(NamedTuple):
    """Sticks cut alike, ready to be drawn to scale: lengths in 1/32 in from the left end."""

    heading: str
    below: str
    length: int
    pieces: tuple[tuple[int, int, str], ...]  # where each starts, its length, what stands in it


def scaled_bars(order: Order) -> tuple[ScaledBar, ...]:
    """Return every bar of an order, in the order of the saw."""
    rules = order.rules
    return tuple(
        ScaledBar(
            heading=bar.heading,
            below=f"{bar.cuts}; left over {bar.left_over}",
            length=bar.stick.stick.length,
            pieces=tuple(
                (start, length, _name(length, rules.units))
                for start, length in _pieces(bar.stick, rules.saw)
            ),
        )
        for line in order.lumber
        for bar in bars(line, rules.units)
    )


def saw_words(order: Order) -> str:
    """Return what the plan reckons each cut to take, in a sentence."""
    saw, units = order.rules.saw, order.rules.units
    trim = (
        f"{length_text(saw.trim, units)} is trimmed off each end, with a kerf"
        if saw.trim
        else "ends are not trimmed"
    )
    return (
        f"Saw kerf {length_text(saw.kerf, units)}; {trim}. Lengths are rounded up to 1/32 in. "
        "Cut in the order shown, from the left; measure each piece from the last cut."
    )


def cut_list_text(order: Order) -> str:
    """Return the cut list for a terminal, 80 columns, nothing but letters and plain signs."""
    longest = max(
        (stick.stick.length for line in order.lumber for stick in line.plan.sticks), default=1
    )
    rows = []
    for line in order.lumber:
        for bar in bars(line, order.rules.units):
            rows += ["", printable(bar.heading), _text_bar(bar.stick, order.rules, longest)]
            words = f"{bar.cuts}; left over {bar.left_over}"
            rows += textwrap.wrap(words, WIDTH, initial_indent="  ", subsequent_indent="  ")
    return "\n".join(rows[1:])


def part_list_text(order: Order) -> str:
    """Return what goes to each part of the building once it is cut: the saw's pile, sorted."""
    tally, units = order.tally, order.rules.units
    lines = []
    for labels in sorted(tally.parts, key=lambda part: [natural(label) for label in part]):
        named = tally.part_labels(labels)
        place = ", ".join(f"{column} {label}" for column, label in named.items() if label)
        lines += ["", printable(place if place else "no building part given")]
        for (use, wood, length), count in sorted(tally.parts[labels].items()):
            shown = f"{wood.size} {tally.sections[wood].shown}"
            measured = f" ({wood.measured})" if wood.measured else ""
            lines.append(
                printable(f"  {count:>6,} x {length_text(length, units)}, {shown}{measured}, ")
                + use.value
            )
    return "\n".join(["By part of the building", *lines])


def _pieces(stick: CutStick, saw: Saw) -> Iterator[tuple[int, int]]:
    """Yield where each piece of a stick starts, and its length; 1/32 in from the left end."""
    at = saw.trim + saw.kerf if saw.trim else 0
    for length, count in stick.cuts:
        for _ in range(count):
            yield at, length
            at += length + saw.kerf


def _name(length: int, units: Units) -> str:
    """Return what stands in a bar: the length without its unit."""
    return length_text(length, units).rpartition(" ")[0]


def _text_bar(stick: CutStick, rules: OrderRules, longest: int) -> str:
    """Draw one stick to scale: a bar at each cut, dots for trim and what is left over."""
    columns = max(2, round(stick.stick.length * BAR / longest))

    def column(at: int) -> int:
        return min(columns - 1, round(at * columns / stick.stick.length))

    marks = ["."] * columns
    b = -2
    for start, length in _pieces(stick, rules.saw):
        a = b if column(start) <= b + 1 else column(start)  # a kerf is thinner than a column
        b = column(start + length)
        name = _name(length, rules.units)
        inside = b - a - 1
        text = name.center(inside, "-") if inside >= len(name) else "-" * inside
        marks[a : b + 1] = ["|", *text, "|"] if b > a else ["|"]
    return "  " + "".join(marks)


def cut_list_svg(order: Order) -> str:
    """Return the cut list as a drawing: SVG, true to scale along the stick."""
    rows = scaled_bars(order)
    longest = max((bar.length for bar in rows), default=1)
    tall = MARGIN * 2 + 60 + ROW * max(1, len(rows))
    root = ElementTree.Element(
        "svg",
        {
            "xmlns": SVG,
            "viewBox": f"0 0 {WIDE:g} {tall:g}",
            "width": f"{WIDE / 100:g}in",
            "height": f"{tall / 100:g}in",
            "font-family": "sans-serif",
            "font-size": "12",
        },
    )
    ElementTree.SubElement(root, "title").text = "Cut list"
    ElementTree.SubElement(root, "rect", {"width": "100%", "height": "100%", "fill": "#ffffff"})
    _words(root, MARGIN, MARGIN, "Cut list", size=20)
    first, _, second = saw_words(order).partition(". ")
    _words(root, MARGIN, MARGIN + 22, f"{first}.")
    _words(root, MARGIN, MARGIN + 38, second)
    for place, bar in enumerate(rows):
        top = MARGIN + 80 + ROW * place
        _draw_bar(root, bar, (top, (WIDE - 2 * MARGIN) / longest))
    ElementTree.indent(root)
    return ElementTree.tostring(root, encoding="unicode", xml_declaration=True) + "\n"


def _draw_bar(root: ElementTree.Element, bar: ScaledBar, place: tuple[float, float]) -> None:
    top, scale = place
    group = ElementTree.SubElement(root, "g")
    _words(group, MARGIN, top - 6, bar.heading)
    _box(group, (MARGIN, top, bar.length * scale, HIGH), "#e2e2e2")
    for start, length, name in bar.pieces:
        at, wide = MARGIN + start * scale, length * scale
        _box(group, (at, top, wide, HIGH), "#f3ead6")
        if wide > LETTERS * len(name) + 4:
            _words(group, at + wide / 2, top + HIGH / 2 + 4, name, anchor="middle")
    _words(group, MARGIN, top + HIGH + 15, bar.below)


def _box(parent: ElementTree.Element, box: tuple[float, float, float, float], fill: str) -> None:
    x, y, wide, high = box
    ElementTree.SubElement(
        parent,
        "rect",
        {
            "x": f"{x:.2f}",
            "y": f"{y:.2f}",
            "width": f"{wide:.2f}",
            "height": f"{high:.2f}",
            "fill": fill,
            "stroke": "#000000",
            "stroke-width": "0.8",
        },
    )


def _words(
    parent: ElementTree.Element,
    x: float,
    y: float,
    text: str,
    *,
    size: int = 12,
    anchor: str = "start",
) -> None:
    element = ElementTree.SubElement(
        parent,
        "text",
        {"x": f"{x:.2f}", "y": f"{y:.2f}", "font-size": str(size), "text-anchor": anchor},
    )
    element.text = printable(text)
