"""The search for the cheapest plan: first the bound, then whole plans that aim at it."""

from __future__ import annotations

import math
import random
import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from bracecalc.cutting.bound import Mix, Rule, least_mix, length_rule
from bracecalc.cutting.correct import corrected_plans
from bracecalc.cutting.firstfit import first_fit
from bracecalc.cutting.master import Aim, Master, whole_plan
from bracecalc.cutting.model import Counts, Model, Pattern, Rest, Usage, flaw, shrink, trim_surplus
from bracecalc.cutting.settle import Verdict, settle

MOST_RULES = 24  # each round of the bound costs a linear program
MOST_PATTERNS = 1500  # more of them only slow the whole-number search down
SETTLE_SHARE = 0.5  # of the time left, for looking into one set of stick counts
CLOSE_SHARE = 0.4  # of the time left, for raising the bound
ROOT_SHARE = 0.5  # of the time, for the linear program at most
CORRECT_SECONDS = 0.4  # for one round of value correction, doubled from round to round
WHOLE_SECONDS = 2.0  # for one whole-number search
SEED = 1  # the same task gives the same draw

Shares = Mapping[Pattern, float]  # sticks of each pattern, not whole


@dataclass
class Search:
    """The best plan so far, the bound, and what the bound was found with."""

    model: Model
    deadline: float
    best: Usage
    bound: int = 0
    rules: list[Rule] = field(default_factory=list)
    mix: Counts | None = None  # stick counts that reach the bound
    excluded: list[Counts] = field(default_factory=list)  # proven to hold no plan
    tried: list[Counts] = field(default_factory=list)  # stick counts that were looked into
    rng: random.Random = field(default_factory=lambda: random.Random(SEED))

    @property
    def cost(self) -> int:
        """Cost of the best plan so far."""
        return self.model.cost_of(self.best)

    @property
    def done(self) -> bool:
        """Whether nothing is left to gain, or no time."""
        return self.cost <= self.bound or time.monotonic() >= self.deadline

    def offer(self, usage: Usage) -> None:
        """Keep a plan if it holds and is better; it may cut more than is wanted."""
        slim = shrink(self.model, trim_surplus(self.model, usage))
        if self.model.rank(slim) < self.model.rank(self.best) and not flaw(self.model, slim):
            self.best = slim

    def raise_bound(self) -> Mix:
        """Work the bound out anew from all rules; return the stick counts that reach it."""
        mix = least_mix(self.model, self.rules, self.cost, excluded=self.excluded)
        self.bound = max(self.bound, mix.bound)
        if mix.counts is not None:
            self.mix = mix.counts
        return mix


def start(model: Model, seconds: float) -> Search:
    """Return the first-fit plan beside the bound of total length."""
    state = Search(model, time.monotonic() + seconds, best=first_fit(model))
    state.rules.append(length_rule(model))
    state.raise_bound()
    return state


def find_cuts(model: Model, seconds: float) -> Search:
    """Return the best plan and bound that were found in the time."""
    state = start(model, seconds)
    if state.done:
        return state
    master = seeded(model, state.best)
    root = master.relax(time.monotonic() + seconds * ROOT_SHARE)
    state.rules += root.rules[:3]
    target = close_in(state, master)
    back = 0
    while not state.done and back < 16:
        for uses in (root.uses,) if target is None else (target, root.uses):
            if not state.done:
                round_down(state, master, uses, back)
        if not state.done and target is not None and settled(state):
            target, back = close_in(state, master), 0
        else:
            back += 1
    return state


def settled(state: Search) -> bool:
    """Settle the stick counts that reach the bound; whether they are excluded now."""
    if state.mix is None or state.mix in state.tried:
        return False
    state.tried.append(state.mix)
    until = time.monotonic() + SETTLE_SHARE * (state.deadline - time.monotonic())
    answer = settle(state.model, state.mix, state.rules, until)
    if answer.usage is not None:
        state.offer(answer.usage)
    if answer.verdict is Verdict.IMPOSSIBLE:
        state.excluded.append(state.mix)
    return answer.verdict is Verdict.IMPOSSIBLE


def seeded(model: Model, usage: Usage) -> Master:
    """Return a master program with the patterns of a plan and one for each length alone."""
    master = Master(model)
    for pattern in usage:
        master.add(pattern)
    for place, width in enumerate(model.widths):
        for kind, capacity in enumerate(model.capacities):
            most = min(capacity // width, model.demand[place])
            counts = [0] * len(model.widths)
            counts[place] = most
            master.add(Pattern(kind, tuple(counts)))
    return master


def close_in(state: Search, master: Master) -> Shares | None:
    """Raise the bound until its stick counts could hold the pieces, cut in parts.

    Each round asks the linear program whether the cheapest stick counts suffice; where they
    don't, its weights are a rule that they break.

    Returns:
        The plan in parts that uses just those sticks; None where none was found.
    """
    until = time.monotonic() + CLOSE_SHARE * (state.deadline - time.monotonic())
    while time.monotonic() < until:
        mix = state.raise_bound()
        if mix.counts is None or state.done:
            return None
        master.set_limits(mix.counts)
        relaxed = master.relax(state.deadline)
        master.set_limits(None)
        broken = [rule for rule in relaxed.rules if not rule.kept_by(mix.counts)]
        if not broken or len(state.rules) > MOST_RULES:
            return relaxed.uses
        state.rules += broken[:2]
    return None


def round_down(state: Search, master: Master, uses: Shares, back: int) -> None:
    """Keep the whole part of a plan in parts, less ``back`` of each; plan the rest anew."""
    base = {p: math.floor(share + 1e-6) - back for p, share in uses.items()}
    base = {p: times for p, times in base.items() if times > 0}
    rest = Rest.after(state.model, base)
    if min(rest.model.limits) < 0:
        return
    if not rest.places:
        state.offer(base)
        return
    known = [rest.clip(pattern) for pattern in master.patterns]
    spent = state.model.cost_of(base)
    for usage in plan_rest(state, rest, known, spent):
        whole = dict(base)
        for pattern, times in rest.widen(usage).items():
            whole[pattern] = whole.get(pattern, 0) + times
        state.offer(whole)
        if state.done:
            return


def plan_rest(state: Search, rest: Rest, known: list[Pattern], spent: int) -> Iterator[Usage]:
    """Yield plans for the rest: by value correction, then by a whole-number search.

    The search works with the patterns of the linear program and of the corrected plans.
    """
    master = Master(rest.model)
    yield from corrected(state, rest, master, spent)
    if len(master.patterns) > MOST_PATTERNS:
        kept, master = master.patterns[-MOST_PATTERNS:], Master(rest.model)
        known = known + kept
    for pattern in known:
        master.add(pattern)
    master.relax(state.deadline)
    aim = Aim(
        limits=rest.model.limits,
        at_least=max(0, state.bound - spent),
        below=state.cost - spent,
        seconds=min(WHOLE_SECONDS, state.deadline - time.monotonic()),
    )
    usage = whole_plan(rest.model, master.patterns, aim)
    if usage is not None:
        yield usage


def corrected(state: Search, rest: Rest, master: Master, spent: int) -> Iterator[Usage]:
    """Yield plans by value correction for a while; their patterns go to the master program."""
    mixes: list[Counts | None] = [None]
    if state.mix is not None:
        used = zip(state.mix, rest.sticks_used, strict=True)
        mixes.insert(0, tuple(max(0, count - taken) for count, taken in used))
    best = state.cost
    for mix in mixes:
        until = min(state.deadline, time.monotonic() + CORRECT_SECONDS)
        for usage in corrected_plans(rest.model, mix, state.rng):
            cost = spent + rest.model.cost_of(usage)
            for pattern in usage:
                master.add(pattern)
            if cost < best:
                best = cost
                yield usage
            if time.monotonic() > until:
                break
