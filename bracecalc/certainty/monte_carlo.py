"""Sampled outcomes: in what share of them the legs reach, when every reading has its error.

Errors are normal and independent, with half of the stated uncertainty as standard deviation
(coverage factor 2, JCGM 100:2008 6.3, from memory). numpy is loaded only here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from bracecalc.planning.reach import floor_uncertainty, leg_travels, rolling_height
from bracecalc.records.job import Job
from bracecalc.records.plan import Plan, StackSupport, TopSupport
from bracecalc.records.tolerance import Shares

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Truths = NDArray[np.bool_]

COVERAGE = 2.0
DRAWS = 100_000
SEED = 20_251


class ErrorsOf(NamedTuple):
    """Standard deviations of the readings, in: floor spots, restraint height, niche depth."""

    floor: float
    height: float
    depth: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Setup:
    """What the legs have to reach, as read. Inches; ``spots`` and ``travels`` go by corner."""

    spots: tuple[float, ...]
    travels: tuple[float, ...]
    unit_height: float
    leg_least: float
    rolling_over_path: float  # lowest restraint under which the unit rolls in, over the path
    path_high: float | None  # None: the highest leg spot
    underside: float
    spare_overlap: float | None  # overlap beyond the least


def standard_errors(job: Job) -> ErrorsOf:
    """Return the standard deviations that a job's uncertainties stand for, in."""
    rules = job.rules
    return ErrorsOf(
        floor=floor_uncertainty(job) / COVERAGE,
        height=rules.height_uncertainty / COVERAGE,
        depth=rules.tape_uncertainty / COVERAGE,
    )


def setup_of(job: Job, underside: float, support: TopSupport | None) -> Setup:
    """Return what has to be reached, from a job and the restraint that it gets."""
    path, spare = job.floor.path_high, None
    if isinstance(support, StackSupport):
        spare = support.overlap - job.rules.overlap
    spots = job.floor.spots
    return Setup(
        spots=spots,
        travels=leg_travels(job),
        unit_height=job.unit.height,
        leg_least=job.rules.leg_least,
        rolling_over_path=rolling_height(job) - (max(spots) if path is None else path),
        path_high=path,
        underside=underside,
        spare_overlap=spare,
    )


def sample_plan(plan: Plan, *, draws: int = DRAWS, seed: int = SEED) -> Shares | None:
    """Return the shares of outcomes for a plan; None where it has nothing to reach for.

    Args:
        plan: with a restraint.
        draws: number of sampled outcomes, at least 1.
        seed: of the random generator; the same seed gives the same shares.

    Returns:
        Shares, 0 to 1, dimensionless.
    """
    underside = plan.restraint.target_height
    if underside is None or not plan.job.unit.rear_lifts:
        return None
    setup = setup_of(plan.job, underside, plan.support)
    return sample(setup, standard_errors(plan.job), draws=draws, seed=seed)


def sample(setup: Setup, errors: ErrorsOf, *, draws: int = DRAWS, seed: int = SEED) -> Shares:
    """Return the shares of outcomes in which the legs reach, the unit rolls in, the boards overlap.

    Args:
        setup: what has to be reached.
        errors: standard deviations, in. 0 or more.
        draws: number of sampled outcomes, at least 1.
        seed: of the random generator.

    Returns:
        Shares, 0 to 1, dimensionless.

    Raises:
        ValueError: if a deviation is negative or not finite, or there are no draws.
    """
    import numpy as np

    if draws < 1:
        raise ValueError(f"draws must be at least 1, got {draws!r}")
    if not all(0.0 <= error < math.inf for error in errors):
        raise ValueError(f"deviations must be finite and 0 or more, got {errors!r}")
    generator = np.random.default_rng(seed)
    spots = np.asarray(setup.spots) + generator.normal(0.0, errors.floor, (draws, 4))
    underside = setup.underside + generator.normal(0.0, errors.height, draws)
    low, high = leg_band(spots, np.asarray(setup.travels), setup)
    reach = (low <= underside) & (underside <= high)
    if setup.path_high is None:
        path = spots.max(axis=1)
    else:
        path = setup.path_high + generator.normal(0.0, errors.floor, draws)
    rolls = underside >= path + setup.rolling_over_path
    every = reach & rolls
    overlap = None
    if setup.spare_overlap is not None:
        kept = setup.spare_overlap + generator.normal(0.0, errors.depth, draws) >= 0.0
        every &= kept
        overlap = _share(kept)
    share = _share(reach)
    return Shares(
        draws=draws,
        seed=seed,
        legs_reach=share,
        rolls_in=_share(rolls),
        overlap=overlap,
        all=_share(every),
        standard_error=math.sqrt(share * (1.0 - share) / draws),
    )


def leg_band(spots: Floats, travels: Floats, setup: Setup) -> tuple[Floats, Floats]:
    """Return lowest and highest top that all legs reach, for each row of floor heights.

    Args:
        spots: heights of the floor at the legs, one row an outcome, in. Shape (draws, 4).
        travels: of the legs, in. Shape (4,).
        setup: for the height of the unit and the least extension.

    Returns:
        low and high, in. Shape (draws,) each; low above high where no top is reached.

    Equation: low = max(z_i) + H + e_lo; high = min(z_i + T_i) + H
    Source: geometry, as bracecalc.mechanics.geometry.reach.
    """
    low = spots.max(axis=1) + (setup.unit_height + setup.leg_least)
    high = (spots + travels).min(axis=1) + setup.unit_height
    return low, high


def _share(outcomes: Truths) -> float:
    return float(outcomes.mean())
