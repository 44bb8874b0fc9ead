"""What a formula says of itself: its equation, source and unit, as data beside it.

    @formula(equation="e_i = z_top - H - z_i", source="geometry", unit="in")
    def leg_extension(*, top: float, height: float, spot: float) -> float: ...

The shown work and the pages are made from them.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple, TypeVar

Function = TypeVar("Function", bound=Callable[..., Any])


class Formula(NamedTuple):
    """The equation in the symbols of its source, the source, and the unit of the result."""

    equation: str = ""
    source: str = ""
    unit: str = ""  # empty for a number without one


_KNOWN: dict[Callable[..., Any], Formula] = {}


def formula(*, equation: str, source: str, unit: str = "") -> Callable[[Function], Function]:
    """Return a decorator that keeps what a formula says of itself, and leaves it as it is.

    Args:
        equation: in the symbols of the source.
        source: document and clause, statics, geometry; "common practice" or "from memory".
        unit: of the result, or of its first field.
    """

    def keep(function: Function) -> Function:
        _KNOWN[function] = Formula(equation, source, unit)
        return function

    return keep


def said_of(function: Callable[..., Any]) -> Formula:
    """Return what a formula says of itself; nothing of what is none."""
    return _KNOWN.get(function, Formula())


def formulas() -> dict[Callable[..., Any], Formula]:
    """Return every formula of the modules that are loaded."""
    return dict(_KNOWN)
