"""A phone's browser for the tests: real Chromium, 360 pixels wide, that forgets nothing."""

from __future__ import annotations

import os
import signal
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from playwright.sync_api import Browser, BrowserContext, Error, Page, Playwright, ViewportSize

from bracecalc.page.preview import preview_server

KEYS = {
    "feet": "ft, feet",
    "one sixteenth more": "+1/16, one sixteenth more",
    ".": ". point",
    "minus": "\N{MINUS SIGN} minus",
}  # what a key is called
CHROMIUM = "/usr/bin/chromium"
SCREEN: ViewportSize = {"width": 360, "height": 740}
PATIENCE = 60.0  # seconds; a busy machine is slow, a hung page never comes


def until(what: Callable[[], Any]) -> Any:
    """Return the first true answer; a page under this policy can't be asked to wait by itself."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        found = what()
        if found:
            return found
        time.sleep(0.03)
    raise AssertionError("the page did not get there")


class Host:
    """A web host on this machine that can be stopped and started at the same address."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.port = 0
        self.server: Any = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}/"

    def start(self) -> None:
        self.server = preview_server(self.folder, port=self.port)
        self.port = self.server.server_address[1]
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        if self.server is not None:
            self.server.shutdown()
            self.server.server_close()
            self.server = None


class Phone:
    """One device: its browser can be closed, killed and opened again, with what it keeps.

    With a ``browser`` that runs already it is a fresh corner of that one, which is quicker to have
    and can't be closed and opened again.
    """

    def __init__(
        self,
        playwright: Playwright,
        profile: Path,
        *,
        options: tuple[str, ...] = (),
        browser: Browser | None = None,
    ) -> None:
        self.playwright = playwright
        self.browser = browser
        self.profile = profile
        self.options = options
        self.hosts: list[str] = []
        self.errors: list[str] = []
        self.context: BrowserContext
        self.page: Page
        self.turn_on()

    def turn_on(self) -> None:
        if self.browser is None:
            self.context = self.playwright.chromium.launch_persistent_context(
                self.profile,
                executable_path=CHROMIUM,
                args=["--no-sandbox", *self.options],
                viewport=SCREEN,
                has_touch=True,
                accept_downloads=True,
            )
        else:
            self.context = self.browser.new_context(
                viewport=SCREEN, has_touch=True, accept_downloads=True
            )
        self.context.on("request", lambda request: self._asked(request.url))
        self.page = self.context.pages[0] if self.context.pages else self.context.new_page()
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))
        self.page.on("console", lambda said: self._heard(said.type, said.text))

    def _asked(self, url: str) -> None:
        if urlsplit(url).scheme not in ("blob", "data", "file"):
            self.hosts.append(urlsplit(url).netloc)

    def _heard(self, kind: str, text: str) -> None:
        if kind == "error":
            self.errors.append(text)

    def turn_off(self) -> None:
        self.context.close()

    def kill(self) -> None:
        """End the browser at once, as a flat battery does."""
        own = f"--user-data-dir={self.profile}".encode()
        for folder in Path("/proc").iterdir():
            if folder.name.isdigit() and own in _command(folder):
                os.kill(int(folder.name), signal.SIGKILL)
        with suppress(Error):  # it is gone already
            self.context.close()

    def open(self, url: str) -> None:
        self.page.goto(url)
        self.page.locator("h1").wait_for()

    def state(self, name: str) -> str | None:
        found: str | None = self.page.evaluate(f"document.documentElement.dataset.{name} ?? null")
        return found

    def wait_for_engine(self) -> None:
        until(lambda: self.state("engine") != "starting")
        assert self.state("engine") == "ready", self.page.locator(".state").inner_text()

    def wait_for_offline(self) -> None:
        until(lambda: self.state("offline") == "kept")

    def ask(self, method: str, **params: Any) -> Any:
        """Return the engine's answer, or ``{"refused": text}``."""
        return self.page.evaluate(
            """async ([method, params]) => {
                const { engine } = await import("/js/engine.js");
                return engine.ask(method, params).catch((error) => ({ refused: error.message }));
            }""",
            [method, params],
        )

    def tap(self, name: str) -> None:
        self.page.get_by_role("button", name=name, exact=True).first.click()

    def follow(self, name: str) -> None:
        self.page.get_by_role("link", name=name).first.click()

    def type_in(self, *keys: str) -> None:
        for key in keys:
            self.tap(KEYS.get(key, key))

    def give_file(self, button: str, path: Path) -> None:
        with self.page.expect_file_chooser() as asked:
            self.page.get_by_role("button", name=button).first.click()
        asked.value.set_files(path)

    def jobs(self) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = self.page.evaluate(
            'async () => (await import("/js/store.js")).allJobs()'
        )
        return found


def _command(folder: Path) -> list[bytes]:
    try:
        return (folder / "cmdline").read_bytes().split(b"\0")
    except OSError:  # it ended meanwhile
        return []


@contextmanager
def hosted(folder: Path) -> Iterator[Host]:
    host = Host(folder)
    host.start()
    try:
        yield host
    finally:
        host.stop()
