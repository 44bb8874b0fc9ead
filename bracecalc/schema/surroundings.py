"""The keys of the rest of the job: opening, way in, floor load, clearances, services."""

from __future__ import annotations

from bracecalc.records.surroundings import (
    Clearance,
    DoorSwing,
    Doorway,
    FloorLoad,
    Opening,
    Route,
    Service,
    SupplyLine,
)
from bracecalc.schema.model import Group, Key, Kind

SURROUNDINGS: tuple[Group, ...] = (
    Group(
        "opening",
        Opening,
        "the opening against what the unit's sheet asks for",
        (
            Key("width_range", Kind.RANGE, "width that the unit's sheet allows", above=0),
            Key("height_range", Kind.RANGE, "height that the unit's sheet allows", above=0),
            Key("depth_range", Kind.RANGE, "depth that the unit's sheet allows", above=0),
            Key("height", Kind.LENGTHS, "floor to head, read at left, middle and right", above=0),
            Key("diagonals", Kind.PAIR, "the two diagonals of the opening", above=0),
            Key("out_of_plumb", Kind.LENGTHS, "how far each side leans, over its height"),
            Key("square_tolerance", Kind.LENGTH, "most that the diagonals may differ", least=0),
            Key("plumb_tolerance", Kind.LENGTH, "most that a side may lean", least=0),
            Key(
                "level_tolerance",
                Kind.LENGTH,
                "most that the floor may differ at the legs",
                least=0,
            ),
        ),
    ),
    Group(
        "route",
        Route,
        "the way in, and the load as it travels: packaging, dolly, handles",
        (
            Key("ceiling", Kind.LENGTH, "floor to ceiling where the unit is stood up", above=0),
            Key("moving_height", Kind.LENGTH, "height of the unit as it travels", above=0),
            Key("moving_width", Kind.LENGTH, "width of the unit as it travels", above=0),
            Key("moving_depth", Kind.LENGTH, "depth of the unit as it travels", above=0),
            Key("trim_off_height", Kind.LENGTH, "height with what can come off taken off", above=0),
            Key("trim_off_depth", Kind.LENGTH, "depth with what can come off taken off", above=0),
        ),
    ),
    Group(
        "route.doorways",
        Doorway,
        "doors and corridors on the way in",
        (
            Key("name", Kind.TEXT, "what it is called"),
            Key("width", Kind.LENGTH, "clear width", above=0),
            Key("height", Kind.LENGTH, "clear height; leave out in a corridor", above=0),
        ),
        many=True,
    ),
    Group(
        "floor_load",
        FloorLoad,
        "what the floor was designed for",
        (
            Key(
                "design",
                Kind.PRESSURE,
                "design live load of the floor (IRC: 40 psf for dwelling floors)",
                field="design_psf",
                above=0,
            ),
        ),
    ),
    Group(
        "clearances",
        Clearance,
        "clearances that the unit's sheet asks for: above it, beside it, for its grille",
        (
            Key("name", Kind.TEXT, "where it is"),
            Key("required", Kind.LENGTH, "what the sheet asks for", least=0),
            Key("measured", Kind.LENGTH, "what there is", least=0),
        ),
        many=True,
    ),
    Group(
        "door_swing",
        DoorSwing,
        "the unit's door against the wall beside it and what stands opposite",
        (
            Key("width", Kind.LENGTH, "width of the door", above=0),
            Key("thickness", Kind.LENGTH, "thickness of the door with its panel", above=0),
            Key("hinge_offset", Kind.LENGTH, "hinge axis behind the door's front face"),
            Key("handle", Kind.LENGTH, "how far the handle stands out of the door's face", least=0),
            Key("wanted_angle", Kind.ANGLE, "angle that the door must open to", above=0, most=180),
            Key("hinge_side", Kind.LENGTH, "hinge axis from the door's hinge-side edge"),
            Key("handle_from_edge", Kind.LENGTH, "handle from the door's free edge", least=0),
            Key(
                "side_wall",
                Kind.LENGTH,
                "from the door's hinge-side edge to the wall beside it",
                least=0,
            ),
            Key(
                "wall_ahead",
                Kind.LENGTH,
                "how far that wall runs on in front of the shut door's face",
            ),
            Key(
                "opposite",
                Kind.LENGTH,
                "from the shut door's face to what stands opposite",
                above=0,
            ),
        ),
    ),
    Group(
        "services",
        Service,
        "outlets, stubs and shut-offs against the zones of the unit's sheet",
        (
            Key("name", Kind.TEXT, "what it is"),
            Key("x", Kind.LENGTH, "from the left side of the niche"),
            Key("z", Kind.LENGTH, "above the datum"),
            Key(
                "x_range", Kind.RANGE, "zone that the sheet gives, from the left side of the niche"
            ),
            Key("z_range", Kind.RANGE, "zone that the sheet gives, above the datum"),
        ),
        many=True,
    ),
    Group(
        "supply_lines",
        SupplyLine,
        "loose lines from the stub to the unit",
        (
            Key("name", Kind.TEXT, "what it is"),
            Key("length", Kind.LENGTH, "length of the line", above=0),
            Key("path", Kind.LENGTH, "from stub to connection along the way it will lie", above=0),
            Key("slack", Kind.LENGTH, "slack that the sheet asks for", least=0),
        ),
        many=True,
    ),
)
