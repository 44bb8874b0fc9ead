"""The cutting task as plain integers, and the check that every answer must pass."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace

from bracecalc.cutting.records import CutPlan, CutStick, CutTask

Counts = tuple[int, ...]  # how many of each length, in the order of Model.widths


@dataclass(frozen=True, slots=True)
class Pattern:
    """One way to cut one stick: ``kind`` is its place in the model's lists."""

    kind: int
    counts: Counts


Usage = dict[Pattern, int]  # how many sticks are cut by each pattern
Cuts = tuple[tuple[int, int], ...]  # what one stick is cut into: (place of the length, how many)


def cuts_of(pattern: Pattern) -> Cuts:
    """Return the lengths that a pattern does cut.

    >>> cuts_of(Pattern(0, (0, 2, 0, 1)))
    ((1, 2), (3, 1))
    """
    return tuple((place, count) for place, count in enumerate(pattern.counts) if count)


def pattern_of(kind: int, cuts: Cuts, lengths: int) -> Pattern:
    """Return the pattern of cuts where there are so many lengths.

    >>> pattern_of(0, ((1, 2), (3, 1)), 4)
    Pattern(kind=0, counts=(0, 2, 0, 1))
    """
    counts = [0] * lengths
    for place, count in cuts:
        counts[place] = count
    return Pattern(kind, tuple(counts))


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """The task with each piece and each stick one kerf longer, so that lengths just add up.

    ``widths`` fall; ``limits`` are how many sticks of a kind can be had (enough for every piece
    where there is no limit). Widths and capacities are divided by what the widths share.
    """

    widths: tuple[int, ...]
    demand: Counts
    capacities: tuple[int, ...]
    costs: tuple[int, ...]
    limits: tuple[int, ...]

    @property
    def unlimited(self) -> tuple[bool, ...]:
        """Whether the limit of each kind can't bind."""
        most = sum(self.demand)
        return tuple(limit >= most for limit in self.limits)

    def cost_of(self, usage: Usage) -> int:
        """Return what the sticks cost together."""
        return sum(self.costs[pattern.kind] * times for pattern, times in usage.items())

    def rank(self, usage: Usage) -> tuple[int, int]:
        """Return what a better plan has less of: cost first, then sticks."""
        return self.cost_of(usage), sum(usage.values())


@dataclass(frozen=True, slots=True)
class Rest:
    """What part of a plan leaves over, as a model of its own with only the lengths still wanted.

    ``places`` says where each length stands in the whole model.
    """

    model: Model
    places: tuple[int, ...]
    size: int
    sticks_used: Counts

    @classmethod
    def after(cls, model: Model, base: Usage) -> Rest:
        """Return the rest after some sticks are cut; limits below 0 mean too many were."""
        left = list(model.demand)
        used = [0] * len(model.costs)
        for pattern, times in base.items():
            used[pattern.kind] += times
            for place, count in enumerate(pattern.counts):
                left[place] -= count * times
        places = tuple(place for place, count in enumerate(left) if count > 0)
        rest = replace(
            model,
            widths=tuple(model.widths[place] for place in places),
            demand=tuple(left[place] for place in places),
            limits=tuple(limit - taken for limit, taken in zip(model.limits, used, strict=True)),
        )
        return cls(rest, places, len(left), tuple(used))

    def clip(self, pattern: Pattern) -> Pattern:
        """Return a pattern of the whole model with no more pieces than are left."""
        counts = (
            min(pattern.counts[place], wanted)
            for place, wanted in zip(self.places, self.model.demand, strict=True)
        )
        return Pattern(pattern.kind, tuple(counts))

    def widen(self, usage: Usage) -> Usage:
        """Return a usage of the rest in the lengths of the whole model."""
        result: Usage = {}
        for pattern, times in usage.items():
            counts = [0] * self.size
            for place, count in zip(self.places, pattern.counts, strict=True):
                counts[place] = count
            result[Pattern(pattern.kind, tuple(counts))] = times
        return result


def kind_costs(task: CutTask) -> tuple[tuple[int, ...], bool]:
    """Return the cost of each kind of stick, and whether the costs are money.

    With a price missing on what must be bought the costs are lengths: least length bought.
    """
    priced = all(kind.price is not None or kind.on_hand is not None for kind in task.sticks)
    costs = []
    for kind in task.sticks:
        if kind.price is not None and priced:
            costs.append(kind.price)
        elif kind.on_hand is not None:
            costs.append(0)
        else:
            costs.append(kind.length)
    return tuple(costs), priced


def build_model(task: CutTask) -> Model:
    """Return the task as a model.

    Raises:
        ValueError: if a length or count is not more than 0, or a piece fits no stick.

    >>> from bracecalc.cutting.records import Piece, StickKind
    >>> task = CutTask(pieces=(Piece(length=1000, count=3),), sticks=(StickKind(length=3072),))
    >>> build_model(task).widths, build_model(task).capacities
    ((1,), (3,))
    """
    demand: Counter[int] = Counter()
    for piece in task.pieces:
        if piece.length <= 0 or piece.count < 0:
            raise ValueError(f"a piece needs a length and a count, got {piece!r}")
        demand[piece.length] += piece.count
    lengths = sorted((length for length, count in demand.items() if count), reverse=True)
    most = sum(demand.values())
    unit = math.gcd(*(length + task.saw.kerf for length in lengths)) if lengths else 1
    room = tuple(usable(task, kind.length) // unit for kind in task.sticks)
    model = Model(
        widths=tuple((length + task.saw.kerf) // unit for length in lengths),
        demand=tuple(demand[length] for length in lengths),
        capacities=room,
        costs=kind_costs(task)[0],
        limits=tuple(
            most if kind.on_hand is None else min(kind.on_hand, most) for kind in task.sticks
        ),
    )
    if model.widths and (not room or max(room) < model.widths[0]):
        raise ValueError("the longest piece fits no stick")
    return model


def usable(task: CutTask, stick: int) -> int:
    """Return the room of a stick for pieces with a kerf each, 1/32 in; less than 0 is 0.

    The last piece needs no cut where it ends with the stick; an end trim is a cut of its own.

    >>> usable(CutTask(pieces=(), sticks=()), 3072)
    3076
    """
    saw = task.saw
    trims = 2 * (saw.trim + saw.kerf) if saw.trim else 0
    return max(0, stick - trims + saw.kerf)


def trim_surplus(model: Model, usage: Usage) -> Usage:
    """Return the usage without the pieces that were cut beyond the demand."""
    surplus = [-wanted for wanted in model.demand]
    for pattern, times in usage.items():
        for place, count in enumerate(pattern.counts):
            surplus[place] += count * times
    result: Usage = {}
    work = [(pattern, times) for pattern, times in usage.items() if times]
    while work:
        pattern, times = work.pop()
        excess = tuple(
            max(0, min(count, left)) for count, left in zip(pattern.counts, surplus, strict=True)
        )
        if not any(excess):
            result[pattern] = result.get(pattern, 0) + times
            continue
        alike = min(left // take for left, take in zip(surplus, excess, strict=True) if take)
        alike = min(alike, times)
        slim = tuple(count - take for count, take in zip(pattern.counts, excess, strict=True))
        for place, take in enumerate(excess):
            surplus[place] -= take * alike
        if any(slim):
            kept = Pattern(pattern.kind, slim)
            result[kept] = result.get(kept, 0) + alike
        if times > alike:
            work.append((pattern, times - alike))
    return result


def shrink(model: Model, usage: Usage) -> Usage:
    """Return the usage with each pattern on the cheapest stick that holds it."""
    left = list(model.limits)
    result: Usage = {}
    order = sorted(range(len(model.costs)), key=lambda k: (model.costs[k], model.capacities[k]))
    filled = {
        pattern: sum(w * n for w, n in zip(model.widths, pattern.counts, strict=True))
        for pattern in usage
    }
    for pattern in sorted(usage, key=lambda p: -filled[p]):
        times = usage[pattern]
        for kind in order:
            if model.capacities[kind] < filled[pattern] or not times:
                continue
            here = min(times, left[kind])
            left[kind] -= here
            times -= here
            if here:
                moved = Pattern(kind, pattern.counts)
                result[moved] = result.get(moved, 0) + here
        if times:
            return usage  # a limited kind ran out: the usage as it stood is still good
    return result


def flaw(model: Model, usage: Usage) -> str:
    """Return what is wrong with a usage, worked out in integers; empty if it holds.

    >>> model = Model(widths=(40,), demand=(3,), capacities=(100,), costs=(5,), limits=(3,))
    >>> flaw(model, {Pattern(0, (2,)): 1})
    'pieces made [2] are not those wanted (3,)'
    """
    made = [0] * len(model.widths)
    taken = [0] * len(model.costs)
    for pattern, times in usage.items():
        if times < 1 or min(pattern.counts) < 0:
            return f"negative counts in {pattern!r}"
        filled = sum(w * n for w, n in zip(model.widths, pattern.counts, strict=True))
        if filled > model.capacities[pattern.kind]:
            return f"{pattern!r} overfills its stick"
        taken[pattern.kind] += times
        for place, count in enumerate(pattern.counts):
            made[place] += count * times
    if tuple(made) != model.demand:
        return f"pieces made {made} are not those wanted {model.demand}"
    if any(used > limit for used, limit in zip(taken, model.limits, strict=True)):
        return "more offcuts used than are on hand"
    return ""


def write_plan(task: CutTask, usage: Usage, bound: int, method: str) -> CutPlan:
    """Return the plan of a usage, every number worked out anew from the task's own lengths.

    Raises:
        ValueError: if the plan doesn't hold in 1/32 in, or the bound lies above its cost.
    """
    model = build_model(task)
    wrong = flaw(model, usage)
    if wrong:
        raise ValueError(wrong)
    lengths = sorted({piece.length for piece in task.pieces if piece.count}, reverse=True)
    costs, priced = kind_costs(task)
    rows = []
    for pattern, times in usage.items():
        kind = task.sticks[pattern.kind]
        cuts = tuple(
            (length, count) for length, count in zip(lengths, pattern.counts, strict=True) if count
        )
        filled = sum((length + task.saw.kerf) * count for length, count in cuts)
        if filled > usable(task, kind.length):
            raise ValueError(f"{cuts!r} overfill a stick of {kind.length}/32 in")
        left = max(0, usable(task, kind.length) - filled - task.saw.kerf)
        rows.append(CutStick(stick=kind, cuts=cuts, count=times, left_over=left))
    rows.sort(key=lambda row: (-row.stick.length, tuple((-a, -b) for a, b in row.cuts)))
    cost = sum(costs[pattern.kind] * times for pattern, times in usage.items())
    if bound > cost:
        raise ValueError(f"bound {bound} above cost {cost}: the bound is wrong")
    return CutPlan(sticks=tuple(rows), cost=cost, bound=bound, priced=priced, method=method)


def best_of(model: Model, usages: Iterable[Usage]) -> Usage:
    """Return the usage of least cost, then of fewest sticks."""
    return min(usages, key=model.rank)
