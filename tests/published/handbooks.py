"""Handbooks: an allowable value worked out in print, and ultimate values as upper bounds.

Wood Handbook: Wood as an Engineering Material, USDA Forest Products Laboratory, FPL-GTR-190
(2010) and FPL-GTR-282 (2021), chapter 8. Its contents page was seen; the formulas are from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

from bracecalc.mechanics.nds import withdrawal
from published.check import Check, Mark, Table


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """An ultimate value that a design value must stay under, and the share that ours is."""

    where: str
    ultimate: float
    ours: float

    @property
    def ratio(self) -> float:
        """Ultimate over ours."""
        return self.ultimate / self.ours


def _bounds() -> tuple[Bound, ...]:
    wood = tuple(
        Bound(
            where=f"wood screw No. {number}, G {gravity:.2f}: 15,700 G^2 D",
            ultimate=15_700.0 * gravity**2 * diameter,
            ours=withdrawal.wood_screw_withdrawal(specific_gravity=gravity, diameter=diameter),
        )
        for number, diameter in (("8", 0.164), ("10", 0.190), ("14", 0.242))
        for gravity in (0.42, 0.50, 0.55)
    )
    lag = tuple(
        Bound(
            where=f"lag screw {size} in, G {gravity:.2f}: 8,100 G^1.5 D^0.75",
            ultimate=float(8_100.0 * gravity**1.5 * diameter**0.75),
            ours=withdrawal.lag_screw_withdrawal(specific_gravity=gravity, diameter=diameter),
        )
        for size, diameter in (("1/4", 0.25), ("3/8", 0.375))
        for gravity in (0.42, 0.50, 0.55)
    )
    return wood + lag


BOUNDS_REFERENCE = (
    "Wood Handbook, USDA Forest Products Laboratory, FPL-GTR-190 (2010) and FPL-GTR-282 (2021), "
    "chapter 8, ultimate withdrawal per inch of thread (from memory)"
)
BOUNDS = _bounds()

TABLES = (
    Table(
        name="Allowable withdrawal of a wood screw, worked in print",
        reference='"Wood Screws - Withdrawal Force", a public reference page, example',
        put_in="Canadian spruce, G 0.45, No. 10",
        unit="lbf/in",
        checks=(
            Check(
                where="No. 10, G 0.45",
                printed=109.0,
                ours=withdrawal.wood_screw_withdrawal(specific_gravity=0.45, diameter=0.190),
                step=1.0,
                mark=Mark.SEEN,
                differs="the printed value fits cutting off the decimals, not rounding",
            ),
        ),
    ),
)
