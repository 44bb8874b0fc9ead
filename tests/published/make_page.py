"""Writes docs/verification.md from the data that the tests use: python -m published.make_page."""

from __future__ import annotations

from pathlib import Path

from published import asce7, awc_examples, awc_tr12, eurocode, handbooks, nds_2018, two_writings
from published.check import Check, Table

PAGE = Path(__file__).parents[2] / "docs" / "verification.md"

TABLES = (
    *nds_2018.TABLES,
    *awc_tr12.TABLES,
    *awc_examples.TABLES,
    *handbooks.TABLES,
    *asce7.TABLES,
    *eurocode.TABLES,
)

_HEAD = """# Verification: printed values against ours

Every formula that a plan rests on is held against values printed outside this project. This page
is written from the data of the tests (`cd tests && python -m published.make_page`), and a test
fails when it is stale. "Agrees" means that ours rounds to the printed value: the difference is at
most half of its last digit. A value that does not agree stays here, with the difference and what
we make of it. No formula was fitted to a value.

How each value was read:

- **seen**: in the document itself, or in a scan or a page that reproduces it;
- **second hand**: only where somebody else quotes it;
- **from memory**: recalled. That it agrees shows that memory and equations agree; it is not a
  reading of the table. Look in the document before you rest on it.

This page shows that the arithmetic follows the sources. It is no approval, and does not replace
the judgement of a licensed engineer or the local code.
"""


def _number(value: float, step: float) -> str:
    decimals = max(0, len(f"{step:.6f}".rstrip("0").split(".")[1]))
    return f"{value:.{decimals}f}"


def _signed(value: float) -> str:
    text = f"{value:+.3g}"
    return "0" if float(text) == 0.0 else text


def _row(check: Check) -> str:
    # one digit more than is printed there, so that the rounding can be followed
    ours = _number(check.ours, check.step / 10.0 if check.step <= 1.0 else 0.1)
    verdict = "yes" if check.agrees else f"**no**: {check.differs}"
    return (
        f"| {check.where} | {_number(check.printed, check.step)} | {ours} "
        f"| {_signed(check.difference)} | {verdict} | {check.mark.value} |"
    )


def _section(table: Table) -> str:
    rows = "\n".join(_row(check) for check in table.checks)
    return (
        f"## {table.name}\n\nSource: {table.reference}.\n\nPut in: {table.put_in}.\n\n"
        f"| where | printed, {table.unit} | ours | difference | agrees | read |\n"
        f"| --- | ---: | ---: | ---: | --- | --- |\n{rows}\n"
    )


def _summary() -> str:
    lines = []
    for table in TABLES:
        agree = sum(check.agrees for check in table.checks)
        worst = max(table.checks, key=lambda check: abs(check.difference) / check.step)
        marks = ", ".join(
            f"{sum(check.mark == mark for check in table.checks)} {mark.value}"
            for mark in sorted({check.mark for check in table.checks})
        )
        lines.append(
            f"| {table.name} | {len(table.checks)} | {agree} | {_signed(worst.difference)} "
            f"{table.unit.split(', ')[-1]} | {marks} |"
        )
    return (
        "## In short\n\n| table | values | agree | largest difference | read |\n"
        "| --- | ---: | ---: | ---: | --- |\n" + "\n".join(lines) + "\n"
    )


def _writings() -> str:
    rows = "\n".join(
        f"| {pair.name} | {pair.joints} | "
        f"{'less than 1e-12' if pair.worst_share < 1e-12 else f'{pair.worst_share:.0e}'} |"
        for pair in two_writings.PAIRS
    )
    return (
        "## Two writings of the same equations\n\nAll six modes of each joint are worked out by "
        "both. A gap between the members then only ever lowers the value (a property test).\n\n"
        "| what | joints | largest difference, as a share |\n| --- | ---: | ---: |\n" + rows + "\n"
    )


def _bounds() -> str:
    rows = "\n".join(
        f"| {bound.where} | {bound.ultimate:.0f} | {bound.ours:.1f} | 1/{bound.ratio:.2f} |"
        for bound in handbooks.BOUNDS
    )
    return (
        "## Upper bound: ultimate withdrawal\n\n"
        f"Source: {handbooks.BOUNDS_REFERENCE}.\n\nThe design value is a fraction of what pulls "
        "the screw out: 1/5.51 for wood screws (2,850 of 15,700), 1/4.50 for lag screws (1,800 of "
        "8,100).\n\n| where | ultimate, lbf/in | design, lbf/in | share |\n"
        "| --- | ---: | ---: | ---: |\n" + rows + "\n"
    )


def _not_found() -> str:
    return """## What was looked for and not found

- The values of AWC TR12 example 3.1 **with** its gap. The equations with a gap rest on their
  agreement with NDS at gap 0, and on a test that works out the free body of the bent screw over
  the gap, in every mode, for any joint.
- A worked example of EN 1995-1-1 for a screw, with its numbers.
- A worked example of ASCE 7 chapter 13 in the standard or its commentary.
- Example E2.4 of the AWC solved problems (a wood screw in double shear) is left out on purpose: as
  quoted it takes K_D from the nominal diameter, which reproduces no cell of the NDS tables.
- A note in public circulation says that an erratum to the 2024 NDS makes K_D = 10 D - 0.5. That
  reproduces no cell of table 12L for No. 12 and No. 14; we use 10 D + 0.5. Somebody with the
  erratum in hand should read it.
"""


def page() -> str:
    """Return the whole page as Markdown."""
    tables = (_section(table) for table in TABLES)
    return "\n".join((_HEAD, _summary(), _writings(), *tables, _bounds(), _not_found()))


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
