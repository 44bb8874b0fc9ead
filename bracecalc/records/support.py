"""What keeps the top down, a type for each kind of restraint, with what it is made of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar, NamedTuple

from bracecalc.records.findings import Margin
from bracecalc.records.reference import ScrewKind
from bracecalc.records.scheme import Backing, Layup, ScrewState


class RestraintKind(StrEnum):
    """What keeps the top of the unit down."""

    SOFFIT = "soffit"
    PACKERS = "packers"
    STACK = "stack"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """The boards on the rear wall. ``thicknesses`` runs from the wall outward."""

    TOLD = ("boards", "board", "length", "rear_gap", "overlap")

    boards: int
    board: str
    species: str
    thicknesses: tuple[float, ...]
    width: float  # of the outermost board, upright
    least_width: float  # that all boards have: their screws stand in it
    length: float
    left_end: float  # from the left side of the niche
    rear_gap: float
    overlap: float
    overlap_margin: Margin
    layup: Layup = Layup.FLAT
    backing: Backing = Backing.STUDS
    cut_back: float = 0.0  # build-up cut away behind the boards, which then stand on the studs

    @property
    def projection(self) -> float:
        """Distance from the finished wall to the face of the outermost board."""
        return sum(self.thicknesses) - self.cut_back


@dataclass(frozen=True, slots=True, kw_only=True)
class Packers:
    """Pieces under the soffit, from the soffit down: what each is called, and its thickness."""

    TOLD = ("pieces", "total", "length", "depth", "from_wall")

    sizes: tuple[str, ...]
    pieces: tuple[float, ...]
    length: float
    depth: float
    from_wall: float = 0.0  # their rear edge out from the finished rear wall

    @property
    def total(self) -> float:
        """Thickness of all pieces."""
        return sum(self.pieces)


@dataclass(frozen=True, slots=True, kw_only=True)
class Studs:
    """The framing behind the stack. Spots from the left side of the niche.

    ``used`` is empty with spacing alone, as the spots aren't known: ``sure`` and ``best_case``
    count them. ``why_not`` says of each spot that isn't used why.
    """

    TOLD = ("spots", "used", "sure", "best_case")

    spots: tuple[float, ...]
    used: tuple[float, ...]
    sure: int
    best_case: int
    why_not: Mapping[float, str]
    strip_low: float | None  # strip of wall in which to find the studs, above the datum
    strip_high: float | None


class Purpose(StrEnum):
    """What a hole is for."""

    COUNTERBORE = "counterbore"
    CLEARANCE = "clearance"
    LEAD = "lead"


class Hole(NamedTuple):
    """One step of drilling for a screw: in what, with which bit."""

    member: str
    bit: float
    purpose: Purpose


class Washer(NamedTuple):
    """A washer under a screw's head, in; no diameter where the job gives its thickness alone."""

    diameter: float | None
    thickness: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewRow:
    """The screws of one board of the stack (board 1 is at the wall) or of one packer.

    ``positions`` are (distance from the left side of the niche, height above the underside of the
    board); for packers (from the left side, distance out from the rear wall).
    """

    TOLD = (
        "board",
        "size",
        "kind",
        "length",
        "counterbore",
        "embedment",
        "per_stud",
        "count",
        "tip_to_far_side",
        "washer",
        "holes",
        "positions",
    )

    board: int
    size: str
    kind: ScrewKind
    length: float
    counterbore: float
    thread_length: float
    embedment: float
    required_embedment: float
    per_stud: int
    count: int
    tip_to_far_side: float
    holes: tuple[Hole, ...]
    positions: tuple[tuple[float, float], ...]
    offsets: tuple[
        tuple[float, float], ...
    ]  # at one stud: (from the stud's centre, above the underside)
    washer: Washer | None = None
    metric: bool = False  # sold in millimetres


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """One screw of the outermost board, before load duration; the schema names the parts."""

    method: str
    gap: float
    mode: str
    lateral: float
    withdrawal: float
    pull_through: float
    factors: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class SoffitSupport:
    """The soffit itself keeps the top down; nothing is built."""

    kind: ClassVar[RestraintKind] = RestraintKind.SOFFIT
    screws: ClassVar[tuple[ScrewRow, ...]] = ()

    overlap: float  # at the greatest depth reading


@dataclass(frozen=True, slots=True, kw_only=True)
class PackerSupport:
    """Packers under the soffit keep the top down; their screws only keep them in place."""

    kind: ClassVar[RestraintKind] = RestraintKind.PACKERS

    packers: Packers
    overlap: float  # at the greatest depth reading
    overlap_known: bool  # how wide packers are that stand already is not asked for
    screws: tuple[ScrewRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StackSupport:
    """Boards on the rear wall keep the top down, by their screws in the studs."""

    kind: ClassVar[RestraintKind] = RestraintKind.STACK

    stack: Stack
    studs: Studs | None  # None where the wall has no wood to bite in
    screws: tuple[ScrewRow, ...]
    strength: Strength | None  # None where no screw fits
    standing: tuple[ScrewState, ...] = ()  # the screws that are in, where they are known

    @property
    def overlap(self) -> float:
        """Overlap at the greatest depth reading."""
        return self.stack.overlap


TopSupport = SoffitSupport | PackerSupport | StackSupport
