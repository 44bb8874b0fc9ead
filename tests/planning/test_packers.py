"""Packers under a soffit: screws into its framing by the embedment rule."""

from __future__ import annotations

from dataclasses import replace

import pytest
from jobs import GYPSUM, job, moved

from bracecalc.planning.packers import packer_screws
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CarriedScrew, Job, Layer, Screws
from bracecalc.records.plan import Packers, ScrewRow
from bracecalc.tables.load import load_tables

TABLES = load_tables()


def under_soffit(*layers: Layer, given: bool = True) -> Job:
    niche = {
        "soffit": (84.0,),
        "soffit_solid": True,
        "soffit_layers": layers if given else None,
    }
    return moved(job(), niche=niche)


def packers(*pieces: float, length: float = 33.0) -> Packers:
    sizes = tuple(f"{piece} in" for piece in pieces)
    return Packers(sizes=sizes, pieces=pieces, length=length, depth=3.5)


def rows_of(given: Job, packed: Packers) -> tuple[ScrewRow, ...]:
    rows, findings = packer_screws(given, TABLES, packed)
    assert findings == ()
    return rows


def test_each_piece_goes_through_all_above_it_into_the_framing() -> None:
    rows = rows_of(under_soffit(GYPSUM), packers(1.5, 0.75))
    assert [row.board for row in rows] == [1, 2]
    for row, depth in zip(rows, (1.5, 2.25), strict=True):
        washer = 0.0 if row.size == "10" else row.length - depth - 0.5 - row.embedment
        assert row.embedment == pytest.approx(row.length - depth - 0.5 - washer + row.counterbore)
        assert row.embedment >= row.required_embedment >= 1.5
        assert row.embedment <= row.thread_length


def test_bare_framing_needs_a_shorter_screw() -> None:
    bare = rows_of(under_soffit(), packers(1.5))[0]
    behind = rows_of(under_soffit(GYPSUM), packers(1.5))[0]
    assert (bare.length, behind.length) == (3.0, 3.5)  # 1-1/2 + 0 or 1/2 + 1-1/2


def test_a_thin_shim_is_held_by_the_screws_of_the_piece_under_it() -> None:
    rows = rows_of(under_soffit(GYPSUM), packers(0.25, 1.5))
    assert [row.board for row in rows] == [2]
    assert rows[0].length >= 0.25 + 1.5 + 0.5 + 1.5 - 1e-9


def test_a_screw_a_framing_member_and_two_at_least() -> None:
    assert rows_of(under_soffit(GYPSUM), packers(1.5, length=14.0))[0].count == 2
    # 48 in less two end distances of 10 D: two bays of 16 in and a bit
    assert rows_of(under_soffit(GYPSUM), packers(1.5, length=48.0))[0].count == 3


def test_layers_that_are_not_given_are_asked_for() -> None:
    rows, findings = packer_screws(under_soffit(given=False), TABLES, packers(1.5))
    assert rows == ()
    assert [one.code for one in findings] == ["soffit-build-up-not-given"]


def test_foam_above_the_packers_fails() -> None:
    foam = Layer(material="rigid foam", thickness=1.0)
    rows, findings = packer_screws(under_soffit(GYPSUM, foam), TABLES, packers(1.5))
    assert rows == ()
    assert [one.code for one in findings] == ["compressible-soffit"]


def test_screws_too_short_say_what_is_needed() -> None:
    short = Screws(carried=(CarriedScrew(size="10", lengths=(2.5,)),))
    given = replace(under_soffit(GYPSUM), screws=short)
    rows, findings = packer_screws(given, TABLES, packers(1.5))
    assert rows == ()
    assert findings[0].code == "no-stock-screw-long-enough"
    assert "3 1/2 in or more" in findings[0].text


def test_the_force_is_handed_to_whoever_answers_for_the_framing() -> None:
    plan = make_plan(under_soffit(GYPSUM))
    assert plan.packers is not None
    said = next(one.text for one in plan.findings if one.code == "framing-not-checked")
    assert "80 lbf" in said
    assert all(case.capacity is None for case in plan.demand.cases)


def test_pieces_add_up_to_what_is_missing() -> None:
    plan = make_plan(under_soffit(GYPSUM))
    assert plan.packers is not None
    assert plan.restraint.target_height == pytest.approx(84.0 - sum(plan.packers.pieces))
    assert plan.packers.total == sum(plan.packers.pieces)
    assert plan.reach_band.low <= 84.0 - plan.packers.total <= plan.reach_band.high
