"""The screws that may fix the boards: how each sits in its path, and where it finds room."""

from __future__ import annotations

import math
from collections.abc import Iterable
from enum import StrEnum
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
from bracecalc.records.job import Method, PublishedScrew, Screws, SetScrew
from bracecalc.records.reference import ScrewKind, ScrewSize, Tables
from bracecalc.records.scheme import Backing

ROW_HEIGHTS = {1: (0.5,), 2: (0.0, 1.0), 3: (0.0, 1.0, 0.5)}  # of the board's width, rows
COUNTERBORES = (0.0, 0.25, 0.5)  # common practice; a job may give its own
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
    """A candidate in its seat."""

    candidate: Candidate
    seat: Seat


class Refused(StrEnum):
    """Why a candidate does not sit in its path."""

    UNDER_HEAD = "the counterbore leaves too little wood under the head"
    GAP = "its published values are for a smaller gap"
    TOO_SHORT = "too short"
    FAR_SIDE = "its tip comes out of the far side"
    THREAD = "its thread does not fill the embedment"


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
        self.screws = tuple(sorted(screws, key=order))


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
    found.extend(from_published(screw) for screw in given.published)
    return Options(found)


def size_of(screw: SetScrew, tables: Tables) -> ScrewSize:
    """Return the size of a screw that is in, or was."""
    if screw.published is not None:
        return from_published(screw.published).size
    return tables.screws[screw.size]


def as_hole(hole: SetScrew, tables: Tables, backing: Backing) -> Screw:
    """Return what placing needs to know of a screw that is in already, or of its hole."""
    screw = as_screw(size_of(hole, tables), backing)
    return screw._replace(in_stud_alone=hole.in_stud_alone)


def order(candidate: Candidate) -> tuple[float, float]:
    """Return what is preferred of two that hold: the shorter, then the thinner."""
    return candidate.length, candidate.size.diameter


def from_published(screw: PublishedScrew) -> Candidate:
    """Return a screw with its maker's values as one that the crew could take."""
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


def seat(candidate: Candidate, path: Path, *, counterbore: float) -> Seat | Refused:
    """Return how a screw sits in its path, or why it can't be used there."""
    if counterbore > 0.0 and path.outer_board - counterbore < path.under_head - 1e-9:
        return Refused.UNDER_HEAD
    published = candidate.published
    if published is not None and path.gap > published.largest_gap + 1e-9:
        return Refused.GAP
    got, required = embedments(candidate, path, counterbore=counterbore)
    if got < required - 1e-9:
        return Refused.TOO_SHORT
    if got > path.framing_depth - 1e-9:
        return Refused.FAR_SIDE
    if got > candidate.thread_length + 1e-9:
        return Refused.THREAD
    return Seat(got, required, counterbore)


def embedments(candidate: Candidate, path: Path, *, counterbore: float) -> tuple[float, float]:
    """Return the embedment that a screw gets in its path, and the least that it needs, in."""
    size = candidate.size
    got = embedment(
        length=candidate.length,
        under_head=path.boards - counterbore,
        build_up=path.build_up,
        washer=max(path.washer, size.washer_thickness),
    )
    if candidate.published is not None:
        return got, max(path.wanted, candidate.published.least_embedment)
    required = least_embedment(
        wanted=path.wanted,
        diameter=size.diameter,
        tip=tip_length(size),
        lag=size.kind in BOLT_HEADED,
    )
    return got, required


@lru_cache(maxsize=4096)
def covered_choices(path: Path, options: Options) -> tuple[Choice, ...]:
    """Return the screws that may fix a board which another board covers, one of each family.

    The head must not stand out: a countersunk screw, or one with a hexagon head in a counterbore
    that takes it. Of each family the smallest, which crowds least, and of that the shortest.
    """
    best: dict[ScrewKind, Choice] = {}
    for option in options.screws:
        bolt_headed = option.size.kind in BOLT_HEADED
        if option.size.diameter < SMALLEST_INNER:
            continue
        head = math.ceil(option.size.diameter * HEAD_HEIGHT * 8.0) / 8.0 if bolt_headed else 0.0
        found = seat(option, path, counterbore=head)
        if isinstance(found, Refused):
            continue
        known = best.get(option.size.kind)
        if known is None or _crowds_less(option, known.candidate):
            best[option.size.kind] = Choice(option, found)
    return tuple(sorted(best.values(), key=lambda one: one.candidate.size.kind in BOLT_HEADED))


def _crowds_less(one: Candidate, other: Candidate) -> bool:
    return (one.size.diameter, one.length) < (other.size.diameter, other.length)


class Crowd(NamedTuple):
    """What shares a stud with the outermost board's screws."""

    inner: tuple[Screw, ...]
    board_width: float
    stud_width: float
    uncertainty: float
    backing: Backing
    taken: tuple[tuple[Screw, Place], ...] = ()


def places(rows: int, size: ScrewSize, crowd: Crowd) -> tuple[Place, ...] | None:
    """Return places for the outermost board's rows and then the covered boards' screws.

    The rows spread: a low one holds best against turning, a high one against splitting the board.
    """
    one = as_screw(size, crowd.backing)
    return place_screws(
        tuple(one._replace(height=height) for height in ROW_HEIGHTS[rows]) + crowd.inner,
        board_width=crowd.board_width,
        stud_width=crowd.stud_width,
        uncertainty=crowd.uncertainty,
        taken=crowd.taken,
    )


@lru_cache(maxsize=1024)
def as_screw(size: ScrewSize, backing: Backing) -> Screw:
    """Return what placing needs to know of a screw size.

    The screws push blocking up, so that its top edge is a loaded one as the board's bottom edge is.
    """
    head = size.head_diameter if size.washer_diameter is None else size.washer_diameter
    least = distances(size)
    if backing is Backing.BLOCKING:
        least = least._replace(top=max(least.top, least.bottom))
    return Screw(diameter=size.diameter, head=head, least=least)


@lru_cache(maxsize=1024)
def distances(size: ScrewSize) -> Distances:
    """Return the least distances of a size, by the standard that covers its kind."""
    if size.kind is ScrewKind.COACH:
        return least_distances_eurocode(diameter=size.diameter)
    return least_distances(diameter=size.diameter)


Seated = tuple[Choice, ...]


@lru_cache(maxsize=1024)
def seated_by_size(path: Path, options: Options, counterbore: float) -> tuple[Seated, ...]:
    """Return the screws that sit in a path, by size, each size shortest first."""
    by_size: dict[ScrewSize, list[Choice]] = {}
    for option in options.screws:
        found = seat(option, path, counterbore=counterbore)
        if isinstance(found, Seat):
            by_size.setdefault(option.size, []).append(Choice(option, found))
    return tuple(tuple(group) for group in by_size.values())
