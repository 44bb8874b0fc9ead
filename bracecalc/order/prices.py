"""What a shop asks: the user's price list, read into amounts of the smallest coin.

A price list is a CSV with the columns item, unit, price and currency. Items are named as the
trade names them: ``2x4 SPF 8 ft``, ``No. 10 x 3 in wood screw``, ``3/4 plywood packer``. A list
may hold much that is never asked for.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal, InvalidOperation
from pathlib import Path
from typing import TypeVar

from bracecalc.errors import JobError, Mistake
from bracecalc.records.job import Units
from bracecalc.records.reference import Tables
from bracecalc.tables.rows import folded
from bracecalc.text.lengths import QuantityError, parse_length

COLUMNS = ("item", "unit", "price", "currency")
PER_INCH = 32
# ISO 4217 minor units other than 2 decimals (the common ones, from memory)
NO_COINS = frozenset(("CLP", "ISK", "JPY", "KRW", "VND", "XAF", "XOF", "XPF"))
THOUSANDTHS = frozenset(("BHD", "JOD", "KWD", "OMR", "TND"))

_STICK = re.compile(r"(?P<size>\S+)\s+(?P<species>.+?)(?:\s+(?P<length>[0-9][^a-z]*[a-z'\"]+\.?))?")
_SCREW = re.compile(
    r"(?P<size>(?:no\.?\s*|#)?[0-9/]+(?:\s*mm)?|m[0-9]+)(?:\s*in\.?|\")?\s*x\s*(?P<length>.+?)"
    r"\s+(?P<kind>[a-z]+ screw|screw)s?"
)
_UNIT = re.compile(r"(?:(?:box|pack|bag) of\s*|per\s*)?(?P<many>[0-9][0-9 ]*)|(?P<word>[a-z. ]+)")
_EACH = frozenset(("each", "piece", "pc", "stick", "ea"))
_FOOT = frozenset(("foot", "ft", "per foot", "per ft", "linear foot"))
_BOARD_FOOT = frozenset(("board foot", "bf", "per board foot", "bd ft"))

StickKey = tuple[str, str, int]  # size, species, length in 1/32 in (0: any length)
ScrewKey = tuple[str, str, int]  # kind, size, length in tenths of a millimetre
Key = TypeVar("Key")


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """One row of a price list: ``amount`` buys ``many`` of a kind, or one (board) foot of it."""

    amount: Decimal
    many: int = 1
    by: str = "piece"  # "piece", "foot" or "board foot"


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceList:
    """All prices that could be understood, in one currency."""

    where: str
    currency: str
    sticks: Mapping[StickKey, Price]
    screws: Mapping[ScrewKey, Price]
    packers: Mapping[str, Price]

    @property
    def decimals(self) -> int:
        """Decimals of the smallest coin: 2 for cents."""
        if self.currency in NO_COINS:
            return 0
        return 3 if self.currency in THOUSANDTHS else 2

    def coins(self, amount: Decimal) -> int:
        """Return an amount in the smallest coin, rounded up.

        >>> PriceList(where="", currency="USD", sticks={}, screws={}, packers={}).coins(
        ...     Decimal("4.155"))
        416
        """
        return int((amount * 10**self.decimals).to_integral_value(rounding=ROUND_CEILING))

    def stick(self, size: str, species: str, length: int, board_feet: float) -> int | None:
        """Return the price of one stick in the smallest coin; None where the list has none.

        Args:
            size: name of the size in the lumber table.
            species: name of the species in its table.
            length: 1/32 in.
            board_feet: of the stick, for a price by the board foot.
        """
        price = self.sticks.get((size, species, length))
        if price is not None:
            return self.coins(price.amount / price.many)
        price = self.sticks.get((size, species, 0))
        if price is None:
            return None
        feet = Decimal(length) / (12 * PER_INCH)
        many = feet if price.by == "foot" else Decimal(str(round(board_feet, 6)))
        return self.coins(price.amount * many)

    def stick_lengths(self, size: str, species: str) -> tuple[int, ...]:
        """Return the lengths of a size and species that have a price of their own, 1/32 in."""
        return tuple(
            sorted(at for s, kind, at in self.sticks if (s, kind) == (size, species) and at)
        )


def screw_key(kind: str, size: str, length: float) -> ScrewKey:
    """Return how a screw is found in a price list.

    >>> screw_key("wood screw", "No. 10", 3.0)
    ('wood screw', '10', 762)
    """
    return kind, folded(size), round(length * 254)


def read_prices(path: str | Path, tables: Tables) -> PriceList:
    """Return a price list from a CSV with the columns item, unit, price, currency.

    Raises:
        JobError: with every mistake: no such file, a column missing, a price that isn't a number,
            two currencies, the same item twice.
    """
    from bracecalc.jobfile.csv_table import csv_rows

    where = str(path)
    rows = csv_rows(where)
    header = next(rows, (0, []))[1]
    names = [str(cell).strip().casefold() for cell in header]
    missing = [name for name in COLUMNS if name not in names]
    if missing:
        read = ", ".join(names)
        raise JobError(Mistake(where, "", read, f"the columns {', '.join(COLUMNS)}"))
    place = {name: names.index(name) for name in COLUMNS}
    reader = _Reader(where, tables)
    for number, cells in rows:
        picked = {n: cells[at].strip() if at < len(cells) else "" for n, at in place.items()}
        if any(picked.values()):
            reader.take(number, picked)
    return reader.finish()


class _Reader:
    """Takes rows one by one and keeps every mistake."""

    def __init__(self, where: str, tables: Tables) -> None:
        self.where = where
        self.tables = tables
        self.mistakes: list[Mistake] = []
        self.currencies: dict[str, int] = {}
        self.sticks: dict[StickKey, Price] = {}
        self.screws: dict[ScrewKey, Price] = {}
        self.packers: dict[str, Price] = {}

    def wrong(self, number: int, column: str, read: str, right: str) -> None:
        """Keep a mistake of one row."""
        self.mistakes.append(Mistake(f"{self.where} row {number}", column, repr(read), right))

    def take(self, number: int, row: Mapping[str, str]) -> None:
        """Read one row."""
        amount = _amount(row["price"])
        if amount is None:
            self.wrong(number, "price", row["price"], "an amount of 0 or more, as 4.15")
        price = _price(row["unit"], amount)
        if price is None:
            right = "each, box of 100, foot or board foot"
            self.wrong(number, "unit", row["unit"], right)
        currency = row["currency"].upper()
        if not re.fullmatch("[A-Z]{3}", currency):
            self.wrong(number, "currency", row["currency"], "a currency code, as USD")
        else:
            self.currencies.setdefault(currency, number)
        if price is not None and not self._put(row["item"], price):
            self.wrong(number, "item", row["item"], "each item once")

    def _put(self, item: str, price: Price) -> bool:
        """Keep a price under what it is for; False if that has one. Unknown items are passed."""
        text = " ".join(item.casefold().split())
        screw = _SCREW.fullmatch(text)
        if screw is not None:
            try:
                length = parse_length(screw["length"], units=Units.INCH)
            except QuantityError:
                return True
            return _once(self.screws, screw_key(screw["kind"], screw["size"], length), price)
        packer = text.removeprefix("packer ").removesuffix(" packer")
        if packer in self.tables.packers:
            return _once(self.packers, self.tables.packers[packer].name, price)
        stick = stick_item(item, self.tables)
        if stick is None:
            return True
        if not stick[2] and price.by == "piece":
            return True  # a piece of no length can't be ordered
        return _once(self.sticks, stick, price)

    def finish(self) -> PriceList:
        """Return the list, or raise with everything that was wrong."""
        if len(self.currencies) > 1:
            (first, _), (second, number), *_ = self.currencies.items()
            self.wrong(number, "currency", second, f"one currency in the list ({first} so far)")
        if self.mistakes:
            raise JobError(*self.mistakes)
        if not self.currencies:
            raise JobError(Mistake(self.where, "", "no prices", "a row for each item"))
        return PriceList(
            where=self.where,
            currency=next(iter(self.currencies)),
            sticks=self.sticks,
            screws=self.screws,
            packers=self.packers,
        )


def stick_item(text: str, tables: Tables) -> StickKey | None:
    """Return size, species and length (0: none given) of a stick's name; None if it is no stick.

    >>> from bracecalc.tables.load import load_tables
    >>> stick_item("2x4 SPF 8 ft", load_tables())
    ('2x4', 'Spruce-Pine-Fir', 3072)
    """
    match = _STICK.fullmatch(" ".join(text.split()))
    if match is None or match["size"] not in tables.lumber:
        return None
    species, length = match["species"], 0
    if match["length"] is not None and species in tables.species:
        try:
            length = int(parse_length(match["length"], units=Units.INCH) * PER_INCH)
        except QuantityError:
            return None
    elif species not in tables.species:
        return None
    return tables.lumber[match["size"]].size, tables.species[species].name, length


def _once(into: dict[Key, Price], key: Key, price: Price) -> bool:
    if key in into:
        return False
    into[key] = price
    return True


def _amount(text: str) -> Decimal | None:
    plain = text.replace(" ", "").replace("\N{NO-BREAK SPACE}", "")
    if re.fullmatch(r"[0-9]+,[0-9]{1,2}", plain):
        plain = plain.replace(",", ".")
    try:
        amount = Decimal(plain)
    except InvalidOperation:
        return None
    return amount if amount.is_finite() and amount >= 0 else None


def _price(unit: str, amount: Decimal | None) -> Price | None:
    text = " ".join(unit.casefold().split())
    match = _UNIT.fullmatch(text)
    if match is None:
        return None
    amount = Decimal(0) if amount is None else amount
    if match["many"]:
        many = int(match["many"].replace(" ", ""))
        return Price(amount=amount, many=many) if many else None
    if text in _EACH:
        return Price(amount=amount)
    if text in _FOOT:
        return Price(amount=amount, by="foot")
    if text in _BOARD_FOOT:
        return Price(amount=amount, by="board foot")
    return None


def read_on_hand(path: str | Path, tables: Tables) -> dict[StickKey, int]:
    """Return offcuts on hand from a CSV with the columns item, count: ``2x4 SPF 71 in``, ``3``.

    Raises:
        JobError: with every mistake.
    """
    from bracecalc.jobfile.csv_table import csv_rows

    where = str(path)
    rows = csv_rows(where)
    names = [cell.strip().casefold() for cell in next(rows, (0, []))[1]]
    if "item" not in names or "count" not in names:
        raise JobError(Mistake(where, "", ", ".join(names), "the columns item, count"))
    found: dict[StickKey, int] = {}
    mistakes = []
    for number, cells in rows:
        if not any(cell.strip() for cell in cells):
            continue
        padded = [*cells, *[""] * len(names)]
        item, count = (padded[names.index(name)].strip() for name in ("item", "count"))
        stick = stick_item(item, tables)
        if stick is None or not stick[2]:
            right = "size, species and length, as 2x4 SPF 71 in"
            mistakes.append(Mistake(f"{where} row {number}", "item", repr(item), right))
        elif not re.fullmatch("[0-9]{1,6}", count):
            mistakes.append(
                Mistake(f"{where} row {number}", "count", repr(count), "a number, as 3")
            )
        else:
            found[stick] = found.get(stick, 0) + int(count)
    if mistakes:
        raise JobError(*mistakes)
    return found
