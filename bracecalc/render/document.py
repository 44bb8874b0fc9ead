"""A plan as headings, paragraphs, lists and tables: what terminal and markdown both write."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

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
    Step,
    Verdict,
)
from bracecalc.records.reference import ScrewKind
from bracecalc.render.load_words import case_notes, duration_name, moment_rows
from bracecalc.render.need_words import cut_length, need_words
from bracecalc.render.open_words import open_items, verdict_words
from bracecalc.render.sections import Block, Grid, Items, Paragraph, Section, SectionCode
from bracecalc.render.words import (
    Task,
    cautions,
    corner_words,
    floor_words,
    hole_words,
    in_masonry,
    screw_words,
    set_out,
    wall_words,
)
from bracecalc.text.findings import Lengths, used

STEPS = {  # the section of a task of the work
    Task.MARK: SectionCode.MARK,
    Task.CUT: SectionCode.CUT,
    Task.FASTEN: SectionCode.FASTEN,
    Task.SET: SectionCode.SET,
}


def plan_document(plan: Plan) -> tuple[Section, ...]:
    """Return the sections of a plan in working order: build first, then why, then cautions."""
    lengths = Lengths(plan.job)
    sections = [_verdict(plan), *_build(plan), _heights(plan, lengths)]
    sections.extend(_legs(plan, lengths))
    sections.extend(_screws(plan, lengths))
    sections.append(_strength(plan))
    sections.extend(_checks(plan, lengths))
    sections.extend(_materials(plan, lengths))
    sections.extend(_other_ways(plan, lengths))
    sections.extend(_findings(plan, lengths))
    sections.extend(_work(plan, lengths))
    sections.append(
        Section(
            SectionCode.CAUTIONS,
            lengths.say("cautions.title"),
            (Items(tuple(("-", one) for one in cautions(plan))),),
        )
    )
    return tuple(sections)


def _verdict(plan: Plan) -> Section:
    blocks: list[Block] = [Paragraph(verdict_words(plan))]
    failing = [one for one in plan.findings if one.severity is Severity.FAILS]
    blocks.extend(Paragraph(f"{one.code}: {one.text}") for one in failing)
    if plan.open:
        blocks.append(Paragraph(Lengths(plan.job).say("open.title")))
        blocks.append(Items(tuple((f"{sort}:", f"{text}.") for sort, text in open_items(plan))))
    none = "none; " if plan.restraint.kind is RestraintKind.NONE else ""
    blocks.append(Paragraph(f"Restraint: {none}{plan.restraint.why}."))
    if plan.scheme is not None and plan.scheme.designed:
        blocks.append(Paragraph(f"Boards: {plan.scheme.why}."))
    if plan.sensitivity:
        blocks.append(Paragraph(plan.sensitivity))
    return Section(SectionCode.VERDICT, plan.job.title, tuple(blocks))


def _build(plan: Plan) -> Iterator[Section]:
    for task, told in groupby(set_out(plan), key=lambda one: one.task):
        instructions = tuple(told)
        numbered = tuple((f"{n}.", one.text) for n, one in enumerate(instructions, start=1))
        yield Section(STEPS[task], instructions[0].step, (Items(numbered),))


def _heights(plan: Plan, lengths: Lengths) -> Section:
    band, target = plan.reach_band, plan.restraint.target_height
    rows = [
        (
            lengths.say("heights.highest"),
            lengths.down(band.high),
            corner_words(band.high_set_by),
        ),
        (lengths.say("heights.lowest"), lengths.up(band.low), corner_words(band.low_set_by)),
    ]
    headings = lengths.row("heights.columns")
    if target is None:
        blocks: list[Block] = [Grid(headings, tuple(rows))]
    else:
        low, high = limit_margins(plan.job, band, target)
        aim = (lengths.say("heights.target"), lengths.near(target), "", "", "")
        blocks = [
            Grid(
                (*headings, *lengths.row("to-spare.columns")),
                ((*rows[0], *_to_spare(high, lengths)), aim, (*rows[1], *_to_spare(low, lengths))),
            )
        ]
    margin = plan.restraint.margin
    if margin is not None:
        told = lengths.say(
            "heights.to-spare",
            nominal=lengths.down(margin.nominal),
            worst=lengths.down(margin.worst_case),
            rss=lengths.down(margin.rss),
            verdict=margin.verdict.value,
        )
        blocks.append(Paragraph(told))
    blocks.append(Paragraph(f"{floor_words(plan.job)} {wall_words(plan.job)}"))
    return Section(SectionCode.HEIGHTS, lengths.say("heights.title"), tuple(blocks))


def _to_spare(margin: Margin, lengths: Lengths) -> tuple[str, str]:
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
    turned = all(leg.turns is not None for leg in plan.legs.values())
    headings = lengths.row("legs.columns-turns" if turned else "legs.columns")
    grid = Grid((*headings, *lengths.row("to-spare.columns")), rows)
    yield Section(SectionCode.LEGS, lengths.say("legs.title"), (grid,))


def _screws(plan: Plan, lengths: Lengths) -> Iterator[Section]:
    if not plan.screws:
        return
    on_packers = isinstance(plan.support, PackerSupport)
    kind = "spacers" if on_packers else "anchors" if in_masonry(plan.job) else "boards"
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
    blocks: list[Block] = [Grid(lengths.row(f"screws.columns-{kind}"), rows)]
    marks = tuple(
        (str(row.board), lengths.near(across), lengths.near(height))
        for row in plan.screws
        for across, height in sorted(row.positions)
    )
    if marks:
        blocks.append(Paragraph(lengths.say("screws.mark")))
        blocks.append(Grid(lengths.row("screws.places"), marks))
    holes = dict.fromkeys(hole_words(row, lengths) for row in plan.screws)
    drill = lengths.say("screws.drill")
    blocks.append(Items(tuple((drill, words + ".") for words in holes)))
    yield Section(SectionCode.SCREWS, lengths.say("screws.title"), tuple(blocks))


def _strength(plan: Plan) -> Section:
    demand, strength = plan.demand, plan.strength
    rows = tuple(_case_row(case, plan) for case in demand.cases)
    lengths = Lengths(plan.job)
    headings = lengths.row("strength.columns", factor=duration_name(plan.job))
    blocks: list[Block] = [Grid(headings, rows)]
    if strength is not None:
        told = lengths.say(
            "strength.screw",
            method=strength.method,
            state=_before(plan, lengths),
            lateral=lengths.force_down(strength.lateral),
            mode=strength.mode,
            gap=lengths.up(strength.gap),
            withdrawal=lengths.force_down(strength.withdrawal),
            pull_through=lengths.force_down(strength.pull_through),
        )
        blocks.append(Paragraph(told))
    if not demand.checked:
        key = "strength.not-checked-full" if len(demand.cases) > 1 else "strength.not-checked"
        blocks.append(Paragraph(lengths.say(key, missing=demand.not_checked)))
    elif demand.governs is not None and plan.strength is not None:
        blocks.append(Paragraph(lengths.say("strength.governs", case=demand.governs)))
    moments = tuple(moment_rows(plan))
    if moments:
        blocks.append(Grid(lengths.row("strength.moments"), moments))
    blocks.append(Items(tuple(("-", note) for note in case_notes(plan))))
    return Section(SectionCode.STRENGTH, lengths.say("strength.title"), tuple(blocks))


def _before(plan: Plan, lengths: Lengths) -> str:
    if plan.job.loads.method is Method.EC5:
        return lengths.say("strength.characteristic")
    if plan.screws[-1].kind is ScrewKind.PUBLISHED:
        return lengths.say("strength.published")
    return lengths.say("strength.reference")


def _case_row(case: LoadCase, plan: Plan) -> tuple[str, ...]:
    lengths = Lengths(plan.job)
    must = lengths.force_up(case.force)
    if case.capacity is None or case.utilisation is None:
        return (
            case.name,
            must,
            lengths.say("strength.not-worked-out"),
            "",
            f"{case.C_D:g}",
            _holder(plan, lengths),
        )
    return (
        case.name,
        must,
        lengths.force_down(case.capacity),
        used(case.utilisation),
        f"{case.C_D:g}",
        case.limited_by or "",
    )


def _holder(plan: Plan, lengths: Lengths) -> str:
    match plan.support:
        case StackSupport():
            return lengths.say("strength.no-screws")
        case None:
            return lengths.say("strength.no-restraint")
        case _:
            return lengths.say("strength.framing")


def _checks(plan: Plan, lengths: Lengths) -> Iterator[Section]:
    if plan.checks:
        rows = tuple(
            (check.name, check.required, check.found, _met(check.verdict, lengths))
            for check in plan.checks
        )
        grid = Grid(lengths.row("checks.columns"), rows)
        yield Section(SectionCode.CHECKS, lengths.say("checks.title"), (grid,))


def _met(verdict: Verdict, lengths: Lengths) -> str:
    # some only warn: "fails" would seem to speak of the plan
    return lengths.say("checks.not-met") if verdict is Verdict.FAILS else verdict.value


def _materials(plan: Plan, lengths: Lengths) -> Iterator[Section]:
    needs = (*plan.materials.boards, *plan.materials.screws, *plan.materials.washers)
    if needs:
        rows = tuple(
            (
                str(need.count),
                need_words(need, lengths) + _width(need, plan, lengths),
                cut_length(need, lengths),
            )
            for need in needs
        )
        grid = Grid(lengths.row("materials.columns"), rows)
        yield Section(SectionCode.MATERIALS, lengths.say("screen.materials"), (grid,))


def _width(need: Need, plan: Plan, lengths: Lengths) -> str:
    match plan.support:
        case PackerSupport(packers=packers) if need.item is Item.PACKER:
            return f", {lengths.near(packers.depth)} wide"
        case _:
            return ""


def _other_ways(plan: Plan, lengths: Lengths) -> Iterator[Section]:
    items = tuple(
        (f"{one.kind.value}:", one.why_not.rstrip(".") + ".") for one in plan.restraint.alternatives
    )
    if items:
        yield Section(SectionCode.ALTERNATIVES, lengths.say("alternatives.title"), (Items(items),))


def _findings(plan: Plan, lengths: Lengths) -> Iterator[Section]:
    if plan.findings:
        items = tuple(
            (
                lengths.say(f"severity.{one.severity}"),
                f"{one.code}: {one.text} {one.remedy}".rstrip(),
            )
            for one in plan.findings
        )
        yield Section(SectionCode.FINDINGS, lengths.say("findings.title"), (Items(items),))


def _work(plan: Plan, lengths: Lengths) -> Iterator[Section]:
    for part, steps in groupby(plan.steps, key=lambda step: step.part):
        items = Items(tuple(map(_step, steps)))
        heading = lengths.say("work.title", part=part)
        yield Section(SectionCode.WORK, heading, (items,), of=part)


def _step(step: Step) -> tuple[str, str]:
    inputs = ", ".join(f"{name} {_number(value)}" for name, value in step.inputs.items())
    unit = f" {step.unit}" if step.unit else ""
    return (
        f"{_number(step.result)}{unit}",
        f"{step.meaning}. {step.equation} with {inputs}. Source: {step.source}",
    )


def _number(value: float | str) -> str:
    return value if isinstance(value, str) else format(value, ".5g")
