"""Where the housing bears on the stack: the points at which demand and capacity are a pair."""

from __future__ import annotations

from enum import StrEnum

from bracecalc.mechanics.guards import finite


class FrontToBack(StrEnum):
    """Where the restraint force acts, out from the wall."""

    OUTER_EDGE = "outer edge of the boards"
    MIDDLE = "middle of the overlap"


class Along(StrEnum):
    """Where the restraint force acts along the boards."""

    LEFT_END = "left end"
    LEFT_QUARTER = "left quarter"
    MIDDLE = "middle"
    RIGHT_QUARTER = "right quarter"
    RIGHT_END = "right end"


def contact_points(*, left: float, right: float, one_end: bool) -> dict[Along, float]:
    """Return the points along the overlap at which the restraint force counts.

    Paper that just drags at both ends shows contact at both: the force then lies between the
    quarter points. Where one end keeps a gap the whole force may come at the other.

    Args:
        left: left end of the overlap, from any one origin, in.
        right: right end, in. More than left.
        one_end: whether the housing may touch at one end alone.

    Returns:
        Place of each point, from the same origin, in.

    Raises:
        ValueError: if a value is not finite or right is not more than left.

    Source: common practice, shown by a rigid unit on its legs under a stack on springs.

    >>> list(contact_points(left=0.0, right=32.0, one_end=False).values())
    [8.0, 16.0, 24.0]
    """
    finite(left=left, right=right)
    if not left < right:
        raise ValueError(f"right must be more than left, got {left!r}, {right!r}")
    middle = (left + right) / 2.0
    if one_end:
        return {Along.LEFT_END: left, Along.MIDDLE: middle, Along.RIGHT_END: right}
    quarter = (right - left) / 4.0
    return {
        Along.LEFT_QUARTER: left + quarter,
        Along.MIDDLE: middle,
        Along.RIGHT_QUARTER: right - quarter,
    }
