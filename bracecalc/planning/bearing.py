"""What a gap under the restraint costs: how far the top moves forward, what overlap is left."""

from __future__ import annotations

from bracecalc.mechanics.statics import overturning
from bracecalc.mechanics.statics.contact import FrontToBack
from bracecalc.planning.reach import resting_top
from bracecalc.records.job import Job
from bracecalc.records.plan import Finding, Packers, PackerSupport, RestraintKind, TopSupport
from bracecalc.strength.demand import Place
from bracecalc.text.findings import Lengths, fails, notes, warns

NAMES = {
    RestraintKind.SOFFIT: "soffit bears",
    RestraintKind.PACKERS: "packers bear",
    RestraintKind.STACK: "boards bear",
}


def place_of(job: Job, overlap: float, out: FrontToBack, extension: float) -> Place:
    """Return where a restraint that reaches so far over the housing acts on it.

    Args:
        job: one niche.
        overlap: of the restraint over the housing, in.
        out: front to back.
        extension: greatest of the legs', in.
    """
    behind = overturning.contact_behind_front(
        unit_depth=job.unit.depth, overlap=overlap, middle=out is FrontToBack.MIDDLE
    )
    return Place(out, behind, job.unit.front_legs_behind_front, extension)


def soffit_overlap(job: Job, packers: Packers | None) -> float:
    """Return the overlap of a soffit, or of packers under it, at the greatest depth reading, in.

    The soffit reaches out to its own depth, else over the whole niche.
    """
    soffit = job.niche.soffit_depth
    reach = job.finished_depth if soffit is None else soffit
    if packers is not None:
        reach = min(reach, packers.from_wall + packers.depth)
    return reach - job.rear_gap


def gap_over_rollers(job: Job, target: float | None) -> float:
    """Return the gap over a top whose rear does not lift, to be shimmed from above, in."""
    if job.unit.rear_lifts or target is None:
        return 0.0
    return max(0.0, target - resting_top(job))


def rear_findings(job: Job, target: float | None) -> tuple[Finding, ...]:
    """Return what follows where the rear stands on rollers that don't lift.

    Args:
        job: one niche.
        target: height of the restraint above the datum, in; None where there is none.
    """
    if job.unit.rear_lifts or target is None:
        return ()
    lengths = Lengths(job)
    gap = lengths.near(gap_over_rollers(job, target))
    return (
        warns(
            "rear-does-not-lift",
            lengths.say("rear.does-not-lift", gap=gap),
            lengths.say("rear.does-not-lift-remedy", gap=gap),
        ),
    )


def contact_findings(job: Job, target: float | None) -> tuple[Finding, ...]:
    """Return what keeps the top from meeting a restraint, or how it comes to meet it."""
    return (*highest_point_findings(job, target), *rear_findings(job, target))


def open_gap(job: Job, kind: RestraintKind) -> float:
    """Return the gap that the restraint keeps at its higher end until it is shimmed, in.

    A stack is set level on its line; a soffit is as its readings say.
    """
    if kind is RestraintKind.STACK or not job.niche.soffit:
        return 0.0
    return max(job.niche.soffit) - job.niche.lowest_soffit


def sure_overlap(job: Job, support: TopSupport) -> float | None:
    """Return the overlap with the uncertainty of the depth off; None where it isn't known, in."""
    if isinstance(support, PackerSupport) and not support.overlap_known:
        return None
    return support.overlap - job.rules.tape_uncertainty


def gap_findings(job: Job, support: TopSupport, place: Place) -> tuple[Finding, ...]:
    """Return what a gap costs, and whether too little overlap is left.

    Args:
        job: one niche.
        support: what the top bears against.
        place: where the restraint acts.
    """
    kind, overlap = support.kind, sure_overlap(job, support)
    gap, lengths = open_gap(job, kind), Lengths(job)
    height = job.unit.height + place.extension
    found = []
    if gap > 1e-9:
        cost = ""
        if place.arm is not None:
            moved = overturning.forward_movement(rise=gap, height=height, arm=place.arm)
            cost = f" Left open, it lets the top move {lengths.up(moved)} forward."
        found.append(
            warns(
                "shim-the-gap",
                f"The {kind.value} {are(kind)} {lengths.up(gap)} out of level: "
                "the appliance touches "
                f"at the lowest point and leaves a gap at the other end.{cost}",
                f"Shim the gap of up to {lengths.up(gap)} tight before you count on the bracing.",
            )
        )
    if overlap is None or place.arm is None:
        return tuple(found)
    rise = job.rules.rear_rise + gap
    left = overturning.overlap_left(overlap=overlap, rise=rise, height=height, arm=place.arm)
    if left < job.rules.overlap_left - 1e-9:
        found.append(_lost(job, kind, rise, left))
    return tuple(found)


def highest_point_findings(job: Job, target: float | None) -> tuple[Finding, ...]:
    """Return whether the unit's highest point meets the soffit before the housing bears.

    Args:
        job: one niche.
        target: height of the restraint above the datum, in; None where there is none.
    """
    unit, lengths = job.unit, Lengths(job)
    if target is None or unit.height_overall is None or not job.niche.soffit:
        return ()
    meets = target + unit.height_overall - unit.height - job.niche.lowest_soffit
    if meets <= 1e-9:
        return ()
    return (
        warns(
            "highest-point-meets-soffit",
            f"With the appliance at {lengths.near(target)} the appliance's "
            "highest point would stand "
            f"{lengths.up(meets)} into the soffit, if it lies under it: it touches first, and the "
            "top of the appliance does not bear.",
            "See where that point is. Take that part off, or choose a restraint "
            f"{lengths.up(meets)} lower, unless it stands in front of the soffit.",
        ),
    )


def _lost(job: Job, kind: RestraintKind, rise: float, left: float) -> Finding:
    lengths = Lengths(job)
    kept = f"{lengths.down(left)} of overlap is left" if left > 0.0 else "no overlap is left at all"
    more = "Use one more board" if kind is RestraintKind.STACK else "Give more overlap"
    return fails(
        "overlap-lost",
        f"If the rear rises {lengths.near(rise)}, the top moves forward so far that {kept}; "
        f"{lengths.near(job.rules.overlap_left)} is the minimum.",
        f"{more}, or shim so that the rear can't rise so far (rules.rear_rise).",
    )


def bearing_findings(job: Job, support: TopSupport | None) -> tuple[Finding, ...]:
    """Return what is to be said of where the housing's top bears, and may bear by its sheet."""
    if support is None:
        return ()
    lengths, zone = Lengths(job), job.unit.bearing_zone
    far = min(support.overlap, job.unit.depth)
    bears = f"The {NAMES[support.kind]} on the rear {lengths.up(far)} of the top of the appliance"
    if zone is None:
        return (
            notes(
                "bearing-zone-not-given",
                f"{bears}. Where the top may bear is not given.",
                "Look in the spec sheet, or ask its maker, and give it in unit.bearing_zone.",
            ),
        )
    if zone[0] <= 1e-9 and far <= zone[1] + 1e-9:
        return ()
    return (
        warns(
            "bears-outside-zone",
            f"{bears}; its sheet allows {lengths.near(zone[0])} to {lengths.near(zone[1])} from "
            "the rear edge.",
            "Put a bearing strip of solid wood on the top within that zone, or change the overlap.",
        ),
    )


def are(kind: RestraintKind) -> str:
    """Return "is", or "are" for packers."""
    return "are" if kind is RestraintKind.PACKERS else "is"
