"""What a shop asks: amounts in the smallest coin, by the piece, the box or the measure.

The rows of a list are read in ``price_rows``; here stands what they come to for a stick, a screw,
a packer. What a list has a price for is told apart from what it was read for: a row that nobody
could use is as dangerous as one that is missing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from enum import StrEnum
from typing import NamedTuple

from bracecalc.order.items import PER_INCH, is_metric
from bracecalc.tables.rows import folded

FOOT = 12 * PER_INCH
METRE = Decimal(1000) / Decimal("25.4") * PER_INCH  # in 1/32 in
# ISO 4217 minor units other than 2 decimals (the common ones, from memory)
NO_COINS = frozenset(("CLP", "ISK", "JPY", "KRW", "VND", "XAF", "XOF", "XPF"))
THOUSANDTHS = frozenset(("BHD", "JOD", "KWD", "OMR", "TND"))


class By(StrEnum):
    """What an amount buys."""

    PIECE = "piece"
    FOOT = "foot"
    METRE = "metre"
    BOARD_FOOT = "board foot"
    CUBIC_METRE = "cubic metre"
    NICHE = "niche"
    ORDER = "order"


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """One row of a price list: ``amount`` buys ``many`` of what it is ``by``.

    ``whole``: they are only sold together, as a box of screws or a bundle of sticks.
    """

    amount: Decimal
    many: int = 1
    by: By = By.PIECE
    whole: bool = False
    row: int = 0


class StickKey(NamedTuple):
    """How a stick is found in a list: names of the tables, length in 1/32 in (0: any)."""

    size: str
    species: str
    length: int


ScrewKey = tuple[str, str, int]  # kind, size, length in tenths of a millimetre


class UnreadRow(NamedTuple):
    """A row of a list that nothing is priced by, and why."""

    row: int
    item: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StickPrice:
    """What one stick costs: in the smallest coin, rounded up; ``bundle`` are sold together."""

    each: int
    row: int
    bundle: int = 1
    bundle_price: int = 0

    def cost(self, count: int) -> int:
        """Return what so many sticks cost, in whole bundles where they are sold so."""
        return self.bundles(count) * self.bundle_price if self.bundle > 1 else count * self.each

    def bundles(self, count: int) -> int:
        """Return how many bundles hold so many sticks.

        >>> StickPrice(each=450, row=2, bundle=8, bundle_price=3600).bundles(17)
        3
        """
        return -(-count // self.bundle)


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceList:
    """All prices that could be understood, in one currency.

    ``others`` are items that are neither lumber, screws, washers nor packers, by their text:
    screws with values of their maker are found by it.
    """

    where: str
    currency: str
    sticks: Mapping[StickKey, Price]
    screws: Mapping[ScrewKey, Price]
    packers: Mapping[str, Price]
    washers: Mapping[str, Price]
    services: Mapping[str, Price]
    others: Mapping[str, Price]
    items: Mapping[int, str]  # what stands in each row
    unread: tuple[UnreadRow, ...] = ()

    @property
    def decimals(self) -> int:
        """Decimals of the smallest coin: 2 for cents."""
        if self.currency in NO_COINS:
            return 0
        return 3 if self.currency in THOUSANDTHS else 2

    def coins(self, amount: Decimal) -> int:
        """Return an amount in the smallest coin, rounded up."""
        return int((amount * 10**self.decimals).to_integral_value(rounding=ROUND_CEILING))

    def stick(self, key: StickKey, board_feet: float) -> StickPrice | None:
        """Return what one stick costs; None where the list has no price for it.

        Args:
            key: the stick, with its length.
            board_feet: of the stick by nominal size, for a price by the board foot.
        """
        price = self.sticks.get(key)
        if price is None:
            price = self.sticks.get(key._replace(length=0))
        if price is None:
            return None
        amount = price.amount * self._measure(price.by, key, board_feet)
        bundle = price.many if price.whole else 1
        return StickPrice(
            each=self.coins(amount / price.many),
            row=price.row,
            bundle=bundle,
            bundle_price=self.coins(amount) if bundle > 1 else 0,
        )

    def _measure(self, by: By, key: StickKey, board_feet: float) -> Decimal:
        """Return how much of what it is sold by is in one stick."""
        if by is By.FOOT:
            return Decimal(key.length) / FOOT
        if by is By.METRE:
            return Decimal(key.length) / METRE
        if by is By.BOARD_FOOT:
            return Decimal(str(round(board_feet, 6)))
        if by is By.CUBIC_METRE:
            thick, _, wide = key.size.partition("x")
            return Decimal(thick) * Decimal(wide) / 1_000_000 * Decimal(key.length) / METRE
        return Decimal(1)

    def stick_lengths(self, size: str, species: str) -> tuple[int, ...]:
        """Return the lengths of a size and species that have a price of their own, 1/32 in."""
        return tuple(
            sorted(
                key.length
                for key in self.sticks
                if (key.size, key.species) == (size, species) and key.length
            )
        )

    def run(self, price: Price, length: int) -> Decimal:
        """Return what one piece of a length costs; ``length`` in 1/32 in."""
        if price.by is By.FOOT:
            return price.amount * Decimal(length) / FOOT
        if price.by is By.METRE:
            return price.amount * Decimal(length) / METRE
        return price.amount


def fits_lumber(by: By, size: str, *, long: bool) -> str:
    """Return what is wrong with the unit of a stick's price; empty if it fits.

    >>> fits_lumber(By.BOARD_FOOT, "47x145", long=True)
    'metre, cubic metre or each: board feet are reckoned from nominal inches'
    >>> fits_lumber(By.FOOT, "2x4", long=False)
    ''
    """
    if by is By.PIECE and not long:
        return "a length in the item, as 16 ft; or a price by the foot or metre"
    if by is By.BOARD_FOOT and is_metric(size):
        return "metre, cubic metre or each: board feet are reckoned from nominal inches"
    if by is By.CUBIC_METRE and not is_metric(size):
        return "each, foot or board foot: a cubic metre of nominal inches can be two things"
    if by in (By.NICHE, By.ORDER):
        return "each, foot, board foot, metre or cubic metre"
    return ""


def screw_key(kind: str, size: str, length: float) -> ScrewKey:
    """Return how a screw is found in a price list.

    >>> screw_key("wood screw", "No. 10", 3.0)
    ('wood screw', '10', 762)
    """
    return kind, folded(size), round(length * 254)
