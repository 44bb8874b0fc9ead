"""Bars that are quicker to read than numbers: loads against capacity, readings that may be off."""

from __future__ import annotations

from collections.abc import Sequence

from bracecalc.drawing.flattening import flatten_shape, told_by
from bracecalc.drawing.lettering import Face, clean, measure, wrap
from bracecalc.drawing.model import (
    Frame,
    Group,
    Hatch,
    Line,
    PaperItem,
    Pattern,
    Pen,
    Rect,
    Role,
    Text,
    Tone,
)
from bracecalc.drawing.placing import LEADING
from bracecalc.drawing.profile import Figure
from bracecalc.drawing.showing import Room, Shown, beside
from bracecalc.records.plan import LoadCase, Plan, Verdict
from bracecalc.records.tolerance import Drift
from bracecalc.text.findings import Lengths, used

_BAR = 8.0  # points: height of a bar
_GAP = 6.0
_PAGE = Frame(1.0, (0.0, 0.0))  # points as they are
MOST_READINGS = 16  # that are drawn; the others may be farther off than those
_BREAKS = {Verdict.FAILS: "then it fails", Verdict.CLOSE: "then measure closely"}


def load_bars(plan: Plan, room: Room) -> Figure | None:
    """Return a bar for each load case: what is asked, in the outline of what is held."""
    cases = [case for case in plan.demand.cases if case.force > 0.0]
    idle = [case.name for case in plan.demand.cases if case.force <= 0.0]
    if not cases:
        return None
    size, forces = room.letters, Lengths(plan.job)
    most = max(max(case.force, case.capacity or 0.0) for case in cases)
    unit = room.width / max(most, 1e-9)
    items: list[PaperItem] = []
    y = room.top
    for number, case in enumerate(cases, start=1):
        words = _case_words(case, forces)
        for place, line in enumerate(wrap(words, room.width, size)):
            y += size * LEADING
            role = Role.MORE if place else Role.PLAIN
            items.append(Text((room.left, y), line, size, role=role, name=f"case {number}"))
        y += 3.0
        items.extend(_case_bar(case, number, room.left, y, unit))
        y += _BAR + _GAP
    if idle:
        words = f"Nothing asked in these cases: {', '.join(idle)}."
        for place, line in enumerate(wrap(words, room.width, size)):
            y += size * (LEADING if place else 1.0)
            role = Role.MORE if place else Role.PLAIN
            items.append(Text((room.left, y), line, size, role=role, name="idle cases"))
        y += 4.0
    label = "Load asked (filled) against load held (outline), each case"
    picture = told_by(f"{label}.", items)
    return Figure(Group("loads", label, tuple(items), None, picture), y)


def _case_words(case: LoadCase, forces: Lengths) -> str:
    words = f"{case.name}: {forces.force_up(case.force)} asked"
    if case.capacity is None or case.utilisation is None:
        return clean(f"{words}; what holds it was not worked out")
    limit = f", by {case.limited_by}" if case.limited_by else ""
    return clean(
        f"{words}, {forces.force_down(case.capacity)} held, {used(case.utilisation)} used{limit}"
    )


def _case_bar(case: LoadCase, number: int, left: float, top: float, unit: float) -> list[PaperItem]:
    asked = left + case.force * unit
    over = case.capacity is not None and case.force > case.capacity + 1e-9
    tone = Tone.FAIL if over else Tone.BAND
    marks: list[PaperItem] = [
        Rect((left, top), (asked, top + _BAR), Pen.NONE, tone, f"asked {number}")
    ]
    if not over:  # told apart on a grey copy too
        hatch = Hatch((left, -top - _BAR), (asked, -top), Pattern.DIAGONAL, 2.6)
        marks.extend(flatten_shape(hatch, _PAGE))
    if case.capacity is not None:
        held = left + case.capacity * unit
        corners = (left, top - 1.0), (held, top + _BAR + 1.0)
        marks.append(Rect(*corners, Pen.CUT, Tone.NONE, f"held {number}"))
    return marks


def tolerance_bars(drifts: Sequence[Drift], shown: Shown, room: Room) -> Figure | None:
    """Return a bar for each reading: how far it may be off before the verdict changes.

    The bar runs from the least to the greatest drift at which the verdict stands, the dark part is
    what the tape itself may be off; those that can be least far off come first.
    """
    telling = [one for one in drifts if one.below is not None or one.above is not None]
    if not telling:
        return None
    telling.sort(key=_room)
    shown_ones = telling[:MOST_READINGS]
    size = room.letters
    label_wide = min(
        max(measure(clean(one.name), size, Face.BOLD) for one in shown_ones) + 6.0,
        room.width * 0.36,
    )
    ends = [beside(shown.down(end)) for one in shown_ones for end in _ends(one) if end is not None]
    side = max(measure(words, size) for words in ends) + 10.0
    middle = room.left + label_wide + (room.width - label_wide) / 2.0
    half = (room.width - label_wide) / 2.0 - side
    most = max(end for one in shown_ones for end in _ends(one) if end is not None)
    unit = half / max(most, 1e-9)
    items: list[PaperItem] = []
    told, y = [], room.top + 3.0
    for one in shown_ones:
        y = _drift_row(one, shown, room, (label_wide, middle, half, unit, y), items)
        told.append(_drift_words(one, shown))
    items.append(Line((middle, room.top), (middle, y - 2.0), Pen.CENTRE, "as read"))
    if len(telling) > MOST_READINGS:
        y += size
        more = f"and {len(telling) - MOST_READINGS} readings that may be farther off"
        items.append(Text((room.left, y), more, size))
    label = "How far each reading may be off before the verdict changes"
    picture = f"{label}. {'; '.join(told)}."
    return Figure(Group("tolerances", label, tuple(items), None, picture), y + 4.0)


def _ends(one: Drift) -> tuple[float | None, float | None]:
    return one.below, one.above


def _room(one: Drift) -> float:
    return min(end for end in _ends(one) if end is not None)


def _drift_row(
    one: Drift,
    shown: Shown,
    room: Room,
    place: tuple[float, float, float, float, float],
    items: list[PaperItem],
) -> float:
    label_wide, middle, half, unit, top = place
    size = room.letters
    lines = wrap(clean(one.name), label_wide - 4.0, size, Face.BOLD)
    for number, line in enumerate(lines):
        at = (room.left, top + size * (1.0 + number * LEADING))
        role = Role.MORE if number else Role.PLAIN
        items.append(Text(at, line, size, face=Face.BOLD, role=role))
    tall = max(len(lines) * size * LEADING, _BAR + 3.0)
    y = top + 1.5
    reach = [half if end is None else end * unit for end in _ends(one)]
    tight = _room(one) <= one.uncertainty + 1e-9
    corners = (middle - reach[0], y), (middle + reach[1], y + _BAR)
    pen, tone = (Pen.FAIL, Tone.PAPER) if tight else (Pen.EDGE, Tone.BAND)
    items.append(Rect(*corners, pen, tone, f"may be off {clean(one.name)}"))
    off = min(one.uncertainty * unit, half)
    if off > 0.2:
        inner = (middle - off, y + 2.0), (middle + off, y + _BAR - 2.0)
        items.append(Rect(*inner, Pen.NONE, Tone.INK, f"tape {clean(one.name)}"))
    base = y + _BAR / 2.0 + size * 0.36
    for sign, end, far in ((-1.0, one.below, reach[0]), (1.0, one.above, reach[1])):
        if end is None:
            continue
        words = beside(shown.down(end))
        x = middle + sign * (max(far, off) + 3.0)
        start = x if sign > 0.0 else x - measure(words, size)
        items.append(Text((start, base), words, size))
    return top + tall + 2.0


def _drift_words(one: Drift, shown: Shown) -> str:
    said = []
    for end, becomes, way in (
        (one.below, one.below_becomes, "less"),
        (one.above, one.above_becomes, "more"),
    ):
        if end is not None and becomes is not None:
            breaks = _BREAKS.get(becomes, f"then it {becomes.value}")
            said.append(f"{beside(shown.down(end))} {way}, {breaks}")
    return f"{one.name}: {' or '.join(said)}"
