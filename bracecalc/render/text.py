"""Documents for the terminal: as wide as it is, colour where it has it, clear without."""

from __future__ import annotations

import os
import re
import sys
import textwrap
from collections.abc import Sequence
from itertools import zip_longest

import click

from bracecalc.records.plan import Plan, Verdict
from bracecalc.render.document import plan_document
from bracecalc.render.schemes import schemes_section
from bracecalc.render.sections import Block, Items, Paragraph, Section
from bracecalc.render.summary import plan_summary

WIDTH = 80
NARROWEST, WIDEST = 60, 120
ROOM = 2  # blanks after a heading, so that short columns don't run together
_BLANKS = str.maketrans({"\N{NO-BREAK SPACE}": " ", "\N{NARROW NO-BREAK SPACE}": " "})
COLOURS = {Verdict.HOLDS: "green", Verdict.CLOSE: "yellow", Verdict.FAILS: "red"}


def terminal_width() -> int:
    """Return how wide to write: as the terminal is, from 60 to 120 columns; 80 in a pipe."""
    if not sys.stdout.isatty():
        return WIDTH
    try:
        columns = os.get_terminal_size(sys.stdout.fileno()).columns
    except OSError:  # a terminal that doesn't say
        columns = WIDTH
    return min(WIDEST, max(NARROWEST, columns))


def plan_text(
    plan: Plan, *, width: int = WIDTH, full: bool = False, alternatives: bool = False
) -> str:
    """Return a plan as text: what a crew needs on one screen, or the whole."""
    first, *rest = plan_document(plan) if full else plan_summary(plan)
    if alternatives:
        rest.append(schemes_section(plan))
    lines = [title_text(first, plan.verdict, width=width)]
    lines += (section_text(section, width=width) for section in rest)
    return "\n".join(lines)


def title_text(first: Section, verdict: Verdict, *, width: int = WIDTH) -> str:
    """Return the first section: the title, ruled, and the verdict in its colour."""
    title = click.style(_filled(printable(first.heading.upper()), width), bold=True)
    rule = "=" * min(width, max(20, len(first.heading)))
    sentence, *others = [_block(block, width) for block in first.blocks]
    return "\n".join([title, rule, click.style(sentence, fg=COLOURS[verdict], bold=True), *others])


def printable(text: str) -> str:
    r"""Return a text with control characters made visible, so that it can't steer a terminal.

    >>> printable("3B\x1b[2J")
    '3B\\x1b[2J'
    """
    if text.isprintable():
        return text
    text = text.translate(_BLANKS)
    return "".join(
        sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in text
    )


def section_text(section: Section, *, width: int = WIDTH) -> str:
    """Return one section of a document as text; without a heading it stands closed up."""
    blocks = [_block(block, width) for block in section.blocks]
    if not section.heading:
        return "\n".join(blocks)
    heading = click.style(printable(section.heading), bold=True)
    return "\n".join(["", heading, *blocks])


_HELD = re.compile(
    r"(?<=\d) (?=\d+/\d+)|(?<=\d) (?=(?:in|ft|mm|lbf|N|lb|kg|psi)\b)|(?<=\bNo\.) (?=\d)"
)
_NO_BREAK = "\u00a0"


def _filled(text: str, width: int, *, first: str = "", then: str = "") -> str:
    """Fill lines; a number is never parted from its fraction or its unit."""
    held = _HELD.sub(_NO_BREAK, text)
    filled = textwrap.fill(held, width, initial_indent=first, subsequent_indent=then)
    return filled.replace(_NO_BREAK, " ")


def _block(block: Block, width: int) -> str:
    if isinstance(block, Paragraph):
        return _filled(printable(block.text), width)
    if isinstance(block, Items):
        return "\n".join(_item(first, text, width) for first, text in block.items)
    rows = [tuple(printable(cell).strip() for cell in row) for row in block.rows]
    return columns_text(block.headings, rows, width=width)


def _item(first: str, text: str, width: int) -> str:
    lead = f"  {printable(first)} "
    indent = " " * (len(lead) if len(lead) < 16 else 6)
    return _filled(printable(text), width, first=lead, then=indent)


def columns_text(
    headings: Sequence[str], rows: Sequence[Sequence[str]], *, width: int = WIDTH
) -> str:
    """Return a table of at most ``width`` columns, headings over dashes; wide cells are folded.

    Written here and not by tabulate: loading that takes longer than working out a plan.

    >>> print(columns_text(("leg", "out"), [("front left", "1/4 in")]))
    leg         out
    ----------  ------
    front left  1/4 in
    """
    limits = _limits(headings, rows, width)
    folded = [
        [_folded(cell, limit) for cell, limit in zip(row, limits, strict=True)] for row in rows
    ]
    tops = [_folded(heading, limit) for heading, limit in zip(headings, limits, strict=True)]
    columns = zip(tops, *folded, strict=True)
    widths = [max(_widest([top]) + ROOM, _widest(cells)) for top, *cells in columns]
    widths = [min(width, limit) for width, limit in zip(widths, limits, strict=True)]
    lines = [_line(parts, widths) for parts in zip_longest(*tops, fillvalue="")]
    lines.append("  ".join("-" * width for width in widths))
    for cells in folded:
        lines.extend(_line(parts, widths) for parts in zip_longest(*cells, fillvalue=""))
    return "\n".join(lines)


def _widest(cells: Sequence[Sequence[str]]) -> int:
    return max((len(part) for cell in cells for part in cell), default=0)


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    padded = (cell.ljust(width) for cell, width in zip(cells, widths, strict=True))
    return "  ".join(padded).rstrip()


def _folded(cell: str, width: int) -> list[str]:
    return [cell] if len(cell) <= width else _filled(cell, width).split("\n")


def _limits(headings: Sequence[str], rows: Sequence[Sequence[str]], width: int) -> list[int]:
    """Return how wide each column may be: the widest gives way until all fit."""
    columns = zip(headings, *rows, strict=True)
    limits = [max([len(heading) + ROOM, *map(len, cells)]) for heading, *cells in columns]
    spare = width - 2 * (len(limits) - 1)
    while sum(limits) > spare:
        widest = limits.index(max(limits))
        limits[widest] -= 1
    return limits
