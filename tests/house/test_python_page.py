"""docs/python.md is what the docstrings say, and its lines run."""

from __future__ import annotations

from pathlib import Path

import pytest
from bracecalc.data import demo_path
from golden import agrees
from house.make_python_page import INTRODUCTION, PAGE, page


def test_the_page_is_what_the_docstrings_say() -> None:
    agrees(PAGE, page())


def test_the_lines_at_its_top_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "niche.toml").write_bytes(demo_path("3b-kitchen.toml").read_bytes())
    monkeypatch.chdir(tmp_path)
    code = "\n".join(line[4:] for line in INTRODUCTION.splitlines() if line.startswith("    "))
    names: dict[str, object] = {}
    exec(compile(code, str(PAGE), "exec"), names)
    assert names["rows"]
