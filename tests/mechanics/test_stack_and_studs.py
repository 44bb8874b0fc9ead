"""Stack depth, studs met and length of screw: geometry with closed answers."""

from __future__ import annotations

import math

import pytest

from bracecalc.mechanics.geometry import stack, studs
from bracecalc.mechanics.nds import penetration


def test_two_inches_of_overlap_need_three_two_by_fours_over_a_gap_of_two() -> None:
    # 2 in overlap, common practice; a 2x4 is 1-1/2 in thick, DOC PS 20
    gap = stack.rear_gap(niche_depth=25.0, unit_depth=23.0, proud=0.0)
    count = stack.boards_needed(projection=gap + 2.0, thickness=1.5)
    assert (count, stack.overlap_obtained(projection=count * 1.5, rear_gap=gap)) == (3, 2.5)


@pytest.mark.parametrize("proud", [0.25, 0.5])
def test_a_recessed_unit_has_less_gap_behind_it(proud: float) -> None:
    flush = stack.rear_gap(niche_depth=25.0, unit_depth=23.0, proud=0.0)
    assert stack.rear_gap(niche_depth=25.0, unit_depth=23.0, proud=-proud) == flush - proud
    assert stack.rear_gap(niche_depth=25.0, unit_depth=23.0, proud=proud) == flush + proud


def test_a_projection_that_fits_exactly_takes_no_further_board() -> None:
    assert stack.boards_needed(projection=3 * 1.5, thickness=1.5) == 3
    assert stack.boards_needed(projection=3 * 38.1 / 25.4, thickness=1.5) == 3
    assert stack.boards_needed(projection=4.5 + 1e-6, thickness=1.5) == 4


def test_layout_counts_from_either_side_of_its_first_stud() -> None:
    assert studs.layout_spots(first=6.0, spacing=16.0, width=40.0) == (6.0, 22.0, 38.0)
    assert studs.layout_spots(first=38.0, spacing=16.0, width=40.0) == (6.0, 22.0, 38.0)


@pytest.mark.parametrize("start", [0.0, 0.3, 5.0, 15.9])
def test_the_sure_studs_are_met_wherever_the_layout_starts(start: float) -> None:
    usable, spacing = 35.0, 16.0
    met = [start + index * spacing for index in range(10) if start + index * spacing <= usable]
    assert len(met) in (
        studs.sure_studs(usable=usable, spacing=spacing),
        studs.sure_studs(usable=usable, spacing=spacing) + 1,
    )


def test_sixteen_on_centre_is_sure_of_two_from_thirty_two_inches_on() -> None:
    assert studs.sure_studs(usable=31.99, spacing=16.0) == 1
    assert studs.sure_studs(usable=32.0, spacing=16.0) == 2


def test_embedment_of_the_trade() -> None:
    # No. 10 x 3-1/2 through a 2x4 and 1/2 in board: 1-1/2 in in the stud, common practice
    assert penetration.embedment(length=3.5, under_head=1.5, build_up=0.5, washer=0.0) == 1.5


def test_six_diameters_rule_above_the_rule_of_the_job() -> None:
    least = penetration.least_embedment(wanted=1.0, diameter=0.242, tip=0.484, lag=False)
    assert least == pytest.approx(6 * 0.242)  # NDS 2018 12.1.5.6, from memory


@pytest.mark.parametrize("value", [math.nan, math.inf])
def test_what_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        stack.rear_gap(niche_depth=value, unit_depth=23.0, proud=0.0)
    with pytest.raises(ValueError, match="more than 0"):
        stack.boards_needed(projection=3.0, thickness=value)
    with pytest.raises(ValueError, match="more than 0"):
        studs.layout_spots(first=0.0, spacing=value, width=30.0)
    with pytest.raises(ValueError, match="finite"):
        penetration.embedment(length=value, under_head=1.5, build_up=0.5, washer=0.0)
