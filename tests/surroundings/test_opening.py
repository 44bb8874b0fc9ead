"""The rest of the job, on an invented niche of the Quillet Yard apartments."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from bracecalc.errors import JobError
from bracecalc.records.job import Floor, Job, Niche, Unit, Units, Wall
from bracecalc.records.plan import Check, Finding, Severity, Verdict
from bracecalc.records.surroundings import (
    Clearance,
    DoorSwing,
    Doorway,
    FloorLoad,
    Opening,
    Route,
    Service,
    SupplyLine,
    Surroundings,
)
from bracecalc.surroundings.opening import check_surroundings

UNIT = Unit(
    height=80.0,
    width=32.75,
    depth=23.125,
    leg_travel_front=1.375,
    leg_travel_rear=1.375,
    weight=540.0,
    cg_behind_front_legs=9.0,
    front_legs_behind_front=2.75,
    rear_legs_behind_front=20.75,
)


def job(unit: Unit = UNIT, **given: Any) -> Job:
    return Job(
        title="Quillet Yard 3B, kitchen (invented)",
        niche=Niche(width=(33.25, 33.125), depth=(24.75,)),
        wall=Wall(layers=()),
        unit=unit,
        floor=Floor(rear_right=0.25),
        surroundings=Surroundings(**given),
    )


def look(found: Job, **places: tuple[float, float]) -> tuple[dict[str, Check], dict[str, Finding]]:
    checks, findings = check_surroundings(found, **places)
    named = {check.name: check for check in checks}
    assert len(named) == len(checks)
    return named, {finding.code: finding for finding in findings}


def test_without_measurements_only_the_width_is_checked() -> None:
    checks, findings = look(job())
    assert list(checks) == ["unit in the opening"]
    assert not findings


def test_a_unit_wider_than_the_opening() -> None:
    checks, findings = look(job(replace(UNIT, width=33.25)))
    assert checks["unit in the opening"].verdict is Verdict.FAILS
    assert findings["opening-too-narrow"].severity is Severity.FAILS
    assert "1/8 in too wide" in findings["opening-too-narrow"].text


def test_leaning_sides_take_width_from_a_plumb_unit() -> None:
    # parallelogram 100 in high that leans 5/8 in: 1/2 in along a unit of 80 in
    longer, shorter = (33.75**2 + 100.0**2) ** 0.5, (32.5**2 + 100.0**2) ** 0.5
    checks, findings = look(job(opening=Opening(diagonals=(shorter, longer))))
    assert "lean 1/2 in" in checks["unit in the opening"].found
    assert "lean 5/8 in" in findings["out-of-square"].text
    assert "1/8 in too wide" in findings["opening-too-narrow"].text
    assert findings["out-of-square"].severity is Severity.NOTES


def test_a_side_out_of_plumb_takes_width_too() -> None:
    # 1/2 in over 100 in is 3/8 in and a bit along 80 in: 33-1/8 - 0.4 is less than 32-3/4
    opening = Opening(out_of_plumb=(0.125, -0.5), height=(100.0,))
    _, findings = look(job(opening=opening))
    assert "1/16 in too wide" in findings["opening-too-narrow"].text


@pytest.mark.parametrize(
    ("asked", "code", "severity", "words"),
    [
        ((33.25, 34.0), "opening-too-narrow", Severity.FAILS, "1/8 in is missing"),
        ((32.0, 33.0), "opening-too-wide", Severity.WARNS, "1/4 in too much"),
    ],
)
def test_the_least_reading_lets_in_and_the_greatest_leaves_gaps(
    asked: tuple[float, float], code: str, severity: Severity, words: str
) -> None:
    checks, findings = look(job(opening=Opening(width_range=asked)))
    assert checks["opening wide"].verdict is Verdict.FAILS
    assert findings[code].severity is severity
    assert words in findings[code].text


def test_height_and_depth_of_the_opening() -> None:
    opening = Opening(height=(83.75, 84.5), height_range=(84.0, 85.0), depth_range=(25.0, 26.0))
    checks, findings = look(job(opening=opening))
    assert checks["opening high"].found == "83 3/4 in to 84 1/2 in"
    assert "1/4 in is missing" in findings["opening-too-low"].text
    assert "1/4 in is missing" in findings["opening-too-shallow"].text


def test_a_range_without_readings_is_not_checked() -> None:
    checks, _ = look(job(opening=Opening(height_range=(84.0, 85.0))))
    assert "opening high" not in checks


def test_within_the_tape_of_a_limit_holds_only_if_measured_closely() -> None:
    checks, findings = look(job(opening=Opening(width_range=(33.125, 34.0))))
    assert checks["opening wide"].verdict is Verdict.CLOSE
    assert "opening wide" in findings["measure-closely"].text


def test_square_plumb_and_level() -> None:
    within = Opening(
        diagonals=(90.0, 90.0625),
        square_tolerance=0.125,
        out_of_plumb=(0.0625, -0.125),
        plumb_tolerance=0.25,
        level_tolerance=0.25,
    )
    checks, findings = look(job(opening=within))
    assert checks["opening square"].verdict is Verdict.HOLDS
    assert checks["opening plumb"].verdict is Verdict.HOLDS
    assert checks["floor level"].verdict is Verdict.CLOSE
    assert set(findings) == {"measure-closely"}
    beyond = replace(within, diagonals=(90.0, 90.25), plumb_tolerance=0.0625, level_tolerance=0.125)
    _, findings = look(job(opening=beyond))
    assert {"out-of-square", "out-of-plumb", "floor-out-of-level"} <= set(findings)
    assert "1/4 in apart" in findings["out-of-square"].text


@pytest.mark.parametrize(
    ("ceiling", "way", "code"),
    [
        # right triangles: hypot(80, 39) = 89, hypot(80, 18) = 82
        (89.0625, "standing up from its back", None),
        (82.5, "standing up from its back (trim off)", "stand-up-way"),
        (81.875, "standing up from its back (trim off)", "no-room-to-stand-up"),
    ],
)
def test_standing_up(ceiling: float, way: str, code: str | None) -> None:
    route = Route(
        ceiling=ceiling,
        moving_height=80.0,
        moving_width=60.0,
        moving_depth=39.0,
        trim_off_depth=18.0,
    )
    checks, findings = look(job(route=route))
    assert way in checks
    codes = {"stand-up-way", "no-room-to-stand-up"} & set(findings)
    assert codes == (set() if code is None else {code})
    if code == "no-room-to-stand-up":
        assert "82 in; 1/8 in is missing" in findings[code].text


def test_a_unit_is_laid_on_its_side_where_that_is_narrower() -> None:
    route = Route(ceiling=83.0, moving_height=80.0, moving_width=18.0, moving_depth=39.0)
    _, findings = look(job(route=route))
    assert "from its side" in findings["stand-up-way"].text


def test_doorways_by_two_of_three_sizes() -> None:
    route = Route(
        moving_height=84.0,
        moving_width=35.0,
        moving_depth=27.0,
        trim_off_depth=25.0,
        doorways=(
            Doorway(name="front door", width=35.5, height=80.0),
            Doorway(name="hall", width=26.0),
            Doorway(name="kitchen door", width=24.0, height=80.0),
        ),
    )
    checks, findings = look(job(route=route))
    assert checks["way in: front door"].required == "lying, its width upright, depth across"
    assert checks["way in: hall"].required == "trim off, standing, depth across"
    assert findings["trim-off-to-pass"].severity is Severity.NOTES
    assert "kitchen door" in findings["doorway-too-narrow"].text
    assert "1 in is missing" in findings["doorway-too-narrow"].text


def test_a_bare_unit_on_the_way_is_said() -> None:
    _, findings = look(job(route=Route(ceiling=100.0)))
    assert "moving-size-not-given" in findings


def test_floor_load() -> None:
    # 540 lb over 32.75 x 23.125 in = 5.259 sq ft is 102.7 psf, against 40 psf of IRC table R301.5
    checks, findings = look(job(floor_load=FloorLoad(design_psf=40.0)))
    assert checks["floor load"].found == "540 lb on its footprint: 103 psf"
    assert findings["floor-load"].severity is Severity.WARNS
    assert "licensed professional" in findings["floor-load"].remedy
    # centre of gravity half way between legs 18 in apart: a quarter each
    assert findings["leg-loads"].text.count("135 lb") == 2


def test_contents_count_on_the_floor() -> None:
    loaded = replace(UNIT, contents=100.0)
    checks, _ = look(job(loaded, floor_load=FloorLoad(design_psf=125.0)))
    assert checks["floor load"].found.startswith("640 lb")
    assert checks["floor load"].verdict is Verdict.HOLDS


def test_no_weight_no_floor_load() -> None:
    checks, findings = look(job(replace(UNIT, weight=None), floor_load=FloorLoad(design_psf=40.0)))
    assert "floor load" not in checks
    assert "leg-loads" not in findings


def test_metric_jobs_read_metric() -> None:
    metric = replace(job(floor_load=FloorLoad(design_psf=40.0)), units=Units.MM)
    checks, findings = look(metric)
    # 40 psf is 1.9 kPa (IRC's own metric note: 1 psf = 0.0479 kPa); 540 lb is 245 kg
    assert checks["floor load"].required == "designed for 1.9 kPa"
    assert "245 kg" in checks["floor load"].found
    assert checks["unit in the opening"].found.endswith("mm wide")
    assert "psf" not in findings["floor-load"].text


def test_a_short_clearance() -> None:
    spots = (
        Clearance(name="above the appliance", required=1.0, measured=0.75),
        Clearance(name="at the corner wall", required=3.0, measured=3.5),
    )
    checks, findings = look(job(clearances=spots))
    assert checks["clearance: at the corner wall"].verdict is Verdict.HOLDS
    assert "1/4 in is missing" in findings["clearance-short"].text


SWING = DoorSwing(width=30.0, thickness=1.0, hinge_offset=0.0, handle=0.0, wanted_angle=120.0)


def test_the_door_meets_the_wall() -> None:
    # 30 in door: 120 degrees need 30 cos 60 = 15 in beside the hinge
    checks, findings = look(job(door_swing=replace(SWING, side_wall=12.0)))
    assert checks["door swing, wall beside it"].required == "120 degrees: 15 in beside the hinge"
    assert "3 in more than now" in findings["door-swing-short"].remedy
    assert "opens to 113 degrees" in findings["door-swing-short"].text  # 90 + asin(0.4)
    checks, findings = look(job(door_swing=replace(SWING, side_wall=15.125)))
    assert checks["door swing, wall beside it"].verdict is Verdict.HOLDS
    assert not findings


def test_the_door_meets_what_stands_opposite() -> None:
    # 30 in door, 24 in to the island: asin(0.8) = 53.1 degrees
    checks, findings = look(job(door_swing=replace(SWING, opposite=24.0)))
    assert "opens to 53 degrees" in checks["door swing, what stands opposite"].found
    assert "opposite" in findings["door-swing-short"].text


@pytest.mark.parametrize("key", ["hinge_side", "handle_from_edge"])
def test_a_hinge_or_handle_off_the_door_is_a_mistake(key: str) -> None:
    off = replace(SWING, side_wall=2.0, **{key: 31.0})
    with pytest.raises(JobError, match=rf"door_swing\.{key}: read 31 in"):
        check_surroundings(job(door_swing=off))


def test_services_in_their_zones() -> None:
    outlet = Service(name="outlet", x=2.0, z=83.0, x_range=(4.0, 10.0), z_range=(70.0, 78.0))
    stub = Service(name="water stub", x=5.0, z=74.0, x_range=(4.0, 10.0), z_range=(70.0, 78.0))
    checks, findings = look(job(services=(outlet, stub)), behind_stack=(81.5, 85.0))
    assert checks["service: water stub"].verdict is Verdict.HOLDS
    assert "2 in to the right and 5 in down" in findings["service-out-of-zone"].remedy
    assert "outlet" in findings["service-behind-stack"].text
    _, findings = look(job(services=(outlet,)))
    assert "service-behind-stack" not in findings


def test_a_short_supply_line() -> None:
    line = SupplyLine(name="water line", length=60.0, path=40.0, slack=24.0)
    _, findings = look(job(supply_lines=(line,)))
    assert "4 in longer" in findings["supply-line-short"].remedy
    checks, _ = look(job(supply_lines=(replace(line, length=64.5),)))
    assert checks["supply line: water line"].verdict is Verdict.HOLDS


def test_every_finding_that_asks_for_something_says_what() -> None:
    everything = job(
        opening=Opening(
            width_range=(34.0, 35.0),
            height=(80.0,),
            height_range=(84.0, 85.0),
            depth_range=(20.0, 21.0),
            diagonals=(91.0, 90.0),
            out_of_plumb=(1.0,),
            square_tolerance=0.1,
            plumb_tolerance=0.1,
            level_tolerance=0.1,
        ),
        route=Route(ceiling=60.0, doorways=(Doorway(name="hall", width=10.0),)),
        floor_load=FloorLoad(design_psf=1.0),
        clearances=(Clearance(name="above", required=2.0, measured=1.0),),
        door_swing=replace(SWING, side_wall=0.0, opposite=1.0),
        services=(Service(name="stub", x=0.0, z=0.0, x_range=(1, 2), z_range=(1, 2)),),
        supply_lines=(SupplyLine(name="line", length=1.0, path=2.0, slack=0.0),),
    )
    checks, findings = check_surroundings(everything)
    assert {check.verdict for check in checks} == {Verdict.FAILS}
    for finding in findings:
        assert finding.remedy, finding.code
        assert finding.text.endswith("."), finding.text
