"""What a job says: the niche, the unit, the lumber, the screws, the rules and the loads.

Lengths are inches, forces and weights pounds-force, heights above the datum of the site.
A reading taken at several points is a tuple, so that the least or the greatest can be used.
Each field that a key of the job file fills is declared with that key.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from enum import StrEnum
from typing import Any, ClassVar

from bracecalc.mechanics.geometry import stack as geometry
from bracecalc.records.bracing import (
    Boards,
    Built,
    CarriedScrew,
    Contact,
    PublishedScrew,
    Rules,
    Screws,
    SetScrew,
    Wiring,
)
from bracecalc.records.keys import (
    Group,
    Key,
    Kind,
    Readings,
    choice_key,
    groups_of,
    record,
    table,
    text_key,
)
from bracecalc.records.loads import Earthquake, Loads, Method
from bracecalc.records.niche import (
    CORNERS,
    Floor,
    Layer,
    Niche,
    Stud,
    StudLayout,
    StudMaterial,
    Wall,
)
from bracecalc.records.reference import Tables
from bracecalc.records.surroundings import Surroundings
from bracecalc.records.unit import Door, Unit

__all__ = [
    "CORNERS",
    "Boards",
    "Built",
    "CarriedScrew",
    "Contact",
    "Door",
    "Earthquake",
    "Floor",
    "Job",
    "Layer",
    "Loads",
    "Method",
    "Niche",
    "PublishedScrew",
    "Readings",
    "Rules",
    "Screws",
    "SetScrew",
    "Stud",
    "StudLayout",
    "StudMaterial",
    "Surroundings",
    "Unit",
    "Units",
    "Wall",
    "Wiring",
    "job_groups",
]


class Units(StrEnum):
    """The system in which bare numbers are read and lengths are shown."""

    INCH = "inch"
    MM = "mm"


class English(StrEnum):
    """Whose words of the trade, and whose spelling, are printed."""

    US = "us"
    UK = "uk"


@record
class Job:
    """One niche, everything read and checked."""

    title: str = text_key("what the niche is called", optional=True, otherwise="the file's name")
    units: Units = choice_key(
        "the system of bare numbers, and of what is printed",
        default=Units.INCH,
        choices=tuple(Units),
        told=True,
    )
    english: English | None = choice_key(
        "whose words and spelling are printed",
        default=None,
        choices=tuple(English),
        otherwise="us in an inch job, uk in a metric one",
    )
    niche: Niche = table(Niche, "the framed recess, finished")
    floor: Floor = table(
        Floor,
        "heights of the floor above the datum; a spot that is left out was not measured: it is "
        "taken as on the datum, and the verdict is provisional",
        default_factory=Floor,
    )
    wall: Wall = table(Wall, "the rear wall")
    unit: Unit = table(Unit, "the appliance, from its sheet")
    boards: Boards = table(Boards, "the lumber of the stack", default_factory=Boards)
    screws: Screws = table(
        Screws,
        "what may be used; the stock table if nothing is carried",
        default_factory=Screws,
    )
    rules: Rules = table(
        Rules,
        "rules of the trade and tolerances; each default is common practice unless said otherwise",
        default_factory=Rules,
    )
    loads: Loads = table(Loads, "what the stack must hold", default_factory=Loads)
    built: Built | None = table(  # None: the plan chooses the restraint
        Built,
        "a restraint that stands already: the plan checks it and chooses nothing",
        default=None,
    )
    tables: Tables | None = table(  # None: bracecalc's own
        None,
        "your own tables laid over those of bracecalc, as docs/tables.md says",
        default=None,
        compare=False,
        repr=False,
        keys=tuple(
            Key(Kind.FILE, f"your own table of {what}", name=name, field=name, default=None)
            for name, what in (
                ("screws", "screws"),
                ("lumber", "board sizes"),
                ("species", "species"),
                ("layers", "wall layers"),
                ("packers", "packers and shims"),
                ("timber-classes", "strength classes"),
            )
        ),
    )
    surroundings: Surroundings = table(
        Surroundings, "all that is not bracing", default_factory=Surroundings, here=True
    )
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
    def words(self) -> English:
        """Whose words are printed: as asked for, or by the units."""
        if self.english is not None:
            return self.english
        return English.UK if self.units is Units.MM else English.US

    @property
    def wiring(self) -> Wiring:
        """Whose wiring rules count: as asked for, or those known of where the job is written."""
        if self.rules.wiring is not None:
            return self.rules.wiring
        if self.english is English.UK:
            return Wiring.BS_7671
        return Wiring.NONE if self.units is Units.MM else Wiring.IRC_NEC

    @property
    def board_wood(self) -> str:
        """What the boards are of: their species, or the strength class that Eurocode 5 asks for."""
        by_class = self.loads.method is Method.EC5
        return self.loads.timber_class if by_class else self.boards.species

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


def job_groups() -> tuple[Group, ...]:
    """Return every table of a job file with its keys.

    >>> [group.path for group in job_groups()][:4]
    ['', 'niche', 'niche.soffit_layers', 'floor']
    """
    return groups_of(Job, what="the niche as a whole")
