"""The load cases in words: what stands behind each, and its moments about the front legs."""

from __future__ import annotations

from collections.abc import Iterator

from bracecalc.records.conversions import MM_PER_INCH, NEWTONS_PER_LBF
from bracecalc.records.job import Job, Method, Units
from bracecalc.records.plan import Assumed, CaseName, LoadCase, Plan
from bracecalc.strength.demand import STATE, contents_weight, pull_height
from bracecalc.text.findings import Lengths

NEWTON_METRES = NEWTONS_PER_LBF * MM_PER_INCH / 1000.0  # in an in-lbf


def case_notes(plan: Plan) -> tuple[str, ...]:
    """Return a line on each load case: its loads, by which rule, and whose choice they are."""
    cases = {case.name: case for case in plan.demand.cases}
    notes = [_minimum(plan.job)]
    if CaseName.CHILD_ALONE in cases:
        notes.append(_child_alone(plan.job, cases[CaseName.CHILD_ALONE]))
    if CaseName.CLIMB in cases:
        notes.append(_climb(plan.job))
    if CaseName.PULL in cases:
        notes.append(_pull(plan.job))
    if CaseName.EARTHQUAKE in cases:
        notes.append(_earthquake(plan.job))
    if {CaseName.SERVICE, CaseName.EARTHQUAKE} & cases.keys():
        state = STATE[plan.job.loads.method]
        notes.append(
            f"{state.steadying:g} of the empty appliance's weight resists tipping; overturning "
            "loads are taken "
            + ("in full." if state.tipping == 1.0 else f"{state.tipping:g} times (EN 1990, EQU).")
        )
    return tuple(notes)


def _minimum(job: Job) -> str:
    state = STATE[job.loads.method]
    times = "" if state.minimum == 1.0 else f" times {state.minimum:g}"
    return (
        f"minimum: {Lengths(job).force_up(job.loads.minimum)}{times}, whatever "
        "the appliance is. ASTM "
        "F3096-23 tests tip restraints of clothing storage units with 60 lbf (second hand); taken "
        "here by analogy."
    )


ASSUMED = {
    Assumed.DOOR_EDGE: "no door is given: one door as wide as the appliance",
    Assumed.FRONT_LEGS: "the front legs' place is not given: 3 in behind the front, common "
    "practice",
}


def _child_alone(job: Job, case: LoadCase) -> str:
    said = "".join(f" Assumed, since {ASSUMED[one]}." for one in case.assumed)
    return (
        f"child alone: a child of {Lengths(job).force_up(job.loads.climb)} at the outer edge of "
        "the widest door of a unit that only just stands by itself, since its weight, centre of "
        f"gravity or doors are not given.{said}"
    )


def _climb(job: Job) -> str:
    lengths, loads = Lengths(job), job.loads
    return (
        f"climb: a child of {lengths.force_up(loads.climb)} at the outer edge of an open door, "
        f"dynamic factor {loads.dynamic_factor:g}. 16 CFR 1261 and ASTM F2057 ask it of "
        "clothing storage units; taken here by analogy."
    )


def _pull(job: Job) -> str:
    lengths, loads = Lengths(job), job.loads
    return (
        f"pull: {lengths.force_up(loads.pull)} outward at {lengths.near(pull_height(job))} above "
        "the floor, the horizontal dynamic test of ASTM F2057-23 (from memory); taken here by "
        "analogy."
    )


def _earthquake(job: Job) -> str:
    given = job.loads.earthquake
    if given is None:
        raise ValueError("an earthquake case needs its inputs")
    contents = Lengths(job).force_up(contents_weight(job))
    return (
        f"earthquake: ASCE {given.edition} 13.3, S_DS {given.s_ds:g}; the horizontal force "
        f"includes contents of {contents}; the resisting weight leaves them out and is cut by "
        "0.14 S_DS."
    )


def moment_rows(plan: Plan) -> Iterator[tuple[str, str, str]]:
    """Yield (case, what, moment about the front legs); what steadies the unit is below 0."""
    metric = plan.job.units is Units.MM
    for case in plan.demand.cases:
        for what, moment in case.moments.items():
            shown = moment * NEWTON_METRES if metric else moment
            yield case.name, what, f"{shown:.0f} {'N m' if metric else 'in-lbf'}"


def duration_name(job: Job) -> str:
    """Return what the factor for the duration of a load is called by the job's method."""
    return "k_mod" if job.loads.method is Method.EC5 else "C_D"
