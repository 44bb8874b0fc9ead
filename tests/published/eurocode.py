"""EN 1995-1-1:2004+A1:2008, Eurocode 5: what of its numbers could be read.

k_mod as the ICE Manual of Structural Design: Buildings reproduces table 3.1; two embedment
strengths from the tests of a public structural-analysis library. No worked example of a screw
with its numbers was found; the Johansen equations are held against an independent writing of the
same equilibria in tests/mechanics/test_eurocode5.py.
"""

from __future__ import annotations

from bracecalc.mechanics.eurocode5 import design as eurocode5_design
from bracecalc.mechanics.eurocode5 import lateral as eurocode5
from bracecalc.mechanics.eurocode5.design import LoadDuration
from published.check import Check, Mark, Table

_K_MOD = {
    1: (0.60, 0.70, 0.80, 0.90, 1.10),
    2: (0.60, 0.70, 0.80, 0.90, 1.10),
    3: (0.50, 0.55, 0.65, 0.70, 0.90),
}


def _k_mod() -> Table:
    return Table(
        name="EN 1995-1-1 table 3.1: k_mod of solid timber",
        reference="ICE Manual of Structural Design: Buildings, table 19.9, after EN 1995-1-1:2004 "
        "table 3.1",
        put_in="load-duration class, service class",
        unit="k_mod",
        checks=tuple(
            Check(
                where=f"service class {service_class}, {duration.value}",
                printed=printed,
                ours=eurocode5_design.modification_factor(
                    duration=duration, service_class=service_class
                ),
                step=0.01,
                mark=Mark.SEEN,
            )
            for service_class, row in _K_MOD.items()
            for duration, printed in zip(LoadDuration, row, strict=True)
        ),
    )


def _embedment() -> Table:
    lines = (
        (16.0, 28.91, "0.082 x 0.84 x 420 is 28.93: a slip in the print"),
        (12.0, 30.31, ""),
    )
    return Table(
        name="EN 1995-1-1 eq. 8.32: embedment strength along the grain",
        reference="tests of a public structural-analysis library, after EN 1995-1-1:2004 8.5.1.1",
        put_in="rho 420 kg/m3, predrilled, load along the grain",
        unit="N/mm2",
        checks=tuple(
            Check(
                where=f"d {diameter:g} mm",
                printed=printed,
                ours=eurocode5.embedment_strength(
                    density=420.0, diameter=diameter, predrilled=True, angle=0.0
                ),
                step=0.01,
                mark=Mark.SECOND_HAND,
                differs=differs,
            )
            for diameter, printed, differs in lines
        ),
    )


TABLES = (_k_mod(), _embedment())
