"""Sequential value correction: fill stick after stick, and let pieces that cause waste weigh more.

Source: G. Belov and G. Scheithauer, "Setup and open-stacks minimization in one-dimensional stock
cutting", INFORMS Journal on Computing 19 (2007), for the principle; the weights here are our own.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace

from bracecalc.cutting.firstfit import first_fit
from bracecalc.cutting.knapsack import Fill, best_fills
from bracecalc.cutting.model import Counts, Model, Pattern, Rest, Usage

SCALE = 1 << 10


def corrected_plans(model: Model, mix: Counts | None, rng: random.Random) -> Iterator[Usage]:
    """Yield plan after plan; each fills stick after stick, and completes what is left over.

    Args:
        model: the task.
        mix: how many sticks of each kind to fill; None: always the kind that gives most weight
            for its price.
        rng: draws the order of the kinds and how strongly weights are corrected.
    """
    weights = [float(width) for width in model.widths]
    while True:
        usage, left = _fill(model, _order(model, mix, rng), weights, rng)
        if any(left):
            rest = Rest.after(model, usage)
            try:
                tail = first_fit(rest.model)
            except ValueError:
                return
            for pattern, times in rest.widen(tail).items():
                usage[pattern] = usage.get(pattern, 0) + times
        yield usage


def _order(model: Model, mix: Counts | None, rng: random.Random) -> list[tuple[int, ...]]:
    """Return for each stick to fill the kinds that it may be."""
    if mix is None:
        return [tuple(range(len(model.costs)))] * sum(model.demand)
    sticks: list[tuple[int, ...]] = [
        (kind,) for kind, count in enumerate(mix) for _ in range(count)
    ]
    rng.shuffle(sticks)
    return sticks


def _fill(
    model: Model, order: list[tuple[int, ...]], weights: list[float], rng: random.Random
) -> tuple[Usage, list[int]]:
    left, room = list(model.demand), list(model.limits)
    power = rng.uniform(1.0, 1.1)
    usage: Usage = {}
    for choice in order:
        kinds = [kind for kind in choice if room[kind]]
        if not any(left) or not kinds:
            break
        capacities = tuple(model.capacities[kind] for kind in kinds)
        now = replace(model, demand=tuple(left), capacities=capacities)
        fills = best_fills(now, [round(weight * SCALE) for weight in weights])
        kind, fill = max(
            zip(kinds, fills, strict=True), key=lambda pair: _value(model, pair[0], pair[1])
        )
        filled = sum(w * n for w, n in zip(model.widths, fill.counts, strict=True))
        if not filled:
            continue
        for place, count in enumerate(fill.counts):
            if count:
                share = count / (count + left[place])
                value = model.widths[place] ** power * model.capacities[kind] / filled
                weights[place] += share * (value - weights[place])
                left[place] -= count
        room[kind] -= 1
        pattern = Pattern(kind, fill.counts)
        usage[pattern] = usage.get(pattern, 0) + 1
    return usage, left


def _value(model: Model, kind: int, fill: Fill) -> float:
    cost = model.costs[kind]
    return fill.worth / cost if cost else (float("inf") if fill.worth else 0.0)
