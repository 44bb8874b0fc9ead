"""``bracecalc check``: as found on site against the plan."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from bracecalc.cli import options

if TYPE_CHECKING:
    from datetime import datetime

    from bracecalc.records.job import Job
    from bracecalc.records.site import SiteCheck


class Found(NamedTuple):
    """An option for what was found; one for ``many`` may come again, each with a key of its own."""

    name: str
    metavar: str
    help: str
    many: bool = False

    @property
    def option(self) -> str:
        """As it is typed."""
        return f"--{self.name.replace('_', '-')}"


CORNERS, SPOTS, SCREWS = "FL;FR;RL;RR", "SPOTS", "SCREWS"
FOUND = (
    Found(
        "floor",
        CORNERS,
        "Floor above the datum at the leg spots: front left, front right, rear left, rear right.",
    ),
    Found("floor_down", CORNERS, "The same, read down from a level line."),
    Found(
        "line",
        "HEIGHT",
        "That line's height above the datum; without it the lowest leg spot is the datum.",
    ),
    Found("path_high", "HEIGHT", "Highest floor on the way in."),
    Found("studs", SPOTS, "Stud centres from the left side of the niche."),
    Found("layers", "LAYERS", "Wall from the room to the studs: 'gypsum board 1/2'."),
    Found(
        "opening",
        "'NAME VALUES'",
        "Opening at several points: 'width 33 1/4; 33 3/16'; also depth, soffit. May be repeated.",
        many=True,
    ),
    Found("board", "LEFT;RIGHT", "Underside of the boards above the datum, at both ends."),
    Found("board_up", "LEFT;RIGHT", "The same, read up from the line."),
    Found("projection", "DEPTHS", "Wall to the face of the front board, left and right."),
    Found(
        "fixed",
        SCREWS,
        "Screws in the boards that are up, from the wall outward: '10 x 3 1/2; 12 x 5'.",
    ),
    Found("fixed_at", SPOTS, "Where those screws are, from the left side of the niche."),
    Found("screws", SCREWS, "Screws on hand: '10 x 3 1/2; 12 x 5'."),
    Found("legs", CORNERS, "How far each leg is screwed out now."),
    Found(
        "also",
        "'NAME VALUE'",
        "Anything else that was found: 'soffit_solid no', 'framing steel', 'twist 1/8', "
        "'seized rear left', 'trim', 'unit_in', 'blocking', 'board_length 30'. May be repeated.",
        many=True,
    ),
)
# options for readings from a level line: the key of [as_found], and the key within it
FROM_LINE = {"floor_down": ("floor", "down_from_line"), "board_up": ("board", "up_from_line")}
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


def _with_found(command: Callable[..., None]) -> Callable[..., None]:
    for one in reversed(FOUND):
        option = click.option(one.option, metavar=one.metavar, help=one.help, multiple=one.many)
        command = option(command)
    return command


@click.command(name="check")
@click.argument("job", metavar="JOB")
@_with_found
@click.option("--ask", is_flag=True, help="Ask for what was not given, one by one.")
@click.option("--save", is_flag=True, help="Keep what was found, the date and the verdict in JOB.")
@click.option(
    "--date",
    "on",
    type=click.DateTime(formats=["%Y-%m-%d"]),
    help="Date of that record. Default: today.",
)
@options.form("table markdown json")
@options.choice("--units", among="inch mm", help="Show lengths so.")
@options.out("Write to a file.")
@options.force()
@click.pass_context
def command(ctx: click.Context, /, **given: Any) -> None:
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
    options.put_out(_text(check, given["form"]), given["out"], force=given["force"], end="\n")
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
    for one in FOUND:
        text = given[one.name]
        if one.many or text is None:
            continue
        key, kind = FROM_LINE.get(one.name, (one.name, ""))
        if key in wheres:
            _refuse(one.option, f"{one.option} beside {wheres[key]}", "one of them")
        raw[key] = {kind: text} if kind else text
        wheres[key] = one.option
    for text in given["opening"]:
        named = re.split(rf"\s*;?\s*\b({'|'.join(OPENING)})\b", text)
        values = [part.strip() for part in named[2::2]]
        if named[0].strip() or not values or not all(values):
            _refuse("--opening", repr(text.strip()), "'width 33 1/4; 33 3/16', depth or soffit")
        for name, value in zip(named[1::2], values, strict=True):
            raw[name] = value
            wheres[name] = "--opening"
    for text in given["also"]:
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
