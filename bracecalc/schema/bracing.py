"""The keys of what the bracing depends on: niche, floor, wall, unit, lumber, screws, loads."""

from __future__ import annotations

from bracecalc.records.job import (
    Boards,
    Built,
    CarriedScrew,
    Door,
    Earthquake,
    Floor,
    Job,
    Layer,
    Loads,
    Niche,
    PublishedScrew,
    Rules,
    Screws,
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
        "true only for wood or panel that touches the framing and is fixed to it",
    ),
)

BRACING: tuple[Group, ...] = (
    Group(
        "",
        Job,
        "the niche as a whole",
        (
            Key(
                "title",
                Kind.TEXT,
                "what the niche is called; the file's name if left out",
                optional=True,
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
            ),
            Key(
                "soffit_solid",
                Kind.FLAG,
                "true where the soffit is framed and can be pushed against",
            ),
            Key(
                "soffit_depth",
                Kind.LENGTH,
                "how far the soffit reaches out from the rear wall; all the way if left out",
                above=0,
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
            ),
            Key(
                "finish_to_come",
                Kind.LENGTH,
                "thickness of the flooring still to be laid; it is added to the heights",
                least=0,
            ),
            Key("uncertainty", Kind.LENGTH, "how far a floor reading may be off", least=0),
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
            Key("path_high", Kind.LENGTH, "from the line down to the highest floor on the way in"),
            Key(
                "line",
                Kind.LENGTH,
                "height of the line above the datum; if left out the lowest leg spot is the datum",
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
            ),
            Key("corner_studs", Kind.FLAG, "true where a stud stands at each side of the niche"),
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
            Key("first", Kind.LENGTH, "first centre from the left side of the niche, if known"),
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
            Key("height_overall", Kind.LENGTH, "highest point of the whole unit, legs in", above=0),
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
            ),
            Key(
                "leg_travel_rear",
                Kind.LENGTH,
                "how far the rear legs can be screwed out (or unit.leg_travel for all)",
                above=0,
                optional=True,
            ),
            Key(
                "leg_travel",
                Kind.LENGTH,
                "how far the legs can be screwed out, from legs in to the end of their thread",
                above=0,
                optional=True,
            ),
            Key(
                "leg_pitch",
                Kind.LENGTH,
                "rise of one turn of a leg; turns are then printed",
                above=0,
            ),
            Key("weight", Kind.FORCE, "weight of the empty unit, doors shut", above=0),
            Key(
                "contents",
                Kind.FORCE,
                "weight of all that may stand in it; earthquake only",
                least=0,
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
    Group(
        "boards",
        Boards,
        "the lumber of the stack",
        (
            Key("size", Kind.NAME, "nominal size", table="lumber", told=True),
            Key("species", Kind.NAME, "species group", table="species", told=True),
            Key("thickness", Kind.LENGTH, "measured thickness, in place of the table's", above=0),
            Key(
                "height",
                Kind.LENGTH,
                "measured width of the board, in place of the table's",
                above=0,
            ),
            Key(
                "end_gap",
                Kind.LENGTH,
                "from each end of the board to the side of the niche",
                least=0,
            ),
        ),
    ),
    Group(
        "screws",
        Screws,
        "what may be used; the stock table if nothing is carried",
        (
            Key("counterbore", Kind.LENGTH, "how deep the heads are sunk", least=0),
            Key("washer", Kind.LENGTH, "thickness of the washer under the head", least=0),
        ),
    ),
    Group(
        "screws.carried",
        CarriedScrew,
        "screws that the crew has",
        (
            Key("size", Kind.NAME, "size, as in the table of screws", table="screws"),
            Key("lengths", Kind.LENGTHS, "the lengths there are", above=0),
            Key(
                "thread_length", Kind.LENGTH, "length of the thread, if its maker gives it", above=0
            ),
        ),
        many=True,
    ),
    Group(
        "screws.published",
        PublishedScrew,
        "screws outside the equations, with their maker's allowable values for this use",
        (
            Key("size", Kind.TEXT, "what it is called"),
            Key("diameter", Kind.LENGTH, "diameter of the shank", above=0),
            Key("head_diameter", Kind.LENGTH, "diameter of the head", above=0),
            Key("length", Kind.LENGTH, "length under the head", above=0),
            Key("thread_length", Kind.LENGTH, "length of the thread", above=0),
            Key(
                "least_embedment",
                Kind.LENGTH,
                "least length in the stud that the values ask for",
                above=0,
            ),
            Key("lateral", Kind.FORCE, "allowable lateral load of one screw at this gap", above=0),
            Key("withdrawal", Kind.RATE, "allowable withdrawal per length of thread", above=0),
            Key("pull_through", Kind.FORCE, "allowable head pull-through", above=0),
            Key("largest_gap", Kind.LENGTH, "largest gap that the values hold for", least=0),
            Key("source", Kind.TEXT, "the document that publishes them: number, date, table"),
        ),
        many=True,
    ),
    Group(
        "rules",
        Rules,
        "rules of the trade and tolerances; each default is common practice unless said otherwise",
        (
            Key("overlap", Kind.LENGTH, "least overlap of the boards over the housing", above=0),
            Key("overlap_left", Kind.LENGTH, "least overlap left when the rear has risen", least=0),
            Key("embedment", Kind.LENGTH, "least length of a screw in the stud", above=0),
            Key("leg_least", Kind.LENGTH, "least leg extension, just off the rollers", least=0),
            Key("roll_in", Kind.LENGTH, "clearance over the unit to roll it in", least=0),
            Key(
                "rear_rise",
                Kind.LENGTH,
                "how far the rear may rise before the boards hold",
                least=0,
            ),
            Key(
                "most_boards",
                Kind.COUNT,
                "most boards in a stack before it is flagged",
                least=1,
                most=20,
            ),
            Key("under_head", Kind.LENGTH, "least wood left under a counterbored head", above=0),
            Key(
                "pivot_ease",
                Kind.LENGTH,
                "taken off the lever arm for eased edge and crushing",
                least=0,
            ),
            Key(
                "plate_depth",
                Kind.LENGTH,
                "depth in the stud beyond which a screw can meet wires (IRC and NEC)",
                above=0,
            ),
            Key("tape_uncertainty", Kind.LENGTH, "how far a tape reading may be off", least=0),
            Key(
                "height_uncertainty",
                Kind.LENGTH,
                "how far a reading over the datum may be off",
                least=0,
            ),
            Key(
                "rounding", Kind.LENGTH, "what lengths are rounded to when printed", above=0, most=1
            ),
            Key(
                "even_contact",
                Kind.FLAG,
                "true where the housing is shown to bear evenly, front to back of the overlap",
            ),
            Key(
                "shared_contact", Kind.FLAG, "true where all boards of the stack are shown to bear"
            ),
        ),
    ),
    Group(
        "loads",
        Loads,
        "what the stack must hold",
        (
            Key("minimum", Kind.FORCE, "least restraint force, whatever the unit is", above=0),
            Key("climb", Kind.FORCE, "weight of the child at the edge of an open door", least=0),
            Key("dynamic_factor", Kind.PLAIN, "factor on the child's weight", least=1, most=10),
            Key("pull", Kind.FORCE, "pull outward at hand height", least=0),
            Key("pull_height", Kind.LENGTH, "height of that pull above the floor", above=0),
            Key(
                "horizontal_stop",
                Kind.FLAG,
                "true where something else keeps the unit from sliding",
            ),
            Key("wet_service", Kind.FLAG, "true where the wood is or will be wet (over 19 %)"),
            Key(
                "temperature",
                Kind.TEMPERATURE,
                "greatest sustained temperature",
                least=-60,
                most=150,
            ),
            Key("method", Kind.CHOICE, "the standard of the strength", choices=("NDS", "EC5")),
            Key("timber_class", Kind.NAME, "strength class, EC5 only", table="timber_classes"),
            Key("service_class", Kind.COUNT, "service class, EC5 only", least=1, most=3),
            Key(
                "gamma_M", Kind.PLAIN, "partial factor, EC5 only", field="gamma_m", least=1, most=3
            ),
        ),
    ),
    Group(
        "loads",
        Earthquake,
        "ASCE 7 chapter 13, where S_DS is given",
        (
            Key(
                "S_DS",
                Kind.PLAIN,
                "design spectral acceleration at short periods, in g",
                field="s_ds",
                above=0,
                most=4,
            ),
            Key("edition", Kind.CHOICE, "edition of ASCE 7", choices=("7-16", "7-22")),
            Key("a_p", Kind.PLAIN, "amplification factor (7-16)", least=1, most=2.5),
            Key(
                "R_p",
                Kind.PLAIN,
                "response modification factor (7-16)",
                field="r_p",
                least=1,
                most=12,
            ),
            Key("I_p", Kind.PLAIN, "importance factor, 1.0 or 1.5", field="i_p", least=1, most=1.5),
            Key(
                "z_over_h",
                Kind.PLAIN,
                "height in the building, 0 ground to 1 roof",
                least=0,
                most=1,
            ),
            Key("H_f", Kind.PLAIN, "factor for height (7-22)", field="h_f", least=1, most=5),
            Key(
                "R_mu",
                Kind.PLAIN,
                "ductility reduction factor (7-22)",
                field="r_mu",
                least=1,
                most=8,
            ),
            Key(
                "C_AR",
                Kind.PLAIN,
                "resonance ductility factor (7-22)",
                field="c_ar",
                least=1,
                most=5,
            ),
            Key(
                "R_po",
                Kind.PLAIN,
                "component strength factor (7-22)",
                field="r_po",
                least=1,
                most=5,
            ),
        ),
        slot="earthquake",
    ),
    Group(
        "loads.load_duration",
        None,
        "load duration factor by load case, in place of the default; at most 1.6 for a connection",
        tuple(
            Key(case, Kind.PLAIN, f"load duration factor of the {case} case", above=0, most=1.6)
            for case in ("minimum", "service", "climb", "earthquake")
        ),
    ),
    Group(
        "built",
        Built,
        "a restraint that stands already: the plan checks it and chooses nothing",
        (
            Key(
                "underside",
                Kind.LENGTH,
                "its lowest measured point over the unit, above the datum",
                above=0,
            ),
            Key("boards", Kind.SPOTS, "thickness of each board, from the wall outward", above=0),
            Key("packers", Kind.SPOTS, "thickness of each packer under the soffit", above=0),
        ),
    ),
    Group(
        "tables",
        None,
        "your own tables laid over those of bracecalc, as docs/tables.md says",
        tuple(
            Key(name, Kind.FILE, f"your own table of {what}")
            for name, what in (
                ("screws", "screws"),
                ("lumber", "board sizes"),
                ("species", "species"),
                ("layers", "wall layers"),
                ("packers", "packers and shims"),
                ("timber-classes", "strength classes"),
            )
        ),
    ),
)
