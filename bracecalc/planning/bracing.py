"""The core of a plan, as the rooms that build on it pass it on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from bracecalc.planning.restraint import Choice
from bracecalc.records.plan import (
    Demand,
    Finding,
    Leg,
    ReachBand,
    ScrewRow,
    TopSupport,
)
from bracecalc.stack.check import Loaded, StackCheck
from bracecalc.strength.demand import Place


class Bracing(NamedTuple):
    """What is built, what it holds, and what is to be said of it."""

    band: ReachBand
    choice: Choice
    legs: Mapping[str, Leg] | None
    support: TopSupport | None
    demand: Demand
    findings: tuple[Finding, ...]
    place: Place
    check: StackCheck | None = None
    load: Loaded | None = None

    @property
    def screws(self) -> tuple[ScrewRow, ...]:
        """The screws of the boards or of the packers."""
        return () if self.support is None else self.support.screws
