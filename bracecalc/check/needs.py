"""What a remedy needs from the truck: pieces and screws by name, length and number."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bracecalc.planning.bracing import Bracing
from bracecalc.planning.materials import materials
from bracecalc.records.actions import (
    Action,
    AddBlocking,
    BoardInFront,
    ChangeFloor,
    MoveBoards,
    MoveScrews,
    OtherScrews,
    PutUp,
    Rebuild,
    ShimGap,
    ShimUnder,
    TakeDown,
    ThinnerInFront,
)
from bracecalc.records.job import Job, SetScrew
from bracecalc.records.plan import SCREWS, Item, Need, StackSupport


def needs_of(job: Job, actions: Sequence[Action], after: Bracing) -> tuple[Need, ...]:
    """Return what the actions of a remedy need, pieces before screws.

    Args:
        job: with the remedy done.
        actions: in order.
        after: the bracing then.
    """
    found: list[Need] = []
    bought = materials(job, after)
    if any(_puts_boards_up(action) for action in actions):
        found.extend(bought.boards)
    for action in actions:
        found.extend(_of_one(action, after))
    if not any(isinstance(action, MoveScrews) for action in actions) and any(
        _fastens(action) for action in actions
    ):
        found.extend(bought.screws)
    return tuple(dict.fromkeys(found))


def _puts_boards_up(action: Action) -> bool:
    if isinstance(action, MoveBoards):
        return action.stand
    return isinstance(action, TakeDown | Rebuild | AddBlocking | PutUp)


def _fastens(action: Action) -> bool:
    return _puts_boards_up(action) or isinstance(
        action, OtherScrews | BoardInFront | ThinnerInFront
    )


def _of_one(action: Action, after: Bracing) -> Iterator[Need]:
    support = after.support
    length = support.stack.length if isinstance(support, StackSupport) else None
    match action:
        case BoardInFront(board) | ThinnerInFront(board):
            yield Need(item=Item.BOARD, size=board.name, length=length, count=1)
        case ShimUnder(pieces=pieces):
            for piece in pieces:
                yield Need(item=Item.SHIM, size=piece.name, length=length, count=1)
        case ShimGap(pieces=names):
            for name in names:
                yield Need(item=Item.SHIM, size=name, length=None, count=1)
        case ChangeFloor(plates=plates):
            for corner, thickness in plates:
                yield Need(item=Item.PLATE, size=corner, length=thickness, count=1)
        case MoveScrews(driven=driven):
            yield from _screws(driven)
        case _:
            return


def _screws(driven: Sequence[SetScrew]) -> Iterator[Need]:
    counts: dict[tuple[Item, str, float], int] = {}
    for one in driven:
        key = SCREWS[one.kind], one.size, one.length
        counts[key] = counts.get(key, 0) + 1
    for (item, size, length), count in counts.items():
        yield Need(item=item, size=size, length=length, count=count)
