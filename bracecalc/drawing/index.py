"""The index page of many sheets in one file."""

from __future__ import annotations

from collections.abc import Sequence

from bracecalc.drawing.code import revision
from bracecalc.drawing.content import Subject, Wishes
from bracecalc.drawing.layout import MARGIN
from bracecalc.drawing.lettering import Face, clean, shorten
from bracecalc.drawing.model import Box, Drawing, Group, Line, PaperItem, Pen, Rect, Text, Tone
from bracecalc.drawing.pdf import Leaf, Link
from bracecalc.drawing.showing import Paper, Shown, beside
from bracecalc.records.plan import Verdict

_SIZE = 7.5
_ROW = 14.0
_TOP = MARGIN + 56.0
_COLUMNS = (  # heading and share of the width
    ("Page", 0.06),
    ("Niche", 0.36),
    ("Verdict", 0.2),
    ("Restraint", 0.1),
    ("Underside", 0.18),
    ("Revision", 0.1),
)
_VERDICTS = {
    Verdict.HOLDS: "holds",
    Verdict.CLOSE: "measure closely",
    Verdict.FAILS: "FAILS",
}


def index_leaves(subjects: Sequence[Subject], wishes: Wishes, paper: Paper) -> list[Leaf]:
    """Return the index pages, each row a link to its sheet's page."""
    a_page = int((paper.size[1] - _TOP - MARGIN) / _ROW)
    parts = [subjects[start : start + a_page] for start in range(0, len(subjects), a_page)]
    leaves = []
    for number, part in enumerate(parts):
        first = len(parts) + number * a_page  # page of the first sheet of this part, from 0
        head = _head(
            subjects,
            wishes,
            paper,
            f"Sheets, page {number + 1} of the index" if len(parts) > 1 else "Sheets",
        )
        rows = [_row(subject, wishes, paper, i, first + i) for i, subject in enumerate(part)]
        items = (*head, *(item for row in rows for item in row))
        links = tuple(Link(_box(paper, i), first + i) for i in range(len(part)))
        group = Group("index", "Index of the sheets", items)
        leaves.append(Leaf(Drawing(f"Index {number + 1}", *paper.size, (group,)), links))
    return leaves


def _head(
    subjects: Sequence[Subject], wishes: Wishes, paper: Paper, title: str
) -> tuple[PaperItem, ...]:
    right = paper.size[0] - MARGIN
    fails = sum(subject.plan.verdict is Verdict.FAILS for subject in subjects)
    said = f"{len(subjects)} sheets, {fails} that fail.  Date {wishes.date.isoformat()}."
    y = _TOP - 6.0
    headings = (
        Text((left, y), words, _SIZE, face=Face.BOLD)
        for (words, _), (left, _) in zip(_COLUMNS, _spans(paper), strict=True)
    )
    return (
        Text((MARGIN, MARGIN + 14.0), title, 14.0, face=Face.BOLD, name="title"),
        Text((MARGIN, MARGIN + 30.0), said, 8.0),
        *headings,
        Line((MARGIN, _TOP - 2.0), (right, _TOP - 2.0), Pen.CUT),
    )


def _spans(paper: Paper) -> list[tuple[float, float]]:
    """Return left edge and width of each column."""
    inner = paper.size[0] - 2.0 * MARGIN
    spans, left = [], MARGIN
    for _, share in _COLUMNS:
        spans.append((left, share * inner - 6.0))
        left += share * inner
    return spans


def _box(paper: Paper, place: int) -> Box:
    top = _TOP + place * _ROW
    return (MARGIN, top, paper.size[0] - MARGIN, top + _ROW)


def _row(subject: Subject, wishes: Wishes, paper: Paper, place: int, page: int) -> list[PaperItem]:
    plan = subject.plan
    target, fails = plan.restraint.target_height, plan.verdict is Verdict.FAILS
    shown = Shown(plan.job, wishes.units)
    cells = (
        str(page + 1),
        clean(plan.job.title) or "untitled",
        _VERDICTS[plan.verdict],
        plan.restraint.kind.value,
        "none" if target is None else beside(shown.near(target)),
        revision(subject.job_text),
    )
    left, top, right, bottom = _box(paper, place)
    items: list[PaperItem] = [Line((left, bottom), (right, bottom), Pen.RULE)]
    if fails:  # a block before the row, seen in black and white too
        items.append(Rect((left - 6.0, top + 3.0), (left - 2.0, bottom - 3.0), Pen.NONE, Tone.FAIL))
    for words, (x, width) in zip(cells, _spans(paper), strict=True):
        face = Face.BOLD if fails and words == _VERDICTS[Verdict.FAILS] else Face.REGULAR
        at = (x, top + _ROW - 4.5)
        items.append(Text(at, shorten(words, width, _SIZE, face), _SIZE, face=face))
    return items
