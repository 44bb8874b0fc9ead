"""The keys of what holds the unit: lumber, screws, rules, loads, what is built, own tables."""

from __future__ import annotations

from bracecalc.records.job import (
    Boards,
    Built,
    CarriedScrew,
    Earthquake,
    Loads,
    PublishedScrew,
    Rules,
    Screws,
)
from bracecalc.schema.model import Group, Key, Kind

HOLDING: tuple[Group, ...] = (
    Group(
        "boards",
        Boards,
        "the lumber of the stack",
        (
            Key("size", Kind.NAME, "nominal size", table="lumber", told=True),
            Key("species", Kind.NAME, "species group", table="species", told=True),
            Key("thickness", Kind.LENGTH, "measured thickness, in place of the table's", above=0),
            Key(
                "width",
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
                above=0,
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
                "contact",
                Kind.CHOICE,
                "where along the boards the housing bears: paper drags at both ends, or at one",
                choices=("both ends", "one end"),
            ),
            Key(
                "even_contact",
                Kind.FLAG,
                "the housing is shown to bear evenly, front to back of the overlap",
            ),
            Key(
                "shared_contact",
                Kind.FLAG,
                "all boards of the stack are shown to bear, not the outermost alone",
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
                "something else keeps the unit from sliding",
            ),
            Key("wet_service", Kind.FLAG, "the wood is or will be wet (over 19 %)"),
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
                optional=True,
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
            for case in ("minimum", "child_alone", "service", "climb", "pull", "earthquake")
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
