"""Dive for a whole plan: fix some sticks of the linear program, solve it for the rest, go on.

Source: R. Sadykov et al., "Primal heuristics for branch and price: the assets of diving methods",
INFORMS Journal on Computing 31 (2019).
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from dataclasses import replace

from bracecalc.cutting.master import Master
from bracecalc.cutting.model import Counts, Pattern, Usage

ROUNDS = 2  # of new patterns between two steps
AT_ONCE = 0.1  # of the sticks left, fixed in one step at most
NEARLY = 0.5  # a share from which on more than one pattern is rounded up in one step
NOISE = 0.2  # how much a share may be taken for more
WHOLE = 1e-6  # a share nearer to a whole number counts as that


def dive(master: Master, limits: Counts, rng: random.Random, deadline: float) -> Usage:
    """Return sticks that cut most pieces or all, none more often than wanted.

    Args:
        master: the program, solved with its patterns; it is left as it was found.
        limits: how many sticks of each kind there are.
        rng: draws by how much shares are taken for others, so that dives differ.
        deadline: on the monotonic clock, s.
    """
    left, room = list(master.model.demand), list(limits)
    usage: Usage = {}
    try:
        while any(left):
            master.set_wanted(left)
            master.set_limits(room)
            if not _solved(master, left, room, deadline):
                break
            fixed = _fix(master, left, room, rng)
            if not fixed:
                break
            for pattern, times in fixed.items():
                usage[pattern] = usage.get(pattern, 0) + times
    finally:
        master.set_wanted(master.model.demand)
        master.set_limits(None)
    return usage


def _solved(master: Master, left: Sequence[int], room: Sequence[int], deadline: float) -> bool:
    """Solve the program for what is left, with some new patterns; False if time ran out."""
    rest = replace(master.model, demand=tuple(left), limits=tuple(room))
    grown = False
    for _ in range(ROUNDS):
        if not master.solve(deadline, grown=grown):
            return False
        grown, _rule = master.grow(rest, master.solver.getSolution().row_dual, deadline)
        if not grown:
            return True
    return master.solve(deadline, grown=True)


def _fix(master: Master, left: list[int], room: list[int], rng: random.Random) -> Usage:
    """Take whole sticks, else those of the greatest shares; lower ``left`` and ``room``."""
    uses = master.uses()
    fixed: Usage = {}

    def take(pattern: Pattern, times: int) -> None:
        alike = (left[place] // count for place, count in enumerate(pattern.counts) if count)
        times = min(times, room[pattern.kind], *alike)
        if times > 0:
            fixed[pattern] = fixed.get(pattern, 0) + times
            room[pattern.kind] -= times
            for place, count in enumerate(pattern.counts):
                left[place] -= count * times

    for pattern, share in uses.items():
        take(pattern, math.floor(share + WHOLE))
    if fixed:
        return fixed
    most = max(1.0, AT_ONCE * sum(uses.values()))
    drawn = {pattern: share + rng.uniform(0, NOISE) for pattern, share in uses.items()}
    for pattern, share in sorted(drawn.items(), key=lambda item: -item[1]):
        if fixed and (share < NEARLY or sum(fixed.values()) >= most):
            break
        take(pattern, 1)
    return fixed
