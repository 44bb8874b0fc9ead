"""What can be measured, and the spellings of its units with their exact factors."""

from __future__ import annotations

from enum import Enum

from bracecalc.errors import BraceError

Ratio = tuple[int, int]

LENGTH_WANTED = """a length, as '84 1/4 in', '7 ft 0.25 in' or '2140 mm'"""


class QuantityError(BraceError):
    """A value that can't be read. Its text says what would be right."""


class Dimension(Enum):
    """What a value is; each with the unit that the planner works in and what to write."""

    LENGTH = ("inch", LENGTH_WANTED)
    FORCE = ("lbf", "a weight or force with its unit, as '540 lb', '245 kg' or '2400 N'")
    PRESSURE = ("lbf/ft^2", "a load on an area with its unit, as '40 psf' or '1.9 kPa'")
    STRESS = ("psi", "a stress with its unit, as '405 psi' or '2.8 MPa'")
    RATE = ("lbf/inch", "a force per length with its unit, as '135 lb/in' or '24 N/mm'")
    ANGLE = ("degree", "an angle, as '110 deg'")
    TEMPERATURE = ("degF", "a temperature with its unit, as '70 degF' or '21 degC'")
    COUNT = ("", "a whole number, as 3")
    PLAIN = ("", "a number without a unit, as 1.5")

    def __init__(self, unit: str, wanted: str) -> None:
        self.unit = unit
        self.wanted = wanted


# Exact by definition: 1 in = 25.4 mm; 1 lb = 0.45359237 kg; standard gravity 9.80665 m/s2
# (NIST SP 811, appendix B). A weight in kg or lb is the force that gravity makes of it.
_MM: Ratio = (5, 127)
_NEWTON: Ratio = (10**13, 44482216152605)
_KILOGRAM: Ratio = (10**8, 45359237)


def times(left: Ratio, right: Ratio) -> Ratio:
    """Return the product of two ratios."""
    return left[0] * right[0], left[1] * right[1]


def _over(left: Ratio, right: Ratio) -> Ratio:
    return left[0] * right[1], left[1] * right[0]


_SQUARE_FOOT_PER_M2: Ratio = times((1000, 12), times(_MM, times((1000, 12), _MM)))
_SQUARE_INCH_PER_MM2: Ratio = times(_MM, _MM)


def _spellings(table: dict[str, Ratio]) -> dict[str, Ratio]:
    """Spread ``"a|b": factor`` over its spellings."""
    return {name: factor for names, factor in table.items() for name in names.split("|")}


KNOWN: dict[Dimension, dict[str, Ratio]] = {
    Dimension.LENGTH: _spellings(
        {
            "\"|''|in|in.|inch|inches": (1, 1),
            "'|ft|ft.|foot|feet": (12, 1),
            "mm|millimetre|millimetres|millimeter|millimeters": _MM,
            "cm|centimetre|centimetres|centimeter|centimeters": times((10, 1), _MM),
            "m|metre|metres|meter|meters": times((1000, 1), _MM),
        }
    ),
    Dimension.FORCE: _spellings(
        {
            "lb|lbs|lb.|lbs.|lbf|pound|pounds": (1, 1),
            "kip|kips": (1000, 1),
            "kg|kgs|kgf|kilogram|kilograms": _KILOGRAM,
            "N|newton|newtons": _NEWTON,
            "kN": times((1000, 1), _NEWTON),
        }
    ),
    Dimension.PRESSURE: _spellings(
        {
            "psf|lb/ft2|lb/ft^2|lbf/ft2|lbf/ft^2|lb/sq ft": (1, 1),
            "psi": (144, 1),
            "Pa|N/m2|N/m^2": _over(_NEWTON, _SQUARE_FOOT_PER_M2),
            "kPa|kN/m2|kN/m^2": _over(times((1000, 1), _NEWTON), _SQUARE_FOOT_PER_M2),
            "kg/m2|kg/m^2": _over(_KILOGRAM, _SQUARE_FOOT_PER_M2),
        }
    ),
    Dimension.STRESS: _spellings(
        {
            "psi|lb/in2|lb/in^2": (1, 1),
            "ksi": (1000, 1),
            "kPa": _over(times((1, 1000), _NEWTON), _SQUARE_INCH_PER_MM2),
            "MPa|N/mm2|N/mm^2": _over(_NEWTON, _SQUARE_INCH_PER_MM2),
        }
    ),
    Dimension.RATE: _spellings(
        {
            "lb/in|lbf/in|lb/in.|lbf/inch": (1, 1),
            "lb/ft|lbf/ft|plf": (1, 12),
            "N/mm|kN/m": _over(_NEWTON, _MM),
        }
    ),
    Dimension.ANGLE: _spellings({"deg|degree|degrees|\N{DEGREE SIGN}": (1, 1)}),
    Dimension.TEMPERATURE: {},
    Dimension.COUNT: {},
    Dimension.PLAIN: {},
}

FAHRENHEIT = frozenset(("f", "degf", "\N{DEGREE SIGN}f", "fahrenheit"))
CELSIUS = frozenset(("c", "degc", "\N{DEGREE SIGN}c", "celsius"))
BARE_UNIT = {Dimension.ANGLE: "deg", Dimension.COUNT: "", Dimension.PLAIN: ""}
WEIGHT_STANDS_IN = {
    Dimension.FORCE: "lb",
    Dimension.PRESSURE: "lb/ft^2",
    Dimension.RATE: "lb/inch",
}
