"""How fast the phone page starts and answers, in Chromium. Run by hand.

    python -m tests.benchmarks.page_start [RUNS]

Medians of one run: a start with nothing kept; the next one without the host; one after that; and an
answer to a change, from the key to the engine's reply. Ratios are to a bare start of Pyodide in the
same browser, which loads Python and nothing else. Where this machine lets a control group be made
(Linux, as root), all of it is done again at a quarter of a core.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from page.phone import Phone, hosted
from playwright.sync_api import sync_playwright

from bracecalc.page.build import build_page
from bracecalc.page.runtime import find_runtime

DEMO = Path(__file__).parents[2] / "data" / "demo" / "3b-kitchen.toml"
CHANGES = {
    "answer to a change that holds": ["7/16", "1/2"],
    "answer to a change that fails, with remedies": ["7/8", "15/16"],
}
ASKED = """async ([text, value]) => {
    const { engine } = await import("/js/engine.js");
    const started = performance.now();
    const entries = { "as_found.floor.rear_right": `${value} in` };
    await engine.ask("look", { text, entries });
    return (performance.now() - started) / 1000;
}"""
BARE_PAGE = """<!doctype html><html data-engine="starting"><title>bare</title><h1>bare</h1>
<script type="module" src="bare.js"></script>"""
BARE = """const { loadPyodide } = await import("./pyodide.mjs");
await loadPyodide();
document.documentElement.dataset.engine = "ready";"""
GROUPS = Path("/sys/fs/cgroup/cpu")  # control groups, first version
QUARTER = "bracecalc-quarter"
SETTLED = 6.0  # seconds in which the browser ends what it does behind a start


def started(phone: Phone, url: str) -> float:
    """Return how long the engine takes from the address to ready."""
    start = time.perf_counter()
    phone.open(url)
    phone.wait_for_engine()
    return time.perf_counter() - start


def bare_page(folder: Path) -> None:
    """Write a page that starts Pyodide and does nothing with it."""
    folder.mkdir()
    pyodide = find_runtime().folder / "pyodide"
    for name in ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip"):
        os.link(pyodide / name, folder / name)
    (folder / "pyodide-lock.json").write_bytes((pyodide / "pyodide-lock.json").read_bytes())
    (folder / "index.html").write_text(BARE_PAGE)
    (folder / "bare.js").write_text(BARE)


def one_run(phone: Phone, folder: Path, bare: Path) -> dict[str, float]:
    """Return the times of one device from new to warm."""
    found = {}
    with hosted(bare) as host:
        found["bare Pyodide, nothing kept"] = started(phone, host.url)
        time.sleep(SETTLED)
        found["memory of the bare page's process, MB"] = page_memory(phone)
    with hosted(folder) as host:
        found["first start, nothing kept"] = started(phone, host.url)
        phone.wait_for_offline()
    phone.page.goto("about:blank")
    time.sleep(SETTLED)
    found["without the host, at once after"] = started(phone, host.url)
    for _ in range(3):  # the browser keeps its own machine code after the first few
        phone.page.goto("about:blank")
        time.sleep(SETTLED)
        found["without the host, used before"] = started(phone, host.url)
    time.sleep(SETTLED)
    found["memory of the page's process, MB"] = page_memory(phone)
    text = DEMO.read_text(encoding="utf-8")
    for name, values in CHANGES.items():
        times = [phone.page.evaluate(ASKED, [text, value]) for value in values * 5]
        found[name] = statistics.median(times)
    return found


def page_memory(phone: Phone) -> float:
    """Return the private memory of the largest process of the browser's pages, MB."""
    own = f"--user-data-dir={phone.profile}".encode()
    command, parent, memory = {}, {}, {}
    for folder in Path("/proc").iterdir():
        if not folder.name.isdigit():
            continue
        try:
            command[folder.name] = (folder / "cmdline").read_bytes()
            parent[folder.name] = (folder / "stat").read_text().rpartition(")")[2].split()[1]
            lines = (folder / "smaps_rollup").read_text().splitlines()
        except OSError:  # it ended meanwhile
            continue
        private = [line.split()[1] for line in lines if line.startswith("Private_")]
        memory[folder.name] = sum(map(int, private)) / 1000

    def is_ours(number: str) -> bool:
        while number in command:
            if own in command[number]:
                return True
            number = parent.get(number, "")
        return False

    pages = [number for number in memory if b"--type=renderer" in command[number]]
    return max((memory[number] for number in pages if is_ours(number)), default=0.0)


@contextmanager
def at_a_quarter() -> Iterator[bool]:
    """Hold this process and what it starts to a quarter of one core."""
    group = GROUPS / QUARTER
    try:
        group.mkdir()
        (group / "cpu.cfs_quota_us").write_text("25000")
        (group / "cgroup.procs").write_text(str(os.getpid()))
    except OSError:
        yield False
        return
    try:
        yield True
    finally:
        for one in (group / "cgroup.procs").read_text().split():
            (GROUPS / "cgroup.procs").write_text(one)
        group.rmdir()


def table(title: str, runs: int, folder: Path, bare: Path, scratch: Path) -> None:
    """Print the medians of so many new devices."""
    results = []
    with sync_playwright() as playwright:
        for number in range(runs):
            phone = Phone(playwright, scratch / f"device {title} {number}")
            results.append(one_run(phone, folder, bare))
            phone.turn_off()
    print(f"\n{title}; median of {runs} new devices")
    first = statistics.median(result["bare Pyodide, nothing kept"] for result in results)
    for name in results[0]:
        middle = statistics.median(result[name] for result in results)
        ratio = "" if "MB" in name else f"{middle / first:8.3f}"
        print(f"{name:48} {middle:8.3f} {ratio}")


def main(runs: int) -> None:
    """Measure on the whole machine, then at a quarter of a core."""
    with tempfile.TemporaryDirectory() as name:
        scratch = Path(name)
        folder, bare = scratch / "page", scratch / "bare"
        print(f"{build_page(folder) / 1e6:.2f} MB on the host")
        bare_page(bare)
        table("the whole machine", runs, folder, bare, scratch)
        with at_a_quarter() as held:
            if held:
                table("a quarter of a core", 1, folder, bare, scratch)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 3)
