"""What is left before a limit, and the verdict of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from bracecalc.mechanics.geometry import tolerance
from bracecalc.records.plan import Margin, Verdict


def margin(nominal: float, uncertainties: Sequence[float]) -> Margin:
    """Return a margin with all uncertainties against it, and with their root sum of squares.

    >>> margin(0.25, (0.125, 0.125)).verdict.value, margin(0.2, (0.125, 0.125)).verdict.value
    ('holds', 'holds if measured closely')
    """
    if not math.isfinite(nominal):
        raise ValueError(f"a margin must be finite, got {nominal!r}")
    most, likely = _taken_off(tuple(uncertainties))
    worst, rss = nominal - most, nominal - likely
    return Margin(nominal=nominal, worst_case=worst, rss=rss, verdict=verdict_of(worst, rss))


@lru_cache(maxsize=1024)
def _taken_off(uncertainties: tuple[float, ...]) -> tuple[float, float]:
    """Return what uncertainties take off any margin, at worst and by root sum of squares."""
    return (
        -tolerance.worst_case(nominal=0.0, uncertainties=uncertainties),
        -tolerance.root_sum_square(nominal=0.0, uncertainties=uncertainties),
    )


def verdict_of(worst_case: float, rss: float) -> Verdict:
    """Return what a worst-case and a root-sum-square margin come to."""
    if worst_case >= -1e-9:
        return Verdict.HOLDS
    return Verdict.CLOSE if rss >= -1e-9 else Verdict.FAILS
