"""What is to be said of the height at which a restraint stands or is set."""

from __future__ import annotations

from bracecalc.planning.options import Option
from bracecalc.planning.reach import ROLLING_IN
from bracecalc.records.job import Job
from bracecalc.records.plan import Finding, ReachBand, RestraintKind, Verdict
from bracecalc.text.findings import Lengths, fails, warns

NOTHING_HOLDS = (
    "No plate, floor taken out, or soffit or boards elsewhere makes it hold by itself: see what "
    "else fails, and ask the appliance's maker for other legs."
)


def out_of_band(height: float, band: ReachBand, lengths: Lengths) -> tuple[Finding, ...]:
    """Return what fails where a height is past what the legs reach; nothing inside the band."""
    over, under = height - band.high, band.low - height
    if over > 1e-9:
        corner = band.high_set_by.replace("_", " ")
        return (
            fails(
                "leg-travel-exceeded",
                f"The restraint is {lengths.up(over)} above reach: the {corner} leg would have to "
                "come out past its travel.",
                NOTHING_HOLDS,
            ),
        )
    if under > 1e-9:
        if band.low_set_by == ROLLING_IN:
            return (
                fails(
                    "does-not-go-in",
                    f"The restraint is {lengths.up(under)} too low for the "
                    "appliance to roll in under "
                    "it.",
                    NOTHING_HOLDS,
                ),
            )
        return (
            fails(
                "restraint-too-low",
                f"The restraint is {lengths.up(under)} too low: the "
                f"{band.low_set_by.replace('_', ' ')} leg would not be taking weight.",
                NOTHING_HOLDS,
            ),
        )
    return ()


def height_findings(
    job: Job, band: ReachBand, best: Option, lengths: Lengths
) -> tuple[Finding, ...]:
    """Return where a height differs from the spec sheet's, or has too little room to be sure."""
    found = []
    asked = job.unit.restraint_height
    if asked is not None and abs(best.height - asked) > 1e-9:
        found.append(_other_than_asked(job, band, best, asked))
    if best.margin.verdict is Verdict.FAILS:
        found.append(
            fails(
                "reach-uncertain",
                f"At {lengths.near(best.height)} the legs have {lengths.down(best.margin.nominal)} "
                "to spare, less than the readings are uncertain by.",
                "Read the floor and the height again more closely and give their uncertainty "
                "(floor.uncertainty, rules.height_uncertainty), or level the floor.",
            )
        )
    return tuple(found)


def _other_than_asked(job: Job, band: ReachBand, best: Option, asked: float) -> Finding:
    lengths, height = Lengths(job), best.height
    sheet = f"The spec sheet asks for a restraint at {lengths.near(asked)}"
    if job.built is not None or best.kind is not RestraintKind.STACK:
        stands = "boards stand" if best.kind is RestraintKind.STACK else f"{best.kind.value} is"
        if best.kind is RestraintKind.PACKERS:
            stands = "packers' underside is"
        return warns(
            "sheet-height-not-kept",
            f"{sheet}; the {stands} at {lengths.near(height)}.",
            "Ask the appliance's maker whether that height may be used.",
        )
    side = "too near the end of"
    if asked > band.high or asked < band.low:
        side = "above" if asked > band.high else "below"
    return warns(
        "sheet-height-out-of-reach",
        f"{sheet}; that is {side} the reach band here. The boards are set at "
        f"{lengths.near(height)}.",
        "Ask the appliance's maker whether that height may be used, or level the floor.",
    )
