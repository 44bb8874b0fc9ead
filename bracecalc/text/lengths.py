"""What people write for a length or a load, and the float that the planner works with.

Lengths become inches, weights and forces pounds-force, pressures psf, stresses psi, rates
lbf/in, angles degrees, temperatures degrees Fahrenheit. Reading is exact: integers until the one
last division. Units that aren't known here go to pint, which is imported only then.

>>> parse_length('84 1/4 in', units=Units.INCH)
84.25
>>> parse_length("7 ft 0.25 in", units=Units.INCH)
84.25
>>> parse_length('2139.95 mm', units=Units.INCH)
84.25
>>> format_length(84.25, units=Units.INCH)
'84 1/4 in'
"""

from __future__ import annotations

import math
import re
from functools import lru_cache
from typing import NoReturn

from bracecalc.records.job import Units
from bracecalc.text.marks import Rounding, format_length
from bracecalc.text.units import (
    BARE_UNIT,
    CELSIUS,
    FAHRENHEIT,
    KNOWN,
    LENGTH_WANTED,
    WEIGHT_STANDS_IN,
    Dimension,
    QuantityError,
    Ratio,
    times,
)

__all__ = [
    "Dimension",
    "QuantityError",
    "Rounding",
    "Units",
    "format_length",
    "parse_length",
    "parse_quantity",
]

LONGEST_TEXT = 64  # characters; nothing that a person writes for one value is longer
LARGEST = 1_000_000_000  # in the unit worked in; beyond it a value is a slip, not a measurement
MOST_EXPONENT = 400  # beyond it a float is 0 or infinite

_SAME_SIGN = str.maketrans(
    {
        "\N{MINUS SIGN}": "-",
        "\N{EN DASH}": "-",
        "\N{NON-BREAKING HYPHEN}": "-",
        "\N{FRACTION SLASH}": "/",
        "\N{DIVISION SLASH}": "/",
        "\N{PRIME}": "'",
        "\N{RIGHT SINGLE QUOTATION MARK}": "'",
        "\N{LEFT SINGLE QUOTATION MARK}": "'",
        "\N{DOUBLE PRIME}": '"',
        "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
        "\N{LEFT DOUBLE QUOTATION MARK}": '"',
        "\N{NO-BREAK SPACE}": " ",
        "\N{NARROW NO-BREAK SPACE}": " ",
        "\N{THIN SPACE}": " ",
        "\N{MASCULINE ORDINAL INDICATOR}": "\N{DEGREE SIGN}",
        "\N{MIDDLE DOT}": ".",
        "\N{SUPERSCRIPT TWO}": "2",
    }
)
_WRITTEN_FRACTION = "[\u00bc-\u00be\u2150-\u215e\u2189]"

_NUMBER = r"(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?"
_AMOUNT = rf"[0-9]+ */ *[0-9]+|{_NUMBER}(?:(?: +|-)[0-9]+ */ *[0-9]+)?"
# Patterns of what is seldom written are compiled when they are first needed.
_FEET_AND_INCHES = (
    rf"(?i:(?P<feet>{_AMOUNT}) *(?:'|ft\.?|foot|feet)(?: *- *| *)"
    rf"""(?P<inches>{_AMOUNT}) *(?:"|''|in\.?|inch|inches)?)"""
)
_ONE_AMOUNT = re.compile(rf"(?P<amount>{_AMOUNT}) *(?P<unit>[^0-9\s.,+/-].*)?")
_FRACTION = r"(?P<upper>[0-9]+) */ *(?P<lower>[0-9]+)"
_MIXED = re.compile(rf"(?P<number>{_NUMBER})(?:(?: +|-){_FRACTION})?")
_UNIT_FOR_PINT = r"[^\W\d_]+[0-9]?(?:(?:[ */]|\*\*|\^)+[^\W\d_]*[1-4]?)*"


def parse_length(value: object, *, units: Units) -> float:
    """Return a length in inches from what a person wrote, a number or a pint quantity.

    Args:
        value: text as ``84 1/4 in``, a number (in ``units``), or a quantity with a dimension.
        units: the system of a number without a unit.

    Returns:
        Length, in; the float nearest to what was written.

    Raises:
        QuantityError: if it isn't a finite length.

    >>> parse_length('84\N{VULGAR FRACTION ONE QUARTER}\N{DOUBLE PRIME}', units=Units.INCH)
    84.25
    >>> parse_length(850, units=Units.MM) == 850 / 25.4
    True
    """
    if type(value) is str and len(value) <= LONGEST_TEXT:
        return _length_of_text(value, "mm" if units is Units.MM else "in")
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        if not abs(value) <= LARGEST:  # a NaN compares false
            _refuse(Dimension.LENGTH, f"a finite {LENGTH_WANTED[2:]}")
        if units is Units.INCH:
            return value + 0.0
        return _length_of_text(repr(value), "mm")
    return _other_value(value, Dimension.LENGTH, bare="mm" if units is Units.MM else "in")


def parse_quantity(value: object, dimension: Dimension) -> float:
    """Return a quantity in the planner's unit of its dimension.

    A bare number is taken only where it can mean one thing: an angle in degrees, a count, a plain
    number, and 0 of anything but a temperature. A weight in lb or kg is read as the force it makes.

    Args:
        value: text, a number or a pint quantity.
        dimension: what it must be; its ``unit`` is what comes back.

    Returns:
        The value in ``dimension.unit``; a whole number for a count.

    Raises:
        QuantityError: if it isn't a finite quantity of that dimension.

    >>> parse_quantity('625 lb', Dimension.FORCE)
    625.0
    >>> round(parse_quantity('283.5 kg', Dimension.FORCE), 2)
    625.01
    >>> round(parse_quantity('1.9 kPa', Dimension.PRESSURE), 2)
    39.68
    """
    if type(value) is str and len(value) <= LONGEST_TEXT:
        return _quantity_of_text(value, dimension)
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        if not abs(value) <= LARGEST:
            _refuse(dimension, f"a finite value: {dimension.wanted}")
        bare_zero = value == 0 and dimension is not Dimension.TEMPERATURE
        if dimension not in BARE_UNIT and not bare_zero:
            _refuse(dimension)
        if dimension is Dimension.COUNT and value != int(value):
            _refuse(dimension)
        return value + 0.0
    return _other_value(value, dimension, bare=None)


@lru_cache(maxsize=65536)
def _length_of_text(text: str, bare: str) -> float:
    return _read_text(text, Dimension.LENGTH, bare)


@lru_cache(maxsize=16384)
def _quantity_of_text(text: str, dimension: Dimension) -> float:
    return _read_text(text, dimension, BARE_UNIT.get(dimension))


def _refuse(dimension: Dimension, right: str = "") -> NoReturn:
    raise QuantityError(right if right else dimension.wanted)


def _read_text(text: str, dimension: Dimension, bare: str | None) -> float:
    """Read ``[sign] amount [unit]``; ``bare`` is the unit of a number that has none."""
    plain = _plain_signs(text)
    negative = plain.startswith("-")
    body = plain[1:].lstrip() if plain[:1] in ("-", "+") else plain
    if dimension is Dimension.LENGTH and (found := _feet_marked(body)):
        value = _feet_and_inches(found["feet"], found["inches"])
    else:
        match = _ONE_AMOUNT.fullmatch(body)
        if match is None:
            _refuse(dimension)
        unit = match["unit"]
        amount = _amount(match["amount"], dimension, body[match.end("amount") :])
        value = _in_planner_unit(amount, unit if unit is not None else bare, dimension, negative)
    if abs(value[0]) > LARGEST * value[1]:
        _refuse(dimension, f"a value that can be: {dimension.wanted}")
    if dimension is Dimension.COUNT and value[0] % value[1]:
        _refuse(dimension)
    number = value[0] / value[1]
    return -number if negative and number else number


def _feet_marked(body: str) -> re.Match[str] | None:
    """Return the feet and the inches of a length that has both."""
    if "'" not in body and "f" not in body and "F" not in body:
        return None
    return re.fullmatch(_FEET_AND_INCHES, body)


def _plain_signs(text: str) -> str:
    """Return the text with one sign for each mark: quotes, dashes, spaces, written fractions."""
    if text.isascii():
        return text.strip()
    from unicodedata import normalize

    spread = re.sub(_WRITTEN_FRACTION, lambda found: " " + normalize("NFKC", found[0]), text)
    return spread.translate(_SAME_SIGN).strip()


def _amount(text: str, dimension: Dimension, unit: str = "") -> Ratio:
    """Read ``84``, ``84.25``, ``1/4``, ``84 1/4`` or ``84-1/4`` as a ratio of integers.

    ``unit`` is what stands behind it, for the message.
    """
    parts = _MIXED.fullmatch(text)
    number = None if parts is None else parts["number"]
    if parts is None:
        parts = re.fullmatch(_FRACTION, text)
    if parts is None:
        _refuse(dimension)
    whole = (0, 1) if number is None else _decimal(number, dimension)
    upper, lower = parts["upper"], parts["lower"]
    if upper is None:
        return whole
    top, bottom = int(upper), int(lower)
    if bottom == 0:
        _refuse(dimension, f"a fraction whose lower number isn't 0: {dimension.wanted}")
    if number is None and top >= bottom:
        likely = f"{likely_reading(upper, lower)}{unit}"
        _refuse(dimension, f"a fraction less than 1; did you mean {likely}?")
    if number is not None and (top >= bottom or whole[1] != 1):
        _refuse(dimension, f"a whole number and a fraction less than 1: {dimension.wanted}")
    return whole[0] * bottom + top * whole[1], whole[1] * bottom


def likely_reading(upper: str, lower: str) -> str:
    """Return what a fraction of 1 or more most likely means: one whose space was lost.

    >>> likely_reading("13", "4"), likely_reading("251", "8"), likely_reading("1115", "16")
    ('1 3/4', '25 1/8', '11 15/16')
    >>> likely_reading("5", "4"), likely_reading("8", "4")
    ('1 1/4', '2')
    """
    for cut in range(1, len(upper)):
        whole, part = upper[:cut], upper[cut:]
        if part[0] != "0" and int(whole) and int(part) < int(lower):
            return f"{int(whole)} {part}/{lower}"
    whole_number, rest = divmod(int(upper), int(lower))
    return f"{whole_number} {rest}/{lower}" if rest else f"{whole_number}"


def _decimal(text: str, dimension: Dimension) -> Ratio:
    """Read a decimal number; a comma is a decimal comma unless it could be a thousands mark."""
    mantissa, _, exponent = text.lower().partition("e")
    power = int(exponent) if exponent else 0
    if abs(power) > MOST_EXPONENT:
        _refuse(dimension, f"a value that can be: {dimension.wanted}")
    if "," in mantissa:
        before, _, after = mantissa.partition(",")
        if len(after) == 3 and 1 <= len(before) <= 3 and before.strip("0"):
            either = f"{before}{after} or {before}.{after}"
            _refuse(dimension, f"a number that reads one way: {either}")
        mantissa = f"{before}.{after}"
    before, _, after = mantissa.partition(".")
    top, power = int(before + after), power - len(after)
    return (top * 10**power, 1) if power >= 0 else (top, 10**-power)


def _feet_and_inches(feet_text: str, inch_text: str) -> Ratio:
    feet = _amount(feet_text, Dimension.LENGTH)
    inches = _amount(inch_text, Dimension.LENGTH)
    if feet[0] % feet[1] or inches[0] >= 12 * inches[1]:
        wanted = "whole feet and inches less than 12, as '7 ft 0.25 in'"
        _refuse(Dimension.LENGTH, wanted)
    return 12 * (feet[0] // feet[1]) * inches[1] + inches[0], inches[1]


def _in_planner_unit(
    amount: Ratio, unit: str | None, dimension: Dimension, negative: bool
) -> Ratio:
    """Return the amount times its unit; the sign matters to a temperature alone."""
    if unit is None:
        if amount[0] == 0 and dimension is not Dimension.TEMPERATURE:
            return amount
        _refuse(dimension)
    unit = " ".join(unit.split())
    if dimension is Dimension.TEMPERATURE:
        return _temperature(amount, unit.lower().replace(" ", ""), negative)
    if dimension in (Dimension.COUNT, Dimension.PLAIN):
        if unit:
            _refuse(dimension)
        return amount
    known = KNOWN[dimension]
    factor = known.get(unit)
    if factor is None and dimension is Dimension.LENGTH:
        factor = known.get(unit.lower())
    if factor is None and dimension is Dimension.FORCE and unit.lower() in ("lb", "lbs", "kg"):
        factor = known[unit.lower()]
    if factor is None:
        return _by_pint(amount, unit, dimension)
    return times(amount, factor)


def _temperature(amount: Ratio, unit: str, negative: bool) -> Ratio:
    if unit in FAHRENHEIT:
        return amount
    if unit not in CELSIUS:
        _refuse(Dimension.TEMPERATURE)
    top, bottom = amount
    if negative:  # the caller puts the sign back
        return 9 * top - 160 * bottom, 5 * bottom
    return 9 * top + 160 * bottom, 5 * bottom


@lru_cache(maxsize=1)
def _registry() -> object:
    """Return pint's registry, built once; its definitions are kept in pint's own cache folder."""
    import pint

    return pint.UnitRegistry(cache_folder=":auto:")


def _by_pint(amount: Ratio, unit: str, dimension: Dimension) -> Ratio:
    """Let pint turn a unit that isn't known here into ours; only the unit's text goes to it."""
    if len(unit) > 32 or re.fullmatch(_UNIT_FOR_PINT, unit) is None:
        _refuse(dimension)
    try:
        one = _registry().Quantity(1.0, unit)  # type: ignore[attr-defined]
    except Exception:  # pint raises its own, tokenize's and ValueError for a unit it can't read
        _refuse(dimension)
    factor = _convert(one, dimension)
    top, bottom = factor.as_integer_ratio()
    return amount[0] * top, amount[1] * bottom


def _convert(quantity: object, dimension: Dimension) -> float:
    """Return a pint quantity's magnitude in the planner's unit, finite."""
    targets = [dimension.unit, WEIGHT_STANDS_IN.get(dimension)]
    for target in targets:
        if target is None:
            continue
        try:
            magnitude = float(quantity.to(target).magnitude)  # type: ignore[attr-defined]
        except Exception:  # pint raises its own, TypeError, ValueError and AssertionError
            continue
        if math.isfinite(magnitude) and abs(magnitude) <= LARGEST:
            return magnitude
        _refuse(dimension, f"a finite value: {dimension.wanted}")
    _refuse(dimension)


def _other_value(value: object, dimension: Dimension, bare: str | None) -> float:
    """Read what is neither short text nor a number of Python's own."""
    if isinstance(value, str):
        if len(value) > LONGEST_TEXT:
            _refuse(dimension, f"at most {LONGEST_TEXT} characters: {dimension.wanted}")
        return _read_text(str(value), dimension, bare)
    if hasattr(value, "to") and hasattr(value, "magnitude"):
        return _convert(value, dimension)
    _refuse(dimension)
