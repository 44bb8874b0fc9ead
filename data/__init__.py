"""Reference tables and demo jobs, shipped with the program."""

from __future__ import annotations

from pathlib import Path


def demo_path(name: str) -> Path:
    """Return the path of a demo job of the invented Quillet Yard apartments.

    >>> demo_path("3b-kitchen.toml").name
    '3b-kitchen.toml'
    """
    return Path(__file__).parent / "demo" / name
