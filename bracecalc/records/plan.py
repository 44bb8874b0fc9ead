"""What a plan says. Lengths are inches, forces pounds-force, all unrounded."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any, ClassVar, NamedTuple

from bracecalc.mechanics.statics.contact import Along, FrontToBack
from bracecalc.records.findings import MARGIN_TOLD, Finding, Fix, Margin, Severity, Verdict
from bracecalc.records.job import Job
from bracecalc.records.open import Open
from bracecalc.records.plain import plain
from bracecalc.records.reference import ScrewKind
from bracecalc.records.scheme import Design, Part
from bracecalc.records.support import (
    Hole,
    Packers,
    PackerSupport,
    Purpose,
    RestraintKind,
    ScrewRow,
    SoffitSupport,
    Stack,
    StackSupport,
    Strength,
    Studs,
    TopSupport,
    Washer,
)

__all__ = [
    "MARGIN_TOLD",
    "PLACES",
    "ROW_COLUMNS",
    "SCREWS",
    "Alternative",
    "Assumed",
    "Bearing",
    "CaseName",
    "Check",
    "Demand",
    "Finding",
    "Fix",
    "Hole",
    "Item",
    "Leg",
    "LoadCase",
    "Margin",
    "Materials",
    "Need",
    "OverSpot",
    "PackerSupport",
    "Packers",
    "Plan",
    "Purpose",
    "ReachBand",
    "Restraint",
    "RestraintKind",
    "ScrewRow",
    "Severity",
    "SoffitSupport",
    "Stack",
    "StackSupport",
    "Step",
    "Strength",
    "Studs",
    "TopSupport",
    "Verdict",
    "Washer",
]


ROW_COLUMNS = ("item", "size", "length_in", "count", "from_left_in", "above_underside_in")


PLACES = 6  # of an inch: what is finer is the noise of floats


@dataclass(frozen=True, slots=True)
class ReachBand:
    """Heights above the datum between which the legs can raise the top onto a restraint.

    Empty where ``high`` is less than ``low``. ``low_set_by`` and ``high_set_by`` name the corner
    (one of CORNERS) or "rolling in".
    """

    TOLD = ("low", "high")

    low: float
    high: float
    low_set_by: str
    high_set_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One levelling leg at contact."""

    TOLD = ("extension", "turns", *MARGIN_TOLD)

    extension: float
    travel: float
    turns: float | None
    margin: Margin


class Alternative(NamedTuple):
    """A restraint that was worked out too, and why it isn't the one."""

    kind: RestraintKind
    why_not: str


class OverSpot(NamedTuple):
    """A height over the floor at one leg spot, one of CORNERS."""

    corner: str
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Restraint:
    """What the top is raised to, and where its underside stands above the datum.

    ``from_line`` is the same height over the laser's line, below 0 under it, where the floor was
    read from one; ``over_spot`` over the floor at the higher leg spot of the rear, where it was
    read.
    """

    TOLD = ("kind", "target_height", "from_line", "over_spot", "alternatives")

    kind: RestraintKind
    target_height: float | None
    margin: Margin | None
    why: str
    alternatives: tuple[Alternative, ...]
    from_line: float | None = None
    over_spot: OverSpot | None = None


class Step(NamedTuple):
    """One line of shown work, made by the computation itself."""

    part: str  # heading under which it stands
    meaning: str
    equation: str
    inputs: Mapping[str, float | str]
    result: float
    unit: str
    source: str


class CaseName(StrEnum):
    """The load cases."""

    MINIMUM = "minimum"
    CHILD_ALONE = "child alone"
    SERVICE = "service"
    CLIMB = "climb"
    PULL = "pull"
    EARTHQUAKE = "earthquake"

    @property
    def key(self) -> str:
        """What it is called in a job file."""
        return self.value.replace(" ", "_")


class Assumed(StrEnum):
    """What a load case takes in place of a measurement that is not given."""

    DOOR_EDGE = "one door as wide as the appliance"
    FRONT_LEGS = "front legs 3 in behind the front"


class Bearing(NamedTuple):
    """Where the housing bears: out from the wall, and along the boards."""

    out: FrontToBack
    along: Along


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCase:
    """One load case: moments about the front leg line, in-lbf; force and capacity, lbf."""

    TOLD = (
        "name",
        "force",
        "C_D",
        "capacity",
        "utilisation",
        "moments",
        "limited_by",
        "contact",
        "assumed",
    )

    name: CaseName
    force: float
    C_D: float
    capacity: float | None  # None for a soffit or packers: their framing isn't worked out here
    utilisation: float | None
    moments: Mapping[str, float]
    limited_by: Part | None  # what part of the stack sets the capacity
    contact: Bearing | None = None  # the worst pair of force and capacity
    assumed: tuple[Assumed, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """The load cases. ``checked`` is False where weight or doors were not given."""

    TOLD = ("checked", "governs", "cases")

    checked: bool
    governs: CaseName | None
    cases: tuple[LoadCase, ...]
    not_checked: str = ""  # what was missing, in words


class Item(StrEnum):
    """What is bought or cut. A screw is called as at the counter."""

    BOARD = "board"
    PACKER = "packer"
    BLOCKING = "solid blocking"
    WOOD_SCREW = "wood screw"
    LAG_SCREW = "lag screw"
    COACH_SCREW = "coach screw"
    MAKERS_SCREW = "screw"  # with its maker's values; its name says what it is
    WASHER = "washer"
    SHIM = "shim"
    PLATE = "plate"  # under a leg; its size is the corner, its length how thick it is


SCREWS = {
    ScrewKind.WOOD: Item.WOOD_SCREW,
    ScrewKind.LAG: Item.LAG_SCREW,
    ScrewKind.COACH: Item.COACH_SCREW,
    ScrewKind.PUBLISHED: Item.MAKERS_SCREW,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """One line of what to buy or cut for this niche."""

    item: Item
    size: str
    length: float | None
    count: int
    species: str = ""  # or the strength class that the method asks for
    called: str = ""  # by its measured sides, where they are not those of the size

    @property
    def asked_for(self) -> str:
        """The size as it is asked for at the counter."""
        return self.called or self.size


@dataclass(frozen=True, slots=True, kw_only=True)
class Materials:
    """Boards (packers and solid blocking among them) and screws of one niche."""

    boards: tuple[Need, ...]
    screws: tuple[Need, ...]
    washers: tuple[Need, ...] = ()


class Check(NamedTuple):
    """One check of the surroundings: what was asked, what is there, how it stands."""

    name: str
    required: str
    found: str
    verdict: Verdict


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class Plan:
    """Everything worked out for one job, in the order in which the crew works."""

    SCHEMA = "bracecalc plan 1"  # of docs/json.md
    VIEWS: ClassVar[dict[str, Callable[[Plan], str]]] = {}  # bracecalc.api fills it
    TOLD = (
        "schema=SCHEMA",
        "title=job.title",
        "verdict",
        "reach_band",
        "restraint",
        "legs",
        "stack",
        "packers",
        "studs",
        "screws",
        "strength",
        "demand",
        "scheme",
        "open",
        "findings",
        "materials",
        "checks",
    )

    job: Job
    verdict: Verdict
    reach_band: ReachBand
    restraint: Restraint
    legs: Mapping[str, Leg] | None
    support: TopSupport | None  # None where there is no restraint
    demand: Demand
    findings: tuple[Finding, ...]
    materials: Materials
    open: tuple[Open, ...] = ()  # what isn't settled yet
    checks: tuple[Check, ...] = ()
    scheme: Design | None = None
    sensitivity: str = ""
    steps: tuple[Step, ...] = field(default=(), repr=False)  # filled when the work is to be shown

    @property
    def stack(self) -> Stack | None:
        """The boards on the rear wall."""
        return self.support.stack if isinstance(self.support, StackSupport) else None

    @property
    def packers(self) -> Packers | None:
        """The pieces under the soffit."""
        return self.support.packers if isinstance(self.support, PackerSupport) else None

    @property
    def studs(self) -> Studs | None:
        """The framing behind the stack."""
        return self.support.studs if isinstance(self.support, StackSupport) else None

    @property
    def screws(self) -> tuple[ScrewRow, ...]:
        """The screws of the boards or of the packers."""
        return () if self.support is None else self.support.screws

    @property
    def strength(self) -> Strength | None:
        """One screw of the outermost board."""
        return self.support.strength if isinstance(self.support, StackSupport) else None

    def to_dict(self) -> dict[str, Any]:
        """Return the plan as the JSON of docs/json.md: inches and lbf, unrounded."""
        told: dict[str, Any] = plain(self)
        return told

    def rows(self) -> list[dict[str, Any]]:
        """Return the pieces to buy and the places of screws, a row each, for a data frame.

        Lengths in inches, not rounded; a screw's place from the left side of the niche and above
        the underside of its board.
        """
        head = {"title": self.job.title, "verdict": self.verdict.value}
        blank = dict.fromkeys(("what", *ROW_COLUMNS))
        bought = [
            {
                **head, **blank, "what": "buy", "item": need.item, "size": need.size,
                "length_in": need.length, "count": need.count,
            }
            for need in (*self.materials.boards, *self.materials.screws)
        ]  # fmt: skip
        placed = [
            {
                **head, **blank, "what": "screw", "item": f"board {row.board}", "size": row.size,
                "length_in": row.length, "count": 1, "from_left_in": round(across, PLACES),
                "above_underside_in": round(height, PLACES),
            }
            for row in self.screws
            for across, height in sorted(row.positions)
        ]  # fmt: skip
        return bought + placed

    def __repr__(self) -> str:
        target = self.restraint.target_height
        at = "" if target is None else f" at {target:g} in"
        return f"<Plan {self.job.title!r}: {self.verdict}; {self.restraint.kind}{at}>"

    def _repr_html_(self) -> str | None:
        return self._view("html")

    def _repr_svg_(self) -> str | None:
        return self._view("svg")

    def _view(self, form: str) -> str | None:
        view = self.VIEWS.get(form)
        return None if view is None else view(self)
