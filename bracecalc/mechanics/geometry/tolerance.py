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


def _refuse_unbounded(*values: float) -> None:
    for value in values:
        if not math.isfinite(value):
            raise ValueError(f"values must be finite, got {values!r}")
