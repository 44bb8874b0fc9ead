from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from bracecalc.page.runtime import NPM, Runtime, find_runtime

SCRIPT = Path(__file__).parents[2] / ".ci/page_runtime_wheel.py"


@pytest.mark.browser
def test_the_optional_wheel_installs_and_is_found(
    runtime: Runtime, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not (NPM / "node_modules").is_dir():
        from page.conftest import missing

        missing("no Pyodide from npm; run 'npm ci' in bracecalc/page/npm")
    made = subprocess.run(
        [sys.executable, str(SCRIPT), str(tmp_path / "dist")],
        capture_output=True,
        text=True,
        check=True,
    )
    wheel = Path(made.stdout.strip())
    assert wheel.stat().st_size < 7_500_000
    target = tmp_path / "installed"
    quiet = ["--quiet", "--no-deps", "--no-index", "--disable-pip-version-check"]
    subprocess.run(
        [sys.executable, "-m", "pip", "install", *quiet, "--target", str(target), str(wheel)],
        check=True,
    )
    assert list(target.glob("*.dist-info/licenses/MPL-2.0.txt"))
    monkeypatch.syspath_prepend(target)
    monkeypatch.setattr("bracecalc.page.runtime.NPM", tmp_path)
    assert find_runtime().files == runtime.files
