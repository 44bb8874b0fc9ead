"""First-fit decreasing, in patterns instead of single sticks: quick, and never far off."""

from __future__ import annotations

from bisect import bisect_left

from bracecalc.cutting.model import Model, Pattern, Usage, best_of, shrink


def first_fit(model: Model) -> Usage:
    """Return the best first-fit-decreasing plan over every choice of the stick to fill.

    Offcuts on hand that cost nothing are filled first; then each kind that can be bought is
    tried alone, and each stick is exchanged for the cheapest that holds its pieces.

    Raises:
        ValueError: if the sticks on hand run out and none can be bought.

    >>> model = Model(widths=(5, 3), demand=(2, 2), capacities=(8,), costs=(1,), limits=(4,))
    >>> first_fit(model)
    {Pattern(kind=0, counts=(1, 1)): 2}
    """
    if not model.widths:
        return {}
    kinds = range(len(model.costs))
    on_hand = [k for k in kinds if not model.unlimited[k]]
    tries = []
    for buy in kinds:
        if not model.unlimited[buy] or model.capacities[buy] < model.widths[0]:
            continue
        for first in ([], on_hand) if on_hand else ([],):
            usage = fill(model, [*first, buy])
            if usage is not None:
                tries += [usage, shrink(model, usage)]
    longest = sorted(kinds, key=lambda k: -model.capacities[k])
    if not tries:
        usage = fill(model, longest)
        if usage is not None:
            tries = [usage, shrink(model, usage)]
    if not tries:
        raise ValueError("the sticks on hand do not hold the pieces, and none can be bought")
    return best_of(model, tries)


def fill(model: Model, order: list[int]) -> Usage | None:
    """Fill the kinds in this order, longest piece first; None if pieces are left over.

    Filling stick after stick with the longest piece that still fits puts every piece where
    first-fit decreasing puts it; a pattern is repeated for as long as its pieces last.
    """
    widths = list(model.widths)
    left = list(model.demand)
    places = list(range(len(widths)))
    usage: Usage = {}
    for kind in order:
        sticks = model.limits[kind]
        while sticks and places:
            cuts = _fill_one(widths, left, model.capacities[kind])
            if not cuts:
                break
            times = min(sticks, *(left[at] // take for at, take in cuts))
            counts = [0] * len(model.widths)
            for at, take in cuts:
                counts[places[at]] = take
                left[at] -= take * times
            pattern = Pattern(kind, tuple(counts))
            usage[pattern] = usage.get(pattern, 0) + times
            sticks -= times
            for at, _ in reversed(cuts):
                if not left[at]:
                    del widths[at], left[at], places[at]
    return None if places else usage


def _fill_one(widths: list[int], left: list[int], room: int) -> list[tuple[int, int]]:
    """Return (place, how many) of one stick, the longest piece that fits first."""
    cuts: list[tuple[int, int]] = []
    at = 0
    while True:
        at = bisect_left(widths, -room, lo=at, key=lambda width: -width)
        if at == len(widths):
            return cuts
        take = min(left[at], room // widths[at])
        cuts.append((at, take))
        room -= take * widths[at]
        at += 1
