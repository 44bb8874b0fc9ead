"""However a takeoff is ended, it ends whole: no worker stays, nothing is written, one line."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

HEADING = (
    "niche.width,niche.depth,niche.soffit,wall.layers,wall.stud_spots,unit.height,unit.width,"
    "unit.depth,unit.leg_travel"
)
ROW = (
    "24 in,92 1/2 in,gypsum board 1/2 in,6 3/8 in; 22 1/4 in,80 5/8 in,32 3/4 in,23 1/8 in,1 3/8 in"
)
PATIENCE = 30.0  # seconds; each waits for what is certain to come

pytestmark = pytest.mark.skipif(
    not Path("/proc/self/task").exists(), reason="looks for workers in /proc"
)


def children(pid: int) -> list[int]:
    try:
        text = Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii")
    except OSError:
        return []
    return [int(child) for child in text.split()]


def alive(pid: int) -> bool:
    try:
        state = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()[0]
    except OSError:
        return False
    return state != "Z"


def until(true: object) -> bool:
    """Wait until something is so."""
    end = time.monotonic() + PATIENCE
    assert callable(true)
    while time.monotonic() < end:
        if true():
            return True
        time.sleep(0.02)
    return False


class Run:
    """A takeoff of many different niches, in the midst of its work."""

    def __init__(self, folder: Path) -> None:
        source = folder / "many.csv"
        rows = (f"{33.25 + k / 1e6:.6f} in,{ROW}" for k in range(60_000))
        source.write_text("\n".join([HEADING, *rows, ""]), encoding="utf-8")
        self.out = folder / "o.csv"
        self.process = subprocess.Popen(
            [sys.executable, "-m", "bracecalc", "takeoff", str(source), "--out", str(self.out)],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler),
            start_new_session=True,
        )
        assert until(lambda: children(self.process.pid))
        time.sleep(0.5)  # until they have begun
        self.workers = children(self.process.pid)

    def ended(self) -> tuple[int, str]:
        """Return exit status and what was said, once nobody holds the pipes any more."""
        _, said = self.process.communicate(timeout=PATIENCE)
        assert until(lambda: not any(map(alive, self.workers)))
        assert not self.out.exists()
        assert list(self.out.parent.glob(".bracecalc-*")) == []
        return self.process.returncode, said


@pytest.fixture
def running(tmp_path: Path) -> Iterator[Run]:
    if (os.cpu_count() or 1) < 2:
        pytest.skip("works niches out in one process here")
    run = Run(tmp_path)
    yield run
    if run.process.poll() is None:
        run.process.kill()
        run.process.communicate()


def test_ctrl_c_leaves_cleanly(running: Run) -> None:
    os.killpg(running.process.pid, signal.SIGINT)  # as a terminal does: the whole group
    status, said = running.ended()
    assert (status, said.strip()) == (2, "stopped; nothing was written")


def test_the_system_asks_it_to_end(running: Run) -> None:
    running.process.terminate()
    status, said = running.ended()
    assert (status, said.strip()) == (2, "stopped; nothing was written")


def test_killed_it_leaves_no_worker_that_holds_the_pipes(running: Run) -> None:
    running.process.kill()
    assert running.ended() == (-signal.SIGKILL, "")


def test_a_worker_that_is_killed_gives_one_line(running: Run) -> None:
    os.kill(running.workers[0], signal.SIGKILL)
    status, said = running.ended()
    assert status == 2
    assert said.startswith("a process that works niches out was ended from outside")
    assert said.count("\n") == 1
