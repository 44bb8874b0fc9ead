"""How fast plans are made in one process, and what part of one is the verification. By hand.

    python tests/benchmarks/planning.py [JOBS]

The jobs are the main demo job with its measurements moved, so that no two are alike and nothing
kept from one answers for the next. Ratios are within the same run.
"""

from __future__ import annotations

import cProfile
import pstats
import random
import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from bracecalc.jobfile.read import read_job
from bracecalc.planning.plan import make_materials, make_plan
from bracecalc.records.job import Job, Screws
from bracecalc.records.plan import Plan
from bracecalc.render.text import plan_text

Thing = TypeVar("Thing")
MAIN = Path(__file__).parents[2] / "data" / "demo" / "3b-kitchen.toml"
ROOMS = ("mechanics", "planning", "stack/check", "stack/make", "stack/screws", "strength", "tables")


def distinct(count: int, seed: int) -> list[Job]:
    """Return jobs that differ in width, depth, floor, studs, unit and load."""
    rng, base = random.Random(seed), read_job(MAIN)

    def sixteenths(most: int) -> float:
        return rng.randrange(-most, most + 1) / 16.0

    jobs = []
    for _ in range(count):
        niche = replace(
            base.niche,
            width=(base.niche.width[0] + abs(sixteenths(32)),),
            depth=(base.niche.depth[0] + abs(sixteenths(24)),),
        )
        floor = replace(base.floor, rear_right=abs(sixteenths(5)), front_right=abs(sixteenths(5)))
        spots = (4.0 + abs(sixteenths(40)), 20.0 + abs(sixteenths(40)), 31.0 + sixteenths(8))
        unit = replace(base.unit, weight=500.0 + rng.random() * 100.0)
        jobs.append(
            replace(
                base,
                niche=niche,
                floor=floor,
                wall=replace(base.wall, stud_spots=spots),
                unit=unit,
                boards=replace(base.boards, size=rng.choice(["2x4", "2x6", "2x8"])),
                screws=Screws(),
                loads=replace(base.loads, minimum=rng.choice([60.0, 80.0, 100.0, 120.0])),
            )
        )
    return jobs


def each(work: Callable[[Thing], object], things: list[Thing]) -> list[float]:
    """Return the seconds that each takes."""
    taken = []
    for thing in things:
        began = time.perf_counter()
        work(thing)
        taken.append(time.perf_counter() - began)
    return taken


def told(name: str, taken: list[float], base: float) -> None:
    """Print one line of figures."""
    total, median = sum(taken), statistics.median(taken)
    rate = len(taken) / total
    print(f"{name:<34} {rate:8.0f} /s {median * 1e3:8.2f} ms median {median / base:7.2f} x")


def parts(jobs: list[Job]) -> None:
    """Print what part of the time of a plan is spent in each room, by a profile."""
    profile = cProfile.Profile()
    profile.enable()
    for job in jobs:
        make_plan(job)
    profile.disable()
    rows = pstats.Stats(profile).stats  # type: ignore[attr-defined]
    whole = sum(own for _, _, own, _, _ in rows.values())
    shares = dict.fromkeys(ROOMS, 0.0)
    for (file, _, _), (_, _, own, _, _) in rows.items():
        for room in ROOMS:
            if f"bracecalc/{room}" in file.replace("\\", "/"):
                shares[room] += own
                break
    print("\nshare of a plan's own time by room (profiled, so small calls weigh more):")
    for room, own in shares.items():
        print(f"  {room:<14} {own / whole:6.1%}")


def main(count: int) -> None:
    """Print the figures."""
    jobs = distinct(count, seed=3)
    began = time.perf_counter()
    make_plan(jobs[0])
    print(f"first plan in a process, tables read: {(time.perf_counter() - began) * 1e3:.1f} ms\n")
    plans = distinct(count, seed=5)
    planned = each(make_plan, plans)
    base = statistics.median(planned)
    told("make_plan", planned, base)
    told("the same jobs again", each(make_plan, plans), base)
    told("with its work shown", each(lambda job: make_plan(job, show_work=True), plans), base)
    told("make_materials, other jobs", each(make_materials, distinct(count, seed=7)), base)
    shown = [make_plan(job) for job in plans[: max(1, count // 10)]]
    told("plan as text", each(plan_text, shown), base)
    told("plan as JSON", each(Plan.to_dict, shown), base)
    parts(distinct(max(1, count // 4), seed=11))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 400)
