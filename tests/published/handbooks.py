"""Handbooks: formulas, an allowable value worked in print, and ultimate values as upper bounds.

The Wood Handbook itself was not read. Its two formulas for the ultimate withdrawal stand, with its
text, on pages that reproduce them (seen): kerfworks.org/screw-withdrawal-calculator (wood screws;
worked example No. 8, G 0.70: 1,262 lb) and engineersedge.com, "Lag Screws in Wood Pullout
Resistance Force" (lag screws). They are used as bounds only.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from bracecalc.mechanics.nds import dowel, withdrawal
from published.check import Check, Mark, Table
from published.sources import FORMULAS, TOOLBOX, WOOD_HANDBOOK

BOUNDS_SOURCE = WOOD_HANDBOOK
BOUNDS_READ = (
    "formulas on pages that reproduce them: kerfworks.org/screw-withdrawal-calculator and "
    "engineersedge.com/calculators/lag_screws_in_wood_pullout_resistance_15390.htm"
)


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


def ultimate_wood_screw(*, gravity: float, diameter: float) -> float:
    """Return the ultimate withdrawal of a wood screw by the Wood Handbook, lbf per inch."""
    return 15_700.0 * gravity**2 * diameter


def ultimate_lag_screw(*, gravity: float, diameter: float) -> float:
    """Return the ultimate withdrawal of a lag screw by the Wood Handbook, lbf per inch."""
    return float(8_100.0 * gravity**1.5 * diameter**0.75)


def _bounds() -> tuple[Bound, ...]:
    wood = tuple(
        Bound(
            where=f"wood screw No. {number}, G {gravity:.2f}: 15,700 G^2 D",
            ultimate=ultimate_wood_screw(gravity=gravity, diameter=diameter),
            ours=withdrawal.wood_screw_withdrawal(specific_gravity=gravity, diameter=diameter),
        )
        for number, diameter in (("8", 0.164), ("10", 0.190), ("14", 0.242))
        for gravity in (0.42, 0.50, 0.55)
    )
    lag = tuple(
        Bound(
            where=f"lag screw {size} in, G {gravity:.2f}: 8,100 G^1.5 D^0.75",
            ultimate=ultimate_lag_screw(gravity=gravity, diameter=diameter),
            ours=withdrawal.lag_screw_withdrawal(specific_gravity=gravity, diameter=diameter),
        )
        for size, diameter in (("1/4", 0.25), ("3/8", 0.375))
        for gravity in (0.42, 0.50, 0.55)
    )
    return wood + lag


BOUNDS = _bounds()


def _timber_formulas() -> Table:
    P, Q, angles = 4500.0, 2850.0, (15.0, 30.0, 45.0, 60.0, 75.0)
    inclined = [
        Check(
            where=f"eq. 6.16, {angle:g} degrees: P Q / (P sin^2 + Q cos^2)",
            printed=P * Q / (P * sine + Q * (1.0 - sine)),
            ours=dowel.hankinson(along=P, across=Q, angle=angle),
            step=1e-6,
            mark=Mark.SEEN,
        )
        for angle in angles
        for sine in (math.sin(math.radians(angle)) ** 2,)
    ]
    screws = [
        Check(
            where=f"eq. 6.37, No. {number}, G {gravity:.2f}: 2850 G^2 D",
            printed=2850.0 * gravity**2 * diameter,
            ours=withdrawal.wood_screw_withdrawal(specific_gravity=gravity, diameter=diameter),
            step=1e-6,
            mark=Mark.SEEN,
        )
        for number, diameter in (("8", 0.164), ("10", 0.190))
        for gravity in (0.42, 0.50)
    ]
    return Table(
        name="Stress at an angle to the grain, and withdrawal of a wood screw",
        source=FORMULAS,
        place="eq. 6.16, page 163, and eq. 6.37, page 170",
        read="a copy of the book, page by page",
        put_in="P 4,500 and Q 2,850 psi; G and D as shown",
        unit="psi, lbf/in",
        formula=True,
        checks=(*inclined, *screws),
    )


TABLES = (
    _timber_formulas(),
    Table(
        name="Allowable withdrawal of a wood screw, worked in print",
        source=TOOLBOX,
        place="example",
        read="on the page itself",
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
