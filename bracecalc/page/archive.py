"""The engine as one archive: the installed package itself, less what a browser can't use.

A tar under one xz is a third smaller than a zip, which packs each file by itself.
"""

from __future__ import annotations

import io
import lzma
import tarfile
from collections.abc import Iterator
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path

# What needs click, numpy, a solver, typst or the build machine; what is about files, orders
# and the terminal; and the page's own files.
LEFT_OUT = (
    "__main__.py",
    "certainty/drift.py",
    "certainty/monte_carlo.py",
    "cli/",
    "cutting/",
    "drawing/index.py",
    "drawing/pdf.py",
    "jobfile/answers.py",
    "jobfile/cells.py",
    "jobfile/csv_table.py",
    "jobfile/ods_table.py",
    "jobfile/record.py",
    "jobfile/rows.py",
    "jobfile/xlsx_table.py",
    "jobfile/zipped.py",
    "order/",
    "page/archive.py",
    "page/build.py",
    "page/npm/",
    "page/preview.py",
    "page/runtime",
    "page/single.py",
    "page/site/",
    "render/cut_list.py",
    "render/labels.py",
    "render/markdown.py",
    "render/rows.py",
    "render/takeoff",
    "render/text.py",
    "render/workbook.py",
    "writing.py",
)
# tomlkit writes a job file back with its comments kept; segno, where the extra "sheet" is
# installed, makes the code on the sheet.
BORROWED = ("tomlkit", "segno")
NOT_BORROWED = ("cli.py", "helpers.py")  # of segno
KINDS = (".py", ".css", ".csv", ".toml")


def engine_archive() -> bytes:
    """Return the packages that the page runs; the root of the archive goes on the module path."""
    buffer = io.BytesIO()
    # no time of day in it: the same sources give the same archive, byte for byte
    with (
        lzma.LZMAFile(buffer, mode="wb", preset=9 | lzma.PRESET_EXTREME) as packed,
        tarfile.open(fileobj=packed, mode="w", format=tarfile.USTAR_FORMAT) as archive,
    ):
        for name, path in sorted(_members()):
            data = path.read_bytes()
            info = tarfile.TarInfo(name)
            info.size = len(data)
            archive.addfile(info, io.BytesIO(data))
    return buffer.getvalue()


def _members() -> Iterator[tuple[str, Path]]:
    for name, path in _inside("bracecalc"):
        if not name.startswith(LEFT_OUT):
            yield f"bracecalc/{name}", path
    for name, path in _inside("bracecalc.data"):
        if not name.startswith("demo/"):
            yield f"bracecalc/data/{name}", path
    for package in filter(find_spec, BORROWED):
        for name, path in _inside(package):
            if name not in NOT_BORROWED:
                yield f"{package}/{name}", path


def _inside(package: str) -> Iterator[tuple[str, Path]]:
    folder = Path(import_module(package).__path__[0])
    for path in folder.rglob("*"):
        if path.suffix in KINDS and "__pycache__" not in path.parts:
            yield path.relative_to(folder).as_posix(), path
