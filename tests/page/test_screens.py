"""The page as an installer uses it, in real Chromium."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bracecalc.jobfile.read import parse_job, read_job
from bracecalc.page.answers import word
from bracecalc.planning.plan import make_plan

if TYPE_CHECKING:
    from page.phone import Host, Phone
    from playwright.sync_api import Playwright

pytestmark = pytest.mark.browser

DEMO = Path(__file__).parents[2] / "data/demo/3b-kitchen.toml"


def until_verdict(phone: Phone, words: str) -> None:
    phone.page.locator(".banner h2", has_text=re.compile(f"^{words}$")).wait_for()


def open_demo(phone: Phone, url: str) -> None:
    phone.open(url)
    phone.give_file("Open a job file", DEMO)
    phone.page.get_by_text("Measure one by one").wait_for()


def next_one(phone: Phone) -> str:
    """Go on and return what is asked then."""
    from page.phone import until

    asked = phone.page.locator("#asked")
    before = asked.inner_text()
    phone.page.get_by_role("link", name="Next").click()
    until(lambda: asked.inner_text() != before)
    return asked.inner_text()


# what an installer types for a niche that is new: by the label of each measurement
NICHE = {
    "Niche width": ("3", "3", "1/4"),
    "Niche depth": ("2", "4"),
    "Soffit": ("7", "feet", "8", "1/2"),
    "Finish thickness": ("1/2",),
    "Appliance height": ("8", "0", "5/8"),
    "Appliance width": ("3", "2", "3/4"),
    "Appliance depth": ("2", "3", "1/8"),
    "Leg travel": ("1", "3/8"),
}


def test_a_new_niche_from_the_first_tap_to_the_verdict(host: Host, phone: Phone) -> None:
    phone.open(host.url)
    phone.tap("Start a new niche")
    phone.page.get_by_text("Measure one by one").click()
    phone.page.locator("#field").fill("Quillet Yard 7Z")
    asked = "Name of the job"
    while asked != "Board size":
        asked = next_one(phone)
        if asked in NICHE:
            phone.type_in(*NICHE[asked])
        elif asked == "Wall finish":
            phone.page.get_by_label("gypsum board", exact=True).check()
        elif asked == "Stud centers":
            phone.type_in("6", "3/8")
            phone.page.get_by_role("button", name="+ Next one").click()
            phone.type_in("2", "2", "1/4", "one sixteenth more")
    phone.page.get_by_label("2x6", exact=True).check()
    phone.follow("Back to the list")
    phone.wait_for_engine()
    phone.follow("Verdict")
    until_verdict(phone, "Holds|Holds if measured closely|Fails|Provisional")
    (job,) = phone.jobs()
    assert job["title"] == "Quillet Yard 7Z"
    assert job["entries"]["niche.soffit"] == "7' 8 1/2\""
    assert job["entries"]["wall.stud_spots"] == ["6 3/8 in", "22 5/16 in"]
    text = phone.ask("write", text=job["text"], entries=job["entries"])["text"]
    plan = make_plan(parse_job(text, where="page"))
    assert phone.page.locator(".banner h2").inner_text() == word(plan, plan)
    assert not phone.errors


def test_an_opened_job_shows_its_plan_and_what_was_found(host: Host, phone: Phone) -> None:
    open_demo(phone, host.url)
    phone.page.locator(".answer .mark").wait_for()
    phone.follow("Floor, rear right")
    phone.type_in("7/8")
    phone.follow("Back to the list")
    phone.follow("Verdict")
    until_verdict(phone, "Fails")
    shown = phone.page.locator("main").inner_text()
    assert "What to do" in shown
    for corner in ("rear left", "rear right", "front left", "front right"):
        assert corner in shown
    assert phone.page.locator("img.drawing").count() == 2
    phone.follow("Why")
    phone.page.get_by_text("Made by the computation itself").wait_for()
    assert phone.page.locator("ol.work li").count() > 3
    assert not phone.errors


def test_the_drawing_follows_the_numbers(host: Host, phone: Phone) -> None:
    open_demo(phone, host.url)
    phone.wait_for_engine()
    phone.follow("Niche width")
    unit = phone.page.locator(".sketch .recess")
    before = unit.get_attribute("width")
    phone.type_in("2", "8")
    phone.page.locator(".sketch .said", has_text="28 in").wait_for()
    phone.page.wait_for_timeout(500)
    assert unit.get_attribute("width") != before


def test_numbers_are_taken_before_the_engine_is_ready(host: Host, phone: Phone) -> None:
    phone.page.route("**/pyodide.asm.wasm", lambda route: None)  # never answered
    phone.open(host.url)
    phone.tap("Start a new niche")
    phone.follow("Niche width")
    phone.type_in("3", "3")
    assert phone.state("engine") == "starting"
    assert phone.page.locator(".sketch").count() == 1
    phone.page.reload()
    phone.page.locator("h1").wait_for()
    (job,) = phone.jobs()
    assert job["entries"]["niche.width"] == "33 in"


def test_millimetres_are_one_tap_away(host: Host, phone: Phone) -> None:
    phone.open(host.url)
    phone.tap("Start a new niche")
    phone.follow("Niche width")
    phone.tap("in in; tap for mm")
    phone.type_in("8", "4", "5")
    (job,) = phone.jobs()
    assert job["entries"]["niche.width"] == "845 mm"
    phone.follow("Next")
    assert phone.page.get_by_role("button", name="in mm; tap for in").count() == 1


def test_changing_the_unit_never_changes_a_length(host: Host, phone: Phone) -> None:
    from page.phone import until

    phone.open(host.url)
    phone.wait_for_engine()
    phone.tap("Start a new niche")
    phone.follow("Niche width")
    phone.type_in("3", "3", "1/4")
    phone.tap("in in; tap for mm")
    until(lambda: phone.jobs()[0]["entries"]["niche.width"] == "844.5 mm")
    phone.tap("in mm; tap for in")
    until(lambda: phone.jobs()[0]["entries"]["niche.width"] == "33 1/4 in")
    assert phone.page.locator("#field").input_value() == "33 1/4"


def test_the_job_file_comes_back_out(host: Host, phone: Phone, tmp_path: Path) -> None:
    open_demo(phone, host.url)
    phone.wait_for_engine()
    phone.follow("Stud centers, as found")
    phone.type_in("6", "1/4")
    phone.follow("Back to the list")
    phone.follow("Share")
    with phone.page.expect_download() as given:
        phone.tap("Share job file")
    out = tmp_path / "out.toml"
    given.value.save_as(out)
    assert read_job(out).as_found == {"studs": ["6 1/4 in"]}
    kept = [line for line in DEMO.read_text().splitlines() if line not in out.read_text()]
    assert kept == []  # comments and layout of what was there


def test_the_sheet_is_made_on_the_phone(host: Host, phone: Phone, tmp_path: Path) -> None:
    open_demo(phone, host.url)
    phone.wait_for_engine()
    phone.follow("Share")
    phone.tap("Show the sheet")
    phone.page.get_by_text("The sheet is below.").wait_for()
    wide = phone.page.locator(".sheet img").first.evaluate("image => image.naturalWidth")
    assert wide > 500
    with phone.page.expect_download() as given:
        phone.tap("Save the sheet as a file")
    given.value.save_as(tmp_path / "sheet.html")
    assert "Quillet Yard 3B" in (tmp_path / "sheet.html").read_text()
    assert not phone.errors


@pytest.fixture
def photo(tmp_path: Path) -> Path:
    segno = pytest.importorskip("segno")
    from bracecalc.drawing.code import pack

    short = "\n".join(line.split("#")[0].rstrip() for line in DEMO.read_text().splitlines())
    path = tmp_path / "code.png"
    segno.make_qr(pack(short), error="l").save(path, scale=5, border=4)
    return path


def test_the_code_of_a_sheet_is_read_from_a_picture(host: Host, phone: Phone, photo: Path) -> None:
    phone.open(host.url)
    phone.wait_for_engine()
    phone.page.get_by_text("Code of a wall sheet").click()
    phone.give_file("Scan it", photo)
    phone.page.get_by_text("Measure one by one").wait_for()
    (job,) = phone.jobs()
    assert job["title"].startswith("Quillet Yard 3B")
    assert not phone.errors


def test_the_code_of_a_sheet_is_read_by_the_camera(
    host: Host, playwright: Playwright, photo: Path, tmp_path: Path
) -> None:
    """Chromium's stand-in for a camera shows a film of the code."""
    image = pytest.importorskip("PIL.Image")
    from page.phone import Phone

    picture = image.new("RGB", (1280, 720), "white")
    picture.paste(image.open(photo).convert("RGB").resize((640, 640), 0), (320, 40))
    picture.save(tmp_path / "frame.jpg", quality=95)
    film = tmp_path / "film.mjpeg"
    film.write_bytes((tmp_path / "frame.jpg").read_bytes() * 10)
    options = (
        "--use-fake-device-for-media-stream",
        "--use-fake-ui-for-media-stream",
        f"--use-file-for-fake-video-capture={film}",
    )
    phone = Phone(playwright, tmp_path / "device", options=options)
    try:
        phone.open(host.url)
        phone.wait_for_engine()
        phone.page.get_by_text("Code of a wall sheet").click()
        phone.tap("Scan it")
        phone.page.get_by_text("Measure one by one").wait_for()
        assert phone.jobs()[0]["title"].startswith("Quillet Yard 3B")
        assert not phone.errors
    finally:
        phone.turn_off()


def test_the_code_of_a_sheet_can_be_pasted(host: Host, phone: Phone) -> None:
    from bracecalc.drawing.code import pack

    phone.open(host.url)
    phone.wait_for_engine()
    phone.page.get_by_text("Code of a wall sheet").click()
    phone.page.locator("#code").fill(pack(DEMO.read_text())[:-6])
    phone.tap("Open this code")
    phone.page.locator(".wrong").wait_for()
    assert "expected the code of a sheet, whole" in phone.page.locator(".wrong").inner_text()
    phone.page.locator("#code").fill(pack(DEMO.read_text()))
    phone.tap("Open this code")
    phone.page.get_by_text("Measure one by one").wait_for()


def test_many_jobs_go_out_and_come_in(host: Host, phone: Phone, tmp_path: Path) -> None:
    for _ in range(2):
        open_demo(phone, host.url)
    phone.open(host.url + "#/")
    phone.page.locator(".jobs li").nth(1).wait_for()
    with phone.page.expect_download() as given:
        phone.tap("Save all jobs")
    given.value.save_as(tmp_path / "jobs.json")
    for job in phone.jobs():
        phone.page.evaluate('async (id) => (await import("/js/store.js")).dropJob(id)', job["id"])
    phone.page.reload()
    phone.page.get_by_text("No job is on this phone yet.").wait_for()
    phone.give_file("Import jobs", tmp_path / "jobs.json")
    phone.page.get_by_text("2 jobs brought in.").wait_for()
    assert [job["text"] for job in phone.jobs()] == [DEMO.read_text()] * 2
    (tmp_path / "wrong.json").write_text('{"bracecalc": "jobs 1", "jobs": [{"id": 1}]}')
    phone.give_file("Import jobs", tmp_path / "wrong.json")
    phone.page.get_by_text("not a file of saved jobs").wait_for()
    assert len(phone.jobs()) == 2
