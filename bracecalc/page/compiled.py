"""Compiles what the page has loaded, in the browser itself, so that the next start is quick.

Python's own library comes to the browser as source, and compiling it is most of a start. A module
at a time is done, so that a request of the page never waits for more than one. The copies carry no
time or check of their source: they are kept under the name of the engine that made them.
"""

from __future__ import annotations

import io
import sys
import tarfile
import tempfile
import zipfile
from collections.abc import Iterator
from pathlib import Path
from py_compile import PycInvalidationMode, PyCompileError
from py_compile import compile as compile_file

KEPT = (".py", ".pyc", ".css", ".csv", ".toml")


class Compiler:
    """Compiles the modules that are loaded.

    Args:
        library: the zip that Python's own library is imported from.
        engine: the folder that the engine is imported from.
    """

    def __init__(self, library: str, engine: str) -> None:
        self._library = Path(library)
        self._engine = Path(engine)
        self._compiled: dict[str, bytes] = {}
        self._steps = self._walk()

    def step(self) -> bool:
        """Compile the next module; return whether there was one."""
        return next(self._steps, None) is not None

    def _walk(self) -> Iterator[str]:
        with zipfile.ZipFile(self._library) as source, tempfile.TemporaryDirectory() as scratch:
            for path in _loaded(self._library):
                data = source.read(path)
                place = Path(scratch) / "module.py"
                place.write_bytes(data)
                made = _compile(place, named=f"{self._library}/{path}", to=Path(scratch) / "m.pyc")
                if made is not None:
                    self._compiled[f"{path}c"] = made.read_bytes()
                yield path
        for path in _loaded(self._engine):
            _compile(self._engine / path)
            yield path

    def library(self) -> bytes:
        """Return the library's zip with what was compiled put beside its source."""
        whole = io.BytesIO(self._library.read_bytes())
        with zipfile.ZipFile(whole, "a", zipfile.ZIP_STORED) as archive:
            for name, data in self._compiled.items():
                archive.writestr(name, data)
        return whole.getvalue()

    def engine(self) -> bytes:
        """Return the engine's folder as a tar, what was compiled in it."""
        whole = io.BytesIO()
        with tarfile.open(fileobj=whole, mode="w") as archive:
            for path in sorted(self._engine.rglob("*")):
                if path.suffix in KEPT:
                    archive.add(path, path.relative_to(self._engine).as_posix(), recursive=False)
        return whole.getvalue()


def _loaded(root: Path) -> list[str]:
    """Return the source files under a root that modules were loaded from."""
    start = f"{root}/"
    files = {str(getattr(module, "__file__", "")) for module in list(sys.modules.values())}
    return sorted(
        name.removeprefix(start)
        for name in files
        if name.startswith(start) and name.endswith(".py")
    )


def _compile(path: Path, *, named: str | None = None, to: Path | None = None) -> Path | None:
    try:
        made = compile_file(
            str(path),
            None if to is None else str(to),
            named,
            doraise=True,
            invalidation_mode=PycInvalidationMode.UNCHECKED_HASH,
        )
    except (PyCompileError, OSError):
        return None  # the source is still there to be imported
    return None if made is None else Path(made)
