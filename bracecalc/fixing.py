"""Which screws fix the boards: the search over rows, sizes, lengths and counterbores.

Least screws first, then the shortest; from what the crew carries, if the job says so.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from bracecalc.mechanics import penetration
from bracecalc.mechanics.embedment import embedment, least_embedment
from bracecalc.mechanics.spacing import Place, Screw, place_screws
from bracecalc.records.job import Job, PublishedScrew
from bracecalc.records.reference import ScrewKind, ScrewSize, Tables

MOST_ROWS = 3
ROW_HEIGHTS = {1: (0.5,), 2: (0.0, 1.0), 3: (0.0, 1.0, 0.5)}  # of the board's height, rows
COUNTERBORES = (0.25, 0.5)  # tried only where nothing reaches without one
SMALLEST_INNER = 0.16  # No. 8 and up fix the inner boards, common practice
HEAD_HEIGHT = 0.6875  # of D: hex head of a lag screw, ASME B18.2.1, from memory


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A screw that the crew could take."""

    size: ScrewSize
    length: float
    thread_length: float
    published: PublishedScrew | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """What a screw of one board passes through: inches."""

    boards: float  # all wood under the head before a counterbore
    outer_board: float  # the board under the head
    build_up: float
    gap: float
    framing_depth: float
    wanted: float
    washer: float
    under_head: float


class Seat(NamedTuple):
    """How a candidate sits: embedment got and required, counterbore, in."""

    embedment: float
    required: float
    counterbore: float


class Choice(NamedTuple):
    """A candidate in its seat, and the rows of it on each stud."""

    candidate: Candidate
    seat: Seat
    rows: int
    use: float


@lru_cache(maxsize=64)
def _stock(sizes: tuple[ScrewSize, ...]) -> tuple[Candidate, ...]:
    return tuple(
        Candidate(size=size, length=length, thread_length=thread_length(size.kind, length))
        for size in sizes
        for length in size.lengths
    )


def thread_length(kind: ScrewKind, length: float) -> float:
    """Return the length of thread where the maker gives none, in.

    >>> thread_length(ScrewKind.WOOD, 3.0), thread_length(ScrewKind.LAG, 7.0)
    (2.0, 4.0)
    """
    if kind is ScrewKind.LAG:
        return penetration.lag_screw_thread_length(length=length)
    return penetration.wood_screw_thread_length(length=length)


def candidates(job: Job, tables: Tables) -> tuple[Candidate, ...]:
    """Return every screw that may be used, shortest first, smaller before larger."""
    given = job.screws
    if not given.carried and not given.published:
        return _sorted_stock(tuple(tables.screws.values()))
    found = [
        Candidate(
            size=tables.screws[screw.size],
            length=length,
            thread_length=thread_length(tables.screws[screw.size].kind, length)
            if screw.thread_length is None
            else screw.thread_length,
        )
        for screw in given.carried
        for length in screw.lengths
    ]
    found.extend(_from_published(screw) for screw in given.published)
    return tuple(sorted(found, key=_order))


@lru_cache(maxsize=64)
def _sorted_stock(sizes: tuple[ScrewSize, ...]) -> tuple[Candidate, ...]:
    return tuple(sorted(_stock(sizes), key=_order))


def _order(candidate: Candidate) -> tuple[float, float]:
    return candidate.length, candidate.size.diameter


def _from_published(screw: PublishedScrew) -> Candidate:
    size = ScrewSize(
        size=screw.size,
        kind=ScrewKind.PUBLISHED,
        diameter=screw.diameter,
        root_diameter=screw.diameter,
        head_diameter=screw.head_diameter,
        bending_yield=1.0,
        lengths=(screw.length,),
    )
    return Candidate(
        size=size, length=screw.length, thread_length=screw.thread_length, published=screw
    )


def seat(candidate: Candidate, path: Path, *, counterbore: float) -> Seat | str:
    """Return how a screw sits in its path, or in words why it can't be used there."""
    size = candidate.size
    lag = size.kind is ScrewKind.LAG
    washer = max(path.washer, size.washer_thickness)
    if path.outer_board - counterbore < path.under_head - 1e-9:
        return "the counterbore leaves too little wood under the head"
    got = embedment(
        length=candidate.length,
        under_head=path.boards - counterbore,
        build_up=path.build_up,
        washer=washer,
    )
    if candidate.published is not None:
        required = max(path.wanted, candidate.published.least_embedment)
        if path.gap > candidate.published.largest_gap + 1e-9:
            return "its published values are for a smaller gap"
    else:
        tip = penetration.lag_tip_length(diameter=size.diameter) if lag else 0.0
        required = least_embedment(wanted=path.wanted, diameter=size.diameter, tip=tip, lag=lag)
    if got < required - 1e-9:
        return "too short"
    if got > path.framing_depth - 1e-9:
        return "its tip comes out of the far side"
    if got > candidate.thread_length + 1e-9:
        return "its thread does not fill the embedment"
    return Seat(got, required, counterbore)


def inner_choice(
    path: Path, options: tuple[Candidate, ...], *, like: ScrewSize | None
) -> Choice | None:
    """Return the screw of a board that another board covers: its head must not stand out.

    A countersunk screw of the outermost board's size first, then the shortest; a lag screw only in
    a counterbore that takes its head.
    """
    best: Choice | None = None
    best_order: tuple[bool, bool, float, float] | None = None
    for option in options:
        lag = option.size.kind is ScrewKind.LAG
        if option.size.diameter < SMALLEST_INNER:
            continue
        head = math.ceil(option.size.diameter * HEAD_HEIGHT * 8.0) / 8.0 if lag else 0.0
        found = seat(option, path, counterbore=head)
        if isinstance(found, str):
            continue
        order = (lag, option.size is not like, option.length, option.size.diameter)
        if best_order is None or order < best_order:
            best, best_order = Choice(option, found, 1, 0.0), order
    return best


class Crowd(NamedTuple):
    """What shares a stud with the outermost board's screws."""

    inner: tuple[Screw, ...]
    board_height: float
    stud_width: float
    uncertainty: float


def places(rows: int, size: ScrewSize, crowd: Crowd) -> tuple[Place, ...] | None:
    """Return places for the outermost board's rows and then the covered boards' screws.

    The rows spread: a low one holds best against turning, a high one against splitting the board.
    """
    one = as_screw(size)
    return place_screws(
        tuple(one._replace(height=height) for height in ROW_HEIGHTS[rows]) + crowd.inner,
        board_height=crowd.board_height,
        stud_width=crowd.stud_width,
        uncertainty=crowd.uncertainty,
    )


@lru_cache(maxsize=1024)
def as_screw(size: ScrewSize) -> Screw:
    """Return what placing needs to know of a screw size."""
    head = size.head_diameter if size.washer_diameter is None else size.washer_diameter
    return Screw(diameter=size.diameter, head=head)


Use = Callable[[Candidate, Seat, tuple[float, ...]], float]
CrowdOf = Callable[[ScrewSize], Crowd | None]  # None where an inner board can't be fixed


def search_outer(
    path: Path,
    options: tuple[Candidate, ...],
    *,
    counterbore: float,
    crowd: CrowdOf,
    use: Use,
) -> tuple[Choice | None, Choice | None]:
    """Return the choice that holds, and the strongest one where none does.

    Args:
        path: of the outermost board's screws.
        options: shortest first.
        counterbore: that the job asks for, in; 0 lets the search try one where nothing reaches.
        crowd: what else enters the stud, by the size of the outermost board's screws.
        use: gives the greatest utilisation of a screw in its seat with rows at these heights.
    """
    tried = (counterbore,) if counterbore > 0.0 else (0.0, *COUNTERBORES)
    for depth in tried:
        seated = list(_seated(path, options, depth))
        if not seated:
            continue
        strongest: Choice | None = None
        for rows in range(1, MOST_ROWS + 1):
            found, strong = _shortest_that_holds(seated, rows, crowd, use)
            if found is not None:
                return found, strong
            if strong is not None and (strongest is None or strong.use < strongest.use):
                strongest = strong
        return None, strongest
    return None, None


def _seated(
    path: Path, options: tuple[Candidate, ...], counterbore: float
) -> Iterator[tuple[Candidate, Seat]]:
    for option in options:
        found = seat(option, path, counterbore=counterbore)
        if isinstance(found, Seat):
            yield option, found


def _shortest_that_holds(
    seated: list[tuple[Candidate, Seat]], rows: int, crowd: CrowdOf, use: Use
) -> tuple[Choice | None, Choice | None]:
    strongest: Choice | None = None
    for option, sitting in seated:  # shortest first
        others = crowd(option.size)
        found = None if others is None else places(rows, option.size, others)
        if found is None:
            continue
        amount = use(option, sitting, tuple(height for _, height in found[:rows]))
        choice = Choice(option, sitting, rows, amount)
        if amount <= 1.0:
            return choice, choice
        if strongest is None or amount < strongest.use:
            strongest = choice
    return None, strongest
