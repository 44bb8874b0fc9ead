"""Workbooks are zips of XML: looked at before they are unpacked, so that none takes the machine.

A zip of 300 kB can hold 300 MB, and a document type declaration can grow a few bytes of XML into
gigabytes or fetch a file; no office program writes either.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import NoReturn
from xml.parsers import expat

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.cells import MOST_CELLS, MOST_ROWS

LARGEST_SHEET = 4 << 30  # bytes of one part that is read as a stream
LARGEST_PART = 200 << 20  # of one that is read whole, as the texts that cells share
MOST_PACKED = 200  # to one: the tables of niches that were tried pack to 10 to 40 to one
SMALL = 20 << 20  # a part that unpacks to less than this may be packed as tightly as it likes
MOST_PARTS = 2_000
BLOCK = 1 << 14
OLD = b"\xd0\xcf\x11\xe0"
OLD_RIGHT = "a workbook saved as XLSX or ODS without a password, or a CSV"


@contextmanager
def opened(where: str, *, streamed: str, right: str) -> Iterator[zipfile.ZipFile]:
    """Give a workbook's zip once its sizes and declarations have been looked at.

    Args:
        where: path of the file.
        streamed: how the names of the parts begin that are read as a stream.
        right: what the file should be, for messages.

    Raises:
        JobError: if it isn't there, is no zip, unpacks to too much, or declares a document type;
            and for whatever a broken zip or broken XML raises while it is read.
    """
    try:
        with open(where, "rb") as file:
            if file.read(4) == OLD:
                raise JobError(Mistake(where, "", "an older or locked workbook", OLD_RIGHT))
            with zipfile.ZipFile(file) as archive:
                _measure(where, archive, streamed)
                _look_for_declarations(where, archive)
                yield archive
    except JobError:
        raise
    except FileNotFoundError:
        raise JobError(Mistake(where, "", "no such file", right)) from None
    except Exception:  # zip, XML and the readers on them raise some twenty kinds of error
        raise JobError(Mistake(where, "", "no workbook that can be read", right)) from None


def two_sheets(where: str, names: Sequence[str]) -> Mistake:
    """Return the mistake of a workbook of which more than one sheet may be meant."""
    read = f"{len(names)} sheets with niches: {', '.join(map(repr, names))}"
    return Mistake(where, "", read, "a file for each; or, in a takeoff, one of them by --sheet")


def no_sheet(where: str, name: str, names: Sequence[str]) -> Mistake:
    """Return the mistake of a sheet that isn't there."""
    return Mistake(where, "--sheet", repr(name), f"one of: {', '.join(map(repr, names))}")


def too_large(where: str, row: int, cells: int) -> Mistake:
    """Return the mistake of a sheet that is no table of niches."""
    right = f"at most {MOST_ROWS:,} rows of {MOST_CELLS:,}"
    return Mistake(where, "", f"row {row:,} of {cells:,} cells", right)


def _measure(where: str, archive: zipfile.ZipFile, streamed: str) -> None:
    parts = archive.infolist()
    if len(parts) > MOST_PARTS:
        right = f"a workbook of at most {MOST_PARTS:,}"
        raise JobError(Mistake(where, "", f"{len(parts):,} parts in it", right))
    for part in parts:
        tight = part.file_size > SMALL and part.file_size > MOST_PACKED * part.compress_size
        most = LARGEST_SHEET if part.filename.startswith(streamed) else LARGEST_PART
        if tight or part.file_size > most:
            size = f"{part.filename} of {part.file_size / 1e6:,.0f} MB in a file of less"
            right = "a workbook as an office program saves it; or the table as CSV"
            raise JobError(Mistake(where, "", size, right))


def _look_for_declarations(where: str, archive: zipfile.ZipFile) -> None:
    for part in archive.infolist():
        if part.filename.endswith((".xml", ".rels", ".vml")) and _declares(archive, part):
            read = f"a document type declaration in {part.filename}"
            right = "a workbook as an office program saves it, without one"
            raise JobError(Mistake(where, "", read, right))


def _declares(archive: zipfile.ZipFile, part: zipfile.ZipInfo) -> bool:
    """Return whether a part has a document type; it could only stand before the first element."""

    def declared(*_: object) -> NoReturn:
        raise _Declared  # at once: what is declared must not be expanded

    def begun(*_: object) -> NoReturn:
        raise _Begun

    parser = expat.ParserCreate()
    parser.StartDoctypeDeclHandler = declared
    parser.StartElementHandler = begun
    try:
        with archive.open(part) as stream:
            while block := stream.read(BLOCK):
                parser.Parse(block, False)
    except _Declared:
        return True
    except _Begun:
        return False
    return False


class _Declared(Exception):  # noqa: N818
    """A document type stands in the part."""


class _Begun(Exception):  # noqa: N818
    """The first element stands in the part, and no document type before it."""
