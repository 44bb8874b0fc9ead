"""Rows of the standards' tables worked by hand, where a slip of one number would go unseen."""

from __future__ import annotations

import math

import pytest

from bracecalc.mechanics.eurocode5 import axial, lateral
from bracecalc.mechanics.nds.spacing import least_distances, least_distances_eurocode


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
