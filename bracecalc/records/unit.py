"""The appliance: what its sheet says of it."""

from __future__ import annotations

from bracecalc.records.keys import (
    Key,
    Kind,
    Within,
    force_key,
    length_key,
    range_key,
    record,
    table,
)

_TRAVEL = Within(0, 12, usual=(0.25, 4))
_REAR_TRAVEL = Within(0, 12, usual=(0, 4))  # 0: rollers at the rear that don't lift
_BOTH_TRAVELS = Key(
    Kind.LENGTH,
    "how far the legs can be screwed out, from legs in to the end of their thread",
    name="leg_travel",
    field="leg_travel",
    otherwise="must be given, or both of the above",
    within=_TRAVEL,
    optional=True,
)


@record
class Door:
    """A door or drawer. Distances are in front of the front leg line, forward positive."""

    own_weight: float = force_key(
        "weight of the door or drawer itself", within=Within(0, 500, usual=(0, 200))
    )
    contents: float = force_key("weight of what it carries", within=Within(0, 500, usual=(0, 200)))
    reach: float = length_key(
        "its centre of gravity when open", within=Within(-36, 72, usual=(-12, 48))
    )
    closed_reach: float = length_key(
        "its centre of gravity when shut; less than 0: behind",
        within=Within(-48, 48, usual=(-30, 12)),
    )
    edge: float = length_key(
        "its outer edge when open, where a child may hang",
        within=Within(-36, 96, usual=(-12, 60)),
    )


@record
class Unit:
    """The appliance: what its sheet says of it. ``None`` is "not given", never a guess."""

    height: float = length_key(
        "top of the appliance where the restraint bears, on its rollers with the legs in",
        within=Within(24, 150, usual=(48, 110)),
    )
    height_overall: float | None = length_key(
        "highest point of the whole appliance, legs in",
        default=None,
        within=Within(24, 150, usual=(48, 110)),
        otherwise="unit.height",
    )
    width: float = length_key("width of the appliance", within=Within(8, 120, usual=(15, 72)))
    depth: float = length_key(
        "from the appliance's front plane to the rear of the top of the appliance",
        within=Within(6, 60, usual=(12, 36)),
    )
    proud: float = length_key(
        "how far the appliance's front plane stands out of the niche's; less than 0: recessed",
        default=0.0,
        within=Within(-24, 24, usual=(-6, 6)),
    )
    leg_travel_front: float = length_key(
        "how far the front legs can be screwed out (or unit.leg_travel for all)",
        otherwise="unit.leg_travel must be given",
        within=_TRAVEL,
        optional=True,
    )
    leg_travel_rear: float = length_key(
        "how far the rear legs can be screwed out (or unit.leg_travel for all); 0: the rear stands "
        "on rollers that do not lift",
        otherwise="unit.leg_travel must be given",
        also=(_BOTH_TRAVELS,),
        within=_REAR_TRAVEL,
        optional=True,
    )
    leg_pitch: float | None = length_key(
        "rise of one turn of a leg; turns are then printed",
        default=None,
        within=Within(0.01, 0.5, usual=(0.03, 0.16)),
        otherwise="turns aren't printed",
    )
    weight: float | None = force_key(
        "weight of the empty appliance, doors shut",
        default=None,
        within=Within(10, 5000, usual=(100, 1500)),
        otherwise="tip-over is not fully checked",
    )
    contents: float | None = force_key(
        "weight of all that may stand in it; earthquake only",
        default=None,
        within=Within(0, 5000, usual=(0, 1000)),
        otherwise="what the doors hold",
    )
    cg_height: float | None = length_key(
        "centre of gravity of the empty appliance above its foot",
        default=None,
        within=Within(1, 150, usual=(12, 80)),
    )
    cg_behind_front_legs: float | None = length_key(
        "centre of gravity of the empty appliance behind the front leg line",
        default=None,
        within=Within(-24, 60, usual=(0, 30)),
    )
    front_legs_behind_front: float | None = length_key(
        "front leg line behind the appliance's front plane",
        default=None,
        within=Within(-24, 60, usual=(-2, 12)),
    )
    rear_legs_behind_front: float | None = length_key(
        "rear leg line behind the appliance's front plane",
        default=None,
        within=Within(1, 72, usual=(8, 36)),
    )
    restraint_height: float | None = length_key(
        "underside of the restraint above the datum, as the appliance's maker wants it",
        default=None,
        within=Within(12, 240),
    )
    bearing_zone: tuple[float, float] | None = range_key(
        "where the top may be pushed on: nearest and farthest from its rear edge",
        default=None,
        within=Within(0, 60),
        otherwise="not checked; the plan asks for it",
    )
    doors: tuple[Door, ...] | None = table(
        Door,
        "doors and drawers; distances in front of the front leg line, forward positive",
        default=None,
        many=True,
    )

    @property
    def rear_lifts(self) -> bool:
        """Whether the rear is lifted: else it stands on its rollers and the front alone lifts."""
        return self.leg_travel_rear > 0.0 or self.leg_travel_front <= 0.0

    @property
    def highest(self) -> float:
        """Highest point of the whole unit over the floor that it stands on."""
        return self.height if self.height_overall is None else self.height_overall
