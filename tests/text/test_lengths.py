"""Lengths and loads as people write them."""

from __future__ import annotations

import math
import subprocess
import sys

import pint
import pytest

from bracecalc.text.lengths import (
    Dimension,
    QuantityError,
    Rounding,
    Units,
    format_length,
    parse_length,
    parse_quantity,
)

SAME = [  # 84 1/4 in, every way
    "84 1/4 in",
    '84-1/4"',
    "84 1/4",
    "84.25 in",
    "84 1/4''",
    "84.25",
    "84.25 in",
    "84 1/4''",
    "7' 0 1/4\"",
    "7'-0 1/4\"",
    "7' 0 1/4",
    "7'0.25\"",
    "7 ft 0.25 in",
    "7ft 1/4in",
    "7 FEET 0.25 INCHES",
    "2139.95 mm",
    "2139,95mm",
    "213.995 cm",
    "2.13995 m",
    "84¼″",
    "84 ¼ in",
    "7′ 0¼″",
    "7’ 0 ¼”",
    "84 1⁄4 in",
    "84\N{NO-BREAK SPACE}1/4 in",
    "  +84 1/4 in ",
    "84 2/8 in",
    "8.425e1 in",
    "2.3402777777777777777777777 yd",
]


@pytest.mark.parametrize("text", SAME)
def test_every_writing_of_a_length_is_the_same_float(text: str) -> None:
    assert parse_length(text, units=Units.INCH) == 84.25


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("0", 0.0),
        ("-1/8 in", -0.125),
        ("\N{MINUS SIGN}1 1/2 in", -1.5),
        ("-7' 0 1/4\"", -84.25),
        ("½", 0.5),
        ("15/16 in", 0.9375),
        ("1 5/16 in", 1.3125),
        ("11/16", 0.6875),
        ("1/3 in", 1 / 3),
        (".5", 0.5),
        ("5. in", 5.0),
        ("6'", 72.0),
        ("0,125 in", 0.125),
        ("0 m", 0.0),
    ],
)
def test_other_lengths(text: str, inches: float) -> None:
    assert parse_length(text, units=Units.INCH) == inches


def test_a_bare_number_is_in_the_units_of_the_job() -> None:
    assert parse_length("850", units=Units.MM) == 850 / 25.4
    assert parse_length(850, units=Units.MM) == 850 / 25.4
    assert parse_length(33.25, units=Units.INCH) == 33.25
    assert parse_length("33 1/4 in", units=Units.MM) == 33.25


def test_a_bare_float_in_millimetres_is_the_decimal_that_was_written() -> None:
    # 2139.95 has no exact float; 2139.95 / 25.4 in floats may be off by one in the last place
    assert parse_length(2139.95, units=Units.MM) == 84.25


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "in",
        "5 t*Np",
        "5 m°",
        "33 ib",
        "nan",
        "inf",
        "-inf",
        "1 2 3",
        "84 -1/4",
        "84 - 1/4",
        "--1",
        "+-1",
        "9**9**9",
        "5 kg",
        "5 m**2",
        "5 min",
        "٣ in",
        "0x10",
        "1_000",
        "1/2/3",
        "'",
        '"',
        "7''6",
        "5 m; import os",
        "5 __import__",
        "5 (in)",
        "1 in + 2 in",
        "\x00",
        "84 1/4 in in",
        "1e in",
    ],
)
def test_nonsense_is_refused_with_what_would_be_right(text: str) -> None:
    with pytest.raises(QuantityError, match=r"^a length, as '84 1/4 in'"):
        parse_length(text, units=Units.INCH)


@pytest.mark.parametrize(
    ("value", "right"),
    [
        ("77/0 in", "a fraction whose lower number isn't 0"),
        ("84 1/0", "a fraction whose lower number isn't 0"),
        ("84 5/4 in", "a whole number and a fraction less than 1"),
        # a space that was lost: 13/4 would be 3 1/4, nearly twice what was meant
        ("84.5 1/4 in", "a whole number and a fraction less than 1"),
        ("7' 13\"", "whole feet and inches less than 12"),
        ("7.5' 3\"", "whole feet and inches less than 12"),
        ("1e400", "a value that can be"),
        ("1e99999999999999999999 in", "a value that can be"),
        ("1,250 mm", "a number that reads one way: 1250 or 1.250"),
        ("9" * 40, "a value that can be"),
        ("1" * 10_000_000, "at most 64 characters"),
        (10**500, "a finite length"),
        (float("nan"), "a finite length"),
        (float("inf"), "a finite length"),
        (1e400, "a finite length"),
        (True, "a length, as"),
        (None, "a length, as"),
        (["1 in"], "a length, as"),
        ("1e999 yd", "a value that can be"),
    ],
)
def test_the_reason_is_named(value: object, right: str) -> None:
    with pytest.raises(QuantityError, match=f"^{right}"):
        parse_length(value, units=Units.INCH)


@pytest.mark.parametrize(
    ("text", "likely"),
    [
        ("13/4 in", "1 3/4 in"),
        ("251/8 in", "25 1/8 in"),
        ("231/2 in", "23 1/2 in"),
        ("1115/16", "11 15/16"),
        ('101/2"', '10 1/2"'),
        ("7' 13/4\"", "1 3/4"),
        ("5/4 in", "1 1/4 in"),
        ("337/4 in", "84 1/4 in"),  # no place for the space
        ("4/4", "1"),
    ],
)
def test_a_lost_space_is_asked_about(text: str, likely: str) -> None:
    # 13/4 would be 3 1/4, nearly twice the 1 3/4 that was meant
    with pytest.raises(QuantityError) as refused:
        parse_length(text, units=Units.INCH)
    assert str(refused.value) == f"a fraction less than 1; did you mean {likely}?"


# Factors as printed in NIST SP 811 (2008), appendix B.9, rounded there to 7 digits.
@pytest.mark.parametrize(
    ("text", "dimension", "value", "digits"),
    [
        ("0.3048 m", Dimension.LENGTH, 12.0, 1e-12),  # foot
        ("4.448222 N", Dimension.FORCE, 1.0, 1e-7),  # pound-force
        ("4.448222 kN", Dimension.FORCE, 1000.0, 1e-4),  # kip
        ("0.45359237 kg", Dimension.FORCE, 1.0, 1e-12),  # pound
        ("47.88026 Pa", Dimension.PRESSURE, 1.0, 1e-7),  # pound-force per square foot
        ("6.894757 kPa", Dimension.STRESS, 1.0, 1e-7),  # pound-force per square inch
        ("6.894757 MPa", Dimension.STRESS, 1000.0, 1e-4),
        ("0.1751268 N/mm", Dimension.RATE, 1.0, 1e-6),  # pound-force per inch, 175.1268 N/m
        ("4.882428 kg/m2", Dimension.PRESSURE, 1.0, 1e-7),  # pound per square foot
    ],
)
def test_factors_against_nist_sp_811(
    text: str, dimension: Dimension, value: float, digits: float
) -> None:
    read = (
        parse_length(text, units=Units.INCH)
        if dimension is Dimension.LENGTH
        else parse_quantity(text, dimension)
    )
    assert read == pytest.approx(value, abs=digits)


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("625 lb", Dimension.FORCE, 625.0),
        ("625 lbs", Dimension.FORCE, 625.0),
        ("625 LB", Dimension.FORCE, 625.0),
        ("625 lbf", Dimension.FORCE, 625.0),
        ("1.5 kip", Dimension.FORCE, 1500.0),
        ("12 oz", Dimension.FORCE, 0.75),
        ("40 psf", Dimension.PRESSURE, 40.0),
        ("40 lb/ft2", Dimension.PRESSURE, 40.0),
        ("1 psi", Dimension.PRESSURE, 144.0),
        ("405 psi", Dimension.STRESS, 405.0),
        ("135 lb/in", Dimension.RATE, 135.0),
        ("120 plf", Dimension.RATE, 10.0),
        ("110", Dimension.ANGLE, 110.0),
        ("110°", Dimension.ANGLE, 110.0),
        ("90 deg", Dimension.ANGLE, 90.0),
        ("1.5707963267948966 rad", Dimension.ANGLE, 90.0),
        ("70 degF", Dimension.TEMPERATURE, 70.0),
        ("100 °C", Dimension.TEMPERATURE, 212.0),
        ("-40 C", Dimension.TEMPERATURE, -40.0),
        ("-10 degC", Dimension.TEMPERATURE, 14.0),
        ("3", Dimension.COUNT, 3.0),
        ("1.25", Dimension.PLAIN, 1.25),
        ("1,25", Dimension.PLAIN, 1.25),
        ("0", Dimension.FORCE, 0.0),
        (0, Dimension.FORCE, 0.0),
        (3, Dimension.COUNT, 3.0),
        (0.5, Dimension.PLAIN, 0.5),
    ],
)
def test_other_quantities(text: object, dimension: Dimension, value: float) -> None:
    assert parse_quantity(text, dimension) == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize("dimension", list(Dimension))
@pytest.mark.parametrize(
    "text", ["", "nan", "inf lb", "1e400 lb", "5 parsec", "5 kg m", "x", "1/0", "5 lb lb"]
)
def test_no_dimension_takes_nonsense(text: str, dimension: Dimension) -> None:
    if text == "5 parsec" and dimension is Dimension.LENGTH:
        text = "5 parsecc"
    with pytest.raises(QuantityError):
        parse_quantity(text, dimension)


@pytest.mark.parametrize(
    ("value", "dimension", "right"),
    [
        (540, Dimension.FORCE, "a weight or force with its unit"),
        ("540", Dimension.FORCE, "a weight or force with its unit"),
        ("5 m", Dimension.FORCE, "a weight or force with its unit"),
        (40.0, Dimension.PRESSURE, "a load on an area with its unit"),
        ("70", Dimension.TEMPERATURE, "a temperature with its unit"),
        (0, Dimension.TEMPERATURE, "a temperature with its unit"),
        ("3.5", Dimension.COUNT, "a whole number"),
        (3.5, Dimension.COUNT, "a whole number"),
        ("3 in", Dimension.PLAIN, "a number without a unit"),
        (True, Dimension.COUNT, "a whole number"),
        (math.nan, Dimension.PLAIN, "a finite value"),
    ],
)
def test_a_quantity_says_what_would_be_right(
    value: object, dimension: Dimension, right: str
) -> None:
    with pytest.raises(QuantityError, match=f"^{right}"):
        parse_quantity(value, dimension)


def test_pint_quantities_are_taken_at_the_edge() -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry(cache_folder=":auto:")
    assert parse_length(registry.Quantity(2, "foot"), units=Units.MM) == pytest.approx(24.0)
    assert parse_quantity(registry.Quantity(625, "pound"), Dimension.FORCE) == 625.0
    assert parse_quantity(registry.Quantity(1, "kN"), Dimension.FORCE) == pytest.approx(
        224.809, abs=5e-4
    )
    with pytest.raises(QuantityError, match=r"^a length"):
        parse_length(registry.Quantity(2, "kg"), units=Units.INCH)
    with pytest.raises(QuantityError, match=r"^a finite value"):
        parse_length(registry.Quantity(math.nan, "foot"), units=Units.INCH)


@pytest.mark.parametrize("unit", ["mm", "cm", "m", "ft", "in"])
def test_our_factors_agree_with_pint(unit: str) -> None:
    quantity = pint.UnitRegistry(cache_folder=":auto:").Quantity(1.0, unit).to("inch")
    assert parse_length(f"1 {unit}", units=Units.INCH) == pytest.approx(
        quantity.magnitude, rel=1e-15
    )


def test_pint_is_loaded_only_for_a_unit_that_is_not_ours() -> None:
    code = (
        "import sys; from bracecalc.text.lengths import *; I = Units.INCH\n"
        "for text in ('84 1/4 in', '7 ft 0.25 in', '2140 mm', '84¼″'):\n"
        "    parse_length(text, units=I)\n"
        "parse_quantity('283.5 kg', Dimension.FORCE)\n"
        "parse_quantity('1.9 kPa', Dimension.PRESSURE)\n"
        "assert 'pint' not in sys.modules\n"
        "parse_length('1 yard', units=I); assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)


@pytest.mark.parametrize(
    ("value", "towards", "text"),
    [
        (84.25, Rounding.NEAREST, "84 1/4 in"),
        (33.26, Rounding.NEAREST, "33 1/4 in"),
        (33.26, Rounding.UP, "33 5/16 in"),
        (33.26, Rounding.DOWN, "33 1/4 in"),
        (33.25 + 1e-12, Rounding.UP, "33 1/4 in"),
        (33.25 - 1e-12, Rounding.DOWN, "33 1/4 in"),
        (0.5, Rounding.NEAREST, "1/2 in"),
        (-0.125, Rounding.NEAREST, "-1/8 in"),
        (-1.5, Rounding.NEAREST, "-1 1/2 in"),
        (-0.01, Rounding.UP, "0 in"),
        (-0.01, Rounding.DOWN, "-1/16 in"),
        (-0.0, Rounding.NEAREST, "0 in"),
        (35.99, Rounding.NEAREST, "36 in"),
    ],
)
def test_inches_are_written_as_fractions(value: float, towards: Rounding, text: str) -> None:
    assert format_length(value, units=Units.INCH, towards=towards) == text


@pytest.mark.parametrize(
    ("value", "grid", "towards", "text"),
    [
        (84.25, 1 / 16, Rounding.NEAREST, "2140 mm"),
        (84.25, 1 / 16, Rounding.DOWN, "2139 mm"),
        (84.25, 1 / 32, Rounding.DOWN, "2139.5 mm"),
        (84.25, 1 / 32, Rounding.UP, "2140 mm"),
        (850 / 25.4, 1 / 16, Rounding.UP, "850 mm"),
        (-0.01, 1 / 16, Rounding.NEAREST, "0 mm"),
        (-1.0, 1 / 32, Rounding.UP, "-25 mm"),
    ],
)
def test_millimetres_are_whole_or_halves(
    value: float, grid: float, towards: Rounding, text: str
) -> None:
    assert format_length(value, units=Units.MM, grid=grid, towards=towards) == text


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_length_that_is_not_finite_is_never_written(value: float) -> None:
    with pytest.raises(ValueError, match="must be finite"):
        format_length(value)


@pytest.mark.parametrize("grid", [0.0, -1.0, math.nan, math.inf])
def test_a_grid_is_more_than_nothing(grid: float) -> None:
    with pytest.raises(ValueError, match="grid must be"):
        format_length(1.0, grid=grid)
