"""The sheet says to what the niche's depth was read, where a finish is still to come."""

from __future__ import annotations

from jobs import job, moved
from sheetmaking import subject, wishes

from bracecalc.drawing.content import content_of
from bracecalc.records.job import Job


def facts(given: Job) -> dict[str, str]:
    return dict(content_of(subject(given), wishes()).facts)


def test_a_wall_without_its_finish_is_named_on_the_sheet() -> None:
    bare = moved(job(), wall={"layers": (), "finish_to_come": 0.5})
    assert "before 1/2 in of finish goes on" in facts(bare)["Rear wall"]
    assert "Rear wall" not in facts(job())
