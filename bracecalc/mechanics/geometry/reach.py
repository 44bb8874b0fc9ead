"""Heights that the levelling legs can reach, with the unit level."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from bracecalc.mechanics.formula import formula
from bracecalc.mechanics.guards import finite


def _each_finite(name: str, values: Sequence[float]) -> None:
    if not all(map(isfinite, values)):
        finite(**{f"{name} {index}": value for index, value in enumerate(values)})


@formula(
    equation="e_i = z_top - H - z_i",
    source="geometry of a level unit on a floor that is out of level.",
    unit="in",
)
def leg_extension(*, top: float, height: float, spot: float) -> float:
    """Return how far a leg is screwed out below the rollers.

    Args:
        top: height of the top of the housing above the datum, z_top, in.
        height: of the housing on its rollers with the legs in, H, in.
        spot: height of the floor at the leg above the datum, z_i, in.

    Returns:
        Extension of the leg, e_i, in. Negative where the leg can't let the top down so far.

    Raises:
        ValueError: if a value is not finite.

    >>> leg_extension(top=81.625, height=80.625, spot=0.25)
    0.75
    """
    finite(top=top, height=height, spot=spot)
    return top - height - spot


@formula(
    equation="low = max(z_i) + H + e_lo",
    source="geometry; just off the rollers, common practice.",
    unit="in",
)
def lowest_reach(*, spots: Sequence[float], height: float, leg_least: float) -> float:
    """Return the lowest top at which every leg carries.

    Args:
        spots: heights of the floor at the legs above the datum, z_i, in; one for each leg.
        height: of the housing on its rollers with the legs in, H, in.
        leg_least: least extension at which a leg carries, e_lo, in.

    Returns:
        Height of the top above the datum, in.

    Raises:
        ValueError: if a value is not finite or no spot is given.

    >>> lowest_reach(spots=(0, 0.125, 0, 0.25), height=80.625, leg_least=0.125)
    81.0
    """
    finite(height=height, leg_least=leg_least)
    _each_finite("spot", spots)
    return max(spots) + height + leg_least


@formula(
    equation="low = z_path + H_over + roll_in",
    source="geometry.",
    unit="in",
)
def rolling_reach(*, path_high: float, height_overall: float, roll_in: float) -> float:
    """Return the lowest restraint under which the unit still rolls in.

    Args:
        path_high: highest floor on the whole rolling path above the datum, z_path, in.
        height_overall: highest point of the whole unit over the floor it stands on, H_over, in.
        roll_in: clearance wanted while rolling, in.

    Returns:
        Height of the restraint's underside above the datum, in.

    Raises:
        ValueError: if a value is not finite.

    >>> rolling_reach(path_high=0.25, height_overall=80.875, roll_in=0.125)
    81.25
    """
    finite(path_high=path_high, height_overall=height_overall, roll_in=roll_in)
    return path_high + height_overall + roll_in


@formula(
    equation="high = min(z_i + T_i) + H",
    source="geometry.",
    unit="in",
)
def highest_reach(*, spots: Sequence[float], travels: Sequence[float], height: float) -> float:
    """Return the highest top that no leg has to pass its travel for.

    Args:
        spots: heights of the floor at the legs above the datum, z_i, in; one for each leg.
        travels: the most that each leg comes out, T_i, in; in the same order.
        height: of the housing on its rollers with the legs in, H, in.

    Returns:
        Height of the top above the datum, in.

    Raises:
        ValueError: if a value is not finite, or spots and travels differ in number.

    >>> highest_reach(spots=(0, 0.125, 0, 0.25), travels=(1.375,) * 4, height=80.625)
    82.0
    """
    finite(height=height)
    _each_finite("spot", spots)
    _each_finite("travel", travels)
    return min(z + t for z, t in zip(spots, travels, strict=True)) + height


@formula(
    equation="turns = e_i / pitch",
    source="geometry.",
)
def leg_turns(*, extension: float, pitch: float) -> float:
    """Return the turns that bring a leg out by an extension.

    Args:
        extension: e_i, in.
        pitch: of the leg's thread, in a turn. More than 0.

    Returns:
        Turns, dimensionless.

    Raises:
        ValueError: if a value is not finite or the pitch is not more than 0.

    >>> leg_turns(extension=0.75, pitch=0.0625)
    12.0
    """
    finite(extension=extension, pitch=pitch)
    if pitch <= 0.0:
        raise ValueError(f"pitch must be more than 0 in, got {pitch!r}")
    return extension / pitch
