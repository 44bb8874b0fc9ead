"""What a crew may do on site to put a deviation right, each with its figures. Inches.

Heights are above the datum. The words are made in ``text/actions.py``.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar, NamedTuple

from bracecalc.records.bracing import SetScrew


class ActionKind(StrEnum):
    """What is done."""

    SHIM_GAP = "shim the gap"
    SHIM_UNDER = "shim under the restraint"
    LOWER_BOARDS = "lower the boards"
    RAISE_BOARDS = "raise the boards"
    OTHER_SCREWS = "use other screws"
    MOVE_SCREWS = "move screws"
    TAKE_DOWN = "take the boards down"
    BOARD_IN_FRONT = "add a board in front"
    THINNER_IN_FRONT = "put a thinner board in front"
    REBUILD = "rebuild the stack"
    PUT_UP = "put boards up"
    FREE_LEG = "free a leg"
    TRIM_OFF = "take the trim off"
    ROLL_OUT = "roll the appliance out"
    BLOCKING = "add solid blocking"
    STAND_PROUDER = "let the appliance stand farther proud"
    PLATES = "put plates under legs"
    TAKE_FLOOR_OUT = "take floor out"
    RAISE_SOFFIT = "raise the soffit"
    LOWER_SOFFIT = "bring the soffit down"


class ScrewSource(StrEnum):
    """Where screws come from."""

    HELD = "as planned"
    ON_HAND = "on hand"
    LISTED = "listed in the job"
    TO_FETCH = "to get: not on the truck"


class Piece(NamedTuple):
    """A stock piece by its name in the trade."""

    name: str
    thickness: float


@dataclass(frozen=True, slots=True)
class ShimGap:
    """Fill the gap at the end of the restraint that the top does not touch."""

    kind: ClassVar[ActionKind] = ActionKind.SHIM_GAP

    gap: float
    end: str  # "left" or "right"
    pieces: tuple[str, ...]  # stock that fills it


@dataclass(frozen=True, slots=True)
class ShimUnder:
    """Fasten pieces under the restraint over the whole overlap; ``at_gap`` more at one end."""

    kind: ClassVar[ActionKind] = ActionKind.SHIM_UNDER

    boards: bool  # under boards; else under the soffit
    pieces: tuple[Piece, ...]
    at_gap: float
    end: str = ""  # "left" or "right", where it stands higher


@dataclass(frozen=True, slots=True)
class MoveBoards:
    """Set the boards elsewhere: those that stand are taken down, others go up there at once."""

    by: float  # up; below 0 down
    underside: float
    stand: bool
    level: bool  # they stand out of level and are set level

    @property
    def kind(self) -> ActionKind:
        """Whether they go down or up."""
        return ActionKind.LOWER_BOARDS if self.by < 0.0 else ActionKind.RAISE_BOARDS


@dataclass(frozen=True, slots=True)
class OtherScrews:
    """Use other screws than those held to."""

    kind: ClassVar[ActionKind] = ActionKind.OTHER_SCREWS

    source: ScrewSource


@dataclass(frozen=True, slots=True)
class MoveScrews:
    """Back screws of the boards that stand out, and drive others, each at its place."""

    kind: ClassVar[ActionKind] = ActionKind.MOVE_SCREWS

    backed_out: tuple[SetScrew, ...]
    driven: tuple[SetScrew, ...]
    source: ScrewSource


@dataclass(frozen=True, slots=True)
class TakeDown:
    """Take the boards down and put new ones up, fastened anew beside the old holes."""

    kind: ClassVar[ActionKind] = ActionKind.TAKE_DOWN

    underside: float


@dataclass(frozen=True, slots=True)
class BoardInFront:
    """Add a board in front of the stack."""

    kind: ClassVar[ActionKind] = ActionKind.BOARD_IN_FRONT

    board: Piece


@dataclass(frozen=True, slots=True)
class ThinnerInFront:
    """Put a thinner board in the place of the outermost one."""

    kind: ClassVar[ActionKind] = ActionKind.THINNER_IN_FRONT

    board: Piece


@dataclass(frozen=True, slots=True)
class Rebuild:
    """Build the stack anew of another size; ``boards`` is their number where it changes too."""

    kind: ClassVar[ActionKind] = ActionKind.REBUILD

    size: str
    underside: float
    boards: int | None = None


@dataclass(frozen=True, slots=True)
class PutUp:
    """Put boards up on the rear wall, where none were planned."""

    kind: ClassVar[ActionKind] = ActionKind.PUT_UP

    size: str
    boards: int
    underside: float


@dataclass(frozen=True, slots=True)
class FreeLeg:
    """Free or replace a leg that does not turn, one of CORNERS."""

    kind: ClassVar[ActionKind] = ActionKind.FREE_LEG

    corner: str


@dataclass(frozen=True, slots=True)
class TrimOff:
    """Take cover trim off that is in the way."""

    kind: ClassVar[ActionKind] = ActionKind.TRIM_OFF


@dataclass(frozen=True, slots=True)
class RollOut:
    """Roll the appliance out of the niche first."""

    kind: ClassVar[ActionKind] = ActionKind.ROLL_OUT


@dataclass(frozen=True, slots=True)
class AddBlocking:
    """Build solid blocking in behind the whole stack, between the studs at these spots."""

    kind: ClassVar[ActionKind] = ActionKind.BLOCKING

    studs: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class StandProuder:
    """Let the unit stand farther out of the niche."""

    kind: ClassVar[ActionKind] = ActionKind.STAND_PROUDER

    by: float


@dataclass(frozen=True, slots=True)
class ChangeFloor:
    """Put solid plates under legs, take floor out at others (CORNERS), or along the way in."""

    plates: tuple[tuple[str, float], ...]
    taken_out: tuple[tuple[str, float], ...]
    off_the_path: float = 0.0  # off the highest floor on the way in

    @property
    def kind(self) -> ActionKind:
        """Whether any floor is taken out."""
        taken = self.taken_out or self.off_the_path
        return ActionKind.TAKE_FLOOR_OUT if taken else ActionKind.PLATES


@dataclass(frozen=True, slots=True)
class MoveSoffit:
    """Have the soffit's underside elsewhere."""

    by: float  # up; below 0 down
    underside: float

    @property
    def kind(self) -> ActionKind:
        """Whether it goes down or up."""
        return ActionKind.LOWER_SOFFIT if self.by < 0.0 else ActionKind.RAISE_SOFFIT


Action = (
    ShimGap
    | ShimUnder
    | MoveBoards
    | OtherScrews
    | MoveScrews
    | TakeDown
    | PutUp
    | FreeLeg
    | TrimOff
    | RollOut
    | BoardInFront
    | ThinnerInFront
    | Rebuild
    | AddBlocking
    | StandProuder
    | ChangeFloor
    | MoveSoffit
)
