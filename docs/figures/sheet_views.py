"""Drawings of wall sheets, as figures: python docs/figures/sheet_views.py."""

from __future__ import annotations

from pathlib import Path

from bracecalc.data import demo_path

from bracecalc.certainty.drift import drifts_of
from bracecalc.drawing.content import Subject
from bracecalc.drawing.html import figures
from bracecalc.drawing.html import pictures as pictures_of
from bracecalc.drawing.showing import Shown
from bracecalc.drawing.svg import svg_bytes
from bracecalc.jobfile.read import read_job
from bracecalc.jobfile.write import job_to_toml
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Job

HERE = Path(__file__).parent


def pictures() -> dict[str, bytes]:
    """Return each figure by the name of its file."""
    demo = drawn(read_job(demo_path("3b-kitchen.toml")))
    example = drawn(read_job(HERE.parent / "worked-example.toml"))
    return {
        **{f"sheet-{view}.svg": picture for view, picture in demo.items()},
        **{f"worked-example-{view}.svg": example[view] for view in ("elevation", "section")},
    }


def drawn(job: Job) -> dict[str, bytes]:
    """Return the drawings of a job's sheet by the name of the view."""
    plan, shown = make_plan(job), Shown(job, None)
    text = job_to_toml(job, comments=False)
    subject = Subject(plan=plan, job_text=text, drifts=drifts_of(plan))
    return {
        drawing.groups[0].name: svg_bytes(drawing)
        for drawing, _ in (*figures(subject, shown), *pictures_of(subject, shown))
    }


if __name__ == "__main__":
    for name, picture in pictures().items():
        (HERE / name).write_bytes(picture)
