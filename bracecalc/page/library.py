"""The one library of the page, compiled by the page's own Python under Node."""

from __future__ import annotations

import subprocess
import tempfile
from functools import lru_cache
from pathlib import Path

from bracecalc.page.runtime import NPM, PageError, Runtime, node
from bracecalc.page.sources import page_sources

LONGEST = 600  # seconds


def page_library(runtime: Runtime) -> bytes:
    """Return the zip of Python's own library, the engine and its tables, all compiled.

    The same sources and the same runtime give the same bytes.

    Raises:
        PageError: if Node is missing, or the page's Python refuses the sources.
    """
    sources = page_sources()
    return _made(tuple(sorted(sources.items())), runtime.folder / "pyodide")


@lru_cache(maxsize=1)
def _made(sources: tuple[tuple[str, bytes], ...], pyodide: Path) -> bytes:
    with tempfile.TemporaryDirectory() as scratch:
        folder, out = Path(scratch) / "sources", Path(scratch) / "python.zip"
        for name, data in sources:
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        command = [node(), str(NPM / "make.mjs"), str(pyodide), str(folder), str(out)]
        try:
            done = subprocess.run(command, capture_output=True, check=False, timeout=LONGEST)
        except (OSError, subprocess.TimeoutExpired) as error:
            raise PageError(f"{command[0]}: the page's library was not made: {error}") from None
        if done.returncode or not out.is_file():
            said = done.stderr.decode(errors="replace").strip().splitlines() or ["no reason given"]
            raise PageError(f"{command[0]}: the page's library was not made: {said[-1]}")
        return out.read_bytes()
