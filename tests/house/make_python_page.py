"""Make docs/python.md from the docstrings of what bracecalc offers to Python.

    python tests/house/make_python_page.py

The test beside it fails while the page is not what this writes.
"""

from __future__ import annotations

import inspect
from pathlib import Path

from bracecalc import api

PAGE = Path(__file__).parents[2] / "docs" / "python.md"
METHODS = {"Job": ("with_",), "Plan": ("to_dict", "rows")}
INTRODUCTION = """\
# From Python

Made from the docstrings by `tests/house/make_python_page.py`; don't edit it here.

Everything here is imported from `bracecalc` itself. Records are frozen; lengths are inches and
forces pounds-force unless a quantity of pint says otherwise. Nothing is printed, nothing global is
changed, and several threads may call at once.

    from bracecalc import make_plan, read_job

    job = read_job("niche.toml")
    plan = make_plan(job)              # in a notebook: the plan's words and its elevation
    rows = plan.rows()                 # pieces and screw places, a row each, for a data frame

How much a wall finish costs, as a study of five lines:

    for finish in ("1/4 in", "1/2 in", "5/8 in", "3/4 in"):
        changed = make_plan(job.with_("wall.layers.1.thickness", finish))
        for case in changed.demand.cases:
            print(finish, case.name, round(case.force), "of", case.capacity)
"""


def _entry(title: str, member: object) -> str:
    signature = str(inspect.signature(member)) if callable(member) else ""
    shown = signature.replace("bracecalc.", "") if not inspect.isclass(member) else ""
    text = inspect.getdoc(member) or ""
    body = "\n".join(f"    {line}".rstrip() for line in text.splitlines())
    return f"## {title}\n\n    {title.rpartition('.')[2]}{shown}\n\n{body}\n"


def page() -> str:
    """Return the page."""
    parts = [INTRODUCTION]
    for name in api.__all__:
        member = getattr(api, name)
        parts.append(_entry(name, member))
        for method in METHODS.get(name, ()):
            parts.append(_entry(f"{name}.{method}", getattr(member, method)))
    return "\n".join(parts)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
