"""Settle stick counts: find a plan that uses just these, or prove that there is none.

Where few patterns waste so little that a plan of these sticks could use them, the patterns are
all listed, and branching on how often each is used decides. A branch is closed only by a
certificate that is checked in integers, whatever the solver says of it.
"""

from __future__ import annotations

import math
import time
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from bracecalc.cutting.bound import Rule
from bracecalc.cutting.master import SCALE, quiet_solver
from bracecalc.cutting.model import Counts, Model, Pattern, Usage

MOST_LISTED = 2_500
MOST_STEPS = 150_000
STEPS_A_LOOK = 4096  # steps between two looks at the clock
MOST_BRANCHES = 3_000
WHOLE = 1e-6  # a value nearer to a whole number is tried as that


class Verdict(Enum):
    """What came out for the stick counts."""

    FOUND = "a plan uses them"
    IMPOSSIBLE = "proven that no plan does"
    OPEN = "neither, in the time and steps allowed"


@dataclass(frozen=True, slots=True)
class Settled:
    """The verdict, with the plan where one was found."""

    verdict: Verdict
    usage: Usage | None = None


def settle(model: Model, sticks: Counts, rules: Sequence[Rule], deadline: float) -> Settled:
    """Return whether so many sticks of each kind can hold all pieces.

    Args:
        model: the task.
        sticks: how many of each kind there are.
        rules: valid for every plan; the tightest decides which patterns are listed.
        deadline: on the monotonic clock, s.
    """
    tightest = min((rule for rule in rules if rule.needed), key=lambda rule: slack(rule, sticks))
    if slack(tightest, sticks) < 0:
        return Settled(Verdict.IMPOSSIBLE)
    patterns = list_patterns(model, sticks, tightest, deadline)
    if patterns is None:
        return Settled(Verdict.OPEN)
    return _Branching(model, sticks, patterns).run(deadline)


def slack(rule: Rule, sticks: Counts) -> float:
    """Return what sticks are worth beyond the need, as a part of it; less than 0: too little."""
    have = sum(worth * count for worth, count in zip(rule.worth, sticks, strict=True))
    return (have - rule.needed) / rule.needed


def list_patterns(
    model: Model, sticks: Counts, rule: Rule, deadline: float
) -> list[Pattern] | None:
    """Return every pattern that a plan of just these sticks may use; None if too many.

    What all sticks together are worth beyond the need is the most that one of them may fall short
    of its worth.
    """
    have = sum(worth * count for worth, count in zip(rule.worth, sticks, strict=True))
    spare = have - rule.needed
    found: list[Pattern] = []
    steps = MOST_STEPS
    order = sorted(
        range(len(model.widths)), key=lambda place: -rule.weights[place] / model.widths[place]
    )
    for kind, count in enumerate(sticks):
        if not count:
            continue
        least = rule.worth[kind] - spare
        stack: list[tuple[int, int, int, tuple[int, ...]]] = [(0, model.capacities[kind], 0, ())]
        while stack:
            steps -= 1
            if steps < 0 or len(found) > MOST_LISTED:
                return None
            if steps % STEPS_A_LOOK == 0 and time.monotonic() > deadline:
                return None
            depth, room, weight, counts = stack.pop()
            if depth == len(order):
                if weight >= least and any(counts):
                    places = dict(zip(order, counts, strict=True))
                    found.append(Pattern(kind, tuple(places[place] for place in range(len(order)))))
                continue
            place = order[depth]
            width, each = model.widths[place], rule.weights[place]
            # the rest of the room can't weigh more than if it were full of the densest piece left
            for number in range(min(model.demand[place], room // width) + 1):
                then, left = weight + number * each, room - number * width
                densest = order[depth + 1] if depth + 1 < len(order) else None
                most = 0 if densest is None else left * rule.weights[densest]
                per = 1 if densest is None else model.widths[densest]
                if then * per + most >= least * per:
                    stack.append((depth + 1, left, then, (*counts, number)))
    return found


class _Branching:
    """Branch on how often each pattern is used, until a plan is found or every branch is closed."""

    def __init__(self, model: Model, sticks: Counts, patterns: list[Pattern]) -> None:
        self.model = model
        self.sticks = sticks
        self.patterns = patterns
        self.solver = quiet_solver()
        inf = self.solver.inf
        pieces = len(model.widths)
        for wanted in model.demand:
            self.solver.addRow(float(wanted), inf, 0, [], [])
        for count in sticks:
            self.solver.addRow(-inf, float(count), 0, [], [])
        for place in range(pieces):
            self.solver.addCol(1.0, 0.0, inf, 1, [place], [1.0])  # a piece left uncut
        for pattern in patterns:
            rows = [place for place, count in enumerate(pattern.counts) if count]
            values = [float(pattern.counts[place]) for place in rows]
            most = float(sticks[pattern.kind])
            self.solver.addCol(
                0.0, 0.0, most, len(rows) + 1, [*rows, pieces + pattern.kind], [*values, 1.0]
            )

    def run(self, deadline: float) -> Settled:
        """Go depth-first; the branch nearer to the program's value first."""
        whole = [(0, self.sticks[pattern.kind]) for pattern in self.patterns]
        stack = [whole]
        branches = 0
        while stack:
            branches += 1
            if branches > MOST_BRANCHES or time.monotonic() > deadline:
                return Settled(Verdict.OPEN)
            ranges = stack.pop()
            values = self._values(ranges)
            if values is None:
                return Settled(Verdict.OPEN)
            if not values:
                continue
            place = max(range(len(values)), key=lambda p: abs(values[p] - round(values[p])))
            value = values[place]
            if abs(value - round(value)) < WHOLE:
                return self._whole(values)
            low, high = ranges[place]
            under, over = list(ranges), list(ranges)
            under[place] = (low, math.floor(value))
            over[place] = (math.floor(value) + 1, high)
            stack += [under, over] if value - math.floor(value) > 0.5 else [over, under]
        return Settled(Verdict.IMPOSSIBLE)

    def _whole(self, values: Sequence[float]) -> Settled:
        usage = {
            pattern: round(value)
            for pattern, value in zip(self.patterns, values, strict=True)
            if round(value)
        }
        return Settled(Verdict.FOUND, usage)

    def _values(self, ranges: list[tuple[int, int]]) -> list[float] | None:
        """Return how often each pattern is used, not whole; [] if it is certain that none can be.

        None where the solver says "none" and the certificate does not hold.
        """
        pieces = len(self.model.widths)
        for column, (low, high) in enumerate(ranges, start=pieces):
            self.solver.changeColBounds(column, float(low), float(high))
        self.solver.run()
        solution = self.solver.getSolution()
        if sum(solution.col_value[:pieces]) < WHOLE:
            return list(solution.col_value[pieces:])
        duals = solution.row_dual
        weights = [max(0, int(dual * SCALE)) for dual in duals[:pieces]]
        prices = [max(0, math.ceil(-dual * SCALE)) for dual in duals[pieces:]]
        return [] if self._closed(weights, prices, ranges) else None

    def _closed(
        self, weights: Sequence[int], prices: Sequence[int], ranges: Sequence[tuple[int, int]]
    ) -> bool:
        """Check in integers that no uses within the ranges hold the weight of all pieces.

        With p for the price of a stick of its kind, every use of a pattern adds its weight less p;
        all sticks together add their prices.
        """
        most = sum(price * count for price, count in zip(prices, self.sticks, strict=True))
        for pattern, (low, high) in zip(self.patterns, ranges, strict=True):
            weight = sum(w * n for w, n in zip(weights, pattern.counts, strict=True))
            gain = weight - prices[pattern.kind]
            most += max(low * gain, high * gain)
        return most < sum(w * d for w, d in zip(weights, self.model.demand, strict=True))
