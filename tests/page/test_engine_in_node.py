"""The engine's own tests, on the Python of the page (3.14, compiled for the browser), in Node."""

from __future__ import annotations

import re
import shutil
import subprocess
from importlib.util import find_spec
from pathlib import Path

import pytest
from page.conftest import missing

from bracecalc.page.runtime import Runtime

pytestmark = pytest.mark.browser

PROJECT = Path(__file__).parents[2]
PACKAGES = (
    "_pytest",
    "click",
    "flexcache",
    "flexparser",
    "hypothesis",
    "_hypothesis_ftz_detector",
    "_hypothesis_globals",
    "iniconfig",
    "packaging",
    "pint",
    "platformdirs",
    "pluggy",
    "py",
    "pygments",
    "pypdf",
    "pytest",
    "segno",
    "sortedcontainers",
    "tabulate",
    "tomlkit",
    "typing_extensions",
)
# The rooms of the engine; the rest is about the machine: files, processes, solvers, PDF.
RUN = (
    "tests/certainty",
    "tests/check",
    "tests/jobfile",
    "tests/mechanics",
    "tests/planning",
    "tests/published",
    "tests/stack",
    "tests/strength",
    "tests/surroundings",
    "tests/tables",
    "tests/text",
)
LEFT_OUT = (
    "tests/certainty/test_monte_carlo.py",  # numpy
    "tests/published/test_cutting_stock.py",
)
DESELECTED = (
    # asks for numpy by itself
    "tests/certainty/test_drift.py::test_shares_are_of_the_same_plan_and_repeat",
    # the browser's disk has other limits
    "tests/jobfile/test_read.py::test_paths_that_can_not_be_read",
)
LEAST = 2000  # tests that ran; far fewer would mean that they were not found


def pure_packages(folder: Path) -> None:
    """Copy the packages that the tests import; Node's view of the disk follows no links."""
    for name in PACKAGES:
        spec = find_spec(name)
        if spec is None:
            continue
        if spec.submodule_search_locations:
            source = Path(next(iter(spec.submodule_search_locations)))
            shutil.copytree(source, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
        elif spec.origin is not None:
            shutil.copy(spec.origin, folder)
    if list((folder / "hypothesis").rglob("*.so")):
        missing("this hypothesis is native; the extra 'dev' asks for one that is pure Python")


def test_the_engine_holds_on_the_python_of_the_page(runtime: Runtime, tmp_path: Path) -> None:
    node = shutil.which("node")
    pyodide = runtime.folder / "pyodide"
    if node is None or not pyodide.is_dir():
        missing("no Node, or no Pyodide from npm; run 'npm ci' in bracecalc/page/npm")
    pure_packages(tmp_path)
    script = Path(__file__).with_name("engine_in_node.mjs")
    options = [
        "-q",
        "--no-header",
        *(f"--ignore={path}" for path in LEFT_OUT),
        *(f"--deselect={test}" for test in DESELECTED),
        *RUN,
    ]
    done = subprocess.run(
        [str(node), str(script), str(pyodide), str(PROJECT), str(tmp_path), *options],
        capture_output=True,
        text=True,
        check=False,
        timeout=3000,
    )
    assert done.returncode == 0, done.stdout[-6000:] + done.stderr[-2000:]
    passed = re.search(r"(\d+) passed", done.stdout)
    assert passed is not None
    assert int(passed[1]) > LEAST, done.stdout[-500:]
