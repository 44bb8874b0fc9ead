"""The appliance's spec sheet in a file of its own, read once for a whole building.

A job names it in the place of its ``[unit]`` table: ``unit = "sheet-of-the-unit.toml"``. The file
has ``[unit]`` and, where the building's own figures stand there too, ``[loads]``. What the job
says itself goes before what the file says.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.paths import SHEET as KEY
from bracecalc.jobfile.paths import flatten, shown

TABLES = ("unit", "loads")
LARGEST_FILE = 1_000_000  # bytes
RIGHT = "a TOML file with a [unit] table, its path from the job file's folder"


def with_sheet(
    values: Mapping[str, object], *, where: str, folder: Path | None
) -> Mapping[str, object]:
    """Return values with those of the sheet that they name, if they name one.

    Args:
        values: by dotted key.
        where: file or row, for messages.
        folder: where the path starts.

    Raises:
        JobError: if the file can't be read, or says what doesn't belong there.
    """
    named = values.get(KEY)
    if not isinstance(named, str):
        return values
    path = (Path() if folder is None else folder) / named
    found = flatten(_read(path, named, where), where=str(path))
    units = values.get("units", "inch")
    if found.pop("units", "inch") != units:
        raise JobError(
            Mistake(where, KEY, f"{named}, in other units", f"a sheet with units = {units!r}")
        )
    outside = [key for key in found if key.split(".")[0] not in TABLES]
    if outside:
        right = f"[unit] and [loads] alone in {named}"
        raise JobError(Mistake(where, KEY, ", ".join(outside), right))
    return {**found, **{key: value for key, value in values.items() if key != KEY}}


def _read(path: Path, named: str, where: str) -> dict[str, object]:
    import tomllib

    try:
        with path.open("rb") as file:
            content = file.read(LARGEST_FILE + 1)
        if len(content) > LARGEST_FILE:
            raise JobError(Mistake(where, KEY, f"more than {LARGEST_FILE} bytes", RIGHT))
        return tomllib.loads(content.decode("utf-8-sig"))
    except OSError as error:
        read = f"{shown(named)}: {error.strerror}"
        raise JobError(Mistake(where, KEY, read, RIGHT)) from None
    except ValueError as error:  # TOML that isn't, and bytes that aren't text
        read = f"{shown(named)}: {str(error).partition(chr(10))[0]}"
        raise JobError(Mistake(where, KEY, read, RIGHT)) from None
