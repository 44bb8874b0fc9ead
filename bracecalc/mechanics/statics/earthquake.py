"""Earthquake force on the unit as a component of the building, ASCE 7 chapter 13.

Two editions, each with its own equation and the same limits. Forces are at strength level; the
moments are for allowable stress design.
"""

from __future__ import annotations

from typing import NamedTuple

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import finite, not_negative, positive

GREATEST_S_DS = 4.0  # above any mapped value; 0.6 - 0.14 S_DS stays above 0 up to here


class EarthquakeMoments(NamedTuple):
    """Moments about the front leg line in an earthquake, ASD, in-lbf."""

    overturning: float
    stabilising: float


@formula(
    equation=(
        "F_p = 0.4 a_p S_DS W_p (1 + 2 z/h) / (R_p / I_p), at most 1.6 S_DS I_p W_p, at least "
        "0.3 S_DS I_p W_p"
    ),
    source="ASCE 7-16 eq. 13.3-1 to 13.3-3 (from memory).",
    unit="lbf",
)
def component_force_7_16(
    *, s_ds: float, weight: float, a_p: float, r_p: float, i_p: float, z_over_h: float
) -> float:
    """Return the level earthquake force on a component by the 2016 edition, limits included.

    Args:
        s_ds: design spectral acceleration at short period, S_DS, g. Above 0, at most 4.
        weight: of the component in operation, contents included, W_p, lbf. Not below 0.
        a_p: component amplification factor, dimensionless. 1 (rigid) to 2.5 (flexible).
        r_p: component response modification factor, dimensionless. More than 0.
        i_p: component importance factor, dimensionless. 1 to 1.5.
        z_over_h: height of the floor over the height of the roof, dimensionless. 0 to 1.

    Returns:
        Strength-level force at the centre of gravity, F_p, lbf.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> component_force_7_16(s_ds=1.0, weight=400.0, a_p=1.0, r_p=2.5, i_p=1.0, z_over_h=1.0)
    192.0
    """
    _within("a_p", a_p, 1.0, 2.5)
    _within("z_over_h", z_over_h, 0.0, 1.0)
    positive(r_p=r_p)
    least, most = _limits(s_ds=s_ds, weight=weight, i_p=i_p)
    force = 0.4 * a_p * s_ds * weight * (1.0 + 2.0 * z_over_h) / (r_p / i_p)
    return min(max(force, least), most)


@formula(
    equation=(
        "F_p = 0.4 S_DS I_p W_p (H_f / R_mu) (C_AR / R_po), at most 1.6 S_DS I_p W_p, at least "
        "0.3 S_DS I_p W_p"
    ),
    source="ASCE 7-22 eq. 13.3-1 to 13.3-3 (from memory).",
    unit="lbf",
)
def component_force_7_22(
    *,
    s_ds: float,
    weight: float,
    i_p: float,
    h_f: float,
    r_mu: float,
    c_ar: float,
    r_po: float,
) -> float:
    """Return the level earthquake force on a component by the 2022 edition, limits included.

    Args:
        s_ds: design spectral acceleration at short period, S_DS, g. Above 0, at most 4.
        weight: of the component in operation, contents included, W_p, lbf. Not below 0.
        i_p: component importance factor, dimensionless. 1 to 1.5.
        h_f: factor for the height in the building, H_f, dimensionless. At least 1.
        r_mu: reduction for the building's ductility, R_mu, dimensionless. At least 1.
        c_ar: component resonance ductility factor, C_AR, dimensionless. At least 1.
        r_po: component strength factor, R_po, dimensionless. More than 0.

    Returns:
        Strength-level force at the centre of gravity, F_p, lbf.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> component_force_7_22(
    ...     s_ds=1.0, weight=400.0, i_p=1.0, h_f=3.5, r_mu=1.3, c_ar=1.0, r_po=1.5)
    287.18
    """
    for name, value in (("h_f", h_f), ("r_mu", r_mu), ("c_ar", c_ar)):
        _within(name, value, 1.0, 10.0)
    positive(r_po=r_po)
    least, most = _limits(s_ds=s_ds, weight=weight, i_p=i_p)
    force = 0.4 * s_ds * i_p * weight * (h_f / r_mu) * (c_ar / r_po)
    return min(max(force, least), most)


@formula(
    equation="M_over = 0.7 F_p h, M_stab = (0.6 - 0.14 S_DS) W x",
    source="ASCE 7-16 2.4.5 with 12.4.2.2, E_v = 0.2 S_DS D (from memory).",
    unit="in-lbf",
)
def earthquake_moments(
    *, s_ds: float, force: float, height: float, weight: float, behind_front_legs: float
) -> EarthquakeMoments:
    """Return the moments about the front leg line in an earthquake, allowable stress design.

    The ground's upward push takes weight away where the weight resists. With S_DS at most 4 the
    rest, 0.6 - 0.14 S_DS, stays above 0, so that its sign can't turn. Where the centre of gravity
    lies in front of the leg line the weight tips, and counts with the downward push added.

    Args:
        s_ds: design spectral acceleration at short period, S_DS, g. Above 0, at most 4.
        force: at strength level, contents included, F_p, lbf. Not below 0.
        height: centre of gravity over the floor, leg extension included, h, in. Not below 0.
        weight: of the empty unit, W, lbf. Not below 0.
        behind_front_legs: its centre of gravity behind the front leg line, x, in.

    Returns:
        Overturning and stabilising moment, in-lbf.

    Raises:
        ValueError: if a value is not finite or out of its range.

    >>> earthquake_moments(s_ds=1.0, force=192.0, height=44.0, weight=400.0, behind_front_legs=9.5)
    EarthquakeMoments(overturning=5913.6, stabilising=1748.0)
    """
    _check_s_ds(s_ds)
    not_negative(force=force, height=height, weight=weight)
    finite(behind_front_legs=behind_front_legs)
    share = 0.6 - 0.14 * s_ds if behind_front_legs >= 0.0 else 1.0 + 0.14 * s_ds
    return EarthquakeMoments(
        overturning=0.7 * force * height, stabilising=share * weight * behind_front_legs
    )


def _limits(*, s_ds: float, weight: float, i_p: float) -> tuple[float, float]:
    _check_s_ds(s_ds)
    not_negative(weight=weight)
    _within("i_p", i_p, 1.0, 1.5)
    base = s_ds * i_p * weight
    return 0.3 * base, 1.6 * base


def _check_s_ds(s_ds: float) -> None:
    if not 0.0 < s_ds <= GREATEST_S_DS:
        raise ValueError(f"s_ds must be above 0 and at most {GREATEST_S_DS:g} g, got {s_ds!r}")


def _within(name: str, value: float, least: float, most: float) -> None:
    if not least <= value <= most:
        raise ValueError(f"{name} must be from {least:g} to {most:g}, got {value!r}")
