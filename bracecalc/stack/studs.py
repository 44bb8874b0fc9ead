"""The studs behind the boards: which are met, which count, which walls hold no wood screw."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from bracecalc.mechanics.geometry import studs as geometry
from bracecalc.records.job import Job, Layer, StudMaterial
from bracecalc.records.plan import Finding, Stack, Studs
from bracecalc.records.reference import LayerKind, Tables
from bracecalc.records.scheme import Backing
from bracecalc.text.findings import Lengths, fails, warns

BLOCKING = (
    "Build solid blocking between the studs, behind the whole stack, before the wall is closed."
)
STRIP = 2.0  # in below and above the stack: where to find the studs, common practice


class BuildUp(NamedTuple):
    """Wall between boards and framing: all of it, and the part that is a gap for the screw, in."""

    thickness: float
    gap: float


def build_up(layers: tuple[Layer, ...], to_come: float, tables: Tables) -> BuildUp:
    """Return the build-up; wood or panel fixed to the framing and declared so is no gap."""
    thickness = to_come + sum(layer.thickness for layer in layers)
    gap = thickness
    for layer in reversed(layers):  # from the framing outward
        kind = tables.layers[layer.material].kind
        if not layer.fixed_to_stud or kind not in (LayerKind.WOOD, LayerKind.PANEL):
            break
        gap -= layer.thickness
    return BuildUp(thickness, max(0.0, gap))


def compressible(layers: tuple[Layer, ...], tables: Tables) -> tuple[str, ...]:
    """Return the layers that a board can't be pulled tight against."""
    return tuple(
        layer.material
        for layer in layers
        if tables.layers[layer.material].kind is LayerKind.COMPRESSIBLE
    )


def wall_findings(job: Job, tables: Tables) -> tuple[Finding, ...]:
    """Return why the rear wall can't take a stack, if it can't."""
    found = []
    # an anchor with its maker's values needs no wood; its places are then given as stud spots
    if job.wall.stud.material is not StudMaterial.WOOD and not job.screws.published:
        material = job.wall.stud.material
        behind = f"Behind the wall is {material.value}"
        if material is StudMaterial.UNKNOWN:
            behind = "What is behind the wall is not known"
        found.append(
            fails(
                "no-wood-to-bite",
                f"{behind}: no wood backing for the screws.",
                "Build in wood backing before the wall is closed, or use an anchor whose own "
                "published allowable loads are given in the job (screws.published), and have an "
                "engineer sign off on it.",
            )
        )
    soft = compressible(job.wall.layers, tables)
    if soft:
        found.append(
            fails(
                "compressible-wall",
                f"The wall has {', '.join(soft)} between the boards and the studs: boards can't "
                "be pulled tight against it, and the screws would bend.",
                "Take that layer out behind the stack and fill with solid wood or panel fixed to "
                "the studs.",
            )
        )
    return tuple(found)


def known_spots(job: Job) -> tuple[float, ...] | None:
    """Return the stud centres, measured or by layout; None with spacing alone."""
    wall, width = job.wall, job.niche.narrowest
    if wall.stud_spots is not None:
        spots = set(wall.stud_spots)
    elif wall.stud_layout is not None and wall.stud_layout.first is not None:
        first, spacing = wall.stud_layout.first, wall.stud_layout.spacing
        spots = set(_layout_spots(first, spacing, width))
    else:
        return None
    if wall.corner_studs:
        half = wall.stud.width / 2.0
        spots |= {half, width - half}
    return tuple(sorted(spots))


@lru_cache(maxsize=1024)
def _layout_spots(first: float, spacing: float, width: float) -> tuple[float, ...]:
    """Return the spots of a layout, asked for once for each end distance tried."""
    return geometry.layout_spots(first=first, spacing=spacing, width=width)


def usable_length(stack: Stack, end: float, uncertainty: float) -> tuple[float, float]:
    """Return start and length of the part of the board in which a stud's centre counts, in."""
    left = stack.left_end + end + uncertainty
    return left, max(0.0, stack.length - 2.0 * (end + uncertainty))


class Met(NamedTuple):
    """The studs that a stack meets: all spots (None with spacing alone), those used, how many."""

    spots: tuple[float, ...] | None
    used: tuple[float, ...]
    sure: int


def meet(job: Job, stack: Stack, *, end: float) -> Met:
    """Return which studs the stack meets with an end distance, in."""
    left, usable = usable_length(stack, end, job.rules.tape_uncertainty)
    spots = known_spots(job)
    if spots is None:
        layout = job.wall.stud_layout
        sure = 0 if layout is None else geometry.sure_studs(usable=usable, spacing=layout.spacing)
        return Met(None, (), sure)
    first, last = left - 1e-9, left + usable + 1e-9
    used = tuple([spot for spot in spots if first <= spot <= last])
    return Met(spots, used, len(used))


def meet_studs(job: Job, stack: Stack, *, end: float, target: float | None) -> Studs:
    """Return which studs the stack meets with an end distance.

    Args:
        job: with measured spots, a layout or a spacing alone.
        stack: for its length and place.
        end: least distance of a screw from the board's end, in.
        target: height of the underside above the datum, in; None where there is none.
    """
    low = None if target is None else target - STRIP
    high = None if target is None else target + stack.width + STRIP
    spots, used, sure = meet(job, stack, end=end)
    if spots is None:
        return Studs(
            spots=(), used=(), sure=sure, best_case=sure + 1, why_not={},
            strip_low=low, strip_high=high,
        )  # fmt: skip
    why_not = {}
    if sure < len(spots):
        near = Lengths(job).up(end + job.rules.tape_uncertainty)
        near = f"nearer than {near} to the board's end"
        ends = stack.left_end, stack.left_end + stack.length
        why_not = {
            spot: near if ends[0] <= spot <= ends[1] else "beyond the board's end"
            for spot in spots
            if spot not in used
        }
    return Studs(
        spots=spots, used=used, sure=sure, best_case=sure, why_not=why_not,
        strip_low=low, strip_high=high,
    )  # fmt: skip


def stud_supports(job: Job, stack: Stack, *, end: float) -> tuple[float, ...]:
    """Return the studs by which the stack is checked, fewer than two where it has too few.

    With spacing alone the sure studs where they stand worst.
    """
    met, layout = meet(job, stack, end=end), job.wall.stud_layout
    if met.spots is not None or layout is None:
        return met.used
    left, usable = usable_length(stack, end, job.rules.tape_uncertainty)
    return geometry.least_favourable_spots(
        left=left, usable=usable, spacing=layout.spacing, count=met.sure
    )


def blocking_supports(job: Job, stack: Stack, *, end: float, count: int) -> tuple[float, ...]:
    """Return places for screws in solid blocking between the studs, spread over the boards.

    A screw stands the end distance clear of the stud's face, in the blocking itself. Where the
    studs aren't known yet each place may have to move so far, so that the outer ones keep that
    much room. Fewer places than asked for where the blocking has no room for them.
    """
    uncertainty = job.rules.tape_uncertainty
    clear = job.wall.stud.width / 2.0 + end + uncertainty
    left, usable = usable_length(stack, end, uncertainty)
    spots = known_spots(job)
    if spots is None:
        left, usable = left + clear, max(0.0, usable - 2.0 * clear)
    holes = () if job.built is None else tuple(hole.from_left for hole in job.built.holes)
    kept_clear = (*(spots or ()), *holes)
    return _spread(left, left + usable, kept_clear, clear, 2.0 * end, count)


@lru_cache(maxsize=4096)
def _spread(
    first: float, last: float, spots: tuple[float, ...], clear: float, apart: float, count: int
) -> tuple[float, ...]:
    """Return places spread between two, clear of the studs and apart from each other."""
    found: list[float] = []
    for index in range(count):
        place = first + (last - first) * index / (count - 1)
        best = _nearest_clear(place, spots, clear, (first, last))
        if best is not None and all(abs(best - other) >= apart for other in found):
            found.append(best)
    return tuple(sorted(found))


def _nearest_clear(
    place: float, spots: tuple[float, ...], clear: float, limits: tuple[float, float]
) -> float | None:
    """Return the place nearest to one wanted that is clear of every stud, within limits."""
    beside = [place, *(spot - clear for spot in spots), *(spot + clear for spot in spots)]
    possible = [
        one
        for one in beside
        if limits[0] - 1e-9 <= one <= limits[1] + 1e-9
        and all(abs(one - spot) >= clear - 1e-9 for spot in spots)
    ]
    return min(possible, key=lambda one: (abs(one - place), one), default=None)


def stud_findings(job: Job, studs: Studs, backing: Backing) -> tuple[Finding, ...]:
    """Return what is to be said of the studs found, and of the blocking that takes their place."""
    if backing is Backing.BLOCKING and job.wall.blocking:
        return ()
    if studs.sure >= 2:
        too_close = _too_close(job, studs)
        if backing is Backing.STUDS:
            return too_close
        return (
            *too_close,
            warns(
                "blocking-to-build",
                "The studs alone don't hold the boards: the screws are counted in solid blocking "
                "between the studs.",
                BLOCKING,
            ),
        )
    if known_spots(job) is None and job.wall.stud_layout is not None:
        spacing = Lengths(job).near(job.wall.stud_layout.spacing)
        return (
            warns(
                "too-few-studs",
                f"Studs at {spacing}: the boards will land on at least {studs.sure}, at most "
                f"{studs.best_case}. The screws are counted with blocking built in.",
                BLOCKING,
            ),
        )
    count = {0: "no stud", 1: "one stud only"}[studs.sure]
    reasons = "; ".join(
        f"{Lengths(job).near(spot)} is {why}" for spot, why in studs.why_not.items()
    )
    return (
        fails(
            "too-few-studs",
            f"The boards meet {count}" + (f" ({reasons})." if reasons else "."),
            f"{BLOCKING} Then say so with wall.blocking = true.",
        ),
    )


def _too_close(job: Job, studs: Studs) -> tuple[Finding, ...]:
    lengths, width = Lengths(job), job.wall.stud.width
    return tuple(
        warns(
            "studs-overlap",
            f"Studs {lengths.near(width)} wide can't stand at {lengths.near(here)} and "
            f"{lengths.near(after)}.",
            "Find that stud's two edges again: its centre lies midway.",
        )
        for here, after in pairwise(studs.used)
        if after - here < width - 2.0 * job.rules.tape_uncertainty - 1e-9
    )
