"""The keys of what is there: niche, floor, wall and unit."""

from __future__ import annotations

from bracecalc.records.job import (
    Door,
    Floor,
    Job,
    Layer,
    Niche,
    Stud,
    StudLayout,
    Unit,
    Wall,
)
from bracecalc.schema.model import Group, Key, Kind

_SPOTS = (
    ("front_left", "front left leg spot"),
    ("front_right", "front right leg spot"),
    ("rear_left", "rear left leg spot"),
    ("rear_right", "rear right leg spot"),
)
_LAYER = (
    Key("material", Kind.NAME, "what the layer is made of", table="layers"),
    Key("thickness", Kind.LENGTH, "its thickness", above=0),
    Key(
        "fixed_to_stud",
        Kind.FLAG,
        "it is wood or panel, touches the framing and is fixed to it",
    ),
)

SITE: tuple[Group, ...] = (
    Group(
        "",
        Job,
        "the niche as a whole",
        (
            Key(
                "title",
                Kind.TEXT,
                "what the niche is called",
                optional=True,
                otherwise="the file's name",
            ),
            Key(
                "units",
                Kind.CHOICE,
                "the system of bare numbers, and of what is printed",
                choices=("inch", "mm"),
                told=True,
            ),
        ),
    ),
    Group(
        "niche",
        Niche,
        "the framed recess, finished",
        (
            Key(
                "width",
                Kind.LENGTHS,
                "finished opening, side to side; read at bottom, middle and top",
                above=0,
            ),
            Key(
                "depth",
                Kind.LENGTHS,
                "from the niche's front plane to the finished rear wall, at the boards' height",
                above=0,
            ),
            Key(
                "soffit",
                Kind.LENGTHS,
                "underside of the soffit above the datum; leave out where there is none",
                above=0,
                otherwise="there is none",
            ),
            Key(
                "soffit_solid",
                Kind.FLAG,
                "the soffit is framed over the rear of the unit and can be pushed against",
            ),
            Key(
                "soffit_depth",
                Kind.LENGTH,
                "how far the soffit reaches out from the rear wall",
                above=0,
                otherwise="all the way to the front",
            ),
        ),
    ),
    Group(
        "niche.soffit_layers",
        Layer,
        "what lies between the soffit's face and its framing, from the room inward",
        _LAYER,
        many=True,
    ),
    Group(
        "floor",
        Floor,
        "heights of the floor above the datum; all 0 if left out",
        (
            *(
                Key(
                    name,
                    Kind.LENGTH,
                    f"height of the floor at the {what}, above the datum",
                    told=True,
                )
                for name, what in _SPOTS
            ),
            Key(
                "path_high",
                Kind.LENGTH,
                "highest floor on the way in (threshold, edge of the flooring), above the datum",
                otherwise="the highest leg spot",
            ),
            Key(
                "finish_to_come",
                Kind.LENGTH,
                "thickness of the flooring still to be laid; it is added to the heights",
                least=0,
            ),
            Key(
                "uncertainty",
                Kind.LENGTH,
                "how far a floor reading may be off",
                least=0,
                otherwise="rules.height_uncertainty",
            ),
        ),
    ),
    Group(
        "floor.down_from_line",
        None,
        "the floor as a laser is read, down from its line: a bigger reading is a lower floor",
        (
            *(
                Key(
                    name, Kind.LENGTH, f"from the line down to the floor at the {what}", needed=True
                )
                for name, what in _SPOTS
            ),
            Key(
                "path_high",
                Kind.LENGTH,
                "from the line down to the highest floor on the way in",
                otherwise="the highest leg spot",
            ),
            Key(
                "line",
                Kind.LENGTH,
                "height of the line above the datum",
                otherwise="the lowest leg spot is the datum",
            ),
        ),
    ),
    Group(
        "wall",
        Wall,
        "the rear wall",
        (
            Key(
                "stud_spots",
                Kind.SPOTS,
                "centre of each stud from the left side of the niche; this or wall.stud_layout",
                otherwise="wall.stud_layout must be given",
            ),
            Key("corner_studs", Kind.FLAG, "a stud stands at each side of the niche too"),
            Key(
                "finish_to_come",
                Kind.LENGTH,
                "a layer still missing when the depth was read",
                least=0,
            ),
        ),
    ),
    Group(
        "wall.layers",
        Layer,
        "what lies between the face of the wall and the studs, from the room inward",
        _LAYER,
        many=True,
    ),
    Group(
        "wall.stud",
        Stud,
        "the framing behind the wall",
        (
            Key(
                "material",
                Kind.CHOICE,
                "what the framing is",
                choices=("wood", "steel", "masonry", "unknown"),
                told=True,
            ),
            Key("species", Kind.NAME, "species group of wood studs", table="species", told=True),
            Key(
                "width",
                Kind.LENGTH,
                "width of the stud's face behind the finish",
                above=0,
                told=True,
            ),
            Key("depth", Kind.LENGTH, "depth of the stud, into the wall", above=0, told=True),
        ),
    ),
    Group(
        "wall.stud_layout",
        StudLayout,
        "studs at a regular spacing, where their spots aren't measured",
        (
            Key("spacing", Kind.LENGTH, "centre to centre", above=0),
            Key(
                "first",
                Kind.LENGTH,
                "first centre from the left side of the niche, if known",
                otherwise="spacing alone: studs are counted, not placed",
            ),
        ),
    ),
    Group(
        "unit",
        Unit,
        "the appliance, from its sheet",
        (
            Key(
                "height",
                Kind.LENGTH,
                "top of the housing where the restraint bears, on its rollers with the legs in",
                above=0,
            ),
            Key(
                "height_overall",
                Kind.LENGTH,
                "highest point of the whole unit, legs in",
                above=0,
                otherwise="unit.height",
            ),
            Key("width", Kind.LENGTH, "width of the housing", above=0),
            Key(
                "depth",
                Kind.LENGTH,
                "from the unit's front plane to the rear of the housing's top",
                above=0,
            ),
            Key(
                "proud",
                Kind.LENGTH,
                "how far the unit's front plane stands out of the niche's; less than 0: recessed",
            ),
            Key(
                "leg_travel_front",
                Kind.LENGTH,
                "how far the front legs can be screwed out (or unit.leg_travel for all)",
                above=0,
                optional=True,
                otherwise="unit.leg_travel must be given",
            ),
            Key(
                "leg_travel_rear",
                Kind.LENGTH,
                "how far the rear legs can be screwed out (or unit.leg_travel for all)",
                above=0,
                optional=True,
                otherwise="unit.leg_travel must be given",
            ),
            Key(
                "leg_travel",
                Kind.LENGTH,
                "how far the legs can be screwed out, from legs in to the end of their thread",
                above=0,
                optional=True,
                otherwise="must be given, or both of the above",
            ),
            Key(
                "leg_pitch",
                Kind.LENGTH,
                "rise of one turn of a leg; turns are then printed",
                above=0,
                otherwise="turns aren't printed",
            ),
            Key(
                "weight",
                Kind.FORCE,
                "weight of the empty unit, doors shut",
                above=0,
                otherwise="what tips the unit isn't checked",
            ),
            Key(
                "contents",
                Kind.FORCE,
                "weight of all that may stand in it; earthquake only",
                least=0,
                otherwise="what the doors hold",
            ),
            Key(
                "cg_height",
                Kind.LENGTH,
                "centre of gravity of the empty unit above its foot",
                above=0,
            ),
            Key(
                "cg_behind_front_legs",
                Kind.LENGTH,
                "centre of gravity of the empty unit behind the front leg line",
            ),
            Key(
                "front_legs_behind_front",
                Kind.LENGTH,
                "front leg line behind the unit's front plane",
            ),
            Key(
                "rear_legs_behind_front",
                Kind.LENGTH,
                "rear leg line behind the unit's front plane",
                above=0,
            ),
            Key(
                "restraint_height",
                Kind.LENGTH,
                "underside of the restraint above the datum, as the unit's maker wants it",
                above=0,
            ),
            Key(
                "bearing_zone",
                Kind.RANGE,
                "where the top may be pushed on: nearest and farthest from its rear edge",
                least=0,
                otherwise="not checked; the plan asks for it",
            ),
        ),
    ),
    Group(
        "unit.doors",
        Door,
        "doors and drawers; distances in front of the front leg line, forward positive",
        (
            Key("own_weight", Kind.FORCE, "weight of the door or drawer itself", least=0),
            Key("contents", Kind.FORCE, "weight of what it carries", least=0),
            Key("reach", Kind.LENGTH, "its centre of gravity when open"),
            Key(
                "closed_reach", Kind.LENGTH, "its centre of gravity when shut; less than 0: behind"
            ),
            Key("edge", Kind.LENGTH, "its outer edge when open, where a child may hang"),
        ),
        many=True,
    ),
)
