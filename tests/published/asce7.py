"""ASCE/SEI 7-16 chapter 13, eq. 13.3-1 to 13.3-3, as engineers and web pages work it in public.

A worked web page, three permit records and a worked sheet (all read). ASCE 7-10 has the same three
equations. No worked example of the standard itself was found, none of the 2022 edition with its
numbers.
"""

from __future__ import annotations

from bracecalc.mechanics.statics import earthquake
from published.check import Check, Mark, Source, Table
from published.sources import CALCS, EVERETT, LOAD_SHEET, SANTA_ANA

_Line = tuple[str, float, float, dict[str, float], str]
_TO_UPPER = {"a_p": 2.5, "r_p": 1.0, "z_over_h": 1.0}  # moved until the limit governs
_TO_LOWER = {"a_p": 1.0, "r_p": 12.0, "z_over_h": 0.0}


def _table(
    *,
    name: str,
    source: Source,
    place: str,
    put_in: str,
    unit: str,
    given: dict[str, float],
    lines: tuple[_Line, ...],
) -> Table:
    return Table(
        name=name,
        source=source,
        place=place,
        read="on the page itself",
        put_in=f"{put_in}; for the limits a_p, R_p and z/h are moved until the limit governs",
        unit=unit,
        checks=tuple(
            Check(
                where=where,
                printed=printed,
                ours=earthquake.component_force_7_16(**given, **rest),
                step=step,
                mark=Mark.SEEN,
                differs=differs,
                far=bool(differs),
            )
            for where, printed, step, rest, differs in lines
        ),
    )


_PAGE = _table(
    name="Force on a component, web page",
    source=CALCS,
    place="worked example",
    put_in="W_p 250 lb, S_DS 0.85, a_p = R_p = I_p = 1, z/h 0",
    unit="lbf",
    given={"s_ds": 0.85, "weight": 250.0, "i_p": 1.0},
    lines=(
        ("F_p", 85.0, 1.0, {"a_p": 1.0, "r_p": 1.0, "z_over_h": 0.0}, ""),
        ("upper limit", 340.0, 1.0, _TO_UPPER, ""),
        ("lower limit", 63.8, 0.1, _TO_LOWER, ""),
    ),
)
_HEAT_PUMP = _table(
    name="Force on a heat pump, permit record",
    source=EVERETT,
    place="page 69",
    put_in="W_p 204 lb, S_DS 0.876, a_p 2.5, R_p 6, I_p 1, z 14 ft of h 12 ft",
    unit="lbf",
    given={"s_ds": 0.876, "weight": 204.0, "i_p": 1.0},
    lines=(
        (
            "F_p",
            99.3,
            0.1,
            {"a_p": 2.5, "r_p": 6.0, "z_over_h": 1.0},
            "the record takes z/h 1.17; ASCE 7 lets it stop at 1, and ours refuses more",
        ),
        ("upper limit", 285.9, 0.1, _TO_UPPER, ""),
        ("lower limit", 53.6, 0.1, _TO_LOWER, ""),
    ),
)
_GRILLE = _table(
    name="Force on a grille, permit record",
    source=SANTA_ANA,
    place="document 375324, page 10",
    put_in="W_p 2.7 lb/ft2, S_DS 1.027, a_p 1, R_p 2.5, I_p 1, z 11.458333 ft of h 20 ft",
    unit="lbf/ft2",
    given={"s_ds": 1.027, "weight": 2.7, "i_p": 1.0},
    lines=(
        ("F_p", 0.95, 0.01, {"a_p": 1.0, "r_p": 2.5, "z_over_h": 11.458333 / 20.0}, ""),
        ("upper limit", 4.44, 0.01, _TO_UPPER, ""),
        ("lower limit", 0.83, 0.01, _TO_LOWER, ""),
    ),
)
_HOOD = _table(
    name="Force on a hood, permit record",
    source=SANTA_ANA,
    place="document 375308, page 106",
    put_in="W_p 1, S_DS 1.70, a_p 2.5, R_p 6, I_p 1, z/h 1",
    unit="share of W_p",
    given={"s_ds": 1.70, "weight": 1.0, "i_p": 1.0},
    lines=(
        ("F_p", 0.85, 0.01, {"a_p": 2.5, "r_p": 6.0, "z_over_h": 1.0}, ""),
        ("upper limit", 2.72, 0.01, _TO_UPPER, ""),
        ("lower limit", 0.51, 0.01, _TO_LOWER, ""),
    ),
)
_SHEET = _table(
    name="Force on a component, worked sheet",
    source=LOAD_SHEET,
    place="sheet 2.2",
    put_in="W_p 1, S_DS 2/3 of 0.70, a_p 1.5, R_p 2.5, I_p 1.5, z 0: the lower limit governs",
    unit="share of W_p",
    given={"s_ds": 0.70 * 2.0 / 3.0, "weight": 1.0, "i_p": 1.5},
    lines=(
        ("F_p", 0.21, 0.0001, {"a_p": 1.5, "r_p": 2.5, "z_over_h": 0.0}, ""),
        ("upper limit", 1.12, 0.0001, _TO_UPPER, ""),
    ),
)
_ASD = Table(
    name="The same force for allowable stress design",
    source=EVERETT,
    place="page 69",
    read="on the page itself",
    put_in="F_p 99.3 lbf, lever 1",
    unit="lbf",
    checks=(
        Check(
            where="0.7 F_p",
            printed=69.5,
            ours=earthquake.earthquake_moments(
                s_ds=0.876, force=99.3, height=1.0, weight=204.0, behind_front_legs=0.0
            ).overturning,
            step=0.1,
            mark=Mark.SEEN,
        ),
    ),
)

TABLES = (_PAGE, _HEAT_PUMP, _ASD, _GRILLE, _HOOD, _SHEET)
