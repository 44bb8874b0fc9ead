"""Tables of niches: a folder of ordinary and hostile files, and what each must give."""

from __future__ import annotations

import datetime
import io
import zipfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bracecalc.errors import JobError
from bracecalc.jobfile.rows import Columns, NicheRow, table_rows
from bracecalc.order.offcuts import read_on_hand
from bracecalc.order.price_rows import read_prices
from bracecalc.tables.load import load_tables


def written(folder: Path, text: str | bytes, name: str = "niches.csv") -> str:
    path = folder / name
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return str(path)


def rows_of(where: str, columns: Columns | None = None) -> list[NicheRow]:
    return list(table_rows(where, Columns() if columns is None else columns))


# --- tables as spreadsheets write them


@pytest.mark.parametrize(
    ("text", "width"),
    [
        ('count,niche.width\n2,"33 1/4"""\n', '33 1/4"'),
        ('count,niche.width\n2,33 1/4"\n', '33 1/4"'),
        ("\ufeffcount;niche.width\n2;33,25 in\n", "33.25 in"),
        ("\ufeffcount;niche.width\r\n2;33,25\r\n", "33.25"),
        ("count\tniche.width\n2\t845 mm\n", "845 mm"),
        ("count,niche.width\n2,33\u00bc\u2033\n", "33\u00bc\u2033"),
    ],
    ids=["quoted", "inch sign", "semicolon, comma, BOM", "bare comma", "tab", "unicode"],
)
def test_what_spreadsheets_write_survives(tmp_path: Path, text: str, width: str) -> None:
    (row,) = rows_of(written(tmp_path, text))
    assert row.mistakes == ()
    assert (row.count, row.values["niche.width"]) == (2, width)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_encodings_of_spreadsheets(tmp_path: Path, encoding: str) -> None:
    text = "title,niche.width\nK\u00fcche,33\u00bc in\n"
    (row,) = rows_of(written(tmp_path, text.encode(encoding)))
    assert (row.values["title"], row.values["niche.width"]) == ("K\u00fcche", "33\u00bc in")


def test_several_readings_keep_their_semicolons(tmp_path: Path) -> None:
    text = 'niche.width,niche.depth\n"33 1/4 in; 33 5/16 in",24 in\n'
    (row,) = rows_of(written(tmp_path, text))
    assert row.values["niche.width"] == "33 1/4 in; 33 5/16 in"


def test_labels_and_counts_are_no_keys(tmp_path: Path) -> None:
    text = "Building,type,niche.width,count\nA,,30 in,\nB,bar,31 in,4\n\n"
    first, second = rows_of(written(tmp_path, text))
    assert (first.labels, first.count) == ({"building": "A", "type": ""}, 1)
    assert (second.labels, second.count) == ({"building": "B", "type": "bar"}, 4)
    assert set(second.values) == {"niche.width", "title"}


def test_a_cell_beyond_the_heading_is_a_mistake(tmp_path: Path) -> None:
    (row,) = rows_of(written(tmp_path, "count,niche.width\n1,33,25\n"))
    assert [mistake.key for mistake in row.mistakes] == ["column C"]


@pytest.mark.parametrize("count", ["two", "-1", "1.5", "1e3"])
def test_a_count_is_a_whole_number(tmp_path: Path, count: str) -> None:
    (row,) = rows_of(written(tmp_path, f"count,niche.width\n{count},33 in\n"))
    assert [mistake.key for mistake in row.mistakes] == ["count"]


def test_an_unknown_column_is_refused_with_what_to_do(tmp_path: Path) -> None:
    where = written(tmp_path, "niche.width,remarks\n33 in,oak\n")
    with pytest.raises(JobError, match=r"remarks.*--group-by or --ignore"):
        rows_of(where)
    (row,) = rows_of(where, Columns(ignored=("Remarks",)))
    assert "remarks" not in row.values
    (row,) = rows_of(where, Columns(labels=("remarks",), asked=True))
    assert row.labels == {"remarks": "oak"}
    with pytest.raises(JobError, match="wing"):
        rows_of(where, Columns(labels=("wing", "remarks"), asked=True))


@pytest.mark.parametrize(
    ("data", "right"),
    [
        (b"", "a heading"),
        (b"niche.width,niche.width\n1,2\n", "twice"),
        (b"niche.width\n\x00\x01\x02\n", "a CSV"),
        (b"PK\x03\x04 not a zip", "a workbook; expected a CSV"),
        (b"\xd0\xcf\x11\xe0 old", "a workbook; expected a CSV"),
    ],
)
def test_what_is_no_table_is_refused_in_a_line(tmp_path: Path, data: bytes, right: str) -> None:
    with pytest.raises(JobError, match=right):
        rows_of(written(tmp_path, data))
    with pytest.raises(JobError, match="no such file"):
        rows_of(str(tmp_path / "absent.csv"))


def test_a_blank_under_a_label_is_not_as_above(tmp_path: Path) -> None:
    text = "building,niche.width\nA,30 in\n,31 in\n,32 in\nB,33 in\n-,34 in\n"
    rows = rows_of(written(tmp_path, text))
    told = [str(mistake) for row in rows for mistake in row.mistakes]
    assert [line.partition(": ")[0].rpartition(" ")[2] for line in told] == ["3", "4"]
    assert "a blank is not read as 'as above'" in told[0]
    assert rows[-1].labels == {"building": "-"}


def test_a_blank_under_a_count_is_neither_one_nor_as_above(tmp_path: Path) -> None:
    text = "count,niche.width\n,30 in\n12,31 in\n,32 in\n"
    first, second, third = rows_of(written(tmp_path, text))
    assert (first.count, second.count) == (1, 12)
    assert first.mistakes == second.mistakes == ()
    assert "count: read a blank under what is filled" in str(third.mistakes[0])


# --- workbooks

Cell = object
Sheets = dict[str, list[list[Cell]]]
ERROR = "#DIV/0!"
FORMULA = "=1+2"


class Ods:
    """Writes an ODS as office programs do: by hand, as its elements are what is tried."""

    NAMES = " ".join(
        f'xmlns:{short}="urn:{name}"'
        for short, name in (
            ("office", "oasis:names:tc:opendocument:xmlns:office:1.0"),
            ("table", "oasis:names:tc:opendocument:xmlns:table:1.0"),
            ("text", "oasis:names:tc:opendocument:xmlns:text:1.0"),
            ("calcext", "org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"),
        )
    )
    BLANKS = (
        '<table:table-row table:number-rows-repeated="1048000">'
        '<table:table-cell table:number-columns-repeated="16384"/></table:table-row>'
    )

    def write(self, path: Path, sheets: Sheets, merged: tuple[int, int] | None = None) -> str:
        tables = "".join(
            f'<table:table table:name="{name}">'
            f"{''.join(self.row(n, row, merged) for n, row in enumerate(rows, 1))}"
            f"{self.BLANKS}</table:table>"
            for name, rows in sheets.items()
        )
        return self.raw(
            path,
            f'<?xml version="1.0" encoding="UTF-8"?><office:document-content {self.NAMES}>'
            f"<office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body>"
            "</office:document-content>",
        )

    def raw(self, path: Path, content: str) -> str:
        with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
            archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
            archive.writestr("content.xml", content)
        return str(path)

    def row(self, number: int, row: list[Cell], merged: tuple[int, int] | None) -> str:
        cells = "".join(self.cell(cell, (number, n), merged) for n, cell in enumerate(row, 1))
        tail = '<table:table-cell table:number-columns-repeated="16370"/>'
        return f"<table:table-row>{cells}{tail}</table:table-row>"

    def cell(self, cell: Cell, at: tuple[int, int], merged: tuple[int, int] | None) -> str:
        span = ""
        if merged == at:
            span = ' table:number-columns-spanned="1" table:number-rows-spanned="2"'
        elif merged == (at[0] - 1, at[1]):
            return "<table:covered-table-cell/>"
        if cell is None:
            return "<table:table-cell/>"
        if cell == FORMULA:
            return f'<table:table-cell table:formula="of:{FORMULA}"/>'
        if cell == ERROR:
            return (
                '<table:table-cell table:formula="of:=1/0" office:value-type="string" '
                f'calcext:value-type="error"><text:p>{ERROR}</text:p></table:table-cell>'
            )
        if isinstance(cell, datetime.datetime):
            return (
                '<table:table-cell office:value-type="date" '
                f'office:date-value="{cell.date()}"><text:p/></table:table-cell>'
            )
        if isinstance(cell, (int, float)):
            return (
                f'<table:table-cell office:value-type="float" office:value="{cell}">'
                "<text:p>shown otherwise</text:p></table:table-cell>"
            )
        return (
            f'<table:table-cell office:value-type="string"{span}>'
            f"<text:p>{escape(str(cell))}</text:p></table:table-cell>"
        )


class Xlsx:
    """Writes an XLSX by openpyxl, which never calculates."""

    def write(self, path: Path, sheets: Sheets, merged: tuple[int, int] | None = None) -> str:
        openpyxl = pytest.importorskip("openpyxl")
        book = openpyxl.Workbook()
        book.remove(book.active)
        for name, rows in sheets.items():
            sheet = book.create_sheet(name)
            for row in rows:
                sheet.append(row)
            for row in sheet.iter_rows():
                for cell in row:
                    if cell.value == ERROR:
                        cell.data_type = "e"
            if merged is not None:
                top, place = merged
                sheet.merge_cells(
                    start_row=top, end_row=top + 1, start_column=place, end_column=place
                )
        book.save(path)
        return str(path)


@pytest.fixture(params=["ods", "xlsx"])
def book(request: pytest.FixtureRequest, tmp_path: Path) -> Callable[..., str]:
    writer: Any = Ods() if request.param == "ods" else Xlsx()

    def write(
        rows: list[list[Cell]],
        others: Sheets | None = None,
        *,
        merged: tuple[int, int] | None = None,
    ) -> str:
        sheets = {"Niches": rows, **({} if others is None else others)}
        return str(writer.write(tmp_path / f"niches.{request.param}", sheets, merged))

    return write


Book = Callable[..., str]
HEADING: list[Cell] = ["count", "niche.width", "niche.depth", "floor"]


def test_a_workbook_gives_what_stands_in_it(book: Book) -> None:
    where = book([HEADING, [3, 33.25, "24 in", 2], [None] * 4, [1, '33 1/4"', "24 <in>", 12]])
    first, second = rows_of(where)
    assert (first.number, first.count, first.labels) == (2, 3, {"floor": "2"})
    assert (first.values["niche.width"], first.mistakes) == (33.25, ())
    assert (second.number, second.values["niche.depth"]) == (4, "24 <in>")


@pytest.mark.parametrize(
    ("row", "key", "said"),
    [
        ([FORMULA, 33.25, "24 in", 1], "count", "a formula that no program has calculated"),
        ([1, FORMULA, "24 in", 1], "niche.width", "a formula that no program has calculated"),
        ([1, 33, "24 in", FORMULA], "floor", "a formula that no program has calculated"),
        ([ERROR, 33.25, "24 in", 1], "count", "the error #DIV/0!"),
        ([1, 33.25, ERROR, 1], "niche.depth", "the error #DIV/0!"),
        ([1, 33.25, "24 in", ERROR], "floor", "the error #DIV/0!"),
        ([1, datetime.datetime(2026, 1, 4), "24 in", 1], "niche.width", "made a date of it"),
        ([1, 33, "24 in", datetime.datetime(2026, 1, 4)], "floor", "made a date of it"),
        ([1, 33.25, "24 in", 2, "over there"], "column E", "no cell without a heading"),
    ],
)
def test_nothing_is_lost_in_a_workbook(book: Book, row: list[Cell], key: str, said: str) -> None:
    good: list[Cell] = [2, 33.25, "24 in", 1]
    (first, second) = rows_of(book([HEADING, good, row]))
    assert first.mistakes == ()
    (mistake,) = second.mistakes
    assert mistake.where.endswith(" row 3")
    assert mistake.key == key
    assert said in str(mistake)


@pytest.mark.parametrize("column", range(1, 5))
def test_a_merged_cell_is_refused_in_each_row_that_it_covers(book: Book, column: int) -> None:
    rows: list[list[Cell]] = [HEADING]
    rows += [["9", "33.25", "24 in", "1"], ["9", "33.25", "24 in", "1"], ["9", "30", "24", "1"]]
    first, second, third = rows_of(book(rows, merged=(2, column)))
    for row in (first, second):
        (mistake,) = row.mistakes
        assert "a cell merged with others" in str(mistake)
        assert mistake.key == HEADING[column - 1]
    assert third.mistakes == ()


def test_a_merged_cell_of_a_column_passed_over_matters_to_nobody(book: Book) -> None:
    rows: list[list[Cell]] = [["niche.width", "remark"], ["33", "dry"], ["34", None]]
    rows_read = rows_of(book(rows, merged=(2, 2)), Columns(ignored=("remark",)))
    assert [row.mistakes for row in rows_read] == [(), ()]


def test_a_heading_that_is_merged_or_not_calculated_is_refused(book: Book) -> None:
    with pytest.raises(JobError, match=r"row 1: column B: read a formula"):
        rows_of(book([["count", FORMULA], [1, 33.25]]))
    with pytest.raises(JobError, match=r"row 1: column A: read a cell merged"):
        rows_of(book([["count", "niche.width"], ["1", 33.25]], merged=(1, 1)))


def test_a_hidden_row_is_neither_ordered_nor_passed_over(tmp_path: Path) -> None:
    pytest.importorskip("openpyxl")
    rows: list[list[Cell]] = [HEADING, *([n, 33.25, "24 in", 1] for n in range(1, 4))]
    where = Xlsx().write(tmp_path / "n.xlsx", {"N": rows})
    changed(where, "xl/worksheets/sheet1.xml", b'<row r="3"', b'<row hidden="1" r="3"')
    ods = Ods().write(tmp_path / "n.ods", {"N": rows})
    shown, hidden = b"<table:table-row><table:table-cell office", b"<table:table-row "
    hidden += b'table:visibility="filter"><table:table-cell office'
    changed(ods, "content.xml", shown + b'(?=:value-type="float" office:value="2")', hidden)
    for path in (where, ods):
        told = [[str(mistake) for mistake in row.mistakes] for row in rows_of(path)]
        assert (told[0], told[2]) == ([], [])
        (line,) = told[1]
        assert line.endswith(
            "row 3: read a hidden row; expected it shown, or deleted: "
            "what is hidden may be meant or not"
        )


def test_a_second_sheet_of_niches_is_not_passed_over(book: Book) -> None:
    one: list[list[Cell]] = [HEADING, [3, 33.25, "24 in", 2]]
    two: list[list[Cell]] = [HEADING, [5, 30.25, "24 in", 4]]
    notes: list[list[Cell]] = [["as agreed"], ["with the site"]]
    assert [row.count for row in rows_of(book(one, {"Notes": notes}))] == [3]
    where = book(one, {"Notes": notes, "Tower": two})
    with pytest.raises(
        JobError, match=r"2 sheets with niches: 'Niches', 'Tower'; expected .* --sheet"
    ):
        rows_of(where)
    assert [row.count for row in rows_of(where, Columns(sheet="Tower"))] == [5]
    with pytest.raises(JobError, match="--sheet: read 'Tover'; expected one of: 'Niches', 'Notes'"):
        rows_of(where, Columns(sheet="Tover"))


def test_a_formula_that_came_to_an_empty_text_is_a_blank(tmp_path: Path) -> None:
    pytest.importorskip("openpyxl")
    where = Xlsx().write(tmp_path / "n.xlsx", {"N": [HEADING, [2, 33.25, "24 in", FORMULA]]})
    calculated = b'<c r="D2" t="str"><f>1+2</f><v></v></c>'
    changed(where, "xl/worksheets/sheet1.xml", rb'<c r="D2".*?</c>', calculated)
    (row,) = rows_of(where)
    assert (row.labels, row.mistakes) == ({"floor": ""}, ())


def test_what_a_workbook_says_of_its_size_loses_no_row(tmp_path: Path) -> None:
    pytest.importorskip("openpyxl")
    rows: list[list[Cell]] = [HEADING, *([n, 33.25, "24 in", 1] for n in range(1, 5))]
    where = Xlsx().write(tmp_path / "n.xlsx", {"N": rows})
    changed(
        where, "xl/worksheets/sheet1.xml", rb'<dimension ref="[^"]*"', b'<dimension ref="A1:B2"'
    )
    assert [row.count for row in rows_of(where)] == [1, 2, 3, 4]


def changed(where: str, part: str, old: bytes, new: bytes) -> None:
    """Put something else into a part of a zip."""
    import re

    with zipfile.ZipFile(where) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    found = re.sub(old, lambda _: new, parts[part], count=1, flags=re.DOTALL)
    assert found != parts[part]
    parts[part] = found
    with zipfile.ZipFile(where, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)


ENTITIES = (
    '<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa">'
    + "".join(
        f'<!ENTITY {b} "{f"&{a};" * 10}">' for a, b in zip("abcdefgh", "bcdefghi", strict=True)
    )
    + "]>"
)


def test_a_document_type_is_refused_before_it_is_read(tmp_path: Path) -> None:
    pytest.importorskip("openpyxl")
    where = Xlsx().write(tmp_path / "n.xlsx", {"N": [HEADING]})
    changed(where, "xl/worksheets/sheet1.xml", b"<worksheet", ENTITIES.encode() + b"<worksheet")
    with pytest.raises(JobError, match=r"document type declaration in xl/worksheets/sheet1\.xml"):
        rows_of(where)
    ods = Ods().raw(tmp_path / "n.ods", f"<?xml version='1.0'?>{ENTITIES}<x>&i;</x>")
    with pytest.raises(JobError, match=r"document type declaration in content\.xml"):
        rows_of(ods)


def test_300_mb_in_a_file_of_300_kb_are_refused_before_they_are_unpacked(tmp_path: Path) -> None:
    path = tmp_path / "bomb.xlsx"
    with (
        zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive,
        archive.open("xl/worksheets/sheet1.xml", "w", force_zip64=True) as part,
    ):
        for _ in range(300):
            part.write(b" " * 1_000_000)
    assert path.stat().st_size < 400_000
    with pytest.raises(JobError, match=r"sheet1.xml of 300 MB in a file of less"):
        rows_of(str(path))


def test_rows_far_below_are_refused_not_counted_up(tmp_path: Path) -> None:
    pytest.importorskip("openpyxl")
    where = Xlsx().write(tmp_path / "n.xlsx", {"N": [HEADING, [1, 33.25, "24 in", 1]]})
    changed(where, "xl/worksheets/sheet1.xml", b'<row r="2"', b'<row r="99999999"')
    with pytest.raises(JobError, match="1,048,577"):
        rows_of(where)
    row = '<table:table-row table:number-rows-repeated="99999999">'
    cell = '<table:table-cell office:value-type="float" office:value="1"/></table:table-row>'
    tables = f'<table:table table:name="N">{row}{cell}</table:table>'
    content = f"<office:document-content {Ods.NAMES}>{tables}</office:document-content>"
    with pytest.raises(JobError, match="99,999,999"):
        rows_of(Ods().raw(tmp_path / "n.ods", content))


@pytest.mark.parametrize("name", ["n.xlsx", "n.ods"])
@pytest.mark.parametrize("data", [b"no workbook", b"", b"PK\x03\x04 torn"])
def test_what_is_no_workbook_is_refused_in_a_line(tmp_path: Path, name: str, data: bytes) -> None:
    with pytest.raises(JobError, match=r"no workbook that can be read; expected an .* workbook"):
        rows_of(written(tmp_path, data, name))
    with pytest.raises(JobError, match="no such file"):
        rows_of(str(tmp_path / f"absent-{name}"))


@pytest.mark.parametrize("name", ["n.xls", "n.xlsb", "n.numbers", "n.XLS"])
def test_other_workbooks_are_told_what_to_do(tmp_path: Path, name: str) -> None:
    with pytest.raises(JobError, match="expected the table saved as XLSX, ODS or CSV"):
        rows_of(written(tmp_path, b"\xd0\xcf\x11\xe0", name))


def test_a_locked_workbook_is_told_what_to_do(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="without a password"):
        rows_of(written(tmp_path, b"\xd0\xcf\x11\xe0 locked", "n.xlsx"))


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(cut=st.integers(0, 4000), noise=st.binary(max_size=40), name=st.sampled_from(["x", "o"]))
def test_a_torn_workbook_is_a_table_or_a_mistake(
    tmp_path: Path, cut: int, noise: bytes, name: str
) -> None:
    pytest.importorskip("openpyxl")
    writer: Any = Ods() if name == "o" else Xlsx()
    path = tmp_path / ("n.ods" if name == "o" else "n.xlsx")
    writer.write(path, {"N": [HEADING, [1, 33.25, "24 in", 1]]})
    with zipfile.ZipFile(path) as archive:
        parts = {part: archive.read(part) for part in archive.namelist()}
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for part, data in parts.items():
            at = cut % max(1, len(data))
            torn = data[:at] + noise + data[at + len(noise) :]
            archive.writestr(part, torn if part.endswith(("sheet1.xml", "content.xml")) else data)
    path.write_bytes(buffer.getvalue())
    with suppress(JobError):
        rows_of(str(path))


@settings(
    max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.one_of(st.binary(max_size=300), st.text(max_size=200).map(str.encode)))
def test_whatever_bytes_come_there_is_a_table_or_a_mistake(tmp_path: Path, data: bytes) -> None:
    for heading in (b"", b"count,niche.width\n", b"item,unit,price,currency\n"):
        where = written(tmp_path, heading + data)
        with suppress(JobError):
            for row in rows_of(where):
                assert row.count >= 0
        with suppress(JobError):
            read_prices(where, load_tables())
        with suppress(JobError):
            read_on_hand(where, load_tables())


def test_a_flag_of_a_workbook_is_no_number(tmp_path: Path) -> None:
    pytest.importorskip("openpyxl")
    rows: list[list[Cell]] = [["niche.soffit_solid", "niche.width"], [True, 1], [False, True]]
    first, second = rows_of(Xlsx().write(tmp_path / "n.xlsx", {"N": rows}))
    assert (first.values["niche.soffit_solid"], first.values["niche.width"]) == ("true", 1)
    assert (second.values["niche.soffit_solid"], second.values["niche.width"]) == ("false", "true")
