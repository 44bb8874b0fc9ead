"""The niche from the side, cut at a stud: wall, boards, screws, the unit's rear top corner."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bracecalc.drawing.flattening import dimension_marks
from bracecalc.drawing.lettering import clean, measure, wrap
from bracecalc.drawing.model import (
    Dimension,
    Frame,
    Hatch,
    Item,
    Line,
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
    column,
    label_height,
    label_width,
    that_fit,
)
from bracecalc.drawing.scene import Scene, Shaft, scene_of
from bracecalc.drawing.showing import Room, Shown, beside
from bracecalc.records.job import StudMaterial
from bracecalc.records.plan import Plan, RestraintKind

_NEAR = 4.0  # in: a soffit farther up is left to the elevation
_LEAST = 5.0  # in: of the height that is shown, so that a wall looks like one
_LEAST_ROOM = 40.0  # points: for the thing itself, whatever its words take
_HEAD = 0.4  # in: width of a screw's head as drawn
_LEADER = 14.0


@dataclass(frozen=True, slots=True)
class _Window:
    back: float
    front: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class _Layer:
    name: str
    inner: float  # nearer the framing; negative, as all of the wall lies behind its finished face
    outer: float


def section(plan: Plan, shown: Shown, room: Room) -> Fitted:
    """Return the side section, as large as a usual scale allows in the room."""
    scene = scene_of(plan)
    layers = _layers(plan, shown)
    layout = _Layout(_bite_labels(scene, shown), _Dimensions(scene, shown, room.letters), room)
    core = _core(plan, scene, layers)
    flags = _Flags(layers, room, [(layer.name,) for layer in layers])
    for _ in range(2):  # the second time with the names broken into lines that fit
        frame, window = layout.frame(core, flags.height)
        flags = flags.wrapped(frame)
    notes = (*layout.notes(frame, window), *flags.marks(frame, window))
    shapes = tuple(_shapes(plan, scene, window, layers))
    view = View("section", "Side section at a stud", frame, shapes, notes)
    words = max(note.box()[3] for note in notes if isinstance(note, Text))
    return Fitted(view, max(frame.page((0.0, window.low))[1] + flags.height, words))


class _Layout:
    """Divides the room between the drawing and the words around it."""

    def __init__(self, bites: list[Label], dims: _Dimensions, room: Room) -> None:
        self._room, self._dims = room, dims
        self._bites = that_fit(bites, room.height, room.letters)
        widest = max((label_width(label, room.letters) for label in self._bites), default=0.0)
        self._left = widest + _LEADER if self._bites else 4.0

    def frame(self, core: _Window, flags: float) -> tuple[Frame, _Window]:
        """Return where the section lies on the page and what part of the wall it shows."""
        room, dims = self._room, self._dims
        across = room.width - self._left - dims.right
        words = sum(label_height(label, room.letters) for label in self._bites)
        tall = max(room.height - flags, words) - dims.above - dims.under
        across, tall = max(across, _LEAST_ROOM), max(tall, _LEAST_ROOM)
        wide, high = core.front - core.back, core.high - core.low
        scale = min(standard_scale(across, wide), standard_scale(tall, high))
        window = replace(
            core,
            front=core.front + dims.right / scale,
            low=core.low - dims.under / scale,
            high=core.high + dims.above / scale,
        )
        spare = max(0.0, words - (window.high - window.low) * scale - flags)
        x = room.left + self._left - window.back * scale
        return Frame(scale, (x, room.top + spare + window.high * scale)), window

    def notes(self, frame: Frame, window: _Window) -> tuple[PaperItem, ...]:
        """Return the words left of the wall, and the dimensions."""
        room = self._room
        x, top = frame.page((window.back, window.high))
        places = [replace(one, place=frame.page((0.0, one.place))[1]) for one in self._bites]
        where = Column(x, x - _LEADER + 2.0, min(top, room.top), room.top + room.height)
        return (*column(places, where, room.letters), *self._dims.marks(frame))


def _layers(plan: Plan, shown: Shown) -> list[_Layer]:
    """Return the layers from the framing to the room, the framing first."""
    wall, found, face = plan.job.wall, [], 0.0
    for layer in wall.layers:
        words = f"{beside(shown.near(layer.thickness))} {clean(layer.material)}"
        found.append(_Layer(words, face - layer.thickness, face))
        face -= layer.thickness
    stud = wall.stud
    if stud.material is StudMaterial.WOOD:
        words = f"stud {beside(shown.near(stud.width))} x {beside(shown.near(stud.depth))}, "
        words += clean(stud.species)
    else:
        words = f"{stud.material.value} wall"
    found.append(_Layer(words, face - stud.depth, face))
    return found[::-1]


def _core(plan: Plan, scene: Scene, layers: list[_Layer]) -> _Window:
    """Return what must be seen, without the room for words around it."""
    low, high = min(scene.low, scene.unit_top), max(scene.high, scene.unit_top)
    if scene.soffit is not None and scene.soffit < high + _NEAR:
        low, high = min(low, scene.soffit), max(high, scene.soffit)
        high += sum(layer.thickness for layer in plan.job.niche.soffit_layers or ())
    high = max([high, *(shaft.tip[1] for shaft in scene.shafts)])
    back = min([layers[0].inner, scene.gap, *(shaft.tip[0] for shaft in scene.shafts)])
    low = min(low, high - _LEAST)
    return _Window(back, max(scene.reach_out, scene.gap, 0.0), low, high)


def _shapes(plan: Plan, scene: Scene, window: _Window, layers: list[_Layer]) -> Iterator[Item]:
    framing, *finishes = layers
    corners = (framing.inner, window.low), (framing.outer, window.high)
    yield Rect(*corners, Pen.EDGE, Tone.STUD, "stud")
    if plan.job.wall.stud.material is StudMaterial.WOOD:
        yield Hatch(*corners, Pattern.GRAIN, 7.0)
    for number, layer in enumerate(finishes, start=1):
        corners = (layer.inner, window.low), (layer.outer, window.high)
        yield Rect(*corners, Pen.EDGE, Tone.FINISH, f"layer {len(finishes) - number + 1}")
    yield Line((0.0, window.low), (0.0, window.high), Pen.CUT, "finished wall")
    top = scene.unit_top
    body = (
        (scene.gap, window.low),
        (scene.gap, top),
        (window.front, top),
        (window.front, window.low),
    )
    yield Polyline(body, Pen.NONE, Tone.UNIT, "unit", closed=True)
    edge = ((scene.gap, window.low), (scene.gap, top), (window.front, top))
    yield Polyline(edge, Pen.CUT, Tone.NONE, "unit's corner")
    yield from _soffit_shapes(plan, scene, window)
    for piece in scene.pieces:
        corners = (piece.out[0], piece.up[0]), (piece.out[1], piece.up[1])
        name = "board" if plan.restraint.kind is RestraintKind.STACK else "packer"
        yield Rect(*corners, Pen.CUT, Tone.BOARD, f"{name} {piece.number}")
        yield Hatch(*corners, Pattern.CROSSED)
    if plan.restraint.target_height is not None:
        yield Line((0.0, top), (window.front, top), Pen.TARGET, "target")
    for number, shaft in enumerate(scene.shafts, start=1):
        yield from _shaft_shapes(shaft, number)
    yield from _bite_dimensions(scene)


def _soffit_shapes(plan: Plan, scene: Scene, window: _Window) -> Iterator[Item]:
    soffit = scene.soffit
    if soffit is None or soffit > window.high:
        return
    niche, under = plan.job.niche, soffit
    out = window.front if niche.soffit_depth is None else min(niche.soffit_depth, window.front)
    for number, layer in enumerate(niche.soffit_layers or (), start=1):
        corners = (0.0, under), (out, under + layer.thickness)
        yield Rect(*corners, Pen.EDGE, Tone.FINISH, f"soffit layer {number}")
        under += layer.thickness
    if under < window.high:
        corners = (0.0, under), (out, window.high)
        yield Rect(*corners, Pen.NONE, Tone.STUD, "soffit framing")
        yield Hatch(*corners, Pattern.DIAGONAL, 4.0)
    yield Line((0.0, soffit), (out, soffit), Pen.CUT, "soffit")


def _shaft_shapes(shaft: Shaft, number: int) -> Iterator[Item]:
    (y0, z0), (y1, z1) = shaft.head, shaft.tip
    yield Line(shaft.head, shaft.tip, Pen.CUT, f"screw {shaft.piece}.{number}")
    half = _HEAD / 2.0
    if abs(y1 - y0) >= abs(z1 - z0):
        yield Line((y0, z0 - half), (y0, z0 + half), Pen.CUT)
        return
    yield Line((y0 - half, z0), (y0 + half, z0), Pen.CUT)


def _bite_dimensions(scene: Scene) -> Iterator[Item]:
    """Yield a dimension line for each board's first screw, from its tip to where framing starts.

    The words stand in the column beside the wall, as there is no room for them in a stud.
    """
    for shaft in _first_of_each(scene):
        (y0, z0), (y1, z1) = shaft.head, shaft.tip
        share = shaft.embedment / max(abs(y1 - y0) + abs(z1 - z0), 1e-9)
        start = (y1 + (y0 - y1) * share, z1 + (z0 - z1) * share)
        name = f"embedment line {shaft.piece}"
        yield Dimension(shaft.tip, start, 3.6, "", witness=False, name=name)


def _first_of_each(scene: Scene) -> list[Shaft]:
    found: dict[int, Shaft] = {}
    for shaft in scene.shafts:
        found.setdefault(shaft.piece, shaft)
    return list(found.values())


def _bite_labels(scene: Scene, shown: Shown) -> list[Label]:
    """Return what each screw bites into the framing; their places are heights still."""
    found = []
    for shaft in _first_of_each(scene):
        level = shaft.head[1] == shaft.tip[1]
        piece, member = ("board", "into stud") if level else ("packer", "into framing")
        lines = (f"{piece} {shaft.piece}:", *shown.down(shaft.embedment), member)
        found.append(Label(shaft.tip[1], lines, name=f"embedment {shaft.piece}"))
    return found


class _Dimensions:
    """Overlap and rear gap under the boards; how far the boards stand out, over them."""

    def __init__(self, scene: Scene, shown: Shown, size: float) -> None:
        self._scene, self._size = scene, size
        lap = scene.reach_out - scene.gap
        self._lines = [(f"rear gap {beside(shown.near(scene.gap))}", (0.0, scene.gap))]
        if scene.pieces:
            words = f"overlap {beside(shown.down(lap))}"
            self._lines.insert(0, (words, (scene.gap, scene.reach_out)))
        on_wall = any(piece.out[0] == 0.0 for piece in scene.pieces)
        self._out = f"out {beside(shown.near(scene.reach_out))}" if on_wall else ""
        words_out = [self._out, *(words for words, _ in self._lines)]
        self.right = max(measure(words, size) for words in words_out) + _LEADER
        self.under = (len(self._lines) + 1) * (size + 5.0) + 6.0
        self.above = size + 14.0

    def marks(self, frame: Frame) -> tuple[PaperItem, ...]:
        """Return the dimension lines and their words."""
        scene, size = self._scene, self._size
        edge = frame.page((max(scene.reach_out, scene.gap, 0.0), 0.0))[0] + 6.0
        marks: list[PaperItem] = []
        lines = [
            (words, ends, scene.unit_top, -(size + 5.0) * number)
            for number, (words, ends) in enumerate(self._lines, start=1)
        ]
        if self._out:
            lines.append((self._out, (0.0, scene.reach_out), scene.high, size))
        for words, (start, end), height, offset in lines:
            name = words.split(" ", 1)[0]
            line = Dimension((start, height), (end, height), offset, "", size, name=name)
            marks.extend(dimension_marks(line, frame))
            base = frame.page((0.0, height))[1] - offset + size * 0.3
            marks.append(Text((edge, base), words, size, name=f"{name} words"))
        drop = (len(self._lines) + 1) * (size + 5.0)
        base = frame.page((0.0, scene.unit_top))[1] + drop + size * 0.3
        marks.append(Text((edge, base), "unit", size, name="unit words"))
        return tuple(marks)


class _Flags:
    """The names of the layers under the drawing, the room's side first, each on rows of its own."""

    def __init__(self, layers: list[_Layer], room: Room, names: list[tuple[str, ...]]) -> None:
        self._layers, self._room, self._names = layers, room, names
        self._step = room.letters + 2.0
        self.height = sum(len(lines) for lines in names) * self._step + len(names) * 2.0 + 8.0

    def _middle(self, layer: _Layer, frame: Frame) -> float:
        return frame.page(((layer.inner + layer.outer) / 2.0, 0.0))[0]

    def wrapped(self, frame: Frame) -> _Flags:
        """Return the same with each name broken into lines that fit right of its layer."""
        room = self._room
        names = [
            wrap(
                layer.name,
                room.left + room.width - self._middle(layer, frame) - 6.0,
                room.letters,
            )
            for layer in self._layers
        ]
        return _Flags(self._layers, room, names)

    def marks(self, frame: Frame, window: _Window) -> tuple[PaperItem, ...]:
        """Return leaders and words."""
        size = self._room.letters
        marks: list[PaperItem] = []
        low = frame.page((0.0, window.low))[1]
        y = low + 8.0
        for layer, lines in zip(reversed(self._layers), reversed(self._names), strict=True):
            x = self._middle(layer, frame)
            marks.append(Line((x, low - 3.0), (x, y), Pen.DIMENSION))
            marks.append(Line((x, y), (x + 4.0, y), Pen.DIMENSION))
            for number, words in enumerate(lines):
                at = (x + 6.0, y + size * 0.3 + number * self._step)
                name = f"layer {layer.name}" if number == 0 else ""
                marks.append(Text(at, words, size, name=name))
            y += len(lines) * self._step + 2.0
        return tuple(marks)
