"""The screw schedule of a stack: what the search found, set out on the studs."""

from __future__ import annotations

from typing import NamedTuple

from bracecalc.mechanics.nds.spacing import Place
from bracecalc.records.plan import Finding, LoadCase, ScrewRow, Strength, Studs, Washer
from bracecalc.records.reference import ScrewSize
from bracecalc.records.scheme import Backing, Part
from bracecalc.stack import screws as seats
from bracecalc.stack import studs as framing
from bracecalc.stack.check import Held, StackCheck
from bracecalc.stack.drilling import BACKING_NAMES, drilled
from bracecalc.stack.make import SILENT
from bracecalc.stack.screws import Choice
from bracecalc.stack.standing import Stood, standing_findings, standing_rows
from bracecalc.strength import parts
from bracecalc.text.findings import Lengths, notes, warns


class Schedule(NamedTuple):
    """The screws, what they hold, and what is to be said."""

    studs: Studs
    rows: tuple[ScrewRow, ...]
    strength: Strength | None
    cases: tuple[LoadCase, ...]
    findings: tuple[Finding, ...]


def standing_schedule(stood: Stood, target: float | None) -> Schedule:
    """Return the screws of a stack that stands, as they are."""
    check, held = stood.check, stood.held
    job, stack = check.niche.job, check.niche.stack
    blocked = stack.backing is Backing.BLOCKING
    ends = (
        seats.distances(seats.size_of(one.screw, check.make.key.tables)).end for one in stood.states
    )
    studs = framing.meet_studs(job, stack, end=max(ends, default=0.0), target=target)
    said = framing.stud_findings(job, studs, stack.backing) if blocked or studs.sure > 1 else ()
    return Schedule(
        studs=studs,
        rows=standing_rows(stood),
        strength=None if held is None else check.make.one_screw(held.choice, SILENT).strength,
        cases=() if held is None else check.judged(held),
        findings=(*standing_findings(job, stood), *said),
    )


def make_schedule(check: StackCheck, held: Held, target: float | None) -> Schedule:
    """Return the screw schedule of a stack with its strength.

    Args:
        check: of the stack.
        held: the screws that were found for it.
        target: height of its underside above the datum, in; None where there is none.
    """
    job, stack = check.niche.job, check.niche.stack
    studs = framing.meet_studs(job, stack, end=held.slot.end, target=target)
    return Schedule(
        studs=studs,
        rows=_rows(check, held, studs),
        strength=check.make.one_screw(held.choice, SILENT).strength,
        cases=check.judged(held),
        findings=(
            *framing.stud_findings(job, studs, stack.backing),
            *_blocking_unchecked(check, held),
            *_finish_unchecked(check, held),
        ),
    )


def _blocking_unchecked(check: StackCheck, held: Held) -> tuple[Finding, ...]:
    if check.niche.stack.backing is Backing.STUDS:
        return ()
    most = Lengths(check.niche.job).force_up(check.worst.force * held.counted.share)
    return (
        warns(
            "blocking-not-checked",
            "How the blocking itself is held between the studs is not worked out here: at one "
            f"place of screws it must hold {most} upward.",
            "Give that force to whoever is responsible for the framing.",
        ),
    )


def _finish_unchecked(check: StackCheck, held: Held) -> tuple[Finding, ...]:
    job = check.niche.job
    layers = job.wall.layers
    if not layers or check.niche.stack.cut_back > 0.0 or check.make.key.crushing is not None:
        return ()
    use = check.make.bearing_uses(
        held.slot.size,
        parts.OnStud(held.counted.share, check.lever, check.make.key.build_up.gap),
        check.make.depths(held.slot.heights),
        SILENT,
    )
    # the mean pressure over the board's strength across its grain, the greatest is twice the mean
    across = check.make.board_strength.across * (parts.WET_ACROSS if check.make.key.wet else 1.0)
    pressure = check.worst.force * use[Part.EDGE] * across * 2.0
    material = layers[0].material
    return (
        notes(
            "finish-not-checked",
            f"At the greatest load the stack's top edge presses the {material} over a stud with up "
            f"to {Lengths(job).pressure_up(pressure)}; no published crushing strength was found.",
            "Look for crushing under that edge at every check, or give crushing_psi of the "
            f"{material} in a table of your own.",
        ),
    )


def studs_alone(check: StackCheck, target: float | None) -> Schedule:
    """Return the studs alone: what is known of a stack that no screw can be shown to hold."""
    job, stack = check.niche.job, check.niche.stack
    sizes = {option.size for option in check.make.key.options.screws}
    end = min((seats.distances(size).end for size in sizes), default=0.0)
    studs = framing.meet_studs(job, stack, end=end, target=target)
    return Schedule(studs, (), None, (), ())


def _rows(check: StackCheck, held: Held, studs: Studs) -> tuple[ScrewRow, ...]:
    slot, places = held.slot, held.slot.places
    if places is None:
        raise ValueError("screws that are held must have places")
    # places come outermost board first, then the covered boards from the wall outward
    split = [*((place,) for place in places[slot.rows :]), places[: slot.rows]]
    chosen = [*slot.covered, held.choice]
    count = len(held.supports)
    spots = held.supports
    if not studs.spots:  # the places aren't known, and screws are bought for the best case
        spots = ()
        if check.niche.stack.backing is Backing.STUDS:
            count = max(2, studs.best_case)
    return tuple(
        _row(check, board, one, offsets, spots, count)
        for board, (one, offsets) in enumerate(zip(chosen, split, strict=True), start=1)
    )


def _row(
    check: StackCheck,
    board: int,
    choice: Choice,
    offsets: tuple[Place, ...],
    spots: tuple[float, ...],
    count: int,
) -> ScrewRow:
    candidate, seat = choice
    job, stack = check.niche.job, check.niche.stack
    layers = () if stack.cut_back > 0.0 else job.wall.layers
    return ScrewRow(
        board=board,
        size=candidate.size.size,
        kind=candidate.size.kind,
        length=candidate.length,
        counterbore=seat.counterbore,
        thread_length=candidate.thread_length,
        embedment=seat.embedment,
        required_embedment=seat.required,
        per_stud=len(offsets),
        count=len(offsets) * count,
        tip_to_far_side=job.wall.stud.depth - seat.embedment,
        washer=_washer(check, candidate.size),
        metric=candidate.size.metric,
        holes=drilled(
            candidate.size,
            counterbore=seat.counterbore,
            layers=tuple(layer.material for layer in layers),
            gravity=check.make.stud_species.specific_gravity,
            members=("boards", BACKING_NAMES[stack.backing]),
        ),
        positions=tuple((spot + across, height) for spot in spots for across, height in offsets),
        offsets=offsets,
    )


def _washer(check: StackCheck, size: ScrewSize) -> Washer | None:
    """Return the washer that strength and embedment count, if there is one."""
    thickness = max(check.niche.job.screws.washer, size.washer_thickness)
    return Washer(size.washer_diameter, thickness) if thickness > 0.0 else None
