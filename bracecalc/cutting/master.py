"""The linear program over cutting patterns, solved by column generation with HiGHS.

The only room that imports highspy. Nothing here is believed: patterns, costs and bounds are
worked out anew in integers by model.py and bound.py.
Source: P. C. Gilmore and R. E. Gomory, Operations Research 9 (1961) and 11 (1963).
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from bracecalc.cutting.bound import Rule
from bracecalc.cutting.knapsack import best_fills
from bracecalc.cutting.model import Counts, Model, Pattern, Usage

SCALE = 1 << 20  # weights are the program's dual values times this, rounded down
DUAL, PRIMAL = 1, 4  # the solver's numbers for its simplex methods
TINY = 1e-7  # what a pattern must gain to be worth adding
DEPTH = 16  # times that patterns are sought at one solution of the program


def installed() -> bool:
    """Return whether the solver can be imported, without importing it."""
    from importlib.util import find_spec

    return find_spec("highspy") is not None and find_spec("numpy") is not None


def quiet_solver() -> Any:
    """Return a solver that prints nothing, uses one thread and heeds Ctrl-C."""
    import highspy

    class Quiet(highspy.Highs):
        def enableCallbacks(self) -> None:  # noqa: N802 (the solver's own name)
            # comes first when a solver is made, and would print a banner
            self.setOptionValue("output_flag", False)
            super().enableCallbacks()  # type: ignore[no-untyped-call]

    solver = Quiet()  # type: ignore[no-untyped-call]
    solver.setOptionValue("threads", 1)
    return solver


@dataclass(frozen=True, slots=True)
class Relaxed:
    """What the linear program came to.

    Attributes:
        uses: how many sticks of each pattern, not whole; patterns not used are left out.
        rules: valid rules from the weights met on the way, the last first.
    """

    uses: dict[Pattern, float]
    rules: tuple[Rule, ...]


class Master:
    """Restricted master program: patterns are added for as long as one improves it."""

    def __init__(self, model: Model) -> None:
        import highspy

        self.model = model
        self.patterns: list[Pattern] = []
        self.known: set[Pattern] = set()
        self.solver = quiet_solver()
        self.infinity = highspy.kHighsInf
        self.optimal = highspy.HighsModelStatus.kOptimal
        pieces, kinds = len(model.widths), len(model.costs)
        for wanted in model.demand:
            self.solver.addRow(float(wanted), self.infinity, 0, [], [])
        for kind in range(kinds):
            self.solver.addRow(-self.infinity, self._limit(kind), 0, [], [])
        # a piece left uncut costs more than any stick
        self.penalty = 2.0 * max(model.costs) + 1.0
        for place in range(pieces):
            self.solver.addCol(self.penalty, 0.0, self.infinity, 1, [place], [1.0])

    def _limit(self, kind: int) -> float:
        return self.infinity if self.model.unlimited[kind] else float(self.model.limits[kind])

    def set_limits(self, counts: Sequence[int] | None) -> None:
        """Allow so many sticks of each kind; None: as many as the model allows."""
        for kind in range(len(self.model.costs)):
            most = self._limit(kind) if counts is None else float(counts[kind])
            self.solver.changeRowBounds(len(self.model.widths) + kind, -self.infinity, most)

    def set_wanted(self, wanted: Sequence[int]) -> None:
        """Ask for so many pieces of each length."""
        for place, count in enumerate(wanted):
            self.solver.changeRowBounds(place, float(count), self.infinity)

    def solve(self, deadline: float, *, grown: bool = False) -> bool:
        """Solve the program as it stands; False if time ran out before.

        With only patterns added since (``grown``) the last solution still holds, and the primal
        simplex goes on from it, some 3 times as fast as the dual.
        """
        left = deadline - time.monotonic()
        if left <= 0:
            return False
        self.solver.setOptionValue("simplex_strategy", PRIMAL if grown else DUAL)
        # the solver counts the seconds of all its runs
        self.solver.setOptionValue("time_limit", self.solver.getRunTime() + left)
        self.solver.run()
        return bool(self.solver.getModelStatus() == self.optimal)

    def uses(self) -> dict[Pattern, float]:
        """Return how many sticks of each pattern the last solution has, not whole; {}: none."""
        values = self.solver.getSolution().col_value[len(self.model.widths) :]
        if len(values) != len(self.patterns):
            return {}
        pairs = zip(self.patterns, values, strict=True)
        return {pattern: value for pattern, value in pairs if value > 1e-9}

    def grow(self, model: Model, duals: Sequence[float], deadline: float) -> tuple[bool, Rule]:
        """Add the patterns that improve the program most; whether any did, and the weights' rule.

        Args:
            model: the task, or what is left of it.
            duals: of the last solution.
            deadline: on the monotonic clock, s; the rule is worked out even after it.
        """
        pieces = len(model.widths)
        weights = [max(0, int(dual * SCALE)) for dual in duals[:pieces]]
        fills = best_fills(model, weights)
        rule = rule_of(model, weights, [fill.worth for fill in fills])
        grown = False
        for deeper in range(DEPTH):
            # the next patterns do without the lengths of the best, as they would in a plan
            best: Counts = ()
            most = TINY
            for kind, fill in enumerate(fills):
                gain = fill.worth / SCALE - model.costs[kind] + duals[pieces + kind]
                if gain > TINY:
                    grown |= self.add(Pattern(kind, fill.counts))
                if gain > most:
                    best, most = fill.counts, gain
            if not any(best) or deeper == DEPTH - 1 or time.monotonic() > deadline:
                break
            weights = [0 if count else w for w, count in zip(weights, best, strict=True)]
            fills = best_fills(model, weights)
        return grown, rule

    def add(self, pattern: Pattern) -> bool:
        """Add a pattern; False if it was there."""
        if pattern in self.known or not any(pattern.counts):
            return False
        self.known.add(pattern)
        self.patterns.append(pattern)
        rows = [place for place, count in enumerate(pattern.counts) if count]
        values = [float(pattern.counts[place]) for place in rows]
        rows.append(len(self.model.widths) + pattern.kind)
        values.append(1.0)
        cost = float(self.model.costs[pattern.kind])
        self.solver.addCol(cost, 0.0, self.infinity, len(rows), rows, values)
        return True

    def relax(self, deadline: float) -> Relaxed:
        """Generate patterns until none helps (or time is up); return what it came to."""
        rules: list[Rule] = []
        grown = False
        while self.solve(deadline, grown=grown):
            grown, rule = self.grow(self.model, self.solver.getSolution().row_dual, deadline)
            rules.append(rule)
            if not grown:
                break
        return Relaxed(self.uses(), tuple(reversed(rules)))


def rule_of(model: Model, weights: Sequence[int], worth: Sequence[int]) -> Rule:
    """Return the rule that weights make; it holds whatever the weights are."""
    needed = sum(w * d for w, d in zip(weights, model.demand, strict=True))
    return Rule(tuple(worth), needed, tuple(weights))


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """What the whole-number search is after.

    Attributes:
        limits: sticks of each kind that may be used.
        at_least: no plan of these pieces costs less; reaching it ends the search.
        below: only plans of less cost are of use.
        seconds: time for the search.
    """

    limits: Counts
    at_least: int
    below: int
    seconds: float


def whole_plan(model: Model, patterns: Sequence[Pattern], aim: Aim) -> Usage | None:
    """Return the cheapest whole-number use of the patterns that covers a demand, if found.

    May cut more pieces than wanted. No warm start: one made the solver's answer wrong.
    """
    if aim.seconds <= 0 or not patterns:
        return None
    solver = quiet_solver()
    solver.setOptionValue("time_limit", aim.seconds)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("objective_target", float(aim.at_least))
    pieces, inf = len(model.widths), solver.inf
    for wanted in model.demand:
        solver.addRow(float(wanted), inf, 0, [], [])
    for kind in range(len(model.costs)):
        most = inf if model.unlimited[kind] else float(aim.limits[kind])
        solver.addRow(-inf, most, 0, [], [])
    solver.addRow(float(aim.at_least), float(aim.below - 1), 0, [], [])
    for pattern in patterns:
        rows = [place for place, count in enumerate(pattern.counts) if count]
        values = [float(pattern.counts[place]) for place in rows]
        cost = float(model.costs[pattern.kind])
        rows += [pieces + pattern.kind, pieces + len(model.costs)]
        values += [1.0, cost]
        solver.addCol(cost, 0.0, inf, len(rows), rows, values)
    count = len(patterns)
    import numpy as np

    columns = np.arange(count, dtype=np.int32)
    solver.changeColsIntegrality(count, columns, np.ones(count, dtype=np.uint8))
    solver.run()
    values = solver.getSolution().col_value
    if len(values) != count:
        return None
    usage = {p: round(v) for p, v in zip(patterns, values, strict=True) if v > 0.5}
    made = [0] * pieces
    for pattern, times in usage.items():
        for place, have in enumerate(pattern.counts):
            made[place] += have * times
    enough = all(have >= wanted for have, wanted in zip(made, model.demand, strict=True))
    return usage if enough else None
