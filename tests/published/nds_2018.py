"""ANSI/AWC NDS-2018, National Design Specification for Wood Construction, 2018 edition.

American Wood Council, Leesburg VA, 2017. Tables 12K and 12.2A were read in scans of pages 106 and
77 that stand in public permit records; of the others single cells, where somebody quotes them.
Recalled cells are in nds_recalled.py and count for nothing.
"""

from __future__ import annotations

from bracecalc.mechanics.nds import withdrawal
from published.check import Check, Mark, Table
from published.joints import (
    CONCRETE_BEARING,
    LAG_SCREWS,
    STEEL_BEARING,
    WOOD_SCREWS,
    bearing,
    lateral,
    wood_to_wood,
)
from published.sources import NDS
from published.values import rows

_PERMIT = (
    "scan in the public permit records of the City of Everett WA, document 1831805, page {}: "
    "lfportal.everettwa.gov/WebLink/0/doc/1831805/Page{}.aspx"
)
_QUOTED = "quoted in public design notes, whose addresses were not kept"
_WAYS = (("along", 0.0), ("across", 90.0))


def _steel_side(size: tuple[float, float], gravity: float, plate: float, angle: float) -> float:
    wood = bearing(gravity=gravity, diameter=size[0], angle=angle)
    return lateral(
        size=size, side=(STEEL_BEARING, plate), main=(wood, 8.0 * size[0]), angle=angle
    ).value


def _table_12k() -> Table:
    checks = [
        Check(
            where=f"plate {row['plate_in']} in, D {row['size_in']} in, G {row['gravity']}, "
            f"{way} the grain",
            printed=float(row[f"{way}_lbf"]),
            ours=_steel_side(
                LAG_SCREWS[row["size_in"]], float(row["gravity"]), float(row["plate_in"]), angle
            ),
            step=10.0,
            mark=Mark.SEEN,
        )
        for row in rows("nds_12k")
        for way, angle in _WAYS
    ]
    return Table(
        name="NDS table 12K: lag screws, lateral, steel side plate",
        source=NDS,
        place="table 12K, page 106",
        read=_PERMIT.format(32, 32),
        put_in="D_r in the equations, F_yb and F_e by nominal D, F_e to 50 psi, K_D from D_r; "
        "F_es 61,850 psi; R_d = K_D K_theta where D_r is under 1/4 in; penetration 8 D",
        unit="lbf",
        checks=tuple(checks),
    )


def _table_122a() -> Table:
    return Table(
        name="NDS table 12.2A: lag screws, withdrawal",
        source=NDS,
        place="table 12.2A, page 77",
        read=_PERMIT.format(33, 33),
        put_in="G and D; thread without the tip",
        unit="lbf/in",
        checks=tuple(
            Check(
                where=f"G {row['gravity']}, D {row['size_in']} in",
                printed=float(row["withdrawal_lbf_in"]),
                ours=withdrawal.lag_screw_withdrawal(
                    specific_gravity=float(row["gravity"]),
                    diameter=_diameter(row["size_in"]),
                ),
                step=1.0,
                mark=Mark.SEEN,
            )
            for row in rows("nds_12_2a")
        ),
    )


def _diameter(size: str) -> float:
    return LAG_SCREWS[size][0]


def _table_12j_and_12l() -> Table:
    lag, screw = LAG_SCREWS["1/4"], WOOD_SCREWS["10"]
    lags = tuple(
        Check(
            where=f"12J, lag screw 1/4 in, t_s 1/2 in, {way} the grain",
            printed=printed,
            ours=wood_to_wood(size=lag, gravity=0.50, side=0.5, main=2.0, angle=angle),
            step=10.0,
            mark=Mark.SECOND_HAND,
        )
        for (way, angle), printed in zip(_WAYS, (120.0, 80.0), strict=True)
    )
    wood_screw = Check(
        where="12L, wood screw No. 10, t_s 1/2 in",
        printed=90.0,
        ours=wood_to_wood(size=screw, gravity=0.50, side=0.5, main=1.9),
        step=1.0,
        mark=Mark.SECOND_HAND,
    )
    return Table(
        name="NDS tables 12J and 12L: lag and wood screws, lateral, wood side member",
        source=NDS,
        place="tables 12J and 12L, single shear, G 0.50",
        read=_QUOTED,
        put_in="as 12K with a side member of the same wood; penetration 8 D and 10 D",
        unit="lbf",
        checks=(*lags, wood_screw),
    )


def _table_12n() -> Table:
    cells = (
        (0.148, 0.75, 2.25, 105.0, "0.148 x 3 in, t_s 3/4 in"),
        (0.162, 1.5, 1.62, 141.0, "0.162 in, t_s 1-1/2 in"),
        (0.148, 1.5, 1.48, 118.0, "0.148 in, t_s 1-1/2 in"),
        (0.135, 1.5, 1.35, 103.0, "0.135 in, t_s 1-1/2 in"),
    )
    return Table(
        name="NDS table 12N: nails, by the same equations",
        source=NDS,
        place="table 12N, G 0.50",
        read="first cell in tests of github.com/xcfem/xc; the others " + _QUOTED,
        put_in="D = D_r; l_m = 3 in less 3/4 in for the first, 10 D for the others",
        unit="lbf",
        checks=tuple(
            Check(
                where=where,
                printed=printed,
                ours=wood_to_wood(size=(diameter, diameter), gravity=0.50, side=side, main=main),
                step=1.0,
                mark=Mark.SECOND_HAND,
            )
            for diameter, side, main, printed, where in cells
        ),
    )


def _table_12e() -> Table:
    cells = (("1/2", 0.5, (650.0, 380.0)), ("5/8", 0.625, (930.0, 530.0)))
    return Table(
        name="NDS table 12E: bolts, wood side member to concrete",
        source=NDS,
        place="table 12E, t_s 1-1/2 in, 6 in into concrete, G 0.50",
        read=_QUOTED,
        put_in="full diameter D; F_em 7,500 psi; F_yb 45,000 psi",
        unit="lbf",
        checks=tuple(
            Check(
                where=f"D {name} in, {way} the grain",
                printed=printed,
                ours=lateral(
                    size=(diameter, diameter),
                    side=(bearing(gravity=0.50, diameter=diameter, angle=angle), 1.5),
                    main=(CONCRETE_BEARING, 6.0),
                    angle=angle,
                ).value,
                step=10.0,
                mark=Mark.SECOND_HAND,
            )
            for name, diameter, cell in cells
            for (way, angle), printed in zip(_WAYS, cell, strict=True)
        ),
    )


_CUT_OFF = "the printed value fits cutting off the decimals, not rounding"
_122B = (  # No., G, W, why it differs
    ("10", 0.50, 135.0, ""),
    ("8", 0.42, 82.0, ""),
    ("14", 0.55, 208.0, _CUT_OFF),
    ("14", 0.50, 172.0, ""),
    ("14", 0.42, 121.0, _CUT_OFF),
)


def _table_122b() -> Table:
    return Table(
        name="NDS table 12.2B: wood screws, withdrawal",
        source=NDS,
        place="table 12.2B",
        read=_QUOTED,
        put_in="G and nominal D",
        unit="lbf/in",
        checks=tuple(
            Check(
                where=f"No. {number}, G {gravity:.2f}",
                printed=printed,
                ours=withdrawal.wood_screw_withdrawal(
                    specific_gravity=gravity, diameter=WOOD_SCREWS[number][0]
                ),
                step=1.0,
                mark=Mark.SECOND_HAND,
                differs=differs,
            )
            for number, gravity, printed, differs in _122B
        ),
    )


_122F = (
    ("5/16", 0.3125, 0.234, 0.50, 40.0),
    ("1", 1.0, 0.312, 0.50, 132.0),
    ("1-1/2", 1.5, 0.500, 0.42, 239.0),
)


def _table_122f() -> Table:
    return Table(
        name="NDS table 12.2F: head pull-through",
        source=NDS,
        place="table 12.2F",
        read=_QUOTED,
        put_in="head diameter, thickness, G",
        unit="lbf",
        checks=tuple(
            Check(
                where=f"t {name} in, D_H {head:.3f} in, G {gravity:.2f}",
                printed=printed,
                ours=withdrawal.head_pull_through(
                    head_diameter=head, specific_gravity=gravity, thickness=thickness
                ),
                step=1.0,
                mark=Mark.SECOND_HAND,
            )
            for name, thickness, head, gravity, printed in _122F
        ),
    )


TABLES = (
    _table_12k(),
    _table_122a(),
    _table_12j_and_12l(),
    _table_12n(),
    _table_12e(),
    _table_122b(),
    _table_122f(),
)
