"""The rest of the job: opening, way in, floor, clearances, door, services.

What was not measured is not checked, and nothing is assumed in its place.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from bracecalc.mechanics.geometry.clearance import lean_from_diagonals
from bracecalc.mechanics.statics.overturning import leg_loads
from bracecalc.records.job import Job
from bracecalc.records.keys import Range, Readings
from bracecalc.records.plan import Check, Finding
from bracecalc.records.surroundings import Clearance, Opening, Service, SupplyLine
from bracecalc.surroundings.checklist import Checklist
from bracecalc.surroundings.door_swing import check_door_swing
from bracecalc.surroundings.way_in import check_way_in
from bracecalc.text.findings import fails, notes, warns

SQUARE_INCHES = 144.0  # in a square foot


class Extent(NamedTuple):
    """One extent of the opening: its word, and the findings of too little and of too much."""

    word: str
    too_small: str
    too_large: str


WIDE = Extent("wide", "opening-too-narrow", "opening-too-wide")
HIGH = Extent("high", "opening-too-low", "opening-too-high")
DEEP = Extent("deep", "opening-too-shallow", "opening-too-deep")


def check_surroundings(
    job: Job, *, behind_stack: Range | None = None
) -> tuple[tuple[Check, ...], tuple[Finding, ...]]:
    """Check everything of the job that is not bracing, as far as it was measured.

    Args:
        job: lengths in inches, heights above the datum, weights in lbf.
        behind_stack: underside and top of the boards above the datum, in; None where there are
            none.

    Returns:
        The checks made, in the order of the work, and what they lead to.
    """
    checks, given = Checklist(job), job.surroundings
    _width_of_unit(checks)
    if given.opening is not None:
        _opening(given.opening, checks)
    if given.route is not None:
        check_way_in(job, given.route, checks)
    if given.floor_load is not None and given.floor_load.design_psf is not None:
        _floor_load(given.floor_load.design_psf, checks)
        _legs(checks)
    for clearance in given.clearances:
        _clearance(clearance, checks)
    if given.door_swing is not None:
        check_door_swing(given.door_swing, checks)
    for service in given.services:
        _service(service, checks)
        if behind_stack is not None:
            _behind_stack(service, behind_stack, checks)
    for line in given.supply_lines:
        _supply_line(line, checks)
    return checks.result()


def _width_of_unit(checks: Checklist) -> None:
    """Compare the narrowest place with the unit, less how far the sides lean along its height."""
    job, lengths = checks.job, checks.lengths
    least, lean = job.niche.narrowest, _greatest_lean(job)
    room = least - lean - job.unit.width
    leaning = f", its sides lean {lengths.near(lean)} along the appliance" if lean > 0.0 else ""
    held = checks.length(
        "unit in the opening",
        required=f"{lengths.near(job.unit.width)} wide, plumb",
        found=f"{lengths.down(least)} wide{leaning}",
        margin=room,
    )
    if not held:
        checks.say(
            fails(
                "opening-too-narrow",
                f"The opening is {lengths.down(least)} wide at its "
                f"narrowest{leaning}: the appliance "
                f"({lengths.near(job.unit.width)}) is {lengths.up(-room)} too wide for it.",
                f"Open the niche up by {lengths.up(-room)} at least.",
            )
        )


def _greatest_lean(job: Job) -> float:
    """Return the greatest lean along the unit's height; the whole lean where no height is read."""
    opening, highest = job.surroundings.opening, job.unit.highest
    if opening is None:
        return 0.0
    read_over = max(opening.height, default=highest)
    leans = [abs(reading) * min(1.0, highest / read_over) for reading in opening.out_of_plumb]
    if opening.diagonals is not None:
        lean = _lean(opening.diagonals, job)
        squares = (opening.diagonals[0] ** 2 + opening.diagonals[1] ** 2) / 2.0
        upright = squares - job.niche.narrowest**2 - lean**2
        leans.append(lean * min(1.0, highest / math.sqrt(max(upright, 1.0))))
    return max(leans, default=0.0)


def _lean(diagonals: Range, job: Job) -> float:
    return lean_from_diagonals(
        longer=max(diagonals), shorter=min(diagonals), width=job.niche.narrowest
    )


def _opening(opening: Opening, checks: Checklist) -> None:
    job = checks.job
    for readings, asked, extent in (
        (job.niche.width, opening.width_range, WIDE),
        (opening.height, opening.height_range, HIGH),
        (job.niche.depth, opening.depth_range, DEEP),
    ):
        if readings and asked is not None:
            _size(readings, asked, extent, checks)
    if opening.diagonals is not None:
        _square(opening.diagonals, opening.square_tolerance, checks)
    if opening.out_of_plumb and opening.plumb_tolerance is not None:
        _plumb(opening.out_of_plumb, opening.plumb_tolerance, checks)
    if opening.level_tolerance is not None:
        _level(opening.level_tolerance, checks)


def _size(readings: Readings, asked: Range, extent: Extent, checks: Checklist) -> None:
    lengths, (low, high), word = checks.lengths, asked, extent.word
    least, most = min(readings), max(readings)
    found = lengths.near(least)
    if most > least:
        found += f" to {lengths.near(most)}"
    checks.length(
        f"opening {word}",
        required=f"{lengths.near(low)} to {lengths.near(high)}",
        found=found,
        margin=min(least - low, high - most),
    )
    if least < low - 1e-9:
        checks.say(
            fails(
                extent.too_small,
                f"The opening is {lengths.down(least)} {word} at its least; the spec sheet asks "
                f"for {lengths.near(low)} at least: {lengths.up(low - least)} is missing.",
                f"Take {lengths.up(low - least)} off the framing or the finish there.",
            )
        )
    if most > high + 1e-9:
        checks.say(
            warns(
                extent.too_large,
                f"The opening is {lengths.up(most)} {word} at its most; the spec sheet allows "
                f"{lengths.near(high)}: {lengths.up(most - high)} too much.",
                f"Fur it in by {lengths.up(most - high)}, or ask whether the trim covers the gap.",
            )
        )


def _square(diagonals: Range, tolerance: float | None, checks: Checklist) -> None:
    lengths = checks.lengths
    apart, lean = abs(diagonals[0] - diagonals[1]), _lean(diagonals, checks.job)
    text = f"diagonals {lengths.near(apart)} apart: the sides lean {lengths.near(lean)}"
    if tolerance is None:
        if lean > checks.job.rules.tape_uncertainty:
            checks.say(notes("out-of-square", f"Opening: {text} over its height."))
        return
    held = checks.length(
        "opening square",
        required=f"diagonals within {lengths.near(tolerance)}",
        found=text,
        margin=tolerance - apart,
    )
    if not held:
        checks.say(
            warns(
                "out-of-square",
                f"The opening is out of square: {text} over its height.",
                "The appliance stands plumb and level, so the gaps beside it taper: shim the sides "
                "square or choose trim that covers the lean.",
            )
        )


def _plumb(readings: tuple[float, ...], tolerance: float, checks: Checklist) -> None:
    lengths, worst = checks.lengths, max(abs(reading) for reading in readings)
    held = checks.length(
        "opening plumb",
        required=f"within {lengths.near(tolerance)} over its height",
        found=f"{lengths.near(worst)} out",
        margin=tolerance - worst,
    )
    if not held:
        checks.say(
            warns(
                "out-of-plumb",
                f"A side of the opening is {lengths.near(worst)} out of plumb over its height; "
                f"{lengths.near(tolerance)} is allowed.",
                f"Shim that side, {lengths.near(worst)} at its end.",
            )
        )


def _level(tolerance: float, checks: Checklist) -> None:
    lengths, floor = checks.lengths, checks.job.floor
    spots = floor.spots
    fall = max(spots) - min(spots)
    held = checks.length(
        "floor level",
        required=f"leg spots within {lengths.near(tolerance)}",
        found=f"{lengths.near(fall)} apart",
        margin=tolerance - fall,
    )
    if not held:
        checks.say(
            warns(
                "floor-out-of-level",
                f"The floor falls {lengths.near(fall)} between the leg spots; "
                f"{lengths.near(tolerance)} is allowed.",
                "Level the floor under the appliance; the legs' travel is used up by it.",
            )
        )


def _floor_load(design: float, checks: Checklist) -> None:
    """Set the loaded unit on its own footprint against what the whole floor is designed for."""
    unit = checks.job.unit
    if unit.weight is None:
        return
    loaded = unit.weight + (0.0 if unit.contents is None else unit.contents)
    area = unit.width * unit.depth / SQUARE_INCHES
    on_floor = loaded / area
    held = checks.plain(
        "floor load",
        required=f"designed for {checks.pressure(design)}",
        found=f"{checks.weight(loaded)} on its footprint: {checks.pressure(on_floor)}",
        holds=on_floor <= design,
    )
    if not held:
        checks.say(
            warns(
                "floor-load",
                f"The appliance{'' if unit.contents is None else ' with its contents'} puts "
                f"{checks.pressure(on_floor)} on its footprint; the floor is designed for "
                f"{checks.pressure(design)}, spread over the room.",
                "Have a licensed professional check the floor there. A concentrated load may still "
                "be carried, by which way the joists run and where it stands; that is not worked "
                "out here.",
            )
        )


def _legs(checks: Checklist) -> None:
    unit = checks.job.unit
    front, rear = unit.front_legs_behind_front, unit.rear_legs_behind_front
    behind, weight = unit.cg_behind_front_legs, unit.weight
    if front is None or rear is None or behind is None or weight is None or rear <= front:
        return
    loaded = weight + (0.0 if unit.contents is None else unit.contents)
    at_front, at_rear = leg_loads(weight=loaded, cg_behind_front_legs=behind, leg_base=rear - front)
    checks.say(
        notes(
            "leg-loads",
            f"Each front leg stands on the floor with {checks.weight(at_front / 2.0)}, each rear "
            f"leg with {checks.weight(at_rear / 2.0)}, doors shut"
            f"{'' if unit.contents is None else ', contents taken at the same centre of gravity'}. "
            "On an uneven floor two legs can carry nearly all.",
            "Soft flooring or tile over hollow spots needs a plate under each leg.",
        )
    )


def _clearance(clearance: Clearance, checks: Checklist) -> None:
    lengths, room = checks.lengths, clearance.measured - clearance.required
    held = checks.length(
        f"clearance: {clearance.name}",
        required=f"{lengths.up(clearance.required)} at least",
        found=lengths.down(clearance.measured),
        margin=room,
    )
    if not held:
        checks.say(
            fails(
                "clearance-short",
                f"Clearance {clearance.name}: {lengths.down(clearance.measured)} measured, the "
                f"spec sheet asks for {lengths.up(clearance.required)}; {lengths.up(-room)} is "
                "missing.",
                f"Make {lengths.up(-room)} of room there.",
            )
        )


def _service(service: Service, checks: Checklist) -> None:
    lengths, moves, rooms = checks.lengths, [], []
    for at, (low, high), (under, over) in (
        (service.x, service.x_range, ("to the right", "to the left")),
        (service.z, service.z_range, ("up", "down")),
    ):
        rooms.append(min(at - low, high - at))
        if at < low - 1e-9:
            moves.append(f"{lengths.up(low - at)} {under}")
        elif at > high + 1e-9:
            moves.append(f"{lengths.up(at - high)} {over}")
    place = f"{lengths.near(service.x)} from the left, {lengths.near(service.z)} up"
    (left, right), (low, high) = service.x_range, service.z_range
    checks.length(
        f"service: {service.name}",
        required=f"{lengths.near(left)} to {lengths.near(right)} from the left, "
        f"{lengths.near(low)} to {lengths.near(high)} up",
        found=place,
        margin=min(rooms),
    )
    if moves:
        checks.say(
            fails(
                "service-out-of-zone",
                f"The {service.name} ({place}) is outside the zone that the spec sheet gives.",
                f"Have it moved {' and '.join(moves)}, by the licensed trade where codes ask it.",
            )
        )


def _behind_stack(service: Service, boards: Range, checks: Checklist) -> None:
    low, high = boards
    if not low <= service.z <= high:
        return
    checks.say(
        warns(
            "service-behind-stack",
            f"The {service.name} ({checks.lengths.near(service.z)} up) lies where the boards go: "
            "they would cover it, and its wires or pipes run near their screws.",
            "Have it moved before the boards go up; never bury a box or a valve.",
        )
    )


def _supply_line(line: SupplyLine, checks: Checklist) -> None:
    lengths, needed = checks.lengths, line.path + line.slack
    held = checks.length(
        f"supply line: {line.name}",
        required=f"{lengths.up(needed)} with its slack",
        found=lengths.down(line.length),
        margin=line.length - needed,
    )
    if not held:
        checks.say(
            fails(
                "supply-line-short",
                f"The {line.name} is {lengths.down(line.length)} long; its way and the slack for "
                f"rolling the appliance out take {lengths.up(needed)}.",
                f"Fit a line {lengths.up(needed - line.length)} longer at least.",
            )
        )
