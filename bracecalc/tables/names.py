"""A name as a person writes it -> the name of a row, or what would be right."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bracecalc.tables.load import Table, spellings
from bracecalc.tables.rows import folded, nearest
from bracecalc.text.units import QuantityError

LONGEST = 200
FEW = 120  # characters; a table of so few names is listed whole
SHOWN_AS_WRITTEN = ("species",)  # abbreviations that the trade knows better than the name
# names of more than one layer
SEVERAL = dict.fromkeys(
    (folded(each) for each in ("dot and dab", "dot & dab", "dab", "dabs", "adhesive dabs")),
    "the board and the gap behind it, as 'gypsum board 12.5 mm; air gap 15 mm': board on dabs "
    "stands off the wall, and nothing bears between them",
)


def row_name(table: Mapping[str, Any], name: str, *, called: str) -> str:
    """Return the name that a table has for what was written.

    Args:
        table: a reference table.
        name: as written, in any spelling that the table knows.
        called: what the table is called, for ``bracecalc table``.

    Raises:
        QuantityError: if there is no such row; names the nearest one.

    >>> from bracecalc.tables.load import load_tables
    >>> row_name(load_tables().layers, "Drywall", called="layers")
    'gypsum board'
    >>> row_name(load_tables().species, "spf", called="species")
    'SPF'
    """
    known = spelt(table, called)
    found = known.get(folded(name[:LONGEST]))
    if found is None:
        raise QuantityError(_right(table, name[:LONGEST], called))
    return found


def spelt(table: Mapping[str, Any], called: str) -> dict[str, str]:
    """Return the name to use for each folded spelling of a table."""
    written = {folded(each): each for each in spellings(table)}
    if called in SHOWN_AS_WRITTEN or not isinstance(table, Table):
        return written
    names = {id(row): name for name, row in table.items()}
    return {each: names[id(table[name])] for each, name in written.items()}


def _right(table: Mapping[str, Any], name: str, called: str) -> str:
    if called == "layers" and folded(name) in SEVERAL:
        return SEVERAL[folded(name)]
    names = ", ".join(table)
    like = nearest(name, spellings(table))
    if like is not None:
        own = spelt(table, called)[folded(like)]
        return f"'{own}' (bracecalc table {called} lists them)"
    return f"one of {names}" if len(names) <= FEW else f"a name of bracecalc table {called}"
