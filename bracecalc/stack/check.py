"""What a stack in its niche holds in each load case, by its weakest part and best set of studs."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from bracecalc.mechanics.statics import sharing
from bracecalc.mechanics.statics.contact import FrontToBack
from bracecalc.records.job import Contact, Job, Method
from bracecalc.records.plan import Bearing, CaseName, LoadCase, Stack
from bracecalc.records.scheme import Backing, Part
from bracecalc.stack import studs as framing
from bracecalc.stack.boards import out_from_wall
from bracecalc.stack.make import PUBLISHED_DURATION, SILENT, StackMake
from bracecalc.stack.screws import Choice
from bracecalc.stack.slots import Slot
from bracecalc.strength import parts
from bracecalc.strength.demand import Case, Cases, load_duration

FAR = 5.0  # of the board's width: beyond it an end no longer weakens the board, NDS 2018 3.4.3.3


def duration_factor(job: Job, case: CaseName) -> float:
    """Return the factor of a load case on every strength: C_D, or k_mod in Eurocode 5."""
    if job.loads.method is Method.EC5:
        from bracecalc.strength.eurocode5 import modification

        return modification(job, case)
    return load_duration(job, case)


def contact_points_of(job: Job) -> tuple[FrontToBack, ...]:
    """Return where, front to back, the housing may bear: shown to be even, in the middle alone."""
    if job.rules.even_contact:
        return (FrontToBack.MIDDLE,)
    return (FrontToBack.OUTER_EDGE, FrontToBack.MIDDLE)


class Worst(NamedTuple):
    """The load cases at one point of contact, by what a utilisation goes with."""

    over_duration: float  # greatest force / duration
    over_published: float  # the same where no duration over 1 counts
    force: float


class Niche(NamedTuple):
    """One stack in its niche with what it must hold at each point of contact."""

    job: Job
    stack: Stack
    make: StackMake
    demand: Mapping[FrontToBack, Cases]
    places: int = 0  # of screws in blocking; 0 on studs
    supports: tuple[float, ...] = ()  # where the screws are that are in already


class Held(NamedTuple):
    """Screws of all boards in their places, and the supports that they are counted on."""

    slot: Slot
    seat: int  # of the length, among those that sit
    supports: tuple[float, ...]  # all that get screws
    counted: parts.Actions  # of those of them that the verdict rests on
    use: float

    @property
    def choice(self) -> Choice:
        """The outermost board's screw in its seat."""
        return self.slot.seated[self.seat]


class StackCheck:
    """Utilisation of one stack in its niche.

    All parts but what bears on the wall grow with the force over the duration factor, so that the
    worst case is the greatest of force / duration, and capacities follow by division.
    """

    def __init__(self, niche: Niche) -> None:
        job, stack = niche.job, niche.stack
        self.niche = niche
        self.make = niche.make
        # force and lever are both greatest at the outer edge: it governs where it counts at all
        self.out = contact_points_of(job)[0]
        self.lever = out_from_wall(stack, self.out)
        self.worst = self._worst(niche.demand[self.out])
        width = job.niche.narrowest
        left = max(stack.left_end, (width - job.unit.width) / 2.0)
        right = min(stack.left_end + stack.length, (width + job.unit.width) / 2.0)
        self.overlap = parts.Overlap(left, right, job.rules.contact is Contact.ONE_END)
        self._supports: dict[float, tuple[float, ...]] = {}
        self._shares: dict[float, float] = {}
        self._on_board: dict[int, tuple[float, float, float]] = {}

    def _worst(self, cases: Cases) -> Worst:
        rated = [(case.force, duration_factor(self.niche.job, case.name)) for case in cases.cases]
        return Worst(
            max(force / duration for force, duration in rated),
            max(force / min(duration, PUBLISHED_DURATION) for force, duration in rated),
            max(force for force, _ in rated),
        )

    def supports(self, end: float) -> tuple[float, ...]:
        """Return where screws with an end distance find what they bite in."""
        if self.niche.supports:
            return self.niche.supports
        if end not in self._supports:
            job, stack = self.niche.job, self.niche.stack
            if stack.backing is Backing.BLOCKING:
                found = framing.blocking_supports(job, stack, end=end, count=self.niche.places)
            else:
                found = framing.stud_supports(job, stack, end=end)
            self._supports[end] = found
        return self._supports[end]

    def board(self, slot: Slot) -> parts.Board:
        """Return the outermost board as a beam, with the holes of a slot."""
        stack = self.niche.stack
        shared = self.niche.job.rules.shared_contact
        return parts.Board(
            thickness=sum(stack.thicknesses) if shared else stack.thicknesses[-1],
            width=stack.width,
            left=stack.left_end,
            right=stack.left_end + stack.length,
            hole=slot.size.diameter,
        )

    def least_share(self, end: float) -> float:
        """Return the least share that any set of the supports has; infinite with fewer than two."""
        found = self._shares.get(end)
        if found is None:
            supports = self.supports(end)
            least = math.inf
            if len(supports) > 1:
                least = _counted(supports, self.overlap)[0].share
            found = self._shares[end] = least
        return found

    def held(self, slot: Slot, index: int) -> Held | None:
        """Return what a slot's screws are used by the worst case; None where they can't be placed.

        The verdict rests on the best set of the supports met.

        Args:
            slot: of the stack's make.
            index: of the length among those that sit.
        """
        supports = self.supports(slot.end)
        if slot.places is None or len(supports) < 2:
            return None
        per = self.make.per_pound(slot, index, self.lever)
        worst = self.worst
        published = slot.seated[index].candidate.published is not None
        on_share = max(
            (worst.over_published if published else worst.over_duration) * per.screws,
            worst.over_duration * per.most_lasting,
            worst.force * per.most_steady,
        )
        sets = _counted(supports, self.overlap)
        if not on_share < math.inf:
            return Held(slot, index, supports, sets[0], math.inf)
        bending, near, far = self._board_uses(slot)
        best: Held | None = None
        for counted in sets:
            use = counted.share * on_share
            if best is not None and use >= best.use:
                break  # sorted by share: no later one is better
            split = max(
                shear / (far if self._far(spot) else near)
                for spot, shear in zip(counted.supports, counted.shears, strict=True)
            )
            use = max(use, worst.over_duration * max(counted.moment * bending, split))
            if best is None or use < best.use:
                best = Held(slot, index, supports, counted, use)
        return best

    def _far(self, spot: float) -> bool:
        stack = self.niche.stack
        from_end = min(spot - stack.left_end, stack.left_end + stack.length - spot)
        return from_end >= FAR * stack.width

    def _board_uses(self, slot: Slot) -> tuple[float, float, float]:
        """Return bending use per in-lbf, and the shear held near an end and far from it, lbf."""
        found = self._on_board.get(slot.number)
        if found is None:
            board = self.board(slot)._replace(left=0.0, right=0.0)
            found = _board_uses(board, self.make.board_strength, slot.heights)
            self._on_board[slot.number] = found
        return found

    def uses(self, held: Held, out: FrontToBack) -> tuple[dict[Part, float], dict[Part, float]]:
        """Return the utilisation of each part for one pound at a point of contact.

        First those that grow with force over duration, for factor 1; then those that grow with
        the force alone.
        """
        lever = out_from_wall(self.niche.stack, out)
        per = self.make.per_pound(held.slot, held.seat, lever)
        counted = held.counted
        bending, near, far = self._board_uses(held.slot)
        lasting = {
            Part.SCREWS: counted.share * per.screws,
            Part.BENDING: counted.moment * bending,
            Part.SPLITTING: max(
                shear / (far if self._far(spot) else near)
                for spot, shear in zip(counted.supports, counted.shears, strict=True)
            ),
            **{part: counted.share * use for part, use in per.lasting.items()},
        }
        return lasting, {part: counted.share * use for part, use in per.steady.items()}

    def governing(self, held: Held) -> tuple[Case, Part]:
        """Return the case that uses the stack most, and the part that limits it there."""
        lasting, steady = self.uses(held, self.out)
        best: tuple[float, Case, Part] | None = None
        for case in self.niche.demand[self.out].cases:
            duration = duration_factor(self.niche.job, case.name)
            on_screws = self._on_screws(held, duration)
            for part, use in (*lasting.items(), *steady.items()):
                factor = on_screws if part is Part.SCREWS else duration
                used = case.force * use / (factor if part in lasting else 1.0)
                if best is None or used > best[0]:
                    best = used, case, part
        if best is None:
            raise ValueError("the minimum case always stands")
        return best[1], best[2]

    @staticmethod
    def _on_screws(held: Held, duration: float) -> float:
        """Return the duration factor on a screw; a maker's values are not raised by it."""
        if held.choice.candidate.published is None:
            return duration
        return min(duration, PUBLISHED_DURATION)

    def judged(self, held: Held) -> tuple[LoadCase, ...]:
        """Return each load case with the worst of its pairs of force and capacity."""
        found: dict[CaseName, LoadCase] = {}
        for out, cases in self.niche.demand.items():
            lasting, steady = self.uses(held, out)
            for case in cases.cases:
                duration = duration_factor(self.niche.job, case.name)
                on_screws = self._on_screws(held, duration)
                capacities = {
                    part: (on_screws if part is Part.SCREWS else duration) / use
                    for part, use in lasting.items()
                    if use > 0.0
                }
                capacities |= {part: 1.0 / use for part, use in steady.items() if use > 0.0}
                part = min(capacities, key=capacities.__getitem__)
                along = held.counted.share_at
                if part is Part.BENDING:
                    along = held.counted.moment_at
                judged = LoadCase(
                    name=case.name,
                    force=case.force,
                    C_D=duration,
                    capacity=capacities[part],
                    utilisation=case.force / capacities[part],
                    moments=case.moments,
                    limited_by=part,
                    contact=Bearing(out, along),
                    assumed=case.assumed,
                )
                known = found.get(case.name)
                if known is None or (judged.utilisation or 0.0) > (known.utilisation or 0.0):
                    found[case.name] = judged
        return tuple(found.values())


@lru_cache(maxsize=4096)
def _counted(supports: tuple[float, ...], overlap: parts.Overlap) -> tuple[parts.Actions, ...]:
    """Return the actions on every set of supports, the set with the least share first."""
    found = (parts.actions(subset, overlap) for subset in sharing.subsets(supports))
    return tuple(sorted(found, key=lambda actions: actions.share))


@lru_cache(maxsize=1024)
def _board_uses(
    board: parts.Board, strength: parts.BoardStrength, heights: tuple[float, ...]
) -> tuple[float, float, float]:
    bending = parts.bending_utilisation(
        board, strength, moment=1.0, heights=heights, duration=1.0, work=SILENT
    )
    near, far = (
        parts.splitting_capacity(
            board._replace(right=2.0 * from_end),
            strength,
            support=from_end,
            heights=heights,
            duration=1.0,
            work=SILENT,
        )
        for from_end in (0.0, FAR * board.width)
    )
    return bending, near, far


def governing(cases: Sequence[LoadCase]) -> LoadCase | None:
    """Return the case with the greatest utilisation, the first of equals."""
    rated = [case for case in cases if case.utilisation is not None]
    return max(rated, key=lambda case: case.utilisation or 0.0, default=None)
