"""EN 1995-1-1:2004+A1:2008, Eurocode 5: what of its numbers could be read.

k_mod as the ICE Manual of Structural Design: Buildings reproduces table 3.1 (seen); two embedment
strengths from the tests of a public library (second hand); capacities of bolts in two timbers at
angles to the grain, after Schneider's Bautabellen (second hand). No worked example of a screw
with its numbers was found.
"""

from __future__ import annotations

from bracecalc.mechanics.eurocode5 import design, lateral
from bracecalc.mechanics.eurocode5.design import LoadDuration
from bracecalc.mechanics.eurocode5.lateral import Failure, TimberJoint
from published.check import Check, Mark, Table
from published.sources import EN_1995, SCHNEIDER, STRUCTURAL_MANUAL
from published.values import rows

_K_MOD = {
    1: (0.60, 0.70, 0.80, 0.90, 1.10),
    2: (0.60, 0.70, 0.80, 0.90, 1.10),
    3: (0.50, 0.55, 0.65, 0.70, 0.90),
}


def _k_mod() -> Table:
    return Table(
        name="EN 1995-1-1 table 3.1: k_mod of solid timber",
        source=STRUCTURAL_MANUAL,
        place="table 19.9",
        read="in the manual",
        put_in="load-duration class, service class",
        unit="k_mod",
        checks=tuple(
            Check(
                where=f"service class {service_class}, {duration.value}",
                printed=printed,
                ours=design.modification_factor(duration=duration, service_class=service_class),
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
        source=EN_1995,
        place="eq. 8.32",
        read="tests of a public structural-analysis library, whose address was not kept",
        put_in="rho 420 kg/m3, predrilled, load along the grain",
        unit="N/mm2",
        checks=tuple(
            Check(
                where=f"d {diameter:g} mm",
                printed=printed,
                ours=lateral.embedment_strength(
                    density=420.0, diameter=diameter, predrilled=True, angle=0.0
                ),
                step=0.01,
                mark=Mark.SECOND_HAND,
                differs=differs,
            )
            for diameter, printed, differs in lines
        ),
    )


_DENSITY, _STEEL = 350.0, 360.0  # kg/m3, N/mm2: C24, bolts of class 3.6
_THICK = 200.0  # mm; two hinges form in any timber as thick as the table asks for
_STANDARDS_SHARE = 1.15  # on mode f in eq. 8.6; the table is without it


def _bolt(diameter: float, side_angle: float, main_angle: float) -> float:
    def embedment(angle: float) -> float:
        return lateral.embedment_strength(
            density=_DENSITY, diameter=diameter, predrilled=True, angle=angle
        )

    joint = TimberJoint(
        diameter=diameter,
        side_embedment=embedment(side_angle),
        main_embedment=embedment(main_angle),
        side_thickness=_THICK,
        main_thickness=_THICK,
        gap=0.0,
        yield_moment=lateral.yield_moment(tensile_strength=_STEEL, diameter=diameter),
    )
    return lateral.johansen_loads(joint)[Failure.F] / _STANDARDS_SHARE / 1000.0


_MISTYPED = "the cell with the two angles changed over is as ours: mistyped there"
_NEAR = "within 0.4 percent; why is not known"
_DIFFERS = {  # d, angles in side and main member
    ("10", "90", "30"): _MISTYPED,
    ("12", "15", "30"): _MISTYPED,
    ("16", "15", "30"): _MISTYPED,
    ("20", "0", "45"): _NEAR,
    ("20", "0", "75"): _NEAR,
    ("20", "75", "30"): _MISTYPED,
    ("24", "0", "30"): _NEAR,
    ("24", "0", "75"): _NEAR,
}


def _bolt_check(row: dict[str, str]) -> Check:
    key = row["diameter_mm"], row["side_angle_deg"], row["main_angle_deg"]
    return Check(
        where=f"d {key[0]} mm, {key[1]} and {key[2]} degrees to the grain",
        printed=float(row["capacity_kn"]),
        ours=_bolt(*(float(value) for value in key)),
        step=10.0 ** -len(row["capacity_kn"].split(".")[1]),
        mark=Mark.SECOND_HAND,
        differs=_DIFFERS.get(key, ""),
    )


def _bolts() -> Table:
    return Table(
        name="EN 1995-1-1 eq. 8.6 (f): bolts in two timbers of C24",
        source=SCHNEIDER,
        place="bolts in C24, one shear plane; 60 of 245 cells",
        read="values carried by the repository named above",
        put_in="rho_k 350 kg/m3, f_u,k 360 N/mm2, predrilled, two hinges, without the factor 1.15",
        unit="kN",
        checks=tuple(_bolt_check(row) for row in rows("johansen_bolts_c24")),
    )


TABLES = (_k_mod(), _embedment(), _bolts())
