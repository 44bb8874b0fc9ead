"""What a crew may do on site, in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from bracecalc.records.actions import (
    Action,
    AddBlocking,
    BoardInFront,
    ChangeFloor,
    FreeLeg,
    MoveBoards,
    MoveScrews,
    MoveSoffit,
    OtherScrews,
    PutUp,
    Rebuild,
    RollOut,
    ScrewSource,
    ShimGap,
    ShimUnder,
    StandProuder,
    TakeDown,
    ThinnerInFront,
    TrimOff,
)
from bracecalc.records.job import Job, SetScrew
from bracecalc.records.plan import ScrewRow
from bracecalc.records.reference import ScrewKind
from bracecalc.text.findings import Lengths, joined
from bracecalc.text.lengths import format_length
from bracecalc.text.messages import Count
from bracecalc.text.screw_names import counter_kind, counter_size

if TYPE_CHECKING:
    from bracecalc.records.site import ChangedScrews, NewScrews

BoardAction = MoveBoards | BoardInFront | ThinnerInFront | PutUp | TakeDown | Rebuild
FINE = 1.0 / 32.0  # in: sheet stock is thinner than its name by 1/32


def fine(job: Job, value: float) -> str:
    """Return a thickness to the nearest 1/32 in, as shims are chosen."""
    return format_length(value, units=job.units, grid=min(FINE, job.rules.rounding))


def remedy_words(job: Job, actions: Sequence[Action], screws: NewScrews | None) -> str:
    """Return a remedy in words: its actions in order, and the screws that it needs."""
    text = ". ".join(action_words(job, action) for action in actions)
    return text if screws is None else f"{text}; {_new_screw_words(screws, Lengths(job))}"


def action_words(job: Job, action: Action) -> str:
    """Return one action as an instruction, without a full stop."""
    lengths = Lengths(job)
    match action:
        case ShimGap(gap, end, pieces):
            return lengths.say(
                "act.shim-gap", gap=fine(job, gap), end=end, pieces=" + ".join(pieces) or "a shim"
            )
        case ShimUnder():
            return _shim_words(job, action, lengths)
        case OtherScrews(source):
            return lengths.say("act.other-screws", source=_source(source, lengths))
        case MoveScrews():
            return _screw_moves(action, lengths)
        case AddBlocking(studs):
            return lengths.say("act.blocking", between=_between(studs, lengths))
        case StandProuder(by):
            return f"Let the appliance stand {lengths.near(by)} farther out of the niche"
        case ChangeFloor():
            return _floor_words(action, lengths)
        case MoveSoffit(by, underside):
            how = "Bring the soffit down" if by < 0.0 else "Raise the soffit"
            return f"{how} by {lengths.near(abs(by))} to {lengths.near(underside)}"
        case FreeLeg(corner):
            return lengths.say("act.free-leg", corner=corner.replace("_", " "))
        case TrimOff():
            return lengths.say("act.trim-off")
        case RollOut():
            return lengths.say("act.roll-out")
        case _:
            return _board_words(action, lengths)


def _board_words(action: BoardAction, lengths: Lengths) -> str:
    match action:
        case MoveBoards():
            return _move_words(action, lengths)
        case BoardInFront(board):
            return f"Add a {board.name} in front ({lengths.near(board.thickness)})"
        case ThinnerInFront(board):
            thick = lengths.near(board.thickness)
            return f"Put a {board.name} ({thick}) in front instead of the board there"
        case PutUp(size, boards, underside):
            return lengths.say(
                "act.put-up", boards=Count(boards), size=size, height=lengths.near(underside)
            )
        case TakeDown(underside):
            return lengths.say("act.take-down", height=lengths.near(underside))
        case Rebuild(size, underside, boards):
            of = "" if boards is None else lengths.say("act.of-boards", boards=Count(boards))
            return lengths.say("act.rebuild", size=size, of=of, height=lengths.near(underside))


def changed_screw_words(job: Job, changed: ChangedScrews) -> str:
    """Return screws that are others than planned, and what they are instead of."""
    lengths, piece = Lengths(job), "packer" if changed.packers else "board"
    text = f"Screws of {piece} {changed.row.board}: {_row_words(changed, changed.row, lengths)}"
    if changed.was is not None:
        text += f", instead of {_row_words(changed, changed.was, lengths)}"
    return lengths.say("act.on-hand", text=text) if changed.on_hand else text


def _row_words(changed: ChangedScrews, row: ScrewRow, lengths: Lengths) -> str:
    bored = f" in a counterbore of {lengths.near(row.counterbore)}" if row.counterbore else ""
    where = "at each place" if changed.packers else "on each stud"
    size = counter_size(row.kind, row.size)
    return f"{size} x {lengths.near(row.length)}{bored}, {row.per_stud} {where}"


def _new_screw_words(screws: NewScrews, lengths: Lengths) -> str:
    row = screws.row
    kind = "screws" if row.kind is ScrewKind.PUBLISHED else f"{row.kind.value}s"
    piece = "lowest packer" if screws.packers else "front board"
    size = counter_size(row.kind, row.size)
    text = f"fix the {piece} with {size} x {lengths.near(row.length)} {kind}"
    if row.counterbore > 0.0:
        text += f" in a counterbore of {lengths.near(row.counterbore)}"
    if screws.packers or not row.positions:
        where = "at each place" if screws.packers else "on each stud"
        return f"{text}, {row.per_stud} {where}"
    places = joined([lengths.near(place) for place in sorted({at for at, _ in row.positions})])
    return lengths.say("act.at-each", text=text, count=row.per_stud, places=places)


def _shim_words(job: Job, action: ShimUnder, lengths: Lengths) -> str:
    names = " + ".join(f"{piece.name} ({fine(job, piece.thickness)})" for piece in action.pieces)
    what = "boards" if action.boards else "soffit"
    text = f"Shim under the {what} over the whole overlap with {names}"
    if action.at_gap > 0.0:
        text += lengths.say("act.more-at-end", gap=fine(job, action.at_gap), end=action.end)
    return text + lengths.say("act.shims-fastened" if action.boards else "act.spacers-fastened")


def _move_words(action: MoveBoards, lengths: Lengths) -> str:
    amount, at = lengths.near(abs(action.by)), lengths.near(action.underside)
    down = action.by < 0.0
    if not action.stand:
        side = "lower" if down else "higher"
        return f"Set the boards {amount} {side} than planned: underside at {at}"
    word = "Lower" if down else "Raise"
    if action.level:
        return f"{word} the boards and set them level: underside at {at}"
    return f"{word} the boards by {amount}: underside at {at}"


def _source(source: ScrewSource, lengths: Lengths) -> str:
    return lengths.say(f"source.{source.name}")


def _screw_moves(action: MoveScrews, lengths: Lengths) -> str:
    parts = []
    if action.backed_out:
        parts.append(
            lengths.say(
                "act.back-out",
                count=Count(len(action.backed_out)),
                at=_places(action.backed_out, lengths),
            )
        )
    alike: dict[tuple[int, ScrewKind, str, float, float], list[SetScrew]] = {}
    for one in action.driven:
        key = one.board, one.kind, one.size, one.length, one.counterbore
        alike.setdefault(key, []).append(one)
    for (board, kind, size, length, counterbore), screws in alike.items():
        parts.append(
            lengths.say(
                "act.drive",
                count=Count(len(screws)),
                kind=counter_kind(kind),
                screw=f"{counter_size(kind, size)} x {lengths.near(length)}",
                sunk=""
                if counterbore <= 0.0
                else lengths.say("act.sunk", depth=lengths.near(counterbore)),
                source=_source(action.source, lengths),
                board=board,
                at=_places(screws, lengths),
            )
        )
    return ". ".join(parts)


def _places(screws: Sequence[SetScrew], lengths: Lengths) -> str:
    """Return places from the left side of the niche, by height over the underside."""
    heights: dict[str, list[str]] = {}
    for one in sorted(screws, key=lambda one: (one.above, one.from_left)):
        heights.setdefault(lengths.near(one.above), []).append(lengths.near(one.from_left))
    return "; ".join(
        lengths.say("act.at", places=joined(places), height=height)
        for height, places in heights.items()
    )


def _between(studs: Sequence[float], lengths: Lengths) -> str:
    if not studs:
        return "between the studs on either side"
    if len(studs) == 1:
        at = lengths.near(studs[0])
        return f"between the stud at {at} and the next ones to its left and right"
    return f"between the studs at {' and '.join(lengths.near(spot) for spot in studs)}"


def _floor_words(action: ChangeFloor, lengths: Lengths) -> str:
    plates, taken = (
        [f"{corner.replace('_', ' ')} {lengths.near(amount)}" for corner, amount in places]
        for places in (action.plates, action.taken_out)
    )
    if action.off_the_path:
        taken.append(f"highest floor on the way in {lengths.near(action.off_the_path)}")
    parts = []
    if plates:
        parts.append(f"put solid plates under the legs ({', '.join(plates)})")
    if taken:
        parts.append(f"lower the floor ({', '.join(taken)})")
    text = joined(parts)
    return text[0].upper() + text[1:]
