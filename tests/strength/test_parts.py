"""The stack as the load sees it: shares, rows, screws, board and finish, each by a closed form."""

from __future__ import annotations

import math
from typing import Any

import pytest

from bracecalc.mechanics.statics.contact import Along
from bracecalc.records.job import Method
from bracecalc.records.plan import Strength
from bracecalc.records.reference import ScrewKind, ScrewSize
from bracecalc.records.scheme import Part
from bracecalc.strength.nds import OneScrew
from bracecalc.strength.parts import (
    SILENT,
    Board,
    BoardStrength,
    OnStud,
    Overlap,
    actions,
    bearing_utilisations,
    bending_utilisation,
    group_action,
    row_depths,
    screw_utilisation,
    splitting_capacity,
)

STRENGTH = BoardStrength(bending=875.0, shear=135.0, crushing=None, across=425.0)
BOARD = Board(thickness=1.5, width=3.5, left=0.0, right=32.0, hole=0.0)
TWO_STUDS = (8.0, 24.0)


def one_screw(*, lateral: float, axial: float) -> OneScrew:
    shown = Strength(
        method="any", gap=0.0, mode="IV", lateral=lateral, withdrawal=axial,
        pull_through=axial, factors={},
    )  # fmt: skip
    return OneScrew(shown, lateral, axial)


def use_of(one: OneScrew, /, method: Method = Method.NDS, **changes: Any) -> float:
    given: dict[str, Any] = {
        "share": 100.0, "arm": 3.0, "gap": 0.0, "depths": (2.0,), "duration": 1.0,
    }  # fmt: skip
    given |= changes
    on_stud = OnStud(given.pop("share"), given.pop("arm"), given.pop("gap"))
    return screw_utilisation(one, method, on_stud=on_stud, work=SILENT, **given)


def test_quarter_points_by_hand() -> None:
    # two studs at 8 and 24 in of 32: at the left quarter, 8, the first stud takes all of it
    found = actions(TWO_STUDS, Overlap(0.0, 32.0))
    assert (found.share, found.share_at) == (1.0, Along.LEFT_QUARTER)
    # of one pound at 8, 3/4 may come at 0 and 1/4 at 32: 0.75 x 8 in beyond the stud
    assert found.moment == pytest.approx(6.0)
    # beside that stud 0.75 outside of it, and 1 - 0.75 on the other side
    assert found.shears == (0.75, 0.75)


def test_quarter_points_of_studs_to_one_side_by_hand() -> None:
    # studs at 4 and 20 in, overlap from 0 to 36: the right quarter is at 27, 7 in beyond: 1 + 7/16
    found = actions((4.0, 20.0), Overlap(0.0, 36.0))
    assert found.share == pytest.approx(1.0 + 7.0 / 16.0)
    assert found.share_at is Along.RIGHT_QUARTER


def test_contact_at_one_end_levers_about_the_nearer_stud() -> None:
    # 8 in beyond one stud of two that stand 16 in apart: 1 + 8/16
    found = actions(TWO_STUDS, Overlap(0.0, 32.0, one_end=True))
    assert found.share == pytest.approx(1.5)
    assert found.moment == pytest.approx(8.0)


def test_a_load_at_a_stud_is_taken_by_that_stud_alone() -> None:
    found = actions((0.0, 32.0), Overlap(0.0, 32.0, one_end=True))
    assert found.share == 1.0


def test_the_gaps_lever_by_hand() -> None:
    # 60 lbf on a stud, 3 in out, through 5/8 in of finish: M = 60 (3 + 5/16) = 198.75 in-lbf;
    # one row 2 in below the pivot: T = 99.375 lbf, and it holds any shear
    one = one_screw(lateral=1e12, axial=400.0)
    assert use_of(one, share=60.0, gap=0.625) == pytest.approx(99.375 / 400.0)


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
    one = one_screw(lateral=200.0, axial=300.0)
    assert use_of(one, Method.EC5) == pytest.approx(math.sqrt(0.5))


@pytest.mark.parametrize("values", [(0.0, 100.0), (100.0, 0.0)])
def test_a_screw_that_holds_nothing_is_used_without_end(values: tuple[float, float]) -> None:
    assert use_of(one_screw(lateral=values[0], axial=values[1])) == math.inf


def test_a_row_above_the_pivot_alone_is_refused() -> None:
    with pytest.raises(ValueError, match="below the pivot"):
        use_of(one_screw(lateral=1.0, axial=1.0), depths=(-0.1,))


@pytest.mark.parametrize("bad", [math.nan, math.inf])
@pytest.mark.parametrize("key", ["share", "arm", "gap", "duration"])
def test_no_use_of_what_is_no_number(key: str, bad: float) -> None:
    with pytest.raises(ValueError, match="must be"):
        use_of(one_screw(lateral=1.0, axial=1.0), Method.NDS, **{key: bad})


def bends(board: Board, heights: tuple[float, ...] = (2.0,), **changes: Any) -> float:
    given: dict[str, Any] = {"strength": STRENGTH, "moment": 800.0, "duration": 1.0} | changes
    strength = given.pop("strength")
    return bending_utilisation(board, strength, heights=heights, work=SILENT, **given)


def splits(board: Board, support: float, **changes: Any) -> float:
    given: dict[str, Any] = {"strength": STRENGTH, "duration": 1.0} | changes
    return splitting_capacity(
        board, given["strength"], support=support, heights=(2.0,), duration=given["duration"],
        work=SILENT,
    )  # fmt: skip


def test_board_bends_on_edge_and_shears_beside_its_screws() -> None:
    # 6 M / (b d^2) with M = 800 in-lbf
    assert bends(BOARD) == pytest.approx(6 * 800 / (1.5 * 3.5**2) / 875)
    # NDS 2018 eq. 3.4-6 (from memory): 2/3 F_v b d_e (d_e / d)^2, 8 in from the end < 5 d
    assert splits(BOARD, 8.0) == pytest.approx(2 / 3 * 135 * 1.5 * 2.0 * (2.0 / 3.5) ** 2)


def test_farther_than_five_depths_from_the_end_the_board_holds_more_shear() -> None:
    assert splits(BOARD._replace(right=60.0), 20.0) == pytest.approx(2 / 3 * 135 * 1.5 * 2.0)


def test_a_hole_takes_its_wood_out_of_bending() -> None:
    whole, bored = bends(BOARD, (1.75,)), bends(BOARD._replace(hole=0.5), (1.75,))
    # a hole at mid height takes b h^3 / 12 out of I
    assert bored / whole == pytest.approx(3.5**3 / (3.5**3 - 0.5**3))


def test_wet_wood_and_load_duration() -> None:
    # NDS Supplement table 4A (from memory): C_M 0.85 bending, 0.97 shear
    wet = STRENGTH._replace(wet=True)
    assert bends(BOARD, strength=wet) == pytest.approx(bends(BOARD) / 0.85)
    assert splits(BOARD, 8.0, strength=wet) == pytest.approx(0.97 * splits(BOARD, 8.0))
    assert bends(BOARD, duration=1.6) == pytest.approx(bends(BOARD) / 1.6)
    assert splits(BOARD, 8.0, duration=1.6) == pytest.approx(1.6 * splits(BOARD, 8.0))


WASHERED = ScrewSize(
    size="1/4", kind=ScrewKind.LAG, diameter=0.25, root_diameter=0.173, head_diameter=0.4375,
    bending_yield=70_000.0, lengths=(6.0,), washer_diameter=0.734, washer_thickness=0.065,
)  # fmt: skip


def pressed(crushing: float | None, **changes: Any) -> dict[Part, float]:
    given: dict[str, Any] = {
        "size": WASHERED, "stud_width": 1.5, "method": Method.NDS, "wet": False,
    }  # fmt: skip
    given |= changes
    return dict(
        bearing_utilisations(
            given["size"],
            STRENGTH._replace(crushing=crushing, wet=given["wet"]),
            on_stud=OnStud(150.0, 3.0, 0.0),
            depths=(2.0,),
            stud_width=given["stud_width"],
            pivot_ease=0.25,
            method=given["method"],
            work=SILENT,
        )
    )


def test_the_finish_bears_what_the_screws_pull() -> None:
    # T = 150 x 3 / 2 = 225 lbf on a triangle 3 x 1/4 in deep and 1-1/2 in wide
    peak = 2 * 225 / (3 * 0.25 * 1.5)
    assert pressed(600.0)[Part.FINISH] == pytest.approx(peak / 600.0)
    assert pressed(600.0, stud_width=3.0)[Part.FINISH] == pytest.approx(peak / 600.0 / 2)
    # the board across its grain bears the mean of it; wet 0.67, table 4A (from memory)
    assert pressed(None)[Part.EDGE] == pytest.approx(peak / 2 / 425.0)
    assert pressed(None, wet=True)[Part.EDGE] == pytest.approx(peak / 2 / 425.0 / 0.67)


def test_a_finish_of_unknown_strength_is_not_judged() -> None:
    assert Part.FINISH not in pressed(None)


def test_the_board_bears_under_a_washer_by_the_nds_alone() -> None:
    # NDS 2018 3.10.2: F_c,perp C_b pi/4 (d_w^2 - d_h^2), C_b = (d_w + 3/8) / d_w
    area = math.pi / 4 * (0.734**2 - 0.25**2) * (0.734 + 0.375) / 0.734
    assert pressed(None)[Part.WASHER] == pytest.approx(225.0 / (425.0 * area))
    assert Part.WASHER not in pressed(None, method=Method.EC5)  # in the pull-through there


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
