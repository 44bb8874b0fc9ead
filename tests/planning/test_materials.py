"""What is bought for one niche is what is built in it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from bracecalc.data import demo_path

from bracecalc.jobfile.read import read_job
from bracecalc.planning.bracing import Bracing
from bracecalc.planning.materials import materials
from bracecalc.planning.plan import brace
from bracecalc.records.job import Job
from bracecalc.records.plan import Item, Need, StackSupport
from bracecalc.records.scheme import Backing, Layup
from bracecalc.tables.load import tables_of


def stacked(name: str, **changes: object) -> tuple[Job, Bracing]:
    job = read_job(demo_path(name))
    core = brace(job, tables_of(job))
    support = core.support
    assert isinstance(support, StackSupport)
    stack = replace(support.stack, **changes)  # type: ignore[arg-type]
    return job, core._replace(support=replace(support, stack=stack))


def of(needs: tuple[Need, ...], item: Item) -> list[tuple[str, float | None, int]]:
    return [(need.size, need.length, need.count) for need in needs if need.item is item]


def test_a_thin_board_at_the_front_is_bought_by_its_own_name() -> None:
    job, core = stacked(
        "3b-kitchen.toml",
        layup=Layup.THIN_LAST,
        board="2x6",
        boards=3,
        thicknesses=(1.5, 1.5, 0.75),
    )
    found = of(materials(job, core).boards, Item.BOARD)
    assert [(size, count) for size, _, count in found] == [("2x6", 2), ("1x6", 1)]


def test_blocks_fit_the_bays_between_the_studs_that_were_measured() -> None:
    job, core = stacked("3b-kitchen.toml", backing=Backing.BLOCKING)
    support = core.support
    assert isinstance(support, StackSupport)
    spots = job.wall.stud_spots
    assert spots is not None
    assert len(spots) == 2
    found = of(materials(job, core).boards, Item.BLOCKING)
    assert (spots[1] - spots[0] - job.wall.stud.width) in [length for _, length, _ in found]
    # and one past each of them, where the boards go on
    stack = support.stack
    ends = (spots[0] - stack.left_end, stack.left_end + stack.length - spots[1])
    past = sum(end > 3.0 + job.wall.stud.width / 2.0 for end in ends)
    assert sum(count for *_, count in found) == 1 + past


@pytest.mark.parametrize(
    ("name", "board", "width", "size"),
    [
        ("3b-kitchen.toml", "2x4", 3.5, "2x6"),
        ("3b-kitchen.toml", "2x8", 7.25, "2x8"),
        ("6a-metric.toml", "45x145", 145 / 25.4, "45x145"),
    ],
)
def test_blocks_back_the_whole_stack(name: str, board: str, width: float, size: str) -> None:
    job, core = stacked(name, backing=Backing.BLOCKING, board=board, width=width)
    sizes = {size for size, *_ in of(materials(job, core).boards, Item.BLOCKING)}
    assert sizes == {size}
