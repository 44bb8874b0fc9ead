"""No other host, no markup from a job, and the command line's own words for what is wrong."""

from __future__ import annotations

import os
from base64 import b64encode
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from page.test_screens import open_demo, until_verdict

from bracecalc.errors import JobError
from bracecalc.jobfile.read import read_job

if TYPE_CHECKING:
    from page.phone import Host, Phone

pytestmark = pytest.mark.browser

MARKUP = "<img src=x onerror=document.title=1><script>document.title=2</script>&amp;"
WRONG = {
    "not-toml.toml": b"[niche\nwidth = 33 1/4 in\n",
    "empty.toml": b"",
    "binary.toml": bytes(range(256)) * 4,
    "nul.toml": b'title = "a\0b"\n',
    "units.toml": b"[niche]\nwidth = '33 ib'\ndepth = nan\nsoffit = '1/0 in'\n",
    "keys.toml": b"[nich]\nwidth = '33 in'\n[unit]\nheigth = '80 in'\n",
    "markup.toml": f"title = '''{MARKUP}'''\n[niche]\nwidth = '''{MARKUP}'''\n".encode(),
    "deep.toml": b"a = " + b"[" * 5000 + b"]" * 5000,
    "huge-number.toml": b"[niche]\nwidth = " + b"9" * 5000 + b"\n",
    "large.toml": b"# " + b"x" * 1_000_100,
    "table.toml": b"niche = 3\nwall = 'plaster'\n",
    "own-tables.toml": b"[tables]\nscrews = '/etc/passwd'\n",
}


@pytest.mark.parametrize("name", WRONG)
def test_a_wrong_file_is_refused_as_on_the_command_line(
    open_page: Phone, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    (tmp_path / name).write_bytes(WRONG[name])
    monkeypatch.chdir(tmp_path)
    with pytest.raises(JobError) as refused:
        read_job(name)
    sent = b64encode(WRONG[name][:1_000_001]).decode()
    answer = open_page.ask("open", bytes=sent, name=name)
    if name == "own-tables.toml":  # a phone has no such file
        assert "expected a table as a CSV file" in answer["refused"]
        assert "Traceback" not in answer["refused"], answer["refused"]
    else:
        assert answer["refused"] == str(refused.value)


@pytest.mark.parametrize("name", ["-", "..", ".", "x" * 300, "a/b.toml"])
def test_no_name_of_a_file_reaches_anything_else(open_page: Phone, name: str) -> None:
    answer = open_page.ask("open", bytes=b64encode(b"[nich]").decode(), name=name)
    assert "refused" in answer
    assert "Traceback" not in answer["refused"]


def test_texts_of_a_job_never_become_markup(host: Host, phone: Phone, tmp_path: Path) -> None:
    from page.test_screens import DEMO

    text = DEMO.read_text().replace("Quillet Yard 3B, kitchen (invented demo)", MARKUP)
    path = tmp_path / "hostile.toml"
    path.write_text(text)
    phone.open(host.url)
    phone.wait_for_engine()
    phone.give_file("Open a job file", path)
    phone.page.get_by_text("Measure one by one").wait_for()
    assert phone.page.locator(".over").inner_text() == MARKUP
    for tab in ("Verdict", "Why", "Share"):
        phone.follow(tab)
        phone.page.wait_for_timeout(700)
        assert phone.page.locator("main script, main [onerror]").count() == 0
    phone.tap("Show the sheet")
    phone.page.get_by_text("The sheet is below.").wait_for()
    phone.open(host.url + "#/")
    assert MARKUP in phone.page.locator(".jobs").inner_text()
    assert phone.page.title() == "bracecalc"
    assert not phone.errors


def test_no_other_host_is_ever_asked(host: Host, phone: Phone) -> None:
    open_demo(phone, host.url)
    phone.wait_for_offline()
    phone.follow("Verdict")
    until_verdict(phone, "Holds")
    phone.follow("Why")
    phone.page.locator("ol.work").first.wait_for()
    phone.follow("Share")
    phone.tap("Show the sheet")
    phone.page.get_by_text("The sheet is below.").wait_for()
    phone.page.reload()
    phone.wait_for_engine()
    assert set(phone.hosts) == {f"127.0.0.1:{host.port}"}
    assert not phone.errors


def test_the_policy_refuses_other_hosts_and_inline_scripts(host: Host, phone: Phone) -> None:
    phone.open(host.url)
    asked = phone.page.evaluate(
        """async () => {
            const fetched = await fetch("http://127.0.0.1:9/x").then(() => "sent", () => "refused");
            const script = document.createElement("script");
            script.textContent = "document.title = 'ran'";
            document.body.append(script);
            return [fetched, document.title];
        }"""
    )
    assert asked == ["refused", "bracecalc"]
    assert any("Content Security Policy" in error for error in phone.errors)
    assert f"127.0.0.1:{host.port}" in phone.hosts
    assert "127.0.0.1:9" not in phone.hosts


def test_the_single_file_runs_without_any_host(phone: Phone, tmp_path: Path, built: Path) -> None:
    from bracecalc.page.build import build_page

    path = tmp_path / "bracecalc.html"
    build_page(path, single=True)
    os.sync()
    open_demo(phone, path.as_uri())
    phone.wait_for_engine()
    phone.follow("Verdict")
    until_verdict(phone, "Holds")
    phone.page.reload()
    phone.page.locator("h1").wait_for()
    phone.wait_for_engine()
    until_verdict(phone, "Holds")
    phone.page.goto(f"{path.as_uri()}#/")
    phone.page.get_by_text("Licences").click()
    phone.page.locator("pre", has_text="Mozilla Public License Version 2.0").wait_for()
    assert phone.hosts == []
    assert not phone.errors
