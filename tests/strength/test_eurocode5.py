"""One coach screw by Eurocode 5, in N and mm from the standard's own equations.

EN 1995-1-1:2004+A1 8.2.2 (seen in a public tutorial), 8.5.2, 8.7.1 and 8.7.2 (from memory);
table 3.1 seen in ICE Manual of Structural Design: Buildings, table 19.9.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from jobs import job, moved

from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CarriedScrew, Loads, Method, Screws, Stud
from bracecalc.records.plan import CaseName, Verdict
from bracecalc.strength.eurocode5 import board_strength, ec5_strength, modification
from bracecalc.strength.nds import ScrewInPlace
from bracecalc.strength.workings import Workings
from bracecalc.tables.load import load_tables

MM, LBF = 25.4, 4.4482216152605
TABLES = load_tables()
COACH = TABLES.screws["8 mm"]  # d 8 mm, root 5.6 mm, f_u 400 N/mm2, washer 24 mm
EC5 = job(loads=Loads(method=Method.EC5))  # C24: rho_k 350, f_c,90,k 2.5
DENSITY, CRUSHING, GAMMA = 350.0, 2.5, 1.3


def in_place(**changes: Any) -> ScrewInPlace:
    given: dict[str, Any] = {
        "size": COACH,
        "thread_length": 100 / MM,
        "embedment": 80 / MM,
        "gap": 0.0,
        "wall_board": 38 / MM,
        "outer_board": 38 / MM,
        "next_board": None,
        "board_gravity": 0.42,
        "stud_gravity": 0.42,
    }
    return ScrewInPlace(**{**given, **changes})


def strength_of(screw: ScrewInPlace) -> tuple[float, float, float]:
    """Lateral, withdrawal and pull-through as the plan shows them, in N."""
    shown = ec5_strength(screw, EC5.loads, TABLES, Workings()).strength
    return shown.lateral * LBF, shown.withdrawal * LBF, shown.pull_through * LBF


def withdrawal_by_hand(thread: float) -> float:
    # 8.39: f_ax,k = 0.52 d^-0.5 l_ef^-0.1 rho^0.8, k_d = min(d/8, 1); 8.38 at 90 degrees
    strength: float = 0.52 * 8.0**-0.5 * thread**-0.1 * DENSITY**0.8
    return strength * 8 * thread


def johansen_by_hand(side: float, main: float, axial: float) -> float:
    """Eq. 8.6 (a) to (f), board across its grain, stud along it, holes drilled."""
    d = 1.1 * 5.6
    along = 0.082 * (1 - 0.01 * d) * DENSITY
    f1, f2 = along / (1.35 + 0.015 * d), along
    beta, ratio = f2 / f1, main / side
    moment = 0.3 * 400.0 * d**2.6
    rope = axial / 4.0
    plain = [
        f1 * side * d,
        f2 * main * d,
        f1 * side * d / (1 + beta)
        * (math.sqrt(beta + 2 * beta**2 * (1 + ratio + ratio**2) + beta**3 * ratio**2)
           - beta * (1 + ratio)),
        1.05 * f1 * side * d / (2 + beta)
        * (math.sqrt(2 * beta * (1 + beta)
                     + 4 * beta * (2 + beta) * moment / (f1 * d * side**2)) - beta),
        1.05 * f1 * main * d / (1 + 2 * beta)
        * (math.sqrt(2 * beta**2 * (1 + beta)
                     + 4 * beta * (1 + 2 * beta) * moment / (f1 * d * main**2)) - beta),
        1.15 * math.sqrt(2 * beta / (1 + beta)) * math.sqrt(2 * moment * f1 * d),
    ]  # fmt: skip
    # rope effect on (c) to (f), no more than the Johansen part itself
    return min(value + (min(rope, value) if mode >= 2 else 0.0) for mode, value in enumerate(plain))


def test_withdrawal_leaves_the_point_out() -> None:
    _, withdrawal, _ = strength_of(in_place())
    assert withdrawal == pytest.approx(withdrawal_by_hand(80 - 8), rel=1e-4)


def test_thread_of_less_than_six_diameters_holds_nothing() -> None:
    # 8.7.2(3): l_ef of 6 d at least, seen in a worked example
    assert strength_of(in_place(embedment=(48 + 8 + 0.1) / MM))[1] > 0.0
    assert strength_of(in_place(embedment=(48 + 8 - 0.1) / MM))[1] == 0.0


def test_the_washer_presses_three_times_the_strength_across_the_grain() -> None:
    # 8.5.2(2): 3 f_c,90,k over the washer less its hole
    _, _, pull_through = strength_of(in_place())
    assert pull_through == pytest.approx(3 * 2.5 * math.pi / 4 * (24**2 - 8**2), rel=1e-4)


def test_lateral_by_the_equations_of_johansen() -> None:
    lateral, withdrawal, pull_through = strength_of(in_place())
    by_hand = johansen_by_hand(38.0, 72.0, min(withdrawal, pull_through))
    assert lateral == pytest.approx(by_hand, rel=1e-4)


def test_over_a_gap_the_rope_effect_is_left_out_and_the_value_falls() -> None:
    bare, gapped = strength_of(in_place()), strength_of(in_place(gap=12.5 / MM))
    assert gapped[0] < bare[0]
    # mode f over a gap: A P^2 + g P - 2 M = 0 with A = 1/(2 q1) + 1/(2 q2), times 1.15, no rope
    d = 1.1 * 5.6
    along = 0.082 * (1 - 0.01 * d) * DENSITY
    q1, q2 = along / (1.35 + 0.015 * d) * d, along * d
    a, moment = 0.5 / q1 + 0.5 / q2, 0.3 * 400.0 * d**2.6
    mode_f = 1.15 * (-12.5 + math.sqrt(12.5**2 + 8 * a * moment)) / (2 * a)
    assert gapped[0] <= mode_f * 1.0001


def test_design_values_are_over_gamma() -> None:
    one = ec5_strength(in_place(), EC5.loads, TABLES, Workings())
    assert one.lateral == pytest.approx(one.strength.lateral / GAMMA)
    least = min(one.strength.withdrawal, one.strength.pull_through)
    assert one.axial == pytest.approx(least / GAMMA)


@pytest.mark.parametrize("number", ["10", "1/4"])
def test_a_screw_that_the_standard_does_not_cover_holds_nothing(number: str) -> None:
    one = ec5_strength(in_place(size=TABLES.screws[number]), EC5.loads, TABLES, Workings())
    assert (one.lateral, one.axial) == (0.0, 0.0)
    assert one.strength.mode == "not covered"


# EN 1995-1-1 table 3.1, solid timber
@pytest.mark.parametrize(
    ("case", "service_class", "k_mod"),
    [
        ("service", 1, 0.70),
        ("climb", 1, 0.90),
        ("earthquake", 2, 1.10),
        ("minimum", 1, 0.90),
        ("climb", 3, 0.70),
    ],
)
def test_modification_factor(case: str, service_class: int, k_mod: float) -> None:
    given = job(loads=Loads(method=Method.EC5, service_class=service_class))
    assert modification(given, CaseName(case)) == k_mod


def test_the_job_may_give_the_factor() -> None:
    given = job(loads=Loads(method=Method.EC5, load_duration={"climb": 0.8}))
    assert modification(given, CaseName("climb")) == 0.8


def test_the_job_may_not_give_more_than_the_standard_has() -> None:
    given = job(loads=Loads(method=Method.EC5, load_duration={"climb": 1.6}))
    assert modification(given, CaseName("climb")) == 1.1  # table 3.1, instantaneous


def test_board_strength_is_that_of_the_class_over_its_gamma() -> None:
    # EN 338, C24: f_m,k 24, f_v,k 4.0 N/mm2; gamma_M 1.3, EN 1995-1-1 table 2.3 (from memory)
    board = board_strength(EC5.loads, TABLES, None)
    assert board.bending == pytest.approx(24 / 1.3 * 145.0377, rel=1e-6)
    assert board.shear == pytest.approx(4 / 1.3 * 145.0377, rel=1e-6)


WIDE_STUDS = moved(EC5, wall={"stud": Stud(width=3.0)})


def test_a_whole_plan_names_the_standard_and_uses_metric_screws() -> None:
    plan = make_plan(WIDE_STUDS)
    assert plan.strength is not None
    assert "EN 1995-1-1" in plan.strength.method
    assert plan.screws[-1].size.endswith("mm")
    for case in plan.demand.cases:
        assert modification(EC5, case.name) == case.C_D
        assert case.capacity is not None
        assert case.capacity > 0.0


def test_where_no_covered_screw_fits_there_is_no_screw_and_no_capacity() -> None:
    # edge distance of a coach screw, 3 d: even 6 mm needs 18 mm of a stud's half width of 19
    plan = make_plan(EC5)
    assert plan.screws == ()
    assert plan.verdict is Verdict.FAILS
    assert "no-stock-screw-long-enough" in {finding.code for finding in plan.findings}
    assert all(case.capacity is None for case in plan.demand.cases)
    assert [case.C_D for case in plan.demand.cases] == [0.9, 0.7, 0.9, 0.9]  # k_mod all the same


def test_number_size_screws_alone_hold_nothing_by_this_standard() -> None:
    carried = Screws(carried=(CarriedScrew(size="10", lengths=(3.0, 3.5, 4.0)),))
    for given in (EC5, WIDE_STUDS, moved(EC5, unit={"depth": 24.5})):
        plan = make_plan(replace(given, screws=carried))
        assert plan.verdict is Verdict.FAILS
        assert all(case.capacity is None for case in plan.demand.cases)
