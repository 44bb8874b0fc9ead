"""Closed forms that the package does not need, to be held against what it works out.

Those of NDS table 12.3.1A, for members that touch, are a second writing of the loads that it finds
with a gap; the steps of bending yield stand in its table of screws; the chance of a normal error
is what its sampling comes to.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from bracecalc.mechanics.nds.dowel import Joint, Mode


def yield_limits_table(joint: Joint) -> Mapping[Mode, float]:
    """Return the yield load of each mode by the closed forms of the table, members touching.

    Args:
        joint: lengths in in, strengths in psi. Its gap must be 0.

    Returns:
        Yield load by mode before the reduction term, lbf.

    Raises:
        ValueError: if the gap is not 0.

    Equation: R_e = F_em/F_es, R_t = l_m/l_s;
        k_1 = (sqrt(R_e + 2 R_e^2 (1 + R_t + R_t^2) + R_t^2 R_e^3) - R_e (1 + R_t)) / (1 + R_e);
        k_2 = -1 + sqrt(2 (1 + R_e) + 2 F_yb (1 + 2 R_e) D^2 / (3 F_em l_m^2));
        k_3 = -1 + sqrt(2 (1 + R_e)/R_e + 2 F_yb (2 + R_e) D^2 / (3 F_em l_s^2));
        I_m: D l_m F_em; I_s: D l_s F_es; II: k_1 D l_s F_es; III_m: k_2 D l_m F_em/(1 + 2 R_e);
        III_s: k_3 D l_s F_em/(2 + R_e); IV: D^2 sqrt(2 F_em F_yb / (3 (1 + R_e)))
    Source: NDS 2018 table 12.3.1A, single shear (from memory; confirmed by table 12K, seen).

    >>> bolt = Joint(diameter=0.5, side_bearing=4800.0, main_bearing=4800.0, side_length=1.5,
    ...              main_length=1.5, gap=0.0, bending_yield=45000.0)
    >>> round(yield_limits_table(bolt)[Mode.III_s] / 3.2)
    550
    """
    if joint.gap != 0.0:
        raise ValueError(f"these closed forms hold for a gap of 0 only, got {joint.gap!r}")
    D, F_em, F_es, F_yb = (
        joint.diameter,
        joint.main_bearing,
        joint.side_bearing,
        joint.bending_yield,
    )
    l_m, l_s = joint.main_length, joint.side_length
    R_e, R_t = F_em / F_es, l_m / l_s
    k_1 = (
        math.sqrt(R_e + 2.0 * R_e**2 * (1.0 + R_t + R_t**2) + R_t**2 * R_e**3) - R_e * (1.0 + R_t)
    ) / (1.0 + R_e)
    bend = 2.0 * F_yb * D**2 / (3.0 * F_em)
    k_2 = -1.0 + math.sqrt(2.0 * (1.0 + R_e) + bend * (1.0 + 2.0 * R_e) / l_m**2)
    k_3 = -1.0 + math.sqrt(2.0 * (1.0 + R_e) / R_e + bend * (2.0 + R_e) / l_s**2)
    return {
        Mode.I_m: D * l_m * F_em,
        Mode.I_s: D * l_s * F_es,
        Mode.II: k_1 * D * l_s * F_es,
        Mode.III_m: k_2 * D * l_m * F_em / (1.0 + 2.0 * R_e),
        Mode.III_s: k_3 * D * l_s * F_em / (2.0 + R_e),
        Mode.IV: D**2 * math.sqrt(2.0 * F_em * F_yb / (3.0 * (1.0 + R_e))),
    }


# Upper end of each step of diameter, in; bending yield strength, psi. Lag screws of 1/4, 5/16
# and 3/8 in fall on 70,000, 60,000 and 45,000 by the same steps.
_BENDING_YIELD_STEPS = (
    (0.142, 100_000.0),
    (0.177, 90_000.0),
    (0.236, 80_000.0),
    (0.273, 70_000.0),
    (0.344, 60_000.0),
    (math.inf, 45_000.0),
)


def bending_yield_strength(*, diameter: float) -> float:
    """Return the bending yield strength of a wood screw or lag screw of common steel.

    Args:
        diameter: nominal, D, in. 0.099 at least, where the table begins.

    Returns:
        Bending yield strength, psi.

    Raises:
        ValueError: if the diameter is below 0.099 in.

    Source: NDS 2018 Appendix I table I1 (from memory; 70,000, 60,000 and 45,000 for lag screws
        confirmed by the cells of table 12K).

    >>> bending_yield_strength(diameter=0.190)
    80000.0
    """
    if diameter < 0.099:
        raise ValueError(f"diameter must be 0.099 in or more, got {diameter!r}")
    return next(strength for end, strength in _BENDING_YIELD_STEPS if diameter <= end)


def probability_reached(*, below: float, above: float, deviation: float) -> float:
    """Return the chance that a value with a normal error stays between two limits.

    Args:
        below: from the lower limit up to the value as read, a, in. Negative: it is under it.
        above: from the value as read up to the upper limit, b, in. Negative: it is over it.
        deviation: standard deviation of the error, s, in. 0 or more.

    Returns:
        Probability, 0 to 1, dimensionless. 0.0 where the limits leave no room between them.

    Equation: P = (erf(b / (s sqrt(2))) + erf(a / (s sqrt(2)))) / 2
    Source: definition of the normal distribution (NIST/SEMATECH e-Handbook 1.3.6.6.1, from
        memory).

    >>> probability_reached(below=1.0, above=1.0, deviation=1.0)
    0.6826895
    """
    if below + above < 0.0:
        return 0.0
    if deviation == 0.0:
        return 1.0 if below >= 0.0 and above >= 0.0 else 0.0
    scale = deviation * math.sqrt(2.0)
    if above < 0.0 or below < 0.0:  # erfc keeps the digits that 1 - erf loses far out in a tail
        near, far = -min(below, above), max(below, above)
        return (math.erfc(near / scale) - math.erfc(far / scale)) / 2.0
    return (math.erf(above / scale) + math.erf(below / scale)) / 2.0
