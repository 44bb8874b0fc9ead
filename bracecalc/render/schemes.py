"""The ways to build the stack side by side: what each needs, what it holds, why it doesn't."""

from __future__ import annotations

from bracecalc.records.plan import Plan
from bracecalc.records.scheme import Scheme
from bracecalc.render.sections import Grid, Paragraph, Section, SectionCode
from bracecalc.text.findings import Lengths, used
from bracecalc.text.schemes import scheme_words, shortfall_words


def schemes_section(plan: Plan) -> Section:
    """Return the schemes of a plan, the chosen one first."""
    lengths, design = Lengths(plan.job), plan.scheme
    title = lengths.say("schemes.title")
    if design is None:
        return Section(SectionCode.SCHEMES, title, (Paragraph(lengths.say("schemes.none")),))
    would = () if design.would_hold is None else (design.would_hold,)
    told = dict.fromkeys((design.chosen, *would, *design.alternatives))
    rows = tuple(
        (lengths.say("schemes.chosen") if scheme == design.chosen else "", *_row(lengths, scheme))
        for scheme in told
    )
    blocks = (Paragraph(design.why), Grid(lengths.row("schemes.columns"), rows))
    return Section(SectionCode.SCHEMES, title, blocks if design.why else blocks[1:])


def _row(lengths: Lengths, scheme: Scheme) -> tuple[str, ...]:
    if scheme.capacity is None or scheme.use is None:
        return scheme_words(lengths, scheme), "", "", shortfall_words(lengths, scheme)
    why = "" if scheme.shortfall is None else shortfall_words(lengths, scheme)
    return scheme_words(lengths, scheme), lengths.force_down(scheme.capacity), used(scheme.use), why
