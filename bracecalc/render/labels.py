"""Labels for the pieces that come off the saw, in the order in which they are cut."""

from __future__ import annotations

import csv
import io
from html import escape

from bracecalc.order.naming import length_text
from bracecalc.order.order import Order
from bracecalc.order.pile import Label, labels
from bracecalc.records.job import Units
from bracecalc.render.rows import harmless
from bracecalc.render.text import printable

# paper, its margin, width, height and gap of a label: a sheet of 30, 1 by 2 5/8 in, or of 21 on
# A4, 70 by 42.3 mm; both are common in the trade
SHEETS = {
    Units.INCH: ("letter", "0.5in 0.19in", "2.625in", "1in", "0.125in"),
    Units.MM: ("A4", "0", "70mm", "42.3mm", "0"),
}
FAILS = "THIS NICHE FAILS"


def labels_csv(order: Order) -> str:
    """Return the labels as CSV, for a label printer's own program.

    Raises:
        ValueError: if there are too many pieces.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    columns = order.tally.columns
    headings = (*columns, "niche", "of_alike", "use", "length", "lumber", "stick", "note")
    writer.writerow([harmless(heading) for heading in headings])
    for one in labels(order):
        what = (one.title, _alike(one), one.use.value, _length(order, one), one.line.name)
        row = (*one.labels.values(), *what, str(one.stick), FAILS if one.fails else "")
        writer.writerow([harmless(cell) for cell in row])
    return out.getvalue()


def labels_html(order: Order) -> str:
    """Return the labels as a page to print, on sheets of labels or on plain paper.

    Raises:
        ValueError: if there are too many pieces.
    """
    paper, margin, wide, high, gap = SHEETS[order.rules.units]
    style = (
        f"@page{{size:{paper};margin:{margin}}}body{{margin:0;font:9pt sans-serif}}"
        f"main{{display:grid;grid-template-columns:repeat(3,{wide});column-gap:{gap};"
        f"grid-auto-rows:{high}}}"
        "div{box-sizing:border-box;padding:4pt 6pt;overflow:hidden;break-inside:avoid;"
        "border:.25pt dotted #999}b{font-size:12pt}strong{color:#b00000}"
    )
    cells = "\n".join(_cell(order, one) for one in labels(order))
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        f"<title>Labels</title><style>{style}</style></head><body><main>\n{cells}\n"
        "</main></body></html>\n"
    )


def _cell(order: Order, one: Label) -> str:
    place = ", ".join(f"{column} {label}" for column, label in one.labels.items() if label)
    alike = _alike(one)
    lines = [
        f"<b>{_clean(_length(order, one))}</b> {_clean(one.line.name)}",
        _clean(f"{one.title}, {alike}" if alike else one.title),
        _clean(f"{place}; {one.use.value}, stick {one.stick}"),
    ]
    if one.fails:
        lines.append(f"<strong>{FAILS}</strong>")
    return f"<div>{'<br>'.join(lines)}</div>"


def _clean(text: str) -> str:
    return escape(printable(text))


def _length(order: Order, one: Label) -> str:
    return length_text(one.length, order.rules.units)


def _alike(one: Label) -> str:
    return f"{one.niche} of {one.of}" if one.of > 1 else ""
