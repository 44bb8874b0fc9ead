"""Findings that several rooms raise, each code and its wording in one place."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import lru_cache

from bracecalc.records.conversions import N_MM2_PER_PSI, NEWTONS_PER_LBF
from bracecalc.records.job import Job, Units
from bracecalc.records.plan import Finding, Severity
from bracecalc.text.lengths import Rounding, format_length
from bracecalc.text.messages import say


def fails(code: str, text: str, remedy: str = "") -> Finding:
    """Return a finding that makes the plan fail."""
    return Finding(code=code, severity=Severity.FAILS, text=text, remedy=remedy)


def warns(code: str, text: str, remedy: str = "") -> Finding:
    """Return a finding that the reader must weigh."""
    return Finding(code=code, severity=Severity.WARNS, text=text, remedy=remedy)


def notes(code: str, text: str, remedy: str = "") -> Finding:
    """Return a finding that only informs."""
    return Finding(code=code, severity=Severity.NOTES, text=text, remedy=remedy)


def joined(parts: Sequence[str]) -> str:
    """Return parts as people list them.

    >>> joined(("foam", "air", "lath")), joined(("foam",))
    ('foam, air and lath', 'foam')
    """
    return " and ".join(part for part in (", ".join(parts[:-1]), *parts[-1:]) if part)


def used(utilisation: float) -> str:
    """Return a utilisation as a percentage, the next whole one up.

    >>> used(0.835), used(1.004)
    ('84%', '101%')
    """
    return f"{math.ceil(utilisation * 100.0 - 1e-9)}%"


@lru_cache(maxsize=4096)
def _text(value: float, units: Units, grid: float, towards: Rounding) -> str:
    """Return a length in words: niches of one building share most of theirs."""
    return format_length(value, units=units, grid=grid, towards=towards)


class Lengths:
    """Lengths and forces of a job as its people read them, each rounded the safe way."""

    __slots__ = ("_english", "_grid", "_units")

    def __init__(self, job: Job) -> None:
        self._english = job.words
        self._units = job.units
        self._grid = job.rules.rounding

    def say(self, key: str, **values: object) -> str:
        """Return a sentence of the message table in the job's English."""
        return say(self._english, key, **values)

    def row(self, key: str, **values: object) -> tuple[str, ...]:
        """Return the headings of a table: the parts of a sentence between bars."""
        return tuple(self.say(key, **values).split(" | "))

    def near(self, value: float) -> str:
        """Return the nearest mark: for a place."""
        return _text(value, self._units, self._grid, Rounding.NEAREST)

    def up(self, value: float) -> str:
        """Return the next mark up: for what must be at least so much."""
        return _text(value, self._units, self._grid, Rounding.UP)

    def down(self, value: float) -> str:
        """Return the next mark down: for a margin, or what is at most so much."""
        return _text(value, self._units, self._grid, Rounding.DOWN)

    def force_up(self, value: float) -> str:
        """Return the next whole unit up: for what must be held, lbf or N."""
        return self._force(math.ceil, value)

    def force_down(self, value: float) -> str:
        """Return the next whole unit down: for what is held."""
        return self._force(math.floor, value)

    def pressure_up(self, value: float) -> str:
        """Return a pressure from psi, the next whole unit up, or the next 0.1 N/mm2."""
        if self._units is Units.MM:
            return f"{math.ceil(value * N_MM2_PER_PSI * 10.0 - 1e-9) / 10.0:.1f} N/mm2"
        return f"{math.ceil(value - 1e-9)} psi"

    def _force(self, towards: Callable[[float], int], value: float) -> str:
        metric = self._units is Units.MM
        shown = value * NEWTONS_PER_LBF if metric else value
        nearest = round(shown)
        whole = nearest if abs(shown - nearest) < 1e-6 else towards(shown)
        return f"{whole} {'N' if metric else 'lbf'}"
