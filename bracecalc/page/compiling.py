"""Makes the one library that the page runs; used on the page's own Python, when it is built.

A phone would spend most of a start on compiling Python's own library. So the modules that are used
are compiled here, with the engine, into one zip of code and tables, without a source.
"""

from __future__ import annotations

import ast
import io
import marshal
import sys
import zipfile
from collections.abc import Iterator
from importlib import import_module
from importlib.util import MAGIC_NUMBER, find_spec
from pathlib import Path

STAMP = (1980, 1, 1, 0, 0, 0)
UNCHECKED = (1).to_bytes(4, "little") + bytes(8)  # PEP 552: held valid without its source
# What is opened so seldom that no run shows it: other letters, and the words of an error.
SELDOM = (
    "encodings.ascii",
    "encodings.cp437",
    "encodings.idna",
    "encodings.latin_1",
    "encodings.utf_16",
    "linecache",
    "stringprep",
    "traceback",
)
OWN = "bracecalc"
BORROWED = ("tomlkit", "segno")
ITSELF = "bracecalc/page/compiling.py"


def library(standard: str, sources: str) -> bytes:
    """Return the zip of what the page runs.

    Args:
        standard: the zip that Python's own library is imported from.
        sources: the folder of the engine and what it borrows.
    """
    folder = Path(sources)
    refused = {ITSELF, *_open_every_room(folder)}
    whole = io.BytesIO()
    with (
        zipfile.ZipFile(standard) as known,
        zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as packed,
    ):
        for name in _used(standard):
            _add(packed, name, known.read(name))
        for path in sorted(folder.rglob("*")):
            name = path.relative_to(folder).as_posix()
            if path.is_file() and name not in refused:
                _add(packed, name, path.read_bytes())
    return whole.getvalue()


def _open_every_room(folder: Path) -> list[str]:
    """Import what the engine can ask for, so that Python's own modules behind it are known.

    Returns the files that want a package which the page doesn't carry.
    """
    refused = []
    for path in sorted((folder / OWN).rglob("*.py")):
        place = path.relative_to(folder)
        parts = place.with_suffix("").parts
        try:
            import_module(".".join(parts[:-1] if parts[-1] == "__init__" else parts))
        except ModuleNotFoundError:
            refused.append(place.as_posix())
    for name in (*_named_later(folder), *BORROWED, *SELDOM):
        import_module(name)
    import_module("bracecalc.page.bridge").rehearse()
    return refused


def _named_later(folder: Path) -> Iterator[str]:
    """Yield the modules of Python that the sources import inside a function, when it is called."""
    for root in (OWN, *BORROWED):
        for path in sorted((folder / root).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_bytes())):
                names = [one.name for one in node.names] if isinstance(node, ast.Import) else []
                if isinstance(node, ast.ImportFrom) and node.module and not node.level:
                    names = [node.module]
                for name in names:
                    if name.partition(".")[0] in sys.stdlib_module_names and find_spec(name):
                        yield name


def _used(standard: str) -> Iterator[str]:
    start = f"{standard}/"
    files = {str(getattr(module, "__file__", "")) for module in list(sys.modules.values())}
    for name in sorted(files):
        if name.startswith(start):
            yield name.removeprefix(start)


def _add(packed: zipfile.ZipFile, name: str, data: bytes) -> None:
    if name.endswith(".py"):
        code = compile(data, name, "exec", dont_inherit=True)
        name, data = f"{name}c", MAGIC_NUMBER + UNCHECKED + marshal.dumps(code)
    member = zipfile.ZipInfo(name, STAMP)
    member.compress_type = zipfile.ZIP_DEFLATED
    packed.writestr(member, data, compresslevel=9)
