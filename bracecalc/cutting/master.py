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
        short: pieces not covered, as the limits allow no more; 0.0 where all are.
    """

    uses: dict[Pattern, float]
    rules: tuple[Rule, ...]
    short: float


class Master:
    """Restricted master program: patterns are added for as long as one improves it."""

    def __init__(self, model: Model) -> None:
        import highspy

        self.model = model
        self.patterns: list[Pattern] = []
        self.known: set[Pattern] = set()
        self.solver = quiet_solver()
        self.infinity = highspy.kHighsInf
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
        pieces = len(self.model.widths)
        rules: list[Rule] = []
        while True:
            self.solver.run()
            duals = self.solver.getSolution().row_dual
            weights = [max(0, int(dual * SCALE)) for dual in duals[:pieces]]
            fills = best_fills(self.model, weights)
            rules.append(rule_of(self.model, weights, [fill.worth for fill in fills]))
            added = False
            for kind, fill in enumerate(fills):
                price = self.model.costs[kind] - duals[pieces + kind]
                if fill.worth > (price + 1e-7) * SCALE:
                    added |= self.add(Pattern(kind, fill.counts))
            if not added or time.monotonic() > deadline:
                break
        values = self.solver.getSolution().col_value
        uses = {
            pattern: value
            for pattern, value in zip(self.patterns, values[pieces:], strict=True)
            if value > 1e-9
        }
        return Relaxed(uses, tuple(reversed(rules)), sum(values[:pieces]))


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
