"""Spoil jobs, tables, workbooks and readings, and see that bracecalc answers in words.

    python tests/fuzz/run.py --seconds 60 --seed 1

Whatever is put in, it must come to a plan or to a mistake told in one line: no other exception, no
hang, no more than 100 MB. A find is written to the folder of --finds, and becomes a plain test.
"""

from __future__ import annotations

import argparse
import io
import random
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT)]

from fuzz.mutators import TEXTS, VALUES, spoiled_bytes, spoiled_workbook  # noqa: E402

from bracecalc.check.check import check_site  # noqa: E402
from bracecalc.errors import BraceError  # noqa: E402
from bracecalc.jobfile.as_found import read_as_found  # noqa: E402
from bracecalc.jobfile.read import parse_job, read_job  # noqa: E402
from bracecalc.planning.plan import make_plan  # noqa: E402
from bracecalc.render.text import plan_text  # noqa: E402

DEMOS = sorted((ROOT / "data" / "demo").glob("*.toml"))
TABLE = ROOT / "data" / "demo" / "quillet-yard.csv"
SLOW = 0.5  # seconds of one job
LONGEST = 20
MOST_MEMORY = 2 << 30  # of the whole process, solver and all
READINGS = (
    "floor",
    "board",
    "studs",
    "layers",
    "screws",
    "legs",
    "width",
    "depth",
    "soffit",
    "line",
)


class Find(NamedTuple):
    """One input that bracecalc did not answer as it should."""

    kind: str
    what: str
    data: bytes


def spoiled_text(text: str, draw: random.Random) -> str:
    """Return a text spoiled in one to three ways."""
    for _ in range(draw.randrange(1, 4)):
        text = draw.choice(TEXTS)(text, draw)
    return text


def a_job(draw: random.Random) -> tuple[bytes, Callable[[], object]]:
    """A job file read, planned and told."""
    text = spoiled_text(draw.choice(DEMOS).read_text(encoding="utf-8"), draw)

    def run() -> None:
        plan_text(make_plan(parse_job(text, where="job.toml")), full=True)

    return text.encode("utf-8", "replace"), run


def a_file(draw: random.Random) -> tuple[bytes, Callable[[], object]]:
    """A job file of spoiled bytes."""
    data = spoiled_bytes(draw.choice(DEMOS).read_bytes(), draw)

    def run() -> None:
        with tempfile.NamedTemporaryFile(suffix=".toml") as file:
            file.write(data)
            file.flush()
            make_plan(read_job(file.name))

    return data, run


def readings(draw: random.Random) -> tuple[bytes, Callable[[], object]]:
    """A check of readings that nobody would write."""
    job = read_job(draw.choice(DEMOS))
    chosen = draw.sample(READINGS, draw.randrange(1, 4))
    found = {name: draw.choice(VALUES).strip("'") for name in chosen}

    def run() -> None:
        check_site(job, read_as_found(found, job))

    return repr(found).encode(), run


def a_table(draw: random.Random) -> tuple[bytes, Callable[[], object]]:
    """A table of niches, some rows of it spoiled, its good ones ordered."""
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    text = "\n".join([lines[0], *(spoiled_text(row, draw) for row in draw.sample(lines[1:], 3))])
    return _ordered(text.encode("utf-8", "replace"), ".csv")


def a_workbook(draw: random.Random) -> tuple[bytes, Callable[[], object]]:
    """A workbook of niches with one of its members spoiled."""
    from openpyxl import Workbook

    book, out = Workbook(), io.BytesIO()
    for row in TABLE.read_text(encoding="utf-8").splitlines()[:4]:
        book.active.append(row.split(","))
    book.save(out)
    return _ordered(spoiled_workbook(out.getvalue(), draw), ".xlsx")


def _ordered(data: bytes, ending: str) -> tuple[bytes, Callable[[], object]]:
    def run() -> None:
        from bracecalc.jobfile.rows import Columns
        from bracecalc.order.takeoff import niche_rows, take

        with tempfile.NamedTemporaryFile(suffix=ending) as file:
            file.write(data)
            file.flush()
            take(niche_rows([file.name], Columns()))

    return data, run


KINDS = {"job": a_job, "file": a_file, "readings": readings, "table": a_table, "book": a_workbook}
WEIGHTS = (60, 10, 20, 7, 3)


def finds(seconds: float, seed: int, tried: Counter[str]) -> Iterator[Find]:
    """Yield what bracecalc did not answer as it should, until the time is over."""
    draw, until = random.Random(seed), time.monotonic() + seconds
    while time.monotonic() < until:
        kind = draw.choices(tuple(KINDS), WEIGHTS)[0]
        data, run = KINDS[kind](draw)
        began = time.process_time()
        signal.alarm(LONGEST)
        try:
            run()
            tried["answered"] += 1
        except BraceError:
            tried["refused"] += 1
        except BaseException as error:
            if isinstance(error, KeyboardInterrupt):
                raise
            last = traceback.extract_tb(error.__traceback__)[-1]
            yield Find(kind, f"{type(error).__name__}: {error} ({last.name}:{last.lineno})", data)
        finally:
            signal.alarm(0)
        took = time.process_time() - began
        if took > SLOW and kind in ("job", "readings"):
            yield Find(kind, f"took {took:.1f} s", data)
        tried[kind] += 1


def _too_long(*_: object) -> None:
    raise TimeoutError(f"no answer in {LONGEST} s")


def main() -> int:
    """Run for a while; return 1 where anything was found."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--finds", type=Path, default=Path(tempfile.gettempdir()) / "finds")
    arguments = parser.parse_args()
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    signal.signal(signal.SIGALRM, _too_long)
    tried: Counter[str] = Counter()
    seen: dict[str, Find] = {}
    for find in finds(arguments.seconds, arguments.seed, tried):
        told = find.what.partition(" (")[2] or find.what
        if told not in seen:
            seen[told] = find
            arguments.finds.mkdir(parents=True, exist_ok=True)
            path = arguments.finds / f"{find.kind}-{len(seen)}"
            path.write_bytes(find.data)
            print(f"{find.kind}: {find.what}\n  {path}", flush=True)
    print(f"seed {arguments.seed}: {dict(tried)}; {len(seen)} finds")
    return int(bool(seen))


if __name__ == "__main__":
    sys.exit(main())
