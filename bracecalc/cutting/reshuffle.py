"""Make a plan cheaper: take a few sticks apart and cut their pieces out of fewer or cheaper ones.

Needs no solver. Source of the principle: G. Schrimpf et al., "Record breaking optimization results
using the ruin and recreate principle", Journal of Computational Physics 159 (2000).
"""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Sequence

from bracecalc.cutting.model import Cuts, Model, Usage, cuts_of, pattern_of
from bracecalc.cutting.subsetsum import Sums

Stick = tuple[int, Cuts]  # kind, what it is cut into

TAKEN_APART = (2, 6)  # sticks, at least and at most
NOISE = (0.0, 0.1, 0.3, 0.6)  # how much the order may differ from longest first
LEEWAY = 0.03  # how much dearer for its worth the stick that is taken may be
ROUNDS_A_LOOK = 16  # rounds between two looks at the clock


def reshuffled(
    model: Model,
    usage: Usage,
    weights: Sequence[float],
    rng: random.Random,
    deadline: float,
    *,
    at_least: int,
) -> Usage:
    """Return a plan that costs no more than the one given.

    Args:
        model: the task.
        usage: a plan that holds.
        weights: what a piece of each length is worth; the sticks that give most for their price
            are preferred.
        rng: draws the sticks and the order of the pieces.
        deadline: on the monotonic clock, s.
        at_least: a cost that is good enough to stop.

    >>> model = Model(widths=(6, 4, 3), demand=(2, 2, 2), capacities=(10, 13), costs=(10, 13),
    ...               limits=(6, 6))
    >>> poor = {pattern_of(0, ((0, 1), (2, 1)), 3): 2, pattern_of(0, ((1, 2),), 3): 1}
    >>> better = reshuffled(model, poor, model.widths, random.Random(1), time.monotonic() + 5,
    ...                     at_least=26)
    >>> model.cost_of(better)
    26
    """
    sticks: Counter[Stick] = Counter()
    for pattern, times in usage.items():
        sticks[pattern.kind, cuts_of(pattern)] = times
    cost = model.cost_of(usage)
    hand = list(model.limits)  # sticks of each kind that are still to be had
    for (kind, _), times in sticks.items():
        hand[kind] -= times
    keys = list(sticks)
    while cost > at_least and time.monotonic() < deadline:
        for _ in range(ROUNDS_A_LOOK):
            out = rng.sample(keys, min(len(keys), rng.randint(*TAKEN_APART)))
            ceiling = sum(model.costs[kind] for kind, _ in out)
            made = _cut_anew(model, out, hand, weights, rng, ceiling)
            if made is None:
                continue
            cost += sum(model.costs[kind] for kind, _ in made) - ceiling
            _exchange(sticks, hand, out, made)
            keys = list(sticks)
    size = len(model.widths)
    return {pattern_of(kind, cuts, size): times for (kind, cuts), times in sticks.items()}


def _exchange(
    sticks: Counter[Stick], hand: list[int], out: Sequence[Stick], made: Sequence[Stick]
) -> None:
    for stick in out:
        hand[stick[0]] += 1
        sticks[stick] -= 1
        if not sticks[stick]:
            del sticks[stick]
    for stick in made:
        hand[stick[0]] -= 1
        sticks[stick] += 1


def _cut_anew(
    model: Model,
    out: Sequence[Stick],
    hand: Sequence[int],
    weights: Sequence[float],
    rng: random.Random,
    ceiling: int,
) -> list[Stick] | None:
    """Return other sticks for the same pieces; None if they would cost more than the ceiling."""
    left: dict[int, int] = {}
    room = list(hand)
    for kind, cuts in out:
        room[kind] += 1
        for place, count in cuts:
            left[place] = left.get(place, 0) + count
    noise = rng.choice(NOISE)
    order = sorted(left, key=lambda place: -model.widths[place] * rng.uniform(1 - noise, 1))
    made: list[Stick] = []
    spent = 0
    while order:
        stick = _best_stick(model, left, order, room, weights, rng)
        if stick is None:
            return None
        kind, cuts = stick
        spent += model.costs[kind]
        if spent > ceiling:
            return None
        room[kind] -= 1
        made.append(stick)
        for place, count in cuts:
            left[place] -= count
        order = [place for place in order if left[place]]
    return made


def _best_stick(
    model: Model,
    left: dict[int, int],
    order: Sequence[int],
    room: Sequence[int],
    weights: Sequence[float],
    rng: random.Random,
) -> Stick | None:
    """Return the stick, filled to the most, that costs about the least for what it gives."""
    kinds = [kind for kind, count in enumerate(room) if count > 0]
    if not kinds:
        return None
    sums = Sums.of(model.widths, left, order, max(model.capacities[kind] for kind in kinds))
    best: Stick | None = None
    least = float("inf")
    for kind in kinds:
        cuts, _ = sums.fill(model.capacities[kind])
        worth = sum(weights[place] * count for place, count in cuts)
        if worth <= 0:
            continue
        price = model.costs[kind] / worth * rng.uniform(1, 1 + LEEWAY)
        if price < least:
            best, least = (kind, cuts), price
    return best
