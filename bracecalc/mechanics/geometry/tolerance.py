"""What the uncertainty of readings leaves of a margin, and the chance that a limit is kept."""

from __future__ import annotations

import math
from collections.abc import Sequence

from bracecalc.mechanics.formula import formula


@formula(
    equation="m_w = m - sum |u_i|",
    source="common practice (worst-case tolerance stack-up).",
    unit="in",
)
def worst_case(*, nominal: float, uncertainties: Sequence[float]) -> float:
    """Return the margin that is left when every reading is off against it.

    Args:
        nominal: margin by the readings as they stand, m, in. Negative: the limit is passed.
        uncertainties: greatest error of each reading, u_i, in. The sign doesn't matter.

    Returns:
        Margin, in. Never more than ``nominal``.

    Raises:
        ValueError: if a value is not finite.

    >>> worst_case(nominal=0.5, uncertainties=[0.125, 0.0625])
    0.3125
    """
    _refuse_unbounded(nominal, *uncertainties)
    return nominal - math.fsum(abs(uncertainty) for uncertainty in uncertainties)


@formula(
    equation="m_r = m - sqrt(sum u_i^2)",
    source="JCGM 100:2008 (GUM) eq. 10 with unit sensitivities, from memory.",
    unit="in",
)
def root_sum_square(*, nominal: float, uncertainties: Sequence[float]) -> float:
    """Return the margin that is left when independent errors partly cancel.

    Args:
        nominal: margin by the readings as they stand, m, in. Negative: the limit is passed.
        uncertainties: uncertainty of each independent reading, u_i, in.

    Returns:
        Margin, in. Between the worst case and ``nominal``.

    Raises:
        ValueError: if a value is not finite.

    >>> root_sum_square(nominal=1.0, uncertainties=[0.375, 0.5])
    0.375
    """
    _refuse_unbounded(nominal, *uncertainties)
    return nominal - math.hypot(*uncertainties)


@formula(
    equation="P = (erf(b / (s sqrt(2))) + erf(a / (s sqrt(2)))) / 2",
    source=(
        "definition of the normal distribution (NIST/SEMATECH e-Handbook 1.3.6.6.1, from memory)."
    ),
)
def probability_reached(*, below: float, above: float, deviation: float) -> float:
    """Return the chance that a value with a normal error stays between two limits.

    Args:
        below: from the lower limit up to the value as read, a, in. Negative: it is under it.
        above: from the value as read up to the upper limit, b, in. Negative: it is over it.
        deviation: standard deviation of the error, s, in. 0 or more.

    Returns:
        Probability, 0 to 1, dimensionless. 0.0 where the limits leave no room between them.

    Raises:
        ValueError: if a value is not finite or the deviation is negative.

    >>> probability_reached(below=1.0, above=1.0, deviation=1.0)
    0.6826895
    """
    _refuse_unbounded(below, above, deviation)
    if deviation < 0.0:
        raise ValueError(f"deviation must be 0 or more, got {deviation!r}")
    if below + above < 0.0:
        return 0.0
    if deviation == 0.0:
        return 1.0 if below >= 0.0 and above >= 0.0 else 0.0
    scale = deviation * math.sqrt(2.0)
    if above < 0.0 or below < 0.0:  # erfc keeps the digits that 1 - erf loses far out in a tail
        near, far = -min(below, above), max(below, above)
        return (math.erfc(near / scale) - math.erfc(far / scale)) / 2.0
    return (math.erf(above / scale) + math.erf(below / scale)) / 2.0


def _refuse_unbounded(*values: float) -> None:
    for value in values:
        if not math.isfinite(value):
            raise ValueError(f"values must be finite, got {values!r}")
