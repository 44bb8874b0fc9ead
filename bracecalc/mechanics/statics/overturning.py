"""Statics of tipping: moments about the front leg line, and what the restraint must hold.

Distances in front of the front leg line are positive forward, as in the job file; the centre of
gravity is given behind that line. A load that may be taken away never counts as holding the unit
back, and a dead load that tips counts in full.
"""

from __future__ import annotations

import math

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import finite, not_negative, positive


@formula(
    equation="a = point of contact behind the front - front legs behind the front",
    source="geometry.",
    unit="in",
)
def restraint_arm(*, behind_front: float, front_legs_behind_front: float) -> float:
    """Return the level distance from the front leg line to where the restraint force acts.

    Args:
        behind_front: front reference plane to the point of contact, in.
        front_legs_behind_front: front reference plane to the front leg line, in.

    Returns:
        Arm of the restraint force, a, in. Not more than 0 where the legs stand behind it.

    Raises:
        ValueError: if a value is not finite.

    >>> restraint_arm(behind_front=21.6875, front_legs_behind_front=2.75)
    18.9375
    """
    finite(behind_front=behind_front, front_legs_behind_front=front_legs_behind_front)
    return behind_front - front_legs_behind_front


@formula(
    equation="unit depth - overlap, or unit depth - overlap / 2",
    source="geometry.",
    unit="in",
)
def contact_behind_front(*, unit_depth: float, overlap: float, middle: bool) -> float:
    """Return where the restraint touches the housing, behind its front reference plane.

    Args:
        unit_depth: front reference plane to the rear of the housing's top, in.
        overlap: how far the restraint reaches over the housing, in. One that doesn't reach it
            counts as touching its rear edge.
        middle: at the middle of the overlap, else at its front, the restraint's outer edge.

    Returns:
        Distance, in.

    Raises:
        ValueError: if a value is not finite.

    >>> contact_behind_front(unit_depth=23.125, overlap=2.0, middle=False)
    21.125
    """
    finite(unit_depth=unit_depth, overlap=overlap)
    reach = max(0.0, overlap)
    return unit_depth - (reach / 2.0 if middle else reach)


@formula(
    equation="F = max(0, (M_over - M_stab) / a)",
    source="statics; moments about the front leg line.",
    unit="lbf",
)
def restraint_force(*, overturning: float, stabilising: float, arm: float) -> float:
    """Return the force down that the restraint must put on the top of the unit.

    Args:
        overturning: moment about the front leg line that tips the unit, M_over, in-lbf.
        stabilising: moment about that line that holds it back, M_stab, in-lbf.
        arm: level distance from that line to the middle of the overlap, a, in. More than 0.

    Returns:
        Restraint force, F, lbf. 0.0 where the unit stands by itself.

    Raises:
        ValueError: if a moment is not finite or the arm is not a finite length above 0.

    >>> restraint_force(overturning=5000.0, stabilising=3000.0, arm=20.0)
    100.0
    """
    positive(arm=arm)
    finite(overturning=overturning, stabilising=stabilising)  # max(0.0, nan) reads as "no force"
    return max(0.0, (overturning - stabilising) / arm)


@formula(
    equation="M = C reach + W_d (reach - closed reach)",
    source="statics; moments about the front leg line.",
    unit="in-lbf",
)
def door_moment(*, own_weight: float, contents: float, reach: float, closed_reach: float) -> float:
    """Return what one open door or drawer adds to the overturning moment.

    The unit's own weight is taken with its doors shut, so the door's own weight counts by how far
    it moves. Contents that would hold the unit back count as none: they may be taken out.

    Args:
        own_weight: of the door or drawer, W_d, lbf. Not below 0.
        contents: that move with it, C, lbf. Not below 0.
        reach: centre of both in front of the front leg line, open, in.
        closed_reach: the same, shut, in. Below 0 where it closes behind the leg line.

    Returns:
        Overturning moment, M, in-lbf. Not below 0: the door may as well stay shut.

    Raises:
        ValueError: if a value is not finite or a weight is below 0.

    >>> door_moment(own_weight=36.0, contents=22.0, reach=14.0, closed_reach=1.0)
    776.0
    """
    not_negative(own_weight=own_weight, contents=contents)
    finite(reach=reach, closed_reach=closed_reach)
    return max(0.0, contents * max(0.0, reach) + own_weight * (reach - closed_reach))


@formula(
    equation="M_stab = k W x",
    source=(
        "dead load that resists: 0.6 D of the ASD combinations, ASCE 7-16 2.4.1; 0.9 G in EN "
        "1990 table A1.2(A), EQU (both from memory)."
    ),
    unit="in-lbf",
)
def stabilising_moment(*, weight: float, behind_front_legs: float, share: float = 0.6) -> float:
    """Return the moment by which the empty unit's own weight holds it back.

    A centre of gravity in front of the leg line tips the unit; the weight then counts in full.

    Args:
        weight: of the empty unit, doors shut, W, lbf. Not below 0.
        behind_front_legs: its centre of gravity behind the front leg line, x, in.
        share: of the weight that may be relied on, k, dimensionless. More than 0, at most 1.

    Returns:
        Stabilising moment, M_stab, in-lbf. Below 0 where the centre lies in front of the line.

    Raises:
        ValueError: if a value is not finite, the weight is below 0 or the share is out of range.

    >>> stabilising_moment(weight=540.0, behind_front_legs=9.5)
    3078.0
    """
    not_negative(weight=weight)
    finite(behind_front_legs=behind_front_legs)
    if not 0.0 < share <= 1.0:
        raise ValueError(f"share must be above 0 and at most 1, got {share!r}")
    return (share if behind_front_legs >= 0.0 else 1.0) * weight * behind_front_legs


@formula(
    equation="M = k_d P edge",
    source="statics; 60 lbf by analogy with 16 CFR 1261 and ASTM F2057, clothing storage units.",
    unit="in-lbf",
)
def climb_moment(*, load: float, edge: float, dynamic_factor: float) -> float:
    """Return the overturning moment of a child at the outer edge of an open door.

    Args:
        load: weight of the child, P, lbf. Not below 0.
        edge: outer edge of the open door in front of the front leg line, in.
        dynamic_factor: for a load that isn't put on slowly, k_d, dimensionless. At least 1.

    Returns:
        Overturning moment, M, in-lbf. Not below 0: a child never counts as holding the unit back.

    Raises:
        ValueError: if a value is not finite, the load is below 0 or the factor below 1.

    >>> climb_moment(load=60.0, edge=31.0, dynamic_factor=1.0)
    1860.0
    """
    not_negative(load=load)
    finite(edge=edge)
    if not 1.0 <= dynamic_factor < math.inf:
        raise ValueError(f"dynamic_factor must be finite and at least 1, got {dynamic_factor!r}")
    return max(0.0, dynamic_factor * load * edge)


@formula(
    equation="M = P_h h",
    source="statics; moments about the front leg line.",
    unit="in-lbf",
)
def pull_moment(*, pull: float, height: float) -> float:
    """Return the overturning moment of a level pull outward.

    Args:
        pull: level force, P_h, lbf. Not below 0.
        height: of the hand above the floor at the front legs, h, in. Not below 0.

    Returns:
        Overturning moment, M, in-lbf.

    Raises:
        ValueError: if a value is not finite or below 0.

    >>> pull_moment(pull=10.0, height=56.0)
    560.0
    """
    not_negative(pull=pull, height=height)
    return pull * height


@formula(
    equation="movement = r h / a",
    source="geometry of a small turn about the front leg line.",
    unit="in",
)
def forward_movement(*, rise: float, height: float, arm: float) -> float:
    """Return how far the top moves forward when the rear of the unit rises under the restraint.

    Args:
        rise: of the top at the middle of the overlap before the restraint stops it, r, in.
        height: of the top above the front legs, h, in.
        arm: front leg line to the middle of the overlap, a, in. More than 0.

    Returns:
        Movement forward, in.

    Raises:
        ValueError: if a value is not finite or below 0, or the arm is not more than 0.

    >>> forward_movement(rise=0.125, height=80.0, arm=20.0)
    0.5
    """
    not_negative(rise=rise, height=height)
    positive(arm=arm)
    return rise * height / arm


@formula(
    equation="overlap left = overlap - r h / a",
    source="geometry of a small turn about the front leg line.",
    unit="in",
)
def overlap_left(*, overlap: float, rise: float, height: float, arm: float) -> float:
    """Return the overlap that is left when the rear of the unit has risen.

    Args:
        overlap: obtained with the unit level, in.
        rise: of the top at the middle of the overlap before the restraint stops it, r, in.
        height: of the top above the front legs, h, in.
        arm: front leg line to the middle of the overlap, a, in. More than 0.

    Returns:
        Overlap left, in. Not more than 0 where the top has come out from under the restraint.

    Raises:
        ValueError: if a value is not finite, rise or height is below 0 or the arm not more than 0.

    >>> overlap_left(overlap=2.875, rise=0.125, height=80.0, arm=20.0)
    2.375
    """
    finite(overlap=overlap)
    return overlap - forward_movement(rise=rise, height=height, arm=arm)


@formula(
    equation="rear = W x / b, front = W - rear",
    source="statics; moments about the front leg line.",
    unit="lbf",
)
def leg_loads(
    *, weight: float, cg_behind_front_legs: float, leg_base: float
) -> tuple[float, float]:
    """Return what the front pair and the rear pair of legs carry of a weight.

    Args:
        weight: of the unit, W, lbf. Not below 0.
        cg_behind_front_legs: its centre of gravity behind the front leg line, x, in.
        leg_base: front leg line to rear leg line, b, in. More than 0.

    Returns:
        Load of the front pair, then of the rear pair, lbf. One is below 0 where the centre of
        gravity lies outside the legs: the unit doesn't stand by itself.

    Raises:
        ValueError: if a value is not finite, the weight is below 0 or the base not more than 0.

    >>> leg_loads(weight=540.0, cg_behind_front_legs=9.0, leg_base=18.0)
    (270.0, 270.0)
    """
    not_negative(weight=weight)
    finite(cg_behind_front_legs=cg_behind_front_legs)
    positive(leg_base=leg_base)
    rear = weight * cg_behind_front_legs / leg_base
    return weight - rear, rear
