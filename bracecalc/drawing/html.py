"""The sheet as one HTML file: made for a screen of any width, and printed as the page on paper.

Everything is built as elements, so that a name in a job can never become markup. The file asks
for nothing from elsewhere and runs no script.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from importlib.resources import files
from xml.etree import ElementTree as ET

from bracecalc.drawing.bars import load_bars, tolerance_bars
from bracecalc.drawing.code import NoSymbol
from bracecalc.drawing.content import BEHIND, Content, Subject, Table, Wishes, content_of
from bracecalc.drawing.detail import detail, has_detail
from bracecalc.drawing.elevation import elevation
from bracecalc.drawing.flattening import flatten
from bracecalc.drawing.layout import sheet_pages
from bracecalc.drawing.lettering import bare
from bracecalc.drawing.model import Cells, Drawing, Group
from bracecalc.drawing.niche import whole_niche
from bracecalc.drawing.profile import profile
from bracecalc.drawing.section import section
from bracecalc.drawing.showing import Paper, Room, Shown
from bracecalc.drawing.svg import stylesheet, svg_element
from bracecalc.records.plan import Severity

_WIDTH = 350.0  # points: a phone's width is 360 pixels; letters of 11 stay readable there
_TALL = 430.0
_LETTERS = 11.0
_MOST_COLUMNS = 5  # side by side on a phone
_SEVERITIES = (
    (Severity.WARNS, "Warnings", "warns"),
    (Severity.NOTES, "Notes", "notes"),
)


def html_bytes(subjects: Sequence[Subject], wishes: Wishes, paper: Paper) -> bytes:
    """Return one HTML file with a sheet for each subject."""
    contents = [content_of(subject, wishes) for subject in subjects]
    title = bare(contents[0].title) if len(contents) == 1 else f"{len(contents)} sheets"
    root, screen, printed = _page(f"{title}: wall sheet", paper)
    if len(contents) > 1:
        _index(screen, contents, [f"#sheet{number}" for number, _ in enumerate(contents, start=1)])
    for number, (subject, content) in enumerate(zip(subjects, contents, strict=True), start=1):
        _article(screen, f"sheet{number}", subject, content, Shown(subject.plan.job, wishes.units))
        _print(printed, f"page{number}", sheet_pages(subject, wishes, paper))
    return _bytes(root)


def html_parts(
    subjects: Sequence[Subject], wishes: Wishes, paper: Paper, folder: str
) -> Iterator[tuple[str, bytes]]:
    """Yield many sheets a file each, with the name of the file, and the index of them last.

    A phone then opens one at a time. ``folder`` is where the sheets stand, seen from the index,
    whose own name is empty.
    """
    contents = []
    names = [f"{number:03d}.html" for number, _ in enumerate(subjects, start=1)]
    for number, subject in enumerate(subjects):
        content = content_of(subject, wishes)
        contents.append(content)
        root, screen, printed = _page(f"{bare(content.title)}: wall sheet", paper)
        nav = _child(screen, "nav", attributes={"aria-label": "Other sheets"})
        for place, words in ((number - 1, "Sheet before"), (number + 1, "Next sheet")):
            if 0 <= place < len(names):
                _child(nav, "a", words, {"href": names[place]}).tail = " "
        _article(screen, "sheet", subject, content, Shown(subject.plan.job, wishes.units))
        _print(printed, "page", sheet_pages(subject, wishes, paper))
        yield names[number], _bytes(root)
    root, screen, _ = _page(f"{len(contents)} sheets", paper)
    _index(screen, contents, [f"{folder}/{name}" for name in names])
    yield "", _bytes(root)


def _page(title: str, paper: Paper) -> tuple[ET.Element, ET.Element, ET.Element]:
    """Return a page, its part for the screen and its part for the printer."""
    root = ET.Element("html", lang="en")
    root.append(_head(title, paper))
    body = ET.SubElement(root, "body")
    screen = ET.SubElement(body, "main", {"class": "screen"})
    printed = ET.SubElement(body, "div", {"class": "print", "aria-hidden": "true"})
    return root, screen, printed


def _print(printed: ET.Element, prefix: str, pages: Sequence[Drawing]) -> None:
    for number, drawing in enumerate(pages, start=1):
        page = ET.SubElement(printed, "div", {"class": "page"})
        page.append(svg_element(drawing, prefix=f"{prefix}-{number}-"))


def _bytes(root: ET.Element) -> bytes:
    text = ET.tostring(root, encoding="unicode", method="html")
    return f"<!DOCTYPE html>\n{text}\n".encode()


def _head(title: str, paper: Paper) -> ET.Element:
    head = ET.Element("head")
    ET.SubElement(head, "meta", charset="utf-8")
    viewport = {"name": "viewport", "content": "width=device-width, initial-scale=1"}
    ET.SubElement(head, "meta", viewport)
    ET.SubElement(head, "meta", {"name": "color-scheme", "content": "light dark"})
    _child(head, "title", title)
    style = files("bracecalc.drawing").joinpath("sheet.css").read_text(encoding="utf-8")
    width, height = paper.size
    printed = (
        f"@page {{ size: {width:g}pt {height:g}pt; margin: 0 }}\n"
        f"@media print {{ .page {{ width: {width:g}pt; height: {height - 1.0:g}pt }} }}\n"
    )
    _child(head, "style", stylesheet() + style + printed)
    return head


def _child(
    parent: ET.Element, tag: str, text: str = "", attributes: dict[str, str] | None = None
) -> ET.Element:
    element = ET.SubElement(parent, tag, {} if attributes is None else attributes)
    if text:
        element.text = text
    return element


def _index(screen: ET.Element, contents: Sequence[Content], targets: Sequence[str]) -> None:
    nav = _child(screen, "nav", attributes={"aria-label": "Sheets"})
    _child(nav, "h1", f"{len(contents)} sheets")
    items = _child(nav, "ol")
    for content, target in zip(contents, targets, strict=True):
        item = _child(items, "li")
        link = _child(item, "a", attributes={"href": target})
        _child(link, "bdi", bare(content.title))
        still_open = f" Not settled yet: {content.still_open}" if content.still_open else ""
        link[-1].tail = f": {content.badge.lower()}.{still_open}"


def _article(
    screen: ET.Element, prefix: str, subject: Subject, content: Content, shown: Shown
) -> None:
    labels = {"id": prefix, "aria-labelledby": f"{prefix}-title"}
    article = _child(screen, "article", attributes=labels)
    header = _child(article, "header")
    title = _child(header, "h1", attributes={"id": f"{prefix}-title"})
    _child(title, "bdi", bare(content.title))
    verdict = {"class": f"verdict {content.verdict.name.lower()}"}
    badge = _child(header, "p", content.badge, verdict)
    if content.still_open:
        _child(badge, "span", f"Not settled yet: {content.still_open}", {"class": "open"})
    stamp = f"Date {content.date}. Revision of the job {content.revision}."
    _child(header, "p", f"{stamp} Heights are above the datum.", {"class": "stamp"})
    _fails(article, content)
    points = [f"{kind}: {text}" for kind, text in content.open_points]
    _listed(article, "Not settled yet", points, "warns")
    _listed(
        article, "Hazards: read before you start", (*content.cautions, *content.behind), "cautions"
    )
    facts = _child(article, "dl")
    for name, words in content.facts:
        _child(facts, "dt", name)
        _child(facts, "dd", words)
    for drawing, caption in figures(subject, shown):
        _figure(article, drawing, caption, f"{prefix}-{drawing.groups[0].name}-")
    _table(article, content.cut_list)
    _table(article, content.screws)
    _steps(article, content)
    for severity, heading, kind in _SEVERITIES:
        found = [one for one in content.of(severity) if one.code not in BEHIND]
        _listed(article, heading, [f"{one.text} {one.remedy}".strip() for one in found], kind)
    for drawing, caption in pictures(subject, shown):
        _figure(article, drawing, caption, f"{prefix}-{drawing.groups[0].name}-")
    for table in (content.places, content.checks):
        if table.rows:
            _table(article, table)
    _table(article, content.blanks)
    _code(article, prefix, content)


def _figure(article: ET.Element, drawing: Drawing, caption: str, prefix: str) -> None:
    """Add a drawing with its caption, and under it what it says in words."""
    figure = _child(article, "figure")
    figure.append(svg_element(drawing, prefix=prefix))
    _child(figure, "figcaption", caption)
    words = _child(figure, "details")
    _child(words, "summary", "In words")
    _child(words, "p", " ".join(group.picture for group in drawing.groups))


def _fails(article: ET.Element, content: Content) -> None:
    found = [one for one in content.findings if one.severity is Severity.FAILS]
    if not found:
        return
    part = _child(article, "section", attributes={"class": "fails"})
    _child(part, "h2", "Fails: put this right first")
    items = _child(part, "ul")
    for one in found:
        item = _child(items, "li")
        _child(item, "strong", one.text)
        if one.remedy:
            _child(item, "p", one.remedy)


def figures(subject: Subject, shown: Shown) -> list[tuple[Drawing, str]]:
    """Return the drawings for a screen, each with its caption; letters that a phone can show."""
    plan, room = subject.plan, Room(0.0, 2.0, _WIDTH, _TALL, _LETTERS)
    makers = [elevation, section, *([detail] if has_detail(plan) else [])]
    found = []
    for make in makers:
        fitted = make(plan, shown, room)
        drawing = _alone(flatten(fitted.view), fitted.bottom + 4.0)
        found.append((drawing, f"{fitted.view.label}."))
    legs = profile(plan, shown, room)
    found.append((_alone(legs.group, legs.bottom + 4.0), f"{legs.group.label}."))
    return found


def pictures(subject: Subject, shown: Shown) -> list[tuple[Drawing, str]]:
    """Return the pictures that are rather looked at than read, each with its caption."""
    room = Room(4.0, 2.0, _WIDTH - 8.0, _TALL, _LETTERS)
    made = (
        whole_niche(subject.plan, shown, room),
        load_bars(subject.plan, room),
        tolerance_bars(subject.drifts, shown, room),
    )
    return [
        (_alone(figure.group, figure.bottom + 4.0), f"{figure.group.label}.")
        for figure in made
        if figure is not None
    ]


def _alone(group: Group, height: float) -> Drawing:
    return Drawing(group.label, _WIDTH, height, (group,))


def _table(article: ET.Element, table: Table) -> None:
    part = _child(article, "section")
    _child(part, "h2", table.title)
    if not table.rows:
        _child(part, "p", "None.")
        return
    scroll = {"class": "scroll", "tabindex": "0", "role": "region", "aria-label": table.title}
    # the roles are said, as a table that is laid out as blocks on a phone would lose them
    wide = {"class": "stack", "role": "table"} if len(table.columns) > _MOST_COLUMNS else {}
    grid = _child(_child(part, "div", attributes=scroll), "table", attributes=wide)
    head = _child(_child(grid, "thead"), "tr", attributes={"role": "row"})
    for column in table.columns:
        _child(head, "th", column, {"scope": "col", "role": "columnheader"})
    body = _child(grid, "tbody")
    for row in table.rows:
        line = _child(body, "tr", attributes={"role": "row"})
        for place, cell in enumerate(row):
            attributes = {"role": "cell", "data-label": table.columns[place]}
            if place == 0:
                attributes |= {"scope": "row", "role": "rowheader"}
            _child(line, "td" if place else "th", cell, attributes)


def _steps(article: ET.Element, content: Content) -> None:
    if not content.steps:
        return
    part = _child(article, "section")
    _child(part, "h2", "Set-out in working order")
    items = _child(part, "ol")
    for step in content.steps:
        item = _child(items, "li")
        _child(item, "strong", step.step).tail = f" {step.text}"


def _listed(article: ET.Element, heading: str, texts: Sequence[str], kind: str) -> None:
    if not texts:
        return
    part = _child(article, "section", attributes={"class": kind})
    _child(part, "h2", heading)
    items = _child(part, "ul")
    for text in texts:
        _child(items, "li", text)


def _code(article: ET.Element, prefix: str, content: Content) -> None:
    part = _child(article, "section")
    _child(part, "h2", "The job as a code")
    if isinstance(content.code, NoSymbol):
        _child(part, "p", f"No code to scan: {content.code.why}.")
        return
    side = float(len(content.code.rows) + 8)
    cells = Cells((4.0, 4.0), 1.0, content.code.rows, name="code")
    group = Group("code", "Code that holds this job", (cells,))
    drawing = Drawing("Code that holds this job", side, side, (group,))
    figure = _child(part, "figure", attributes={"class": "code"})
    figure.append(svg_element(drawing, prefix=f"{prefix}-code-"))
    _child(figure, "figcaption", f"This job, revision {content.revision}")
