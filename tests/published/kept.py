"""Values that the package keeps as they are printed: sizes, strengths, factors, loads of rules.

Each is held against a print that was read, or against somebody who carries the print over. What
the package keeps from memory is not here.
"""

from __future__ import annotations

from bracecalc.planning.services import BS_DEPTH, BS_ZONE
from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.job import Loads, Rules
from bracecalc.records.plan import CaseName
from bracecalc.strength.demand import NDS_DURATION
from bracecalc.tables.load import load_tables
from published.check import Check, Mark, Source, Table
from published.sources import (
    ASME_WOOD_SCREWS,
    ELECTRICAL_CODE,
    EN_338,
    FORMWORK,
    NDS,
    NDS_SUPPLEMENT,
    RESTRAINT_STANDARD,
    STABILITY_RULES,
    WIRING_RULES,
)

_Line = tuple[str, float, float]  # where, printed, ours


def _table(
    *,
    name: str,
    source: Source,
    place: str,
    read: str,
    unit: str,
    mark: Mark,
    step: float,
    lines: list[_Line],
) -> Table:
    return Table(
        name=name,
        source=source,
        place=place,
        read=read,
        put_in="nothing: the value is kept",
        unit=unit,
        kept=True,
        checks=tuple(
            Check(where=where, printed=printed, ours=ours, step=step, mark=mark)
            for where, printed, ours in lines
        ),
    )


_TIMBER = {  # class: rho_k, f_m,k, f_v,k, f_c,90,k, E_0,mean
    "C16": (310.0, 16.0, 3.2, 2.2, 8_000.0),
    "C24": (350.0, 24.0, 4.0, 2.5, 11_000.0),
    "C30": (380.0, 30.0, 4.0, 2.7, 12_000.0),
    "C35": (390.0, 35.0, 4.0, 2.7, 13_000.0),
    "C40": (400.0, 40.0, 4.0, 2.8, 14_000.0),
}
_PROPERTIES = ("density", "bending", "shear", "compression_across", "modulus")


def _timber_classes() -> Table:
    kept = load_tables().timber_classes
    return _table(
        name="EN 338 table 1: strength classes of softwood",
        source=EN_338,
        place="table 1",
        read="carried over by github.com/knippershelbig/StructuralDesignKit_Holz, "
        "MaterialTimberSoftwood.cs",
        unit="kg/m3, N/mm2",
        mark=Mark.SECOND_HAND,
        step=0.1,
        lines=[
            (
                f"{name}, {key.replace('_', ' ')}",
                value,
                float(getattr(kept[name], key)),
            )
            for name, row in _TIMBER.items()
            for key, value in zip(_PROPERTIES, row, strict=True)
        ],
    )


_GRAVITY = {
    "Douglas Fir-Larch": 0.50,
    "Douglas Fir-Larch (North)": 0.49,
    "Douglas Fir-South": 0.46,
    "Hem-Fir": 0.43,
    "Hem-Fir (North)": 0.46,
    "Spruce-Pine-Fir": 0.42,
    "Spruce-Pine-Fir (South)": 0.36,
    "Southern Pine": 0.55,
    "Western Cedars": 0.36,
    "Western Woods": 0.36,
    "Eastern Softwoods": 0.36,
}


def _gravities() -> Table:
    kept = load_tables().species
    return _table(
        name="NDS table 12.3.3A: specific gravity",
        source=NDS,
        place="table 12.3.3A",
        read="carried over by github.com/xcfem/xc, "
        "python_modules/materials/awc_nds/specific_gravity.py",
        unit="G",
        mark=Mark.SECOND_HAND,
        step=0.01,
        lines=[(name, value, kept[name].specific_gravity) for name, value in _GRAVITY.items()],
    )


_DRESSED = {2: 1.5, 3: 2.5, 4: 3.5, 6: 5.5, 8: 7.25, 10: 9.25, 12: 11.25}  # nominal: dry, in


def _dressed_sizes() -> Table:
    lumber = load_tables().lumber
    widths = [(f"width {wide}", dry, lumber[f"2x{wide}"].width) for wide, dry in _DRESSED.items()]
    thick = [(f"thickness {thick}", _DRESSED[thick], lumber[f"{thick}x4"].thickness)
             for thick in (2, 4)]  # fmt: skip
    return _table(
        name="NDS Supplement table 1A: dressed sizes of lumber, dry",
        source=NDS_SUPPLEMENT,
        place="table 1A, page 13",
        read="carried over by github.com/xcfem/xc, "
        "verif/tests/materials/awc_nds/test_nds_table_4A.py",
        unit="in",
        mark=Mark.SECOND_HAND,
        step=0.01,
        lines=widths + thick,
    )


def _screw_diameters() -> Table:
    printed = {"6": 0.138, "7": 0.151, "8": 0.164, "9": 0.177, "10": 0.190}
    kept = load_tables().screws
    return _table(
        name="ASME B18.6.1: diameters of wood screws",
        source=ASME_WOOD_SCREWS,
        place="basic diameter",
        read="open size chart, whose address was not kept",
        unit="in",
        mark=Mark.SEEN,
        step=0.001,
        lines=[(f"No. {size}", value, kept[size].diameter) for size, value in printed.items()],
    )


_HEADS = {"6": 0.262, "7": 0.287, "8": 0.312, "9": 0.337, "10": 0.363, "12": 0.414, "14": 0.480,
          "16": 0.515, "18": 0.602, "20": 0.616, "24": 0.724}  # fmt: skip


def _heads() -> Table:
    kept = load_tables().screws
    return _table(
        name="NDS table L3: heads of wood screws",
        source=NDS,
        place="Appendix L, table L3, D_H",
        read="quoted in public design notes, whose addresses were not kept",
        unit="in",
        mark=Mark.SECOND_HAND,
        step=0.001,
        lines=[
            (f"No. {size}, head diameter", head, float(kept[size].head_diameter or 0.0))
            for size, head in _HEADS.items()
        ],
    )


def _duration() -> Table:
    return _table(
        name="Load duration factor C_D",
        source=FORMWORK,
        place="table 4-4, page 49",
        read="a copy of the book, page by page",
        unit="C_D",
        mark=Mark.SEEN,
        step=0.01,
        lines=[
            ("ten minutes, wind and earthquake", 1.6, NDS_DURATION[CaseName.EARTHQUAKE]),
            ("seven days, used for the climb", 1.25, NDS_DURATION[CaseName.CLIMB]),
            ("ten years, used for service", 1.0, NDS_DURATION[CaseName.SERVICE]),
        ],
    )


def _rules() -> tuple[Table, ...]:
    plate = _table(
        name="Wires in studs: depth that needs no plate",
        source=ELECTRICAL_CODE,
        place="300.4(A)(1)",
        read="on the page named above",
        unit="in",
        mark=Mark.SEEN,
        step=0.01,
        lines=[("hole from the nearest edge", 1.25, Rules().plate_depth)],
    )
    child = _table(
        name="Weight of a child on the unit",
        source=STABILITY_RULES,
        place="test apparatus",
        read="on the page named above",
        unit="lb",
        mark=Mark.SECOND_HAND,
        step=1.0,
        lines=[("child", 60.0, Loads().climb)],
    )
    wiring = _table(
        name="Cables in walls: how deep they keep to zones, and how far the zones reach",
        source=WIRING_RULES,
        place="522.6.202 (i)",
        read="on the pages named above, which quote it",
        unit="mm",
        mark=Mark.SECOND_HAND,
        step=1.0,
        lines=[
            ("under the surface of the wall", 50.0, BS_DEPTH * MM_PER_INCH),
            ("from a corner, and from the top of the wall", 150.0, BS_ZONE * MM_PER_INCH),
        ],
    )
    restraint = _table(
        name="Least load of a restraint",
        source=RESTRAINT_STANDARD,
        place="test load since May 2023",
        read="on the page named above",
        unit="lbf",
        mark=Mark.SECOND_HAND,
        step=1.0,
        lines=[("load a tip restraint of furniture must hold", 60.0, Loads().minimum)],
    )
    return plate, child, wiring, restraint


TABLES = (
    _timber_classes(),
    _gravities(),
    _dressed_sizes(),
    _heads(),
    _screw_diameters(),
    _duration(),
    *_rules(),
)
