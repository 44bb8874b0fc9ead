"""Orders checked anew by other means: pieces cut once, kerfs, trims, sums and prices by hand."""

from __future__ import annotations

import random
from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest
from ordering import FOOT, SPF, SPF_2X6, WOOD, niche, outcome, price_list, small_order, written

from bracecalc.cutting import PER_INCH, Saw
from bracecalc.errors import JobError
from bracecalc.order.lines import LumberLine, board_feet, volume, weight
from bracecalc.order.offcuts import offcuts_csv, offcuts_left, read_on_hand
from bracecalc.order.order import Order, make_order
from bracecalc.order.outcome import Cut, Lumber, Section, Use
from bracecalc.order.pile import labels
from bracecalc.order.prices import StickKey
from bracecalc.order.rules import OrderRules
from bracecalc.order.sheets import SHEET, sheets_needed
from bracecalc.order.tally import Tally
from bracecalc.tables.load import load_tables

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
    section = Section(0.75, 1, 1, nominal, density=1)
    assert board_feet(section, feet * FOOT) == pytest.approx(PRINTED[width, feet], abs=0.005)


def test_a_two_by_four_of_eight_feet() -> None:
    # 2 x 4 x 8 / 12 = 5.33 board feet (DOC PS 20 nominal sizes)
    row = load_tables().lumber["2x4"]
    nominal = row.nominal_thickness, row.nominal_width
    section = Section(row.thickness, row.width, *nominal, density=27.0)
    assert board_feet(section, 8 * FOOT) == pytest.approx(5.33, abs=0.005)
    assert weight(section, 8 * FOOT) == pytest.approx(1.5 * 3.5 * 96 / 1728 * 27.0)
    # 38.1 x 88.9 mm x 2.4384 m
    assert volume(section, 8 * FOOT) == pytest.approx(0.0381 * 0.0889 * 2.4384)


# --- the order by hand


def test_the_order_by_hand(tmp_path: Path) -> None:
    order = small_order(tmp_path)
    (line,) = order.lumber
    assert line.pieces == {
        (Use.BOARD, 33 * 32): 20,
        (Use.BOARD, 36 * 32): 8,
        (Use.BLOCKING, 14 * 32 + 16): 42,
    }
    sticks = sum(stick.count for stick in line.sticks)
    assert sum(stick.extra for stick in line.sticks) == -(-sticks // 10)
    feet = sum(stick.count * stick.length for stick in line.sticks) / FOOT
    assert line.board_feet(line.length(with_waste=False)) == pytest.approx(feet)  # 2x6: 1 a foot
    (screws,) = order.screws
    # 14 niches x 4 = 56; 10 % more is 61.6, so 62: three boxes of 25 at 4.00
    assert (screws.needed, screws.bought, screws.boxes, screws.cost) == (56, 62, 3, 1200)
    # 14 pieces 5 x 33 in: strips of 96 in give 2 each, a sheet of 48 in nine strips of 5 1/8 in
    (sheet,) = order.sheets
    assert (sheet.name, sheet.needed) == ("3/4 plywood sheet, 4 x 8 ft", 1)
    assert order.unpriced == ("3/4 plywood sheet, 4 x 8 ft",)
    assert line.cost is not None
    assert order.cost(with_waste=False) == line.cost + 1200
    assert order.board_feet_of(order.tally.total) == pytest.approx(
        (20 * 33 + 8 * 36 + 42 * 14.5) / 12
    )


def test_percentages_are_exact() -> None:
    order = small_order(overage=Fraction(0), waste=Fraction(0))
    assert order.screws[0].bought == 56
    assert sum(stick.extra for stick in order.lumber[0].sticks) == 0


def test_stock_lengths_kerf_and_offcuts(tmp_path: Path) -> None:
    hand = read_on_hand(written(tmp_path, "item,count\n2x6 SPF 37 in,3\n"), load_tables())
    order = small_order(stock=(10 * FOOT,), on_hand=hand, saw=Saw(kerf=4, trim=16))
    (line,) = order.lumber
    assert {stick.length for stick in line.sticks} == {10 * FOOT}
    from_hand = [row for row in line.plan.sticks if row.stick.on_hand is not None]
    assert sum(row.count for row in from_hand) <= 3
    with pytest.raises(JobError, match="2x6 SPF sticks of 36 in or longer"):
        small_order(stock=(3 * FOOT,), saw=Saw(kerf=4, trim=16))


# --- any order, checked by other code than made it


def any_order(seed: int, folder: Path) -> Order:
    """Return an order of random niches, prices, offcuts and saw."""
    draw = random.Random(seed)
    tally = Tally()
    for number in range(2, draw.randint(4, 40)):
        wanted = outcome(
            fails=draw.random() < 0.2,
            length=draw.randint(40, 190) / 4,
            boards=draw.randint(1, 4),
            checked=draw.random() < 0.7,
        )
        label = draw.choice("ABC")
        tally.add(niche(number, count=draw.randint(1, 9), building=label), wanted)
    feet = sorted(draw.sample([8, 10, 12, 14, 16], draw.randint(1, 5)))
    cents = {foot: draw.randint(40, 110) * foot for foot in feet}
    rows = [f"2x6 SPF {foot} ft,each,{cents[foot] / 100:.2f},USD" for foot in feet]
    rows.append(f"No. 10 x 3 in wood screw,box of {draw.choice([25, 50, 100])},4.00,USD")
    saw = Saw(kerf=draw.choice([2, 4, 6]), trim=draw.choice([0, 8, 16]))
    rules = OrderRules(
        prices=price_list(folder, "\n".join(rows)),
        saw=saw,
        on_hand={StickKey("2x6", SPF, draw.randint(20, 70) * 32): draw.randint(1, 4)},
        time_limit=1.0,
    )
    return make_order(tally, rules)


def used_by(row_cuts: tuple[tuple[int, int], ...], saw: Saw) -> int:
    """Return how much of a stick its pieces take: pieces, a kerf between, trims with theirs."""
    pieces = sum(count for _, count in row_cuts)
    taken = sum(length * count for length, count in row_cuts) + (pieces - 1) * saw.kerf
    return taken + (2 * (saw.trim + saw.kerf) if saw.trim else 0)


def pieces_of(line: LumberLine) -> Counter[int]:
    cut: Counter[int] = Counter()
    for row in line.plan.sticks:
        for length, count in row.cuts:
            cut[length] += row.count * count
    return cut


@pytest.mark.parametrize("seed", range(25))
def test_every_order_is_cut_and_paid_once(seed: int, tmp_path: Path) -> None:
    order = any_order(seed, tmp_path)
    (line,) = order.lumber
    wanted: Counter[int] = Counter()
    for placed in order.tally.placed:
        for (_, _, length), number in placed.cuts:
            wanted[length] += placed.niches * number
    assert pieces_of(line) == wanted
    bought: Counter[int] = Counter()
    hand: Counter[int] = Counter()
    for row in line.plan.sticks:
        assert used_by(row.cuts, order.rules.saw) <= row.stick.length
        assert row.left_over <= row.stick.length - used_by(row.cuts, order.rules.saw)
        (hand if row.stick.on_hand is not None else bought)[row.stick.length] += row.count
    ((key, on_hand),) = order.rules.on_hand.items()
    assert hand[key.length] <= on_hand
    assert {stick.length: stick.count for stick in line.sticks} == dict(bought)
    prices = order.rules.prices
    assert prices is not None
    cost = 0
    for stick in line.sticks:
        price = prices.sticks[StickKey("2x6", SPF, stick.length)]
        cost += stick.bought * int(price.amount * 100)
    assert line.cost_with_waste == cost
    assert line.plan.bound <= line.plan.cost
    sums = order.tally.sums["building"].values()
    assert sum(part.niches for part in sums) == order.tally.total.niches
    assert sum(part.screws for part in sums) == sum(row.needed for row in order.screws)
    assert sum(sum(part.lengths.values()) for part in sums) == sum(
        length * count for length, count in wanted.items()
    )


@pytest.mark.parametrize("seed", range(25))
def test_every_piece_gets_one_label_and_every_niche_its_pieces(seed: int, tmp_path: Path) -> None:
    order = any_order(seed, tmp_path)
    told = Counter((one.title, one.niche, one.use, one.length) for one in labels(order))
    wanted: Counter[tuple[str, int, Use, int]] = Counter()
    for placed in order.tally.placed:
        for number in range(1, placed.niches + 1):
            for (use, _, length), count in placed.cuts:
                wanted[placed.title, number, use, length] += count
    assert told == wanted
    parts: Counter[int] = Counter()
    for pieces in order.tally.parts.values():
        for (_, _, length), count in pieces.items():
            parts[length] += count
    assert parts == pieces_of(order.lumber[0])


@pytest.mark.parametrize("seed", range(10))
def test_what_is_left_can_be_cut_from_next_time(seed: int, tmp_path: Path) -> None:
    order = any_order(seed, tmp_path)
    (line,) = order.lumber
    left = offcuts_left(order)
    length = sum(key.length * count for key, count in left.items())
    cut = sum(row.stick.length * row.count for row in line.plan.sticks)
    whole = cut + sum(key.length * count for key, count in order.rules.on_hand.items())
    assert length <= whole - sum(length * count for length, count in pieces_of(line).items())
    again = read_on_hand(written(tmp_path, offcuts_csv(order), "left.csv"), load_tables())
    assert again == left


def test_a_metric_offcut_comes_back_as_it_went(tmp_path: Path) -> None:
    text = "item,count\n45x145 C24 1200 mm,2\n"
    hand = read_on_hand(written(tmp_path, text), load_tables())
    ((key, count),) = hand.items()
    assert (key.size, key.species, key.length, count) == ("45x145", "C24", 1511, 2)


# --- sheets


def test_sheets_by_hand() -> None:
    kerf = 4
    # strips of 7 1/4 in: (48 + 1/8) / (7 1/4 + 1/8) = 6 in a sheet, 2 pieces of 33 in in each
    assert sheets_needed([(232, 33 * 32, 12)], kerf) == 1
    assert sheets_needed([(232, 33 * 32, 13)], kerf) == 2
    assert sheets_needed([], kerf) == 0
    assert sheets_needed([(*SHEET, 3)], kerf) == 3
    with pytest.raises(ValueError, match="greater than a sheet"):
        sheets_needed([(SHEET[0] + 1, 32, 1)], kerf)


@pytest.mark.parametrize("seed", range(10))
def test_sheets_are_never_fewer_than_their_area(seed: int) -> None:
    draw = random.Random(seed)
    pieces = [
        (draw.randint(1, 12) * 32, draw.randint(10, 96) * 32, draw.randint(1, 30)) for _ in range(6)
    ]
    area = sum(width * length * count for width, length, count in pieces)
    found = sheets_needed(pieces, 4)
    assert found >= -(-area // (SHEET[0] * SHEET[1]))
    assert found <= sum(count for _, _, count in pieces)


# --- what is left out, and what is named


def test_only_holding_leaves_failing_niches_out_and_tells_them() -> None:
    order = small_order(only_holding=True)
    assert (order.tally.total.niches, order.tally.left_out) == (10, 4)
    assert [told.where for told in order.tally.listed] == ["n.csv row 3"]
    assert order.lumber[0].pieces[Use.BOARD, 33 * 32] == 20
    assert (Use.BOARD, 36 * 32) not in order.lumber[0].pieces


def test_a_measured_board_is_a_line_of_its_own() -> None:
    tally = Tally()
    measured = Lumber(SPF, "2x6", "1 1/2 x 5 1/4 in")
    narrow = SPF_2X6._replace(width=5.25, table_size="")
    whole = outcome()
    tally.add(niche(2), whole)
    tally.add(
        niche(3),
        whole._replace(
            cuts=(Cut(Use.BOARD, measured, 33 * PER_INCH, 2),), sections=((measured, narrow),)
        ),
    )
    order = make_order(tally, OrderRules())
    names = [(line.name, sum(line.pieces.values())) for line in order.lumber]
    assert names == [("2x6 SPF", 5), ("2x6 (1 1/2 x 5 1/4 in) SPF", 2)]
    assert order.lumber[0].lumber == WOOD


def test_metric_sections_come_in_metres() -> None:
    tally = Tally()
    metric = Lumber("C24", "45x145")
    section = Section(45 / 25.4, 145 / 25.4, 45 / 25.4, 145 / 25.4, 26.2, shown="C24")
    tally.add(
        niche(2),
        outcome()._replace(
            cuts=(Cut(Use.BOARD, metric, 33 * PER_INCH, 4),), sections=((metric, section),)
        ),
    )
    (line,) = make_order(tally, OrderRules()).lumber
    # 4 x 838.2 mm and three kerfs of 3.2 mm are 3362 mm: out of one stick of 3.6 m
    assert [(stick.length, stick.count) for stick in line.sticks] == [(4535, 1)]
    assert line.name == "45x145 C24"
