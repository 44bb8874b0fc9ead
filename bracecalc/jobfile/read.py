"""Job files: TOML text or Python mappings in, checked jobs out."""

from __future__ import annotations

import re
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.build import build_job
from bracecalc.jobfile.paths import flatten
from bracecalc.records.job import Job
from bracecalc.records.reference import Tables

LARGEST_FILE = 1_000_000  # bytes; a job file has a few thousand
STANDARD_INPUT = "-"

_PLACE = r" \(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of document)\)$"


def read_job(source: str | Path, *, tables: Tables | None = None) -> Job:
    """Read and check a job file.

    Args:
        source: path of a TOML file, or ``-`` for standard input.
        tables: reference tables to use, if not those of bracecalc; a job that names its own
            tables uses those.

    Raises:
        JobError: with every mistake in the file, one line each.
    """
    where = str(source)
    folder = Path() if where == STANDARD_INPUT else Path(where).parent
    return parse_job(_text_of(where), where=where, tables=tables, folder=folder)


def parse_job(
    text: str, *, where: str, tables: Tables | None = None, folder: Path | None = None
) -> Job:
    """Read and check the text of a job file; ``where`` stands for it in messages.

    Args:
        text: TOML.
        where: what to call it.
        tables: as for ``read_job``.
        folder: where the paths of the job's own tables start.

    Raises:
        JobError: with every mistake in the text.
    """
    if not text.strip():
        raise JobError(Mistake(where, "", "an empty file", "a job; bracecalc new writes one"))
    values = flatten(_toml(text, where), where=where)
    return build_job(values, where=where, tables=tables, folder=folder)


def make_job(nested: Mapping[str, object], *, where: str = "", tables: Tables | None = None) -> Job:
    """Return a job from tables as in a job file, with text, numbers or pint quantities in them.

    A length without a unit is in the job's units. A load without one is in pounds-force, which
    only an inch job may have.

    Args:
        nested: as ``{"niche": {"width": 33.25, ...}, ...}``.
        where: what to call it in messages.
        tables: as for ``read_job``.

    Raises:
        JobError: with every mistake.

    >>> wall = {"layers": "gypsum board 1/2 in", "stud_spots": [6, 22]}
    >>> unit = {"height": 80, "width": 32, "depth": 23, "leg_travel": 1.375, "weight": 540.0}
    >>> niche = {"width": 33.25, "depth": "24 in"}
    >>> make_job({"niche": niche, "wall": wall, "unit": unit}).niche.width
    (33.25,)
    """
    values = flatten(nested, where=where)
    return build_job(values, where=where, tables=tables, loads_bare=True)


def _text_of(where: str) -> str:
    data = _bytes_of(where)
    if len(data) > LARGEST_FILE:
        right = "a job file of less than 1 MB"
        raise JobError(Mistake(where, "", f"more than {LARGEST_FILE} bytes", right))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        read = f"bytes that aren't text (at byte {error.start + 1})"
        raise JobError(Mistake(where, "", read, "a TOML file in UTF-8")) from None
    if "\0" in text:
        raise JobError(Mistake(where, "", "binary data", "a TOML file in UTF-8"))
    return text


def _bytes_of(where: str) -> bytes:
    """Read at most one byte more than a job file may have, so that nothing endless is read."""
    try:
        if where == STANDARD_INPUT:
            return sys.stdin.buffer.read(LARGEST_FILE + 1)
        with Path(where).open("rb") as file:
            return file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        read, right = "no such file", "a job file; bracecalc new writes one"
    except IsADirectoryError:
        read, right = "a folder", "a job file in it"
    except PermissionError:
        read, right = "no permission to read it", "a file that you may read"
    except (OSError, ValueError) as error:  # ValueError: a path with a NUL in it
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        read, right = reason, "a job file that can be read"
    raise JobError(Mistake(where, "", read, right))


def _toml(text: str, where: str) -> dict[str, Any]:
    import tomllib

    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise JobError(_broken(text, where, str(error))) from None
    except RecursionError:
        raise JobError(Mistake(where, "", "lists in lists without end", "a job file")) from None
    except ValueError as error:  # a number of thousands of digits
        raise JobError(Mistake(where, "", str(error).partition(";")[0], "a job file")) from None


def _broken(text: str, where: str, message: str) -> Mistake:
    """Say where the TOML breaks off, with that line."""
    place = re.search(_PLACE, message)
    reason = re.sub(_PLACE, "", message)
    value_broken = reason.startswith(("Expected newline", "Invalid value"))
    hint = "; text, fractions and units stand in quotes: '33 1/4 in'" if value_broken else ""
    right = f"valid TOML ({reason[:1].lower()}{reason[1:]}{hint})"
    if place is None or place["line"] is None:
        return Mistake(where, "end of file", "", right)
    line = text.split("\n")[int(place["line"]) - 1].strip()
    read = repr(line if len(line) <= 40 else f"{line[:37]}...")
    return Mistake(where, f"line {place['line']}, column {place['column']}", read, right)
