"""How the load on the stack comes down to studs, rows of screws and the finish.

A 2x4 on edge bends a few thousandths of an inch between two studs where its screws slip by a
hundredth and more, so the stack is taken as stiff and the studs share by distance.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from bracecalc.mechanics.guards import finite, not_negative, positive

WHOLE_OVERLAP = "contact along the whole overlap"
LEFT_END = "contact at the left end only"
RIGHT_END = "contact at the right end only"


_STEPS = 500  # of a depth that creeps up to a balance; one that needs more has none to speak of


class GoverningShare(NamedTuple):
    """The greatest load that any stud takes, lbf; which stud, from 0; and in which contact."""

    share: float
    stud: int
    case: str


def stud_shares(*, spots: Sequence[float], load: float, load_at: float) -> tuple[float, ...]:
    """Return what each stud takes of a load on a stiff stack.

    Between the outermost studs the stack only pushes: a negative share is clipped and the rest is
    shared again, which leaves forces and moments in balance and gives the nearest studs more than
    sharing with tension would. Outside the outermost stud pushing alone can't balance the moment.
    Screws hold in shear both ways, so the stack turns about that stud and the others hold it
    down in proportion to their distance s from it, as rows of screws do in prying: that stud takes
    more than the whole load. Both rules give the same at the stud itself. A single stud takes all;
    then nothing balances the moment.

    Args:
        spots: of the used studs from any one origin, in; rising.
        load: on the stack, F, lbf. Not below 0.
        load_at: where it acts, from the same origin, in.

    Returns:
        Share of each stud in the order of the spots, lbf. Below 0 where it holds the stack down.

    Raises:
        ValueError: if a value is not finite, the load is below 0, or the spots don't rise.

    Equation: F_i = F / m + F ec x_i / sum(x^2); d outside the last stud: F_i = -F d s_i / sum(s^2)
    Source: statics of a rigid body on equal springs.

    >>> stud_shares(spots=(0.0, 16.0), load=100.0, load_at=4.0)
    (75.0, 25.0)
    >>> stud_shares(spots=(0.0, 16.0), load=100.0, load_at=20.0)
    (-25.0, 125.0)
    """
    _check_spots(spots)
    not_negative(load=load)
    finite(load_at=load_at)
    if len(spots) == 1:
        return (load,)
    if load_at < spots[0] or load_at > spots[-1]:
        return _overhang_shares(spots, load, load_at)
    first, last = 0, len(spots)
    while True:
        shares = _rigid_shares(spots[first:last], load, load_at)
        # shares run straight along the stack, so only an end can be the most negative
        if shares[0] < 0.0 and shares[0] <= shares[-1]:
            first += 1
        elif shares[-1] < 0.0:
            last -= 1
        else:
            return (0.0,) * first + shares + (0.0,) * (len(spots) - last)


def governing_share(
    *, spots: Sequence[float], load: float, left: float, right: float
) -> GoverningShare:
    """Return the greatest share of any stud, whole contact and contact at either end.

    A stack or a top that is out of level touches at one end only; the whole load is then there.

    Args:
        spots: of the used studs from any one origin, in; rising.
        load: on the stack, F, lbf. Not below 0.
        left: left end of the contact, from the same origin, in.
        right: right end of the contact, in. More than left.

    Returns:
        Greatest share, lbf.

    Raises:
        ValueError: if a value is not finite or out of its range.

    Equation: F_i = F / m + F ec x_i / sum(x^2) between the studs, F_i = F (1 + d sum(s) / sum(s^2))
        with the contact d outside the last stud; the greatest of all studs and contacts
    Source: statics of a rigid body on equal springs.

    >>> governing_share(spots=(8.0, 24.0), load=100.0, left=0.0, right=32.0)
    GoverningShare(share=150.0, stud=0, case='contact at the left end only')
    """
    return _governing(tuple(spots), load, left, right)


@lru_cache(maxsize=4096)
def _governing(spots: tuple[float, ...], load: float, left: float, right: float) -> GoverningShare:
    if not left < right:
        raise ValueError(f"right must be more than left, got {left!r}, {right!r}")
    found = []
    contacts = ((WHOLE_OVERLAP, (left + right) / 2.0), (LEFT_END, left), (RIGHT_END, right))
    for case, place in contacts:
        shares = stud_shares(spots=spots, load=load, load_at=place)
        stud = max(range(len(shares)), key=shares.__getitem__)
        # + 0.0: of no load at all the share is 0.0 and not -0.0, whose angle would be -180 degrees
        found.append(GoverningShare(share=shares[stud] + 0.0, stud=stud, case=case))
    return max(found, key=lambda governing: governing.share)


def prying_moment(*, share: float, out_from_wall: float) -> float:
    """Return the moment at one stud that turns the stack up about its top edge on the wall.

    Args:
        share: of the stud, F_i, lbf.
        out_from_wall: where it acts, from the finished wall, e, in.

    Returns:
        Moment, M, in-lbf.

    Raises:
        ValueError: if a value is not finite.

    Equation: M = F_i e
    Source: statics.

    >>> prying_moment(share=100.0, out_from_wall=3.0)
    300.0
    """
    finite(share=share, out_from_wall=out_from_wall)
    return share * out_from_wall


def row_tensions(*, moment: float, depths: Sequence[float]) -> tuple[float, ...]:
    """Return the tension in each row of screws at one stud from the prying moment.

    Args:
        moment: about the pivot, M, in-lbf. Not below 0.
        depths: of the rows below the pivot, y, in. A row at or above it holds nothing.

    Returns:
        Tension of each row in the order of the depths, lbf.

    Raises:
        ValueError: if a value is not finite, the moment is below 0 or no row lies below the pivot.

    Equation: T_j = M y_j / sum(y^2)
    Source: statics of a stiff board that turns about its top edge.

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

    Equation: p = 2 sum(T) / (3 y_0 w)
    Source: statics; triangle of pressure with its force at the pivot.

    >>> pivot_bearing(tension_sum=180.0, width=1.5, depth=0.25)
    320.0
    """
    not_negative(tension_sum=tension_sum)
    positive(width=width, depth=depth)
    return 2.0 * tension_sum / (3.0 * depth * width)


def _rigid_shares(spots: Sequence[float], load: float, load_at: float) -> tuple[float, ...]:
    count = len(spots)
    centroid = sum(spots) / count
    squares = sum((spot - centroid) ** 2 for spot in spots)
    if squares == 0.0:
        return (load,)
    slope = load * (load_at - centroid) / squares
    return tuple(load / count + slope * (spot - centroid) for spot in spots)


def _overhang_shares(spots: Sequence[float], load: float, load_at: float) -> tuple[float, ...]:
    outermost = 0 if load_at < spots[0] else len(spots) - 1
    outside = abs(load_at - spots[outermost])
    arms = [abs(spot - spots[outermost]) for spot in spots]
    turning = load * outside / sum(arm * arm for arm in arms)
    shares = [-turning * arm for arm in arms]
    shares[outermost] = load - sum(shares)
    return tuple(shares)


def _check_spots(spots: Sequence[float]) -> None:
    if not spots or not all(map(math.isfinite, spots)):
        raise ValueError(f"spots must be finite and at least one, got {spots!r}")
    if any(here >= after for here, after in pairwise(spots)):
        raise ValueError(f"spots must rise, got {spots!r}")
