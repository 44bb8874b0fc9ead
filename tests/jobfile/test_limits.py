"""What can't be is refused with the reading that would fit; what seldom is, is told.

Lowest and highest values are common practice: no niche, stud or leg is built past them.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from jobs import job, moved, unit

from bracecalc.errors import JobError
from bracecalc.jobfile.build import build_job
from bracecalc.jobfile.numbers import looked_over
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Boards, Job, Niche, Units, job_groups
from bracecalc.records.keys import Kind
from bracecalc.records.plan import Verdict

NUMBERS = {
    kind for kind in Kind if kind not in (Kind.TEXT, Kind.FLAG, Kind.CHOICE, Kind.NAME, Kind.FILE)
}
VALUES: dict[str, object] = {
    "niche.width": 33.25,
    "niche.depth": 24.75,
    "wall.layers": "gypsum board 1/2 in",
    "wall.stud_spots": [6.375, 22.25],
    "unit.height": 80.625,
    "unit.width": 32.75,
    "unit.depth": 23.125,
    "unit.leg_travel": 1.375,
}


def mistakes(**changes: object) -> list[str]:
    values = {**VALUES, **{path.replace("__", "."): value for path, value in changes.items()}}
    with pytest.raises(JobError) as caught:
        build_job(values, where="a.toml")
    return [str(mistake) for mistake in caught.value.mistakes]


def test_every_number_of_a_job_has_a_least_and_a_most() -> None:
    open_ended = [
        group.path_of(key)
        for group in job_groups()
        for key in group.keys
        if key.kind in NUMBERS
        and (key.within.most is None or (key.within.least is None and key.within.above is None))
    ]
    assert open_ended == []


def test_what_is_usual_can_be() -> None:
    for group in job_groups():
        for key in group.keys:
            for value in key.within.usual or ():
                assert key.within.holds(value) or value == key.within.above, group.path_of(key)


@pytest.mark.parametrize(
    ("change", "line"),
    [
        (
            {"niche__width": 845},
            "a.toml: niche.width: read 845; expected 8 in to 120 in (finished opening, side to "
            'side; read at bottom, middle and top); did you mean 845 mm? units = "mm" is missing',
        ),
        ({"niche__width": "845 in"}, "; did you mean 845 mm?"),
        ({"niche__width": "33 1/4 ft"}, "; did you mean 33 1/4 in?"),
        ({"unit__leg_travel": 35}, '; did you mean 35 mm? units = "mm" is missing'),
        ({"wall__layers": "gypsum board 12.5"}, '; did you mean 12.5 mm? units = "mm" is missing'),
        ({"unit__weight": "5400 lb"}, "read '5400 lb'; expected 10 lb to 5000 lb (weight of the"),
        ({"niche__width": 1e6}, "expected 8 in to 120 in"),
        ({"niche__depth": 1e9}, "expected 8 in to 60 in"),
        ({"unit__leg_pitch": 1e-320}, "unit.leg_pitch: read 1e-320; expected 0.01 in to 0.5 in"),
        ({"built__underside": 7}, "built.underside: read 7; expected 12 in to 240 in"),
        ({"boards__end_gap": "20 in"}, "boards.end_gap: read '20 in'; expected 0 to 6 in"),
        ({"boards__end_gap": 6, "niche__width": 20, "unit__width": 18}, "a quarter of niche.width"),
        ({"unit__width": 37}, "unit.width: read 37 in beside a niche 33.25 in wide; expected at"),
        (
            {"floor__front_left": 13, "floor__rear_left": 0},
            "floor: read leg spots 13 in apart in height; expected at most",
        ),
        ({"wall__stud_spots": [n / 8 for n in range(65)]}, "expected at most 64 lengths"),
    ],
    ids=lambda value: str(value)[:30],
)
def test_what_can_not_be_is_refused(change: dict[str, object], line: str) -> None:
    (said,) = mistakes(**change)
    assert line in said


def test_a_metric_job_is_told_its_limits_in_millimetres() -> None:
    lines = mistakes(units="mm")
    assert (
        "a.toml: niche.width: read 33.25; expected 203.2 mm to 3048 mm (finished opening, side to "
        'side; read at bottom, middle and top); did you mean 33.25 in? units = "mm" is set'
    ) in lines


PUBLISHED = {
    "size": "x",
    "diameter": 0.2,
    "head_diameter": 0.4,
    "length": 4,
    "thread_length": 2.5,
    "least_embedment": 1.5,
    "lateral": "150 lb",
    "withdrawal": "135 lb/in",
    "pull_through": "300 lb",
    "largest_gap": 0.5,
    "source": "invented for a test",
}


@pytest.mark.parametrize(
    ("change", "line"),
    [
        ({"head_diameter": 0.1}, "head_diameter: read less than its diameter"),
        ({"thread_length": 4.5}, "thread_length: read more than its length"),
        ({"least_embedment": 4.5}, "least_embedment: read more than its length"),
    ],
)
def test_the_measures_of_a_screw_fit_together(change: dict[str, object], line: str) -> None:
    (said,) = mistakes(screws__published=[{**PUBLISHED, **change}])
    assert said.startswith(f"a.toml: screws.published.1.{line}")


def test_a_unit_a_little_too_wide_is_planned_and_fails() -> None:
    plan = make_plan(build_job({**VALUES, "unit.width": 34.0}, where=""))
    assert "niche-too-narrow" in {finding.code for finding in plan.findings}


@pytest.mark.parametrize("fixed", ["leg_travel", "leg_travel_front"])
def test_rollers_without_travel_are_read_and_the_plan_fails(fixed: str) -> None:
    ends = {"unit.leg_travel_front": 1.375, "unit.leg_travel_rear": 1.375}
    values = {path: value for path, value in VALUES.items() if path != "unit.leg_travel"}
    values |= {"unit.leg_travel": 0} if fixed == "leg_travel" else {**ends, f"unit.{fixed}": 0}
    plan = make_plan(build_job(values, where=""))
    assert plan.verdict is Verdict.FAILS
    assert "floor-uses-up-travel" in {finding.code for finding in plan.findings}


@pytest.mark.parametrize(
    ("given", "path"),
    [
        (job(niche=Niche(width=(1e6,), depth=(23.75,))), "niche.width.1"),
        (moved(job(), niche={"depth": (23.75, 1e9)}), "niche.depth.2"),
        (job(unit=unit(leg_pitch=1e-320)), "unit.leg_pitch"),
        (job(boards=Boards(end_gap=20.0)), "boards.end_gap"),
        (moved(job(), loads={"load_duration": {"climb": 7.0}}), "loads.load_duration.climb"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_a_job_made_in_python_is_held_to_the_same(given: Job, path: str) -> None:
    with pytest.raises(JobError, match=f"^{path}: read .*; expected "):
        make_plan(given)


@pytest.mark.parametrize(
    ("given", "text"),
    [
        (job(niche=Niche(width=(90.0,), depth=(23.75,))), "niche.width.1 is 90 in; usually 18 in"),
        (job(unit=unit(weight=1600.0)), "unit.weight is 1600 lb; usually 100 lb to 1500 lb"),
        (
            replace(job(unit=unit(weight=1600.0)), units=Units.MM),
            "unit.weight is 725.7 kg; usually 45.4 kg to 680.4 kg",
        ),
    ],
    ids=["width", "weight", "metric"],
)
def test_what_seldom_is_stands_in_the_plan(given: Job, text: str) -> None:
    (said,) = [one for one in make_plan(given).findings if one.code == "unusual-value"]
    assert text in said.text


def test_one_finding_names_the_first_of_many_unusual_values() -> None:
    rules: dict[str, Any] = {"leg_least": 2, "roll_in": 2, "rear_rise": 2, "under_head": 4}
    given = moved(job(), rules=rules, boards={"end_gap": 3}, loads={"climb": 400.0, "pull": 400.0})
    (said,) = [one for one in make_plan(given).findings if one.code == "unusual-value"]
    assert said.text.endswith(". 1 more.")
    assert len(looked_over(given).unusual) == 7
