"""The estimator's demo: 400 invented niches that hold, and a price for all that they need."""

from pathlib import Path

import pytest

from bracecalc.jobfile.build import build_job
from bracecalc.jobfile.rows import Columns, NicheRow, table_rows
from bracecalc.order.order import make_order
from bracecalc.order.price_rows import read_prices
from bracecalc.order.prices import PriceList
from bracecalc.order.rules import OrderRules
from bracecalc.order.takeoff import niche_rows, take
from bracecalc.planning.plan import make_plan
from bracecalc.records.plan import Plan, Verdict
from bracecalc.tables.load import load_tables

FOLDER = Path(__file__).parents[1] / "data" / "demo"


@pytest.fixture(scope="module")
def rows() -> list[NicheRow]:
    return list(table_rows(str(FOLDER / "quillet-yard.csv"), Columns()))


@pytest.fixture(scope="module")
def plans(rows: list[NicheRow]) -> list[Plan]:
    return [make_plan(build_job(row.values, where=row.where)) for row in rows]


@pytest.fixture(scope="module")
def prices() -> PriceList:
    return read_prices(FOLDER / "prices.csv", load_tables())


def test_24_kinds_make_400_niches(rows: list[NicheRow]) -> None:
    assert (len(rows), sum(row.count for row in rows)) == (24, 400)
    assert [row.mistakes for row in rows if row.mistakes] == []


def test_each_says_that_it_is_invented(rows: list[NicheRow]) -> None:
    assert all(str(row.values["title"]).endswith("(invented demo)") for row in rows)
    assert "invented" in (FOLDER / "prices.csv").read_text(encoding="utf-8").split("\n")[1]


def test_every_niche_holds_as_far_as_it_was_read(plans: list[Plan]) -> None:
    assert {plan.verdict for plan in plans} <= {Verdict.HOLDS, Verdict.CLOSE}
    assert len({plan.restraint.kind for plan in plans}) == 3


def test_spacing_alone_brings_blocking_to_build_in(plans: list[Plan]) -> None:
    alone = [plan for plan in plans if plan.studs is not None and not plan.studs.spots]
    assert alone
    for plan in alone:
        assert any(need.item == "solid blocking" for need in plan.materials.boards)


def test_all_that_is_needed_has_a_price_and_every_row_is_read(prices: PriceList) -> None:
    niches = niche_rows([str(FOLDER / "quillet-yard.csv")], Columns())
    order = make_order(take(niches), OrderRules(prices=prices, time_limit=1.0))
    assert order.unpriced == ()
    assert (prices.unread, order.unknown_rows) == ((), ())
    assert {line.name for line in order.services} == {"Labor per niche", "Delivery"}
