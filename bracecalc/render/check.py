"""The check on site: first the verdict and what to do, then point by point."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from bracecalc.check.points import piece_word
from bracecalc.records.actions import Action, MoveBoards, ShimGap, ShimUnder
from bracecalc.records.job import Units
from bracecalc.records.plan import Margin, RestraintKind, ScrewRow, Severity, Verdict
from bracecalc.records.scheme import Backing
from bracecalc.records.site import LegTurn, LimitKind, Point, SiteCheck
from bracecalc.render.open_words import open_words
from bracecalc.render.sections import Block, Grid, Items, Paragraph, Section, SectionCode
from bracecalc.render.standing import remedy_text, standing_section
from bracecalc.render.words import cautions, corner_words
from bracecalc.text.actions import fine
from bracecalc.text.findings import Lengths
from bracecalc.text.lengths import parse_length

# a limit in print, where its stable word is not what a site says
LIMITS = {LimitKind.LEG_CARRYING: "leg taking weight"}

VERDICTS = {
    Verdict.HOLDS: "It holds as found.",
    Verdict.CLOSE: "It holds as found if measured closely: measure the points marked so again.",
}
SHORT = {Verdict.HOLDS: "holds", Verdict.CLOSE: "closely", Verdict.FAILS: "FAILS"}
GAP_BELOW = {RestraintKind.SOFFIT: "soffit", RestraintKind.PACKERS: "packers"}
OTHERS_SHOWN = 3  # further remedies of one miss


def check_text(check: SiteCheck, *, form: str = "table") -> str:
    """Return a check as text for the terminal, or as markdown.

    Args:
        check: as found against the plan.
        form: "table" or "markdown".
    """
    first, *rest = check_document(check)
    if form == "markdown":
        from bracecalc.render.markdown import section_markdown

        parts = [section_markdown(first, 1), *(section_markdown(section, 2) for section in rest)]
        return "\n".join(parts)
    from bracecalc.render.text import section_text, title_text

    return "\n".join([title_text(first, check.verdict), *map(section_text, rest)])


def check_document(check: SiteCheck) -> tuple[Section, ...]:
    """Return the sections of a check in the order in which the crew needs them."""
    lengths = Lengths(check.job)
    blocks: list[Block] = [Paragraph(verdict_words(check))]
    still_open = open_words(check.found)
    if still_open and check.verdict is not Verdict.FAILS:
        blocks.append(Paragraph(f"Not settled yet: {still_open}."))
    sections = [Section(SectionCode.VERDICT, check.title, tuple(blocks))]
    sections.extend(_todo(check, lengths))
    sections.extend(standing_section(check, lengths))
    sections.extend(_misses(check, lengths))
    sections.extend(_legs(check, lengths))
    sections.extend(_contact(check, lengths))
    sections.extend(_points(check, lengths))
    sections.extend(_studs(check, lengths))
    sections.extend(_warnings(check, lengths))
    sections.append(
        Section(
            SectionCode.CAUTIONS,
            lengths.say("cautions.title"),
            (Items(tuple(("-", one) for one in cautions(check.found))),),
        )
    )
    return tuple(sections)


def verdict_words(check: SiteCheck) -> str:
    """Return the verdict in a sentence or two, what helps with it."""
    if check.verdict is not Verdict.FAILS:
        measured = any(point.measured for point in check.points)
        if not measured and not any(leg.now is not None for leg in check.legs.values()):
            return f"Nothing was measured yet. As planned it {check.verdict.value}."
        return VERDICTS[check.verdict]
    own = [miss.finding.code for miss in check.misses if miss.in_plan]
    before = f" The plan fails by itself too ({', '.join(own)})." if own else ""
    if check.after is Verdict.FAILS:
        done = any(one.actions for one in check.todo)
        some = " What is listed fixes part of it." if done else ""
        return (
            f"It FAILS as found, and none of the fixes tried here solves everything.{some}{before}"
        )
    how = " if measured closely" if check.after is Verdict.CLOSE else ""
    return f"It FAILS as found. Do what is listed, and it holds{how}.{before}"


def _todo(check: SiteCheck, lengths: Lengths) -> Iterator[Section]:
    texts = [remedy_text(remedy, lengths) for remedy in check.todo]
    # a remedy names the screws that it needs
    named = {_screw(one.screws.row) for one in check.todo if one.screws is not None}
    texts.extend(
        text
        for one, text in zip(check.changed_screws, check.changes, strict=True)
        if _screw(one.row) not in named
    )
    if check.studs is not None:
        texts.extend(f"Measure again: {doubt}" for doubt in check.studs.doubtful)
    if check.legs and check.verdict is not Verdict.FAILS:
        texts.append("Turn the legs as in the table below; stop when paper just drags at both ends")
    # the gap can be shimmed once the other end bears
    shimmed = any(_fills_the_gap(action) for one in check.todo for action in one.actions)
    shims_told = () if shimmed else tuple(_gap_words(check))
    texts.extend(shims_told)
    if not shimmed and not shims_told:  # a soffit's own gap, by its readings
        shims = (one for one in check.found.findings if one.code == "shim-the-gap")
        texts.extend(one.remedy.removesuffix(".") for one in shims)
    if texts:
        numbered = tuple((f"{number}.", f"{text}.") for number, text in enumerate(texts, start=1))
        yield Section(SectionCode.TODO, lengths.say("check.todo"), (Items(numbered),))


def _screw(row: ScrewRow) -> tuple[str, float]:
    return row.size, row.length


def _fills_the_gap(action: Action) -> bool:
    """Return whether an action leaves no gap at the end that the top doesn't touch."""
    match action:
        case ShimGap() | MoveBoards(level=True):
            return True
        case ShimUnder(at_gap=at_gap):
            return at_gap > 0.0
        case _:
            return False


def _gap_words(check: SiteCheck) -> Iterator[str]:
    contact = check.contact
    if contact is None or contact.first_end == "both":
        return
    other = "right" if contact.first_end == "left" else "left"
    what = GAP_BELOW.get(check.found.restraint.kind, "boards")
    with_what = f" ({' + '.join(contact.shims)})" if contact.shims else ""
    yield (
        f"Shim the {fine(check.job, contact.gap)} gap between the top and the {what} at the "
        f"{other} end{with_what}; the top touches at the {contact.first_end} end first"
    )


def _contact(check: SiteCheck, lengths: Lengths) -> Iterator[Section]:
    contact = check.contact
    if contact is None or contact.overlap is None:
        return
    at = f"The top touches at {lengths.near(contact.height)} above the datum"
    if contact.first_end != "both":
        at += (
            f", at the {contact.first_end} end first; the other end keeps {lengths.up(contact.gap)}"
        )
    texts = [f"{at}. Overlap {lengths.down(contact.overlap)}."]
    left, tight = contact.overlap_left, contact.overlap_left_shimmed
    if left is not None and tight is not None:
        risen = (
            f"{lengths.down(max(0.0, left))} with the gap as it is, "
            f"{lengths.down(max(0.0, tight))} with it shimmed"
            if contact.gap > 0.0
            else f"{lengths.down(max(0.0, left))}"
        )
        texts.append(
            f"Overlap left once the rear has risen: {risen}; "
            f"{lengths.up(check.job.rules.overlap_left)} is the minimum."
        )
    yield Section(
        SectionCode.CONTACT,
        lengths.say("check.contact"),
        tuple(Paragraph(text) for text in texts),
    )


def _misses(check: SiteCheck, lengths: Lengths) -> Iterator[Section]:
    for miss in check.misses:
        blocks: list[Block] = [Paragraph(miss.finding.text)]
        if miss.in_plan:
            blocks.append(Paragraph("The plan fails by this whatever was found."))
        if miss.remedies:
            blocks.append(
                Paragraph("Any one of these fixes it, easiest first; each was recalculated:")
            )
            blocks.append(
                Items(tuple(("-", f"{one.text}.") for one in miss.remedies[: OTHERS_SHOWN + 1]))
            )
        elif check.after is not Verdict.FAILS:
            blocks.append(Paragraph("No single change fixes it; all that is listed above does."))
        else:
            blocks.append(Paragraph("No single change that was recalculated fixes it."))
            if miss.finding.remedy:
                blocks.append(Paragraph(f"Not tried here: {miss.finding.remedy}"))
        code = miss.finding.code
        heading = lengths.say("check.problem", code=code)
        yield Section(SectionCode.PROBLEM, heading, tuple(blocks), of=code)


def _legs(check: SiteCheck, lengths: Lengths) -> Iterator[Section]:
    if check.legs:
        blocks = _leg_blocks(check, check.legs, lengths)
        yield Section(SectionCode.LEGS, lengths.say("check.legs"), blocks)
    if check.todo and check.legs_after and check.legs_after != check.legs:
        after = _leg_blocks(check, check.legs_after, lengths)
        yield Section(SectionCode.LEGS_AFTER, lengths.say("check.legs-after"), after)


def _leg_blocks(
    check: SiteCheck, legs: Mapping[str, LegTurn], lengths: Lengths
) -> tuple[Block, ...]:
    rows = tuple(
        (
            corner_words(corner),
            "" if leg.now is None else _bare(lengths.near(leg.now)),
            _bare(lengths.near(leg.extension)),
            _signed(lengths, leg.out),
            "" if leg.turns is None else f"{leg.turns:+.1f}",
            *_margins(lengths, leg.margin),
            SHORT[leg.margin.verdict],
        )
        for corner, leg in legs.items()
    )
    unit = _unit(check)
    headings = (
        f"leg ({unit})",
        "now",
        "out to",
        "turn by",
        "turns",
        "spare",
        "worst",
        "rss",
        "",
    )
    note = Paragraph(
        "Out to: below the rollers, at contact. Turn by: from where the leg is now, or from all "
        "the way in where that is not given; minus = screw it in. Stop when "
        "paper just drags at both ends."
    )
    return Grid(headings, rows), note


def _points(check: SiteCheck, lengths: Lengths) -> Iterator[Section]:
    measured = [point for point in check.points if point.found is not None]
    blocks: list[Block] = []
    if measured:
        rows = tuple(_point_row(point, lengths) for point in measured)
        headings = (
            f"point ({_unit(check)})",
            "plan",
            "found",
            "off",
            "spare",
            "worst",
            "rss",
            "",
        )
        blocks.append(Grid(headings, rows))
        limits = dict.fromkeys(
            LIMITS.get(point.limit, point.limit) for point in measured if point.limit
        )
        if limits:
            blocks.append(
                Paragraph(
                    f"Spare: to the nearer limit ({', '.join(limits)}); worst: every reading "
                    "off against it; rss: their root sum of squares."
                )
            )
    notes = [(point.name, f"{point.note}.") for point in check.points if _told(point)]
    if notes:
        blocks.append(Items(tuple((f"{name}:", note) for name, note in notes)))
    left_out = [point.name for point in check.points if point.found is None and point.limit]
    if left_out:
        blocks.append(
            Paragraph(f"Not measured, taken from the plan: {'; '.join(dict.fromkeys(left_out))}.")
        )
    if blocks:
        yield Section(SectionCode.POINTS, lengths.say("check.points"), tuple(blocks))


def _told(point: Point) -> bool:
    return bool(point.note) and (point.found is not None or point.limit is None)


def _point_row(point: Point, lengths: Lengths) -> tuple[str, ...]:
    found = "" if point.found is None else _bare(lengths.near(point.found))
    return (
        point.name,
        "none" if point.planned is None else _bare(lengths.near(point.planned)),
        found,
        "" if point.difference is None else _off(lengths, point),
        *_margins(lengths, point.margin),
        SHORT[point.verdict],
    )


def _margins(lengths: Lengths, margin: Margin | None) -> tuple[str, str, str]:
    if margin is None:
        return "", "", ""
    values = (margin.nominal, margin.worst_case, margin.rss)
    nominal, worst, rss = (_bare(lengths.down(value)) for value in values)
    return nominal, worst, rss


def _off(lengths: Lengths, point: Point) -> str:
    """Return the difference of what is shown: the columns of a row must add up."""
    if point.planned is None or point.found is None:
        return ""
    planned = parse_length(lengths.near(point.planned), units=Units.INCH)
    found = parse_length(lengths.near(point.found), units=Units.INCH)
    return _signed(lengths, found - planned)


def _signed(lengths: Lengths, value: float) -> str:
    text = _bare(lengths.near(value))
    return text if text.startswith("-") or text == "0" else f"+{text}"


def _bare(text: str) -> str:
    """Return a length without its unit, which the table's first heading gives."""
    return text.rsplit(" ", 1)[0]


def _unit(check: SiteCheck) -> str:
    return "mm" if check.job.units is Units.MM else "in"


def _studs(check: SiteCheck, lengths: Lengths) -> Iterator[Section]:
    report, studs, screws = check.studs, check.mended.studs, check.mended.screws
    if studs is None or (report is None and not check.todo and not check.changes):
        return
    stack = check.mended.stack
    spots = studs.used
    if stack is not None and stack.backing is Backing.BLOCKING:  # between the studs
        spots = tuple(sorted({place for row in screws for place, _ in row.positions}))
    used = ", ".join(lengths.near(spot) for spot in spots)
    blocks: list[Block] = [Paragraph(f"Places to screw to: {used or 'none'}.")]
    if report is not None and report.lost and not check.standing:
        lost = ", ".join(lengths.near(spot) for spot in report.lost)
        blocks.append(
            Paragraph(f"Lost: holes set out for the stud planned at {lost} miss the stud found.")
        )
    rows = tuple(
        (str(row.board), lengths.near(place), lengths.near(other))
        for row in screws
        for place, other in sorted(row.positions)
    )
    if rows and used:
        blocks.append(
            Grid(
                (piece_word(check.mended), "screw from the left side", "above the underside"), rows
            )
        )
    yield Section(SectionCode.SCREW_PLACES, lengths.say("check.screw-places"), tuple(blocks))


def _warnings(check: SiteCheck, lengths: Lengths) -> Iterator[Section]:
    told = [one for one in check.found.findings if one.severity is Severity.WARNS]
    if told:
        items = tuple((f"{one.code}:", f"{one.text} {one.remedy}".rstrip()) for one in told)
        yield Section(SectionCode.WARNINGS, lengths.say("check.warnings"), (Items(items),))
