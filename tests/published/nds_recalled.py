"""Cells of ANSI/AWC NDS-2018 that were recalled, not read. They count for nothing as a check.

That ours round to them shows that memory and equations agree. Somebody with the book in hand can
turn them into checks: then they move to nds_2018.py.
"""

from __future__ import annotations

from bracecalc.mechanics.nds import factors
from published.check import Check, Mark, Table
from published.joints import WOOD_SCREWS, wood_to_wood
from published.sources import NDS
from published.values import rows

_THICKNESS = {"1/2": 0.5, "3/4": 0.75, "1-1/2": 1.5}
_ODD_CELL = ("3/4", "8", "0.42")
_READ_ELSEWHERE = ("1/2", "10", "0.50")  # second hand: nds_2018.py


def _table_12l() -> Table:
    checks = []
    for row in rows("nds_12l_recalled"):
        key = row["side_in"], row["number"], row["gravity"]
        if key == _READ_ELSEWHERE:
            continue
        size = WOOD_SCREWS[row["number"]]
        checks.append(
            Check(
                where=f"t_s {key[0]} in, No. {key[1]}, G {key[2]}",
                printed=float(row["recalled_lbf"]),
                ours=wood_to_wood(
                    size=size,
                    gravity=float(row["gravity"]),
                    side=_THICKNESS[row["side_in"]],
                    main=10.0 * size[0],
                ),
                step=1.0,
                mark=Mark.MEMORY,
                differs="more likely a wrong recollection" if key == _ODD_CELL else "",
            )
        )
    return Table(
        name="NDS table 12L: wood screws, lateral, wood side member",
        source=NDS,
        place="table 12L, single shear",
        read="recalled",
        put_in="D_r in the equations, F_yb and F_e by nominal D, F_e to 50 psi, K_D from D_r, "
        "penetration 10 D, both members of one G",
        unit="lbf",
        checks=tuple(checks),
    )


_1136A = (0.98, 0.92, 0.84, 0.75, 0.68, 0.61, 0.55)  # n = 2 to 8


def _table_1136a() -> Table:
    return Table(
        name="NDS table 11.3.6A: group action of a row",
        source=NDS,
        place="table 11.3.6A, row A_s/A_m 0.5, A_s 5 in2",
        read="recalled",
        put_in="D 1 in, s 4 in, E 1,400,000 psi, A_s 5 in2, A_m 10 in2",
        unit="C_g",
        checks=tuple(
            Check(
                where=f"n = {count}",
                printed=printed,
                ours=factors.group_action_factor(
                    factors.FastenerRow(
                        diameter=1.0,
                        count=count,
                        spacing=4.0,
                        main_stiffness=1.4e6 * 10.0,
                        side_stiffness=1.4e6 * 5.0,
                    )
                ),
                step=0.01,
                mark=Mark.MEMORY,
            )
            for count, printed in enumerate(_1136A, start=2)
        ),
    )


TABLES = (_table_12l(), _table_1136a())
