"""A plan as headings, paragraphs, lists and tables: what terminal and markdown both write."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from bracecalc.planning.reach import limit_margins
from bracecalc.records.job import Method
from bracecalc.records.plan import (
    Item,
    LoadCase,
    Margin,
    Need,
    PackerSupport,
    Plan,
    RestraintKind,
    Severity,
    StackSupport,
    Verdict,
)
from bracecalc.records.reference import ScrewKind
from bracecalc.render.load_words import case_notes, duration_name, moment_rows
from bracecalc.render.open_words import open_items, verdict_words
from bracecalc.render.words import (
    cautions,
    corner_words,
    counted,
    floor_words,
    hole_words,
    in_masonry,
    is_screw,
    need_words,
    screw_words,
    set_out,
    step_headings,
    wall_words,
)
from bracecalc.text.findings import Lengths, used

SEVERITIES = {Severity.FAILS: "FAILS", Severity.WARNS: "Warning", Severity.NOTES: "Note"}


class Paragraph(NamedTuple):
    """Running text."""

    text: str


class Items(NamedTuple):
    """A list, each item a first word or two and its text."""

    items: tuple[tuple[str, str], ...]


class Grid(NamedTuple):
    """A table; numbers are already written as people read them."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


Block = Paragraph | Items | Grid


class Section(NamedTuple):
    """A heading and what stands under it."""

    heading: str
    blocks: tuple[Block, ...]


def plan_document(plan: Plan) -> tuple[Section, ...]:
    """Return the sections of a plan in working order: build first, then why, then cautions."""
    lengths = Lengths(plan.job)
    sections = [_verdict(plan), *_build(plan), _heights(plan, lengths)]
    sections.extend(_legs(plan, lengths))
    sections.extend(_screws(plan, lengths))
    sections.append(_strength(plan))
    sections.extend(_checks(plan))
    sections.extend(_materials(plan, lengths))
    sections.extend(_other_ways(plan, lengths))
    sections.extend(_findings(plan))
    sections.extend(_work(plan))
    sections.append(Section("Cautions", (Items(tuple(("-", one) for one in cautions(plan))),)))
    return tuple(sections)


def _verdict(plan: Plan) -> Section:
    blocks: list[Block] = [Paragraph(verdict_words(plan))]
    failing = [one for one in plan.findings if one.severity is Severity.FAILS]
    blocks.extend(Paragraph(f"{one.code}: {one.text}") for one in failing)
    if plan.open:
        blocks.append(Paragraph("Not settled yet:"))
        blocks.append(Items(tuple((f"{sort}:", f"{text}.") for sort, text in open_items(plan))))
    none = "none; " if plan.restraint.kind is RestraintKind.NONE else ""
    blocks.append(Paragraph(f"Restraint: {none}{plan.restraint.why}."))
    if plan.sensitivity:
        blocks.append(Paragraph(plan.sensitivity))
    return Section(plan.job.title, tuple(blocks))


def _build(plan: Plan) -> Iterator[Section]:
    instructions = set_out(plan)
    for heading in step_headings(plan.job):
        texts = [one.text for one in instructions if one.step == heading]
        if texts:
            numbered = tuple((f"{number}.", text) for number, text in enumerate(texts, start=1))
            yield Section(heading, (Items(numbered),))


def _heights(plan: Plan, lengths: Lengths) -> Section:
    band, target = plan.reach_band, plan.restraint.target_height
    rows = [
        ("highest that the legs reach", lengths.down(band.high), corner_words(band.high_set_by)),
        ("lowest that works", lengths.up(band.low), corner_words(band.low_set_by)),
    ]
    headings = ("above the datum", "height", "set by")
    if target is None:
        blocks: list[Block] = [Grid(headings, tuple(rows))]
    else:
        low, high = limit_margins(plan.job, band, target)
        aim = ("TARGET, underside of the restraint", lengths.near(target), "", "", "")
        blocks = [
            Grid(
                (*headings, "room", "at worst"),
                ((*rows[0], *_room(high, lengths)), aim, (*rows[1], *_room(low, lengths))),
            )
        ]
    margin = plan.restraint.margin
    if margin is not None:
        blocks.append(
            Paragraph(
                f"Room to the nearer limit {lengths.down(margin.nominal)}; with every reading at "
                f"its worst {lengths.down(margin.worst_case)}, root sum of squares "
                f"{lengths.down(margin.rss)}: {margin.verdict.value}."
            )
        )
    blocks.append(Paragraph(f"{floor_words(plan.job)} {wall_words(plan.job)}"))
    return Section("Heights", tuple(blocks))


def _room(margin: Margin, lengths: Lengths) -> tuple[str, str]:
    return lengths.down(margin.nominal), lengths.down(margin.worst_case)


def _legs(plan: Plan, lengths: Lengths) -> Iterator[Section]:
    if plan.legs is None:
        return
    rows = tuple(
        (
            corner_words(corner),
            lengths.near(leg.extension),
            *(() if leg.turns is None else (f"{leg.turns:.1f}",)),
            lengths.down(leg.travel),
            lengths.down(leg.margin.nominal),
            lengths.down(leg.margin.worst_case),
        )
        for corner, leg in plan.legs.items()
    )
    turned = ("turns",) if all(leg.turns is not None for leg in plan.legs.values()) else ()
    headings = ("leg", "out", *turned, "travel", "margin", "at worst")
    yield Section("Legs at contact", (Grid(headings, rows),))


def _screws(plan: Plan, lengths: Lengths) -> Iterator[Section]:
    if not plan.screws:
        return
    on_packers = isinstance(plan.support, PackerSupport)
    piece = "packer" if on_packers else "board"
    rows = tuple(
        (
            str(row.board),
            screw_words(row),
            str(row.per_stud),
            str(row.count),
            lengths.down(row.embedment),
            lengths.near(row.required_embedment),
            lengths.down(row.tip_to_far_side),
        )
        for row in plan.screws
    )
    each, into = ("a place", "in framing") if on_packers else ("a stud", "in stud")
    if not on_packers and in_masonry(plan.job):
        each, into = "a place", "in wall"
    headings = (piece, "screw", each, "all", into, "needs", "to far side")
    blocks: list[Block] = [Grid(headings, rows)]
    marks = tuple(
        (str(row.board), lengths.near(across), lengths.near(height))
        for row in plan.screws
        for across, height in sorted(row.positions)
    )
    if marks:
        blocks.append(Paragraph("Mark each screw:"))
        blocks.append(Grid((piece, "from the left side", "above the board's underside"), marks))
    holes = dict.fromkeys(hole_words(row, lengths) for row in plan.screws)
    blocks.append(Items(tuple(("Drill", words + ".") for words in holes)))
    yield Section("Screws", tuple(blocks))


def _strength(plan: Plan) -> Section:
    demand, strength = plan.demand, plan.strength
    rows = tuple(_case_row(case, plan) for case in demand.cases)
    lengths = Lengths(plan.job)
    factor = duration_name(plan.job)
    headings = ("load case", "must hold", "holds", "used", factor, "limited by")
    blocks: list[Block] = [Grid(headings, rows)]
    if strength is not None:
        blocks.append(
            Paragraph(
                f"One screw of the outermost board, {strength.method}, {_before(plan)}: "
                f"{lengths.force_down(strength.lateral)} across (mode {strength.mode}, gap "
                f"{lengths.up(strength.gap)}), {lengths.force_down(strength.withdrawal)} pulled "
                f"out, {lengths.force_down(strength.pull_through)} head pulled through."
            )
        )
    if not demand.checked:
        in_full = " in full" if len(demand.cases) > 1 else ""
        blocks.append(
            Paragraph(f"What tips the unit is NOT checked{in_full}. Missing: {demand.not_checked}.")
        )
    elif demand.governs is not None and plan.strength is not None:
        blocks.append(Paragraph(f"The {demand.governs} case governs."))
    moments = tuple(moment_rows(plan))
    if moments:
        blocks.append(Grid(("load case", "about the front legs", "moment"), moments))
    blocks.append(Items(tuple(("-", note) for note in case_notes(plan))))
    return Section("Strength", tuple(blocks))


def _before(plan: Plan) -> str:
    if plan.job.loads.method is Method.EC5:
        return "characteristic, before k_mod and gamma_M"
    if plan.screws[-1].kind is ScrewKind.PUBLISHED:
        return "not raised for short loads"
    return "before load duration"


def _case_row(case: LoadCase, plan: Plan) -> tuple[str, ...]:
    lengths = Lengths(plan.job)
    must = lengths.force_up(case.force)
    if case.capacity is None or case.utilisation is None:
        return case.name, must, "not worked out", "", f"{case.C_D:g}", _holder(plan)
    return (
        case.name,
        must,
        lengths.force_down(case.capacity),
        used(case.utilisation),
        f"{case.C_D:g}",
        case.limited_by or "",
    )


def _holder(plan: Plan) -> str:
    match plan.support:
        case StackSupport():
            return "no screws"
        case None:
            return "no restraint"
        case _:
            return "the soffit's framing"


def _checks(plan: Plan) -> Iterator[Section]:
    if plan.checks:
        rows = tuple(
            (check.name, check.required, check.found, _met(check.verdict)) for check in plan.checks
        )
        grid = Grid(("what", "asked", "there", "verdict"), rows)
        yield Section("The rest of the job", (grid,))


def _met(verdict: Verdict) -> str:
    # some only warn: "fails" would seem to speak of the plan
    return "not met" if verdict is Verdict.FAILS else verdict.value


def _materials(plan: Plan, lengths: Lengths) -> Iterator[Section]:
    needs = (*plan.materials.boards, *plan.materials.screws)
    if needs:
        rows = tuple(
            (
                str(need.count),
                need_words(need) + _width(need, plan, lengths),
                _cut_length(need, lengths),
            )
            for need in needs
        )
        yield Section("Materials", (Grid(("count", "item", "length"), rows),))


def _width(need: Need, plan: Plan, lengths: Lengths) -> str:
    match plan.support:
        case PackerSupport(packers=packers) if need.item is Item.PACKER:
            return f", {lengths.near(packers.depth)} wide"
        case _:
            return ""


def _cut_length(need: Need, lengths: Lengths) -> str:
    if need.length is None:
        return ""
    # a piece is cut no longer than it fits, as under Cut; a screw's length is in its name
    return "" if is_screw(need) else lengths.down(need.length)


def _other_ways(plan: Plan, lengths: Lengths) -> Iterator[Section]:
    items = [
        (f"{one.kind.value}:", one.why_not.rstrip(".") + ".") for one in plan.restraint.alternatives
    ]
    if isinstance(plan.support, StackSupport):
        items.extend(
            (
                f"{option.name}:",
                f"{counted(option.boards, 'board')}, overlap {lengths.down(option.overlap)}; "
                f"{option.change}.",
            )
            for option in plan.support.stack.options
        )
    if items:
        yield Section("Other ways", (Items(tuple(items)),))


def _findings(plan: Plan) -> Iterator[Section]:
    if plan.findings:
        items = tuple(
            (SEVERITIES[one.severity], f"{one.code}: {one.text} {one.remedy}".rstrip())
            for one in plan.findings
        )
        yield Section("Findings", (Items(items),))


def _work(plan: Plan) -> Iterator[Section]:
    part = ""
    items: list[tuple[str, str]] = []
    for step in plan.steps:
        if step.part != part and items:
            yield Section(f"Work shown. {part}", (Items(tuple(items)),))
            items = []
        part = step.part
        inputs = ", ".join(f"{name} {_number(value)}" for name, value in step.inputs.items())
        unit = f" {step.unit}" if step.unit else ""
        items.append(
            (
                f"{_number(step.result)}{unit}",
                f"{step.meaning}. {step.equation} with {inputs}. Source: {step.source}",
            )
        )
    if items:
        yield Section(f"Work shown. {part}", (Items(tuple(items)),))


def _number(value: float | str) -> str:
    return value if isinstance(value, str) else format(value, ".5g")
