"""A price list read row by row: CSV with the columns item, unit, price, currency."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import NamedTuple, TypeVar

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.csv_table import csv_rows
from bracecalc.order.items import Lumber, Unread, grades_of, lumber_item
from bracecalc.order.prices import (
    By,
    Price,
    PriceList,
    ScrewKey,
    StickKey,
    UnreadRow,
    fits_lumber,
    screw_key,
)
from bracecalc.records.job import Units
from bracecalc.records.reference import Tables
from bracecalc.tables.rows import folded
from bracecalc.text.lengths import QuantityError, parse_length

COLUMNS = ("item", "unit", "price", "currency")
UNITS = "each, box of 100, foot, board foot, metre or cubic metre"
UNITS_OF_SERVICES = "niche or order"

_SCREW = re.compile(
    r"(?P<size>(?:no\.?\s*|#)?[0-9/]+(?:\s*mm)?|m[0-9]+)(?:\s*in\.?|\")?\s*x\s*(?P<length>.+?)"
    r"\s+(?P<kind>[a-z]+ screw|screw)s?"
)
_WASHER = re.compile(
    r"(?:washers?\s+)?(?P<size>(?:no\.?\s*|#)?[0-9/]+(?:\s*mm)?|m[0-9]+)(?:\s*in\.?|\")?"
    r"(?:\s+(?:flat\s+)?washers?)?"
)
_SPACER = re.compile(r"^(?:packer|spacer board)s? | (?:packer|spacer board)s?$")
# a sheet is one of 4 by 8 ft, however that is said
_SHEET = re.compile(
    r"(?<!\w)(?:sheets?|panels?|4 ?(?:'|ft)? ?x ?8 ?(?:'|ft)?|"
    r"48 ?(?:\"|in)? ?x ?96 ?(?:\"|in)?)(?!\w)"
)
_SERVICE = re.compile(r"(?<!\w)(?:labou?r|installation|delivery|haulage|freight|carriage)(?!\w)")
_COUNTED = re.compile(
    r"(?P<sold>box|pack|packet|bag|carton|bundle|lift|case|tub)s?\s*(?:of\s*)?"
    r"(?P<many>[0-9][0-9 ]*)"
    r"|(?:per\s*|/\s*)?(?P<parts>[0-9][0-9 ]*)(?:\s*(?:pcs?|pieces?|ea|each))?"
)
_WORDS: Mapping[str, tuple[By, int]] = {
    word: (by, many)
    for by, many, words in (
        (By.PIECE, 1, "each,piece,pc,pcs,stick,ea,length,1"),
        (By.FOOT, 1, "foot,feet,ft,lf,lin ft,linear foot,lineal foot,running foot,ft."),
        (
            By.METRE,
            1,
            "m,metre,meter,metres,meters,lm,lin m,linear metre,linear meter,running metre",
        ),
        (By.BOARD_FOOT, 1, "board foot,board feet,bf,bd ft,bdft,bd.ft.,fbm"),
        (By.BOARD_FOOT, 1000, "mbf,mfbm,thousand board feet"),
        (By.CUBIC_METRE, 1, "m3,m\N{SUPERSCRIPT THREE},cubic metre,cubic meter,cbm,cu m"),
        (By.NICHE, 1, "niche,unit,opening"),
        (By.ORDER, 1, "order,lump sum,lot,sum,job,delivery"),
    )
    for word in words.split(",")
}
Key = TypeVar("Key")


class _Unit(NamedTuple):
    by: By
    many: int = 1
    whole: bool = False


def read_prices(path: str | Path, tables: Tables) -> PriceList:
    """Return a price list from a CSV with the columns item, unit, price, currency.

    A row of something that isn't known is kept in ``unread`` with its reason.

    Raises:
        JobError: with every mistake: no such file, a column missing, a price that isn't a number,
            a unit that doesn't fit the item, two currencies, the same item twice.
    """
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
        self.unread: list[UnreadRow] = []
        self.items: dict[int, str] = {}
        self.currencies: dict[str, int] = {}
        self.sticks: dict[StickKey, Price] = {}
        self.screws: dict[ScrewKey, Price] = {}
        self.packers: dict[str, Price] = {}
        self.washers: dict[str, Price] = {}
        self.services: dict[str, Price] = {}
        self.others: dict[str, Price] = {}

    def wrong(self, number: int, column: str, read: str, right: str) -> None:
        """Keep a mistake of one row."""
        self.mistakes.append(Mistake(f"{self.where} row {number}", column, repr(read), right))

    def take(self, number: int, row: Mapping[str, str]) -> None:
        """Read one row."""
        amount = _amount(row["price"])
        if amount is None:
            self.wrong(number, "price", row["price"], "an amount of 0 or more, as 4.15")
        unit = _unit(row["unit"])
        if unit is None:
            self.wrong(number, "unit", row["unit"], UNITS)
        currency = row["currency"].upper()
        if not re.fullmatch("[A-Z]{3}", currency):
            self.wrong(number, "currency", row["currency"], "a currency code, as USD")
        else:
            self.currencies.setdefault(currency, number)
        if unit is None or amount is None:
            return
        self.items[number] = row["item"]
        price = Price(amount=amount, many=unit.many, by=unit.by, whole=unit.whole, row=number)
        self._put(row, price)

    def _put(self, row: Mapping[str, str], price: Price) -> None:
        """Keep a price under what it is for; what isn't known is kept with its reason."""
        text = " ".join(row["item"].casefold().split())
        if _SERVICE.search(text) is not None:
            if self._fits(row, price, (By.NICHE, By.ORDER, By.PIECE), UNITS_OF_SERVICES):
                self._once(self.services, " ".join(row["item"].split()), row, price)
            return
        counted = (By.PIECE,)
        screw = _SCREW.fullmatch(text)
        if screw is not None:
            try:
                length = parse_length(screw["length"], units=Units.INCH)
            except QuantityError as error:
                self._pass(price, f"its length as {error}")
                return
            if self._fits(row, price, counted, "each or box of 100"):
                key = screw_key(screw["kind"], screw["size"], length)
                self._once(self.screws, key, row, price)
            return
        washer = _WASHER.fullmatch(text) if "washer" in text else None
        if washer is not None:
            if self._fits(row, price, counted, "each or box of 100"):
                self._once(self.washers, folded(washer["size"]), row, price)
            return
        packer = _SHEET.sub("", _SPACER.sub("", text)).strip(" ,")
        if packer in self.tables.packers:
            if self._fits(row, price, (By.PIECE, By.FOOT, By.METRE), "each, foot or metre"):
                self._once(self.packers, self.tables.packers[packer].name, row, price)
            return
        self._put_lumber(row, price)

    def _put_lumber(self, row: Mapping[str, str], price: Price) -> None:
        lumber = lumber_item(row["item"], self.tables)
        if lumber is None:
            self._once(self.others, folded(row["item"]), row, price)
            return
        why = lumber.why if isinstance(lumber, Unread) else self._unfit(lumber)
        if isinstance(lumber, Unread) or why:
            self._pass(price, why)
            return
        wrong = fits_lumber(price.by, lumber.size, long=bool(lumber.length))
        if wrong:
            self.wrong(price.row, "unit", row["unit"], wrong)
            return
        self._once(self.sticks, StickKey(lumber.size, lumber.species, lumber.length), row, price)

    def _unfit(self, lumber: Lumber) -> str:
        """Return why lumber isn't what an order is for: its grade, its treatment."""
        if lumber.treated:
            return "untreated lumber: the strength of treated wood is not worked out"
        species = self.tables.species.get(lumber.species)
        if lumber.grade and species is not None and lumber.grade not in grades_of(species.grade):
            return f"grade {species.grade}, which the strength values of {species.name} are for"
        return ""

    def _fits(
        self, row: Mapping[str, str], price: Price, known: tuple[By, ...], right: str
    ) -> bool:
        if price.by in known:
            return True
        self.wrong(price.row, "unit", row["unit"], f"{right} for this item")
        return False

    def _pass(self, price: Price, why: str) -> None:
        self.unread.append(UnreadRow(price.row, self.items[price.row], f"expected {why}"))

    def _once(self, into: dict[Key, Price], key: Key, row: Mapping[str, str], price: Price) -> None:
        before = into.setdefault(key, price)
        if before is not price:
            right = f"each item once; row {before.row} is the same"
            self.wrong(price.row, "item", row["item"], right)

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
            washers=self.washers,
            services=self.services,
            others=self.others,
            items=self.items,
            unread=tuple(self.unread),
        )


def _amount(text: str) -> Decimal | None:
    """Return an amount as people write it.

    >>> _amount("$1,234.50"), _amount("4,15"), _amount("1 234,50"), _amount("four")
    (Decimal('1234.50'), Decimal('4.15'), Decimal('1234.50'), None)
    """
    plain = re.sub(r"[\s\N{NO-BREAK SPACE}\N{NARROW NO-BREAK SPACE}]", "", text)
    plain = plain.strip("$\N{EURO SIGN}\N{POUND SIGN}")
    if re.fullmatch(r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?", plain):
        plain = plain.replace(",", "")
    elif re.fullmatch(r"[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+", plain):
        plain = plain.replace(".", "").replace(",", ".")
    elif re.fullmatch(r"[0-9]+,[0-9]{1,2}", plain):
        plain = plain.replace(",", ".")
    if not re.fullmatch(r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+", plain):
        return None
    try:
        return Decimal(plain)
    except InvalidOperation:
        return None


def _unit(text: str) -> _Unit | None:
    """Return what a price is by.

    >>> _unit("box of 100")
    _Unit(by=<By.PIECE: 'piece'>, many=100, whole=True)
    >>> _unit("MBF").many, _unit("furlong") is None
    (1000, True)
    """
    if text.strip() == "M":  # a thousand to one yard, a metre to another
        return None
    plain = " ".join(text.casefold().split())
    counted = _COUNTED.fullmatch(plain)
    if counted is not None:
        digits = counted["many"] or counted["parts"]
        many = int(digits.replace(" ", "")[:9])
        return (
            _Unit(By.PIECE, many, whole=counted["sold"] is not None and many > 1) if many else None
        )
    known = _WORDS.get(plain.removeprefix("per ").removeprefix("/").strip())
    return None if known is None else _Unit(*known)
