"""Rows of the reference tables, as the planner uses them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum


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
    kind: ScrewKind
    diameter: float
    root_diameter: float
    head_diameter: float
    bending_yield: float
    lengths: tuple[float, ...]
    washer_diameter: float | None = None  # lag screws are used with a washer
    washer_thickness: float = 0.0

    @property
    def metric(self) -> bool:
        """Whether it is sold in millimetres."""
        return " mm" in self.size


@dataclass(frozen=True, slots=True, kw_only=True)
class LumberSize:
    """One size of board: dressed, and nominal for board feet. Inches."""

    size: str
    thickness: float
    width: float
    nominal_thickness: float
    nominal_width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """A species group; strengths are reference design values of the grade named, psi."""

    name: str
    specific_gravity: float
    grade: str
    bending: float
    shear: float
    modulus: float
    compression_across: float
    density_pcf: float  # dry, for the weight of an order


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerMaterial:
    """A material of a wall build-up."""

    name: str
    kind: LayerKind
    thicknesses: tuple[float, ...]
    crushing: float | None = None  # allowable bearing of the face, psi; None where none is known


@dataclass(frozen=True, slots=True, kw_only=True)
class PackerStock:
    """A stock thickness for packers and shims, by what it is called in the trade."""

    name: str
    thickness: float
    kind: PackerKind = PackerKind.PIECE


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberClass:
    """A strength class of EN 338: characteristic density kg/m3, strengths N/mm2."""

    name: str
    density: float
    bending: float
    shear: float
    compression_across: float
    modulus: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tables:
    """Every reference table, each keyed by the name that a job uses. Told apart by identity."""

    screws: Mapping[str, ScrewSize]
    lumber: Mapping[str, LumberSize]
    species: Mapping[str, Species]
    layers: Mapping[str, LayerMaterial]
    packers: Mapping[str, PackerStock]
    timber_classes: Mapping[str, TimberClass]
