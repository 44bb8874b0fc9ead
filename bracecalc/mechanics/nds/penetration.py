"""How far a screw reaches into the framing, and how much of it counts: tip, thread, bearing."""

from __future__ import annotations

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import finite, positive

# Lag screw: nominal diameter D, in; length of the tapered tip E, in. NDS 2018 Appendix L table
# L2, from memory; only 5/16 in for 1/2 in was seen second hand.
_LAG_TIPS = (
    (1 / 4, 5 / 32),
    (5 / 16, 3 / 16),
    (3 / 8, 7 / 32),
    (7 / 16, 9 / 32),
    (1 / 2, 5 / 16),
    (5 / 8, 13 / 32),
    (3 / 4, 1 / 2),
    (7 / 8, 19 / 32),
    (1.0, 11 / 16),
    (1 + 1 / 8, 25 / 32),
    (1 + 1 / 4, 7 / 8),
)


@formula(
    equation="E = 2 D",
    source="NDS 2018 Appendix L table L3, footnote 6 (second hand).",
    unit="in",
)
def screw_tip_length(*, diameter: float) -> float:
    """Return the length of the tapered tip of a wood screw.

    Args:
        diameter: nominal, D, in.

    Returns:
        Tip length E, in.

    Raises:
        ValueError: if the diameter is not finite or not more than 0.

    >>> screw_tip_length(diameter=0.190)
    0.38
    """
    positive(diameter=diameter)
    return 2.0 * diameter


@formula(
    equation=(
        "E = 5/32, 3/16, 7/32, 9/32, 5/16, 13/32, 1/2, 19/32, 11/16, 25/32, 7/8 in for D = 1/4, "
        "5/16, 3/8, 7/16, 1/2, 5/8, 3/4, 7/8, 1, 1-1/8, 1-1/4 in"
    ),
    source="NDS 2018 Appendix L table L2 (from memory; 5/16 in for 1/2 in second hand).",
    unit="in",
)
def lag_tip_length(*, diameter: float) -> float:
    """Return the length of the tapered tip of a lag screw.

    Args:
        diameter: nominal, D, in; up to 1-1/4.

    Returns:
        Tip length E, in. A diameter between two sizes has the tip of the larger one.

    Raises:
        ValueError: if the diameter is not finite, not more than 0, or more than 1-1/4 in.

    >>> lag_tip_length(diameter=0.5)
    0.3125
    """
    positive(diameter=diameter)
    for size, tip in _LAG_TIPS:
        if diameter <= size:
            return tip
    raise ValueError(f"diameter must be at most 1-1/4 in, got {diameter!r}")


@formula(
    equation="T = 2 L / 3",
    source=(
        "NDS 2018 Appendix L table L3, footnote 2 (second hand; two-thirds also seen in "
        'Building Design and Construction Handbook, "Wood Screws").'
    ),
    unit="in",
)
def wood_screw_thread_length(*, length: float) -> float:
    """Return the thread length of a cut-thread wood screw whose maker gives none.

    Args:
        length: of the screw, L, in.

    Returns:
        Thread length T, tip included, in.

    Raises:
        ValueError: if the length is not finite or not more than 0.

    >>> wood_screw_thread_length(length=3.0)
    2.0
    """
    positive(length=length)
    return 2.0 * length / 3.0


@formula(
    equation="T = min(6, L/2 + 1/2, L)",
    source="NDS 2018 Appendix L table L2 (from memory).",
    unit="in",
)
def lag_screw_thread_length(*, length: float) -> float:
    """Return the least thread length of a lag screw.

    Args:
        length: of the screw, L, in.

    Returns:
        Thread length T, tip included, in. Not more than L.

    Raises:
        ValueError: if the length is not finite or not more than 0.

    >>> lag_screw_thread_length(length=4.0)
    2.5
    """
    positive(length=length)
    return min(6.0, length / 2.0 + 0.5, length)


@formula(
    equation="l_m = p for p >= 10 D, else p - E/2 with E = 2 D",
    source="NDS 2018 12.3.5.3 (from memory).",
    unit="in",
)
def bearing_length(*, penetration: float, diameter: float) -> float:
    """Return the dowel bearing length of a wood screw in the main member.

    For a lag screw the bearing length is the penetration without the tip.

    Args:
        penetration: tip included, p, in. At least the tip, 2 D.
        diameter: nominal, D, in.

    Returns:
        Bearing length l_m, in.

    Raises:
        ValueError: if a value is not finite or not more than 0, or p less than the tip.

    >>> bearing_length(penetration=1.5, diameter=0.190)
    1.31
    """
    positive(penetration=penetration, diameter=diameter)
    tip = screw_tip_length(diameter=diameter)
    if penetration < tip:
        raise ValueError(f"penetration must be at least the tip, {tip!r} in, got {penetration!r}")
    return penetration if penetration >= 10.0 * diameter else penetration - tip / 2.0


@formula(
    equation="p = L - (boards - counterbore) - wall build-up - washer",
    source="geometry.",
    unit="in",
)
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

    >>> embedment(length=3.5, under_head=1.5, build_up=0.5, washer=0.0)
    1.5
    """
    finite(length=length, under_head=under_head, build_up=build_up, washer=washer)
    return length - under_head - build_up - washer


@formula(
    equation="p >= max(rule, 6 D); lag screws p >= max(rule, 4 D + E)",
    source="NDS 2018 12.1.5.6 and 12.1.4.6 (from memory); 1-1/2 in, common practice.",
    unit="in",
)
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

    >>> least_embedment(wanted=1.5, diameter=0.19, tip=0.38, lag=False)
    1.5
    >>> least_embedment(wanted=1.5, diameter=0.375, tip=0.25, lag=True)
    1.75
    """
    finite(wanted=wanted, diameter=diameter, tip=tip)
    return max(wanted, 4.0 * diameter + tip if lag else 6.0 * diameter)
