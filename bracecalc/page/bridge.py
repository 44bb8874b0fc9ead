"""Where the page calls the engine: JSON text in, JSON text out, no formula of its own."""

from __future__ import annotations

import json
import os
import tempfile
from base64 import b64decode
from collections.abc import Callable
from pathlib import Path
from typing import Any

from bracecalc.errors import BraceError, JobError, Mistake
from bracecalc.page.answers import check, job_of, look, work
from bracecalc.page.entries import Asked

Params = dict[str, Any]


def call(request: str) -> str:
    """Answer one request.

    Args:
        request: ``{"method": ..., "params": {...}}``.

    Returns:
        ``{"result": ...}``, or ``{"error": {"text": ..., "mistakes": [...]}}`` where the input is
        wrong; the text is what the command line prints.
    """
    asked = json.loads(request)
    try:
        result = METHODS[asked["method"]](asked["params"])
    except BraceError as error:
        mistakes = error.mistakes if isinstance(error, JobError) else ()
        told = [{"key": one.key, "text": str(one)} for one in mistakes]
        return json.dumps({"error": {"text": str(error), "mistakes": told}})
    return json.dumps({"result": result})


def _asked(params: Params) -> Asked:
    return Asked(params["text"], params["entries"])


def _open(params: Params) -> Params:
    """Read a file just as the command line does: from its bytes, under its own name."""
    from bracecalc.jobfile import read_job

    data = b64decode(params["bytes"])
    before = os.getcwd()
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        try:
            name = Path(params["name"]).name
            # "-" would be standard input
            path = Path(f"{name}.toml" if name in ("", "-") else name)
            path.write_bytes(data)
            job = read_job(path)
        except OSError as error:
            reason = error.strerror or str(error)
            raise JobError(Mistake(params["name"], "", reason, "a job file")) from None
        finally:
            os.chdir(before)
    return {"title": job.title, "text": data.decode("utf-8-sig")}


def _decode(params: Params) -> Params:
    from bracecalc.render.sheet.code import unpack

    try:
        return {"text": unpack(params["code"].strip())}
    except ValueError as error:
        read = f"{params['code'].strip()[:24]!r}"
        raise JobError(Mistake("code", "", read, f"the code of a sheet, whole ({error})")) from None


def _write(params: Params) -> Params:
    from bracecalc.page.writing import job_text

    return {"text": job_text(_asked(params))}


def _code(params: Params) -> Params:
    from bracecalc.render.sheet.code import pack

    return {"code": pack(_write(params)["text"])}


def _plan(params: Params) -> Any:
    """Return the JSON of ``bracecalc plan``."""
    from bracecalc.plan import make_plan

    return make_plan(job_of(_asked(params).merged())).to_dict()


METHODS: dict[str, Callable[[Params], Any]] = {
    "look": lambda params: look(_asked(params)),
    "check": lambda params: check(_asked(params)),
    "work": lambda params: work(_asked(params)),
    "open": _open,
    "decode": _decode,
    "write": _write,
    "code": _code,
    "plan": _plan,
}
