"""Where screws may stand: edge, end and spacing distances, each member by its own grain.

The board's grain is level, the stud's upright. The unit pushes the board up, so the screws bear
on its wood downward: the bottom edge of the board is the loaded edge.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

SIXTEENTH = 0.0625


class Distances(NamedTuple):
    """Least distances for one diameter, in.

    ``end`` from either end of the board; ``bottom`` and ``top`` from the board's edges;
    ``stud_edge`` from the stud's edges; ``along`` between two in line with the grain of the stud;
    ``across`` between two lines; ``staggered`` the same where the lines are offset by half of
    ``along``. ``one_line`` where two lines can't stand on one stud at all.
    """

    end: float
    bottom: float
    top: float
    stud_edge: float
    along: float
    across: float
    staggered: float
    one_line: bool


def least_distances(*, diameter: float) -> Distances:
    """Return the least distances for a screw, with lead holes.

    Args:
        diameter: of the shank, D, in. More than 0.

    Returns:
        Distances, in.

    Raises:
        ValueError: if the diameter is not finite or not more than 0.

    Equation: D < 1/4 in: end and along 10 D, between lines 3 D (2.5 D staggered), edge 2.5 D,
        stud's edge 1.5 D. D >= 1/4 in: end 4 D, loaded edge 4 D, other edges 1.5 D, along 4 D
    Source: NDS 2018 Commentary table C12.1.5.7, advisory (from memory); NDS 2018 12.5.1 (from memory).

    >>> round(least_distances(diameter=0.19).end, 3), least_distances(diameter=0.25).bottom
    (1.9, 1.0)
    """
    if not 0.0 < diameter < math.inf:
        raise ValueError(f"diameter must be more than 0 in, got {diameter!r}")
    d = diameter
    if d < 0.25:
        return Distances(10 * d, 2.5 * d, 2.5 * d, 1.5 * d, 10 * d, 3 * d, 2.5 * d, False)
    # between lines across the board's grain the rule asks for up to 5 D, more than a stud has
    return Distances(4 * d, 4 * d, 1.5 * d, 1.5 * d, 4 * d, 5 * d, 5 * d, True)


def up(value: float, grid: float = SIXTEENTH) -> float:
    """Return a length rounded up to a mark that a tape has.

    >>> up(0.475), up(0.5)
    (0.5, 0.5)
    """
    return math.ceil(value / grid - 1e-9) * grid


class Slots(NamedTuple):
    """Places for screws on one stud: (from the stud's centre, above the board's underside), in."""

    places: tuple[tuple[float, float], ...]


def stud_slots(
    *, count: int, diameter: float, board_height: float, stud_width: float, uncertainty: float
) -> Slots | None:
    """Return places for screws of all boards that enter one stud, lowest first.

    Small screws zigzag between two lines, each along the stud's grain; screws of 1/4 in and over
    stand in one line. Heights lie on 1/16 in marks.

    Args:
        count: screws of all boards together, at least 1.
        diameter: the greatest shank among them, D, in.
        board_height: of the boards, in.
        stud_width: face of the stud, in.
        uncertainty: of the stud's spot, in; taken off the edge distance on either side.

    Returns:
        The places, or None where the stud and the board have no room for so many.

    Raises:
        ValueError: if a value is not finite or not more than 0.

    Source: the distances of least_distances.

    >>> stud_slots(count=3, diameter=0.19, board_height=3.5, stud_width=1.5, uncertainty=0.0625).places
    ((-0.3125, 0.5), (0.3125, 1.125), (-0.3125, 2.4375))
    >>> stud_slots(count=9, diameter=0.19, board_height=3.5, stud_width=1.5, uncertainty=0.0625)
    """
    least = least_distances(diameter=diameter)
    room = stud_width / 2.0 - uncertainty - least.stud_edge
    if room < 0.0:
        return None
    heights, offset = _zigzag(count, least, room)
    if heights[-1] > board_height - least.top + 1e-9:
        return None
    return Slots(
        tuple(
            (0.0 if offset == 0.0 else offset * (1 if i % 2 else -1), height)
            for i, height in enumerate(heights)
        )
    )


def _zigzag(count: int, least: Distances, room: float) -> tuple[list[float], float]:
    bottom = up(least.bottom)
    along = up(least.along)
    if count == 1:
        return [bottom], 0.0
    for between, step in ((least.across, least.across), (least.staggered, least.along / 2.0)):
        offset = up(between / 2.0) if up(between / 2.0) <= room else between / 2.0
        if not least.one_line and offset <= room + 1e-9:
            first = up(step)
            return [bottom + (i // 2) * along + (i % 2) * first for i in range(count)], offset
    return [bottom + i * along for i in range(count)], 0.0


def heads_clear(
    *,
    places: Sequence[tuple[float, float]],
    heads: Sequence[float],
    diameters: Sequence[float],
) -> bool:
    """Return whether each screw clears the heads of screws placed under it.

    Args:
        places: of the screws of one stud, board by board from the wall outward, in.
        heads: head diameter of each, in.
        diameters: shank of each, in.

    Returns:
        True where every later shank passes beside every earlier head.

    Source: geometry.

    >>> heads_clear(places=((0, 0.5), (0, 0.6)), heads=(0.36, 0.36), diameters=(0.19, 0.19))
    False
    """
    for later in range(len(places)):
        for earlier in range(later):
            distance = math.dist(places[later], places[earlier])
            if distance < (heads[earlier] + diameters[later]) / 2.0 - 1e-9:
                return False
    return True
