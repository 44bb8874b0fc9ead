"""Sums that pieces can make, as bits of a whole number: bit f is set where they fill exactly f."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from bracecalc.cutting.model import Cuts


def with_copies(sums: int, width: int, count: int, room: int) -> int:
    """Return the sums up to ``room`` that up to ``count`` more pieces of one width can make.

    The count is taken in powers of two, so that few shifts do for many pieces.

    >>> bin(with_copies(0b1, 3, 2, 7))
    '0b1001001'
    """
    mask = (1 << (room + 1)) - 1
    left, size = min(count, room // width), 1
    while left:
        take = min(size, left)
        sums |= (sums << (take * width)) & mask
        left -= take
        size *= 2
    return sums


def fullest(sums: int, room: int) -> int:
    """Return the greatest sum that fits a room.

    >>> fullest(0b1001001, 5)
    3
    """
    return (sums & ((1 << (room + 1)) - 1)).bit_length() - 1


@dataclass(frozen=True, slots=True)
class Sums:
    """Pieces in an order of choice, and the sums that those from each place on can make."""

    widths: Sequence[int]
    left: Sequence[int] | Mapping[int, int]
    order: Sequence[int]
    tails: tuple[int, ...]

    @classmethod
    def of(
        cls,
        widths: Sequence[int],
        left: Sequence[int] | Mapping[int, int],
        order: Sequence[int],
        room: int,
    ) -> Sums:
        """Return the sums up to ``room`` of ``left`` pieces of each width, in this order."""
        tails = [1]
        for place in reversed(order):
            tails.append(with_copies(tails[-1], widths[place], left[place], room))
        tails.reverse()
        return cls(widths, left, order, tuple(tails))

    def fill(self, room: int) -> tuple[Cuts, int]:
        """Return the (place, how many) that fill a room most, and the room that is left over.

        Of fills alike, the one with most pieces of the first in the order.

        >>> Sums.of((5, 3), (2, 3), (0, 1), 9).fill(9)
        (((1, 3),), 0)
        """
        aim = fullest(self.tails[0], room)
        over = room - aim
        cuts = []
        for place, tail in zip(self.order, self.tails[1:], strict=True):
            if not aim:
                break
            width = self.widths[place]
            take = min(self.left[place], aim // width)
            while not tail >> (aim - take * width) & 1:
                take -= 1
            if take:
                cuts.append((place, take))
                aim -= take * width
        return tuple(sorted(cuts)), over
