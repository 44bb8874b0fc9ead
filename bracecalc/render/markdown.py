"""A plan as markdown."""

from __future__ import annotations

from tabulate import tabulate

from bracecalc.records.plan import Plan
from bracecalc.render.document import plan_document
from bracecalc.render.schemes import schemes_section
from bracecalc.render.sections import Block, Items, Paragraph, Section
from bracecalc.render.summary import plan_summary
from bracecalc.render.text import printable


def plan_markdown(plan: Plan, *, full: bool = True, alternatives: bool = False) -> str:
    """Return a plan as markdown, its first screen or the whole; its texts can't become markup."""
    first, *rest = plan_document(plan) if full else plan_summary(plan)
    if alternatives:
        rest.append(schemes_section(plan))
    under = (section_markdown(section, 2) for section in rest)
    return "\n".join([section_markdown(first, 1), *under])


def escaped(text: str) -> str:
    r"""Return a text with the signs that markdown or HTML would act on made plain.

    >>> escaped("<b>3B|*x*</b>")
    '&lt;b&gt;3B\\|\\*x\\*&lt;/b&gt;'
    """
    plain = printable(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    for sign in "\\`*_[]|#":
        plain = plain.replace(sign, "\\" + sign)
    return plain


def section_markdown(section: Section, level: int) -> str:
    """Return one section of a document as markdown, its heading on a level."""
    blocks = "\n\n".join(_block(block) for block in section.blocks)
    heading = f"{'#' * level} {escaped(section.heading)}\n\n" if section.heading else ""
    return f"{heading}{blocks}\n"


def _block(block: Block) -> str:
    if isinstance(block, Paragraph):
        return escaped(block.text)
    if isinstance(block, Items):
        return "\n".join(_item(first, text) for first, text in block.items)
    rows = [[escaped(cell) for cell in row] for row in block.rows]
    return str(tabulate(rows, headers=block.headings, tablefmt="pipe", disable_numparse=True))


def _item(first: str, text: str) -> str:
    if first == "-" or first.rstrip(".").isdigit():
        return f"{first} {escaped(text)}"
    return f"- **{escaped(first)}** {escaped(text)}"
