"""Lateral strength of a screw in single shear between two pieces of wood.

Symbols of the sources: NDS is ANSI/AWC NDS-2018, TR12 is AWC Technical Report 12 (2015).
In the yield equations the diameter is the root diameter D_r of the thread, and the bending
yield strength F_yb goes by the nominal diameter D: so the tables of NDS come out.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import angle_in_range, not_negative, positive

QUARTER = 0.25  # in; NDS changes its rules at this diameter


class Mode(StrEnum):
    """Ways in which a dowel joint in single shear yields (NDS 2018 Appendix I)."""

    I_m = "I_m"
    I_s = "I_s"
    II = "II"
    III_m = "III_m"
    III_s = "III_s"
    IV = "IV"


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """What the yield equations need of one screw in single shear.

    Args:
        diameter: of the dowel in the equations: root diameter D_r for screws, in.
        side_bearing: dowel bearing strength of the side member, F_es, psi.
        main_bearing: dowel bearing strength of the main member, F_em, psi.
        side_length: bearing length in the side member, l_s, in.
        main_length: bearing length in the main member, l_m, in.
        gap: between the two members, g, in. 0 where they touch.
        bending_yield: bending yield strength of the screw, F_yb, psi.

    Raises:
        ValueError: if a value is not finite, the gap below 0 or another not more than 0.
    """

    diameter: float
    side_bearing: float
    main_bearing: float
    side_length: float
    main_length: float
    gap: float
    bending_yield: float

    def __post_init__(self) -> None:
        positive(
            diameter=self.diameter,
            side_bearing=self.side_bearing,
            main_bearing=self.main_bearing,
            side_length=self.side_length,
            main_length=self.main_length,
            bending_yield=self.bending_yield,
        )
        not_negative(gap=self.gap)


class LateralValue(NamedTuple):
    """Reference lateral value, lbf, the mode that sets it, and the value by each mode, lbf."""

    value: float
    mode: Mode
    by_mode: Mapping[Mode, float]


@formula(
    equation="F_theta = F_par F_perp / (F_par sin^2 theta + F_perp cos^2 theta)",
    source="NDS 2018 Appendix J (form seen in a university course page that cites it).",
    unit="psi",
)
def hankinson(*, along: float, across: float, angle: float) -> float:
    """Return a strength at an angle to the grain.

    Args:
        along: strength along the grain, F_par, psi.
        across: strength across the grain, F_perp, psi.
        angle: between load and grain, theta, degrees, 0 to 90.

    Returns:
        Strength at the angle, psi.

    Raises:
        ValueError: if a strength is not finite or not more than 0, or the angle out of range.

    >>> hankinson(along=5600.0, across=4450.0, angle=90.0)
    4450.0
    """
    positive(along=along, across=across)
    angle_in_range(angle)
    # cos 90 degrees is not quite 0 in floats; the ends are exact by definition
    if angle in (0.0, 90.0):
        return along if angle == 0.0 else across
    sine = math.sin(math.radians(angle)) ** 2
    return along * across / (along * sine + across * (1.0 - sine))


@formula(
    equation=(
        "F_e = 16600 G^1.84 for D < 1/4 in; else F_par = 11200 G and F_perp = 6100 G^1.45 / "
        "sqrt(D), between them by Hankinson"
    ),
    source="NDS 2018 table 12.3.3 footnote 2 (second hand).",
    unit="psi",
)
def unrounded_bearing_strength(*, specific_gravity: float, diameter: float, angle: float) -> float:
    """Return the dowel bearing strength of wood as the equations give it.

    Args:
        specific_gravity: of the member, G, dimensionless.
        diameter: nominal, D, in.
        angle: between load and grain, theta, degrees, 0 to 90. Plays no part below 1/4 in.

    Returns:
        Dowel bearing strength, psi.

    Raises:
        ValueError: if a value is not finite or not more than 0, or the angle out of range.

    >>> round(unrounded_bearing_strength(specific_gravity=0.50, diameter=0.19, angle=0.0), 1)
    4636.7
    """
    positive(specific_gravity=specific_gravity, diameter=diameter)
    angle_in_range(angle)
    if diameter < QUARTER:
        return 16_600.0 * math.pow(specific_gravity, 1.84)
    return hankinson(
        along=11_200.0 * specific_gravity,
        across=6_100.0 * math.pow(specific_gravity, 1.45) / math.sqrt(diameter),
        angle=angle,
    )


@formula(
    equation=(
        "F_e = 16600 G^1.84 for D < 1/4 in; else F_par = 11200 G and F_perp = 6100 G^1.45 / "
        "sqrt(D), between them by Hankinson; each to the nearest 50 psi"
    ),
    source="NDS 2018 table 12.3.3 (second hand; rounding confirmed by the cells of table 12K).",
    unit="psi",
)
def dowel_bearing_strength(*, specific_gravity: float, diameter: float, angle: float) -> float:
    """Return the dowel bearing strength of wood, to the nearest 50 psi as the tables print it.

    Args:
        specific_gravity: of the member, G, dimensionless.
        diameter: nominal, D, in.
        angle: between load and grain, theta, degrees, 0 to 90. Plays no part below 1/4 in.

    Returns:
        Dowel bearing strength, psi. Between 0 and 90 degrees worked out from the two rounded
        ends and not rounded again.

    Raises:
        ValueError: if a value is not finite or not more than 0, or the angle out of range.

    >>> dowel_bearing_strength(specific_gravity=0.42, diameter=0.19, angle=0.0)
    3350.0
    >>> dowel_bearing_strength(specific_gravity=0.50, diameter=0.25, angle=90.0)
    4450.0
    """
    angle_in_range(angle)
    along, across = (
        math.floor(
            unrounded_bearing_strength(
                specific_gravity=specific_gravity, diameter=diameter, angle=end
            )
            / 50.0
            + 0.5
        )
        * 50.0
        for end in (0.0, 90.0)
    )
    return hankinson(along=along, across=across, angle=angle)


def _root(a: float, b: float, c: float) -> float:
    # The root (-b + sqrt(b^2 - 4 a c)) / (2 a), written so that a wide gap loses no digits.
    return -2.0 * c / (b + math.sqrt(b * b - 4.0 * a * c))


@formula(
    equation=(
        "P = (-B + sqrt(B^2 - 4 A C)) / (2 A), with q_s = F_es D_r, q_m = F_em D_r, M = F_yb "
        "D_r^3 / 6; I_m: P = q_m l_m; I_s: P = q_s l_s; II: A = 1/(4 q_s) + 1/(4 q_m), B = "
        "l_s/2 + g + l_m/2, C = -q_s l_s^2/4 - q_m l_m^2/4; III_m: A = 1/(2 q_s) + 1/(4 q_m), B "
        "= g + l_m/2, C = -M - q_m l_m^2/4; III_s: A = 1/(4 q_s) + 1/(2 q_m), B = l_s/2 + g, C "
        "= -q_s l_s^2/4 - M; IV: A = 1/(2 q_s) + 1/(2 q_m), B = g, C = -2 M"
    ),
    source="AWC TR12 table 1-1, general dowel equations (from memory; example 3.1 second hand).",
    unit="lbf",
)
def yield_loads(joint: Joint) -> Mapping[Mode, float]:
    """Return the load at which each mode yields, before the reduction term.

    Args:
        joint: lengths in in, strengths in psi.

    Returns:
        Yield load P by mode, lbf.

    >>> bolt = Joint(diameter=0.5, side_bearing=4800.0, main_bearing=4800.0, side_length=1.5,
    ...              main_length=1.5, gap=0.0, bending_yield=45000.0)
    >>> round(yield_loads(bolt)[Mode.II] / 3.6)
    414
    """
    q_s = joint.side_bearing * joint.diameter
    q_m = joint.main_bearing * joint.diameter
    M = joint.bending_yield * joint.diameter**3 / 6.0
    l_s, l_m, g = joint.side_length, joint.main_length, joint.gap
    side, main = q_s * l_s**2 / 4.0, q_m * l_m**2 / 4.0
    return {
        Mode.I_m: q_m * l_m,
        Mode.I_s: q_s * l_s,
        Mode.II: _root(0.25 / q_s + 0.25 / q_m, l_s / 2.0 + g + l_m / 2.0, -side - main),
        Mode.III_m: _root(0.5 / q_s + 0.25 / q_m, g + l_m / 2.0, -M - main),
        Mode.III_s: _root(0.25 / q_s + 0.5 / q_m, l_s / 2.0 + g, -side - M),
        Mode.IV: _root(0.5 / q_s + 0.5 / q_m, g, -2.0 * M),
    }


_REDUCTION_BY_MODE = {
    Mode.I_m: 4.0,
    Mode.I_s: 4.0,
    Mode.II: 3.6,
    Mode.III_m: 3.2,
    Mode.III_s: 3.2,
    Mode.IV: 3.2,
}


@formula(
    equation=(
        "K_D = 2.2 for D_r <= 0.17 in, else 10 D_r + 0.5; K_theta = 1 + 0.25 theta/90; R_d = "
        "K_D for D < 1/4 in; K_D K_theta for D >= 1/4 in with D_r < 1/4 in; else 4 K_theta (I), "
        "3.6 K_theta (II), 3.2 K_theta (III, IV)"
    ),
    source="NDS 2018 table 12.3.1B (from memory; confirmed by table 12K, seen).",
)
def reduction_term(*, mode: Mode, diameter: float, root_diameter: float, angle: float) -> float:
    """Return the reduction term that makes an allowable value of a yield load.

    Args:
        mode: the yield mode.
        diameter: nominal, D, in.
        root_diameter: of the thread, D_r, in. Not more than D.
        angle: the greatest between load and grain in either member, theta, degrees, 0 to 90.

    Returns:
        Reduction term R_d, dimensionless.

    Raises:
        ValueError: if a diameter is not finite or not more than 0, D_r is more than D, or the
            angle is out of range.

    >>> reduction_term(mode=Mode.IV, diameter=0.190, root_diameter=0.152, angle=90.0)
    2.2
    >>> reduction_term(mode=Mode.II, diameter=0.5, root_diameter=0.371, angle=90.0)
    4.5
    """
    positive(diameter=diameter, root_diameter=root_diameter)
    angle_in_range(angle)
    if root_diameter > diameter:
        raise ValueError(f"D_r must not be more than D, got {root_diameter!r} and {diameter!r}")
    K_D = 2.2 if root_diameter <= 0.17 else 10.0 * root_diameter + 0.5
    if diameter < QUARTER:
        return K_D
    K_theta = 1.0 + 0.25 * angle / 90.0
    return (K_D if root_diameter < QUARTER else _REDUCTION_BY_MODE[mode]) * K_theta


@formula(
    equation="Z = min over the modes of P / R_d",
    source="NDS 2018 12.3.1; with a gap AWC TR12 (from memory).",
    unit="lbf",
)
def reference_lateral(joint: Joint, *, nominal_diameter: float, angle: float) -> LateralValue:
    """Return the reference lateral value of one screw, before the penetration factor.

    Args:
        joint: with the root diameter D_r as its diameter, in; strengths in psi.
        nominal_diameter: D, in.
        angle: the greatest between load and grain in either member, theta, degrees, 0 to 90.

    Returns:
        The least value Z, its mode, and Z by each mode, lbf.

    Raises:
        ValueError: if the nominal diameter is less than that of the joint, the angle is out of
            range, or a value comes out as no finite number above 0.

    >>> screw = Joint(diameter=0.152, side_bearing=4650.0, main_bearing=4650.0, side_length=0.5,
    ...               main_length=1.9, gap=0.0, bending_yield=80000.0)
    >>> z = reference_lateral(screw, nominal_diameter=0.190, angle=90.0)
    >>> round(z.value), z.mode.value  # table 12L, No. 10, 1/2 in side member, G 0.50: 90 lb
    (90, 'III_s')
    """
    by_mode = {
        mode: load
        / reduction_term(
            mode=mode,
            diameter=nominal_diameter,
            root_diameter=joint.diameter,
            angle=angle,
        )
        for mode, load in yield_loads(joint).items()
    }
    positive(**by_mode)  # sizes beyond the reach of floats end in NaN, which min would let pass
    mode = min(by_mode, key=by_mode.__getitem__)
    return LateralValue(value=by_mode[mode], mode=mode, by_mode=by_mode)
