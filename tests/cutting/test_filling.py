"""Filling sticks to the brim, reshuffling and diving, against counting out and known plans."""

from __future__ import annotations

import random
import time
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bracecalc.cutting import PER_INCH, CutTask, Piece, StickKind, plan_cuts
from bracecalc.cutting.firstfit import first_fit
from bracecalc.cutting.model import Model, Pattern, Rest, flaw
from bracecalc.cutting.refill import fill_mix
from bracecalc.cutting.reshuffle import reshuffled
from bracecalc.cutting.state import start
from bracecalc.cutting.subsetsum import Sums, fullest, with_copies

LONG_ENOUGH = 600.0  # s; what is looked for here is found in a small part of it

bags = st.dictionaries(st.integers(1, 12), st.integers(1, 4), min_size=1, max_size=4)


def all_fills(widths: tuple[int, ...], left: tuple[int, ...], room: int) -> list[tuple[int, ...]]:
    """Count out every choice of pieces that fits."""
    return [
        counts
        for counts in product(*(range(count + 1) for count in left))
        if sum(w * n for w, n in zip(widths, counts, strict=True)) <= room
    ]


@given(bags, st.integers(0, 40), st.randoms(use_true_random=False))
def test_a_fill_leaves_least_room(bag: dict[int, int], room: int, rng: random.Random) -> None:
    widths = tuple(sorted(bag, reverse=True))
    left = tuple(bag[width] for width in widths)
    order = list(range(len(widths)))
    rng.shuffle(order)
    cuts, over = Sums.of(widths, left, order, room + rng.randint(0, 9)).fill(room)
    fills = all_fills(widths, left, room)
    sums = [sum(w * n for w, n in zip(widths, counts, strict=True)) for counts in fills]
    assert over == room - max(sums)
    assert sum(widths[place] * count for place, count in cuts) == max(sums)
    assert all(0 < count <= left[place] for place, count in cuts)
    # among the fullest, as many as can be of the first in the order, then of the second
    full = [counts for counts, total in zip(fills, sums, strict=True) if total == max(sums)]
    firsts = max(tuple(counts[place] for place in order) for counts in full)
    taken = dict(cuts)
    assert tuple(taken.get(place, 0) for place in order) == firsts


@given(bags, st.integers(0, 40))
def test_sums_are_those_that_can_be_made(bag: dict[int, int], room: int) -> None:
    sums = 1
    for width, count in bag.items():
        sums = with_copies(sums, width, count, room)
    made = {
        sum(w * n for w, n in zip(bag, counts, strict=True))
        for counts in all_fills(tuple(bag), tuple(bag.values()), room)
    }
    assert {bit for bit in range(room + 1) if sums >> bit & 1} == made
    assert fullest(sums, room) == max(made)


def cut_up(seed: int, sticks: int, spare: int) -> tuple[Model, tuple[int, ...]]:
    """Return a task made by cutting whole sticks up, and the sticks: a plan of them is known."""
    rng = random.Random(seed)
    capacities, counts = (1540, 2308, 3076), [0, 0, 0]
    pieces: dict[int, int] = {}
    for _ in range(sticks):
        kind = rng.randrange(3)
        counts[kind] += 1
        room = capacities[kind]
        while room > 0:
            piece = room if room < 100 else rng.randint(50, min(room, 770))
            pieces[piece] = pieces.get(piece, 0) + 1
            room -= piece
    shortest = min(pieces)
    for _ in range(spare):  # less to cut makes it easier: 0 leaves no waste at all
        pieces[shortest] -= 1
        pieces = {width: count for width, count in pieces.items() if count}
        shortest = min(pieces)
    widths = tuple(sorted(pieces, reverse=True))
    demand = tuple(pieces[width] for width in widths)
    most = sum(demand)
    model = Model(
        widths=widths,
        demand=demand,
        capacities=capacities,
        costs=(400, 640, 920),
        limits=(most, most, most),
    )
    return model, tuple(counts)


@pytest.mark.parametrize("sticks", [20, 100, 300])
@pytest.mark.parametrize("spare", [0, 2])
def test_a_mix_that_holds_all_pieces_is_filled(sticks: int, spare: int) -> None:
    model, mix = cut_up(sticks, sticks, spare)
    usage = fill_mix(model, mix, random.Random(2), time.monotonic() + LONG_ENOUGH)
    assert usage is not None
    assert flaw(model, usage) == ""
    taken = [0] * len(mix)
    for pattern, times in usage.items():
        taken[pattern.kind] += times
    assert all(used <= most for used, most in zip(taken, mix, strict=True))


def test_a_mix_that_is_too_short_is_not_filled() -> None:
    model, mix = cut_up(7, 30, 0)
    shorter = (mix[0] - 1, *mix[1:])
    assert fill_mix(model, shorter, random.Random(1), time.monotonic() + LONG_ENOUGH) is None


@pytest.mark.parametrize("seed", range(12))
def test_reshuffling_never_makes_a_plan_dearer(seed: int) -> None:
    rng = random.Random(seed)
    widths = tuple(sorted(rng.sample(range(50, 900), 12), reverse=True))
    demand = tuple(rng.randint(1, 6) for _ in widths)
    most = sum(demand)
    model = Model(
        widths=widths,
        demand=demand,
        capacities=(1540, 2308, 3076, 700),
        costs=(400, 640, 920, 0),
        limits=(most, most, most, 2),  # the last: offcuts on hand
    )
    before = first_fit(model)
    after = reshuffled(model, before, widths, rng, time.monotonic() + 0.2, at_least=0)
    assert flaw(model, after) == ""
    assert model.cost_of(after) <= model.cost_of(before)


def test_reshuffling_finds_the_plan_that_is_known() -> None:
    model, mix = cut_up(3, 6, 2)
    known = sum(cost * count for cost, count in zip(model.costs, mix, strict=True))
    alone = {
        Pattern(2, tuple(int(at == place) for at in range(len(model.widths)))): count
        for place, count in enumerate(model.demand)
    }
    until = time.monotonic() + LONG_ENOUGH
    found = reshuffled(model, alone, model.widths, random.Random(4), until, at_least=known)
    assert flaw(model, found) == ""
    assert model.cost_of(found) <= known


def test_the_best_plan_is_kept() -> None:
    model, _ = cut_up(5, 20, 2)
    state = start(model, LONG_ENOUGH)
    best = state.best
    alone = {
        Pattern(2, tuple(int(at == place) for at in range(len(model.widths)))): count
        for place, count in enumerate(model.demand)
    }
    state.offer(alone)
    assert state.best == best
    state.offer({})
    assert state.best == best


@pytest.mark.parametrize(("lengths", "pieces"), [(300, 800), (400, 800), (400, 20_000)])
def test_hundreds_of_lengths_are_proven(lengths: int, pieces: int) -> None:
    """Every stick comes out full, so that the bound of total length is met."""
    rng = random.Random(f"{lengths}/{pieces}")
    chosen = rng.sample(range(3 * 16, 48 * 16 + 1), lengths)
    counts = [1] * lengths
    for _ in range(pieces - lengths):
        counts[rng.randrange(lengths)] += 1
    prices = {8: 398, 10: 548, 12: 638, 14: 798, 16: 918}  # feet: cents, invented
    task = CutTask(
        pieces=tuple(
            Piece(length=sixteenths * PER_INCH // 16, count=count)
            for sixteenths, count in zip(chosen, counts, strict=True)
        ),
        sticks=tuple(
            StickKind(length=12 * feet * PER_INCH, price=cents) for feet, cents in prices.items()
        ),
    )
    plan = plan_cuts(task, time_limit=LONG_ENOUGH)
    assert plan.proven


def test_a_dive_cuts_no_piece_twice_and_leaves_the_program_as_it_was() -> None:
    pytest.importorskip("highspy")
    from bracecalc.cutting.dive import dive
    from bracecalc.cutting.search import seeded

    model, mix = cut_up(11, 8, 2)
    master = seeded(model, first_fit(model))
    until = time.monotonic() + LONG_ENOUGH
    before = sum(model.costs[p.kind] * share for p, share in master.relax(until).uses.items())
    for limits in (mix, model.limits):
        base = dive(master, limits, random.Random(1), until)
        rest = Rest.after(model, base)
        assert base
        assert all(count <= wanted for count, wanted in zip(_made(base), model.demand, strict=True))
        assert min(rest.model.limits) >= 0
        taken = rest.sticks_used
        assert all(used <= most for used, most in zip(taken, limits, strict=True))
    assert master.solve(until)
    after = sum(model.costs[p.kind] * share for p, share in master.uses().items())
    assert after == pytest.approx(before, rel=1e-9)


def _made(usage: dict[Pattern, int]) -> list[int]:
    rows = [[count * times for count in p.counts] for p, times in usage.items()]
    return [sum(column) for column in zip(*rows, strict=True)]


weighed = st.dictionaries(
    st.integers(1, 12), st.tuples(st.integers(1, 4), st.integers(0, 30)), min_size=1, max_size=4
)


@given(weighed, st.integers(12, 40))
def test_the_fill_of_most_weight_against_counting_out(
    bag: dict[int, tuple[int, int]], room: int
) -> None:
    pytest.importorskip("numpy")
    from bracecalc.cutting.knapsack import best_fills

    widths = tuple(sorted(bag, reverse=True))
    demand = tuple(bag[width][0] for width in widths)
    weights = tuple(bag[width][1] for width in widths)
    model = Model(
        widths=widths, demand=demand, capacities=(room, room - 5), costs=(1, 1), limits=(9, 9)
    )
    for capacity, fill in zip(model.capacities, best_fills(model, weights), strict=True):
        most = max(
            sum(weight * n for weight, n in zip(weights, counts, strict=True))
            for counts in all_fills(widths, demand, capacity)
        )
        assert fill.worth == most
        assert sum(weight * n for weight, n in zip(weights, fill.counts, strict=True)) == most
        assert fill.counts in all_fills(widths, demand, capacity)
