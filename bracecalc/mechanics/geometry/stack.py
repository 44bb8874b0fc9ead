"""How deep the boards must stand out from the wall."""

from __future__ import annotations

import math

from bracecalc.mechanics.formula import formula


@formula(
    equation="rear gap = niche depth - unit depth + proud",
    source="geometry.",
    unit="in",
)
def rear_gap(*, niche_depth: float, unit_depth: float, proud: float) -> float:
    """Return the space between the rear of the housing and the finished wall.

    Args:
        niche_depth: front reference plane to the finished rear wall, in.
        unit_depth: front reference plane to the rear of the housing's top, in.
        proud: how far the unit's front plane stands out of the niche's; recessed below 0, in.

    Returns:
        Gap, in. Below 0 where the unit can't go back so far.

    Raises:
        ValueError: if a value is not finite.

    >>> rear_gap(niche_depth=24.75, unit_depth=23.125, proud=0.0)
    1.625
    """
    gap = niche_depth - unit_depth + proud
    if not math.isfinite(gap):
        raise ValueError(f"depths must be finite, got {niche_depth!r}, {unit_depth!r}, {proud!r}")
    return gap


@formula(
    equation="overlap = n t - rear gap",
    source="geometry.",
    unit="in",
)
def overlap_obtained(*, projection: float, rear_gap: float) -> float:
    """Return how far the boards reach over the housing.

    Args:
        projection: finished wall to the face of the outermost board, n t, in.
        rear_gap: finished wall to the rear of the housing, in.

    Returns:
        Overlap, in. Below 0 where the boards don't reach the housing.

    Raises:
        ValueError: if a value is not finite.

    >>> overlap_obtained(projection=4.5, rear_gap=1.625)
    2.875
    """
    overlap = projection - rear_gap
    if not math.isfinite(overlap):
        raise ValueError(f"lengths must be finite, got {projection!r}, {rear_gap!r}")
    return overlap


@formula(
    equation="n = ceil(projection / t)",
    source="geometry.",
)
def boards_needed(*, projection: float, thickness: float) -> int:
    """Return the least number of equal boards that project so far.

    Args:
        projection: the least that they must stand out from the wall, in.
        thickness: of one board, t, in. More than 0.

    Returns:
        Number of boards, at least 1.

    Raises:
        ValueError: if a value is not finite or the thickness is not more than 0.

    >>> boards_needed(projection=3.6875, thickness=1.5)
    3
    """
    if not 0.0 < thickness < math.inf or not math.isfinite(projection):
        raise ValueError(f"thickness must be more than 0 in, got {thickness!r}, {projection!r}")
    # a sum of readings in 1/16 in or mm is off by the last bit at most
    return max(1, math.ceil(projection / thickness - 1e-9))
