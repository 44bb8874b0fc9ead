"""Changes of height on site: boards moved, shims under them, plates under legs, floor taken out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from enum import IntEnum
from functools import lru_cache
from itertools import combinations_with_replacement
from typing import NamedTuple

from bracecalc.check.fastening import taken_down
from bracecalc.planning.floor_change import MARK, floor_change, mark_up, reading_doubt
from bracecalc.planning.options import stack_height
from bracecalc.planning.reach import height_margin, reach_band, rolling_height
from bracecalc.records.actions import (
    Action,
    ActionKind,
    MoveBoards,
    Piece,
    ShimUnder,
)
from bracecalc.records.job import Contact, Job, Rules, Screws
from bracecalc.records.plan import Verdict
from bracecalc.records.reference import PackerStock
from bracecalc.records.site import AsFound
from bracecalc.tables.load import tables_of

HEIGHT_MARK = 0.125  # in: boards are set to eighths, common practice
STEPS = 4
MOST_SHIMS = 3
THICKEST_SHIMS = 1.5  # in, of all together


class Effort(IntEnum):
    """What a change costs the crew, least first."""

    MARK_ANEW = 1
    SHIM_GAP = 1
    SCREW_AT_HAND = 2
    SHIM_UNDER = 2
    UNIT_PROUDER = 3
    FREE_LEG = 3
    SCREW_TO_FETCH = 3
    BOARD_IN_FRONT = 4
    MOVE_BOARDS = 5
    PLATE_UNDER_LEG = 6
    WIDER_BOARDS = 7
    BLOCKING = 8
    TAKE_FLOOR_OUT = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """What the remedies need to know of the site beside the job itself."""

    as_found: AsFound
    screws: Screws  # of the plan's own job, before the check held it to the planned ones
    gap: float  # at the end that does not touch, in
    end: str = ""  # which end that is
    contact: Contact = Contact.BOTH_ENDS  # that the job itself asks for

    def tight(self, rules: Rules) -> Rules:
        """Return rules without the gap: shimmed, or set level, it bears at both ends."""
        if self.gap <= 0.0:
            return rules
        return replace(rules, rear_rise=rules.rear_rise - self.gap, contact=self.contact)


class Change(NamedTuple):
    """Actions not yet checked, and the job with them done."""

    effort: int
    actions: tuple[Action, ...]
    job: Job

    @property
    def kind(self) -> ActionKind:
        """What is mainly done; of one kind the first that mends is enough."""
        return self.actions[0].kind


def _height_verdict(job: Job, underside: float) -> Verdict:
    return height_margin(job, reach_band(job), underside).verdict


def other_height(job: Job, site: Site) -> Iterator[Change]:
    """Yield the boards set where a plan would set them: those that stand come down for it."""
    built = job.built
    if built is None or not built.boards:
        return
    stands = site.as_found.built
    level = stands and site.gap > 0.0
    for under in heights_for(job, _stack_height(job)):
        by = under - built.underside
        if abs(by) < 1e-9:
            continue
        move = MoveBoards(by=by, underside=under, stand=stands, level=level)
        yield Change(
            Effort.MOVE_BOARDS if stands else Effort.MARK_ANEW,
            (move,),
            replace(job, built=taken_down(built, under), rules=site.tight(job.rules)),
        )


def heights_for(job: Job, width: float) -> tuple[float, ...]:
    """Return heights at which boards of a width may go up, the plan's own target first.

    Then the marks beside it that hold at worst: new screws may have to keep clear of old holes.
    """
    band = reach_band(job)
    if band.high < band.low - 1e-9:
        return ()
    target = stack_height(job, band, width)
    if target is None:
        return ()
    built = job.built
    if built is None or not (built.screws or built.holes):
        return (target,)
    high = min(band.high, job.niche.lowest_soffit - width)
    beside = (
        target + sign * step * HEIGHT_MARK for step in range(1, STEPS + 1) for sign in (1, -1)
    )
    return target, *(
        height
        for height in beside
        if height <= high + 1e-9 and _height_verdict(job, height) is Verdict.HOLDS
    )


def _stack_height(job: Job) -> float:
    return job.boards.measured(tables_of(job).lumber[job.boards.chosen]).width


def shims(job: Job, site: Site) -> Iterator[Change]:
    """Yield the fewest stock pieces under the restraint that bring it down into reach."""
    built = job.built
    if built is None:
        return
    pieces = _pieces(job, lambda total: _height_verdict(job, built.underside - total))
    if not pieces:
        return
    total = sum(piece.thickness for piece in pieces)
    shim = ShimUnder(
        boards=bool(built.boards),
        pieces=tuple(Piece(piece.name, piece.thickness) for piece in pieces),
        at_gap=max(0.0, site.gap),
        end=site.end,
    )
    packers = built.packers if built.boards else (*built.packers, *(p.thickness for p in pieces))
    shimmed = replace(built, underside=built.underside - total, packers=packers)
    changed = replace(job, built=shimmed, rules=site.tight(job.rules))
    yield Change(Effort.SHIM_UNDER, (shim,), changed)


def _pieces(job: Job, room: Callable[[float], Verdict]) -> tuple[PackerStock, ...]:
    """Return the fewest, then thinnest stock pieces that hold, else that hold closely."""
    best: dict[Verdict, tuple[PackerStock, ...]] = {}
    for pieces in _stock_sums(tuple(tables_of(job).packers.values())):
        verdict = room(sum(piece.thickness for piece in pieces))
        if verdict not in best:
            best[verdict] = pieces
    return best.get(Verdict.HOLDS, best.get(Verdict.CLOSE, ()))


@lru_cache(maxsize=8)
def _stock_sums(stocks: tuple[PackerStock, ...]) -> tuple[tuple[PackerStock, ...], ...]:
    sums = [
        pieces
        for count in range(1, MOST_SHIMS + 1)
        for pieces in combinations_with_replacement(stocks, count)
        if sum(piece.thickness for piece in pieces) <= THICKEST_SHIMS
    ]
    thickest_first = [tuple(sorted(one, key=lambda piece: -piece.thickness)) for one in sums]
    return tuple(sorted(thickest_first, key=lambda one: (len(one), sum(p.thickness for p in one))))


def shims_for(job: Job, gap: float) -> tuple[str, ...]:
    """Return the fewest stock pieces that fill a gap to less than a sixteenth, thickest first."""
    if gap < MARK - 1e-9:
        return ()
    fitting = [
        pieces
        for pieces in _stock_sums(tuple(tables_of(job).packers.values()))
        if 0.0 <= gap - sum(piece.thickness for piece in pieces) + 1e-9 < MARK
    ]
    # the fewest, then what fills the most of it
    best = min(fitting, key=lambda one: (len(one), -sum(p.thickness for p in one)), default=())
    return tuple(piece.name for piece in best)


def floor(job: Job) -> Iterator[Change]:
    """Yield the change of the floor that puts every leg within its limits."""
    for spare in (reading_doubt(job), 0.0):
        changed = floor_change(job, _wanted_underside(job, spare), spare=spare)
        if changed is not None:
            plates = changed.action.kind is ActionKind.PLATES
            effort = Effort.PLATE_UNDER_LEG if plates else Effort.TAKE_FLOOR_OUT
            yield Change(effort, (changed.action,), changed.job)
            return


def floor_and_boards(job: Job, site: Site) -> Iterator[Change]:
    """Yield the floor changed by less than the boards ask for, and the boards set to suit it."""
    built = job.built
    if built is None or not built.boards:
        return
    for spare in (reading_doubt(job), 0.0):
        changed = floor_change(replace(job, built=None), _over_the_floor(job, spare), spare=spare)
        if changed is None:
            continue
        on = replace(changed.job, built=built)
        for move in other_height(on, site):
            taken = changed.action.taken_out or changed.action.off_the_path
            effort = Effort.TAKE_FLOOR_OUT if taken else Effort.PLATE_UNDER_LEG
            yield Change(max(effort, move.effort) + 1, (changed.action, *move.actions), move.job)
        return


def _wanted_underside(job: Job, spare: float) -> float:
    """Return where the top has to go: what stands, else just over what the floor allows."""
    if job.built is not None:
        return job.built.underside
    return _over_the_floor(job, spare)


def _over_the_floor(job: Job, spare: float) -> float:
    lowest = max(job.floor.spots) + job.unit.height + job.rules.leg_least
    return mark_up(max(lowest, rolling_height(job)) + spare)
