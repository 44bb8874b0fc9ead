"""The rooms: dependencies point one way, and a command starts without what it doesn't use."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "bracecalc"
# what reads text into records, and what carries it; none of it knows how a niche is braced
READERS = {
    "errors", "facts", "findings", "jobbuild", "jobchecks", "jobfile", "jobtext", "keypaths",
    "keyreaders",
    "lengthtext", "quantities", "schema", "tables", "units", "workings", "writing",
}  # fmt: skip
BELOW_READERS = {"data", "mechanics", "records"}
TOP = {"cli", "page", "render"}


def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def imported(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return found


def rooms_of(path: Path) -> set[str]:
    """The rooms of bracecalc that a module imports."""
    return {
        name.split(".")[1]
        for name in imported(path)
        if name.startswith("bracecalc.") and len(name.split(".")) > 1
    }


@pytest.mark.parametrize("path", sorted((PACKAGE / "mechanics").glob("*.py")), ids=lambda p: p.stem)
def test_the_formulas_import_nothing_but_each_other_and_the_standard_library(path: Path) -> None:
    outside = {
        name
        for name in imported(path)
        if not name.startswith("bracecalc.mechanics")
        and name.split(".")[0] not in sys.stdlib_module_names
    }
    assert outside == set()


@pytest.mark.parametrize("path", modules(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_imports_point_downward(path: Path) -> None:
    room = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
    used = rooms_of(path) - {room, "__version__"}
    if room == "records":  # to_dict is the one door upward, opened when it is called
        assert used <= {"render"}
    elif room in READERS:
        assert used <= READERS | BELOW_READERS
    elif room not in TOP | {"__main__", "__init__"}:
        assert used.isdisjoint(TOP)
    if room not in ("cli", "__main__"):
        assert "cli" not in used


HEAVY = ("pint", "numpy", "highspy", "openpyxl", "reportlab", "segno", "tabulate", "tomlkit")


def loaded_after(code: str) -> set[str]:
    report = f"{code}\nimport sys\nprint('\\n'.join(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", report], capture_output=True, text=True, check=True
    )
    return set(done.stdout.splitlines())


def test_the_command_line_loads_without_what_it_does_not_use() -> None:
    loaded = loaded_after("import bracecalc.cli.main")
    assert loaded.isdisjoint(HEAVY)
    assert "bracecalc.plan" not in loaded


def test_a_plan_loads_no_heavy_library() -> None:
    loaded = loaded_after("import bracecalc\nbracecalc.make_plan\nbracecalc.read_job")
    assert loaded.isdisjoint({*HEAVY, "click"})


def test_a_plan_on_the_terminal_loads_nothing_of_the_check_on_site() -> None:
    job = PACKAGE.parent / "data" / "demo" / "3b-kitchen.toml"
    loaded = loaded_after(
        f"from click.testing import CliRunner\nfrom bracecalc.cli.main import group\n"
        f"done = CliRunner().invoke(group, ['plan', {str(job)!r}])\n"
        f"assert 'HARROW COURT' in done.output"
    )
    assert "bracecalc.render.text" in loaded
    assert loaded.isdisjoint({*HEAVY, "bracecalc.records.site", "bracecalc.drift"})


MOST_LINES = 600  # past 400 a file is looked at; those that stay are one long table or one story


def test_no_module_outgrows_its_story() -> None:
    long = {
        str(path.relative_to(PACKAGE)): lines
        for path in modules()
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > MOST_LINES
    }
    assert long == {}
