"""The worked example of the docs: page, hand and program come to the same numbers.

Nothing in ``by_hand`` calls bracecalc: it is the arithmetic of docs/worked-example.md written out
once more, with the sources that the page names. ``BRACECALC_RENEW=1`` puts the numbers into the
page that its own formulas give; read the difference.
"""

from __future__ import annotations

import math
import os
from pathlib import Path

import pytest
from hand_page import equations, filled, given

from bracecalc import takeoff
from bracecalc.jobfile.read import read_job
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Job
from bracecalc.records.plan import Plan, Verdict
from bracecalc.tables.load import load_tables

DOCS = Path(__file__).parents[2] / "docs"
PAGE = DOCS / "worked-example.md"
SPOTS = {"FL": 0.0, "FR": 1 / 8, "RL": 1 / 16, "RR": 1 / 4}


@pytest.fixture(scope="module")
def page() -> str:
    return PAGE.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def job() -> Job:
    return read_job(DOCS / "worked-example.toml")


@pytest.fixture(scope="module")
def plan(job: Job) -> Plan:
    return make_plan(job, show_work=True)


def root(a: float, b: float, c: float) -> float:
    """The root above 0 of a P^2 + b P + c, by halving: no formula to get wrong."""
    low, high = 0.0, 1e4
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if a * middle**2 + b * middle + c < 0.0 else (low, middle)
    return low


def heights_and_boards() -> dict[str, float]:
    low, high = 0.25 + 80.625 + 0.125, 0.0 + 1.375 + 80.625
    out = {corner: 81.5 - 80.625 - spot for corner, spot in SPOTS.items()}
    a_mid = 23.125 - 2.75 - 2.125 / 2
    return {
        "low": low, "high": high, "z": 81.5,
        "m": 0.5, "m_worst": 0.5 - 2 * 0.125, "m_rss": 0.5 - math.hypot(0.125, 0.125),
        **{f"e_{corner}": extension for corner, extension in out.items()},
        "turns_FL": 0.875 * 16,
        "gap_rear": 24 - 23.125, "n": 2.0, "overlap": 2 * 1.5 - 0.875,
        "a_mid": a_mid, "overlap_left": 2.125 - 0.0625 - 0.125 * 81.5 / a_mid,
        "L_b": 33.25 - 0.25,
    }  # fmt: skip


def force() -> dict[str, float]:
    resists, doors = 0.6 * 260 * 9, 30 * 15 + 40 * 16
    a = 23.125 - 2.75 - 2.125
    return {
        "M_stab": resists, "M_doors": doors, "M_child": 60 * 32.0, "a": a,
        "F": (doors + 1920 - resists) / a,
        "F_service": 0.0,  # 1090 is less than 1404: it stands by itself
        "F_pull": (doors + 560 - resists) / a,
        "F_mid": (doors + 1920 - resists) / (a + 2.125 / 2),
    }  # fmt: skip


def one_screw() -> dict[str, float]:
    q, yields = 3350 * 0.171, 80_000 * 0.171**3 / 6
    stud, board = 1.5 - 0.216, 1.5
    in_stud, in_board = q * stud**2 / 4, q * board**2 / 4
    quadratics = {
        "II": (2 / (4 * q), board / 2 + 0.5 + stud / 2, -in_board - in_stud),
        "IIIm": (3 / (4 * q), 0.5 + stud / 2, -yields - in_stud),
        "IIIs": (3 / (4 * q), board / 2 + 0.5, -in_board - yields),
        "IV": (1 / q, 0.5, -2 * yields),
    }
    found = {"P_Im": q * stud, "P_Is": q * board}
    for mode, (a, b, c) in quadratics.items():
        found |= {f"A_{mode}": a, f"B_{mode}": b, f"C_{mode}": c, f"P_{mode}": root(a, b, c)}
    crushed = 16_600 * 0.42**1.84  # 3364, to the nearest 50
    assert 3325 < crushed < 3375
    return {
        **found,
        "L": 5.0, "p": 1.5, "p_least": 1.5, "thread": 10 / 3,
        "F_e": 3350.0, "l_m": stud, "l_s": board, "q": q, "M_y": yields, "K_D": 2.21,
        "Z": found["P_IV"] / 2.21,
        "Z_bare": root(1 / q, 0.0, -2 * yields) / 2.21,
        "w_p": 2850 * 0.42**2 * 0.216,
        "W_p": 2850 * 0.42**2 * 0.216 * 1.5,
        "W_H": 690 * math.pi * 0.414 * 0.42**2 * 2.5 * 0.414,
    }  # fmt: skip


def stack(F: float, F_mid: float, screw: dict[str, float]) -> dict[str, float]:
    share = (16.625 + 32.75 / 4 - 6.375) / 16  # of the second stud, on the lever of the first
    M = F * share * (3.0 + 0.25)
    y_1, y_2 = 3.5 - 0.25 - 0.5625, 3.5 - 0.25 - 2.9375
    T_1, V = M / (y_1 + y_2**2 / y_1), F * share / 2
    Z_adj, W_adj = screw["Z"] * 1.25, screw["W_p"] * 1.25
    R, angle = math.hypot(T_1, V), math.atan2(T_1, V)
    # 12.4-1 turned round: 1 / Z_alpha = cos^2 / Z' + sin^2 / (W' p)
    Z_alpha = 1 / (math.cos(angle) ** 2 / Z_adj + math.sin(angle) ** 2 / W_adj)
    M_b = F * 0.75 * (33.0 - 22.375)  # the overlap ends 1/4 in before the niche does
    holes = sum(
        (height + 0.108 - 1.75) ** 3 / 3 - (height - 0.108 - 1.75) ** 3 / 3
        for height in (0.5625, 2.9375)
    )
    I = 1.5 * (2 * 1.75**3 / 3 - holes)  # noqa: E741 - the symbol of the page
    V_r = 135 * 1.25 * 1.5 * 2.9375 / 1.5 * (2.9375 / 3.5) ** 2
    pressed = (T_1 + T_1 * y_2 / y_1) / (0.75 * 1.5 / 2)
    uses = {
        "u": R / Z_alpha, "u_alone": max(V / Z_adj, T_1 / W_adj),
        "u_b": M_b * 1.75 / I / (875 * 1.25), "u_v": F / V_r, "u_edge": pressed / 2 / 425,
    }  # fmt: skip
    return {
        **uses,
        "x_F": 24.8125, "F_2": F * share, "F_1": F - F * share, "e": 3.0, "M": M,
        "y_1": y_1, "y_2": y_2, "T_1": T_1, "V": V, "Z_adj": Z_adj, "W_adj": W_adj, "R": R,
        "Z_alpha": Z_alpha, "F_holds": F * Z_alpha / R, "M_b": M_b, "I": I, "f_b": M_b * 1.75 / I,
        "V_r": V_r, "p_edge": pressed, "M_mid": F_mid * share * (3.0 - 2.125 / 2 + 0.25),
        "used": max(uses.values()), "cut": 66.25, "left_over": 29.75, "board_feet": 16 / 3,
    }  # fmt: skip


def by_hand() -> dict[str, float]:
    pushed, screw = force(), one_screw()
    return {
        **heights_and_boards(), **pushed, **screw, **stack(pushed["F"], pushed["F_mid"], screw)
    }  # fmt: skip


def by_program(plan: Plan) -> dict[str, float]:
    """What the plan and its shown work have of the page, by the page's symbol."""
    assert plan.legs is not None
    assert plan.stack is not None
    assert plan.strength is not None
    assert plan.restraint.target_height is not None
    band, row, one = plan.reach_band, plan.screws[1], plan.strength
    cases = {case.name.value: case for case in plan.demand.cases}
    at = {"FL": "front_left", "FR": "front_right", "RL": "rear_left", "RR": "rear_right"}
    legs = {short: plan.legs[corner] for short, corner in at.items()}
    margins = {"m": legs["FL"].margin.nominal, "m_worst": legs["FL"].margin.worst_case}
    capacity = cases["climb"].capacity
    assert capacity is not None
    return {
        **{f"e_{short}": leg.extension for short, leg in legs.items()},
        **margins,
        **{symbol: result_of(plan, *place) for symbol, place in STEPS.items()},
        "m_rss": legs["FL"].margin.rss, "turns_FL": legs["FL"].turns or math.nan,
        "low": band.low, "high": band.high, "z": plan.restraint.target_height,
        "gap_rear": plan.stack.rear_gap, "n": plan.stack.boards,
        "overlap": plan.stack.overlap, "L_b": plan.stack.length, "e": sum(plan.stack.thicknesses),
        "F": cases["climb"].force, "F_service": cases["service"].force,
        "F_pull": cases["pull"].force,
        "L": row.length, "p": row.embedment, "h_1": row.offsets[0][1], "h_2": row.offsets[1][1],
        "Z": one.lateral, "W_p": one.withdrawal, "W_H": one.pull_through, "g": one.gap,
        "F_holds": capacity, "used": cases["climb"].utilisation or math.nan,
    }  # fmt: skip


ON_WALL = "One screw: lateral, first board against stud"
BETWEEN = "One screw: lateral, outermost board against the next"
LEAST = "reference lateral value, least of the yield modes"
STUD, BOARD = "The stack: governing stud", "The stack: outermost board"
STEPS = {
    "M_stab": ("Demand: service", "the empty appliance's weight resists tipping"),
    "M_doors": ("Demand: service", "door or drawer 1, open with its contents"),
    "M_child": ("Demand: climb", "a child at the outer edge of an open door"),
    "l_m": (ON_WALL, "bearing length in the stud"),
    "F_e": (ON_WALL, "bearing strength of the stud, along its grain"),
    "Z_bare": (BETWEEN, LEAST),
    "w_p": ("One screw: withdrawal", "withdrawal per inch of thread"),
    "M": (STUD, "moment that turns the stack up about its top edge"),
    "T_1": (STUD, "tension of the lowest row, from the moment about the top edge"),
    "Z_alpha": (STUD, "resistance of one screw to tension and shear together"),
    "u": (STUD, "use of the lowest screw, tension and shear together"),
    "u_alone": (
        STUD,
        "use of a screw by shear alone or tension alone; the greater of both uses counts",
    ),
    "p_edge": (STUD, "greatest pressure under the top edge, the mean is half of it"),
    "f_b": (BOARD, "bending stress, load on the edge, holes taken off"),
    "V_r": (BOARD, "shear that the board holds beside its screws at 22.375 in"),
}


def result_of(plan: Plan, part: str, meaning: str) -> float:
    steps = {(step.part, step.meaning): step.result for step in plan.steps}
    return steps[part, meaning]


def test_the_page_says_what_its_formulas_come_to(page: str) -> None:
    if os.environ.get("BRACECALC_RENEW"):
        PAGE.write_text(filled(page), encoding="utf-8", newline="\n")
        return
    assert page == filled(page)


def test_hand_and_page(page: str) -> None:
    hand = by_hand()
    printed = {one.symbol: one.result for one in equations(page)}
    assert len(printed) == len(equations(page)), "a symbol stands for two things"
    assert set(printed) == set(hand)
    for symbol, value in hand.items():
        assert printed[symbol] == pytest.approx(value, rel=5e-5, abs=1e-9), symbol


def test_hand_and_program(page: str, plan: Plan) -> None:
    hand = {**given(page), **by_hand()}
    for symbol, value in by_program(plan).items():
        assert value == pytest.approx(hand[symbol], rel=1e-9), symbol


def test_what_is_given_is_what_the_job_has(page: str, job: Job) -> None:
    assert job.unit.doors is not None
    assert job.wall.stud_spots is not None
    unit, rules, (door,) = job.unit, job.rules, job.unit.doors
    has = {
        "D_n": job.niche.depth[0], "W_n": job.niche.width[0], "S": job.niche.lowest_soffit,
        **{f"z_{at}": z for at, z in zip(SPOTS, job.floor.spots, strict=True)},
        "g": job.wall.layers[0].thickness, "x_1": job.wall.stud_spots[0],
        "x_2": job.wall.stud_spots[1], "H": unit.height, "w": unit.width, "D_u": unit.depth,
        "T": unit.leg_travel_front, "pitch": unit.leg_pitch, "W": unit.weight,
        "x_W": unit.cg_behind_front_legs, "f": unit.front_legs_behind_front,
        "W_d": door.own_weight, "W_c": door.contents, "r": door.reach, "r_0": door.closed_reach,
        "edge": door.edge,
        "e_lo": rules.leg_least, "c_in": rules.roll_in, "o_least": rules.overlap,
        "p_rule": rules.embedment, "rise": rules.rear_rise, "ease": rules.pivot_ease,
        "u_t": rules.tape_uncertainty, "u_h": rules.height_uncertainty, "b_s": job.wall.stud.width,
    }  # fmt: skip
    screw, wood = load_tables().screws["12"], load_tables().species["Spruce-Pine-Fir"]
    lumber = load_tables().lumber["2x4"]
    has |= {
        "t": lumber.thickness, "d": lumber.width, "h_1": 0.5625, "h_2": 2.9375,
        "D": screw.diameter, "D_r": screw.root_diameter, "D_H": screw.head_diameter,
        "F_yb": screw.bending_yield, "G": wood.specific_gravity, "F_b": wood.bending,
        "F_v": wood.shear, "F_cp": wood.compression_across, "C_D": 1.25,
    }  # fmt: skip
    assert given(page) == pytest.approx(has, rel=1e-9)


def test_what_the_page_says_in_words(page: str, plan: Plan) -> None:
    climb = next(case for case in plan.demand.cases if case.name.value == "climb")
    assert plan.verdict is Verdict.HOLDS
    assert plan.stack is not None
    assert plan.strength is not None
    assert (plan.stack.board, plan.strength.mode) == ("2x4", "IV")
    assert plan.demand.governs is climb.name
    assert "**the screws of the outermost board**" in page
    assert climb.limited_by == "the screws of the outermost board"
    assert "must hold\n88 lbf, holds 116 lbf, 76% used" in page
    assert (math.ceil(climb.force), math.floor(climb.capacity or 0)) == (88, 116)
    assert math.ceil(100 * (climb.utilisation or 0)) == 76
    assert [(row.size, row.length, row.count) for row in plan.screws] == [
        ("10", 3.5, 2),
        ("12", 5.0, 4),
    ]


def test_what_is_bought(job: Job) -> None:
    (line,) = takeoff([job]).lumber
    (stick,) = line.plan.sticks
    hand = by_hand()
    assert (stick.stick.length, stick.count, stick.cuts) == (96 * 32, 1, ((33 * 32, 2),))
    assert stick.left_over / 32 == hand["left_over"]
