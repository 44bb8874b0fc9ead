"""Adjustment factors, tension and shear together, group action."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bracecalc.mechanics.nds import factors
from bracecalc.mechanics.nds.factors import FastenerRow

FORCES = st.floats(1.0, 1e4)
ROW = FastenerRow(
    diameter=0.375, count=3, spacing=1.5, main_stiffness=1.2e6 * 5.25, side_stiffness=1.2e6 * 5.25
)


@pytest.mark.parametrize(
    ("temperature", "dry", "wet"),
    [
        (-20.0, 1.0, 1.0),
        (70.0, 1.0, 1.0),
        (100.0, 1.0, 1.0),
        (100.1, 0.8, 0.7),
        (125.0, 0.8, 0.7),
        (125.1, 0.7, 0.5),
        (150.0, 0.7, 0.5),
    ],
)
def test_temperature_steps(temperature: float, dry: float, wet: float) -> None:
    assert factors.temperature_factor(temperature=temperature, wet=False) == dry
    assert factors.temperature_factor(temperature=temperature, wet=True) == wet


def test_wet_service() -> None:
    assert factors.wet_service_factor(wet=True) == 0.7
    assert factors.wet_service_factor(wet=False) == 1.0


@given(FORCES, FORCES)
def test_combined_resistance_at_its_ends(lateral: float, withdrawal: float) -> None:
    ends = [
        factors.combined_resistance(lateral=lateral, withdrawal=withdrawal, angle=angle)
        for angle in (0.0, 90.0)
    ]
    assert ends == [lateral, withdrawal]


@given(FORCES, FORCES, st.floats(0.0, 90.0))
def test_combined_resistance_lies_between(lateral: float, withdrawal: float, angle: float) -> None:
    value = factors.combined_resistance(lateral=lateral, withdrawal=withdrawal, angle=angle)
    assert min(lateral, withdrawal) * (1 - 1e-12) <= value
    assert value <= max(lateral, withdrawal) * (1 + 1e-12)


@given(FORCES, FORCES, st.floats(0.0, 90.0))
def test_combined_resistance_is_a_straight_line_of_squares(
    lateral: float, withdrawal: float, angle: float
) -> None:
    # 12.4-1 says that (P cos2)/Z' + (P sin2)/(W'p) = 1 at P = Z'_alpha
    value = factors.combined_resistance(lateral=lateral, withdrawal=withdrawal, angle=angle)
    cosine = math.cos(math.radians(angle)) ** 2
    assert value * cosine / lateral + value * (1 - cosine) / withdrawal == pytest.approx(1.0)


def test_sum_of_squares() -> None:
    assert factors.combined_use_squares(axial=0.6, lateral=0.8) == pytest.approx(1.0)
    assert factors.combined_use_squares(axial=0.0, lateral=0.5) == 0.5


def test_small_or_single_fasteners_have_no_group_action() -> None:
    assert factors.group_action_factor(dataclasses.replace(ROW, diameter=0.2499)) == 1.0
    assert factors.group_action_factor(dataclasses.replace(ROW, count=1)) == 1.0


def test_two_fasteners_between_like_members_share_alike() -> None:
    # by symmetry each takes half, whatever the stiffness
    assert factors.group_action_factor(dataclasses.replace(ROW, count=2)) == pytest.approx(1.0)


@given(
    st.integers(2, 12),
    st.floats(0.25, 1.0),
    st.floats(0.5, 12.0),
    st.floats(1e4, 1e9),
    st.floats(1e4, 1e9),
)
def test_group_action_only_ever_lowers(
    count: int, diameter: float, spacing: float, main: float, side: float
) -> None:
    row = FastenerRow(
        diameter=diameter,
        count=count,
        spacing=spacing,
        main_stiffness=main,
        side_stiffness=side,
    )
    value = factors.group_action_factor(row)
    assert 0.0 < value <= 1.0 + 1e-9
    longer = factors.group_action_factor(dataclasses.replace(row, count=count + 1))
    assert longer <= value + 1e-9
    turned = dataclasses.replace(row, main_stiffness=side, side_stiffness=main)
    assert factors.group_action_factor(turned) == pytest.approx(value)


def test_rigid_members_share_alike() -> None:
    rigid = dataclasses.replace(ROW, main_stiffness=1e30, side_stiffness=1e30, count=6)
    assert factors.group_action_factor(rigid) == pytest.approx(1.0)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, -1.0])
def test_what_is_no_number_is_refused(bad: float) -> None:
    for call in (
        lambda: factors.combined_resistance(lateral=bad, withdrawal=1.0, angle=0.0),
        lambda: factors.combined_resistance(lateral=1.0, withdrawal=bad, angle=0.0),
        lambda: factors.combined_resistance(lateral=1.0, withdrawal=1.0, angle=bad),
        lambda: factors.combined_use_squares(axial=bad, lateral=0.0),
        lambda: factors.combined_use_squares(axial=0.0, lateral=bad),
        lambda: dataclasses.replace(ROW, diameter=bad),
        lambda: dataclasses.replace(ROW, spacing=bad),
        lambda: dataclasses.replace(ROW, main_stiffness=bad),
    ):
        with pytest.raises(ValueError, match="must be"):
            call()


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, 150.1])
def test_heat_beyond_the_table_is_refused(bad: float) -> None:
    with pytest.raises(ValueError, match="temperature must be"):
        factors.temperature_factor(temperature=bad, wet=False)


def test_a_row_has_at_least_one() -> None:
    with pytest.raises(ValueError, match="count must be 1 or more"):
        dataclasses.replace(ROW, count=0)
