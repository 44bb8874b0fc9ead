"""The board as a beam, against tables of beam formulas.

CEF: Civil Engineering Formulas (McGraw-Hill), ch. 2, table 2.1, p. 50, "Uniformly Loaded
Continuous Beams over Equal Spans", read in a scan's text. Beam formulas named "table" are those of
any handbook's beam diagrams, as in CEF figures 2.2 ff. and the AISC Manual table 3-23 (from
memory of its numbering).
"""

from __future__ import annotations

import math

import pytest

from bracecalc.mechanics.statics import beam
from bracecalc.mechanics.statics.beam import Diagram, beam_diagram, beam_reactions
from bracecalc.mechanics.statics.sharing import LEFT_END, RIGHT_END, WHOLE_OVERLAP

# number of supports: reactions x w l, moments over the supports x w l^2 (both to the middle),
# greatest moment in each span x w l^2 (to the middle)
CEF_TABLE_2_1 = {
    2: ((1 / 2,), (0.0,), (0.125,)),
    3: ((3 / 8, 10 / 8), (0.0, 1 / 8), (0.0703,)),
    4: ((4 / 10, 11 / 10), (0.0, 1 / 10), (0.080, 0.025)),
    5: ((11 / 28, 32 / 28, 26 / 28), (0.0, 3 / 28, 2 / 28), (0.0772, 0.0364)),
    6: ((15 / 38, 43 / 38, 37 / 38), (0.0, 4 / 38, 3 / 38), (0.0779, 0.0332, 0.0461)),
    7: (
        (41 / 104, 118 / 104, 100 / 104, 106 / 104),
        (0.0, 11 / 104, 8 / 104, 9 / 104),
        (0.0777, 0.0340, 0.0433),
    ),
    8: (
        (56 / 142, 161 / 142, 137 / 142, 143 / 142),
        (0.0, 15 / 142, 11 / 142, 12 / 142),
        (0.0778, 0.0338, 0.0440, 0.0405),
    ),
}
SPAN, LINE = 16.0, 5.0


def solve(
    supports: tuple[float, ...], left: float, right: float, load: float
) -> tuple[tuple[float, ...], Diagram]:
    reactions = beam_reactions(supports=supports, left=left, right=right, load=load)
    drawn = beam_diagram(supports=supports, reactions=reactions, left=left, right=right, load=load)
    return reactions, drawn


@pytest.mark.parametrize("count", CEF_TABLE_2_1, ids=lambda n: f"CEF table 2.1, {n} supports")
def test_equal_spans_under_a_uniform_load(count: int) -> None:
    printed_reactions, printed_moments, _ = CEF_TABLE_2_1[count]
    supports = tuple(SPAN * k for k in range(count))
    load = LINE * supports[-1]
    reactions, drawn = solve(supports, 0.0, supports[-1], load)
    half = len(printed_reactions)
    assert reactions[:half] == pytest.approx([r * LINE * SPAN for r in printed_reactions])
    assert drawn.support_moments[:half] == pytest.approx(
        [m * LINE * SPAN**2 for m in printed_moments], abs=1e-9
    )
    assert reactions == pytest.approx(reactions[::-1])


@pytest.mark.parametrize("count", CEF_TABLE_2_1, ids=lambda n: f"CEF table 2.1, {n} supports")
def test_greatest_moment_of_a_beam_with_no_hogging_between(count: int) -> None:
    # the greatest of the whole beam: over the second support, or in the span where there are two
    _, printed_moments, printed_spans = CEF_TABLE_2_1[count]
    supports = tuple(SPAN * k for k in range(count))
    _, drawn = solve(supports, 0.0, supports[-1], LINE * supports[-1])
    greatest = max(*printed_moments, *printed_spans)
    assert drawn.moment / (LINE * SPAN**2) == pytest.approx(greatest, abs=5e-5)


def test_simple_span() -> None:
    # table: simple beam, uniform load: M = w L^2 / 8 at the middle, V = w L / 2
    _, drawn = solve((0.0, SPAN), 0.0, SPAN, LINE * SPAN)
    assert drawn.moment == pytest.approx(LINE * SPAN**2 / 8)
    assert drawn.moment_at == pytest.approx(SPAN / 2)
    assert drawn.shear == pytest.approx(LINE * SPAN / 2)


def test_simple_span_partly_loaded() -> None:
    # table: simple beam, uniform load partially distributed over b from a, c beyond:
    # R1 = w b (2 c + b) / (2 L), M = R1 (a + R1 / (2 w)) at a + R1 / w
    a, b, c = 3.0, 8.0, 5.0
    first = LINE * b * (2 * c + b) / (2 * SPAN)
    reactions, drawn = solve((0.0, SPAN), a, a + b, LINE * b)
    assert reactions[0] == pytest.approx(first)
    assert drawn.moment == pytest.approx(first * (a + first / (2 * LINE)))
    assert drawn.moment_at == pytest.approx(a + first / LINE)


def test_simple_span_with_a_load_at_one_point() -> None:
    # CEF figure 2.2: M = W a b / L at the load, R = W b / L
    reactions, drawn = solve((0.0, SPAN), 6.0, 6.0, 100.0)
    assert reactions == pytest.approx((100 * 10 / 16, 100 * 6 / 16))
    assert (drawn.moment, drawn.moment_at) == pytest.approx((100 * 6 * 10 / 16, 6.0))


def test_both_overhangs_under_a_uniform_load() -> None:
    # table: beam overhanging both supports, unequal overhangs a and c, b between, L in all:
    # R1 = w L (L - 2 c) / (2 b), M1 = w a^2 / 2, M2 = w c^2 / 2, M3 = R1 (R1 / (2 w) - a)
    a, b, c = 6.375, 15.875, 10.5
    whole = a + b + c
    first = LINE * whole * (whole - 2 * c) / (2 * b)
    reactions, drawn = solve((a, a + b), 0.0, whole, LINE * whole)
    assert reactions[0] == pytest.approx(first)
    assert drawn.support_moments == pytest.approx((LINE * a**2 / 2, LINE * c**2 / 2))
    between = abs(first * (first / (2 * LINE) - a))
    assert drawn.moment == pytest.approx(max(LINE * a**2 / 2, LINE * c**2 / 2, between))


def test_a_load_at_the_end_of_an_overhang() -> None:
    # table: beam overhanging one support: R1 = -P a / l, R2 = P (l + a) / l, M = P a
    reactions, drawn = solve((0.0, 16.0), 24.0, 24.0, 100.0)
    assert reactions == pytest.approx((-50.0, 150.0))
    assert (drawn.moment, drawn.moment_at, drawn.shear) == pytest.approx((800.0, 16.0, 100.0))


def test_two_equal_spans_with_a_load_in_one() -> None:
    # table: continuous beam, two equal spans, load at any point, a + b = l:
    # R1 = P b (4 l^2 - a (l + a)) / (4 l^3), R3 = -P a b (l + a) / (4 l^3),
    # M over the middle support = P a b (l + a) / (4 l^2)
    a, b, span, load = 10.0, 6.0, 16.0, 100.0
    reactions, drawn = solve((0.0, span, 2 * span), a, a, load)
    assert reactions[0] == pytest.approx(load * b * (4 * span**2 - a * (span + a)) / (4 * span**3))
    assert reactions[2] == pytest.approx(-load * a * b * (span + a) / (4 * span**3))
    assert drawn.support_moments[1] == pytest.approx(load * a * b * (span + a) / (4 * span**2))


def test_two_unequal_spans_under_a_uniform_load() -> None:
    # table: continuous beam, two unequal spans: M = w (a^3 + b^3) / (8 (a + b))
    a, b = 12.0, 20.0
    _, drawn = solve((0.0, a, a + b), 0.0, a + b, LINE * (a + b))
    assert drawn.support_moments[1] == pytest.approx(LINE * (a**3 + b**3) / (8 * (a + b)))


def test_a_load_and_a_partial_load_together() -> None:
    # SymPy, tests of continuum_mechanics.beam, test_beam_units: 8 m, 5 kN at 2 m and 10 kN/m from
    # 4 m to 8 m: reactions 13.75 and 31.25 kN
    at_a_point, _ = solve((0.0, 8.0), 2.0, 2.0, 5.0)
    spread, _ = solve((0.0, 8.0), 4.0, 8.0, 40.0)
    both = [one + other for one, other in zip(at_a_point, spread, strict=True)]
    assert both == pytest.approx((13.75, 31.25))


def test_a_load_right_over_a_support_bends_nothing() -> None:
    for supports in ((0.0, 16.0), (0.0, 16.0, 32.0)):
        for k, place in enumerate(supports):
            reactions, drawn = solve(supports, place, place, 100.0)
            assert reactions == pytest.approx([100.0 * (j == k) for j in range(len(supports))])
            assert drawn.moment == pytest.approx(0.0, abs=1e-9)


def test_the_worst_contact_is_named() -> None:
    actions = beam.board_actions(supports=(6.375, 22.25), left=0.0, right=32.75, load=100.0)
    assert actions.moment == pytest.approx(100.0 * 10.5)  # P a, contact at the right end
    assert (actions.moment_at, actions.moment_case) == (22.25, RIGHT_END)
    # V: the load itself on the overhang, P a / l between
    assert actions.shear == pytest.approx(100.0)
    assert actions.reactions == pytest.approx((-100 * 10.5 / 15.875, 100 * (1 + 10.5 / 15.875)))
    assert actions.support_moments == pytest.approx((637.5, 1050.0))


def test_a_short_overhang_lets_the_whole_contact_govern() -> None:
    actions = beam.board_actions(supports=(1.0, 31.0), left=0.0, right=32.0, load=320.0)
    # R1 (R1 / (2 w) - a) with R1 = 160, w = 10, a = 1
    assert actions.moment == pytest.approx(160.0 * (160.0 / 20.0 - 1.0))
    assert actions.moment_case == WHOLE_OVERLAP
    assert actions.shear_case in (LEFT_END, RIGHT_END)


def test_a_stiff_board_on_three_studs_is_drawn_too() -> None:
    # studs that don't give: w l^2 / 8 = F over the middle one. A board that doesn't bend gives
    # each stud a third: F/3 x 16 - F/2 x 8 = 4/3 F there, R^2 / (2 w) = 16/9 F in each span
    actions = beam.board_actions(supports=(0.0, 16.0, 32.0), left=0.0, right=32.0, load=30.0)
    assert actions.support_moments[1] == pytest.approx(40.0)
    assert actions.moment == pytest.approx(30.0 * 16.0 / 9.0)
    assert actions.reactions == pytest.approx((10.0, 10.0, 10.0))


@pytest.mark.parametrize(
    ("supports", "left", "right", "load"),
    [
        ((0.0,), 0.0, 16.0, 1.0),
        ((16.0, 0.0), 0.0, 16.0, 1.0),
        ((0.0, math.nan), 0.0, 16.0, 1.0),
        ((0.0, 16.0), 16.0, 0.0, 1.0),
        ((0.0, 16.0), 5.0, 5.0, 1.0),
        ((0.0, 16.0), 0.0, math.inf, 1.0),
        ((0.0, 16.0), 0.0, 16.0, math.nan),
        ((0.0, 16.0), 0.0, 16.0, -1.0),
    ],
)
def test_what_is_no_beam_is_refused(
    supports: tuple[float, ...], left: float, right: float, load: float
) -> None:
    with pytest.raises(ValueError, match=r"supports|right|load|left"):
        beam.board_actions(supports=supports, left=left, right=right, load=load)


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


def test_shear_stress() -> None:
    # f_v = 3 V / (2 b d), 2x4: area 5.25 in^2 (NDS Supplement table 1B, from memory)
    assert beam.shear_stress(shear=350.0, breadth=1.5, depth=3.5) == pytest.approx(
        1.5 * 350.0 / 5.25
    )


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
        beam.shear_stress(shear=1.0, breadth=1.5, depth=bad)
