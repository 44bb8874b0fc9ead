"""The rooms: dependencies point one way, and a command starts without what it doesn't use."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "bracecalc"
# Every arrow between rooms that is allowed: a room, and the rooms above it in this list that it
# may import. DEVELOPERS.md and the docstring of each package say the same.
MAY_IMPORT = {
    "errors": "",
    "mechanics": "",
    "cutting": "",
    "records": "mechanics",
    "writing": "errors",
    "text": "errors records",
    "tables": "errors records text",
    "jobfile": "errors records tables text writing",
    "strength": "mechanics records",
    "stack": "mechanics records strength text",
    "surroundings": "errors mechanics records text",
    "planning": "jobfile mechanics records stack strength surroundings tables text",
    "certainty": "planning records tables text",
    "check": "certainty mechanics planning records stack tables text",
    "order": "cutting errors jobfile planning records tables text",
    "render": "check cutting order planning records strength text",
    "drawing": "errors records render text",
    "api": "certainty check drawing errors jobfile order planning records render writing",
    "page": "check drawing errors jobfile planning records render tables text",
    "cli": "certainty check cutting drawing errors jobfile order page planning records render"
    " tables text writing",
}  # fmt: skip
FRONT_DOOR = {"__init__", "__main__"}  # opens any room when it is asked for


def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def name_of(path: Path) -> str:
    parts = ["bracecalc", *path.relative_to(PACKAGE).with_suffix("").parts]
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported(path: Path, *, when_loaded: bool = False) -> set[str]:
    """What a module imports, anywhere in it or only while it is loaded."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    nodes = tree.body if when_loaded else ast.walk(tree)
    found = set()
    for node in nodes:
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return found


@pytest.mark.parametrize(
    "path", sorted((PACKAGE / "mechanics").rglob("*.py")), ids=lambda p: p.stem
)
def test_the_formulas_import_nothing_but_each_other_and_the_standard_library(path: Path) -> None:
    outside = {
        name
        for name in imported(path)
        if not name.startswith("bracecalc.mechanics")
        and name.split(".")[0] not in sys.stdlib_module_names
    }
    assert outside == set()


@pytest.mark.parametrize("path", modules(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_every_arrow_between_rooms_is_in_the_list(path: Path) -> None:
    room = room_of(path)
    if room in FRONT_DOOR:
        return
    rooms = {name.split(".")[1] for name in imported(path) if name.startswith("bracecalc.")}
    assert rooms - {room, "__version__", "data"} <= set(MAY_IMPORT[room].split())


def test_the_list_has_every_room_and_no_circle() -> None:
    assert {room_of(path) for path in modules()} - FRONT_DOOR == set(MAY_IMPORT)
    above: set[str] = set()
    for room, allowed in MAY_IMPORT.items():
        assert set(allowed.split()) <= above, room
        above.add(room)


def test_no_arrow_of_the_list_is_idle() -> None:
    used: dict[str, set[str]] = {room: set() for room in MAY_IMPORT}
    for path in modules():
        if room_of(path) not in FRONT_DOOR:
            used[room_of(path)] |= {
                name.split(".")[1] for name in imported(path) if name.startswith("bracecalc.")
            }
    idle = {room: set(may.split()) - used[room] for room, may in MAY_IMPORT.items()}
    assert {room: rooms for room, rooms in idle.items() if rooms} == {}


def test_no_circle_of_modules() -> None:
    names = {name_of(path): path for path in modules() if room_of(path) not in FRONT_DOOR}
    arrows = {
        name: {
            target
            for full in imported(path)
            for target in (full, full.rpartition(".")[0])
            if target in names and target != name
        }
        for name, path in names.items()
    }
    done: set[str] = set()
    while ready := {name for name in arrows if name not in done and arrows[name] <= done}:
        done |= ready
    assert set(arrows) - done == set()


@pytest.mark.parametrize("room", MAY_IMPORT)
def test_the_room_says_what_it_may_import(room: str) -> None:
    file = PACKAGE / room / "__init__.py"
    if not file.exists():
        file = PACKAGE / f"{room}.py"
    text = " ".join((ast.get_docstring(ast.parse(file.read_text(encoding="utf-8"))) or "").split())
    allowed = ", ".join(MAY_IMPORT[room].split())
    says = f"May import: {allowed}." if allowed else "Imports nothing of bracecalc."
    assert text.endswith(says)


def test_contributors_read_the_same_list() -> None:
    page = (PACKAGE.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = [line.split("|") for line in page.splitlines() if line.startswith("| `")]
    listed = {cells[1].strip().strip("`/"): cells[3].strip() for cells in rows if len(cells) == 5}
    assert list(listed) == list(MAY_IMPORT)
    for room, allowed in MAY_IMPORT.items():
        assert listed[room] == (", ".join(allowed.split()) or "nothing"), room


HEAVY = (
    "pint",
    "numpy",
    "highspy",
    "openpyxl",
    "xlsxwriter",
    "typst",
    "segno",
    "tabulate",
    "tomlkit",
)


def loaded_after(code: str) -> set[str]:
    report = f"{code}\nimport sys\nprint('\\n'.join(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", report], capture_output=True, text=True, check=True
    )
    return set(done.stdout.splitlines())


def test_the_command_line_loads_without_what_it_does_not_use() -> None:
    loaded = loaded_after("import bracecalc.cli.main")
    assert loaded.isdisjoint(HEAVY)
    assert "bracecalc.planning.plan" not in loaded


def test_a_plan_loads_no_heavy_library() -> None:
    loaded = loaded_after("import bracecalc\nbracecalc.make_plan\nbracecalc.read_job")
    assert loaded.isdisjoint({*HEAVY, "click"})


def test_a_plan_on_the_terminal_loads_nothing_of_the_check_on_site() -> None:
    job = PACKAGE.parent / "data" / "demo" / "3b-kitchen.toml"
    loaded = loaded_after(
        f"from click.testing import CliRunner\nfrom bracecalc.cli.main import group\n"
        f"done = CliRunner().invoke(group, ['plan', {str(job)!r}])\n"
        f"assert 'QUILLET YARD' in done.output"
    )
    assert "bracecalc.render.text" in loaded
    assert loaded.isdisjoint({*HEAVY, "bracecalc.records.site", "bracecalc.certainty.drift"})


MOST_LINES = 600  # past 400 a file is looked at; those that stay are one long table or one story


def test_no_module_outgrows_its_story() -> None:
    long = {
        str(path.relative_to(PACKAGE)): lines
        for path in modules()
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > MOST_LINES
    }
    assert long == {}


MOST_FUNCTION_LINES = 60  # its docstring counted; ruff holds the complexity


@pytest.mark.parametrize("path", modules(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_no_function_outgrows_a_screen(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    long = {
        node.name: lines
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and (lines := (node.end_lineno or node.lineno) - node.lineno + 1) > MOST_FUNCTION_LINES
    }
    assert long == {}
