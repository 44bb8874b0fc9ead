"""Plans as rows: a spreadsheet reads them back, and runs nothing in them."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest
from jobs import job

from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CarriedScrew, PublishedScrew, Screws
from bracecalc.records.plan import Plan
from bracecalc.render.rows import HEADINGS, harmless, plan_rows


def read_back(*plans: Plan) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(plan_rows(plans))))


def test_every_screw_is_a_row_and_every_piece_to_buy() -> None:
    plan = make_plan(job())
    rows = read_back(plan)
    screws = [row for row in rows if row["what"] == "screw"]
    bought = [row for row in rows if row["what"] == "buy"]
    assert len(screws) == sum(len(row.positions) for row in plan.screws)
    assert len(bought) == len(plan.materials.boards) + len(plan.materials.screws)
    for row, place in zip(screws, [p for r in plan.screws for p in r.positions], strict=True):
        assert (float(row["from_left_in"]), float(row["above_underside_in"])) == place


def test_headings_name_their_units() -> None:
    header = plan_rows([]).split("\n")[0]
    assert header == ",".join(HEADINGS)
    assert {"length_in", "from_left_in", "above_underside_in"} <= set(HEADINGS)


def test_lengths_are_unrounded() -> None:
    plan = make_plan(replace(job(), niche=replace(job().niche, width=(33.2617,))))
    assert plan.stack is not None
    board = next(row for row in read_back(plan) if row["item"] == "board")
    assert float(board["length_in"]) == plan.stack.length


def test_many_plans_stand_under_one_heading() -> None:
    rows = read_back(make_plan(job(title="one")), make_plan(job(title="two")))
    assert {row["title"] for row in rows} == {"one", "two"}


@pytest.mark.parametrize(
    "start", ["=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20", " ="]
)
def test_no_cell_is_a_formula(start: str) -> None:
    title = f'{start}HYPERLINK("http://x";"y")'
    rows = read_back(make_plan(job(title=title)))
    assert {row["title"] for row in rows} == {"'" + title}
    assert harmless("Quillet Yard 3B") == "Quillet Yard 3B"


def test_the_name_of_a_makers_screw_is_no_formula_either() -> None:
    makers = PublishedScrew(
        size="=1+1", diameter=0.25, head_diameter=0.5, length=5.5, thread_length=3.0,
        least_embedment=1.5, lateral=150.0, withdrawal=120.0, pull_through=300.0,
        largest_gap=0.5, source="invented for a test",
    )  # fmt: skip
    inner = CarriedScrew(size="10", lengths=(3.5,))
    plan = make_plan(job(screws=Screws(carried=(inner,), published=(makers,))))
    assert plan.screws[-1].size == "=1+1"
    for row in read_back(plan):
        for cell in row.values():
            assert not cell.startswith(("=", "@")), row


@pytest.mark.parametrize("sign", ["\t", "\r", "\x1b", "\u202e", "\u2066", "\u200b", "\x00"])
def test_control_and_direction_characters_are_made_visible(sign: str) -> None:
    rows = read_back(make_plan(job(title=f"{sign}3B")))
    told = sign.encode("unicode_escape").decode() + "3B"
    assert {row["title"] for row in rows} == {told}


def test_commas_quotes_and_line_breaks_stay_in_their_cell() -> None:
    title = 'a, "b"\nc; d'
    rows = read_back(make_plan(job(title=title)))
    assert {row["title"] for row in rows} == {title}
