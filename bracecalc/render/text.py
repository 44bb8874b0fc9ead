"""A plan for the terminal: 80 columns, colour where the terminal has it, clear without."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from itertools import zip_longest

import click

from bracecalc.records.plan import Plan, Verdict
from bracecalc.render.document import Block, Grid, Items, Paragraph, Section, plan_document

WIDTH = 80
ROOM = 2  # blanks after a heading, so that short columns don't run together
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
    if text.isprintable():
        return text
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
    rows = [tuple(printable(cell).strip() for cell in row) for row in grid.rows]
    return columns_text(grid.headings, rows)


def columns_text(headings: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return a table of at most 80 columns, headings over dashes; wide cells are folded.

    Written here and not by tabulate: loading that takes longer than working out a plan.

    >>> print(columns_text(("leg", "out"), [("front left", "1/4 in")]))
    leg         out
    ----------  ------
    front left  1/4 in
    """
    limits = _limits(headings, rows)
    folded = [
        [_folded(cell, limit) for cell, limit in zip(row, limits, strict=True)] for row in rows
    ]
    columns = zip(headings, *folded, strict=True)
    widths = [max(len(heading) + ROOM, _widest(cells)) for heading, *cells in columns]
    lines = [_line(headings, widths), "  ".join("-" * width for width in widths)]
    for cells in folded:
        lines.extend(_line(parts, widths) for parts in zip_longest(*cells, fillvalue=""))
    return "\n".join(lines)


def _widest(cells: Sequence[Sequence[str]]) -> int:
    return max((len(part) for cell in cells for part in cell), default=0)


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    padded = (cell.ljust(width) for cell, width in zip(cells, widths, strict=True))
    return "  ".join(padded).rstrip()


def _folded(cell: str, width: int) -> list[str]:
    return [cell] if len(cell) <= width else textwrap.wrap(cell, width)


def _limits(headings: Sequence[str], rows: Sequence[Sequence[str]]) -> list[int]:
    """Return how wide each column may be: the widest gives way until all fit."""
    columns = zip(headings, *rows, strict=True)
    limits = [max([len(heading) + ROOM, *map(len, cells)]) for heading, *cells in columns]
    spare = WIDTH - 2 * (len(limits) - 1)
    while sum(limits) > spare:
        widest = limits.index(max(limits))
        limits[widest] -= 1
    return limits
