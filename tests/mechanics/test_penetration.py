"""Tip, thread and bearing length."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bracecalc.mechanics.nds import penetration

BAD = [math.nan, math.inf, -math.inf, -0.1]


@given(st.floats(0.4, 20.0), st.floats(0.4, 20.0))
def test_deeper_never_bears_on_less(one: float, other: float) -> None:
    shallow, deep = sorted((one, other))
    assert penetration.bearing_length(
        penetration=shallow, diameter=0.19
    ) <= penetration.bearing_length(penetration=deep, diameter=0.19)


def test_bearing_length_leaves_half_the_tip_below_10_diameters() -> None:
    assert penetration.bearing_length(penetration=1.9, diameter=0.19) == 1.9
    assert penetration.bearing_length(penetration=1.5, diameter=0.19) == pytest.approx(1.31)
    with pytest.raises(ValueError, match="at least the tip"):
        penetration.bearing_length(penetration=0.3, diameter=0.19)


def test_thread_lengths() -> None:
    assert penetration.wood_screw_thread_length(length=3.0) == 2.0
    assert penetration.lag_screw_thread_length(length=4.0) == 2.5
    assert penetration.lag_screw_thread_length(length=12.0) == 6.0
    assert penetration.lag_screw_thread_length(length=0.75) == 0.75  # never longer than the screw


def test_lag_tips_grow_with_the_screw_and_end_with_the_table() -> None:
    tips = [penetration.lag_tip_length(diameter=i / 16.0) for i in range(4, 21)]
    assert tips == sorted(tips)
    assert penetration.lag_tip_length(diameter=0.26) == penetration.lag_tip_length(diameter=0.3125)
    with pytest.raises(ValueError, match="1-1/4"):
        penetration.lag_tip_length(diameter=1.3)


@pytest.mark.parametrize("bad", BAD)
def test_what_is_no_length_is_refused(bad: float) -> None:
    calls: tuple[Callable[[], float], ...] = (
        lambda: penetration.bearing_length(penetration=bad, diameter=0.19),
        lambda: penetration.bearing_length(penetration=1.5, diameter=bad),
        lambda: penetration.wood_screw_thread_length(length=bad),
        lambda: penetration.lag_screw_thread_length(length=bad),
        lambda: penetration.lag_tip_length(diameter=bad),
        lambda: penetration.screw_tip_length(diameter=bad),
    )
    for call in calls:
        with pytest.raises(ValueError, match="must be finite"):
            call()
