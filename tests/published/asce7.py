"""ASCE/SEI 7-16 chapter 13: a printed example of a public calculation sheet.

"Seismic Demands in Nonstructural Components (ASCE 7)", a public web sheet (read). No worked
example of the standard itself was found.
"""

from __future__ import annotations

from bracecalc.mechanics.statics import earthquake
from published.check import Check, Mark, Table

_INPUT = {"s_ds": 0.85, "weight": 250.0, "i_p": 1.0}


def _sheet() -> Table:
    lines = (
        ("F_p, z/h 0", 85.0, 1.0, {"a_p": 1.0, "r_p": 1.0, "z_over_h": 0.0}),
        ("upper limit", 340.0, 1.0, {"a_p": 2.5, "r_p": 1.0, "z_over_h": 1.0}),
        ("lower limit", 63.8, 0.1, {"a_p": 1.0, "r_p": 12.0, "z_over_h": 0.0}),
    )
    return Table(
        name="ASCE 7-16 chapter 13: level force on a component",
        reference='"Seismic Demands in Nonstructural Components (ASCE 7)", a public calculation '
        "sheet that works ASCE 7-16 eq. 13.3-1 to 13.3-3",
        put_in="W_p 250 lb, S_DS 0.85, a_p = R_p = I_p = 1; for the limits a_p and R_p are moved "
        "until the limit governs",
        unit="lbf",
        checks=tuple(
            Check(
                where=where,
                printed=printed,
                ours=earthquake.component_force_7_16(**_INPUT, **rest),
                step=step,
                mark=Mark.SEEN,
            )
            for where, printed, step, rest in lines
        ),
    )


TABLES = (_sheet(),)
