"""Cutting plans: cost beside the bound and beside first-fit decreasing, by size class.

    python tests/benchmarks/cutting.py proofs [SECONDS]   100 instances, priced, and with one stick
    python tests/benchmarks/cutting.py classes [SECONDS]  up to 400 lengths and 20 000 pieces
    python tests/benchmarks/cutting.py mixed [SECONDS]    150 draws of sizes, spans and prices

Lengths are drawn by sixteenths, kerf 1/8 in, sticks of 8 to 16 ft at invented prices. The seeds are
fixed, so a run differs from the next only by the machine. Times and limits are processor seconds,
so that a busy machine counts as one core of its own (what the solver may take of its own in one run
is still by the clock, so a busy machine gives wider gaps, never narrower ones).
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Iterable

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
BY_THE_FOOT = {8: 400, 10: 501, 12: 601, 14: 702, 16: 803}  # the same for nearly every foot
OFFCUTS = {71: 3, 50: 7, 33: 5}  # inches: how many on hand


def bought(prices: dict[int, int]) -> tuple[StickKind, ...]:
    """Return sticks of so many feet at these prices."""
    return tuple(StickKind(length=feet * FOOT, price=cents) for feet, cents in prices.items())


PRICED = bought(PRICES)
ONE_LENGTH = (StickKind(length=12 * FOOT, price=1),)
STICKS = {
    "priced": PRICED,
    "by the foot": bought(BY_THE_FOOT),
    "one length": ONE_LENGTH,
    "no prices": tuple(StickKind(length=feet * FOOT) for feet in PRICES),
    "offcuts": PRICED
    + tuple(StickKind(length=inches * PER_INCH, on_hand=n) for inches, n in OFFCUTS.items()),
}
SPANS = {"short": (3, 48), "middling": (12, 80), "long": (30, 110)}  # inches

Row = tuple[CutPlan, float, CutPlan]  # plan, seconds, first-fit plan


def instance(
    seed: int,
    pieces: int,
    lengths: int,
    sticks: tuple[StickKind, ...],
    span: tuple[int, int] = SPANS["short"],
) -> CutTask:
    """Return a seeded task; with more lengths than pieces, each piece is of its own length."""
    rng = random.Random(f"{seed}/{pieces}/{lengths}")
    chosen = rng.sample(range(span[0] * 16, span[1] * 16 + 1), lengths)[:pieces]
    counts = [1] * len(chosen)
    for _ in range(pieces - len(chosen)):
        counts[rng.randrange(len(chosen))] += 1
    rows = tuple(
        Piece(length=length * PER_INCH // 16, count=count)
        for length, count in zip(chosen, counts, strict=True)
    )
    return CutTask(pieces=rows, sticks=sticks, saw=Saw(kerf=4))


def solved(task: CutTask, seconds: float) -> Row:
    """Return the plan, the processor seconds that it took, and the first-fit plan."""
    began = time.process_time()
    plan = plan_cuts(task, time_limit=seconds)
    return plan, time.process_time() - began, first_fit_plan(task)


def report(name: str, rows: Iterable[Row]) -> None:
    """Print proofs, gaps over the bound, times, and what first-fit costs more."""
    rows = list(rows)
    gaps = [100 * float(plan.gap) for plan, _, _ in rows]
    times = [taken for _, taken, _ in rows]
    dearer = [100 * (first.cost / plan.cost - 1) for plan, _, first in rows]
    print(
        f"{name:34} {sum(plan.proven for plan, _, _ in rows):4} of {len(rows):3} proven | "
        f"gap % mean {sum(gaps) / len(gaps):.4f} most {max(gaps):.4f}, "
        f"over 0.1: {sum(gap > 0.1 for gap in gaps):2} | "
        f"s mean {sum(times) / len(times):5.2f} most {max(times):5.2f} | "
        f"first-fit % dearer mean {sum(dearer) / len(dearer):.2f} most {max(dearer):.2f}",
        flush=True,
    )


def proofs(seconds: float) -> None:
    """100 instances of 10 to 10 000 pieces with 5 to 20 lengths."""
    for name in ("priced", "one length"):
        report(
            name,
            (
                solved(
                    instance(seed, (10, 100, 1_000, 10_000)[seed % 4], 5 + seed % 16, STICKS[name]),
                    seconds,
                )
                for seed in range(100)
            ),
        )


def classes(seconds: float) -> None:
    """By lengths and pieces, short and long ones."""
    for span in SPANS:
        for lengths in (20, 60, 150, 300, 400):
            for pieces in (800, 20_000):
                tasks = (instance(seed, pieces, lengths, PRICED, SPANS[span]) for seed in range(3))
                report(
                    f"{span}, {lengths} lengths, {pieces} pieces",
                    (solved(task, seconds) for task in tasks),
                )


def mixed(seconds: float) -> None:
    """By lengths; pieces, spans and prices as they are drawn."""
    drawn: dict[int, list[Row]] = {}
    for seed in range(150):
        rng = random.Random(seed)
        lengths = rng.choice((5, 8, 12, 20, 30, 50, 80, 120, 200, 300, 400))
        pieces = rng.choice((50, 100, 300, 800, 2_000, 20_000))
        sticks = rng.choice(list(STICKS.values()))
        span = rng.choice(list(SPANS.values()))
        row = solved(instance(seed, pieces, lengths, sticks, span), seconds)
        drawn.setdefault(lengths, []).append(row)
    for lengths in sorted(drawn):
        report(f"{lengths} lengths", drawn[lengths])
    report("all", (row for rows in drawn.values() for row in rows))


if __name__ == "__main__":
    limit = float(sys.argv[2]) if len(sys.argv) > 2 else 10.0
    time.monotonic = time.process_time
    modes = {"proofs": proofs, "classes": classes, "mixed": mixed}
    modes[sys.argv[1] if len(sys.argv) > 1 else "proofs"](limit)
