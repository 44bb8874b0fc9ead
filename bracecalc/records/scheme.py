"""Ways to build a stack: what each needs, what it holds, and why it isn't had."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from bracecalc.records.bracing import SetScrew
from bracecalc.records.reference import ScrewKind


class Layup(StrEnum):
    """How the boards of a stack lie on one another."""

    FLAT = "all flat"
    THIN_LAST = "the outermost a 1-by"
    EDGE_FIRST = "one on edge against the wall"
    AS_BUILT = "as it stands"


class Backing(StrEnum):
    """What the screws of a stack bite in."""

    STUDS = "studs"
    BLOCKING = "solid blocking between the studs"


class Part(StrEnum):
    """What part of a stack sets what it holds."""

    SCREWS = "the screws of the outermost board"
    WASHER = "the outermost board under a washer"
    EDGE = "the first board's top edge against the wall"
    FINISH = "the wall finish under the top edge"
    BENDING = "bending of the outermost board"
    SPLITTING = "splitting of the outermost board along its screws"


class Lack(StrEnum):
    """Why a scheme does not hold, or can't be built: what would have to change."""

    STRENGTH = "overstressed"
    STUDS = "too few studs"
    END_DISTANCE = "studs too near the board's ends"
    SCREW_TOO_SHORT = "no screw reaches"
    SCREW_DOES_NOT_SEAT = "no screw fits the stud's depth or fills it with thread"
    COVERED_BOARD = "no screw for a covered board"
    CROWDED = "no room beside the other screws"
    SOFFIT = "no room under the soffit"
    TOO_DEEP = "too many boards"
    NOT_COVERED = "no screw that the method covers"


class Shortfall(NamedTuple):
    """One reason why a scheme is not had, with what it is measured by."""

    lack: Lack
    board: int | None = None  # board 1 is at the wall
    wanted: float | None = None  # in: length of screw, end distance, height; boards as a count
    there: float | None = None


class Scheme(NamedTuple):
    """One way to build the stack: what it needs, and what it holds in its worst case.

    ``use`` and ``capacity`` (lbf) are those of the worst case, None where no screws could be
    placed; ``shortfall`` says why it doesn't hold.
    """

    board: str
    boards: int
    layup: Layup
    backing: Backing
    finish_cut: bool
    height: float | None  # of the boards' underside above the datum
    kind: ScrewKind | None = None
    screw: str = ""
    length: float = 0.0
    counterbore: float = 0.0
    per_place: int = 0  # screws of all boards on one stud or place
    places: int = 0  # studs, or places in the blocking
    case: str = ""
    capacity: float | None = None
    use: float | None = None
    limited_by: Part | None = None
    shortfall: Shortfall | None = None

    @property
    def holds(self) -> bool:
        """Whether it is held in every case that was worked out."""
        return self.shortfall is None and self.use is not None and self.use <= 1.0 + 1e-9


class Reason(StrEnum):
    """Why a scheme was chosen."""

    CHEAPEST = "the cheapest that holds"
    SIZE_GIVEN = "the board's size was given"
    AS_BUILT = "it stands already"
    STRONGEST = "none holds: the strongest"


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """What the search of schemes found. ``chosen`` is the one that the plan tells.

    ``would_hold`` is the cheapest that holds where the chosen one doesn't, or where a size that
    was given isn't the cheapest.
    """

    TOLD = ("chosen", "why", "would_hold", "alternatives")

    chosen: Scheme
    reason: Reason
    why: str
    would_hold: Scheme | None = None
    alternatives: tuple[Scheme, ...] = ()

    @property
    def designed(self) -> bool:
        """Whether the search had a choice of boards that is worth a line."""
        return self.reason in (Reason.CHEAPEST, Reason.STRONGEST) or self.would_hold is not None


class Fault(StrEnum):
    """Why a screw that is in does not hold."""

    NO_WOOD = "no wood behind it"
    NEAR_EDGE = "too near the edge of the stud"
    TOO_SHORT = "too short for the wall"
    FAR_SIDE = "its tip comes out of the far side"
    GAP = "its published values are for a smaller gap"
    UNDER_HEAD = "too little wood under its head"
    NEAR_END = "too near the end of its board"
    OLD_HOLE = "too near another screw or an old hole"


@dataclass(frozen=True, slots=True)
class ScrewState:
    """A screw of boards that stand, judged where it is; no fault: it holds as its rule asks."""

    TOLD = (
        "board=screw.board",
        "size=screw.size",
        "length=screw.length",
        "from_left=screw.from_left",
        "above_underside=screw.above",
        "embedment",
        "required",
        "fault",
        "close",
    )

    screw: SetScrew
    embedment: float  # in what was found behind the boards; below 0 it doesn't reach the stud
    required: float
    fault: Fault | None
    close: bool = False  # within a reading's uncertainty of the least distance to the stud's edge
