"""What an order says: text, markdown, CSV, JSON, cut list and labels tell the same."""

from __future__ import annotations

import csv
import io
import json
from collections import Counter
from decimal import Decimal
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest
from ordering import PRICES, niche, outcome, small_order, small_tally

from bracecalc.order.alternates import Alternate
from bracecalc.order.order import Order, make_order
from bracecalc.order.rules import OrderRules
from bracecalc.order.tally import Tally
from bracecalc.render.cut_list import cut_list_svg, cut_list_text, part_list_text
from bracecalc.render.labels import labels_csv, labels_html
from bracecalc.render.rows import FORMULA_STARTS
from bracecalc.render.takeoff import takeoff_markdown, takeoff_text
from bracecalc.render.takeoff_data import takeoff_csv, takeoff_to_dict
from bracecalc.render.takeoff_words import warnings

HOSTILE = "\u202e=3B\x1b[2J\n\uff1dA1\u200b"


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def test_every_text_keeps_to_80_columns(tmp_path: Path) -> None:
    for order in (small_order(tmp_path), small_order()):
        assert max(map(len, takeoff_text(order).splitlines())) <= 80
        assert "Skipped: 1 row" in takeoff_text(order)
        assert "# Takeoff" in takeoff_markdown(order)


def test_without_prices_no_costs_and_it_says_so() -> None:
    order = small_order()
    assert order.cost(with_waste=True) is None
    assert "no costs" in takeoff_text(order)
    assert takeoff_to_dict(order)["cost"] is None


def wrong_order(folder: Path) -> Order:
    tally = small_tally()
    tally.add(niche(7, building="B"), outcome(checked=False))
    priced = small_order(folder, PRICES + "2x6 x 9 SPF fj,each,4,USD\n")
    return make_order(tally, priced.rules)


def test_what_is_wrong_stands_at_the_top_of_every_form(tmp_path: Path) -> None:
    order = wrong_order(tmp_path)
    counts = {one.name: one.number for one in warnings(order)}
    assert counts == {
        "failing": 4,
        "skipped_rows": 1,
        "unchecked": 1,
        "unpriced": 1,
        "unread_prices": 1,
    }
    assert takeoff_to_dict(order)["warnings"] == counts
    rows = rows_of(takeoff_csv(order))
    assert {row["item"]: int(row["count"]) for row in rows[:5]} == counts
    assert {row["what"] for row in rows[:5]} == {"warning"}
    first, _, _ = takeoff_text(order).partition("Lumber to buy")
    for said in ("4 niches fail", "1 row or job file skipped", "tip-over NOT fully checked"):
        assert said in " ".join(first.split())
    assert any("no price" in row["note"] for row in rows if row["what"] == "buy")


def test_csv_and_json_agree(tmp_path: Path) -> None:
    order = small_order(tmp_path)
    as_json = json.loads(json.dumps(takeoff_to_dict(order)))
    rows = rows_of(takeoff_csv(order))
    sticks = [row for row in rows if row["item"] == "stick"]
    (lumber,) = as_json["lumber"]
    assert [int(row["count"]) for row in sticks] == [s["count"] for s in lumber["sticks"]]
    total = sum(Decimal(row["cost"]) for row in rows if row["cost"])
    assert float(total) == pytest.approx(as_json["cost_with_waste"])
    cut = sum(c["count"] * s["count"] for s in lumber["cut_plan"]["sticks"] for c in s["cuts"])
    assert cut == sum(piece["count"] for piece in lumber["pieces"])
    parts = sum(piece["count"] for part in as_json["parts"] for piece in part["pieces"])
    assert parts == cut


def test_alternates_stand_side_by_side(tmp_path: Path) -> None:
    order = small_order(tmp_path)
    other = Alternate("2x8", small_order(tmp_path, only_holding=True))
    text = takeoff_text(order, [other])
    assert "Side by side" in text
    assert "as given" in text
    told = takeoff_to_dict(order, [other])["alternates"]
    assert [(one["name"], one["niches"]) for one in told] == [("2x8", 10)]


def hostile_order() -> Order:
    tally = Tally()
    row = niche(2, building=HOSTILE)
    row.values["title"] = HOSTILE  # type: ignore[index]
    tally.add(row, outcome(fails=True, checked=False))
    return make_order(tally, OrderRules())


def test_control_and_direction_characters_are_never_written_raw() -> None:
    order = hostile_order()
    for text in (
        takeoff_text(order),
        takeoff_csv(order),
        takeoff_markdown(order),
        cut_list_text(order),
        part_list_text(order),
        cut_list_svg(order),
        labels_csv(order),
        labels_html(order),
    ):
        plain = text.replace("\x1b[1m", "").replace("\x1b[0m", "")  # our own bold headings
        assert not [sign for sign in plain if sign != "\n" and not sign.isprintable()]


def test_no_cell_of_a_csv_is_a_formula() -> None:
    order = hostile_order()
    for text in (takeoff_csv(order), labels_csv(order)):
        for row in csv.reader(io.StringIO(text)):
            assert not [cell for cell in row if cell != "-" and cell.startswith(FORMULA_STARTS)]


def many_lengths() -> Order:
    tally = Tally()
    for number in range(240):
        tally.add(niche(number), outcome(length=28 + number / 16))
    return make_order(tally, OrderRules(time_limit=1.0))


def test_a_long_cut_list_goes_to_a_file_and_keeps_to_80_columns() -> None:
    order = many_lengths()
    assert len(order.lumber[0].plan.sticks) > 60
    assert "--cut-list FILE" in takeoff_text(order)
    assert max(map(len, cut_list_text(order).splitlines())) <= 80


def test_the_cut_list_shows_every_piece(tmp_path: Path) -> None:
    order = small_order(tmp_path)
    root = ElementTree.fromstring(cut_list_svg(order))
    wood = [e for e in root.iter() if e.get("fill") == "#f3ead6"]
    patterns = order.lumber[0].plan.sticks
    assert len(wood) == sum(count for row in patterns for _, count in row.cuts)
    for element in root.iter():
        if element.get("width") and element.tag.endswith("rect") and element.get("x"):
            right = float(element.get("x", "0")) + float(element.get("width", "0"))
            assert right <= 960.01
    text = cut_list_text(order)
    assert "left over" in text
    assert "blocking" in text


def test_the_pile_is_sorted_by_building_part(tmp_path: Path) -> None:
    text = part_list_text(small_order(tmp_path))
    first, second = text.index("building A"), text.index("building B")
    assert first < second
    assert "20 x 33 in, 2x6 SPF, board" in text[first:second]
    assert "8 x 36 in, 2x6 SPF, board" in text[second:]


class Labels(HTMLParser):
    """Counts the labels of a page and keeps their text."""

    def __init__(self) -> None:
        super().__init__()
        self.labels: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:
        if tag == "div":
            self.labels.append("")

    def handle_data(self, data: str) -> None:
        if self.labels:
            self.labels[-1] += f"{data} "


def test_a_label_for_each_piece_says_where_it_goes(tmp_path: Path) -> None:
    order = small_order(tmp_path)
    page = Labels()
    page.feed(labels_html(order))
    rows = rows_of(labels_csv(order))
    assert len(page.labels) == len(rows) == 70
    assert Counter(row["building"] for row in rows) == {"A": 50, "B": 20}
    failing = [text for text in page.labels if "FAILS" in text]
    assert len(failing) == sum(row["note"] != "" for row in rows) == 20
    assert all("building B" in text for text in failing)
