"""The work of ``bracecalc takeoff``: read, add up, order, and write everything or nothing."""

from __future__ import annotations

import datetime
import os
import signal
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from types import FrameType

import click

from bracecalc.cli import options
from bracecalc.cli.takeoff_options import (
    CUT_LISTS,
    LABELS,
    Options,
    form_of,
    out_form,
    stock_lengths,
)
from bracecalc.cutting import Saw
from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.rows import ODS, TEXTS, XLSX, Columns
from bracecalc.order.alternates import Alternate
from bracecalc.order.offcuts import offcuts_csv, read_on_hand
from bracecalc.order.order import Order, make_order
from bracecalc.order.pile import MOST_LABELS, can_label
from bracecalc.order.price_rows import read_prices
from bracecalc.order.rules import OrderRules
from bracecalc.order.takeoff import Progress, niche_rows, take
from bracecalc.order.tally import Tally
from bracecalc.order.workers import How
from bracecalc.records.job import Units
from bracecalc.records.reference import Tables
from bracecalc.tables.load import load_tables
from bracecalc.text.lists import split_names
from bracecalc.writing import check_target

BAR_FROM = 500  # rows from which a progress bar is worth it


def run(asked: Options) -> bool:
    """Do what was asked, and return whether anything fails or was skipped.

    Raises:
        BraceError: if the input is wrong or an output can't be written; then nothing was.
    """
    if str(asked.out) == "-":  # standard output
        asked = replace(asked, out=None)
    form = out_form(asked.out, asked.form)
    _check_outputs(asked)
    with _terminated_as_interrupted():
        rules = _rules(asked, load_tables())  # before the niches, so that a mistake shows at once
        order = _order(asked, rules)
        alternates = _alternates(asked, order)
        _write(order, alternates, form, asked)
    return bool(order.tally.failing_rows or order.tally.skipped)


def _check_outputs(asked: Options) -> None:
    """Refuse before the work what could not be written after it, or would mean nothing."""
    if asked.sheet is not None and not any(
        job.lower().endswith((*XLSX, *ODS)) for job in asked.jobs
    ):
        raise click.UsageError("--sheet: read no workbook among JOBS; expected one, .xlsx or .ods")
    if asked.cut_list is not None:
        form_of("--cut-list", asked.cut_list, CUT_LISTS)
    if asked.labels is not None:
        form_of("--labels", asked.labels, LABELS)
    seen: dict[str, str] = {}
    for option, path in asked.outputs:
        before = seen.setdefault(os.path.realpath(path), option)
        if before != option:
            raise click.UsageError(f"{option}: read the file of {before}; expected another name")
        check_target(path, force=asked.force)


@contextmanager
def _terminated_as_interrupted() -> Iterator[None]:
    """End as on Ctrl-C when the system asks to: workers and half-written files are seen to."""

    def stop(_number: int, _frame: FrameType | None) -> None:
        raise KeyboardInterrupt

    try:
        before = signal.signal(signal.SIGTERM, stop)
    except ValueError:  # not in the main thread
        yield
        return
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def _rules(asked: Options, tables: Tables) -> OrderRules:
    prices, on_hand = asked.prices, asked.on_hand
    return OrderRules(
        saw=Saw(kerf=asked.kerf, trim=asked.end_trim),
        stock=stock_lengths(asked.stock),
        on_hand={} if on_hand is None else read_on_hand(on_hand, tables),
        overage=asked.overage,
        waste=asked.waste,
        box=asked.box,
        time_limit=asked.time_limit,
        prices=None if prices is None else read_prices(prices, tables),
        units=Units(asked.units),
    )


def _order(asked: Options, rules: OrderRules, board: str | None = None) -> Order:
    tally = _tally(asked, rules, board)
    if tally.own:  # what the jobs call lumber and species, prices and offcuts may call so too
        own = {table: Path(path) for table, path in tally.own.items()}
        rules = _rules(asked, load_tables(overrides=own))
    return make_order(tally, rules)


def _alternates(asked: Options, order: Order) -> tuple[Alternate, ...]:
    if asked.alternate and "-" in asked.jobs:
        right = "a file: standard input can be read only once"
        raise JobError(Mistake("--alternate", "", "niches on standard input", right))
    lumber = load_tables().lumber
    for size in asked.alternate:
        if size not in lumber:
            raise JobError(Mistake("--alternate", "", repr(size), f"one of: {', '.join(lumber)}"))
    return tuple(
        Alternate(lumber[size].size, _order(asked, order.rules, lumber[size].size))
        for size in asked.alternate
    )


def _tally(asked: Options, rules: OrderRules, board: str | None) -> Tally:
    columns = Columns(ignored=asked.ignore, sheet=asked.sheet)
    if asked.group_by is not None:
        labels = tuple(split_names(asked.group_by))
        columns = replace(columns, labels=labels, asked=True)
    rows = niche_rows(asked.jobs, columns)
    with _progress(asked.jobs) as progress:
        tally = take(
            rows,
            progress=progress,
            only_holding=asked.only_holding,
            longest=rules.longest_piece,
            how=How(board=board, pass_faults=asked.skip_bad),
        )
    if tally.mistakes and not asked.skip_bad:
        raise JobError(*tally.mistake_lines())
    if not tally.total.niches and not tally.left_out:
        right = "at least one niche that can be worked out"
        raise JobError(Mistake(", ".join(asked.jobs), "", "none", right), *tally.mistake_lines())
    return tally


@contextmanager
def _progress(jobs: Iterable[str]) -> Iterator[Progress | None]:
    """Give what to call with rows done: a bar on standard error where that is a terminal."""
    if not sys.stderr.isatty():
        yield None
        return
    expected, sure = _lines(jobs)
    if sure and expected < BAR_FROM:
        yield None
        return
    if sure:
        with click.progressbar(length=expected, label="niches", file=sys.stderr) as bar:
            yield bar.update
        return
    done = 0

    def say(rows: int) -> None:
        nonlocal done
        done += rows
        click.echo(f"\rniches: {done:,}", nl=False, err=True)

    yield say
    if done:
        click.echo("", err=True)


def _lines(jobs: Iterable[str]) -> tuple[int, bool]:
    """Return about how many rows there are, and whether all could be counted before the work.

    Lines of text files and job files of folders are counted quickly; a workbook's rows and those
    of standard input are known only when they have been read.
    """
    lines = 0
    for job in jobs:
        path = Path(job)
        if path.is_dir():
            lines += sum(1 for _ in path.glob("*.toml"))
        elif path.suffix.lower() in TEXTS and path.is_file():
            with path.open("rb") as file:
                while block := file.read(1 << 20):
                    lines += block.count(b"\n")
        elif path.suffix.lower() == ".toml":
            lines += 1
        else:
            return lines, False
    return lines, True


def _write(order: Order, alternates: Sequence[Alternate], form: str, asked: Options) -> None:
    """Write every file, all made before the first is written."""
    main = _made(order, alternates, form, asked)
    beside = [
        (path, data)
        for path, data in (
            (asked.cut_list, _cut_list(order, asked.cut_list)),
            (asked.labels, _labels(order, asked.labels)),
            (asked.offcuts_out, offcuts_csv(order)),
        )
        if path is not None
    ]
    for path, data in beside:
        options.put_out(data, path, force=asked.force)
    options.put_out(main, asked.out, force=asked.force)


def _cut_list(order: Order, path: Path | None) -> str | bytes:
    from bracecalc.render.cut_list import cut_list_svg, cut_list_text, part_list_text

    if path is None:
        return ""
    form = form_of("--cut-list", path, CUT_LISTS)
    if form == "pdf":
        return _cut_pages(order)
    if form == "svg":
        return cut_list_svg(order)
    return f"{cut_list_text(order)}\n\n{part_list_text(order)}\n"


def _cut_pages(order: Order) -> bytes:
    from bracecalc.drawing.cut_pages import cut_pages
    from bracecalc.drawing.pdf import Leaf, make_pdf
    from bracecalc.drawing.showing import Paper
    from bracecalc.render.cut_list import saw_words, scaled_bars

    date = datetime.date.today()
    paper = Paper.A4 if order.rules.units is Units.MM else Paper.LETTER
    pages = cut_pages(scaled_bars(order), saw_words(order), date=date, paper=paper)
    return make_pdf([Leaf(page) for page in pages], title="Cut list", date=date).data


def _labels(order: Order, path: Path | None) -> str:
    from bracecalc.render.labels import labels_csv, labels_html

    if path is None:
        return ""
    if not can_label(order):
        right = f"at most {MOST_LABELS:,} pieces; the cut list sorts them by building part"
        raise JobError(Mistake("--labels", "", "too many pieces", right))
    if form_of("--labels", path, LABELS) == "html":
        return labels_html(order)
    return labels_csv(order)


def _made(order: Order, alternates: Sequence[Alternate], form: str, asked: Options) -> str | bytes:
    if form == "xlsx":
        from bracecalc.render.takeoff_workbook import Heading, takeoff_workbook

        names = ", ".join(Path(job).name for job in asked.jobs)
        project = names if asked.project is None else asked.project
        heading = Heading(project=project, date=datetime.date.today())
        try:
            return takeoff_workbook(order, heading, alternates)
        except ImportError:
            right = "the extra 'takeoff' installed, which writes XLSX; or another ending"
            raise JobError(Mistake("--out", "", str(asked.out), right)) from None
    if form == "json":
        import json

        from bracecalc.render.takeoff_data import takeoff_to_dict

        return json.dumps(takeoff_to_dict(order, alternates), indent=2, allow_nan=False) + "\n"
    if form == "csv":
        from bracecalc.render.takeoff_data import takeoff_csv

        return takeoff_csv(order)
    from bracecalc.render.takeoff import takeoff_markdown, takeoff_text
    from bracecalc.render.text import WIDTH, terminal_width

    if form == "markdown":
        return takeoff_markdown(order, alternates) + "\n"
    width = terminal_width() if asked.out is None else WIDTH
    return takeoff_text(order, alternates, width=width) + "\n"
