"""The outermost board as a beam between the housing and its screws, loaded on edge."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import not_negative, positive


class Diagram(NamedTuple):
    """What a board stands, without sign: its greatest moment, and the shear beside each support."""

    moment: float
    moment_at: float
    shears: tuple[float, ...]


@formula(
    equation="V(x) = loads - reactions to the left of x, M(x) = integral of V",
    source="statics.",
    unit="in-lbf",
)
def beam_diagram(
    *,
    supports: Sequence[float],
    reactions: Sequence[float],
    loads: Sequence[tuple[float, float]],
) -> Diagram:
    """Return the greatest moment of a beam in balance, and the shear beside each support.

    Args:
        supports: from any one origin, in; rising.
        reactions: of the supports, lbf, in the same order; below 0 where one pushes.
        loads: each its place, in, and its force, lbf, against the reactions.

    Returns:
        Greatest bending moment, in-lbf. With it its place and the greatest shear on either side of
        each support, lbf.

    Raises:
        ValueError: if a value is not finite, or loads and reactions are not in balance.

    >>> beam_diagram(supports=(0.0, 10.0), reactions=(50.0, 50.0), loads=((5.0, 100.0),)).moment
    250.0
    """
    pulls = dict(zip(supports, reactions, strict=True))
    pushed: dict[float, float] = {}
    for place, force in loads:
        pushed[place] = pushed.get(place, 0.0) + force
    numbers = (*supports, *reactions, *pushed, *pushed.values())
    if not supports or not all(map(math.isfinite, numbers)):
        raise ValueError(f"must be finite, got {supports!r}, {reactions!r}, {loads!r}")
    greatest = greatest_at = moment = shear = 0.0
    shears = {}
    places = sorted({*supports, *pushed})
    last = places[0]
    for place in places:
        moment += shear * (place - last)
        if abs(moment) > greatest:
            greatest, greatest_at = abs(moment), place
        before = shear
        shear += pushed.get(place, 0.0) - pulls.get(place, 0.0)
        if place in pulls:
            shears[place] = max(abs(before), abs(shear))
        last = place
    total = sum(map(abs, reactions)) + sum(map(abs, pushed.values()))
    length = places[-1] - places[0]
    if abs(shear) > 1e-6 * total or abs(moment) > 1e-6 * total * max(length, 1.0):
        raise ValueError(f"not in balance: {supports!r}, {reactions!r}, {loads!r}")
    return Diagram(greatest, greatest_at, tuple(shears[spot] for spot in supports))


@formula(
    equation=(
        "F at its place; or F (right - at) / (right - left) at the left end and the rest at the "
        "right"
    ),
    source="statics; Jensen's inequality.",
    unit="lbf",
)
def contact_spreads(
    *, at: float, left: float, right: float
) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Return the two extreme ways in which one pound with its middle at a place may be spread.

    Of all spreads over the overlap with one middle, bending anywhere is greatest for the whole
    force at that place or for the force shared by both ends: it goes with the mean of a function
    that is bent one way, whose extremes are these two.

    Args:
        at: middle of the force, from any one origin, in; from left to right.
        left: left end of the overlap, in.
        right: right end, in. More than left.

    Returns:
        Two spreads, each of pairs of place, in, and force, lbf.

    Raises:
        ValueError: if the places are not finite or not in their order.

    >>> contact_spreads(at=8.0, left=0.0, right=32.0)
    (((8.0, 1.0),), ((0.0, 0.75), (32.0, 0.25)))
    """
    if not (left < right and left <= at <= right and math.isfinite(right - left)):
        raise ValueError(f"must be left <= at <= right, got {left!r}, {at!r}, {right!r}")
    to_left = (right - at) / (right - left)
    return ((at, 1.0),), ((left, to_left), (right, 1.0 - to_left))


@formula(
    equation="f_b = M c / I of the net section; without holes 6 M / (b d^2)",
    source="NDS 2018 3.3.2.1 and 3.1.2, net section (from memory); beam theory.",
    unit="psi",
)
def bending_stress(
    *,
    moment: float,
    breadth: float,
    depth: float,
    hole: float = 0.0,
    hole_heights: Sequence[float] = (),
) -> float:
    """Return the greatest bending stress in a board on edge, less the holes through its breadth.

    Args:
        moment: bending moment, M, in-lbf. Not below 0.
        breadth: thickness of the board, level, b, in. More than 0.
        depth: height of the board, upright, d, in. More than 0.
        hole: diameter of each hole, D_h, in. Less than the depth.
        hole_heights: of the holes' centres above the bottom edge, y_k, in; apart by D_h at least.

    Returns:
        Bending stress at the outermost fibre, f_b, psi.

    Raises:
        ValueError: if a value is not finite or out of its range, or no wood is left.

    >>> bending_stress(moment=1000.0, breadth=1.5, depth=3.5)
    326.53
    """
    not_negative(moment=moment)
    positive(breadth=breadth, depth=depth)
    if not 0.0 <= hole < depth or not all(0.0 <= height <= depth for height in hole_heights):
        raise ValueError(f"holes must lie in the board, got {hole!r} at {hole_heights!r}")
    fibre, unit_inertia = _net_section(depth, hole, tuple(hole_heights))
    return moment * fibre / (breadth * unit_inertia)


@lru_cache(maxsize=1024)
def _net_section(depth: float, hole: float, heights: tuple[float, ...]) -> tuple[float, float]:
    """Return the outermost fibre's distance, in, and the inertia of 1 in of breadth, in^3."""
    cut = [(max(0.0, y - hole / 2.0), min(depth, y + hole / 2.0)) for y in heights]
    area = depth - sum(high - low for low, high in cut)
    if area <= 0.0:
        raise ValueError(f"no wood is left, got {hole!r} at {heights!r}")
    first = depth**2 / 2.0 - sum(high**2 - low**2 for low, high in cut) / 2.0
    second = depth**3 / 3.0 - sum(high**3 - low**3 for low, high in cut) / 3.0
    centroid = first / area
    return max(centroid, depth - centroid), second - area * centroid**2


@formula(
    equation="V_r' = (2/3) F_v' b d_e (d_e / d)^2 within 5 d of the end, (2/3) F_v' b d_e beyond",
    source="NDS 2018 eq. 3.4-6 and 3.4-7 (from memory).",
    unit="lbf",
)
def connection_shear_capacity(
    *,
    shear_strength: float,
    breadth: float,
    depth: float,
    effective_depth: float,
    from_end: float,
) -> float:
    """Return the shear that a board holds beside the screws that carry it.

    The unit pushes the board up and the screws hold it down, so the wood between the bottom edge
    and the topmost screw carries the shear. Near an end the board may split along its screws.

    Args:
        shear_strength: adjusted design value along the grain, F_v', psi. More than 0.
        breadth: thickness of the board, b, in. More than 0.
        depth: height of the board, d, in. More than 0.
        effective_depth: depth less the distance from the unloaded (top) edge to the nearest
            screw's centre, d_e, in. More than 0, at most the depth.
        from_end: of the screws from the nearer end of the board, in. Not below 0.

    Returns:
        Adjusted design shear, V_r', lbf.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> connection_shear_capacity(
    ...     shear_strength=135.0, breadth=1.5, depth=4.0, effective_depth=2.0, from_end=20.0)
    270.0
    >>> connection_shear_capacity(
    ...     shear_strength=135.0, breadth=1.5, depth=4.0, effective_depth=2.0, from_end=19.0)
    67.5
    """
    not_negative(from_end=from_end)
    positive(shear_strength=shear_strength, breadth=breadth, depth=depth)
    if not 0.0 < effective_depth <= depth:
        raise ValueError(f"effective_depth must be in the board, got {effective_depth!r}")
    plain = 2.0 / 3.0 * shear_strength * breadth * effective_depth
    return plain if from_end >= 5.0 * depth else plain * (effective_depth / depth) ** 2
