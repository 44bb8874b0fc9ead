"""Rows of the standards' tables worked by hand, where a slip of one number would go unseen."""

from __future__ import annotations

import math

import pytest

from bracecalc.mechanics.eurocode5 import axial, design, lateral
from bracecalc.mechanics.nds.spacing import (
    Screw,
    least_distances,
    least_distances_eurocode,
    place_screws,
)
from bracecalc.mechanics.statics import earthquake


def test_distances_of_a_bolt_sized_screw() -> None:
    """NDS 2018 12.5.1 (from memory): 4 D end, loaded edge and row; 1.5 D other edges; 5 D lines."""
    found = least_distances(diameter=0.5)
    assert tuple(found)[:7] == (2.0, 2.0, 0.75, 0.75, 2.0, 2.5, 2.5)


def test_distances_of_a_small_screw() -> None:
    """NDS Commentary table C12.1.5.7 (from memory): 10 D, 2.5 D, 3 D; 1.5 D at a stud's edge."""
    found = least_distances(diameter=0.2)
    assert tuple(found)[:7] == pytest.approx((2.0, 0.5, 0.5, 0.3, 2.0, 0.6, 0.5))


def test_distances_of_a_coach_screw() -> None:
    """EN 1995-1-1:2004 table 8.4 (from memory): 7 d, 4 d, 3 d, 3 d, 5 d, 4 d, 4 d."""
    found = least_distances_eurocode(diameter=0.5)
    assert tuple(found)[:7] == (3.5, 2.0, 1.5, 1.5, 2.5, 2.0, 2.0)


@pytest.mark.parametrize(("angle", "part"), [(0.0, 0.0), (30.0, 0.25), (45.0, 0.5), (90.0, 1.0)])
def test_embedment_strength_at_an_angle_to_the_grain(angle: float, part: float) -> None:
    """EN 1995-1-1:2004 eqs 8.31 to 8.33 (from memory), d = 8 mm, 350 kg/m3, by hand."""
    along = 0.082 * (1.0 - 0.08) * 350.0
    wanted = along / ((1.35 + 0.015 * 8.0) * part + 1.0 - part)
    found = lateral.embedment_strength(density=350.0, diameter=8.0, angle=angle, predrilled=True)
    assert found == pytest.approx(wanted, rel=1e-12)


def test_screws_are_pulled_at_thirty_degrees_and_more() -> None:
    """EN 1995-1-1:2004 8.7.2: the angle to the grain is at least 30 degrees."""
    pulled = {"strength": 13.0, "diameter": 8.0, "thread": 60.0}
    at_30 = axial.withdrawal_capacity(angle=30.0, **pulled)
    upright = axial.withdrawal_capacity(angle=90.0, **pulled)
    # 1.2 cos2 + sin2 below the line: 1.15 at 30 degrees
    assert at_30 * (1.2 * 0.75 + 0.25) == pytest.approx(upright)
    with pytest.raises(ValueError, match="at least 30 degrees"):
        axial.withdrawal_capacity(angle=math.nextafter(30.0, 0.0), **pulled)


def test_embedment_strength_of_a_hole_that_is_not_drilled() -> None:
    """EN 1995-1-1:2004 eq. 8.15 (from memory): 0.082 rho d^-0.3; 4^-0.3 is 0.659754."""
    found = lateral.embedment_strength(density=350.0, diameter=4.0, angle=0.0, predrilled=False)
    assert found == pytest.approx(0.082 * 350.0 * 0.659754, rel=1e-6)


@pytest.mark.parametrize(
    ("service_class", "row"),
    [(1, (0.60, 0.70, 0.80, 0.90, 1.10)), (2, (0.60, 0.70, 0.80, 0.90, 1.10)),
     (3, (0.50, 0.55, 0.65, 0.70, 0.90))],
)  # fmt: skip
def test_duration_and_moisture(service_class: int, row: tuple[float, ...]) -> None:
    """EN 1995-1-1:2004 table 3.1, solid timber (from memory)."""
    found = [
        design.modification_factor(duration=duration, service_class=service_class)
        for duration in design.LoadDuration
    ]
    assert tuple(found) == row


def test_a_component_factor_has_its_range() -> None:
    """ASCE 7-22 table 13.5-1 goes from 1 to less than 10 (from memory)."""
    given = {"s_ds": 1.0, "weight": 400.0, "i_p": 1.0, "h_f": 3.5, "r_mu": 1.3, "r_po": 1.5}
    with pytest.raises(ValueError, match="c_ar"):
        earthquake.component_force_7_22(c_ar=10.5, **given)


def small(diameter: float) -> Screw:
    return Screw(diameter, 2.0 * diameter, least_distances(diameter=diameter))


def test_two_lag_screws_stand_four_diameters_apart_to_the_mark() -> None:
    lag = small(0.25)  # 4 D is 1 in: the second stands on that mark, float noise or not
    placed = place_screws((lag, lag), board_width=3.5, stud_width=1.5, uncertainty=0.0)
    assert placed == ((0.0, 1.0), (0.0, 2.0))


def test_in_a_narrow_stud_screws_are_staggered_by_half_their_spacing() -> None:
    ten = small(0.19)
    placed = place_screws((ten, ten), board_width=3.5, stud_width=1.25, uncertainty=0.0625)
    # lines 0.2775 in off the centre: less than 3 D apart, more than 2.5 D, so 5 D up the stud
    assert placed is not None
    assert placed[0] == pytest.approx((-0.2775, 0.5))
    assert placed[1] == pytest.approx((0.2775, 1.5))


def test_a_stud_just_wide_enough_takes_a_screw() -> None:
    lag = small(0.25)  # 1.5 D to each edge: 0.75 in, and 0.05 in to spare on each side
    assert place_screws((lag,), board_width=3.5, stud_width=0.85, uncertainty=0.0) is not None
    assert place_screws((lag,), board_width=3.5, stud_width=0.74, uncertainty=0.0) is None


def test_a_screw_takes_the_lowest_mark_unless_told() -> None:
    ten = small(0.19)
    placed = place_screws((ten,), board_width=3.5, stud_width=1.5, uncertainty=0.0)
    assert placed == ((0.0, 0.5),)  # 2.5 D is 0.475: the next mark up
    high = place_screws((ten._replace(height=1.0),), board_width=3.5, stud_width=1.5, uncertainty=0)
    assert high == ((0.0, 3.0),)
