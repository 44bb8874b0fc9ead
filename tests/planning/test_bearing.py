"""What a gap under the restraint costs, by hand: movement r h / a, overlap left."""

from __future__ import annotations

from dataclasses import replace

import pytest
from jobs import GYPSUM, job, moved, unit

from bracecalc.mechanics.statics.contact import FrontToBack
from bracecalc.planning.bearing import gap_findings, open_gap, soffit_overlap, sure_overlap
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import (
    Built,
    CarriedScrew,
    Job,
    PublishedScrew,
    Screws,
    Stud,
    StudMaterial,
    Wall,
)
from bracecalc.records.plan import Packers, PackerSupport, RestraintKind, Severity, SoffitSupport
from bracecalc.strength.demand import Place

PACKED = Packers(sizes=("2-by on flat",), pieces=(1.5,), length=33.0, depth=3.5, from_wall=0.625)


def soffit_job(*heights: float, **niche: object) -> Job:
    given = {"soffit": heights, "soffit_solid": True, "soffit_layers": (GYPSUM,), **niche}
    return moved(job(), niche=given)


def test_a_soffit_reaches_over_the_whole_housing_unless_it_stops_short() -> None:
    assert soffit_overlap(soffit_job(81.5), None) == 23.125  # 23-3/4 niche less 5/8 behind
    assert soffit_overlap(soffit_job(81.5, soffit_depth=12.0), None) == 11.375


def test_packers_reach_over_it_by_their_width() -> None:
    assert soffit_overlap(soffit_job(83.0), PACKED) == 3.5
    assert soffit_overlap(soffit_job(83.0, soffit_depth=3.0), PACKED) == 2.375


def test_only_a_soffit_keeps_the_gap_of_its_readings() -> None:
    given = soffit_job(81.75, 81.5)
    assert open_gap(given, RestraintKind.SOFFIT) == 0.25
    assert open_gap(given, RestraintKind.STACK) == 0.0  # set level on its own line
    assert open_gap(job(), RestraintKind.SOFFIT) == 0.0


def test_the_cost_of_a_gap_is_said_where_it_is_found() -> None:
    plan = make_plan(soffit_job(81.75, 81.5))
    said = next(one for one in plan.findings if one.code == "shim-the-gap")
    # 1/4 in x (80-5/8 + 7/8) / (23-1/8 - 2-3/4 - 2/2) = 1.0516: 1-1/16 in on a tape
    assert pytest.approx(1.0516, abs=1e-4) == 0.25 * 81.5 / 19.375
    assert "1 1/16 in forward" in said.text
    assert "overlap-lost" not in {one.code for one in plan.findings}  # the whole top is covered


def test_a_gap_under_a_short_soffit_loses_the_overlap() -> None:
    level = soffit_job(81.5, soffit_depth=2.75)  # 2-1/8 over the housing, 2-1/16 for sure
    uneven = soffit_job(81.75, 81.5, soffit_depth=2.75)
    # rise 1/8: 2.0625 - 0.125 x 4.2 = 1.54 in; rise 3/8: 2.0625 - 1.58 = 0.48 in
    for given, lost in ((level, False), (uneven, True)):
        found = {one.code for one in make_plan(given).findings if one.severity is Severity.FAILS}
        assert ("overlap-lost" in found) is lost


def test_packers_that_stand_already_are_not_judged_by_a_width_that_is_not_known() -> None:
    given = soffit_job(83.0)
    stands = replace(given, built=Built(underside=81.5, packers=(1.5,)))
    to_build, built = (make_plan(one).support for one in (given, stands))
    assert built is not None
    assert sure_overlap(given, built) is None
    assert isinstance(to_build, PackerSupport)
    assert sure_overlap(given, to_build) == pytest.approx(to_build.packers.depth - 0.0625)


def test_no_overlap_left_is_said_in_words() -> None:
    found = gap_findings(
        moved(job(), rules={"rear_rise": 1.0}),
        SoffitSupport(overlap=2.0),
        Place(FrontToBack.MIDDLE, behind_front=21.75, legs=2.75, extension=0.75),
    )
    assert "no overlap is left at all" in found[0].text


def test_boards_that_stand_on_steel_are_given_no_screws_and_no_strength() -> None:
    wall = Wall(layers=(GYPSUM,), stud=Stud(material=StudMaterial.STEEL), stud_spots=(4.0, 20.0))
    plan = make_plan(replace(job(), wall=wall, built=Built(underside=81.5, boards=(1.5, 1.5))))
    assert "no-wood-to-bite" in {one.code for one in plan.findings}
    assert plan.screws == ()
    assert plan.strength is None
    assert all(case.capacity is None for case in plan.demand.cases)


def test_packers_are_set_under_the_housings_rear_edge() -> None:
    packers = make_plan(soffit_job(83.0, depth=(23.75, 24.0))).packers
    assert packers is not None
    assert packers.from_wall == 0.625  # the least gap: no part of them lies behind the housing
    assert packers.depth == 3.5


def test_the_front_legs_arm_counts_to_the_middle_of_the_packers() -> None:
    heavy = unit(weight=150.0)
    packed = make_plan(moved(soffit_job(83.0), unit={"weight": heavy.weight}))
    climb = next(case for case in packed.demand.cases if case.name == "climb")
    over = sum(climb.moments.values())
    assert climb.force == pytest.approx(over / (23.125 - 2.75 - 3.5 / 2))


def test_a_part_that_stands_higher_than_the_housing_meets_the_soffit_first() -> None:
    def said(given: Job) -> list[str]:
        plan = make_plan(moved(given, unit={"height_overall": 80.875}))
        return [one.text for one in plan.findings if one.code == "highest-point-meets-soffit"]

    assert "1/4 in into the soffit" in said(soffit_job(81.5))[0]
    assert said(soffit_job(83.0)) == []  # packers of 1-1/2 in leave room beside them
    assert said(soffit_job(92.0, soffit_solid=False)) == []
    assert said(job()) == []
    flush = make_plan(soffit_job(81.5))  # nothing stands higher than the housing
    assert "highest-point-meets-soffit" not in {one.code for one in flush.findings}


def test_where_the_top_may_bear_is_asked_for_and_checked() -> None:
    def said(zone: tuple[float, float] | None, given: Job) -> list[str]:
        plan = make_plan(moved(given, unit={"bearing_zone": zone}))
        return [one.code for one in plan.findings if "bear" in one.code]

    stack, packed, soffit = job(), soffit_job(83.0), soffit_job(81.5)  # 2-3/8, 3-1/2, all of it
    assert said(None, stack) == said(None, packed) == ["bearing-zone-not-given"]
    assert said((0.0, 2.375), stack) == []
    assert said((0.0, 2.25), stack) == ["bears-outside-zone"]
    assert said((0.5, 6.0), stack) == ["bears-outside-zone"]
    assert said((0.0, 3.5), packed) == []
    assert said((0.0, 3.25), packed) == ["bears-outside-zone"]
    assert said((0.0, 6.0), soffit) == ["bears-outside-zone"]
    assert said((0.0, 23.125), soffit) == []


def test_in_a_wall_without_wood_only_a_makers_anchors_are_used() -> None:
    anchor = PublishedScrew(
        size="invented anchor", diameter=0.25, head_diameter=0.6, length=6.0, thread_length=3.0,
        least_embedment=1.5, lateral=400.0, withdrawal=300.0, pull_through=600.0, largest_gap=1.0,
        source="invented for a test",
    )  # fmt: skip
    anchors = (anchor, replace(anchor, size="invented anchor, short", length=4.0))
    carried = (CarriedScrew(size="10", lengths=(3.5, 6.0)),)
    wall = Wall(layers=(GYPSUM,), stud=Stud(material=StudMaterial.STEEL), stud_spots=(4.0, 20.0))
    steel = replace(job(), wall=wall, screws=Screws(carried=carried, published=anchors))
    assert {row.size for row in make_plan(steel).screws} <= {one.size for one in anchors}
    assert make_plan(steel).screws
