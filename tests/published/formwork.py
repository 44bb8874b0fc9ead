"""R. L. Peurifoy and G. D. Oberlender, Formwork for Concrete Structures, McGraw-Hill, 4th edition.

Tables 4-25 and 4-26, lag screws in wood, "courtesy American Forest & Paper Association", read in a
copy of the book page by page. In table 4-26 side and main member lie at different angles to the
load, as the boards of a stack and the studs behind them do.
"""

from __future__ import annotations

from bracecalc.mechanics.nds import withdrawal
from published.check import Check, Mark, Table
from published.joints import LAG_SCREWS, bearing, lateral
from published.sources import FORMWORK
from published.values import rows

_COPY = "a copy of the book, page by page"
_WAYS = (  # column, words, angle in the side member, in the main member
    ("along_both", "along both grains", 0.0, 0.0),
    ("side_across", "across the side member's grain", 90.0, 0.0),
    ("main_across", "across the main member's grain", 0.0, 90.0),
)
_MISPRINT = ("7/8", "0.50", "main_across")
_WHY_MISPRINT = "550 can't stand between 880 (G 0.55) and 730 (G 0.43): most likely a misprint"
_SIDE = 2.5  # in


def _lag_in_wood(size: str, gravity: float, side_angle: float, main_angle: float) -> float:
    diameter, root = LAG_SCREWS[size]
    return lateral(
        size=(diameter, root),
        side=(bearing(gravity=gravity, diameter=diameter, angle=side_angle), _SIDE),
        main=(bearing(gravity=gravity, diameter=diameter, angle=main_angle), 8.0 * diameter),
        angle=max(side_angle, main_angle),
    ).value


def _is_misprint(row: dict[str, str], way: str) -> bool:
    return (row["size_in"], row["gravity"], way) == _MISPRINT


def _table_426() -> Table:
    return Table(
        name="Lag screws, lateral, wood side member 2-1/2 in",
        source=FORMWORK,
        place="table 4-26, page 81, rows of 2-1/2 in",
        read=_COPY,
        put_in="D_r in the equations, F_yb and F_e by nominal D, K_theta of the greater angle, "
        "penetration 8 D",
        unit="lbf",
        checks=tuple(
            Check(
                where=f"D {row['size_in']} in, G {row['gravity']}, {words}",
                printed=float(row[f"{way}_lbf"]),
                ours=_lag_in_wood(row["size_in"], float(row["gravity"]), side_angle, main_angle),
                step=10.0,
                mark=Mark.SEEN,
                differs=_WHY_MISPRINT if _is_misprint(row, way) else "",
                far=_is_misprint(row, way),
            )
            for row in rows("formwork_4_26")
            for way, words, side_angle, main_angle in _WAYS
        ),
    )


def _table_425() -> Table:
    return Table(
        name="Lag screws, withdrawal",
        source=FORMWORK,
        place="table 4-25, page 79",
        read=_COPY,
        put_in="G and D; thread without the tip. The sizes to 5/8 in are those of NDS table 12.2A "
        "and are not counted again",
        unit="lbf/in",
        checks=tuple(
            Check(
                where=f"D {row['size_in']} in, G {row['gravity']}",
                printed=float(row["withdrawal_lbf_in"]),
                ours=withdrawal.lag_screw_withdrawal(
                    specific_gravity=float(row["gravity"]), diameter=LAG_SCREWS[row["size_in"]][0]
                ),
                step=1.0,
                mark=Mark.SEEN,
            )
            for row in rows("formwork_4_25")
        ),
    )


TABLES = (_table_426(), _table_425())
