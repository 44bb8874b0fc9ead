"""Which single measurement, 1/16 in off, changes the verdict: by margins made to measure."""

from __future__ import annotations

from jobs import job, moved, unit

from bracecalc.certainty.sensitivity import sensitivity_line, with_sensitivity
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Built, Job, Loads, Units
from bracecalc.records.plan import Verdict

# band 80-3/4 to 82 on a level floor; heights and floor are read to 1/8 in each
STEADY = "No single measurement that is 1/16 in off changes the verdict."


def line(given: Job) -> str:
    return sensitivity_line(make_plan(given))


def at(height: float) -> Job:
    return job(
        unit=unit(restraint_height=height),
        built=Built(underside=height, boards=(1.5, 1.5)),
        loads=Loads(minimum=20.0),  # so that strength is never near
    )


def test_in_the_middle_of_the_band_nothing_matters() -> None:
    assert make_plan(at(81.375)).verdict is Verdict.HOLDS
    assert line(at(81.375)) == STEADY


def test_just_inside_the_worst_case_a_slip_of_the_floor_or_the_unit_matters() -> None:
    # 1/4 in to the upper end: all of the uncertainty, nothing to spare
    given = at(81.75)
    assert make_plan(given).verdict is Verdict.HOLDS
    said = line(given)
    assert said.startswith("Measure again: ")
    assert said.endswith("(1/16 in off, and it holds if measured closely).")
    assert "floor" in said


def test_a_margin_of_one_mark_more_is_steady() -> None:
    assert line(at(81.6875)) == STEADY


def test_a_wall_finish_that_uses_up_the_screws_is_named() -> None:
    # a thicker finish is a wider gap, and the screws bend
    stands = job(built=Built(underside=81.375, boards=(1.5, 1.5)))
    held = make_plan(moved(stands, loads={"minimum": 5000.0})).demand.cases[0].capacity
    assert held is not None  # of the strongest screws that there are
    given = moved(stands, loads={"minimum": held - 0.01})
    assert "gypsum board on the wall" in line(given)


def test_of_a_plan_that_fails_for_another_reason_nothing_is_said() -> None:
    given = moved(job(), wall={"stud_spots": (16.0,)})
    assert line(given) == ""  # "no measurement changes it" would read as a comfort


def test_the_line_is_in_the_units_of_the_job() -> None:
    metric = job(units=Units.MM)
    assert "mm off" in line(metric)


def test_the_plan_is_the_same_but_for_the_line() -> None:
    plan = make_plan(job())
    told = with_sensitivity(plan)
    assert told.sensitivity == sensitivity_line(plan)
    assert told.to_dict() == plan.to_dict()
    assert plan.sensitivity == ""
