"""What a person most likely meant by a value that can't be: another unit, a decimal point."""

from __future__ import annotations

import re

from bracecalc.records.job import Units
from bracecalc.records.keys import Within
from bracecalc.text.lengths import Dimension, QuantityError, parse_length, parse_quantity

_TRIED = {
    Dimension.LENGTH: ("mm", "in", "cm", "ft", "m"),
    Dimension.FORCE: ("lb", "kg", "N"),
}
_AMOUNT_AND_UNIT = r"(?P<amount>.*[0-9\u00bc-\u00be\u2150-\u215e])(?P<unit>[^0-9]*)"


def likely(value: object, dimension: Dimension, units: Units, within: Within) -> str:
    """Return how a value would fit in another unit, as a question; empty where it wouldn't.

    Args:
        value: as read, text or a number.
        dimension: what it was read as.
        units: the system of a number without a unit.
        within: what the value should have been.

    >>> likely(845, Dimension.LENGTH, Units.INCH, Within(8, 120))
    'did you mean 845 mm? units = "mm" is missing'
    >>> likely("33 1/4", Dimension.LENGTH, Units.MM, Within(8, 120))
    'did you mean 33 1/4 in? units = "mm" is set'
    >>> likely("5400 lb", Dimension.FORCE, Units.INCH, Within(10, 5000, usual=(100, 1500)))
    'did you mean 5400 N?'
    >>> likely("845 in", Dimension.LENGTH, Units.INCH, Within(8, 12))
    ''
    """
    found = re.fullmatch(_AMOUNT_AND_UNIT, value if isinstance(value, str) else repr(value))
    if found is None:
        return ""
    amount = found["amount"].strip()
    fitting = [
        (not within.is_usual(read), f"{amount} {unit}", unit)
        for unit in _TRIED.get(dimension, ())
        if (read := _read(f"{amount} {unit}", dimension)) is not None and within.holds(read)
    ]
    if not fitting:
        return ""
    _, text, unit = min(fitting, key=lambda one: one[0])
    if found["unit"].strip() or unit not in ("mm", "in"):
        return f"did you mean {text}?"
    if units is Units.MM:
        return f'did you mean {text}? units = "mm" is set'
    return f'did you mean {text}? units = "mm" is missing'


def _read(text: str, dimension: Dimension) -> float | None:
    try:
        if dimension is Dimension.LENGTH:
            return parse_length(text, units=Units.INCH)
        return parse_quantity(text, dimension)
    except QuantityError:
        return None
