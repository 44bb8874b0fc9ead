"""What a crew needs of a plan on one screen: verdict, what to do, what to buy, what matters."""

from __future__ import annotations

from collections.abc import Iterator

from bracecalc.records.plan import Need, Plan, RestraintKind, Severity, Verdict
from bracecalc.render.need_words import cut_length, need_words
from bracecalc.render.open_words import open_items, verdict_words
from bracecalc.render.sections import Block, Items, Paragraph, Section, SectionCode
from bracecalc.render.words import blocking, set_out
from bracecalc.text.findings import Lengths

MOST_FAILING, MOST_WARNINGS = 3, 2
OPEN_ELSEWHERE = {"concealed-services", "demand-not-checked", "framing-not-checked"}


def plan_summary(plan: Plan) -> tuple[Section, ...]:
    """Return the sections of the first screen, in working order."""
    lengths = Lengths(plan.job)
    work = [*_steps(plan), *_materials(plan, lengths)] if _to_build(plan) else []
    items = [*work, *_findings(plan, lengths)]
    items.append((lengths.say("screen.more"), lengths.say("screen.end")))
    widest = max(len(heading) for heading, _ in items)
    aligned = tuple((heading.ljust(widest), text) for heading, text in items)
    return _verdict(plan, lengths), Section(SectionCode.FIRST_SCREEN, "", (Items(aligned),))


def _to_build(plan: Plan) -> bool:
    """Return whether a crew may work by the plan: as it stands, or once blocking is built in."""
    return plan.verdict is not Verdict.FAILS or blocking(plan) is not None


def _steps(plan: Plan) -> Iterator[tuple[str, str]]:
    """Yield each instruction, the first of a task under the task's name."""
    before = None
    for one in set_out(plan):
        yield ("" if one.task is before else one.step), one.text
        before = one.task


def _verdict(plan: Plan, lengths: Lengths) -> Section:
    blocks: list[Block] = [Paragraph(verdict_words(plan))]
    failing = [one for one in plan.findings if one.severity is Severity.FAILS]
    for one in failing[:MOST_FAILING]:
        blocks.append(Paragraph(" ".join(part for part in (one.text, one.remedy) if part)))
    if len(failing) > MOST_FAILING:
        blocks.append(Paragraph(lengths.say("screen.more-failing", count=len(failing))))
    if plan.open:
        told = "; ".join(text for _, text in open_items(plan))
        blocks.append(Paragraph(lengths.say("screen.open", points=told)))
    if plan.restraint.kind is not RestraintKind.NONE:
        blocks.append(Paragraph(lengths.say("screen.restraint", why=plan.restraint.why)))
    if plan.scheme is not None and plan.scheme.designed:
        blocks.append(Paragraph(f"Boards: {plan.scheme.why}."))
    return Section(SectionCode.VERDICT, plan.job.title, tuple(blocks))


def _materials(plan: Plan, lengths: Lengths) -> Iterator[tuple[str, str]]:
    needs = (*plan.materials.boards, *plan.materials.screws, *plan.materials.washers)
    if needs:
        told = "; ".join(_material(need, lengths) for need in needs)
        yield lengths.say("screen.materials"), f"{told}."


def _material(need: Need, lengths: Lengths) -> str:
    parts = f"{need.count} x {need_words(need, lengths)}", cut_length(need, lengths)
    return ", ".join(part for part in parts if part)


def _findings(plan: Plan, lengths: Lengths) -> Iterator[tuple[str, str]]:
    warned = [
        one
        for one in plan.findings
        if one.severity is Severity.WARNS and one.code not in OPEN_ELSEWHERE
    ]
    for one in warned[:MOST_WARNINGS]:
        yield lengths.say("screen.finding"), f"{one.text} {one.remedy}".strip()
