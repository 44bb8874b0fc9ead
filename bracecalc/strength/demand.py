"""What the stack must hold: the load cases of a job, as free-body statics."""

from __future__ import annotations

from typing import NamedTuple

from bracecalc.mechanics.guards import not_negative
from bracecalc.mechanics.statics import earthquake, overturning
from bracecalc.records.job import Door, Job, Loads, Method
from bracecalc.records.plan import CaseName
from bracecalc.strength.workings import Workings

# NDS: ASD load duration. EC5: k_mod takes its place, by duration class.
NDS_DURATION = {
    CaseName.MINIMUM: 0.9,
    CaseName.SERVICE: 0.9,
    CaseName.CLIMB: 1.0,
    CaseName.EARTHQUAKE: 1.6,
}
LARGEST_DURATION = 1.6  # NDS 2018 table 11.3.1: never above for a connection


class StateFactors(NamedTuple):
    """Factors on what tips and on what steadies the unit."""

    tipping: float
    steadying: float
    minimum: float


# ASCE 7 ASD combination 0.6 D; EN 1990 table A1.2(A), EQU, from memory
STATE = {Method.NDS: StateFactors(1.0, 0.6, 1.0), Method.EC5: StateFactors(1.5, 0.9, 1.5)}


class Case(NamedTuple):
    """One load case before the stack's capacity is known: lbf, in-lbf."""

    name: CaseName
    force: float
    moments: dict[str, float]


class Cases(NamedTuple):
    """All cases that could be worked out, and what was missing for the others."""

    cases: tuple[Case, ...]
    missing: tuple[str, ...]

    @property
    def checked(self) -> bool:
        """Whether weight and doors were given, so that the unit's own cases stand."""
        return not self.missing


class Place(NamedTuple):
    """Where the force acts: arm behind the front leg line, and the legs' greatest extension, in."""

    arm: float | None
    extension: float


def missing_measurements(job: Job) -> tuple[str, ...]:
    """Return the keys without which the unit's own load cases can't be worked out."""
    unit = job.unit
    needed = {
        "unit.weight": unit.weight,
        "unit.cg_behind_front_legs": unit.cg_behind_front_legs,
        "unit.front_legs_behind_front": unit.front_legs_behind_front,
        "unit.doors": unit.doors,
    }
    if job.loads.earthquake is not None:
        needed["unit.cg_height"] = unit.cg_height
    return tuple(name for name, value in needed.items() if value is None)


def load_cases(job: Job, place: Place, work: Workings) -> Cases:
    """Return the load cases of a job, the minimum case first; it always stands.

    Args:
        job: with weights in lbf.
        place: where the restraint force acts.
        work: keeps the steps.

    Raises:
        ValueError: if a load is below 0 or no finite number.

    Source: statics about the front leg line; ASCE 7 ASD combinations; 16 CFR 1261 and ASTM F2057
        by analogy for the child at the door's edge.
    """
    state = STATE[job.loads.method]
    not_negative(minimum=job.loads.minimum, pull=job.loads.pull)  # a NaN compares as "no pull"
    minimum = Case(name=CaseName.MINIMUM, force=job.loads.minimum * state.minimum, moments={})
    missing = missing_measurements(job)
    doors, weight = job.unit.doors, job.unit.weight
    behind, legs = job.unit.cg_behind_front_legs, job.unit.front_legs_behind_front
    arm = None if legs is None else place.arm
    if arm is None and legs is not None:
        missing = (*missing, "a restraint behind the front legs")
    if arm is None or weight is None or behind is None:
        return Cases(cases=(minimum,), missing=missing)
    cases = [minimum]
    if doors is not None:
        steady = work.call(
            "Demand: service",
            "the empty unit steadies itself",
            overturning.stabilising_moment,
            weight=weight,
            behind_front_legs=behind,
            share=state.steadying,
        )
        opened = {"doors and contents": _doors_moment(doors, work) * state.tipping}
        cases.append(_case(CaseName.SERVICE, opened, steady, arm, work, counted=state.tipping))
        climbed = {**opened, **_climb_moments(job, doors, state, work)}
        cases.append(_case(CaseName.CLIMB, climbed, steady, arm, work, counted=state.tipping))
    if job.loads.earthquake is not None and job.unit.cg_height is not None:
        cases.append(_earthquake_case(job, weight, behind, Place(arm, place.extension), work))
    return Cases(cases=tuple(cases), missing=missing)


def _doors_moment(doors: tuple[Door, ...], work: Workings) -> float:
    return sum(
        work.call(
            "Demand: service",
            f"door or drawer {number}, open with its contents",
            overturning.door_moment,
            own_weight=door.own_weight,
            contents=door.contents,
            reach=door.reach,
            closed_reach=door.closed_reach,
        )
        for number, door in enumerate(doors, start=1)
    )


def _climb_moments(
    job: Job, doors: tuple[Door, ...], state: StateFactors, work: Workings
) -> dict[str, float]:
    loads = job.loads
    moments: dict[str, float] = {}
    if doors:
        moments["child at the door's edge"] = state.tipping * work.call(
            "Demand: climb",
            "a child at the outer edge of an open door",
            overturning.climb_moment,
            load=loads.climb,
            edge=max(door.edge for door in doors),
            dynamic_factor=loads.dynamic_factor,
        )
    if loads.pull > 0.0 and loads.pull_height is not None:
        moments["pull at hand height"] = state.tipping * work.call(
            "Demand: climb",
            "a pull outward at hand height",
            overturning.pull_moment,
            pull=loads.pull,
            height=loads.pull_height,
        )
    return moments


def _case(
    name: CaseName,
    tipping: dict[str, float],
    steady: float,
    arm: float,
    work: Workings,
    *,
    counted: float = 1.0,
) -> Case:
    times = "" if counted == 1.0 else f", what tips counted {counted:g} times"
    force = work.call(
        f"Demand: {name}",
        f"restraint force at the middle of the overlap{times}",
        overturning.restraint_force,
        overturning=sum(tipping.values()),
        stabilising=steady,
        arm=arm,
    )
    return Case(name=name, force=force, moments={**tipping, "weight of the unit": -steady})


def _earthquake_case(job: Job, weight: float, behind: float, place: Place, work: Workings) -> Case:
    loads, given = job.loads, job.loads.earthquake
    cg_height = job.unit.cg_height
    if given is None or cg_height is None or place.arm is None:
        raise ValueError("the earthquake case needs S_DS and unit.cg_height")
    contents = contents_weight(job)
    level = work.call(
        "Demand: earthquake",
        f"level force on the unit, ASCE {given.edition}",
        earthquake.component_force_7_22
        if given.edition == "7-22"
        else earthquake.component_force_7_16,
        weight=weight + contents,
        **_component_inputs(loads),
    )
    moments = work.call(
        "Demand: earthquake",
        "the level force tips the unit, the empty unit steadies itself",
        earthquake.earthquake_moments,
        s_ds=given.s_ds,
        force=level,
        height=cg_height + place.extension,
        weight=weight,
        behind_front_legs=behind,
    )
    # Eurocode 5 sets design loads against design strengths: the level force stays unreduced
    tipping = moments.overturning / (1.0 if loads.method is Method.NDS else 0.7)
    steady = moments.stabilising
    return _case(CaseName.EARTHQUAKE, {"level force": tipping}, steady, place.arm, work)


def contents_weight(job: Job) -> float:
    """Return the weight of the contents; what the doors hold where that isn't given, lbf."""
    if job.unit.contents is not None:
        return job.unit.contents
    return sum(door.contents for door in (() if job.unit.doors is None else job.unit.doors))


def _component_inputs(loads: Loads) -> dict[str, float]:
    given = loads.earthquake
    if given is None:
        raise ValueError("no earthquake given")
    if given.edition != "7-22":
        return {
            "s_ds": given.s_ds,
            "a_p": given.a_p,
            "r_p": given.r_p,
            "i_p": given.i_p,
            "z_over_h": given.z_over_h,
        }
    asked = {"h_f": given.h_f, "r_mu": given.r_mu, "c_ar": given.c_ar, "r_po": given.r_po}
    inputs = {name: value for name, value in asked.items() if value is not None}
    if len(inputs) < len(asked):
        raise ValueError("ASCE 7-22 needs H_f, R_mu, C_AR and R_po")
    return {"s_ds": given.s_ds, "i_p": given.i_p, **inputs}


def load_duration(job: Job, case: CaseName) -> float:
    """Return the load duration factor C_D of a case; the job may say otherwise, up to 1.6.

    >>> from bracecalc.records.job import Job, Loads, Niche, Unit, Wall
    >>> unit = Unit(height=80, width=32, depth=23, leg_travel_front=1, leg_travel_rear=1)
    >>> niche = Niche(width=(33.0,), depth=(24.0,))
    >>> job = Job(title="x", niche=niche, wall=Wall(layers=()), unit=unit)
    >>> load_duration(job, CaseName.MINIMUM), load_duration(job, CaseName.EARTHQUAKE)
    (0.9, 1.6)
    """
    given = job.loads.load_duration.get(case.key, NDS_DURATION[case])
    return min(given, LARGEST_DURATION)
