"""What is to be cut, out of what, and the plan. Integers only: 1/32 in and the smallest coin."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

PER_INCH = 32  # the model's unit of length is 1/32 in


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """Pieces of one length: ``length`` in 1/32 in (rounded up), ``count`` of them."""

    length: int
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StickKind:
    """A stock length that can be bought, or an offcut on hand.

    Attributes:
        length: 1/32 in, rounded down.
        price: of one stick in the smallest coin; None where no price is known.
        on_hand: how many there are of an offcut; None for what can be bought without limit.
    """

    length: int
    price: int | None = None
    on_hand: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """What each cut takes: ``kerf`` of a cut, ``trim`` squared off each end; 1/32 in."""

    kerf: int = 4
    trim: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class CutTask:
    """Pieces of one species and size, the sticks that they may be cut from, and the saw."""

    pieces: tuple[Piece, ...]
    sticks: tuple[StickKind, ...]
    saw: Saw = Saw()


@dataclass(frozen=True, slots=True, kw_only=True)
class CutStick:
    """``count`` sticks of one kind cut alike; ``cuts`` are (length, how many), longest first."""

    stick: StickKind
    cuts: tuple[tuple[int, int], ...]
    count: int
    left_over: int  # 1/32 in, after the last kerf; 0 where nothing usable is left


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan:
    """How to cut, what it costs, and how good it is.

    Attributes:
        sticks: the patterns, dearest stick first, each with its count.
        cost: of all sticks bought, smallest coin; without prices the length bought, 1/32 in.
        bound: no plan can cost less; in the unit of ``cost``, found without the solver's word.
        priced: whether ``cost`` and ``bound`` are money.
        method: how the plan was found, in words.
    """

    sticks: tuple[CutStick, ...]
    cost: int
    bound: int
    priced: bool
    method: str

    @property
    def stick_count(self) -> int:
        """Number of sticks that are cut, offcuts on hand among them."""
        return sum(stick.count for stick in self.sticks)

    @property
    def proven(self) -> bool:
        """Whether the cost, added up anew, equals the bound: nothing cheaper exists."""
        return self.cost == self.bound

    @property
    def gap(self) -> Fraction:
        """How much dearer than the bound the plan is, as a part of the bound.

        >>> CutPlan(sticks=(), cost=1001, bound=1000, priced=True, method="").gap
        Fraction(1, 1000)
        """
        if self.bound == 0:
            return Fraction(0) if self.cost == 0 else Fraction(1)
        return Fraction(self.cost - self.bound, self.bound)
