"""From Python: what a script or a notebook calls, each part loaded when it is first used.

May import: certainty, check, drawing, errors, jobfile, order, planning, records, render, writing.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from bracecalc.jobfile.read import read_job
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Job
from bracecalc.records.plan import Plan

if TYPE_CHECKING:
    from bracecalc.drawing.content import Subject
    from bracecalc.order.order import Order
    from bracecalc.order.rules import OrderRules
    from bracecalc.records.site import AsFound, SiteCheck

__all__ = ["Job", "Plan", "check_site", "draw_sheet", "make_plan", "read_job", "takeoff"]


def check_site(job: Job, found: AsFound | Mapping[str, object]) -> SiteCheck:
    """Return what was found on site against the plan of a job, with what puts it right.

    Args:
        job: one niche.
        found: readings by the keys of ``[as_found]`` (docs/site-check.md), or a record of them.

    Raises:
        JobError: with every reading that can't be used.

    >>> from bracecalc.data import demo_path
    >>> job = read_job(demo_path("3b-kitchen.toml"))
    >>> check_site(job, {"width": "33 1/4 in"}).found.stack is not None
    True
    """
    from bracecalc.check.check import check_site as check
    from bracecalc.jobfile.as_found import read_as_found

    return check(job, read_as_found(found, job) if isinstance(found, Mapping) else found)


def takeoff(jobs: Iterable[Job | str | Path], *, rules: OrderRules | None = None) -> Order:
    """Return what many niches need together, cut from sticks at the least cost found.

    Args:
        jobs: jobs, and paths of job files, folders of them or tables with a row a niche.
        rules: saw, stock, prices, overage; the defaults of ``bracecalc takeoff`` without it.

    Raises:
        JobError: with every job that can't be worked out.

    >>> from bracecalc.data import demo_path
    >>> job = read_job(demo_path("3b-kitchen.toml"))
    >>> takeoff([job, job]).tally.total.niches
    2
    """
    import tomllib

    from bracecalc.errors import JobError
    from bracecalc.jobfile.paths import flatten
    from bracecalc.jobfile.rows import Columns, NicheRow
    from bracecalc.jobfile.write import job_to_toml
    from bracecalc.order.order import make_order
    from bracecalc.order.rules import OrderRules
    from bracecalc.order.takeoff import niche_rows, take

    def rows() -> Iterable[NicheRow]:
        for job in jobs:
            if isinstance(job, Job):
                written = tomllib.loads(job_to_toml(job, comments=False))
                values = flatten(written, where=job.title)
                yield NicheRow(where=job.title, number=0, values=values, count=1, labels={})
            else:
                yield from niche_rows([str(job)], Columns())

    asked = OrderRules() if rules is None else rules
    tally = take(rows(), longest=asked.longest_piece)
    if tally.mistakes:
        raise JobError(*tally.mistake_lines())
    return make_order(tally, asked)


def draw_sheet(
    plan: Plan, out: str | Path, *, date: datetime.date | None = None, force: bool = False
) -> Path:
    """Write the wall sheet of a plan as PDF, HTML or SVG, by the file's ending; return its path.

    Args:
        plan: what is drawn.
        out: the file; PDF needs the extra ``sheet``.
        date: printed on the sheet; today without it.
        force: write over a file that exists.

    Raises:
        OutputError: if the file exists and ``force`` is false, or it can't be written.
        ValueError: if the file ends in nothing that a sheet is written as.
    """
    from bracecalc.drawing.content import Wishes
    from bracecalc.drawing.layout import sheet_pages
    from bracecalc.drawing.showing import Paper
    from bracecalc.records.job import Units
    from bracecalc.writing import write_whole

    path, subject = Path(out), _subject(plan)
    wishes = Wishes(units=None, date=datetime.date.today() if date is None else date)
    paper = Paper.A4 if plan.job.units is Units.MM else Paper.LETTER
    ending = path.suffix.lower()
    if ending == ".svg":
        from bracecalc.drawing.svg import svg_bytes

        data = svg_bytes(*sheet_pages(subject, wishes, paper))
    elif ending == ".html":
        from bracecalc.drawing.html import html_bytes

        data = html_bytes([subject], wishes, paper)
    elif ending == ".pdf":
        from bracecalc.drawing.pdf import Leaf, make_pdf

        leaves = [Leaf(page) for page in sheet_pages(subject, wishes, paper)]
        data = make_pdf(leaves, title=plan.job.title, date=wishes.date).data
    else:
        raise ValueError(f"{path.name!r} must end in .pdf, .html or .svg")
    write_whole(path, data, force=force)
    return path


def _subject(plan: Plan) -> Subject:
    from bracecalc.certainty.drift import drifts_of
    from bracecalc.drawing.content import Subject
    from bracecalc.jobfile.write import job_to_toml

    text = job_to_toml(plan.job, comments=False)
    return Subject(plan=plan, job_text=text, drifts=drifts_of(plan))


def _plan_html(plan: Plan) -> str:
    """Return the plan as a notebook shows it: its words, then its elevation."""
    from html import escape

    from bracecalc.render.text import plan_text

    return f"<pre>{escape(plan_text(plan))}</pre>{_plan_svg(plan)}"


def _plan_svg(plan: Plan) -> str:
    """Return the elevation of a plan as SVG."""
    from bracecalc.drawing.html import figures
    from bracecalc.drawing.showing import Shown
    from bracecalc.drawing.svg import svg_bytes

    elevation, _ = next(iter(figures(_subject(plan), Shown(plan.job, None))))
    return svg_bytes(elevation).decode()


def _changed(job: Job, path: str, value: object) -> Job:
    """Return a job with one value changed, read and checked as a job file is."""
    import tomllib
    from dataclasses import replace

    from bracecalc.jobfile.build import build_job
    from bracecalc.jobfile.change import changed_values
    from bracecalc.jobfile.write import job_to_toml

    written = tomllib.loads(job_to_toml(job, comments=False))
    changed = changed_values(written, path, value, where=job.title)
    made = build_job(changed, where=job.where or job.title, tables=job.tables, loads_bare=True)
    return replace(made, where=job.where)


# Records know no reader and no renderer: what they offer of these is filled in here.
Job.CHANGE["with_"] = _changed
Plan.VIEWS.update(html=_plan_html, svg=_plan_svg)
