"""American Wood Council, Technical Report 12, General Dowel Equations, 2015.

Example 3.1, "Bolted Connection with Gap", its values without the gap, as a public engineering note
quotes them. The values with the gap were not found; the code table of furring.py has real gaps.
"""

from __future__ import annotations

from bracecalc.mechanics.nds.dowel import Mode
from published.check import Check, Mark, Table
from published.joints import bearing, lateral
from published.sources import TR12

_PRINTED = {
    Mode.I_m: 900.0,
    Mode.I_s: 900.0,
    Mode.II: 414.0,
    Mode.III_m: 550.0,
    Mode.III_s: 550.0,
    Mode.IV: 663.0,
}


def _example_31() -> Table:
    member = (bearing(gravity=0.43, diameter=0.5), 1.5)
    by_mode = lateral(size=(0.5, 0.5), side=member, main=member).by_mode
    return Table(
        name="TR12 example 3.1: bolt, gap 0",
        source=TR12,
        place="example 3.1",
        read="quoted in a public engineering note, whose address was not kept",
        put_in="D 1/2 in, F_yb 45,000 psi, two members of 1-1/2 in, G 0.43, load along the grain",
        unit="lbf",
        checks=tuple(
            Check(
                where=f"mode {mode.value}",
                printed=printed,
                ours=by_mode[mode],
                step=1.0,
                mark=Mark.SECOND_HAND,
            )
            for mode, printed in _PRINTED.items()
        ),
    )


TABLES = (_example_31(),)
