"""What the crew is told, in working order: one home for terminal, sheet and page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import StrEnum
from typing import NamedTuple

from bracecalc.planning.bearing import gap_over_rollers, open_gap
from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import CORNERS, Job, StudMaterial, Units
from bracecalc.records.plan import (
    Item,
    Need,
    Packers,
    PackerSupport,
    Plan,
    Purpose,
    RestraintKind,
    ScrewRow,
    Stack,
    StackSupport,
    Studs,
)
from bracecalc.records.reference import ScrewKind
from bracecalc.records.scheme import Backing
from bracecalc.text.findings import Lengths, joined
from bracecalc.text.lengths import Rounding, format_length
from bracecalc.text.messages import Count
from bracecalc.text.screw_names import counter_kind, counter_name


class Task(StrEnum):
    """The four things that a crew does, in this order."""

    MARK = "mark"
    CUT = "cut"
    FASTEN = "fasten"
    SET = "set"


class Instruction(NamedTuple):
    """One thing to do; ``step`` is what its task is called in print."""

    task: Task
    step: str
    text: str


def step_headings(job: Job) -> tuple[str, ...]:
    """Return what the tasks are called over their instructions, in their order."""
    return tuple(Lengths(job).say(f"step.{task}") for task in Task)


def corner_words(corner: str) -> str:
    """Return a corner as people say it.

    >>> corner_words("front_left")
    'front left'
    """
    return corner.replace("_", " ")


def set_out(plan: Plan) -> tuple[Instruction, ...]:
    """Return what to do in working order: mark, cut, fasten, set; lengths in the job's units."""
    lengths = Lengths(plan.job)
    target = plan.restraint.target_height
    if target is None:
        return ()
    headings = dict(zip(Task, step_headings(plan.job), strict=True))
    told = {
        Task.MARK: _mark(plan, target, lengths),
        Task.CUT: _cut(plan, lengths),
        Task.FASTEN: _fasten(plan, lengths),
        Task.SET: _set(plan, lengths),
    }
    return tuple(
        Instruction(task, headings[task], text) for task, texts in told.items() for text in texts
    )


def floor_words(job: Job) -> str:
    """Return in words which leg spot is the highest and how the floor was read."""
    lengths, floor = Lengths(job), job.floor
    coming = lengths.near(floor.finish_to_come)
    if len(floor.unread) == len(CORNERS):
        key = "floor.unread-to-come" if floor.finish_to_come else "floor.unread"
        return lengths.say(key, finish=coming)
    spots = dict(zip(CORNERS, floor.spots, strict=True))
    highest = max(spots, key=spots.__getitem__)
    lowest = min(spots, key=spots.__getitem__)
    read = {
        "how": lengths.say("floor.down" if floor.down_from_line else "floor.up"),
        "on": lengths.say(
            "floor.subfloor" if floor.finish_to_come else "floor.finished", finish=coming
        ),
    }
    if spots[highest] - spots[lowest] <= 1e-9:
        told = lengths.say("floor.level", **read)
    else:
        told = lengths.say(
            "floor.highest",
            highest=corner_words(highest),
            lowest=corner_words(lowest),
            difference=lengths.near(spots[highest] - spots[lowest]),
            **read,
        )
    if not floor.unread:
        return told
    unread = joined([corner_words(corner) for corner in floor.unread])
    return f"{told} {lengths.say('floor.partly-unread', corners=unread)}"


def wall_words(job: Job) -> str:
    """Return in words to what the niche's depth was measured."""
    lengths, to_come = Lengths(job), job.wall.finish_to_come
    key = "wall.to-come" if to_come else "wall.finished"
    return lengths.say(key, finish=lengths.near(to_come))


def _mark(plan: Plan, target: float, lengths: Lengths) -> Iterator[str]:
    kind, studs, height = plan.restraint.kind, plan.studs, lengths.near(target)
    if kind is RestraintKind.SOFFIT:
        yield lengths.say("mark.soffit", height=height)
        yield from _told_otherwise(plan, lengths)
        return
    key = "mark.boards" if kind is RestraintKind.STACK else "mark.spacers"
    low, high = lengths.up(plan.reach_band.low), lengths.down(plan.reach_band.high)
    yield lengths.say(key, height=height, low=low, high=high)
    yield from _told_otherwise(plan, lengths)
    if studs is not None and studs.strip_low is not None and studs.strip_high is not None:
        strip = {"low": lengths.near(studs.strip_low), "high": lengths.near(studs.strip_high)}
        words = _place_words if in_masonry(plan.job) else _stud_words
        yield words(studs, strip, lengths)


def _told_otherwise(plan: Plan, lengths: Lengths) -> Iterator[str]:
    """Say the same height from the laser's line and from the floor, as far as they are known."""
    line, spot = plan.restraint.from_line, plan.restraint.over_spot
    if line is not None:
        key = "mark.above-line" if line >= 0.0 else "mark.below-line"
        yield lengths.say(key, distance=lengths.near(abs(line)))
    if spot is not None:
        corner, height = corner_words(spot.corner), lengths.near(spot.height)
        yield lengths.say("mark.over-spot", corner=corner, height=height)


def in_masonry(job: Job) -> bool:
    """Return whether the wall takes anchors at places of one's own choice, not studs."""
    return job.wall.stud.material is StudMaterial.MASONRY


def boards(plan: Plan) -> Need | None:
    """Return the boards of the stack; of two thicknesses the thicker."""
    return next((need for need in plan.materials.boards if need.item is Item.BOARD), None)


def blocking(plan: Plan) -> Need | None:
    """Return the solid blocking that must stand between the studs before the plan holds."""
    return next((need for need in plan.materials.boards if need.item is Item.BLOCKING), None)


def _place_words(studs: Studs, strip: Mapping[str, str], lengths: Lengths) -> str:
    if not studs.used:
        return lengths.say("mark.no-anchors", **strip)
    spots = joined([lengths.near(spot) for spot in studs.used])
    return lengths.say("mark.anchors", spots=spots, **strip)


def _stud_words(studs: Studs, strip: Mapping[str, str], lengths: Lengths) -> str:
    if not studs.spots:
        sure = Count(studs.sure)
        return lengths.say("mark.studs-unknown", sure=sure, best=studs.best_case, **strip)
    key = {0: "mark.no-studs", 1: "mark.stud"}.get(len(studs.used), "mark.studs")
    spots = joined([lengths.near(spot) for spot in studs.used])
    told = lengths.say(key, spots=spots, **strip)
    if not studs.why_not:
        return told
    left_out = "; ".join(f"{lengths.near(spot)}, {why}" for spot, why in studs.why_not.items())
    return f"{told} {lengths.say('mark.leave-out', spots=left_out)}"


def _cut(plan: Plan, lengths: Lengths) -> Iterator[str]:
    need = boards(plan)
    if isinstance(plan.support, StackSupport) and need is not None:
        stack = plan.support.stack
        yield lengths.say(
            "cut.boards",
            count=Count(stack.boards),
            board=need.asked_for,
            species=need.species,
            length=lengths.down(stack.length),
            clear=lengths.near(stack.left_end),
        )
    block = blocking(plan)
    if block is not None and block.length is not None:
        yield lengths.say(
            "cut.blocking",
            count=Count(block.count),
            board=block.size,
            species=block.species,
            length=lengths.near(block.length),
        )
    if isinstance(plan.support, PackerSupport):
        packers = plan.support.packers
        pieces = ", ".join(
            f"{size} ({lengths.near(piece)})"
            for size, piece in zip(packers.sizes, packers.pieces, strict=True)
        )
        yield lengths.say(
            "cut.spacers",
            count=Count(len(packers.pieces)),
            length=lengths.down(packers.length),
            depth=lengths.near(packers.depth),
            pieces=pieces,
            total=lengths.near(packers.total),
        )


def counted(count: int, thing: str) -> str:
    """Return a count with its thing, one or many.

    >>> counted(1, "board"), counted(3, "board")
    ('1 board', '3 boards')
    """
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def _fasten(plan: Plan, lengths: Lengths) -> Iterator[str]:
    if blocking(plan) is not None:
        key = "fasten.blocking-planned" if plan.screws else "fasten.blocking-unplanned"
        yield lengths.say(key)
    match plan.support:
        case StackSupport(stack=stack, screws=screws):
            for row in screws:
                yield _board_words(plan, stack, row, lengths)
            yield lengths.say(
                "fasten.stack",
                projection=lengths.near(stack.projection),
                overlap=lengths.down(stack.overlap),
            )
        case PackerSupport(packers=packers, screws=screws):
            yield from _spacer_words(packers, screws, lengths)
        case _:
            return


def screws_words(row: ScrewRow) -> str:
    """Return the screws of a row with their number: ``4 lag screws 1/4 x 6 in``."""
    kind = counter_kind(row.kind)
    return f"{counted(row.count, kind)} {screw_words(row).removesuffix(kind).strip()}"


def screw_words(row: ScrewRow) -> str:
    """Return a screw as people ask for it at the counter: metric ones in mm, others in inches."""
    return counter_name(counter_kind(row.kind), row.size, row.length)


def _board_words(plan: Plan, stack: Stack, row: ScrewRow, lengths: Lengths) -> str:
    masonry = in_masonry(plan.job)
    blocked = stack.backing is Backing.BLOCKING
    where = _on_one_stud(row, lengths, "place" if masonry or blocked else "stud")
    if row.counterbore > 0.0:
        depth = lengths.near(row.counterbore)
        where = lengths.say("fasten.counterbored", where=where, depth=depth)
    if row.washer is not None:
        where = lengths.say("fasten.washer", where=where)
    outermost = row.board == stack.boards > 1
    inner = "fasten.at-wall" if row.board == 1 else "fasten.inner"
    place = lengths.say("fasten.outermost" if outermost else inner)
    key = "fasten.board-blocking" if blocked else "fasten.board"
    return lengths.say(
        "fasten.board-anchors" if masonry else key,
        number=row.board,
        place=place,
        screws=screws_words(row),
        per_stud=row.per_stud,
        where=where,
        embedment=lengths.down(row.embedment),
    )


def _on_one_stud(row: ScrewRow, lengths: Lengths, each: str) -> str:
    """Return where the screws of a row stand on one stud, line by line up the stud."""
    lines: dict[float, list[float]] = {}
    for across, height in sorted(row.offsets, key=lambda offset: (offset[0], offset[1])):
        lines.setdefault(across, []).append(height)
    told = []
    for across, heights in lines.items():
        key = "fasten.rows"
        if abs(across) > 1e-9:
            key = "fasten.rows-left" if across < 0.0 else "fasten.rows-right"
        up = joined([lengths.near(height) for height in heights])
        told.append(lengths.say(key, heights=up, offset=lengths.near(abs(across)), each=each))
    return "; ".join(told)


def _spacer_words(packers: Packers, rows: tuple[ScrewRow, ...], lengths: Lengths) -> Iterator[str]:
    yield lengths.say("fasten.spacers", from_wall=lengths.down(packers.from_wall))
    for row in rows:
        text = lengths.say(
            "fasten.spacer",
            number=row.board,
            of=len(packers.pieces),
            screws=screws_words(row),
            across=lengths.near(row.offsets[0][1]),
            embedment=lengths.down(row.embedment),
        )
        yield f"{text[:1].upper()}{text[1:]}"  # it may begin with the word for the pieces


def _set(plan: Plan, lengths: Lengths) -> Iterator[str]:
    yield lengths.say("set.roll-in")
    if plan.legs is not None:
        rising = sorted(plan.legs.items(), key=lambda item: -item[1].extension)
        legs = "; ".join(
            lengths.say(
                "set.leg" if leg.turns is None else "set.leg-turns",
                corner=corner_words(corner),
                extension=lengths.near(leg.extension),
                turns="" if leg.turns is None else f"{leg.turns:.1f}",
            )
            for corner, leg in rising
        )
        yield lengths.say("set.raise", legs=legs)
    boards = isinstance(plan.support, StackSupport)
    above = gap_over_rollers(plan.job, plan.restraint.target_height)
    if not plan.job.unit.rear_lifts:
        yield lengths.say("set.shim-above", gap=lengths.near(above))
    else:
        yield lengths.say("set.contact" if boards else "set.contact-solid")
    gap = open_gap(plan.job, plan.restraint.kind)
    if gap > 1e-9:
        yield lengths.say("set.shim", gap=lengths.up(gap))
    yield lengths.say("set.season-boards" if boards else "set.season")


def hole_words(row: ScrewRow, lengths: Lengths) -> str:
    """Return the holes of a screw in order, each with its bit and depth."""
    screw = screw_words(row)
    if not row.holes:
        return lengths.say("hole.as-maker", screw=screw)
    deep = {Purpose.COUNTERBORE: row.counterbore, Purpose.LEAD: row.embedment}
    told = [
        lengths.say(
            f"hole.{hole.purpose}",
            bit=bit_words(hole.bit, metric=row.metric),
            member=hole.member,
            depth=deep_words(deep.get(hole.purpose, 0.0), metric=row.metric),
        )
        for hole in row.holes
    ]
    if row.kind in (ScrewKind.LAG, ScrewKind.COACH):
        told.append(lengths.say("hole.wrench"))
    return f"{screw}: {'; '.join(told)}"


def bit_words(size: float, *, metric: bool) -> str:
    """Return the size of a bit as it is marked.

    >>> bit_words(0.203125, metric=False), bit_words(5.5 / 25.4, metric=True)
    ('13/64 in', '5.5 mm')
    """
    if metric:
        return f"{size * MM_PER_INCH:.3g} mm"
    return format_length(size, grid=1 / 64)


def deep_words(depth: float, *, metric: bool) -> str:
    """Return the depth of a hole in the system of its bit."""
    units = Units.MM if metric else Units.INCH
    return format_length(depth, units=units, towards=Rounding.UP)


def cautions(plan: Plan) -> tuple[str, ...]:
    """Return the cautions that stand on every output."""
    lengths, job = Lengths(plan.job), plan.job
    keys = ["people", "services"]
    if job.floor.finish_to_come or job.wall.finish_to_come:
        keys.append("finish")
    keys += [
        "legs-screws" if isinstance(plan.support, StackSupport) else "legs",
        "codes",
        "no-approval",
    ]
    return tuple(lengths.say(f"caution.{key}") for key in keys)
