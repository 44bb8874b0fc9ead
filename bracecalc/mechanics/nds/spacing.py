"""Where screws may stand: edge, end and spacing distances, each member by its own grain.

The board's grain is level, the stud's upright. The unit pushes the board up, so the screws bear
on its wood downward: the bottom edge of the board is the loaded edge.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from bracecalc.mechanics.formula import formula

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


@formula(
    equation=(
        "D < 1/4 in: end and along 10 D, between lines 3 D (2.5 D staggered), edge 2.5 D, "
        "stud's edge 1.5 D. D >= 1/4 in: end 4 D, loaded edge 4 D, other edges 1.5 D, along 4 D"
    ),
    source="NDS 2018 Commentary table C12.1.5.7, advisory; NDS 2018 12.5.1 (both from memory).",
    unit="in",
)
def least_distances(*, diameter: float) -> Distances:
    """Return the least distances for a screw, with lead holes.

    Args:
        diameter: of the shank, D, in. More than 0.

    Returns:
        Distances, in.

    Raises:
        ValueError: if the diameter is not finite or not more than 0.

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


@formula(
    equation="end 7 d, loaded edge 4 d, other edges 3 d, along 5 d",
    source="EN 1995-1-1:2004 table 8.4 by 8.7.1 (from memory).",
    unit="in",
)
def least_distances_eurocode(*, diameter: float) -> Distances:
    """Return the least distances for a coach screw by Eurocode 5, as for bolts.

    The load is across the board's grain, so its ends and top edge count as unloaded.

    Args:
        diameter: of the shank, d, in. More than 0.

    Returns:
        Distances, in.

    Raises:
        ValueError: if the diameter is not finite or not more than 0.

    >>> least_distances_eurocode(diameter=0.25).stud_edge
    0.75
    """
    if not 0.0 < diameter < math.inf:
        raise ValueError(f"diameter must be more than 0 in, got {diameter!r}")
    d = diameter
    return Distances(7 * d, 4 * d, 3 * d, 3 * d, 5 * d, 4 * d, 4 * d, True)


def up(value: float, grid: float = SIXTEENTH) -> float:
    """Return a length rounded up to a mark that a tape has.

    Args:
        value: length, in.
        grid: of the marks, in.

    >>> up(0.475), up(0.5)
    (0.5, 0.5)
    """
    return math.ceil(value / grid - 1e-9) * grid


class Screw(NamedTuple):
    """What placing needs to know of a screw: shank and head diameter, in, and its distances.

    The wanted height is a share of the board's width: 0 takes the lowest free mark, 1 the highest.
    """

    diameter: float
    head: float
    least: Distances
    height: float = 0.0
    in_stud_alone: bool = False  # an old hole behind a board that is new


Place = tuple[float, float]  # from the stud's centre, above the board's underside, in


@lru_cache(maxsize=4096)
def place_screws(
    screws: tuple[Screw, ...],
    *,
    board_width: float,
    stud_width: float,
    uncertainty: float,
    taken: tuple[tuple[Screw, Place], ...] = (),
) -> tuple[Place, ...] | None:
    """Return places on one stud for screws of all boards that enter it.

    Each screw in turn takes the free 1/16 in mark nearest to the height wanted for it, in one of
    two lines along the stud or, with a screw of 1/4 in or over among them, on its centre line.

    Args:
        screws: in the order in which they take their places.
        board_width: of the boards, in.
        stud_width: face of the stud, in.
        uncertainty: of the stud's spot, in; taken off the edge distance on either side.
        taken: screws and holes that are there already, on this stud or beside it.

    Returns:
        The places in the order of the screws, or None where there is no room for all.

    Source: the distances of the screws; each pair holds them in the board and in the stud.

    >>> ten = Screw(diameter=0.19, head=0.363, least=least_distances(diameter=0.19))
    >>> place_screws((ten,) * 3, board_width=3.5, stud_width=1.5, uncertainty=0.0625)
    ((-0.3125, 0.5), (0.3125, 1.125), (-0.3125, 2.4375))
    >>> place_screws((ten,) * 9, board_width=3.5, stud_width=1.5, uncertainty=0.0625)
    """
    lines = _lines(screws, stud_width / 2.0 - uncertainty, beside=bool(taken))
    if lines is None:
        return None
    placed: list[Place] = []
    for index, screw in enumerate(screws):
        place = _nearest_free(
            screw, lines, board_width, [*taken, *zip(screws[:index], placed, strict=True)]
        )
        if place is None:
            return None
        placed.append(place)
    return tuple(placed)


def _lines(screws: Sequence[Screw], half_width: float, *, beside: bool) -> tuple[float, ...] | None:
    least = [screw.least for screw in screws]
    room = half_width - max(one.stud_edge for one in least)
    if room < 0.0:
        return None
    if beside:  # anywhere across the stud that the distances to what is there allow
        return tuple(dict.fromkeys((0.0, -room / 2.0, room / 2.0, -room, room)))
    if len(screws) == 1 or any(one.one_line for one in least):
        return (0.0,)
    wanted = max(one.across for one in least) / 2.0
    offset = up(wanted) if up(wanted) <= room else min(wanted, room)
    return (-offset, offset) if offset >= max(one.staggered for one in least) / 2.0 else (0.0,)


def _nearest_free(
    screw: Screw,
    lines: Sequence[float],
    board_width: float,
    others: Sequence[tuple[Screw, Place]],
) -> Place | None:
    least = screw.least
    lowest = up(least.bottom)
    marks = math.floor((board_width - least.top - lowest) / SIXTEENTH + 1e-9)
    wanted = screw.height * board_width
    heights = [lowest + mark * SIXTEENTH for mark in range(marks + 1)]
    for height in sorted(heights, key=lambda height: abs(height - wanted)):
        for line in lines:
            if all(apart(screw, (line, height), *other) for other in others):
                return line, height
    return None


def apart(screw: Screw, place: Place, other: Screw, other_place: Place) -> bool:
    """Return whether two screws keep their distances, in the board and in the stud.

    Args:
        screw: one, or the hole that it left.
        place: of it, in.
        other: the other.
        other_place: of that, in.

    >>> ten = Screw(diameter=0.19, head=0.363, least=least_distances(diameter=0.19))
    >>> apart(ten, (0.0, 0.5), ten, (0.0, 1.5)), apart(ten, (0.0, 0.5), ten, (0.0, 2.5))
    (False, True)
    """
    larger = screw if screw.diameter >= other.diameter else other
    least = larger.least
    level = abs(place[0] - other_place[0]) + 1e-9
    upright = abs(place[1] - other_place[1]) + 1e-9
    if screw.in_stud_alone or other.in_stud_alone:
        return _pair_holds(least, along=upright, across=level)
    if math.hypot(level, upright) < (max(screw.head, other.head) + larger.diameter) / 2.0:
        return False
    return _pair_holds(least, along=level, across=upright) and _pair_holds(
        least, along=upright, across=level
    )


def _pair_holds(least: Distances, *, along: float, across: float) -> bool:
    if least.one_line:  # one line up the stud: the distance in it serves both members
        return max(along, across) >= least.along
    return (
        along >= least.along
        or across >= least.across
        or (across >= least.staggered and along >= least.along / 2.0)
    )
