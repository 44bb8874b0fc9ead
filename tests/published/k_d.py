"""Which K_D: 10 D + 0.5, or 10 D - 0.5 as an erratum of 2025 is said to have it?

Two public notes tell of an erratum of January 2025 to the 2024 NDS (second hand; the erratum was
not read). What was read answers: every cell for lag screws of 1/4 in, D_r 0.173 in, in two prints.
"""

from __future__ import annotations

from dataclasses import dataclass

from published import formwork, nds_2018
from published.check import Check, Table
from published.joints import LAG_SCREWS

_ROOT = LAG_SCREWS["1/4"][1]
PLUS = 10.0 * _ROOT + 0.5
MINUS = 10.0 * _ROOT - 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A printed table's cells at 1/4 in, and how many each form of K_D gives."""

    table: Table
    cells: tuple[Check, ...]

    @property
    def by_plus(self) -> int:
        """Cells that 10 D + 0.5, ours, rounds to."""
        return sum(cell.agrees for cell in self.cells)

    @property
    def by_minus(self) -> int:
        """Cells that 10 D - 0.5 would round to."""
        return sum(
            abs(cell.ours * PLUS / MINUS - cell.printed) <= cell.step / 2.0 for cell in self.cells
        )


def _reading(table: Table) -> Reading:
    return Reading(
        table=table, cells=tuple(cell for cell in table.checks if "D 1/4 in" in cell.where)
    )


READINGS = (_reading(nds_2018.TABLES[0]), _reading(formwork.TABLES[0]))
