"""Cutting plans: time, gap and proofs, each beside first-fit decreasing in the same run.

    python tests/benchmarks/cutting.py table [SECONDS]   10 to 10 000 pieces of 5, 20, 60 lengths
    python tests/benchmarks/cutting.py proofs [SECONDS]  100 instances, priced, and with one stick

Lengths are drawn from 3 to 48 in by sixteenths, kerf 1/8 in, sticks of 8 to 16 ft at invented
prices. The seeds are fixed, so a run differs from the next only by the machine.
"""

from __future__ import annotations

import random
import sys
import time

from bracecalc.cutting import (
    PER_INCH,
    CutPlan,
    CutTask,
    Piece,
    Saw,
    StickKind,
    first_fit_plan,
    plan_cuts,
)

FOOT = 12 * PER_INCH
PRICES = {8: 398, 10: 548, 12: 638, 14: 798, 16: 918}  # feet: cents, invented
PRICED = tuple(StickKind(length=feet * FOOT, price=cents) for feet, cents in PRICES.items())
ONE_LENGTH = (StickKind(length=12 * FOOT, price=1),)


def instance(seed: int, pieces: int, lengths: int, sticks: tuple[StickKind, ...]) -> CutTask:
    """Return a seeded task; with more lengths than pieces, each piece is of its own length."""
    rng = random.Random(f"{seed}/{pieces}/{lengths}")
    chosen = rng.sample(range(3 * 16, 48 * 16 + 1), lengths)[:pieces]
    counts = [1] * len(chosen)
    for _ in range(pieces - len(chosen)):
        counts[rng.randrange(len(chosen))] += 1
    rows = tuple(
        Piece(length=length * PER_INCH // 16, count=count)
        for length, count in zip(chosen, counts, strict=True)
    )
    return CutTask(pieces=rows, sticks=sticks, saw=Saw(kerf=4))


def timed(task: CutTask, seconds: float) -> tuple[CutPlan, float, CutPlan, float]:
    """Return the exact plan and the first-fit plan with the seconds that each took."""
    began = time.perf_counter()
    plan = plan_cuts(task, time_limit=seconds)
    middle = time.perf_counter()
    first = first_fit_plan(task)
    return plan, middle - began, first, time.perf_counter() - middle


def table(seconds: float) -> None:
    """Print cost, bound, gap and time by number of pieces and of lengths."""
    print("pieces lengths seed     cost    bound   gap %   time s | first-fit  over %  time s")
    for pieces in (10, 100, 1_000, 10_000):
        for lengths in (5, 20, 60):
            for seed in range(2):
                task = instance(seed, pieces, lengths, PRICED)
                plan, taken, first, first_taken = timed(task, seconds)
                print(
                    f"{pieces:6} {lengths:7} {seed:4} {plan.cost:8} {plan.bound:8} "
                    f"{100 * float(plan.gap):7.3f} {taken:8.2f} | {first.cost:9} "
                    f"{100 * (first.cost / plan.cost - 1):7.2f} {first_taken:7.3f}",
                    flush=True,
                )


def proofs(seconds: float) -> None:
    """Print how many of 100 instances are proven, and the widest gaps."""
    for name, sticks in (("priced sticks", PRICED), ("one stick length", ONE_LENGTH)):
        proven, widest, total, slowest, over = 0, 0.0, 0.0, 0.0, []
        for seed in range(100):
            pieces = (10, 100, 1_000, 10_000)[seed % 4]
            task = instance(seed, pieces, 5 + seed % 16, sticks)
            plan, taken, first, _ = timed(task, seconds)
            proven += plan.proven
            total += taken
            slowest = max(slowest, taken)
            over.append(first.cost / plan.cost - 1)
            if pieces >= 1_000:
                widest = max(widest, float(plan.gap))
        print(
            f"{name}: proven {proven} of 100; widest gap at 1 000 pieces and more "
            f"{100 * widest:.4f} %; {total:.1f} s in all, slowest {slowest:.2f} s; "
            f"first-fit {100 * sum(over) / len(over):.2f} % dearer on average, "
            f"{100 * max(over):.2f} % at most"
        )


if __name__ == "__main__":
    limit = float(sys.argv[2]) if len(sys.argv) > 2 else 10.0
    {"table": table, "proofs": proofs}[sys.argv[1] if len(sys.argv) > 1 else "proofs"](limit)
