"""The screw schedule: a row a board, counts, places, and what is said where none fits."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from jobs import job, moved

from bracecalc.mechanics.nds.penetration import embedment
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Boards, CarriedScrew, Niche, Screws, StudLayout, Wall
from bracecalc.records.plan import Plan


def text_of(plan: Plan, code: str) -> str:
    return next(finding.text for finding in plan.findings if finding.code == code)


def test_a_row_for_each_board_from_the_wall_outward() -> None:
    plan = make_plan(job(niche=Niche(width=(33.25,), depth=(25.25,))))
    assert plan.stack is not None
    assert plan.stack.boards == 3
    assert [row.board for row in plan.screws] == [1, 2, 3]
    for row in plan.screws:
        # board k has k thicknesses under the head
        got = embedment(
            length=row.length,
            under_head=row.board * 1.5 - row.counterbore,
            build_up=0.5,
            washer=0.0,
        )
        washer = got - row.embedment
        assert 0.0 <= washer < 0.15
        assert row.tip_to_far_side == pytest.approx(3.5 - row.embedment)
    lengths = [row.length for row in plan.screws]
    assert lengths == sorted(lengths)


def test_count_is_studs_times_rows_and_each_has_its_place() -> None:
    plan = make_plan(job())
    assert plan.studs is not None
    for row in plan.screws:
        assert row.count == row.per_stud * len(plan.studs.used) == len(row.positions)
        assert row.per_stud == len(row.offsets)
        expected = {
            (spot + across, height) for spot in plan.studs.used for across, height in row.offsets
        }
        assert set(row.positions) == expected


def test_screws_land_inside_the_stud_with_their_edge_distance() -> None:
    plan = make_plan(job())
    for row in plan.screws:
        diameter = {"10": 0.190, "12": 0.216, "14": 0.242, "1/4": 0.25, "5/16": 0.3125}[row.size]
        for across, _ in row.offsets:
            # half a stud less the uncertainty of its spot, 1.5 D
            assert abs(across) <= 0.75 - 0.0625 - 1.5 * diameter + 1e-9


def test_all_screws_of_one_stud_keep_apart() -> None:
    plan = make_plan(job(niche=Niche(width=(33.25,), depth=(25.25,)), boards=Boards(size="2x6")))
    places = [place for row in plan.screws for place in row.offsets]
    assert len(places) == len(set(places))
    assert len(places) >= 3


def test_with_spacing_alone_the_best_case_is_counted_and_no_place_is_given() -> None:
    wall = Wall(layers=job().wall.layers, stud_layout=StudLayout(spacing=12.0))
    plan = make_plan(job(wall=wall))
    assert plan.studs is not None
    assert plan.studs.best_case == plan.studs.sure + 1
    for row in plan.screws:
        assert row.positions == ()
        assert row.count == row.per_stud * plan.studs.best_case


def test_where_no_screw_is_long_enough_it_says_what_is_needed() -> None:
    carried = Screws(carried=(CarriedScrew(size="10", lengths=(2.0, 3.0)),))
    plan = make_plan(job(screws=carried))
    assert plan.screws == ()
    assert plan.strength is None
    # two boards 3 in, wall 1/2 in, 1-1/2 in in the stud
    assert "5 in or more" in text_of(plan, "no-stock-screw-long-enough")
    assert "the longest at hand is 3 in" in text_of(plan, "no-stock-screw-long-enough")


def test_where_it_is_long_enough_but_does_not_fit_it_does_not_ask_for_length() -> None:
    thread = CarriedScrew(size="1/4", lengths=(6.0,), thread_length=1.0)
    plan = make_plan(job(screws=Screws(carried=(thread,))))
    said = text_of(plan, "no-stock-screw-long-enough")
    assert "its thread filling it" in said
    assert "or more; the longest" not in said


def test_too_few_studs_do_not_blame_the_screws() -> None:
    plan = make_plan(moved(job(), wall={"stud_spots": (16.0,)}))
    codes = {finding.code for finding in plan.findings}
    assert "too-few-studs" in codes
    assert "no-stock-screw-long-enough" not in codes


def test_what_is_bought_is_what_is_screwed_in() -> None:
    plan = make_plan(job())
    bought: dict[tuple[str, float | None], int] = {}
    for need in plan.materials.screws:
        bought[need.size, need.length] = need.count
    driven: dict[tuple[str, float | None], int] = {}
    for row in plan.screws:
        driven[row.size, row.length] = driven.get((row.size, row.length), 0) + row.count
    assert bought == driven


def test_a_counterbore_of_the_job_is_in_every_outermost_screw() -> None:
    plan = make_plan(replace(job(), screws=Screws(counterbore=0.5)))
    outer = plan.screws[-1]
    assert outer.counterbore == 0.5
    assert "counterbore" in {hole.purpose for hole in outer.holes}


def test_the_pressure_on_a_finish_without_a_published_value_is_said() -> None:
    two = {"stud_spots": (6.375, 22.375)}
    plan = make_plan(moved(job(), wall=two, loads={"minimum": 100.0}))
    said = next(one for one in plan.findings if one.code == "finish-not-checked")
    # 100 lbf at the right quarter: 24-13/16 in, two studs 16 in apart; 3 in out from the wall, and
    # half of the gap of 1/2 in
    share = 100.0 * (24.8125 - 6.375) / 16.0
    depths = [3.5 - height - 0.25 for _, height in plan.screws[-1].offsets]
    pulled = share * 3.25 * sum(depths) / sum(depth**2 for depth in depths)
    # a triangle of pressure 3 x 1/4 in deep on a stud of 1-1/2 in
    greatest = 2.0 * pulled / (3.0 * 0.25 * 1.5)
    assert f"gypsum board over a stud with up to {math.ceil(greatest)} psi" in said.text


def test_bare_studs_have_no_finish_to_crush() -> None:
    bare = make_plan(moved(job(), wall={"layers": ()}))
    assert "finish-not-checked" not in {one.code for one in bare.findings}


@pytest.mark.parametrize("ease", [3.5, 6.0])
def test_screws_that_stand_above_the_pivot_hold_nothing(ease: float) -> None:
    plan = make_plan(moved(job(), rules={"pivot_ease": ease}))
    assert "no-stock-screw-long-enough" in {one.code for one in plan.findings}
    assert plan.screws == ()
