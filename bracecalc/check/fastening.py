"""Screws moved and added on boards that stand: each by its place, clear of every old hole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from bracecalc.mechanics.nds.spacing import Place, Screw, place_screws
from bracecalc.planning.bracing import Bracing
from bracecalc.records.job import Built, Job, Screws, SetScrew
from bracecalc.records.plan import Stack, StackSupport
from bracecalc.records.scheme import Backing
from bracecalc.stack import screws as seats
from bracecalc.stack import studs as framing
from bracecalc.stack.kept import NEAR_HOLE, make_of
from bracecalc.stack.screws import Choice, Options, Refused
from bracecalc.tables.load import tables_of

MOST_TRIED = 6  # screws for one board that are tried, the shortest of each size first
MOST_MORE = 2  # rows more than stand


class Refastened(NamedTuple):
    """Screws backed out and driven, and the boards with them so."""

    backed_out: tuple[SetScrew, ...]
    driven: tuple[SetScrew, ...]
    built: Built


def refastened(job: Job, core: Bracing, given: Screws) -> Iterator[Refastened]:
    """Yield ways to fasten boards that stand: what does not hold is backed out, more is driven.

    Args:
        job: as found, with boards whose screws are known.
        core: of that job, for the state of each screw.
        given: the screws that may be driven.
    """
    support, built = core.support, job.built
    if built is None or not isinstance(support, StackSupport) or not support.standing:
        return
    stack = support.stack
    if stack.backing is Backing.BLOCKING:
        return
    bad = tuple(one.screw for one in support.standing if one.fault is not None)
    kept = tuple(one.screw for one in support.standing if one.fault is None)
    freed = replace(built, screws=kept, holes=(*built.holes, *bad))
    wanted = _rows_of(built, stack.boards)
    options = seats.options_of(given, tables_of(job), job.loads.method)
    for more in range(MOST_MORE + 1):
        rows = (*wanted[:-1], wanted[-1] + more)
        for choices in _choices(job, stack, options, kept, built):
            driven = _driven(replace(job, built=freed), stack, choices, rows)
            if driven:
                done = replace(freed, screws=(*kept, *driven))
                yield Refastened(bad, driven, done)


def _rows_of(built: Built, boards: int) -> tuple[int, ...]:
    """Return how many screws each board has on a stud, one at least."""
    counts: dict[tuple[int, float], int] = {}
    for screw in built.screws:
        key = screw.board, screw.spot
        counts[key] = counts.get(key, 0) + 1
    return tuple(
        max((count for (board, _), count in counts.items() if board == number), default=1)
        for number in range(1, boards + 1)
    )


def _choices(
    job: Job, stack: Stack, options: Options, kept: Sequence[SetScrew], built: Built
) -> Iterator[tuple[Choice, ...]]:
    """Yield a screw for each board, like those that are in before others."""
    make = make_of(job, tables_of(job), stack)
    sizes = {screw.board: screw.size for screw in (*built.screws, *kept)}
    covered = []
    for board in range(1, stack.boards):
        found = seats.covered_choices(make.path(board), options)
        if not found:
            return
        covered.append(min(found, key=lambda one: one.candidate.size.size != sizes.get(board)))
    outer, seen = [], set()
    for option in options.screws:
        if option.size.size in seen:
            continue
        sits = seats.seat(option, make.outer_path, counterbore=job.screws.counterbore)
        if not isinstance(sits, Refused):
            seen.add(option.size.size)
            outer.append(Choice(option, sits))
    like = sizes.get(stack.boards)
    outer.sort(key=lambda one: (one.candidate.size.size != like, seats.order(one.candidate)))
    for one in outer[:MOST_TRIED]:
        yield (*covered, one)


def _driven(
    job: Job, stack: Stack, choices: Sequence[Choice], rows: Sequence[int]
) -> tuple[SetScrew, ...]:
    """Return the screws that every stud still lacks, where it has room for all of them."""
    built = job.built
    if built is None:
        return ()
    end = max(seats.distances(one.candidate.size).end for one in choices)
    found: list[SetScrew] = []
    for spot in framing.meet(job, stack, end=end).used:
        half = job.wall.stud.width / 2.0
        here = [one for one in built.screws if abs(one.from_left - spot) <= half]
        lacking = [
            board
            for board, count in enumerate(rows, start=1)
            for _ in range(count - sum(1 for one in here if one.board == board))
        ]
        if not lacking:
            continue
        lacking.sort(reverse=True)  # the outermost board's screws take their places first
        places = _placed(job, stack, spot, [choices[board - 1] for board in lacking])
        if places is not None:
            found.extend(
                _set(choices[board - 1], board, spot, place)
                for board, place in zip(lacking, places, strict=True)
            )
    return tuple(found)


def _placed(
    job: Job, stack: Stack, spot: float, choices: Sequence[Choice]
) -> tuple[Place, ...] | None:
    return place_screws(
        tuple(seats.as_screw(one.candidate.size, stack.backing) for one in choices),
        board_width=stack.least_width,
        stud_width=job.wall.stud.width,
        uncertainty=job.rules.tape_uncertainty,
        taken=_taken(job, stack, spot),
    )


def _taken(job: Job, stack: Stack, spot: float) -> tuple[tuple[Screw, Place], ...]:
    built = job.built
    there = () if built is None else (*built.screws, *built.holes)
    return tuple(
        (
            seats.as_hole(one, tables_of(job), stack.backing),
            (one.from_left - spot, one.above),
        )
        for one in there
        if abs(one.from_left - spot) <= NEAR_HOLE
    )


def _set(choice: Choice, board: int, spot: float, place: Place) -> SetScrew:
    candidate, seat = choice
    return SetScrew(
        board=board,
        kind=candidate.size.kind,
        size=candidate.size.size,
        length=candidate.length,
        counterbore=seat.counterbore,
        thread_length=candidate.thread_length,
        published=candidate.published,
        spot=spot,
        across=place[0],
        above=place[1],
    )


def taken_down(built: Built, underside: float) -> Built:
    """Return boards put up new at a height, fastened anew: old holes stay in the studs alone."""
    gone = tuple(
        replace(one, above=one.above + built.underside - underside, in_stud_alone=True)
        for one in (*built.screws, *built.holes)
    )
    return replace(
        built,
        underside=underside,
        rises=0.0,
        start=None,
        length=None,
        unlocated=False,
        screws=(),
        holes=gone,
    )
