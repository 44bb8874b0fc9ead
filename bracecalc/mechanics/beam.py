"""The outermost board as a beam on the used studs, overhangs included, loaded on edge."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from bracecalc.mechanics.continuous import Diagram, beam_diagram, beam_reactions
from bracecalc.mechanics.guards import not_negative, positive
from bracecalc.mechanics.sharing import LEFT_END, RIGHT_END, WHOLE_OVERLAP, stud_shares


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
