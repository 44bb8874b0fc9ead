"""ASCE 7 chapter 13 against worked numbers, its limits, and what must not flip sign."""

from __future__ import annotations

import math

import pytest

from bracecalc.mechanics.statics import earthquake

RIGID = {"a_p": 1.0, "r_p": 2.5, "i_p": 1.0}


@pytest.mark.parametrize(
    ("z_over_h", "by_hand"),
    [
        # 400 lbf, S_DS 1.0, a_p 1, R_p 2.5, I_p 1, by hand from ASCE 7-16 eq. 13.3-1 and 13.3-3
        pytest.param(0.0, 120.0, id="floor: 64 lbf raised to the least, 0.3 S_DS I_p W_p"),
        pytest.param(0.5, 128.0, id="mid-height"),
        pytest.param(1.0, 192.0, id="roof"),
    ],
)
def test_hand_worked_heights(z_over_h: float, by_hand: float) -> None:
    force = earthquake.component_force_7_16(s_ds=1.0, weight=400.0, z_over_h=z_over_h, **RIGID)
    assert force == pytest.approx(by_hand)


@pytest.mark.parametrize("edition", ["7-16", "7-22"])
def test_limits_of_both_editions(edition: str) -> None:
    def force(strong: bool) -> float:
        if edition == "7-16":
            return earthquake.component_force_7_16(
                s_ds=1.2,
                weight=500.0,
                a_p=2.5 if strong else 1.0,
                r_p=1.0 if strong else 12.0,
                i_p=1.5,
                z_over_h=1.0,
            )
        return earthquake.component_force_7_22(
            s_ds=1.2,
            weight=500.0,
            i_p=1.5,
            h_f=3.5 if strong else 1.0,
            r_mu=1.0 if strong else 2.0,
            c_ar=4.0 if strong else 1.0,
            r_po=1.5,
        )

    # both editions: 1.6 and 0.3 times S_DS I_p W_p, from memory
    assert force(True) == pytest.approx(1.6 * 1.2 * 1.5 * 500.0)
    assert force(False) == pytest.approx(0.3 * 1.2 * 1.5 * 500.0)


def test_the_2022_edition_by_hand() -> None:
    # 0.4 x 1.0 x 1.0 x 400 x (3.5 / 1.3) x (1.0 / 1.5) = 287.18, from memory of eq. 13.3-1
    assert earthquake.component_force_7_22(
        s_ds=1.0, weight=400.0, i_p=1.0, h_f=3.5, r_mu=1.3, c_ar=1.0, r_po=1.5
    ) == pytest.approx(287.18, abs=0.005)


@pytest.mark.parametrize("s_ds", [0.0, -0.1, 4.01, math.nan, math.inf])
def test_an_acceleration_out_of_range_is_refused(s_ds: float) -> None:
    with pytest.raises(ValueError, match="s_ds"):
        earthquake.component_force_7_16(s_ds=s_ds, weight=400.0, z_over_h=1.0, **RIGID)
    with pytest.raises(ValueError, match="s_ds"):
        earthquake.earthquake_moments(
            s_ds=s_ds, force=100.0, height=44.0, weight=400.0, behind_front_legs=9.5
        )


@pytest.mark.parametrize("name", ["weight", "a_p", "r_p", "i_p", "z_over_h"])
@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_a_factor_out_of_range_is_refused(name: str, bad: float) -> None:
    given = {"s_ds": 1.0, "weight": 400.0, "z_over_h": 1.0, **RIGID}
    with pytest.raises(ValueError, match=name):
        earthquake.component_force_7_16(**{**given, name: bad})


@pytest.mark.parametrize("name", ["weight", "i_p", "h_f", "r_mu", "c_ar", "r_po"])
@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_a_factor_of_the_2022_edition_out_of_range_is_refused(name: str, bad: float) -> None:
    given = {
        "s_ds": 1.0, "weight": 400.0, "i_p": 1.0,
        "h_f": 2.0, "r_mu": 1.3, "c_ar": 1.0, "r_po": 1.5,
    }  # fmt: skip
    with pytest.raises(ValueError, match=name):
        earthquake.component_force_7_22(**{**given, name: bad})


def test_moments_by_hand() -> None:
    # 0.7 x 192 x 44 = 5913.6; (0.6 - 0.14) x 400 x 9.5 = 1748
    moments = earthquake.earthquake_moments(
        s_ds=1.0, force=192.0, height=44.0, weight=400.0, behind_front_legs=9.5
    )
    assert moments == pytest.approx((5913.6, 1748.0))


def test_the_weight_still_steadies_at_the_greatest_acceleration() -> None:
    moments = earthquake.earthquake_moments(
        s_ds=earthquake.GREATEST_S_DS, force=0.0, height=0.0, weight=400.0, behind_front_legs=9.5
    )
    assert moments.stabilising == pytest.approx(0.04 * 400.0 * 9.5)


def test_a_weight_that_tips_is_not_made_lighter() -> None:
    moments = earthquake.earthquake_moments(
        s_ds=1.0, force=0.0, height=0.0, weight=400.0, behind_front_legs=-2.0
    )
    assert moments.stabilising == pytest.approx(-1.14 * 400.0 * 2.0)


@pytest.mark.parametrize("name", ["force", "height", "weight", "behind_front_legs"])
def test_moments_refuse_what_is_not_finite(name: str) -> None:
    given = {
        "s_ds": 1.0, "force": 1.0, "height": 1.0, "weight": 1.0, "behind_front_legs": 1.0
    }  # fmt: skip
    with pytest.raises(ValueError, match=name):
        earthquake.earthquake_moments(**{**given, name: math.nan})
