"""Standing up, doorways and the swing of a door: right triangles and a brute-force outline."""

from __future__ import annotations

import math

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from bracecalc.mechanics.geometry import clearance
from bracecalc.mechanics.geometry.clearance import Swing

FLAT = Swing(width=30.0, thickness=1.0, hinge_offset=0.0)
# an inset axis, a thick door and a bar handle: nothing symmetric
REAL = Swing(
    width=35.75, thickness=3.0, hinge_offset=2.0, hinge_side=0.5, handle=2.5, handle_from_edge=2.0
)

# an axis before the face and outside the edge, as on a pivot arm
OUTSIDE = Swing(
    width=30.0, thickness=2.0, hinge_offset=-1.0, hinge_side=-1.5, handle=2.0, handle_from_edge=3.0
)
DOORS = st.sampled_from([FLAT, REAL, OUTSIDE])


@pytest.mark.parametrize(
    ("height", "base", "ceiling"),
    [
        # Pythagorean triples, any table of right triangles
        (80.0, 39.0, 89.0),
        (77.0, 36.0, 85.0),
        (84.0, 35.0, 91.0),
        (72.0, 30.0, 78.0),
        (3.0, 4.0, 5.0),
    ],
)
def test_standing_up_is_a_right_triangle(height: float, base: float, ceiling: float) -> None:
    assert clearance.stand_up_height(height=height, base=base) == pytest.approx(ceiling)


def test_the_tilt_is_highest_at_the_diagonal() -> None:
    # height over the floor of the upper corner of a box tilted by t: H sin t + D cos t
    highest = max(
        80.625 * math.sin(t) + 23.125 * math.cos(t)
        for t in (k * math.pi / 2.0 / 20000 for k in range(20001))
    )
    assert clearance.stand_up_height(height=80.625, base=23.125) == pytest.approx(highest)


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0, -1.0])
def test_lengths_that_are_none_are_refused(bad: float) -> None:
    with pytest.raises(ValueError, match="height"):
        clearance.stand_up_height(height=bad, base=1.0)
    with pytest.raises(ValueError, match="width"):
        clearance.lean_from_diagonals(longer=2.0, shorter=1.0, width=bad)
    with pytest.raises(ValueError, match="door_width"):
        clearance.way_through(sizes=(1.0, 1.0, 1.0), door_width=bad, door_height=None)


@given(width=st.floats(20.0, 60.0), height=st.floats(60.0, 120.0), lean=st.floats(0.0, 2.0))
def test_diagonals_give_the_lean_back(width: float, height: float, lean: float) -> None:
    longer, shorter = math.hypot(width + lean, height), math.hypot(width - lean, height)
    found = clearance.lean_from_diagonals(longer=longer, shorter=shorter, width=width)
    assert found == pytest.approx(lean, abs=1e-9)


def test_diagonals_given_the_wrong_way_are_refused() -> None:
    with pytest.raises(ValueError, match="longer"):
        clearance.lean_from_diagonals(longer=89.0, shorter=90.0, width=33.0)


def test_a_box_that_passes_standing_is_carried_standing() -> None:
    way = clearance.way_through(sizes=(79.0, 33.0, 25.0), door_width=36.0, door_height=80.0)
    assert way == (1.0, "depth", "height")


def test_a_box_too_tall_for_the_door_goes_lying() -> None:
    way = clearance.way_through(sizes=(84.0, 33.0, 25.0), door_width=30.0, door_height=80.0)
    assert way == (5.0, "depth", "width")


def test_two_sizes_must_pass() -> None:
    # the smallest passes and the next doesn't: 25 in through 26 in, but 33 in over 30 in
    way = clearance.way_through(sizes=(84.0, 33.0, 25.0), door_width=26.0, door_height=30.0)
    assert way.room == pytest.approx(-3.0)


def test_with_nothing_overhead_the_least_size_decides() -> None:
    way = clearance.way_through(sizes=(84.0, 33.0, 25.0), door_width=25.5, door_height=None)
    assert (way.room, way.upright) == (0.5, "height")


@given(
    sizes=st.tuples(*[st.floats(10.0, 100.0)] * 3),
    door_width=st.floats(10.0, 100.0),
    door_height=st.floats(10.0, 100.0),
)
def test_two_of_the_three_sizes_decide(
    sizes: tuple[float, float, float], door_width: float, door_height: float
) -> None:
    # the two smallest pass if anything does: the smaller through the narrower side
    small, middle, _ = sorted(sizes)
    narrow, wide = sorted((door_width, door_height))
    passes = small <= narrow and middle <= wide
    way = clearance.way_through(sizes=sizes, door_width=door_width, door_height=door_height)
    assert (way.room >= 0.0) == passes


def test_a_flat_door_at_a_long_wall_is_a_right_triangle() -> None:
    # 30 in door, wall 18 in to the side: the free edge is 24 in out (18, 24, 30)
    angle = clearance.door_opening_angle(door=FLAT, side_wall=18.0)
    assert angle == pytest.approx(90.0 + math.degrees(math.asin(18.0 / 30.0)))


def test_a_door_that_touches_the_wall_when_shut_stays_shut() -> None:
    touching = Swing(width=30.0, thickness=0.96875, hinge_offset=0.632, hinge_side=2.0)
    assert clearance.door_opening_angle(door=touching, side_wall=0.0) == pytest.approx(0.0)


def test_a_handle_costs_angle() -> None:
    # handle 2 in out at the free edge: r = hypot(30, 2), cos(phi + theta) = -4 / r
    handled = FLAT._replace(handle=2.0)
    radius, start = math.hypot(30.0, 2.0), math.atan2(2.0, 30.0)
    by_hand = math.degrees(math.acos(-4.0 / radius) - start)
    assert clearance.door_opening_angle(door=handled, side_wall=4.0) == pytest.approx(by_hand)
    assert by_hand < clearance.door_opening_angle(door=FLAT, side_wall=4.0)


def test_a_wall_that_ends_behind_the_face_lets_the_door_swing_past() -> None:
    assert clearance.door_opening_angle(door=FLAT, side_wall=2.0, wall_ahead=-3.0) == 180.0


def test_a_short_wall_meets_the_face_with_its_corner() -> None:
    # corner 6 in aside and 8 in ahead of the axis: face lies through it at 180 - atan(8 / 6)
    angle = clearance.door_opening_angle(door=FLAT, side_wall=6.0, wall_ahead=8.0)
    assert angle == pytest.approx(180.0 - math.degrees(math.atan2(8.0, 6.0)))


def test_a_wall_that_ends_behind_the_axis_still_stops_an_inset_face() -> None:
    # axis 2 in behind the face; corner 5 in aside and 1 in behind the axis: face through it at
    # 180 + atan(1 / 5) - asin(2 / hypot(5, 1))
    door = Swing(width=30.0, thickness=2.5, hinge_offset=2.0)
    by_hand = 180.0 + math.degrees(math.atan2(1.0, 5.0) - math.asin(2.0 / math.hypot(5.0, 1.0)))
    angle = clearance.door_opening_angle(door=door, side_wall=5.0, wall_ahead=-3.0)
    assert angle == pytest.approx(by_hand)


def test_the_needed_clearance_of_a_long_wall() -> None:
    # closed form: s = -r cos(phi + theta) - c of the handle's tip, 110 degrees
    x, y = 35.75 - 0.5 - 2.0, 2.0 + 2.5
    radius, start = math.hypot(x, y), math.atan2(y, x)
    tip = -radius * math.cos(start + math.radians(110.0)) - 0.5
    x, y = 35.75 - 0.5, 2.0
    radius, start = math.hypot(x, y), math.atan2(y, x)
    edge = -radius * math.cos(start + math.radians(110.0)) - 0.5
    needed = clearance.side_wall_needed(door=REAL, angle=110.0)
    assert needed == pytest.approx(max(tip, edge), abs=1e-6)


def test_the_angle_to_what_stands_opposite() -> None:
    # 30 in door, 24 in to the island: sin(theta) = 0.8 (18, 24, 30)
    assert clearance.angle_to_opposite(door=FLAT, opposite=24.0) == pytest.approx(
        math.degrees(math.asin(0.8))
    )
    assert clearance.angle_to_opposite(door=FLAT, opposite=30.5) == 180.0


def test_the_swing_reaches_farthest_square_out() -> None:
    assert clearance.swing_ahead(door=FLAT, angle=30.0) == pytest.approx(15.0)
    assert clearance.swing_ahead(door=FLAT, angle=120.0) == pytest.approx(
        math.hypot(30.0, 1.0)  # rear corner, 1 in behind the axis
    )


def outline(door: Swing) -> list[tuple[float, float]]:
    """Points all round the closed door and along its handle, from the axis."""
    left, right = -door.hinge_side, door.width - door.hinge_side
    front, back = door.hinge_offset, door.hinge_offset - door.thickness
    steps = [k / 150 for k in range(151)]
    points = [(left + t * (right - left), y) for t in steps for y in (front, back)]
    points += [(x, back + t * (front - back)) for t in steps for x in (left, right)]
    handle_at = right - door.handle_from_edge
    return points + [(handle_at, front + t * door.handle) for t in steps]


def first_touch(door: Swing, side_wall: float, wall_ahead: float | None) -> float:
    """Least angle, in steps of 1/2 degree, at which door and wall share a point.

    A point of the outline in the wall, or the wall's corner in the door: near the axis the corner
    passes between the points of the outline.
    """
    away = door.hinge_side + side_wall
    end = math.inf if wall_ahead is None else door.hinge_offset + wall_ahead
    points = outline(door)
    for half in range(361):
        turn = math.radians(half / 2.0)
        sine, cosine = math.sin(turn), math.cos(turn)
        for x, y in points:
            across, ahead = x * cosine - y * sine, x * sine + y * cosine
            if across < -away - 1e-9 and ahead < end - 1e-9:
                return half / 2.0
        if math.isfinite(end) and _in_door(
            door, end * sine - away * cosine, away * sine + end * cosine
        ):
            return half / 2.0
    return 180.0


def _in_door(door: Swing, x: float, y: float) -> bool:
    """Whether a point lies inside the closed door, from the axis."""
    across = -door.hinge_side < x < door.width - door.hinge_side
    return across and door.hinge_offset - door.thickness < y < door.hinge_offset


# without shrinking: the outline is slow to turn
@settings(max_examples=40, deadline=None, phases=(Phase.explicit, Phase.reuse, Phase.generate))
@given(
    thickness=st.floats(0.5, 4.0),
    axis=st.floats(-0.5, 1.0),
    hinge_side=st.floats(-2.0, 3.0),
    handle=st.floats(0.0, 4.0),
    handle_from_edge=st.floats(0.0, 6.0),
    side_wall=st.floats(0.0, 30.0),
    wall_ahead=st.none() | st.floats(-6.0, 40.0),
)
def test_any_door_against_its_outline(
    thickness: float,
    axis: float,
    hinge_side: float,
    handle: float,
    handle_from_edge: float,
    side_wall: float,
    wall_ahead: float | None,
) -> None:
    door = Swing(
        width=30.0,
        thickness=thickness,
        hinge_offset=axis * thickness,
        hinge_side=hinge_side,
        handle=handle,
        handle_from_edge=handle_from_edge,
    )
    ours = clearance.door_opening_angle(door=door, side_wall=side_wall, wall_ahead=wall_ahead)
    # between a wall 0.05 in nearer and one 0.05 in farther, in steps of 1/2 degree
    nearer, farther = (
        first_touch(door, side_wall + by, None if wall_ahead is None else wall_ahead - by)
        for by in (-0.05, 0.05)
    )
    assert nearer - 1.0 <= ours <= farther + 1.0


@given(side_wall=st.floats(0.0, 40.0), more=st.floats(0.0, 10.0), ahead=st.floats(-4.0, 40.0))
def test_more_room_never_shuts_the_door(side_wall: float, more: float, ahead: float) -> None:
    one, other = (
        clearance.door_opening_angle(door=REAL, side_wall=each, wall_ahead=ahead)
        for each in (side_wall, side_wall + more)
    )
    assert other >= one - 1e-9


@given(door=DOORS, angle=st.floats(0.0, 180.0), ahead=st.none() | st.floats(0.0, 40.0))
def test_the_needed_clearance_opens_the_door(
    door: Swing, angle: float, ahead: float | None
) -> None:
    needed = clearance.side_wall_needed(door=door, angle=angle, wall_ahead=ahead)
    opened = clearance.door_opening_angle(door=door, side_wall=needed, wall_ahead=ahead)
    assert opened >= angle - 1e-6
    if needed > 0.01:
        less = clearance.door_opening_angle(door=door, side_wall=needed - 0.01, wall_ahead=ahead)
        assert less < angle


@given(door=DOORS, opposite=st.floats(0.0, 40.0))
def test_the_door_stops_where_its_swing_reaches(door: Swing, opposite: float) -> None:
    angle = clearance.angle_to_opposite(door=door, opposite=opposite)
    reached = clearance.swing_ahead(door=door, angle=angle)
    assert reached <= max(opposite, door.handle) + 1e-9
    if 0.0 < angle < 180.0:
        assert reached == pytest.approx(opposite)


@pytest.mark.parametrize(
    "change",
    [
        {"width": 0.0},
        {"thickness": math.nan},
        {"hinge_offset": math.nan},
        {"handle": math.inf},
        {"hinge_side": 30.0},
        {"handle_from_edge": 31.0},
    ],
)
def test_a_door_that_can_not_be_is_refused(change: dict[str, float]) -> None:
    with pytest.raises(ValueError, match=r"must"):
        clearance.door_opening_angle(door=FLAT._replace(**change), side_wall=1.0)


@pytest.mark.parametrize("angle", [-1.0, 181.0, math.nan])
def test_an_angle_out_of_range_is_refused(angle: float) -> None:
    with pytest.raises(ValueError, match="angle"):
        clearance.swing_ahead(door=FLAT, angle=angle)
    with pytest.raises(ValueError, match="angle"):
        clearance.side_wall_needed(door=FLAT, angle=angle)


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf])
def test_a_wall_that_can_not_be_is_refused(bad: float) -> None:
    with pytest.raises(ValueError, match="side_wall"):
        clearance.door_opening_angle(door=FLAT, side_wall=bad)
    with pytest.raises(ValueError, match="opposite"):
        clearance.angle_to_opposite(door=FLAT, opposite=bad)
    if not bad < 0.0:
        with pytest.raises(ValueError, match="wall_ahead"):
            clearance.door_opening_angle(door=FLAT, side_wall=1.0, wall_ahead=bad)
