"""How far measurements may be off before the verdict changes, found on the plan's own code.

The restraint is held where the plan puts it: what is asked is how wrong a reading may be once the
boards are up, not what else would then be planned.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from importlib.util import find_spec
from typing import NamedTuple

from bracecalc.certainty.held import SEARCHED, Measured, hold, measurements, verdict_of, worked_out
from bracecalc.records.job import Job
from bracecalc.records.plan import Plan, StackSupport, Verdict
from bracecalc.records.site import LimitKind
from bracecalc.records.tolerance import Drift, Shares, Together, ToleranceReport

STEP = 0.125  # in: a verdict that changes and changes back within less is not looked for
FIRST_STEP = 0.015625
FINE = 1e-4  # in: how closely a limit is found
SLOPE = 0.001  # in: by which a reading is moved to see which way each margin goes


class Limit(NamedTuple):
    """One limit: of which leg, board or load case, where there are several."""

    kind: LimitKind
    of: str = ""


def tolerance_report(job: Job, plan: Plan) -> ToleranceReport:
    """Return how sure a plan is: each measurement alone, all together, and sampled outcomes.

    Args:
        job: that was planned.
        plan: of that job.

    Returns:
        The report; lengths in inches, shares 0 to 1. Sampled shares only where numpy is there.
    """
    held = hold(job, plan)
    readings = measurements(held)
    verdict = verdict_of(held)
    drifts = tuple(drift_of(held, reading, verdict) for reading in readings)
    return ToleranceReport(
        job=job,
        verdict=verdict,
        searched=SEARCHED,
        drifts=drifts,
        together=all_together(held, readings, verdict),
        shares=_shares(plan),
    )


def drifts_of(plan: Plan) -> tuple[Drift, ...]:
    """Return how far each measurement of a plan may be off alone before its verdict changes."""
    held = hold(plan.job, plan)
    verdict = verdict_of(held)
    return tuple(drift_of(held, reading, verdict) for reading in measurements(held))


def _shares(plan: Plan) -> Shares | None:
    if find_spec("numpy") is None:
        return None
    from bracecalc.certainty.monte_carlo import sample_plan

    return sample_plan(plan)


def drift_of(job: Job, reading: Measured, verdict: Verdict) -> Drift:
    """Return how far one measurement may be off either way before the verdict changes."""
    below = first_change(lambda by: verdict_of(reading.moved(job, -by)), verdict, reading.least)
    above = first_change(lambda by: verdict_of(reading.moved(job, by)), verdict, SEARCHED)
    return Drift(
        name=reading.name,
        value=reading.value,
        uncertainty=reading.uncertainty,
        below=None if below is None else below[0],
        above=None if above is None else above[0],
        below_becomes=None if below is None else below[1],
        above_becomes=None if above is None else above[1],
    )


def first_change(
    verdict_at: Callable[[float], Verdict], verdict: Verdict, most: float
) -> tuple[float, Verdict] | None:
    """Return the greatest drift at which a verdict still stands, and what it becomes beyond.

    Steps outward until the verdict differs, so that the two ends of the last step hold the first
    change between them, then halves that step. The drift returned is the near end: there the
    verdict still stands.

    Args:
        verdict_at: verdict with a drift, in, 0 or more.
        verdict: without drift.
        most: how far to look, in.

    Returns:
        Drift, in, and the verdict just beyond it; None where nothing changes as far as was looked.

    >>> holds_to = lambda by: Verdict.HOLDS if by <= 0.3 else Verdict.FAILS
    >>> drift, becomes = first_change(holds_to, Verdict.HOLDS, 2.0)
    >>> round(drift, 3), becomes.value
    (0.3, 'fails')
    """
    near, step = 0.0, FIRST_STEP
    while near < most:
        far = min(near + step, most)
        becomes = verdict_at(far)
        if becomes is not verdict:
            return _halved(verdict_at, verdict, near, far)
        near, step = far, min(2.0 * step, STEP)
    return None


def _halved(
    verdict_at: Callable[[float], Verdict], verdict: Verdict, near: float, far: float
) -> tuple[float, Verdict]:
    becomes = verdict_at(far)
    while far - near > FINE:
        middle = (near + far) / 2.0
        found = verdict_at(middle)
        if found is verdict:
            near = middle
        else:
            far, becomes = middle, found
    return near, becomes


def all_together(
    job: Job, readings: tuple[Measured, ...], verdict: Verdict
) -> tuple[Together, ...]:
    """Return by how much every measurement may be off at once, each in its worst sense.

    Which sense is the worst differs from one limit to the next: each limit of the plan gives its
    own pattern of signs, by the way its margin goes when a reading is moved.

    Returns:
        One for each pattern that changes the verdict as far as was looked, the least drift first.
    """
    uncertain = tuple(reading for reading in readings if reading.uncertainty > 0.0)
    before = limits_of(job)
    after = [limits_of(reading.moved(job, SLOPE)) for reading in uncertain]
    limit_of: dict[tuple[int, ...], Limit] = {}
    for limit, room in before.items():
        signs = tuple(_worst_sense(limit, room, moved) for moved in after)
        if any(signs):
            limit_of.setdefault(signs, limit)
    found = []
    for signs, limit in limit_of.items():
        change = first_change(_moved_together(job, uncertain, signs), verdict, SEARCHED)
        if change is not None:
            found.append(Together(limit=_words(limit), drift=change[0], becomes=change[1]))
    return tuple(sorted(found, key=lambda one: one.drift))


def _moved_together(
    job: Job, readings: tuple[Measured, ...], signs: tuple[int, ...]
) -> Callable[[float], Verdict]:
    def verdict_at(by: float) -> Verdict:
        moved = job
        for reading, sign in zip(readings, signs, strict=True):
            if sign:
                moved = reading.moved(moved, by if sign > 0 else -min(by, reading.least))
        return verdict_of(moved)

    return verdict_at


def _worst_sense(limit: Limit, before: float, moved: Mapping[Limit, float]) -> int:
    if limit not in moved:  # the screws no longer fit at all
        return 1 if limit.kind is LimitKind.EMBEDMENT else 0
    after = moved[limit]
    return 0 if abs(after - before) < 1e-9 else 1 if after < before else -1


def _words(limit: Limit) -> str:
    match limit.kind:
        case LimitKind.LEG_TRAVEL:
            return f"travel of the {limit.of} leg"
        case LimitKind.LEG_CARRYING:
            return f"{limit.of} leg taking weight"
        case LimitKind.OVERLAP:
            return "overlap"
        case LimitKind.EMBEDMENT:
            return f"embedment of the screws of board {limit.of}"
        case LimitKind.FAR_SIDE:
            return f"far side of the stud, screws of board {limit.of}"
        case LimitKind.STRENGTH:
            return f"strength in the {limit.of} case"
        case _:
            return limit.kind.value


def limits_of(job: Job) -> dict[Limit, float]:
    """Return every margin of a job's bracing by its limit, in; more is safer."""
    core = worked_out(job)
    limits: dict[Limit, float] = {}
    underside = core.choice.restraint.target_height
    if core.legs is not None:
        for corner, leg in core.legs.items():
            if leg.travel <= 0.0:  # a roller that doesn't lift has no room to lose
                continue
            words = corner.replace("_", " ")
            limits[Limit(LimitKind.LEG_TRAVEL, words)] = leg.travel - leg.extension
            if job.unit.rear_lifts:
                limits[Limit(LimitKind.LEG_CARRYING, words)] = leg.extension - job.rules.leg_least
    if underside is not None:
        limits[Limit(LimitKind.ROLLING_IN)] = underside - core.band.low
    if isinstance(core.support, StackSupport):
        limits[Limit(LimitKind.OVERLAP)] = core.support.overlap - job.rules.overlap
    for row in core.screws:
        limits[Limit(LimitKind.EMBEDMENT, f"{row.board}")] = row.embedment
        limits[Limit(LimitKind.FAR_SIDE, f"{row.board}")] = row.tip_to_far_side
    for case in core.demand.cases:
        if case.utilisation is not None:
            limits[Limit(LimitKind.STRENGTH, case.name)] = 1.0 - case.utilisation
    return limits
