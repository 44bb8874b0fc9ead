"""The restraint that stands already, and what was found to be wrong with it."""

from __future__ import annotations

from collections.abc import Iterator

from bracecalc.planning.at_height import height_findings, out_of_band
from bracecalc.planning.options import Choice, Option, usable_soffit
from bracecalc.planning.reach import height_margin, legs_at
from bracecalc.records.job import Built, Job
from bracecalc.records.plan import Finding, Packers, ReachBand, Restraint, RestraintKind
from bracecalc.records.reference import Tables
from bracecalc.stack.boards import lumber_of
from bracecalc.stack.studs import wall_findings
from bracecalc.text.findings import Lengths, fails

PAPER = 1.0 / 32.0  # in: a gap up to which paper still drags at both ends


def as_built(job: Job, built: Built, tables: Tables, band: ReachBand) -> Choice:
    """Return the restraint that stands already, and what keeps the top from meeting it."""
    kind, lengths = RestraintKind.SOFFIT, Lengths(job)
    if built.boards:
        kind = RestraintKind.STACK
    elif built.packers:
        kind = RestraintKind.PACKERS
    room = height_margin(job, band, built.underside)
    restraint = Restraint(
        kind=kind, target_height=built.underside, margin=room, why="it stands already",
        alternatives=(),
    )  # fmt: skip
    packers = None
    if built.packers:
        packers = Packers(
            sizes=tuple(f"{lengths.near(piece)} piece" for piece in built.packers),
            pieces=built.packers,
            length=job.niche.narrowest - 2.0 * job.boards.end_gap,
            depth=job.rules.overlap,
            from_wall=max(0.0, job.least_rear_gap),
        )
    findings = [*out_of_band(built.underside, band, lengths)]
    if not findings:
        option = Option(kind, built.underside, room, packers)
        findings.extend(height_findings(job, band, option, lengths))
    if kind is RestraintKind.STACK:
        findings.extend(_through_soffit(job, built, tables))
        if built.unlocated:
            said = lengths.say("standing.not-located")
            remedy = lengths.say("standing.not-located-remedy")
            findings.append(fails("screws-not-located", said, remedy))
        findings.extend(wall_findings(job, tables))
    elif job.niche.soffit:
        against = usable_soffit(job, tables)
        if isinstance(against, str):
            said = lengths.say("standing.soffit-not-usable", why=against)
            remedy = lengths.say("standing.soffit-not-usable-remedy")
            findings.append(fails("soffit-not-usable", said, remedy))
    findings.extend(_in_the_way(job, built))
    return Choice(restraint, packers, tuple(findings))


def _in_the_way(job: Job, built: Built) -> Iterator[Finding]:
    """Yield what was found to keep the top from meeting the restraint."""
    lengths = Lengths(job)
    legs = legs_at(job, built.underside)
    for corner, now in built.stuck:
        wanted = legs[corner].extension
        if abs(wanted - now) > PAPER + 1e-9:
            said = lengths.say(
                "standing.leg-seized",
                corner=corner.replace("_", " "),
                now=lengths.near(now),
                wanted=lengths.near(wanted),
            )
            yield fails("leg-seized", said, lengths.say("standing.leg-seized-remedy"))
    if built.trim:
        said = lengths.say("standing.trim")
        yield fails("trim-in-the-way", said, lengths.say("standing.trim-remedy"))


def _through_soffit(job: Job, built: Built, tables: Tables) -> tuple[Finding, ...]:
    """Return whether boards that stand reach past the soffit by their own readings."""
    if not job.niche.soffit:
        return ()
    lengths = Lengths(job)
    top = built.underside + built.rises + lumber_of(job, tables).width
    over = top - job.niche.lowest_soffit
    if over <= 1e-9:
        return ()
    return (
        fails(
            "boards-through-soffit",
            lengths.say(
                "standing.through-soffit",
                top=lengths.up(top),
                over=lengths.up(over),
                soffit=lengths.down(job.niche.lowest_soffit),
            ),
            lengths.say("standing.through-soffit-remedy", over=lengths.up(over)),
        ),
    )
