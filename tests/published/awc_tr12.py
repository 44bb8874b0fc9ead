"""AWC Technical Report 12, General Dowel Equations for Calculating Lateral Connection Values.

American Wood Council, 2015 edition. Example 3.1, "Bolted Connection with Gap", its values without
the gap, as a public engineering note quotes them. The values with the gap were not found.
"""

from __future__ import annotations

from bracecalc.mechanics.nds import dowel
from bracecalc.mechanics.nds.dowel import Mode
from published.check import Check, Mark, Table

_PRINTED = {
    Mode.I_m: 900.0,
    Mode.I_s: 900.0,
    Mode.II: 414.0,
    Mode.III_m: 550.0,
    Mode.III_s: 550.0,
    Mode.IV: 663.0,
}


def _example_31() -> Table:
    bearing = dowel.dowel_bearing_strength(specific_gravity=0.43, diameter=0.5, angle=0.0)
    joint = dowel.Joint(
        diameter=0.5,
        side_bearing=bearing,
        main_bearing=bearing,
        side_length=1.5,
        main_length=1.5,
        gap=0.0,
        bending_yield=45_000.0,
    )
    by_mode = dowel.reference_lateral(joint, nominal_diameter=0.5, angle=0.0).by_mode
    return Table(
        name="TR12 example 3.1: bolt, gap 0",
        reference="AWC Technical Report 12, General Dowel Equations for Calculating Lateral "
        "Connection Values, 2015, example 3.1",
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
