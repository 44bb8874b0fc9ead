"""Joints of the American tables: one screw, bolt or nail in single shear, without a gap."""

from __future__ import annotations

from bracecalc.mechanics.nds import dowel
from bracecalc.mechanics.nds.dowel import Joint, LateralValue
from published.closed_forms import bending_yield_strength

# No.: D, D_r, in (NDS 2018 table L3)
WOOD_SCREWS = {
    "8": (0.164, 0.131),
    "10": (0.190, 0.152),
    "12": (0.216, 0.171),
    "14": (0.242, 0.196),
}
# size: D, D_r, in (table L2)
LAG_SCREWS = {
    "1/4": (0.25, 0.173),
    "5/16": (0.3125, 0.227),
    "3/8": (0.375, 0.265),
    "7/16": (0.4375, 0.328),
    "1/2": (0.5, 0.371),
    "5/8": (0.625, 0.471),
    "3/4": (0.75, 0.579),
    "7/8": (0.875, 0.683),
}
STEEL_BEARING = 61_850.0  # psi, ASTM A653 grade 33
CONCRETE_BEARING = 7_500.0  # psi


def bearing(*, gravity: float, diameter: float, angle: float = 0.0) -> float:
    """Return F_e of wood as the tables take it, psi."""
    return dowel.dowel_bearing_strength(specific_gravity=gravity, diameter=diameter, angle=angle)


def lateral(
    *,
    size: tuple[float, float],
    side: tuple[float, float],
    main: tuple[float, float],
    angle: float = 0.0,
    gap: float = 0.0,
) -> LateralValue:
    """Return Z of one fastener, lbf.

    ``size`` is D and D_r in in; ``side`` and ``main`` are F_e in psi and bearing length in in;
    ``angle`` is the greatest to the grain in either member.
    """
    diameter, root = size
    joint = Joint(
        diameter=root,
        side_bearing=side[0],
        main_bearing=main[0],
        side_length=side[1],
        main_length=main[1],
        gap=gap,
        bending_yield=bending_yield_strength(diameter=diameter),
    )
    return dowel.reference_lateral(joint, nominal_diameter=diameter, angle=angle)


def wood_to_wood(
    *, size: tuple[float, float], gravity: float, side: float, main: float, angle: float = 0.0
) -> float:
    """Return Z with both members of one wood and at one angle to the grain, lbf."""
    strength = bearing(gravity=gravity, diameter=size[0], angle=angle)
    return lateral(size=size, side=(strength, side), main=(strength, main), angle=angle).value
