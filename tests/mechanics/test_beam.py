"""The board as a beam, against tables of beam formulas.

Beam formulas named "table" are those of any handbook's beam diagrams, as in Civil Engineering
Formulas (McGraw-Hill), figures 2.2 ff., and the AISC Manual table 3-23 (from memory of its
numbering).
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from bracecalc.mechanics.statics import beam
from bracecalc.mechanics.statics.beam import beam_diagram, contact_spreads
from bracecalc.mechanics.statics.sharing import stud_shares


def test_simple_span_with_a_load_at_one_point() -> None:
    # table: R1 = P b / L, R2 = P a / L, M = P a b / L under the load
    drawn = beam_diagram(supports=(0.0, 20.0), reactions=(75.0, 25.0), loads=((5.0, 100.0),))
    assert (drawn.moment, drawn.moment_at) == pytest.approx((100 * 5 * 15 / 20, 5.0))
    assert drawn.shears == (75.0, 25.0)


def test_a_load_at_the_end_of_an_overhang() -> None:
    # table: M = P a at the support beside it, V = P on the overhang and P a / L between
    drawn = beam_diagram(supports=(8.0, 24.0), reactions=(150.0, -50.0), loads=((0.0, 100.0),))
    assert (drawn.moment, drawn.moment_at) == (800.0, 8.0)
    assert drawn.shears == (100.0, 50.0)


def test_two_equal_loads_at_the_ends_of_overhangs() -> None:
    # table: M = W a / 2 all the way between the supports
    loads = ((0.0, 50.0), (64.0, 50.0))
    drawn = beam_diagram(supports=(12.0, 52.0), reactions=(50.0, 50.0), loads=loads)
    assert drawn.moment == 600.0
    assert drawn.shears == (50.0, 50.0)


def test_a_load_right_over_a_support_bends_nothing() -> None:
    drawn = beam_diagram(supports=(0.0, 16.0), reactions=(100.0, 0.0), loads=((0.0, 100.0),))
    assert drawn.moment == 0.0


def test_a_stiff_board_on_three_studs_by_hand() -> None:
    # equal springs at 0, 16, 32, 90 lbf at 8: shares 30 + 90 (8 - 16) x / 512 = 52.5, 30, 7.5
    shares = stud_shares(spots=(0.0, 16.0, 32.0), load=90.0, load_at=8.0)
    assert shares == pytest.approx((52.5, 30.0, 7.5))
    drawn = beam_diagram(supports=(0.0, 16.0, 32.0), reactions=shares, loads=((8.0, 90.0),))
    assert (drawn.moment, drawn.moment_at) == pytest.approx((52.5 * 8, 8.0))
    assert drawn.shears == pytest.approx((52.5, 37.5, 7.5))


@pytest.mark.parametrize(
    "given",
    [
        {"supports": (), "reactions": (), "loads": ((0.0, 1.0),)},
        {"supports": (0.0, 16.0), "reactions": (1.0, 1.0), "loads": ((0.0, 1.0),)},
        {"supports": (0.0, 16.0), "reactions": (0.0, 1.0), "loads": ((0.0, 1.0),)},
        {"supports": (0.0, 16.0), "reactions": (math.nan, 1.0), "loads": ((0.0, 1.0),)},
        {"supports": (0.0, 16.0), "reactions": (1.0, 0.0), "loads": ((0.0, math.inf),)},
    ],
)
def test_what_is_no_beam_in_balance_is_refused(given: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match=r"balance|finite"):
        beam_diagram(**given)


def test_the_two_extreme_spreads_have_one_middle() -> None:
    for spread in contact_spreads(at=8.0, left=0.0, right=32.0):
        assert sum(force for _, force in spread) == 1.0
        assert sum(place * force for place, force in spread) == 8.0


@pytest.mark.parametrize(
    ("at", "left", "right"), [(-1.0, 0.0, 32.0), (33.0, 0.0, 32.0), (1.0, 5.0, 5.0)]
)
def test_a_middle_outside_the_overlap_is_refused(at: float, left: float, right: float) -> None:
    with pytest.raises(ValueError, match="left <= at <= right"):
        contact_spreads(at=at, left=left, right=right)


def test_bending_stress_without_holes() -> None:
    # S = b d^2 / 6 = 3.0625 in^3; NDS Supplement table 1B prints 3.063 for a 2x4 (from memory)
    assert 1.0 / beam.bending_stress(moment=1.0, breadth=1.5, depth=3.5) == pytest.approx(3.0625)


def test_bending_stress_with_a_hole_on_the_middle() -> None:
    # I = b (d^3 - D^3) / 12
    by_hand = 1000.0 * 1.75 / (1.5 * (3.5**3 - 0.25**3) / 12.0)
    assert beam.bending_stress(
        moment=1000.0, breadth=1.5, depth=3.5, hole=0.25, hole_heights=(1.75,)
    ) == pytest.approx(by_hand)


def test_a_hole_near_the_edge_costs_most() -> None:
    def stress(height: float) -> float:
        return beam.bending_stress(
            moment=1000.0, breadth=1.5, depth=3.5, hole=0.25, hole_heights=(height,)
        )

    assert (
        stress(0.5)
        > stress(1.0)
        > stress(1.75)
        > beam.bending_stress(moment=1000.0, breadth=1.5, depth=3.5)
    )
    assert stress(0.5) == pytest.approx(stress(3.0))  # moments turn either way


def test_a_board_all_hole_is_refused() -> None:
    with pytest.raises(ValueError, match="wood"):
        beam.bending_stress(moment=1.0, breadth=1.5, depth=2.0, hole=1.0, hole_heights=(0.5, 1.5))


def test_shear_at_screws_that_use_the_whole_depth_is_plain() -> None:
    plain = 135.0 * 1.5 * 3.5 / 1.5
    for from_end in (2.0, 40.0):
        assert beam.connection_shear_capacity(
            shear_strength=135.0, breadth=1.5, depth=3.5, effective_depth=3.5, from_end=from_end
        ) == pytest.approx(plain)


def test_shear_at_screws_drops_with_the_cube_near_an_end() -> None:
    # NDS 2018 eq. 3.4-6: (2/3) F_v' b d_e (d_e / d)^2, from memory
    near = beam.connection_shear_capacity(
        shear_strength=135.0, breadth=1.5, depth=3.5, effective_depth=1.75, from_end=17.4
    )
    far = beam.connection_shear_capacity(
        shear_strength=135.0, breadth=1.5, depth=3.5, effective_depth=1.75, from_end=17.5
    )
    assert far == pytest.approx(135.0 * 1.5 * 1.75 / 1.5)
    assert near == pytest.approx(far / 4.0)


@pytest.mark.parametrize(
    "name", ["shear_strength", "breadth", "depth", "effective_depth", "from_end"]
)
@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_connection_shear_refuses_what_it_can_not_mean(name: str, bad: float) -> None:
    given = {
        "shear_strength": 135.0, "breadth": 1.5, "depth": 3.5,
        "effective_depth": 2.0, "from_end": 6.0,
    }  # fmt: skip
    with pytest.raises(ValueError, match=r"must be"):
        beam.connection_shear_capacity(**{**given, name: bad})


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0, 0.0])
def test_a_section_refuses_what_it_can_not_mean(bad: float) -> None:
    with pytest.raises(ValueError, match="breadth"):
        beam.bending_stress(moment=1.0, breadth=bad, depth=3.5)
    with pytest.raises(ValueError, match="depth"):
        beam.bending_stress(moment=1.0, breadth=1.5, depth=bad)
