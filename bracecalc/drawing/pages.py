"""Flows blocks down the columns of pages; nothing is dropped, a page more is begun instead."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from bracecalc.drawing.blocks import BETWEEN, Block, Place
from bracecalc.drawing.model import Group

GUTTER = 14.0  # points between columns
_STEPS = 8  # in which columns are made to end at about the same height


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a page."""

    left: float
    top: float
    width: float
    bottom: float


class _Tall(NamedTuple):
    """Heights of a block's heading and of its parts."""

    heading: float
    parts: Sequence[float]


@dataclass(frozen=True, slots=True)
class _Laid:
    """Parts of one block in one column."""

    block: Block
    parts: range
    column: int
    top: float


@dataclass(slots=True)
class Flow:
    """What was laid into the columns of one page, and what found no room there."""

    columns: Sequence[Column]
    laid: list[_Laid] = field(default_factory=list)
    left_over: list[tuple[Block, int]] = field(default_factory=list)
    bottom: float = 0.0

    def groups(self) -> list[Group]:
        """Return the marks of everything that was laid."""
        found: list[Group] = []
        for one in self.laid:
            column = self.columns[one.column]
            at = Place(column.left, one.top, column.width, 0.0)
            found.extend(one.block.draw(one.parts, at))
        return found


def start(blocks: Sequence[Block]) -> list[tuple[Block, int]]:
    """Return blocks none of which was begun."""
    return [(block, 0) for block in blocks]


def flow(waiting: Sequence[tuple[Block, int]], columns: Sequence[Column]) -> Flow:
    """Lay blocks, each from its part on, into columns of one width, one after another."""
    return _flow(waiting, columns, _measured(waiting, columns[0].width))


def _measured(waiting: Sequence[tuple[Block, int]], width: float) -> list[_Tall]:
    """Return how high the headings and the parts of blocks are in columns of that width."""
    return [_Tall(block.heading(width), block.heights(width)) for block, _ in waiting]


def _flow(
    waiting: Sequence[tuple[Block, int]], columns: Sequence[Column], tall: Sequence[_Tall]
) -> Flow:
    laid = Flow(columns)
    place, y = 0, columns[0].top
    laid.bottom = y
    for index, (block, first) in enumerate(waiting):
        heading, heights = tall[index]
        while True:
            column = columns[place]
            top = y + (BETWEEN if y > column.top else 0.0)
            end, last = top + heading, first
            while last < len(heights) and end + heights[last] <= column.bottom + 1e-6:
                end += heights[last]
                last += 1
            whole = y <= column.top and place == len(columns) - 1
            if last == first and whole and not laid.laid:
                end += heights[first]  # taller than a page: let it run over, never drop it
                last += 1
            if last > first:
                laid.laid.append(_Laid(block, range(first, last), place, top))
                laid.bottom = max(laid.bottom, end)
                y, first = end, last
            if first >= len(heights):
                break
            place += 1
            if place >= len(columns):
                laid.left_over = [(block, first), *waiting[index + 1 :]]
                return laid
            y = columns[place].top
    return laid


def balanced(waiting: Sequence[tuple[Block, int]], columns: Sequence[Column]) -> Flow:
    """Lay blocks into columns that end at about the same height, where all of them fit."""
    tall = _measured(waiting, columns[0].width)
    whole = _flow(waiting, columns, tall)
    if whole.left_over or len(columns) == 1:
        return whole
    best = whole
    low, high = 0.0, 1.0
    for _ in range(_STEPS):
        share = (low + high) / 2.0
        shorter = [
            Column(one.left, one.top, one.width, one.top + (one.bottom - one.top) * share)
            for one in columns
        ]
        tried = _flow(waiting, shorter, tall)
        if tried.left_over or tried.bottom > shorter[0].bottom + 1e-6:
            low = share
        else:
            high, best = share, tried
    return best


def packed(blocks: Sequence[Block], columns: Sequence[Column]) -> Flow | None:
    """Lay whole blocks into columns that end at about the same height, or None if they don't fit.

    The tallest go first, each into the column with most room; down a column they keep their order.
    """
    width = columns[0].width
    tall = [block.heading(width) + sum(block.heights(width)) + BETWEEN for block in blocks]
    chosen: list[list[int]] = [[] for _ in columns]
    used = [0.0 for _ in columns]
    for index in sorted(range(len(blocks)), key=lambda one: -tall[one]):
        place = used.index(min(used))
        chosen[place].append(index)
        used[place] += tall[index]
    room = columns[0].bottom - columns[0].top + BETWEEN
    if max(used) > room + 1e-6:
        return None
    laid = Flow(columns)
    for place, column in enumerate(columns):
        y = column.top
        for index in sorted(chosen[place]):
            parts = range(len(blocks[index].heights(width)))
            laid.laid.append(_Laid(blocks[index], parts, place, y))
            y += tall[index]
        laid.bottom = max(laid.bottom, y - BETWEEN)
    return laid
