"""The search for the cheapest plan: first the bound, then whole plans that aim at it."""

from __future__ import annotations

import time

from bracecalc.cutting.dive import dive
from bracecalc.cutting.master import Master
from bracecalc.cutting.model import Model, Pattern, Usage
from bracecalc.cutting.refill import fill_mix
from bracecalc.cutting.reshuffle import reshuffled
from bracecalc.cutting.rest import Shares, complete, round_down
from bracecalc.cutting.settle import Verdict, settle
from bracecalc.cutting.state import LAST_NODES, LAST_SLICE, Search, start

MOST_RULES = 24  # each round of the bound costs a linear program
SETTLE_SHARE = 0.5  # of the time left, for looking into one set of stick counts
CLOSE_SHARE = 0.4  # of the time left, for raising the bound
ROOT_SHARE = 0.5  # of the time, for the linear program at most
FILL_SHARE = 0.1  # of the time, for filling the mix of the bound of total length
QUICK_SHARE = 0.2  # of the time, for reshuffling where there is no solver
MOST_BACK = 4  # rounds in which the whole part of the linear program is lowered further


def quick_cuts(model: Model, seconds: float) -> Search:
    """Return the best plan that is found without a solver, beside the bound of total length."""
    state = start(model, seconds)
    refilled(state, FILL_SHARE * seconds)
    reshuffle(state, QUICK_SHARE * seconds)
    return state


def find_cuts(model: Model, seconds: float) -> Search:
    """Return the best plan and bound that were found in the time."""
    state = start(model, seconds)
    refilled(state, FILL_SHARE * seconds)
    if state.done:
        return state
    master = seeded(model, state.best)
    root = master.relax(state.within(ROOT_SHARE * seconds))
    if root.rules:
        state.rules += root.rules[:3]
        state.weights = [max(1, weight) for weight in root.rules[0].weights]
    target = close_in(state, master)
    back = 0
    while not state.done:
        dived(state, master)
        reshuffle(state, state.slice)
        refilled(state, state.slice)
        for uses in (root.uses,) if target is None else (target, root.uses):
            if back < MOST_BACK:
                round_down(state, master, uses, back)
        if settled(state):
            target, back = close_in(state, master), 0
            continue
        back += 1
        state.slice = min(2 * state.slice, LAST_SLICE * seconds)
        if state.nodes < LAST_NODES:
            state.nodes *= 8
            target = close_in(state, master)
    return state


def refilled(state: Search, seconds: float) -> None:
    """Look for a plan that fills the stick counts of the bound to the brim."""
    if state.mix is None or state.done:
        return
    usage = fill_mix(state.model, state.mix, state.rng, state.within(seconds))
    if usage is not None:
        state.offer(usage)


def reshuffle(state: Search, seconds: float) -> None:
    """Take sticks of the best plan apart and cut their pieces anew."""
    if state.done:
        return
    until = state.within(seconds)
    model, best, floor = state.model, state.best, state.bound
    state.offer(reshuffled(model, best, state.weights, state.rng, until, at_least=floor))


def dived(state: Search, master: Master) -> None:
    """Dive for a plan of the stick counts of the bound, and for one of any."""
    for limits in (state.mix, state.model.limits):
        if limits is not None and not state.done:
            complete(state, master, dive(master, limits, state.rng, state.deadline))


def settled(state: Search) -> bool:
    """Settle the stick counts that reach the bound; whether they are excluded now."""
    if state.done or state.mix is None or state.mix in state.tried:
        return False
    state.tried.append(state.mix)
    until = state.within(SETTLE_SHARE * (state.deadline - time.monotonic()))
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
    until = state.within(CLOSE_SHARE * (state.deadline - time.monotonic()))
    while time.monotonic() < until:
        mix = state.raise_bound()
        if mix.counts is None or state.done:
            return None
        master.set_limits(mix.counts)
        relaxed = master.relax(until)
        master.set_limits(None)
        broken = [rule for rule in relaxed.rules if not rule.kept_by(mix.counts)]
        if not broken or len(state.rules) > MOST_RULES:
            return relaxed.uses
        state.rules += broken[:2]
    return None
