"""Sampled outcomes with numpy against the same in plain Python, in the same run.

python tests/benchmarks/bench_monte_carlo.py
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable

from bracecalc.certainty.monte_carlo import DRAWS, SEED, ErrorsOf, Setup, sample

SETUP = Setup(
    spots=(0.0, 0.125, 0.0, 0.25),
    travels=(1.375, 1.375, 1.375, 1.375),
    unit_height=80.625,
    leg_least=0.125,
    rolling_over_path=80.75,
    path_high=None,
    underside=81.625,
    spare_overlap=0.125,
)
ERRORS = ErrorsOf(floor=0.0625, height=0.0625, depth=0.03125)


def plain() -> float:
    """Return the share of outcomes in which the legs reach, one draw at a time."""
    gauss = random.Random(SEED).gauss
    reached = 0
    for _ in range(DRAWS):
        spots = [spot + gauss(0.0, ERRORS.floor) for spot in SETUP.spots]
        underside = SETUP.underside + gauss(0.0, ERRORS.height)
        gauss(0.0, ERRORS.depth)
        low = max(spots) + SETUP.unit_height + SETUP.leg_least
        reaches = (spot + travel for spot, travel in zip(spots, SETUP.travels, strict=True))
        reached += low <= underside <= min(reaches) + SETUP.unit_height
    return reached / DRAWS


def least_time(run: Callable[[], object], times: int = 5) -> float:
    """Return the least of several timings, s."""
    found = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        found.append(time.perf_counter() - start)
    return min(found)


def main() -> None:
    """Print both times and their ratio."""
    sample(SETUP, ERRORS)  # loads numpy
    fast, slow = least_time(lambda: sample(SETUP, ERRORS)), least_time(plain)
    print(f"{DRAWS} draws: numpy {fast * 1e3:.0f} ms, plain Python {slow * 1e3:.0f} ms")
    print(f"ratio {slow / fast:.0f}; shares {sample(SETUP, ERRORS).legs_reach} and {plain()}")


if __name__ == "__main__":
    main()
