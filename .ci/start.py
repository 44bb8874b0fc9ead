"""Sets bracecalc up in ``.venv`` with nothing but Python 3.11+, then runs the demo or the tests.

    python3 .ci/start.py demo    the plan of a demo niche of the invented Quillet Yard apartments
    python3 .ci/start.py test    the test suite, with everything that it needs

Both install every extra, so that all that the README shows works. A Debian without python3-venv
has no pip: then the system's own package tool is asked for it, or what to type is said.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import venv
from pathlib import Path

HOME = Path(__file__).resolve().parents[1]
ENVIRONMENT = HOME / ".venv"
NEEDS = {"demo": ".[takeoff,sheet,site]", "test": "-e .[dev]"}
RUNS = {
    # -P: the installed program, not this folder's sources, which lack the data beside them
    "demo": ["-P", "-m", "bracecalc", "plan", str(HOME / "data" / "demo" / "3b-kitchen.toml")],
    "test": ["-m", "pytest", "-q"],
}


def python_of(environment: Path) -> Path:
    """Return the interpreter of an environment."""
    windows = environment / "Scripts" / "python.exe"
    return windows if windows.exists() else environment / "bin" / "python"


def carries_pip(python: Path | str, module: str = "pip") -> bool:
    """Return whether an interpreter has pip, or can make an environment that has it."""
    done = subprocess.run([python, "-c", f"import {module}"], capture_output=True, check=False)
    return done.returncode == 0


def fetch_pip() -> str:
    """Have the system install what makes environments with pip; return what is left to do."""
    package = "python3-venv"
    if shutil.which("apt-get") is None:
        return "this Python has no pip: install your system's package for pip and venv"
    by_hand = f"this Python has no pip; type: sudo apt-get install {package}"
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        return by_hand
    print(f"this Python has no pip: installing {package}")
    for arguments in (["update", "-qq"], ["install", "-y", "-qq", package]):
        subprocess.run(["apt-get", *arguments], check=False, stdout=subprocess.DEVNULL)
    return "" if carries_pip(sys.executable, "ensurepip") else by_hand


def make_environment() -> str:
    """Make the environment with pip in it; return what is left to do by hand."""
    python = python_of(ENVIRONMENT)
    if python.exists() and carries_pip(python):
        return ""
    left = "" if carries_pip(sys.executable, "ensurepip") else fetch_pip()
    if not left:
        venv.create(ENVIRONMENT, with_pip=True, clear=ENVIRONMENT.exists())
    return left


def install(what: str) -> bool:
    """Install the project with what a run needs; return whether that went well."""
    python = python_of(ENVIRONMENT)
    arguments = ["install", "--quiet", "--disable-pip-version-check", *what.split()]
    return subprocess.run([python, "-m", "pip", *arguments], cwd=HOME, check=False).returncode == 0


def main(arguments: list[str]) -> int:
    """Set up and run; return the exit status of the run."""
    if sys.version_info < (3, 11):  # noqa: UP036 - this is what finds the older ones
        print(f"bracecalc needs Python 3.11 or newer; this is {sys.version.split()[0]}")
        return 2
    if len(arguments) != 1 or arguments[0] not in RUNS:
        print(__doc__)
        return 2
    left = make_environment()
    if left:
        print(left)
        return 2
    if not install(NEEDS[arguments[0]]):
        print("the packages could not be installed; is there a network? Then run this again")
        return 2
    python = python_of(ENVIRONMENT)
    return subprocess.run([python, *RUNS[arguments[0]]], cwd=HOME, check=False).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
