"""What the sheet says in words: the same for paper and screen."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bracecalc.drawing.code import NoSymbol, Symbol, revision, symbol
from bracecalc.drawing.elevation import sign_of
from bracecalc.drawing.lettering import clean, name
from bracecalc.drawing.model import MarkKind
from bracecalc.drawing.profile import datum_words, mark_words
from bracecalc.drawing.showing import Shown, ShownUnits, beside
from bracecalc.records.job import CORNERS, StudMaterial
from bracecalc.records.open import OpenKind
from bracecalc.records.plan import (
    Finding,
    Item,
    Plan,
    Purpose,
    RestraintKind,
    ScrewRow,
    Severity,
    Verdict,
)
from bracecalc.records.reference import ScrewKind
from bracecalc.records.tolerance import Drift
from bracecalc.render.need_words import item_words
from bracecalc.render.open_words import open_brief, open_items
from bracecalc.render.words import (
    Instruction,
    bit_words,
    boards,
    cautions,
    deep_words,
    floor_words,
    screw_words,
    set_out,
    wall_words,
)
from bracecalc.text.findings import Lengths, used

VERDICTS = {
    Verdict.HOLDS: "HOLDS",
    Verdict.CLOSE: "HOLDS IF MEASURED CLOSELY",
    Verdict.FAILS: "FAILS: DO NOT BUILD AS IT IS",
}
PROVISIONAL = "PROVISIONAL: MEASURE FIRST WHAT WAS NOT MEASURED"
_HOLES = {
    Purpose.COUNTERBORE: "Counterbore",
    Purpose.CLEARANCE: "Clearance hole",
    Purpose.LEAD: "Pilot hole",
}
# findings of what a bit may meet behind the wall
BEHIND = ("concealed-services", "service-behind-stack")
_ORDER = {Severity.FAILS: 0, Severity.WARNS: 1, Severity.NOTES: 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """One niche for the sheet: its plan, and the job file's text that it was made from.

    ``drifts`` say how far each reading may be off, where that was worked out.
    """

    plan: Plan
    job_text: str
    drifts: tuple[Drift, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """How the reader wants the sheet: units shown (``None``: the job's own), and its date."""

    units: ShownUnits | None
    date: datetime.date


@dataclass(frozen=True, slots=True)
class Table:
    """A small table; ``signs`` stand before its rows where they stand on the drawing."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    signs: tuple[MarkKind, ...] = ()
    shares: tuple[float, ...] = ()  # of the width, a column each; empty: by what is in them


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """Every word of one sheet outside its drawings."""

    title: str
    date: str
    revision: str
    verdict: Verdict
    provisional: bool  # it holds only if what was not measured is as assumed
    still_open: str  # in a few words what the verdict does not cover
    open_points: tuple[tuple[str, str], ...]  # each: of what sort, and what it is
    facts: tuple[tuple[str, str], ...]
    cut_list: Table
    screws: Table
    places: Table
    checks: Table
    steps: tuple[Instruction, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[str, ...]
    blanks: Table
    code: Symbol | NoSymbol

    def of(self, severity: Severity) -> list[Finding]:
        """Return the findings of one severity."""
        return [finding for finding in self.findings if finding.severity is severity]

    @property
    def badge(self) -> str:
        """Return the verdict as it stands in its box."""
        if self.verdict is Verdict.CLOSE and self.provisional:
            return PROVISIONAL
        return VERDICTS[self.verdict]

    @property
    def behind(self) -> tuple[str, ...]:
        """Return the warnings of what a bit may meet behind the wall."""
        return tuple(
            f"{one.text} {one.remedy}".strip() for one in self.findings if one.code in BEHIND
        )


def content_of(subject: Subject, wishes: Wishes) -> Content:
    """Return the words of one sheet."""
    plan = subject.plan
    shown = Shown(plan.job, wishes.units)
    return Content(
        title=name(plan.job.title) or "untitled",
        date=wishes.date.isoformat(),
        revision=revision(subject.job_text),
        verdict=plan.verdict,
        provisional=is_provisional(plan),
        still_open=clean(open_brief(plan)),
        open_points=tuple((kind, clean(text)) for kind, text in open_items(plan)),
        facts=tuple(_facts(plan, shown)),
        cut_list=_cut_list(plan, shown),
        screws=_screws(plan, shown),
        places=_places(plan, shown),
        checks=_checks(plan),
        steps=tuple(one._replace(text=clean(one.text)) for one in set_out(plan)),
        findings=_findings(plan),
        cautions=tuple(clean(text) for text in cautions(plan)),
        blanks=_blanks(plan, shown),
        code=symbol(subject.job_text),
    )


def is_provisional(plan: Plan) -> bool:
    """Return whether something that the plan rests on was not measured."""
    return any(one.code.kind is OpenKind.NOT_MEASURED for one in plan.open)


def _findings(plan: Plan) -> tuple[Finding, ...]:
    ordered = sorted(plan.findings, key=lambda finding: _ORDER[finding.severity])
    return tuple(
        replace(finding, text=clean(finding.text), remedy=clean(finding.remedy))
        for finding in ordered
    )


def _facts(plan: Plan, shown: Shown) -> Iterator[tuple[str, str]]:
    restraint, unit, floor = plan.restraint, plan.job.unit, plan.job.floor
    yield "Restraint", clean(_restraint_words(plan))
    if restraint.target_height is not None:
        target = restraint.target_height
        low, high = shown.up(plan.reach_band.low), shown.down(plan.reach_band.high)
        line = mark_words(floor, target, shown)
        words = f"{beside(shown.near(target))} above the datum"
        words += f", {line}" if line else ""
        yield "Underside", f"{words}; may lie from {beside(low)} to {beside(high)}"
    yield "Datum", datum_words(floor, shown)
    size = f"{beside(shown.near(unit.height))} high on its rollers, "
    size += f"{beside(shown.near(unit.width))} wide, {beside(shown.near(unit.depth))} deep"
    if unit.highest > unit.height:
        size += f"; highest point {beside(shown.up(unit.highest))}"
    yield "Appliance", size
    yield "Floor", clean(floor_words(plan.job))
    if plan.job.wall.finish_to_come:
        yield "Rear wall", clean(wall_words(plan.job))
    yield "Strength", clean(_demand_words(plan))


def _restraint_words(plan: Plan) -> str:
    kind = plan.restraint.kind
    need = boards(plan)
    if plan.stack is not None and need is not None:
        word = "board" if plan.stack.boards == 1 else "boards"
        return clean(f"{plan.stack.boards} {word} {need.asked_for} {need.species} on the wall")
    if kind is RestraintKind.PACKERS:
        return Lengths(plan.job).say("sheet.spacers")
    if kind is RestraintKind.SOFFIT:
        return "the soffit itself"
    return f"none: {plan.restraint.why}" if plan.restraint.why else "none"


def _demand_words(plan: Plan) -> str:
    demand = plan.demand
    governs = next((case for case in demand.cases if case.name == demand.governs), None)
    words = []
    if governs is not None:
        forces = Lengths(plan.job)
        words.append(f"{governs.name} governs: {forces.force_up(governs.force)} to hold")
        if governs.capacity is not None and governs.utilisation is not None:
            held = forces.force_down(governs.capacity)
            words.append(f"{held} held, {used(governs.utilisation)} used")
        else:
            words.append("what holds it was not worked out")
    if not demand.checked:
        missing = f", not given: {demand.not_checked}" if demand.not_checked else ""
        words.append(f"tip-over NOT fully checked{missing}")
    return "; ".join(words) or "not worked out"


def _cut_list(plan: Plan, shown: Shown) -> Table:
    rows = []
    for need in plan.materials.boards:
        length = "" if need.length is None else beside(shown.down(need.length))
        size = clean(need.asked_for)
        if plan.packers is not None and need.item is Item.PACKER:
            size += f", {beside(shown.near(plan.packers.depth))} wide"
        item = item_words(need, Lengths(plan.job))
        rows.append((str(need.count), clean(item), size, clean(need.species), length))
    return Table("Cut list", ("Pieces", "What", "Size", "Species", "Length"), tuple(rows))


def _screws(plan: Plan, shown: Shown) -> Table:
    on_wall = plan.stack is not None
    holes = _hole_columns(plan.screws)
    first = "Board" if on_wall else _spacer(plan)
    into = "In framing" if plan.job.wall.stud.material is StudMaterial.WOOD else "In wall"
    washers = [washer_words(row, shown) for row in plan.screws]
    washer = ("Washer",) if any(washers) else ()
    columns = (first, "Screw", "Pieces", *washer, into, *holes.columns)
    rows = tuple(
        (*_screw_cells(row, shown, on_wall=on_wall), *((given or "none",) if washer else ()),
         beside(shown.down(row.embedment)), *cells)
        for row, given, cells in zip(plan.screws, washers, holes.rows, strict=True)
    )  # fmt: skip
    signs = tuple(sign_of(row.board) for row in plan.screws) if on_wall else ()
    return Table("Screws", columns, rows, signs)


def _spacer(plan: Plan) -> str:
    return Lengths(plan.job).say("sheet.spacer").capitalize()


def _screw_cells(row: ScrewRow, shown: Shown, *, on_wall: bool) -> tuple[str, ...]:
    by_wrench = row.kind in (ScrewKind.LAG, ScrewKind.COACH)
    return (
        str(row.board),
        clean(screw_words(row)) + (", by wrench" if by_wrench else ""),
        f"{row.count}, {row.per_stud} per stud" if on_wall else f"{row.count}",
    )


def _places(plan: Plan, shown: Shown) -> Table:
    """Return every screw with its place from the left and up, board by board."""
    target, on_wall = plan.restraint.target_height, plan.stack is not None
    columns: tuple[str, ...] = (_spacer(plan), "No.", "From left", "Out from rear wall")
    if on_wall:
        columns = ("Board", "No.", "From left", "Up from underside", "Above datum")
    rows: list[tuple[str, ...]] = []
    signs = []
    for row in plan.screws:
        for number, (x, up) in enumerate(row.positions, start=1):
            height = (target + up,) if on_wall and target is not None else ()
            places = (beside(shown.near(place)) for place in (x, up, *height))
            rows.append((str(row.board), str(number), *places))
            signs.append(sign_of(row.board))
    return Table("Every screw", columns, tuple(rows), tuple(signs) if on_wall else ())


def _checks(plan: Plan) -> Table:
    rows = tuple(
        (
            clean(one.name),
            clean(one.required),
            clean(one.found),
            "FAILS" if one.verdict is Verdict.FAILS else str(one.verdict.value),
        )
        for one in plan.checks
    )
    return Table("Other site checks", ("Item", "Required", "Measured", "Verdict"), rows)


def _hole_columns(rows: Sequence[ScrewRow]) -> Table:
    """Return a column a purpose, with the members in its heading where all rows agree on them."""
    found = [_holes(row) for row in rows]
    columns, cells = [], []
    for purpose in dict.fromkeys(purpose for holes in found for purpose in holes):
        inside = {members for holes in found if purpose in holes for members, _ in holes[purpose]}
        agreed = len(inside) == 1
        title = _HOLES[purpose]
        columns.append(f"{title}: {clean(*inside)}" if agreed else title)
        cells.append(
            [
                "; ".join(bit if agreed else f"{bit} in {clean(members)}" for members, bit in one)
                or "none"
                for one in (holes.get(purpose, ()) for holes in found)
            ]
        )
    by_row = tuple(zip(*cells, strict=True)) if cells else ((),) * len(rows)
    return Table("", tuple(columns), by_row)


def washer_words(row: ScrewRow, shown: Shown) -> str:
    """Return the washer under a screw's head as it is bought; empty where it takes none."""
    washer = row.washer
    if washer is None:
        return ""
    thick = f"{beside(shown.near(washer.thickness))} thick"
    if washer.diameter is None:
        return thick
    return f"{beside(shown.near(washer.diameter))} across, {thick}"


def _holes(row: ScrewRow) -> dict[Purpose, tuple[tuple[str, str], ...]]:
    """Return by purpose the members that take the same bit, and that bit."""
    members: dict[tuple[Purpose, float], list[str]] = {}
    for hole in row.holes:
        members.setdefault((hole.purpose, hole.bit), []).append(hole.member)
    found: dict[Purpose, tuple[tuple[str, str], ...]] = {}
    for (purpose, bit), inside in members.items():
        metric = row.metric
        words = bit_words(bit, metric=metric)
        deep = {Purpose.COUNTERBORE: row.counterbore, Purpose.LEAD: row.embedment}.get(purpose)
        if deep is not None:
            words += f", {deep_words(deep, metric=metric)} deep"
        found[purpose] = (*found.get(purpose, ()), (", ".join(inside), words))
    return found


def _blanks(plan: Plan, shown: Shown) -> Table:
    rows = tuple((what, expected, "", "") for what, expected in _blank_rows(plan, shown))
    columns = ("Measure", "Plan", "Found", "Initials")
    return Table("As found and as built", columns, rows, shares=(0.37, 0.25, 0.25, 0.13))


def _blank_rows(plan: Plan, shown: Shown) -> Iterator[tuple[str, str]]:
    job, target = plan.job, plan.restraint.target_height
    yield "Niche width", beside(shown.near(job.niche.narrowest))
    yield "Niche depth at that height", beside(shown.near(job.niche.deepest))
    floor = job.floor
    heights = ", ".join(
        "not read" if corner in floor.unread else shown.near(height)[0]
        for corner, height in zip(CORNERS, floor.spots, strict=True)
    )
    yield "Floor at legs: front L, R; rear L, R", heights
    if plan.studs is not None and plan.studs.used:
        used = ", ".join(shown.near(spot)[0] for spot in plan.studs.used[:5])
        more = len(plan.studs.used) - 5
        yield Lengths(job).say("sheet.centers"), used + (f" and {more} more" if more > 0 else "")
    if target is not None:
        yield "Underside, left / right", beside(shown.near(target))
    if plan.stack is not None:
        yield "Stack out from the wall", beside(shown.near(plan.stack.projection))
        yield "Overlap, left / right", beside(shown.down(plan.stack.overlap))
    if target is not None:
        yield "Paper just drags, left / right", "yes / yes"
