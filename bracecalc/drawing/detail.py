"""The screws at one stud (or under one packer), 1:4 or larger, with their distances both ways."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bracecalc.drawing.elevation import SIGN, sign_of
from bracecalc.drawing.flattening import sign
from bracecalc.drawing.lettering import measure
from bracecalc.drawing.model import (
    POINTS_PER_INCH,
    Break,
    Dimension,
    Frame,
    Item,
    Line,
    Mark,
    PaperItem,
    Pen,
    Rect,
    Text,
    Tone,
    View,
)
from bracecalc.drawing.placing import (
    LEADING,
    SIGN_ROOM,
    Column,
    Fitted,
    Label,
    Row,
    column,
    label_height,
    label_width,
    row_above,
    row_height,
)
from bracecalc.drawing.showing import Room, Shown, beside
from bracecalc.records.job import StudMaterial
from bracecalc.records.plan import Plan, RestraintKind
from bracecalc.text.findings import Lengths

SMALLEST = 4  # 1:4; a sign is then no wider than the screws stand apart
_SCALES = (1, 2, 3, SMALLEST)
_LEADER = 13.0
_BESIDE = 1.0  # in: of the boards that is shown on either side of the stud or the outer screws


@dataclass(frozen=True, slots=True)
class _Place:
    """One screw: its board, across from the stud's centre, up from the underside (or out)."""

    board: int
    across: float
    up: float


@dataclass(frozen=True, slots=True)
class _Subject:
    """What the detail shows: its size in inches, its words."""

    places: tuple[_Place, ...]
    tall: float
    half: float  # of the width that is shown
    stud: float  # width of the framing member; 0 where none is shown
    label: str
    upward: str  # what the distances up are from
    piece: str  # what a board is called


def has_detail(plan: Plan) -> bool:
    """Return whether a plan has screws at one member to show."""
    return any(row.offsets for row in plan.screws)


def detail(plan: Plan, shown: Shown, room: Room) -> Fitted:
    """Return the detail, as large as fits; never smaller than 1:4, whatever the room."""
    subject = _subject(plan)
    size = room.letters
    heights = _height_labels(subject, shown)
    acrosses = _across_labels(subject, shown, Lengths(plan.job).say("sheet.center"))
    left = max(label_width(label, size) for label in heights) + _LEADER
    right = size + 14.0
    for ratio in _SCALES:
        scale = POINTS_PER_INCH / ratio
        over = row_height(acrosses, 2.0 * subject.half * scale, size) + _LEADER
        tall = max(subject.tall * scale, sum(label_height(one, size) for one in heights))
        wide = left + 2.0 * subject.half * scale + right
        if over + tall + size * 3.6 <= room.height and wide <= room.width:
            break
    spare = max(0.0, room.width - wide) / 2.0
    middle = room.left + spare + left + subject.half * scale
    frame = Frame(scale, (middle, room.top + over + (tall + subject.tall * scale) / 2.0))
    low = room.top + over + tall + size * 0.8
    signs, bottom = _legend(subject, subject.piece, room, low)
    notes = (*_notes(subject, frame, heights, acrosses, room), *signs)
    told = _told(subject, shown, Lengths(plan.job).say("sheet.center"))
    view = View("detail", subject.label, frame, tuple(_shapes(subject, frame, shown, size)),
                notes, told)  # fmt: skip
    return Fitted(view, bottom)


def _subject(plan: Plan) -> _Subject:
    places = tuple(
        _Place(row.board, across, up) for row in plan.screws for across, up in row.offsets
    )
    if plan.restraint.kind is RestraintKind.PACKERS and plan.packers is not None:
        label = "Screws at one member of the soffit, from below"
        wide = max(abs(one.across) for one in places)
        return _Subject(places, plan.packers.depth, wide + _BESIDE, 0.0, label, "rear edge",
                        Lengths(plan.job).say("sheet.spacer"))  # fmt: skip
    tall = plan.stack.width if plan.stack is not None else max(one.up for one in places)
    stud = plan.job.wall.stud
    masonry = stud.material is StudMaterial.MASONRY
    width = 0.0 if masonry else stud.width
    half = max(width / 2.0, *(abs(one.across) for one in places)) + _BESIDE
    label = "Screws at one place of the wall" if masonry else "Screws at one stud, from the front"
    return _Subject(places, tall, half, width, label, "underside", "board")


def _shapes(subject: _Subject, frame: Frame, shown: Shown, size: float) -> Iterator[Item]:
    half, tall = subject.half, subject.tall
    yield Rect((-half, 0.0), (half, tall), Pen.NONE, Tone.BOARD, "boards")
    if subject.stud:
        wide = subject.stud / 2.0
        for x in (-wide, wide):
            yield Line((x, 0.0), (x, tall), Pen.HIDDEN)
    over = 5.0 / frame.scale
    yield Line((0.0, -over), (0.0, tall + over), Pen.CENTRE, "centre")
    yield Line((-half, tall), (half, tall), Pen.CUT, "upper edge")
    yield Line((-half, 0.0), (half, 0.0), Pen.TARGET, subject.upward)
    for x in (-half, half):
        yield Break((x, 0.0), (x, tall))
    for number, place in enumerate(subject.places, start=1):
        at = (place.across, place.up)
        yield Mark(at, sign_of(place.board), SIGN, f"screw {place.board} at {number}")
    words = beside(shown.near(tall))
    yield Dimension((half, 0.0), (half, tall), size + 9.0, words, size, name="boards up")


def _height_labels(subject: _Subject, shown: Shown) -> list[Label]:
    """Return the distances of the screws up from the underside; a line each for both units."""
    found = {(one.up, one.board) for one in subject.places}
    return [
        Label(up, shown.near(up), sign=sign_of(board), name=f"screw {board} up {up:.4f}")
        for up, board in sorted(found)
    ]


def _across_labels(subject: _Subject, shown: Shown, center: str) -> list[Label]:
    """Return how far to the side of the centre the screws stand."""
    found = []
    for across in sorted({one.across for one in subject.places}):
        lines: tuple[str, ...] = (center,)
        if abs(across) > 1e-9:
            side = "left" if across < 0.0 else "right"
            lines = (side, *shown.near(abs(across)))
        found.append(Label(across, lines, name=f"across {across:.4f}", bold=1))
    return found


def _notes(
    subject: _Subject, frame: Frame, heights: list[Label], acrosses: list[Label], room: Room
) -> tuple[PaperItem, ...]:
    size = room.letters
    left, top = frame.page((-subject.half, subject.tall))
    right, low = frame.page((subject.half, 0.0))
    spread = max(0.0, sum(label_height(one, size) for one in heights) - (low - top)) / 2.0
    where = Column(left, left - _LEADER + 2.0, top - spread, low + spread)
    placed = [replace(one, place=frame.page((0.0, one.place))[1]) for one in heights]
    across = [replace(one, place=frame.page((one.place, 0.0))[0]) for one in acrosses]
    row = Row(top - spread, top - spread - _LEADER + 2.0, left - 8.0, right + 8.0)
    return (*column(placed, where, size), *row_above(across, row, size))


def _told(subject: _Subject, shown: Shown, center: str) -> str:
    """Return the detail in words: every screw with its distances."""
    said = []
    for one in subject.places:
        side = f"at the {center}"
        if abs(one.across) > 1e-9:
            way = "left" if one.across < 0.0 else "right"
            side = f"{beside(shown.near(abs(one.across)))} {way} of the {center}"
        said.append(f"{subject.piece} {one.board}: {beside(shown.near(one.up))} up, {side}")
    return f"{subject.label}, distances up from the {subject.upward}. {'; '.join(said)}."


def _legend(
    subject: _Subject, piece: str, room: Room, top: float
) -> tuple[tuple[PaperItem, ...], float]:
    """Return which sign stands for the screws of which board, and the lowest point of it."""
    size, x, y = room.letters, room.left, top
    items: list[PaperItem] = []
    for board in sorted({one.board for one in subject.places}):
        words = f"{piece} {board}"
        wide = SIGN_ROOM + measure(words, size) + 8.0
        if x > room.left and x + wide > room.left + room.width:
            x, y = room.left, y + size * LEADING
        items.extend(sign((x + 3.0, y + size * 0.6), sign_of(board), SIGN))
        at = (x + SIGN_ROOM, y + size)
        items.append(Text(at, words, size, name=f"sign of {board}"))
        x += wide
    return tuple(items), y + size * 1.5
