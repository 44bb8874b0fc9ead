"""What the sheet says in words: the same for paper and screen."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass, replace

from bracecalc.findings import Lengths
from bracecalc.records.plan import (
    CORNERS,
    Finding,
    Plan,
    RestraintKind,
    ScrewRow,
    Severity,
    Verdict,
)
from bracecalc.render.drawing import MarkKind
from bracecalc.render.sheet.code import NoSymbol, Symbol, revision, symbol
from bracecalc.render.sheet.elevation import sign_of
from bracecalc.render.sheet.showing import Shown, ShownUnits, beside
from bracecalc.render.sheet.text import clean
from bracecalc.render.words import (
    Instruction,
    corner_words,
    cautions,
    floor_words,
    hole_words,
    screw_words,
    set_out,
)

_ORDER = {Severity.FAILS: 0, Severity.WARNS: 1, Severity.NOTES: 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """One niche for the sheet: its plan, and the job file's text that it was made from."""

    plan: Plan
    job_text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """How the reader wants the sheet: units shown, and its date."""

    units: ShownUnits
    date: datetime.date


@dataclass(frozen=True, slots=True)
class Table:
    """A small table; ``signs`` stand before its rows where they stand on the drawing."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    signs: tuple[MarkKind, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """Every word of one sheet outside its drawings."""

    title: str
    date: str
    revision: str
    verdict: Verdict
    facts: tuple[tuple[str, str], ...]
    cut_list: Table
    screws: Table
    steps: tuple[Instruction, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[str, ...]
    blanks: Table
    code: Symbol | NoSymbol


def content_of(subject: Subject, wishes: Wishes) -> Content:
    """Return the words of one sheet."""
    plan = subject.plan
    shown = Shown(plan.job, wishes.units)
    return Content(
        title=clean(plan.job.title) or "untitled",
        date=wishes.date.isoformat(),
        revision=revision(subject.job_text),
        verdict=plan.verdict,
        facts=tuple(_facts(plan, shown)),
        cut_list=_cut_list(plan, shown),
        screws=_screws(plan, shown),
        steps=tuple(replace(step, text=clean(step.text)) for step in set_out(plan)),
        findings=_findings(plan),
        cautions=tuple(clean(text) for text in cautions(plan)),
        blanks=_blanks(plan, shown),
        code=symbol(subject.job_text),
    )


def _findings(plan: Plan) -> tuple[Finding, ...]:
    ordered = sorted(plan.findings, key=lambda finding: _ORDER[finding.severity])
    return tuple(
        replace(finding, text=clean(finding.text), remedy=clean(finding.remedy))
        for finding in ordered
    )


def _facts(plan: Plan, shown: Shown) -> Iterator[tuple[str, str]]:
    restraint, unit = plan.restraint, plan.job.unit
    yield "Restraint", clean(_restraint_words(plan))
    if restraint.target_height is not None:
        low, high = shown.up(plan.reach_band.low), shown.down(plan.reach_band.high)
        at = beside(shown.near(restraint.target_height))
        yield "Underside", f"{at} above the datum; may lie from {beside(low)} to {beside(high)}"
    size = f"{beside(shown.near(unit.height))} high on its rollers, "
    size += f"{beside(shown.near(unit.width))} wide, {beside(shown.near(unit.depth))} deep"
    yield "Unit", size
    yield "Floor", floor_words(plan.job)
    yield "Strength", clean(_demand_words(plan))


def _restraint_words(plan: Plan) -> str:
    kind = plan.restraint.kind
    if plan.stack is not None:
        boards = "board" if plan.stack.boards == 1 else "boards"
        return f"{plan.stack.boards} {boards} {plan.stack.board} {plan.stack.species} on the wall"
    if kind is RestraintKind.PACKERS:
        return "packers under the soffit"
    if kind is RestraintKind.SOFFIT:
        return "the soffit itself"
    return f"none: {plan.restraint.why}" if plan.restraint.why else "none"


def _demand_words(plan: Plan) -> str:
    demand = plan.demand
    governs = next((case for case in demand.cases if case.name == demand.governs), None)
    words = []
    if governs is not None:
        words.append(f"{governs.name} governs: {governs.force:,.0f} lbf")
        if governs.capacity > 0.0:
            words.append(f"of {governs.capacity:,.0f} lbf held ({governs.utilisation:.0%})")
    if not demand.checked:
        missing = f": {demand.not_checked}" if demand.not_checked else ""
        words.append(f"demand of the unit NOT CHECKED{missing}")
    return "; ".join(words) or "not worked out"


def _cut_list(plan: Plan, shown: Shown) -> Table:
    rows = []
    for need in plan.materials.boards:
        length = "" if need.length is None else beside(shown.down(need.length))
        rows.append((str(need.count), clean(need.item), clean(need.size), clean(need.species), length))
    return Table("Cut list", ("Pieces", "What", "Size", "Species", "Length"), tuple(rows))


def _screws(plan: Plan, shown: Shown) -> Table:
    lengths = Lengths(plan.job)
    rows = tuple(_screw_cells(plan, row, shown, lengths) for row in plan.screws)
    part = "Board" if plan.stack is not None else "Packer"
    columns = (part, "Screw", "Pieces", "Up from underside", "In framing", "Bits")
    if plan.stack is None:
        columns = (part, "Screw", "Pieces", "Out from rear edge", "In framing", "Bits")
    signs = tuple(sign_of(row.board) for row in plan.screws) if plan.stack is not None else ()
    return Table("Screws", columns, rows, signs)


def _screw_cells(
    plan: Plan, row: ScrewRow, shown: Shown, lengths: Lengths
) -> tuple[str, ...]:
    heights = sorted({height for _, height in row.offsets})
    name = screw_words(row, lengths)
    bits = hole_words(row, lengths).removeprefix(f"{name}: ")
    bored = f"counterbore {beside(shown.near(row.counterbore))}; " if row.counterbore else ""
    count = f"{row.count}" if plan.stack is None else f"{row.count}, {row.per_stud} a stud"
    return (
        str(row.board),
        clean(name),
        count,
        ", ".join(beside(shown.near(height)) for height in heights),
        beside(shown.down(row.embedment)),
        clean(bored + bits),
    )


def _blanks(plan: Plan, shown: Shown) -> Table:
    rows = tuple((what, expected, "", "") for what, expected in _blank_rows(plan, shown))
    return Table("As found and as built", ("Measure", "Plan", "Found", "Initials"), rows)


def _blank_rows(plan: Plan, shown: Shown) -> Iterator[tuple[str, str]]:
    job, target = plan.job, plan.restraint.target_height
    yield "Niche width", beside(shown.near(min(job.niche.width)))
    yield "Niche depth at that height", beside(shown.near(max(job.niche.depth)))
    floor = job.floor
    spots = (floor.front_left, floor.front_right, floor.rear_left, floor.rear_right)
    heights = ", ".join(shown.near(height)[0] for height in spots)
    yield f"Floor: {', '.join(corner_words(corner) for corner in CORNERS)}", heights
    if plan.studs is not None and plan.studs.used:
        used = ", ".join(shown.near(spot)[0] for spot in plan.studs.used[:5])
        more = len(plan.studs.used) - 5
        yield "Stud centres", used + (f" and {more} more" if more > 0 else "")
    if target is not None:
        yield "Underside, left / right", beside(shown.near(target))
    if plan.stack is not None:
        yield "Stack out from the wall", beside(shown.near(plan.stack.projection))
        yield "Overlap, left / right", beside(shown.down(plan.stack.overlap))
    if target is not None:
        yield "Paper just drags, left / right", "yes / yes"
