"""Everything that the page asks for runs from its one library alone, and loads nothing heavy."""

from __future__ import annotations

import io
import json
import shutil
import subprocess
import zipfile
from base64 import b64encode
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from page.conftest import missing

from bracecalc.page import library as library_room
from bracecalc.page import sources as sources_room
from bracecalc.page.bridge import METHODS
from bracecalc.page.library import page_library
from bracecalc.page.runtime import PageError, Runtime
from bracecalc.page.sources import page_sources

DEMOS = Path(__file__).parents[2] / "data/demo"
SCRIPT = Path(__file__).with_name("library_in_node.mjs")
FOUND = {"as_found.floor.rear_right": "7/8 in", "as_found.screws": "10 x 3 1/2 in"}
HEAVY = {"click", "highspy", "numpy", "openpyxl", "pint", "reportlab", "tabulate"}


def requests() -> Iterator[tuple[str, dict[str, Any]]]:
    from bracecalc.drawing.code import pack

    yield "rewrite", {"value": "33 in", "unit": "mm"}
    for path in sorted(DEMOS.glob("*.toml")):
        text = path.read_text()
        yield "open", {"bytes": b64encode(text.encode()).decode(), "name": path.name}
        yield "decode", {"code": pack(text)}
        for entries in ({}, FOUND):
            given = {"text": text, "entries": entries}
            for method in ("look", "check", "work", "write", "code", "hand"):
                yield method, given
            for method in ("plan data", "check data"):
                yield method, given
            for form in ("svg", "html"):
                yield "sheet", {**given, "form": form, "paper": "a4", "date": "2026-11-25"}


@pytest.mark.browser
def test_every_request_is_answered_from_the_library(
    runtime: Runtime, built: Path, tmp_path: Path
) -> None:
    node = shutil.which("node")
    if node is None:
        missing("no Node")
        return
    asked = list(requests())
    assert {method for method, _ in asked} == set(METHODS)
    path = tmp_path / "requests"
    lines = [json.dumps({"method": method, "params": params}) for method, params in asked]
    path.write_text("\n".join(lines))
    folders = [str(built / "pyodide"), str(runtime.folder / "pyodide")]
    done = subprocess.run(
        [node, str(SCRIPT), *folders, str(path)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        timeout=300,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    answer = json.loads(done.stdout)
    refused = [
        (method, reply["error"]["text"])
        for (method, _), reply in zip(asked, answer["replies"], strict=True)
        if "result" not in reply
    ]
    assert refused == []
    assert HEAVY & set(answer["loaded"]) == set()


@pytest.fixture(scope="module")
def names(runtime: Runtime) -> list[str]:
    with zipfile.ZipFile(io.BytesIO(page_library(runtime))) as packed:
        return packed.namelist()


@pytest.mark.browser
def test_it_holds_code_and_tables_alone(names: list[str]) -> None:
    assert "bracecalc/planning/plan.pyc" in names
    assert "bracecalc/data/screws.csv" in names
    assert "bracecalc/drawing/sheet.css" in names
    assert "segno/__init__.pyc" in names
    assert {Path(name).suffix for name in names} == {".pyc", ".csv", ".css", ".toml"}
    wrong = ("bracecalc/cli/", "bracecalc/cutting/", "bracecalc/data/demo", "pint/", "unittest/")
    assert not [name for name in names if name.startswith(wrong)]


@pytest.mark.browser
def test_the_same_sources_give_the_same_library(runtime: Runtime) -> None:
    sources = tuple(sorted(page_sources().items()))
    made = library_room._made.__wrapped__(sources, runtime.folder / "pyodide")
    assert made == page_library(runtime)


def test_a_missing_package_is_one_clear_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sources_room, "BORROWED", {"bracecalc_no_such_package": ()})
    with pytest.raises(PageError, match="pip install bracecalc_no_such_package"):
        page_sources()


@pytest.mark.browser
def test_sources_that_python_refuses_are_one_clear_line(
    runtime: Runtime, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(library_room, "page_sources", lambda: {"bracecalc/__init__.py": b"1 +"})
    with pytest.raises(PageError, match=r"the page's library was not made: .+") as refused:
        page_library(runtime)
    assert "\n" not in str(refused.value)
