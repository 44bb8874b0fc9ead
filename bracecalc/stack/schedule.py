"""The screw schedule of a stack: searched, checked against the demand, set out on the studs."""

from __future__ import annotations

from typing import NamedTuple

from bracecalc.mechanics.nds.spacing import Place
from bracecalc.records.plan import Finding, LoadCase, ScrewRow, Strength, Studs, Washer
from bracecalc.records.reference import ScrewSize
from bracecalc.stack import screws as fixing
from bracecalc.stack import studs as framing
from bracecalc.stack.check import Loaded, StackCheck, judged, loaded
from bracecalc.stack.drilling import drilled
from bracecalc.stack.make import SILENT
from bracecalc.strength.parts import edge_pressure
from bracecalc.text.findings import Lengths, fails, notes


class Schedule(NamedTuple):
    """The screws, what they hold, and what is to be said."""

    studs: Studs
    rows: tuple[ScrewRow, ...]
    strength: Strength | None
    cases: tuple[LoadCase, ...]
    findings: tuple[Finding, ...]
    load: Loaded | None = None  # the choice behind the rows


def make_schedule(check: StackCheck) -> Schedule:
    """Return the screw schedule of a stack with its strength."""
    holds, strongest = check.search()
    choice = holds if holds is not None else strongest
    if choice is None:
        return _no_screws(check)
    load = loaded(check, choice)
    size = choice.candidate.size
    studs = check.studs(size)
    rows = _rows(check, load, studs)
    cases = judged(check, load)
    one = check.make.one_screw(choice.candidate, choice.seat, SILENT)
    said = (*framing.stud_findings(check.setting.job, studs), *_finish_unchecked(check, load))
    return Schedule(studs, rows, one.strength, cases, said, load)


def _finish_unchecked(check: StackCheck, load: Loaded) -> tuple[Finding, ...]:
    layers = check.setting.job.wall.layers
    if not layers or check.board_strength().crushing is not None:
        return ()
    size = load.choice.candidate.size
    heights = tuple(height for _, height in load.places[: load.choice.rows])
    pressure = check.largest * edge_pressure(
        check.arrangement(size), check.on_stud(size), check.make.depths(heights), SILENT
    )
    material = layers[0].material
    return (
        notes(
            "finish-not-checked",
            f"At the greatest load the stack's top edge presses the {material} over a stud with up "
            f"to {Lengths(check.setting.job).pressure_up(pressure)}; no published value is known "
            "for what it bears.",
            "Look for crushing under that edge at every check, or give crushing_psi of the "
            f"{material} in a table of your own.",
        ),
    )


def no_schedule(check: StackCheck) -> Schedule:
    """Return the studs alone: what is known of a stack that no screw can be shown to hold."""
    job, stack = check.setting.job, check.setting.stack
    sizes = [option.size for option in check.options.screws]
    end = min((fixing.distances(size).end for size in sizes), default=0.0)
    studs = framing.meet_studs(job, stack, end=end, target=check.setting.target)
    return Schedule(studs, (), None, (), ())


def _no_screws(check: StackCheck) -> Schedule:
    job, studs = check.setting.job, no_schedule(check).studs
    said = framing.stud_findings(job, studs)
    if framing.known_spots(job) is not None and studs.sure < 2:
        return Schedule(studs, (), None, (), said)
    return Schedule(studs, (), None, (), (_no_screw_fits(check), *said))


def _no_screw_fits(check: StackCheck) -> Finding:
    lengths, path = Lengths(check.setting.job), check.path(check.setting.stack.boards)
    needed = path.boards + path.build_up + path.wanted
    longest = max((option.length for option in check.options.screws), default=0.0)
    if longest >= needed:
        return fails(
            "no-stock-screw-long-enough",
            f"No screw at hand fits: the outermost of {check.setting.stack.boards} boards needs "
            f"{lengths.up(needed)} or a little more, with its thread filling the stud, its tip "
            "inside it, and room beside the other screws.",
            "Use wider boards, carry other screws, or screws with published values.",
        )
    return fails(
        "no-stock-screw-long-enough",
        f"The outermost of {check.setting.stack.boards} boards needs a screw of "
        f"{lengths.up(needed)} or more; the longest at hand is {lengths.down(longest)}.",
        "Carry lag screws or screws with published values of that length, counterbore, or fur the "
        "wall out with solid blocking so that the stack gets thinner.",
    )


def _rows(check: StackCheck, load: Loaded, studs: Studs) -> tuple[ScrewRow, ...]:
    choice = load.choice
    inner = check.inner(choice.candidate.size)
    chosen = [*(() if inner is None else inner), choice]
    # places come outermost board first, then the covered boards from the wall outward
    covered = [(place,) for place in load.places[choice.rows :]]
    split = [*covered, load.places[: choice.rows]]
    count = len(studs.used) if studs.spots else max(2, studs.best_case)
    return tuple(
        _row(check, board, one, offsets, studs.used, count)
        for board, (one, offsets) in enumerate(zip(chosen, split, strict=True), start=1)
    )


def _row(
    check: StackCheck,
    board: int,
    choice: fixing.Choice,
    offsets: tuple[Place, ...],
    used: tuple[float, ...],
    count: int,
) -> ScrewRow:
    candidate, seat = choice.candidate, choice.seat
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
        tip_to_far_side=check.setting.job.wall.stud.depth - seat.embedment,
        washer=_washer(check, candidate.size),
        metric=candidate.size.metric,
        holes=drilled(
            candidate.size,
            counterbore=seat.counterbore,
            layers=tuple(layer.material for layer in check.setting.job.wall.layers),
            gravity=check.make.stud_species.specific_gravity,
        ),
        positions=tuple((spot + across, height) for spot in used for across, height in offsets),
        offsets=offsets,
    )


def _washer(check: StackCheck, size: ScrewSize) -> Washer | None:
    """Return the washer that strength and embedment count, if there is one."""
    thickness = max(check.setting.job.screws.washer, size.washer_thickness)
    return Washer(size.washer_diameter, thickness) if thickness > 0.0 else None
