"""Shares of studs, rows of screws and the pressure on the finish."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest

from bracecalc.mechanics.statics import sharing


def test_a_load_in_the_middle_is_shared_evenly() -> None:
    assert sharing.stud_shares(spots=(2.0, 18.0, 34.0), load=90.0, load_at=18.0) == (
        30.0,
        30.0,
        30.0,
    )


def test_two_studs_share_by_the_lever() -> None:
    # statics: simple beam, reactions P b / L and P a / L
    assert sharing.stud_shares(spots=(0.0, 16.0), load=100.0, load_at=4.0) == (75.0, 25.0)


def test_bolt_group_formula() -> None:
    # elastic (vector) method for a fastener group, F/m + F e x_i / sum(x^2), by hand:
    # 100/4 + 100 x 6 x_i / 500 with x = -15, -5, 5, 15
    assert sharing.stud_shares(
        spots=(0.0, 10.0, 20.0, 30.0), load=100.0, load_at=21.0
    ) == pytest.approx((7.0, 19.0, 31.0, 43.0))


def test_a_negative_share_is_kept() -> None:
    # 3 studs, load over the last, by hand: 60/3 + 60 x 16 x_i / 512 with x = -16, 0, 16
    assert sharing.stud_shares(spots=(0.0, 16.0, 32.0), load=60.0, load_at=32.0) == pytest.approx(
        (-10.0, 20.0, 50.0)
    )


def test_an_overhang_of_two_studs_is_a_lever() -> None:
    # beam overhanging one support, load at the end of the overhang: R1 = -P a / l,
    # R2 = P (l + a) / l, as in any table of beam formulas
    assert sharing.stud_shares(spots=(0.0, 16.0), load=100.0, load_at=24.0) == pytest.approx(
        (-50.0, 150.0)
    )


def test_one_stud_takes_all() -> None:
    assert sharing.stud_shares(spots=(7.0,), load=100.0, load_at=30.0) == (100.0,)


@pytest.mark.parametrize(
    ("spots", "load", "load_at"),
    [
        ((), 1.0, 0.0),
        ((0.0, 0.0), 1.0, 0.0),
        ((16.0, 0.0), 1.0, 0.0),
        ((0.0, math.nan), 1.0, 0.0),
        ((0.0, 16.0), math.nan, 0.0),
        ((0.0, 16.0), -1.0, 0.0),
        ((0.0, 16.0), 1.0, math.inf),
    ],
)
def test_what_can_not_be_shared_is_refused(
    spots: tuple[float, ...], load: float, load_at: float
) -> None:
    with pytest.raises(ValueError, match=r"spots|load"):
        sharing.stud_shares(spots=spots, load=load, load_at=load_at)


def test_every_set_of_two_studs_and_more() -> None:
    found = list(sharing.subsets((0.0, 1.0, 2.0, 3.0)))
    assert len(found) == len(set(found)) == 6 + 4 + 1
    assert found[0] == (0.0, 1.0, 2.0, 3.0)
    assert list(sharing.subsets((7.0,))) == []


def test_of_many_studs_all_runs_and_all_pairs() -> None:
    spots = tuple(float(place) for place in range(12))
    found = set(sharing.subsets(spots))
    assert spots in found
    assert {(0.0, 11.0), (3.0, 8.0)} <= found
    assert len(found) < 200


def test_the_gap_adds_half_of_itself_to_the_lever() -> None:
    # a screw across 5/8 in passes V g / 2 into the stack: 80 x (3 + 5/16)
    assert sharing.prying_moment(share=80.0, out_from_wall=3.0, gap=0.625) == pytest.approx(265.0)


def test_rows_balance_the_prying_moment() -> None:
    moment = sharing.prying_moment(share=80.0, out_from_wall=3.0625, gap=0.0)
    tensions = sharing.row_tensions(moment=moment, depths=(1.0, 2.5))
    assert sum(t * y for t, y in zip(tensions, (1.0, 2.5), strict=True)) == pytest.approx(245.0)
    assert tensions[1] / tensions[0] == pytest.approx(2.5)


def test_a_row_above_the_pivot_holds_nothing() -> None:
    assert sharing.row_tensions(moment=300.0, depths=(-0.1, 0.0, 2.0)) == (0.0, 0.0, 150.0)


@pytest.mark.parametrize(
    ("moment", "depths"),
    [(300.0, ()), (300.0, (0.0, -1.0)), (math.nan, (1.0,)), (-1.0, (1.0,)), (1.0, (math.inf,))],
)
def test_rows_that_hold_nothing_are_refused(moment: float, depths: Sequence[float]) -> None:
    with pytest.raises(ValueError, match=r"row|finite"):
        sharing.row_tensions(moment=moment, depths=depths)


def test_the_pressure_block_has_its_force_at_the_pivot() -> None:
    tension, width, depth = 180.0, 1.5, 0.25
    peak = sharing.pivot_bearing(tension_sum=tension, width=width, depth=depth)
    reach = 3.0 * depth  # triangle: force = peak x reach / 2 x width, at reach / 3
    assert peak * reach / 2.0 * width == pytest.approx(tension)
    assert reach / 3.0 == depth


@pytest.mark.parametrize("name", ["tension_sum", "width", "depth"])
@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_bearing_refuses_what_it_can_not_mean(name: str, bad: float) -> None:
    given = {"tension_sum": 180.0, "width": 1.5, "depth": 0.25}
    with pytest.raises(ValueError, match=name):
        sharing.pivot_bearing(**{**given, name: bad})


def test_prying_refuses_what_is_not_finite() -> None:
    with pytest.raises(ValueError, match="finite"):
        sharing.prying_moment(share=math.nan, out_from_wall=3.0, gap=0.0)
    with pytest.raises(ValueError, match="gap"):
        sharing.prying_moment(share=1.0, out_from_wall=3.0, gap=-0.5)
