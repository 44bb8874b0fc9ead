"""The stack as the load sees it: shares, rows, screws, board and finish, each by a closed form."""

from __future__ import annotations

import math
from typing import Any

import pytest

from bracecalc.records.plan import Strength
from bracecalc.strength.nds import OneScrew
from bracecalc.strength.parts import (
    Arrangement,
    BoardStrength,
    board_utilisations,
    finish_utilisation,
    group_action,
    out_from_wall,
    row_depths,
    screw_utilisation,
    stud_load,
)
from bracecalc.strength.workings import Workings

SILENT = Workings()
BOARD = BoardStrength(bending=875.0, shear=135.0, crushing=None)


def arrangement(**changes: Any) -> Arrangement:
    given: dict[str, Any] = {
        "spots": (8.0, 24.0),
        "contact_left": 0.0,
        "contact_right": 32.0,
        "projection": 3.0,
        "overlap": 2.0,
        "board_width": 3.5,
        "board_thickness": 1.5,
        "stud_width": 1.5,
        "pivot_ease": 0.25,
        "board_left": 0.0,
        "board_right": 32.0,
        "hole": 0.0,
    }
    return Arrangement(**{**given, **changes})


def one_screw(*, lateral: float, axial: float, method: str = "NDS 2018 (ASD)") -> OneScrew:
    shown = Strength(
        method=method,
        gap=0.0,
        mode="IV",
        lateral=lateral,
        withdrawal=axial,
        pull_through=axial,
        factors={},
    )
    return OneScrew(shown, lateral, axial)


def use_of(one: OneScrew, **changes: Any) -> float:
    given: dict[str, Any] = {
        "share": 100.0, "arm": 3.0, "depths": (2.0,), "duration": 1.0, "work": SILENT,
    }  # fmt: skip
    return screw_utilisation(one, **{**given, **changes})


def test_two_studs_and_the_load_at_one_end_lever_about_the_nearer() -> None:
    # 8 in beyond one stud of two that stand 16 in apart: 1 + 8/16
    found = stud_load(arrangement(), load=100.0, work=SILENT)
    assert found.share == pytest.approx(150.0)
    assert found.board.moment == pytest.approx(800.0)  # overhang: 100 lbf x 8 in


def test_a_load_at_a_stud_is_taken_by_that_stud_alone() -> None:
    found = stud_load(arrangement(spots=(0.0, 32.0)), load=100.0, work=SILENT)
    assert found.share == pytest.approx(100.0)


def test_the_load_counts_at_the_outer_edge_until_even_contact_is_shown() -> None:
    assert stud_load(arrangement(), load=1.0, work=SILENT).arm == 3.0
    even = arrangement(even_contact=True)
    assert stud_load(even, load=1.0, work=SILENT).arm == 3.0 - 2.0 / 2.0


def test_no_more_than_the_boards_can_bear_however_far_the_housing_reaches() -> None:
    # a unit too deep for its niche: the overlap comes out at more than the boards' own depth
    assert out_from_wall(projection=3.0, overlap=6.125, even_contact=True) == 1.5
    assert out_from_wall(projection=3.0, overlap=6.125, even_contact=False) == 3.0


def test_no_load_has_a_use_of_0_wherever_it_touches() -> None:
    found = stud_load(arrangement(spots=(4.0, 16.6, 29.0)), load=0.0, work=SILENT)
    assert math.copysign(1.0, found.share) == 1.0
    one = one_screw(lateral=80.0, axial=250.0)
    assert use_of(one, share=found.share) == 0.0


def test_rows_lie_below_the_pivot_by_what_the_eased_edge_leaves() -> None:
    assert row_depths((0.5, 1.125), board_width=3.5, pivot_ease=0.25) == (2.75, 2.125)
    assert row_depths((0.5,), board_width=5.5, pivot_ease=0.0) == (5.0,)


def test_one_row_takes_the_whole_moment_and_the_whole_shear() -> None:
    # T = F e / y = 150 lbf, V = 100 lbf
    one = one_screw(lateral=200.0, axial=400.0)
    load, (cosine, sine) = (
        math.hypot(150, 100),
        (100 / math.hypot(150, 100), 150 / math.hypot(150, 100)),
    )
    resistance = 400 * 200 / (400 * cosine**2 + 200 * sine**2)
    assert use_of(one) == pytest.approx(load / resistance)


def test_with_no_arm_only_shear_counts_and_the_rows_share_it() -> None:
    one = one_screw(lateral=200.0, axial=400.0)
    assert use_of(one, arm=0.0) == pytest.approx(100 / 200)
    assert use_of(one, arm=0.0, depths=(2.0, 1.0)) == pytest.approx(50 / 200)


def test_two_rows_pull_in_proportion_to_their_depth() -> None:
    # M 300: T = 300 x 2 / (1 + 4) = 120 in the lowest row; it holds any shear
    one = one_screw(lateral=1e12, axial=400.0)
    assert use_of(one, depths=(1.0, 2.0)) == pytest.approx(120.0 / 400.0)


def test_tension_makes_no_room_for_shear_beyond_the_lateral_value() -> None:
    # a slender lag screw: by both together alone 0.83, though it has 1.2 of its lateral value
    one = one_screw(lateral=50.0, axial=400.0)
    assert use_of(one, share=60.0, arm=3.0) == pytest.approx(60.0 / 50.0)
    # the upper row has the same shear as the lowest, with hardly any tension
    assert use_of(one, share=120.0, depths=(0.1, 2.0)) == pytest.approx(60.0 / 50.0)


@pytest.mark.parametrize(("lateral", "axial"), [(50.0, 400.0), (400.0, 50.0), (90.0, 100.0)])
def test_a_longer_arm_never_lowers_the_use(lateral: float, axial: float) -> None:
    one = one_screw(lateral=lateral, axial=axial)
    uses = [use_of(one, arm=arm / 4.0) for arm in range(80)]
    assert uses == sorted(uses)


def test_use_grows_with_the_force_and_falls_with_duration() -> None:
    one = one_screw(lateral=80.0, axial=250.0)
    plain = use_of(one)
    assert use_of(one, share=250.0) == pytest.approx(2.5 * plain)
    assert use_of(one, duration=1.6) == pytest.approx(plain / 1.6)
    assert use_of(one, share=0.0) == 0.0


def test_eurocode_adds_squares() -> None:
    # EN 1995-1-1 eq. 8.28: (150/300)^2 + (100/200)^2, its root
    one = one_screw(lateral=200.0, axial=300.0, method="EN 1995-1-1 (Eurocode 5)")
    assert use_of(one) == pytest.approx(math.sqrt(0.5))


@pytest.mark.parametrize("values", [(0.0, 100.0), (100.0, 0.0)])
def test_a_screw_that_holds_nothing_is_used_without_end(values: tuple[float, float]) -> None:
    assert use_of(one_screw(lateral=values[0], axial=values[1])) == math.inf


def test_a_row_above_the_pivot_alone_is_refused() -> None:
    with pytest.raises(ValueError, match="below the pivot"):
        use_of(one_screw(lateral=1.0, axial=1.0), depths=(-0.1,))


@pytest.mark.parametrize("bad", [math.nan, math.inf])
@pytest.mark.parametrize("key", ["share", "arm", "duration"])
def test_no_use_of_what_is_no_number(key: str, bad: float) -> None:
    with pytest.raises(ValueError, match="must be"):
        use_of(one_screw(lateral=1.0, axial=1.0), **{key: bad})


def board_uses(where: Arrangement, strength: BoardStrength, heights: tuple[float, ...],
               duration: float = 1.0) -> list[float]:  # fmt: skip
    on_stud = stud_load(where, load=100.0, work=SILENT)
    uses = board_utilisations(
        where, strength, on_stud=on_stud, heights=heights, duration=duration, work=SILENT
    )
    return list(uses.values())


def test_board_bends_on_edge_and_shears_beside_its_screws() -> None:
    bending, shear = board_uses(arrangement(), BOARD, (2.0,))
    # 6 M / (b d^2) with M = 800 in-lbf
    assert bending == pytest.approx(6 * 800 / (1.5 * 3.5**2) / 875)
    # NDS 2018 eq. 3.4-6 (from memory): 2/3 F_v b d_e (d_e / d)^2, 8 in from the end < 5 d
    held = 2 / 3 * 135 * 1.5 * 2.0 * (2.0 / 3.5) ** 2
    assert shear == pytest.approx(100 / held)


def test_farther_than_five_depths_from_the_end_the_board_holds_more_shear() -> None:
    inside = arrangement(spots=(20.0, 40.0), contact_right=60.0, board_right=60.0)
    # the load at an end, 20 in beyond a stud: shear 100 at either side of it
    _, shear = board_uses(inside, BOARD, (2.0,))
    assert shear == pytest.approx(100 / (2 / 3 * 135 * 1.5 * 2.0))


def test_a_hole_takes_its_wood_out_of_bending() -> None:
    whole, _ = board_uses(arrangement(), BOARD, (1.75,))
    bored, _ = board_uses(arrangement(hole=0.5), BOARD, (1.75,))
    # a hole at mid height takes b h^3 / 12 out of I
    assert bored / whole == pytest.approx(3.5**3 / (3.5**3 - 0.5**3))


def test_wet_wood_and_load_duration() -> None:
    # NDS Supplement table 4A (from memory): C_M 0.85 bending, 0.97 shear
    dry = board_uses(arrangement(), BOARD, (2.0,))
    wet = board_uses(arrangement(), BOARD._replace(wet=True), (2.0,))
    assert [b / a for a, b in zip(dry, wet, strict=True)] == pytest.approx([1 / 0.85, 1 / 0.97])
    short = board_uses(arrangement(), BOARD, (2.0,), duration=1.6)
    assert [a / b for a, b in zip(dry, short, strict=True)] == pytest.approx([1.6, 1.6])


def finish_use(crushing: float | None, **changes: Any) -> float | None:
    where = arrangement(**changes)
    on_stud = stud_load(where, load=100.0, work=SILENT)
    return finish_utilisation(
        where,
        BOARD._replace(crushing=crushing),
        on_stud=on_stud,
        depths=(2.0,),
        work=SILENT,
    )


def test_the_finish_bears_what_the_screws_pull() -> None:
    # T = 150 x 3 / 2 = 225 lbf on a triangle 3 x 1/4 in deep and 1-1/2 in wide
    use = finish_use(600.0)
    assert use == pytest.approx(2 * 225 / (3 * 0.25 * 1.5) / 600.0)
    wider = finish_use(600.0, stud_width=3.0)
    assert wider is not None
    assert use is not None
    assert wider == pytest.approx(use / 2)


def test_a_finish_of_unknown_strength_is_not_judged() -> None:
    assert finish_use(None) is None


def test_group_action_counts_from_a_quarter_inch_and_two_rows_on() -> None:
    stiff = {"stud_stiffness": 7.35e6, "board_stiffness": 157_500.0, "work": SILENT}
    assert group_action(diameter=0.19, depths=(1.0, 3.0), **stiff) == 1.0  # type: ignore[arg-type]
    assert group_action(diameter=0.25, depths=(3.0,), **stiff) == 1.0  # type: ignore[arg-type]
    both = group_action(diameter=0.25, depths=(0.5, 2.625), **stiff)  # type: ignore[arg-type]
    # NDS 2018 eq. 11.3-1 for two in a row, written out
    u = 1 + 180_000 * 0.125 * 2.125 / 2 * (1 / 7.35e6 + 1 / 157_500)
    m, ratio = u - math.sqrt(u * u - 1), 157_500 / 7.35e6
    below = 2 * ((1 + ratio * m**2) * (1 + m) - 1 + m**4)
    assert both == pytest.approx(m * (1 - m**4) / below * (1 + ratio) / (1 - m))
    assert both < 1.0
