"""Wires and pipes where the screws go: what the wiring rules of a job's country say of them."""

from __future__ import annotations

from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import Job, StudMaterial, Wiring
from bracecalc.records.plan import Finding, PackerSupport, StackSupport, TopSupport
from bracecalc.text.findings import Lengths, joined, warns

# BS 7671 522.6.201 and .202, quoted second hand by two trade pages, the standard itself not read:
# a cable less than 50 mm under a wall's surface keeps to zones within 150 mm of a corner and of
# the top of the wall, and in line with each accessory; one through a joist lies 50 mm from its edge
BS_DEPTH = 50.0 / MM_PER_INCH
BS_ZONE = 150.0 / MM_PER_INCH


def services_findings(job: Job, support: TopSupport) -> tuple[Finding, ...]:
    """Return the warning of wires and pipes; none where no screw goes into a wall or a soffit.

    Args:
        job: one niche.
        support: what the top bears against.
    """
    if not support.screws:
        return ()
    where = "above the packers" if isinstance(support, PackerSupport) else "behind the stack"
    return (
        warns(
            "concealed-services",
            f"{_depth_words(job, support)} {_rule_words(job, support)}".rstrip(),
            f"Find wires and pipes {where} before drilling; skip that spot or "
            "have the line relocated.",
        ),
    )


def _depth_words(job: Job, support: TopSupport) -> str:
    masonry = job.wall.stud.material is StudMaterial.MASONRY
    into = "wall" if isinstance(support, StackSupport) and masonry else "framing"
    return f"The screws go {Lengths(job).up(_deepest(support))} into the {into}."


def _deepest(support: TopSupport) -> float:
    return max(row.embedment for row in support.screws)


def _rule_words(job: Job, support: TopSupport) -> str:
    match job.wiring:
        case Wiring.IRC_NEC:
            return _plate_words(job, support)
        case Wiring.BS_7671:
            return _zone_words(job, support)
        case Wiring.NONE:
            return (
                "No wiring rule for this job is at hand (rules.wiring): ask a licensed electrician "
                "how deep and where cables may run here."
            )


def _plate_words(job: Job, support: TopSupport) -> str:
    lengths, plate = Lengths(job), job.rules.plate_depth
    over = _deepest(support) - plate
    if over <= 1e-9:
        return ""
    return (
        f"That is {lengths.up(over)} more than the {lengths.near(plate)} from the face of the "
        "framing within which bored wires and pipes need a steel plate (IRC P2603.2.1, NEC "
        "300.4): deeper ones run without one."
    )


def _zone_words(job: Job, support: TopSupport) -> str:
    lengths = Lengths(job)
    depth, zone = lengths.near(BS_DEPTH), lengths.near(BS_ZONE)
    if not isinstance(support, StackSupport):
        return (
            f"Cables through joists may lie from {depth} above their underside on, without "
            "protection (BS 7671 522.6.201, read second hand)."
        )
    finish = job.wall.finish_to_come + sum(layer.thickness for layer in job.wall.layers)
    reach = lengths.up(_deepest(support) + finish - support.stack.cut_back)
    text = (
        f"They reach {reach} under the face of the wall. Less than {depth} under it cables keep to "
        f"zones, within {zone} of a corner or of the top of the wall, and straight up, down and "
        "sideways from each socket and switch; deeper ones may run anywhere, without protection "
        "(BS 7671 522.6.202, read second hand)."
    )
    corners = _beside_corners(job, support)
    if corners:
        at = joined([lengths.near(place) for place in corners])
        text += f" The screws in the studs at {at} stand in a corner's zone."
    return text


def _beside_corners(job: Job, support: StackSupport) -> tuple[float, ...]:
    """Return the studs whose screws stand beside a side of the niche, as far as they are known."""
    if support.studs is None:
        return ()
    across = [across for row in support.screws for across, _ in row.offsets]
    near, far = BS_ZONE - min(across), job.niche.narrowest - BS_ZONE - max(across)
    return tuple(spot for spot in support.studs.used if spot <= near or spot >= far)
