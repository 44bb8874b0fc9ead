"""Finds the files that run Python in a browser, and makes sure that they are the right ones.

They are never kept in this project. They come from a folder that the user names, from npm beside
this file (``npm ci`` in ``bracecalc/page/npm`` of a clone), or are fetched once by npm into the
user's own cache. Each is held to its digest in ``runtime.json``.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from pathlib import Path
from typing import Any

from bracecalc.errors import BraceError

HERE = Path(__file__).parent
NPM = HERE / "npm"
LISTS = ("package.json", "package-lock.json")
LONGEST_FETCH = 600  # seconds


class PageError(BraceError):
    """The page can't be built or shown; nothing was written."""


@dataclass(frozen=True, slots=True)
class Runtime:
    """The files by their place on the page, and what the page must know of them.

    ``lock`` is what ``loadPyodide`` asks for as ``lockFileContents``: no package of others.
    ``folder`` is where npm unpacked them.
    """

    version: str
    lock: Mapping[str, object]
    files: Mapping[str, bytes]
    folder: Path


def find_runtime(folder: Path | None = None, *, fetch: bool = True) -> Runtime:
    """Return the runtime files, read whole and checked.

    Args:
        folder: where they lie as npm unpacks them (``pyodide/``, ``qr/``); None looks for them,
            and fetches them by npm where they are nowhere yet.
        fetch: whether they may be fetched.

    Raises:
        PageError: if they can't be had, or are not the ones that this version was tried with.
    """
    pinned = _pinned()
    first = next(iter(pinned["files"].values()))["npm"]
    if folder is not None:
        if not (folder / first).is_file():
            raise PageError(f"{folder}: no {first}; expected the node_modules folder with Pyodide")
        return _checked(pinned, folder)
    fetched = fetch_place()
    for place in (NPM / "node_modules", fetched / "node_modules"):
        if (place / first).is_file():
            return _checked(pinned, place)
    if not fetch:
        raise PageError(f"{NPM}: no Pyodide there yet; run: npm ci --prefix bracecalc/page/npm")
    _fetch(fetched)
    return _checked(pinned, fetched / "node_modules")


def node() -> str:
    """Return the command of Node, which compiles the page's Python.

    Raises:
        PageError: if there is none.
    """
    return _command("node")


def fetch_place() -> Path:
    """Return the folder of the user's cache that the files are fetched into."""
    cache = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    return cache / "bracecalc" / f"page-{_pinned()['version']}"


@lru_cache(maxsize=1)
def _pinned() -> dict[str, Any]:
    found: dict[str, Any] = json.loads((HERE / "runtime.json").read_text(encoding="utf-8"))
    return found


def _command(name: str) -> str:
    found = shutil.which(name)
    if found is None:
        raise PageError(
            f"{name} is missing, which builds the page: install Node 20 or newer, npm with it"
        )
    return found


def _fetch(place: Path) -> None:
    """Let npm fetch what package-lock.json names, by its digests."""
    command = [_command("npm"), "ci", "--silent", "--no-fund", "--no-audit", "--ignore-scripts"]
    try:
        place.mkdir(parents=True, exist_ok=True)
        for name in LISTS:
            shutil.copy(NPM / name, place / name)
        done = subprocess.run(
            command, cwd=place, capture_output=True, check=False, timeout=LONGEST_FETCH
        )
    except (OSError, subprocess.TimeoutExpired) as error:
        raise PageError(f"{place}: npm could not fetch Pyodide: {error}") from None
    if done.returncode:
        said = done.stderr.decode(errors="replace").strip().splitlines() or ["it gave no reason"]
        raise PageError(f"{place}: npm could not fetch Pyodide: {said[0]}")


def _checked(pinned: Mapping[str, Any], place: Path) -> Runtime:
    files = {}
    for name, wanted in pinned["files"].items():
        path = place / wanted["npm"]
        try:
            data = path.read_bytes()
        except OSError as error:
            raise PageError(f"{path}: {error.strerror or error}") from None
        if sha256(data).hexdigest() != wanted["sha256"]:
            raise PageError(
                f"{path}: not the file that this bracecalc was tried with; "
                f"expected that of Pyodide {pinned['version']} (bracecalc/page/runtime.json)"
            )
        files[name] = data
    lock = {"info": pinned["info"], "packages": {}}
    return Runtime(str(pinned["version"]), lock, files, place)
