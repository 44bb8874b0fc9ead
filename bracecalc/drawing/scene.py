"""Where the things of a plan stand: x from the left side, y out from the wall, z above the datum.

Both views are drawn from this one record, so that they can't tell two stories.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate

from bracecalc.records.plan import Plan, ScrewRow

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Piece:
    """A board of the stack or a packer: its spans out from the wall and above the datum."""

    number: int
    out: Span
    up: Span


@dataclass(frozen=True, slots=True)
class Shaft:
    """A screw in the section: from its head to its tip, (y, z) each, and how far in wood."""

    piece: int
    head: tuple[float, float]
    tip: tuple[float, float]
    embedment: float


@dataclass(frozen=True, slots=True)
class Scene:
    """The places of everything that is drawn, in inches."""

    width: float
    unit: Span  # across
    unit_top: float  # height of its top where it is drawn
    gap: float  # from the finished wall to the rear of the housing
    soffit: float | None
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
    gap = job.rear_gap
    soffit = min(job.niche.soffit, default=None)
    pieces = _boards(plan) if plan.stack is not None else _packers(plan, gap, soffit)
    return Scene(
        width=width,
        unit=(side, width - side),
        unit_top=unit_top(plan),
        gap=gap if plan.stack is None else plan.stack.rear_gap,
        soffit=soffit,
        across=_across(plan, width),
        pieces=pieces,
        shafts=_shafts(plan, pieces, gap),
    )


def unit_top(plan: Plan) -> float:
    """Return the height at which the unit's top is drawn: at contact, else with the legs in."""
    if plan.restraint.target_height is not None:
        return plan.restraint.target_height
    floor = plan.job.floor
    return max(floor.spots) + plan.job.unit.height


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
    faces = (0.0, *accumulate(stack.thicknesses))
    return tuple(
        Piece(number, (faces[number - 1], faces[number]), (under, under + stack.width))
        for number in range(1, len(faces))
    )


def _packers(plan: Plan, gap: float, soffit: float | None) -> tuple[Piece, ...]:
    if plan.packers is None or soffit is None:
        return ()
    faces = (0.0, *accumulate(plan.packers.pieces))
    out = (gap, gap + plan.packers.depth)  # over the rear of the housing
    return tuple(
        Piece(number, out, (soffit - faces[number], soffit - faces[number - 1]))
        for number in range(1, len(faces))
    )


def _shafts(plan: Plan, pieces: tuple[Piece, ...], gap: float) -> tuple[Shaft, ...]:
    by_number = {piece.number: piece for piece in pieces}
    shafts = []
    for row in plan.screws:
        piece = by_number.get(row.board)
        if piece is None:
            continue
        for place in sorted({place for _, place in row.offsets}):
            shafts.append(
                _level_shaft(row, piece, place)
                if plan.stack is not None
                else _upright_shaft(row, piece, gap + place)
            )
    return tuple(shafts)


def _level_shaft(row: ScrewRow, board: Piece, height: float) -> Shaft:
    face, z = board.out[1] - row.counterbore, board.up[0] + height
    return Shaft(row.board, (face, z), (face - row.length, z), row.embedment)


def _upright_shaft(row: ScrewRow, packer: Piece, out: float) -> Shaft:
    face = packer.up[0] + row.counterbore
    return Shaft(row.board, (out, face), (out, face + row.length), row.embedment)
