"""Strength of a screw pulled straight out: threads in the wood, head in the board."""

from __future__ import annotations

import math

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import not_negative, positive


@formula(
    equation="W = 2850 G^2 D",
    source="NDS 2018 eq. 12.2-2 (seen in Civil Engineering Formulas eq. 6.37).",
    unit="lbf/in",
)
def wood_screw_withdrawal(*, specific_gravity: float, diameter: float) -> float:
    """Return the reference withdrawal value of a wood screw per inch of thread.

    Args:
        specific_gravity: of the member that holds the thread, G, dimensionless.
        diameter: of the unthreaded shank, D, in.

    Returns:
        Reference withdrawal value W, lbf/in. Side grain only; none counts in end grain.

    Raises:
        ValueError: if a value is not finite or not more than 0.

    >>> round(wood_screw_withdrawal(specific_gravity=0.50, diameter=0.190), 1)
    135.4
    """
    positive(specific_gravity=specific_gravity, diameter=diameter)
    return 2_850.0 * specific_gravity**2 * diameter


@formula(
    equation="W = 1800 G^(3/2) D^(3/4)",
    source="NDS 2018 eq. 12.2-1 (from memory; confirmed by table 12.2A, seen).",
)
def lag_screw_withdrawal(*, specific_gravity: float, diameter: float) -> float:
    """Return the reference withdrawal value of a lag screw per inch of thread.

    Args:
        specific_gravity: of the member that holds the thread, G, dimensionless.
        diameter: nominal, D, in.

    Returns:
        Reference withdrawal value W, lbf/in of thread without the tapered tip. Side grain.

    Raises:
        ValueError: if a value is not finite or not more than 0.

    >>> round(lag_screw_withdrawal(specific_gravity=0.50, diameter=0.25))
    225
    """
    positive(specific_gravity=specific_gravity, diameter=diameter)
    return 1_800.0 * math.pow(specific_gravity, 1.5) * math.pow(diameter, 0.75)


@formula(
    equation="W p_t",
    source="NDS 2018 12.2.1 and 12.2.2 (seen in Civil Engineering Formulas eqs. 6.39 to 6.43).",
    unit="lbf",
)
def thread_hold(*, per_inch: float, thread: float) -> float:
    """Return what the thread in the main member holds.

    Args:
        per_inch: reference withdrawal value, W, lbf/in.
        thread: length of thread in the member; tip included for wood screws, left out for lag
            screws, p_t, in. 0 or more.

    Returns:
        Withdrawal value of the screw, lbf.

    Raises:
        ValueError: if a value is not finite, W not more than 0 or p_t below 0.

    >>> thread_hold(per_inch=436.6, thread=2.1875)
    955.06
    """
    positive(per_inch=per_inch)
    not_negative(thread=thread)
    return per_inch * thread


@formula(
    equation="W_H = 690 pi D_H G^2 t_ns for t_ns <= 2.5 D_H, else 1725 pi D_H^2 G^2",
    source="NDS 2018 12.2.5 (from memory; fits three cells of table 12.2F, second hand).",
    unit="lbf",
)
def head_pull_through(*, head_diameter: float, specific_gravity: float, thickness: float) -> float:
    """Return the reference pull-through value of a round screw head.

    Args:
        head_diameter: D_H, in.
        specific_gravity: of the member under the head, G, dimensionless.
        thickness: of wood under the head, net of a counterbore, t_ns, in.

    Returns:
        Reference pull-through value W_H, lbf.

    Raises:
        ValueError: if a value is not finite or not more than 0.

    >>> round(head_pull_through(head_diameter=0.312, specific_gravity=0.50, thickness=1.0))
    132
    """
    positive(head_diameter=head_diameter, specific_gravity=specific_gravity, thickness=thickness)
    counted = min(thickness, 2.5 * head_diameter)
    return 690.0 * math.pi * head_diameter * specific_gravity**2 * counted


@formula(
    equation="F_c,perp' C_b pi/4 (d_w^2 - d_h^2), C_b = (d_w + 0.375)/d_w for d_w < 6 in",
    source=(
        "NDS 2018 3.10.2 and eq. 3.10-2, a washer's length of bearing is its diameter (from "
        "memory)."
    ),
    unit="lbf",
)
def washer_bearing(*, across: float, washer_diameter: float, hole_diameter: float) -> float:
    """Return what the wood bears under the washer of a lag screw.

    Args:
        across: design value of the board across its grain, F_c,perp', psi. Not raised for short
            loads.
        washer_diameter: of the round washer, d_w, in.
        hole_diameter: of the hole under it, d_h, in. Less than the washer.

    Returns:
        Bearing capacity, lbf.

    Raises:
        ValueError: if a value is not finite or not more than 0, or the hole is no smaller than
            the washer.

    >>> round(washer_bearing(across=425.0, washer_diameter=0.734, hole_diameter=0.25))
    240
    """
    positive(across=across, washer_diameter=washer_diameter, hole_diameter=hole_diameter)
    if hole_diameter >= washer_diameter:
        raise ValueError(f"the hole must be smaller than {washer_diameter!r} in")
    area_factor = (washer_diameter + 0.375) / washer_diameter if washer_diameter < 6.0 else 1.0
    return across * area_factor * math.pi / 4.0 * (washer_diameter**2 - hole_diameter**2)
