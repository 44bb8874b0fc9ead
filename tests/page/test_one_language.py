"""The page speaks as the engine does: what is asked for has a field, no sign is kinder than it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from page.test_screens import open_demo

from bracecalc.page import answers
from bracecalc.page.answers import PLACES, SETTLED_BY, check, look
from bracecalc.page.asking import LEFT_OUT, ONE
from bracecalc.page.bridge import FOUND
from bracecalc.page.entries import Asked
from bracecalc.records.job import job_groups
from bracecalc.records.keys import Kind
from bracecalc.records.open import OpenCode
from bracecalc.records.plan import Verdict

if TYPE_CHECKING:
    from page.phone import Host, Phone

DEMOS = sorted((Path(__file__).parents[2] / "data/demo").glob("*.toml"))
BUILT = {"as_found.board.left": "81 in", "as_found.board.right": "81 in"}
# What no measurement settles: it is looked for on site, built, or answered for by somebody else.
SETTLED_ON_SITE = {
    OpenCode.SERVICES,
    OpenCode.HIGHEST_POINT,
    OpenCode.SOFFIT_FRAMING,
    OpenCode.SURROUNDINGS,
    OpenCode.BLOCKING,
}


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_the_green_sign_stands_only_where_nothing_is_open(path: Path) -> None:
    for entries in ({}, FOUND):
        asked = Asked(path.read_text(), entries)
        result = answers.checked(asked)
        plan = answers.plan_of(asked)
        quick, whole = look(asked), check(asked)
        assert quick["sign"] == whole["sign"]
        green = result.verdict is Verdict.HOLDS and not plan.open
        assert (quick["sign"] == "holds") == green
        assert len(whole["open"]) == len(plan.open)
        if result.verdict is Verdict.FAILS:
            assert (quick["sign"], quick["target"], whole["mark"]) == ("fails", "", "")


def test_the_places_on_the_screen_are_those_of_sections_that_there_are() -> None:
    codes = {
        section["code"]
        for path in DEMOS
        for entries in ({}, FOUND, BUILT)
        for section in check(Asked(path.read_text(), entries))["sections"]
    }
    assert set(PLACES) <= codes


def test_each_open_point_says_which_key_settles_it() -> None:
    assert set(OpenCode) - {OpenCode.FLOOR} == set(SETTLED_BY) | SETTLED_ON_SITE


def questions(page: Any, text: str) -> dict[str, str]:
    """Return the name of every question by its key."""
    found: list[list[str]] = page.page.evaluate(
        """async (text) => {
            const { sectionsOf } = await import("/js/questions.js");
            return sectionsOf({ text, entries: {}, known: {} })
              .flatMap(({ questions }) => questions.map(({ key, label }) => [key, label]));
        }""",
        text,
    )
    assert len({key for key, _ in found}) == len(found)
    return {key: label for key, label in found}  # noqa: C416 - lists of two, not pairs


@pytest.mark.browser
@pytest.mark.parametrize("text", ["", "title = 'opened'"])
def test_no_two_questions_have_one_key_or_one_name(open_page: Phone, text: str) -> None:
    named = questions(open_page, text)
    assert named
    doubled = [name for name in named.values() if list(named.values()).count(name) > 1]
    assert doubled == []


@pytest.mark.browser
def test_every_key_of_a_job_has_a_field(open_page: Phone) -> None:
    wanted = [
        (f"{group.path}.{ONE}.{key.name}" if group.many else group.path_of(key), key.kind)
        for group in job_groups()
        if group.path not in LEFT_OUT
        for key in group.keys
    ]
    named = questions(open_page, "")
    assert [key for key, kind in wanted if kind is not Kind.FILE and key not in named] == []
    for key in SETTLED_BY.values():
        assert key in named


@pytest.mark.browser
def test_what_a_finding_asks_for_is_entered_by_its_link(host: Host, phone: Phone) -> None:
    from page.phone import until

    open_demo(phone, host.url)
    phone.follow("Verdict")
    phone.follow("Bearing zone")
    until(lambda: phone.page.evaluate("document.activeElement.id") == "field")
    phone.type_in("0")
    phone.tap("+ Next one")
    phone.type_in("1", "2")
    phone.follow("Verdict")
    phone.page.locator(".banner").wait_for()
    until(lambda: phone.page.get_by_role("link", name="Bearing zone").count() == 0)
    (job,) = phone.jobs()
    assert job["entries"]["unit.bearing_zone"] == ["0 in", "12 in"]


@pytest.mark.browser
def test_a_soffit_and_a_door_that_are_not_there_can_be_left_out(host: Host, phone: Phone) -> None:
    from page.phone import until

    open_demo(phone, host.url)
    (job,) = phone.jobs()
    phone.page.goto(f"{host.url}#/{job['id']}/measure/niche.soffit")
    phone.tap("It is not there: leave it out")
    text = phone.ask("write", text=job["text"], entries=phone.jobs()[0]["entries"])["text"]
    assert "soffit =" not in text.replace("soffit_solid", "")
    phone.tap("Take it in again")
    until(lambda: phone.jobs()[0]["entries"] == {})
    phone.follow("List")
    phone.page.get_by_text("Doors and drawers").click()
    last = phone.page.get_by_role("button", name="Remove door or drawer")
    before = last.inner_text()
    last.click()
    until(lambda: not last.count() or last.inner_text() != before)
    entries = phone.jobs()[0]["entries"]
    left = phone.ask("write", text=job["text"], entries=entries)["text"]
    assert left.count("own_weight") == job["text"].count("own_weight") - 1


@pytest.mark.browser
def test_a_planned_value_stands_beside_each_found_one(open_page: Phone) -> None:
    text = DEMOS[-1].read_text()
    job = {"id": "beside", "title": "Beside", "text": text, "entries": {}, "changed": 1}
    put = 'async (job) => (await import("/js/store.js")).putJob(job)'
    open_page.page.evaluate(put, job)
    open_page.page.evaluate("location.hash = '#/beside/list'")
    open_page.page.locator(".rows .found .beside").first.wait_for()
    found = open_page.page.locator(".rows li.found")
    assert found.count() == open_page.page.locator(".rows .found").count()
    told = json.dumps(found.all_inner_texts())
    assert "Niche width, as found" in told
    assert "planned" in told
