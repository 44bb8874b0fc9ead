"""Lower bounds in integers: what no plan can beat, whatever a solver says.

A weight u for each piece makes a rule that every plan keeps: the sticks of a plan, each worth the
most weight that one such stick can hold, together hold the weight of all pieces. A plan's stick
counts are whole, so the least sum of prices over whole counts that keep all known rules is a bound.
Source: linear programming duality; P. C. Gilmore and R. E. Gomory, "A linear programming approach
to the cutting-stock problem", Operations Research 9 (1961), for the weights.
"""

from __future__ import annotations

import math
import time
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from fractions import Fraction

from bracecalc.cutting.model import Counts, Model
from bracecalc.cutting.subsetsum import fullest, with_copies

NODES_A_LOOK = 4096  # steps of the search between two looks at the clock


@dataclass(frozen=True, slots=True)
class Rule:
    """``sum(worth[k] * sticks of kind k) >= needed`` for every plan.

    ``weights`` of the pieces are what it comes from.
    """

    worth: Counts
    needed: int
    weights: Counts = ()

    def kept_by(self, sticks: Sequence[int]) -> bool:
        """Return whether so many sticks of each kind keep the rule."""
        return sum(w * n for w, n in zip(self.worth, sticks, strict=True)) >= self.needed


def length_rule(model: Model) -> Rule:
    """Return the rule of total length: a stick is worth the best fill that pieces can make.

    >>> length_rule(Model(widths=(5, 3), demand=(2, 2), capacities=(7, 9), costs=(1, 1),
    ...                   limits=(4, 4)))
    Rule(worth=(6, 8), needed=16, weights=(5, 3))
    """
    sums, longest = 1, max(model.capacities)
    for width, count in zip(model.widths, model.demand, strict=True):
        sums = with_copies(sums, width, count, longest)
    worth = tuple(fullest(sums, capacity) for capacity in model.capacities)
    needed = sum(w * d for w, d in zip(model.widths, model.demand, strict=True))
    return Rule(worth, needed, model.widths)


class _Tail:
    """Best price for worth, by rule, among the kinds from a place in the order on."""

    def __init__(self, costs: Sequence[int], rules: Sequence[Rule], order: Sequence[int]) -> None:
        self.best: list[list[tuple[int, int] | None]] = []
        for place in range(len(order)):
            row: list[tuple[int, int] | None] = []
            for rule in rules:
                best: tuple[int, int] | None = None
                for kind in order[place:]:
                    worth = rule.worth[kind]
                    if worth and (best is None or costs[kind] * best[1] < best[0] * worth):
                        best = (costs[kind], worth)
                row.append(best)
            self.best.append(row)

    def least(self, place: int, needs: Sequence[int]) -> int | None:
        """Return a lower bound on the price of what is still needed; None: it can't be had."""
        least = 0
        for need, best in zip(needs, self.best[place], strict=True):
            if need <= 0:
                continue
            if best is None:
                return None
            least = max(least, -(-need * best[0] // best[1]))
        return least


@dataclass(frozen=True, slots=True)
class Mix:
    """A bound, and the whole stick counts that reach it (None where the search was cut short)."""

    bound: int
    counts: Counts | None


def least_mix(
    model: Model,
    rules: Sequence[Rule],
    ceiling: int,
    *,
    excluded: Collection[Counts] = (),
    most_nodes: int = 25_000,
    deadline: float = math.inf,
) -> Mix:
    """Return the least price of whole stick counts that keep all rules, and the counts.

    Args:
        model: the task.
        rules: each holds for every plan.
        ceiling: cost of a plan that is known; the bound never passes it.
        excluded: stick counts that are proven to hold no plan.
        most_nodes: after so many steps the search stops with the bound that is sure by then.
        deadline: on the monotonic clock, s; stops it likewise.

    >>> model = Model(widths=(6,), demand=(2,), capacities=(7, 13), costs=(5, 8), limits=(2, 2))
    >>> least_mix(model, [length_rule(model)], ceiling=10)
    Mix(bound=8, counts=(0, 1))
    """
    free = [k for k, cost in enumerate(model.costs) if cost == 0]
    needs = [rule.needed - sum(rule.worth[k] * model.limits[k] for k in free) for rule in rules]
    order = _search_order(model, rules[0], free)
    fixed = {k: model.limits[k] for k in free}
    if not order or max(needs) <= 0:
        counts = tuple(fixed.get(k, 0) for k in range(len(model.costs)))
        return Mix(0, counts) if max(needs) <= 0 else Mix(ceiling, None)
    search = _MixSearch(model, rules, order, most_nodes, deadline)
    search.excluded = {tuple(counts[k] for k in order) for counts in excluded}
    floor = search.tail.least(0, needs)
    if floor is None:
        return Mix(ceiling, None)
    return search.run(needs, floor, ceiling, fixed)


def _search_order(model: Model, rule: Rule, free: Sequence[int]) -> list[int]:
    """Return the kinds to count, the best price for its worth last: it fills up what is left."""
    kinds = [k for k in range(len(model.costs)) if k not in free and rule.worth[k]]
    return sorted(
        kinds,
        key=lambda k: (
            model.unlimited[k],
            -Fraction(model.costs[k], rule.worth[k]),
            model.capacities[k],
        ),
    )


class _MixSearch:
    """Depth-first count of sticks, kind after kind, against a rising target price.

    Of counts that it meets at equal prices, those with fewer sticks are kept.
    """

    def __init__(
        self,
        model: Model,
        rules: Sequence[Rule],
        order: list[int],
        most_nodes: int,
        deadline: float,
    ) -> None:
        self.model = model
        self.rules = rules
        self.order = order
        self.tail = _Tail(model.costs, rules, order)
        self.nodes_left = most_nodes
        self.deadline = deadline
        self.best = (0, 0)  # only less than this price and this many sticks is of use
        self.counts: list[int] = []
        self.found: list[int] | None = None
        self.excluded: set[Counts] = set()

    def run(self, needs: list[int], floor: int, ceiling: int, fixed: dict[int, int]) -> Mix:
        # a price is a sum of the kinds' prices, so a multiple of what they share
        shared = math.gcd(*(self.model.costs[kind] for kind in self.order))
        width = min(self.model.costs[kind] for kind in self.order) // 8
        sure = -(-floor // shared) * shared
        # the window is widened step by step, so that a stop still leaves a bound that is sure
        while sure < ceiling:
            end = min(ceiling, sure + max(width, shared))
            self.best, self.found, self.counts = (end, 0), None, []
            in_full = self._descend(0, needs, 0)
            if self.found is not None and (in_full or self.best[0] == sure):
                counts = dict(zip(self.order, self.found, strict=True)) | fixed
                kinds = range(len(self.model.costs))
                return Mix(self.best[0], tuple(counts.get(kind, 0) for kind in kinds))
            if not in_full:
                return Mix(sure, None)
            sure = min(ceiling, -(-end // shared) * shared)
            width *= 2
        return Mix(min(sure, ceiling), None)

    def _descend(self, place: int, needs: list[int], cost: int) -> bool:
        """Search below one node for what is less than ``best``; False if the steps ran out."""
        kind = self.order[place]
        price, limit = self.model.costs[kind], self.model.limits[kind]
        worths = [rule.worth[kind] for rule in self.rules]
        sticks = sum(self.counts)
        if place == len(self.order) - 1:
            self.nodes_left -= 1
            count = _fill_up(needs, worths, limit)
            while count is not None and (*self.counts, count) in self.excluded:
                count = count + 1 if count < limit else None
            if count is not None and (cost + count * price, sticks + count) < self.best:
                self.best = (cost + count * price, sticks + count)
                self.found = [*self.counts, count]
            return True
        left = list(needs)
        for number in range(limit + 1):
            self.nodes_left -= 1
            if self.nodes_left % NODES_A_LOOK == 0 and time.monotonic() > self.deadline:
                self.nodes_left = 0
            if self.nodes_left <= 0:
                return False
            least = self.tail.least(place, left)
            if least is None or (cost + number * price + least, sticks + number) >= self.best:
                break
            self.counts.append(number)
            in_full = self._descend(place + 1, left, cost + number * price)
            self.counts.pop()
            if not in_full:
                return False
            left = [need - worth for need, worth in zip(left, worths, strict=True)]
        return True


def _fill_up(needs: Sequence[int], worths: Sequence[int], limit: int) -> int | None:
    """Return how many sticks of one kind give all that is needed; None if they can't."""
    count = 0
    for need, worth in zip(needs, worths, strict=True):
        if need > 0:
            if not worth:
                return None
            count = max(count, -(-need // worth))
    return count if count <= limit else None
