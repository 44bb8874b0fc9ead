"""What the crew must not overlook: gaps to shim, studs to leave out, how walls were read."""

from __future__ import annotations

from dataclasses import replace

from jobs import GYPSUM, job, moved

from bracecalc.check.check import check_site
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CarriedScrew, PublishedScrew, Screws
from bracecalc.records.plan import Plan
from bracecalc.records.site import AsFound, Reading
from bracecalc.render.check import check_text
from bracecalc.render.need_words import need_words
from bracecalc.render.words import hole_words, set_out, wall_words
from bracecalc.text.findings import Lengths


def steps(plan: Plan, step: str) -> str:
    return " ".join(one.text for one in set_out(plan) if one.step == step)


def test_a_wall_read_before_its_finish_is_said_to_be() -> None:
    assert wall_words(job()) == "The niche's depth was measured to the finished wall."
    bare = moved(job(), wall={"layers": (), "finish_to_come": 0.5})
    assert "before 1/2 in of finish goes on" in wall_words(bare)


def test_the_gap_under_a_soffit_is_shimmed_in_the_order_of_work() -> None:
    niche = {"soffit": (81.75, 81.5), "soffit_solid": True, "soffit_layers": (GYPSUM,)}
    said = steps(make_plan(moved(job(), niche=niche)), "Set")
    assert "shim the gap of up to 1/4 in tight" in said
    assert said.index("Stop at contact") < said.index("shim the gap")
    assert "shim" not in steps(make_plan(job()), "Set")


def test_studs_that_are_not_used_are_named_with_the_reason() -> None:
    spots = moved(job(), wall={"stud_spots": (0.75, 4.0, 16.625, 29.0, 40.0)})
    said = steps(make_plan(spots), "Mark")
    assert "Leave out: 3/4 in, nearer than" in said
    assert "40 in, beyond the board's end." in said


def test_packers_are_given_their_place_and_that_of_their_screws() -> None:
    niche = {"soffit": (83.0,), "soffit_solid": True, "soffit_layers": (GYPSUM,)}
    said = steps(make_plan(moved(job(), niche=niche)), "Fasten")
    assert "rear edge 5/8 in out from the rear wall" in said
    assert "1 3/4 in from its rear edge" in said  # the middle of 3-1/2 in


def test_a_screw_with_its_makers_values_is_set_as_its_maker_says() -> None:
    maker = PublishedScrew(
        size="invented 1/4", diameter=0.22, head_diameter=0.6, length=6.0, thread_length=3.0,
        least_embedment=1.5, lateral=250.0, withdrawal=180.0, pull_through=500.0, largest_gap=1.0,
        source="invented for a test",
    )  # fmt: skip
    short = replace(maker, size="invented, short", length=4.0)
    plan = make_plan(job(screws=Screws(published=(maker, short))))
    assert plan.screws[-1].holes == ()
    assert hole_words(plan.screws[-1], Lengths(job())).endswith("holes as its maker says")


def test_holes_say_how_deep() -> None:
    row = make_plan(job(screws=Screws(carried=(CarriedScrew(size="10", lengths=(3.5,)),
                                               CarriedScrew(size="1/4", lengths=(6.0,)))))
                    ).screws[-1]  # fmt: skip
    # 6 in less 3 in of boards, 1/2 in of board and the washer: 2.435 in
    assert "1/8 in pilot hole in the stud, 2 7/16 in deep" in hole_words(row, Lengths(job()))


def test_screws_to_buy_are_named_as_at_the_counter() -> None:
    carried = (
        CarriedScrew(size="10", lengths=(3.5,)),
        CarriedScrew(size="1/4", lengths=(6.0,)),
    )
    needs, lengths = make_plan(job(screws=Screws(carried=carried))).materials, Lengths(job())
    assert [need_words(need, lengths) for need in needs.screws] == [
        "No. 10 x 3 1/2 in wood screw",
        "1/4 x 6 in lag screw",
    ]
    assert need_words(needs.boards[0], lengths) == "board 2x4 SPF"


def test_a_soffit_out_of_level_is_shimmed_and_what_stays_open_is_said() -> None:
    given = moved(job(), niche={"soffit": (81.5,), "soffit_solid": True})
    found = AsFound(soffit=(Reading((81.5,)), Reading((81.875,))))
    told = " ".join(check_text(check_site(given, found)).split())
    assert (
        "Not settled yet: how far the soffit reaches out: taken as over the whole top; the framing"
        in told
    )
    assert "2. Shim the gap of up to 3/8 in tight" in told


def test_the_columns_of_a_point_add_up() -> None:
    floor = {"rear_left": Reading((1 / 32,)), "rear_right": Reading((0.03,))}
    rows = check_text(check_site(job(), AsFound(floor=floor))).splitlines()
    left = next(row for row in rows if row.startswith("floor, rear left"))
    right = next(row for row in rows if row.startswith("floor, rear right"))
    assert left.split()[3:6] == ["0", "1/16", "+1/16"]
    assert right.split()[3:6] == ["0", "0", "0"]


def test_a_screw_called_after_a_gap_takes_no_instruction_away() -> None:
    def bolt(length: float) -> PublishedScrew:
        return PublishedScrew(
            size=f"invented gapbolt {length:g}", diameter=0.25, head_diameter=0.6, length=length,
            thread_length=3.0, least_embedment=1.5, lateral=400.0, withdrawal=300.0,
            pull_through=600.0, largest_gap=2.0, source="invented for a test",
        )  # fmt: skip

    given = job(screws=Screws(published=(bolt(4.0), bolt(5.25), bolt(5.75))))
    target = make_plan(given).restraint.target_height
    assert target is not None
    on_hand = tuple(
        CarriedScrew(size=one.size, lengths=(one.length,)) for one in given.screws.published[1:]
    )
    found = AsFound(
        board_left=Reading((target,)), board_right=Reading((target + 0.125,)), screws=on_hand
    )
    check = check_site(given, found)
    assert "gapbolt" in check_text(check)
    assert "Shim the 1/8 in gap" in check_text(check)
