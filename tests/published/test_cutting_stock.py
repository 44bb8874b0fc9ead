"""Cutting-stock examples of the literature whose optimum is known.

Each source gives lengths and an optimum; the unit does not matter, so kerf and trim are 0 and
every stick costs 1. How the optimum is known is said at each.
"""

from __future__ import annotations

from collections import Counter

import pytest

from bracecalc.cutting import CutTask, Piece, Saw, StickKind, plan_cuts

# V. Chvatal, Linear Programming (W. H. Freeman, 1983), chapter 13: raws 100 in wide. The data were
# seen in the public model library page of the example. Optimum 453: the linear program comes to
# 452.25, so 453 is a bound, and the book's rounding reaches it (from memory).
CHVATAL = (100, {45: 97, 36: 610, 31: 395, 14: 211}, 453)

# The paper-machine example of the encyclopedia article "Cutting stock problem" (seen): 13 widths,
# rolls 5600 mm wide, optimum 73 rolls with 0.401 % waste. 407 160 mm / 5600 mm = 72.7, so 73 is
# a bound by length alone.
# fmt: off
PAPER_MACHINE = (
    5600,
    {1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12,
     2100: 14, 2140: 16, 2150: 18, 2200: 20},
    73,
)

# E. Falkenauer, "A hybrid grouping genetic algorithm for bin packing", Journal of Heuristics 2
# (1996); instances of the OR-Library. t60_00: triplets, optimum 20 by construction (every bin is
# exactly full). u120_00: optimum 48, stated with the data; the sum of sizes proves it.
T60_00 = (
    1000,
    Counter([
        495, 474, 473, 472, 466, 450, 445, 444, 439, 430, 419, 414, 410, 395, 372, 370, 366, 366,
        366, 363, 361, 357, 355, 351, 350, 350, 347, 320, 315, 307, 303, 299, 298, 298, 292, 288,
        287, 283, 275, 275, 274, 273, 273, 272, 272, 271, 269, 269, 268, 263, 262, 261, 259, 258,
        255, 254, 252, 252, 252, 251,
    ]),
    20,
)
U120_00 = (
    150,
    Counter([
        42, 69, 67, 57, 93, 90, 38, 36, 45, 42, 33, 79, 27, 57, 44, 84, 86, 92, 46, 38, 85, 33, 82,
        73, 49, 70, 59, 23, 57, 72, 74, 69, 33, 42, 28, 46, 30, 64, 29, 74, 41, 49, 55, 98, 80, 32,
        25, 38, 82, 30, 35, 39, 57, 84, 62, 50, 55, 27, 30, 36, 20, 78, 47, 26, 45, 41, 58, 98, 91,
        96, 73, 84, 37, 93, 91, 43, 73, 85, 81, 79, 71, 80, 76, 83, 41, 78, 70, 23, 42, 87, 43, 84,
        60, 55, 49, 78, 73, 62, 36, 44, 94, 69, 32, 96, 70, 84, 58, 78, 25, 80, 58, 66, 83, 24, 98,
        60, 42, 43, 43, 39,
    ]),
    48,
)
# fmt: on

CASES = {
    "Chvatal 1983, chapter 13": CHVATAL,
    "paper machine, 13 widths": PAPER_MACHINE,
    "Falkenauer 1996, t60_00": T60_00,
    "Falkenauer 1996, u120_00": U120_00,
}


@pytest.mark.parametrize("name", CASES)
def test_the_known_optimum_is_found_and_proven(name: str) -> None:
    stick, demand, optimum = CASES[name]
    task = CutTask(
        pieces=tuple(Piece(length=length, count=count) for length, count in demand.items()),
        sticks=(StickKind(length=stick, price=1),),
        saw=Saw(kerf=0),
    )
    plan = plan_cuts(task, time_limit=10.0)
    assert (plan.cost, plan.bound) == (optimum, optimum)


def test_waste_of_the_paper_machine_example() -> None:
    stick, demand, optimum = PAPER_MACHINE
    wanted = sum(length * count for length, count in demand.items())
    assert 100 * (1 - wanted / (stick * optimum)) == pytest.approx(0.401, abs=0.0005)
