"""Three whole jobs worked out a second time, from the job file to the capacity.

Nothing here calls a formula of bracecalc: every equation is written out again from its source.
NDS 2018 12.3.1 with AWC TR12 table 1-1 (yield modes over a gap), 12.2-1, 12.2.5, 12.4-1, 11.3-1;
EN 1995-1-1:2004 8.2.2, 8.5.2, 8.7.1, 8.7.2 and EN 338 (C24); all from memory, as are the screw
sizes (NDS Appendix L, ASME B18.21.1, DIN 571, ISO 7093). With two studs the shares are plain
equilibrium. The jobs are invented.
"""

from __future__ import annotations

import math
from itertools import combinations_with_replacement, pairwise

import pytest
from bracecalc.data import demo_path

from bracecalc.jobfile.read import parse_job, read_job
from bracecalc.planning.plan import make_plan
from bracecalc.records.plan import LoadCase, Plan, RestraintKind

EXACT = 1e-9
LAGS = """
title = "Quillet Yard 7D, kitchen (invented for a test)"
[niche]
width = '33 1/4 in'
depth = ['24 in', '23 7/8 in']
[floor]
front_right = '1/8 in'
rear_left = '3/16 in'
rear_right = '1/4 in'
path_high = '3/8 in'
[wall]
layers = [{ material = "gypsum board", thickness = '1/2 in' }]
stud_spots = ['6 3/8 in', '22 3/8 in']
[unit]
height = '80 5/8 in'
height_overall = '80 7/8 in'
width = '32 3/4 in'
depth = '23 1/8 in'
leg_travel_front = '1 3/8 in'
leg_travel_rear = '1 1/2 in'
leg_pitch = '1/16 in'
weight = '220 lb'
cg_height = '43 in'
cg_behind_front_legs = '9 1/2 in'
front_legs_behind_front = '2 3/4 in'
doors = [{ own_weight = '36 lb', contents = '22 lb', reach = '14 in', closed_reach = '-1 in', edge = '31 in' }]
[boards]
size = "2x8"
[screws]
carried = [{ size = "10", lengths = ['3 1/2 in'] }, { size = "1/4", lengths = ['5 1/2 in', '6 in'] }]
[loads]
dynamic_factor = 1.25
pull = '10 lbf'
pull_height = '56 in'
"""  # noqa: E501 - an inline table of TOML stands on one line


def least_root(q_s: float, q_m: float, *, l_s: float, l_m: float, g: float, M: float,
               factors: tuple[float, float, float] = (1.0, 1.0, 1.0)) -> float:  # fmt: skip
    """Least load of the six modes: A P^2 + B P + C = 0 for II, III_m, III_s and IV."""
    side, main = q_s * l_s**2 / 4, q_m * l_m**2 / 4
    rows = (
        (1.0, 1 / (4 * q_s) + 1 / (4 * q_m), l_s / 2 + g + l_m / 2, -side - main),
        (factors[0], 1 / (2 * q_s) + 1 / (4 * q_m), g + l_m / 2, -M - main),
        (factors[1], 1 / (4 * q_s) + 1 / (2 * q_m), l_s / 2 + g, -side - M),
        (factors[2], 1 / (2 * q_s) + 1 / (2 * q_m), g, -2 * M),
    )
    bent = [k * (-b + math.sqrt(b**2 - 4 * a * c)) / (2 * a) for k, a, b, c in rows]
    return min(q_s * l_s, q_m * l_m, *bent)


def shares(studs: tuple[float, float], load_at: float) -> tuple[float, float]:
    """Forces of two studs on a stack with one pound on it: sum 1, no moment about the first."""
    second = (load_at - studs[0]) / (studs[1] - studs[0])
    return 1.0 - second, second


def governing(studs: tuple[float, float], left: float, right: float) -> float:
    """The greatest share: the force at a quarter point of the overlap, or at its middle."""
    quarter = (right - left) / 4
    places = (left + quarter, (left + right) / 2, right - quarter)
    return max(max(map(abs, shares(studs, at))) for at in places)


def row_tensions(moment: float, heights: tuple[float, ...], board_width: float) -> list[float]:
    """Tension of each row in proportion to its depth y below the pivot: sum(T y) is the moment."""
    depths = [board_width - height - 0.25 for height in heights]
    tensions = [moment * depth / sum(one**2 for one in depths) for depth in depths]
    assert sum(t * y for t, y in zip(tensions, depths, strict=True)) == pytest.approx(moment)
    return tensions


def case_of(plan: Plan, name: str) -> LoadCase:
    return next(case for case in plan.demand.cases if case.name == name)


# a stack of two boards with lag screws, NDS

H, H_OVER, UNIT_DEPTH, FRONT_LEGS = 80.625, 80.875, 23.125, 2.75
SPOTS = {"front_left": 0.0, "front_right": 0.125, "rear_left": 0.1875, "rear_right": 0.25}
TRAVELS = {"front_left": 1.375, "front_right": 1.375, "rear_left": 1.5, "rear_right": 1.5}
STUDS = (6.375, 22.375)
T, TALL, GYPSUM, G = 1.5, 7.25, 0.5, 0.42
D, D_R, F_YB, TIP, WASHER, WASHER_THICK = 0.25, 0.173, 70_000.0, 5 / 32, 0.734, 0.065
E_BOARD = 1_400_000.0


@pytest.fixture(scope="module")
def lags() -> Plan:
    return make_plan(parse_job(LAGS, where="7d.toml"))


def test_lags_reach_band(lags: Plan) -> None:
    low = max(max(SPOTS.values()) + H + 0.125, 0.375 + H_OVER + 0.125)
    high = min(SPOTS[one] + TRAVELS[one] for one in SPOTS) + H
    assert (lags.reach_band.low, lags.reach_band.high) == pytest.approx((low, high), rel=EXACT)
    # 81-3/8 to 82: the middle, 81-11/16, lies halfway between two marks of 1/8 in
    assert lags.restraint.target_height in (81.625, 81.75)


def test_lags_leg_extensions_turns_and_margins(lags: Plan) -> None:
    target = lags.restraint.target_height
    assert target is not None
    assert lags.legs is not None
    for corner, leg in lags.legs.items():
        out = target - H - SPOTS[corner]
        room = min(out - 0.125, TRAVELS[corner] - out)
        assert leg.extension == pytest.approx(out, rel=EXACT)
        assert leg.turns == pytest.approx(out * 16, rel=EXACT)
        assert leg.margin.nominal == pytest.approx(room, rel=EXACT)
        assert leg.margin.worst_case == pytest.approx(room - 0.125 - 0.125, abs=EXACT)
        assert leg.margin.rss == pytest.approx(room - math.hypot(0.125, 0.125), abs=EXACT)


def test_lags_stack_and_overlap(lags: Plan) -> None:
    stack = lags.stack
    assert stack is not None
    gap = 24.0 - UNIT_DEPTH  # the greatest reading
    count = min(n for n in range(1, 9) if n * T - gap - 0.0625 >= 2.0)
    assert stack.boards == count == 2
    assert stack.rear_gap == pytest.approx(gap, rel=EXACT)
    assert stack.overlap == pytest.approx(count * T - gap, rel=EXACT)
    assert stack.length == 33.25 - 2 * 0.125


def test_lags_embedments_are_the_least_that_do(lags: Plan) -> None:
    inner, outer = lags.screws
    assert inner.embedment == pytest.approx(3.5 - T - GYPSUM, rel=EXACT)
    assert outer.embedment == pytest.approx(5.5 - 2 * T - GYPSUM - WASHER_THICK, rel=EXACT)
    # thread L/2 + 1/2 fills it
    assert outer.embedment <= outer.thread_length == 3.25
    assert outer.tip_to_far_side == pytest.approx(3.5 - outer.embedment, rel=EXACT)
    assert {round(x, 9) for x, _ in outer.positions} == set(STUDS)


def lag_strength() -> tuple[float, float, float]:
    """Z, W times thread, head pull-through: lbf."""
    across = math.floor(6100 * G**1.45 / math.sqrt(D) / 50 + 0.5) * 50
    along = math.floor(11_200 * G / 50 + 0.5) * 50
    M, R_d = F_YB * D_R**3 / 6, (10 * D_R + 0.5) * 1.25  # K_D K_theta
    bearing = 5.5 - 2 * T - GYPSUM - WASHER_THICK - TIP
    at_wall = least_root(across * D_R, along * D_R, l_s=T, l_m=bearing, g=GYPSUM, M=M) / R_d
    between = least_root(across * D_R, across * D_R, l_s=T, l_m=T, g=0.0, M=M) / R_d
    lateral = min(at_wall, between)
    head = 690 * math.pi * WASHER * G**2 * min(T, 2.5 * WASHER)
    return lateral, 1800 * G**1.5 * D**0.75 * bearing, head


def test_lags_one_screw(lags: Plan) -> None:
    found = lags.strength
    assert found is not None
    got = (found.lateral, found.withdrawal, found.pull_through)
    assert got == pytest.approx(lag_strength(), rel=EXACT)


def group_share(heights: tuple[float, ...]) -> float:
    """C_g, NDS 2018 eq. 11.3-1, over the widest distance in the line."""
    n, ordered = len(heights), sorted(heights)
    apart = max(b - a for a, b in pairwise(ordered))
    stud, board = E_BOARD * 1.5 * 3.5, E_BOARD / 20 * T * 1.5
    u = 1 + 180_000 * D**1.5 * apart / 2 * (1 / stud + 1 / board)
    m, ratio = u - math.sqrt(u**2 - 1), min(stud, board) / max(stud, board)
    under = n * ((1 + ratio * m**n) * (1 + m) - 1 + m ** (2 * n))
    share: float = m * (1 - m ** (2 * n)) / under * (1 + ratio) / (1 - m)
    return share


@pytest.mark.parametrize(
    ("name", "C_D"), [("minimum", 1.25), ("service", 1.0), ("climb", 1.25), ("pull", 1.25)]
)
def test_lags_capacity(lags: Plan, name: str, C_D: float) -> None:
    case, heights = case_of(lags, name), tuple(z for _, z in lags.screws[1].offsets)
    side = (33.25 - 32.75) / 2
    share = governing(STUDS, side, 33.25 - side)
    shear = share / len(heights)
    lateral, withdrawal, head = lag_strength()
    across, pulled = lateral * group_share(heights) * C_D, min(withdrawal, head) * C_D
    capacity = across / shear  # by itself too: tension turns a load into the strong direction
    for tension in row_tensions(share * (2 * T + GYPSUM / 2), heights, TALL):
        load = math.hypot(tension, shear)
        cos2, sin2 = (shear / load) ** 2, (tension / load) ** 2
        together = pulled * across / (pulled * cos2 + across * sin2)  # eq. 12.4-1
        capacity = min(capacity, together / load, pulled / tension)
    assert case.C_D == C_D
    assert case.limited_by == "the screws of the outermost board"
    assert case.capacity == pytest.approx(capacity, rel=EXACT)
    assert case.utilisation == pytest.approx(case.force / capacity, rel=EXACT)


def test_lags_demand(lags: Plan) -> None:
    arm = UNIT_DEPTH - FRONT_LEGS - (2 * T - (24.0 - UNIT_DEPTH))  # to the boards' outer edge
    doors, steady = 22 * 14 + 36 * (14 + 1), 0.6 * 220 * 9.5
    climbed, pulled = doors + 1.25 * 60 * 31, doors + 10 * 56
    assert case_of(lags, "minimum").force == 60.0
    assert case_of(lags, "pull").force == max(0.0, (pulled - steady) / arm)
    assert case_of(lags, "service").force == max(0.0, (doors - steady) / arm) == 0.0
    assert case_of(lags, "climb").force == pytest.approx((climbed - steady) / arm, rel=EXACT)
    assert lags.demand.governs == "climb"


# the metric demo by Eurocode 5: two boards of 45 mm, coach screws 6 x 150; mm and N

MM, LBF = 25.4, 4.4482216152605
# 400 N/mm2 stands in the table as 58,015.1 psi, 3 in 100 million more
DENSITY, CRUSHING, F_U, GAMMA = 350.0, 2.5, 58_015.1 / 145.0377377302, 1.3
d, CORE, HEAD, EC_WASHER = 6.0, 4.2, 18.0, 1.6
B_MM, GAP_MM, STUDS_MM = 45.0, 12.5, (160.0, 570.0)


@pytest.fixture(scope="module")
def metric() -> Plan:
    return make_plan(read_job(demo_path("6a-metric.toml")))


def test_metric_band_stack_and_legs(metric: Plan) -> None:
    stack, legs, target = metric.stack, metric.legs, metric.restraint.target_height
    assert stack is not None
    assert legs is not None
    assert target is not None
    low = max(4 + 2048 + 3.175, 4 + 2054 + 3.175)
    assert metric.reach_band.low * MM == pytest.approx(low, rel=EXACT)
    assert metric.reach_band.high * MM == pytest.approx(2048 + 35, rel=EXACT)
    assert stack.boards == math.ceil((610 - 587 + 2 * MM + MM / 16) / B_MM) == 2
    assert stack.overlap * MM == pytest.approx(2 * B_MM - (610 - 587), rel=EXACT)
    for corner, floor in zip(legs, (0, 2, 1, 4), strict=True):
        assert legs[corner].extension * MM == pytest.approx(target * MM - 2048 - floor, rel=EXACT)


def test_metric_embedment(metric: Plan) -> None:
    inner, outer = metric.screws
    assert inner.embedment * MM == pytest.approx(100 - B_MM - GAP_MM, rel=EXACT)
    assert outer.embedment * MM == pytest.approx(150 - 2 * B_MM - GAP_MM - EC_WASHER, rel=EXACT)


def coach_strength() -> tuple[float, float, float]:
    """Characteristic lateral, withdrawal and washer capacity: N."""
    embedded = 150 - 2 * B_MM - GAP_MM - EC_WASHER
    d_ef, M = 1.1 * CORE, 0.3 * F_U * (1.1 * CORE) ** 2.6
    along = 0.082 * (1 - 0.01 * d_ef) * DENSITY
    across = along  # up to 6 mm the grain plays no part (8.7.1, from memory)
    l_ef = embedded - d
    f_ax = 0.52 * d**-0.5 * l_ef**-0.1 * DENSITY**0.8 * min(d / 8, 1)
    pulled, washer = f_ax * d * l_ef, 3 * CRUSHING * math.pi / 4 * (HEAD**2 - d**2)
    factors = (1.05, 1.05, 1.15)
    at_wall = least_root(across * d_ef, along * d_ef, l_s=B_MM, l_m=l_ef, g=GAP_MM, M=M,
                         factors=factors)  # fmt: skip
    # boards that touch: a rope effect of a quarter of the axial capacity, at most the load itself
    q, rope = across * d_ef, min(pulled, washer) / 4
    slender = 1.05 * q * B_MM / 3 * (math.sqrt(4 + 12 * M / (q * B_MM**2)) - 1)
    hinged = 1.15 * math.sqrt(2 * M * q)
    turned = q * B_MM / 2 * (math.sqrt(8) - 2)
    between = min(q * B_MM, *(one + min(rope, one) for one in (slender, hinged, turned)))
    return min(at_wall, between), pulled, washer


def test_metric_one_screw(metric: Plan) -> None:
    found = metric.strength
    assert found is not None
    got = [value * LBF for value in (found.lateral, found.withdrawal, found.pull_through)]
    assert got == pytest.approx(coach_strength(), rel=EXACT)


@pytest.mark.parametrize(("name", "k_mod"), [("minimum", 0.9), ("service", 0.7), ("climb", 0.9)])
def test_metric_capacity(metric: Plan, name: str, k_mod: float) -> None:
    case = case_of(metric, name)
    heights = tuple(z * MM for _, z in metric.screws[1].offsets)
    side = (845 - 832) / 2
    share = governing(STUDS_MM, side, 845 - side)
    depths = [145 - height - MM / 4 for height in heights]
    tension = share * (2 * B_MM + GAP_MM / 2) * max(depths) / sum(y**2 for y in depths)
    lateral, withdrawal, washer = coach_strength()
    assert len(heights) == 1
    axial, across = min(withdrawal, washer) * k_mod / GAMMA, lateral * k_mod / GAMMA
    use = math.hypot(tension / axial, share / across)  # (8.28)
    assert k_mod == case.C_D
    assert case.capacity is not None
    assert case.capacity * LBF == pytest.approx(1 / use, rel=EXACT)


# the packed soffit of the demo

STOCK = (1.5, 0.75, 23 / 32, 15 / 32, 7 / 32, 1 / 4, 1 / 8, 1 / 16)


@pytest.fixture(scope="module")
def packed() -> Plan:
    return make_plan(read_job(demo_path("2c-packed-soffit.toml")))


def test_packed_band_pieces_and_target(packed: Plan) -> None:
    soffit, packers = 83.75, packed.packers
    low, high = max(0.0625 + H + 0.125, 0.0625 + H_OVER + 0.125), H + 1.375
    assert packers is not None
    assert (packed.reach_band.low, packed.reach_band.high) == pytest.approx((low, high), rel=EXACT)
    for count in range(1, 5):  # fewest pieces, then nearest the middle of the band
        sums = {sum(pieces) for pieces in combinations_with_replacement(STOCK, count)}
        fitting = [one for one in sums if low <= soffit - one <= high]
        if fitting:
            break
    best = min(fitting, key=lambda one: abs(soffit - one - (low + high) / 2))
    assert len(packers.pieces) == count
    # 3/4 and 23/32 in plywood, and 3/4 in boards, come near to one another
    assert packers.total == pytest.approx(best, abs=EXACT)
    assert packed.restraint.kind is RestraintKind.PACKERS
    assert packed.restraint.target_height == pytest.approx(soffit - best, rel=EXACT)


def test_packed_embedments_are_the_shortest_that_reach(packed: Plan) -> None:
    assert packed.packers is not None
    depth, stocked = 0.0, [k / 4 for k in range(4, 49)]
    for row, piece in zip(packed.screws, packed.packers.pieces, strict=True):
        depth += piece
        got = row.length - depth - 0.625  # 5/8 in of gypsum board below the framing
        assert row.embedment == pytest.approx(got, rel=EXACT)
        assert 1.5 <= row.embedment <= 2 / 3 * row.length
        shorter = [one for one in stocked if one < row.length and one * 4 % 2 == 0]
        # what is stocked below reaches too little, or its thread doesn't fill the hold
        for one in shorter:
            hold = one - depth - 0.625
            assert hold < 1.5 or hold > 2 / 3 * one


def test_packed_legs_and_demand(packed: Plan) -> None:
    target = packed.restraint.target_height
    assert packed.legs is not None
    assert target is not None
    for leg, floor in zip(packed.legs.values(), (0.0, 0.0, 0.0625, 0.0625), strict=True):
        assert leg.extension == pytest.approx(target - H - floor, rel=EXACT)
    doors, steady = 22 * 14 + 36 * (14 - 1), 0.6 * 540 * 9.5
    arm = UNIT_DEPTH - FRONT_LEGS - 7.25 / 2  # the middle of packers cut from 2x8
    climb = max(0.0, (doors + 60 * 31 - steady) / arm)
    assert case_of(packed, "climb").force == pytest.approx(climb, rel=EXACT)
    assert all(case.capacity is None for case in packed.demand.cases)
