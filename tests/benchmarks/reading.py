"""How fast lengths and jobs are read; run by hand: ``python tests/benchmarks/reading.py``.

Everything is measured in one run, so that the ratios hold on a busy machine too.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import pint

from bracecalc.jobfile.build import build_job
from bracecalc.jobfile.read import parse_job
from bracecalc.jobfile.write import job_to_toml
from bracecalc.text.lengths import Units, parse_length

ROUNDS = 5
MANY = 5_000
ROW = {
    "title": "4D",
    "niche.width": "33 1/4 in",
    "niche.depth": "24 3/4 in",
    "niche.soffit": "92 1/2 in",
    "floor.front_right": "1/8 in",
    "floor.rear_right": "1/4 in",
    "wall.layers": "gypsum board 1/2 in",
    "wall.stud_spots": "6 3/8 in; 22 1/4 in",
    "unit.height": "80 5/8 in",
    "unit.width": "32 3/4 in",
    "unit.depth": "23 1/8 in",
    "unit.leg_travel": "1 3/8 in",
    "unit.weight": "540 lb",
    "boards.size": "2x4",
    "boards.species": "SPF",
}


def best(work: Callable[[], object], count: int) -> float:
    """Return the least time of one call, in microseconds."""
    times = []
    for _ in range(ROUNDS):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times) / count * 1e6


def main() -> None:
    """Print times and ratios."""
    texts = [f"{whole} {upper}/16 in" for whole in range(MANY // 8) for upper in range(1, 16, 2)]
    start = time.process_time()
    for text in texts:
        parse_length(text, units=Units.INCH)
    first = (time.process_time() - start) / len(texts) * 1e6
    again = best(lambda: [parse_length(text, units=Units.INCH) for text in texts], len(texts))
    registry: pint.UnitRegistry[float] = pint.UnitRegistry(cache_folder=":auto:")
    by_pint = best(lambda: [registry("84.25 in").to("inch") for _ in range(200)], 200)
    job = build_job(ROW, where="row")
    row = best(lambda: [build_job(ROW, where="row") for _ in range(MANY)], MANY)
    text = job_to_toml(job)
    file = best(lambda: [parse_job(text, where="file") for _ in range(200)], 200)
    print(f"a length, first time   {first:8.2f} us")
    print(f"the same length again  {again:8.2f} us")
    print(f"a length read by pint  {by_pint:8.2f} us, {by_pint / first:.0f} times ours")
    print(
        f"a row of {len(ROW)} cells      {row:8.2f} us, {row / first:.0f} lengths read first time"
    )
    print(f"a job file             {file:8.2f} us, most of it TOML")


if __name__ == "__main__":
    main()
