"""Cutting-stock examples of the literature whose optimum is known.

Each source gives lengths and an optimum; the unit does not matter, so kerf and trim are 0 and
every stick costs 1. How the optimum is known is said at each. test_cutting_stock.py solves them.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from published.check import Mark, Source
from published.sources import CHVATAL, ENCYCLOPEDIA, FALKENAUER


@dataclass(frozen=True, slots=True, kw_only=True)
class Instance:
    """Pieces to cut, and the least number of sticks that they are known to need."""

    name: str
    source: Source
    mark: Mark
    stick: int
    demand: dict[int, int]
    optimum: int


# V. Chvatal, Linear Programming (W. H. Freeman, 1983), chapter 13: raws 100 in wide. The data were
# seen in the public model library page of the example. Optimum 453: the linear program comes to
# 452.25, so 453 is a bound, and the book's rounding reaches it (from memory).
_CHVATAL = Instance(
    name="Chvatal 1983, chapter 13",
    source=CHVATAL,
    mark=Mark.MEMORY,
    stick=100,
    demand={45: 97, 36: 610, 31: 395, 14: 211},
    optimum=453,
)

# The paper-machine example of the encyclopedia article "Cutting stock problem" (seen): 13 widths,
# rolls 5600 mm wide, optimum 73 rolls with 0.401 % waste. 407 160 mm / 5600 mm = 72.7, so 73 is
# a bound by length alone.
# fmt: off
_PAPER_MACHINE = Instance(
    name="paper machine, 13 widths",
    source=ENCYCLOPEDIA,
    mark=Mark.SEEN,
    stick=5600,
    demand={
        1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12,
        2100: 14, 2140: 16, 2150: 18, 2200: 20,
    },
    optimum=73,
)

# E. Falkenauer, "A hybrid grouping genetic algorithm for bin packing", Journal of Heuristics 2
# (1996); instances of the OR-Library. t60_00: triplets, optimum 20 by construction (every bin is
# exactly full). u120_00: optimum 48, stated with the data; the sum of sizes proves it.
_T60_00 = Instance(
    name="Falkenauer 1996, t60_00",
    source=FALKENAUER,
    mark=Mark.SEEN,
    stick=1000,
    demand=Counter([
        495, 474, 473, 472, 466, 450, 445, 444, 439, 430, 419, 414, 410, 395, 372, 370, 366, 366,
        366, 363, 361, 357, 355, 351, 350, 350, 347, 320, 315, 307, 303, 299, 298, 298, 292, 288,
        287, 283, 275, 275, 274, 273, 273, 272, 272, 271, 269, 269, 268, 263, 262, 261, 259, 258,
        255, 254, 252, 252, 252, 251,
    ]),
    optimum=20,
)
_U120_00 = Instance(
    name="Falkenauer 1996, u120_00",
    source=FALKENAUER,
    mark=Mark.SEEN,
    stick=150,
    demand=Counter([
        42, 69, 67, 57, 93, 90, 38, 36, 45, 42, 33, 79, 27, 57, 44, 84, 86, 92, 46, 38, 85, 33, 82,
        73, 49, 70, 59, 23, 57, 72, 74, 69, 33, 42, 28, 46, 30, 64, 29, 74, 41, 49, 55, 98, 80, 32,
        25, 38, 82, 30, 35, 39, 57, 84, 62, 50, 55, 27, 30, 36, 20, 78, 47, 26, 45, 41, 58, 98, 91,
        96, 73, 84, 37, 93, 91, 43, 73, 85, 81, 79, 71, 80, 76, 83, 41, 78, 70, 23, 42, 87, 43, 84,
        60, 55, 49, 78, 73, 62, 36, 44, 94, 69, 32, 96, 70, 84, 58, 78, 25, 80, 58, 66, 83, 24, 98,
        60, 42, 43, 43, 39,
    ]),
    optimum=48,
)
# fmt: on

PAPER_MACHINE = _PAPER_MACHINE
PAPER_MACHINE_WASTE = 0.401  # percent, printed
INSTANCES = (_CHVATAL, _PAPER_MACHINE, _T60_00, _U120_00)
