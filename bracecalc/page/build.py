"""Writes the page: a folder for a web host, or one file to hand over."""

from __future__ import annotations

import gzip
import json
import shutil
import tempfile
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

from bracecalc import __version__
from bracecalc.page.asking import choices, limits, more
from bracecalc.page.library import page_library
from bracecalc.page.preview import POLICY
from bracecalc.page.runtime import HERE, PageError, Runtime, find_runtime
from bracecalc.page.single import single_file

SITE = HERE / "site"
LIBRARY = "pyodide/python.zip"
STANDARD = "pyodide/python_stdlib.zip"  # what the library was compiled from
PACKED = ("pyodide/pyodide.asm.wasm",)  # hosts seldom pack these by themselves
WORKER_OF_CACHE = "sw.js"
NOT_AT_ONCE = ("js/loader.js", "js/worker.js")  # of the single file; loaded by the engine


def build_page(
    out: Path, *, folder: Path | None = None, single: bool = False, force: bool = False
) -> int:
    """Write the page whole or not at all; return its size in bytes.

    Args:
        out: the folder to write, or the file where it is a single one.
        folder: of the runtime files; None looks for them.
        single: one HTML file that needs no host.
        force: overwrite what is there.

    Raises:
        PageError: if something is missing, or stands in the way.
    """
    if out.exists() and not force:
        raise PageError(f"{out}: is there already; give --force to overwrite it")
    if out.exists() and out.is_dir() == single:
        raise PageError(f"{out}: is a {'folder' if single else 'file'}; name another place")
    if out.is_dir() and any(out.iterdir()) and not (out / WORKER_OF_CACHE).is_file():
        raise PageError(f"{out}: holds other things than a page; name another place")
    files = page_files(find_runtime(folder))
    files = {"": single_file(files)} if single else hosted(files)
    _write(out, files)
    return sum(map(len, files.values()))


def page_files(runtime: Runtime) -> dict[str, bytes]:
    """Return every file that the page asks for, by its place."""
    files = {
        path.relative_to(SITE).as_posix(): path.read_bytes()
        for path in sorted(SITE.rglob("*"))
        if path.is_file() and "__pycache__" not in path.parts
    }
    files |= runtime.files
    del files[STANDARD]
    files[LIBRARY] = page_library(runtime)
    start = {
        "lock": runtime.lock,
        "version": __version__,
        "choices": choices(),
        "limits": limits(),
        "more": more(),
    }
    files["js/start.js"] = f"export const START = {json.dumps(start)};\n".encode()
    page = files["index.html"].replace(b"{{policy}}", POLICY.encode())
    files["index.html"] = page.replace(b"{{preload}}", _preloads(files).encode())
    return files


def _preloads(files: Mapping[str, bytes]) -> str:
    """Return links by which a browser fetches every module at once, not one after the other."""
    modules = [name for name in files if name.startswith("js/") and name not in NOT_AT_ONCE]
    return "\n".join(f'<link rel="modulepreload" href="{name}">' for name in sorted(modules))


def hosted(files: Mapping[str, bytes]) -> dict[str, bytes]:
    """Return the files as a host serves them, with the worker that keeps them on the device."""
    worker = files[WORKER_OF_CACHE]
    asked = {name: data for name, data in files.items() if name != WORKER_OF_CACHE}
    build = {
        "id": _digest(asked, worker),
        "files": {name: sha256(data).hexdigest() for name, data in sorted(asked.items())},
        "packed": PACKED,
    }
    lying = {
        f"{name}.gz" if name in PACKED else name: _packed(data) if name in PACKED else data
        for name, data in asked.items()
    }
    lying[WORKER_OF_CACHE] = f"const BUILD = {json.dumps(build)};\n".encode() + worker
    return lying


def _packed(data: bytes) -> bytes:
    return gzip.compress(data, 9, mtime=0)


def _digest(files: Mapping[str, bytes], worker: bytes) -> str:
    whole = sha256(worker)
    for name, data in sorted(files.items()):
        whole.update(name.encode() + b"\0" + sha256(data).digest())
    return whole.hexdigest()[:16]


def _write(out: Path, files: Mapping[str, bytes]) -> None:
    """Write beside the place, then move into it, so that a full disk leaves what was there."""
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=out.parent, prefix=".bracecalc-") as scratch:
            made = Path(scratch) / "page"
            for name, data in files.items():
                path = made / name if name else made
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(data)
            if out.exists():
                out.rename(Path(scratch) / "old")
            shutil.move(made, out)
    except OSError as error:
        raise PageError(f"{out}: {error.strerror or error}") from None
