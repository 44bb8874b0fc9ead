"""Sequential value correction: fill stick after stick, and let pieces that cause waste weigh more.

Source: G. Belov and G. Scheithauer, "Setup and open-stacks minimization in one-dimensional stock
cutting", INFORMS Journal on Computing 19 (2007), for the principle; the weights here are our own.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace

from bracecalc.cutting.firstfit import first_fit
from bracecalc.cutting.knapsack import best_fills
from bracecalc.cutting.model import Counts, Model, Pattern, Rest, Usage

SCALE = 1 << 10


def corrected_plans(model: Model, mix: Counts, rng: random.Random) -> Iterator[Usage]:
    """Yield plan after plan; each fills the sticks of the mix, then what else is needed.

    Args:
        model: the task.
        mix: how many sticks of each kind to fill first.
        rng: draws the order of the kinds and how strongly weights are corrected.
    """
    weights = [float(width) for width in model.widths]
    while True:
        usage, left = _fill_mix(model, mix, weights, rng)
        if any(left):
            rest = Rest.after(model, usage)
            try:
                tail = first_fit(rest.model)
            except ValueError:
                return
            for pattern, times in rest.widen(tail).items():
                usage[pattern] = usage.get(pattern, 0) + times
        yield usage


def _fill_mix(
    model: Model, mix: Counts, weights: list[float], rng: random.Random
) -> tuple[Usage, list[int]]:
    left = list(model.demand)
    sticks = [kind for kind, count in enumerate(mix) for _ in range(count)]
    rng.shuffle(sticks)
    power = rng.uniform(1.0, 1.1)
    usage: Usage = {}
    for kind in sticks:
        if not any(left):
            break
        capacity = model.capacities[kind]
        now = replace(model, demand=tuple(left), capacities=(capacity,))
        whole = [round(weight * SCALE) for weight in weights]
        counts = best_fills(now, whole)[0].counts
        filled = sum(w * n for w, n in zip(model.widths, counts, strict=True))
        if not filled:
            continue
        for place, count in enumerate(counts):
            if count:
                share = count / (count + left[place])
                value = model.widths[place] ** power * capacity / filled
                weights[place] += share * (value - weights[place])
                left[place] -= count
        pattern = Pattern(kind, counts)
        usage[pattern] = usage.get(pattern, 0) + 1
    return usage, left
