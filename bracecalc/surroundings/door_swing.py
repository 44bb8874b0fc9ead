"""The unit's door against the wall beside it and what stands opposite."""

from __future__ import annotations

from bracecalc.errors import JobError, Mistake
from bracecalc.mechanics.geometry.clearance import (
    Swing,
    angle_to_opposite,
    door_opening_angle,
    side_wall_needed,
    swing_ahead,
)
from bracecalc.records.surroundings import DoorSwing
from bracecalc.surroundings.checklist import Checklist
from bracecalc.text.findings import warns


def check_door_swing(swing: DoorSwing, checks: Checklist) -> None:
    """Check the angle to which the door opens, and say what the wanted angle would need."""
    _refuse_impossible(swing, checks)
    door = Swing(
        width=swing.width,
        thickness=swing.thickness,
        hinge_offset=swing.hinge_offset,
        hinge_side=swing.hinge_side,
        handle=swing.handle,
        handle_from_edge=swing.handle_from_edge,
    )
    if swing.side_wall is not None:
        _beside(swing, door, swing.side_wall, checks)
    if swing.opposite is not None:
        _opposite(swing, door, swing.opposite, checks)


def _refuse_impossible(swing: DoorSwing, checks: Checklist) -> None:
    for key, value in (
        ("hinge_side", swing.hinge_side),
        ("handle_from_edge", swing.handle_from_edge),
    ):
        if value >= swing.width:
            read, place = checks.lengths.near(value), f"door_swing.{key}"
            raise JobError(
                Mistake(checks.job.where, place, read, "less than the width of the door")
            )


def _beside(swing: DoorSwing, door: Swing, side_wall: float, checks: Checklist) -> None:
    lengths, wanted = checks.lengths, swing.wanted_angle
    opened = door_opening_angle(door=door, side_wall=side_wall, wall_ahead=swing.wall_ahead)
    needed = side_wall_needed(door=door, angle=wanted, wall_ahead=swing.wall_ahead)
    held = checks.length(
        "door swing, wall beside it",
        required=f"{wanted:g} degrees: {lengths.up(needed)} beside the hinge",
        found=f"{lengths.near(side_wall)}: opens to {_degrees(opened)}",
        margin=side_wall - needed,
    )
    if not held:
        checks.say(
            warns(
                "door-swing-short",
                f"The door opens to {_degrees(opened)} before it meets the wall beside its hinge; "
                f"{wanted:g} degrees are wanted.",
                f"Keep {lengths.up(needed)} clear beside the hinge, "
                f"{lengths.up(needed - side_wall)} more than now: a filler strip, the hinge on the "
                "other side, or a flatter handle.",
            )
        )


def _opposite(swing: DoorSwing, door: Swing, opposite: float, checks: Checklist) -> None:
    lengths, wanted = checks.lengths, swing.wanted_angle
    opened = angle_to_opposite(door=door, opposite=opposite)
    needed = swing_ahead(door=door, angle=wanted)
    held = checks.length(
        "door swing, what stands opposite",
        required=f"{wanted:g} degrees: {lengths.up(needed)} in front of the door",
        found=f"{lengths.near(opposite)}: opens to {_degrees(opened)}",
        margin=opposite - needed,
    )
    if not held:
        checks.say(
            warns(
                "door-swing-short",
                f"The door opens to {_degrees(opened)} before it meets what stands opposite; "
                f"{wanted:g} degrees are wanted.",
                f"Keep {lengths.up(needed)} clear in front of the closed door, "
                f"{lengths.up(needed - opposite)} more than now.",
            )
        )


def _degrees(angle: float) -> str:
    """Round an angle down, so that nobody counts on more."""
    return f"{int(angle + 1e-6)} degrees"
