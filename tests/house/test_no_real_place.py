"""The demo building is invented: no name of a real one stands anywhere."""

from __future__ import annotations

from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FORMER = "har" + "row"  # a real place; its whole name stands nowhere, this file included
TEXTS = {".py", ".md", ".toml", ".csv", ".txt", ".svg", ".html", ".css", ".js", ".json", ".cfg", ""}
KEPT_OUT = {".git", ".venv", "node_modules", "__pycache__", "build", "dist"}


def files() -> list[Path]:
    return [
        path
        for folder in ("bracecalc", "data", "docs", "tests", ".ci")
        for path in sorted((ROOT / folder).rglob("*"))
        if path.is_file() and not KEPT_OUT & set(path.parts)
    ] + [path for path in sorted(ROOT.iterdir()) if path.is_file()]


def test_there_is_something_to_read() -> None:
    assert len(files()) > 300


@pytest.mark.parametrize("folder", ["bracecalc", "data", "docs", "tests", ".ci", ""])
def test_the_former_name_of_the_demo_building_is_nowhere(folder: str) -> None:
    found = [
        str(path.relative_to(ROOT))
        for path in files()
        if (path.relative_to(ROOT).parts[0] == folder or not folder)
        and (
            FORMER in path.name.lower()
            or (path.suffix in TEXTS and FORMER in path.read_text("utf-8", "replace").lower())
        )
    ]
    assert found == []
