"""Sampled shares against closed forms for normal errors; tolerance is 4 standard errors."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from published.closed_forms import probability_reached

from bracecalc.certainty.monte_carlo import ErrorsOf, Setup, leg_band, sample
from bracecalc.mechanics.geometry import reach

LEVEL = Setup(
    spots=(0.0, 0.0, 0.0, 0.0),
    travels=(1.25, 1.25, 1.25, 1.25),
    unit_height=80.5,
    leg_least=0.125,
    rolling_over_path=80.625,
    path_high=None,
    underside=81.625,
    spare_overlap=None,
)
UNEVEN = replace(LEVEL, spots=(0.0, 0.125, -0.0625, 0.25), travels=(1.25, 1.25, 1.5, 1.5))
NONE = ErrorsOf(floor=0.0, height=0.0, depth=0.0)


def four_errors(share: float, draws: int) -> float:
    return 4.0 * math.sqrt(max(share * (1.0 - share), 1.0 / draws) / draws)


def room(setup: Setup, corner: int) -> tuple[float, float]:
    """Room of one leg down to its least extension, and up to its travel."""
    extension = reach.leg_extension(
        top=setup.underside, height=setup.unit_height, spot=setup.spots[corner]
    )
    return extension - setup.leg_least, setup.travels[corner] - extension


def legs_reach_closed(setup: Setup, floor: float) -> float:
    """Independent errors of four floor spots: the product of four closed forms."""
    rooms = [room(setup, corner) for corner in range(4)]
    chances = [
        probability_reached(below=below, above=above, deviation=floor) for below, above in rooms
    ]
    return math.prod(chances)


@pytest.mark.parametrize("setup", [LEVEL, UNEVEN])
@pytest.mark.parametrize("height", [0.03125, 0.0625, 0.25, 0.5])
def test_an_error_of_the_height_alone_gives_the_closed_form(setup: Setup, height: float) -> None:
    below = min(room(setup, corner)[0] for corner in range(4))
    above = min(room(setup, corner)[1] for corner in range(4))
    closed = probability_reached(below=below, above=above, deviation=height)
    got = sample(setup, NONE._replace(height=height))
    assert got.legs_reach == pytest.approx(closed, abs=four_errors(closed, got.draws))


@pytest.mark.parametrize("setup", [LEVEL, UNEVEN])
@pytest.mark.parametrize("floor", [0.0625, 0.25, 0.5])
def test_errors_of_the_floor_alone_give_the_product_of_closed_forms(
    setup: Setup, floor: float
) -> None:
    closed = legs_reach_closed(setup, floor)
    got = sample(setup, NONE._replace(floor=floor))
    assert got.legs_reach == pytest.approx(closed, abs=four_errors(closed, got.draws))


def test_both_errors_give_the_product_integrated_over_the_height() -> None:
    # P = integral of phi(t) * product over the corners given that the height is off by t
    floor, height = 0.2, 0.15
    steps = np.linspace(-8.0, 8.0, 4001)
    given = np.array(
        [
            legs_reach_closed(replace(UNEVEN, underside=UNEVEN.underside + height * step), floor)
            for step in steps
        ]
    )
    density = np.exp(-(steps**2) / 2.0) / math.sqrt(2.0 * math.pi)
    closed = float(np.sum(given * density) * (steps[1] - steps[0]))
    got = sample(UNEVEN, ErrorsOf(floor=floor, height=height, depth=0.0))
    assert got.legs_reach == pytest.approx(closed, abs=four_errors(closed, got.draws))


@pytest.mark.parametrize("spare", [-0.0625, 0.0, 0.0625])
def test_the_overlap_gives_the_one_sided_closed_form(spare: float) -> None:
    closed = 0.5 * math.erfc(-spare / (0.0625 * math.sqrt(2.0)))
    got = sample(replace(LEVEL, spare_overlap=spare), NONE._replace(depth=0.0625))
    assert got.overlap == pytest.approx(closed, abs=four_errors(closed, got.draws))


def test_rolling_in_gives_the_one_sided_closed_form() -> None:
    tight = replace(LEVEL, path_high=0.0, underside=80.6875)
    both = math.hypot(0.05, 0.05)
    closed = 0.5 * math.erfc(-0.0625 / (both * math.sqrt(2.0)))
    got = sample(tight, ErrorsOf(floor=0.05, height=0.05, depth=0.0))
    assert got.rolls_in == pytest.approx(closed, abs=four_errors(closed, got.draws))


def test_without_errors_the_outcome_is_certain() -> None:
    assert sample(UNEVEN, NONE, draws=10).all == 1.0
    assert sample(replace(UNEVEN, underside=83.0), NONE, draws=10).legs_reach == 0.0


def test_the_same_seed_gives_the_same_shares_and_another_does_not() -> None:
    errors = ErrorsOf(floor=0.3, height=0.3, depth=0.1)
    first, again = sample(UNEVEN, errors, seed=7), sample(UNEVEN, errors, seed=7)
    assert first == again
    assert sample(UNEVEN, errors, seed=8).legs_reach != first.legs_reach


def test_everything_at_once_is_never_likelier_than_a_part() -> None:
    got = sample(replace(UNEVEN, spare_overlap=0.05), ErrorsOf(floor=0.3, height=0.3, depth=0.1))
    assert got.overlap is not None
    assert got.all <= min(got.legs_reach, got.rolls_in, got.overlap)


def test_the_vectorised_band_is_that_of_the_plan() -> None:
    generator = np.random.default_rng(3)
    spots = generator.normal(0.0, 0.5, (50, 4))
    low, high = leg_band(spots, np.asarray(UNEVEN.travels), UNEVEN)
    for row in range(50):
        heights = [float(value) for value in spots[row]]
        assert low[row] == pytest.approx(
            reach.lowest_reach(spots=heights, height=80.5, leg_least=0.125), abs=1e-12
        )
        assert high[row] == pytest.approx(
            reach.highest_reach(spots=heights, travels=UNEVEN.travels, height=80.5), abs=1e-12
        )


@pytest.mark.parametrize("bad", [-0.1, math.nan, math.inf])
def test_a_deviation_that_means_nothing_is_refused(bad: float) -> None:
    with pytest.raises(ValueError, match="deviations"):
        sample(LEVEL, NONE._replace(floor=bad))


def test_no_draws_are_refused() -> None:
    with pytest.raises(ValueError, match="draws"):
        sample(LEVEL, NONE, draws=0)
