"""One whole stack worked out by hand: two boards, three studs, 1/4 in lag screws.

Every number below is written out from the published equations, with none of bracecalc's own
formulas: NDS 2018 12.3.1 and AWC TR12 table 1-1 (yield modes over a gap), 12.2-1 (lag screw
withdrawal), 12.2.5 (pull-through), 12.4-1 (both at once), 11.3-1 (C_g), 11.3 (C_D), 3.3 and 3.4
(the board); the statics are a free body. D_r 0.173 in and F_yb 70,000 psi of a 1/4 in lag screw
are confirmed by NDS table 12K as seen in a scan; the washer (0.734 x 0.065 in) is type A wide of
ASME B18.21.1, as seen; SPF G 0.42, F_b 875 psi, F_v 135 psi, E 1,400,000 psi from memory of NDS
2018 and its supplement.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import pytest
from jobs import job

from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CarriedScrew, Screws
from bracecalc.records.plan import Plan
from bracecalc.strength.parts import Overlap, actions

G = 0.42
D, D_R, F_YB = 0.25, 0.173, 70_000.0
WASHER, WASHER_THICK, TIP = 0.734, 0.065, 5 / 32
BOARD, BOARD_WIDTH, GYPSUM = 1.5, 3.5, 0.5
MODULUS = 1_400_000.0
STUDS = (4.0, 16.625, 29.0)
CONTACT = (0.25, 33.0)  # housing 32-3/4 in wide in the middle of a niche of 33-1/4 in


def to_50(value: float) -> float:
    return math.floor(value / 50.0 + 0.5) * 50.0


ACROSS = to_50(6100.0 * G**1.45 / math.sqrt(D))
ALONG = to_50(11_200.0 * G)


def lateral(side: float, main: float, main_bearing: float, gap: float) -> float:
    """Z of one lag screw: the least of six modes, each its own quadratic."""
    q_s, q_m, M = ACROSS * D_R, main_bearing * D_R, F_YB * D_R**3 / 6.0
    quadratics = [
        (1 / (4 * q_s) + 1 / (4 * q_m), side / 2 + gap + main / 2,
         -q_s * side**2 / 4 - q_m * main**2 / 4),
        (1 / (2 * q_s) + 1 / (4 * q_m), gap + main / 2, -M - q_m * main**2 / 4),
        (1 / (4 * q_s) + 1 / (2 * q_m), side / 2 + gap, -q_s * side**2 / 4 - M),
        (1 / (2 * q_s) + 1 / (2 * q_m), gap, -2 * M),
    ]  # fmt: skip
    loads = [(-b + math.sqrt(b * b - 4 * a * c)) / (2 * a) for a, b, c in quadratics]
    # nominal D of 1/4 in with D_r under 1/4 in: K_D K_theta, the board loaded across its grain
    return min(q_m * main, q_s * side, *loads) / ((10.0 * D_R + 0.5) * 1.25)


class Hand(NamedTuple):
    """What the hand calculation comes to, before load duration: lbf, in."""

    embedment: float
    lateral: float
    withdrawal: float
    pull_through: float


def one_screw(length: float) -> Hand:
    embedded = length - 2 * BOARD - GYPSUM - WASHER_THICK
    bearing = embedded - TIP
    at_wall = lateral(BOARD, bearing, ALONG, GYPSUM)
    between = lateral(BOARD, BOARD, ACROSS, 0.0)
    thread = min(embedded, min(6.0, length / 2 + 0.5)) - TIP
    held = 1800.0 * G**1.5 * D**0.75 * thread
    through = 690.0 * math.pi * WASHER * G**2 * min(BOARD, 2.5 * WASHER)
    return Hand(embedded, min(at_wall, between), held, through)


def group_action(heights: tuple[float, ...]) -> float:
    """C_g of two lag screws one above the other, NDS 2018 eq. 11.3-1."""
    count, apart = len(heights), max(heights) - min(heights)
    if count == 1:
        return 1.0
    assert count == 2
    stud, board = MODULUS * 1.5 * 3.5, MODULUS / 20.0 * BOARD * 1.5  # E A, E across is E / 20
    u = 1.0 + 180_000.0 * D**1.5 * apart / 2.0 * (1.0 / stud + 1.0 / board)
    m, ratio = u - math.sqrt(u * u - 1.0), min(stud / board, board / stud)
    below = count * ((1.0 + ratio * m**count) * (1.0 + m) - 1.0 + m ** (2 * count))
    share: float = m * (1.0 - m ** (2 * count)) / below * (1.0 + ratio) / (1.0 - m)
    return share


HOUSING = CONTACT[1] - CONTACT[0]
QUARTERS = (CONTACT[0] + HOUSING / 4, sum(CONTACT) / 2, CONTACT[1] - HOUSING / 4)
SETS = ((0, 1, 2), (0, 1), (0, 2), (1, 2))  # studs that the count may rest on


class OnSet(NamedTuple):
    """One pound on a set of studs, worst of the quarter points and the middle."""

    share: float
    moment: float  # of the board
    shear: float  # beside a stud


def on_set(chosen: tuple[int, ...]) -> OnSet:
    spots = [STUDS[index] for index in chosen]
    centroid = sum(spots) / len(spots)
    spread = sum((spot - centroid) ** 2 for spot in spots)
    share = moment = shear = 0.0
    for place in QUARTERS:
        # equal springs: F/m + F ec x / sum(x^2)
        shares = [1 / len(spots) + (place - centroid) * (x - centroid) / spread for x in spots]
        share = max(share, *map(abs, shares))
        at_left = (CONTACT[1] - place) / HOUSING  # of one pound spread to both ends
        for loads in ({place: 1.0}, {CONTACT[0]: at_left, CONTACT[1]: 1.0 - at_left}):
            for x in (*spots, *loads):
                # moment about x, and shear on either side of it, of all to its left
                turned = sum(force * max(0.0, x - at) for at, force in loads.items())
                held = sum(got * max(0.0, x - at) for at, got in zip(spots, shares, strict=True))
                moment = max(moment, abs(turned - held))
            for x in spots:
                for side in (-1e-9, 1e-9):
                    pushed = sum(force for at, force in loads.items() if at < x + side)
                    kept = sum(g for at, g in zip(spots, shares, strict=True) if at < x + side)
                    shear = max(shear, abs(pushed - kept))
    return OnSet(share, moment, shear)


def capacities(
    hand: Hand, heights: tuple[float, ...], duration: float, on: OnSet
) -> dict[str, float]:
    """Restraint force at which each part is used up."""
    lever = 2 * BOARD + GYPSUM / 2  # outer edge of the boards, and half of the gap
    depths = [BOARD_WIDTH - height - 0.25 for height in heights]
    squares = sum(depth**2 for depth in depths)
    tension, shear = on.share * lever * max(depths) / squares, on.share / len(heights)
    pulled = min(hand.withdrawal, hand.pull_through) * duration
    across = hand.lateral * group_action(heights) * duration
    load = math.hypot(tension, shear)
    cosine, sine = shear / load, tension / load
    resistance = pulled * across / (pulled * cosine**2 + across * sine**2)
    # and by itself, since tension turns the load into the screw's strong direction
    screws = min(resistance / load, across / shear, pulled / tension)
    # F_c,perp 425 psi, NDS supplement (from memory): under a washer and under the top edge
    washer = 425.0 * math.pi / 4 * (WASHER**2 - D**2) * (WASHER + 0.375) / WASHER / tension
    edge_pressure = sum(on.share * lever * depth / squares for depth in depths) / (0.75 * 1.5)
    area = BOARD_WIDTH - len(heights) * D
    middle = (BOARD_WIDTH**2 / 2 - sum(D * height for height in heights)) / area
    inertia = BOARD * (
        BOARD_WIDTH**3 / 12
        + BOARD_WIDTH * (BOARD_WIDTH / 2 - middle) ** 2
        - sum(D**3 / 12 + D * (height - middle) ** 2 for height in heights)
    )
    stress = on.moment * max(middle, BOARD_WIDTH - middle) / inertia
    # shear beside the screws, within 5 d of the board's end; NDS 3.4.3.3
    depth = max(heights)
    split = 2 / 3 * 135.0 * BOARD * depth * (depth / BOARD_WIDTH) ** 2
    return {
        "the screws of the outermost board": screws,
        "the outermost board under a washer": washer,
        "the first board's top edge against the wall": 425.0 / edge_pressure,
        "bending of the outermost board": duration * 875.0 / stress,
        "splitting of the outermost board along its screws": duration * split / on.shear,
    }


def best_set(hand: Hand, heights: tuple[float, ...], duration: float) -> dict[str, float]:
    """The parts of the set of studs that holds most."""
    found = (capacities(hand, heights, duration, on_set(chosen)) for chosen in SETS)
    return max(found, key=lambda parts: min(parts.values()))


@pytest.fixture(scope="module")
def plan() -> Plan:
    carried = (
        CarriedScrew(size="10", lengths=(3.5,)),
        CarriedScrew(size="1/4", lengths=(6.0,)),
    )
    return make_plan(job(screws=Screws(carried=carried)))


def heights_of(plan: Plan) -> tuple[float, ...]:
    return tuple(height for _, height in plan.screws[1].offsets)


def test_it_is_the_stack_that_was_worked_out(plan: Plan) -> None:
    assert plan.stack is not None
    assert plan.studs is not None
    assert plan.stack.thicknesses == (1.5, 1.5)
    assert plan.studs.used == STUDS
    assert [row.size for row in plan.screws] == ["10", "1/4"]
    # 23-3/4 less 23-1/8 is 5/8 behind the housing; 3 in of boards leave 2-3/8 over it
    assert (plan.stack.rear_gap, plan.stack.overlap) == (0.625, 2.375)


def test_embedment(plan: Plan) -> None:
    assert plan.screws[0].embedment == pytest.approx(3.5 - 1.5 - 0.5)
    assert plan.screws[1].embedment == pytest.approx(one_screw(6.0).embedment)
    assert plan.screws[1].tip_to_far_side == pytest.approx(3.5 - one_screw(6.0).embedment)


def test_one_screw(plan: Plan) -> None:
    hand, strength = one_screw(6.0), plan.strength
    assert strength is not None
    assert strength.gap == 0.5
    assert strength.lateral == pytest.approx(hand.lateral, rel=1e-9)
    assert strength.withdrawal == pytest.approx(hand.withdrawal, rel=1e-9)
    assert strength.pull_through == pytest.approx(hand.pull_through, rel=1e-9)


@pytest.mark.parametrize(
    ("name", "duration"), [("minimum", 1.25), ("service", 1.0), ("climb", 1.25), ("pull", 1.25)]
)
def test_capacity_of_the_whole_stack(plan: Plan, name: str, duration: float) -> None:
    case = next(case for case in plan.demand.cases if case.name == name)
    held = best_set(one_screw(6.0), heights_of(plan), duration)
    weakest = min(held, key=held.__getitem__)
    assert held[weakest] == pytest.approx(case.capacity, rel=1e-9)
    assert case.limited_by == weakest
    assert duration == case.C_D


def test_a_set_of_the_studs_may_hold_more_than_all_of_them() -> None:
    # studs at 6, 26 and 27 of 32 in, the load at a quarter point, 8 in. All three: centroid
    # 19-2/3, sum of squares 280-2/3; the first takes 1/3 + 11.667 x 13.667 / 280.667 = 0.9014.
    # 6 and 26 alone share by the lever: (26 - 8) / 20 = 0.9, and at 24 in (24 - 6) / 20 = 0.9
    every = actions((6.0, 26.0, 27.0), Overlap(0.0, 32.0)).share
    assert every == pytest.approx(1 / 3 + (35 / 3) * (41 / 3) / (842 / 3))
    pair = actions((6.0, 26.0), Overlap(0.0, 32.0)).share
    assert pair == pytest.approx(0.9)
    assert pair < every


def test_a_shorter_screw_by_the_same_hand() -> None:
    carried = (CarriedScrew(size="10", lengths=(3.5,)), CarriedScrew(size="1/4", lengths=(5.5,)))
    strength = make_plan(job(screws=Screws(carried=carried))).strength
    hand = one_screw(5.5)
    assert hand.embedment == pytest.approx(1.935)
    assert strength is not None
    assert strength.lateral == pytest.approx(hand.lateral, rel=1e-9)
    assert strength.withdrawal == pytest.approx(hand.withdrawal, rel=1e-9)
