"""What a value at a key may be, in words, and the refusal of what can't be."""

from __future__ import annotations

from collections.abc import Callable

from bracecalc.records.job import Units
from bracecalc.records.keys import Key, Kind, Within
from bracecalc.text.lengths import Dimension, QuantityError

DIMENSIONS = {
    **dict.fromkeys(
        (Kind.LENGTH, Kind.LENGTHS, Kind.SPOTS, Kind.RANGE, Kind.PAIR), Dimension.LENGTH
    ),
    Kind.FORCE: Dimension.FORCE,
    Kind.PRESSURE: Dimension.PRESSURE,
    Kind.RATE: Dimension.RATE,
    Kind.ANGLE: Dimension.ANGLE,
    Kind.TEMPERATURE: Dimension.TEMPERATURE,
    Kind.COUNT: Dimension.COUNT,
    Kind.PLAIN: Dimension.PLAIN,
}
# the unit that a limit is written in, and how many of it are in the planner's
_INCH = {
    Dimension.LENGTH: (" in", 1.0),
    Dimension.FORCE: (" lb", 1.0),
    Dimension.PRESSURE: (" psf", 1.0),
    Dimension.RATE: (" lb/in", 1.0),
    Dimension.ANGLE: (" deg", 1.0),
    Dimension.TEMPERATURE: (" degF", 1.0),
}
_METRIC = {
    **_INCH,
    Dimension.LENGTH: (" mm", 25.4),
    Dimension.FORCE: (" kg", 0.45359237),
    Dimension.PRESSURE: (" kPa", 0.047880259),
    Dimension.RATE: (" N/mm", 0.17512684),
}


def limits_in_words(key: Key, units: Units = Units.INCH) -> str:
    """Return what a value at a key may be, empty where anything may.

    >>> from bracecalc.records.keys import keys_of
    >>> from bracecalc.records.niche import Layer, Niche
    >>> limits_in_words(keys_of(Niche)[0])
    '8 in to 120 in'
    >>> limits_in_words(keys_of(Layer)[1], Units.MM)
    'more than 0 and at most 152.4 mm'
    """
    return within_in_words(key.within, DIMENSIONS.get(key.kind, Dimension.PLAIN), units)


def within_in_words(within: Within, dimension: Dimension, units: Units = Units.INCH) -> str:
    """Return limits in words.

    >>> within_in_words(Within(10, 5000), Dimension.FORCE)
    '10 lb to 5000 lb'
    """
    shown = _shown_in(dimension, units)
    if within.least is not None and within.most is not None:
        return f"{shown(within.least)} to {shown(within.most)}"
    parts = []
    if within.above is not None:
        parts.append(f"more than {shown(within.above)}")
    if within.least is not None:
        parts.append(f"{shown(within.least)} or more")
    if within.most is not None:
        parts.append(f"at most {shown(within.most)}")
    return " and ".join(parts)


def usual_in_words(value: float, key: Key, units: Units = Units.INCH) -> str:
    """Return a value beside what is usual at its key.

    >>> from bracecalc.records.keys import keys_of
    >>> from bracecalc.records.niche import Niche
    >>> usual_in_words(100.0, keys_of(Niche)[0])
    '100 in; usually 18 in to 84 in'
    """
    shown = _shown_in(DIMENSIONS[key.kind], units)
    if key.within.usual is None:
        return shown(value)
    low, high = key.within.usual
    return f"{shown(value)}; usually {shown(low)} to {shown(high)}"


def _shown_in(dimension: Dimension, units: Units) -> Callable[[float], str]:
    """Return how a value of a dimension is written in the units of a job."""
    unit, factor = (_METRIC if units is Units.MM else _INCH).get(dimension, ("", 1.0))

    def shown(value: float) -> str:
        if not value and dimension is not Dimension.TEMPERATURE:
            return "0"
        places = 4 if factor == 1.0 else 1
        return f"{round(value * factor, places):.10g}{unit}"

    return shown


def refuse_outside(
    number: float, within: Within, value: object, *, kind: Kind, what: str, units: Units
) -> None:
    """Refuse a value past its limits, with the reading that would fit.

    Args:
        number: what was read, in the planner's unit.
        within: what it may be.
        value: as written.
        kind: of its key.
        what: what the key is.
        units: of the job.

    Raises:
        QuantityError: naming the limits in the units of the job.
    """
    if within.holds(number):
        return
    from bracecalc.text.slips import likely

    dimension = DIMENSIONS.get(kind, Dimension.PLAIN)
    right = f"{within_in_words(within, dimension, units)} ({what})"
    meant = likely(value, dimension, units, within)
    raise QuantityError(f"{right}; {meant}" if meant else right)
