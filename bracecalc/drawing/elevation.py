"""The upper part of the niche from the front: boards, studs, screws, reach band, heights."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bracecalc.drawing.lettering import CAPITAL, LEAST, Face, clean, wrap
from bracecalc.drawing.model import (
    Anchor,
    Bracket,
    Break,
    Circle,
    Dimension,
    Frame,
    Hatch,
    Item,
    Line,
    Mark,
    MarkKind,
    PaperItem,
    Pattern,
    Pen,
    Polyline,
    Rect,
    Text,
    Tone,
    View,
    standard_scale,
)
from bracecalc.drawing.placing import (
    Column,
    Fitted,
    Label,
    Row,
    clear_of_each_other,
    column,
    label_height,
    label_width,
    row_above,
    row_height,
    that_fit,
)
from bracecalc.drawing.scene import Scene, scene_of
from bracecalc.drawing.showing import Room, Shown, beside
from bracecalc.records.plan import Plan, RestraintKind
from bracecalc.records.surroundings import Service

_UNDER = 5.0  # in: of the unit that is shown under the lowest height
_OVER = 2.5  # in: of the wall that is shown over the boards
_NEAR = 16.0  # in: what is farther off than this is told in words
_LEADER = 15.0  # points between the drawing and the words beside it
_NEAR_SERVICE = 4.0  # in: as far from the boards a bit may stray, and a pipe isn't straight
_SERVICE_WIDTH = 62.0  # points
_RING = 6.0  # points: radius of a ring with a count in it
SIGN = 2.6  # points: radius of a screw's sign
SIGNS = tuple(kind for kind in MarkKind if kind is not MarkKind.ALERT)


@dataclass(frozen=True, slots=True)
class _Labels:
    heights: list[Label]
    services: list[Label]
    studs: list[Label]
    unknown: str  # said over the drawing where no stud spot is known


@dataclass(frozen=True, slots=True)
class Window:
    """The part of the niche that is shown: heights above the datum."""

    low: float
    high: float
    soffit_shown: bool


def sign_of(number: int) -> MarkKind:
    """Return the sign that stands for the screws of a board."""
    return SIGNS[(number - 1) % len(SIGNS)]


def elevation(plan: Plan, shown: Shown, room: Room) -> Fitted:
    """Return the front elevation, as large as a usual scale allows in the room."""
    scene = scene_of(plan)
    window = _window(plan, scene)
    labels = _Labels(
        that_fit(_height_labels(plan, scene, window, shown), room.height, room.letters),
        that_fit(_service_labels(plan, scene, window, shown), room.height, room.letters),
        _stud_labels(plan, shown),
        "" if plan.studs is None or plan.studs.spots else "stud spots not measured",
    )
    layout = _Layout(labels, room, with_pieces=scene.across is not None)
    frame, window = layout.frame(scene, window)
    screws = _screw_shapes(plan, scene, frame)
    shapes = (*_shapes(plan, scene, window), *screws.shapes)
    dims = tuple(_widths(scene, window, shown, room.letters))
    label = "Front elevation of the upper part of the niche"
    notes = (*layout.notes(frame, scene, window), *screws.notes)
    view = View("elevation", label, frame, (*shapes, *dims), notes, _told(plan, scene, shown))
    return Fitted(view, frame.page((0.0, window.low))[1] + layout.below)


def _told(plan: Plan, scene: Scene, shown: Shown) -> str:
    """Return the elevation in words."""
    words = [
        f"Front elevation of the upper part of the niche, {beside(shown.near(scene.width))} wide."
    ]
    target = plan.restraint.target_height
    if target is not None:
        words.append(f"Underside {beside(shown.near(target))} above the datum.")
    if plan.studs is not None and plan.studs.used:
        spots = ", ".join(beside(shown.near(spot)) for spot in plan.studs.used)
        words.append(f"Screws at {spots} from the left.")
    return " ".join(words)


def _window(plan: Plan, scene: Scene) -> Window:
    band = plan.reach_band
    lows = [scene.low, scene.unit_top]
    highs = [scene.high, scene.unit_top, scene.highest]
    near = [z for z in (band.low, band.high) if abs(z - scene.unit_top) < _NEAR]
    low, high = min(lows + near), max(highs + near)
    soffit = scene.soffit is not None and scene.soffit < high + _NEAR
    if soffit and scene.soffit is not None:
        low, high = min(low, scene.soffit), max(high, scene.soffit)
    for service in services_near(plan, scene):
        low, high = min(low, service.z), max(high, service.z)
    return Window(low - _UNDER, high + _OVER, soffit)


def services_near(plan: Plan, scene: Scene) -> tuple[Service, ...]:
    """Return the services behind the boards or a stud strip's height from them."""
    return tuple(
        service
        for service in plan.job.surroundings.services
        if scene.low - _NEAR_SERVICE <= service.z <= scene.high + _NEAR_SERVICE
    )


def _shapes(plan: Plan, scene: Scene, window: Window) -> Iterator[Item]:
    width, low, high = scene.width, window.low, window.high
    left, right = scene.unit
    if right > left:
        corners = ((left, low), (left, scene.unit_top), (right, scene.unit_top), (right, low))
        yield Polyline(corners, Pen.EDGE, Tone.UNIT, "unit")
    if scene.across is not None:
        yield from _piece_shapes(plan, scene, scene.across, Pen.NONE, Tone.BOARD)
    yield from _band(plan, scene, window)
    yield from _stud_shapes(plan, scene, window)
    if scene.across is not None:
        yield from _piece_shapes(plan, scene, scene.across, Pen.CUT, Tone.NONE)
    yield Line((0.0, low), (0.0, high), Pen.CUT, "left side")
    yield Line((width, low), (width, high), Pen.CUT, "right side")
    if window.soffit_shown and scene.soffit is not None:
        yield Line((0.0, scene.soffit), (width, scene.soffit), Pen.CUT, "soffit")
        yield Hatch((0.0, scene.soffit), (width, high), Pattern.DIAGONAL, 4.0)
    if scene.highest > scene.unit_top + 1e-9 and right > left:
        yield Line((left, scene.highest), (right, scene.highest), Pen.HIDDEN, "highest point")
    target = plan.restraint.target_height
    if target is not None:
        yield Line((0.0, target), (width, target), Pen.TARGET, "target")
    yield Break((0.0, low), (width, low), name="cut off below")
    for number, service in enumerate(services_near(plan, scene), start=1):
        if low < service.z < high:
            yield Mark((service.x, service.z), MarkKind.ALERT, 4.0, f"service {number}")


@dataclass(frozen=True, slots=True)
class _Screws:
    shapes: tuple[Item, ...] = ()
    notes: tuple[PaperItem, ...] = ()


def _screw_shapes(plan: Plan, scene: Scene, frame: Frame) -> _Screws:
    """Return a sign for each screw; where signs would touch, a count in a ring for each stud."""
    if plan.stack is None:
        return _Screws()
    marks = [
        Mark((x, scene.low + height), sign_of(row.board), SIGN, f"screw {row.board}.{index}")
        for row in plan.screws
        for index, (x, height) in enumerate(row.positions, start=1)
    ]
    if clear_of_each_other([frame.page(mark.at) for mark in marks], 2.0 * SIGN + 0.6):
        return _Screws(tuple(marks))
    middle = (scene.low + scene.high) / 2.0
    counts: dict[float, int] = {}
    for mark in marks:
        counts[mark.at[0]] = counts.get(mark.at[0], 0) + 1
    rings: list[tuple[float, int]] = []  # place on the page, and how many screws
    for x, count in sorted(counts.items()):
        place = frame.page((x, middle))[0]
        if rings and place - rings[-1][0] < 2.0 * _RING + 1.0:
            rings[-1] = (rings[-1][0], rings[-1][1] + count)
        else:
            rings.append((place, count))
    y = frame.page((0.0, middle))[1]
    notes: list[PaperItem] = []
    for number, (x, count) in enumerate(rings, start=1):
        notes.append(Circle((x, y), _RING, Pen.EDGE, Tone.PAPER, f"screws at stud {number}"))
        at = (x, y + LEAST * CAPITAL / 2.0)
        notes.append(Text(at, str(count), LEAST, Anchor.MIDDLE, Face.BOLD))
    return _Screws(notes=tuple(notes))


def _band(plan: Plan, scene: Scene, window: Window) -> Iterator[Item]:
    """Yield the reach band, over unit and boards, so that the target is seen in it."""
    band = plan.reach_band
    low, high = max(band.low, window.low), min(band.high, window.high)
    if band.high > band.low and high > low:
        yield Rect((0.0, low), (scene.width, high), Pen.NONE, Tone.BAND, "reach band")
        yield Hatch((0.0, low), (scene.width, high), Pattern.DIAGONAL, 3.2)
        # a bracket at each side wall: seen where the strip itself is no thicker than a line
        for x, out in ((0.0, -1.0), (scene.width, 1.0)):
            yield Bracket((x, low), (x, high), out, f"reach at {'left' if out < 0 else 'right'}")
    if band.high >= band.low:
        return
    for z, name in ((band.low, "least height"), (band.high, "most that the legs reach")):
        if window.low < z < window.high:
            yield Line((0.0, z), (scene.width, z), Pen.FAIL, name)


def _stud_shapes(plan: Plan, scene: Scene, window: Window) -> Iterator[Item]:
    if plan.studs is None:
        return
    half = plan.job.wall.stud.width / 2.0
    for number, spot in enumerate(plan.studs.spots, start=1):
        if not 0.0 <= spot <= scene.width:
            continue
        left, right = max(spot - half, 0.0), min(spot + half, scene.width)
        corners = (left, window.low), (right, window.high)
        yield Rect(*corners, Pen.HIDDEN, Tone.NONE, f"stud {number}")
        ends = (spot, window.low), (spot, window.high)
        yield Line(*ends, Pen.CENTRE, f"stud {number} centre")


def _piece_shapes(
    plan: Plan, scene: Scene, across: tuple[float, float], pen: Pen, tone: Tone
) -> Iterator[Item]:
    """Yield the boards, or each packer: once for their face, once for the edge over all else."""
    left, right = across
    edge = "" if pen is Pen.NONE else " edge"
    if plan.restraint.kind is RestraintKind.STACK:
        yield Rect((left, scene.low), (right, scene.high), pen, tone, f"boards{edge}")
        return
    for piece in scene.pieces:
        corners = (left, piece.up[0]), (right, piece.up[1])
        yield Rect(*corners, pen, tone, f"packer {piece.number}{edge}")


def _widths(scene: Scene, window: Window, shown: Shown, size: float) -> Iterator[Item]:
    first = -(size + 6.0)
    if scene.across is not None:
        left, right = scene.across
        words = f"cut {beside(shown.down(right - left))}"
        ends = (left, window.low), (right, window.low)
        yield Dimension(*ends, first, words, size, name="length")
        first -= size + 6.0
    ends = (0.0, window.low), (scene.width, window.low)
    words = f"niche {beside(shown.near(scene.width))}"
    yield Dimension(*ends, first, words, size, name="niche width")


def _height_labels(plan: Plan, scene: Scene, window: Window, shown: Shown) -> list[Label]:
    """Return labels of the heights above the datum; their places are heights still."""
    band, target, kind = plan.reach_band, plan.restraint.target_height, plan.restraint.kind
    high, low = shown.down(band.high), shown.up(band.low)
    found: list[tuple[float, str, tuple[str, ...]]] = []
    if target is None:
        found.append((scene.unit_top, "unit, legs in", shown.near(scene.unit_top)))
    else:
        name = "TARGET" if kind is RestraintKind.SOFFIT else "UNDERSIDE"
        found.append((target, name, shown.near(target)))
    if band.high > band.low:
        found += [(band.high, "reach to", high), (band.low, "reach from", low)]
    else:
        found += [(band.high, "legs reach to", high), (band.low, "at least", low)]
    if scene.soffit is not None:
        found.append((scene.soffit, "soffit", shown.near(scene.soffit)))
    if scene.highest > scene.unit_top + 1e-9:
        found.append((scene.highest, "highest point", shown.up(scene.highest)))
    if kind is RestraintKind.STACK:
        found.append((scene.high, "top of boards", shown.near(scene.high)))
    return [
        Label(z, (name, *lines), name=f"at {name}", bold=1)
        for z, name, lines in found
        if window.low <= z <= window.high
    ]


def _service_labels(plan: Plan, scene: Scene, window: Window, shown: Shown) -> list[Label]:
    """Return labels of the services near the boards: what is behind the wall there."""
    return [
        Label(
            service.z,
            (
                *wrap(clean(service.name), _SERVICE_WIDTH, LEAST, Face.BOLD),
                f"{shown.near(service.x)[0]} from left",
                f"{shown.near(service.z)[0]} up",
            ),
            name=f"service at {service.z:.4f}",
            bold=1,
        )
        for service in services_near(plan, scene)
        if window.low < service.z < window.high
    ]


def _stud_labels(plan: Plan, shown: Shown) -> list[Label]:
    if plan.studs is None:
        return []
    used = set(plan.studs.used)
    return [
        Label(
            spot,
            shown.near(spot) if spot in used else (*shown.near(spot), "not used"),
            Face.BOLD if spot in used else Face.REGULAR,
            name=f"stud spot {number}",
        )
        for number, spot in enumerate(plan.studs.spots, start=1)
        if 0.0 <= spot <= plan.job.niche.narrowest
    ]


class _Layout:
    """Divides the room between the drawing and the words around it."""

    def __init__(self, labels: _Labels, room: Room, *, with_pieces: bool) -> None:
        self._labels, self._room = labels, room
        size = room.letters
        self._left = _widest(labels.heights, size) + _LEADER
        self._right = _widest(labels.services, size) + (_LEADER if labels.services else 9.0)
        self.below = (2 if with_pieces else 1) * (size + 6.0) + 3.0

    def frame(self, scene: Scene, window: Window) -> tuple[Frame, Window]:
        """Return where the niche lies on the page, and what of it is shown."""
        room, labels = self._room, self._labels
        extent = window.high - window.low
        across = room.width - self._left - self._right
        most = max(_total(one, room.letters) for one in (labels.heights, labels.services))
        scale = standard_scale(across, scene.width)
        while True:  # a smaller scale may need higher words over it, never lower ones
            above = self._over(scene.width * scale)
            tall = max(room.height - above - self.below, most)
            lesser = standard_scale(tall, extent)
            if lesser >= scale:
                break
            scale = lesser
        x = room.left + self._left + (across - scene.width * scale) / 2.0
        # beside many words more of the unit is shown, so that they keep to the drawing's height
        shown = replace(window, low=min(window.low, window.high - most / scale))
        return Frame(scale, (x, room.top + above + window.high * scale)), shown

    def _over(self, across: float) -> float:
        studs, size = self._labels.studs, self._room.letters
        if studs:
            return row_height(studs, across, size) + _LEADER
        return size + 6.0 if self._labels.unknown else 4.0

    def notes(self, frame: Frame, scene: Scene, window: Window) -> tuple[PaperItem, ...]:
        """Return the words around the drawing, with their leaders."""
        labels, size = self._labels, self._room.letters
        left, top = frame.page((0.0, window.high))
        right, low = frame.page((scene.width, window.low))
        columns = (
            (labels.heights, Column(left, left - _LEADER + 2.0, top, low)),
            (labels.services, Column(right, right + _LEADER - 2.0, top, low)),
        )
        notes: list[PaperItem] = []
        for words, where in columns:
            placed = [replace(label, place=frame.page((0.0, label.place))[1]) for label in words]
            notes.extend(column(placed, where, size))
        studs = [replace(label, place=frame.page((label.place, 0.0))[0]) for label in labels.studs]
        notes.extend(row_above(studs, Row(top, top - _LEADER + 2.0, left, right), size))
        if labels.unknown:
            middle = ((left + right) / 2.0, top - 4.0)
            notes.append(Text(middle, labels.unknown, size, Anchor.MIDDLE, name="no stud spots"))
        return tuple(notes)


def _widest(labels: list[Label], size: float) -> float:
    return max((label_width(label, size) for label in labels), default=0.0)


def _total(labels: list[Label], size: float) -> float:
    return sum(label_height(label, size) for label in labels)
