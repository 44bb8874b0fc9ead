"""How long a sheet takes as a whole process, and 400 in one PDF, beside the bare start-up.

    python tests/benchmarks/sheet.py

Times depend on the machine and its load; the ratios to start-up in the same run less so.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from importlib.resources import files
from pathlib import Path
from statistics import median

RUNS = 7
MANY = 400
DEMO = sorted(
    (one.read_text(encoding="utf-8"))
    for one in files("bracecalc.data.demo").iterdir()
    if one.name.endswith(".toml")
)


def seconds(*words: str | Path) -> float:
    """Return how long one call of the command takes."""
    start = time.perf_counter()
    called = [sys.executable, "-m", "bracecalc", *map(str, words)]
    subprocess.run(called, check=False, capture_output=True)
    return time.perf_counter() - start


def main() -> None:
    """Print a line a measurement."""
    with tempfile.TemporaryDirectory() as folder:
        job, niches = Path(folder) / "niche.toml", Path(folder) / "niches"
        job.write_text(files("bracecalc.data.demo").joinpath("3b-kitchen.toml").read_text())
        bare = median(seconds("--version") for _ in range(RUNS))
        print(f"start-up          {bare:6.3f} s")
        for ending in ("svg", "html", "pdf"):
            out = Path(folder) / f"sheet.{ending}"
            took = median(seconds("sheet", job, "-o", out, "--force") for _ in range(RUNS))
            print(f"one sheet, {ending:5}  {took:6.3f} s  {took / bare:5.1f} x start-up")
        niches.mkdir()
        for number in range(MANY):
            (niches / f"{number:03}.toml").write_text(DEMO[number % len(DEMO)])
        took = seconds("sheet", niches, "-o", Path(folder) / "all.pdf")
        print(f"{MANY} sheets in a PDF {took:5.1f} s  {took / MANY / bare:5.2f} x start-up a sheet")


if __name__ == "__main__":
    main()
