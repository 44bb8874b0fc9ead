"""Places for screws: each pair holds its distances in board and stud."""

from __future__ import annotations

import math
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bracecalc.mechanics.nds.spacing import (
    Screw,
    least_distances,
    least_distances_eurocode,
    place_screws,
    up,
)

SIZES = {0.164: 0.312, 0.19: 0.363, 0.216: 0.414, 0.242: 0.48, 0.25: 0.73, 0.3125: 0.875}


def screw(diameter: float, height: float = 0.0) -> Screw:
    return Screw(diameter, SIZES[diameter], least_distances(diameter=diameter), height)


def test_distances_of_a_number_ten() -> None:
    # NDS 2018 Commentary table C12.1.5.7, prebored, from memory
    least = least_distances(diameter=0.19)
    assert least.end == pytest.approx(1.9)
    assert least.bottom == pytest.approx(2.5 * 0.19)
    assert least.stud_edge == pytest.approx(1.5 * 0.19)
    assert least.across == pytest.approx(3 * 0.19)


def test_distances_of_a_quarter_inch_lag() -> None:
    # NDS 2018 12.5.1, from memory: loaded edge 4 D, unloaded 1.5 D
    least = least_distances(diameter=0.25)
    assert (least.bottom, least.top, least.along) == (1.0, 0.375, 1.0)


def test_distances_of_a_coach_screw() -> None:
    # EN 1995-1-1 table 8.4, from memory
    assert least_distances_eurocode(diameter=0.25).end == 1.75


@given(
    diameters=st.lists(st.sampled_from(sorted(SIZES)), min_size=1, max_size=6),
    height=st.sampled_from([3.5, 5.5, 7.25]),
    wanted=st.lists(st.sampled_from([0.0, 0.5, 1.0]), min_size=6, max_size=6),
)
def test_every_pair_holds_its_distances(
    diameters: list[float], height: float, wanted: list[float]
) -> None:
    screws = tuple(screw(one, share) for one, share in zip(diameters, wanted, strict=False))
    places = place_screws(screws, board_width=height, stud_width=1.5, uncertainty=0.0625)
    if places is None:
        return
    for one, (across, above) in zip(screws, places, strict=True):
        assert above >= one.least.bottom - 1e-9
        assert height - above >= one.least.top - 1e-9
        assert 0.75 - abs(across) - 0.0625 >= one.least.stud_edge - 1e-9
        assert above * 16 == pytest.approx(round(above * 16))  # a mark that a tape has
    for (one, here), (other, there) in combinations(zip(screws, places, strict=True), 2):
        assert math.dist(here, there) >= (max(one.head, other.head)) / 2
        if max(one.diameter, other.diameter) >= 0.25:
            assert abs(here[1] - there[1]) >= 4 * max(one.diameter, other.diameter) - 1e-9
        else:  # between rows in the board; its grain is level
            assert abs(here[1] - there[1]) >= 2.5 * max(one.diameter, other.diameter) - 1e-9


def test_a_stud_too_narrow_takes_none() -> None:
    assert (
        place_screws((screw(0.3125),), board_width=3.5, stud_width=0.75, uncertainty=0.0625) is None
    )


def test_a_wanted_height_is_met_where_it_is_free() -> None:
    places = place_screws(
        (screw(0.25, 0.0), screw(0.25, 1.0)), board_width=5.5, stud_width=1.5, uncertainty=0.0
    )
    assert places == ((0.0, 1.0), (0.0, 5.125))


@pytest.mark.parametrize("diameter", [0.0, -1.0, math.nan, math.inf])
def test_what_is_no_diameter_is_refused(diameter: float) -> None:
    with pytest.raises(ValueError, match="diameter"):
        least_distances(diameter=diameter)
    with pytest.raises(ValueError, match="diameter"):
        least_distances_eurocode(diameter=diameter)


def test_up_stays_on_a_mark_in_spite_of_noise() -> None:
    assert up(0.5 + 1e-12) == 0.5
    assert up(0.500001) == 0.5625
