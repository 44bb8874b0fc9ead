"""A job made in Python with a number that is none: refused before a least or greatest hides it."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pint
import pytest
from jobs import DOOR, GYPSUM, job, moved, unit

from bracecalc.errors import JobError
from bracecalc.jobfile.numbers import looked_over
from bracecalc.planning.plan import make_plan
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
        "loads.S_DS": job(loads=Loads(earthquake=Earthquake(s_ds=bad))),
        "loads.load_duration.climb": job(loads=Loads(load_duration={"climb": bad})),
    }


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("path", sorted(odd_jobs(0.0)))
def test_no_plan_is_made_of_a_number_that_is_none(path: str, bad: float) -> None:
    with pytest.raises(ValueError, match=f"^{path} must be finite"):
        make_plan(odd_jobs(bad)[path])


def test_a_plain_job_comes_back_as_it_is() -> None:
    for given in (job(), moved(job(), niche=SOFFIT)):
        assert looked_over(given).job is given


def with_quantities() -> Job:
    metric = pint.UnitRegistry().Quantity
    opened: dict[str, Any] = {"own_weight": metric(16.3293, "kg"), "reach": metric(35.56, "cm")}
    door = replace(DOOR, **opened)
    return moved(
        job(),
        niche={"width": (metric(844.55, "mm"),), "depth": (metric(603.25, "mm"), 23.75)},
        unit={"height": metric(6.71875, "foot"), "weight": metric(540, "lb"), "doors": (door,)},
        loads={"minimum": metric(444.82216152605, "N"), "temperature": metric(20, "degC")},
        wall={"stud_spots": (metric(101.6, "mm"), 16.625, 29.0)},
    )


def test_pint_quantities_in_records_are_the_same_plan() -> None:
    got = make_plan(with_quantities())
    want = make_plan(moved(job(), loads={"minimum": 100.0}))
    assert got.job.niche.width == pytest.approx((33.25,))
    assert got.job.unit.height == pytest.approx(80.625)
    assert got.job.loads.temperature == pytest.approx(68.0)
    assert got.reach_band.high == pytest.approx(want.reach_band.high)
    for one, other in zip(got.demand.cases, want.demand.cases, strict=True):
        assert one.force == pytest.approx(other.force, rel=1e-4)
        assert one.capacity == pytest.approx(other.capacity)


def test_every_quantity_of_a_wrong_dimension_is_told_by_its_path() -> None:
    metric = pint.UnitRegistry().Quantity
    wrong = moved(job(), niche={"width": (metric(5, "kg"),)}, unit={"weight": metric(3, "m")})
    with pytest.raises(JobError) as told:
        make_plan(wrong)
    keys = [mistake.key for mistake in told.value.mistakes]
    assert keys == ["niche.width", "unit.weight"]
    assert "5 kilogram" in str(told.value)


def test_a_quantity_that_is_no_number_is_refused() -> None:
    metric = pint.UnitRegistry().Quantity
    with pytest.raises(JobError, match=r"unit\.height"):
        make_plan(moved(job(), unit={"height": metric(math.nan, "inch")}))
