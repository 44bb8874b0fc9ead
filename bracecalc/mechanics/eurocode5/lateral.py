"""Strength of a screw by Eurocode 5: EN 1995-1-1:2004 with amendment A1:2008.

In the units of its source: mm, N, N/mm2, kg/m3. Values are characteristic, R_k: the design value is
k_mod R_k / gamma_M (eq. 2.17). Member 1 is the side member (under the head), member 2 the
main member (holds the point).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import angle_in_range, not_negative, positive

_NAIL_RULES_TO = 6.0  # mm of effective diameter; above it 8.7.1 sends screws to the rules of bolts


class Failure(StrEnum):
    """Failure modes of a dowel joint in single shear, figure 8.2 (a) to (f)."""

    A = "a"
    B = "b"
    C = "c"
    D = "d"
    E = "e"
    F = "f"


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberJoint:
    """What the Johansen equations need of one screw in single shear.

    Args:
        diameter: effective, d, mm.
        side_embedment: embedment strength of the side member, f_h,1,k, N/mm2.
        main_embedment: embedment strength of the main member, f_h,2,k, N/mm2.
        side_thickness: bearing length in the side member, t_1, mm.
        main_thickness: bearing length in the main member, t_2, mm.
        gap: between the two members, g, mm. 0 where they touch.
        yield_moment: of the screw, M_y,Rk, N mm.

    Raises:
        ValueError: if a value is not finite, the gap below 0 or another not more than 0.
    """

    diameter: float
    side_embedment: float
    main_embedment: float
    side_thickness: float
    main_thickness: float
    gap: float
    yield_moment: float

    def __post_init__(self) -> None:
        positive(
            diameter=self.diameter,
            side_embedment=self.side_embedment,
            main_embedment=self.main_embedment,
            side_thickness=self.side_thickness,
            main_thickness=self.main_thickness,
            yield_moment=self.yield_moment,
        )
        not_negative(gap=self.gap)


class LateralCapacity(NamedTuple):
    """Characteristic lateral capacity, N, its mode, and the capacity by each mode, N."""

    value: float
    mode: Failure
    by_mode: Mapping[Failure, float]


@formula(
    equation="d_ef = 1.1 d_1",
    source="EN 1995-1-1:2004 8.7.1(3) (seen in a public tutorial on the standard).",
    unit="mm",
)
def effective_diameter(*, root_diameter: float) -> float:
    """Return the diameter of a screw in the lateral equations, its thread in the shear plane.

    Args:
        root_diameter: of the thread, d_1, mm.

    Returns:
        Effective diameter d_ef, mm.

    Raises:
        ValueError: if the diameter is not finite or not more than 0.

    >>> effective_diameter(root_diameter=4.0)
    4.4
    """
    positive(root_diameter=root_diameter)
    return 1.1 * root_diameter


@formula(
    equation=(
        "f_h,k = 0.082 (1 - 0.01 d) rho_k predrilled, 0.082 rho_k d^-0.3 not; for d > 6 mm "
        "divided by k_90 sin^2 alpha + cos^2 alpha, k_90 = 1.35 + 0.015 d"
    ),
    source="EN 1995-1-1:2004 eqs. 8.15, 8.16 and 8.31 to 8.33, by 8.7.1 (from memory).",
    unit="N/mm2",
)
def embedment_strength(*, density: float, diameter: float, predrilled: bool, angle: float) -> float:
    """Return the characteristic embedment strength of softwood under a screw.

    Args:
        density: characteristic, rho_k, kg/m3.
        diameter: effective, d, mm.
        predrilled: whether the hole is drilled. Above 6 mm it always is.
        angle: between load and grain, alpha, degrees, 0 to 90. Plays no part to 6 mm.

    Returns:
        Embedment strength f_h,k, N/mm2.

    Raises:
        ValueError: if a value is not finite or not more than 0, the angle is out of range, or d
            is more than 6 mm and not predrilled.

    >>> round(embedment_strength(density=350.0, diameter=5.0, predrilled=True, angle=0.0), 3)
    27.265
    """
    positive(density=density, diameter=diameter)
    angle_in_range(angle)
    if not predrilled:
        if diameter > _NAIL_RULES_TO:
            raise ValueError(f"above 6 mm the hole must be drilled, got d = {diameter!r} mm")
        return 0.082 * density * math.pow(diameter, -0.3)
    along = 0.082 * (1.0 - 0.01 * diameter) * density
    positive(embedment_strength=along)  # the equation ends at d = 100 mm
    if diameter <= _NAIL_RULES_TO:
        return along
    sine = math.sin(math.radians(angle)) ** 2
    return along / ((1.35 + 0.015 * diameter) * sine + 1.0 - sine)


@formula(
    equation="M_y,Rk = 0.3 f_u,k d^2.6",
    source="EN 1995-1-1:2004 eqs. 8.14 and 8.30, by 8.7.1 (from memory).",
    unit="N mm",
)
def yield_moment(*, tensile_strength: float, diameter: float) -> float:
    """Return the characteristic yield moment of a screw.

    Args:
        tensile_strength: of the steel, f_u,k, N/mm2.
        diameter: effective, d, mm.

    Returns:
        Yield moment M_y,Rk, N mm.

    Raises:
        ValueError: if a value is not finite or not more than 0.

    >>> round(yield_moment(tensile_strength=400.0, diameter=8.0))
    26743
    """
    positive(tensile_strength=tensile_strength, diameter=diameter)
    return 0.3 * tensile_strength * math.pow(diameter, 2.6)


@formula(
    equation=(
        "beta = f_h,2/f_h,1; a: f_h,1 t_1 d; b: f_h,2 t_2 d; c: f_h,1 t_1 d/(1 + beta) "
        "(sqrt(beta + 2 beta^2 (1 + t_2/t_1 + (t_2/t_1)^2) + beta^3 (t_2/t_1)^2) - beta (1 + "
        "t_2/t_1)); d: 1.05 f_h,1 t_1 d/(2 + beta) (sqrt(2 beta (1 + beta) + 4 beta (2 + beta) "
        "M_y/(f_h,1 d t_1^2)) - beta); e: 1.05 f_h,1 t_2 d/(1 + 2 beta) (sqrt(2 beta^2 (1 + "
        "beta) + 4 beta (1 + 2 beta) M_y/(f_h,1 d t_2^2)) - beta); f: 1.15 sqrt(2 beta/(1 + "
        "beta)) sqrt(2 M_y f_h,1 d)"
    ),
    source="EN 1995-1-1:2004 eq. 8.6 (seen in a public tutorial on the standard).",
    unit="N",
)
def johansen_loads(joint: TimberJoint) -> Mapping[Failure, float]:
    """Return the Johansen part of each failure mode, members touching.

    Args:
        joint: in mm, N and N/mm2. Its gap must be 0.

    Returns:
        Characteristic load by mode without rope effect, N.

    Raises:
        ValueError: if the gap is not 0.

    >>> joint = TimberJoint(diameter=4.4, side_embedment=27.4, main_embedment=27.4, gap=0.0,
    ...                     side_thickness=38.0, main_thickness=50.0, yield_moment=5651.0)
    >>> round(johansen_loads(joint)[Failure.F])
    1342
    """
    if joint.gap != 0.0:
        raise ValueError(f"these equations hold for a gap of 0 only, got {joint.gap!r}")
    f_h1, t_1, t_2, M_y = (
        joint.side_embedment,
        joint.side_thickness,
        joint.main_thickness,
        joint.yield_moment,
    )
    beta, q, r = joint.main_embedment / f_h1, f_h1 * joint.diameter, t_2 / t_1
    c = math.sqrt(beta + 2.0 * beta**2 * (1.0 + r + r**2) + beta**3 * r**2) - beta * (1.0 + r)
    d = math.sqrt(2.0 * beta * (1.0 + beta) + 4.0 * beta * (2.0 + beta) * M_y / (q * t_1**2))
    e = math.sqrt(
        2.0 * beta**2 * (1.0 + beta) + 4.0 * beta * (1.0 + 2.0 * beta) * M_y / (q * t_2**2)
    )
    return {
        Failure.A: q * t_1,
        Failure.B: beta * q * t_2,
        Failure.C: q * t_1 / (1.0 + beta) * c,
        Failure.D: 1.05 * q * t_1 / (2.0 + beta) * (d - beta),
        Failure.E: 1.05 * q * t_2 / (1.0 + 2.0 * beta) * (e - beta),
        Failure.F: 1.15 * math.sqrt(2.0 * beta / (1.0 + beta)) * math.sqrt(2.0 * M_y * q),
    }


@formula(
    equation=(
        "F = (-B + sqrt(B^2 - 4 A C))/(2 A), q_1 = f_h,1 d, q_2 = f_h,2 d; a: q_1 t_1; b: q_2 "
        "t_2; c: A = 1/(4 q_1) + 1/(4 q_2), B = t_1/2 + g + t_2/2, C = -q_1 t_1^2/4 - q_2 "
        "t_2^2/4; d: 1.05 F with A = 1/(4 q_1) + 1/(2 q_2), B = t_1/2 + g, C = -q_1 t_1^2/4 - "
        "M_y; e: 1.05 F with A = 1/(2 q_1) + 1/(4 q_2), B = g + t_2/2, C = -M_y - q_2 t_2^2/4; "
        "f: 1.15 F with A = 1/(2 q_1) + 1/(2 q_2), B = g, C = -2 M_y"
    ),
    source=(
        "derived from the equilibrium behind EN 1995-1-1:2004 eq. 8.6, with a gap as in AWC "
        "TR12; not part of Eurocode 5."
    ),
    unit="N",
)
def gapped_johansen_loads(joint: TimberJoint) -> Mapping[Failure, float]:
    """Return the Johansen part of each failure mode with a gap between the members.

    Eurocode 5 has no gap. These are the same rigid-plastic equilibria written with one, and the
    standard's own factors 1.05 and 1.15 on d, e and f; at a gap of 0 they are equation 8.6.

    Args:
        joint: in mm, N and N/mm2.

    Returns:
        Characteristic load by mode without rope effect, N.

    >>> joint = TimberJoint(diameter=4.4, side_embedment=27.4, main_embedment=27.4, gap=0.0,
    ...                     side_thickness=38.0, main_thickness=50.0, yield_moment=5651.0)
    >>> round(gapped_johansen_loads(joint)[Failure.F])
    1342
    """
    q_1, q_2 = joint.side_embedment * joint.diameter, joint.main_embedment * joint.diameter
    t_1, t_2, g, M_y = joint.side_thickness, joint.main_thickness, joint.gap, joint.yield_moment
    side, main = q_1 * t_1**2 / 4.0, q_2 * t_2**2 / 4.0
    return {
        Failure.A: q_1 * t_1,
        Failure.B: q_2 * t_2,
        Failure.C: _root(0.25 / q_1 + 0.25 / q_2, t_1 / 2.0 + g + t_2 / 2.0, -side - main),
        Failure.D: 1.05 * _root(0.25 / q_1 + 0.5 / q_2, t_1 / 2.0 + g, -side - M_y),
        Failure.E: 1.05 * _root(0.5 / q_1 + 0.25 / q_2, g + t_2 / 2.0, -M_y - main),
        Failure.F: 1.15 * _root(0.5 / q_1 + 0.5 / q_2, g, -2.0 * M_y),
    }


def _root(a: float, b: float, c: float) -> float:
    # (-b + sqrt(b^2 - 4 a c)) / (2 a), written so that a wide gap loses no digits
    return -2.0 * c / (b + math.sqrt(b * b - 4.0 * a * c))


@formula(
    equation=(
        "F_v,Rk = min(a, b, c + R_c, d + R_d, e + R_e, f + R_f), R = min(F_ax,Rk/4, 100 % of "
        "the Johansen part); R = 0 over a gap"
    ),
    source=(
        "EN 1995-1-1:2004 8.2.2 (seen in a public tutorial; limit of 100 % for screws from memory)."
    ),
    unit="N",
)
def characteristic_lateral(joint: TimberJoint, *, axial: float) -> LateralCapacity:
    """Return the characteristic lateral capacity of one screw.

    Args:
        joint: in mm, N and N/mm2.
        axial: characteristic axial capacity that the rope effect may draw on, F_ax,Rk, N. 0 or
            more; 0 leaves the rope effect out. It is left out over a gap in any case.

    Returns:
        The least value F_v,Rk, its mode, and the value by each mode, N.

    Raises:
        ValueError: if axial is not finite or below 0, or a value comes out as no finite number
            above 0.

    >>> joint = TimberJoint(diameter=4.4, side_embedment=27.4, main_embedment=27.4, gap=0.0,
    ...                     side_thickness=38.0, main_thickness=50.0, yield_moment=5651.0)
    >>> z = characteristic_lateral(joint, axial=800.0)
    >>> round(z.value), z.mode.value
    (1542, 'f')
    """
    not_negative(axial=axial)
    if joint.gap > 0.0:
        by_mode = dict(gapped_johansen_loads(joint))
    else:
        by_mode = {
            mode: load if mode in (Failure.A, Failure.B) else load + min(axial / 4.0, load)
            for mode, load in johansen_loads(joint).items()
        }
    positive(**by_mode)  # sizes beyond the reach of floats end in NaN, which min would let pass
    mode = min(by_mode, key=by_mode.__getitem__)
    return LateralCapacity(value=by_mode[mode], mode=mode, by_mode=by_mode)
