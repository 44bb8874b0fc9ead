"""Which one measurement, if a little off, changes the verdict."""

from __future__ import annotations

from dataclasses import replace

from bracecalc.certainty.held import hold, measurements, verdict_of
from bracecalc.records.plan import Plan, Verdict
from bracecalc.text.findings import Lengths

LITTLE = 0.0625  # in: what a tape is read to


def with_sensitivity(plan: Plan) -> Plan:
    """Return the plan with a short line on what a small slip of the tape would change."""
    return replace(plan, sensitivity=sensitivity_line(plan))


def sensitivity_line(plan: Plan) -> str:
    """Return which single measurements, 1/16 in off either way, change the verdict.

    The restraint is held where the plan puts it, as it will be once it is built.
    """
    held = hold(plan.job, plan)
    before = verdict_of(held)
    changing: dict[Verdict, list[str]] = {}
    for reading in measurements(held):
        for by in (LITTLE, -LITTLE):
            if by < 0.0 and reading.least < LITTLE:
                continue
            after = verdict_of(reading.moved(held, by))
            if after is not before:
                changing.setdefault(after, []).append(reading.name)
                break
    little = Lengths(plan.job).near(LITTLE)
    if not changing and plan.verdict is Verdict.FAILS:
        return ""
    if not changing:
        return f"No single measurement that is {little} off changes the verdict."
    said = "; ".join(
        f"{', '.join(names)} ({little} off, and it {after.value})"
        for after, names in changing.items()
    )
    return f"Measure again: {said}."
