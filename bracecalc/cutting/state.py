"""What the search knows: the best plan so far, the bound, and what the bound was found with."""

from __future__ import annotations

import random
import time
from collections.abc import Sequence
from dataclasses import dataclass, field

from bracecalc.cutting.bound import Mix, Rule, least_mix, length_rule
from bracecalc.cutting.firstfit import first_fit
from bracecalc.cutting.model import Counts, Model, Usage, flaw, shrink, trim_surplus

FIRST_NODES, LAST_NODES = 25_000, 10_000_000  # steps for the bound, more from round to round
FIRST_SLICE, LAST_SLICE = 0.02, 0.2  # of the time, for one try, doubled from round to round
SEED = 1  # the same task gives the same draw


@dataclass
class Search:
    """The best plan so far, the bound, and what is needed to better them.

    ``slice`` is the time for one try of one heuristic, s; ``deadline`` is on the monotonic clock.
    """

    model: Model
    deadline: float
    slice: float
    best: Usage
    bound: int = 0
    rules: list[Rule] = field(default_factory=list)
    mix: Counts | None = None  # stick counts that reach the bound
    excluded: list[Counts] = field(default_factory=list)  # proven to hold no plan
    tried: list[Counts] = field(default_factory=list)  # stick counts that were looked into
    nodes: int = FIRST_NODES  # steps for the bound
    weights: Sequence[float] = ()  # what a piece of each length is worth
    rng: random.Random = field(default_factory=lambda: random.Random(SEED))

    @property
    def cost(self) -> int:
        """Cost of the best plan so far."""
        return self.model.cost_of(self.best)

    @property
    def done(self) -> bool:
        """Whether nothing is left to gain, or no time."""
        return self.cost <= self.bound or time.monotonic() >= self.deadline

    def within(self, seconds: float) -> float:
        """Return when a try that begins now must end, on the monotonic clock, s."""
        return min(self.deadline, time.monotonic() + seconds)

    def offer(self, usage: Usage) -> None:
        """Keep a plan if it holds and is better; it may cut more than is wanted."""
        slim = shrink(self.model, trim_surplus(self.model, usage))
        if self.model.rank(slim) < self.model.rank(self.best) and not flaw(self.model, slim):
            self.best = slim

    def raise_bound(self) -> Mix:
        """Work the bound out anew from all rules; return the stick counts that reach it."""
        mix = least_mix(
            self.model,
            self.rules,
            self.cost,
            excluded=self.excluded,
            most_nodes=self.nodes,
            deadline=self.deadline,
        )
        self.bound = max(self.bound, mix.bound)
        if mix.counts is not None:
            self.mix = mix.counts
        return mix


def start(model: Model, seconds: float) -> Search:
    """Return the first-fit plan beside the bound of total length."""
    deadline = time.monotonic() + seconds
    state = Search(model, deadline, FIRST_SLICE * seconds, best=first_fit(model))
    state.rules.append(length_rule(model))
    state.weights = model.widths
    state.raise_bound()
    return state
