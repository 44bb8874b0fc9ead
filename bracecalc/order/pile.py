"""The saw's pile sorted: which piece of which stick goes to which niche."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from bracecalc.order.lines import LumberLine
from bracecalc.order.order import Order
from bracecalc.order.outcome import Lumber, Use
from bracecalc.order.tally import Placed

MOST_LABELS = 50_000  # pieces; past it the pile is sorted by building part alone


class Label(NamedTuple):
    """One piece as it comes off the saw: from which stick, for what, to where."""

    line: LumberLine
    stick: int  # numbered through the sticks of this lumber, as in the cut list
    length: int  # 1/32 in
    use: Use
    labels: Mapping[str, str]  # building, floor, type or what was added up by
    title: str
    niche: int  # which of the niches that are alike, from 1
    of: int
    fails: bool


Place = tuple[Use, Placed, int]


def natural(label: str) -> tuple[int, int, str]:
    """Return what sorts 2 before 10, and numbers before words.

    >>> sorted(["10", "2", "B"], key=natural)
    ['2', '10', 'B']
    """
    return (0, int(label), "") if label.isascii() and label.isdigit() else (1, 0, label.casefold())


def piece_count(order: Order) -> int:
    """Return how many pieces come off the saw."""
    return sum(sum(line.pieces.values()) for line in order.lumber)


def can_label(order: Order) -> bool:
    """Return whether each piece is known by its niche: not past some thousands of rows."""
    return order.tally.placed_all and piece_count(order) <= MOST_LABELS


def labels(order: Order) -> Iterator[Label]:
    """Yield every piece in the order in which it is cut; pieces of one length go down the list.

    Raises:
        ValueError: if there are too many, which ``can_label`` tells.
    """
    if not can_label(order):
        raise ValueError("too many pieces to be labelled one by one")
    wanted = _wanted(order)
    for line in order.lumber:
        stick = 0
        for row in line.plan.sticks:
            for _ in range(row.count):
                stick += 1
                for length, count in row.cuts:
                    for _ in range(count):
                        use, placed, niche = wanted[line.lumber, length].popleft()
                        yield Label(
                            line=line,
                            stick=stick,
                            length=length,
                            use=use,
                            labels=order.tally.part_labels(placed.labels),
                            title=placed.title,
                            niche=niche,
                            of=placed.niches,
                            fails=placed.fails,
                        )


def _wanted(order: Order) -> dict[tuple[Lumber, int], deque[Place]]:
    wanted: dict[tuple[Lumber, int], deque[Place]] = defaultdict(deque)
    placed = sorted(
        order.tally.placed,
        key=lambda row: ([natural(label) for label in row.labels], natural(row.title)),
    )
    for row in placed:
        for niche in range(1, row.niches + 1):
            for (use, lumber, length), number in row.cuts:
                wanted[lumber, length].extend([(use, row, niche)] * number)
    return wanted
