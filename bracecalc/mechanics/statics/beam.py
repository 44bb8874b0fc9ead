"""The outermost board as a beam on the used studs, overhangs included, loaded on edge."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from bracecalc.mechanics.guards import not_negative, positive
from bracecalc.mechanics.statics.sharing import LEFT_END, RIGHT_END, WHOLE_OVERLAP, stud_shares


class BoardActions(NamedTuple):
    """What the board must stand, in the worst of all contacts; positions from the same origin.

    Moments are in-lbf and forces lbf, moments and shears without sign. ``support_moments`` and
    ``support_shears`` are the greatest at each stud in any contact: the screw holes are there.
    ``reactions`` are those of the contact that gives ``moment``, below 0 where a stud holds the
    board down.
    """

    moment: float
    moment_at: float
    moment_case: str
    shear: float
    shear_at: float
    shear_case: str
    support_moments: tuple[float, ...]
    support_shears: tuple[float, ...]
    reactions: tuple[float, ...]


def board_actions(
    *, supports: Sequence[float], left: float, right: float, load: float
) -> BoardActions:
    """Return the greatest moment and shear in the board, whole contact and contact at either end.

    From three studs on the reactions depend on what gives more, board or screws. Both limits are
    worked out, a board on studs that don't give and a board that doesn't bend, and the worse
    counts; the truth lies between them. With two studs they are the same.

    Args:
        supports: spots of the used studs from any one origin, in; rising, at least two.
        left: left end of the contact, in.
        right: right end of the contact, in. More than left.
        load: on the board, F, lbf. Not below 0.

    Returns:
        Greatest bending moment, in-lbf. With it the shear and the values at each stud.

    Raises:
        ValueError: if a value is not finite or out of its range.

    Equation: M_max of F / (right - left) along the contact, of F at its left and at its right end
    Source: beam theory; three-moment theorem for three studs and more.

    >>> actions = board_actions(supports=(8.0, 24.0), left=0.0, right=32.0, load=100.0)
    >>> actions.moment, actions.moment_at, actions.moment_case
    (800.0, 8.0, 'contact at the left end only')
    """
    not_negative(load=load)
    unit = _actions_of_unit_load(tuple(supports), left, right)
    if load == 1.0:
        return unit
    return unit._replace(
        moment=load * unit.moment,
        shear=load * unit.shear,
        support_moments=tuple(load * moment for moment in unit.support_moments),
        support_shears=tuple(load * shear for shear in unit.support_shears),
        reactions=tuple(load * reaction for reaction in unit.reactions),
    )


@lru_cache(maxsize=4096)
def _actions_of_unit_load(supports: tuple[float, ...], left: float, right: float) -> BoardActions:
    if not left < right:
        raise ValueError(f"right must be more than left, got {left!r}, {right!r}")
    found: list[tuple[str, tuple[float, ...], Diagram]] = []
    for case, start, end in (
        (WHOLE_OVERLAP, left, right),
        (LEFT_END, left, left),
        (RIGHT_END, right, right),
    ):
        ways = [beam_reactions(supports=supports, left=start, right=end, load=1.0)]
        if len(supports) > 2:
            ways.append(stud_shares(spots=supports, load=1.0, load_at=(start + end) / 2.0))
        for reactions in ways:
            drawn = beam_diagram(
                supports=supports, reactions=reactions, left=start, right=end, load=1.0
            )
            found.append((case, reactions, drawn))
    bent = max(found, key=lambda each: each[2].moment)
    sheared = max(found, key=lambda each: each[2].shear)
    diagrams = [drawn for _, _, drawn in found]
    return BoardActions(
        moment=bent[2].moment,
        moment_at=bent[2].moment_at,
        moment_case=bent[0],
        shear=sheared[2].shear,
        shear_at=sheared[2].shear_at,
        shear_case=sheared[0],
        support_moments=_greatest([drawn.support_moments for drawn in diagrams]),
        support_shears=_greatest([drawn.support_shears for drawn in diagrams]),
        reactions=bent[1],
    )


def _greatest(rows: Sequence[tuple[float, ...]]) -> tuple[float, ...]:
    return tuple(map(max, zip(*rows, strict=True)))


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

    Equation: f_b = M c / I of the net section; without holes 6 M / (b d^2)
    Source: NDS 2018 3.3.2.1 and 3.1.2, net section (from memory); beam theory.

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


def shear_stress(*, shear: float, breadth: float, depth: float) -> float:
    """Return the greatest shear stress along the grain in a rectangular board.

    Args:
        shear: shear force, V, lbf. Not below 0.
        breadth: thickness of the board, b, in. More than 0.
        depth: height of the board, d, in. More than 0.

    Returns:
        Shear stress, f_v, psi.

    Raises:
        ValueError: if a value is not finite or out of its range.

    Equation: f_v = 3 V / (2 b d)
    Source: NDS 2018 eq. 3.4-2 (from memory).

    >>> shear_stress(shear=350.0, breadth=1.5, depth=3.5)
    100.0
    """
    not_negative(shear=shear)
    positive(breadth=breadth, depth=depth)
    return 1.5 * shear / (breadth * depth)


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

    Equation: V_r' = (2/3) F_v' b d_e (d_e / d)^2 within 5 d of the end, (2/3) F_v' b d_e beyond
    Source: NDS 2018 eq. 3.4-6 and 3.4-7 (from memory).

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


class Diagram(NamedTuple):
    """Greatest moment and shear of one load, where they are, and both at each support."""

    moment: float
    moment_at: float
    shear: float
    shear_at: float
    support_moments: tuple[float, ...]
    support_shears: tuple[float, ...]


def beam_reactions(
    *, supports: Sequence[float], left: float, right: float, load: float
) -> tuple[float, ...]:
    """Return the reactions of a straight beam of one section on supports that don't give.

    Args:
        supports: from any one origin, in; rising, at least two.
        left: where the load begins, in.
        right: where it ends, in; the same as left for a load at one point.
        load: in all, spread evenly, F, lbf.

    Returns:
        Reaction of each support, lbf. Below 0 where it holds the beam against the load's way.

    Raises:
        ValueError: if a value is not finite or out of its range.

    Equation: M_(k-1) L_k + 2 M_k (L_k + L_(k+1)) + M_(k+1) L_(k+1) = -(load terms of both spans)
    Source: Clapeyron's theorem of three moments.

    >>> beam_reactions(supports=(0.0, 10.0, 20.0), left=0.0, right=20.0, load=160.0)
    (30.0, 100.0, 30.0)
    """
    _check_beam(supports, left, right, load)
    spans = [after - here for here, after in pairwise(supports)]
    parts = [_on_span(left, right, load, start, after) for start, after in pairwise(supports)]
    before = _on_span(left, right, load, -math.inf, supports[0])
    beyond = _on_span(left, right, load, supports[-1], math.inf)
    moments = [0.0] * len(supports)
    moments[0] = -before.load * (supports[0] - before.middle)
    moments[-1] = -beyond.load * (beyond.middle - supports[-1])
    _solve_three_moments(spans, parts, moments)
    reactions = [0.0] * len(supports)
    reactions[0] += before.load
    reactions[-1] += beyond.load
    for k, (span, part) in enumerate(zip(spans, parts, strict=True)):
        turned = (moments[k + 1] - moments[k]) / span
        to_right = part.load * (part.middle - supports[k]) / span if part.load else 0.0
        reactions[k] += part.load - to_right + turned
        reactions[k + 1] += to_right - turned
    return tuple(reactions)


class _Part(NamedTuple):
    """The part of the load on one span: its amount, its middle and the two load terms."""

    load: float
    middle: float
    to_left: float
    to_right: float


_NOTHING = _Part(0.0, 0.0, 0.0, 0.0)


def _on_span(left: float, right: float, load: float, start: float, end: float) -> _Part:
    """Cut the load to one span. A load at a support acts on the span to its right, or beyond."""
    if left == right:
        if not start <= left < end:
            return _NOTHING
        if math.isinf(start) or math.isinf(end):
            return _Part(load, left, 0.0, 0.0)
        span = end - start
        near, far = left - start, end - left
        return _Part(
            load,
            left,
            load * far * (span * span - far * far) / span,
            load * near * (span * span - near * near) / span,
        )
    cut_left, cut_right = max(left, start), min(right, end)
    if cut_left >= cut_right:
        return _NOTHING
    line = load / (right - left)
    part, middle = line * (cut_right - cut_left), (cut_left + cut_right) / 2.0
    if math.isinf(start) or math.isinf(end):
        return _Part(part, middle, 0.0, 0.0)
    span = end - start
    return _Part(
        part,
        middle,
        line * (_term(end - cut_left, span) - _term(end - cut_right, span)),
        line * (_term(cut_right - start, span) - _term(cut_left - start, span)),
    )


def _term(distance: float, span: float) -> float:
    """Integral of a (L^2 - a^2) / L from 0 to the distance."""
    square = distance * distance
    return square * (span * span / 2.0 - square / 4.0) / span


def _solve_three_moments(
    spans: Sequence[float], parts: Sequence[_Part], moments: list[float]
) -> None:
    """Fill in the moments over the inner supports; the outer two are given."""
    inner = len(moments) - 2
    diagonal, right_side = [0.0] * inner, [0.0] * inner
    for k in range(inner):
        diagonal[k] = 2.0 * (spans[k] + spans[k + 1])
        right_side[k] = -parts[k].to_right - parts[k + 1].to_left
    if inner:
        right_side[0] -= spans[0] * moments[0]
        right_side[-1] -= spans[-1] * moments[-1]
    for k in range(1, inner):
        factor = spans[k] / diagonal[k - 1]
        diagonal[k] -= factor * spans[k]
        right_side[k] -= factor * right_side[k - 1]
    for k in reversed(range(inner)):
        known = spans[k + 1] * moments[k + 2] if k + 1 < inner else 0.0
        moments[k + 1] = (right_side[k] - known) / diagonal[k]


def beam_diagram(
    *,
    supports: Sequence[float],
    reactions: Sequence[float],
    left: float,
    right: float,
    load: float,
) -> Diagram:
    """Return the greatest moment and shear of a beam whose reactions balance its load.

    Args:
        supports: from any one origin, in; rising, at least two.
        reactions: of the supports, lbf; in the same order, in balance with the load.
        left: where the load begins, in.
        right: where it ends, in; the same as left for a load at one point.
        load: in all, spread evenly, F, lbf.

    Returns:
        Greatest bending moment, in-lbf. With it the shear and the values at each support.

    Raises:
        ValueError: if a value is not finite or out of its range.

    Equation: V(x) = load - reactions to the left of x, M(x) = integral of V
    Source: statics.

    >>> beam_diagram(supports=(0, 10), reactions=(40, 40), left=0, right=10, load=80).moment
    100.0
    """
    _check_beam(supports, left, right, load)
    line = load / (right - left) if right > left else 0.0
    pulls = dict(zip(supports, reactions, strict=True))
    moment = moment_at = shear_at = greatest_moment = shear = greatest_shear = 0.0
    support_moments, support_shears = [], []
    last = min(left, supports[0])
    for place in sorted({*supports, left, right}):
        pressed = line if left <= last < right else 0.0
        step = place - last
        if pressed and shear < 0.0 < shear + pressed * step:  # moment peaks where shear is 0
            peak = abs(moment - shear * shear / (2.0 * pressed))
            if peak > greatest_moment:
                greatest_moment, moment_at = peak, last - shear / pressed
        moment += shear * step + pressed * step * step / 2.0
        shear += pressed * step
        before = shear
        if place == left == right:
            shear += load
        shear -= pulls.get(place, 0.0)
        if abs(moment) > greatest_moment:
            greatest_moment, moment_at = abs(moment), place
        sheared = max(abs(before), abs(shear))
        if sheared > greatest_shear:
            greatest_shear, shear_at = sheared, place
        if place in pulls:
            support_moments.append(abs(moment))
            support_shears.append(sheared)
        last = place
    return Diagram(
        greatest_moment,
        moment_at,
        greatest_shear,
        shear_at,
        tuple(support_moments),
        tuple(support_shears),
    )


def _check_beam(supports: Sequence[float], left: float, right: float, load: float) -> None:
    if len(supports) < 2:
        raise ValueError(f"supports must be at least two, got {supports!r}")
    if not all(map(math.isfinite, (*supports, left, right, load))):
        raise ValueError(f"must be finite, got {supports!r}, {left!r}, {right!r}, load {load!r}")
    if any(here >= after for here, after in pairwise(supports)):
        raise ValueError(f"supports must rise, got {supports!r}")
    if left > right:
        raise ValueError(f"left must not be past right, got {left!r}, {right!r}")
