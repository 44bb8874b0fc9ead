"""Adjustment factors of connections, and tension and shear together (NDS 2018)."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import angle_in_range, finite, not_negative, positive


@formula(
    equation="C_M = 0.7 above 19 percent moisture in service, else 1.0",
    source="NDS 2018 table 11.3.3, lateral loads and withdrawal (from memory).",
)
def wet_service_factor(*, wet: bool) -> float:
    """Return the wet service factor of a wood screw or lag screw, across its shank or pulled out.

    Args:
        wet: whether the wood is over 19 percent moisture in service.

    Returns:
        Factor C_M, dimensionless.

    >>> wet_service_factor(wet=True)
    0.7
    """
    return 0.7 if wet else 1.0


@formula(
    equation="C_t = 1.0 to 100 F; 0.8 dry and 0.7 wet to 125 F; 0.7 dry and 0.5 wet to 150 F",
    source="NDS 2018 table 11.3.4 (from memory).",
)
def temperature_factor(*, temperature: float, wet: bool) -> float:
    """Return the factor for sustained heat.

    Args:
        temperature: the greatest sustained, degrees Fahrenheit. Not above 150.
        wet: whether the wood is over 19 percent moisture in service.

    Returns:
        Factor C_t, dimensionless.

    Raises:
        ValueError: if the temperature is not finite or above 150, where the table ends.

    >>> temperature_factor(temperature=110.0, wet=False)
    0.8
    """
    finite(temperature=temperature)
    if temperature <= 100.0:
        return 1.0
    if temperature <= 125.0:
        return 0.7 if wet else 0.8
    if temperature <= 150.0:
        return 0.5 if wet else 0.7
    raise ValueError(f"temperature must be at most 150 F, where the table ends: {temperature!r}")


@formula(
    equation="Z'_alpha = (W' p) Z' / ((W' p) cos^2 alpha + Z' sin^2 alpha)",
    source="NDS 2018 eq. 12.4-1 (second hand).",
    unit="lbf",
)
def combined_resistance(*, lateral: float, withdrawal: float, angle: float) -> float:
    """Return the resistance of a screw to a load at an angle to the surface of the wood.

    Args:
        lateral: adjusted lateral value, Z', lbf.
        withdrawal: adjusted withdrawal value W' p, or pull-through where that is less, lbf.
        angle: between the load and the surface of the wood, alpha, degrees, 0 to 90.

    Returns:
        Resistance Z'_alpha along the load, lbf.

    Raises:
        ValueError: if a value is not finite or not more than 0, or the angle out of range.

    >>> round(combined_resistance(lateral=80.0, withdrawal=100.0, angle=45.0), 3)
    88.889
    """
    positive(lateral=lateral, withdrawal=withdrawal)
    angle_in_range(angle)
    # cos 90 degrees is not quite 0 in floats; the ends are exact by definition
    if angle in (0.0, 90.0):
        return lateral if angle == 0.0 else withdrawal
    sine = math.sin(math.radians(angle)) ** 2
    return withdrawal * lateral / (withdrawal * (1.0 - sine) + lateral * sine)


@formula(
    equation="sqrt(T^2 + V^2) / Z'_alpha",
    source="NDS 2018 eq. 12.4-1, load over its resistance (second hand).",
)
def combined_use(*, tension: float, shear: float, resistance: float) -> float:
    """Return the use of a screw under tension and shear together, by its resistance along both.

    Args:
        tension: along the screw, T, lbf. Not below 0.
        shear: across it, V, lbf. Not below 0.
        resistance: to the load along its own direction, Z'_alpha, lbf. More than 0.

    Returns:
        Use, dimensionless. 1.0 is all.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> combined_use(tension=30.0, shear=40.0, resistance=100.0)
    0.5
    """
    not_negative(tension=tension, shear=shear)
    positive(resistance=resistance)
    return math.hypot(tension, shear) / resistance


@formula(
    equation="max(V / Z', T / (W' p))",
    source="NDS 2018 eq. 12.4-1 at its ends, alpha = 0 and alpha = 90 degrees (second hand).",
)
def separate_use(*, tension: float, shear: float, withdrawal: float, lateral: float) -> float:
    """Return the use of a screw by tension alone or by shear alone, whichever is greater.

    Beside the use by both together, which alone would not do: where a screw holds far more along
    itself than across, tension turns the load into its strong direction, so that a screw with
    shear beyond its lateral value would pass. And the upper rows of a stack have the same shear as
    the lowest, with hardly any tension.

    Args:
        tension: along the screw, T, lbf. Not below 0.
        shear: across it, V, lbf. Not below 0.
        withdrawal: adjusted withdrawal value W' p, or pull-through where that is less, lbf.
        lateral: adjusted lateral value, Z', lbf.

    Returns:
        Use, dimensionless. 1.0 is all.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> separate_use(tension=30.0, shear=40.0, withdrawal=100.0, lateral=80.0)
    0.5
    """
    not_negative(tension=tension, shear=shear)
    positive(withdrawal=withdrawal, lateral=lateral)
    return max(shear / lateral, tension / withdrawal)


@formula(
    equation="sqrt((F_ax,Ed/F_ax,Rd)^2 + (F_v,Ed/F_v,Rd)^2) <= 1",
    source="EN 1995-1-1:2004+A1 eq. 8.28, by 8.7.3 (from memory).",
)
def combined_use_squares(*, axial: float, lateral: float) -> float:
    """Return the use of a screw under tension and shear together, by the sum of squares.

    Args:
        axial: tension over the design resistance to it, F_ax,Ed / F_ax,Rd, dimensionless.
        lateral: shear over the design resistance to it, F_v,Ed / F_v,Rd, dimensionless.

    Returns:
        Use, dimensionless: the root of the sum, so that it grows with the load. 1.0 is all.

    Raises:
        ValueError: if a value is not finite or below 0.

    >>> combined_use_squares(axial=0.3, lateral=0.4)
    0.5
    """
    not_negative(axial=axial, lateral=lateral)
    return math.hypot(axial, lateral)


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenerRow:
    """One row of fasteners along the line of the load, wood to wood.

    Args:
        diameter: nominal, D, in.
        count: fasteners in the row, n. 1 or more.
        spacing: from one to the next, s, in.
        main_stiffness: E_m A_m of the main member, lbf.
        side_stiffness: E_s A_s of the side member, lbf.

    Raises:
        ValueError: if a value is not finite or not more than 0, or count below 1.
    """

    diameter: float
    count: int
    spacing: float
    main_stiffness: float
    side_stiffness: float

    def __post_init__(self) -> None:
        positive(
            diameter=self.diameter,
            spacing=self.spacing,
            main_stiffness=self.main_stiffness,
            side_stiffness=self.side_stiffness,
        )
        if self.count < 1:
            raise ValueError(f"count must be 1 or more, got {self.count!r}")


@formula(
    equation=(
        "C_g = m (1 - m^(2n)) / (n ((1 + R_EA m^n)(1 + m) - 1 + m^(2n))) (1 + R_EA)/(1 - m), "
        "with m = u - sqrt(u^2 - 1), u = 1 + gamma s/2 (1/(E_m A_m) + 1/(E_s A_s)), gamma = "
        "180000 D^1.5, R_EA the lesser of E_s A_s/(E_m A_m) and its inverse; 1 for D < 1/4 in"
    ),
    source="NDS 2018 eq. 11.3-1 (from memory; 1.0 below 1/4 in second hand).",
)
def group_action_factor(row: FastenerRow) -> float:
    """Return the group action factor of a row of fasteners.

    Args:
        row: lengths in in, stiffnesses in lbf.

    Returns:
        Factor C_g, dimensionless. 1.0 for D < 1/4 in and for one fastener.

    >>> lag = FastenerRow(diameter=0.25, count=2, spacing=1.5,
    ...                   main_stiffness=1.4e6 * 5.25, side_stiffness=1.4e6 * 5.25)
    >>> round(group_action_factor(lag), 3)
    1.0
    """
    n = row.count
    if row.diameter < 0.25 or n == 1:
        return 1.0
    ratio = row.side_stiffness / row.main_stiffness
    R_EA = min(ratio, 1.0 / ratio)
    slip = 180_000.0 * math.pow(row.diameter, 1.5) * row.spacing / 2.0
    u = 1.0 + slip * (1.0 / row.main_stiffness + 1.0 / row.side_stiffness)
    m = u - math.sqrt((u - 1.0) * (u + 1.0))
    # (1 - m^(2n)) / (1 - m) as its series: no 0/0 where the members are very stiff and m is 1
    series = sum(m**k for k in range(2 * n))
    shares = n * ((1.0 + R_EA * m**n) * (1.0 + m) - 1.0 + m ** (2 * n))
    return m * series * (1.0 + R_EA) / shares
