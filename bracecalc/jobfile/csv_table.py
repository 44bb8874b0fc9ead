"""CSV as spreadsheets write it: any of the usual delimiters and encodings, read as a stream."""

from __future__ import annotations

import codecs
import csv
import io
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import IO

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.cells import LONGEST_CELL, MOST_CELLS, Row

DELIMITERS = ",;\t|"
CHUNK = 1 << 20
WORKBOOK_STARTS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")  # of a zip, and of an older workbook

# 33,25 or 33,25 in: in a file with semicolons between the cells a comma is a decimal comma
_DECIMAL_COMMA = re.compile(r"\s*[+-]?[0-9]+,[0-9]+\s*[^\s0-9]*\s*")


def csv_rows(where: str) -> Iterator[Row]:
    """Yield (row number, cells) of a CSV file, or of standard input for ``-``; the heading first.

    UTF-8 with or without a byte order mark, UTF-16 with one, else Windows-1252, which older
    spreadsheets write. Commas, semicolons, tabs or bars between the cells.

    Raises:
        JobError: if the file can't be read or is no text.
    """
    stream, encoding = _open(where)
    try:
        text = io.TextIOWrapper(stream, encoding=encoding, newline="")
        try:
            first = text.readline(CHUNK)
            delimiter = _delimiter(first)
            text.seek(0)
            csv.field_size_limit(LONGEST_CELL)
            reader = csv.reader(text, delimiter=delimiter)
            for cells in reader:
                if len(cells) > MOST_CELLS or "\0" in "".join(cells):
                    raise JobError(_no_text(where, reader.line_num))
                if delimiter == ";":
                    cells = [_with_point(cell) for cell in cells]
                yield reader.line_num, cells
        except (csv.Error, UnicodeError):
            raise JobError(_no_text(where, 0)) from None
    finally:
        stream.close()


def _with_point(cell: str) -> str:
    return cell.replace(",", ".") if _DECIMAL_COMMA.fullmatch(cell) else cell


def _delimiter(first: str) -> str:
    counts = {mark: len(next(csv.reader([first], delimiter=mark), [])) for mark in DELIMITERS}
    return max(counts, key=lambda mark: counts[mark])


def _open(where: str) -> tuple[IO[bytes], str]:
    """Return the file as a stream that can be read from the start, and its encoding."""
    stream: IO[bytes]
    try:
        if where == "-":
            import tempfile

            stream = tempfile.SpooledTemporaryFile(max_size=16 * CHUNK)  # noqa: SIM115
            while block := sys.stdin.buffer.read(CHUNK):
                stream.write(block)
            stream.seek(0)
        else:
            stream = Path(where).open("rb")  # noqa: SIM115
    except FileNotFoundError:
        raise JobError(Mistake(where, "", "no such file", "a table, as niches.csv")) from None
    except OSError as error:
        raise JobError(Mistake(where, "", str(error.strerror), "a file to read")) from None
    if stream.read(4) in WORKBOOK_STARTS:
        stream.close()
        right = "a CSV; a workbook's name ends in .xlsx or .ods"
        raise JobError(Mistake(where, "", "a workbook", right))
    stream.seek(0)
    encoding = _encoding(stream)
    stream.seek(0)
    return stream, encoding


def _encoding(stream: IO[bytes]) -> str:
    start = stream.read(4)
    if start.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    decoder = codecs.getincrementaldecoder("utf-8")()
    try:
        decoder.decode(start)
        while block := stream.read(CHUNK):
            decoder.decode(block)
        decoder.decode(b"", final=True)
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8-sig"


def _no_text(where: str, line: int) -> Mistake:
    place = f"{where} line {line}" if line else where
    return Mistake(place, "", "what is no table in text", "a CSV in UTF-8, a row for each niche")
