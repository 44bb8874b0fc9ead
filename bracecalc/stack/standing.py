"""A stack that stands, judged by the very screws that are in it and the wood found behind them.

Nothing is chosen here. A screw counts where its whole rule is kept: in wood, clear of the stud's
edges with the reading's uncertainty off, long enough for the wall that was found.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from bracecalc.mechanics.nds.spacing import apart
from bracecalc.records.job import Built, Job, SetScrew, StudMaterial
from bracecalc.records.plan import Finding, ScrewRow, Washer
from bracecalc.records.reference import Tables
from bracecalc.records.scheme import Backing, Fault, ScrewState
from bracecalc.stack import screws as seats
from bracecalc.stack import studs as framing
from bracecalc.stack.check import Held, Niche, StackCheck
from bracecalc.stack.screws import Candidate, Choice, Refused, Seat
from bracecalc.text.findings import Lengths, fails, joined, warns
from bracecalc.text.messages import Count

CODES = {
    Fault.NO_WOOD: "screws-miss-wood",
    Fault.NEAR_EDGE: "screws-miss-wood",
    Fault.NEAR_END: "screws-near-end",
    Fault.TOO_SHORT: "screws-too-short",
    Fault.FAR_SIDE: "screws-too-long",
    Fault.GAP: "screws-too-short",
    Fault.UNDER_HEAD: "screws-too-short",
    Fault.OLD_HOLE: "screws-too-close",
}
REFUSED = {
    Refused.TOO_SHORT: Fault.TOO_SHORT,
    Refused.FAR_SIDE: Fault.FAR_SIDE,
    Refused.GAP: Fault.GAP,
    Refused.UNDER_HEAD: Fault.UNDER_HEAD,
}


OFFSET = 0.5  # in: the end distance counts from the stud's centre, as in a plan
FAR_OFF = 1e3  # in: no stud at all


class Stood(NamedTuple):
    """Screws that are in, each with its state, and by what set of them the stack is held."""

    check: StackCheck
    held: Held | None  # None: fewer than two places hold
    states: tuple[ScrewState, ...]


class _Judged(NamedTuple):
    state: ScrewState
    choice: Choice | None  # None: it does not sit


def stand(niche: Niche, built: Built, tables: Tables) -> Stood:
    """Return what a stack that stands is held by.

    Args:
        niche: the stack in what was found of its niche.
        built: with the screws that are in, and the holes of those that were backed out.
        tables: reference tables.
    """
    judged = [_judged(screw, niche, built, tables) for screw in built.screws]
    good = [one for one in judged if one.state.fault is None]
    best: Held | None = None
    check = StackCheck(niche)
    for choice, heights, spots in _patterns(good, niche):
        tried = StackCheck(niche._replace(supports=spots))
        held = tried.held(niche.make.given_slot(choice, heights), 0)
        if held is not None and (best is None or held.use < best.use):
            best, check = held, tried
    return Stood(check, best, tuple(one.state for one in judged))


def candidate_of(screw: SetScrew, tables: Tables) -> Candidate:
    """Return a screw that is in as the equations know it."""
    if screw.published is not None:
        return seats.from_published(screw.published)
    size = tables.screws[screw.size]
    thread = screw.thread_length
    if thread is None:
        thread = seats.thread_length(size.kind, screw.length)
    return Candidate(size=size, length=screw.length, thread_length=thread)


def _judged(screw: SetScrew, niche: Niche, built: Built, tables: Tables) -> _Judged:
    candidate = candidate_of(screw, tables)
    path = niche.make.path(screw.board)
    sits = seats.seat(candidate, path, counterbore=screw.counterbore)
    got, required = seats.embedments(candidate, path, counterbore=screw.counterbore)
    room = _edge_room(screw, candidate, niche)
    fault = None
    if room is not None and room < -1e-9:
        edge = seats.distances(candidate.size).stud_edge
        fault = Fault.NO_WOOD if room + edge < -1e-9 else Fault.NEAR_EDGE
    if fault is None and _end_room(screw, candidate, niche) < -1e-9:
        fault = Fault.NEAR_END
    if fault is None and isinstance(sits, Refused):
        fault = REFUSED.get(sits)
    if fault is None and _crowded(screw, candidate, niche, built, tables):
        fault = Fault.OLD_HOLE
    tape = niche.job.rules.tape_uncertainty
    close = fault is None and room is not None and room < tape - 1e-9
    state = ScrewState(screw, got, required, fault, close)
    if fault is not None:
        return _Judged(state, None)
    # a thread that doesn't fill the embedment holds by what there is of it
    return _Judged(state, Choice(candidate, Seat(got, required, screw.counterbore)))


def _edge_room(screw: SetScrew, candidate: Candidate, niche: Niche) -> float | None:
    """Return what is left to the least distance from a stud's edge; None where that isn't known."""
    job, stack = niche.job, niche.stack
    if stack.backing is Backing.BLOCKING or job.wall.stud.material is not StudMaterial.WOOD:
        return None
    spots = framing.known_spots(job)
    if spots is None:
        return None
    off = min((abs(spot - screw.from_left) for spot in spots), default=FAR_OFF)
    return job.wall.stud.width / 2.0 - off - seats.distances(candidate.size).stud_edge


def _end_room(screw: SetScrew, candidate: Candidate, niche: Niche) -> float:
    """Return what is left to the least distance from either end of the boards, in."""
    left, length = niche.stack.left_end, niche.stack.length
    from_end = min(screw.from_left - left, left + length - screw.from_left)
    return from_end - seats.distances(candidate.size).end + OFFSET


def _crowded(
    screw: SetScrew, candidate: Candidate, niche: Niche, built: Built, tables: Tables
) -> bool:
    """Return whether a screw stands too near a hole that another left behind."""
    own = seats.as_screw(candidate.size, niche.stack.backing)
    for hole in built.holes:
        other = seats.as_hole(hole, tables, niche.stack.backing)
        places = (screw.from_left, screw.above), (hole.from_left, hole.above)
        if not apart(own, places[0], other, places[1]):
            return True
    return False


def _support(screw: SetScrew, niche: Niche) -> float:
    """Return the stud that a screw bites, or the place that it was set out for."""
    spots = None
    if niche.stack.backing is Backing.STUDS:
        spots = framing.known_spots(niche.job)
    if not spots:
        return screw.spot
    return min(spots, key=lambda spot: abs(spot - screw.from_left))


def _patterns(
    judged: Sequence[_Judged], niche: Niche
) -> Iterator[tuple[Choice, tuple[float, ...], tuple[float, ...]]]:
    """Yield every set of rows that two studs or more have, of one screw, with those studs.

    Any of them is a safe lower bound: the other screws of the stack are left out of the count.
    """
    by_choice: dict[Choice, dict[float, set[float]]] = {}
    for one in judged:
        screw = one.state.screw
        if one.choice is not None and screw.board == niche.stack.boards:
            spots = by_choice.setdefault(one.choice, {})
            spots.setdefault(_support(screw, niche), set()).add(screw.above)
    for choice, spots in by_choice.items():
        for rows in dict.fromkeys(_subsets(spots.values())):
            met = tuple(sorted(spot for spot, heights in spots.items() if heights >= set(rows)))
            if len(met) > 1:
                yield choice, rows, met


def _subsets(found: Iterable[set[float]]) -> Iterator[tuple[float, ...]]:
    for heights in found:
        ordered = sorted(heights)[: 2 * max(seats.ROW_HEIGHTS)]
        for count in range(1, len(ordered) + 1):
            yield from combinations(ordered, count)


def standing_rows(stood: Stood) -> tuple[ScrewRow, ...]:
    """Return the screws that are in as rows, those alike together."""
    niche = stood.check.niche
    alike: dict[tuple[int, str, float, float], list[ScrewState]] = {}
    for state in stood.states:
        screw = state.screw
        key = screw.board, screw.size, screw.length, screw.counterbore
        alike.setdefault(key, []).append(state)
    return tuple(_row(niche, alike[key]) for key in sorted(alike))


def _row(niche: Niche, states: list[ScrewState]) -> ScrewRow:
    first, job = states[0].screw, niche.job
    candidate = candidate_of(first, niche.make.key.tables)
    at: dict[float, list[tuple[float, float]]] = {}
    for state in states:
        at.setdefault(state.screw.spot, []).append((state.screw.across, state.screw.above))
    offsets = max(at.values(), key=len)
    washer = max(job.screws.washer, candidate.size.washer_thickness)
    return ScrewRow(
        board=first.board,
        size=first.size,
        kind=candidate.size.kind,
        length=first.length,
        counterbore=first.counterbore,
        thread_length=candidate.thread_length,
        embedment=states[0].embedment,
        required_embedment=states[0].required,
        per_stud=len(offsets),
        count=len(states),
        tip_to_far_side=job.wall.stud.depth - states[0].embedment,
        washer=Washer(candidate.size.washer_diameter, washer) if washer > 0.0 else None,
        metric=candidate.size.metric,
        holes=(),
        positions=tuple((one.screw.from_left, one.screw.above) for one in states),
        offsets=tuple(offsets),
    )


def standing_findings(job: Job, stood: Stood) -> tuple[Finding, ...]:
    """Return what is wrong with the screws that are in, and whether enough of them hold."""
    lengths = Lengths(job)
    found: list[Finding] = []
    for code in dict.fromkeys(CODES.values()):
        bad = [one for one in stood.states if one.fault is not None and CODES[one.fault] == code]
        if bad:
            nothing = stood.held is None and not found
            found.append(_finding(code, bad, lengths, nothing=nothing))
    if stood.held is None and not found:
        found.append(
            fails(
                "screws-hold-nothing",
                lengths.say("standing.too-few"),
                lengths.say("standing.too-few-remedy"),
            )
        )
    close = [one for one in stood.states if one.close]
    if close:
        found.append(
            warns(
                "screws-near-edge",
                lengths.say("standing.close", count=Count(len(close)), at=_places(close, lengths)),
                lengths.say("standing.close-remedy"),
            )
        )
    return tuple(found)


def _finding(code: str, states: list[ScrewState], lengths: Lengths, *, nothing: bool) -> Finding:
    said = [lengths.say("standing.too-few")] if nothing else []
    for fault in dict.fromkeys(one.fault for one in states):
        alike = [one for one in states if one.fault is fault]
        said.append(
            lengths.say(
                "standing.fault",
                count=Count(len(alike)),
                at=_places(alike, lengths),
                why=lengths.say(
                    f"fault.{'' if fault is None else fault.name}",
                    embedment=lengths.down(max(0.0, min(one.embedment for one in alike))),
                    required=lengths.up(max(one.required for one in alike)),
                ),
            )
        )
    return fails(code, " ".join(said), lengths.say(f"standing.{code}-remedy"))


def _places(states: list[ScrewState], lengths: Lengths) -> str:
    places = sorted({one.screw.from_left for one in states})
    return joined([lengths.near(place) for place in places])
