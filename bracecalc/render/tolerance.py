"""How sure a plan is, in words: what each measurement may be off, and the sampled shares."""

from __future__ import annotations

from collections.abc import Iterator

from bracecalc.records.findings import Verdict
from bracecalc.records.tolerance import Drift, ToleranceReport
from bracecalc.render.check import SHORT
from bracecalc.render.sections import Block, Grid, Items, Paragraph, Section, SectionCode
from bracecalc.text.findings import Lengths


def tolerance_text(report: ToleranceReport, *, form: str = "table") -> str:
    """Return how sure a plan is, as text for the terminal or as markdown."""
    section = tolerance_section(report)
    if form == "markdown":
        from bracecalc.render.markdown import section_markdown

        return section_markdown(section, 2)
    from bracecalc.render.text import section_text

    return section_text(section)


def tolerance_section(report: ToleranceReport) -> Section:
    """Return how far each measurement may be off, all together, and the sampled shares."""
    lengths = Lengths(report.job)
    rows = tuple(_drift_row(drift, report, lengths) for drift in report.drifts)
    headings = ("measurement", "read", "lower by", "then", "higher by", "then")
    blocks: list[Block] = [
        Paragraph(
            f"As planned: {report.verdict.value}. One measurement at a time may be off by so much "
            "before that changes, with the restraint and the screws as planned:"
        ),
        Grid(headings, rows),
    ]
    if report.together:
        first = report.together[0]
        blocks.append(
            Paragraph(
                f"All measurements off at once, each in its worst sense: by up to "
                f"{lengths.down(first.drift)} before it {_becomes(first.becomes)} "
                f"({first.limit})."
            )
        )
        others = [one for one in report.together if one.limit != first.limit]
        if others:
            items = tuple((f"{one.limit}:", lengths.down(one.drift)) for one in others)
            blocks.extend((Paragraph("The same for other limits:"), Items(items)))
    blocks.extend(Paragraph(text) for text in _share_words(report))
    return Section(SectionCode.TOLERANCE, lengths.say("tolerance.title"), tuple(blocks))


def _drift_row(drift: Drift, report: ToleranceReport, lengths: Lengths) -> tuple[str, ...]:
    def side(value: float | None, becomes: Verdict | None) -> tuple[str, str]:
        if value is None or becomes is None:
            return f"> {lengths.near(report.searched)}", ""
        return lengths.down(value), SHORT[becomes]

    return (
        drift.name,
        lengths.near(drift.value),
        *side(drift.below, drift.below_becomes),
        *side(drift.above, drift.above_becomes),
    )


def _becomes(verdict: Verdict) -> str:
    if verdict is Verdict.CLOSE:
        return "only holds if measured closely"
    return "fails" if verdict is Verdict.FAILS else "holds"


def _share_words(report: ToleranceReport) -> Iterator[str]:
    shares = report.shares
    if shares is None:
        return
    overlap = "" if shares.overlap is None else f"; overlap kept {_share(shares.overlap)}"
    yield (
        f"Of {shares.draws:,} sampled outcomes (every reading with a normal error, half of its "
        f"uncertainty as standard deviation; seed {shares.seed}): legs reach "
        f"{_share(shares.legs_reach)}; room to roll in {_share(shares.rolls_in)}{overlap}; "
        f"all of it {_share(shares.all)}."
    )


def _share(share: float) -> str:
    """Return a share in percent, rounded down, so that less than all never reads as all."""
    return f"{int(share * 1000.0 + 1e-9) / 10.0:.1f} %"
