"""Tables of niches, a row each: CSV from any spreadsheet, XLSX and ODS, read as a stream.

The heading of a column is a key of the job file (``niche.width``), ``count``, or a label to add
up by. Nothing is dropped silently: what can't be used is a mistake with its row and column.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.cells import (
    HIDDEN,
    Cells,
    HiddenRow,
    cell_text,
    column_letter,
    is_blank,
    is_date,
    unusable,
)
from bracecalc.jobfile.csv_table import csv_rows
from bracecalc.jobfile.ods_table import ods_rows
from bracecalc.jobfile.xlsx_table import xlsx_rows
from bracecalc.tables.rows import nearest

LABELS = ("building", "floor", "type")  # columns that are added up by without asking
COUNT = "count"
PLAIN_KEYS = ("title", "units")  # the keys of a job file that stand in no table
TEXTS = (".csv", ".tsv", ".txt")
XLSX, ODS = (".xlsx", ".xlsm"), (".ods",)
# known by their endings, and turned away with what to do
OTHERS = (".xls", ".xlsb", ".numbers", ".fods", ".gsheet")
MARKED = "#E \t"  # how a text begins that may be an error value
TABLES = (*TEXTS, *XLSX, *ODS, *OTHERS)


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
    sheet: str | None = None  # of a workbook; None: its first


def table_rows(where: str, columns: Columns) -> Iterator[NicheRow]:
    """Yield the niches of a CSV, XLSX or ODS file, row by row; ``-`` is a CSV on standard input.

    Raises:
        JobError: if the file can't be read, or its heading can't be used; mistakes of a row are
            in the row.
    """
    rows = _cells(where, columns)
    number, cells = next(rows, (0, ()))
    for place, cell in enumerate(cells):
        wrong = unusable(cell)
        if wrong is not None:
            raise JobError(Mistake(f"{where} row {number}", column_letter(place), *wrong))
    heading = _Heading(where, [cell_text(cell) for cell in cells], columns)
    for number, cells in rows:
        row = heading.row(number, cells)
        if row is not None:
            yield row


def _cells(where: str, columns: Columns) -> Iterator[Cells]:
    name = where.lower()
    if name.endswith(OTHERS):
        right = "the table saved as XLSX, ODS or CSV"
        raise JobError(Mistake(where, "", "a kind of workbook that isn't read here", right))
    if name.endswith(XLSX):
        return xlsx_rows(where, columns.sheet)
    if name.endswith(ODS):
        return ods_rows(where, columns.sheet)
    return csv_rows(where)


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
        self.told: set[str] = set()  # labels, and count, that stood in a row
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
        filled = [not is_blank(cell) for cell in cells]
        if not any(filled):
            return None
        mistakes: list[Mistake] = []
        if isinstance(cells, HiddenRow):
            mistakes.append(Mistake(where, "", *HIDDEN))
        values: dict[str, object] = {}
        for place, cell in enumerate(cells):
            if not filled[place]:
                continue
            if place >= len(self.names) or not self.names[place]:
                right = "no cell without a heading; a cell with the delimiter in it needs quotes"
                mistakes.append(Mistake(where, column_letter(place), repr(cell_text(cell)), right))
            elif place in self.keys:
                name = self.keys[place]
                values[name] = cell
                if type(cell) is str and cell[0] not in MARKED:  # most cells of most tables
                    continue
                if isinstance(cell, bool):  # as text: True equals 1, and is no length
                    values[name] = "true" if cell else "false"
                wrong = unusable(cell)
                if wrong is not None:
                    mistakes.append(Mistake(where, name, *wrong))
                elif is_date(cell):
                    right = "what was typed; the spreadsheet made a date of it: format as text"
                    mistakes.append(Mistake(where, name, cell_text(cell), right))
        count = self._count(cells, where, mistakes)
        labels = self._labels(cells, where, mistakes)
        values.setdefault("title", f"row {number}")
        return NicheRow(
            where=where,
            number=number,
            values=values,
            count=count,
            labels=labels,
            mistakes=tuple(mistakes),
        )

    def _labels(
        self, cells: Sequence[object], where: str, mistakes: list[Mistake]
    ) -> Mapping[str, str]:
        labels = {}
        for label, place in self.label_places.items():
            cell = cells[place] if place < len(cells) else None
            wrong = unusable(cell)
            text = cell_text(cell).strip()
            if wrong is not None:
                mistakes.append(Mistake(where, label, *wrong))
            elif is_date(cell):
                right = "what was typed; the spreadsheet made a date of it: format as text"
                mistakes.append(Mistake(where, label, text, right))
            elif not text and label in self.told:
                right = f"the {label} on every row; a blank is not read as 'as above' (none: -)"
                mistakes.append(Mistake(where, label, "a blank under what is filled", right))
            elif text:
                self.told.add(label)
            labels[label] = text
        return labels

    def _count(self, cells: Sequence[object], where: str, mistakes: list[Mistake]) -> int:
        place = self.count_place
        if place is None:
            return 1
        if place >= len(cells) or is_blank(cells[place]):
            if COUNT in self.told:
                right = "a count on every row, 1 for one; a blank is not read as 'as above'"
                mistakes.append(Mistake(where, COUNT, "a blank under what is filled", right))
            return 1
        self.told.add(COUNT)
        cell = cells[place]
        text = cell_text(cell).strip()
        if re.fullmatch("[0-9]{1,6}", text):
            return int(text)
        right = "how many niches are built so, a whole number, as 12"
        wrong = unusable(cell)
        mistakes.append(Mistake(where, COUNT, *((repr(text), right) if wrong is None else wrong)))
        return 0
