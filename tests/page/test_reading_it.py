"""The page in sunlight, with gloves and with a screen reader: what can be measured of that."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from page.conftest import missing
from page.test_screens import DEMO, open_demo

if TYPE_CHECKING:
    from page.phone import Phone
    from playwright.sync_api import Browser, Playwright

pytestmark = pytest.mark.browser

# Relative luminance and contrast ratio as WCAG 2.2 defines them; 7 is its 1.4.6 (AAA).
LOW_CONTRAST = """() => {
  const rgba = (text) => text.match(/[\\d.]+/g).map(Number);
  const light = ([r, g, b]) => [r, g, b]
    .map((part) => part / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4))
    .reduce((sum, part, n) => sum + part * [0.2126, 0.7152, 0.0722][n], 0);
  const behind = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const colour = rgba(getComputedStyle(at).backgroundColor);
      if (colour.length === 3 || colour[3] === 1) return colour;
    }
    return [255, 255, 255];
  };
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    if (!walker.currentNode.data.trim() || !element.checkVisibility()) continue;
    if (element.closest("svg, noscript")) continue;
    const [one, two] = [rgba(getComputedStyle(element).color), behind(element)].map(light);
    const ratio = (Math.max(one, two) + 0.05) / (Math.min(one, two) + 0.05);
    if (ratio < 7) found.push([walker.currentNode.data.trim(), ratio]);
  }
  return found;
}"""
# 48 px: more than the 44 of WCAG 2.2, 2.5.5 (AAA).
CONTROLS = "a, button, summary, input, select, textarea, label"
NAMED = "a, button, input, select, textarea, img, svg[role]"
SMALL = """(controls) => [...document.querySelectorAll(controls)]
  .filter((one) => one.checkVisibility() && !one.matches(".asked, .away, input[type=radio]"))
  .filter((one) => !(one.matches("label") && !one.querySelector("input")))
  .map((one) => [one.textContent || one.id, one.getBoundingClientRect()])
  .filter(([, { width, height }]) => width < 48 || height < 48)
  .map(([name, { width, height }]) => [name, width, height])
"""
NAMELESS = """(named) => [...document.querySelectorAll(named)]
  .filter((one) => one.checkVisibility())
  .filter((one) => !(one.textContent.trim() || one.getAttribute("aria-label") || one.alt
    || document.getElementById(one.getAttribute("aria-labelledby"))
    || one.labels?.length))
  .map((one) => one.outerHTML)
"""
WIDE = "() => document.documentElement.scrollWidth"


@pytest.fixture(params=["light", "dark"])
def scheme(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture(scope="module")
def measured(
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


AXE = Path(__file__).with_name("npm") / "node_modules/axe-core/axe.min.js"
FOUND_BY_AXE = """async () => {
  const { violations } = await axe.run(document, { resultTypes: ["violations"] });
  return violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html.slice(0, 160))]);
}"""
SCREENS = {
    "jobs": "",
    "list": "/list",
    "length": "/measure/as_found.width",
    "signed": "/measure/as_found.floor.rear_right",
    "choice": "/measure/wall.stud.material",
    "text": "/measure/title",
    "verdict": "/verdict",
    "work": "/work",
    "share": "/share",
    "rest": "/measure/unit.bearing_zone",
}


@pytest.mark.parametrize("screen", SCREENS)
def test_each_screen(measured: tuple[Phone, str], scheme: Any, screen: str) -> None:
    phone, start = measured
    page = phone.page
    page.emulate_media(color_scheme=scheme)
    page.goto(f"{start}{SCREENS[screen]}" if SCREENS[screen] else start.split("#")[0] + "#/")
    page.wait_for_timeout(800)
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")
    assert page.evaluate(LOW_CONTRAST) == []
    assert page.evaluate(SMALL, CONTROLS) == []
    assert page.evaluate(NAMELESS, NAMED) == []
    assert page.evaluate(WIDE) <= 360
    assert page.locator("h1").count() == 1
    assert page.evaluate("document.activeElement.tagName") in ("H1", "INPUT", "SUMMARY")
    assert axe_findings(page) == []


def axe_findings(page: Any) -> list[Any]:
    if not AXE.is_file():
        missing("no axe-core; run 'npm ci' in tests/page/npm")
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found: list[Any] = page.evaluate(FOUND_BY_AXE)
    return found


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_screens_that_only_come_up(measured: tuple[Phone, str], scheme: Any) -> None:
    """A code on the screen, a mistake, a job without a verdict, the bin and its question."""
    phone, start = measured
    page = phone.page
    page.emulate_media(color_scheme=scheme)
    page.goto(f"{start}/share")
    phone.tap("Show a code for another phone")
    page.locator("svg.code").wait_for()
    assert axe_findings(page) == []
    page.goto(f"{start}/measure/unit.height")
    page.locator("#field").fill("twelve")
    page.locator("#trouble:not(:empty)").wait_for()
    assert axe_findings(page) == []
    assert page.evaluate(LOW_CONTRAST) == []
    page.goto(f"{start}/verdict")
    page.get_by_text("No verdict yet").wait_for()
    assert axe_findings(page) == []
    assert page.evaluate(LOW_CONTRAST) == []
    page.goto(f"{start}/measure/unit.height")
    page.locator("#field").fill("")
    page.goto(start.split("#")[0] + "#/")
    phone.tap("Start a new niche")
    page.get_by_text("Measure one by one").wait_for()
    page.goto(start.split("#")[0] + "#/")
    page.get_by_role("button", name="Delete Untitled").wait_for()
    page.wait_for_timeout(700)
    page.get_by_role("button", name="Delete Untitled").click()
    page.get_by_text("is in the bin").wait_for()
    assert axe_findings(page) == []
    page.reload()
    page.locator(".bin summary").click()
    phone.tap("Empty the bin")
    page.get_by_role("dialog").wait_for()
    assert axe_findings(page) == []
    page.wait_for_timeout(700)
    phone.tap("Delete for good")


def test_the_keyboard_alone_goes_from_the_list_to_the_verdict(measured: tuple[Phone, str]) -> None:
    phone, start = measured
    page = phone.page
    page.goto(f"{start}/list")
    page.get_by_text("Measure one by one").focus()
    page.keyboard.press("Enter")
    page.locator("#field").wait_for()
    page.keyboard.type("33 1/8")  # the field has the focus
    assert phone.jobs()[0]["entries"]["as_found.width"] == "33 1/8 in"
    page.keyboard.press("Enter")  # the next step
    page.get_by_role("heading", name="Niche depth, as found").wait_for()
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent") == "Back":
            break
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Niche width, as found").wait_for()
    page.locator("#field").fill("")


def test_a_screen_reader_is_told_what_is_measured_and_what_it_comes_to(
    measured: tuple[Phone, str],
) -> None:
    phone, start = measured
    page = phone.page
    page.goto(f"{start}/measure/as_found.width")
    field = page.get_by_role("textbox", name="Niche width")
    field.wait_for()
    described = page.evaluate(
        """() => document.querySelector("#field").getAttribute("aria-describedby").split(" ")
            .map((id) => document.getElementById(id).textContent).join(" ")"""
    )
    assert "Side to side" in described
    page.goto(f"{start}/list")
    page.locator("h1").wait_for()
    page.get_by_role("status").filter(has_text="Holds").wait_for()
    assert page.get_by_role("img", name="The niche from the front").count() == 1


def test_a_keyboard_can_type_any_length(measured: tuple[Phone, str]) -> None:
    phone, start = measured
    phone.page.goto(f"{start}/measure/as_found.depth")
    field = phone.page.get_by_role("textbox", name="Niche depth")
    field.fill("1 ft 11 15/16 in")
    assert phone.jobs()[0]["entries"]["as_found.depth"] == "1 ft 11 15/16 in"
    phone.page.wait_for_timeout(500)
    assert phone.page.locator("#trouble").inner_text() == ""
    field.fill("twelve")
    phone.page.get_by_text("Read 'twelve'").wait_for()
    field.fill("")
    assert DEMO.exists()
