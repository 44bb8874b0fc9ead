"""Price lists: each unit multiplied out by hand, and no row lost without a word."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from ordering import FOOT, PRICES, SPF, price_list, small_order, small_tally, written

from bracecalc.errors import JobError
from bracecalc.order.offcuts import read_on_hand
from bracecalc.order.order import make_order
from bracecalc.order.price_rows import read_prices
from bracecalc.order.prices import StickKey
from bracecalc.order.rules import OrderRules
from bracecalc.render.takeoff import takeoff_text
from bracecalc.tables.load import load_tables

METRE_4_8 = 6047  # 4.8 m in 1/32 in, rounded down: 4799.8 mm


def test_prices_by_stick_foot_board_foot_and_box(tmp_path: Path) -> None:
    text = (
        "\ufeffItem;Unit;Price;Currency\n2x4 SPF 8 ft;each;4,15;EUR\n2x6 SPF;foot;1.001;EUR\n"
        '1x4 SPF;board foot;1,50;EUR\nNo. 10 x 3" wood screws;box of 100;12,50;EUR\n'
        "3/4 plywood packer;each;3;EUR\nDoor knob;each;9;EUR\n"
    )
    prices = read_prices(written(tmp_path, text), load_tables())
    assert prices.currency == "EUR"

    def each(size: str, feet: int, board_feet: float) -> int | None:
        found = prices.stick(StickKey(size, SPF, feet * FOOT), board_feet)
        return None if found is None else found.each

    assert each("2x4", 8, 5.33) == 415
    assert each("2x4", 10, 6.67) is None
    assert each("2x6", 8, 8.0) == 801  # 8 x 1.001 = 8.008, up to the cent
    assert each("1x4", 12, 4.0) == 600
    box = prices.screws["wood screw", "10", 762]
    assert (box.amount, box.many, box.whole) == (Decimal("12.50"), 100, True)
    assert prices.packers["3/4 plywood"].amount == 3
    assert list(prices.others) == ["doorknob"]


@pytest.mark.parametrize(
    ("row", "key", "board_feet", "coins"),
    [
        # a 2x8 of 16 ft: 2 x 8 x 16 / 12 = 21 1/3 board feet, at 0.90: 19.20
        ("2x8 SPF 16 ft,board foot,0.90,USD", StickKey("2x8", SPF, 16 * FOOT), 64 / 3, 1920),
        ("2x8 SPF 16 ft,MBF,900,USD", StickKey("2x8", SPF, 16 * FOOT), 64 / 3, 1920),
        ("2x8 SPF 16 ft,lf,1.26,USD", StickKey("2x8", SPF, 16 * FOOT), 64 / 3, 2016),
        # 16 ft are 4.8768 m; at 4.10 a metre 19.99488, up to 20.00
        ("2x8 SPF,metre,4.10,USD", StickKey("2x8", SPF, 16 * FOOT), 64 / 3, 2000),
        # 47 x 145 mm x 4.7998 m (1/32 in down) = 0.0327106 m3; at 420.00: 13.738..., up
        ("47x145 C24,m3,420,EUR", StickKey("47x145", "C24", METRE_4_8), 0.0, 1374),
        ("47x145 C24,m,2.85,EUR", StickKey("47x145", "C24", METRE_4_8), 0.0, 1368),
        ("2x8 SPF 16 ft,per 100,2015,USD", StickKey("2x8", SPF, 16 * FOOT), 64 / 3, 2015),
    ],
)
def test_a_price_by_the_measure_is_multiplied_out(
    tmp_path: Path, row: str, key: StickKey, board_feet: float, coins: int
) -> None:
    found = price_list(tmp_path, row).stick(key, board_feet)
    assert found is not None
    assert found.each == coins


@pytest.mark.parametrize(
    ("row", "right"),
    [
        ("2x8 SPF,each,19.20,USD", "a length in the item"),
        ("47x145 C24 4.8 m,board foot,1,EUR", "nominal inches"),
        ("2x8 SPF 16 ft,m3,400,USD", "nominal inches can be two things"),
        ("2x8 SPF 16 ft,niche,4,USD", "each, foot"),
        ("No. 10 x 3 in wood screw,foot,1,USD", "each or box of 100 for this item"),
        ("1/4 in washer,metre,1,USD", "each or box of 100 for this item"),
        ("3/4 plywood sheet,board foot,1,USD", "each, foot or metre"),
        ("Delivery,foot,80,USD", "niche or order"),
        ("2x8 SPF 16 ft,M,900,USD", "each, box of 100"),
    ],
)
def test_a_unit_that_does_not_fit_is_refused(tmp_path: Path, row: str, right: str) -> None:
    with pytest.raises(JobError, match=f"row 2: unit: .*{right}"):
        price_list(tmp_path, row)


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ("2x4 SPF 8 ft,each,four,USD", "row 2: price: read 'four'"),
        ("2x4 SPF 8 ft,each,-1,USD", "row 2: price"),
        ("2x4 SPF 8 ft,each,nan,USD", "row 2: price"),
        ("2x4 SPF 8 ft,each,1e3,USD", "row 2: price"),
        ("2x4 SPF 8 ft,furlong,1,USD", "row 2: unit: read 'furlong'"),
        ("2x4 SPF 8 ft,each,1,dollars", "row 2: currency"),
        ("2x4 SPF 8 ft,each,1,USD\n2x4x8 SPF,each,2,USD", "row 3: item.*row 2 is the same"),
        ("2x4 SPF 8 ft,each,1,USD\n2x4 #2 SPF 8 ft,each,2,USD", "row 3: item.*row 2"),
        ("2x4 SPF 8 ft,each,1,USD\n2x4 SPF 10 ft,each,2,EUR", "row 3: currency.*one currency"),
        ("", "a row for each item"),
    ],
)
def test_mistakes_of_a_price_list(tmp_path: Path, rows: str, said: str) -> None:
    with pytest.raises(JobError, match=said):
        price_list(tmp_path, rows)


def test_a_price_list_needs_its_columns(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="item, unit, price, currency"):
        read_prices(written(tmp_path, "item,price\na,1\n"), load_tables())


def test_every_row_that_is_not_used_is_listed(tmp_path: Path) -> None:
    order = small_order(
        tmp_path,
        PRICES
        + "2x6x16 SPF fj,each,9,USD\n2x6 PT SPF 10 ft,each,9,USD\n2x6 #3 SPF 14 ft,each,9,USD\n"
        "Door knob,each,9,USD\n2x6 SPF 16 ft,each,99,USD\n",
    )
    prices = order.rules.prices
    assert prices is not None
    assert {row.row: row.why for row in prices.unread} == {
        5: "expected it without 'fj', which is not known here",
        6: "expected untreated lumber: the strength of treated wood is not worked out",
        7: "expected grade No. 1/No. 2, which the strength values of Spruce-Pine-Fir are for",
    }
    assert (order.unknown_rows, order.idle_rows) == ((8,), (9,))
    used = order.used_rows | set(order.idle_rows) | set(order.unknown_rows)
    assert used | {row.row for row in prices.unread} == set(prices.items)
    text = " ".join(takeoff_text(order).split())
    assert "3 rows of the price list could not be read" in text
    assert "row 5: 2x6x16 SPF fj: expected it without 'fj'" in text
    assert "row 8: Door knob" in text
    assert "not asked for by this order: rows 9." in text


def test_a_treated_stick_never_stands_in(tmp_path: Path) -> None:
    order = small_order(tmp_path, "2x6 PT SPF 12 ft,each,1,USD")
    assert order.lumber[0].cost is None
    assert "2x6 SPF, any length" in order.unpriced


def test_bundles_are_bought_whole(tmp_path: Path) -> None:
    order = small_order(tmp_path, "2x6 SPF 12 ft,bundle of 8,80.00,USD")
    (line,) = order.lumber
    (stick,) = line.sticks
    wanted = stick.count + stick.extra
    assert stick.bought == -(-wanted // 8) * 8
    assert stick.cost == stick.bought // 8 * 8000
    assert line.cost == -(-stick.count // 8) * 8000


def test_labor_and_delivery_are_lines_of_their_own(tmp_path: Path) -> None:
    order = small_order(
        tmp_path, PRICES + "Labor per niche,niche,85.00,USD\nDelivery,order,120,USD\n"
    )
    lines = {line.name: (line.needed, line.cost) for line in order.services}
    assert lines == {"Labor per niche": (14, 14 * 8500), "Delivery": (1, 12000)}
    (lumber,), (screws,) = order.lumber, order.screws
    assert lumber.cost is not None
    assert screws.cost is not None
    assert order.cost(with_waste=False) == lumber.cost + screws.cost + 14 * 8500 + 12000


def test_a_size_without_a_price_is_named_and_cut_all_the_same(tmp_path: Path) -> None:
    prices = price_list(tmp_path, "2x4 SPF 8 ft,each,4.15,USD")
    order = make_order(small_tally(), OrderRules(prices=prices))
    assert order.unpriced[0] == "2x6 SPF, any length"
    assert order.lumber[0].cost is None
    assert order.lumber[0].sticks
    assert "2x6 SPF, any length" in takeoff_text(order)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("item\n2x6 SPF 37 in\n", "the columns item, count"),
        ("item,count\noak plank,3\n", "row 2: item"),
        ("item,count\n2x6 SPF,3\n", "row 2: item"),
        ("item,count\n2x6 PT SPF 37 in,3\n", "row 2: item.*untreated"),
        ("item,count\n2x6 SPF 37 in,few\n", "row 2: count"),
    ],
)
def test_mistakes_of_the_offcuts(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(JobError, match=said):
        read_on_hand(written(tmp_path, text), load_tables())


ITEM = st.text(alphabet="2x4x8SPFC 'ft#No.\"-,5/", max_size=24)


@given(item=ITEM, unit=st.sampled_from(["each", "foot", "m3", "box of 9", "M", ""]))
def test_whatever_is_written_there_is_a_price_or_a_mistake(
    tmp_path_factory: pytest.TempPathFactory, item: str, unit: str
) -> None:
    folder = tmp_path_factory.mktemp("prices")
    quoted = item.replace('"', '""')
    text = f'item,unit,price,currency\n"{quoted}",{unit},4.15,USD\n'
    with suppress(JobError):
        prices = read_prices(written(folder, text), load_tables())
        kept: tuple[Mapping[Any, Any], ...] = (
            prices.sticks,
            prices.screws,
            prices.packers,
            prices.washers,
            prices.others,
        )
        assert sum(len(each) for each in kept) + len(prices.services) + len(prices.unread) == 1
