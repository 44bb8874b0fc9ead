"""Findings that several rooms raise, each code and its wording in one place."""

from __future__ import annotations

from collections.abc import Callable

from bracecalc.quantities import Rounding, format_length
from bracecalc.records.job import Job
from bracecalc.records.plan import Finding, Severity

Show = Callable[..., str]


def fails(code: str, text: str, remedy: str = "") -> Finding:
    """Return a finding that makes the plan fail."""
    return Finding(code=code, severity=Severity.FAILS, text=text, remedy=remedy)


def warns(code: str, text: str, remedy: str = "") -> Finding:
    """Return a finding that the reader must weigh."""
    return Finding(code=code, severity=Severity.WARNS, text=text, remedy=remedy)


def notes(code: str, text: str, remedy: str = "") -> Finding:
    """Return a finding that only informs."""
    return Finding(code=code, severity=Severity.NOTES, text=text, remedy=remedy)


class Lengths:
    """Lengths of one job as its people read them: its units, its grid, rounded the safe way."""

    __slots__ = ("_grid", "_units")

    def __init__(self, job: Job) -> None:
        self._units = job.units
        self._grid = job.rules.rounding

    def near(self, value: float) -> str:
        """Return the nearest mark: for a place."""
        return format_length(value, units=self._units, grid=self._grid)

    def up(self, value: float) -> str:
        """Return the next mark up: for what must be at least so much."""
        return format_length(value, units=self._units, grid=self._grid, towards=Rounding.UP)

    def down(self, value: float) -> str:
        """Return the next mark down: for a margin, or what is at most so much."""
        return format_length(value, units=self._units, grid=self._grid, towards=Rounding.DOWN)
