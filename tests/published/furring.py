"""2018 International Building Code, table 2603.13.2: furring over foam sheathing.

"Furring minimum fastening requirements for application over foam plastic sheathing to support
cladding weight", read on page 603 of a public copy of the code. It is the only published table
found with members that stand apart: wood of G 0.42, furring 3/4 in, foam as the gap. Cells of 4.00
(the table's cap) and DR (design required) give no load and are left out.

The safety factor inside the table was not found, so ours can't be held equal to it. What is held:
over one kind of fastener the share is nearly constant while the gap goes from half an inch to
three, and the code never asks more of a fastener than ours allows it.
"""

from __future__ import annotations

from dataclasses import dataclass

from published.joints import bearing, lateral
from published.sources import BUILDING_CODE
from published.values import rows

SOURCE = BUILDING_CODE
_GRAVITY = 0.42
_FURRING = 0.75  # in


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One usable cell: the load that the code puts on a fastener at a gap, and ours."""

    fastener: str
    gap: float
    code: float
    ours: float
    closed: float  # ours, were there no gap

    @property
    def share(self) -> float:
        """Ours over the code's load."""
        return self.ours / self.code


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """The cells of one kind of fastener."""

    fastener: str
    cells: tuple[Cell, ...]

    @property
    def least(self) -> float:
        """Least share."""
        return min(cell.share for cell in self.cells)

    @property
    def most(self) -> float:
        """Greatest share."""
        return max(cell.share for cell in self.cells)


def _cell(row: dict[str, str]) -> Cell:
    diameter, root = float(row["diameter_in"]), float(row["root_in"])
    wood = bearing(gravity=_GRAVITY, diameter=diameter)
    gap = float(row["foam_in"])
    carried = float(row["along_in"]) * float(row["apart_in"]) / 144.0  # ft2

    def ours(gap: float) -> float:
        side, main = (wood, _FURRING), (wood, float(row["penetration_in"]))
        return lateral(size=(diameter, root), side=side, main=main, gap=gap).value

    return Cell(
        fastener=row["fastener"],
        gap=gap,
        code=float(row["siding_psf"]) * carried,
        ours=ours(gap),
        closed=ours(0.0),
    )


CELLS = tuple(_cell(row) for row in rows("furring_over_foam"))
KINDS = tuple(
    Kind(fastener=name, cells=tuple(cell for cell in CELLS if cell.fastener == name))
    for name in dict.fromkeys(cell.fastener for cell in CELLS)
)
NAILS = Kind(
    fastener="both nails", cells=tuple(cell for cell in CELLS if cell.fastener.startswith("nail"))
)
