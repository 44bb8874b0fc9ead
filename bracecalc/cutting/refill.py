"""Fill a mix of sticks to the brim; take some sticks out and fill them anew until nothing is over.

Each stick gets the fill that leaves least room, with the longest pieces that allow it, so that the
short ones, which fit anywhere, stay for the last sticks. Needs no solver: where pieces are of many
lengths, nearly every stick comes out full, and the plan meets the bound of total length at once.
Sources: J. N. D. Gupta and J. C. Ho, "A new heuristic algorithm for the one-dimensional bin-packing
problem", Production Planning & Control 10 (1999), for least room stick after stick; G. Schrimpf et
al., "Record breaking optimization results using the ruin and recreate principle", Journal of
Computational Physics 159 (2000), for taking out and filling anew.
"""

from __future__ import annotations

import random
import time

from bracecalc.cutting.model import Counts, Cuts, Model, Usage, pattern_of
from bracecalc.cutting.subsetsum import Sums

NOISE = (0.1, 0.3, 0.3, 0.5)  # how much the order may differ from longest first
TAKEN_OUT = (2, 15)  # sticks, at least and at most
PATIENCE = 1500  # rounds in a row in which no more pieces found their place
FAR_OFF = 8  # sticks' length left over, from which on a tenth of the patience is enough


def fill_mix(model: Model, mix: Counts, rng: random.Random, deadline: float) -> Usage | None:
    """Return a plan that uses at most so many sticks of each kind; None if none was found.

    Args:
        model: the task.
        mix: how many sticks of each kind there are.
        rng: draws the order of the pieces and the sticks to take out.
        deadline: on the monotonic clock, s.

    >>> model = Model(widths=(6, 5, 4, 3), demand=(1, 1, 1, 1), capacities=(9,), costs=(1,),
    ...               limits=(4,))
    >>> plan = fill_mix(model, (2,), random.Random(1), time.monotonic() + 5)
    >>> sorted(pattern.counts for pattern in plan)
    [(0, 1, 1, 0), (1, 0, 0, 1)]
    """
    sticks = _Sticks(model, mix, rng)
    if sticks.spare < 0:
        return None
    sticks.fill(NOISE[1])
    over, idle = sticks.over(), 0
    far_off = FAR_OFF * max(model.capacities)
    while over and idle < PATIENCE and time.monotonic() < deadline:
        before = sticks.copy()
        sticks.take_out(rng.randint(*TAKEN_OUT))
        sticks.fill(rng.choice(NOISE))
        now = sticks.over()
        idle = 0 if now < over else idle + (10 if over > far_off else 1)
        if now > over:
            sticks = before
        over = min(now, over)
    return None if over else sticks.usage()


class _Sticks:
    """Sticks that are filled, sticks that are not yet, and the pieces left over."""

    def __init__(self, model: Model, mix: Counts, rng: random.Random) -> None:
        self.model = model
        self.rng = rng
        self.left = list(model.demand)
        self.empty = list(mix)
        room = sum(c * n for c, n in zip(model.capacities, mix, strict=True))
        self.spare = room - self.over()  # room that may go to waste
        self.filled: dict[tuple[int, Cuts, int], int] = {}  # kind, cuts, waste: how many

    def copy(self) -> _Sticks:
        twin = object.__new__(type(self))
        twin.model, twin.rng, twin.spare = self.model, self.rng, self.spare
        twin.left, twin.empty, twin.filled = self.left[:], self.empty[:], dict(self.filled)
        return twin

    def over(self) -> int:
        """Return the length of the pieces that are left over."""
        return sum(w * n for w, n in zip(self.model.widths, self.left, strict=True))

    def fill(self, noise: float) -> None:
        """Fill sticks until no piece is left, or none can be filled within the waste allowed."""
        widths, capacities = self.model.widths, self.model.capacities
        order = [place for place, count in enumerate(self.left) if count]
        order.sort(key=lambda place: -widths[place] * self.rng.uniform(1 - noise, 1))
        while order:
            kinds = [kind for kind, count in enumerate(self.empty) if count]
            kinds.sort(key=lambda kind: -capacities[kind])
            if not kinds:
                return
            sums = Sums.of(widths, self.left, order, capacities[kinds[0]])
            for kind in kinds:
                cuts, waste = sums.fill(capacities[kind])
                if cuts and waste <= self.spare:
                    break
            else:
                return
            times = min(self.empty[kind], *(self.left[place] // take for place, take in cuts))
            self._put(kind, cuts, waste, min(times, self.spare // waste) if waste else times)
            order = [place for place in order if self.left[place]]

    def take_out(self, most: int) -> None:
        """Take one stick each of some patterns apart."""
        for kind, cuts, waste in self.rng.sample(list(self.filled), min(most, len(self.filled))):
            self._put(kind, cuts, waste, -1)

    def _put(self, kind: int, cuts: Cuts, waste: int, times: int) -> None:
        for place, take in cuts:
            self.left[place] -= take * times
        self.empty[kind] -= times
        self.spare -= waste * times
        key = (kind, cuts, waste)
        self.filled[key] = self.filled.get(key, 0) + times
        if not self.filled[key]:
            del self.filled[key]

    def usage(self) -> Usage:
        """Return the filled sticks as a plan."""
        return {
            pattern_of(kind, cuts, len(self.left)): times
            for (kind, cuts, _), times in self.filled.items()
        }
