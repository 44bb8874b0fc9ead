"""``bracecalc sheet``: the page that goes to the site."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import AbstractContextManager
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import click

from bracecalc.cli import options
from bracecalc.cli.jobs import read_jobs

if TYPE_CHECKING:
    import datetime

    from bracecalc.drawing.content import Subject, Wishes
    from bracecalc.drawing.showing import Paper
    from bracecalc.records.job import Job

T = TypeVar("T")
IN_ONE_HTML = 12  # sheets: more are written a file each, so that a phone opens one at a time
DRIFTS_FOR = 20  # sheets: what each reading may be off takes as long as all else of a sheet
_ENDINGS = (".pdf", ".html", ".svg")
_MANY = 10  # jobs: fewer are done before a bar can be read


@click.command(name="sheet")
@click.argument("jobs", nargs=-1, required=True, metavar="JOB...")
@options.out("File to write; its ending says what: .pdf, .html or .svg.", required=True)
@options.choice(
    "--paper",
    among="letter a4",
    help="Size of the page.  [default: letter for a job in inches, a4 for one in mm]",
)
@options.choice(
    "--units",
    among="inch mm both",
    help="Units of the lengths.  [default: those of the job]",
)
@click.option(
    "--as-of",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DATE",
    help="Date on the sheet, as 2026-11-25.  [default: today]",
)
@options.force()
@click.pass_context
def command(
    ctx: click.Context,
    jobs: tuple[str, ...],
    out: Path,
    paper: str | None,
    units: str | None,
    as_of: datetime.datetime | None,
    force: bool,
) -> None:
    """Draw the sheet of each JOB: a job file, a folder of them, a table with a row a niche, or -.

    Two pages a niche or more, drawn to scale. Many jobs make one PDF with an index, or one HTML
    file, which with more than 12 jobs is an index beside a folder of sheets; an SVG holds one.
    PDF needs the extra "sheet" (pip install 'bracecalc[sheet]').

    \b
    bracecalc sheet niche.toml -o niche.pdf
    bracecalc sheet niches/ -o niches.pdf --paper a4 --units both
    """  # noqa: D301 - click wants the sign itself
    from bracecalc.records.plan import Verdict
    from bracecalc.writing import write_whole

    _check_ending(out)
    read = read_jobs(jobs)
    ending = out.suffix.lower()
    if ending == ".svg" and len(read) > 1:
        raise click.UsageError(f"an SVG holds one sheet, read {len(read)} jobs; write a .pdf")
    wishes = _wishes(units, as_of, read)
    subjects = _subjects(read, units)
    on = _paper(paper, read)
    if ending == ".html" and len(subjects) > IN_ONE_HTML:
        _write_parts(out, subjects, wishes, on, force=force)
    else:
        write_whole(out, _sheets(ending, subjects, wishes, on), force=force)
    click.echo(f"wrote {out}", err=True)
    if any(subject.plan.verdict is Verdict.FAILS for subject in subjects):
        ctx.exit(1)


def _check_ending(out: Path) -> None:
    if out.suffix.lower() not in _ENDINGS:
        raise click.UsageError(
            f"read {out.name!r}; expected a file that ends in .pdf, .html or .svg"
        )


def _paper(wanted: str | None, jobs: Sequence[Job]) -> Paper:
    from bracecalc.drawing.showing import Paper
    from bracecalc.records.job import Units

    if wanted is not None:
        return Paper(wanted)
    metric = all(job.units is Units.MM for job in jobs)
    return Paper.A4 if metric else Paper.LETTER


def _wishes(units: str | None, as_of: datetime.datetime | None, jobs: Sequence[Job]) -> Wishes:
    import datetime

    from bracecalc.drawing.content import Wishes
    from bracecalc.drawing.showing import ShownUnits

    date = datetime.date.today() if as_of is None else as_of.date()
    return Wishes(units=None if units is None else ShownUnits(units), date=date)


def _subjects(jobs: Sequence[Job], units: str | None) -> list[Subject]:
    """Work out each plan; its words are in the units wished for, its code is the job's own."""
    from dataclasses import replace

    from bracecalc.certainty.drift import drifts_of
    from bracecalc.drawing.content import Subject
    from bracecalc.jobfile.write import job_to_toml
    from bracecalc.planning.plan import make_plan
    from bracecalc.records.job import Units

    found = []
    with _progress(jobs, "plans") as bar:
        for job in bar:
            shown = job if units in (None, "both") else replace(job, units=Units(units))
            text = job_to_toml(job, comments=False)
            plan = make_plan(shown)
            drifts = drifts_of(plan) if len(jobs) <= DRIFTS_FOR else ()
            found.append(Subject(plan=plan, job_text=text, drifts=drifts))
    return found


def _sheets(ending: str, subjects: list[Subject], wishes: Wishes, paper: Paper) -> bytes:
    if ending == ".html":
        from bracecalc.drawing.html import html_bytes

        return html_bytes(subjects, wishes, paper)
    if ending == ".svg":
        from bracecalc.drawing.layout import sheet_pages
        from bracecalc.drawing.svg import svg_bytes

        return svg_bytes(*sheet_pages(subjects[0], wishes, paper))
    return _pdf(subjects, wishes, paper)


def _write_parts(
    out: Path, subjects: list[Subject], wishes: Wishes, paper: Paper, *, force: bool
) -> None:
    """Write a file for each sheet into a folder beside the index, and the index last."""
    from bracecalc.drawing.html import html_parts
    from bracecalc.errors import OutputError
    from bracecalc.writing import check_target, write_whole

    check_target(out, force=force)
    folder = out.with_name(f"{out.stem}-sheets")
    if folder.exists() and not (force and folder.is_dir()):
        raise OutputError(f"{folder}: already exists; use --force to write into it")
    folder.mkdir(exist_ok=True)
    with _progress(subjects, "sheets") as bar:
        for name, data in html_parts(list(bar), wishes, paper, folder.name):
            write_whole(folder / name if name else out, data, force=force)


def _pdf(subjects: list[Subject], wishes: Wishes, paper: Paper) -> bytes:
    from bracecalc.drawing.index import index_leaves, mark_of
    from bracecalc.drawing.layout import sheet_pages
    from bracecalc.drawing.lettering import bare, clean
    from bracecalc.drawing.pdf import Leaf, make_pdf

    many = len(subjects) > 1
    title = f"{len(subjects)} wall sheets" if many else bare(clean(subjects[0].plan.job.title))

    def leaves(bar: Iterable[Subject]) -> Iterator[Leaf]:
        if many:
            yield from index_leaves(subjects, wishes, paper)
        for number, subject in enumerate(bar, start=1):
            first, *others = sheet_pages(subject, wishes, paper)
            yield Leaf(first, mark_of(number))
            yield from (Leaf(page) for page in others)

    with _progress(subjects, "sheets") as bar:
        made = make_pdf(leaves(bar), title=title or "untitled", date=wishes.date)
    for letter in made.lost:
        click.echo(
            f"no font has {letter!r} (U+{ord(letter):04X}): written as its number in the PDF"
            f"{_more_fonts()}",
            err=True,
        )
    return made.data


def _more_fonts() -> str:
    """Return what would bring more letters, where it isn't there."""
    from importlib.util import find_spec

    if find_spec("manimgx_fonts_cjk") is None:
        return "; Chinese, Japanese and Korean: pip install 'bracecalc[cjk]'"
    return ""


def _progress(things: Sequence[T], label: str) -> AbstractContextManager[Iterable[T]]:
    """Return a bar on standard error, shown only to a person who waits for many."""
    hidden = len(things) < _MANY or not sys.stderr.isatty()
    return click.progressbar(things, label=label, file=sys.stderr, hidden=hidden)
