"""What one screw holds where it stands: which layer, which length, which factor goes in."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from bracecalc.mechanics.nds.dowel import Joint, reference_lateral
from bracecalc.records.job import PublishedScrew
from bracecalc.records.reference import ScrewSize
from bracecalc.records.scheme import Backing
from bracecalc.strength.nds import ScrewInPlace, nds_strength, published_strength, show_nds_strength
from bracecalc.strength.workings import Workings
from bracecalc.tables.load import load_tables

TEN = load_tables().screws["10"]
LAG = load_tables().screws["1/4"]


def in_place(size: ScrewSize = TEN, /, **changes: Any) -> ScrewInPlace:
    given: dict[str, Any] = {
        "size": size,
        "thread_length": 4.0,
        "embedment": 2.0,  # over 10 D of a No. 10
        "gap": 0.0,
        "wall_board": 1.5,
        "outer_board": 1.5,
        "next_board": None,
        "board_gravity": 0.50,
        "stud_gravity": 0.50,
    }
    return ScrewInPlace(**{**given, **changes})


# NDS 2018 table 12L, wood screws, single shear, p = 10 D (from memory; No. 10 in 1/2 in at G 0.50
# second hand)
@pytest.mark.parametrize(
    ("board", "number", "gravity", "printed"),
    [
        (0.5, "10", 0.50, 90),
        (0.75, "10", 0.42, 83),
        (1.5, "8", 0.55, 101),
        (1.5, "10", 0.42, 99),
        (1.5, "12", 0.50, 147),
        (1.5, "14", 0.42, 138),
    ],
)
def test_bare_wall_gives_the_printed_lateral_value(
    board: float, number: str, gravity: float, printed: int
) -> None:
    size = load_tables().screws[number]
    screw = in_place(
        size,
        embedment=10 * size.diameter,
        wall_board=board,
        outer_board=board,
        board_gravity=gravity,
        stud_gravity=gravity,
    )
    assert nds_strength(screw).strength.lateral == pytest.approx(printed, abs=0.5)


# NDS 2018 table 12.2B, 2850 G^2 D (second hand; all five cells fit truncation: within 1)
@pytest.mark.parametrize(
    ("number", "gravity", "printed"),
    [("10", 0.50, 135), ("8", 0.42, 82), ("14", 0.55, 208), ("14", 0.50, 172), ("14", 0.42, 121)],
)
def test_withdrawal_is_the_printed_value_times_thread_in_the_stud(
    number: str, gravity: float, printed: int
) -> None:
    size = load_tables().screws[number]
    held = nds_strength(in_place(size, embedment=3.0, stud_gravity=gravity)).strength.withdrawal
    assert held / 3.0 == pytest.approx(printed, abs=1.0)


def test_only_the_thread_in_the_stud_counts_and_a_lags_tip_does_not() -> None:
    # NDS 2018 table 12.2A, seen: 1/4 in lag screw, G 0.50: 225 lb an inch; tip 5/32 in
    whole = nds_strength(in_place(LAG, embedment=2.5)).strength.withdrawal
    assert whole == pytest.approx(225 * (2.5 - 5 / 32), abs=0.5 * 2.5)
    short = nds_strength(in_place(LAG, embedment=2.5, thread_length=2.0)).strength.withdrawal
    assert short == pytest.approx(225 * (2.0 - 5 / 32), abs=0.5 * 2.0)


# NDS 2018 12.1.5.6 and table 12L footnote 3 (from memory)
@pytest.mark.parametrize("diameters", [6.01, 8.0, 9.99, 10.0, 12.0])
def test_short_penetration_counts_by_its_bearing_length_alone(diameters: float) -> None:
    # NDS 12.3.5.3 (from memory): l_m = p from 10 D on, p - D below; no further factor (AWC FAQ,
    # "Does the penetration depth factor apply ...", 2006, seen)
    p = diameters * TEN.diameter
    found = nds_strength(in_place(embedment=p)).strength
    assert "penetration" not in found.factors
    joint = Joint(
        diameter=0.152, side_bearing=4650.0, main_bearing=4650.0, side_length=1.5,
        main_length=p if diameters >= 10.0 else p - TEN.diameter, gap=0.0, bending_yield=80_000.0,
    )  # fmt: skip
    loads = reference_lateral(joint, nominal_diameter=TEN.diameter, angle=90.0)
    assert found.lateral == pytest.approx(loads.value)


def test_blocking_is_loaded_across_its_grain() -> None:
    # NDS 12.3.3 (second hand), D >= 1/4 in: 6100 G^1.45 / sqrt(D) in place of 11200 G
    studs, blocking = (
        nds_strength(in_place(LAG, backing=backing, embedment=2.5)).strength.lateral
        for backing in (Backing.STUDS, Backing.BLOCKING)
    )
    assert blocking < studs
    ten = [
        nds_strength(in_place(backing=backing)).strength.lateral
        for backing in (Backing.STUDS, Backing.BLOCKING)
    ]
    assert ten[0] == ten[1]  # under 1/4 in the grain plays no part


def test_a_gap_costs_what_the_general_dowel_equations_say() -> None:
    # AWC TR12 table 1-1, mode IV, worked out here: A P^2 + g P - 2 M = 0 with A = 1/q
    q = 4650.0 * 0.152
    moment = 80_000.0 * 0.152**3 / 6.0
    for gap in (0.5, 0.625):
        yields = (-gap + math.sqrt(gap**2 + 4 * 2 * moment / q)) / (2 / q)
        strength = nds_strength(in_place(gap=gap)).strength
        assert strength.mode == "IV"
        assert strength.gap == gap
        assert strength.lateral == pytest.approx(yields / 2.2)


def test_a_gap_never_helps() -> None:
    values = [
        nds_strength(in_place(gap=gap)).strength.lateral for gap in (0.0, 0.25, 0.5, 1.0, 4.0)
    ]
    assert values == sorted(values, reverse=True)
    assert values[-1] > 0.0


def test_the_weaker_of_both_joints_counts() -> None:
    between = in_place(gap=0.0, outer_board=0.75, wall_board=1.5, next_board=1.5, stud_gravity=0.67)
    alone = between._replace(next_board=None)
    assert nds_strength(between).lateral < nds_strength(alone).lateral
    # over a wide gap the joint at the wall governs whatever the next board is
    wide = between._replace(gap=2.0)
    assert nds_strength(wide).lateral == nds_strength(wide._replace(next_board=None)).lateral


def test_the_lesser_of_thread_and_head_counts() -> None:
    # NDS 2018 table 12.2F (second hand): G 0.50, D_H 0.312, 1 in: 132 lb
    eight = load_tables().screws["8"]
    deep = nds_strength(in_place(eight, embedment=3.0, outer_board=1.0))
    assert deep.strength.pull_through == pytest.approx(132, abs=0.5)
    assert deep.axial == deep.strength.pull_through
    shallow = nds_strength(in_place(eight, embedment=1.1, outer_board=1.0))
    assert shallow.axial == shallow.strength.withdrawal


def test_a_lag_screw_pulls_through_by_its_washer() -> None:
    # NDS 2018 12.2.5 (from memory): 690 pi D_H G^2 t to 2.5 D_H
    held = nds_strength(in_place(LAG)).strength.pull_through
    assert held == pytest.approx(690 * math.pi * 0.734 * 0.25 * 1.5)


# NDS 2018 tables 11.3.3 and 11.3.4 (from memory)
@pytest.mark.parametrize(
    ("wet", "temperature", "factor"),
    [
        (False, 70.0, 1.0),
        (True, 70.0, 0.7),
        (False, 110.0, 0.8),
        (True, 110.0, 0.7 * 0.7),
        (True, 140.0, 0.7 * 0.5),
    ],
)
def test_moisture_and_heat_lower_both_values(wet: bool, temperature: float, factor: float) -> None:
    dry, served = nds_strength(in_place()), nds_strength(in_place(wet=wet, temperature=temperature))
    assert served.lateral == pytest.approx(factor * dry.lateral)
    assert served.axial == pytest.approx(factor * dry.axial)
    assert served.strength.lateral == dry.strength.lateral  # shown before the factors


@pytest.mark.parametrize("screw", [in_place(), in_place(LAG, gap=0.5, next_board=1.5)])
def test_shown_work_gives_the_same_strength(screw: ScrewInPlace) -> None:
    work = Workings(recording=True)
    assert show_nds_strength(screw, work) == nds_strength(screw)
    results = {step.result for step in work.steps}
    assert nds_strength(screw).strength.withdrawal in results
    assert nds_strength(screw).strength.pull_through in results


@pytest.mark.parametrize("bad", [math.nan, math.inf])
@pytest.mark.parametrize("key", ["embedment", "gap", "wall_board", "stud_gravity", "board_gravity"])
def test_what_is_no_number_is_refused(key: str, bad: float) -> None:
    with pytest.raises(ValueError, match="must be"):
        nds_strength(in_place(TEN, **{key: bad}))


PUBLISHED = PublishedScrew(
    size="maker's 1/4 in",
    diameter=0.25,
    head_diameter=0.5,
    length=5.0,
    thread_length=3.0,
    least_embedment=2.0,
    lateral=150.0,
    withdrawal=120.0,
    pull_through=200.0,
    largest_gap=0.5,
    source="invented for a test",
)


def test_published_values_are_taken_as_they_are() -> None:
    one = published_strength(PUBLISHED, thread=1.5, gap=0.5)
    assert (one.lateral, one.axial) == (150.0, 180.0)
    assert published_strength(PUBLISHED, thread=3.0, gap=0.5).axial == 200.0  # head pulls through
    assert "invented for a test" in one.strength.method
    assert replace(one.strength, mode="published") == one.strength
