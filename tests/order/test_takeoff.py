"""Tables of niches, price lists, the order and its renderings; the planner stands aside."""

from __future__ import annotations

import csv
import io
import json
import os
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from xml.etree import ElementTree

import pytest

from bracecalc.cutting import PER_INCH, Saw
from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.rows import Columns, NicheRow, table_rows
from bracecalc.order import takeoff
from bracecalc.order.order import Order, OrderRules, board_feet, make_order, weight
from bracecalc.order.prices import read_on_hand, read_prices
from bracecalc.order.takeoff import Outcome, Section, Tally, take
from bracecalc.records.plan import Verdict
from bracecalc.render.cut_list import cut_list_svg, cut_list_text
from bracecalc.render.takeoff import takeoff_markdown, takeoff_text
from bracecalc.render.takeoff_data import takeoff_csv, takeoff_to_dict
from bracecalc.tables.load import load_tables

FOOT = 12 * PER_INCH
SPF_2X6 = Section(thickness=1.5, width=5.5, nominal_thickness=2, nominal_width=6, density=27.0)


def written(folder: Path, text: str | bytes, name: str = "niches.csv") -> str:
    path = folder / name
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return str(path)


def rows_of(where: str, columns: Columns | None = None) -> list[NicheRow]:
    return list(table_rows(where, Columns() if columns is None else columns))


# --- prices


def test_prices_by_stick_foot_board_foot_and_box(tmp_path: Path) -> None:
    text = (
        "\ufeffItem;Unit;Price;Currency\n2x4 SPF 8 ft;each;4,15;EUR\n2x6 SPF;foot;1,001;EUR\n"
        '1x4 SPF;board foot;1,50;EUR\nNo. 10 x 3" wood screws;box of 100;12,50;EUR\n'
        "3/4 plywood packer;each;3;EUR\nDoor knob;each;9;EUR\n"
    ).replace("1,001", "1.001")
    prices = read_prices(written(tmp_path, text), load_tables())
    spf = "Spruce-Pine-Fir"
    assert prices.currency == "EUR"
    assert prices.stick("2x4", spf, 8 * FOOT, 5.33) == 415
    assert prices.stick("2x4", spf, 10 * FOOT, 6.67) is None
    assert prices.stick("2x6", spf, 8 * FOOT, 8.0) == 801  # 8 x 1.001 = 8.008, up to the cent
    assert prices.stick("1x4", spf, 12 * FOOT, 4.0) == 600
    box = prices.screws["wood screw", "10", 762]
    assert (box.amount, box.many) == (Decimal("12.50"), 100)
    assert prices.packers["3/4 plywood"].amount == 3


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ("2x4 SPF 8 ft,each,four,USD", "row 2: price: read 'four'"),
        ("2x4 SPF 8 ft,each,-1,USD", "row 2: price"),
        ("2x4 SPF 8 ft,each,nan,USD", "row 2: price"),
        ("2x4 SPF 8 ft,furlong,1,USD", "row 2: unit: read 'furlong'"),
        ("2x4 SPF 8 ft,each,1,dollars", "row 2: currency"),
        ("2x4 SPF 8 ft,each,1,USD\n2x4 SPF 8 ft,each,2,USD", "row 3: item.*each item once"),
        ("2x4 SPF 8 ft,each,1,USD\n2x4 SPF 10 ft,each,2,EUR", "row 3: currency.*one currency"),
        ("", "a row for each item"),
    ],
)
def test_mistakes_of_a_price_list(tmp_path: Path, rows: str, said: str) -> None:
    where = written(tmp_path, f"item,unit,price,currency\n{rows}\n")
    with pytest.raises(JobError, match=said):
        read_prices(where, load_tables())


def test_a_price_list_needs_its_columns(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="item, unit, price, currency"):
        read_prices(written(tmp_path, "item,price\na,1\n"), load_tables())


# --- board measure and weight


# A table of board feet of 1 in boards by width and length, as trade sheets print it (seen);
# thicker lumber: times the nominal thickness.
PRINTED = {
    (2, 8): 1.33, (2, 16): 2.67, (3, 10): 2.5, (4, 8): 2.67, (4, 10): 3.33, (4, 14): 4.67,
    (6, 8): 4.0, (6, 12): 6.0, (8, 10): 6.67, (10, 14): 11.67, (12, 16): 16.0,
}  # fmt: skip


@pytest.mark.parametrize(("width", "feet"), PRINTED, ids=lambda value: str(value))
def test_board_feet_as_printed(width: int, feet: int) -> None:
    row = load_tables().lumber.get(f"1x{width}")
    nominal = width if row is None else row.nominal_width
    section = Section(
        thickness=0.75, width=1, nominal_thickness=1, nominal_width=nominal, density=1
    )
    assert board_feet(section, feet * FOOT) == pytest.approx(PRINTED[width, feet], abs=0.005)


def test_a_two_by_four_of_eight_feet() -> None:
    # 2 x 4 x 8 / 12 = 5.33 board feet (DOC PS 20 nominal sizes)
    row = load_tables().lumber["2x4"]
    section = Section(
        thickness=row.thickness, width=row.width, nominal_thickness=row.nominal_thickness,
        nominal_width=row.nominal_width, density=27.0,
    )  # fmt: skip
    assert board_feet(section, 8 * FOOT) == pytest.approx(5.33, abs=0.005)
    assert weight(section, 8 * FOOT) == pytest.approx(1.5 * 3.5 * 96 / 1728 * 27.0)


# --- adding up


def outcome(*, fails: bool = False, length: float = 33.0, boards: int = 2) -> Outcome:
    return Outcome(
        verdict=Verdict.FAILS if fails else Verdict.HOLDS,
        codes=("overstressed",) if fails else (),
        cuts=(
            ("board", "SPF", "2x6", round(length * PER_INCH), boards),
            ("solid blocking", "SPF", "2x6", 14 * PER_INCH + 16, 3),
            ("packer", "", "3/4 plywood", 33 * PER_INCH, 1),
        ),
        screws=(("wood screw", "10", 3.0, 4),),
        sections=(("SPF", "2x6", SPF_2X6),),
    )


def niche(number: int, *, count: int = 1, **labels: str) -> NicheRow:
    return NicheRow(
        where=f"n.csv row {number}",
        number=number,
        values={"title": f"=T{number}", "niche.width": f"{number} in"},
        count=count,
        labels=labels,
    )


def small_tally() -> Tally:
    tally = Tally(rows=3, planned=3)
    tally.add(niche(2, count=10, building="A"), outcome())
    tally.add(niche(3, count=4, building="B"), outcome(fails=True, length=36.0))
    tally.skip(niche(5), [Mistake("n.csv row 5", "niche.width", "'x'", "a length")])
    return tally


def small_order(tmp_path: Path | None = None, **changes: object) -> Order:
    prices = None
    if tmp_path is not None:
        text = (
            "item,unit,price,currency\n2x6 SPF 8 ft,each,6.85,USD\n2x6 SPF 12 ft,each,10.45,USD\n"
            "No. 10 x 3 in wood screw,box of 25,4.00,USD\n"
        )
        prices = read_prices(written(tmp_path, text, "prices.csv"), load_tables())
    rules = OrderRules(prices=prices, **changes)  # type: ignore[arg-type]
    return make_order(small_tally(), rules, load_tables())


def test_sums_by_label_make_up_the_whole() -> None:
    tally = small_tally()
    assert tally.total.niches == 14
    assert tally.total.failing == 4
    assert {label: part.niches for label, part in tally.sums["building"].items()} == {
        "A": 10,
        "B": 4,
    }
    tally.add(niche(9), outcome())  # a job file has no building
    assert sum(part.niches for part in tally.sums["building"].values()) == tally.total.niches
    late = Tally()
    late.add(niche(1), outcome())
    late.add(niche(2, building="A"), outcome())
    assert {label: part.niches for label, part in late.sums["building"].items()} == {"": 1, "A": 1}


def test_the_order_by_hand(tmp_path: Path) -> None:
    order = small_order(tmp_path)
    (line,) = order.lumber
    assert line.pieces == {
        ("board", 33 * 32): 20,
        ("board", 36 * 32): 8,
        ("solid blocking", 14 * 32 + 16): 42,
    }
    made = sum(row.count * sum(n for _, n in row.cuts) for row in line.plan.sticks)
    assert made == 70
    assert line.cost == sum(s.count * s.price for s in line.sticks if s.price is not None)
    assert line.cost == line.plan.cost >= line.plan.bound
    sticks = sum(stick.count for stick in line.sticks)
    assert sum(stick.extra for stick in line.sticks) == -(-sticks // 10)
    feet = sum(stick.count * stick.length for stick in line.sticks) / FOOT
    assert line.board_feet == pytest.approx(feet)  # a 2x6 is 1 board foot a foot
    (screws,) = order.screws
    # 14 niches x 4 = 56; 10 % more is 61.6, so 62: three boxes of 25 at 4.00
    assert (screws.needed, screws.bought, screws.boxes, screws.cost) == (56, 62, 3, 1200)
    assert order.unpriced == ("3/4 plywood packer",)
    assert order.cost(with_waste=False) == line.cost + 1200
    assert order.board_feet_of(order.tally.total) == pytest.approx(
        (20 * 33 + 8 * 36 + 42 * 14.5) / 12
    )


def test_without_prices_no_costs_and_it_says_so() -> None:
    order = small_order()
    assert order.cost(with_waste=True) is None
    assert "no costs" in takeoff_text(order)
    assert takeoff_to_dict(order)["cost"] is None


def test_a_size_without_a_price_is_named_and_cut_all_the_same(tmp_path: Path) -> None:
    text = "item,unit,price,currency\n2x4 SPF 8 ft,each,4.15,USD\n"
    prices = read_prices(written(tmp_path, text), load_tables())
    order = make_order(small_tally(), OrderRules(prices=prices), load_tables())
    assert order.unpriced[0] == "2x6 SPF, any length"
    assert order.lumber[0].cost is None
    assert order.lumber[0].sticks
    assert "2x6 SPF, any length" in takeoff_text(order)


def test_stock_lengths_kerf_and_offcuts(tmp_path: Path) -> None:
    hand = read_on_hand(written(tmp_path, "item,count\n2x6 SPF 37 in,3\n"), load_tables())
    order = small_order(stock=(10 * FOOT,), on_hand=hand, saw=Saw(kerf=4, trim=16))
    (line,) = order.lumber
    assert {stick.length for stick in line.sticks} == {10 * FOOT}
    from_hand = [row for row in line.plan.sticks if row.stick.on_hand is not None]
    assert sum(row.count for row in from_hand) <= 3
    with pytest.raises(JobError, match="2x6 SPF sticks of 36 in or longer"):
        small_order(stock=(3 * FOOT,), saw=Saw(kerf=4, trim=16))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("item\n2x6 SPF 37 in\n", "the columns item, count"),
        ("item,count\noak plank,3\n", "row 2: item"),
        ("item,count\n2x6 SPF 37 in,few\n", "row 2: count"),
    ],
)
def test_mistakes_of_the_offcuts(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(JobError, match=said):
        read_on_hand(written(tmp_path, text), load_tables())


def test_every_text_keeps_to_80_columns(tmp_path: Path) -> None:
    for order in (small_order(tmp_path), small_order()):
        assert max(map(len, takeoff_text(order).splitlines())) <= 80
        assert "Skipped: 1 row" in takeoff_text(order)
        assert "# Takeoff" in takeoff_markdown(order)


def many_lengths() -> Order:
    tally = Tally()
    for number in range(240):
        tally.add(niche(number), outcome(length=28 + number / 16))
    return make_order(tally, OrderRules(time_limit=1.0), load_tables())


def test_a_long_cut_list_goes_to_a_file_and_keeps_to_80_columns() -> None:
    order = many_lengths()
    assert len(order.lumber[0].plan.sticks) > 60
    assert "--cut-list FILE" in takeoff_text(order)
    assert max(map(len, cut_list_text(order).splitlines())) <= 80


def test_formulas_are_made_harmless(tmp_path: Path) -> None:
    order = small_order(tmp_path)
    cells = [cell for row in csv.reader(io.StringIO(takeoff_csv(order))) for cell in row]
    assert "'=T3" in cells
    assert not [cell for cell in cells if cell.startswith(("=", "+", "@"))]
    openpyxl = pytest.importorskip("openpyxl")
    from bracecalc.render.takeoff_workbook import takeoff_workbook

    book = openpyxl.load_workbook(io.BytesIO(takeoff_workbook(order)))
    values = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    assert not [cell for cell in values if cell.data_type == "f"]
    assert book.sheetnames == ["Order", "Cut list", "Pieces", "Sums", "Fails", "Skipped", "Notes"]
    counts = [row[4].value for row in book["Order"].iter_rows(min_row=2, max_row=2)]
    assert all(isinstance(count, int) for count in counts)


def test_csv_json_and_workbook_agree(tmp_path: Path) -> None:
    order = small_order(tmp_path)
    as_json = json.loads(json.dumps(takeoff_to_dict(order)))
    rows = list(csv.DictReader(io.StringIO(takeoff_csv(order))))
    sticks = [row for row in rows if row["item"] == "stick"]
    (lumber,) = as_json["lumber"]
    assert [int(row["count"]) for row in sticks] == [s["count"] for s in lumber["sticks"]]
    total = sum(Decimal(row["cost"]) for row in rows if row["cost"])
    assert float(total) == pytest.approx(as_json["cost_with_waste"])
    cut = sum(c["count"] * s["count"] for s in lumber["cut_plan"]["sticks"] for c in s["cuts"])
    assert cut == sum(piece["count"] for piece in lumber["pieces"])


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


# --- the stream


def fake_work(tasks: list[takeoff.Task]) -> list[takeoff.Result]:
    """A planner that knows only the width."""
    found: list[takeoff.Result] = []
    for where, values in tasks:
        width = float(str(values["niche.width"]).split()[0])
        if width < 0:
            found.append((Mistake(where, "niche.width", str(width), "more than 0"),))
        else:
            found.append(outcome(length=width))
    return found


def stream(number: int, different: int) -> Iterator[NicheRow]:
    for row in range(2, number + 2):
        yield NicheRow(
            where=f"n.csv row {row}",
            number=row,
            values={"title": f"T{row}", "niche.width": f"{20 + row % different} in"},
            count=1,
            labels={},
        )


def test_equal_niches_are_worked_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[takeoff.Task] = []

    def work(tasks: list[takeoff.Task]) -> list[takeoff.Result]:
        seen.extend(tasks)
        return fake_work(tasks)

    monkeypatch.setattr(takeoff, "work_batch", work)
    tally = take(stream(5_000, different=7))
    assert (tally.rows, tally.planned, len(seen)) == (5_000, 7, 7)
    assert tally.total.niches == 5_000
    assert sum(n for (use, *_), n in tally.cuts.items() if use == "board") == 10_000


def test_both_cores_give_what_one_gives(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(takeoff, "work_batch", fake_work)
    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    alone = take(stream(3_000, different=1_000))
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    both = take(stream(3_000, different=1_000))
    assert both == alone


def test_rows_with_the_same_mistake_share_a_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(takeoff, "work_batch", fake_work)
    rows = [niche(number) for number in (2, 3, 4, 9)]
    bad = [
        NicheRow(
            where=row.where,
            number=row.number,
            values={"title": "t", "niche.width": "-1 in"},
            count=1,
            labels={},
        )
        for row in rows
    ]
    tally = take([niche(7), *bad])
    (line,) = tally.mistake_lines()
    assert str(line) == "n.csv rows 2-4, 9: niche.width: read -1.0; expected more than 0"
    assert (tally.skipped, tally.total.niches) == (4, 1)


def test_percentages_are_exact() -> None:
    order = small_order(overage=Fraction(0), waste=Fraction(0))
    assert order.screws[0].bought == 56
    assert sum(stick.extra for stick in order.lumber[0].sticks) == 0
