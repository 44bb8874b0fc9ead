"""Cutting plans against an exhaustive search, the rule of the saw, and the limits."""

from __future__ import annotations

import math
import random
import sys
import time
from functools import cache
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bracecalc import cutting
from bracecalc.cutting import (
    PER_INCH,
    CutPlan,
    CutTask,
    Piece,
    Saw,
    StickKind,
    first_fit_plan,
    master,
    plan_cuts,
)
from bracecalc.cutting.bound import least_mix, length_rule
from bracecalc.cutting.model import Model, Pattern, flaw, write_plan
from bracecalc.cutting.settle import Verdict as Settle
from bracecalc.cutting.settle import settle

INCH = PER_INCH
FOOT = 12 * INCH
FIVE_STICKS = {8: 398, 10: 548, 12: 638, 14: 798, 16: 918}  # feet: cents, invented


def five_sticks() -> tuple[StickKind, ...]:
    return tuple(StickKind(length=ft * FOOT, price=cents) for ft, cents in FIVE_STICKS.items())


def least_cost(task: CutTask) -> int:
    """Exhaustive: every way to cut the stick that the longest piece left comes from."""
    lengths = sorted({piece.length for piece in task.pieces}, reverse=True)
    start = tuple(sum(p.count for p in task.pieces if p.length == at) for at in lengths)

    def fits(counts: tuple[int, ...], stick: int) -> bool:
        pieces = sum(counts)
        cut = sum(at * n for at, n in zip(lengths, counts, strict=True))
        trims = 2 * (task.saw.trim + task.saw.kerf) if task.saw.trim else 0
        return cut + (pieces - 1) * task.saw.kerf + trims <= stick

    @cache
    def rest(left: tuple[int, ...], hand: tuple[int, ...]) -> float:
        if not any(left):
            return 0
        first = next(place for place, count in enumerate(left) if count)
        best = float("inf")
        for kind, stick in enumerate(task.sticks):
            if hand[kind] == 0:
                continue
            fewer = tuple(n - (k == kind and n > 0) for k, n in enumerate(hand))
            price = stick.price if stick.price is not None else 0
            for counts in product(*(range(count + 1) for count in left)):
                if counts[first] and fits(counts, stick.length):
                    then = tuple(a - b for a, b in zip(left, counts, strict=True))
                    best = min(best, price + rest(then, fewer))
        return best

    hand = tuple(-1 if kind.on_hand is None else kind.on_hand for kind in task.sticks)
    return int(rest(start, hand))


def check_by_hand(task: CutTask, plan: CutPlan) -> None:
    """Every stick by the rule itself: pieces, kerfs between them, trims; and all pieces made."""
    made: dict[int, int] = {}
    for row in plan.sticks:
        pieces = sum(count for _, count in row.cuts)
        used = sum(length * count for length, count in row.cuts) + (pieces - 1) * task.saw.kerf
        if task.saw.trim:
            used += 2 * (task.saw.trim + task.saw.kerf)
        assert used <= row.stick.length
        assert row.left_over in (row.stick.length - used - task.saw.kerf, 0)
        for length, count in row.cuts:
            made[length] = made.get(length, 0) + count * row.count
    wanted: dict[int, int] = {}
    for piece in task.pieces:
        wanted[piece.length] = wanted.get(piece.length, 0) + piece.count
    assert made == {length: count for length, count in wanted.items() if count}
    for kind in task.sticks:
        used_sticks = sum(row.count for row in plan.sticks if row.stick == kind)
        assert kind.on_hand is None or used_sticks <= kind.on_hand


def small_task(rng: random.Random) -> CutTask:
    lengths = rng.sample(range(6 * INCH, 40 * INCH), rng.randint(1, 4))
    pieces = tuple(Piece(length=length, count=rng.randint(1, 3)) for length in lengths)
    sticks = tuple(
        StickKind(length=rng.randint(40, 100) * INCH, price=rng.randint(100, 400))
        for _ in range(rng.randint(1, 3))
    )
    if rng.random() < 0.4:
        sticks += (StickKind(length=rng.randint(10, 60) * INCH, on_hand=rng.randint(1, 2)),)
    return CutTask(pieces=pieces, sticks=sticks, saw=Saw(kerf=4, trim=rng.choice((0, 8))))


@pytest.mark.parametrize("seed", range(60))
def test_small_tasks_against_exhaustive_search(seed: int) -> None:
    task = small_task(random.Random(seed))
    best = least_cost(task)
    plan = plan_cuts(task, time_limit=2.0)
    check_by_hand(task, plan)
    assert plan.bound <= best <= plan.cost
    if plan.proven:
        assert plan.cost == best
    first = first_fit_plan(task)
    check_by_hand(task, first)
    assert first.bound <= best <= first.cost


def test_most_small_tasks_are_proven() -> None:
    proven = sum(
        plan_cuts(small_task(random.Random(seed)), time_limit=1.0).proven
        for seed in range(100, 140)
    )
    assert proven >= 30


lengths_and_counts = st.dictionaries(
    st.integers(INCH, 90 * INCH), st.integers(1, 30), min_size=1, max_size=6
)


@settings(max_examples=40, deadline=None)
@given(lengths_and_counts, st.sampled_from((0, 1, 4, 5)), st.sampled_from((0, 3, 16)))
def test_every_plan_can_be_sawn(counts: dict[int, int], kerf: int, trim: int) -> None:
    pieces = tuple(Piece(length=length, count=count) for length, count in counts.items())
    task = CutTask(pieces=pieces, sticks=five_sticks(), saw=Saw(kerf=kerf, trim=trim))
    plan = plan_cuts(task, time_limit=0.3)
    check_by_hand(task, plan)
    assert plan.bound <= plan.cost <= first_fit_plan(task).cost


def test_the_last_piece_needs_no_kerf() -> None:
    # two pieces of 47-15/16 and one kerf of 1/8 are 96 in exactly; 1/32 more needs a second stick
    stick = (StickKind(length=8 * FOOT, price=398),)
    exact = CutTask(pieces=(Piece(length=47 * INCH + 30, count=2),), sticks=stick, saw=Saw(kerf=4))
    assert plan_cuts(exact).stick_count == 1
    over = CutTask(pieces=(Piece(length=47 * INCH + 31, count=2),), sticks=stick, saw=Saw(kerf=4))
    assert plan_cuts(over).stick_count == 2


def test_a_trim_takes_a_kerf_at_each_end() -> None:
    stick = (StickKind(length=8 * FOOT, price=398),)
    saw = Saw(kerf=4, trim=16)
    fits = CutTask(pieces=(Piece(length=8 * FOOT - 40, count=1),), sticks=stick, saw=saw)
    assert plan_cuts(fits).stick_count == 1
    longer = CutTask(pieces=(Piece(length=8 * FOOT - 39, count=1),), sticks=stick, saw=saw)
    with pytest.raises(ValueError, match="longest piece"):
        plan_cuts(longer)


def test_offcuts_on_hand_come_first_and_no_more_than_there_are() -> None:
    task = CutTask(
        pieces=(Piece(length=33 * INCH, count=5),),
        sticks=(*five_sticks(), StickKind(length=35 * INCH, on_hand=2)),
    )
    plan = plan_cuts(task)
    from_hand = [row for row in plan.sticks if row.stick.on_hand is not None]
    assert sum(row.count for row in from_hand) == 2
    # three pieces are left: 2 from an 8 ft stick and 1 from another, or 3 from one of 10 ft
    assert plan.cost == 548
    assert plan.proven


def test_offcuts_alone_that_do_not_suffice() -> None:
    task = CutTask(
        pieces=(Piece(length=33 * INCH, count=3),),
        sticks=(StickKind(length=35 * INCH, on_hand=2),),
    )
    with pytest.raises(ValueError, match="on hand"):
        plan_cuts(task)


def test_without_prices_the_length_bought_is_least_then_the_sticks() -> None:
    # 4 pieces of 31-1/2 in: 16 ft gives 6; 12 ft gives 4 (126 + 3/8 in); two of 8 ft are longer
    sticks = tuple(StickKind(length=ft * FOOT) for ft in FIVE_STICKS)
    task = CutTask(pieces=(Piece(length=31 * INCH + 16, count=4),), sticks=sticks)
    plan = plan_cuts(task)
    assert not plan.priced
    assert (plan.cost, plan.stick_count) == (12 * FOOT, 1)
    # 6 pieces: one of 16 ft, or 8 ft + 8 ft (3 + 3): the same length, and one stick less
    six = CutTask(pieces=(Piece(length=31 * INCH + 16, count=6),), sticks=sticks)
    plan = plan_cuts(six)
    assert (plan.cost, plan.stick_count, plan.proven) == (16 * FOOT, 1, True)


def test_nothing_to_cut() -> None:
    plan = plan_cuts(CutTask(pieces=(), sticks=five_sticks()))
    assert (plan.sticks, plan.cost, plan.bound, plan.proven) == ((), 0, 0, True)


def test_without_the_solver_a_plan_all_the_same_and_says_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(cutting, "installed", lambda: False)
    monkeypatch.setattr(cutting, "find_cuts", None)  # must not be reached
    for name in ("numpy", "highspy"):
        monkeypatch.setitem(sys.modules, name, None)  # whoever imports it fails
    rng = random.Random(8)
    lengths = rng.sample(range(3 * INCH, 48 * INCH), 40)
    pieces = tuple(Piece(length=length, count=rng.randint(1, 5)) for length in lengths)
    task = CutTask(pieces=pieces, sticks=five_sticks())
    plan = plan_cuts(task, time_limit=2.0)
    assert "not installed" in plan.method
    check_by_hand(task, plan)
    assert plan.bound <= plan.cost < first_fit_plan(task).cost


def test_a_plan_that_does_not_hold_is_refused() -> None:
    model = Model(widths=(40,), demand=(3,), capacities=(100,), costs=(5,), limits=(3,))
    assert "overfills" in flaw(model, {Pattern(0, (3,)): 1})
    assert "not those wanted" in flaw(model, {Pattern(0, (2,)): 1})
    task = CutTask(pieces=(Piece(length=36, count=3),), sticks=(StickKind(length=96, price=5),))
    good = {Pattern(0, (2,)): 1, Pattern(0, (1,)): 1}
    assert write_plan(task, good, bound=10, method="").proven
    with pytest.raises(ValueError, match="bound"):
        write_plan(task, good, bound=11, method="")
    with pytest.raises(ValueError, match="not those wanted"):
        write_plan(task, {Pattern(0, (2,)): 1}, bound=5, method="")


def test_a_solver_that_lies_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """No sticks at all, or all pieces out of one stick: neither is believed to be a plan."""
    pytest.importorskip("highspy")
    lies: list[object] = []

    def no_sticks(*args: object) -> dict[Pattern, int]:
        lies.append(args)
        return {}

    def all_in_one(program: master.Master, *_: object) -> dict[Pattern, int]:
        lies.append(program)
        return {Pattern(0, program.model.demand): 1}

    monkeypatch.setattr("bracecalc.cutting.rest.whole_plan", no_sticks)
    monkeypatch.setattr("bracecalc.cutting.search.dive", all_in_one)
    for room in ("search", "rest"):
        monkeypatch.setattr(f"bracecalc.cutting.{room}.fill_mix", lambda *_: None)
        monkeypatch.setattr(
            f"bracecalc.cutting.{room}.reshuffled", lambda _, usage, *__, **___: usage
        )
    rng = random.Random(5)
    pieces = tuple(
        Piece(length=length, count=rng.randint(1, 9)) for length in rng.sample(range(100, 1500), 9)
    )
    task = CutTask(pieces=pieces, sticks=five_sticks())
    plan = plan_cuts(task, time_limit=0.5)
    assert lies
    check_by_hand(task, plan)
    assert plan.cost <= first_fit_plan(task).cost


def test_the_search_stops_when_the_clock_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    """By a clock that runs 0.2 s at each look, whatever the machine's own does."""
    pytest.importorskip("highspy")
    looks: list[float] = []

    def clock() -> float:
        looks.append(0.2 * len(looks))
        return looks[-1]

    rng = random.Random(3)
    lengths = rng.sample(range(3 * INCH, 60 * INCH), 200)
    pieces = tuple(Piece(length=length, count=rng.randint(1, 5)) for length in lengths)
    task = CutTask(pieces=pieces, sticks=tuple(StickKind(length=k * FOOT) for k in FIVE_STICKS))
    monkeypatch.setattr(time, "monotonic", clock)
    plan = plan_cuts(task, time_limit=2.0)
    monkeypatch.undo()
    assert len(looks) < 30  # 10 looks are the 2 s; the rest of a round may look on
    check_by_hand(task, plan)
    assert plan.bound <= plan.cost


@pytest.mark.parametrize("limit", [1e-9, 0.01])
def test_with_next_to_no_time_there_is_a_plan(limit: float) -> None:
    rng = random.Random(4)
    lengths = rng.sample(range(10 * INCH, 90 * INCH), 150)
    task = CutTask(
        pieces=tuple(Piece(length=length, count=rng.randint(1, 9)) for length in lengths),
        sticks=(*five_sticks(), StickKind(length=35 * INCH, on_hand=2)),
    )
    plan = plan_cuts(task, time_limit=limit)
    check_by_hand(task, plan)
    assert plan.bound <= plan.cost <= first_fit_plan(task).cost


@pytest.mark.parametrize("limit", [0.0, -1.0, float("nan")])
def test_a_time_limit_is_more_than_nothing(limit: float) -> None:
    with pytest.raises(ValueError, match="more than 0"):
        plan_cuts(CutTask(pieces=(), sticks=five_sticks()), time_limit=limit)


def test_attainable_prices_lift_the_bound() -> None:
    # 100 in wanted, sticks of 96 in at 398 and 144 in at 638: by length alone 100 * 398 / 96 = 415,
    # but the least whole sum that holds 100 in is one stick of 144 in
    model = Model(widths=(50,), demand=(2,), capacities=(96, 144), costs=(398, 638), limits=(2, 2))
    rule = length_rule(model)
    assert rule.worth == (50, 100)
    assert least_mix(model, [rule], ceiling=796).bound == 638


@pytest.mark.parametrize(("nodes", "deadline"), [(10, math.inf), (30_000, -math.inf)])
def test_a_bound_that_is_cut_short_is_still_a_bound(nodes: int, deadline: float) -> None:
    # prices almost by the foot keep many mixes of sticks open
    model = Model(
        widths=(50,),
        demand=(401,),
        capacities=(96, 120, 144, 168, 192),
        costs=(400, 501, 601, 702, 803),
        limits=(401,) * 5,
    )
    rule = length_rule(model)
    in_full = least_mix(model, [rule], ceiling=401 * 400)
    short = least_mix(model, [rule], ceiling=401 * 400, most_nodes=nodes, deadline=deadline)
    assert in_full.counts is not None
    assert 0 < short.bound <= in_full.bound


def holds(model: Model, sticks: tuple[int, ...]) -> bool:
    """Exhaustive: whether so many sticks of each kind hold all pieces."""

    @cache
    def rest(left: tuple[int, ...], hand: tuple[int, ...]) -> bool:
        if not any(left):
            return True
        first = next(place for place, count in enumerate(left) if count)
        for kind, room in enumerate(model.capacities):
            if not hand[kind]:
                continue
            fewer = tuple(n - (k == kind) for k, n in enumerate(hand))
            for counts in product(*(range(count + 1) for count in left)):
                filled = sum(w * n for w, n in zip(model.widths, counts, strict=True))
                then = tuple(a - b for a, b in zip(left, counts, strict=True))
                if counts[first] and filled <= room and rest(then, fewer):
                    return True
        return False

    return rest(model.demand, sticks)


@pytest.mark.parametrize("seed", range(40))
def test_settled_stick_counts_against_exhaustive_search(seed: int) -> None:
    pytest.importorskip("highspy")
    rng = random.Random(seed)
    widths = tuple(sorted(rng.sample(range(5, 30), rng.randint(2, 4)), reverse=True))
    demand = tuple(rng.randint(1, 4) for _ in widths)
    capacities = (rng.randint(30, 45), rng.randint(46, 70))
    model = Model(
        widths=widths, demand=demand, capacities=capacities, costs=(30, 50), limits=(9, 9)
    )
    told = 0
    for sticks in product(range(4), range(4)):
        answer = settle(model, sticks, [length_rule(model)], time.monotonic() + 5.0)
        if answer.verdict is Settle.IMPOSSIBLE:
            assert not holds(model, sticks)
        if answer.usage is not None:
            assert holds(model, sticks)
        told += answer.verdict is not Settle.OPEN
    assert told >= 12


def test_the_solver_prints_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    pytest.importorskip("highspy")
    solver = master.quiet_solver()
    solver.addRow(1.0, solver.inf, 0, [], [])
    solver.addCol(1.0, 0.0, solver.inf, 1, [0], [1.0])
    solver.run()
    assert capfd.readouterr() == ("", "")
