"""Tables of niches, a row each: CSV from any spreadsheet, and XLSX, read as a stream.

The heading of a column is a key of the job file (``niche.width``), ``count``, or a label to add
up by. Nothing is dropped silently: what can't be used is a mistake with its row and column.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from pathlib import Path
from typing import IO

from bracecalc.errors import JobError, Mistake
from bracecalc.tables.rows import nearest

LABELS = ("building", "floor", "type")  # columns that are added up by without asking
COUNT = "count"
PLAIN_KEYS = ("title", "units")  # the keys of a job file that stand in no table
DELIMITERS = ",;\t|"
MOST_CELLS = 2_000  # in a row; more is no table of niches
LONGEST_CELL = 10_000
CHUNK = 1 << 20

# 33,25 or 33,25 in: in a file with semicolons between the cells a comma is a decimal comma
_DECIMAL_COMMA = re.compile(r"\s*[+-]?[0-9]+,[0-9]+\s*[^\s0-9]*\s*")

Row = tuple[int, list[str]]
Cells = tuple[int, Sequence[object]]


@dataclass(frozen=True, slots=True, kw_only=True)
class NicheRow:
    """One row of a table.

    Attributes:
        where: file and row, for messages.
        number: of the row, counted from 1 with the heading; 0 for a file of its own.
        values: what stands in the job columns that are filled, by key.
        count: how many niches are built like this.
        labels: what stands in each label column.
        mistakes: of the row itself; with any of them ``values`` is not to be used.
    """

    where: str
    number: int
    values: Mapping[str, object]
    count: int
    labels: Mapping[str, str]
    mistakes: tuple[Mistake, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """What the user says of the columns beside the keys: labels to add up by, and what to pass."""

    labels: tuple[str, ...] = LABELS
    asked: bool = False  # the labels were asked for by name, so each must be there
    ignored: tuple[str, ...] = ()


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


def table_rows(where: str, columns: Columns) -> Iterator[NicheRow]:
    """Yield the niches of a CSV or XLSX file, row by row.

    Raises:
        JobError: if the file can't be read, or its heading can't be used; mistakes of a row are
            in the row.
    """
    xlsx = where.lower().endswith((".xlsx", ".xlsm"))
    rows: Iterator[Cells] = _xlsx_rows(where) if xlsx else csv_rows(where)
    number, cells = next(rows, (0, ()))
    heading = _Heading(where, [_text(cell) for cell in cells], columns)
    for number, cells in rows:
        row = heading.row(number, cells)
        if row is not None:
            yield row


def _is_key(name: str) -> bool:
    return "." in name or name in PLAIN_KEYS


class _Heading:
    """The first row of a table: which column is what."""

    def __init__(self, where: str, names: Sequence[str], columns: Columns) -> None:
        self.where = where
        self.names = [name.strip() for name in names]
        folded = [name.casefold() for name in self.names]
        wanted = [label.casefold() for label in columns.labels]
        # a column that is usually added up by is passed over where others are asked for
        ignored = {name.casefold() for name in (*columns.ignored, *LABELS)}
        self.label_places = {label: folded.index(label) for label in wanted if label in folded}
        self.count_place = folded.index(COUNT) if COUNT in folded else None
        # a key that is added up by is still a key
        skip = {place for place in self.label_places.values() if not _is_key(self.names[place])} | {
            self.count_place
        }
        self.keys = {
            place: name
            for place, name in enumerate(self.names)
            if name and place not in skip and folded[place] not in ignored
        }
        self._refuse(folded, columns)

    def _refuse(self, folded: list[str], columns: Columns) -> None:
        mistakes = []
        if not any(self.names):
            right = "a heading with the keys of a job file, as niche.width"
            raise JobError(Mistake(f"{self.where} row 1", "", "no heading", right))
        for name in sorted({name for name in folded if name and folded.count(name) > 1}):
            mistakes.append(Mistake(f"{self.where} row 1", name, "the column twice", "it once"))
        for name in self.keys.values():
            if not _is_key(name):
                near = nearest(name, (COUNT, *LABELS, *PLAIN_KEYS))
                hint = f", {near!r}" if near else ""
                right = f"a key as niche.width{hint}; or --group-by or --ignore this column"
                mistakes.append(Mistake(f"{self.where} row 1", "", repr(name), right))
        if columns.asked:
            for label in columns.labels:
                if label.casefold() not in folded:
                    right = "one of its columns: " + ", ".join(self.names)
                    mistakes.append(Mistake(self.where, "--group-by", repr(label), right))
        if mistakes:
            raise JobError(*mistakes)

    def row(self, number: int, cells: Sequence[object]) -> NicheRow | None:
        """Return a row as a niche; None for an empty one."""
        where = f"{self.where} row {number}"
        filled = [not _blank(cell) for cell in cells]
        if not any(filled):
            return None
        mistakes = []
        values: dict[str, object] = {}
        for place, cell in enumerate(cells):
            if not filled[place]:
                continue
            if place >= len(self.names) or not self.names[place]:
                right = "no cell without a heading; a cell with the delimiter in it needs quotes"
                mistakes.append(Mistake(where, _letter(place), repr(_text(cell)), right))
            elif place in self.keys:
                values[self.keys[place]] = cell
                if isinstance(cell, (date, time)):
                    right = "a length; the spreadsheet made a date of it: format the column as text"
                    mistakes.append(Mistake(where, self.keys[place], _text(cell), right))
        count = self._count(cells, where, mistakes)
        labels = {
            label: _text(cells[place]).strip() if place < len(cells) else ""
            for label, place in self.label_places.items()
        }
        values.setdefault("title", f"row {number}")
        return NicheRow(
            where=where,
            number=number,
            values=values,
            count=count,
            labels=labels,
            mistakes=tuple(mistakes),
        )

    def _count(self, cells: Sequence[object], where: str, mistakes: list[Mistake]) -> int:
        place = self.count_place
        if place is None or place >= len(cells) or _blank(cells[place]):
            return 1
        cell = cells[place]
        text = _text(cell).strip()
        if isinstance(cell, float) and cell.is_integer():
            text = str(int(cell))
        if re.fullmatch("[0-9]{1,6}", text):
            return int(text)
        right = "how many niches are built so, a whole number, as 12"
        mistakes.append(Mistake(where, COUNT, repr(text), right))
        return 0


def _blank(cell: object) -> bool:
    return cell is None or (isinstance(cell, str) and not cell.strip())


def _text(cell: object) -> str:
    if cell is None:
        return ""
    if isinstance(cell, datetime):
        return cell.date().isoformat()
    return str(cell)


def _letter(place: int) -> str:
    """Return the column as a spreadsheet letters it.

    >>> _letter(0), _letter(27)
    ('column A', 'column AB')
    """
    letters = ""
    place += 1
    while place:
        place, rest = divmod(place - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return f"column {letters}"


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
        raise JobError(Mistake(where, "", "no such file", "a CSV or XLSX file")) from None
    except OSError as error:
        raise JobError(Mistake(where, "", str(error.strerror), "a file to read")) from None
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


def _xlsx_rows(where: str) -> Iterator[Cells]:
    """Yield the rows of the first sheet; numbers stay numbers."""
    try:
        import openpyxl
    except ImportError:
        right = "the extra 'takeoff' installed, which reads XLSX; or the sheet saved as CSV"
        raise JobError(Mistake(where, "", "an XLSX file", right)) from None
    try:
        book = openpyxl.load_workbook(where, read_only=True, data_only=True)
    except FileNotFoundError:
        raise JobError(Mistake(where, "", "no such file", "a CSV or XLSX file")) from None
    except Exception:  # openpyxl raises what zip, XML and its own checks raise
        right = "an XLSX workbook, or a CSV"
        raise JobError(Mistake(where, "", "no workbook that can be read", right)) from None
    try:
        sheet = book.worksheets[0]
        for number, cells in enumerate(sheet.iter_rows(values_only=True), start=1):
            if len(cells) > MOST_CELLS:
                raise JobError(_no_text(where, number))
            yield number, cells
    finally:
        book.close()
