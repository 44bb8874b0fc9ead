"""Strength of a screw pulled out, by Eurocode 5: EN 1995-1-1:2004 with amendment A1:2008.

In the units of its source: mm, N, N/mm2, kg/m3. Values are characteristic.
"""

from __future__ import annotations

import math

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import angle_in_range, not_negative, positive


@formula(
    equation="f_ax,k k_d = 0.52 d^-0.5 l_ef^-0.1 rho_k^0.8 min(d/8, 1)",
    source="EN 1995-1-1:2004+A1 eqs. 8.39 and 8.40 (from memory).",
    unit="N/mm2",
)
def withdrawal_strength(
    *, diameter: float, root_diameter: float, thread: float, density: float
) -> float:
    """Return the characteristic withdrawal strength of a screw across the grain, by equation.

    Args:
        diameter: outer diameter of the thread, d, mm. 6 to 12.
        root_diameter: of the thread, d_1, mm. 0.6 to 0.75 d.
        thread: length of thread in the main member, l_ef, mm.
        density: characteristic, rho_k, kg/m3.

    Returns:
        Withdrawal strength with the factor for thin screws in it, f_ax,k k_d, N/mm2.

    Raises:
        ValueError: if a value is not finite or not more than 0, or a diameter is outside the
            range of the equation: such a screw needs the strength that its maker declares.

    >>> round(withdrawal_strength(diameter=8.0, root_diameter=5.6, thread=60.0, density=350.0), 2)
    13.24
    """
    positive(diameter=diameter, root_diameter=root_diameter, thread=thread, density=density)
    if not 6.0 <= diameter <= 12.0:
        raise ValueError(f"d must be 6 to 12 mm for this equation, got {diameter!r}")
    if not 0.6 <= root_diameter / diameter <= 0.75:
        raise ValueError(f"d_1/d must be 0.6 to 0.75, got {root_diameter!r} / {diameter!r}")
    strength = 0.52 * math.pow(diameter, -0.5) * math.pow(thread, -0.1) * math.pow(density, 0.8)
    return strength * min(diameter / 8.0, 1.0)


@formula(
    equation="F_ax,Rk = f_ax,k d l_ef k_d / (1.2 cos^2 alpha + sin^2 alpha); 0 for l_ef < 6 d",
    source=(
        "EN 1995-1-1:2004+A1 eqs. 8.38 and 8.40a, thread by 8.7.2(3) (from memory; 6 d seen in "
        "a worked example of a public tutorial)."
    ),
    unit="N",
)
def withdrawal_capacity(*, strength: float, diameter: float, thread: float, angle: float) -> float:
    """Return the characteristic withdrawal capacity of one screw.

    Args:
        strength: withdrawal strength, f_ax,k k_d by equation or as declared, N/mm2.
        diameter: outer diameter of the thread, d, mm.
        thread: length of thread in the main member, l_ef, mm. 0 or more.
        angle: between screw and grain, alpha, degrees, 30 to 90.

    Returns:
        Capacity F_ax,Rk, N. 0.0 where the thread is shorter than 6 d: none may be counted.

    Raises:
        ValueError: if a value is not finite, strength or diameter not more than 0, the thread
            below 0, or the angle under 30 degrees or over 90.

    >>> round(withdrawal_capacity(strength=13.24, diameter=8.0, thread=60.0, angle=90.0))
    6355
    """
    positive(strength=strength, diameter=diameter)
    not_negative(thread=thread)
    angle_in_range(angle)
    if angle < 30.0:
        raise ValueError(f"angle must be at least 30 degrees, got {angle!r}")
    if thread < 6.0 * diameter:
        return 0.0
    cosine = math.cos(math.radians(angle)) ** 2
    return strength * diameter * thread / (1.2 * cosine + 1.0 - cosine)


@formula(
    equation="F = 3 f_c,90,k pi/4 (d_w^2 - d_h^2)",
    source="EN 1995-1-1:2004 8.5.2(2) (from memory).",
    unit="N",
)
def washer_capacity(*, crushing: float, washer_diameter: float, hole_diameter: float) -> float:
    """Return the characteristic pull-through capacity of a hex head on a round washer.

    Args:
        crushing: characteristic compression strength across the grain, f_c,90,k, N/mm2.
        washer_diameter: of the washer, or of the head where there is none, mm.
        hole_diameter: of the hole under it, mm. Less than the washer.

    Returns:
        Capacity, N.

    Raises:
        ValueError: if a value is not finite or not more than 0, or the hole is no smaller than
            the washer.

    >>> round(washer_capacity(crushing=2.5, washer_diameter=28.0, hole_diameter=8.0))
    4241
    """
    positive(crushing=crushing, washer_diameter=washer_diameter, hole_diameter=hole_diameter)
    if hole_diameter >= washer_diameter:
        raise ValueError(f"the hole must be smaller than {washer_diameter!r} mm")
    return 3.0 * crushing * math.pi / 4.0 * (washer_diameter**2 - hole_diameter**2)
