"""Room to bring the unit in, to stand it up and to open its door: plane geometry."""

from __future__ import annotations

import math
from itertools import permutations
from typing import NamedTuple

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import finite, not_negative, positive

HEIGHT, WIDTH, DEPTH = "height", "width", "depth"
WIDEST_ANGLE = 180.0  # a hinge that opens farther is not looked at


class WayThrough(NamedTuple):
    """How a box goes through a doorway: the least room left, in, and which size lies where."""

    room: float
    across: str
    upright: str


class Swing(NamedTuple):
    """A door that turns about an upright axis, seen from above; all lengths in.

    Attributes:
        width: hinge-side edge to free edge.
        thickness: front face to rear face.
        hinge_offset: the axis behind the front face; below 0 where it lies before it.
        hinge_side: the axis from the hinge-side edge, on the door; below 0 where it lies outside.
        handle: how far it stands out of the front face.
        handle_from_edge: its place from the free edge.
    """

    width: float
    thickness: float
    hinge_offset: float
    hinge_side: float = 0.0
    handle: float = 0.0
    handle_from_edge: float = 0.0


@formula(
    equation="c = sqrt(H^2 + D^2)",
    source="geometry; diagonal of the side that turns.",
    unit="in",
)
def stand_up_height(*, height: float, base: float) -> float:
    """Return the ceiling that a box needs while it is tilted up from lying to standing.

    Args:
        height: of the box when it stands, H, in. More than 0.
        base: depth where it comes up from its back, width where from its side, D, in. More than 0.

    Returns:
        Height of the ceiling, in.

    Raises:
        ValueError: if a value is not finite or not more than 0.

    >>> stand_up_height(height=80.0, base=39.0)
    89.0
    """
    positive(height=height, base=base)
    return math.hypot(height, base)


@formula(
    equation="e = (d_1^2 - d_2^2) / (4 W)",
    source="geometry of a parallelogram.",
    unit="in",
)
def lean_from_diagonals(*, longer: float, shorter: float, width: float) -> float:
    """Return how far the sides of an opening lean over its height, from its two diagonals.

    Args:
        longer: diagonal, d_1, in. More than 0.
        shorter: diagonal, d_2, in. More than 0, at most the longer one.
        width: of the opening, W, in. More than 0.

    Returns:
        Lean of a side over the whole height, e, in.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> round(lean_from_diagonals(longer=90.25, shorter=90.0, width=33.0), 3)
    0.341
    """
    positive(longer=longer, shorter=shorter, width=width)
    if shorter > longer:
        raise ValueError(f"longer must be the longer diagonal, got {longer!r}, {shorter!r}")
    return (longer - shorter) * (longer + shorter) / (4.0 * width)


@formula(
    equation="room = min(door width - size across, door height - size upright), best of all ways",
    source="geometry; two of the three sizes must pass.",
    unit="in",
)
def way_through(
    *, sizes: tuple[float, float, float], door_width: float, door_height: float | None
) -> WayThrough:
    """Return the best way to carry a box through a doorway, one size leading.

    A box that passes standing is carried so; else the way with the most room is given.

    Args:
        sizes: height, width and depth of the box as it travels, in. More than 0.
        door_width: of the doorway, in. More than 0.
        door_height: of the doorway, in; None where nothing is overhead.

    Returns:
        Room left on the tighter side, in. Below 0 where the box doesn't pass.

    Raises:
        ValueError: if a value is not finite or not more than 0.

    >>> way_through(sizes=(84.0, 33.0, 25.0), door_width=31.5, door_height=80.0)
    WayThrough(room=6.5, across='depth', upright='width')
    """
    names = (HEIGHT, WIDTH, DEPTH)
    positive(door_width=door_width, **dict(zip(names, sizes, strict=True)))
    if door_height is not None:
        positive(door_height=door_height)
    overhead = math.inf if door_height is None else door_height
    size = dict(zip(names, sizes, strict=True))
    ways = [
        WayThrough(min(door_width - size[across], overhead - size[upright]), across, upright)
        for across, upright, _ in permutations(names)
    ]
    standing = [way for way in ways if way.upright == HEIGHT and way.room >= 0.0]
    # a box standing with its narrow side across, or else lying: its long size leads
    return max(standing or ways, key=lambda way: (way.room, way.across == DEPTH))


@formula(
    equation="r cos(phi + theta) = -(c + s) for each corner, phi + theta from the hinge axis",
    source="geometry of a turn about the hinge axis, c behind the hinge-side edge.",
    unit="degrees",
)
def door_opening_angle(*, door: Swing, side_wall: float, wall_ahead: float | None = None) -> float:
    """Return how far a door opens before it or its handle meets the wall on its hinge side.

    The wall is taken as a block without end to the side: it stands from far behind the door's
    face to a corner in front of it. The door's four corners and the handle's tip may meet its
    face or its end; its corner may meet the door's face or the handle.

    Args:
        door: lengths in. Width and thickness more than 0, handle not below 0.
        side_wall: hinge-side edge of the closed door to the wall beside it, s, in. Not below 0.
        wall_ahead: how far the wall runs on before the closed door's face, in; below 0 where it
            ends behind that face, None where it runs on past the door.

    Returns:
        Angle from shut, degrees. At most 180.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> flat = Swing(width=30.0, thickness=1.0, hinge_offset=0.0)
    >>> round(door_opening_angle(door=flat, side_wall=15.0), 6)
    120.0
    """
    _check_swing(door)
    not_negative(side_wall=side_wall)
    if wall_ahead is not None:
        finite(wall_ahead=wall_ahead)
    away = door.hinge_side + side_wall
    end = math.inf if wall_ahead is None else door.hinge_offset + wall_ahead
    met = [math.radians(WIDEST_ANGLE)]
    for x, y in _corners(door):
        met.extend(_corner_on_wall(math.hypot(x, y), math.atan2(y, x), away, end))
    if math.isfinite(end):
        met.extend(_wall_corner_on_door(door, away, end))
    return math.degrees(max(0.0, min(met)))


def _corner_on_wall(radius: float, start: float, away: float, end: float) -> list[float]:
    """Angles at which one corner of the door meets the wall's face or its end."""
    met = []
    if radius > away:
        turned = math.acos(-away / radius)
        if radius * math.sin(turned) <= end:
            met.append(max(0.0, turned - start))  # a corner that touches when shut rounds below 0
    if abs(end) <= radius and math.sqrt(radius * radius - end * end) > away:
        turned = math.pi - math.asin(end / radius)
        if turned >= start:
            met.append(turned - start)
    return met


def _wall_corner_on_door(door: Swing, away: float, end: float) -> list[float]:
    """Angles at which the wall's corner meets the door's front, its hinge-side edge or handle."""
    # from the axis, counted the way the door opens: a corner behind the axis lies past 180 degrees
    radius, place = math.hypot(away, end), math.atan2(end, -away) % math.tau
    met = []
    if radius > abs(door.hinge_side):
        edge = math.sqrt(radius * radius - door.hinge_side * door.hinge_side)
        if door.hinge_offset - door.thickness <= edge <= door.hinge_offset:
            met.append(place - math.acos(-door.hinge_side / radius))
    if radius > abs(door.hinge_offset):
        along = math.sqrt(radius * radius - door.hinge_offset * door.hinge_offset)
        if -door.hinge_side <= along <= door.width - door.hinge_side:
            met.append(place - math.asin(door.hinge_offset / radius))
    handle_at = door.width - door.hinge_side - door.handle_from_edge
    if radius > abs(handle_at):
        out = math.sqrt(radius * radius - handle_at * handle_at) - door.hinge_offset
        if 0.0 <= out <= door.handle:
            met.append(place - math.acos(handle_at / radius))
    return [angle for angle in met if angle >= 0.0]


@formula(
    equation="s = max(-r cos(phi + theta)) - c over the corners that the wall reaches",
    source="geometry of a turn about the hinge axis.",
    unit="in",
)
def side_wall_needed(*, door: Swing, angle: float, wall_ahead: float | None = None) -> float:
    """Return the clearance beside the hinge-side edge that lets a door open to an angle.

    Args:
        door: lengths in. Width and thickness more than 0, handle not below 0.
        angle: from shut, theta, degrees. 0 to 180.
        wall_ahead: how far the wall runs on before the closed door's face, in; None where it
            runs on past the door.

    Returns:
        Clearance from the hinge-side edge of the closed door to the wall, s, in.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> flat = Swing(width=30.0, thickness=1.0, hinge_offset=0.0)
    >>> round(side_wall_needed(door=flat, angle=120.0), 6)
    15.0
    """
    _check_angle(angle)
    least, most = 0.0, max(math.hypot(x, y) for x, y in _corners(door)) + abs(door.hinge_side)
    if door_opening_angle(door=door, side_wall=least, wall_ahead=wall_ahead) >= angle:
        return 0.0
    while most - least > 1e-9:  # more room never shuts the door: halving finds the least
        middle = (least + most) / 2.0
        opened = door_opening_angle(door=door, side_wall=middle, wall_ahead=wall_ahead)
        least, most = (least, middle) if opened >= angle else (middle, most)
    return most


@formula(
    equation="reach = max(r sin(phi + t)) - b over the corners and over t from 0 to theta",
    source="geometry of a turn about the hinge axis, b behind the front face.",
    unit="in",
)
def swing_ahead(*, door: Swing, angle: float) -> float:
    """Return how far in front of its closed face a door reaches while it opens to an angle.

    Args:
        door: lengths in. Width and thickness more than 0, handle not below 0.
        angle: from shut, theta, degrees. 0 to 180.

    Returns:
        Reach in front of the closed door's face, handle included, in.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> flat = Swing(width=30.0, thickness=1.0, hinge_offset=0.0, handle=1.0)
    >>> round(swing_ahead(door=flat, angle=90.0), 3)
    30.017
    """
    _check_swing(door)
    _check_angle(angle)
    reaches = []
    for x, y in _corners(door):
        start = math.atan2(y, x)
        end = start + math.radians(angle)
        top = 1.0 if start <= math.pi / 2.0 <= end else max(math.sin(start), math.sin(end))
        reaches.append(math.hypot(x, y) * top)
    return max(reaches) - door.hinge_offset


@formula(
    equation="r sin(phi + theta) = b + opposite for each corner",
    source="geometry of a turn about the hinge axis, b behind the front face.",
    unit="degrees",
)
def angle_to_opposite(*, door: Swing, opposite: float) -> float:
    """Return how far a door opens before it or its handle meets what stands opposite.

    Args:
        door: lengths in. Width and thickness more than 0, handle not below 0.
        opposite: the closed door's face to what stands opposite, in. Not below 0.

    Returns:
        Angle from shut, degrees. 180 where the door swings past.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> flat = Swing(width=30.0, thickness=1.0, hinge_offset=0.0)
    >>> round(angle_to_opposite(door=flat, opposite=15.0), 6)
    30.0
    """
    _check_swing(door)
    not_negative(opposite=opposite)
    ahead = door.hinge_offset + opposite
    met = [math.radians(WIDEST_ANGLE)]
    for x, y in _corners(door):
        radius, start = math.hypot(x, y), math.atan2(y, x)
        if start > math.pi / 2.0 or radius <= ahead:
            continue
        met.append(max(0.0, math.asin(max(-1.0, ahead / radius)) - start))
    return math.degrees(min(met))


def _corners(door: Swing) -> tuple[tuple[float, float], ...]:
    """Corners of the closed door and the tip of its handle, from the hinge axis: across, ahead."""
    free, back = door.width - door.hinge_side, door.hinge_offset - door.thickness
    return (
        (-door.hinge_side, door.hinge_offset),
        (-door.hinge_side, back),
        (free, door.hinge_offset),
        (free, back),
        (free - door.handle_from_edge, door.hinge_offset + door.handle),
    )


def _check_swing(door: Swing) -> None:
    positive(width=door.width, thickness=door.thickness)
    finite(hinge_offset=door.hinge_offset, hinge_side=door.hinge_side)
    not_negative(handle=door.handle, handle_from_edge=door.handle_from_edge)
    if door.hinge_side >= door.width or door.handle_from_edge > door.width:
        raise ValueError(f"hinge and handle must lie on the door, got {door!r}")


def _check_angle(angle: float) -> None:
    if not 0.0 <= angle <= WIDEST_ANGLE:
        raise ValueError(f"angle must be from 0 to {WIDEST_ANGLE:g} degrees, got {angle!r}")
