"""The page in a real Firefox, where the machine has one: keys, storage, verdict, no signal."""

from __future__ import annotations

import json
import shutil
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from page.test_layout import HIDDEN

from bracecalc.page.runtime import Runtime

if TYPE_CHECKING:
    from page.phone import Host

pytestmark = pytest.mark.browser

DEMO = Path(__file__).parents[2] / "data/demo/3b-kitchen.toml"
SCRIPT = Path(__file__).with_name("firefox_in_node.mjs")
PATIENCE = 90.0  # seconds


class Firefox:
    def __init__(self, node: str, firefox: str, packages: Path, profile: Path) -> None:
        profile.mkdir()
        command = [node, str(SCRIPT), str(packages), firefox, str(profile)]
        pipe = subprocess.PIPE
        self.process = subprocess.Popen(
            command, stdin=pipe, stdout=pipe, stderr=subprocess.DEVNULL, text=True, bufsize=1
        )
        assert self._told() == {"ready": True}

    def _told(self) -> Any:
        assert self.process.stdout is not None
        return json.loads(self.process.stdout.readline())

    def act(self, name: str, given: Any = None) -> Any:
        assert self.process.stdin is not None
        self.process.stdin.write(json.dumps([name, given]) + "\n")
        told = self._told()
        assert "error" not in told, told
        return told["result"]

    def run(self, expression: str) -> Any:
        return self.act("run", expression)

    def until(self, expression: str) -> Any:
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            found = self.run(expression)
            if found:
                return found
            time.sleep(0.1)
        raise AssertionError(f"Firefox did not get there: {expression}")

    def quit(self) -> None:
        self.process.communicate(timeout=30)


@pytest.fixture
def firefox(runtime: Runtime, tmp_path: Path) -> Iterator[Firefox]:
    node, browser = shutil.which("node"), shutil.which("firefox-esr") or shutil.which("firefox")
    if node is None or browser is None:
        pytest.skip("no Firefox on this machine")
    assert node is not None
    assert browser is not None
    driven = Firefox(node, browser, runtime.folder, tmp_path / "firefox")
    yield driven
    driven.quit()


READY = "document.documentElement.dataset.engine === 'ready'"
KEPT = "document.documentElement.dataset.offline === 'kept'"
JOBS = 'import("/js/store.js").then((store) => store.allJobs())'


def test_from_the_first_key_to_the_verdict_without_a_signal(host: Host, firefox: Firefox) -> None:
    firefox.act("size", [360, 616])
    firefox.act("open", host.url)
    firefox.until(READY)
    firefox.until(KEPT)
    job = {"id": "demo", "title": "demo", "text": DEMO.read_text(), "entries": {}}
    firefox.run(f'import("/js/store.js").then((store) => store.putJob({json.dumps(job)}))')
    firefox.act("open", f"{host.url}#/demo/measure/as_found.width")
    firefox.until("document.querySelectorAll('.key').length > 0")
    tap = "[...document.querySelectorAll('.key')].find((key) => key.textContent === {0!r}).click()"
    for key in ("3", "3", "7/8", "+1/16", "+1/16"):
        firefox.run(tap.format(key))
    assert firefox.run(f"({HIDDEN})('.key, #field, .steps a')") == []
    firefox.until(f"{JOBS}.then((jobs) => jobs[0].entries['as_found.width'] === '34 in')")
    host.stop()
    firefox.act("reload")
    firefox.until(READY)
    firefox.run("location.hash = '#/demo/verdict'")
    assert firefox.until("document.querySelector('.banner h2')?.textContent")
    assert firefox.run(f"{JOBS}.then((jobs) => jobs[0].entries['as_found.width'])") == "34 in"
    firefox.run("location.hash = '#/'")
    firefox.until("document.body.textContent.includes('Ready without signal.')")
