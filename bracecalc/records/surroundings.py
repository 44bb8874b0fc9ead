"""The rest of the job: opening, way in, floor load, clearances, services. All optional.

Nothing here has a default that stands for a measurement: what is not given is not checked.
"""

from __future__ import annotations

from bracecalc.records.keys import (
    Kind,
    Range,
    Readings,
    Within,
    key,
    length_key,
    lengths_key,
    range_key,
    record,
    table,
    text_key,
)

_WIDTH = Within(8, 120)
_HEIGHT = Within(12, 240)
_DEPTH = Within(6, 60)
_MOVED = Within(6, 180)
_TOLERANCE = Within(0, 6, usual=(0, 2))
_PLACE = Within(-120, 240)


@record
class Opening:
    """The finished opening as read, and what the unit's sheet asks for."""

    width_range: Range | None = range_key(
        "width that the spec sheet allows", default=None, within=_WIDTH
    )
    height_range: Range | None = range_key(
        "height that the spec sheet allows", default=None, within=_HEIGHT
    )
    depth_range: Range | None = range_key(
        "depth that the spec sheet allows", default=None, within=_DEPTH
    )
    height: Readings = lengths_key(  # width and depth are those of the niche
        "floor to head, read at left, middle and right",
        default=(),
        within=_HEIGHT,
    )
    diagonals: Range | None = key(
        Kind.PAIR, "the two diagonals of the opening", default=None, within=Within(12, 300)
    )
    out_of_plumb: Readings = lengths_key(
        "how far each side leans, over its height",
        default=(),
        within=Within(-12, 12, usual=(-2, 2)),
    )
    square_tolerance: float | None = length_key(
        "most that the diagonals may differ", default=None, within=_TOLERANCE
    )
    plumb_tolerance: float | None = length_key(
        "most that a side may lean", default=None, within=_TOLERANCE
    )
    level_tolerance: float | None = length_key(
        "most that the floor may differ at the legs",
        default=None,
        within=_TOLERANCE,
    )


@record
class Doorway:
    """A door or corridor on the way in. No height: nothing overhead."""

    name: str = text_key("what it is called")
    width: float = length_key("clear width", within=Within(6, 240, usual=(18, 144)))
    height: float | None = length_key(
        "clear height; leave out in a corridor",
        default=None,
        within=Within(24, 240, usual=(60, 144)),
    )


@record
class Route:
    """The way in, and the size of the load as it travels (packaging, dolly, handles)."""

    ceiling: float | None = length_key(
        "floor to ceiling where the appliance is stood up",
        default=None,
        within=Within(36, 480, usual=(72, 240)),
    )
    moving_height: float | None = length_key(
        "height of the appliance as it travels", default=None, within=_MOVED
    )
    moving_width: float | None = length_key(
        "width of the appliance as it travels", default=None, within=_MOVED
    )
    moving_depth: float | None = length_key(
        "depth of the appliance as it travels", default=None, within=_MOVED
    )
    trim_off_height: float | None = length_key(
        "height with what can come off taken off", default=None, within=_MOVED
    )
    trim_off_depth: float | None = length_key(
        "depth with what can come off taken off", default=None, within=_MOVED
    )
    doorways: tuple[Doorway, ...] = table(
        Doorway, "doors and corridors on the way in", default=(), many=True
    )


@record
class FloorLoad:
    """Design live load of the floor, lbf per square foot."""

    design_psf: float | None = key(
        Kind.PRESSURE,
        "design live load of the floor (IRC: 40 psf for dwelling floors)",
        name="design",
        default=None,
        within=Within(1, 2000, usual=(20, 250)),
    )


@record
class Clearance:
    """One clearance that the unit's sheet requires, beside what was measured."""

    name: str = text_key("where it is")
    required: float = length_key("what the sheet asks for", within=Within(0, 120, usual=(0, 24)))
    measured: float = length_key("what there is", within=Within(0, 240))


@record
class DoorSwing:
    """The unit's door against the wall beside it and what stands opposite.

    ``hinge_offset`` is how far the hinge axis lies behind the door's front face, ``hinge_side``
    its distance from the door's hinge-side edge, ``handle`` how far the handle stands out of that
    face and ``handle_from_edge`` its place from the door's free edge.
    """

    width: float = length_key("width of the door", within=Within(4, 96, usual=(8, 60)))
    thickness: float = length_key(
        "thickness of the door with its panel",
        within=Within(0.25, 12, usual=(0.5, 6)),
    )
    hinge_offset: float = length_key(
        "hinge axis behind the door's front face", within=Within(-6, 12)
    )
    handle: float = length_key(
        "how far the handle stands out of the door's face",
        within=Within(0, 12, usual=(0, 4)),
    )
    wanted_angle: float = key(
        Kind.ANGLE, "angle that the door must open to", within=Within(above=0, most=180)
    )
    hinge_side: float = length_key(
        "hinge axis from the door's hinge-side edge",
        default=0.0,
        within=Within(-12, 24),
    )
    handle_from_edge: float = length_key(
        "handle from the door's free edge", default=0.0, within=Within(0, 96)
    )
    side_wall: float | None = length_key(
        "from the door's hinge-side edge to the wall beside it",
        default=None,
        within=Within(0, 480),
    )
    wall_ahead: float | None = length_key(
        "how far that wall runs on in front of the shut door's face",
        default=None,
        within=Within(-60, 480),
    )
    opposite: float | None = length_key(
        "from the shut door's face to what stands opposite",
        default=None,
        within=Within(above=0, most=960),
    )


@record
class Service:
    """An outlet, a stub or a shut-off; x from the left side of the niche, z above the datum."""

    name: str = text_key("what it is")
    x: float = length_key("from the left side of the niche", within=_PLACE)
    z: float = length_key("above the datum", within=_PLACE)
    x_range: Range = range_key(
        "zone that the sheet gives, from the left side of the niche",
        within=_PLACE,
    )
    z_range: Range = range_key("zone that the sheet gives, above the datum", within=_PLACE)


@record
class SupplyLine:
    """A loose line from the stub to the unit's connection."""

    name: str = text_key("what it is")
    length: float = length_key("length of the line", within=Within(1, 600, usual=(6, 240)))
    path: float = length_key(
        "from stub to connection along the way it will lie",
        within=Within(above=0, most=600, usual=(1, 240)),
    )
    slack: float = length_key("slack that the sheet asks for", within=Within(0, 240, usual=(0, 60)))


@record
class Surroundings:
    """Everything of the job that is not bracing."""

    opening: Opening | None = table(
        Opening, "the opening against what the spec sheet asks for", default=None
    )
    route: Route | None = table(
        Route, "the way in, and the load as it travels: packaging, dolly, handles", default=None
    )
    floor_load: FloorLoad | None = table(FloorLoad, "what the floor was designed for", default=None)
    clearances: tuple[Clearance, ...] = table(
        Clearance,
        "clearances that the spec sheet asks for: above it, beside it, for its grille",
        default=(),
        many=True,
    )
    door_swing: DoorSwing | None = table(
        DoorSwing,
        "the appliance's door against the wall beside it and what stands opposite",
        default=None,
    )
    services: tuple[Service, ...] = table(
        Service,
        "outlets, stubs and shut-offs against the zones of the spec sheet",
        default=(),
        many=True,
    )
    supply_lines: tuple[SupplyLine, ...] = table(
        SupplyLine, "loose lines from the stub to the appliance", default=(), many=True
    )
