"""The sheet as one HTML file: made for a screen of any width, and printed as the page on paper.

Everything is built as elements, so that a name in a job can never become markup. The file asks
for nothing from elsewhere and runs no script.
"""

from __future__ import annotations

from collections.abc import Sequence
from importlib.resources import files
from xml.etree import ElementTree as ET

from bracecalc.drawing.code import NoSymbol
from bracecalc.drawing.content import Content, Subject, Table, Wishes, content_of
from bracecalc.drawing.elevation import elevation
from bracecalc.drawing.flattening import flatten
from bracecalc.drawing.layout import VERDICTS, sheet_page
from bracecalc.drawing.legs import legs_group, legs_height
from bracecalc.drawing.model import Cells, Drawing, Group
from bracecalc.drawing.section import section
from bracecalc.drawing.showing import Paper, Room, Shown
from bracecalc.drawing.svg import svg_element
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
    root = ET.Element("html", lang="en")
    title = contents[0].title if len(contents) == 1 else f"{len(contents)} sheets"
    root.append(_head(f"{title}: bracing sheet", paper))
    body = ET.SubElement(root, "body")
    screen = ET.SubElement(body, "main", {"class": "screen"})
    if len(contents) > 1:
        _index(screen, contents)
    for number, (subject, content) in enumerate(zip(subjects, contents, strict=True), start=1):
        _article(screen, number, subject, content, Shown(subject.plan.job, wishes.units))
    printed = ET.SubElement(body, "div", {"class": "print", "aria-hidden": "true"})
    for number, subject in enumerate(subjects, start=1):
        page = ET.SubElement(printed, "div", {"class": "page"})
        page.append(svg_element(sheet_page(subject, wishes, paper), prefix=f"page{number}-"))
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
    _child(head, "style", style + printed)
    return head


def _child(
    parent: ET.Element, tag: str, text: str = "", attributes: dict[str, str] | None = None
) -> ET.Element:
    element = ET.SubElement(parent, tag, {} if attributes is None else attributes)
    if text:
        element.text = text
    return element


def _index(screen: ET.Element, contents: Sequence[Content]) -> None:
    nav = _child(screen, "nav", attributes={"aria-label": "Sheets"})
    _child(nav, "h1", f"{len(contents)} sheets")
    items = _child(nav, "ol")
    for number, content in enumerate(contents, start=1):
        item = _child(items, "li")
        link = _child(item, "a", attributes={"href": f"#sheet{number}"})
        _child(link, "bdi", content.title)
        link[-1].tail = f": {VERDICTS[content.verdict].lower()}"


def _article(
    screen: ET.Element, number: int, subject: Subject, content: Content, shown: Shown
) -> None:
    prefix = f"sheet{number}"
    labels = {"id": prefix, "aria-labelledby": f"{prefix}-title"}
    article = _child(screen, "article", attributes=labels)
    header = _child(article, "header")
    title = _child(header, "h1", attributes={"id": f"{prefix}-title"})
    _child(title, "bdi", content.title)
    verdict = {"class": f"verdict {content.verdict.name.lower()}"}
    _child(header, "p", VERDICTS[content.verdict], verdict)
    stamp = f"Date {content.date}. Revision of the job {content.revision}."
    _child(header, "p", f"{stamp} Heights are above the datum.", {"class": "stamp"})
    _fails(article, content)
    facts = _child(article, "dl")
    for name, words in content.facts:
        _child(facts, "dt", name)
        _child(facts, "dd", words)
    for drawing, caption in figures(subject, shown):
        figure = _child(article, "figure")
        figure.append(svg_element(drawing, prefix=f"{prefix}-{drawing.groups[0].name}-"))
        _child(figure, "figcaption", caption)
    _table(article, content.cut_list)
    _table(article, content.screws)
    _steps(article, content)
    _listed(article, "Cautions", content.cautions, "cautions")
    for severity, heading, kind in _SEVERITIES:
        found = [one for one in content.findings if one.severity is severity]
        _listed(article, heading, [f"{one.text} {one.remedy}".strip() for one in found], kind)
    _table(article, content.blanks)
    _code(article, prefix, content)


def _fails(article: ET.Element, content: Content) -> None:
    found = [one for one in content.findings if one.severity is Severity.FAILS]
    if not found:
        return
    part = _child(article, "section", attributes={"class": "fails"})
    _child(part, "h2", "Fails: mend this first")
    items = _child(part, "ul")
    for one in found:
        item = _child(items, "li")
        _child(item, "strong", one.text)
        if one.remedy:
            _child(item, "p", one.remedy)


def figures(subject: Subject, shown: Shown) -> list[tuple[Drawing, str]]:
    """Return the drawings for a screen, each with its caption; letters that a phone can show."""
    room = Room(0.0, 2.0, _WIDTH, _TALL, _LETTERS)
    front = elevation(subject.plan, shown, room)
    side = section(subject.plan, shown, room)
    legs = legs_group(subject.plan.legs, shown, room)
    known = subject.plan.legs is not None
    tall = 4.0 + legs_height(_LETTERS, shown.count, known=known)
    views = [
        (
            flatten(front.view),
            front.bottom + 4.0,
            "Front elevation. Screws: board, and height above the underside.",
        ),
        (flatten(side.view), side.bottom + 4.0, "Side section at a stud."),
        (legs, tall, "Levelling legs at contact, seen from above."),
    ]
    return [(_figure(group, height), caption) for group, height, caption in views]


def _figure(group: Group, height: float) -> Drawing:
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
