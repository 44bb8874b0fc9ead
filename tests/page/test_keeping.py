"""Nothing is lost: no signal, no host, a killed browser, a newer page."""

from __future__ import annotations

import json
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from page.test_screens import open_demo, until_verdict

from bracecalc.page.runtime import Runtime

if TYPE_CHECKING:
    from page.phone import Host, Phone

pytestmark = pytest.mark.browser


def measure_stud(phone: Phone) -> None:
    phone.follow("Stud centers, as found")
    phone.type_in("6", "1/4")
    assert phone.page.locator("#field").input_value() == "6 1/4"


def test_without_the_host_the_page_still_opens_and_works_out(host: Host, phone: Phone) -> None:
    open_demo(phone, host.url)
    phone.wait_for_offline()
    host.stop()
    phone.page.reload()
    phone.page.locator("h1").wait_for()
    phone.wait_for_engine()
    phone.follow("Verdict")
    until_verdict(phone, "Holds")


def test_after_the_browser_was_closed_and_no_host_the_job_is_there(
    host: Host, device: Phone
) -> None:
    open_demo(device, host.url)
    device.wait_for_offline()
    measure_stud(device)
    host.stop()
    device.turn_off()
    device.turn_on()
    device.open(host.url)
    device.page.get_by_text("Quillet Yard 3B").click()
    device.wait_for_engine()
    device.follow("Verdict")
    until_verdict(device, "Fails")  # one stud found is too few
    (job,) = device.jobs()
    assert job["entries"] == {"as_found.studs": ["6 1/4 in"]}


def test_a_flat_battery_loses_nothing(host: Host, device: Phone) -> None:
    open_demo(device, host.url)
    device.wait_for_offline()
    measure_stud(device)
    device.page.evaluate('async () => (await import("/js/live.js")).live.saved')
    device.kill()
    device.turn_on()
    device.open(host.url)
    (job,) = device.jobs()
    assert job["entries"] == {"as_found.studs": ["6 1/4 in"]}


def test_a_newer_page_keeps_the_jobs(
    host: Host, phone: Phone, runtime: Runtime, tmp_path: Path
) -> None:
    open_demo(phone, host.url)
    measure_stud(phone)
    phone.wait_for_offline()
    kept = phone.jobs()
    style = host.folder / "app.css"
    newer = style.read_text() + "\nbody { --newer: 1 }\n"
    style.unlink()  # it is a link to the one build of all tests
    style.write_text(newer)
    worker = host.folder / "sw.js"
    first, rest = worker.read_text().split("\n", 1)
    build = json.loads(first.removeprefix("const BUILD = ").rstrip(";"))
    build["id"] = "newer"
    build["files"]["app.css"] = sha256(newer.encode()).hexdigest()
    worker.unlink()
    worker.write_text(f"const BUILD = {json.dumps(build)};\n{rest}")
    phone.page.reload()
    look = "getComputedStyle(document.body).getPropertyValue('--newer')"
    phone.page.get_by_role("button", name="Update").wait_for()
    assert phone.page.evaluate(look) == ""  # the old page, whole, until the person says so
    phone.tap("Update")
    from page.phone import until

    until(lambda: _after_reload(phone, look) == "1")
    names = phone.page.evaluate("caches.keys()")
    assert names == ["bracecalc-page-newer"]
    assert phone.jobs() == kept
    host.stop()
    phone.page.reload()
    phone.wait_for_engine()
    assert phone.jobs() == kept


def _after_reload(phone: Phone, look: str) -> str | None:
    try:
        found: str = phone.page.evaluate(look)
    except Exception as error:  # the page is being changed for the newer one
        if "context was destroyed" not in str(error):
            raise
        return None
    return found


def test_two_tabs_on_one_job_keep_what_both_typed(host: Host, phone: Phone) -> None:
    from page.phone import until

    open_demo(phone, host.url)
    first, address = phone.page, phone.page.url
    second = phone.page = phone.context.new_page()
    phone.open(address)
    second.get_by_text("Measure one by one").wait_for()
    phone.follow("Niche width")
    phone.type_in("3", "3")
    kept = {"as_found.width": "33 in"}
    until(lambda: phone.jobs()[0]["entries"] == kept)
    phone.page = first
    phone.page.wait_for_timeout(300)
    phone.follow("Niche depth")
    phone.type_in("2", "4")
    assert phone.jobs()[0]["entries"] == {**kept, "as_found.depth": "24 in"}


def test_what_an_older_or_newer_page_stored_is_not_thrown_away(host: Host, phone: Phone) -> None:
    phone.open(host.url)
    other = {
        "id": "from-another-version",
        "title": "Quillet Yard 1A",
        "text": "",
        "entries": {"niche.width": "33 in", "niche.shape_of_tomorrow": "round"},
        "created": 1,
        "changed": 1,
        "field_of_tomorrow": [1, 2],
    }
    phone.page.evaluate('async (job) => (await import("/js/store.js")).putJob(job)', other)
    phone.page.reload()
    phone.page.get_by_text("Quillet Yard 1A").click()
    phone.wait_for_engine()
    phone.follow("Measure")
    phone.follow("Niche depth")
    phone.type_in("2", "4")
    (job,) = phone.jobs()
    assert job["entries"] == {**other["entries"], "niche.depth": "24 in"}  # type: ignore[dict-item]
    assert job["field_of_tomorrow"] == [1, 2]
