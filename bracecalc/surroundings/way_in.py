"""From the truck to the niche: doorways on the way, and the ceiling that standing up needs."""

from __future__ import annotations

from typing import NamedTuple

from bracecalc.mechanics.geometry.clearance import HEIGHT, WayThrough, stand_up_height, way_through
from bracecalc.records.job import Job
from bracecalc.records.surroundings import Doorway, Route
from bracecalc.surroundings.checklist import Checklist
from bracecalc.text.findings import fails, notes


class Load(NamedTuple):
    """The unit as it travels, in; ``bare`` where packaging and dolly were not given."""

    height: float
    width: float
    depth: float
    bare: bool


class WayUp(NamedTuple):
    """One way to tilt the unit up, and the ceiling that it needs, in."""

    need: float
    how: str


def check_way_in(job: Job, route: Route, checks: Checklist) -> None:
    """Check each doorway and the room to stand the unit up, as it travels and with trim off."""
    moving = moving_load(job, route)
    stripped = stripped_load(route, moving)
    for doorway in route.doorways:
        _doorway(doorway, moving, stripped, checks)
    if route.ceiling is not None:
        _stand_up(route.ceiling, moving, stripped, checks)
    if moving.bare and (route.doorways or route.ceiling is not None):
        checks.say(
            notes(
                "moving-size-not-given",
                "The way in was checked for the bare unit; packaging, dolly and handles add to it.",
                "Measure the load as it travels and give its size.",
            )
        )


def moving_load(job: Job, route: Route) -> Load:
    """Return the size of the load as it travels; the bare unit's where it isn't given."""
    unit = job.unit
    given = (route.moving_height, route.moving_width, route.moving_depth)
    height, width, depth = (
        bare if size is None else size
        for size, bare in zip(given, (unit.highest, unit.width, unit.depth), strict=True)
    )
    return Load(height, width, depth, bare=None in given)


def stripped_load(route: Route, moving: Load) -> Load | None:
    """Return the size of the load with its trim off, or None where that isn't given."""
    if route.trim_off_height is None and route.trim_off_depth is None:
        return None
    return moving._replace(
        height=moving.height if route.trim_off_height is None else route.trim_off_height,
        depth=moving.depth if route.trim_off_depth is None else route.trim_off_depth,
    )


def _doorway(doorway: Doorway, moving: Load, stripped: Load | None, checks: Checklist) -> None:
    lengths = checks.lengths
    way, trim = _passes(doorway, moving), ""
    if way.room < 0.0 and stripped is not None:
        bared = _passes(doorway, stripped)
        if bared.room > way.room:
            way, trim = bared, "trim off, "
    overhead = "" if doorway.height is None else f" x {lengths.near(doorway.height)} high"
    size = f"{lengths.near(doorway.width)} wide{overhead}"
    carried = "standing" if way.upright == HEIGHT else f"lying, its {way.upright} upright"
    held = checks.length(
        f"way in: {doorway.name}",
        required=f"{trim}{carried}, {way.across} across",
        found=size,
        margin=way.room,
    )
    if not held:
        checks.say(
            fails(
                "doorway-too-narrow",
                f"The appliance doesn't pass {doorway.name} ({size}) any way round: best {trim}"
                f"{carried}, its {way.across} across, {lengths.up(-way.room)} is missing.",
                "Take the door off its hinges, take trim or doors off the "
                "appliance by its sheet, or "
                "find another way in.",
            )
        )
    elif trim:
        checks.say(
            notes(
                "trim-off-to-pass",
                f"The appliance passes {doorway.name} only with its trim off.",
                "Take the trim off before it is brought in.",
            )
        )


def _passes(doorway: Doorway, load: Load) -> WayThrough:
    return way_through(
        sizes=(load.height, load.width, load.depth),
        door_width=doorway.width,
        door_height=doorway.height,
    )


def _stand_up(ceiling: float, moving: Load, stripped: Load | None, checks: Checklist) -> None:
    """Take the first way that the ceiling allows: as it travels before trim off, back first."""
    lengths = checks.lengths
    ways = _ways_up(moving, "")
    if stripped is not None:
        ways += _ways_up(stripped, " (trim off)")
    way = next((each for each in ways if each.need <= ceiling), min(ways))
    held = checks.length(
        f"standing up {way.how}",
        required=f"ceiling of {lengths.up(way.need)}",
        found=lengths.down(ceiling),
        margin=ceiling - way.need,
    )
    if not held:
        checks.say(
            fails(
                "no-room-to-stand-up",
                f"The appliance can't be stood up here: tilted up {way.how} it needs a ceiling of "
                f"{lengths.up(way.need)}; {lengths.up(way.need - ceiling)} is missing.",
                "Stand it up where the ceiling is higher and roll it in standing, or take off "
                "dolly, packaging or trim.",
            )
        )
    elif way != ways[0]:
        checks.say(
            notes(
                "stand-up-way",
                f"There is room to stand the appliance up {way.how}. From its "
                "back, as it travels, it "
                f"would need a ceiling of {lengths.up(ways[0].need)}.",
                "Lay it down for that way before it comes into this room.",
            )
        )


def _ways_up(load: Load, trim: str) -> list[WayUp]:
    return [
        WayUp(stand_up_height(height=load.height, base=base), f"from its {side}{trim}")
        for base, side in ((load.depth, "back"), (load.width, "side"))
    ]
