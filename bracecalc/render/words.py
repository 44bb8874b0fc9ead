"""What the crew is told, in working order: one home for terminal, sheet and page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from bracecalc.planning.bearing import open_gap
from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import CORNERS, Job, StudMaterial, Units
from bracecalc.records.plan import (
    Need,
    Packers,
    Plan,
    RestraintKind,
    ScrewRow,
    Stack,
    Studs,
)
from bracecalc.records.reference import ScrewKind
from bracecalc.text.findings import Lengths, joined
from bracecalc.text.lengths import Rounding, format_length
from bracecalc.text.screw_names import counter_kind, counter_name

STEPS = ("Mark", "Cut", "Fix", "Set")


class Instruction(NamedTuple):
    """One thing to do. ``step`` is one of STEPS."""

    step: str
    text: str


def corner_words(corner: str) -> str:
    """Return a corner as people say it.

    >>> corner_words("front_left")
    'front left'
    """
    return corner.replace("_", " ")


def set_out(plan: Plan) -> tuple[Instruction, ...]:
    """Return what to do in working order: mark, cut, fix, set; lengths in the job's units."""
    lengths = Lengths(plan.job)
    target = plan.restraint.target_height
    if target is None:
        return ()
    found = [*_mark(plan, target, lengths), *_cut(plan, lengths), *_fix(plan, lengths)]
    found.extend(_set(plan, lengths))
    return tuple(found)


def floor_words(job: Job) -> str:
    """Return in words which leg spot is the highest and how the floor was read."""
    lengths, floor = Lengths(job), job.floor
    spots = dict(zip(CORNERS, floor.spots, strict=True))
    highest = max(spots, key=spots.__getitem__)
    lowest = min(spots, key=spots.__getitem__)
    how = "down from the line" if floor.down_from_line else "up from the datum"
    on = (
        f"; read on the subfloor, {lengths.near(floor.finish_to_come)} of flooring to come added"
        if floor.finish_to_come
        else "; read on the finished floor"
    )
    if len(floor.unread) == len(CORNERS):
        added = f", {lengths.near(floor.finish_to_come)} of flooring to come added"
        return f"The floor was NOT MEASURED: taken as level{added if floor.finish_to_come else ''}."
    unread = joined([corner_words(corner) for corner in floor.unread])
    on += f"; NOT MEASURED at the {unread}: taken as on the datum there" if unread else ""
    if spots[highest] - spots[lowest] <= 1e-9:
        return f"The floor is level at the four leg spots (read {how}{on})."
    return (
        f"The {corner_words(highest)} leg spot is the highest, "
        f"{lengths.near(spots[highest] - spots[lowest])} above the {corner_words(lowest)} "
        f"(read {how}{on})."
    )


def wall_words(job: Job) -> str:
    """Return in words to what the niche's depth was read."""
    to_come = job.wall.finish_to_come
    if not to_come:
        return "The niche's depth was read to the finished wall."
    return (
        f"The niche's depth was read to a wall with {Lengths(job).near(to_come)} of finish to "
        "come; that is taken off it and added under the screws."
    )


def _mark(plan: Plan, target: float, lengths: Lengths) -> Iterator[Instruction]:
    kind, stack, studs = plan.restraint.kind, plan.stack, plan.studs
    if kind is RestraintKind.SOFFIT:
        yield Instruction(
            step="Mark",
            text=f"Nothing to frame: the soffit's underside at {lengths.near(target)} above the "
            f"datum{_told_otherwise(plan, lengths)} is the restraint. Check it with the level.",
        )
        return
    what = "the underside of the boards" if stack is not None else "the underside of the packers"
    yield Instruction(
        step="Mark",
        text=f"Strike a level line at {lengths.near(target)} above the datum"
        f"{_told_otherwise(plan, lengths)}: {what}. It may lie between "
        f"{lengths.up(plan.reach_band.low)} and {lengths.down(plan.reach_band.high)}.",
    )
    if studs is not None and studs.strip_low is not None and studs.strip_high is not None:
        words = _place_words if in_masonry(plan.job) else _stud_words
        yield Instruction(step="Mark", text=words(studs, lengths))


def _told_otherwise(plan: Plan, lengths: Lengths) -> str:
    """Return the same height from the laser's line and from the floor, as far as they are known."""
    line, spot, told = plan.restraint.from_line, plan.restraint.over_spot, []
    if line is not None:
        side = "above" if line >= 0.0 else "below"
        told.append(f"{lengths.near(abs(line))} {side} the laser's line")
    if spot is not None:
        corner = corner_words(spot.corner)
        told.append(f"{lengths.near(spot.height)} over the finished floor at the {corner} leg spot")
    return f" ({'; '.join(told)})" if told else ""


def in_masonry(job: Job) -> bool:
    """Return whether the wall takes anchors at places of one's own choice, not studs."""
    return job.wall.stud.material is StudMaterial.MASONRY


def blocking(plan: Plan) -> Need | None:
    """Return the solid blocking that must stand between the studs before the plan holds."""
    return next((need for need in plan.materials.boards if need.item == "solid blocking"), None)


def _place_words(studs: Studs, lengths: Lengths) -> str:
    low, high = studs.strip_low, studs.strip_high
    spots = joined([lengths.near(spot) for spot in studs.used])
    return (
        f"Look for wires, pipes and hollow places between {lengths.near(low or 0.0)} and "
        f"{lengths.near(high or 0.0)} above the datum, then mark the anchors at "
        f"{spots or 'no usable place'} from the left side of the niche."
    )


def _stud_words(studs: Studs, lengths: Lengths) -> str:
    low, high = studs.strip_low, studs.strip_high
    strip = f"between {lengths.near(low or 0.0)} and {lengths.near(high or 0.0)}"
    if not studs.spots:
        return (
            f"Find and mark the studs {strip} above the datum: the boards are sure to meet "
            f"{studs.sure}, at best {studs.best_case}."
        )
    spots = joined([lengths.near(spot) for spot in studs.used])
    left_out = "; ".join(f"{lengths.near(spot)}, {why}" for spot, why in studs.why_not.items())
    return (
        f"Find and mark the studs {strip} above the datum; "
        f"{'centre' if len(studs.used) == 1 else 'centres'} expected "
        f"{spots or 'nowhere usable'} from the left side of the niche."
        + (f" Leave out: {left_out}." if left_out else "")
    )


def _cut(plan: Plan, lengths: Lengths) -> Iterator[Instruction]:
    if plan.stack is not None:
        stack = plan.stack
        yield Instruction(
            step="Cut",
            text=f"{counted(stack.boards, 'board')} {stack.board} {stack.species}, "
            f"{lengths.down(stack.length)} long; clear {lengths.near(stack.left_end)} at each end.",
        )
    block = blocking(plan)
    if block is not None and block.length is not None:
        yield Instruction(
            step="Cut",
            text=f"{counted(block.count, 'piece')} of solid blocking {block.size} {block.species}, "
            f"some {lengths.near(block.length)} long, to fit tight between the studs.",
        )
    if plan.packers is not None:
        packers = plan.packers
        pieces = ", ".join(
            f"{size} ({lengths.near(piece)})"
            for size, piece in zip(packers.sizes, packers.pieces, strict=True)
        )
        yield Instruction(
            step="Cut",
            text=f"Packers {lengths.down(packers.length)} long and {lengths.near(packers.depth)} "
            f"wide, from the soffit down: {pieces}; together {lengths.near(packers.total)}.",
        )


def counted(count: int, thing: str) -> str:
    """Return a count with its thing, one or many.

    >>> counted(1, "board"), counted(3, "board")
    ('1 board', '3 boards')
    """
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def _fix(plan: Plan, lengths: Lengths) -> Iterator[Instruction]:
    if blocking(plan) is not None:
        yield Instruction(
            step="Fix",
            text="First build the solid blocking in between the studs, behind the whole stack, "
            "before the wall is closed. "
            + ("The screws count on it." if plan.screws else "Then give its place and plan again."),
        )
    if plan.stack is not None:
        for row in plan.screws:
            yield Instruction(step="Fix", text=_board_words(plan, plan.stack, row))
        yield Instruction(
            step="Fix",
            text=f"The stack stands {lengths.near(plan.stack.projection)} out from the wall and "
            f"reaches {lengths.down(plan.stack.overlap)} over the housing.",
        )
    if plan.packers is not None:
        yield from _packer_words(plan.packers, plan.screws, lengths)


def screws_words(row: ScrewRow) -> str:
    """Return the screws of a row with their number: ``4 lag screws 1/4 x 6 in``."""
    kind = counter_kind(row.kind)
    return f"{counted(row.count, kind)} {screw_words(row).removesuffix(kind).strip()}"


def screw_words(row: ScrewRow) -> str:
    """Return a screw as people ask for it at the counter: metric ones in mm, others in inches."""
    return counter_name(counter_kind(row.kind), row.size, row.length)


def is_screw(need: Need) -> bool:
    """Return whether something to buy is a screw."""
    return need.item.endswith("screw")


def need_words(need: Need) -> str:
    """Return something to buy as people ask for it; a screw with its length.

    >>> need_words(Need(item="lag screw", size="1/4", length=6.0, count=4))
    '1/4 x 6 in lag screw'
    """
    if is_screw(need) and need.length is not None:
        return counter_name(need.item, need.size, need.length)
    return " ".join(part for part in (need.item, need.size, need.species) if part)


def _board_words(plan: Plan, stack: Stack, row: ScrewRow) -> str:
    lengths, masonry = Lengths(plan.job), in_masonry(plan.job)
    each, into = ("place", "wall") if masonry else ("stud", "stud")
    where = _on_one_stud(row, lengths, each)
    bored = f", counterbored {lengths.near(row.counterbore)}" if row.counterbore > 0.0 else ""
    place = "at the wall" if row.board == 1 else f"number {row.board} from the wall"
    if row.board == stack.boards > 1:
        place = "the outermost"
    return (
        f"Board {row.board} ({place}): {screws_words(row)}, "
        f"{row.per_stud} a {each}, {where}{bored}; {lengths.down(row.embedment)} into the {into}."
    )


def _on_one_stud(row: ScrewRow, lengths: Lengths, each: str) -> str:
    """Return where the screws of a row stand on one stud, line by line up the stud."""
    lines: dict[float, list[float]] = {}
    for across, height in sorted(row.offsets, key=lambda offset: (offset[0], offset[1])):
        lines.setdefault(across, []).append(height)
    told = []
    for across, heights in lines.items():
        up = f"{joined([lengths.near(height) for height in heights])} above the underside"
        if abs(across) > 1e-9:
            side = "left" if across < 0.0 else "right"
            up += f", {lengths.near(abs(across))} {side} of the {each}'s centre"
        told.append(up)
    return "; ".join(told)


def _packer_words(
    packers: Packers, rows: tuple[ScrewRow, ...], lengths: Lengths
) -> Iterator[Instruction]:
    yield Instruction(
        step="Fix",
        text="Set the packers with their rear edge "
        f"{lengths.down(packers.from_wall)} out from the rear wall, over the rear of the housing, "
        "with framing over all of them; they work in compression, the screws only keep them up.",
    )
    for row in rows:
        across = row.offsets[0][1]
        yield Instruction(
            step="Fix",
            text=f"Packer {row.board} of {len(packers.pieces)}: "
            f"{screws_words(row)} up into the soffit's framing, {lengths.near(across)} from the "
            f"packer's rear edge, one at each framing member and two at least; "
            f"{lengths.down(row.embedment)} into it.",
        )


def _set(plan: Plan, lengths: Lengths) -> Iterator[Instruction]:
    yield Instruction(
        step="Set",
        text="Legs in, doors taped shut, two or more people: roll the unit in and to the rear.",
    )
    if plan.legs is not None:
        rising = sorted(plan.legs.items(), key=lambda item: -item[1].extension)
        legs = "; ".join(
            f"{corner_words(corner)} {lengths.near(leg.extension)}"
            + ("" if leg.turns is None else f" ({leg.turns:.1f} turns)")
            for corner, leg in rising
        )
        yield Instruction(step="Set", text=f"Raise the unit level. Legs out by: {legs}.")
    yield Instruction(
        step="Set",
        text="Stop at contact: a strip of paper at both ends of the overlap just drags; no turn "
        f"more. A leg can lift far more than {_holder(plan)}.",
    )
    gap = open_gap(plan.job, plan.restraint.kind)
    if gap > 1e-9:
        yield Instruction(
            step="Set",
            text=f"At the other end shim the gap of up to {lengths.up(gap)} tight, over the whole "
            "overlap.",
        )
    yield Instruction(
        step="Set",
        text="Check the contact again after the first heating season: "
        + ("boards shrink across their width." if plan.stack is not None else "wood shrinks."),
    )


def _holder(plan: Plan) -> str:
    return "the screws hold" if plan.stack is not None else "the restraint is asked to hold"


def hole_words(row: ScrewRow) -> str:
    """Return the holes of a screw in order, each with its bit."""
    metric = " mm" in row.size
    if not row.holes:
        return f"{screw_words(row)}: holes as its maker says"
    deep = {"counterbore": row.counterbore, "lead": row.embedment}
    bits = "; ".join(
        f"{hole.purpose} {bit_words(hole.bit, metric=metric)} bit in {hole.member}"
        + _deep_enough(deep.get(hole.purpose), metric=metric)
        for hole in row.holes
    )
    wrench = row.kind in (ScrewKind.LAG, ScrewKind.COACH)
    turned = ", turned with a wrench, never driven" if wrench else ""
    return f"{screw_words(row)}: {bits}{turned}"


def _deep_enough(depth: float | None, *, metric: bool) -> str:
    return "" if depth is None else f", {deep_words(depth, metric=metric)} deep"


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
    found = [
        "Two or more people; doors taped shut until the unit is braced.",
        "Find wires and pipes before drilling into a wall or a soffit.",
        f"Stop the legs at contact: they can lift far more than {_holder(plan)}.",
        "Local codes, the unit's own instructions and licensed trades come first.",
        "This plan is a calculation from what was given; it is not an engineer's approval.",
    ]
    if plan.job.floor.finish_to_come or plan.job.wall.finish_to_come:
        found.insert(2, "Finish is still to come: measure again on the finished floor and wall.")
    return tuple(found)
