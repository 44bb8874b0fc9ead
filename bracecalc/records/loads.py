"""What the stack must hold, and by which standard that is shown."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from bracecalc.records.keys import (
    Key,
    Kind,
    Within,
    choice_key,
    flag_key,
    force_key,
    key,
    length_key,
    name_key,
    plain_key,
    record,
    table,
)

LOAD_CASES = ("minimum", "child_alone", "service", "climb", "pull", "earthquake")


class Method(StrEnum):
    """The standard by which the strength is shown."""

    NDS = "NDS"
    EC5 = "EC5"


@record
class Earthquake:
    """ASCE 7 chapter 13 inputs; the edition decides which of them are used."""

    s_ds: float = plain_key(
        "design spectral acceleration at short periods, in g",
        name="S_DS",
        within=Within(above=0, most=4, usual=(0.05, 2.5)),
        optional=True,
    )
    edition: str = choice_key("edition of ASCE 7", default="7-16", choices=("7-16", "7-22"))
    a_p: float = plain_key("amplification factor (7-16)", default=1.0, within=Within(1, 2.5))
    r_p: float = plain_key(
        "response modification factor (7-16)",
        name="R_p",
        default=2.5,
        within=Within(1, 12),
    )
    i_p: float = plain_key(
        "importance factor, 1.0 or 1.5",
        name="I_p",
        default=1.0,
        within=Within(1, 1.5),
    )
    z_over_h: float = plain_key(
        "height in the building, 0 ground to 1 roof",
        default=1.0,
        within=Within(0, 1),
    )
    h_f: float | None = plain_key(  # 7-22 asks for this one and the three below
        "factor for height (7-22)", name="H_f", default=None, within=Within(1, 5)
    )
    r_mu: float | None = plain_key(
        "ductility reduction factor (7-22)",
        name="R_mu",
        default=None,
        within=Within(1, 8),
    )
    c_ar: float | None = plain_key(
        "resonance ductility factor (7-22)",
        name="C_AR",
        default=None,
        within=Within(1, 5),
    )
    r_po: float | None = plain_key(
        "component strength factor (7-22)",
        name="R_po",
        default=None,
        within=Within(1, 5),
    )


@record
class Loads:
    """What the stack must hold, and by which standard that is shown."""

    minimum: float = force_key(
        "least restraint force, whatever the appliance is",
        default=60.0,  # ASTM F3096-23 by analogy, second hand
        within=Within(above=0, most=20_000, usual=(40, 1000)),
    )
    climb: float = force_key(
        "weight of the child at the edge of an open door",
        default=60.0,
        within=Within(0, 2000, usual=(0, 300)),
    )
    dynamic_factor: float = plain_key(
        "factor on the child's weight",
        default=1.0,
        within=Within(1, 10, usual=(1, 3)),
    )
    pull: float = force_key(
        "pull outward at hand height",
        default=10.0,  # horizontal dynamic test of ASTM F2057-23 by analogy, from memory
        within=Within(0, 5000, usual=(0, 300)),
    )
    pull_height: float | None = length_key(
        "height of that pull above the floor",
        default=None,
        within=Within(1, 150, usual=(12, 96)),
    )
    horizontal_stop: bool = flag_key(
        "something else keeps the appliance from sliding", default=False
    )
    wet_service: bool = flag_key("the wood is or will be wet (over 19 %)", default=False)
    temperature: float = key(
        Kind.TEMPERATURE,
        "greatest sustained temperature",
        default=70.0,
        within=Within(-60, 150, usual=(30, 125)),
    )
    method: Method = choice_key(
        "the standard of the strength",
        default=Method.NDS,
        choices=tuple(Method),
    )
    timber_class: str = name_key("strength class, EC5 only", default="C24", table="timber_classes")
    service_class: int = key(Kind.COUNT, "service class, EC5 only", default=1, within=Within(1, 3))
    gamma_m: float = plain_key(
        "partial factor, EC5 only",
        name="gamma_M",
        default=1.3,
        within=Within(1, 3),
    )
    earthquake: Earthquake | None = table(
        Earthquake, "ASCE 7 chapter 13, where S_DS is given", default=None, here=True
    )
    load_duration: Mapping[str, float] = table(  # by case; overrides the default
        None,
        "load duration factor by load case, in place of the default; at most 1.6 for a connection",
        default_factory=dict,
        keys=tuple(
            Key(
                Kind.PLAIN,
                f"load duration factor of the {case} case",
                name=case,
                field=case,
                default=None,
                within=Within(0.5, 1.6),
            )
            for case in LOAD_CASES
        ),
    )
