"""A job made in Python with a number that is none: refused before a least or greatest hides it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from jobs import DOOR, GYPSUM, job, moved, unit

from bracecalc.oddnumbers import refuse_odd_numbers
from bracecalc.plan import make_plan
from bracecalc.records.job import Earthquake, Job, Loads, Rules

SOFFIT = {"soffit": (83.0,), "soffit_solid": True, "soffit_layers": (GYPSUM,)}


def odd_jobs(bad: float) -> dict[str, Job]:
    return {
        "niche.width.2": moved(job(), niche={"width": (33.25, bad)}),
        "niche.depth.2": moved(job(), niche={"depth": (23.75, bad)}),
        "niche.soffit.2": moved(job(), niche={**SOFFIT, "soffit": (83.0, bad)}),
        "wall.stud_spots.1": moved(job(), wall={"stud_spots": (bad, 4.0, 16.625)}),
        "wall.layers.1.thickness": moved(
            job(), wall={"layers": (replace(GYPSUM, thickness=bad),)}, niche=SOFFIT
        ),
        "unit.doors.1.reach": job(unit=unit(doors=(replace(DOOR, reach=bad),))),
        "rules.overlap_left": job(rules=Rules(overlap_left=bad)),
        "loads.earthquake.s_ds": job(loads=Loads(earthquake=Earthquake(s_ds=bad))),
        "loads.load_duration.climb": job(loads=Loads(load_duration={"climb": bad})),
    }


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("path", sorted(odd_jobs(0.0)))
def test_no_plan_is_made_of_a_number_that_is_none(path: str, bad: float) -> None:
    with pytest.raises(ValueError, match=f"^{path} must be finite"):
        make_plan(odd_jobs(bad)[path])


def test_a_sound_job_passes() -> None:
    refuse_odd_numbers(job())
    refuse_odd_numbers(moved(job(), niche=SOFFIT))
