"""What the stack must hold: the load cases of a job, as free-body statics."""

from __future__ import annotations

from typing import NamedTuple

from bracecalc.mechanics.guards import not_negative
from bracecalc.mechanics.statics import earthquake, overturning
from bracecalc.mechanics.statics.contact import FrontToBack
from bracecalc.records.job import Door, Earthquake, Job, Method
from bracecalc.records.plan import Assumed, CaseName
from bracecalc.strength.workings import Workings

# NDS 2018 table 2.3.2: ten years for contents in the doors, seven days as the safe side of a push
# of minutes. EC5: k_mod takes its place, by duration class.
NDS_DURATION = {
    CaseName.MINIMUM: 1.25,
    CaseName.CHILD_ALONE: 1.25,
    CaseName.SERVICE: 1.0,
    CaseName.CLIMB: 1.25,
    CaseName.PULL: 1.25,
    CaseName.EARTHQUAKE: 1.6,
}
LARGEST_DURATION = 1.6  # NDS 2018 table 11.3.1: never above for a connection
ASSUMED_LEGS = 3.0  # in: front legs behind the front plane where not given, common practice
HAND_HEIGHT = 56.0  # in: of the pull, horizontal dynamic test of ASTM F2057-23, from memory


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
    assumed: tuple[Assumed, ...] = ()


class Cases(NamedTuple):
    """All cases that could be worked out, and what was missing for the others."""

    cases: tuple[Case, ...]
    missing: tuple[str, ...]

    @property
    def checked(self) -> bool:
        """Whether weight and doors were given, so that the unit's own cases stand."""
        return not self.missing


class Place(NamedTuple):
    """Where the restraint force acts, and the legs' greatest extension, in.

    ``behind_front`` is behind the unit's front plane; ``legs`` the front leg line behind it, None
    where it isn't given.
    """

    out: FrontToBack
    behind_front: float
    legs: float | None
    extension: float

    @property
    def arm(self) -> float | None:
        """Distance from the front leg line, None where it isn't known or not behind the line."""
        return None if self.legs is None else self.arm_from(self.legs)

    def arm_from(self, legs: float) -> float | None:
        """Return the distance from a front leg line, None where the force isn't behind it."""
        arm = overturning.restraint_arm(
            behind_front=self.behind_front, front_legs_behind_front=legs
        )
        return arm if arm > 0.0 else None


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

    Source: statics about the front leg line; ASCE 7 ASD combinations; 16 CFR 1261, ASTM F2057 and
        ASTM F3096 by analogy for the child at the door's edge, the pull and the least force.
    """
    state = STATE[job.loads.method]
    not_negative(minimum=job.loads.minimum, pull=job.loads.pull)  # a NaN compares as "no pull"
    cases = [Case(name=CaseName.MINIMUM, force=job.loads.minimum * state.minimum, moments={})]
    missing = missing_measurements(job)
    doors, weight = job.unit.doors, job.unit.weight
    behind, arm = job.unit.cg_behind_front_legs, place.arm
    if arm is None and place.legs is not None:
        missing = (*missing, "a restraint behind the front legs")
    climbed = arm is not None and weight is not None and behind is not None and doors is not None
    if not climbed:
        alone = _child_alone(job, place, work)
        cases.extend(() if alone is None else (alone,))
    if arm is None or weight is None or behind is None:
        return Cases(cases=tuple(cases), missing=missing)
    if doors is not None:
        cases.extend(_own_cases(job, doors, arm, work, place.out))
    if job.loads.earthquake is not None and job.unit.cg_height is not None:
        cases.append(_earthquake_case(job, weight, behind, place, work))
    return Cases(cases=tuple(cases), missing=missing)


def _child_alone(job: Job, place: Place, work: Workings) -> Case | None:
    """Return the case of a child on a unit that only just stands by itself; no weight holds it."""
    unit, state = job.unit, STATE[job.loads.method]
    legs = ASSUMED_LEGS if place.legs is None else place.legs
    assumed = [] if place.legs is not None else [Assumed.FRONT_LEGS]
    arm = place.arm_from(legs)
    if arm is None:
        return None
    if unit.doors:
        edge = max(door.edge for door in unit.doors)
    else:
        edge = unit.width + legs
        assumed.append(Assumed.DOOR_EDGE)
    moment = state.tipping * work.call(
        f"Demand: {CaseName.CHILD_ALONE}",
        "a child at the outer edge of the widest door",
        overturning.climb_moment,
        load=job.loads.climb,
        edge=edge,
        dynamic_factor=job.loads.dynamic_factor,
    )
    tipping = {"child at the door's edge": moment}
    case = _case(CaseName.CHILD_ALONE, tipping, 0.0, arm, work, place.out, counted=state.tipping)
    return case._replace(moments=tipping, assumed=tuple(assumed))


def _own_cases(
    job: Job, doors: tuple[Door, ...], arm: float, work: Workings, out: FrontToBack
) -> tuple[Case, ...]:
    """Return service, climb and pull, which the unit's own weight steadies."""
    state = STATE[job.loads.method]
    weight, behind = job.unit.weight, job.unit.cg_behind_front_legs
    if weight is None or behind is None:
        raise ValueError("the appliance's own cases need its weight and centre of gravity")
    steady = work.call(
        f"Demand: {CaseName.SERVICE}",
        "the empty appliance's weight resists tipping",
        overturning.stabilising_moment,
        weight=weight,
        behind_front_legs=behind,
        share=state.steadying,
    )
    opened = {"doors and contents": _doors_moment(doors, work) * state.tipping}

    def case(name: CaseName, more: dict[str, float]) -> Case:
        return _case(name, opened | more, steady, arm, work, out, counted=state.tipping)

    cases = [case(CaseName.SERVICE, {})]
    cases.append(case(CaseName.CLIMB, _climb_moments(job, doors, state, work)))
    if job.loads.pull > 0.0:
        cases.append(case(CaseName.PULL, _pull_moments(job, state, work)))
    return tuple(cases)


def _doors_moment(doors: tuple[Door, ...], work: Workings) -> float:
    return sum(
        work.call(
            f"Demand: {CaseName.SERVICE}",
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
    if not doors:
        return {}
    moment = work.call(
        f"Demand: {CaseName.CLIMB}",
        "a child at the outer edge of an open door",
        overturning.climb_moment,
        load=job.loads.climb,
        edge=max(door.edge for door in doors),
        dynamic_factor=job.loads.dynamic_factor,
    )
    return {"child at the door's edge": state.tipping * moment}


def pull_height(job: Job) -> float:
    """Return where the pull acts: at hand height, or at the top of a lower unit, in."""
    given = job.loads.pull_height
    return min(HAND_HEIGHT, job.unit.height) if given is None else given


def _pull_moments(job: Job, state: StateFactors, work: Workings) -> dict[str, float]:
    moment = work.call(
        f"Demand: {CaseName.PULL}",
        "a pull outward at hand height",
        overturning.pull_moment,
        pull=job.loads.pull,
        height=pull_height(job),
    )
    return {"pull at hand height": state.tipping * moment}


def _case(
    name: CaseName,
    tipping: dict[str, float],
    steady: float,
    arm: float,
    work: Workings,
    out: FrontToBack,
    *,
    counted: float = 1.0,
) -> Case:
    times = "" if counted == 1.0 else f", what tips counted {counted:g} times"
    force = work.call(
        f"Demand: {name}",
        f"restraint force at the {out.value}{times}",
        overturning.restraint_force,
        overturning=sum(tipping.values()),
        stabilising=steady,
        arm=arm,
    )
    return Case(name=name, force=force, moments={**tipping, "weight of the appliance": -steady})


def _earthquake_case(job: Job, weight: float, behind: float, place: Place, work: Workings) -> Case:
    loads, given = job.loads, job.loads.earthquake
    cg_height = job.unit.cg_height
    if given is None or cg_height is None or place.arm is None:
        raise ValueError("the earthquake case needs S_DS and unit.cg_height")
    contents = contents_weight(job)
    level = _level_force(given, weight + contents, work)
    moments = work.call(
        f"Demand: {CaseName.EARTHQUAKE}",
        "the horizontal force tips the appliance, its empty weight resists",
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
    return _case(CaseName.EARTHQUAKE, {"level force": tipping}, steady, place.arm, work, place.out)


def contents_weight(job: Job) -> float:
    """Return the weight of the contents; what the doors hold where that isn't given, lbf."""
    if job.unit.contents is not None:
        return job.unit.contents
    return sum(door.contents for door in (() if job.unit.doors is None else job.unit.doors))


def _level_force(given: Earthquake, weight: float, work: Workings) -> float:
    part = f"Demand: {CaseName.EARTHQUAKE}"
    meaning = f"level force on the appliance, ASCE {given.edition}"
    if given.edition != "7-22":
        return work.call(
            part,
            meaning,
            earthquake.component_force_7_16,
            weight=weight,
            s_ds=given.s_ds,
            a_p=given.a_p,
            r_p=given.r_p,
            i_p=given.i_p,
            z_over_h=given.z_over_h,
        )
    if given.h_f is None or given.r_mu is None or given.c_ar is None or given.r_po is None:
        raise ValueError("ASCE 7-22 needs H_f, R_mu, C_AR and R_po")
    return work.call(
        part,
        meaning,
        earthquake.component_force_7_22,
        weight=weight,
        s_ds=given.s_ds,
        i_p=given.i_p,
        h_f=given.h_f,
        r_mu=given.r_mu,
        c_ar=given.c_ar,
        r_po=given.r_po,
    )


def load_duration(job: Job, case: CaseName) -> float:
    """Return the load duration factor C_D of a case; the job may say otherwise, up to 1.6.

    >>> from bracecalc.records.job import Job, Loads, Niche, Unit, Wall
    >>> unit = Unit(height=80, width=32, depth=23, leg_travel_front=1, leg_travel_rear=1)
    >>> niche = Niche(width=(33.0,), depth=(24.0,))
    >>> job = Job(title="x", niche=niche, wall=Wall(layers=()), unit=unit)
    >>> load_duration(job, CaseName.MINIMUM), load_duration(job, CaseName.EARTHQUAKE)
    (1.25, 1.6)
    """
    given = job.loads.load_duration.get(case.key, NDS_DURATION[case])
    return min(given, LARGEST_DURATION)
