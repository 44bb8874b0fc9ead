"""What the whole stack holds: every part by hand, the weakest named, each case its own factor."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from jobs import GYPSUM, PLYWOOD, job, moved, unit

from bracecalc.planning.plan import make_plan
from bracecalc.records.job import (
    Boards,
    CarriedScrew,
    Earthquake,
    Job,
    Loads,
    Niche,
    PublishedScrew,
    Screws,
)
from bracecalc.records.plan import CaseName, LoadCase, Plan
from bracecalc.records.scheme import Part
from bracecalc.stack.check import governing

MAKERS = PublishedScrew(
    size="maker's 1/4 in",
    diameter=0.25,
    head_diameter=0.5,
    length=5.5,
    thread_length=3.0,
    least_embedment=1.5,
    lateral=150.0,
    withdrawal=120.0,
    pull_through=300.0,
    largest_gap=0.5,
    source="invented for a test",
)
INNER = CarriedScrew(size="10", lengths=(3.5,))
SHAKEN = Loads(earthquake=Earthquake(s_ds=1.5), horizontal_stop=True)


def with_makers(given: Job, **changes: object) -> Job:
    screw = replace(MAKERS, **changes)  # type: ignore[arg-type]
    return replace(given, screws=Screws(carried=(INNER,), published=(screw,)))


def case_of(plan: Plan, name: str) -> LoadCase:
    return next(case for case in plan.demand.cases if case.name == name)


def test_capacity_times_use_is_the_force_in_every_case() -> None:
    plan = make_plan(job(unit=unit(weight=150.0), loads=SHAKEN))
    assert len(plan.demand.cases) == 5
    for case in plan.demand.cases:
        assert case.capacity is not None
        assert case.utilisation is not None
        assert case.capacity * case.utilisation == pytest.approx(case.force)


def test_capacity_is_the_force_at_which_the_plan_just_holds() -> None:
    # only the minimum case: at its capacity the use is 1, a pound more and it fails
    given = job(unit=unit(weight=None), screws=Screws(carried=(INNER, CarriedScrew(
        size="1/4", lengths=(6.0,)))))  # fmt: skip
    held = case_of(make_plan(moved(given, loads={"minimum": 500.0})), "minimum").capacity
    assert held is not None

    def codes(force: float) -> set[str]:
        plan = make_plan(moved(given, loads={"minimum": force}))
        return {finding.code for finding in plan.findings}

    assert "overstressed" not in codes(held - 0.01)
    assert "overstressed" in codes(held + 0.01)


def test_capacity_goes_with_load_duration() -> None:
    carried = Screws(carried=(CarriedScrew(size="12", lengths=(5.0,)), INNER))
    plan = make_plan(job(loads=SHAKEN, screws=carried))
    minimum = case_of(plan, "minimum")
    assert minimum.capacity is not None
    for case in plan.demand.cases:
        assert case.limited_by == minimum.limited_by == Part.SCREWS
        assert case.capacity == pytest.approx(minimum.capacity * case.C_D / 1.25)


def test_each_case_has_its_own_capacity_by_the_factor_that_the_job_gives() -> None:
    carried = Screws(carried=(CarriedScrew(size="12", lengths=(5.0,)), INNER))
    plan = make_plan(job(screws=carried, loads=Loads(load_duration={"climb": 1.15})))
    climb, service = case_of(plan, "climb").capacity, case_of(plan, "service").capacity
    assert climb is not None
    assert service is not None
    assert climb / service == pytest.approx(1.15)


def test_a_makers_values_are_lowered_for_long_loads_but_not_raised_for_short_ones() -> None:
    loads = replace(SHAKEN, load_duration={"minimum": 0.9})
    plan = make_plan(with_makers(job(loads=loads), diameter=0.19))
    assert plan.screws[-1].size == "maker's 1/4 in"
    by_name = {case.name: case.capacity for case in plan.demand.cases}
    assert by_name[CaseName.CLIMB] == by_name[CaseName.EARTHQUAKE]
    assert by_name[CaseName.MINIMUM] == pytest.approx(0.9 * by_name[CaseName.CLIMB])  # type: ignore[operator]


def use_by_hand(plan: Plan, *, share: float, arm: float, lateral: float, held: float) -> float:
    """Use of the lowest screw for one pound: rows pull by their depth; 12.4-1 and its ends."""
    depths = [3.5 - height - 0.25 for _, height in plan.screws[-1].offsets]
    tension = share * arm * max(depths) / sum(depth * depth for depth in depths)
    shear = share / len(depths)
    together = (shear**2 / lateral + tension**2 / held) / math.hypot(shear, tension)
    return max(together, shear / lateral, tension / held)


@pytest.mark.parametrize("minimum", [120.0, 150.0])
def test_a_makers_screw_by_hand(minimum: float) -> None:
    # under 1/4 in: no group action. At the right quarter, 24.8125 in, the load is 13/16 in beyond
    # the stud at 24; the other, 16 in off, holds it down. The gap of 1/2 in adds half of itself
    given = with_makers(moved(job(), wall={"stud_spots": (8.0, 24.0)}), diameter=0.19)
    plan = make_plan(moved(given, loads={"minimum": minimum}))
    embedded = plan.screws[-1].embedment
    assert embedded == pytest.approx(5.5 - 3.0 - 0.5)
    held = min(120.0 * embedded, 300.0)
    use = use_by_hand(plan, share=1 + 13 / 256, arm=3.25, lateral=150.0, held=held)
    case = case_of(plan, "climb")
    assert case.limited_by == Part.SCREWS
    assert case.capacity == pytest.approx(1 / use)


def test_more_rows_for_more_force() -> None:
    given = with_makers(moved(job(), wall={"stud_spots": (8.0, 24.0)}), diameter=0.19)
    rows = [
        make_plan(moved(given, loads={"minimum": minimum})).screws[-1].per_stud
        for minimum in (20.0, 80.0, 2000.0)
    ]
    assert rows[0] == 1
    assert rows == sorted(rows)
    assert rows[-1] > 1


def test_published_values_are_not_used_over_a_wider_gap() -> None:
    # so the finish is cut away, which leaves no gap
    plan = make_plan(with_makers(job(), largest_gap=0.25, length=6.0))
    assert plan.scheme is not None
    assert plan.scheme.chosen.finish_cut
    assert plan.scheme.alternatives[0].shortfall is not None


def test_rows_are_added_for_the_board_too() -> None:
    # screws that hold anything: one low row would split the board, a second one high up does not
    strong = with_makers(job(), diameter=0.19, lateral=2e4, withdrawal=2e4, pull_through=2e4)
    plan = make_plan(moved(strong, loads={"minimum": 100.0}))
    assert plan.screws[-1].per_stud == 2
    assert "overstressed" not in {finding.code for finding in plan.findings}
    low = min(height for _, height in plan.screws[-1].offsets)
    split = 1.25 * 2 / 3 * 135 * 1.5 * low * (low / 3.5) ** 2  # NDS 3.4.3.3, one row
    assert split < 100.0


def test_even_contact_moves_the_force_in_by_half_of_the_overlap() -> None:
    given = with_makers(moved(job(), wall={"stud_spots": (8.0, 24.0)}), diameter=0.19)
    edge = make_plan(given)
    even = make_plan(moved(given, rules={"even_contact": True}))
    for plan, arm in ((edge, 3.25), (even, 3.25 - 2.375 / 2)):
        use = use_by_hand(plan, share=1 + 13 / 256, arm=arm, lateral=150.0, held=240.0)
        assert case_of(plan, "climb").capacity == pytest.approx(1 / use)


def test_a_stack_can_be_limited_by_its_outermost_board() -> None:
    strong = with_makers(
        job(boards=Boards(size="1x4"), niche=Niche(width=(33.25,), depth=(23.25,))),
        lateral=2e4, withdrawal=2e4, pull_through=2e4, length=5.0,
    )  # fmt: skip
    plan = make_plan(moved(strong, rules={"under_head": 0.5}))
    case = case_of(plan, "climb")
    assert "outermost board" in (case.limited_by or "")
    assert case.limited_by != Part.SCREWS
    shared = make_plan(moved(strong, rules={"under_head": 0.5, "shared_contact": True}))
    more = case_of(shared, "climb").capacity
    assert more is not None
    assert case.capacity is not None
    # bending and splitting both go with the thickness that bears
    boards = shared.stack.boards if shared.stack is not None else 0
    assert more == pytest.approx(boards * case.capacity)


def test_plywood_fixed_to_the_studs_is_no_gap_and_holds_more() -> None:
    finish = make_plan(job())
    panel = make_plan(moved(job(), wall={"layers": (replace(PLYWOOD, thickness=0.5),)}))
    assert finish.strength is not None
    assert panel.strength is not None
    assert (finish.strength.gap, panel.strength.gap) == (0.5, 0.0)
    loose = replace(PLYWOOD, thickness=0.5, fixed_to_stud=False)
    undeclared = make_plan(moved(job(), wall={"layers": (loose,)}))
    assert undeclared.strength is not None
    assert undeclared.strength.gap == 0.5
    behind_finish = make_plan(moved(job(), wall={"layers": (GYPSUM, PLYWOOD)}))
    assert behind_finish.strength is not None
    assert behind_finish.strength.gap == 0.5


def a_case(name: CaseName, use: float | None) -> LoadCase:
    return LoadCase(
        name=name, force=0.0, C_D=1.0, capacity=None, utilisation=use, moments={}, limited_by=None
    )


def test_the_greatest_use_governs_the_first_of_equals() -> None:
    cases = [
        a_case(CaseName.MINIMUM, 0.2),
        a_case(CaseName.SERVICE, 0.7),
        a_case(CaseName.CLIMB, 0.7),
        a_case(CaseName.PULL, None),
    ]
    found = governing(cases)
    assert found is not None
    assert found.name is CaseName.SERVICE
    assert governing([a_case(CaseName.PULL, None)]) is None
    assert governing([]) is None
