"""The one way in which several values stand in a text.

Between them stands a semicolon. A comma is taken too, where no number can hold it: with a blank
or a letter beside it. A comma between two digits may be a decimal comma, and is never split.
"""

from __future__ import annotations

import re

from bracecalc.text.units import QuantityError

_COMMA = re.compile(r"\s*(?:(?<![0-9]),|,(?![0-9]))\s*")
_INSIDE = re.compile(r"(?<=[0-9]),(?=[0-9])")
_DECIMAL = re.compile(r"[+-]?[0-9]+,[0-9]+")
_METRIC = re.compile(r"[0-9],[0-9]+ *(?:mm|cm|m)\b")


def split_list(text: str) -> list[str]:
    """Return the values of a list, as they are written.

    With a semicolon anywhere, semicolons alone part the values and a comma is a decimal comma.
    Without one, a comma with a blank or a letter beside it parts them; one between two digits is
    a decimal comma in a metric length (``4,8 m``), and is refused elsewhere: ``2139,95`` may be
    one value or two. Every list that people type is read by this: readings, studs, screws,
    layers, lengths in stock.

    Args:
        text: as ``6 3/8; 22 1/4``, ``3 m, 4 m, 4,8 m`` or ``8 ft, 12``.

    Returns:
        The values without blanks around them; what stands empty is kept as an empty text.

    Raises:
        QuantityError: if a comma can be read two ways; its text shows both.

    >>> split_list("6 3/8; 22 1/4"), split_list("2139,95; 2140"), split_list("8 ft, 12")
    (['6 3/8', '22 1/4'], ['2139,95', '2140'], ['8 ft', '12'])
    >>> split_list("3 m, 4 m, 4,8 m"), split_list("0, -, , 1/8")
    (['3 m', '4 m', '4,8 m'], ['0', '-', '', '1/8'])
    """
    if ";" in text:
        return [part.strip() for part in text.split(";")]
    parts = [part.strip() for part in _COMMA.split(text)]
    for part in parts:
        if len(_INSIDE.findall(part)) > len(_METRIC.findall(part)):
            raise QuantityError(_either(part))
    return parts


def split_names(text: str) -> list[str]:
    """Return names that commas or semicolons part: no name of a column holds one.

    >>> split_names("building, floor;type")
    ['building', 'floor', 'type']
    """
    return [part for each in text.split(";") for name in each.split(",") if (part := name.strip())]


def _either(part: str) -> str:
    """Say how a value with a comma between digits is written so that it reads one way."""
    between = f"a semicolon between values, as '{_INSIDE.sub('; ', part)}'"
    if _DECIMAL.fullmatch(part):
        return f"{between}; or a point in a decimal, as '{part.replace(',', '.')}'"
    return between
