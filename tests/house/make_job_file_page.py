"""The page docs/job-file.md, made from the keys beside the records.

    python tests/house/make_job_file_page.py

The test beside it fails while the page is not what this writes.
"""

from __future__ import annotations

from dataclasses import MISSING
from pathlib import Path
from typing import Any

from bracecalc.jobfile.limits import DIMENSIONS, limits_in_words, within_in_words
from bracecalc.jobfile.write import length_text
from bracecalc.records.job import Units, job_groups
from bracecalc.records.keys import Group, Key, Kind, Within

PAGE = Path(__file__).parents[2] / "docs" / "job-file.md"
HEAD = """\
# The job file

One niche, one file in TOML. `bracecalc new` asks for the measurements and
writes one; any text editor changes it. This page is made from the same list of
keys that the reader checks by.

    title = "Quillet Yard 3B, kitchen"       # invented, as all of this example
    units = "inch"

    [niche]
    width = ['33 1/4 in', '33 3/8 in']       # several readings: a list
    depth = '24 3/4 in'

    [floor.down_from_line]                   # as a laser is read
    front_left = '41 3/4 in'
    front_right = '41 1/2 in'
    rear_left = '41 3/4 in'
    rear_right = '41 1/2 in'

    [wall]
    layers = [{ material = "gypsum board", thickness = '1/2 in' }]
    stud_spots = ['6 3/8 in', '22 1/4 in']

    [unit]
    height = '80 5/8 in'
    width = '32 3/4 in'
    depth = '23 1/8 in'
    leg_travel = '1 3/8 in'

## How values are written

- **Lengths**: `84 1/4 in`, `84-1/4"`, `84 1/4`, `84.25 in`, `7' 0 1/4"`,
  `7 ft 0.25 in`, `2139.95 mm`, `213.995 cm` and `2.13995 m` are the same length,
  and so is `84¼″`. A number without a unit is in the job's `units`. Anything
  with a fraction or a unit stands in quotes: single ones, so that `"` can be used
  for inches. A fraction is less than 1: `13/4 in` is refused, as 1 3/4 in is most
  likely meant.
- **Weights and forces** always have a unit: `540 lb`, `245 kg`, `2400 N`. A
  weight is read as the force it makes. Loads on an area: `40 psf`, `1.9 kPa`.
- A decimal comma is read too (`2139,95 mm`), except where it could be a mark for
  thousands (`1,250 mm`): that is refused.
- **Several values** in one text stand between semicolons (`6 3/8; 22 1/4`). A comma
  with a blank or a letter beside it will do (`8 ft, 12`); one between two digits is a
  decimal comma in a metric length (`3 m, 4,8 m`), and refused elsewhere: `2139,95` may
  be one value or two.
- **What can't be** is refused, with the unit that would fit: `width = 845` in an inch
  job asks whether `units = "mm"` is missing. What can be but seldom is (a niche 90 in
  wide) is asked again by `bracecalc new`, and told by a plan. Those limits are common
  practice.
- **Heights** are above the datum, the one level line or plane of the site. Floor
  readings taken down from a laser's line go into `[floor.down_from_line]`; the two
  ways can't be mixed.
- **One spec sheet for a building**: `unit = "sheet-of-the-unit.toml"` over the first table,
  in the place of `[unit]`, names a file with `[unit]` and, where they are given there too,
  `[loads]`; its path starts at the job file's folder. What the job itself says goes first.
- Names of materials, sizes and species are those of `bracecalc table`; capitals and
  blanks don't matter.

Every key is checked. A wrong one is told in one line with the file, the key, what
was read and what would be right, and all mistakes of a file are told at once; then
nothing is worked out (exit status 2). A key that isn't known is a mistake too, so
that typos are never ignored.

## Many niches

A folder of job files, or a spreadsheet with one row a niche and these keys as
columns (`niche.width`, `unit.weight`, ...). In a cell, several readings have
semicolons between them (`6 3/8 in; 22 1/4 in`), layers are written
`gypsum board 1/2 in; plywood 3/4 in`, and lists of tables go by number
(`unit.doors.1.reach`).

## From Python

`bracecalc.jobfile.read.make_job` takes the same keys as nested dictionaries, with text,
numbers or pint quantities in them. A load without a unit is in pounds-force there,
in an inch job; a metric job must give its unit. The records (`Job`, `Niche`, `Unit`,
...) take floats in inch and lbf, or pint quantities; `make_plan` turns them.
"""

TAIL = """\
## As found

`[as_found]` and `[[as_found_record]]` hold what `bracecalc check` measures against
the plan; a plan passes over them.
"""


def job_file_page() -> str:
    """Return the page in markdown."""
    parts = [HEAD, "## Keys\n"]
    shown: list[str] = []
    for group in job_groups():
        if group.path not in shown:
            parts.append(f"### {_title(group)}\n")
        shown.append(group.path)
        parts.append(f"{group.what[:1].upper()}{group.what[1:]}.\n")
        rows = ["| key | what | written as | if left out |", "| --- | --- | --- | --- |"]
        rows.extend(_row(group, key) for key in group.keys)
        parts.append("\n".join(rows) + "\n")
    return "\n".join((*parts, TAIL))


def _title(group: Group) -> str:
    if not group.path:
        return "At the top"
    return f"`[[{group.path}]]`" if group.many else f"`[{group.path}]`"


def _row(group: Group, key: Key) -> str:
    what = f"{key.what[:1].upper()}{key.what[1:]}"
    return f"| `{key.name}` | {what} | {_written(key)} | {_left_out(group, key)} |"


def _written(key: Key) -> str:
    if key.kind is Kind.CHOICE:
        return " or ".join(f'`"{choice}"`' for choice in key.choices)
    if key.kind is Kind.NAME:
        return f"a name of `bracecalc table {key.table.replace('_', '-')}`"
    limits, usual = limits_in_words(key), ""
    if key.within.usual is not None:
        least, most = key.within.usual
        dimension = DIMENSIONS[key.kind]
        usual = f"; usually {within_in_words(Within(least, most), dimension)}"
    return f"{key.kind.value}, {limits}{usual}" if limits else key.kind.value


def _left_out(group: Group, key: Key) -> str:
    if key.required:
        return "must be given"
    if key.otherwise:
        return key.otherwise
    default = key.default
    if default is None or default is MISSING or default == ():
        return "not given"
    return _default_text(key, default)


def _default_text(key: Key, default: Any) -> str:
    if isinstance(default, bool):
        return "true" if default else "false"
    if key.kind is Kind.LENGTH:
        return length_text(default, Units.INCH)
    if key.kind is Kind.FORCE:
        return f"{default:g} lbf"
    if key.kind is Kind.TEMPERATURE:
        return f"{default:g} degF"
    return f'`"{default}"`' if isinstance(default, str) else f"{default:g}"


if __name__ == "__main__":
    PAGE.write_text(job_file_page(), encoding="utf-8", newline="\n")
