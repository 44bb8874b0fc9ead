"""How the load on the stack comes down to studs, rows of screws and the finish.

A 2x4 on edge bends a few thousandths of an inch between two studs where its screws slip by a
hundredth and more, so the stack is taken as stiff and the studs share as equal springs.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import combinations, pairwise

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import finite, not_negative, positive

MOST_FOR_SUBSETS = 8  # studs of one stack; more are counted by runs of neighbours


@formula(
    equation="F_i = F / m + F ec x_i / sum(x^2), x and ec from the centroid of the studs",
    source="statics of a rigid body on equal springs.",
    unit="lbf",
)
def stud_shares(*, spots: Sequence[float], load: float, load_at: float) -> tuple[float, ...]:
    """Return what each stud takes of a load on a stiff stack.

    The screws of a stud hold up and down alike, so that a stud on the far side of a load that
    stands outside the last stud holds the stack down: its share is negative, and its size counts.
    A single stud takes all; then nothing balances the moment.

    Args:
        spots: of the studs that are counted on, from any one origin, in; rising.
        load: on the stack, F, lbf. Not below 0.
        load_at: where it acts, from the same origin, in.

    Returns:
        Share of each stud in the order of the spots, lbf. Below 0 where it holds the stack down.

    Raises:
        ValueError: if a value is not finite, the load is below 0, or the spots don't rise.

    >>> stud_shares(spots=(0.0, 16.0), load=100.0, load_at=4.0)
    (75.0, 25.0)
    >>> stud_shares(spots=(0.0, 16.0), load=100.0, load_at=20.0)
    (-25.0, 125.0)
    """
    _check_spots(spots)
    not_negative(load=load)
    finite(load_at=load_at)
    count = len(spots)
    if count == 1:
        return (load,)
    centroid = sum(spots) / count
    squares = sum((spot - centroid) ** 2 for spot in spots)
    slope = load * (load_at - centroid) / squares
    return tuple(load / count + slope * (spot - centroid) for spot in spots)


def subsets(spots: Sequence[float]) -> Iterator[tuple[float, ...]]:
    """Yield the sets of at least two studs by which a stack may be counted, all of them first.

    Any equilibrium that every part can carry is a safe lower bound of what a stack holds, so that
    studs may be left out of the count: one stud more never lowers the best of the sets.

    Args:
        spots: of the studs met, in; rising.

    Source: lower bound theorem of limit analysis.

    >>> list(subsets((4.0, 16.0, 28.0)))
    [(4.0, 16.0, 28.0), (4.0, 16.0), (4.0, 28.0), (16.0, 28.0)]
    """
    count = len(spots)
    if count > MOST_FOR_SUBSETS:
        for size in range(count, 1, -1):
            for first in range(count - size + 1):
                yield tuple(spots[first : first + size])
        yield from (pair for pair in combinations(spots, 2))
        return
    for size in range(count, 1, -1):
        yield from combinations(spots, size)


@formula(
    equation="M = F_i (e + g / 2)",
    source="statics; the gap's moment shared by both ends of the screw.",
    unit="in-lbf",
)
def prying_moment(*, share: float, out_from_wall: float, gap: float) -> float:
    """Return the moment at one stud that turns the stack up about its top edge on the wall.

    A screw that crosses a gap bends on both sides of it and so passes half of its shear's moment
    over the gap into the stack.

    Args:
        share: of the stud, F_i, lbf.
        out_from_wall: where it acts, from the wall's face, e, in.
        gap: between the back of the stack and the stud that is not wood, g, in. Not below 0.

    Returns:
        Moment, M, in-lbf.

    Raises:
        ValueError: if a value is not finite, or the gap below 0.

    >>> prying_moment(share=100.0, out_from_wall=3.0, gap=0.5)
    325.0
    """
    finite(share=share, out_from_wall=out_from_wall)
    not_negative(gap=gap)
    return share * (out_from_wall + gap / 2.0)


@formula(
    equation="T_j = M y_j / sum(y^2)",
    source="statics of a stiff board that turns about its top edge.",
    unit="lbf",
)
def row_tensions(*, moment: float, depths: Sequence[float]) -> tuple[float, ...]:
    """Return the tension in each row of screws at one stud from the prying moment.

    Args:
        moment: about the pivot, M, in-lbf. Not below 0.
        depths: of the rows below the pivot, y, in. A row at or above it holds nothing.

    Returns:
        Tension of each row in the order of the depths, lbf.

    Raises:
        ValueError: if a value is not finite, the moment is below 0 or no row lies below the pivot.

    >>> row_tensions(moment=300.0, depths=(1.0, 2.0))
    (60.0, 120.0)
    """
    return _tensions(moment, tuple(depths))


@lru_cache(maxsize=1024)
def _tensions(moment: float, depths: tuple[float, ...]) -> tuple[float, ...]:
    not_negative(moment=moment)
    for depth in depths:
        finite(depth=depth)
    below = [max(0.0, depth) for depth in depths]
    squares = sum(depth * depth for depth in below)
    if squares <= 0.0:
        raise ValueError(f"at least one row must lie below the pivot, got {depths!r}")
    return tuple(moment * depth / squares for depth in below)


@formula(
    equation="p = 2 sum(T) / (3 y_0 w)",
    source="statics; triangle of pressure with its force at the pivot.",
    unit="psi",
)
def pivot_bearing(*, tension_sum: float, width: float, depth: float) -> float:
    """Return the greatest pressure on the finish under the top edge of the stack at one stud.

    The pressure is taken as a triangle, greatest at the top edge, whose middle of force is the
    pivot that the depths of the rows are measured from: it then reaches 3 depths down. Only the
    strip of finish that the stud backs counts.

    Args:
        tension_sum: of all rows at the stud, sum T, lbf. Not below 0.
        width: of the strip that the stud backs, w, in. More than 0.
        depth: of the pivot below the top edge, y_0, in. More than 0.

    Returns:
        Greatest pressure, psi.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> pivot_bearing(tension_sum=180.0, width=1.5, depth=0.25)
    320.0
    """
    not_negative(tension_sum=tension_sum)
    positive(width=width, depth=depth)
    return 2.0 * tension_sum / (3.0 * depth * width)


def _check_spots(spots: Sequence[float]) -> None:
    if not spots or not all(map(math.isfinite, spots)):
        raise ValueError(f"spots must be finite and at least one, got {spots!r}")
    if any(here >= after for here, after in pairwise(spots)):
        raise ValueError(f"spots must rise, got {spots!r}")
