"""The best way to fill one stick for given weights of the pieces, exactly, in integers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bracecalc.cutting.model import Counts, Model


@dataclass(frozen=True, slots=True)
class Fill:
    """The most weight that a stick can hold, and the pieces that weigh it."""

    worth: int
    counts: Counts


def best_fills(model: Model, weights: Sequence[int]) -> list[Fill]:
    """Return the fill of most weight for each kind of stick, no more pieces than are wanted.

    Dynamic programming over the room of the longest stick; a count is made of powers of two.

    Args:
        model: the task.
        weights: of each piece, whole and not less than 0.

    Raises:
        ValueError: if a weight is negative.

    >>> model = Model(widths=(5, 3), demand=(2, 2), capacities=(8, 9), costs=(1, 1), limits=(4, 4))
    >>> best_fills(model, [6, 3])
    [Fill(worth=9, counts=(1, 1)), Fill(worth=9, counts=(1, 1))]
    """
    import numpy as np

    if min(weights) < 0:
        raise ValueError(f"weights must not be negative, got {weights!r}")
    longest = max(model.capacities)
    steps = []
    for place, (width, count) in enumerate(zip(model.widths, model.demand, strict=True)):
        left, size = min(count, longest // width) if weights[place] else 0, 1
        while left:
            take = min(size, left)
            left -= take
            size *= 2
            steps.append((place, take, take * width, take * weights[place]))
    value, scratch = np.zeros(longest + 1, dtype=np.int64), np.empty(longest + 1, dtype=np.int64)
    better = np.zeros((len(steps), longest + 1), dtype=np.bool_)
    for row, (_, _, shift, weight) in zip(better, steps, strict=True):
        held, tried = value[shift:], scratch[shift:]
        np.add(value[:-shift], weight, out=tried)
        np.greater(tried, held, out=row[shift:])
        np.maximum(tried, held, out=held)
    fills = []
    for capacity in model.capacities:
        counts, room = [0] * len(model.widths), capacity
        for row, (place, take, shift, _) in zip(better[::-1], reversed(steps), strict=True):
            if row[room]:
                counts[place] += take
                room -= shift
        fills.append(Fill(int(value[capacity]), tuple(counts)))
    return fills
