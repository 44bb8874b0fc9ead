"""Length of screw that the boards, the wall and the hold in the stud take up."""

from __future__ import annotations

from bracecalc.mechanics.guards import finite


def embedment(*, length: float, under_head: float, build_up: float, washer: float) -> float:
    """Return the length of screw inside the framing, tip included.

    Args:
        length: of the screw, L, in.
        under_head: wood between the head and the wall: boards less counterbore, in.
        build_up: of the wall between the boards and the framing, in.
        washer: thickness of the washer under the head, 0 for none, in.

    Returns:
        Embedment, p, in. Below 0 where the screw ends short of the framing.

    Raises:
        ValueError: if a value is not finite.

    Equation: p = L - (boards - counterbore) - wall build-up - washer
    Source: geometry.

    >>> embedment(length=3.5, under_head=1.5, build_up=0.5, washer=0.0)
    1.5
    """
    finite(length=length, under_head=under_head, build_up=build_up, washer=washer)
    return length - under_head - build_up - washer


def least_embedment(*, wanted: float, diameter: float, tip: float, lag: bool) -> float:
    """Return the embedment that a screw must have at least.

    Args:
        wanted: by the rule of the job, in.
        diameter: of the shank, D, in.
        tip: length of the tapered tip, E, in; used for lag screws.
        lag: whether it is a lag screw, whose tip does not count.

    Returns:
        Embedment, in.

    Raises:
        ValueError: if a value is not finite.

    Equation: p >= max(rule, 6 D); lag screws p >= max(rule, 4 D + E)
    Source: NDS 2018 12.1.5.6 and 12.1.4.6 (from memory); 1-1/2 in, common practice.

    >>> least_embedment(wanted=1.5, diameter=0.19, tip=0.38, lag=False)
    1.5
    >>> least_embedment(wanted=1.5, diameter=0.375, tip=0.25, lag=True)
    1.75
    """
    finite(wanted=wanted, diameter=diameter, tip=tip)
    return max(wanted, 4.0 * diameter + tip if lag else 6.0 * diameter)
