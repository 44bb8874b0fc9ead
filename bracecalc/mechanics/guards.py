"""Refusals that the formulas share: a NaN or an infinity never passes as a number."""

from __future__ import annotations

from math import inf, isfinite


def finite(**values: float) -> None:
    """Refuse what is no number.

    Args:
        values: each by the name that the message shall give it.

    Raises:
        ValueError: if a value is NaN or infinite.

    >>> finite(height=1.0)
    """
    for name, value in values.items():
        if not isfinite(value):
            raise ValueError(f"{name} must be finite, got {value!r}")


def positive(**values: float) -> None:
    """Refuse what is not more than 0 and finite.

    Args:
        values: each by the name that the message shall give it.

    Raises:
        ValueError: if a value is not finite or not more than 0.

    >>> positive(diameter=0.19)
    """
    for name, value in values.items():
        if not 0.0 < value < inf:
            raise ValueError(f"{name} must be finite and more than 0, got {value!r}")


def not_negative(**values: float) -> None:
    """Refuse what is below 0 or not finite.

    Args:
        values: each by the name that the message shall give it.

    Raises:
        ValueError: if a value is not finite or below 0.

    >>> not_negative(gap=0.0)
    """
    for name, value in values.items():
        if not 0.0 <= value < inf:
            raise ValueError(f"{name} must be finite and not below 0, got {value!r}")


def angle_in_range(angle: float) -> None:
    """Refuse an angle outside 0 to 90 degrees.

    Args:
        angle: degrees.

    Raises:
        ValueError: if it is NaN or outside 0 to 90.

    >>> angle_in_range(90.0)
    """
    if not 0.0 <= angle <= 90.0:
        raise ValueError(f"angle must be 0 to 90 degrees, got {angle!r}")
