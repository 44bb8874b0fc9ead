"""The sheet says to what the niche's depth was read, where a finish is still to come."""

from __future__ import annotations

from importlib.resources import files

from jobs import job, moved
from sheetmaking import subject, wishes

from bracecalc.drawing.content import content_of
from bracecalc.drawing.lettering import bare
from bracecalc.jobfile.read import parse_job
from bracecalc.records.job import Job


def facts(given: Job) -> dict[str, str]:
    return {name: bare(words) for name, words in content_of(subject(given), wishes()).facts}


def test_a_wall_without_its_finish_is_named_on_the_sheet() -> None:
    unfinished = moved(job(), wall={"layers": (), "finish_to_come": 0.5})
    assert "before 1/2 in of finish goes on" in facts(unfinished)["Rear wall"]
    assert "Rear wall" not in facts(job())


def test_the_datum_is_told_from_a_leg_spot_and_the_mark_from_the_laser_s_line() -> None:
    text = files("bracecalc.data.demo").joinpath("3b-kitchen.toml").read_text(encoding="utf-8")
    at, end = text.index("[floor]"), text.index("[wall]")
    read = "front_left = 44\nfront_right = 43.875\nrear_left = 44\nrear_right = 43.75\n"
    down = f"[floor.down_from_line]\nline = 42\n{read}\n"
    told = facts(parse_job(text[:at] + down + text[end:], where="down"))
    # by hand: the front left leg spot is 42 - 44 = -2 in, the rear right one 42 - 43.75 = -1.75
    # in; the nearest to the datum is the rear right
    assert told["Datum"].startswith("1 3/4 in above the floor at the rear right leg")
    assert "the laser's line is 42 in above it" in told["Datum"]
    target = parse_job(text, where="up")
    under = subject(target).plan.restraint.target_height
    assert under is not None
    # the same floor, its datum 2 in higher: the mark is 2 in lower over it, and told from the line
    assert f"{81 + 5 / 8 - 2 - 42:.3f}" == "37.625"
    assert "37 5/8 in above the laser's line" in told["Underside"]
