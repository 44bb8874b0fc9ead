"""Withdrawal and pull-through: scaling, the step of the pull-through rule, refusals."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from bracecalc.mechanics.nds import withdrawal

BAD = [math.nan, math.inf, -math.inf, -0.1]


def test_withdrawal_scales_as_the_equations_say() -> None:
    base = withdrawal.wood_screw_withdrawal(specific_gravity=0.25, diameter=0.2)
    assert withdrawal.wood_screw_withdrawal(specific_gravity=0.5, diameter=0.2) == 4.0 * base
    assert withdrawal.wood_screw_withdrawal(specific_gravity=0.25, diameter=0.4) == 2.0 * base
    lag = withdrawal.lag_screw_withdrawal(specific_gravity=1.0, diameter=1.0)
    assert lag == 1800.0
    assert withdrawal.lag_screw_withdrawal(specific_gravity=0.25, diameter=1.0) == lag / 8.0
    assert withdrawal.lag_screw_withdrawal(specific_gravity=1.0, diameter=1 / 16) == lag / 8.0


def test_pull_through_meets_at_two_and_a_half_heads() -> None:
    # 690 pi D_H G^2 (2.5 D_H) is 1725 pi D_H^2 G^2: no step where the rule changes
    head, gravity = 0.4, 0.5
    at = withdrawal.head_pull_through(head_diameter=head, specific_gravity=gravity, thickness=1.0)
    assert at == pytest.approx(1725.0 * math.pi * head**2 * gravity**2)
    thicker = withdrawal.head_pull_through(
        head_diameter=head, specific_gravity=gravity, thickness=3.0
    )
    assert thicker == at
    thin = withdrawal.head_pull_through(head_diameter=head, specific_gravity=gravity, thickness=0.5)
    assert thin == pytest.approx(at / 2.0)


def test_no_thread_holds_nothing() -> None:
    assert withdrawal.thread_hold(per_inch=135.0, thread=0.0) == 0.0


@pytest.mark.parametrize("bad", BAD)
def test_what_is_no_size_is_refused(bad: float) -> None:
    pull = withdrawal.head_pull_through
    calls: tuple[Callable[[], float], ...] = (
        lambda: withdrawal.wood_screw_withdrawal(specific_gravity=bad, diameter=0.19),
        lambda: withdrawal.wood_screw_withdrawal(specific_gravity=0.5, diameter=bad),
        lambda: withdrawal.lag_screw_withdrawal(specific_gravity=bad, diameter=0.25),
        lambda: withdrawal.lag_screw_withdrawal(specific_gravity=0.5, diameter=bad),
        lambda: pull(head_diameter=bad, specific_gravity=0.5, thickness=1.5),
        lambda: pull(head_diameter=0.3, specific_gravity=bad, thickness=1.5),
        lambda: pull(head_diameter=0.3, specific_gravity=0.5, thickness=bad),
        lambda: withdrawal.thread_hold(per_inch=bad, thread=1.0),
        lambda: withdrawal.thread_hold(per_inch=100.0, thread=bad),
    )
    for call in calls:
        with pytest.raises(ValueError, match="must be finite"):
            call()


def test_a_washer_bears_on_its_ring_of_wood_with_the_factor_for_short_bearing() -> None:
    # NDS 2018 eq. 3.10-2, from memory: C_b = (l_b + 0.375) / l_b, 1.375 for a 1 in washer
    ring = math.pi / 4.0 * (1.0**2 - 0.25**2)
    found = withdrawal.washer_bearing(across=425.0, washer_diameter=1.0, hole_diameter=0.25)
    assert found == pytest.approx(425.0 * 1.375 * ring)


@pytest.mark.parametrize("hole", [0.734, 1.0])
def test_a_washer_must_be_larger_than_its_hole(hole: float) -> None:
    with pytest.raises(ValueError, match="smaller"):
        withdrawal.washer_bearing(across=425.0, washer_diameter=0.734, hole_diameter=hole)
