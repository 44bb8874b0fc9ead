"""What is bought and cut for one niche: boards, spacer boards, blocking, screws and washers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from bracecalc.planning.bracing import Bracing
from bracecalc.records.job import Job, Units
from bracecalc.records.plan import (
    SCREWS,
    Item,
    Materials,
    Need,
    PackerSupport,
    Stack,
    StackSupport,
)
from bracecalc.records.reference import LumberSize, ScrewKind, Tables
from bracecalc.records.scheme import Backing, Layup
from bracecalc.stack.boards import thin_board
from bracecalc.tables.load import tables_of
from bracecalc.text.lumber_names import section_name

USUAL_SPACING = 16.0  # in: of studs whose spacing is not known, common practice
LEAST_BLOCK = 5.5, 1.4  # in: width and thickness of a 2x6, common practice
REST = 3.0  # in: what of the stack may stand past the last block


def materials(job: Job, core: Bracing) -> Materials:
    """Return what to buy for one niche."""
    boards: list[Need] = []
    support = core.support
    if isinstance(support, StackSupport):
        stack, studs = support.stack, support.studs
        tables = tables_of(job)
        boards.extend(_boards(job, tables, stack))
        if stack.backing is Backing.BLOCKING or (studs is not None and studs.sure < 2):
            boards.extend(_blocking(job, tables, stack))
    elif isinstance(support, PackerSupport):
        packers = support.packers
        boards.extend(
            Need(
                item=Item.PACKER, size=size, length=packers.length, count=packers.sizes.count(size)
            )
            for size in dict.fromkeys(packers.sizes)
        )
    screws: dict[tuple[ScrewKind, str, float], int] = {}
    washers: dict[str, int] = {}
    for row in core.screws:
        key = (row.kind, row.size, row.length)
        screws[key] = screws.get(key, 0) + row.count
        if row.washer is not None:
            washers[row.size] = washers.get(row.size, 0) + row.count
    return Materials(
        boards=tuple(boards),
        screws=tuple(
            Need(item=SCREWS[kind], size=size, length=length, count=count)
            for (kind, size, length), count in screws.items()
        ),
        washers=tuple(
            Need(item=Item.WASHER, size=size, length=None, count=count)
            for size, count in washers.items()
        ),
    )


def _boards(job: Job, tables: Tables, stack: Stack) -> Iterator[Need]:
    """Yield the boards of a stack, the thin one at its front by its own name."""
    thin = None
    if stack.layup is Layup.THIN_LAST:
        thin = thin_board(tables, tables.lumber[stack.board])
    whole = stack.boards if thin is None else stack.boards - 1
    board = Need(
        item=Item.BOARD,
        size=stack.board,
        length=stack.length,
        count=whole,
        species=job.board_wood,
        called=_called(job, tables.lumber[stack.board]),
    )
    yield board
    if thin is not None:
        yield replace(board, size=thin.size, count=1, called="")


def _called(job: Job, size: LumberSize) -> str:
    """Return what a board is called by its measured sides; empty where they are the table's."""
    found = job.boards.measured(size)
    if (found.thickness, found.width) == (size.thickness, size.width):
        return ""
    section = section_name(found.thickness, found.width, job.units)
    return section if job.units is Units.MM else f"{size.size} ({section})"


def _blocking(job: Job, tables: Tables, stack: Stack) -> Iterator[Need]:
    """Yield the blocks, a piece for each bay between the studs that the stack passes."""
    row = _block_size(tables, stack)
    for clear, count in sorted(Counter(_bays(job, stack)).items()):
        yield Need(
            item=Item.BLOCKING,
            size=row.size,
            length=clear,
            count=count,
            species=job.wall.stud.species,
        )


def _block_size(tables: Tables, stack: Stack) -> LumberSize:
    """Return the narrowest board that backs the whole stack, sold as its boards are."""
    wide, thick = LEAST_BLOCK
    board = tables.lumber[stack.board]
    fitting = [
        row
        for row in tables.lumber.values()
        if row.sold_in is board.sold_in
        and row.thickness >= thick
        and row.width >= max(wide, stack.width) - 1e-9
    ]
    return min(fitting, key=lambda row: (row.thickness, row.width), default=board)


def _bays(job: Job, stack: Stack) -> Iterator[float]:
    """Yield the clear width of each bay behind the stack; usual ones past the studs measured."""
    width = job.wall.stud.width
    layout = job.wall.stud_layout
    usual = USUAL_SPACING if layout is None else layout.spacing
    spots = job.wall.stud_spots
    if not spots or len(spots) < 2:
        bays = max(1, -(-int(stack.length) // int(usual)))
        yield from [usual - width] * bays
        return
    first, last = stack.left_end, stack.left_end + stack.length
    for left, right in pairwise(spots):
        if right > first and left < last and right - left > width:
            yield round(right - left - width, 6)
    for past in (spots[0] - first, last - spots[-1]):
        if past > REST + width / 2.0:
            yield usual - width
