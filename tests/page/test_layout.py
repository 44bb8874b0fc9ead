"""Nothing is hidden: each key, each message, the way on; small phones, upright and on the side."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from page.test_screens import open_demo

if TYPE_CHECKING:
    from page.phone import Phone
    from playwright.sync_api import Browser, Playwright

pytestmark = pytest.mark.browser

SIZES = [(360, 616), (390, 664), (616, 360), (664, 390)]
# a length that its key refuses, on fields of each shape: several readings, signed, a list, a weight
WRONG = {
    "as_found.width": ["0"],
    "as_found.soffit": ["0"],
    "as_found.board.left": ["9", "9", "9", "9"],
    "niche.depth": ["0"],
    "unit.height": ["0"],
    "unit.leg_travel": ["9", "9"],
    "unit.weight": ["0"],
    "wall.layers.1.thickness": ["0"],
}
# what lies over the middle of an element, or that it isn't whole within the window
HIDDEN = """(chosen) => [...document.querySelectorAll(chosen)].flatMap((one) => {
  const { left, right, top, bottom, width, height } = one.getBoundingClientRect();
  const name = one.getAttribute("aria-label") || one.textContent || one.id;
  if (!width || !height) return [`${name}: not drawn`];
  if (left < 0 || top < 0 || right > innerWidth || bottom > innerHeight)
    return [`${name}: ${[left, top, right, bottom].map(Math.round)}`];
  const over = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
  return one.contains(over) ? [] : [`${name}: under ${over?.className}`];
})"""
PLACE = """(chosen) => {
  const { left, top, width } = document.querySelector(chosen).getBoundingClientRect();
  return [left, top, width];
}"""


@pytest.fixture(scope="module")
def opened(
    built: Path,
    playwright: Playwright,
    browser: Browser,
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[tuple[Phone, str]]:
    from page.phone import Phone, hosted

    with hosted(built) as host:
        phone = Phone(playwright, tmp_path_factory.mktemp("device") / "profile", browser=browser)
        open_demo(phone, host.url)
        phone.wait_for_engine()
        (job,) = phone.jobs()
        yield phone, f"{host.url}#/{job['id']}"
        phone.turn_off()


def ask_for(phone: Phone, start: str, key: str) -> None:
    phone.page.goto(f"{start}/measure/{key}")
    phone.page.locator(".measure").wait_for()


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("key", WRONG)
def test_each_key_and_the_message_are_seen(
    opened: tuple[Phone, str], size: tuple[int, int], key: str
) -> None:
    phone, start = opened
    page = phone.page
    page.set_viewport_size({"width": size[0], "height": size[1]})
    ask_for(phone, start, key)
    page.locator("#field").fill("")
    phone.type_in(*WRONG[key])
    if key == "as_found.board.left":
        page.locator("#field").fill("twelve")
    page.locator("#trouble:not(:empty)").wait_for()
    assert page.locator("#field").get_attribute("aria-invalid") == "true"
    assert page.evaluate(HIDDEN, ".key, #field, #trouble, .steps a, h1") == []
    below = page.evaluate(
        """() => document.querySelector("#trouble").getBoundingClientRect().top
            - document.querySelector(".fieldrow").getBoundingClientRect().bottom"""
    )
    assert 0 <= below < 12  # directly under the field
    page.locator("#field").fill("")
    page.locator("#trouble").wait_for(state="hidden")
    assert page.locator("#field").get_attribute("aria-invalid") == "false"


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_the_way_on_stays_at_one_place_and_title_and_focus_follow(
    opened: tuple[Phone, str], size: tuple[int, int]
) -> None:
    phone, start = opened
    page = phone.page
    page.set_viewport_size({"width": size[0], "height": size[1]})
    ask_for(phone, start, "as_found.width")
    places = set()
    for _ in range(12):
        asked = page.locator("#asked").inner_text()
        places.add(tuple(page.evaluate(PLACE, ".steps a.first")))
        assert page.title().startswith(f"{asked} \N{EN DASH} ")
        focus = "document.activeElement.id"
        assert page.evaluate(focus) == ("field" if page.locator(".key").count() else "asked")
        phone.follow("Next")
        page.wait_for_function(
            "(was) => document.querySelector('#asked').textContent !== was", arg=asked
        )
    assert len(places) == 1


SCREENS = ("/list", "/measure/as_found.width", "/measure/as_found.floor.rear_right", "/verdict",
           "/work", "/share", "/measure/wall.layers.1.material", "/measure/title", "")  # fmt: skip


@pytest.mark.parametrize("screen", SCREENS)
def test_letters_twice_as_large_stay_inside_the_width(
    opened: tuple[Phone, str], screen: str
) -> None:
    phone, start = opened
    page = phone.page
    page.set_viewport_size({"width": 360, "height": 616})
    page.goto(f"{start}{screen}" if screen else start.split("#")[0] + "#/")
    page.locator("h1").wait_for()
    page.wait_for_timeout(400)
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    try:
        wide: list[Any] = page.evaluate(
            """() => [...document.querySelectorAll("main *, header *, nav *, .steps *")]
              .filter((one) => one.checkVisibility() && !one.closest("svg, .away"))
              .map((one) => [one.tagName, one.className, one.getBoundingClientRect()])
              .filter(([, , { left, right }]) => left < -1 || right > innerWidth + 1)
              .map(([tag, name, { left, right }]) => [tag, String(name), left, right])"""
        )
        assert wide == []
        assert page.evaluate(HIDDEN, ".steps a, nav a") == []
        assert page.evaluate("document.querySelector('main').clientHeight") > 200
    finally:
        page.evaluate("document.documentElement.style.fontSize = ''")


def test_nothing_on_the_page_moves_by_itself(opened: tuple[Phone, str]) -> None:
    phone, start = opened
    phone.page.goto(f"{start}/verdict")
    phone.page.locator(".banner").wait_for()
    assert phone.page.evaluate("document.getAnimations().length") == 0
