import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published.closed_forms import probability_reached

from bracecalc.mechanics.geometry.tolerance import root_sum_square, worst_case

LENGTHS = st.floats(min_value=-100.0, max_value=100.0)
SOME = st.lists(LENGTHS, max_size=6)
MarginOf = Callable[..., float]


@pytest.mark.parametrize("margin", [worst_case, root_sum_square])
def test_no_uncertainty_leaves_the_margin_as_it_is(margin: MarginOf) -> None:
    assert margin(nominal=0.375, uncertainties=[]) == 0.375
    assert margin(nominal=0.375, uncertainties=[0.0, 0.0]) == 0.375


@pytest.mark.parametrize("margin", [worst_case, root_sum_square])
def test_one_uncertainty_comes_off_whole(margin: MarginOf) -> None:
    assert margin(nominal=0.375, uncertainties=[0.125]) == 0.25
    assert margin(nominal=0.375, uncertainties=[-0.125]) == 0.25


@pytest.mark.parametrize("margin", [worst_case, root_sum_square])
@pytest.mark.parametrize("nominal", [0.0, math.nan, math.inf])
def test_what_is_not_finite_is_refused(margin: MarginOf, nominal: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        margin(nominal=nominal, uncertainties=[0.1, math.nan])


@given(nominal=LENGTHS, uncertainties=SOME)
def test_root_sum_square_lies_between_worst_case_and_nominal(
    nominal: float, uncertainties: list[float]
) -> None:
    worst = worst_case(nominal=nominal, uncertainties=uncertainties)
    rss = root_sum_square(nominal=nominal, uncertainties=uncertainties)
    assert worst - 1e-9 <= rss <= nominal


@given(nominal=LENGTHS, uncertainties=SOME, more=st.floats(min_value=0.0, max_value=10.0))
def test_more_uncertainty_never_widens_a_margin(
    nominal: float, uncertainties: list[float], more: float
) -> None:
    wider = [abs(value) + more for value in uncertainties]
    for margin in (worst_case, root_sum_square):
        before = margin(nominal=nominal, uncertainties=uncertainties)
        assert margin(nominal=nominal, uncertainties=wider) <= before
        assert margin(nominal=nominal, uncertainties=[*uncertainties, more]) <= before


# Areas under the standard normal curve, four decimals: NIST/SEMATECH e-Handbook of Statistical
# Methods, table 1.3.6.7.1 (area from 0 to z), from memory.
@pytest.mark.parametrize(
    ("z", "area_from_zero"),
    [(0.5, 0.19146), (1.0, 0.34134), (1.5, 0.43319), (1.96, 0.475), (2.0, 0.47725), (3.0, 0.49865)],
)
def test_normal_table(z: float, area_from_zero: float) -> None:
    both = probability_reached(below=z, above=z, deviation=1.0)
    assert both == pytest.approx(2 * area_from_zero, abs=1e-5)
    upper_tail = probability_reached(below=-z, above=50.0, deviation=1.0)
    assert upper_tail == pytest.approx(0.5 - area_from_zero, abs=0.5e-5)


def test_limits_of_the_probability() -> None:
    assert probability_reached(below=0.0, above=0.0, deviation=0.0) == 1.0
    assert probability_reached(below=-0.001, above=1.0, deviation=0.0) == 0.0
    assert probability_reached(below=0.0, above=50.0, deviation=1.0) == pytest.approx(0.5)
    assert probability_reached(below=1.0, above=-2.0, deviation=1.0) == 0.0


def test_a_far_tail_keeps_its_digits() -> None:
    # P(Z > 10) = 7.6199e-24 (asymptotic series of Abramowitz and Stegun 26.2.12, from memory)
    z = 10.0
    density = math.exp(-z * z / 2) / math.sqrt(2 * math.pi)
    series = density / z * (1 - z**-2 + 3 * z**-4 - 15 * z**-6)
    got = probability_reached(below=-z, above=60.0, deviation=1.0)
    assert got == pytest.approx(series, rel=1e-5)


@given(
    below=st.floats(min_value=0.01, max_value=3.0),
    above=st.floats(min_value=0.01, max_value=3.0),
    deviation=st.floats(min_value=0.01, max_value=3.0),
    factor=st.floats(min_value=1.0, max_value=5.0),
)
def test_a_wider_error_is_never_likelier_to_keep_limits_on_both_sides(
    below: float, above: float, deviation: float, factor: float
) -> None:
    narrow = probability_reached(below=below, above=above, deviation=deviation)
    wide = probability_reached(below=below, above=above, deviation=deviation * factor)
    assert 0.0 <= wide <= narrow + 1e-12
