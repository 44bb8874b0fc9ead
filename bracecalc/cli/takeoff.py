"""``bracecalc takeoff``: lumber, screws and cost over many niches."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from bracecalc.order.order import Order, OrderRules
    from bracecalc.order.takeoff import Progress, Tally
    from bracecalc.records.reference import Tables

BAR_FROM = 500  # rows from which a progress bar is worth it
FORMATS = {".txt": "table", ".md": "markdown", ".json": "json", ".csv": "csv"}
CUT_LISTS = {".svg": "svg", ".txt": "table"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """What was asked for on the command line; lengths in 1/32 in."""

    jobs: tuple[str, ...]
    prices: Path | None
    group_by: str | None
    ignore: tuple[str, ...]
    sheet: str | None
    skip_bad: bool
    stock: str | None
    on_hand: Path | None
    kerf: int
    end_trim: int
    overage: Fraction
    waste: Fraction
    box: int
    time_limit: float
    units: str
    form: str | None
    out: Path | None
    cut_list: Path | None
    force: bool


class Length(click.ParamType[int]):
    """A length as people write it, read into 1/32 in."""

    name = "length"

    def __init__(self, *, up: bool) -> None:
        self.up = up

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        """Return 1/32 in, rounded up or down."""
        from bracecalc.records.job import Units
        from bracecalc.text.lengths import QuantityError, parse_length

        if isinstance(value, int):
            return value
        try:
            inches = parse_length(value, units=Units.INCH)
        except QuantityError as error:
            self.fail(f"read {value!r}; expected {error}", param, ctx)
        if inches < 0:
            self.fail(f"read {value!r}; expected a length of 0 or more", param, ctx)
        exact = inches * 32
        return -int(-(exact - 1e-6) // 1) if self.up else int(exact + 1e-6)


class Percent(click.ParamType[Fraction]):
    """A part in percent, kept exact."""

    name = "percent"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> Fraction:
        """Return the part of one."""
        if isinstance(value, Fraction):
            return value
        try:
            part = Fraction(str(value).strip().removesuffix("%").strip()) / 100
        except (ValueError, ZeroDivisionError):
            self.fail(f"read {value!r}; expected a percentage, as 10", param, ctx)
        if not 0 <= part <= 10:
            self.fail(f"read {value!r}; expected 0 to 1000 percent", param, ctx)
        return part


@click.command(name="takeoff")
@click.argument("jobs", nargs=-1, required=True, metavar="JOBS...")
@click.option(
    "--prices",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="CSV with the columns item, unit, price, currency. Without it: no costs.",
)
@click.option(
    "--group-by",
    metavar="COLUMNS",
    help="Columns to add up by, with commas between. Default: building, floor, type.",
)
@click.option("--ignore", multiple=True, metavar="COLUMN", help="A column to pass over.")
@click.option("--sheet", metavar="NAME", help="Sheet of a workbook. Default: its first.")
@click.option("--skip-bad", is_flag=True, help="Work out the good rows; list the skipped ones.")
@click.option(
    "--stock",
    metavar="LENGTHS",
    help="Stick lengths to cut from, as '8 ft, 12 ft'. Default: those with a price, "
    "else 8 to 16 ft by even feet.",
)
@click.option(
    "--on-hand",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Offcuts to use up: CSV with the columns item, count ('2x4 SPF 71 in', 3).",
)
@click.option(
    "--kerf", type=Length(up=True), default="1/8 in", show_default=True, help="Width of a saw cut."
)
@click.option(
    "--end-trim",
    type=Length(up=True),
    default="0 in",
    show_default=True,
    help="Cut off each end of a stick to square it.",
)
@click.option(
    "--overage", type=Percent(), default="10", show_default=True, help="More screws, in percent."
)
@click.option(
    "--waste",
    type=Percent(),
    default="10",
    show_default=True,
    help="More sticks for spoiled ones, in percent.",
)
@click.option(
    "--box",
    type=click.IntRange(min=0),
    default=0,
    help="Screws in a box, where the prices do not say it.",
)
@click.option(
    "--time-limit",
    type=click.FloatRange(min=0, min_open=True),
    default=10.0,
    show_default=True,
    metavar="SECONDS",
    help="For each cut plan; then the best so far, with its gap.",
)
@click.option(
    "--units",
    type=click.Choice(["inch", "mm"]),
    default="inch",
    show_default=True,
    help="How lengths are shown; CSV and JSON stay in inches.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["table", "markdown", "json", "csv"]),
    default=None,
    help="How it is written. Default: table.",
)
@click.option(
    "--out",
    "-o",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write to a file: .xlsx, .csv, .md, .json or .txt.",
)
@click.option(
    "--cut-list",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write the cut list too, each stick as a bar: .svg or .txt.",
)
@click.option("--force", is_flag=True, help="Write over files that exist.")
@click.pass_context
def command(ctx: click.Context, /, **options: Any) -> None:
    """Add up what many niches need, and work out the cheapest way to cut it.

    JOBS are job files, folders of them, and tables with a row a niche (CSV, XLSX or ODS): the
    heading of a column is a key of the job file, as niche.width, or count. - reads a CSV from
    standard input.

    Exit status: 0 all niches hold; 1 some fail (they are listed); 2 the input is wrong.

    \b
    bracecalc takeoff niches.csv --prices prices.csv
    bracecalc takeoff niches.csv --prices prices.csv -o order.xlsx
    bracecalc takeoff niches.csv --cut-list cuts.svg
    """  # noqa: D301 (click wants the backspace itself)
    from bracecalc.order.order import make_order
    from bracecalc.tables.load import load_tables

    asked = Options(**options)
    form = _form(asked.out, asked.form)
    _cut_list_form(asked.cut_list)
    tables = load_tables()
    rules = _rules(asked, tables)  # before the niches, so that a mistake shows at once
    tally = _tally(asked)
    order = make_order(tally, rules, tables)
    _write(order, form, asked)
    if tally.total.failing:
        ctx.exit(1)


def _form(out: Path | None, form: str | None) -> str:
    ending = "" if out is None else out.suffix.lower()
    if ending == ".xlsx":
        if form is not None:
            raise click.UsageError("a file ending in .xlsx is a workbook; leave --format out")
        return "xlsx"
    if form is not None:
        return form
    if out is not None and ending not in FORMATS:
        known = ", ".join(FORMATS)
        raise click.UsageError(f"--out: read {out.name!r}; expected a name in .xlsx, {known}")
    return FORMATS.get(ending, "table")


def _cut_list_form(path: Path | None) -> str:
    ending = ".txt" if path is None else path.suffix.lower()
    if path is not None and ending not in CUT_LISTS:
        raise click.UsageError(f"--cut-list: read {path.name!r}; expected a name in .svg or .txt")
    return CUT_LISTS[ending]


def _rules(asked: Options, tables: Tables) -> OrderRules:
    from bracecalc.cutting import Saw
    from bracecalc.order.order import OrderRules
    from bracecalc.order.prices import read_on_hand, read_prices
    from bracecalc.records.job import Units

    prices, on_hand = asked.prices, asked.on_hand
    return OrderRules(
        saw=Saw(kerf=asked.kerf, trim=asked.end_trim),
        stock=_stock(asked.stock),
        on_hand={} if on_hand is None else read_on_hand(on_hand, tables),
        overage=asked.overage,
        waste=asked.waste,
        box=asked.box,
        time_limit=asked.time_limit,
        prices=None if prices is None else read_prices(prices, tables),
        units=Units(asked.units),
    )


def _stock(text: str | None) -> tuple[int, ...]:
    if text is None:
        return ()
    down = Length(up=False)
    lengths = {down.convert(part.strip(), None, None) for part in text.split(",")}
    if 0 in lengths:
        raise click.UsageError("--stock: read a length of 0; expected lengths, as '8 ft, 12 ft'")
    return tuple(sorted(lengths))


def _tally(asked: Options) -> Tally:
    from bracecalc.errors import JobError, Mistake
    from bracecalc.jobfile.rows import Columns
    from bracecalc.order.takeoff import niche_rows, take

    columns = Columns(ignored=asked.ignore, sheet=asked.sheet)
    if asked.group_by is not None:
        labels = tuple(part.strip() for part in asked.group_by.split(",") if part.strip())
        columns = replace(columns, labels=labels, asked=True)
    rows = niche_rows(asked.jobs, columns)
    with _progress(asked.jobs) as progress:
        tally = take(rows, progress=progress)
    if tally.mistakes and not asked.skip_bad:
        raise JobError(*tally.mistake_lines())
    if not tally.total.niches:
        right = "at least one niche that can be worked out"
        raise JobError(Mistake(", ".join(asked.jobs), "", "none", right), *tally.mistake_lines())
    return tally


@contextmanager
def _progress(jobs: Iterable[str]) -> Iterator[Progress | None]:
    """Give what to call with rows done: a bar on standard error where that is a terminal."""
    expected = _lines(jobs) if sys.stderr.isatty() else 0
    if expected < BAR_FROM:
        yield None
        return
    with click.progressbar(length=expected, label="niches", file=sys.stderr) as bar:
        yield bar.update


def _lines(jobs: Iterable[str]) -> int:
    """Return about how many rows there are: the lines of the CSV files, quickly."""
    lines = 0
    for job in jobs:
        path = Path(job)
        if path.suffix.lower() in (".csv", ".tsv", ".txt") and path.is_file():
            with path.open("rb") as file:
                while block := file.read(1 << 20):
                    lines += block.count(b"\n")
    return lines


def _write(order: Order, form: str, asked: Options) -> None:
    from bracecalc.render.cut_list import cut_list_svg, cut_list_text
    from bracecalc.writing import write_whole

    out, cut_list, force = asked.out, asked.cut_list, asked.force
    data = _made(order, form)
    if cut_list is not None:
        svg = _cut_list_form(cut_list) == "svg"
        drawn = cut_list_svg(order) if svg else cut_list_text(order) + "\n"
        write_whole(cut_list, drawn, force=force)
        click.echo(f"wrote {cut_list}", err=True)
    if out is None:
        click.echo(data, nl=False, color=None)
    else:
        write_whole(out, click.unstyle(data) if isinstance(data, str) else data, force=force)
        click.echo(f"wrote {out}", err=True)


def _made(order: Order, form: str) -> str | bytes:
    if form == "xlsx":
        from bracecalc.render.takeoff_workbook import takeoff_workbook

        return takeoff_workbook(order)
    if form == "json":
        import json

        from bracecalc.render.takeoff_data import takeoff_to_dict

        return json.dumps(takeoff_to_dict(order), indent=2, allow_nan=False) + "\n"
    if form == "csv":
        from bracecalc.render.takeoff_data import takeoff_csv

        return takeoff_csv(order)
    from bracecalc.render.takeoff import takeoff_markdown, takeoff_text

    return (takeoff_markdown(order) if form == "markdown" else takeoff_text(order)) + "\n"
