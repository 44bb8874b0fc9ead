"""Plates under legs and floor taken out: what puts every leg within its limits."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import NamedTuple

from bracecalc.planning.reach import floor_uncertainty, leg_travels, rolling_height
from bracecalc.records.actions import ChangeFloor
from bracecalc.records.job import CORNERS, Job

MARK = 0.0625  # in: changes are set out to sixteenths


class FloorChange(NamedTuple):
    """What is done to the floor, and the job with it done."""

    action: ChangeFloor
    job: Job


def mark_up(value: float) -> float:
    """Return a length rounded up to the marks that changes are set out to.

    >>> mark_up(0.07), mark_up(0.125)
    (0.125, 0.125)
    """
    return math.ceil((value - 1e-9) / MARK) * MARK


def mark_down(value: float) -> float:
    """Return a length rounded down to the marks that changes are set out to."""
    return math.floor((value + 1e-9) / MARK) * MARK


def reading_doubt(job: Job) -> float:
    """Return by how much a height over a leg spot may be off at worst, in."""
    return job.rules.height_uncertainty + floor_uncertainty(job)


def floor_change(job: Job, underside: float, *, spare: float) -> FloorChange | None:
    """Return the least change of the floor with which the legs raise the top to a height.

    Args:
        job: one niche.
        underside: height of the restraint above the datum, in.
        spare: to be left to either end of every leg's travel, in.

    Returns:
        The change; None where none is needed, or none does it.
    """
    travels = dict(zip(CORNERS, leg_travels(job), strict=True))
    spots = dict(zip(CORNERS, job.floor.spots, strict=True))
    rolling = underside - job.rules.roll_in - job.unit.highest - spare
    # the unit rolls over the leg spots too
    high = min(underside - job.unit.height - job.rules.leg_least - spare, rolling)
    plates: dict[str, float] = {}
    taken_out: dict[str, float] = {}
    for corner, spot in spots.items():
        low = underside - job.unit.height - travels[corner] + spare
        if spot > high + 1e-9:
            taken_out[corner] = mark_up(spot - high)
            if spot - taken_out[corner] < low - 1e-9:
                return None
        elif spot < low - 1e-9:
            plates[corner] = mark_up(low - spot)
    path = _path_kept(job, spots, taken_out)
    off_the_path = mark_up(path - rolling) if path > rolling + 1e-9 else 0.0
    if not plates and not taken_out and not off_the_path:
        return None
    heights = {corner: spots[corner] + amount for corner, amount in plates.items()}
    heights |= {corner: spots[corner] - amount for corner, amount in taken_out.items()}
    changed = replace(job.floor.at(heights), path_high=path - off_the_path)
    action = ChangeFloor(tuple(plates.items()), tuple(taken_out.items()), off_the_path)
    return FloorChange(action, replace(job, floor=changed))


def _path_kept(job: Job, spots: Mapping[str, float], taken_out: Mapping[str, float]) -> float:
    """Return the highest floor on the way in with floor taken out at some leg spots.

    Plates go in once the unit stands: they don't raise it. Floor taken out lowers it only where
    the leg spots are the way in.
    """
    path = rolling_height(job) - job.rules.roll_in - job.unit.highest
    if job.floor.path_high is not None:
        return path
    return min(path, max(spot - taken_out.get(corner, 0.0) for corner, spot in spots.items()))
