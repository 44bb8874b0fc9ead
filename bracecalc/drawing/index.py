"""The first pages of many sheets in one file: a map of the niches by verdict, and their list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bracecalc.drawing.code import revision
from bracecalc.drawing.content import Subject, Wishes, is_provisional
from bracecalc.drawing.flattening import flatten_shape
from bracecalc.drawing.lettering import CAPITAL, LEAST, Face, clean, name, wrap
from bracecalc.drawing.model import (
    Anchor,
    Box,
    Drawing,
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
from bracecalc.drawing.pdf import Leaf, Link
from bracecalc.drawing.placing import LEADING
from bracecalc.drawing.showing import Paper, Shown, beside
from bracecalc.drawing.title import MARGIN
from bracecalc.records.plan import Plan, RestraintKind, Verdict
from bracecalc.render.open_words import open_brief
from bracecalc.text.findings import Lengths

_SIZE = 7.6
_CELL, _APART = 18.0, 3.0  # points: side of a niche in the map
_COLUMNS = (  # heading and share of the width
    ("Sheet", 0.06),
    ("Niche", 0.30),
    ("Verdict", 0.30),
    ("Restraint", 0.09),
    ("Underside", 0.14),
    ("Revision", 0.11),
)
_VERDICTS = {
    Verdict.HOLDS: "holds",
    Verdict.CLOSE: "measure closely",
    Verdict.FAILS: "FAILS",
}
_PAGE = Frame(1.0, (0.0, 0.0))  # points as they are


@dataclass(frozen=True, slots=True)
class _Row:
    """One niche in the list: the lines of each cell, and whether it fails."""

    cells: tuple[tuple[str, ...], ...]
    mark: str
    verdict: Verdict
    still_open: bool

    @property
    def tall(self) -> float:
        return max(len(cell) for cell in self.cells) * _SIZE * LEADING + 4.0


def index_leaves(subjects: Sequence[Subject], wishes: Wishes, paper: Paper) -> list[Leaf]:
    """Return the index pages; each niche of map and list is a link to its sheet."""
    rows = [
        _row(subject, wishes, paper, number) for number, subject in enumerate(subjects, start=1)
    ]
    pages: list[tuple[list[Group], list[Link]]] = []
    groups, links, y = _head(rows, wishes, paper)
    for group, box, mark, top in _map(rows, paper, y):
        groups.append(group)
        links.append(Link(box, mark))
        y = top
    y += 16.0
    waiting = list(rows)
    while waiting:
        list_groups, list_links, waiting = _list(waiting, paper, y)
        groups += list_groups
        links += list_links
        pages.append((groups, links))
        groups, links, y = [], [], MARGIN
    return [
        Leaf(Drawing(f"Index {number}", *paper.size, tuple(marks)), links=tuple(found))
        for number, (marks, found) in enumerate(pages, start=1)
    ]


def mark_of(number: int) -> str:
    """Return the mark of a sheet's first page, by its number from 1."""
    return f"sheet-{number}"


def _row(subject: Subject, wishes: Wishes, paper: Paper, number: int) -> _Row:
    plan = subject.plan
    target, still_open = plan.restraint.target_height, clean(open_brief(plan))
    shown = Shown(plan.job, wishes.units)
    verdict = _VERDICTS[plan.verdict]
    if plan.verdict is Verdict.CLOSE and is_provisional(plan):
        verdict = "provisional"
    verdict += f"; {still_open}" if still_open else ""
    cells = (
        str(number),
        name(plan.job.title) or "untitled",
        verdict,
        _restraint(plan),
        "none" if target is None else beside(shown.near(target)),
        revision(subject.job_text),
    )
    lines = tuple(
        wrap(words, width, _SIZE) for words, (_, width) in zip(cells, _spans(paper), strict=True)
    )
    return _Row(lines, mark_of(number), plan.verdict, bool(still_open))


def _restraint(plan: Plan) -> str:
    if plan.restraint.kind is RestraintKind.PACKERS:
        return Lengths(plan.job).say("sheet.spacers-short")
    return plan.restraint.kind.value


def _head(
    rows: Sequence[_Row], wishes: Wishes, paper: Paper
) -> tuple[list[Group], list[Link], float]:
    count = {verdict: sum(row.verdict is verdict for row in rows) for verdict in Verdict}
    unsettled = sum(row.still_open and row.verdict is not Verdict.FAILS for row in rows)
    said = (
        f"{len(rows)} sheets, {count[Verdict.FAILS]} that fail, {count[Verdict.CLOSE]} to measure "
        f"closely or first, {unsettled} with something not settled yet.  "
        f"Date {wishes.date.isoformat()}."
    )
    items = (
        Text(
            (MARGIN, MARGIN + 14.0), "Sheets", 14.0, face=Face.BOLD, name="title", role=Role.TITLE
        ),
        Text((MARGIN, MARGIN + 28.0), said, 8.4),
        *_legend(MARGIN + 36.0),
    )
    return [Group("head", "Sheets", items)], [], MARGIN + 60.0


def _legend(top: float) -> Iterator[PaperItem]:
    """Yield what the squares of the map mean."""
    x = MARGIN
    said = (
        (Verdict.HOLDS, False, "holds"),
        (Verdict.HOLDS, True, "holds, something not settled"),
        (Verdict.CLOSE, False, "holds if measured closely, or provisional"),
        (Verdict.FAILS, False, "fails"),
    )
    for verdict, still_open, words in said:
        yield from _square(verdict, (x, top, x + 10.0, top + 10.0), still_open=still_open)
        text = Text((x + 14.0, top + 8.0), words, LEAST)
        yield text
        x = text.box()[2] + 14.0


def _square(verdict: Verdict, box: Box, *, still_open: bool) -> Iterator[PaperItem]:
    """Yield a square by its verdict: told apart on a grey copy too."""
    left, top, right, bottom = box
    tone = Tone.FAIL if verdict is Verdict.FAILS else Tone.PAPER
    yield Rect((left, top), (right, bottom), Pen.EDGE, tone)
    if verdict is Verdict.CLOSE:
        hatch = Hatch((left, -bottom), (right, -top), Pattern.DIAGONAL, 3.0)
        yield from flatten_shape(hatch, _PAGE)
    elif verdict is Verdict.HOLDS and still_open:
        yield Line((left, bottom - 2.5), (right, bottom - 2.5), Pen.CUT)


def _map(rows: Sequence[_Row], paper: Paper, top: float) -> Iterator[tuple[Group, Box, str, float]]:
    """Yield a square for each niche, with its place, mark and the lowest point so far."""
    across = int((paper.size[0] - 2.0 * MARGIN + _APART) / (_CELL + _APART))
    for place, row in enumerate(rows):
        left = MARGIN + (place % across) * (_CELL + _APART)
        y = top + (place // across) * (_CELL + _APART)
        box = (left, y, left + _CELL, y + _CELL)
        ink = Tone.PAPER if row.verdict is Verdict.FAILS else Tone.INK
        base = y + _CELL / 2.0 + LEAST * CAPITAL / 2.0 - 1.0
        items: list[PaperItem] = [*_square(row.verdict, box, still_open=row.still_open)]
        if row.verdict is Verdict.CLOSE:  # the number stays readable in the hatching
            items.append(Rect((left + 2, base + 1.5), (left + _CELL - 2, base - 6), Pen.NONE,
                              Tone.PAPER))  # fmt: skip
        number = row.cells[0][0]
        items.append(
            Text((left + _CELL / 2.0, base), number, LEAST, Anchor.MIDDLE, Face.BOLD, tone=ink)
        )
        yield Group("map", f"Sheet {number}", tuple(items)), box, row.mark, y + _CELL


def _spans(paper: Paper) -> list[tuple[float, float]]:
    """Return left edge and width of each column."""
    inner = paper.size[0] - 2.0 * MARGIN
    spans, left = [], MARGIN
    for _, share in _COLUMNS:
        spans.append((left, share * inner - 6.0))
        left += share * inner
    return spans


def _list(
    rows: Sequence[_Row], paper: Paper, top: float
) -> tuple[list[Group], list[Link], list[_Row]]:
    """Return as many rows as there is room for under ``top``, and the others."""
    right, bottom = paper.size[0] - MARGIN, paper.size[1] - MARGIN
    spans = _spans(paper)
    y = top + _SIZE + 4.0
    items: list[PaperItem] = [
        Text((left, y - 4.0), words, _SIZE, face=Face.BOLD, cell=(0, column))
        for column, ((words, _), (left, _)) in enumerate(zip(_COLUMNS, spans, strict=True))
    ]
    items.append(Line((MARGIN, y), (right, y), Pen.CUT))
    links: list[Link] = []
    number = 0
    for row in rows:
        if y + row.tall > bottom:
            break
        number += 1
        fails = row.verdict is Verdict.FAILS
        if fails:  # a block before the row, seen in black and white too
            corners = (MARGIN - 6.0, y + 3.0), (MARGIN - 2.0, y + row.tall - 3.0)
            items.append(Rect(*corners, Pen.NONE, Tone.FAIL))
        for column, (lines, (left, _)) in enumerate(zip(row.cells, spans, strict=True)):
            face = Face.BOLD if fails and column == 2 else Face.REGULAR
            for place, words in enumerate(lines):
                at = (left, y + _SIZE + 2.0 + place * _SIZE * LEADING)
                role = Role.MORE if place else Role.PLAIN
                items.append(Text(at, words, _SIZE, face=face, role=role, cell=(number, column)))
        links.append(Link((MARGIN, y, right, y + row.tall), row.mark))
        y += row.tall
        items.append(Line((MARGIN, y), (right, y), Pen.RULE))
    return [Group("list", "List of the sheets", tuple(items))], links, list(rows[number:])
