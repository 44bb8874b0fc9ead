"""``bracecalc check``: as found on site against the plan."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from datetime import datetime

    from bracecalc.records.job import Job
    from bracecalc.records.site import SiteCheck

# option -> key of [as_found]
OPTIONS = {
    "--floor": "floor",
    "--floor-down": "floor",
    "--line": "line",
    "--path-high": "path_high",
    "--studs": "studs",
    "--layers": "layers",
    "--board": "board",
    "--board-up": "board",
    "--projection": "projection",
    "--fixed": "fixed",
    "--fixed-at": "fixed_at",
    "--screws": "screws",
    "--legs": "legs",
}
ALSO = (
    "soffit_solid",
    "soffit_depth",
    "framing",
    "blocking",
    "board_start",
    "board_length",
    "twist",
    "seized",
    "trim",
    "unit_in",
)
OPENING = ("width", "depth", "soffit")


class ByContext(click.Command):
    """A command whose many values stay in ``ctx.params``: the callback takes the context alone."""

    def invoke(self, ctx: click.Context) -> object:
        """Run the callback."""
        return None if self.callback is None else ctx.invoke(self.callback, ctx)


@click.command(name="check", cls=ByContext)
@click.argument("job", metavar="JOB")
@click.option(
    "--floor",
    metavar="FL;FR;RL;RR",
    help="Floor above the datum at the leg spots: front left, front right, rear left, rear right.",
)
@click.option("--floor-down", metavar="FL;FR;RL;RR", help="The same, read down from a level line.")
@click.option(
    "--line",
    metavar="HEIGHT",
    help="That line's height above the datum; without it the lowest leg spot is the datum.",
)
@click.option("--path-high", metavar="HEIGHT", help="Highest floor on the way in.")
@click.option("--studs", metavar="SPOTS", help="Stud centres from the left side of the niche.")
@click.option(
    "--layers", metavar="LAYERS", help="Wall from the room to the studs: 'gypsum board 1/2'."
)
@click.option(
    "--opening",
    "openings",
    multiple=True,
    metavar="'NAME VALUES'",
    help="Opening at several points: 'width 33 1/4; 33 3/16'; also depth, soffit. May be repeated.",
)
@click.option(
    "--board", metavar="LEFT;RIGHT", help="Underside of the boards above the datum, at both ends."
)
@click.option("--board-up", metavar="LEFT;RIGHT", help="The same, read up from the line.")
@click.option(
    "--projection", metavar="DEPTHS", help="Wall to the face of the front board, left and right."
)
@click.option(
    "--fixed",
    metavar="SCREWS",
    help="Screws in the boards that are up, from the wall outward: '10 x 3 1/2; 12 x 5'.",
)
@click.option(
    "--fixed-at", metavar="SPOTS", help="Where those screws are, from the left side of the niche."
)
@click.option("--screws", metavar="SCREWS", help="Screws on hand: '10 x 3 1/2; 12 x 5'.")
@click.option("--legs", metavar="FL;FR;RL;RR", help="How far each leg is screwed out now.")
@click.option(
    "--also",
    "others",
    multiple=True,
    metavar="'NAME VALUE'",
    help="Anything else that was found: 'soffit_solid no', 'framing steel', 'twist 1/8', "
    "'seized rear left', 'trim', 'unit_in', 'blocking', 'board_length 30'. May be repeated.",
)
@click.option("--ask", is_flag=True, help="Ask for what was not given, one by one.")
@click.option("--save", is_flag=True, help="Keep what was found, the date and the verdict in JOB.")
@click.option(
    "--date",
    "on",
    type=click.DateTime(formats=["%Y-%m-%d"]),
    help="Date of that record. Default: today.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["table", "markdown", "json"]),
    default="table",
    show_default=True,
    help="How it is written.",
)
@click.option("--units", type=click.Choice(["inch", "mm"]), help="Show lengths so.")
@click.option(
    "--out", "-o", type=click.Path(path_type=Path), metavar="FILE", help="Write to a file."
)
@click.option("--force", is_flag=True, help="Write over a file that exists.")
def command(ctx: click.Context) -> None:
    """Check what was found on site against the plan of JOB, a job file or - for standard input.

    What is not given comes from [as_found] in the job file, else from the plan, and is marked so.
    Points go between semicolons; - is a point not measured. Several pulls of one length are joined
    by "and": their mean counts, their spread is its uncertainty.

    \b
    bracecalc check niche.toml --studs '6 3/8; 22 1/2' --floor '0; 1/8; 0; 5/16'
    bracecalc check niche.toml --board '81 1/2 and 81 9/16; 81 5/8'
    bracecalc check niche.toml --ask --save
    """  # noqa: D301 - click wants the sign itself
    from bracecalc.check.check import check_site
    from bracecalc.jobfile.as_found import read_as_found
    from bracecalc.jobfile.read import read_job
    from bracecalc.records.plan import Verdict

    given = ctx.params
    job: str = given["job"]
    _refuse_mixed(job, ask=given["ask"], save=given["save"])
    planned = read_job(job)
    raw, wheres = _measured(planned, given)
    if given["ask"]:
        from bracecalc.cli.asking import ask

        raw = ask(planned, raw, Path(job))
    as_found = read_as_found(raw, planned, wheres=wheres)
    if given["save"] and not raw:
        _refuse("--save", "no measurement", "at least one, or --ask")
    check = check_site(_shown_in(planned, given["units"]), as_found)
    if given["save"]:  # first: a reader of the report that goes away must not lose the record
        _save(Path(job), planned, raw, check, given["on"])
    _write(_text(check, given["form"]), given["out"], force=given["force"])
    if check.verdict is Verdict.FAILS:
        ctx.exit(1)


def _refuse(where: str, read: str, right: str) -> None:
    from bracecalc.errors import JobError, Mistake

    raise JobError(Mistake(where, "", read, right))


def _refuse_mixed(job: str, *, ask: bool, save: bool) -> None:
    if job == "-" and save:
        _refuse("--save", "a job from standard input", "a job file, which keeps the record")
    if job == "-" and ask:
        _refuse("--ask", "a job from standard input", "a job file; the answers come from there")


def _measured(job: Job, given: Mapping[str, Any]) -> tuple[dict[str, Any], dict[str, str]]:
    """Return what was measured by the keys of ``[as_found]``, options before the job file."""
    raw: dict[str, Any] = dict(job.as_found)
    wheres: dict[str, str] = {}
    for option, key in OPTIONS.items():
        text = given[option.removeprefix("--").replace("-", "_")]
        if text is None:
            continue
        if key in wheres:
            _refuse(option, f"{option} beside {wheres[key]}", "one of them")
        kinds = {"--floor-down": "down_from_line", "--board-up": "up_from_line"}
        raw[key] = {kinds[option]: text} if option in kinds else text
        wheres[key] = option
    for text in given["openings"]:
        named = re.split(rf"\s*;?\s*\b({'|'.join(OPENING)})\b", text)
        values = [part.strip() for part in named[2::2]]
        if named[0].strip() or not values or not all(values):
            _refuse("--opening", repr(text.strip()), "'width 33 1/4; 33 3/16', depth or soffit")
        for name, value in zip(named[1::2], values, strict=True):
            raw[name] = value
            wheres[name] = "--opening"
    for text in given["others"]:
        name, _, value = text.strip().partition(" ")
        if name not in ALSO:
            _refuse("--also", repr(text.strip()), f"one of {', '.join(ALSO)}, and its value")
        raw[name] = value.strip() or "yes"
        wheres[name] = "--also"
    return raw, wheres


def _shown_in(job: Job, units: str | None) -> Job:
    if units is None:
        return job
    from dataclasses import replace

    from bracecalc.records.job import Units

    return replace(job, units=Units(units))


def _text(check: SiteCheck, form: str) -> str:
    if form == "json":
        import json

        return json.dumps(check.to_dict(), indent=2, allow_nan=False)
    from bracecalc.render.check import check_text

    return check_text(check, form=form)


def _write(text: str, out: Path | None, *, force: bool) -> None:
    if out is None:
        click.echo(text, color=None)
        return
    from bracecalc.writing import write_whole

    write_whole(out, click.unstyle(text) + "\n", force=force)
    click.echo(f"wrote {out}", err=True)


def _save(
    path: Path, job: Job, raw: Mapping[str, Any], check: SiteCheck, on: datetime | None
) -> None:
    from datetime import date

    from bracecalc.jobfile.record import Record, save_record

    record = Record(
        on=date.today() if on is None else on.date(),
        verdict=check.verdict,
        units=job.units,
        fails=tuple(miss.finding.code for miss in check.misses),
        lost=tuple(one.text for one in check.todo if not one.actions),
        values=raw,
    )
    save_record(path, record)
    click.echo(f"saved in {path}", err=True)
