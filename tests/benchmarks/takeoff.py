"""A takeoff over many rows: rows a second and peak memory, for different and for equal niches.

    python tests/benchmarks/takeoff.py            speed of one core and of all, then memory
    python tests/benchmarks/takeoff.py core       planning alone, one core

Every run of the memory table is a process of its own, whose peak the system reports. Rows are
invented and seeded by their number.
"""

from __future__ import annotations

import csv
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

COLUMNS = (
    "building", "floor", "type", "count", "title", "niche.width", "niche.depth", "niche.soffit",
    "wall.layers", "wall.stud.species", "wall.stud_layout.spacing", "wall.stud_layout.first",
    "unit.height", "unit.height_overall", "unit.width", "unit.depth", "unit.leg_travel",
    "unit.weight", "unit.cg_height", "unit.cg_behind_front_legs", "unit.front_legs_behind_front",
    "boards.size",
    "boards.species",
)  # fmt: skip
EQUAL = 37  # kinds of niche in a file of repeated ones


def row(number: int, kinds: int) -> list[str]:
    """Return one row; rows whose number leaves the same rest by ``kinds`` are equal niches."""
    kind = number % kinds
    width, depth = 30 + (kind % 97) / 16, 24 + (kind // 97 % 89) / 64
    height = 80 + (kind // 97 // 89) / 64
    return [
        "AB"[number % 2], str(1 + number % 9), "kitchen", "1", f"niche {number}",
        f"{width} in", f"{depth} in", "96 in", "gypsum board 1/2 in", "SPF", "16 in", "7 in",
        f"{height} in", f"{height + 0.25} in", f"{width - 0.5} in", "23 1/8 in", "1 3/8 in",
        "540 lb", "43 in", "9 1/2 in", "2 3/4 in", "2x8", "SPF",
    ]  # fmt: skip


def write(path: Path, rows: int, kinds: int) -> None:
    """Write a table of niches."""
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(COLUMNS)
        writer.writerows(row(number, kinds) for number in range(rows))


def one_run(path: str) -> None:
    """Work a table out in this process and print rows, seconds and peak memory."""
    from bracecalc.jobfile.rows import Columns
    from bracecalc.order.takeoff import niche_rows, take

    began = time.perf_counter()
    tally = take(niche_rows([path], Columns()))
    taken = time.perf_counter() - began
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    worker = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    print(tally.rows, tally.planned, tally.skipped, f"{taken:.3f}", own, worker)


def table() -> None:
    """Print rows a second and memory by number of rows."""
    print(f"{os.cpu_count()} cores, all used where a file has many different niches")
    print("rows     niches     worked out  rows/s   peak MB  (a worker's)  memory to 10 000 rows")
    with tempfile.TemporaryDirectory() as folder:
        for name, kinds_of in (("different", lambda rows: rows), ("equal", lambda rows: EQUAL)):
            memory: dict[int, float] = {}
            for rows in (1_000, 10_000, 100_000, 1_000_000)[: 4 if name == "equal" else 3]:
                path = Path(folder) / f"{name}-{rows}.csv"
                write(path, rows, kinds_of(rows))
                done = subprocess.run(
                    [sys.executable, __file__, "run", str(path)],
                    check=True, capture_output=True, text=True,
                )  # fmt: skip
                count, planned, skipped, taken, own, worker = done.stdout.split()
                assert skipped == "0", done.stdout
                memory[rows] = int(own) / 1024
                ratio = f"{memory[rows] / memory[10_000]:.2f}" if 10_000 in memory else ""
                speed = int(count) / float(taken)
                print(
                    f"{rows:7}  {name:9}  {planned:>10}  {speed:6.0f}  {memory[rows]:8.1f}"
                    f"  ({int(worker) / 1024:.1f})  {ratio}",
                    flush=True,
                )


def core(niches: int = 5_000) -> None:
    """Print how many different niches one core reads and works out in a second of its time."""
    from bracecalc.jobfile.row_jobs import RowJobs
    from bracecalc.order.outcome import work_out
    from bracecalc.order.workers import How, Task, work_batch

    tasks: list[Task] = [
        (f"row {number}", dict(zip(COLUMNS[4:], row(number, niches)[4:], strict=True)))
        for number in range(niches)
    ]
    work_batch(tasks[:50], How())
    rows = RowJobs()
    began = time.process_time()  # of this process alone: the machine may have other work
    jobs = [rows.job(values, where=where) for where, values in tasks]
    read = time.process_time()
    for job in jobs:
        work_out(job)
    planned = time.process_time()
    print(
        f"{niches} different niches on one core: read {niches / (read - began):.0f} a second, "
        f"worked out {niches / (planned - read):.0f} a second, "
        f"both {niches / (planned - began):.0f} a second"
    )


if __name__ == "__main__":
    if sys.argv[1:2] == ["run"]:
        one_run(sys.argv[2])
    elif sys.argv[1:2] == ["core"]:
        core()
    else:
        core()
        table()
