"""A plan for the terminal: 80 columns, colour where the terminal has it, clear without."""

from __future__ import annotations

import textwrap

import click
from tabulate import tabulate

from bracecalc.records.plan import Plan, Verdict
from bracecalc.render.document import Block, Grid, Items, Paragraph, Section, plan_document

WIDTH = 80
COLOURS = {Verdict.HOLDS: "green", Verdict.CLOSE: "yellow", Verdict.FAILS: "red"}


def plan_text(plan: Plan) -> str:
    """Return a plan as text of at most 80 columns."""
    first, *rest = plan_document(plan)
    return "\n".join([title_text(first, plan.verdict), *(_section(section) for section in rest)])


def title_text(first: Section, verdict: Verdict) -> str:
    """Return the first section: the title, ruled, and the verdict in its colour."""
    title = click.style(textwrap.fill(printable(first.heading.upper()), WIDTH), bold=True)
    rule = "=" * min(WIDTH, max(20, len(first.heading)))
    sentence, *others = [_block(block) for block in first.blocks]
    return "\n".join([title, rule, click.style(sentence, fg=COLOURS[verdict], bold=True), *others])


def printable(text: str) -> str:
    r"""Return a text with control characters made visible, so that it can't steer a terminal.

    >>> printable("3B\x1b[2J")
    '3B\\x1b[2J'
    """
    return "".join(
        sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in text
    )


def section_text(section: Section) -> str:
    """Return one section of a document as text."""
    return _section(section)


def _section(section: Section) -> str:
    heading = click.style(printable(section.heading), bold=True)
    return "\n".join(["", heading, *(_block(block) for block in section.blocks)])


def _block(block: Block) -> str:
    if isinstance(block, Paragraph):
        return textwrap.fill(printable(block.text), WIDTH)
    if isinstance(block, Items):
        return "\n".join(_item(first, text) for first, text in block.items)
    return _grid(block)


def _item(first: str, text: str) -> str:
    lead = f"  {printable(first)} "
    indent = " " * (len(lead) if len(lead) < 10 else 6)
    return textwrap.fill(printable(text), WIDTH, initial_indent=lead, subsequent_indent=indent)


def _grid(grid: Grid) -> str:
    rows = [[printable(cell) for cell in row] for row in grid.rows]
    text = tabulate(rows, headers=grid.headings, tablefmt="simple", disable_numparse=True)
    if max(map(len, text.splitlines())) > WIDTH:
        text = tabulate(
            rows,
            headers=grid.headings,
            tablefmt="simple",
            disable_numparse=True,
            maxcolwidths=_widths(grid),
        )
    return textwrap.indent(text, "")


def _widths(grid: Grid) -> list[int]:
    columns = list(zip(grid.headings, *grid.rows, strict=True))
    # tabulate leaves two blanks more than a heading is wide
    natural = [max([len(heading) + 2, *map(len, cells)]) for heading, *cells in columns]
    spare = WIDTH - 2 * (len(natural) - 1)
    widths = list(natural)
    while sum(widths) > spare:  # fold the widest column until all fit
        widest = widths.index(max(widths))
        widths[widest] -= 1
    return widths
