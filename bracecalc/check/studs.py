"""The studs that were found against those of the plan: room, loss, doubt."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bracecalc.check.point import UNLIMITED, Limit, point
from bracecalc.mechanics.nds.spacing import least_distances
from bracecalc.records.margins import margin
from bracecalc.records.plan import Plan, ScrewRow, StackSupport
from bracecalc.records.site import AsFound, LimitKind, Point, StudReport
from bracecalc.tables.load import tables_of
from bracecalc.text.findings import Lengths

SPACINGS = (
    12.0,
    16.0,
    19.2,
    24.0,
)  # in, centre to centre: what walls are framed at, common practice
NEAR_SPACING = 0.5  # in: framing is seldom truer, common practice
DOUBLED = 3.5  # in: studs nailed together, or a corner


def stud_points(as_found: AsFound, planned: Plan, found: Plan) -> Iterator[Point]:
    """Yield one point for each stud found, or for each planned where none was measured."""
    if found.studs is None:
        return
    before = () if planned.studs is None else planned.studs.spots
    readings = sorted(as_found.stud_spots, key=lambda reading: reading.mean)
    tape = planned.job.rules.tape_uncertainty
    if not readings:
        for number, spot in enumerate(before, start=1):
            yield point(
                f"studs[{number}]", f"stud {number}", (spot, None), tape, _end_limit(found, spot),
                note=_why_not(found, spot),
            )  # fmt: skip
        return
    for number, reading in enumerate(readings, start=1):
        was = _nearest(reading.mean, before)
        note = _why_not(found, reading.mean)
        if was is None and before:
            note = "; ".join(part for part in ("none planned near it", note) if part)
        yield point(
            f"studs[{number}]",
            f"stud {number}",
            (was, reading),
            tape,
            _end_limit(found, reading.mean),
            note=note,
        )


def _why_not(found: Plan, spot: float) -> str:
    if found.studs is None or spot in found.studs.used or spot not in found.studs.why_not:
        return ""
    return f"not used: {found.studs.why_not[spot]}"


def _nearest(spot: float, others: Sequence[float]) -> float | None:
    near = min(others, key=lambda other: abs(other - spot), default=None)
    return None if near is None or abs(near - spot) > SPACINGS[0] / 2.0 else near


def _end_limit(found: Plan, spot: float) -> Limit:
    """Return the room of a stud to the ends of the boards; one that isn't used has no limit."""
    support = found.support
    if not isinstance(support, StackSupport) or support.studs is None or not support.screws:
        return UNLIMITED
    if spot not in support.studs.used:
        return UNLIMITED
    stack = support.stack
    end = max(least_distances(diameter=_diameter(found, row)).end for row in found.screws)
    room = min(spot - stack.left_end, stack.left_end + stack.length - spot) - end
    return Limit(margin(room, (found.job.rules.tape_uncertainty,)), LimitKind.BOARD_END, False)


def _diameter(plan: Plan, row: ScrewRow) -> float:
    built = plan.job.built
    standing = () if built is None else built.screws
    own = (one.published for one in standing if one.published is not None)
    for screw in (*plan.job.screws.published, *own):
        if screw.size == row.size:
            return screw.diameter
    return tables_of(plan.job).screws[row.size].diameter


def stud_report(as_found: AsFound, planned: Plan, found: Plan) -> StudReport | None:
    """Return what became of the studs; None where none were measured."""
    if not as_found.stud_spots or found.studs is None:
        return None
    spots = found.studs.spots
    before = () if planned.studs is None else planned.studs.used
    return StudReport(
        planned=before,
        found=spots,
        lost=tuple(spot for spot in before if _holes_lost(spot, planned, found)),
        doubtful=doubtful_spots(spots, Lengths(found.job)),
    )


def _holes_lost(spot: float, planned: Plan, found: Plan) -> bool:
    """Return whether any planned hole at a stud misses the wood that was found there."""
    studs = () if found.studs is None else found.studs.spots
    half, tape = found.job.wall.stud.width / 2.0, found.job.rules.tape_uncertainty
    for row in planned.screws:
        edge = least_distances(diameter=_diameter(planned, row)).stud_edge
        for across, _ in row.offsets:
            hole = spot + across
            if not any(abs(hole - stud) <= half - edge - tape + 1e-9 for stud in studs):
                return True
    return False


def doubtful_spots(spots: Sequence[float], lengths: Lengths) -> tuple[str, ...]:
    """Return in words which neighbours are at no distance that walls are framed at."""
    doubts = []
    for left, right in pairwise(spots):
        apart = right - left
        if apart <= DOUBLED or _framed_at(apart):
            continue
        text = f"{lengths.near(left)} and {lengths.near(right)} are {lengths.near(apart)} apart"
        if any(_framed_at(apart / bays) for bays in (2, 3)):
            doubts.append(f"{text}: a stud between them may have been missed")
        elif _framed_at(apart - 0.75) or _framed_at(apart + 0.75):
            doubts.append(f"{text}: one may be the edge of a stud and not its middle")
        else:
            doubts.append(f"{text}: not a usual stud spacing; find both again")
    return tuple(doubts)


def _framed_at(apart: float) -> bool:
    return any(abs(apart - spacing) <= NEAR_SPACING for spacing in SPACINGS)
