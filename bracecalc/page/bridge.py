"""Where the page calls the engine: JSON text in, JSON text out, no formula of its own."""

from __future__ import annotations

import json
import os
import tempfile
from base64 import b64decode, b64encode
from collections.abc import Callable
from pathlib import Path
from typing import Any

from bracecalc.errors import BraceError, JobError, Mistake
from bracecalc.page.answers import NOTHING, check, job_of, look, plan_of, told_of, work
from bracecalc.page.entries import Asked

Params = dict[str, Any]


def call(request: str) -> str:
    """Answer one request.

    Args:
        request: ``{"method": ..., "params": {...}}``.

    Returns:
        ``{"result": ...}``, or ``{"error": {"text": ..., "mistakes": [...]}}`` where the input is
        wrong; the text is what the command line prints. Each mistake has its key, its own line,
        and what to say beside the field that it is about.
    """
    asked = json.loads(request)
    try:
        result = METHODS[asked["method"]](asked["params"])
    except BraceError as error:
        mistakes = error.mistakes if isinstance(error, JobError) else ()
        told = [{"key": one.key, "text": str(one), "told": told_of(one)} for one in mistakes]
        return json.dumps({"error": {"text": str(error), "mistakes": told}})
    return json.dumps({"result": result})


LONGEST_NAME = 100
LARGEST_CODE = 30  # version: 137 cells, which a phone's width still shows more than two dots each
SAMPLE = """title = "warming up"
niche = {width = "33 in", depth = "24 in"}
wall = {layers = [{material = "plaster", thickness = "1/2 in"}], stud_spots = ["6 in", "22 in"]}
unit = {height = "80 in", width = "32 in", depth = "23 in", leg_travel = "1 3/8 in"}
"""
FOUND = {"as_found.floor.rear_right": "7/8 in", "as_found.screws": "10 x 3 1/2 in"}


def warm() -> None:
    """Work out a small niche, so that the first real one finds every room open."""
    for method in ("look", "check"):
        call(json.dumps({"method": method, "params": {"text": SAMPLE, "entries": {}}}))


def rehearse() -> None:
    """Ask for everything once, right and wrong, so that what the engine needs is known."""
    code = _code(_sample({}))["code"]
    special = {
        "open": [{"bytes": b64encode(SAMPLE.encode()).decode(), "name": "niche.toml"}],
        "decode": [{"code": code}, {"code": code[:-4]}],
        "rewrite": [{"value": "33 in", "unit": "mm"}, {"value": "a", "unit": "in"}],
        "sheet": [
            {**_sample(FOUND), "form": form, "paper": "a4", "date": "2026-11-25"}
            for form in ("svg", "html")
        ],
    }
    usual = [_sample({}), _sample(FOUND), _sample({"niche.width": "33 ib"})]
    for method in METHODS:
        for params in special.get(method, usual):
            call(json.dumps({"method": method, "params": params}))


def _sample(entries: Params) -> Params:
    return {"text": SAMPLE, "entries": entries}


def _asked(params: Params) -> Asked:
    return Asked(params["text"], params["entries"])


def _open(params: Params) -> Params:
    """Read a file just as the command line does: from its bytes, under its own name.

    With ``partial`` a job that lacks something is taken too, as one that is being measured.
    """
    from bracecalc.jobfile.read import read_job

    data = b64decode(params["bytes"])
    name = Path(params["name"]).name
    if name in ("", "..", "-") or len(name) > LONGEST_NAME:  # "-" would be standard input
        name = "job.toml"
    before = os.getcwd()
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        try:
            Path(name).write_bytes(data)
            title = read_job(name).title
        except JobError as error:
            if not params.get("partial") or any(one.read != NOTHING for one in error.mistakes):
                raise
            title = str(Asked(data.decode("utf-8-sig"), {}).base().get("title", ""))
        finally:
            os.chdir(before)
    return {"title": title, "text": data.decode("utf-8-sig")}


def _decode(params: Params) -> Params:
    from bracecalc.drawing.code import unpack

    try:
        return {"text": unpack(params["code"].strip())}
    except ValueError as error:
        read = f"{params['code'].strip()[:24]!r}"
        raise JobError(Mistake("code", "", read, f"the code of a sheet, whole ({error})")) from None


def _rewrite(params: Params) -> Params:
    """Return a length in the other unit, as people write it."""
    from bracecalc.records.job import Units
    from bracecalc.text.lengths import QuantityError, format_length, parse_length

    units = Units.MM if params["unit"] == "mm" else Units.INCH
    try:
        value = parse_length(params["value"], units=Units.INCH)
    except QuantityError as error:
        raise JobError(Mistake("", "", repr(params["value"]), str(error))) from None
    return {"text": format_length(value, units=units, grid=1 / 32)}


def _write(params: Params) -> Params:
    from bracecalc.page.writing import job_text

    return {"text": job_text(_asked(params))}


def _sheet(params: Params) -> Params:
    """Return the sheet to print, as SVG and as one HTML file."""
    from datetime import date

    from bracecalc.drawing.content import Subject, Wishes
    from bracecalc.drawing.html import html_bytes
    from bracecalc.drawing.layout import sheet_pages
    from bracecalc.drawing.showing import Paper
    from bracecalc.drawing.svg import svg_bytes
    from bracecalc.jobfile.write import job_to_toml

    plan = plan_of(_asked(params))
    subject = Subject(plan=plan, job_text=job_to_toml(plan.job, comments=False))
    wishes = Wishes(units=None, date=date.fromisoformat(params["date"]))
    paper = Paper(params["paper"])
    if params["form"] == "html":
        return {"text": html_bytes([subject], wishes, paper).decode()}
    return {"pages": [svg_bytes(page).decode() for page in sheet_pages(subject, wishes, paper)]}


def _code(params: Params) -> Params:
    from bracecalc.drawing.code import pack

    return {"code": pack(_write(params)["text"])}


def _hand(params: Params) -> Params:
    """Return the code that hands the job to another phone, row by row, or why there is none."""
    import segno

    from bracecalc.drawing.code import pack
    from bracecalc.page.writing import bare_text

    asked = _asked(params)
    for text in (_write(params)["text"], bare_text(asked)):
        try:
            made = segno.make_qr(pack(text), error="l", boost_error=False)
        except segno.DataOverflowError:
            continue
        if isinstance(made.version, int) and made.version <= LARGEST_CODE:
            return {"rows": ["".join("1" if cell else "0" for cell in row) for row in made.matrix]}
    return {"rows": None, "why": "This job is too long for a code: share the job file instead."}


def _plan_data(params: Params) -> Any:
    """Return the JSON of ``bracecalc plan``."""
    from bracecalc.planning.plan import make_plan

    return make_plan(job_of(_asked(params).merged()), alternatives=True).to_dict()


def _check_data(params: Params) -> Any:
    """Return the JSON of ``bracecalc check``."""
    from bracecalc.check.check import check_site
    from bracecalc.jobfile.as_found import read_as_found

    job = job_of(_asked(params).merged())
    return check_site(job, read_as_found(job.as_found, job)).to_dict()


METHODS: dict[str, Callable[[Params], Any]] = {
    "look": lambda params: look(_asked(params)),
    "check": lambda params: check(_asked(params)),
    "work": lambda params: work(_asked(params)),
    "open": _open,
    "decode": _decode,
    "rewrite": _rewrite,
    "write": _write,
    "code": _code,
    "sheet": _sheet,
    "hand": _hand,
    "plan data": _plan_data,
    "check data": _check_data,
}
