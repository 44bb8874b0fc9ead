"""Nothing is believed without a reading: what was not taken keeps a plan provisional."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given as each
from hypothesis import strategies as st
from jobs import GYPSUM, job, moved, unit

from bracecalc.planning.plan import make_materials, make_plan
from bracecalc.records.job import CORNERS, Floor, Job, StudLayout
from bracecalc.records.open import Open, OpenCode, OpenKind
from bracecalc.records.plan import Plan, Verdict
from bracecalc.records.surroundings import Opening
from bracecalc.render.open_words import PROVISIONAL, open_items, open_words, verdict_words
from bracecalc.render.words import floor_words

SOFFIT = {"soffit": (81.5,), "soffit_solid": True, "soffit_layers": (GYPSUM,)}
LEVEL = dict.fromkeys(CORNERS, 0.0)


def codes(plan: Plan) -> set[OpenCode]:
    return {point.code for point in plan.open}


def unread(plan: Plan) -> set[OpenCode]:
    return {one for one in codes(plan) if one.kind is OpenKind.NOT_MEASURED}


def test_a_floor_that_was_not_read_is_no_floor_read_as_level() -> None:
    read, assumed = make_plan(job()), make_plan(job(floor=Floor()))
    assert read.verdict is Verdict.HOLDS
    assert assumed.verdict is Verdict.CLOSE
    assert assumed.open[0] == Open(OpenCode.FLOOR)
    assert verdict_words(assumed) == PROVISIONAL
    assert open_words(assumed).startswith("the floor: taken as level")
    assert floor_words(assumed.job) == "The floor was NOT MEASURED: assumed level."
    assert "read up from the datum" in floor_words(read.job)
    # the figures are those of a level floor
    assert assumed.legs == read.legs


@pytest.mark.parametrize("count", [1, 2, 3])
def test_the_leg_spots_that_were_not_read_are_named(count: int) -> None:
    for left_out in itertools.combinations(CORNERS, count):
        floor = Floor(**{name: 0.0 for name in CORNERS if name not in left_out})  # type: ignore[arg-type]
        plan = make_plan(job(floor=floor))
        assert plan.open[0] == Open(OpenCode.FLOOR, left_out)
        assert plan.verdict is Verdict.CLOSE
        for name in left_out:
            assert name.replace("_", " ") in floor_words(plan.job)


def test_a_point_that_may_touch_the_soffit_first_is_open() -> None:
    niche = SOFFIT | {"soffit_depth": 24.0}
    solid = moved(job(), niche=niche)
    flush, higher = make_plan(solid), make_plan(moved(solid, unit={"height_overall": 80.875}))
    assert OpenCode.HIGHEST_POINT not in codes(flush)
    assert OpenCode.HIGHEST_POINT in codes(higher)
    assert higher.verdict is flush.verdict  # it may stand in front of the soffit: nobody has looked


PROVISIONAL_BY: list[tuple[OpenCode, dict[str, dict[str, Any]]]] = [
    (OpenCode.FLOOR, {"floor": dict.fromkeys(CORNERS)}),
    (OpenCode.FLOOR_FINISH, {"floor": {"finish_to_come": 0.25}}),
    (OpenCode.WALL_FINISH, {"wall": {"finish_to_come": 0.125}}),
    (
        OpenCode.STUD_SPOTS,
        {"wall": {"stud_spots": None, "stud_layout": StudLayout(spacing=12.0, first=4.0)}},
    ),
    (OpenCode.SOFFIT_DEPTH, {"niche": SOFFIT}),
]


@pytest.mark.parametrize(("code", "changes"), PROVISIONAL_BY)
def test_what_was_not_read_keeps_the_verdict_provisional(
    code: OpenCode, changes: dict[str, dict[str, Any]]
) -> None:
    plan = make_plan(moved(job(), **changes))
    assert unread(plan) == {code}
    assert plan.verdict is not Verdict.HOLDS
    assert make_materials(plan.job)[0] is plan.verdict


def test_a_soffit_whose_reach_was_read_holds() -> None:
    plan = make_plan(moved(job(), niche={**SOFFIT, "soffit_depth": 12.0}))
    assert plan.verdict is Verdict.HOLDS
    framing = next(point for point in plan.open if point.code is OpenCode.SOFFIT_FRAMING)
    assert framing.amount == max(case.force for case in plan.demand.cases)


def test_what_is_left_to_others_stays_open() -> None:
    assert unread(make_plan(job())) == set()
    told = make_plan(job())
    assert codes(told) == {OpenCode.SERVICES, OpenCode.BEARING_ZONE}
    spaced = moved(job(), wall={"stud_spots": None, "stud_layout": StudLayout(spacing=24.0)})
    assert "solid blocking between the studs" in open_words(make_plan(spaced))
    unknown = make_plan(job(unit=unit(weight=None)))
    assert "tip-over not fully checked" in open_words(unknown)
    outside = make_plan(job(unit=unit(bearing_zone=(0.0, 0.5))))
    assert "the spec sheet doesn't allow it" in open_words(outside)


def test_a_verdict_is_not_kinder_than_a_check_of_the_niche() -> None:
    given = job()
    opening = Opening(height=(90.0,), height_range=(89.96875, 91.0))  # 1/32 in to spare
    around = replace(given.surroundings, opening=opening)
    plan = make_plan(replace(given, surroundings=around))
    assert [check.verdict for check in plan.checks if "high" in check.name] == [Verdict.CLOSE]
    assert plan.verdict is make_materials(plan.job)[0] is Verdict.CLOSE
    assert verdict_words(plan) != PROVISIONAL
    narrow = Opening(width_range=(33.5, 34.0))
    plan = make_plan(replace(given, surroundings=replace(given.surroundings, opening=narrow)))
    assert plan.verdict is make_materials(plan.job)[0] is Verdict.FAILS


@each(st.sets(st.sampled_from(CORNERS)))
def test_more_readings_never_open_more(read: set[str]) -> None:
    some: Job = job(floor=Floor(**dict.fromkeys(read, 0.0)))  # type: ignore[arg-type]
    assert codes(make_plan(job())) <= codes(make_plan(some))
    assert (make_plan(some).verdict is Verdict.HOLDS) == (read == set(CORNERS))


def test_every_open_point_has_words_and_a_sort() -> None:
    plan = make_plan(job())
    every = replace(plan, open=tuple(Open(code, ("this",), 1.0) for code in OpenCode))
    items = open_items(every)
    assert len({text for _, text in items}) == len(OpenCode)
    assert {sort for sort, _ in items} == {kind.value.capitalize() for kind in OpenKind}


def test_json_tells_what_is_open() -> None:
    told = make_plan(job(floor=Floor())).to_dict()["open"]
    assert told[0] == {"kind": "not measured", "code": "floor", "of": [], "amount": None}


def test_the_docs_list_every_code_of_what_is_open() -> None:
    page = (Path(__file__).parents[2] / "docs" / "json.md").read_text(encoding="utf-8")
    listed = page.partition("Codes of `open`:")[2].partition("\n\n")[0]
    assert {code.value for code in OpenCode} <= set(re.findall(r"`([a-z-]+)`", listed))
