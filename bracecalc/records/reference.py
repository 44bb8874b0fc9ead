"""Rows of the reference tables, as the planner uses them; each column beside the field it fills."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, field, fields
from enum import StrEnum
from typing import Any, NamedTuple

from bracecalc.records.keys import ANY, Within

_COLUMN = "column"  # of a field's metadata


class Column(NamedTuple):
    """A property of a reference table, and the field of the record that it fills.

    Attributes:
        name: as written in the table, its unit last.
        field: field of the record.
        within: what a number may be; each of the limits is common practice.
        text: it is text, not a number.
        words: the words that may stand there.
        many: each row adds one value.
        required: a name without it can't be used.
    """

    name: str
    field: str = ""
    within: Within = ANY
    text: bool = False
    words: tuple[StrEnum, ...] = ()
    many: bool = False
    required: bool = True

    @property
    def number(self) -> bool:
        """Whether a number stands there."""
        return not self.text and not self.words


def _column(name: str, **more: Any) -> dict[str, Column]:
    """Return the metadata of a field that a column fills."""
    return {_COLUMN: Column(name, **more)}


def columns_of(record: Any) -> tuple[Column, ...]:
    """Return the columns that fill a record.

    >>> [column.name for column in columns_of(LumberSize)][:2]
    ['thickness_in', 'width_in']
    """
    return tuple(
        each.metadata[_COLUMN]._replace(
            field=each.name,
            required=each.default is MISSING and not each.metadata[_COLUMN].many,
        )
        for each in fields(record)
        if _COLUMN in each.metadata
    )


class SoldIn(StrEnum):
    """The unit in which a size is sold: that in which its table writes its lengths."""

    INCH = "inch"
    MM = "mm"


class ScrewKind(StrEnum):
    """The families that the equations tell apart."""

    WOOD = "wood screw"
    LAG = "lag screw"
    COACH = "coach screw"  # metric lag screw, for Eurocode 5
    PUBLISHED = "published values"


class LayerKind(StrEnum):
    """How a layer behaves behind a board that is pulled tight against it."""

    WOOD = "wood"
    PANEL = "panel"
    FINISH = "finish"  # gypsum board, plaster, cement board: passes compression, holds no screw
    TILE = "tile"  # as a finish, and drilled to clearance
    COMPRESSIBLE = "compressible"  # foam, resilient or hat channel, air


class PackerKind(StrEnum):
    """What packers of a stock thickness are cut from."""

    LUMBER = "lumber"
    PANEL = "panel"
    PIECE = "piece"  # bought as it is, as shims are


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ScrewSize:
    """One size of screw: inches, psi. ``lengths`` are those usually stocked, shortest first.

    Told apart by identity: a size is a key in the search.
    """

    size: str
    kind: ScrewKind = field(
        metadata=_column("kind", words=(ScrewKind.WOOD, ScrewKind.LAG, ScrewKind.COACH))
    )
    diameter: float = field(metadata=_column("diameter_in", within=Within(0.05, 1.5)))
    root_diameter: float = field(metadata=_column("root_diameter_in", within=Within(0.03, 1.5)))
    head_diameter: float = field(metadata=_column("head_diameter_in", within=Within(0.05, 4)))
    bending_yield: float = field(
        metadata=_column("bending_yield_psi", within=Within(10_000, 300_000))
    )
    lengths: tuple[float, ...] = field(
        metadata=_column("stocked_length_in", within=Within(0.25, 24), many=True)
    )
    washer_diameter: float | None = field(
        default=None, metadata=_column("washer_diameter_in", within=Within(0.1, 6))
    )  # lag screws are used with a washer
    washer_thickness: float = field(
        default=0.0, metadata=_column("washer_thickness_in", within=Within(0.01, 1))
    )
    sold_in: SoldIn = SoldIn.INCH

    @property
    def metric(self) -> bool:
        """Whether it is sold in millimetres."""
        return self.sold_in is SoldIn.MM


@dataclass(frozen=True, slots=True, kw_only=True)
class LumberSize:
    """One size of board: dressed, and nominal for board feet. Inches."""

    size: str
    thickness: float = field(metadata=_column("thickness_in", within=Within(0.25, 8)))
    width: float = field(metadata=_column("width_in", within=Within(0.5, 24)))
    nominal_thickness: float = field(
        metadata=_column("nominal_thickness_in", within=Within(0.25, 12))
    )
    nominal_width: float = field(metadata=_column("nominal_width_in", within=Within(0.5, 24)))
    sold_in: SoldIn = SoldIn.INCH


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """A species group; strengths are reference design values of the grade named, psi."""

    name: str
    specific_gravity: float = field(metadata=_column("specific_gravity", within=Within(0.2, 1.2)))
    grade: str = field(metadata=_column("grade", text=True))
    bending: float = field(metadata=_column("bending_psi", within=Within(50, 10_000)))
    shear: float = field(metadata=_column("shear_psi", within=Within(20, 1000)))
    modulus: float = field(metadata=_column("modulus_psi", within=Within(100_000, 5_000_000)))
    compression_across: float = field(
        metadata=_column("compression_across_psi", within=Within(50, 5000))
    )
    density_pcf: float = field(
        metadata=_column("density_pcf", within=Within(10, 80))
    )  # dry, for the weight of an order


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerMaterial:
    """A material of a wall build-up."""

    name: str
    kind: LayerKind = field(metadata=_column("kind", words=tuple(LayerKind)))
    thicknesses: tuple[float, ...] = field(
        metadata=_column("thickness_in", within=Within(0.005, 6), many=True)
    )
    crushing: float | None = field(
        default=None, metadata=_column("crushing_psi", within=Within(1, 50_000))
    )  # allowable bearing of the face, psi; None where none is known


@dataclass(frozen=True, slots=True, kw_only=True)
class PackerStock:
    """A stock thickness for packers and shims, by what it is called in the trade."""

    name: str
    thickness: float = field(metadata=_column("thickness_in", within=Within(0.005, 12)))
    kind: PackerKind = field(
        default=PackerKind.PIECE, metadata=_column("kind", words=tuple(PackerKind))
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberClass:
    """A strength class of EN 338: characteristic density kg/m3, strengths N/mm2."""

    name: str
    density: float = field(metadata=_column("density_kg_m3", within=Within(200, 1200)))
    bending: float = field(metadata=_column("bending_n_mm2", within=Within(5, 100)))
    shear: float = field(metadata=_column("shear_n_mm2", within=Within(0.5, 20)))
    compression_across: float = field(
        metadata=_column("compression_across_n_mm2", within=Within(0.5, 20))
    )
    modulus: float = field(metadata=_column("modulus_n_mm2", within=Within(3000, 30_000)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tables:
    """Every reference table, each keyed by the name that a job uses. Told apart by identity."""

    screws: Mapping[str, ScrewSize]
    lumber: Mapping[str, LumberSize]
    species: Mapping[str, Species]
    layers: Mapping[str, LayerMaterial]
    packers: Mapping[str, PackerStock]
    timber_classes: Mapping[str, TimberClass]
