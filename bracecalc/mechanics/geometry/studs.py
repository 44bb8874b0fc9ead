"""Which studs a board meets."""

from __future__ import annotations

import math

from bracecalc.mechanics.formula import formula


def layout_spots(*, first: float, spacing: float, width: float) -> tuple[float, ...]:
    """Return the centres of a regular layout that lie within a width.

    Args:
        first: a centre of the layout, from the left side, in.
        spacing: centre to centre, in. More than 0.
        width: of the niche, in.

    Returns:
        Centres from the left side, in, rising; all between 0 and the width.

    Raises:
        ValueError: if a value is not finite or the spacing is not more than 0.

    Source: geometry.

    >>> layout_spots(first=6.0, spacing=16.0, width=33.25)
    (6.0, 22.0)
    >>> layout_spots(first=22.0, spacing=16.0, width=33.25)
    (6.0, 22.0)
    """
    if not 0.0 < spacing < math.inf:
        raise ValueError(f"spacing must be more than 0 in, got {spacing!r}")
    if not (math.isfinite(first) and math.isfinite(width)):
        raise ValueError(f"first and width must be finite, got {first!r}, {width!r}")
    start = first - math.floor(first / spacing) * spacing
    count = math.floor((width - start) / spacing) + 1
    return tuple(start + index * spacing for index in range(count))


@formula(
    equation="sure = floor(usable / spacing)",
    source="geometry.",
)
def sure_studs(*, usable: float, spacing: float) -> int:
    """Return the number of studs met wherever a regular layout starts.

    Args:
        usable: length of board in which a stud's centre counts, in.
        spacing: centre to centre, in. More than 0.

    Returns:
        Number of studs, at least 0. The best case is one more.

    Raises:
        ValueError: if a value is not finite or the spacing is not more than 0.

    >>> sure_studs(usable=29.2, spacing=16.0), sure_studs(usable=32.0, spacing=16.0)
    (1, 2)
    """
    if not 0.0 < spacing < math.inf or not math.isfinite(usable):
        raise ValueError(f"spacing must be more than 0 in, got {spacing!r}, {usable!r}")
    return max(0, math.floor(usable / spacing + 1e-9))


def least_favourable_spots(
    *, left: float, usable: float, spacing: float, count: int
) -> tuple[float, ...]:
    """Return the sure studs of a layout of unknown start where they stand farthest to one side.

    With exactly the sure number met, the first stud lies at most one spacing in from the end of
    the usable length: there the load on the free end is farthest from the screws.

    Args:
        left: start of the usable length, in.
        usable: length of board in which a stud's centre counts, in.
        spacing: centre to centre, in.
        count: sure number of studs.

    Returns:
        Centres, in, rising.

    Source: geometry.

    >>> least_favourable_spots(left=2.0, usable=40.0, spacing=16.0, count=2)
    (18.0, 34.0)
    """
    first = left + min(spacing, usable - (count - 1) * spacing)
    return tuple(first + index * spacing for index in range(count))
