"""Reach: limits with closed answers."""

from __future__ import annotations

import math

import pytest

from bracecalc.mechanics.geometry import reach


def test_level_floor_leaves_travel_less_the_least_extension() -> None:
    spots = (0.0,) * 4
    low = reach.lowest_reach(spots=spots, height=80.0, leg_least=0.125)
    high = reach.highest_reach(spots=spots, travels=(1.25,) * 4, height=80.0)
    # leg travel of 1-1/4 in and legs just off the rollers: common practice
    assert high - low == pytest.approx(1.25 - 0.125)


@pytest.mark.parametrize("out_of_level", [0.125, 0.25, 0.5])
def test_each_eighth_out_of_level_takes_an_eighth_from_the_band(out_of_level: float) -> None:
    level, tilted = (0.0,) * 4, (0.0, 0.0, 0.0, out_of_level)
    lost = [
        reach.highest_reach(spots=spots, travels=(1.25,) * 4, height=80.0)
        - reach.lowest_reach(spots=spots, height=80.0, leg_least=0.125)
        for spots in (level, tilted)
    ]
    assert lost[0] - lost[1] == pytest.approx(out_of_level)


def test_front_and_rear_travel_may_differ() -> None:
    high = reach.highest_reach(spots=(0, 0, 0, 0), travels=(1.0, 1.0, 2.0, 2.0), height=80.0)
    assert high == 81.0


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        reach.leg_extension(top=value, height=80.0, spot=0.0)
    with pytest.raises(ValueError, match="finite"):
        reach.highest_reach(spots=(value,), travels=(1.0,), height=80.0)
    with pytest.raises(ValueError, match="finite"):
        reach.leg_turns(extension=1.0, pitch=value)


def test_pitch_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="pitch"):
        reach.leg_turns(extension=1.0, pitch=0.0)
