"""The drawings of the demo niche's sheet, as figures: python docs/figures/sheet_views.py."""

from __future__ import annotations

from pathlib import Path

from bracecalc.data import demo_path

from bracecalc.jobfile import job_to_toml, read_job
from bracecalc.plan import make_plan
from bracecalc.render.sheet.content import Subject
from bracecalc.render.sheet.html import figures
from bracecalc.render.sheet.showing import Shown
from bracecalc.render.sheet.svg import svg_bytes

HERE = Path(__file__).parent


def pictures() -> dict[str, bytes]:
    """Return each figure by the name of its file."""
    job = read_job(demo_path("3b-kitchen.toml"))
    subject = Subject(plan=make_plan(job), job_text=job_to_toml(job, comments=False))
    return {
        f"sheet-{drawing.groups[0].name}.svg": svg_bytes(drawing)
        for drawing, _ in figures(subject, Shown(job, None))
    }


if __name__ == "__main__":
    for name, picture in pictures().items():
        (HERE / name).write_bytes(picture)
