"""Finds the files that run Python in a browser, and makes sure that they are the right ones.

They are never kept in this project. They come from a folder that the user names, from the
optional package ``bracecalc-page-runtime``, or from npm beside this file (``npm ci`` in
``bracecalc/page/npm`` of a clone). Each is held to its digest in ``runtime.json``.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from importlib.util import find_spec
from pathlib import Path

from bracecalc.errors import BraceError

HERE = Path(__file__).parent
NPM = HERE / "npm"
CARRIER = "bracecalc_page_runtime"


class PageError(BraceError):
    """The page can't be built or shown; nothing was written."""


@dataclass(frozen=True, slots=True)
class Runtime:
    """The files by their place on the page, and what the page must know of them.

    ``lock`` is what ``loadPyodide`` asks for as ``lockFileContents``: no package of others.
    """

    version: str
    lock: Mapping[str, object]
    files: Mapping[str, bytes]


def find_runtime(folder: Path | None = None) -> Runtime:
    """Return the runtime files, read whole and checked.

    Args:
        folder: where they lie as npm unpacks them (``pyodide/``, ``qr/``); None looks for them.

    Raises:
        PageError: if they are not there, or are not the ones that this version was tried with.
    """
    pinned = json.loads((HERE / "runtime.json").read_text(encoding="utf-8"))
    places = tuple(_places()) if folder is None else (folder,)
    first = next(iter(pinned["files"].values()))["npm"]
    for place in places:
        if (place / first).is_file():
            return _checked(pinned, place)
    looked = ", ".join(map(str, places))
    if folder is None:
        raise PageError(
            f"the files that run Python in a browser are missing (looked in {looked}): "
            "install the extra 'page', or in a clone run 'npm ci' in bracecalc/page/npm"
        )
    raise PageError(f"{folder}: no {first}; expected the node_modules folder with Pyodide")


def _places() -> Iterator[Path]:
    carrier = find_spec(CARRIER)
    if carrier is not None and carrier.origin is not None:
        yield Path(carrier.origin).parent / "files"
    yield NPM / "node_modules"


def _checked(pinned: Mapping[str, object], place: Path) -> Runtime:
    listed = pinned["files"]
    assert isinstance(listed, dict)
    files = {}
    for name, wanted in listed.items():
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
    return Runtime(str(pinned["version"]), lock, files)
