"""What other people's programs make of the same equations. No print stands behind these values.

They count for nothing as published values; two programs written apart that agree are still worth
a look. The finite-element library github.com/xcfem/xc works the AWC's solved examples; a notebook,
github.com/willysw/wsweng, works three nail examples after Breyer by the closed forms of NDS.
"""

from __future__ import annotations

from bracecalc.mechanics.nds import penetration, withdrawal
from bracecalc.mechanics.nds.dowel import Mode
from published.check import Check, Mark, Table
from published.joints import STEEL_BEARING, lateral
from published.sources import BREYER, SOLVED_EXAMPLES


def _example_e23() -> Table:
    thread = 4.0 - 1.5 - penetration.lag_tip_length(diameter=0.5)
    held = withdrawal.thread_hold(
        per_inch=withdrawal.lag_screw_withdrawal(specific_gravity=0.55, diameter=0.5),
        thread=thread,
    )
    return Table(
        name="Lag screw, withdrawal, example E2.3",
        source=SOLVED_EXAMPLES,
        place="example E2.3",
        read="tests of github.com/xcfem/xc, verif/tests/materials/awc_nds",
        put_in="1/2 x 4 in, Southern Pine (G 0.55), side member 1-1/2 in, tip 5/16 in",
        unit="in, lbf",
        checks=(
            Check(
                where="thread in the main member, in",
                printed=2.1875,
                ours=thread,
                step=0.0001,
                mark=Mark.PROGRAM,
            ),
            Check(
                where="withdrawal value, lbf",
                printed=954.98,  # 4,247.94 N
                ours=held,
                step=0.01,
                mark=Mark.PROGRAM,
            ),
        ),
    )


_MODES = (Mode.I_m, Mode.I_s, Mode.II, Mode.III_m, Mode.III_s, Mode.IV)
_NAILS = (  # example, D, side F_e and length, main F_e and length, F_yb, loads by mode
    (
        "12.3, 0.162 in, wood side",
        0.162,
        (4650.0, 1.5),
        (4650.0, 2.0),
        (684.82, 513.61, 252.52, 242.54, 190.01, 140.89),
    ),
    (
        "12.4, 0.113 in, steel side",
        0.113,
        (STEEL_BEARING, 0.105),
        (5550.0, 2.395),
        (682.74, 333.57, 275.86, 281.87, 90.307, 106.95),
    ),
    (
        "12.5, 0.148 in, plywood side",
        0.148,
        (4650.0, 0.5),
        (3500.0, 2.5),
        (588.64, 156.41, 205.77, 214.28, 84.042, 108.98),
    ),
)


def _breyer() -> Table:
    checks = []
    for where, diameter, side, main, loads in _NAILS:
        ours = lateral(size=(diameter, diameter), side=side, main=main).by_mode
        checks += [
            Check(
                where=f"example {where}, mode {mode.value}",
                printed=load,
                ours=ours[mode],
                step=0.001 if load < 100.0 else 0.01,
                mark=Mark.PROGRAM,
            )
            for mode, load in zip(_MODES, loads, strict=True)
        ]
    return Table(
        name="Nails, lateral, three examples by mode",
        source=BREYER,
        place="examples 12.3, 12.4 and 12.5",
        read="output kept in the notebook",
        put_in="the notebook's F_e, F_yb and lengths",
        unit="lbf",
        checks=tuple(checks),
    )


TABLES = (_example_e23(), _breyer())
