"""``bracecalc plan``: the whole plan of each job."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from bracecalc.cli import options
from bracecalc.cli.jobs import read_jobs

if TYPE_CHECKING:
    from bracecalc.records.plan import Plan


@click.command(name="plan")
@click.argument("jobs", nargs=-1, required=True, metavar="JOB...")
@options.form(
    "table markdown json csv",
    help="How it is written. csv gives the screw positions and cut list in rows.",
)
@options.choice("--units", among="inch mm", help="Show lengths so, whatever the job is written in.")
@options.choice(
    "--english",
    among="us uk",
    help="Whose words and spelling; by default us in inches, uk in millimetres.",
)
@click.option("--full", is_flag=True, help="Show the whole plan, not the first screen alone.")
@click.option(
    "--alternatives",
    is_flag=True,
    help="Show alternatives to the stack: what each needs and holds.",
)
@click.option("--explain", is_flag=True, help="Show each step of the verification.")
@click.option(
    "--tolerance",
    is_flag=True,
    help="Show how far each measurement may drift before the verdict changes.",
)
@options.out("Write to a file; - is standard output.")
@options.force()
@click.pass_context
def command(
    ctx: click.Context,
    jobs: tuple[str, ...],
    form: str,
    units: str | None,
    english: str | None,
    full: bool,
    alternatives: bool,
    explain: bool,
    tolerance: bool,
    out: Path | None,
    force: bool,
) -> None:
    """Work out the whole plan of each JOB: a job file, a folder of them, or - for input.

    A table with a row a niche (CSV, XLSX or ODS) will do too.

    \b
    bracecalc plan niche.toml
    bracecalc plan niche.toml --explain
    bracecalc plan niches/ --format json -o plans.json
    """  # noqa: D301 - click wants the sign itself
    from dataclasses import replace

    from bracecalc.planning.plan import make_plan
    from bracecalc.records.job import English, Units
    from bracecalc.records.plan import Verdict

    read = read_jobs(jobs)
    if units is not None:
        read = [replace(job, units=Units(units), english=job.words) for job in read]
    if english is not None:
        read = [replace(job, english=English(english)) for job in read]
    every = alternatives or form == "json"
    plans = [make_plan(job, show_work=explain, alternatives=every) for job in read]
    text = "\n".join(
        _sections(plans, form, full=full or explain, alternatives=alternatives, tolerance=tolerance)
    )
    to = None if str(out) == options.STANDARD_OUTPUT else out
    options.put_out(text, to, force=force, end="\n")
    if any(plan.verdict is Verdict.FAILS for plan in plans):
        ctx.exit(1)


def _sections(
    plans: list[Plan], form: str, *, full: bool, alternatives: bool, tolerance: bool
) -> list[str]:
    if form == "json":
        import json

        shown = [_as_dict(plan, tolerance=tolerance) for plan in plans]
        return [json.dumps(shown[0] if len(shown) == 1 else shown, indent=2, allow_nan=False)]
    if form == "csv":
        from bracecalc.render.rows import plan_rows

        return [plan_rows(plans)]
    found = []
    for plan in plans:
        found.append(_shown(plan, form, full=full, alternatives=alternatives))
        if tolerance:
            found.append(_tolerance(plan, form))
    return found


def _shown(plan: Plan, form: str, *, full: bool, alternatives: bool) -> str:
    if full:  # the first screen has no room for it, and starts sooner without
        from bracecalc.certainty.sensitivity import with_sensitivity

        plan = with_sensitivity(plan)
    if form == "markdown":
        from bracecalc.render.markdown import plan_markdown

        return plan_markdown(plan, full=full, alternatives=alternatives)
    from bracecalc.render.text import plan_text, terminal_width

    width = terminal_width()
    return plan_text(plan, width=width, full=full, alternatives=alternatives)


def _as_dict(plan: Plan, *, tolerance: bool) -> dict[str, Any]:
    from bracecalc.records.plain import plain

    shown = plan.to_dict()
    if plan.steps:
        shown["steps"] = [plain(step) for step in plan.steps]
    if tolerance:
        from bracecalc.certainty.drift import tolerance_report

        shown["tolerance"] = tolerance_report(plan.job, plan).to_dict()
    return shown


def _tolerance(plan: Plan, form: str) -> str:
    from bracecalc.certainty.drift import tolerance_report
    from bracecalc.render.tolerance import tolerance_text

    return tolerance_text(tolerance_report(plan.job, plan), form=form)
