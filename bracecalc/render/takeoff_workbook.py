"""A takeoff as an XLSX workbook: the order, the cut list, the sums, what fails. Real numbers."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from bracecalc.cutting import PER_INCH
from bracecalc.order.naming import length_text
from bracecalc.order.order import Order
from bracecalc.render.cut_list import bars, saw_words
from bracecalc.render.rows import harmless
from bracecalc.render.takeoff import cautions, percent, proof_words
from bracecalc.render.takeoff_data import HEADINGS, amount, order_rows

if TYPE_CHECKING:
    from openpyxl import Workbook

FORMATS = {"price of one": "#,##0.00", "cost": "#,##0.00", "net board feet": "0.0"}
WIDEST = 60  # of a column, in letters
ORDER_HEADINGS = {
    "item": "item",
    "size": "size",
    "species": "species",
    "length_in": "length (in)",
    "count": "needed",
    "with_extra": "to buy",
    "boxes": "boxes",
    "price_each": "price of one",
    "cost": "cost",
    "currency": "currency",
    "note": "note",
}


def takeoff_workbook(order: Order) -> bytes:
    """Return the workbook's bytes.

    Text that a spreadsheet would run as a formula is made harmless; lengths are inches.

    Raises:
        ImportError: if openpyxl, of the extra ``takeoff``, is not installed.
    """
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.active)
    _sheet(book, "Order", _order_rows(order))
    _sheet(book, "Cut list", _cut_rows(order))
    _sheet(book, "Pieces", _piece_rows(order))
    if order.tally.sums:
        _sheet(book, "Sums", _sum_rows(order))
    if order.tally.listed:
        _sheet(book, "Fails", _fail_rows(order))
    if order.tally.skipped:
        lines = [[str(mistake)] for mistake in order.tally.mistake_lines()]
        _sheet(book, "Skipped", [["skipped, not in the order"], *lines])
    _sheet(book, "Notes", [["notes"], *_notes(order)])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _sheet(book: Workbook, title: str, rows: Iterable[Sequence[Any]]) -> None:
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    sheet = book.create_sheet(title)
    widths: dict[int, int] = {}
    headings: dict[int, str] = {}
    for number, row in enumerate(rows, start=1):
        for place, value in enumerate(row, start=1):
            if value is None:
                continue
            text = isinstance(value, str)
            cell = sheet.cell(number, place, harmless(_clean(value)) if text else value)
            if text:
                cell.data_type = "s"
            if number == 1:
                cell.font = Font(bold=True)
                headings[place] = str(value)
            elif isinstance(value, float):
                cell.number_format = FORMATS.get(headings.get(place, ""), "0.0####")
            widths[place] = max(widths.get(place, 8), min(WIDEST, len(str(value)) + 2))
    for place, width in widths.items():
        sheet.column_dimensions[get_column_letter(place)].width = width
    sheet.freeze_panes = "A2"


def _clean(text: str) -> str:
    """Return a text without the control characters that a workbook can't hold."""
    return "".join(sign if sign.isprintable() else " " for sign in text)


def _order_rows(order: Order) -> Iterable[Sequence[Any]]:
    yield list(ORDER_HEADINGS.values())
    for row in order_rows(order):
        if row["what"] == "buy":
            yield [row.get(name) for name in HEADINGS if name in ORDER_HEADINGS]
    plain = order.cost(with_waste=False)
    if plain is None:
        return
    place = list(ORDER_HEADINGS).index("cost")
    currency = None if order.rules.prices is None else order.rules.prices.currency
    sums = (
        ("all, without waste of lumber", plain),
        (f"all, with {percent(float(order.rules.waste))} waste", order.cost(with_waste=True)),
    )
    for name, coins in sums:
        gap = [None] * (place - 1)
        yield [name, *gap, amount(order, coins), currency]


def _cut_rows(order: Order) -> Iterable[Sequence[Any]]:
    most = max((len(row.cuts) for line in order.lumber for row in line.plan.sticks), default=0)
    pairs = [name for k in range(1, most + 1) for name in (f"pieces {k}", f"of length {k} (in)")]
    yield ["size", "species", "sticks", "stick (in)", "cut alike", *pairs, "left over (in)"]
    for line in order.lumber:
        for bar in bars(line, order.rules.units):
            row = bar.stick
            cuts = [value for length, count in row.cuts for value in (count, length / PER_INCH)]
            blank = [None] * (2 * (most - len(row.cuts)))
            head = [line.size, line.species, bar.numbers, row.stick.length / PER_INCH, row.count]
            yield [*head, *cuts, *blank, row.left_over / PER_INCH]


def _piece_rows(order: Order) -> Iterable[Sequence[Any]]:
    yield ["use", "size", "species", "length (in)", "length", "pieces"]
    for line in order.lumber:
        for (use, length), count in sorted(line.pieces.items()):
            text = length_text(length, order.rules.units)
            yield [use, line.size, line.species, length / PER_INCH, text, count]


def _sum_rows(order: Order) -> Iterable[Sequence[Any]]:
    headings = ["by", "what", "niches", "failing", "boards", "net board feet"]
    yield [*headings, "blocking", "packers", "screws"]
    for column, by_label in order.tally.sums.items():
        for label, part in by_label.items():
            feet = order.board_feet_of(part)
            numbers = [part.niches, part.failing, part.pieces, feet]
            yield [column, label, *numbers, part.blocking, part.packers, part.screws]


def _fail_rows(order: Order) -> Iterable[Sequence[Any]]:
    yield ["where", "niche", "findings that fail"]
    for one in order.tally.listed:
        yield [one.where, one.title, ", ".join(one.codes)]


def _notes(order: Order) -> Iterable[Sequence[Any]]:
    for line in order.lumber:
        yield [f"{line.size} {line.species}: {proof_words(order, line.plan)}"]
        yield [
            f"{line.size} {line.species}: {line.board_feet:.1f} board feet, {line.weight:.0f} lb "
            f"dry; with waste {line.board_feet_with_waste:.1f} board feet, "
            f"{line.weight_with_waste:.0f} lb."
        ]
    yield [saw_words(order)]
    for name in order.unpriced:
        yield [f"No price in the list for {name}; not in the sums."]
    more = order.tally.failing_rows - len(order.tally.listed)
    if more:
        yield [f"{more} more rows fail than are listed."]
    for caution in cautions(order):
        yield [caution]
