"""The closed forms of NDS table 12.3.1A, for members that touch.

The package works with a gap and does not need them: a second writing of the same loads, to be held
against the first.
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
