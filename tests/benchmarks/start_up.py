"""How fast a command starts, beside an empty interpreter and click alone. Run by hand.

    python tests/benchmarks/start_up.py [RUNS]

Medians of one run, the commands taken in turn so that a busy machine slows all alike. Ratios are
to `python -c "import click"`, the least that any command line built on click can take. Modules
are compiled once into a folder of their own, as they are for a user.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "data" / "demo"
BASE = 'python -c "import click"'
COMMANDS: dict[str, tuple[str, ...]] = {
    'python -c ""': ("-c", ""),
    BASE: ("-c", "import click"),
    "bracecalc --help": ("-m", "bracecalc", "--help"),
    "bracecalc plan --help": ("-m", "bracecalc", "plan", "--help"),
    "bracecalc plan, inch job": ("-m", "bracecalc", "plan", str(DEMO / "3b-kitchen.toml")),
    "the same as JSON": (
        "-m", "bracecalc", "plan", str(DEMO / "3b-kitchen.toml"), "--format", "json",
    ),
    "bracecalc plan, metric job": ("-m", "bracecalc", "plan", str(DEMO / "6a-metric.toml")),
}  # fmt: skip


def seconds(arguments: tuple[str, ...], compiled: str) -> float:
    """Return how long one start takes."""
    given = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    command = [sys.executable, *arguments]
    env = {**given, "PYTHONPYCACHEPREFIX": compiled}
    began = time.perf_counter()
    subprocess.run(command, cwd=ROOT, env=env, capture_output=True, check=False)
    return time.perf_counter() - began


def main(runs: int) -> None:
    """Print median and ratio of each command."""
    taken: dict[str, list[float]] = {name: [] for name in COMMANDS}
    with tempfile.TemporaryDirectory() as compiled:
        for arguments in COMMANDS.values():  # compile, and warm the disk
            seconds(arguments, compiled)
        for _ in range(runs):
            for name, arguments in COMMANDS.items():
                taken[name].append(seconds(arguments, compiled))
    base = statistics.median(taken[BASE])
    print(f"median of {runs} starts, Python {sys.version.split()[0]}")
    for name, times in taken.items():
        median = statistics.median(times)
        print(f"{name:<28} {median * 1e3:8.0f} ms {median / base:6.2f} x")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 11)
