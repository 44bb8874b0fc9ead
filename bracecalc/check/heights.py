"""Changes of height on site: boards moved, shims under them, plates under legs, floor taken out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from enum import IntEnum
from functools import lru_cache
from itertools import combinations_with_replacement
from typing import NamedTuple

from bracecalc.planning.floor_change import MARK, floor_change, mark_up, reading_doubt
from bracecalc.planning.reach import (
    height_margin,
    reach_band,
    rolling_height,
)
from bracecalc.records.actions import (
    Action,
    ActionKind,
    MoveBoards,
    Piece,
    ShimUnder,
)
from bracecalc.records.job import Job, Screws
from bracecalc.records.plan import Verdict
from bracecalc.records.reference import PackerStock
from bracecalc.records.site import AsFound
from bracecalc.tables.load import tables_of

FARTHEST = 6.0  # in: the farthest that boards are moved
MOST_SHIMS = 3
THICKEST_SHIMS = 1.5  # in, of all together


class Effort(IntEnum):
    """What a change costs the crew, least first."""

    MARK_ANEW = 1
    SHIM_GAP = 1
    SCREW_AT_HAND = 2
    SHIM_UNDER = 2
    UNIT_PROUDER = 3
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


class Change(NamedTuple):
    """Actions not yet checked, and the job with them done."""

    effort: int
    actions: tuple[Action, ...]
    job: Job

    @property
    def kind(self) -> ActionKind:
        """What is mainly done; of one kind the first that mends is enough."""
        return self.actions[0].kind


def _smallest(amounts: list[float], room: Callable[[float], Verdict]) -> float | None:
    """Return the first amount that holds, else the first that holds if measured closely."""
    close = None
    for amount in amounts:
        verdict = room(amount)
        if verdict is Verdict.HOLDS:
            return amount
        if verdict is Verdict.CLOSE and close is None:
            close = amount
    return close


def _marks(most: float) -> list[float]:
    return [MARK * step for step in range(1, round(most / MARK) + 1)]


def _height_verdict(job: Job, underside: float) -> Verdict:
    return height_margin(job, reach_band(job), underside).verdict


def other_height(job: Job, site: Site) -> Iterator[Change]:
    """Yield the smallest moves of the boards, down and up, that bring them into reach."""
    built = job.built
    if built is None or not built.boards:
        return
    stands = site.as_found.built
    level = stands and site.gap > 0.0
    for sign in (-1.0, 1.0):
        move = _smallest(
            [sign * mark for mark in _marks(FARTHEST)],
            lambda shift: _height_verdict(job, built.underside + shift),
        )
        if move is None:
            continue
        under = built.underside + move
        if job.niche.soffit and under + _stack_height(job) > job.niche.lowest_soffit + 1e-9:
            continue
        rules = job.rules
        if level:
            rules = replace(rules, rear_rise=rules.rear_rise - site.gap)
        moved = replace(built, underside=under)
        yield Change(
            Effort.MOVE_BOARDS if stands else Effort.MARK_ANEW,
            (MoveBoards(by=move, underside=under, stand=stands, level=level),),
            replace(job, built=moved, rules=rules),
        )


def _stack_height(job: Job) -> float:
    if job.boards.width is not None:
        return job.boards.width
    return tables_of(job).lumber[job.boards.chosen].width


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
    )
    packers = built.packers if built.boards else (*built.packers, *(p.thickness for p in pieces))
    shimmed = replace(built, underside=built.underside - total, packers=packers)
    rules = replace(job.rules, rear_rise=job.rules.rear_rise - site.gap)
    yield Change(Effort.SHIM_UNDER, (shim,), replace(job, built=shimmed, rules=rules))


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


def _wanted_underside(job: Job, spare: float) -> float:
    """Return where the top has to go: what stands, else just over what the floor allows."""
    if job.built is not None:
        return job.built.underside
    lowest = max(job.floor.spots) + job.unit.height + job.rules.leg_least
    return mark_up(max(lowest, rolling_height(job)) + spare)
