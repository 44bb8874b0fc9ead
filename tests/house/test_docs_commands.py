"""Every command line that a document shows runs as it stands."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from bracecalc.cli.main import group

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "data" / "demo"
PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
LINE = re.compile(r"^    (?:\$ )?(bracecalc [^#\n]*?)(?:\s{2,}#.*)?$", re.MULTILINE)
SHOWN_HELP = "commands.md"  # made from the help itself
ELSEWHERE = {"page": "tests/page builds and opens it", "new": "asks; tests/cli/test_new.py answers"}


def lines() -> list[tuple[str, str]]:
    return [
        (page.name, " ".join(found[1].split()))
        for page in PAGES
        if page.name != SHOWN_HELP
        for found in LINE.finditer(page.read_text(encoding="utf-8"))
    ]


@pytest.fixture
def yard(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with every file that the documents name."""
    shutil.copy(DEMO / "3b-kitchen.toml", tmp_path / "niche.toml")
    shutil.copy(DEMO / "prices.csv", tmp_path / "prices.csv")
    shutil.copy(DEMO / "quillet-yard.csv", tmp_path / "niches.csv")
    for folder in ("niches", "jobs"):
        (tmp_path / folder).mkdir()
        for name in ("3b-kitchen", "1a-solid-soffit"):
            shutil.copy(DEMO / f"{name}.toml", tmp_path / folder)
    shutil.copytree(DEMO, tmp_path / "data" / "demo")
    (tmp_path / "docs").mkdir()
    shutil.copy(ROOT / "docs" / "worked-example.toml", tmp_path / "docs")
    van = "name,property,value,source,read\nNo. 14,diameter_in,0.24,measured,print\n"
    (tmp_path / "van.csv").write_text(van, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_there_are_some() -> None:
    assert len(lines()) > 15


@pytest.mark.parametrize(("page", "line"), lines())
def test_it_runs(page: str, line: str, yard: Path) -> None:
    _, *words = shlex.split(line)
    if words[0] in ELSEWHERE:
        pytest.skip(ELSEWHERE[words[0]])
    done = CliRunner().invoke(group, words, input="\n" * 80)
    assert done.exit_code in (0, 1), f"{page}: {line}\n{done.stderr}"
