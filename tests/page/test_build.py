from __future__ import annotations

import gzip
import json
import os
import re
from hashlib import sha256
from pathlib import Path

import pytest
from click.testing import CliRunner

from bracecalc.cli.main import group
from bracecalc.page import runtime as runtime_room
from bracecalc.page.build import SITE, build_page
from bracecalc.page.runtime import PageError, Runtime, find_runtime

MOST = 12_000_000


def test_the_folder_is_whole_and_small_enough(built: Path) -> None:
    files = {
        path.relative_to(built).as_posix(): path for path in built.rglob("*") if path.is_file()
    }
    text = files["sw.js"].read_text()
    build = json.loads(text.split("\n")[0].removeprefix("const BUILD = ").rstrip(";"))
    lying = [f"{name}.gz" if name in build["packed"] else name for name in build["files"]]
    assert sorted([*lying, "sw.js"]) == sorted(files)
    for name, wanted in build["files"].items():
        packed = name in build["packed"]
        data = files[f"{name}.gz" if packed else name].read_bytes()
        assert sha256(gzip.decompress(data) if packed else data).hexdigest() == wanted
    assert sum(path.stat().st_size for path in files.values()) <= MOST


def test_the_licences_are_on_the_page(built: Path) -> None:
    notice = (built / "licences/NOTICE.txt").read_text()
    assert "Mozilla Public License 2.0" in notice
    assert "Mozilla Public License Version 2.0" in (built / "licences/MPL-2.0.txt").read_text()


def test_no_script_stands_in_the_page_and_the_policy_is_strict(built: Path) -> None:
    page = (built / "index.html").read_text()
    assert re.findall(r"<script[^>]*>", page) == [
        '<script type="module" src="js/engine.js">',  # the first to start
        '<script type="module" src="js/main.js">',
    ]
    assert " on" not in re.sub(r"<meta[^>]*>", "", page.split("<body>")[1].replace("needs", ""))
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', page)
    assert policy is not None
    assert "default-src 'none'" in policy[1]
    assert "script-src 'self' 'wasm-unsafe-eval'" in policy[1]
    assert "unsafe-inline" not in policy[1]


def test_the_scripts_make_no_markup_and_name_no_host() -> None:
    for path in SITE.rglob("*.js"):
        text = path.read_text()
        for way in ("innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval("):
            assert way not in text, (path.name, way)
        hosts = re.findall(r"https?://[\w.]+", text)
        assert set(hosts) <= {"http://www.w3.org"}, path.name


def test_a_second_build_is_the_same_but_for_nothing(built: Path, tmp_path: Path) -> None:
    build_page(tmp_path / "again")
    assert (tmp_path / "again/sw.js").read_bytes() == (built / "sw.js").read_bytes()


def test_nothing_is_overwritten_unasked(runtime: Runtime, tmp_path: Path) -> None:
    out = tmp_path / "page"
    out.mkdir()
    (out / "letter.txt").write_text("kept")
    result = CliRunner().invoke(group, ["page", "build", str(out)])
    assert result.exit_code == 2
    assert "--force" in result.output
    with pytest.raises(PageError, match="holds other things than a page"):
        build_page(out, force=True)
    assert (out / "letter.txt").read_text() == "kept"


def test_force_renews_a_page(runtime: Runtime, tmp_path: Path) -> None:
    out = tmp_path / "page"
    build_page(out)
    (out / "app.css").write_text("old")
    build_page(out, force=True)
    assert (out / "app.css").read_text() != "old"


def test_a_missing_runtime_is_fetched_once_by_npm(
    runtime: Runtime, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A stand-in for npm: it copies what the real one would fetch, into where it is called."""
    commands = tmp_path / "commands"
    commands.mkdir()
    asked = tmp_path / "asked"
    npm = commands / "npm"
    npm.write_text(
        f'#!/bin/sh\necho "$@" >> {asked}\n'
        f"test -f package-lock.json && cp -r {runtime.folder} node_modules\n"
    )
    npm.chmod(0o755)
    monkeypatch.setenv("PATH", str(commands), prepend=os.pathsep)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setattr(runtime_room, "NPM", fake_lists(tmp_path))
    for _ in range(2):
        assert find_runtime().files == runtime.files
    assert asked.read_text().splitlines() == ["ci --silent --no-fund --no-audit --ignore-scripts"]


def fake_lists(tmp_path: Path) -> Path:
    folder = tmp_path / "lists"
    folder.mkdir()
    for name in runtime_room.LISTS:
        (folder / name).write_text("{}")
    return folder


@pytest.mark.parametrize("script", [None, "#!/bin/sh\necho no network >&2; exit 1\n"])
def test_a_runtime_that_can_not_be_had_is_one_clear_line(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, script: str | None
) -> None:
    commands = tmp_path / "commands"
    commands.mkdir()
    if script is not None:
        (commands / "npm").write_text(script)
        (commands / "npm").chmod(0o755)
    monkeypatch.setenv("PATH", f"{commands}{os.pathsep}/bin" if script else str(commands))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setattr(runtime_room, "NPM", fake_lists(tmp_path))
    result = CliRunner().invoke(group, ["page", "build", str(tmp_path / "page")])
    assert result.exit_code == 2
    assert result.output.count("\n") == 1
    wanted = "npm could not fetch Pyodide: no network" if script else "npm is missing"
    assert wanted in result.output
    assert not (tmp_path / "page").exists()


def test_a_folder_without_the_runtime_is_named(tmp_path: Path) -> None:
    args = ["page", "build", str(tmp_path / "page"), "--pyodide", str(tmp_path)]
    result = CliRunner().invoke(group, args)
    assert result.exit_code == 2
    assert result.output.startswith(f"{tmp_path}: no pyodide/pyodide.mjs")


def test_another_runtime_is_refused(runtime: Runtime, tmp_path: Path) -> None:
    for name, data in runtime.files.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)
    find_runtime(tmp_path)
    (tmp_path / "pyodide/pyodide.mjs").write_text("something else")
    with pytest.raises(PageError, match=r"pyodide\.mjs: not the file"):
        find_runtime(tmp_path)


def test_preview_of_no_page_says_how_to_build_one(tmp_path: Path) -> None:
    result = CliRunner().invoke(group, ["page", "preview", str(tmp_path)])
    assert result.exit_code == 2
    assert "bracecalc page build" in result.output
