"""Sets bracecalc up in ``.venv`` with nothing but Python 3.11+, then runs the demo or the tests.

    python3 .ci/start.py demo    the plan of a demo niche of the invented Harrow Court apartments
    python3 .ci/start.py test    the test suite, with everything that it needs

A Debian without python3-venv has no pip: then pip's own wheel is fetched from PyPI.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import urllib.request
import venv
from pathlib import Path

HOME = Path(__file__).resolve().parents[1]
ENVIRONMENT = HOME / ".venv"
NEEDS = {"demo": ".", "test": "-e .[dev]"}
RUNS = {
    # -P: the installed program, not this folder's sources, which lack the data beside them
    "demo": ["-P", "-m", "bracecalc", "plan", str(HOME / "data" / "demo" / "3b-kitchen.toml")],
    "test": ["-m", "pytest", "-q"],
}


def python_of(environment: Path) -> Path:
    """Return the interpreter of an environment."""
    windows = environment / "Scripts" / "python.exe"
    return windows if windows.exists() else environment / "bin" / "python"


def make_environment() -> Path:
    """Make the environment, with pip where this Python carries it."""
    if not python_of(ENVIRONMENT).exists():
        try:
            import ensurepip  # noqa: F401 - a Debian without python3-venv lacks it

            with_pip = True
        except ImportError:
            with_pip = False
        venv.create(ENVIRONMENT, with_pip=with_pip, clear=ENVIRONMENT.exists())
    return python_of(ENVIRONMENT)


def fetch_pip(folder: Path) -> Path:
    """Fetch pip's wheel, which runs without being installed."""
    with urllib.request.urlopen("https://pypi.org/pypi/pip/json") as answer:
        files = json.load(answer)["urls"]
    wheel = next(file for file in files if file["packagetype"] == "bdist_wheel")
    target = folder / str(wheel["filename"])
    with urllib.request.urlopen(wheel["url"]) as answer:
        target.write_bytes(answer.read())
    return target


def install(python: Path, what: str) -> None:
    """Install the project with what a run needs."""
    arguments = ["install", "--quiet", "--disable-pip-version-check", *what.split()]
    has_pip = subprocess.run([python, "-c", "import pip"], capture_output=True, check=False)
    if has_pip.returncode == 0:
        subprocess.run([python, "-m", "pip", *arguments], cwd=HOME, check=True)
        return
    with tempfile.TemporaryDirectory() as folder:
        pip = fetch_pip(Path(folder)) / "pip"
        subprocess.run([python, str(pip), *arguments], cwd=HOME, check=True)


def main(arguments: list[str]) -> int:
    """Set up and run; return the exit status of the run."""
    if sys.version_info < (3, 11):  # noqa: UP036 - this is what finds the older ones
        print(f"bracecalc needs Python 3.11 or newer; this is {sys.version.split()[0]}")
        return 2
    if len(arguments) != 1 or arguments[0] not in RUNS:
        print(__doc__)
        return 2
    python = make_environment()
    install(python, NEEDS[arguments[0]])
    return subprocess.run([python, *RUNS[arguments[0]]], cwd=HOME, check=False).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
