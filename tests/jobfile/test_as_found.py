"""What people write of a niche as found."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from jobs import job, moved

from bracecalc.errors import JobError
from bracecalc.jobfile.as_found import read_as_found
from bracecalc.records.job import CarriedScrew, PublishedScrew, Screws, Units
from bracecalc.records.site import AsFound, Reading

JOB = replace(job(), where="niche.toml")


def read(**raw: Any) -> AsFound:
    return read_as_found(raw, JOB)


def test_nothing_written_is_nothing_measured() -> None:
    assert read() == AsFound()
    assert not read().built


@pytest.mark.parametrize("written", ["6 1/4, 22 1/2", ["6 1/4", "22 1/2"], [6.25, "22.5 in"]])
def test_points_stand_between_commas_or_in_a_list(written: object) -> None:
    assert read(studs=written).stud_spots == (Reading((6.25,)), Reading((22.5,)))


@pytest.mark.parametrize(
    "written", ["84 1/4 and 84 5/16 and 84 1/4", ["84 1/4", "84 5/16", "84 1/4"]]
)
def test_pulls_of_one_length_are_joined_by_and_or_stand_in_a_list(written: object) -> None:
    assert read(path_high=written).path_high == Reading((84.25, 84.3125, 84.25))


def test_the_mean_counts_and_the_spread_is_the_uncertainty_but_not_under_the_tapes() -> None:
    wide = Reading((10.0, 10.0, 10.3))
    assert wide.mean == pytest.approx(10.1)
    assert wide.uncertainty(0.0625) == pytest.approx(0.2)
    assert Reading((10.0, 10.01)).uncertainty(0.0625) == 0.0625


def test_equal_pulls_give_their_value_to_the_last_bit() -> None:
    assert Reading((0.1, 0.1, 0.1)).mean == 0.1


def test_a_point_that_was_not_measured_is_left_out() -> None:
    found = read(floor="0, -, , 1/8")
    assert set(found.floor) == {"front_left", "rear_right"}
    assert read(board="-, 81 1/2").board_left is None


def test_a_floor_may_lie_below_the_datum_but_a_stud_not_left_of_the_niche() -> None:
    assert read(floor="-1/8, 0, 0, 0").floor["front_left"] == Reading((-0.125,))
    with pytest.raises(JobError, match="expected 0 to 144 in"):
        read(studs="-1/8")


def test_down_from_a_line_a_bigger_reading_is_a_lower_floor() -> None:
    found = read(floor={"down_from_line": "48, 47 7/8, 48, 47 3/4"})
    heights = [reading.mean for reading in found.floor.values()]
    assert heights == [0.0, 0.125, 0.0, 0.25]


def test_with_the_lines_height_one_spot_is_enough_and_boards_go_up_from_it() -> None:
    found = read(
        line="48 1/2", floor={"down_from_line": {"rear_left": "48"}},
        board={"up_from_line": "33, 33 1/8"},
    )  # fmt: skip
    assert found.floor["rear_left"] == Reading((0.5,))
    assert found.board_left == Reading((81.5,))
    assert found.board_right == Reading((81.625,))


def test_the_line_may_stand_in_its_own_table_as_in_the_job() -> None:
    found = read(floor={"down_from_line": {"line": "48", "front_left": "47 3/4"}})
    assert found.floor["front_left"] == Reading((0.25,))


def test_without_the_lines_height_the_plans_lowest_spot_must_be_its_datum() -> None:
    raised = moved(JOB, floor=dict.fromkeys(("front_left", "front_right"), 1.0))
    raised = moved(raised, floor=dict.fromkeys(("rear_left", "rear_right"), 1.0))
    with pytest.raises(JobError, match="line's height above the plan's datum"):
        read_as_found({"floor": {"down_from_line": "48, 48, 48, 48"}}, raised)
    with pytest.raises(JobError, match="all four leg spots"):
        read(floor={"down_from_line": "48, 48, -, 48"})
    with pytest.raises(JobError, match="from the same line"):
        read(board={"up_from_line": "33, 33"})


@pytest.mark.parametrize(
    "written",
    [
        "drywall 5/8, tile 3/8",
        ["gypsum board: 5/8 in", "tile = 3/8"],
        [
            {"material": "gypsum board", "thickness": 0.625},
            {"material": "tile", "thickness": 0.375},
        ],
    ],
)
def test_layers_are_a_material_and_its_thickness(written: object) -> None:
    found = [(layer.material, layer.thickness.mean) for layer in read(layers=written).layers]
    assert found == [("gypsum board", 0.625), ("tile", 0.375)]


@pytest.mark.parametrize(
    "written",
    [
        "No. 10 x 3 1/2, #10 x 3 in, 1/4 x 6",
        ["10 x 3 1/2", {"size": "10", "lengths": ["3"]}, {"size": "1/4", "lengths": "6"}],
    ],
)
def test_screws_are_a_size_and_a_length(written: object) -> None:
    assert read(screws=written).screws == (
        CarriedScrew(size="10", lengths=(3.0, 3.5)),
        CarriedScrew(size="1/4", lengths=(6.0,)),
    )


def test_a_screw_with_published_values_goes_by_its_own_name() -> None:
    own = PublishedScrew(
        size="long one", diameter=0.22, head_diameter=0.6, length=6.0, thread_length=3.0,
        least_embedment=1.5, lateral=200.0, withdrawal=200.0, pull_through=300.0, largest_gap=0.7,
        source="invented for a test",
    )  # fmt: skip
    given = replace(JOB, screws=Screws(published=(own,)))
    found = read_as_found({"screws": "long one x 6"}, given)
    assert found.screws == (CarriedScrew(size="long one", lengths=(6.0,)),)


def test_bare_numbers_are_in_the_units_of_the_job() -> None:
    metric = replace(JOB, units=Units.MM)
    assert read_as_found({"depth": "635"}, metric).depth == (Reading((25.0,)),)
    assert read_as_found({"depth": "25 in"}, metric).depth == (Reading((25.0,)),)


@pytest.mark.parametrize(
    ("raw", "told"),
    [
        ({"stud": "6"}, "niche.toml: as_found.stud: read '6'; expected 'studs'"),
        ({"studs": "6, 22 ib"}, "niche.toml: as_found.studs[2]: read '22 ib'; expected a length"),
        ({"floor": "1, 2"}, "as_found.floor: read '1, 2'; expected 4 values"),
        ({"floor": {"front": 1}}, "as_found.floor.front: read 1; expected"),
        ({"floor": 3}, "a table with front_left"),
        ({"floor": {"down_from_line": "1, 1, 1, 1", "rear_left": 1}}, "not both"),
        ({"layers": "foo 1/2"}, "as_found.layers[1]: read 'foo'; expected"),
        ({"layers": "gypsum board"}, "a material and its thickness"),
        ({"layers": 3}, "a list of layers"),
        ({"screws": "10"}, "a size and a length"),
        ({"screws": "77 x 3"}, "as_found.screws[1]: read '77'; expected"),
        ({"screws": "10 x long"}, "expected a length"),
        ({"width": "33 and 48"}, "more than 1 in apart"),
        ({"width": [[]]}, "at least one reading"),
        ({"path_high": float("nan")}, "finite"),
    ],
)
def test_a_mistake_names_the_key_what_was_read_and_what_would_be_right(
    raw: dict[str, Any], told: str
) -> None:
    with pytest.raises(JobError) as caught:
        read_as_found(raw, JOB)
    assert told in str(caught.value)
    assert len(str(caught.value).splitlines()) == 1


def test_every_mistake_is_told_at_once_and_by_the_option_that_it_came_from() -> None:
    with pytest.raises(JobError) as caught:
        read_as_found(
            {"studs": "6 ib", "depth": "?", "screws": "x"}, JOB, wheres={"studs": "--studs"}
        )
    lines = str(caught.value).splitlines()
    assert len(lines) == 3
    assert lines[1].startswith("--studs: read '6 ib'")
