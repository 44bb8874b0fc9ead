"""Where the things of a plan stand: x from the left side, y out from the wall, z above the datum.

All views are drawn from this one record, so that they can't tell two stories. The finished wall,
with any layer still to come on it, is at y = 0.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate, pairwise

from bracecalc.records.job import Job
from bracecalc.records.plan import Plan, RestraintKind, ScrewRow, Stack
from bracecalc.records.scheme import Layup

Span = tuple[float, float]
TO_COME = "finish to come"


@dataclass(frozen=True, slots=True)
class Leaf:
    """One layer of the wall: its name, and its span out from the finished face (negative)."""

    name: str
    inner: float
    outer: float
    to_come: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """A board of the stack or a packer: its spans out from the wall and above the datum."""

    number: int
    out: Span
    up: Span


@dataclass(frozen=True, slots=True)
class Shaft:
    """A screw in the section: from its head to its tip, (y, z) each, and how far in framing.

    ``washer`` is the thickness of the washer under its head.
    """

    piece: int
    head: tuple[float, float]
    tip: tuple[float, float]
    embedment: float
    washer: float = 0.0


@dataclass(frozen=True, slots=True)
class Scene:
    """The places of everything that is drawn, in inches."""

    width: float
    unit: Span  # across
    unit_top: float  # height of its bearing top where it is drawn
    highest: float  # of the whole unit; its top where nothing stands over it
    gap: float  # from the finished wall to the rear of the housing
    soffit: float | None
    leaves: tuple[Leaf, ...]  # of the wall, the room's side first
    framing: Span  # out from the finished face: of the studs or the masonry
    across: Span | None  # of the boards or packers
    pieces: tuple[Piece, ...]
    shafts: tuple[Shaft, ...]

    @property
    def low(self) -> float:
        """Return the lowest height of the boards or packers, the unit's top without any."""
        return min((piece.up[0] for piece in self.pieces), default=self.unit_top)

    @property
    def high(self) -> float:
        """Return the highest height of the boards or packers."""
        return max((piece.up[1] for piece in self.pieces), default=self.unit_top)

    @property
    def reach_out(self) -> float:
        """Return how far the boards or packers reach out from the wall."""
        return max((piece.out[1] for piece in self.pieces), default=0.0)


def scene_of(plan: Plan) -> Scene:
    """Return the places of everything in a plan."""
    job = plan.job
    width = job.niche.narrowest
    side = (width - job.unit.width) / 2.0
    gap = plan.stack.rear_gap if plan.stack is not None else job.rear_gap
    soffit = min(job.niche.soffit, default=None)
    leaves = _leaves(job)
    face = leaves[-1].inner if leaves else 0.0
    pieces = _boards(plan) if plan.stack is not None else _packers(plan, soffit)
    top = unit_top(plan)
    return Scene(
        width=width,
        unit=(side, width - side),
        unit_top=top,
        highest=top + job.unit.highest - job.unit.height,
        gap=gap,
        soffit=soffit,
        leaves=leaves,
        framing=(face - job.wall.stud.depth, face),
        across=_across(plan, width),
        pieces=pieces,
        shafts=_shafts(plan, pieces, face, soffit),
    )


def unit_top(plan: Plan) -> float:
    """Return the height at which the unit's top is drawn: at contact, else with the legs in."""
    if plan.restraint.target_height is not None:
        return plan.restraint.target_height
    return max(plan.job.floor.spots) + plan.job.unit.height


def _leaves(job: Job) -> tuple[Leaf, ...]:
    face, found = 0.0, []
    named = [(layer.material, layer.thickness, False) for layer in job.wall.layers]
    if job.wall.finish_to_come:
        named.insert(0, (TO_COME, job.wall.finish_to_come, True))
    for name, thick, to_come in named:
        found.append(Leaf(name, face - thick, face, to_come))
        face -= thick
    return tuple(found)


def _across(plan: Plan, width: float) -> Span | None:
    if plan.stack is not None:
        return (plan.stack.left_end, plan.stack.left_end + plan.stack.length)
    if plan.packers is not None:
        side = (width - plan.packers.length) / 2.0
        return (side, width - side)
    return None


def _boards(plan: Plan) -> tuple[Piece, ...]:
    stack, under = plan.stack, plan.restraint.target_height
    if stack is None or under is None:
        return ()
    faces = tuple(accumulate(stack.thicknesses, initial=-stack.cut_back))
    return tuple(
        Piece(number, (near, far), (under, under + _up(stack, number)))
        for number, (near, far) in enumerate(pairwise(faces), start=1)
    )


def _up(stack: Stack, number: int) -> float:
    """Return how high a board of a stack stands: its width, on edge its thickness."""
    on_edge = stack.layup is Layup.EDGE_FIRST and number == 1 and stack.boards > 1
    return stack.thicknesses[-1] if on_edge else stack.width


def _packers(plan: Plan, soffit: float | None) -> tuple[Piece, ...]:
    if plan.packers is None or soffit is None:
        return ()
    faces = (0.0, *accumulate(plan.packers.pieces))
    start = plan.packers.from_wall  # over the rear of the housing
    return tuple(
        Piece(
            number,
            (start, start + plan.packers.depth),
            (soffit - faces[number], soffit - faces[number - 1]),
        )
        for number in range(1, len(faces))
    )


def _shafts(
    plan: Plan, pieces: tuple[Piece, ...], face: float, soffit: float | None
) -> tuple[Shaft, ...]:
    """Return the screws, each where its bite in the framing puts it."""
    by_number = {piece.number: piece for piece in pieces}
    over = (soffit or 0.0) + sum(layer.thickness for layer in plan.job.niche.soffit_layers or ())
    level = plan.restraint.kind is RestraintKind.STACK
    shafts = []
    for row in plan.screws:
        piece = by_number.get(row.board)
        if piece is None:
            continue
        for place in sorted({place for _, place in row.offsets}):
            shafts.append(
                _level_shaft(row, piece, place, face)
                if level
                else _upright_shaft(row, piece, piece.out[0] + place, over)
            )
    return tuple(shafts)


def _level_shaft(row: ScrewRow, board: Piece, height: float, face: float) -> Shaft:
    tip, z = face - row.embedment, board.up[0] + height
    head = tip + row.length
    washer = head - (board.out[1] - row.counterbore)
    return Shaft(row.board, (head, z), (tip, z), row.embedment, max(0.0, washer))


def _upright_shaft(row: ScrewRow, packer: Piece, out: float, over: float) -> Shaft:
    tip = over + row.embedment
    head = tip - row.length
    washer = (packer.up[0] + row.counterbore) - head
    return Shaft(row.board, (out, head), (out, tip), row.embedment, max(0.0, washer))
