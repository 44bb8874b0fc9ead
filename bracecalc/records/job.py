"""What a job says: the niche, the unit, the lumber, the screws, the rules and the loads.

Lengths are inches, forces and weights pounds-force, heights above the datum of the site.
A reading taken at several points is a tuple, so that the least or the greatest can be used.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any, ClassVar

from bracecalc.mechanics.geometry import stack as geometry
from bracecalc.records.reference import Tables
from bracecalc.records.surroundings import Surroundings

Readings = tuple[float, ...]


class Units(StrEnum):
    """The system in which bare numbers are read and lengths are shown."""

    INCH = "inch"
    MM = "mm"


class StudMaterial(StrEnum):
    """What stands behind the wall finish."""

    WOOD = "wood"
    STEEL = "steel"
    MASONRY = "masonry"
    UNKNOWN = "unknown"


class Method(StrEnum):
    """The standard by which the strength is shown."""

    NDS = "NDS"
    EC5 = "EC5"


class Contact(StrEnum):
    """Where along the boards the housing is found, or set, to bear."""

    BOTH_ENDS = "both ends"  # a strip of paper just drags at both
    ONE_END = "one end"  # a gap of more than 1/32 in was found at the other


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer between the face of the finished wall (or soffit) and its framing."""

    material: str
    thickness: float
    fixed_to_stud: bool = False  # wood or panel that touches the framing and is declared fixed


@dataclass(frozen=True, slots=True, kw_only=True)
class Niche:
    """The framed recess. Layers run from the room to the framing."""

    width: Readings
    depth: Readings
    soffit: Readings = ()
    soffit_solid: bool = False
    soffit_depth: float | None = (
        None  # how far it reaches out from the rear wall; None: all the way
    )
    soffit_layers: tuple[Layer, ...] | None = None

    @property
    def narrowest(self) -> float:
        """Least reading of the width."""
        return min(self.width)

    @property
    def deepest(self) -> float:
        """Greatest reading of the depth: it sets the overlap."""
        return max(self.depth)

    @property
    def lowest_soffit(self) -> float:
        """Least reading of the soffit over the datum; infinite where there is none."""
        return min(self.soffit, default=math.inf)


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """Heights of the finished floor above the datum at the four leg spots."""

    front_left: float = 0.0
    front_right: float = 0.0
    rear_left: float = 0.0
    rear_right: float = 0.0
    path_high: float | None = None
    finish_to_come: float = 0.0  # already added to the heights above
    down_from_line: bool = False  # how the readings were taken; the heights above are converted
    uncertainty: float | None = None

    @property
    def spots(self) -> tuple[float, float, float, float]:
        """Heights at the legs: front left, front right, rear left, rear right."""
        return self.front_left, self.front_right, self.rear_left, self.rear_right


@dataclass(frozen=True, slots=True, kw_only=True)
class Stud:
    """The framing member behind the wall."""

    material: StudMaterial = StudMaterial.WOOD
    species: str = "SPF"
    width: float = 1.5
    depth: float = 3.5


@dataclass(frozen=True, slots=True, kw_only=True)
class StudLayout:
    """Studs at a regular spacing; ``first`` is the first centre from the left side of the niche."""

    spacing: float
    first: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """The rear wall: layers from the room to the studs, and where the studs are."""

    layers: tuple[Layer, ...]
    stud: Stud = field(default_factory=Stud)
    stud_spots: Readings | None = None
    stud_layout: StudLayout | None = None
    corner_studs: bool = False
    finish_to_come: float = 0.0  # a layer still missing when the depth was read


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """A door or drawer. Distances are in front of the front leg line, forward positive."""

    own_weight: float
    contents: float
    reach: float
    closed_reach: float
    edge: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """The appliance: what its sheet says of it. ``None`` is "not given", never a guess."""

    height: float
    width: float
    depth: float
    leg_travel_front: float
    leg_travel_rear: float
    height_overall: float | None = None
    proud: float = 0.0
    leg_pitch: float | None = None
    weight: float | None = None
    contents: float | None = None
    cg_height: float | None = None
    cg_behind_front_legs: float | None = None
    front_legs_behind_front: float | None = None
    rear_legs_behind_front: float | None = None
    doors: tuple[Door, ...] | None = None
    restraint_height: float | None = None
    bearing_zone: tuple[float, float] | None = (
        None  # nearest and farthest from the rear edge of the top
    )

    @property
    def highest(self) -> float:
        """Highest point of the whole unit over the floor that it stands on."""
        return self.height if self.height_overall is None else self.height_overall


@dataclass(frozen=True, slots=True, kw_only=True)
class Boards:
    """The lumber of the stack. A measured thickness or width overrides the table's."""

    size: str = "2x4"
    species: str = "SPF"
    thickness: float | None = None
    width: float | None = None
    end_gap: float = 0.125


@dataclass(frozen=True, slots=True, kw_only=True)
class CarriedScrew:
    """A screw that the crew has: a size of the table in these lengths."""

    size: str
    lengths: tuple[float, ...]
    thread_length: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedScrew:
    """A screw outside the equations, with its maker's allowable values for this use.

    ``lateral`` and ``pull_through`` are lbf a screw, ``withdrawal`` lbf per inch of thread in
    the stud, for load duration factor 1.0 and with the gap of this wall.
    """

    size: str
    diameter: float
    head_diameter: float
    length: float
    thread_length: float
    least_embedment: float
    lateral: float
    withdrawal: float
    pull_through: float
    largest_gap: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Screws:
    """What may be used; with nothing carried the stock table is searched."""

    carried: tuple[CarriedScrew, ...] = ()
    published: tuple[PublishedScrew, ...] = ()
    counterbore: float = 0.0
    washer: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """Rules of the trade and tolerances; each default is common practice unless said otherwise."""

    overlap: float = 2.0
    overlap_left: float = 1.0
    embedment: float = 1.5
    leg_least: float = 0.125
    roll_in: float = 0.125
    rear_rise: float = 0.125
    most_boards: int = 3
    under_head: float = 1.0
    pivot_ease: float = 0.25
    plate_depth: float = 1.25  # IRC and NEC: wires and pipes nearer the face need a plate
    tape_uncertainty: float = 0.0625
    height_uncertainty: float = 0.125
    rounding: float = 0.0625
    contact: Contact = Contact.BOTH_ENDS
    even_contact: bool = False  # the housing shown to bear evenly front to back of the overlap
    shared_contact: bool = False  # all boards of the stack shown to bear, not the outermost alone


@dataclass(frozen=True, slots=True, kw_only=True)
class Earthquake:
    """ASCE 7 chapter 13 inputs; the edition decides which of them are used."""

    s_ds: float
    edition: str = "7-16"
    a_p: float = 1.0
    r_p: float = 2.5
    i_p: float = 1.0
    z_over_h: float = 1.0
    h_f: float | None = None  # 7-22: factor for height, ductility and resonance are asked for
    r_mu: float | None = None
    c_ar: float | None = None
    r_po: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Loads:
    """What the stack must hold, and by which standard that is shown."""

    minimum: float = 100.0
    climb: float = 60.0
    dynamic_factor: float = 1.0
    pull: float = 0.0
    pull_height: float | None = None
    earthquake: Earthquake | None = None
    load_duration: Mapping[str, float] = field(
        default_factory=dict
    )  # by case; overrides the default
    horizontal_stop: bool = False
    wet_service: bool = False
    temperature: float = 70.0  # greatest sustained, degrees Fahrenheit
    method: Method = Method.NDS
    timber_class: str = "C24"  # EC5 only, as the two below
    service_class: int = 1
    gamma_m: float = 1.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """A restraint that stands already: a plan then checks it and chooses nothing.

    ``underside`` is the lowest measured point over the unit, above the datum. ``boards`` are the
    thicknesses of a rear-wall stack from the wall outward; ``packers`` those of the pieces under a
    soffit. Both empty: the soffit itself.
    """

    underside: float
    boards: Readings = ()
    packers: Readings = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One niche, everything read and checked."""

    title: str
    niche: Niche
    wall: Wall
    unit: Unit
    floor: Floor = field(default_factory=Floor)
    boards: Boards = field(default_factory=Boards)
    screws: Screws = field(default_factory=Screws)
    rules: Rules = field(default_factory=Rules)
    loads: Loads = field(default_factory=Loads)
    surroundings: Surroundings = field(default_factory=Surroundings)
    units: Units = Units.INCH
    built: Built | None = None  # None: the plan chooses the restraint
    tables: Tables | None = field(default=None, compare=False, repr=False)  # None: bracecalc's own
    as_found: Mapping[str, Any] = field(default_factory=dict)  # raw, for the check on site
    where: str = field(default="", compare=False)  # file or row that it was read from

    CHANGE: ClassVar[dict[str, Callable[[Job, str, object], Job]]] = {}  # bracecalc.api fills it

    def with_(self, path: str, value: object) -> Job:
        """Return a job with one value changed, checked as a job file is.

        Args:
            path: of a key of the job file, as ``wall.layers.1.thickness``.
            value: a number in the job's own units, text as people write it, or a pint quantity;
                None takes the key out.

        Raises:
            JobError: if the key or the value can't be, alone or with the others.

        >>> from bracecalc import read_job
        >>> from bracecalc.data import demo_path
        >>> job = read_job(demo_path("3b-kitchen.toml"))
        >>> job.with_("wall.layers.1.thickness", "5/8 in").wall.layers[0].thickness
        0.625
        """
        return self.CHANGE["with_"](self, path, value)

    @property
    def finished_depth(self) -> float:
        """Greatest depth of the niche to the finished wall."""
        return self.niche.deepest - self.wall.finish_to_come

    @property
    def rear_gap(self) -> float:
        """Gap behind the housing at the greatest depth reading: it sets the overlap."""
        return self._gap(self.niche.deepest)

    @property
    def least_rear_gap(self) -> float:
        """Gap behind the housing at the least depth reading; below 0 the unit does not fit."""
        return self._gap(min(self.niche.depth))

    def _gap(self, depth: float) -> float:
        return geometry.rear_gap(
            niche_depth=depth - self.wall.finish_to_come,
            unit_depth=self.unit.depth,
            proud=self.unit.proud,
        )
