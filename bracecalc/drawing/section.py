"""The niche from the side, cut at a screw: wall, boards, screws, the unit's rear top corner."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bracecalc.drawing.flattening import dimension_marks
from bracecalc.drawing.lettering import Face, clean, measure, wrap
from bracecalc.drawing.model import (
    Break,
    Circle,
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
    Role,
    Text,
    Tone,
    View,
    standard_scale,
)
from bracecalc.drawing.placing import (
    LEADING,
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
from bracecalc.text.findings import Lengths

_NEAR = 4.0  # in: a soffit farther up is left to the elevation
_LEAST = 5.0  # in: of the height that is shown, so that a wall looks like one
_LEAST_ROOM = 40.0  # points: for the thing itself, whatever its words take
_HEAD = 0.4  # in: width of a screw's head as drawn
_WASHER = 1.0  # in: width of a washer as drawn
_LEADER = 14.0
_AT = {
    StudMaterial.WOOD: "at a stud",
    StudMaterial.STEEL: "at a steel stud",
    StudMaterial.MASONRY: "through the masonry",
    StudMaterial.UNKNOWN: "wall with nothing known behind it",
}


@dataclass(frozen=True, slots=True)
class _Window:
    back: float
    front: float
    low: float
    high: float


def section(plan: Plan, shown: Shown, room: Room) -> Fitted:
    """Return the side section, as large as a usual scale allows in the room."""
    scene = scene_of(plan)
    dims = _Dimensions(scene, shown, room.letters)
    layout = _Layout(_bite_labels(scene, shown, plan), dims, room)
    layers = _LayerList(plan, scene, shown, room)
    frame, window = layout.frame(_core(plan, scene), layers.height)
    notes = (*layout.notes(frame, window), *layers.marks(frame, window))
    shapes = tuple(_shapes(plan, scene, window))
    label = f"Side section {_AT[plan.job.wall.stud.material]}"
    told = f"{label}. Layers from the room: {layers.told}. {dims.told}"
    view = View("section", label, frame, shapes, notes, told)
    words = max(note.box()[3] for note in notes if isinstance(note, Text))
    return Fitted(view, max(frame.page((0.0, window.low))[1] + layers.height, words))


class _Layout:
    """Divides the room between the drawing and the words around it."""

    def __init__(self, bites: list[Label], dims: _Dimensions, room: Room) -> None:
        self._room, self._dims = room, dims
        self._bites = that_fit(bites, room.height, room.letters)
        widest = max((label_width(label, room.letters) for label in self._bites), default=0.0)
        self._left = widest + _LEADER if self._bites else 4.0

    def frame(self, core: _Window, under: float) -> tuple[Frame, _Window]:
        """Return where the section lies on the page and what part of the wall it shows."""
        room, dims = self._room, self._dims
        across = room.width - self._left - dims.right
        words = sum(label_height(label, room.letters) for label in self._bites)
        tall = max(room.height - under, words) - dims.above - dims.under
        across, tall = max(across, _LEAST_ROOM), max(tall, _LEAST_ROOM)
        wide, high = core.front - core.back, core.high - core.low
        scale = min(standard_scale(across, wide), standard_scale(tall, high))
        window = replace(
            core,
            front=core.front + dims.right / scale,
            low=core.low - dims.under / scale,
            high=core.high + dims.above / scale,
        )
        spare = max(0.0, words - (window.high - window.low) * scale)
        x = room.left + self._left - window.back * scale
        return Frame(scale, (x, room.top + spare + window.high * scale)), window

    def notes(self, frame: Frame, window: _Window) -> tuple[PaperItem, ...]:
        """Return the words left of the wall, and the dimensions."""
        room = self._room
        x, top = frame.page((window.back, window.high))
        places = [replace(one, place=frame.page((0.0, one.place))[1]) for one in self._bites]
        low = frame.page((0.0, window.low))[1]
        where = Column(x, x - _LEADER + 2.0, min(top, room.top), low)
        return (*column(places, where, room.letters), *self._dims.marks(frame))


def _core(plan: Plan, scene: Scene) -> _Window:
    """Return what must be seen, without the room for words around it."""
    low, high = min(scene.low, scene.unit_top), max(scene.high, scene.unit_top)
    if scene.soffit is not None and scene.soffit < high + _NEAR:
        low, high = min(low, scene.soffit), max(high, scene.soffit)
        high += sum(layer.thickness for layer in plan.job.niche.soffit_layers or ())
    high = max([high, scene.highest, *(shaft.tip[1] for shaft in scene.shafts)])
    back = min([scene.framing[0], scene.gap, *(shaft.tip[0] for shaft in scene.shafts)])
    low = min(low, high - _LEAST)
    return _Window(back, max(scene.reach_out, scene.gap, 0.0), low, high)


def _shapes(plan: Plan, scene: Scene, window: _Window) -> Iterator[Item]:
    yield from _wall_shapes(plan, scene, window)
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
    if scene.highest > top + 1e-9:
        yield Line((scene.gap, scene.highest), (window.front, scene.highest), Pen.HIDDEN, "highest")
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
    ends = (scene.framing[0], window.front)
    yield Break((ends[0], window.low), (ends[1], window.low), "cut off below")
    yield Break((ends[0], window.high), (0.0, window.high), "cut off above")


def _wall_shapes(plan: Plan, scene: Scene, window: _Window) -> Iterator[Item]:
    """Yield the framing with the filling of its kind, and each layer before it."""
    corners = (scene.framing[0], window.low), (scene.framing[1], window.high)
    yield Rect(*corners, Pen.NONE, Tone.STUD, "stud")
    for x in scene.framing:
        yield Line((x, window.low), (x, window.high), Pen.EDGE)
    material = plan.job.wall.stud.material
    if material is StudMaterial.WOOD:
        yield Hatch(*corners, Pattern.GRAIN, 7.0)
    elif material is StudMaterial.MASONRY:
        yield Hatch(*corners, Pattern.DIAGONAL, 4.0)
    for number, leaf in enumerate(scene.leaves, start=1):
        corners = (leaf.inner, window.low), (leaf.outer, window.high)
        tone = Tone.PAPER if leaf.to_come else Tone.FINISH
        yield Rect(*corners, Pen.NONE, tone, f"layer {number}")
        pen = Pen.HIDDEN if leaf.to_come else Pen.EDGE
        yield Line((leaf.outer, window.low), (leaf.outer, window.high), pen)
    yield Line((0.0, window.low), (0.0, window.high), Pen.CUT, "finished wall")


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
    half, wide, thick = _HEAD / 2.0, _WASHER / 2.0, shaft.washer
    level = abs(y1 - y0) >= abs(z1 - z0)
    if level:
        yield Line((y0, z0 - half), (y0, z0 + half), Pen.CUT)
    else:
        yield Line((y0 - half, z0), (y0 + half, z0), Pen.CUT)
    if thick > 1e-9:
        name = f"washer {shaft.piece}.{number}"
        near, far = ((y0 - thick, z0 - wide), (y0, z0 + wide))
        if not level:
            near, far = ((y0 - wide, z0), (y0 + wide, z0 + thick))
        yield Rect(near, far, Pen.EDGE, Tone.INK, name)


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


def _bite_labels(scene: Scene, shown: Shown, plan: Plan) -> list[Label]:
    """Return what each screw bites into the framing; their places are heights still."""
    found = []
    wood = plan.job.wall.stud.material is StudMaterial.WOOD
    for shaft in _first_of_each(scene):
        level = shaft.head[1] == shaft.tip[1]
        piece = "board" if level else Lengths(plan.job).say("sheet.spacer")
        member = ("into stud" if wood else "into wall") if level else "into framing"
        lines = (f"{piece} {shaft.piece}", *shown.down(shaft.embedment), member)
        found.append(Label(shaft.tip[1], lines, name=f"embedment {shaft.piece}", bold=1))
    return found


class _Dimensions:
    """Overlap and rear gap under the boards; how far the boards stand out, over them."""

    def __init__(self, scene: Scene, shown: Shown, size: float) -> None:
        self._scene, self._size = scene, size
        lap = scene.reach_out - scene.gap
        self._lines = [("rear gap", shown.near(scene.gap), (0.0, scene.gap))]
        if scene.pieces:
            ends = (scene.gap, scene.reach_out)
            self._lines.insert(0, ("overlap", shown.down(lap), ends))
        on_wall = any(piece.out[0] <= 0.0 for piece in scene.pieces)
        self._out = [("out", shown.near(scene.reach_out), (0.0, scene.reach_out))] * on_wall
        every = [*self._out, *self._lines]
        self.told = "; ".join(f"{name} {beside(lines)}" for name, lines, _ in every) + "."
        self.right = _LEADER + max(
            measure(name, size, Face.BOLD) + 4.0 + max(measure(one, size) for one in lines)
            for name, lines, _ in every
        )
        self._step = size * LEADING * shown.count + 5.0
        self.under = (len(self._lines) + 1) * self._step + 6.0
        self.above = self._step + 8.0

    def marks(self, frame: Frame) -> tuple[PaperItem, ...]:
        """Return the dimension lines, each name in bold before its number."""
        scene = self._scene
        edge = frame.page((max(scene.reach_out, scene.gap, 0.0), 0.0))[0] + 6.0
        marks: list[PaperItem] = []
        lines = [
            (line, scene.unit_top, -self._step * (number - 1) - self._size - 5.0)
            for number, line in enumerate(self._lines, start=1)
        ]
        lines += [(line, scene.high, self._step - 3.0) for line in self._out]
        for (name, number, (start, end)), height, offset in lines:
            line = Dimension((start, height), (end, height), offset, "", self._size, name=name)
            marks.extend(dimension_marks(line, frame))
            base = frame.page((0.0, height))[1] - offset + self._size * 0.3
            words = self._words(name, number, (edge, base))
            if name == "out":  # over a hatched soffit it would not be readable
                boxes = [one.box() for one in words]
                corner = (boxes[0][0] - 1.0, boxes[0][1])
                far = (max(box[2] for box in boxes) + 1.0, max(box[3] for box in boxes))
                marks.append(Rect(corner, far, Pen.NONE, Tone.PAPER))
            marks.extend(words)
        drop = len(self._lines) * self._step + self._size + 5.0
        base = frame.page((0.0, scene.unit_top))[1] + drop + self._size * 0.3
        at = (edge, base)
        marks.append(Text(at, "appliance", self._size, face=Face.BOLD, name="unit words"))
        return tuple(marks)

    def _words(self, name: str, number: tuple[str, ...], at: tuple[float, float]) -> list[Text]:
        """Return a dimension's name in bold and its numbers after it, one under another."""
        size, (x, base) = self._size, at
        after = x + measure(name, size, Face.BOLD) + 4.0
        words = [Text(at, name, size, face=Face.BOLD, name=f"{name} words")]
        return words + [
            Text((after, base + place * size * LEADING), one, size, role=Role.MORE)
            for place, one in enumerate(number)
        ]


class _LayerList:
    """One leader through all layers of the wall, and under it their list from the room inward."""

    def __init__(self, plan: Plan, scene: Scene, shown: Shown, room: Room) -> None:
        self._scene, self._room = scene, room
        stud = plan.job.wall.stud
        names = [
            f"{beside(shown.near(leaf.outer - leaf.inner))} {clean(leaf.name)}"
            for leaf in scene.leaves
        ]
        size = f"{beside(shown.near(stud.width))} x {beside(shown.near(stud.depth))}"
        kinds = {
            StudMaterial.WOOD: f"stud {size} {clean(stud.species)}",
            StudMaterial.STEEL: f"steel stud {size}",
            StudMaterial.MASONRY: "masonry",
            StudMaterial.UNKNOWN: "not known what",
        }
        names.append(kinds[stud.material])
        self.told = "; ".join(names)
        self._step = room.letters * 1.22
        width = room.width - 14.0
        self._lines = [wrap(f"\u2022\u00a0{one}", width, room.letters) for one in names]
        self.height = (sum(len(lines) for lines in self._lines) + 1) * self._step + 12.0

    def marks(self, frame: Frame, window: _Window) -> tuple[PaperItem, ...]:
        """Return the leader, a dot in each layer, and the list."""
        scene, room = self._scene, self._room
        size = room.letters
        spans = [*((leaf.inner, leaf.outer) for leaf in scene.leaves), scene.framing]
        places = [frame.page(((a + b) / 2.0, window.low)) for a, b in spans]
        y = places[0][1] - 7.0
        foot = places[0][1] + 8.0
        marks: list[PaperItem] = [
            Line((places[-1][0], y), (places[0][0], y), Pen.DIMENSION, "layers"),
            Line((places[-1][0], y), (places[-1][0], foot), Pen.DIMENSION),
        ]
        marks += [Circle((x, y), 1.0, Pen.EDGE, Tone.INK) for x, _ in places]
        base = foot + size
        heading = "Layers from the room"
        marks.append(Text((room.left, base), heading, size, face=Face.BOLD, name="layer list"))
        for number, lines in enumerate(self._lines, start=1):
            for place, words in enumerate(lines):
                base += self._step
                role = Role.MORE if place else Role.PLAIN
                name = "" if place else f"layer {number} words"
                marks.append(Text((room.left, base), words, size, name=name, role=role))
        return tuple(marks)
