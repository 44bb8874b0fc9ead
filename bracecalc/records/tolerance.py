"""How sure a plan is: how far its measurements may be off before the verdict changes. Inches."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from bracecalc.records.findings import Verdict
from bracecalc.records.job import Job
from bracecalc.records.plain import plain


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """How far one measurement may be off either way before the verdict changes.

    None: farther than was looked. ``below`` is 0 or more, as ``above``.
    """

    name: str
    value: float
    uncertainty: float
    below: float | None
    above: float | None
    below_becomes: Verdict | None
    above_becomes: Verdict | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """Shares of sampled outcomes, 0 to 1. ``seed`` and ``draws`` make them repeatable."""

    draws: int
    seed: int
    legs_reach: float
    rolls_in: float
    overlap: float | None
    all: float
    standard_error: float  # of ``legs_reach``


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """Every measurement off by ``drift`` at once, each in the worst sense for a limit."""

    limit: str
    drift: float
    becomes: Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class ToleranceReport:
    """How sure a plan is: drift of each measurement, of all together, and sampled shares."""

    TOLD = ("verdict", "searched", "drifts", "together", "shares")

    job: Job
    verdict: Verdict
    searched: float  # how far each drift was looked for, in
    drifts: tuple[Drift, ...]
    together: tuple[Together, ...]  # the least drift first
    shares: Shares | None  # None without numpy, or where nothing can be reached for

    def to_dict(self) -> dict[str, Any]:
        """Return the tolerance as the JSON of docs/json.md: inches and lbf, unrounded."""
        told: dict[str, Any] = plain(self)
        return told
