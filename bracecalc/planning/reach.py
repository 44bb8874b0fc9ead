"""The reach band of a job, and the legs at a height."""

from __future__ import annotations

from functools import lru_cache

from bracecalc.mechanics.geometry import reach
from bracecalc.records.job import CORNERS, Job
from bracecalc.records.margins import margin
from bracecalc.records.plan import Leg, Margin, ReachBand

ROLLING_IN = "rolling in"


def leg_travels(job: Job) -> tuple[float, float, float, float]:
    """Return the travel of each leg, in the order of CORNERS."""
    front, rear = job.unit.leg_travel_front, job.unit.leg_travel_rear
    return front, front, rear, rear


def floor_uncertainty(job: Job) -> float:
    """Return the uncertainty of a floor reading over the datum."""
    given = job.floor.uncertainty
    return job.rules.height_uncertainty if given is None else given


def reach_band(job: Job) -> ReachBand:
    """Return the heights between which the legs can raise the top onto a restraint.

    >>> from bracecalc.records.job import Niche, Unit, Wall
    >>> unit = Unit(height=80.625, width=32, depth=23, leg_travel_front=1.25, leg_travel_rear=1.25)
    >>> niche = Niche(width=(33.0,), depth=(24.0,))
    >>> reach_band(Job(title="x", niche=niche, wall=Wall(layers=()), unit=unit))
    ReachBand(low=80.75, high=81.875, low_set_by='front_left', high_set_by='front_left')
    """
    unit, least = job.unit, job.rules.leg_least
    if not unit.rear_lifts:
        return _band_over_rollers(job)
    return _band(job.floor.spots, leg_travels(job), unit.height, least, rolling_height(job))


def resting_top(job: Job) -> float:
    """Return how high the top stands with the rear on its rollers, over the higher rear spot."""
    return max(job.floor.spots[2:]) + job.unit.height


def _band_over_rollers(job: Job) -> ReachBand:
    """Return the heights for a unit whose rear does not lift: just over its top, shimmed tight.

    The front legs level the top; where they can't, the band is empty by what they lack.
    """
    top, unit = resting_top(job), job.unit
    low = max(top, rolling_height(job))
    fronts = job.floor.spots[:2]
    lack = max(
        top - unit.height - unit.leg_travel_front - min(fronts),
        max(fronts) - max(job.floor.spots[2:]),
    )
    doubt = job.rules.height_uncertainty + floor_uncertainty(job)
    rear = CORNERS[2 + job.floor.spots[2:].index(max(job.floor.spots[2:]))]
    front = CORNERS[fronts.index(min(fronts))]
    return ReachBand(
        low=low,
        high=low - lack if lack > 1e-9 else low + 2.0 * doubt,
        low_set_by=ROLLING_IN if low > top else rear,
        high_set_by=front if lack > 1e-9 else rear,
    )


@lru_cache(maxsize=1024, typed=True)
def _band(
    spots: tuple[float, ...],
    travels: tuple[float, ...],
    height: float,
    leg_least: float,
    rolling: float,
) -> ReachBand:
    """Return the band of a unit on a floor: units of one kind have it in common."""
    low = reach.lowest_reach(spots=spots, height=height, leg_least=leg_least)
    high = reach.highest_reach(spots=spots, travels=travels, height=height)
    reaches = [spot + travel for spot, travel in zip(spots, travels, strict=True)]
    return ReachBand(
        low=max(low, rolling),
        high=high,
        low_set_by=ROLLING_IN if rolling > low else CORNERS[spots.index(max(spots))],
        high_set_by=CORNERS[reaches.index(min(reaches))],
    )


def rolling_height(job: Job) -> float:
    """Return the lowest height of a restraint under which the unit rolls in."""
    unit, floor = job.unit, job.floor
    path = max(floor.spots) if floor.path_high is None else floor.path_high
    return reach.rolling_reach(
        path_high=path, height_overall=unit.highest, roll_in=job.rules.roll_in
    )


def limit_margins(job: Job, band: ReachBand, height: float) -> tuple[Margin, Margin]:
    """Return the room of a restraint's height to the band's lower and to its upper limit.

    The height itself and the floor are read over the datum, each with its uncertainty.
    """
    uncertainties = (job.rules.height_uncertainty, floor_uncertainty(job))
    return margin(height - band.low, uncertainties), margin(band.high - height, uncertainties)


def level_short(job: Job) -> float:
    """Return by how much the legs would be too short on a level floor too, in; 0 or less: not."""
    return _standing(job) - job.unit.height - min(leg_travels(job))


def _standing(job: Job) -> float:
    """Return the least height of the top over a level floor, in."""
    unit, rules = job.unit, job.rules
    return max(unit.height + rules.leg_least, unit.highest + rules.roll_in)


def height_margin(job: Job, band: ReachBand, height: float) -> Margin:
    """Return the room of a restraint's height in the band, the nearer limit."""
    return min(limit_margins(job, band, height), key=lambda room: room.nominal)


def legs_at(job: Job, top: float) -> dict[str, Leg]:
    """Return the four legs with the top of the housing raised to a height."""
    pitch, least = job.unit.leg_pitch, job.rules.leg_least
    if not job.unit.rear_lifts:
        return _legs_over_rollers(job)
    uncertainties = (job.rules.height_uncertainty, floor_uncertainty(job))
    legs = {}
    for corner, spot, travel in zip(CORNERS, job.floor.spots, leg_travels(job), strict=True):
        extension = reach.leg_extension(top=top, height=job.unit.height, spot=spot)
        legs[corner] = _leg(extension, travel, pitch, least, uncertainties)
    return legs


def _legs_over_rollers(job: Job) -> dict[str, Leg]:
    """Return the legs of a unit whose rear does not lift: the front ones level the top."""
    top, pitch = resting_top(job), job.unit.leg_pitch
    uncertainties = (job.rules.height_uncertainty, floor_uncertainty(job))
    legs = {}
    for corner, spot, travel in zip(CORNERS, job.floor.spots, leg_travels(job), strict=True):
        out = top - job.unit.height - spot if travel > 0.0 else 0.0
        legs[corner] = Leg(
            extension=out,
            travel=travel,
            turns=None if pitch is None else reach.leg_turns(extension=out, pitch=pitch),
            margin=margin(travel - out, uncertainties) if travel > 0.0 else margin(0.0, ()),
        )
    return legs


@lru_cache(maxsize=1024, typed=True)
def _leg(
    extension: float,
    travel: float,
    pitch: float | None,
    least: float,
    uncertainties: tuple[float, ...],
) -> Leg:
    """Return one leg: on a level floor all four of a unit are alike."""
    return Leg(
        extension=extension,
        travel=travel,
        turns=None if pitch is None else reach.leg_turns(extension=extension, pitch=pitch),
        margin=margin(min(extension - least, travel - extension), uncertainties),
    )
