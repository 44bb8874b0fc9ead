"""What tests of orders share: niches that need little, so that sums can be checked by hand."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from bracecalc.cutting import PER_INCH
from bracecalc.errors import Mistake
from bracecalc.jobfile.rows import NicheRow
from bracecalc.order.order import Order, make_order
from bracecalc.order.outcome import Cut, Flat, Lumber, Outcome, Screw, Section, Use
from bracecalc.order.price_rows import read_prices
from bracecalc.order.prices import PriceList
from bracecalc.order.rules import OrderRules
from bracecalc.order.tally import Tally
from bracecalc.records.plan import Verdict
from bracecalc.records.reference import PackerKind
from bracecalc.tables.load import load_tables

FOOT = 12 * PER_INCH
SPF = "Spruce-Pine-Fir"
WOOD = Lumber(SPF, "2x6")
SPF_2X6 = Section(1.5, 5.5, 2, 6, density=27.0, table_size="2x6", shown="SPF")
PRICES = (
    "item,unit,price,currency\n2x6 SPF 8 ft,each,6.85,USD\n2x6 SPF 12 ft,each,10.45,USD\n"
    "No. 10 x 3 in wood screw,box of 25,4.00,USD\n"
)


def written(folder: Path, text: str | bytes, name: str = "niches.csv") -> str:
    """Write a file and return its path."""
    path = folder / name
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return str(path)


def price_list(folder: Path, rows: str) -> PriceList:
    """Return the price list of some rows, or of a whole text with its heading."""
    text = rows if rows.startswith("item") else f"item,unit,price,currency\n{rows}\n"
    return read_prices(written(folder, text, "prices.csv"), load_tables())


def outcome(
    *, fails: bool = False, length: float = 33.0, boards: int = 2, checked: bool = True
) -> Outcome:
    """Return what a niche needs: boards, three blocks, a spacer board of plywood, four screws."""
    return Outcome(
        verdict=Verdict.FAILS if fails else Verdict.HOLDS,
        codes=("overstressed",) if fails else (),
        checked=checked,
        cuts=(
            Cut(Use.BOARD, WOOD, round(length * PER_INCH), boards),
            Cut(Use.BLOCKING, WOOD, 14 * PER_INCH + 16, 3),
        ),
        flats=(Flat("3/4 plywood", PackerKind.PANEL, 5 * PER_INCH, 33 * PER_INCH, 1),),
        screws=(Screw("wood screw", "10", 3.0, 4),),
        washers=(),
        sections=((WOOD, SPF_2X6),),
    )


def niche(number: int, *, count: int = 1, **labels: str) -> NicheRow:
    """Return a row of a table."""
    return NicheRow(
        where=f"n.csv row {number}",
        number=number,
        values={"title": f"=T{number}", "niche.width": f"{number} in"},
        count=count,
        labels=labels,
    )


def small_tally(*, only_holding: bool = False) -> Tally:
    """Return 10 niches that hold in A, 4 that fail in B, and a row that was skipped."""
    tally = Tally(only_holding=only_holding, rows=3, planned=3)
    tally.add(niche(2, count=10, building="A"), outcome())
    tally.add(niche(3, count=4, building="B"), outcome(fails=True, length=36.0))
    tally.skip(niche(5), [Mistake("n.csv row 5", "niche.width", "'x'", "a length")])
    return tally


def small_order(folder: Path | None = None, prices: str = PRICES, **changes: object) -> Order:
    """Return the order of the small tally, priced where there is a folder for the list."""
    only_holding = bool(changes.pop("only_holding", False))
    bought = None if folder is None else price_list(folder, prices)
    rules = OrderRules(prices=bought, **changes)  # type: ignore[arg-type]
    return make_order(small_tally(only_holding=only_holding), rules)


def stream(number: int, different: int) -> Iterator[NicheRow]:
    """Yield rows of which so many are different."""
    for row in range(2, number + 2):
        yield NicheRow(
            where=f"n.csv row {row}",
            number=row,
            values={"title": f"T{row}", "niche.width": f"{20 + row % different} in"},
            count=1,
            labels={},
        )
