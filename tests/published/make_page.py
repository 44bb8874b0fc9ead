"""Writes docs/verification.md from the data that the tests use: python -m published.make_page."""

from __future__ import annotations

import textwrap
from pathlib import Path

from published import (
    asce7,
    awc_tr12,
    beams,
    cutting_instances,
    eurocode,
    formwork,
    furring,
    handbooks,
    k_d,
    kept,
    nds_2018,
    nds_recalled,
    page_words,
    programs,
    two_writings,
)
from published.check import Check, Mark, Source, Table

PAGE = Path(__file__).parents[2] / "docs" / "verification.md"

TABLES = (
    *nds_2018.TABLES,
    *formwork.TABLES,
    *awc_tr12.TABLES,
    *handbooks.TABLES,
    *asce7.TABLES,
    *eurocode.TABLES,
    *beams.TABLES,
    *kept.TABLES,
)
NOT_COUNTED = (*programs.TABLES, *nds_recalled.TABLES)
ALL_TABLES = (*TABLES, *NOT_COUNTED)
CUT_PLANS = tuple(each for each in cutting_instances.INSTANCES if each.mark.counts)


def counted_values() -> int:
    """Return how many printed values stand beside ours, seen or second hand.

    Printed formulas that are worked out here are not among them.
    """
    checks = sum(len(table.checks) for table in TABLES if not table.formula)
    return checks + len(furring.CELLS) + len(CUT_PLANS)


def counted_sources() -> tuple[Source, ...]:
    """Return the documents that these values stand in."""
    found = [table.source for table in TABLES]
    found += [furring.SOURCE, *(each.source for each in CUT_PLANS)]
    return tuple(dict.fromkeys(found))


def _wrapped(text: str, indent: str = "") -> str:
    return textwrap.fill(
        text,
        width=100,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )


def _number(value: float, step: float) -> str:
    decimals = max(0, len(f"{step:.6f}".rstrip("0").split(".")[1]))
    return f"{value:,.{decimals}f}"


def _signed(value: float) -> str:
    text = f"{value:+.3g}"
    return "0" if float(text) == 0.0 or abs(value) < 1e-9 else text


def _values(check: Check) -> tuple[str, str]:
    """Return the printed value and ours, with one digit more than is printed there."""
    if check.step < 1e-4:
        return f"{check.printed:,.6g}", f"{check.ours:,.6g}"
    finer = check.step / 10.0 if check.step <= 1.0 else 0.1
    return _number(check.printed, check.step), _number(check.ours, finer)


def _row(check: Check) -> str:
    printed, ours = _values(check)
    verdict = "yes" if check.agrees else f"**no**: {check.differs}"
    return (
        f"| {check.where} | {printed} | {ours} | {_signed(check.difference)} | {verdict} "
        f"| {check.mark.value} |"
    )


def _section(table: Table) -> str:
    shown = table.sample()
    rows = "\n".join(_row(check) for check in shown)
    of_all = (
        f" {len(shown)} of {len(table.checks)} rows are shown."
        if len(shown) < len(table.checks)
        else ""
    )
    theirs = "printed" if all(check.mark.counts for check in shown) else "theirs"
    put_in = "" if table.kept else f" Put in: {table.put_in}."
    said = _wrapped(f"{table.source.name}, {table.place}; read: {table.read}.{put_in}{of_all}")
    return (
        f"### {table.name}\n\n{said}\n\n"
        f"| where | {theirs}, {table.unit} | ours | difference | agrees | read |\n"
        f"| --- | ---: | ---: | ---: | --- | --- |\n{rows}\n"
    )


def _short(table: Table) -> str:
    agree = sum(check.agrees for check in table.checks)
    worst = max(table.checks, key=lambda check: abs(check.difference) / check.step)
    marks = ", ".join(sorted({check.mark.value for check in table.checks}))
    return (
        f"| {table.name} | {table.source.name} | {len(table.checks)} | {agree} "
        f"| {_signed(worst.difference)} {table.unit.split(', ')[-1]} | {marks} |"
    )


def _summary() -> str:
    values = [check for table in TABLES if not table.formula for check in table.checks]
    formulas = [check for table in TABLES if table.formula for check in table.checks]
    kept_values = sum(len(table.checks) for table in TABLES if table.kept)
    agree = sum(check.agrees for check in values)
    lines = "\n".join(_short(table) for table in TABLES)
    said = _wrapped(
        f"**{counted_values()} printed values from {len(counted_sources())} sources** stand beside "
        f"ours: {len(values)} in the table below ({kept_values} of them kept as they are, the "
        f"others worked out), {len(furring.CELLS)} cells of a code table with a gap, and "
        f"{len(CUT_PLANS)} cut plans. Of the {len(values)}, {agree} agree and "
        f"{len(values) - agree} don't; each of these has its reason beside it. "
        f"{len(formulas)} printed formulas are worked out besides."
    )
    return (
        f"## In short\n\n{said}\n\n"
        "| table | source | values | agree | largest difference | read |\n"
        f"| --- | --- | ---: | ---: | ---: | --- |\n{lines}\n"
    )


def _sources() -> str:
    lines = "\n".join(
        _wrapped(f"{number}. **{source.name}**: {source.document}.", indent="   ")
        for number, source in enumerate(counted_sources(), start=1)
    )
    return f"## Sources\n\n{lines}\n"


def _furring() -> str:
    kinds = "\n".join(
        f"| {kind.fastener} | {len(kind.cells)} | {min(cell.gap for cell in kind.cells):g} to "
        f"{max(cell.gap for cell in kind.cells):g} | {kind.least:.2f} to {kind.most:.2f} |"
        for kind in (*furring.KINDS, furring.NAILS)
    )
    spread = range(0, len(furring.CELLS), 4)
    cells = "\n".join(
        f"| {cell.fastener} | {cell.gap:.2f} | {cell.code:.1f} | {cell.ours:.1f} "
        f"| {cell.share:.2f} |"
        for cell in (furring.CELLS[k] for k in spread)
    )
    said = _wrapped(
        f"Source: {furring.SOURCE.document} (seen). Put in: G 0.42 both, the least penetration of "
        "the table, F_yb by NDS."
    )
    return (
        f"{page_words.FURRING}\n{said}\n\n"
        "| fastener | cells | gap, in | ours over the code's load |\n| --- | ---: | --- | --- |\n"
        f"{kinds}\n\n{len(spread)} of {len(furring.CELLS)} cells:\n\n"
        "| fastener | gap, in | code, lbf | ours, lbf | share |\n"
        f"| --- | ---: | ---: | ---: | ---: |\n{cells}\n"
    )


def _k_d() -> str:
    rows = "\n".join(
        f"| {reading.table.source.name}, {reading.table.place} | {len(reading.cells)} "
        f"| {reading.by_plus} | {reading.by_minus} |"
        for reading in k_d.READINGS
    )
    return (
        f"{page_words.K_D}\n| print | cells at 1/4 in | by 10 D + 0.5 | by 10 D - 0.5 |\n"
        f"| --- | ---: | ---: | ---: |\n{rows}\n"
    )


def _writings() -> str:
    rows = "\n".join(
        f"| {pair.name} | {pair.joints} | "
        f"{'less than 1e-12' if pair.worst_share < 1e-12 else f'{pair.worst_share:.0e}'} |"
        for pair in two_writings.PAIRS
    )
    return (
        "## Two writings of the same equations\n\nAll six modes of each joint are worked out by "
        "both. A gap between the members then only ever\nlowers the value (a property test).\n\n"
        "| what | joints | largest difference, as a share |\n| --- | ---: | ---: |\n" + rows + "\n"
    )


def _bounds() -> str:
    rows = "\n".join(
        f"| {bound.where} | {bound.ultimate:,.0f} | {bound.ours:.1f} | 1/{bound.ratio:.2f} |"
        for bound in handbooks.BOUNDS
    )
    source = _wrapped(
        f"Source: {handbooks.BOUNDS_SOURCE.document}; {handbooks.BOUNDS_READ} (seen)."
    )
    said = _wrapped(
        "The design value is a fraction of what pulls the screw out: 1/5.51 for wood screws (2,850 "
        "of 15,700), 1/4.50 for lag screws (1,800 of 8,100)."
    )
    return (
        f"## Upper bound: ultimate withdrawal\n\n{source}\n\n{said}\n\n"
        "| where | ultimate, lbf/in | design, lbf/in | share |\n"
        "| --- | ---: | ---: | ---: |\n" + rows + "\n"
    )


def _cut_plans() -> str:
    rows = "\n".join(
        f"| {each.name} | {each.source.name} | {sum(each.demand.values()):,} | {each.optimum:,} |"
        for each in CUT_PLANS
    )
    return (
        "## Cut plans\n\nThe least number of sticks, as printed. `test_cutting_stock.py` solves "
        "each: the cut plan must find\nthis number and prove that fewer won't do.\n\n"
        "| example | source | pieces | sticks |\n| --- | --- | ---: | ---: |\n" + rows + "\n"
    )


def _appendix() -> str:
    parts = [page_words.APPENDIX]
    for table in nds_recalled.TABLES:
        shown = table.sample()
        rows = "\n".join("| {} | {} | {} |".format(check.where, *_values(check)) for check in shown)
        said = _wrapped(
            f"{table.source.name}, {table.place}. Put in: {table.put_in}. {len(shown)} of "
            f"{len(table.checks)} rows are shown."
        )
        parts.append(
            f"### {table.name}, recalled\n\n{said}\n\n"
            f"| where | recalled, {table.unit} | ours |\n| --- | ---: | ---: |\n{rows}\n"
        )
    optima = "; ".join(
        f"{each.name} ({each.optimum} sticks; the cut plan proves the same)"
        for each in cutting_instances.INSTANCES
        if each.mark is Mark.MEMORY
    )
    parts.append(_wrapped(f"Also recalled: the optimum of {optima}.") + "\n")
    return "\n".join(parts)


def _programs() -> str:
    intro = (
        "## Other programs\n\nWhat other people's programs make of the same equations. No print "
        "stands behind these values, and\nthey are not counted.\n"
    )
    return "\n".join((intro, *(_section(table) for table in programs.TABLES)))


def page() -> str:
    """Return the whole page as Markdown."""
    worked_out = "\n".join(_section(table) for table in TABLES if not table.kept)
    kept_ones = "\n".join(_section(table) for table in TABLES if table.kept)
    return "\n".join(
        (
            page_words.HEAD,
            _summary(),
            _sources(),
            "## Values worked out\n",
            worked_out,
            _furring(),
            _k_d(),
            page_words.PENETRATION,
            _bounds(),
            _cut_plans(),
            "## Values kept as they are printed\n",
            kept_ones,
            _writings(),
            _programs(),
            page_words.NOT_FOUND,
            _appendix(),
        )
    )


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
