"""From characteristic to design resistance by Eurocode 5: duration, moisture, rows of screws."""

from __future__ import annotations

from enum import StrEnum
from itertools import pairwise

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import positive


class LoadDuration(StrEnum):
    """Load-duration classes, EN 1995-1-1:2004 table 2.1."""

    PERMANENT = "permanent"
    LONG = "long-term"
    MEDIUM = "medium-term"
    SHORT = "short-term"
    INSTANTANEOUS = "instantaneous"


_DRY = {
    LoadDuration.PERMANENT: 0.60,
    LoadDuration.LONG: 0.70,
    LoadDuration.MEDIUM: 0.80,
    LoadDuration.SHORT: 0.90,
    LoadDuration.INSTANTANEOUS: 1.10,
}
_WET = {
    LoadDuration.PERMANENT: 0.50,
    LoadDuration.LONG: 0.55,
    LoadDuration.MEDIUM: 0.65,
    LoadDuration.SHORT: 0.70,
    LoadDuration.INSTANTANEOUS: 0.90,
}


@formula(
    equation=(
        "k_mod = 0.60, 0.70, 0.80, 0.90, 1.10 in classes 1 and 2; 0.50, 0.55, 0.65, 0.70, 0.90 "
        "in class 3, from permanent to instantaneous"
    ),
    source=(
        "EN 1995-1-1:2004 table 3.1 (seen in ICE Manual of Structural Design: Buildings, table "
        "19.9)."
    ),
)
def modification_factor(*, duration: LoadDuration, service_class: int) -> float:
    """Return the factor for duration of load and moisture of solid timber.

    Args:
        duration: class of the shortest load of the combination.
        service_class: 1 (heated indoors), 2 (covered) or 3 (exposed).

    Returns:
        Factor k_mod, dimensionless.

    Raises:
        ValueError: if there is no such service class.

    >>> modification_factor(duration=LoadDuration.SHORT, service_class=1)
    0.9
    """
    if service_class in (1, 2):
        return _DRY[duration]
    if service_class == 3:
        return _WET[duration]
    raise ValueError(f"service class must be 1, 2 or 3, got {service_class!r}")


@formula(
    equation="n_ef = n^0.9",
    source="EN 1995-1-1:2004+A1 eq. 8.41 (from memory).",
)
def effective_axial_number(*, count: int) -> float:
    """Return how many screws of a group count when all are pulled.

    Args:
        count: screws that act together, n. 1 or more.

    Returns:
        Effective number n_ef, dimensionless.

    Raises:
        ValueError: if count is below 1.

    >>> round(effective_axial_number(count=2), 3)
    1.866
    """
    if count < 1:
        raise ValueError(f"count must be 1 or more, got {count!r}")
    return float(count**0.9)


@formula(
    equation=(
        "d <= 6 mm: n_ef = n^k_ef, k_ef = 0.5, 0.7, 0.85, 1.0 at a_1 = 4 d, 7 d, 10 d, 14 d, "
        "straight between; n_ef = n if staggered; d > 6 mm: n_ef = min(n, n^0.9 (a_1/(13 "
        "d))^0.25)"
    ),
    source="EN 1995-1-1:2004 eqs. 8.17 and 8.34, table 8.1, by 8.7.1 (from memory).",
)
def effective_lateral_number(
    *, count: int, spacing: float, diameter: float, staggered: bool
) -> float:
    """Return how many screws of a row along the grain count when all are sheared.

    Args:
        count: screws in the row, n. 1 or more.
        spacing: along the grain, a_1, mm.
        diameter: effective, d, mm.
        staggered: whether neighbours stand aside by 1 d or more across the grain; then all count
            to 6 mm.

    Returns:
        Effective number n_ef, dimensionless. Drilled holes are taken for granted.

    Raises:
        ValueError: if a value is not finite or not more than 0, count is below 1, or the screws
            to 6 mm stand closer than 4 d.

    >>> round(effective_lateral_number(count=2, spacing=56.0, diameter=4.0, staggered=False), 2)
    2.0
    """
    positive(spacing=spacing, diameter=diameter)
    if count < 1:
        raise ValueError(f"count must be 1 or more, got {count!r}")
    apart = spacing / diameter
    if diameter > 6.0:
        return min(float(count), float(count**0.9 * (apart / 13.0) ** 0.25))
    if count == 1 or staggered:
        return float(count)
    return float(count ** _row_exponent(apart))


def _row_exponent(apart: float) -> float:
    steps = ((4.0, 0.5), (7.0, 0.7), (10.0, 0.85), (14.0, 1.0))
    if apart < steps[0][0]:
        raise ValueError(f"spacing must be at least 4 d, got {apart!r} d")
    for (low, k_low), (high, k_high) in pairwise(steps):
        if apart <= high:
            return k_low + (k_high - k_low) * (apart - low) / (high - low)
    return 1.0
