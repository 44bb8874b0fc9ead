"""Which screws fix the boards: the rules of a seat, and of places on a stud."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from bracecalc.records.job import CarriedScrew, Method, PublishedScrew, Screws
from bracecalc.records.reference import ScrewKind, ScrewSize
from bracecalc.records.scheme import Backing
from bracecalc.stack.screws import (
    Candidate,
    Crowd,
    Options,
    Path,
    Refused,
    Seat,
    as_screw,
    covered_choices,
    options_of,
    places,
    seat,
    thread_length,
    tip_length,
)
from bracecalc.tables.load import load_tables

TABLES = load_tables()
TEN, LAG, COACH = TABLES.screws["10"], TABLES.screws["1/4"], TABLES.screws["8 mm"]


def path(**changes: Any) -> Path:
    given: dict[str, Any] = {
        "boards": 1.5,
        "outer_board": 1.5,
        "build_up": 0.5,
        "gap": 0.5,
        "framing_depth": 3.5,
        "wanted": 1.5,
        "washer": 0.0,
        "under_head": 1.0,
    }
    return Path(**{**given, **changes})


def screw(length: float, size: ScrewSize = TEN, thread: float | None = None) -> Candidate:
    return Candidate(size, length, thread_length(size.kind, length) if thread is None else thread)


def seat_of(candidate: Candidate, counterbore: float = 0.0, **changes: Any) -> Seat | Refused:
    return seat(candidate, path(**changes), counterbore=counterbore)


# thread: wood screws 2/3 L (seen in a handbook), lag screws min(6, L/2 + 1/2) (from memory)
@pytest.mark.parametrize(
    ("kind", "length", "thread"),
    [
        (ScrewKind.WOOD, 3.0, 2.0),
        (ScrewKind.LAG, 6.0, 3.5),
        (ScrewKind.LAG, 12.0, 6.0),
        (ScrewKind.LAG, 1.0, 1.0),
        (ScrewKind.COACH, 5.0, 3.0),
    ],
)
def test_thread_length(kind: ScrewKind, length: float, thread: float) -> None:
    assert thread_length(kind, length) == pytest.approx(thread)


def test_only_bolt_headed_screws_lose_their_tip() -> None:
    assert tip_length(TEN) == 0.0
    assert tip_length(LAG) == 5 / 32  # NDS Appendix L, table L2 (from memory)
    assert tip_length(COACH) == COACH.diameter


def test_embedment_is_what_is_left_of_the_length() -> None:
    assert seat_of(screw(3.5)) == Seat(embedment=1.5, required=1.5, counterbore=0.0)


def test_a_sixteenth_short_is_too_short() -> None:
    assert seat_of(screw(3.4375)) == "too short"
    assert isinstance(seat_of(screw(3.5)), Seat)


def test_six_diameters_and_a_lags_four_with_its_tip() -> None:
    # NDS 12.1.5.6 and 12.1.4.6 (from memory)
    small = seat_of(screw(3.5), wanted=0.0)
    assert isinstance(small, Seat)
    assert small.required == pytest.approx(6 * 0.19)
    lag = seat_of(screw(5.0, LAG), wanted=0.0)
    assert isinstance(lag, Seat)
    assert lag.required == pytest.approx(4 * 0.25 + 5 / 32)


def test_a_washer_comes_off_the_embedment() -> None:
    lag = seat_of(screw(4.0, LAG))
    assert isinstance(lag, Seat)
    assert lag.embedment == pytest.approx(4.0 - 1.5 - 0.5 - LAG.washer_thickness)
    thicker = seat_of(screw(4.0, LAG), washer=0.125)
    assert isinstance(thicker, Seat)
    assert thicker.embedment == pytest.approx(4.0 - 1.5 - 0.5 - 0.125)


def test_a_counterbore_gives_its_depth_to_the_embedment_but_leaves_wood_under_the_head() -> None:
    found = seat_of(screw(3.0), counterbore=0.5)
    assert isinstance(found, Seat)
    assert found.embedment == pytest.approx(1.5)
    assert seat_of(screw(3.5), counterbore=0.5625) == (
        "the counterbore leaves too little wood under the head"
    )


def test_a_tip_through_the_far_side_is_refused() -> None:
    assert seat_of(screw(4.0, thread=4.0), framing_depth=2.0) == "its tip comes out of the far side"
    assert isinstance(seat_of(screw(4.0, thread=4.0), framing_depth=2.0625), Seat)


def test_thread_must_fill_the_embedment() -> None:
    assert seat_of(screw(3.5, thread=1.4)) == "its thread does not fill the embedment"
    assert isinstance(seat_of(screw(3.5, thread=1.5)), Seat)


MAKERS = PublishedScrew(
    size="maker's", diameter=0.19, head_diameter=0.4, length=5.0, thread_length=3.0,
    least_embedment=2.5, lateral=100.0, withdrawal=100.0, pull_through=100.0, largest_gap=0.5,
    source="invented for a test",
)  # fmt: skip


def test_a_makers_screw_keeps_its_makers_limits() -> None:
    only = options_of(Screws(published=(MAKERS,)), TABLES, Method.NDS).screws
    assert [one.published for one in only] == [MAKERS]
    found = seat(only[0], path(), counterbore=0.0)
    assert isinstance(found, Seat)
    assert (found.embedment, found.required) == (3.0, 2.5)
    assert seat(only[0], path(gap=0.625), counterbore=0.0) == (
        "its published values are for a smaller gap"
    )


def test_with_nothing_carried_every_stocked_screw_is_tried_by_its_own_standard() -> None:
    nds = {one.size.kind for one in options_of(Screws(), TABLES, Method.NDS).screws}
    ec5 = {one.size.kind for one in options_of(Screws(), TABLES, Method.EC5).screws}
    assert nds == {ScrewKind.WOOD, ScrewKind.LAG}
    assert ec5 == {ScrewKind.WOOD, ScrewKind.COACH}
    lengths = [one.length for one in options_of(Screws(), TABLES, Method.NDS).screws]
    assert lengths == sorted(lengths)
    # stocked to about 4 in (No. 10), 6 in (No. 12, 14), 12 in (lag): common practice
    longest: dict[str, float] = {}
    for one in options_of(Screws(), TABLES, Method.NDS).screws:
        longest[one.size.size] = max(one.length, longest.get(one.size.size, 0.0))
    assert (longest["10"], longest["12"], longest["14"], longest["1/4"]) == (4.0, 6.0, 6.0, 12.0)


def test_what_the_crew_carries_is_all_that_is_tried_with_its_own_thread() -> None:
    carried = (CarriedScrew(size="10", lengths=(3.5, 4.0), thread_length=1.75),)
    found = options_of(Screws(carried=carried), TABLES, Method.NDS).screws
    assert [(one.size.size, one.length, one.thread_length) for one in found] == [
        ("10", 3.5, 1.75),
        ("10", 4.0, 1.75),
    ]


def options(*screws: Candidate) -> Options:
    return Options(screws)


def test_a_covered_board_takes_the_smallest_of_each_family_and_of_that_the_shortest() -> None:
    twelve = TABLES.screws["12"]
    given = options(screw(4.0), screw(3.5), screw(3.5, twelve), screw(4.0, LAG), screw(4.5, LAG))
    found = covered_choices(path(), given)
    assert [(one.candidate.size.size, one.candidate.length) for one in found] == [
        ("10", 3.5),
        ("1/4", 4.0),
    ]


def test_a_lag_screw_in_a_covered_board_sinks_its_head() -> None:
    (found,) = covered_choices(path(), options(screw(4.0, LAG)))
    # hex head 11/16 D = 0.17 in, ASME B18.2.1 (from memory), up to the next 1/8 in
    assert found.seat.counterbore == 0.25


def test_a_covered_board_that_nothing_fixes() -> None:
    assert covered_choices(path(), options(screw(3.0))) == ()
    small = TABLES.screws["6"]
    assert covered_choices(path(), options(screw(3.5, small, 3.0))) == ()


def crowd(*inner: ScrewSize, height: float = 3.5) -> Crowd:
    return Crowd(
        inner=tuple(as_screw(size, Backing.STUDS) for size in inner),
        board_width=height,
        stud_width=1.5,
        uncertainty=0.0625,
        backing=Backing.STUDS,
    )


def test_rows_and_covered_screws_keep_their_distances_on_the_stud() -> None:
    found = places(2, TEN, crowd(TEN, height=5.5))
    assert found is not None
    assert len(found) == 3
    for index, (x, z) in enumerate(found):
        assert abs(x) <= 0.75 - 0.0625 - 1.5 * 0.19 + 1e-9  # edge of the stud 1.5 D
        assert 2.5 * 0.19 <= z <= 5.5 - 2.5 * 0.19  # edges of the board 2.5 D
        for other_x, other_z in found[:index]:
            apart = max(abs(x - other_x), abs(z - other_z))
            assert apart >= 2.5 * 0.19 - 1e-9


def test_three_rows_of_thick_lag_screws_have_no_room_in_a_2x4() -> None:
    # NDS 12.5.1 (from memory): 4 D to the loaded edge, 1.5 D to the other, 4 D between: 13.5 D
    thick = TABLES.screws["5/16"]
    assert places(3, LAG, crowd()) is not None  # 3.375 in of 3-1/2
    assert places(2, thick, crowd()) is not None
    assert places(3, thick, crowd()) is None  # 4.2 in


def test_blocking_is_loaded_at_its_top_edge() -> None:
    high = as_screw(LAG, Backing.BLOCKING).least
    assert (high.top, high.bottom) == (4 * 0.25, 4 * 0.25)  # NDS 12.5.1 (from memory)
    assert as_screw(LAG, Backing.STUDS).least.top == 1.5 * 0.25


def test_sizes_are_told_apart_by_identity() -> None:
    assert replace(LAG, size="other") != LAG
