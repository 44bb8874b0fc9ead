"""One niche on one page: title, drawings, legs and tables, text, blanks and code."""

from __future__ import annotations

from dataclasses import dataclass, replace

from bracecalc import __version__
from bracecalc.drawing.blocks import (
    FlowColumn,
    Flowed,
    Para,
    Place,
    flow,
    table_block,
)
from bracecalc.drawing.code import NoSymbol
from bracecalc.drawing.content import Content, Subject, Wishes, content_of
from bracecalc.drawing.elevation import elevation
from bracecalc.drawing.flattening import flatten
from bracecalc.drawing.legs import Order, legs_group, legs_height
from bracecalc.drawing.lettering import Face, measure, shorten, wrap
from bracecalc.drawing.model import (
    Anchor,
    Cells,
    Drawing,
    Frame,
    Group,
    Line,
    PaperItem,
    Pen,
    Rect,
    Text,
    Tone,
)
from bracecalc.drawing.placing import LEADING, Fitted
from bracecalc.drawing.section import section
from bracecalc.drawing.showing import Paper, Room, Shown
from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import Units
from bracecalc.records.plan import Severity, Verdict

MARGIN = 30.0
_LETTERS = 6.5
_ELEVATION = 0.61  # of the width
_LEGS, _LEGS_IN_ROW = 0.32, 0.62  # of the width
_CODE = 112.0  # side of the code with its white margin
_QUIET = 4  # cells of white margin around a code, by its standard
_LARGEST_TEXT, _SMALLEST_TEXT, _TEXT_STEP = 8.8, 5.4, 0.2


@dataclass(frozen=True, slots=True)
class _Shape:
    """Height of the two views, letters of drawings and tables, and how the legs are drawn."""

    drawings: float
    letters: float
    legs: Order


# the first that leaves room for all words is taken
_SHAPES = (
    _Shape(205.0, 6.5, Order.SQUARE),
    _Shape(175.0, 6.5, Order.SQUARE),
    _Shape(165.0, 6.2, Order.ROW),
    _Shape(135.0, 5.6, Order.ROW),
)
VERDICTS = {
    Verdict.HOLDS: "HOLDS",
    Verdict.CLOSE: "HOLDS IF MEASURED CLOSELY",
    Verdict.FAILS: "FAILS: DO NOT BUILD AS IT IS",
}


def sheet_page(subject: Subject, wishes: Wishes, paper: Paper) -> Drawing:
    """Return the whole page of one niche."""
    content = content_of(subject, wishes)
    width, height = paper.size
    shown = Shown(subject.plan.job, wishes.units)
    inner = width - 2.0 * MARGIN
    head = _header(content, inner)
    foot_top = height - MARGIN - _foot_height(content)
    foot = _foot(content, Room(MARGIN, foot_top, inner, height - MARGIN - foot_top))
    for shape in _SHAPES:
        views_room = Room(MARGIN, head.bottom + 6.0, inner, shape.drawings, shape.letters)
        views = _views(subject, shown, views_room)
        middle = Room(MARGIN, views.bottom + 6.0, inner, 0.0, shape.letters)
        tables = _middle(subject, content, shown, middle, shape.legs)
        top = tables.bottom + 4.0
        words = _words(content, Room(MARGIN, top, inner, foot_top - top - 6.0))
        if words.complete:
            break
    groups = (head.group, *views.groups, *tables.groups, words.group, foot)
    return Drawing(f"{content.title}, revision {content.revision}", width, height, groups)


@dataclass(frozen=True, slots=True)
class _Words:
    group: Group
    complete: bool


@dataclass(frozen=True, slots=True)
class _Head:
    group: Group
    bottom: float


@dataclass(frozen=True, slots=True)
class _Groups:
    groups: tuple[Group, ...]
    bottom: float


def _header(content: Content, inner: float) -> _Head:
    badge_words = VERDICTS[content.verdict]
    badge = measure(badge_words, 10.0, Face.BOLD) + 16.0
    right = MARGIN + inner
    box = (right - badge, MARGIN), (right, MARGIN + 19.0)
    fails = content.verdict is Verdict.FAILS
    tones = (Tone.FAIL, Tone.PAPER) if fails else (Tone.PAPER, Tone.INK)
    title = shorten(content.title, inner - badge - 10.0, 14.0, Face.BOLD)
    items: list[PaperItem] = [
        Text((MARGIN, MARGIN + 14.0), title, 14.0, face=Face.BOLD, name="title"),
        Rect(*box, Pen.CUT, tones[0]),
        Text(
            (right - badge / 2.0, MARGIN + 13.2), badge_words, 10.0, Anchor.MIDDLE, Face.BOLD,
            tone=tones[1], name="verdict",
        ),
        Line((MARGIN, MARGIN + 22.5), (right, MARGIN + 22.5), Pen.CUT),
    ]  # fmt: skip
    y = MARGIN + 32.5
    stamp = (
        f"Bracing of a built-in unit.  Date {content.date}.  Revision of the job "
        f"{content.revision}.  bracecalc {__version__}.  Heights are above the datum."
    )
    items.append(Text((MARGIN, y), shorten(stamp, inner, 7.0), 7.0, name="stamp"))
    y += 3.0
    for name, words in content.facts:
        y += 7.0 * LEADING
        items.append(Text((MARGIN, y), name, 7.0, face=Face.BOLD))
        lines = wrap(words, inner - 50.0, 7.0)
        for number, line in enumerate(lines[:3]):
            y += 7.0 * LEADING if number else 0.0
            items.append(Text((MARGIN + 50.0, y), line, 7.0))
    return _Head(Group("header", "Title and main facts", tuple(items)), y + 3.0)


def _views(subject: Subject, shown: Shown, room: Room) -> _Groups:
    left = room.width * _ELEVATION
    tall = room.height - 12.0
    front = elevation(
        subject.plan, shown, Room(room.left, room.top, left - 8.0, tall, room.letters)
    )
    side_room = Room(room.left + left, room.top, room.width - left, tall, room.letters)
    side = section(subject.plan, shown, side_room)
    bottom = max(front.bottom, side.bottom)
    captions = (
        *_caption(front, room.left, left - 8.0, bottom, shown),
        *_caption(side, side_room.left, side_room.width, bottom, shown),
    )
    groups = (
        flatten(front.view),
        flatten(side.view),
        Group("scales", "Scales of the drawings", captions),
    )
    return _Groups(groups, bottom + 14.0)


def _caption(
    fitted: Fitted, left: float, width: float, top: float, shown: Shown
) -> tuple[PaperItem, ...]:
    """Return a view's name and scale, and a bar that shows whether the print kept to it."""
    frame, base = fitted.view.frame, top + 9.0
    ratio = f"{frame.ratio:.4g}"
    name = f"{fitted.view.label.split(' of ')[0]}, 1:{ratio}"
    text = Text((left, base), name, 7.0, face=Face.BOLD, name=f"caption {fitted.view.name}")
    step, unit, per_unit = _bar_step(frame, shown)
    side = step * per_unit * frame.scale
    words = f"{2 * step:g} {unit}"
    bar_left = left + width - 2.0 * side - measure(words, 6.0) - 5.0
    if bar_left < text.box()[2] + 6.0:
        return (text,)
    y = base - 4.0
    middle = bar_left + side
    return (
        text,
        Rect((bar_left, y), (middle, y + 3.0), Pen.DIMENSION, Tone.INK, f"bar {fitted.view.name}"),
        Rect((middle, y), (middle + side, y + 3.0), Pen.DIMENSION, Tone.PAPER),
        Text((middle + side + 3.0, base), words, 6.0),
    )


def _bar_step(frame: Frame, shown: Shown) -> tuple[float, str, float]:
    """Return half of the bar: a round number of a unit, the unit, and its inches."""
    inch = shown.first is Units.INCH
    steps = (1.0, 2.0, 3.0, 6.0, 12.0, 24.0) if inch else (20.0, 50.0, 100.0, 200.0, 500.0)
    per_unit = 1.0 if inch else 1.0 / MM_PER_INCH
    fitting = [step for step in steps if step * per_unit * frame.scale <= 32.0]
    return (fitting[-1] if fitting else steps[0], "in" if inch else "mm", per_unit)


def _middle(subject: Subject, content: Content, shown: Shown, room: Room, order: Order) -> _Groups:
    """Return legs, cut list and screws: the legs beside both tables, or over the screws' table."""
    square = order is Order.SQUARE
    share = _LEGS if square else _LEGS_IN_ROW
    size = room.letters
    legs_room = Room(room.left, room.top, room.width * share - 12.0, 0.0, size)
    legs = legs_group(subject.plan.legs, shown, legs_room, order)
    known = subject.plan.legs is not None
    legs_bottom = room.top + legs_height(size, shown.count, known=known, order=order)
    left, width = room.left + room.width * share, room.width * (1.0 - share)
    cut = table_block(content.cut_list, Place(left, room.top, width, size))
    if square:
        place = Place(left, cut.bottom + 3.0, width, size)
    else:
        place = Place(room.left, max(cut.bottom, legs_bottom) + 3.0, room.width, size)
    screws = table_block(content.screws, place)
    tables = Group("tables", "Cut list and screw schedule", (*cut.items, *screws.items))
    return _Groups((legs, tables), max(legs_bottom, screws.bottom))


def paragraphs(content: Content, *, notes: bool, warnings: bool) -> list[Para]:
    """Return the flowing text; failing findings first, so that nobody builds past them."""
    paras: list[Para] = []
    by_severity = {
        severity: [finding for finding in content.findings if finding.severity is severity]
        for severity in Severity
    }
    if by_severity[Severity.FAILS]:
        paras.append(Para("Fails: mend this first", tone=Tone.FAIL, is_heading=True))
    for finding in by_severity[Severity.FAILS]:
        paras.append(Para(finding.text, "X", Face.BOLD))
        if finding.remedy:
            paras.append(Para(finding.remedy, ">"))
    if content.steps:
        paras.append(Para("Set-out in working order", is_heading=True))
    for number, step in enumerate(content.steps, start=1):
        paras.append(Para(step.text, f"{number} {step.step}"))
    if content.cautions:
        paras.append(Para("Cautions", is_heading=True))
    paras += [Para(text, "!") for text in content.cautions]
    for severity, title, wanted in (
        (Severity.WARNS, "Warnings", warnings),
        (Severity.NOTES, "Notes", notes),
    ):
        found = by_severity[severity]
        if found and wanted:
            paras.append(Para(title, is_heading=True))
            paras += [Para(f"{one.text} {one.remedy}".strip(), "\u2022") for one in found]
        elif found:
            words = f"{title} without room here: {len(found)}. The plan prints them."
            paras.append(Para(words, "\u2022", Face.BOLD))
    return paras


def _words(content: Content, room: Room) -> _Words:
    half = (room.width - 14.0) / 2.0
    bottom = room.top + room.height
    columns = (
        FlowColumn(room.left, room.top, half, bottom),
        FlowColumn(room.left + half + 14.0, room.top, half, bottom),
    )
    every = paragraphs(content, notes=True, warnings=True)
    flowed = _largest(every, columns)
    complete = not flowed.left_over
    for warnings in (True, False):  # without what matters least, in smaller and smaller letters
        if flowed.left_over:
            flowed = _largest(paragraphs(content, notes=False, warnings=warnings), columns)
    if flowed.left_over:
        flowed = _cut_short(content, columns)
    return _Words(Group("words", "Set-out, findings and cautions", flowed.items), complete)


def _largest(paras: list[Para], columns: tuple[FlowColumn, ...]) -> Flowed:
    """Return the text at the largest size that holds all of it, else at the smallest."""
    size = _LARGEST_TEXT
    flowed = flow(paras, columns, size)
    if not flowed.left_over:
        return _balanced(paras, columns)
    while flowed.left_over and size - _TEXT_STEP > _SMALLEST_TEXT - 1e-9:
        size -= _TEXT_STEP
        flowed = flow(paras, columns, size)
    return flowed


def _balanced(paras: list[Para], columns: tuple[FlowColumn, ...]) -> Flowed:
    """Return little text in columns of about the same length, rather than in the first alone."""
    for share in range(1, 11):
        shorter = [
            replace(one, bottom=one.top + (one.bottom - one.top) * share / 10.0) for one in columns
        ]
        flowed = flow(paras, shorter, _LARGEST_TEXT)
        if not flowed.left_over:
            break
    return flowed


def _cut_short(content: Content, columns: tuple[FlowColumn, ...]) -> Flowed:
    """Return as much text as there is room for, cautions first, and in words that there is more."""
    said = [Para(text, "!") for text in content.cautions]
    rest = paragraphs(replace(content, cautions=()), notes=False, warnings=False)
    paras = [Para("Cautions", is_heading=True), *said, *rest]
    *others, last = columns
    size = _SMALLEST_TEXT
    shorter = FlowColumn(last.left, last.top, last.width, last.bottom - 2.0 * size)
    flowed = flow(paras, (*others, shorter), size)
    words = f"Lines without room on this page: {flowed.left_over}. The plan prints them."
    at = (last.left, last.bottom - 2.0)
    text = Text(at, shorten(words, last.width, size, Face.BOLD), size, face=Face.BOLD)
    return Flowed((*flowed.items, text), flowed.left_over)


def _foot_height(content: Content) -> float:
    return max(_CODE + 10.0, 11.5 * len(content.blanks.rows) + 26.0)


def _foot(content: Content, room: Room) -> Group:
    left_width = room.width - _CODE - 12.0
    place = Place(room.left, room.top, left_width, _LETTERS)
    blanks = table_block(content.blanks, place, row_height=11.5)
    items: list[PaperItem] = [*blanks.items]
    left, top = room.left + room.width - _CODE, room.top
    if isinstance(content.code, NoSymbol):
        words = f"No code to scan: {content.code.why}. The revision above names the job."
        for number, line in enumerate(wrap(words, _CODE, _LETTERS)):
            at = (left, top + _LETTERS + number * _LETTERS * LEADING)
            items.append(Text(at, line, _LETTERS))
        return Group("foot", "As found, and the code", tuple(items))
    rows = content.code.rows
    cell = _CODE / (len(rows) + 2 * _QUIET)
    corner = (left + _QUIET * cell, top + _QUIET * cell)
    items.append(Cells(corner, cell, rows, name="code"))
    caption = f"This job, {content.revision}"
    at = (left + _CODE / 2.0, top + _CODE + 4.0)
    items.append(Text(at, caption, _LETTERS, Anchor.MIDDLE))
    return Group("foot", "As found, and the code", tuple(items))
