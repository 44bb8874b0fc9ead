"""Head and title block of a page: verdict with what is open, main facts, the fields of ISO 7200."""

from __future__ import annotations

from dataclasses import dataclass

from bracecalc import __version__
from bracecalc.drawing.content import Content
from bracecalc.drawing.lettering import LEAST, Face, bare, measure, wrap
from bracecalc.drawing.model import Group, Line, PaperItem, Pen, Rect, Role, Text, Tone
from bracecalc.drawing.placing import LEADING
from bracecalc.records.plan import Verdict

MARGIN = 30.0
_TITLE, _VERDICT, _OPEN = 14.0, 11.0, 8.4
_FACT = 7.6
_LEAD = 54.0  # points: room for the name of a fact
_SHARES = (0.40, 0.16, 0.17, 0.15, 0.12)
_BLANKS = ("Owner", "Drawn", "Checked", "Approved", "Date")


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a page, and the lowest point that it takes up."""

    groups: tuple[Group, ...]
    bottom: float


def head(content: Content, inner: float) -> Head:
    """Return title, verdict and main facts of the first page."""
    items: list[PaperItem] = []
    y = MARGIN
    for number, line in enumerate(wrap(content.title, inner, _TITLE, Face.BOLD)):
        y += _TITLE * (LEADING if number else 1.0)
        role, label = (Role.MORE, "") if number else (Role.TITLE, "title")
        items.append(Text((MARGIN, y), line, _TITLE, face=Face.BOLD, name=label, role=role))
    title = Group("name", "Title", tuple(items))
    badge, y = _badge(content, inner, y + 7.0)
    facts: list[PaperItem] = []
    y += 3.0
    for name, words in content.facts:
        for number, line in enumerate(wrap(words, inner - _LEAD, _FACT)):
            y += _FACT * LEADING
            if not number:
                facts.append(Text((MARGIN, y), name, _FACT, face=Face.BOLD))
            facts.append(Text((MARGIN + _LEAD, y), line, _FACT, role=Role.MORE))
    group = Group("header", "Main facts", tuple(facts))
    return Head((title, badge, group), y + 4.0)


def _badge(content: Content, inner: float, top: float) -> tuple[Group, float]:
    """Return the verdict's box: what it comes to, and in a second line what is still open."""
    fails = content.verdict is Verdict.FAILS
    back, ink = (Tone.FAIL, Tone.PAPER) if fails else (Tone.PAPER, Tone.INK)
    words = content.badge
    lines: tuple[str, ...] = ()
    if content.still_open:
        lines = wrap(f"Not settled yet: {content.still_open}", inner - 16.0, _OPEN, Face.BOLD)
    y = top + _VERDICT + 3.0
    items: list[PaperItem] = [
        Text((MARGIN + 8.0, y), words, _VERDICT, face=Face.BOLD, tone=ink, name="verdict")
    ]
    for line in lines:
        y += _OPEN * LEADING
        at = (MARGIN + 8.0, y)
        items.append(Text(at, line, _OPEN, face=Face.BOLD, tone=ink, name="open", role=Role.MORE))
    bottom = y + 5.0
    box = Rect((MARGIN, top), (MARGIN + inner, bottom), Pen.CUT, back, "badge")
    return Group("badge", "Verdict", (box, *items)), bottom


def continued(content: Content, inner: float) -> Head:
    """Return the head of a further page: the whole title again, smaller."""
    items: list[PaperItem] = []
    y = MARGIN
    for number, line in enumerate(wrap(content.title, inner, 10.0, Face.BOLD)):
        y += 10.0 * (LEADING if number else 1.0)
        role = Role.MORE if number else Role.PLAIN
        items.append(Text((MARGIN, y), line, 10.0, face=Face.BOLD, role=role))
    items.append(Line((MARGIN, y + 4.0), (MARGIN + inner, y + 4.0), Pen.CUT))
    return Head((Group("name", "Title", tuple(items)),), y + 9.0)


def block_height(content: Content, inner: float) -> float:
    """Return the height of the title block."""
    lines = len(wrap(content.title, inner * _SHARES[0] - 6.0, LEAST))
    return _row(max(lines, 1)) + _row(1)


def _row(lines: int) -> float:
    return LEAST * LEADING * (lines + 1) + 4.0


def title_block(content: Content, inner: float, bottom: float, sheet: str) -> Group:
    """Return the title block at the foot of a page; ``sheet`` as "1 of 2".

    Source: the fields of ISO 7200:2004, those that people fill in left blank.
    """
    title = wrap(content.title, inner * _SHARES[0] - 6.0, LEAST) or ("",)
    said = (
        ("Title", title),
        ("Document", ("Wall sheet, en",)),
        ("Number, revision", (content.revision,)),
        ("Date of issue", (content.date,)),
        ("Sheet", (sheet,)),
    )
    top = bottom - _row(len(title)) - _row(1)
    items: list[PaperItem] = [
        Rect((MARGIN, top), (MARGIN + inner, bottom), Pen.EDGE, Tone.NONE, "title block")
    ]
    middle = top + _row(len(title))
    items.append(Line((MARGIN, middle), (MARGIN + inner, middle), Pen.RULE))
    x = MARGIN
    for (name, lines), blank, share in zip(said, _BLANKS, _SHARES, strict=True):
        if x > MARGIN:
            items.append(Line((x, top), (x, bottom), Pen.RULE))
        y = top + LEAST + 2.0
        items.append(Text((x + 3.0, y), name, LEAST, face=Face.BOLD))
        for line in lines:
            y += LEAST * LEADING
            items.append(Text((x + 3.0, y), line, LEAST, role=Role.MORE))
        items.append(Text((x + 3.0, middle + LEAST + 2.0), blank, LEAST, face=Face.BOLD))
        if blank == "Owner":
            made = f"made by bracecalc {__version__}"
            at = (x + inner * share - measure(made, LEAST) - 3.0, middle + LEAST + 2.0)
            items.append(Text(at, made, LEAST))
        x += inner * share
    return Group("title block", f"Title block, sheet {sheet}", tuple(items))


def document_title(content: Content) -> str:
    """Return the name of a sheet among bookmarks and files."""
    return f"{bare(content.title)}, revision {content.revision}"
