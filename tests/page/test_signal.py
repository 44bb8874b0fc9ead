"""What is said of the signal is true, and what is missing of the page is fetched when it can be."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from page.test_screens import open_demo, until_verdict

if TYPE_CHECKING:
    from page.phone import Host, Phone
    from playwright.sync_api import Playwright

pytestmark = pytest.mark.browser

LIBRARY = "pyodide/python.zip"


def keep(phone: Phone, name: str, what: str | None) -> None:
    """Put something else in place of one kept file, or take the file away."""
    phone.page.evaluate(
        """async ([name, what]) => {
            const cache = await caches.open((await caches.keys())[0]);
            const key = new URL(name, location.origin).href;
            if (what === null) await cache.delete(key);
            else await cache.put(key, new Response(what));
        }""",
        [name, what],
    )


def without_host(host: Host, phone: Phone) -> None:
    host.stop()
    phone.page.reload()
    phone.page.locator("h1").wait_for()
    phone.wait_for_engine()


def test_ready_is_said_once_it_is_true(host: Host, phone: Phone) -> None:
    phone.open(host.url)
    phone.wait_for_offline()
    phone.page.get_by_text("Ready without signal.").wait_for()
    without_host(host, phone)
    phone.page.get_by_text("Ready without signal.").wait_for()


def test_one_file_that_fails_is_said_and_fetched_when_it_can_be(host: Host, phone: Phone) -> None:
    from page.phone import until

    lacking = host.folder / "licences/QR-MIT.txt"
    text = lacking.read_bytes()
    lacking.unlink()
    phone.open(host.url)
    phone.page.get_by_text("Not kept for use without signal yet.").wait_for()
    assert phone.state("offline") == "missing"
    lacking.write_bytes(text)
    phone.tap("Try again")
    until(lambda: phone.state("offline") == "kept")
    without_host(host, phone)
    phone.page.get_by_text("Ready without signal.").wait_for()


@pytest.mark.parametrize("name", ["js/verdict.js", LIBRARY, "pyodide/pyodide.asm.wasm"])
def test_what_was_lost_of_the_kept_files_is_fetched_again(
    host: Host, phone: Phone, name: str
) -> None:
    open_demo(phone, host.url)
    phone.wait_for_offline()
    keep(phone, name, None)
    phone.page.reload()
    phone.wait_for_engine()
    phone.wait_for_offline()
    without_host(host, phone)
    phone.follow("Verdict")
    until_verdict(phone, "Holds")


def test_a_damaged_library_is_fetched_anew_by_itself(host: Host, phone: Phone) -> None:
    from page.phone import until

    open_demo(phone, host.url)
    phone.wait_for_offline()
    keep(phone, LIBRARY, "cut short")
    phone.page.reload()
    until(lambda: _ready(phone))
    without_host(host, phone)


def _ready(phone: Phone) -> bool:
    try:
        return phone.state("engine") == "ready"
    except Exception as error:  # the page is being opened anew
        if "context was destroyed" not in str(error):
            raise
        return False


def test_a_file_of_another_build_is_never_kept(host: Host, phone: Phone) -> None:
    phone.open(host.url)
    phone.wait_for_offline()
    keep(phone, "app.css", None)
    style = host.folder / "app.css"
    newer = style.read_text() + "\n/* of tomorrow */\n"
    style.unlink()  # it is a link to the one build of all tests
    style.write_text(newer)
    phone.page.reload()
    phone.wait_for_engine()
    phone.page.get_by_text("Not kept for use without signal yet.").wait_for()


def test_plain_http_from_another_machine_says_what_is_needed(
    built: Path, playwright: Playwright, tmp_path: Path
) -> None:
    from page.phone import Phone, hosted

    with hosted(built) as host:
        options = ("--host-resolver-rules=MAP laptop.test 127.0.0.1",)
        phone = Phone(playwright, tmp_path / "device", options=options)
        try:
            phone.open(f"http://laptop.test:{host.port}/")
            phone.page.get_by_text("This address is not https").wait_for()
            phone.tap("Start a new niche")
            phone.follow("Niche width")
            phone.type_in("3", "3")
            assert phone.jobs()[0]["entries"] == {"niche.width": "33 in"}
            phone.wait_for_engine()
        finally:
            phone.turn_off()
