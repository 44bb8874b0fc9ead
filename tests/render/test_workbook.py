"""The workbook of an order: what stands in it, how it prints, and that its formulas are live."""

from __future__ import annotations

import datetime
import io
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from ordering import PRICES, small_order

from bracecalc.order.order import Order
from bracecalc.render.takeoff_workbook import Heading, takeoff_workbook

openpyxl = pytest.importorskip("openpyxl")
pytest.importorskip("xlsxwriter")

HEADING = Heading(project="Quillet Yard, kitchens", date=datetime.date(2026, 11, 25))
LISTED = PRICES + (
    "3/4 plywood sheet,each,52.00,USD\nLabor per niche,niche,85.00,USD\nDelivery,order,120,USD\n"
)
OFFICE = shutil.which("soffice")
needs_office = pytest.mark.skipif(OFFICE is None, reason="LibreOffice is not installed here")


def opened(order: Order, *, values: bool = False) -> Any:
    return openpyxl.load_workbook(io.BytesIO(takeoff_workbook(order, HEADING)), data_only=values)


def column(sheet: Any, name: str) -> list[Any]:
    """Return what stands under a heading."""
    (place,) = [cell.column for cell in sheet[1] if cell.value == name]
    return [row[place - 1].value for row in sheet.iter_rows(min_row=2)]


def cell_of(sheet: Any, item: str, name: str) -> Any:
    """Return the cell of an item under a heading."""
    (place,) = [cell.column for cell in sheet[1] if cell.value == name]
    (row,) = [row for row in sheet.iter_rows(min_row=2) if row[0].value == item]
    return row[place - 1]


def test_the_sheets(tmp_path: Path) -> None:
    book = opened(small_order(tmp_path, LISTED))
    assert book.sheetnames == [
        "Summary", "Order", "Cut list", "Pieces by part", "Sums", "Fails", "Skipped",
        "Notes", "Import",
    ]  # fmt: skip
    first = [row[0].value for row in book["Summary"].iter_rows(max_row=4)]
    assert first == ["Quillet Yard, kitchens", "date", "made by", "price list"]
    said = [row[0].value for row in book["Summary"].iter_rows()]
    assert any("4 niches fail" in str(text) for text in said)
    assert "by building" in said


def test_every_sheet_prints_on_landscape_pages_with_its_heading(tmp_path: Path) -> None:
    book = opened(small_order(tmp_path, LISTED))
    for sheet in book:
        setup = sheet.page_setup
        assert (setup.orientation, setup.fitToHeight) == ("landscape", 0)
        assert setup.fitToWidth in (1, None)  # 1 is what it is where it isn't written
        assert sheet.print_area
        if sheet.title != "Summary":
            assert sheet.print_title_rows == "$1:$1"


def test_a_workbook_shows_the_values_that_the_order_has(tmp_path: Path) -> None:
    order = small_order(tmp_path, LISTED)
    book = opened(order, values=True)
    sheet = book["Order"]
    assert cell_of(sheet, "total of what has a price", "cost").value == pytest.approx(
        (order.cost(with_waste=True) or 0) / 100
    )
    sticks = [row for row in sheet.iter_rows(min_row=2) if row[0].value == "lumber"]
    bought = sum(stick.bought for stick in order.lumber[0].sticks)
    assert sum(row[6].value for row in sticks) == bought


def test_no_text_is_a_formula(tmp_path: Path) -> None:
    book = opened(small_order(tmp_path, LISTED))
    formulas = [
        cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.data_type == "f"
    ]
    assert {cell.parent.title for cell in formulas} == {"Order", "Summary"}
    titles = column(book["Fails"], "niche")
    assert titles == ["=T3"]
    assert all(cell.data_type != "f" for cell in book["Fails"]["B"])


def test_the_sheet_to_import_is_plain_rows(tmp_path: Path) -> None:
    order = small_order(tmp_path, LISTED)
    sheet = opened(order)["Import"]
    heading = [cell.value for cell in sheet[1]]
    assert heading[:3] == ["item", "size", "species"]
    costs = [cost for cost in column(sheet, "cost") if cost is not None]
    assert sum(costs) == pytest.approx((order.cost(with_waste=True) or 0) / 100)
    assert not sheet.merged_cells.ranges


def recalculated(book: Any, folder: Path) -> Any:
    """Return a workbook as an office program calculates it."""
    source = folder / "changed.xlsx"
    book.save(source)  # this writer keeps no values, so that all are calculated anew
    out = folder / "calculated"
    assert OFFICE is not None
    subprocess.run(
        [
            OFFICE, f"-env:UserInstallation=file://{folder}/profile", "--headless",
            "--convert-to", "xlsx", "--outdir", str(out), str(source),
        ],
        check=True, capture_output=True, timeout=180,
    )  # fmt: skip
    return openpyxl.load_workbook(out / "changed.xlsx", data_only=True)


@needs_office
def test_an_office_program_comes_to_the_same_sums(tmp_path: Path) -> None:
    order = small_order(tmp_path, LISTED)
    written, calculated = opened(order, values=True), recalculated(opened(order), tmp_path)
    for name in ("Order", "Summary"):
        for ours, theirs in zip(
            written[name].iter_rows(), calculated[name].iter_rows(), strict=True
        ):
            for left, right in zip(ours, theirs, strict=True):
                if isinstance(left.value, (int, float)):
                    assert right.value == pytest.approx(left.value), (name, left.coordinate)


@needs_office
def test_sums_follow_a_price_and_the_overage_that_are_changed(tmp_path: Path) -> None:
    from fractions import Fraction

    order = small_order(tmp_path, LISTED)
    book = opened(order)
    screw = "No. 10 x 3 in wood screw"
    cell_of(book["Order"], screw, "price").value = 7.25
    cell_of(book["Order"], "Labor per niche", "price").value = 90.5
    book["Summary"]["B9"] = 0.25
    book["Summary"]["B8"] = 0.2
    dearer = LISTED.replace("box of 25,4.00", "box of 25,7.25").replace("85.00", "90.50")
    wanted = small_order(tmp_path, dearer, overage=Fraction(25, 100), waste=Fraction(20, 100))
    found = recalculated(book, tmp_path)["Order"]
    for name, with_waste in (("cost", True), ("cost without waste", False)):
        total = cell_of(found, "total of what has a price", name).value
        assert total == pytest.approx((wanted.cost(with_waste=with_waste) or 0) / 100)
    assert cell_of(found, screw, "to buy").value == wanted.screws[0].quantity
