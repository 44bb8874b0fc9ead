"""Where nothing can hold the top: what is in the way, and what would have to change."""

from __future__ import annotations

from bracecalc.planning.at_height import NOTHING_HOLDS
from bracecalc.planning.options import Choice, Impossible, Option, usable_soffit
from bracecalc.planning.reach import level_short, rolling_height
from bracecalc.records.job import Job
from bracecalc.records.plan import Alternative, Finding, ReachBand, Restraint, RestraintKind
from bracecalc.records.reference import Tables
from bracecalc.stack.studs import wall_findings
from bracecalc.text.findings import Lengths, fails


def _nothing(worked_out: tuple[Option | Impossible, ...], why: str) -> Restraint:
    alternatives = tuple(
        Alternative(kind=one.kind, why_not=one.why_not)
        for one in worked_out
        if isinstance(one, Impossible)
    )
    return Restraint(
        kind=RestraintKind.NONE,
        target_height=None,
        margin=None,
        why=why,
        alternatives=alternatives,
    )


def _does_not_go_in(job: Job, lengths: Lengths) -> Finding | None:
    if not job.niche.soffit:
        return None
    short = rolling_height(job) - job.niche.lowest_soffit
    if short <= 1e-9:
        return None
    return fails(
        "does-not-go-in",
        f"The soffit is {lengths.up(short)} too low for the appliance to roll in under it.",
        NOTHING_HOLDS,
    )


def no_band(job: Job, band: ReachBand, lengths: Lengths) -> Choice:
    """Return that nothing holds: on this floor no height is in reach of all legs."""
    missing = band.low - band.high
    short = level_short(job)
    level_would_do = short <= 1e-9
    remedy = NOTHING_HOLDS
    if not level_would_do:
        remedy = (
            f"Not even a level floor would do: the legs are {lengths.up(short)} short of raising "
            "the appliance past the appliance's highest point. Take that part "
            "off while rolling in, or "
            "ask the appliance's maker for longer legs."
        )
    cause = "The floor is so far out of level that no" if level_would_do else "No"
    findings = [
        fails(
            "floor-uses-up-travel",
            f"{cause} height is in reach of all legs: {lengths.up(missing)} of leg travel is "
            "missing.",
            remedy,
        )
    ]
    blocked = _does_not_go_in(job, lengths)
    if blocked is not None:
        findings.insert(0, blocked)
    why_not = "the legs have no reach band on this floor"
    kinds = (RestraintKind.SOFFIT, RestraintKind.PACKERS, RestraintKind.STACK)
    return Choice(
        _nothing(tuple(Impossible(kind, why_not) for kind in kinds), why_not),
        None,
        tuple(findings),
    )


def none_possible(
    job: Job, tables: Tables, band: ReachBand, worked_out: tuple[Option | Impossible, ...]
) -> Choice:
    """Return that nothing holds: no soffit, packers or boards are possible in the band."""
    lengths = Lengths(job)
    findings: list[Finding] = []
    blocked = _does_not_go_in(job, lengths)
    if blocked is not None:
        findings.append(blocked)
    else:
        soffit = usable_soffit(job, tables)
        if isinstance(soffit, float) and soffit > band.high:
            over = soffit - band.high
            findings.append(
                fails(
                    "leg-travel-exceeded",
                    f"To reach the soffit the {band.high_set_by.replace('_', ' ')} leg would have "
                    f"to come out {lengths.up(over)} past its travel.",
                    NOTHING_HOLDS,
                )
            )
        findings.extend(wall_findings(job, tables))
        findings.append(
            fails(
                "no-restraint",
                "Nothing solid to bear against between "
                f"{lengths.up(band.low)} and {lengths.down(band.high)} above the datum.",
                "Have the builder make the soffit solid, or build wood backing into the rear wall, "
                "in that band.",
            )
        )
    why = "nothing solid to bear against in reach of the legs"
    if blocked is not None:
        why = "the appliance does not go in under the soffit"
    return Choice(_nothing(worked_out, why), None, tuple(findings))
