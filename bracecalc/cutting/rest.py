"""Whole plans from a part of one: what it leaves over is planned anew, in several ways."""

from __future__ import annotations

import math
import time
from collections.abc import Iterator, Mapping, Sequence

from bracecalc.cutting.firstfit import first_fit
from bracecalc.cutting.master import Aim, Master, whole_plan
from bracecalc.cutting.model import Pattern, Rest, Usage
from bracecalc.cutting.refill import fill_mix
from bracecalc.cutting.reshuffle import reshuffled
from bracecalc.cutting.state import Search

MOST_LENGTHS = 150  # with more the whole-number search finds nothing in its time

Shares = Mapping[Pattern, float]  # sticks of each pattern, not whole


def round_down(state: Search, master: Master, uses: Shares, back: int) -> None:
    """Keep the whole part of a plan in parts, less ``back`` of each; plan the rest anew."""
    base = {p: math.floor(share + 1e-6) - back for p, share in uses.items()}
    base = {p: times for p, times in base.items() if times > 0}
    complete(state, master, base)


def complete(state: Search, master: Master, base: Usage) -> None:
    """Offer a part of a plan with plans for the pieces that it leaves over."""
    if state.done:
        return
    rest = Rest.after(state.model, base)
    if min(rest.model.limits) < 0:
        return
    if not rest.places:
        state.offer(base)
        return
    spent = state.model.cost_of(base)
    for usage in plan_rest(state, rest, master.patterns, spent):
        whole = dict(base)
        for pattern, times in rest.widen(usage).items():
            whole[pattern] = whole.get(pattern, 0) + times
        state.offer(whole)
        if state.done:
            return


def plan_rest(
    state: Search, rest: Rest, patterns: Sequence[Pattern], spent: int
) -> Iterator[Usage]:
    """Yield plans for the rest: first-fit reshuffled, the mix filled, a whole-number search.

    Args:
        state: the search for the whole plan.
        rest: the pieces left over.
        patterns: of the whole task, for the whole-number search; it takes those of the
            reshuffled plan too.
        spent: cost of the part that leaves the rest over.
    """
    try:
        usage = first_fit(rest.model)
    except ValueError:
        return  # too few sticks are left on hand, and none can be bought
    weights = [state.weights[place] for place in rest.places]
    at_least = max(0, state.bound - spent)
    usage = reshuffled(
        rest.model, usage, weights, state.rng, state.within(state.slice), at_least=at_least
    )
    yield usage
    if state.mix is not None:
        used = zip(state.mix, rest.sticks_used, strict=True)
        mix = tuple(max(0, count - taken) for count, taken in used)
        filled = fill_mix(rest.model, mix, state.rng, state.within(state.slice))
        if filled is not None:
            yield filled
    if len(rest.places) > MOST_LENGTHS:
        return
    master = Master(rest.model)
    for pattern in (*map(rest.clip, patterns), *usage):
        master.add(pattern)
    master.relax(state.within(state.slice))
    aim = Aim(
        limits=rest.model.limits,
        at_least=at_least,
        below=state.cost - spent,
        seconds=min(state.slice, state.deadline - time.monotonic()),
    )
    found = whole_plan(rest.model, master.patterns, aim)
    if found is not None:
        yield found
