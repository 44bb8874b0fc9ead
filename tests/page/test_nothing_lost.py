"""A full disk, a closed database, a slip of the thumb, a killed browser: the jobs stay."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from page.test_screens import open_demo

if TYPE_CHECKING:
    from page.phone import Host, Phone
    from playwright.sync_api import Browser, Playwright

pytestmark = pytest.mark.browser

WIDTH = {"as_found.width": "33 in"}


def devtools(phone: Phone, method: str, **params: Any) -> Any:
    return phone.context.new_cdp_session(phone.page).send(method, params)


def origin(host: Host) -> str:
    return host.url.rstrip("/")


def test_a_database_that_the_browser_closed_is_opened_again(host: Host, phone: Phone) -> None:
    open_demo(phone, host.url)
    phone.follow("Niche width")
    phone.page.evaluate(
        """async () => {
            const name = (await indexedDB.databases())[0].name;
            await new Promise((done) => {
                const request = indexedDB.deleteDatabase(name);
                request.onsuccess = request.onblocked = done;
            });
        }"""
    )
    phone.type_in("3", "3")
    phone.page.evaluate('async () => (await import("/js/live.js")).live.saved')
    (job,) = phone.jobs()
    assert job["entries"] == WIDTH
    assert phone.page.locator("main").get_by_text("Not stored yet").count() == 0


def test_a_database_that_comes_up_empty_is_filled_from_the_second_copy(
    host: Host, phone: Phone
) -> None:
    from page.phone import until

    open_demo(phone, host.url)
    phone.follow("Niche width")
    phone.type_in("3", "3")
    phone.page.evaluate('async () => (await import("/js/live.js")).live.saved')
    # the verdict is noted a moment after the entry
    until(lambda: (phone.jobs()[0].get("came") or {}).get("verdict"))
    kept = phone.jobs()
    devtools(phone, "Storage.clearDataForOrigin", origin=origin(host), storageTypes="indexeddb")
    phone.page.goto(f"{host.url}#/")
    phone.page.reload()
    phone.page.get_by_text("Quillet Yard 3B").wait_for()
    assert phone.jobs() == kept


def test_a_full_disk_is_said_and_the_entry_is_stored_as_soon_as_there_is_room(
    host: Host, phone: Phone
) -> None:
    from page.phone import until

    open_demo(phone, host.url)
    phone.follow("Niche width")
    phone.page.evaluate(
        """() => {
            globalThis.put = IDBObjectStore.prototype.put;
            IDBObjectStore.prototype.put = () => {
                throw new DOMException("no room", "QuotaExceededError");
            };
        }"""
    )
    phone.type_in("3", "3")
    phone.page.get_by_text("Not stored yet").first.wait_for()
    assert "full" in phone.page.locator(".answer").inner_text()
    phone.page.evaluate("() => { IDBObjectStore.prototype.put = globalThis.put; }")
    until(lambda: phone.jobs()[0]["entries"] == WIDTH)
    phone.page.get_by_text("Not stored yet").first.wait_for(state="hidden")


@pytest.mark.parametrize("wait", [0, 10])
def test_killed_right_after_a_key_the_last_digit_is_there(
    host: Host, device: Phone, wait: int
) -> None:
    open_demo(device, host.url)
    device.wait_for_offline()
    device.follow("Niche width")
    device.type_in("3", "3")
    device.page.wait_for_timeout(wait)
    device.kill()
    device.turn_on()
    device.open(host.url)
    (job,) = device.jobs()
    assert job["entries"] == WIDTH


def test_two_quick_taps_bin_one_job_and_undo_brings_it_back(host: Host, phone: Phone) -> None:
    for _ in range(2):
        open_demo(phone, host.url)
    phone.open(f"{host.url}#/")
    phone.page.locator(".drop").nth(1).wait_for()
    phone.page.wait_for_timeout(700)
    box = phone.page.locator(".drop").first.bounding_box()
    assert box is not None
    at = (box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    phone.page.mouse.click(*at)
    phone.page.wait_for_timeout(120)
    phone.page.mouse.click(*at)
    phone.page.get_by_text("is in the bin.").wait_for()
    assert len(phone.jobs()) == 1
    phone.page.wait_for_timeout(700)
    phone.tap("Undo")
    phone.page.locator(".drop").nth(1).wait_for()
    assert len(phone.jobs()) == 2


def test_the_bin_is_emptied_only_when_asked_twice(host: Host, phone: Phone) -> None:
    open_demo(phone, host.url)
    phone.open(f"{host.url}#/")
    phone.page.wait_for_timeout(700)
    phone.page.locator(".drop").click()
    phone.page.get_by_text("is in the bin.").wait_for()
    phone.page.reload()
    phone.page.get_by_text("Bin (1)").click()
    phone.tap("Take it out")
    phone.page.locator(".job").wait_for()
    phone.page.wait_for_timeout(700)
    phone.page.locator(".drop").click()
    phone.page.get_by_text("is in the bin.").wait_for()
    phone.page.reload()
    phone.page.get_by_text("Bin (1)").click()
    phone.tap("Empty the bin")
    phone.tap("Keep them")
    phone.tap("Empty the bin")
    phone.page.wait_for_timeout(700)
    phone.tap("Delete for good")
    phone.page.locator(".bin").wait_for(state="detached")
    phone.page.reload()
    phone.page.get_by_text("No job is on this phone yet.").wait_for()


def test_saving_is_urged_until_it_is_done(host: Host, phone: Phone) -> None:
    open_demo(phone, host.url)
    phone.open(f"{host.url}#/")
    urge = phone.page.locator(".urge", has_text=re.compile("1 job has changed since"))
    urge.wait_for()
    with phone.page.expect_download():
        phone.tap("Save all jobs")
    urge.wait_for(state="hidden")


def test_a_job_goes_from_phone_to_phone_by_the_code_on_the_screen(
    host: Host, phone: Phone, playwright: Playwright, browser: Browser, tmp_path: Path
) -> None:
    from page.phone import Phone as Device

    phone.open(host.url)
    phone.wait_for_engine()
    phone.tap("Start a new niche")  # half measured: it is handed on all the same
    phone.follow("Niche width")
    phone.type_in("3", "3", "1/4")
    phone.follow("List")
    phone.follow("Share")
    phone.tap("Show a code for another phone")
    code = phone.page.locator("svg.code")
    code.wait_for()
    box = code.bounding_box()
    assert box is not None
    assert box["width"] > 320
    picture = tmp_path / "code.png"
    code.screenshot(path=picture)
    other = Device(playwright, tmp_path / "other", browser=browser)
    try:
        other.open(host.url)
        other.wait_for_engine()
        other.page.get_by_text("Code of a wall sheet").click()
        other.give_file("Scan it", picture)
        other.page.get_by_text("Measure one by one").wait_for()
        (job,) = other.jobs()
        assert (
            other.ask("look", text=job["text"], entries={})["values"]["niche.width"] == "33 1/4 in"
        )
    finally:
        other.turn_off()


def test_a_whole_job_fits_a_code_for_the_screen(open_page: Phone) -> None:
    for path in sorted((Path(__file__).parents[2] / "data/demo").glob("*.toml")):
        answer = open_page.ask("hand", text=path.read_text(), entries={})
        assert answer["rows"], path.name
        assert len(answer["rows"]) <= 137


def test_one_job_of_many_is_found_and_copied(host: Host, phone: Phone) -> None:
    phone.open(host.url)
    for number in range(7):
        job = {"id": f"job-{number}", "title": f"Niche {number}", "text": "", "entries": {}}
        phone.page.evaluate('async (job) => (await import("/js/store.js")).putJob(job)', job)
    phone.page.reload()
    phone.page.get_by_label("Find a job").fill("niche 4")
    phone.page.locator(".job").nth(1).wait_for(state="detached")
    assert phone.page.locator(".job strong").inner_text() == "Niche 4"
    phone.page.wait_for_timeout(700)
    phone.tap("Copy")
    phone.page.get_by_text("Niche 4 (copy)").wait_for()
    assert len(phone.jobs()) == 8
