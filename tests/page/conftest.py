from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bracecalc.page.runtime import PageError, Runtime, find_runtime

if TYPE_CHECKING:
    from page.phone import Host, Phone
    from playwright.sync_api import Browser, Playwright

CHROMIUM = "/usr/bin/chromium"


def missing(why: str) -> None:
    """Skip with the reason; where a browser is asked for (as in CI), fail."""
    if os.environ.get("BRACECALC_NEED_BROWSER") == "1":
        pytest.fail(why)
    pytest.skip(why)


@pytest.fixture(scope="session")
def runtime() -> Runtime:
    try:
        return find_runtime(fetch=False)
    except PageError as error:
        missing(str(error))
        raise


@pytest.fixture(scope="session")
def built(runtime: Runtime, tmp_path_factory: pytest.TempPathFactory) -> Path:
    from bracecalc.page.build import build_page

    out = tmp_path_factory.mktemp("site") / "page"
    build_page(out)
    return out


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    if not Path(CHROMIUM).exists():
        missing(f"no {CHROMIUM}; apt-get install chromium")
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        missing("playwright is not installed; pip install playwright")
        raise
    with sync_playwright() as running:
        yield running


@pytest.fixture
def host(built: Path, tmp_path: Path) -> Iterator[Host]:
    from page.phone import hosted

    folder = tmp_path / "page"
    shutil.copytree(built, folder, copy_function=os.link)
    with hosted(folder) as host:
        yield host


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
    yield browser
    browser.close()


@pytest.fixture
def phone(playwright: Playwright, browser: Browser, tmp_path: Path) -> Iterator[Phone]:
    """A phone with nothing on it."""
    from page.phone import Phone

    phone = Phone(playwright, tmp_path / "profile", browser=browser)
    yield phone
    phone.turn_off()


@pytest.fixture
def device(playwright: Playwright, tmp_path: Path) -> Iterator[Phone]:
    """A phone with nothing on it, whose browser can be closed or killed and opened again."""
    from page.phone import Phone

    device = Phone(playwright, tmp_path / "profile")
    yield device
    device.turn_off()


@pytest.fixture(scope="session")
def open_page(
    built: Path,
    playwright: Playwright,
    browser: Browser,
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[Phone]:
    """A phone with the page open and its engine ready, for tests that change nothing on it."""
    from page.phone import Phone, hosted

    with hosted(built) as host:
        phone = Phone(playwright, tmp_path_factory.mktemp("device") / "profile", browser=browser)
        phone.open(host.url)
        phone.wait_for_engine()
        yield phone
        phone.turn_off()
