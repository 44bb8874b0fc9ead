"""How fast the phone page starts and answers, in Chromium. Run by hand.

    python -m tests.benchmarks.page_start [RUNS]

Medians of one run: a start with nothing kept, without the host before and after the compiled
copies are there, and an answer to a change, from the key to the engine's reply. Ratios are to the
first start of the same run.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from page.phone import Phone, hosted, until
from playwright.sync_api import sync_playwright

from bracecalc.page.build import build_page

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


def started(phone: Phone, url: str) -> float:
    """Return how long the engine takes from the address to ready."""
    start = time.perf_counter()
    phone.open(url)
    phone.wait_for_engine()
    return time.perf_counter() - start


def one_run(phone: Phone, folder: Path) -> dict[str, float]:
    """Return the times of one device from new to warm."""
    found = {}
    with hosted(folder) as host:
        found["first start, nothing kept"] = started(phone, host.url)
        phone.wait_for_offline()
    found["without the host, nothing compiled yet"] = started(phone, host.url)
    until(lambda: phone.state("compiled") == "kept")
    started(phone, host.url)  # the browser compiles its own part once more
    time.sleep(3.0)
    found["without the host, compiled copies kept"] = started(phone, host.url)
    time.sleep(1.0)
    text = DEMO.read_text(encoding="utf-8")
    for name, values in CHANGES.items():
        times = [phone.page.evaluate(ASKED, [text, value]) for value in values * 5]
        found[name] = statistics.median(times)
    return found


def main(runs: int) -> None:
    """Print the medians of so many new devices."""
    with tempfile.TemporaryDirectory() as scratch, sync_playwright() as playwright:
        folder = Path(scratch) / "page"
        size = build_page(folder)
        results = []
        for number in range(runs):
            phone = Phone(playwright, Path(scratch) / f"device {number}")
            results.append(one_run(phone, folder))
            phone.turn_off()
    print(f"{size / 1e6:.2f} MB on the host; {runs} new devices")
    first = statistics.median(result["first start, nothing kept"] for result in results)
    for name in results[0]:
        middle = statistics.median(result[name] for result in results)
        print(f"{name:48} {middle:8.3f} s {middle / first:8.3f}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 3)
