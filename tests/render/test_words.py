"""What the crew is told: order, numbers, rounding to the safe side."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from jobs import GYPSUM, job, moved, unit

from bracecalc.planning.plan import make_plan
from bracecalc.records.job import (
    Floor,
    Job,
    Loads,
    Method,
    Niche,
    PublishedScrew,
    Screws,
    Stud,
    StudLayout,
    StudMaterial,
    Units,
)
from bracecalc.records.plan import Plan
from bracecalc.render.words import (
    cautions,
    floor_words,
    hole_words,
    screw_words,
    screws_words,
    set_out,
    step_headings,
)
from bracecalc.text.findings import Lengths

LEVEL = Floor(front_left=0.0, front_right=0.0, rear_left=0.0, rear_right=0.0)
SOFFIT = {"soffit": (81.5,), "soffit_solid": True, "soffit_layers": (GYPSUM,)}


def texts(given: Job) -> dict[str, list[str]]:
    told: dict[str, list[str]] = {}
    for instruction in set_out(make_plan(given)):
        told.setdefault(instruction.step, []).append(instruction.text)
    return told


def test_steps_come_in_working_order() -> None:
    steps = [instruction.step for instruction in set_out(make_plan(job()))]
    assert (
        list(dict.fromkeys(steps)) == list(step_headings(job())) == ["Mark", "Cut", "Fasten", "Set"]
    )
    assert steps == sorted(steps, key=step_headings(job()).index)


def test_the_band_stands_beside_the_target() -> None:
    # level floor: 80-5/8 + 1/8 to 80-5/8 + 1-3/8, middle 81-3/8
    mark = texts(job())["Mark"][0]
    assert "81 3/8 in above the datum" in mark
    assert "from 80 3/4 in to 82 in" in mark


def test_the_band_is_rounded_inward() -> None:
    # 80-5/8 + 1/64 + 1/8 = 80.766 up to 80-13/16; 80.641 + 1-3/8 = 82.016 down to 82
    mark = texts(job(unit=unit(height=80.625 + 1 / 64)))["Mark"][0]
    assert "from 80 13/16 in to 82 in" in mark


def test_studs_are_looked_for_in_a_strip_two_inches_beyond_the_stack() -> None:
    strip = texts(job())["Mark"][-1]
    # underside 81-3/8, a 2x4 3-1/2 high: 79-3/8 to 86-7/8
    assert "between 79 3/8 in and 86 7/8 in" in strip
    assert "4 in, 16 5/8 in and 29 in" in strip


def test_boards_are_cut_to_the_niche_less_an_eighth_at_each_end() -> None:
    cut = texts(job(niche=Niche(width=(33.25, 33.1875), depth=(23.75,))))["Cut"][0]
    # least width 33-3/16 less 1/4 in, rounded down
    assert cut.startswith("2 boards 2x4 SPF, 32 15/16 in long; clear 1/8 in")


def test_each_board_has_its_screws_named_placed_and_counted() -> None:
    plan = make_plan(job())
    fix = texts(job())["Fasten"]
    for row in plan.screws:
        words = fix[row.board - 1]
        assert words.startswith(f"Board {row.board} (")
        assert screws_words(row) in words
        assert f"{row.per_stud} per stud" in words
    assert "(at the wall)" in fix[0]
    assert "stands 3 in out and reaches 2 3/8 in over the top of the appliance" in fix[-1]


def test_legs_are_told_with_turns_the_farthest_first() -> None:
    told = texts(job(floor=Floor(rear_right=0.25, front_right=0.125)))["Set"]
    legs = next(text for text in told if "Legs out by" in text)
    out = [float(number) for number in re.findall(r"\((\d+\.\d) turns\)", legs)]
    assert len(out) == 4
    assert out == sorted(out, reverse=True)
    plan = make_plan(job(floor=Floor(rear_right=0.25, front_right=0.125)))
    assert plan.legs is not None
    # pitch 1/16 in: sixteen turns an inch
    assert out[0] == pytest.approx(16 * max(leg.extension for leg in plan.legs.values()), abs=0.05)


def test_without_a_pitch_no_turns_are_made_up() -> None:
    told = texts(job(unit=unit(leg_pitch=None)))["Set"]
    assert not any("turns" in text for text in told)


def test_every_way_to_hold_says_stop_at_contact() -> None:
    for given in (
        job(),
        moved(job(), niche=SOFFIT),
        moved(job(), niche={**SOFFIT, "soffit": (83.5,)}),
    ):
        assert any("Stop at contact" in text for text in texts(given)["Set"])


def test_a_soffit_is_not_framed() -> None:
    told = texts(moved(job(), niche=SOFFIT))
    assert "Nothing to frame" in told["Mark"][0]
    assert "81 1/2 in" in told["Mark"][0]
    assert "Cut" not in told


def test_packers_are_cut_with_their_total() -> None:
    given = moved(job(), niche={**SOFFIT, "soffit": (83.5,)})
    plan = make_plan(given)
    assert plan.packers is not None
    cut = texts(given)["Cut"][0]
    for size in plan.packers.sizes:
        assert size in cut
    assert (
        "the load goes up through them" in texts(given)["Fasten"][0]
    )  # where they go, before they are screwed on


def test_nothing_is_told_where_there_is_no_restraint() -> None:
    assert set_out(make_plan(job(floor=Floor(rear_right=1.5)))) == ()


@pytest.mark.parametrize(
    ("floor", "said"),
    [
        (LEVEL, "The floor is level at the four leg spots (read up from the datum"),
        (replace(LEVEL, rear_right=0.25, front_right=0.125),
         "The rear right leg spot is the highest, 1/4 in above the front left"),
        (replace(LEVEL, front_left=0.5, down_from_line=True),
         "The front left leg spot is the highest, 1/2 in above the front right (read down from"),
        (replace(LEVEL, finish_to_come=0.75),
         "on the subfloor, with 3/4 in of flooring to come added"),
        (Floor(front_left=0.0, front_right=0.0, rear_left=0.25),
         "NOT MEASURED at the rear right: assumed to be at the datum there."),
        (Floor(finish_to_come=0.75),
         "NOT MEASURED: assumed level, with 3/4 in of flooring to come added"),
    ],
)  # fmt: skip
def test_which_spot_is_highest_is_said_in_words(floor: Floor, said: str) -> None:
    assert said in floor_words(job(floor=floor))


def outer(plan: Plan) -> str:
    return screw_words(plan.screws[-1])


def test_screws_are_named_as_at_the_counter() -> None:
    wood = make_plan(job()).screws[0]
    assert re.fullmatch(r"No\. \d+ x \d+( \d/\d)? in wood screw", screw_words(wood))
    lag = replace(make_plan(job(loads=Loads(minimum=150.0))).screws[-1], size="1/4", length=6.5)
    assert screws_words(replace(lag, count=1)).startswith("1 ")


def test_metric_screws_are_named_in_millimetres_in_any_job() -> None:
    given = moved(job(loads=Loads(method=Method.EC5)), wall={"stud": Stud(width=3.0)})
    assert re.fullmatch(r"\d+ mm x \d+ mm coach screw", outer(make_plan(given)))


def test_holes_come_in_the_order_of_drilling_and_a_lag_is_never_driven() -> None:
    for row in make_plan(job(loads=Loads(minimum=200.0))).screws:
        words = hole_words(row, Lengths(job()))
        assert words.index("clearance") < words.index("pilot")
        assert ("never hammer" in words) == ("lag" in words)


def test_cautions_stand_on_every_plan() -> None:
    told = " ".join(cautions(make_plan(job())))
    for word in (
        "Two or more people",
        "taped shut",
        "wires and pipes",
        "Local codes",
        "engineer's",
    ):
        assert word in told
    assert "measure again" not in told
    later = " ".join(cautions(make_plan(job(floor=Floor(finish_to_come=0.75)))))
    assert "measure again on the finished floor" in later


def test_a_metric_job_is_told_in_millimetres_alone() -> None:
    told = texts(job(units=Units.MM))
    for step in ("Mark", "Cut"):
        for text in told[step]:
            assert not re.search(r"\d in\b", text), text
    assert "mm" in told["Mark"][0]


def test_blocking_is_cut_and_built_in_before_the_boards() -> None:
    spaced = moved(job(), wall={"stud_spots": None, "stud_layout": StudLayout(spacing=24.0)})
    told = texts(spaced)
    assert "pieces of solid blocking 2x6 SPF, about 22 1/2 in long" in told["Cut"][1]
    assert told["Fasten"][0].startswith("First build the solid blocking in between the studs")
    assert not any("blocking" in text for text in texts(job())["Cut"])


def test_anchors_in_masonry_are_set_at_places_in_the_wall() -> None:
    anchor = PublishedScrew(
        size="anchor 5/16", diameter=0.3125, head_diameter=0.75, length=6.0, thread_length=4.0,
        least_embedment=2.0, lateral=250.0, withdrawal=200.0, pull_through=350.0,
        largest_gap=0.75, source="invented for a test",
    )  # fmt: skip
    stud = Stud(material=StudMaterial.MASONRY, width=8.0, depth=8.0)
    given = moved(job(screws=Screws(published=(anchor,))), wall={"stud": stud})
    told = texts(given)
    assert "then mark the anchors at 4 in, 16 5/8 in and 29 in" in told["Mark"][-1]
    fixed = " ".join(told["Fasten"])
    assert "3 screws anchor 5/16 x 6 in, 1 per place" in fixed
    assert "into the wall." in fixed
    assert "stud" not in fixed
