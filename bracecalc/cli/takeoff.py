"""``bracecalc takeoff``: lumber, screws and cost over many niches."""

from __future__ import annotations

from typing import Any

import click

from bracecalc.cli import options
from bracecalc.cli.takeoff_options import Length, Options, Percent


def _number(name: str, kind: click.ParamType[Any], default: str, help: str) -> options.Option:
    return click.option(name, type=kind, default=default, show_default=True, help=help)


@click.command(name="takeoff")
@click.argument("jobs", nargs=-1, required=True, metavar="JOBS...")
@options.file(
    "--prices", help="CSV with the columns item, unit, price, currency. Without it: no costs."
)
@click.option(
    "--group-by",
    metavar="COLUMNS",
    help="Columns to add up by, with commas between. Default: building, floor, type.",
)
@click.option("--ignore", multiple=True, metavar="COLUMN", help="A column to ignore.")
@click.option("--sheet", metavar="NAME", help="Sheet of a workbook. Default: its first.")
@click.option("--skip-bad", is_flag=True, help="Work out the good rows; list the skipped ones.")
@click.option("--only-holding", is_flag=True, help="Leave out niches that fail; they are listed.")
@click.option(
    "--alternate",
    multiple=True,
    metavar="SIZE",
    help="The same order with boards of this size beside it, as 2x10. May be repeated.",
)
@click.option(
    "--project", metavar="NAME", help="What a workbook's order is for. Default: the files' names."
)
@click.option(
    "--stock",
    metavar="LENGTHS",
    help="Stick lengths to cut from, as '8 ft, 12 ft'. Default: those with a price, "
    "else 8 to 16 ft by even feet, or 2.4 to 6 m for metric sections.",
)
@options.file(
    "--on-hand", help="Offcuts to use up: CSV with the columns item, count ('2x4 SPF 71 in', 3)."
)
@_number("--kerf", Length(up=True), "1/8 in", "Width of a saw cut.")
@_number("--end-trim", Length(up=True), "0 in", "Cut off each end of a stick to square it.")
@_number("--overage", Percent(), "10", "More screws, in percent.")
@_number("--waste", Percent(), "10", "More sticks for spoiled ones, in percent.")
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
@options.choice(
    "--units",
    among="inch mm",
    default="inch",
    help="How lengths are shown; CSV and JSON stay in inches.",
)
@options.form("table markdown json csv", help="How it is written. Default: table.", default=None)
@options.out("Write to a file: .xlsx, .csv, .md, .json or .txt.")
@options.file(
    "--cut-list", help="Write the cut list too, each stick as a bar: .pdf on pages, .svg or .txt."
)
@options.file(
    "--labels",
    help="Write a label for each piece, in the order of the saw: .html to print, or .csv.",
)
@options.file(
    "--offcuts-out", help="Write the offcuts that are left, as a CSV for the next --on-hand."
)
@options.force("Write over files that exist.")
@click.pass_context
def command(ctx: click.Context, /, **given: Any) -> None:
    """Add up what many niches need, and work out the cheapest way to cut it.

    JOBS are job files, folders of them, and tables with a row a niche (CSV, XLSX or ODS): the
    heading of a column is a key of the job file, as niche.width, or count. - reads a CSV from
    standard input.

    Exit status: 0 all niches hold; 1 some fail or were skipped (they are listed); 2 the input is
    wrong or it was stopped, and nothing is written.

    \b
    bracecalc takeoff niches.csv --prices prices.csv
    bracecalc takeoff niches.csv --prices prices.csv -o order.xlsx
    bracecalc takeoff niches.csv --cut-list cuts.svg
    """  # noqa: D301 (click wants the backspace itself)
    from bracecalc.cli.takeoff_run import run

    if run(Options(**given)):
        ctx.exit(1)
