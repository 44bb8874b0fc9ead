"""Text -> inches -> text, for any length."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from bracecalc.text.lengths import (
    Dimension,
    QuantityError,
    Rounding,
    Units,
    format_length,
    parse_length,
    parse_quantity,
)

GRIDS = st.sampled_from([1 / 4, 1 / 8, 1 / 16, 1 / 32, 1 / 64])
STEPS = st.integers(-100_000, 100_000)
LENGTHS = st.floats(-10_000, 10_000)


@given(STEPS, GRIDS, st.sampled_from(Rounding))
def test_round_trip_is_exact_on_the_grid(steps: int, grid: float, towards: Rounding) -> None:
    value = steps * grid
    text = format_length(value, units=Units.INCH, grid=grid, towards=towards)
    assert parse_length(text, units=Units.INCH) == value
    assert "-0 " not in text


@given(STEPS, st.sampled_from([1 / 16, 1 / 32]), st.sampled_from(Rounding))
def test_round_trip_is_exact_in_millimetres(steps: int, grid: float, towards: Rounding) -> None:
    value = parse_length(f"{steps} mm", units=Units.INCH)
    text = format_length(value, units=Units.MM, grid=grid, towards=towards)
    assert text == f"{steps} mm"
    assert parse_length(text, units=Units.INCH) == value


@given(LENGTHS, GRIDS, st.sampled_from(Units))
def test_up_never_shows_less_and_down_never_more(value: float, grid: float, units: Units) -> None:
    noise = 1e-6
    up = format_length(value, units=units, grid=grid, towards=Rounding.UP)
    down = format_length(value, units=units, grid=grid, towards=Rounding.DOWN)
    assert parse_length(down, units=units) <= value + noise
    assert parse_length(up, units=units) >= value - noise
    assert (
        parse_length(up, units=units) - parse_length(down, units=units)
        <= max(grid, 1 / 25.4) + noise
    )


@given(
    st.integers(0, 500), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]), st.booleans()
)
def test_feet_and_inches_are_the_same_as_inches(
    whole: int, upper: int, lower: int, negative: bool
) -> None:
    upper %= lower
    exact = float(whole + Fraction(upper, lower))
    sign = "-" if negative and exact else ""
    fraction = f" {upper}/{lower}" if upper else ""
    feet, rest = divmod(whole, 12)
    for text in (
        f"{sign}{whole}{fraction} in",
        f'{sign}{whole}{fraction.replace(" ", "-")}"',
        f"{sign}{feet}' {rest}{fraction}\"",
        f"{sign}{feet}'-{rest}{fraction}\"",
        f"{sign}{feet} ft {rest}{fraction} in",
    ):
        assert parse_length(text, units=Units.MM) == (-exact if sign else exact)


@given(st.decimals(-5000, 5000, allow_nan=False, places=4))
def test_decimals_are_read_to_the_nearest_float(number: object) -> None:
    exact = Fraction(str(number))
    assert parse_length(f"{number} in", units=Units.MM) == float(exact)
    assert parse_length(f"{number} mm", units=Units.INCH) == float(exact * 5 / 127)


@given(st.floats(allow_nan=True, allow_infinity=True), st.sampled_from(Units))
def test_a_float_reads_as_itself_or_is_refused(number: float, units: Units) -> None:
    try:
        value = parse_length(number, units=units)
    except QuantityError:
        assert not abs(number) <= 1e9
    else:
        scale = 1.0 if units is Units.INCH else 1 / 25.4
        assert abs(value - number * scale) <= 1e-12 * abs(number)


WRITTEN = st.text("0123456789 ./-'\"¼½″′,eEinftmclb+*()_\N{MINUS SIGN}\0\n", max_size=20)


@given(WRITTEN | st.text(max_size=40))
def test_any_text_is_a_finite_value_or_one_line(text: str) -> None:
    for dimension in Dimension:
        try:
            value = parse_quantity(text, dimension)
        except QuantityError as error:
            lines = str(error).splitlines()
        else:
            lines = [dimension.unit]
            assert abs(value) <= 1e9
        assert len(lines) == 1
