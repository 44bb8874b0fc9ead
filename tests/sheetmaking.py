"""Sheets for the tests: of the demo jobs, and of any job by hypothesis. Invented."""

from __future__ import annotations

import datetime
from dataclasses import replace
from importlib.resources import files

from hypothesis import strategies as st
from jobs import jobs, sixteenths

from bracecalc.certainty.drift import drifts_of
from bracecalc.drawing.content import Subject, Wishes
from bracecalc.drawing.layout import sheet_pages
from bracecalc.drawing.lettering import bare
from bracecalc.drawing.model import Text
from bracecalc.drawing.showing import Paper, ShownUnits
from bracecalc.jobfile.read import parse_job
from bracecalc.jobfile.write import job_to_toml
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Job, Layer, Units

DAY = datetime.date(2026, 11, 25)
DEMO_FOLDER = files("bracecalc.data.demo")
DEMO = sorted(path.name for path in DEMO_FOLDER.iterdir() if path.name.endswith(".toml"))
LAYERS = [
    Layer(material="gypsum board", thickness=0.5),
    Layer(material="gypsum board", thickness=0.625),
    Layer(material="tile", thickness=0.375),
    Layer(material="cement board", thickness=0.5),
    Layer(material="plywood", thickness=0.75, fixed_to_stud=True),
]


def demo_job(name: str) -> Job:
    """Return a job of the demo."""
    return parse_job(DEMO_FOLDER.joinpath(name).read_text(encoding="utf-8"), where=name)


def subject(job: Job) -> Subject:
    """Return the job with its plan, as the command makes it for few jobs."""
    plan = make_plan(job)
    return Subject(plan=plan, job_text=job_to_toml(job, comments=False), drifts=drifts_of(plan))


def wishes(units: ShownUnits | None = None) -> Wishes:
    """Return wishes for a sheet of a fixed day."""
    return Wishes(units=units, date=DAY)


@st.composite
def any_jobs(draw: st.DrawFn) -> Job:
    """Jobs that nobody ought to have, too: very wide, crowded with studs, many layers."""
    job = draw(jobs())
    if draw(st.booleans()):
        width = draw(sixteenths(12, 120))
        spots = tuple(sorted(draw(st.sets(sixteenths(0, width), max_size=60))))
        layers = tuple(draw(st.lists(st.sampled_from(LAYERS), max_size=6)))
        wall = replace(job.wall, layers=layers, stud_spots=spots, stud_layout=None)
        wide = replace(job.unit, width=max(8.0, width - draw(sixteenths(-2, 6))))
        niche = replace(
            job.niche, width=(width,), depth=(min(60.0, job.unit.depth + draw(sixteenths(-1, 40))),)
        )
        job = replace(job, wall=wall, unit=wide, niche=niche)
    title = draw(st.text(max_size=200))
    return replace(job, title=title, units=draw(st.sampled_from(Units)))


def golden_words(name: str) -> str:
    """Return the words of a demo job's page, but for those whose home is the plan's own text."""
    pages = sheet_pages(subject(demo_job(f"{name}.toml")), wishes(), Paper.LETTER)
    groups = (group for page in pages for group in page.groups if group.name != "words")
    items = (item for group in groups for item in group.items)
    return "".join(f"{bare(item.words)}\n" for item in items if isinstance(item, Text))
