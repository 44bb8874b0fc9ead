"""AWC, Structural Wood Design Solved Example Problems, 2015/2018 NDS.

Example E2.3, withdrawal of a lag screw, as the tests of a public finite-element library give it.
Example E2.4 (wood screw in double shear) is left out: it takes K_D from the nominal diameter,
which reproduces no cell of the tables.
"""

from __future__ import annotations

from bracecalc.mechanics.nds import penetration, withdrawal
from published.check import Check, Mark, Table


def _example_e23() -> Table:
    thread = 4.0 - 1.5 - penetration.lag_tip_length(diameter=0.5)
    return Table(
        name="AWC example E2.3: lag screw, withdrawal",
        reference="American Wood Council, Structural Wood Design Solved Example Problems, E2.3",
        put_in="1/2 x 4 in, Southern Pine (G 0.55), side member 1-1/2 in, tip 5/16 in",
        unit="in, lbf",
        checks=(
            Check(
                where="thread in the main member, in",
                printed=2.1875,
                ours=thread,
                step=0.0001,
                mark=Mark.SECOND_HAND,
            ),
            Check(
                where="withdrawal value, lbf",
                printed=955.0,
                ours=withdrawal.thread_hold(
                    per_inch=withdrawal.lag_screw_withdrawal(specific_gravity=0.55, diameter=0.5),
                    thread=thread,
                ),
                step=0.1,
                mark=Mark.SECOND_HAND,
            ),
        ),
    )


TABLES = (_example_e23(),)
