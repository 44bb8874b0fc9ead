"""Which screws fix the boards: the search over rows, sizes, lengths and counterbores.

Least screws first, then the shortest; from what the crew carries, if the job says so.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import NamedTuple

from bracecalc.mechanics.nds import penetration
from bracecalc.mechanics.nds.penetration import embedment, least_embedment
from bracecalc.mechanics.nds.spacing import (
    Distances,
    Place,
    Screw,
    least_distances,
    least_distances_eurocode,
    place_screws,
)
from bracecalc.records.job import Method, PublishedScrew, Screws
from bracecalc.records.reference import ScrewKind, ScrewSize, Tables

MOST_ROWS = 3
ROW_HEIGHTS = {1: (0.5,), 2: (0.0, 1.0), 3: (0.0, 1.0, 0.5)}  # of the board's width, rows
COUNTERBORES = (0.25, 0.5)  # tried only where nothing reaches without one
BOLT_HEADED = (ScrewKind.LAG, ScrewKind.COACH)  # the head stands out, the tip does not count
SMALLEST_INNER = 0.16  # No. 8 and up fix the inner boards, common practice
COACH_THREAD = 0.6  # of the length, DIN 571, from memory
HEAD_HEIGHT = 0.6875  # of D: hex head of a lag screw, ASME B18.2.1, from memory


class Candidate(NamedTuple):
    """A screw that the crew could take."""

    size: ScrewSize
    length: float
    thread_length: float
    published: PublishedScrew | None = None


class Path(NamedTuple):
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


def thread_length(kind: ScrewKind, length: float) -> float:
    """Return the length of thread where the maker gives none, in.

    >>> thread_length(ScrewKind.WOOD, 3.0), thread_length(ScrewKind.LAG, 7.0)
    (2.0, 4.0)
    """
    if kind is ScrewKind.COACH:
        return COACH_THREAD * length
    if kind is ScrewKind.LAG:
        return penetration.lag_screw_thread_length(length=length)
    return penetration.wood_screw_thread_length(length=length)


def tip_length(size: ScrewSize) -> float:
    """Return the length of the tapered tip where it does not count as embedment, else 0, in."""
    if size.kind is ScrewKind.COACH:
        return size.diameter  # EN 1995-1-1 8.7.2: point, about one diameter, common practice
    if size.kind is ScrewKind.LAG:
        return penetration.lag_tip_length(diameter=size.diameter)
    return 0.0


class Options:
    """The screws that may be used, shortest first, smaller before larger.

    Told apart by identity, so that what was found for them once is found again at once.
    """

    __slots__ = ("screws",)

    def __init__(self, screws: Iterable[Candidate]) -> None:
        self.screws = tuple(sorted(screws, key=_order))


@lru_cache(maxsize=64)
def options_of(given: Screws, tables: Tables, method: Method) -> Options:
    """Return the screws that a job may use: what is carried, or every stocked screw.

    Without a list of the crew's, metric screws go with Eurocode 5 and the others with the NDS.
    """
    if not given.carried and not given.published:
        return Options(
            Candidate(size=size, length=length, thread_length=thread_length(size.kind, length))
            for size in tables.screws.values()
            if size.metric == (method is Method.EC5)
            for length in size.lengths
        )
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
    return Options(found)


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
    lag = size.kind in BOLT_HEADED
    washer = max(path.washer, size.washer_thickness)
    if counterbore > 0.0 and path.outer_board - counterbore < path.under_head - 1e-9:
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
        tip = tip_length(size)
        required = least_embedment(wanted=path.wanted, diameter=size.diameter, tip=tip, lag=lag)
    if got < required - 1e-9:
        return "too short"
    if got > path.framing_depth - 1e-9:
        return "its tip comes out of the far side"
    if got > candidate.thread_length + 1e-9:
        return "its thread does not fill the embedment"
    return Seat(got, required, counterbore)


@lru_cache(maxsize=4096)
def inner_choice(path: Path, options: Options, *, like: ScrewSize | None) -> Choice | None:
    """Return the screw of a board that another board covers: its head must not stand out.

    A countersunk screw of the outermost board's size first, then the shortest; a lag screw only in
    a counterbore that takes its head.
    """
    best: Choice | None = None
    best_order: tuple[bool, bool, float, float] | None = None
    for option in options.screws:
        lag = option.size.kind in BOLT_HEADED
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
    board_width: float
    stud_width: float
    uncertainty: float


def places(rows: int, size: ScrewSize, crowd: Crowd) -> tuple[Place, ...] | None:
    """Return places for the outermost board's rows and then the covered boards' screws.

    The rows spread: a low one holds best against turning, a high one against splitting the board.
    """
    one = as_screw(size)
    return place_screws(
        tuple(one._replace(height=height) for height in ROW_HEIGHTS[rows]) + crowd.inner,
        board_width=crowd.board_width,
        stud_width=crowd.stud_width,
        uncertainty=crowd.uncertainty,
    )


@lru_cache(maxsize=1024)
def as_screw(size: ScrewSize) -> Screw:
    """Return what placing needs to know of a screw size."""
    head = size.head_diameter if size.washer_diameter is None else size.washer_diameter
    return Screw(diameter=size.diameter, head=head, least=distances(size))


@lru_cache(maxsize=1024)
def distances(size: ScrewSize) -> Distances:
    """Return the least distances of a size, by the standard that covers its kind."""
    if size.kind is ScrewKind.COACH:
        return least_distances_eurocode(diameter=size.diameter)
    return least_distances(diameter=size.diameter)


Use = Callable[[Candidate, Seat, tuple[float, ...]], float]
PlacesOf = Callable[[int, ScrewSize], tuple[Place, ...] | None]  # None where they have no room


def search_outer(
    path: Path,
    options: Options,
    *,
    counterbore: float,
    places_of: PlacesOf,
    use: Use,
) -> tuple[Choice | None, Choice | None]:
    """Return the choice that holds, and the strongest one where none does.

    Args:
        path: of the outermost board's screws.
        options: shortest first.
        counterbore: that the job asks for, in; 0 lets the search try one where nothing reaches.
        places_of: gives the places of so many rows of a size, and of the covered boards' screws.
        use: gives the greatest utilisation of a screw in its seat with rows at these heights.
    """
    tried = (counterbore,) if counterbore > 0.0 else (0.0, *COUNTERBORES)
    for depth in tried:
        seated = _seated(path, options, depth)
        if not seated:
            continue
        strongest: Choice | None = None
        for rows in range(1, MOST_ROWS + 1):
            found, strong = _shortest_that_holds(seated, rows, places_of, use)
            if found is not None:
                return found, strong
            if strong is not None and (strongest is None or strong.use < strongest.use):
                strongest = strong
        return None, strongest
    return None, None


Seated = tuple[tuple[Candidate, Seat], ...]


@lru_cache(maxsize=1024)
def _seated(path: Path, options: Options, counterbore: float) -> tuple[Seated, ...]:
    """Return the screws that sit in a path, by size, each size shortest first."""
    by_size: dict[ScrewSize, list[tuple[Candidate, Seat]]] = {}
    for option in options.screws:
        found = seat(option, path, counterbore=counterbore)
        if isinstance(found, Seat):
            by_size.setdefault(option.size, []).append((option, found))
    return tuple(tuple(group) for group in by_size.values())


def _shortest_that_holds(
    seated: tuple[Seated, ...], rows: int, places_of: PlacesOf, use: Use
) -> tuple[Choice | None, Choice | None]:
    shortest: Choice | None = None
    strongest: Choice | None = None
    for group in seated:
        if shortest is not None and _order(group[0][0]) >= _order(shortest.candidate):
            break  # sizes come by their shortest screw: no later one is shorter
        found = places_of(rows, group[0][0].size)
        if found is None:
            continue
        heights = tuple([height for _, height in found[:rows]])
        # of one size the longest is the strongest: where it fails, so do the others
        option, sitting = group[-1]
        amount = use(option, sitting, heights)
        if amount > 1.0:
            # a screw that its standard doesn't cover holds nothing: no choice, not a weak one
            if amount < (math.inf if strongest is None else strongest.use):
                strongest = Choice(option, sitting, rows, amount)
            continue
        for option, sitting in group:
            if shortest is not None and _order(option) >= _order(shortest.candidate):
                break
            amount = use(option, sitting, heights)
            if amount <= 1.0:
                shortest = Choice(option, sitting, rows, amount)
                break
    return shortest, strongest
