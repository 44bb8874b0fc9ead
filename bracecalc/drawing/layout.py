"""One niche on its pages: what is built on the first, tables and pictures on the next ones."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from bracecalc.drawing.bars import load_bars, tolerance_bars
from bracecalc.drawing.blocks import (
    BETWEEN,
    Block,
    Grid,
    Para,
    Place,
    Words,
    as_words,
    fits,
    picture,
)
from bracecalc.drawing.code import NoSymbol
from bracecalc.drawing.content import BEHIND, Content, Subject, Table, Wishes, content_of
from bracecalc.drawing.detail import detail, has_detail
from bracecalc.drawing.elevation import elevation
from bracecalc.drawing.flattening import flatten
from bracecalc.drawing.lettering import LEAST, Face, wrap
from bracecalc.drawing.model import (
    Anchor,
    Cells,
    Drawing,
    Frame,
    Group,
    PaperItem,
    Pen,
    Rect,
    Role,
    Text,
    Tone,
)
from bracecalc.drawing.niche import whole_niche
from bracecalc.drawing.pages import GUTTER, Column, Flow, balanced, flow, packed, start
from bracecalc.drawing.placing import LEADING, Fitted
from bracecalc.drawing.profile import profile
from bracecalc.drawing.section import section
from bracecalc.drawing.showing import Paper, Room, Shown
from bracecalc.drawing.title import (
    MARGIN,
    block_height,
    continued,
    document_title,
    head,
    title_block,
)
from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import Units
from bracecalc.records.plan import Severity

_SIZES = (9.4, 8.8, 8.2, 7.6, LEAST)  # of the letters of flowing text, the first that fits
_VIEWS_LEAST, _VIEWS_MOST = 200.0, 360.0  # points: height of the drawings on the first page
_CAPTION = 22.0
_CODE = 118.0  # side of the code with its white margin
_QUIET = 4  # cells of white margin around a code, by its standard
_BLANK = 14.2  # points: height of a row to write in
_NICHES = (235.0, 190.0, 150.0)  # points: heights offered to the whole niche
_SHARES = (0.44, 0.30, 0.26)  # of the width: elevation, section, detail
_SHARES_OF_TWO = (0.58, 0.42)


def sheet_pages(subject: Subject, wishes: Wishes, paper: Paper) -> tuple[Drawing, ...]:
    """Return the pages of one niche, two at least."""
    content = content_of(subject, wishes)
    sheet = _Sheet(subject, content, Shown(subject.plan.job, wishes.units), paper)
    pages = [sheet.first(), *sheet.others()]
    title = document_title(content)
    width, height = paper.size
    inner, bottom = width - 2.0 * MARGIN, height - MARGIN
    drawings = []
    for number, groups in enumerate(pages, start=1):
        block = title_block(content, inner, bottom, f"{number} of {len(pages)}")
        name = title if number == 1 else f"{title}, sheet {number}"
        drawings.append(Drawing(name, width, height, (*groups, block)))
    return tuple(drawings)


@dataclass(slots=True)
class _Sheet:
    """Lays out one sheet; keeps what the first page had no room for."""

    subject: Subject
    content: Content
    shown: Shown
    paper: Paper
    left_over: Sequence[tuple[Block, int]] = ()
    noted: bool = False  # warnings and notes stand on the first page already

    @property
    def _inner(self) -> float:
        return self.paper.size[0] - 2.0 * MARGIN

    @property
    def _bottom(self) -> float:
        below = block_height(self.content, self._inner) + 6.0
        return self.paper.size[1] - MARGIN - below

    def _columns(self, top: float, bottom: float) -> tuple[Column, Column]:
        wide = (self._inner - GUTTER) / 2.0
        return (
            Column(MARGIN, top, wide, bottom),
            Column(MARGIN + wide + GUTTER, top, wide, bottom),
        )

    def first(self) -> list[Group]:
        """Return the first page: verdict, hazards, drawings, steps.

        The drawings get what the words leave them, and the words then the largest letters that
        what is left has room for.
        """
        top = head(self.content, self._inner)
        under = top.bottom + 2.0
        room = self._bottom - under - _CAPTION - 8.0
        tall = _VIEWS_LEAST
        for size in _SIZES:
            laid = balanced(start(self._words(size, more=True)), self._columns(0.0, room))
            if not laid.left_over and room - laid.bottom >= _VIEWS_LEAST:
                tall = min(room - laid.bottom, _VIEWS_MOST)
                break
        place = Room(MARGIN, under, self._inner, tall, LEAST)
        drawn, bottom = views(self.subject, self.shown, place)
        laid = self._laid(self._columns(bottom + 4.0, self._bottom))
        self.left_over = laid.left_over
        return [*top.groups, *drawn, *laid.groups()]

    def _laid(self, columns: tuple[Column, Column]) -> Flow:
        """Return the words in columns, the notes among them where all fit in letters not small."""
        for more in (True, False):
            self.noted = more
            for size in _SIZES[:-1] if more else _SIZES:
                laid = balanced(start(self._words(size, more=more)), columns)
                if not laid.left_over:
                    return laid
        return flow(start(self._words(_SIZES[-2], more=False)), columns)

    def _words(self, size: float, *, more: bool) -> list[Block]:
        """Return what is read before and while building; hazards before the first step."""
        content = self.content
        hazards = tuple(Para(text, "!") for text in content.cautions)
        blocks: list[Block] = [Words("Hazards: read before you start", hazards, size)]
        paras = []
        for one in content.of(Severity.FAILS):
            paras.append(Para(one.text, "X", Face.BOLD))
            if one.remedy:
                paras.append(Para(one.remedy, ">"))
        if paras:
            blocks.append(Words("Fails: put this right first", tuple(paras), size, Tone.FAIL))
        if content.behind:
            behind = tuple(Para(text, "!") for text in content.behind)
            blocks.append(Words("Hazards behind the wall", behind, size))
        if content.open_points:
            points = tuple(Para(text, f"{kind}:") for kind, text in content.open_points)
            blocks.append(Words("Not settled yet", points, size))
        if content.steps:
            steps = tuple(
                Para(step.text, f"{number} {step.step}", tick=True)
                for number, step in enumerate(content.steps, start=1)
            )
            blocks.append(Words("Set-out in working order", steps, size))
        if more:
            blocks += self._notes(size)
        return blocks

    def _notes(self, size: float) -> list[Block]:
        """Return warnings and notes, but for those that stand among the hazards."""
        found: list[Block] = []
        for severity, title in ((Severity.WARNS, "Warnings"), (Severity.NOTES, "Notes")):
            told = [one for one in self.content.of(severity) if one.code not in BEHIND]
            paras = tuple(Para(f"{one.text} {one.remedy}".strip(), "\u2022") for one in told)
            if paras:
                found.append(Words(title, paras, size))
        return found

    def others(self) -> Iterator[list[Group]]:
        """Yield the other pages: tables and pictures, then what is filled in on site."""
        top = continued(self.content, self._inner)
        page, y = [*top.groups], top.bottom
        rest = self.left_over
        while rest:  # steps go on before any table
            laid = balanced(rest, self._columns(y, self._bottom))
            page += laid.groups()
            y, rest = laid.bottom + BETWEEN, laid.left_over
            if rest:
                yield page
                page, y = [*top.groups], top.bottom
        full = Column(MARGIN, top.bottom, self._inner, self._bottom)
        tables = self._wide_tables()
        if y + tables[0].heading(full.width) + tables[0].heights(full.width)[0] > full.bottom:
            yield page
            page, y = [*top.groups], top.bottom
        wide = flow(start(tables), (replace(full, top=y),))
        page += wide.groups()
        while wide.left_over:
            yield page
            wide = flow(wide.left_over, (full,))
            page = [*top.groups, *wide.groups()]
        y, foot = wide.bottom + BETWEEN, self._foot_height()
        columns = self._columns(y, self._bottom - foot - BETWEEN)
        fill = self._tables()
        for tall in _NICHES:  # a smaller niche rather than one page more
            blocks = fill(tall)
            fitting = packed(blocks, columns)
            if fitting is not None:
                yield [*page, *fitting.groups(), *self._foot(self._bottom - foot)]
                return
        laid = balanced(start(blocks), columns)
        waiting = start(blocks)
        while laid.left_over:
            laid = balanced(waiting, self._columns(y, self._bottom))
            yield [*page, *laid.groups()]
            page, y, waiting = [*top.groups], top.bottom, laid.left_over
            laid = balanced(waiting, self._columns(y, self._bottom - foot - BETWEEN))
        at = self._bottom - foot if laid.laid else top.bottom
        yield [*page, *laid.groups(), *self._foot(at)]

    def _wide_tables(self) -> list[Block]:
        """Return what takes the page's whole width: screws with their bits, legs and floor."""
        found: list[Block] = []
        if self.content.screws.rows:
            found.append(self._grid(self.content.screws, self._inner))
        legs = partial(profile, self.subject.plan, self.shown)
        found += picture("Floor and legs at contact", legs, self._inner, LEAST)
        return found

    def _tables(self) -> Callable[[float], list[Block]]:
        """Return what gives the blocks that fit a column, by the height offered to the niche."""
        content, plan, shown = self.content, self.subject.plan, self.shown
        wide = (self._inner - GUTTER) / 2.0
        first: list[Block] = [] if self.noted else self._notes(_SIZES[-2])
        first.append(self._grid(content.cut_list, wide))
        loads = partial(load_bars, plan)
        drifts = partial(tolerance_bars, self.subject.drifts, shown)
        last: list[Block] = [
            *picture("Load asked (filled), load held (outline)", loads, wide, LEAST),
            *picture("How far each reading may be off", drifts, wide, LEAST),
            *(self._grid(one, wide) for one in (content.places, content.checks) if one.rows),
        ]
        niche = partial(whole_niche, plan, shown)

        def blocks(tall: float) -> list[Block]:
            return [*first, *picture("The niche as a whole", niche, wide, LEAST, tall), *last]

        return blocks

    def _grid(self, table: Table, width: float) -> Block:
        return Grid(table, LEAST) if fits(table, width, LEAST) else as_words(table, LEAST)

    def _blank_grid(self) -> Grid:
        return Grid(self.content.blanks, LEAST, _BLANK)

    def _blank_width(self) -> float:
        return self._inner - _CODE - 12.0

    def _foot_height(self) -> float:
        grid, width = self._blank_grid(), self._blank_width()
        return max(_CODE + 12.0, grid.heading(width) + sum(grid.heights(width)) + 2.0)

    def _foot(self, top: float) -> list[Group]:
        """Return the blanks that are filled in on site, and the code beside them."""
        grid, width = self._blank_grid(), self._blank_width()
        rows = range(len(self.content.blanks.rows))
        groups = list(grid.draw(rows, Place(MARGIN, top, width, LEAST)))
        left = MARGIN + self._inner - _CODE
        groups.append(code_group(self.content, left, top))
        return groups


def code_group(content: Content, left: float, top: float) -> Group:
    """Return the code that holds the job, or why there is none."""
    code = content.code
    if isinstance(code, NoSymbol):
        words = f"No code to scan: {code.why}. The revision names the job."
        lines = wrap(words, _CODE, LEAST)
        step = LEAST * LEADING
        items = tuple(
            Text((left, top + LEAST + number * step), line, LEAST,
                 role=Role.MORE if number else Role.PLAIN)
            for number, line in enumerate(lines)
        )  # fmt: skip
        return Group("code", "No code", items)
    cell = _CODE / (len(code.rows) + 2 * _QUIET)
    corner = (left + _QUIET * cell, top + _QUIET * cell)
    caption = f"This job, {content.revision}"
    at = (left + _CODE / 2.0, top + _CODE + 4.0)
    marks = (Cells(corner, cell, code.rows, name="code"), Text(at, caption, LEAST, Anchor.MIDDLE))
    told = f"Code to scan that holds the whole job. {caption}"
    return Group("code", "Code that holds this job", marks, None, told)


def views(subject: Subject, shown: Shown, room: Room) -> tuple[list[Group], float]:
    """Return elevation, section and, where there are screws, the detail, with their captions."""
    plan = subject.plan
    three = has_detail(plan)
    shares = _SHARES if three else _SHARES_OF_TWO
    tall = room.height - _CAPTION
    left = room.left
    makers = (elevation, section, detail) if three else (elevation, section)
    fitted: list[tuple[Fitted, float, float]] = []
    for make, share in zip(makers, shares, strict=True):
        wide = room.width * share
        place = Room(left, room.top, wide - 8.0, tall, room.letters)
        fitted.append((make(plan, shown, place), left, wide - 8.0))
        left += wide
    bottom = max(one.bottom for one, _, _ in fitted)
    groups = [flatten(one.view) for one, _, _ in fitted]
    captions: list[PaperItem] = []
    below = bottom
    for one, start_at, wide in fitted:
        marks, end = caption(one, start_at, wide, bottom, shown)
        captions.extend(marks)
        below = max(below, end)
    groups.append(Group("scales", "Names and scales of the drawings", tuple(captions)))
    return groups, below


def caption(
    fitted: Fitted, left: float, width: float, top: float, shown: Shown
) -> tuple[tuple[PaperItem, ...], float]:
    """Return a view's name and scale, a bar that shows whether the print kept to it, its end."""
    frame = fitted.view.frame
    name = f"{fitted.view.label}, 1:{frame.ratio:.4g}"
    base = top + LEAST
    items: list[PaperItem] = []
    for number, line in enumerate(wrap(name, width, LEAST, Face.BOLD)):
        base += LEAST * LEADING if number else 0.0
        role = Role.MORE if number else Role.PLAIN
        label = "" if number else f"caption {fitted.view.name}"
        items.append(Text((left, base), line, LEAST, face=Face.BOLD, name=label, role=role))
    step, unit, per_unit = _bar_step(frame, shown)
    side = step * per_unit * frame.scale
    words = f"{2 * step:g}\u00a0{unit}"
    y = base + 4.0
    middle = left + side
    at = (middle + side + 3.0, y + 4.5)
    items += [
        Rect((left, y), (middle, y + 3.0), Pen.DIMENSION, Tone.INK, f"bar {fitted.view.name}"),
        Rect((middle, y), (middle + side, y + 3.0), Pen.DIMENSION, Tone.PAPER),
        Text(at, words, LEAST),
    ]
    return tuple(items), y + 7.0


def _bar_step(frame: Frame, shown: Shown) -> tuple[float, str, float]:
    """Return half of the bar: a round number of a unit, the unit, and its inches."""
    inch = shown.first is Units.INCH
    steps = (0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0) if inch else (10, 20, 50, 100, 200, 500)
    per_unit = 1.0 if inch else 1.0 / MM_PER_INCH
    fitting = [step for step in steps if step * per_unit * frame.scale <= 32.0]
    return (fitting[-1] if fitting else steps[0], "in" if inch else "mm", per_unit)
