"""What was found on site, and what the check against the plan comes to. Inches, unrounded."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, NamedTuple

from bracecalc.records.actions import Action
from bracecalc.records.job import Built, CarriedScrew, Floor, Job, Layer, Niche, StudMaterial
from bracecalc.records.keys import (
    Within,
    choice_key,
    flag_key,
    length_key,
    record,
    spots_key,
    within_of,
)
from bracecalc.records.plain import plain
from bracecalc.records.plan import (
    MARGIN_TOLD,
    Finding,
    Margin,
    Need,
    Plan,
    ScrewRow,
    StackSupport,
    Verdict,
)
from bracecalc.records.scheme import ScrewState


@dataclass(frozen=True, slots=True)
class Reading:
    """One length, read once or several times.

    >>> reading = Reading((84.25, 84.3125, 84.25))
    >>> round(reading.mean, 4), round(reading.spread, 4), round(reading.uncertainty(0.0625), 4)
    (84.2708, 0.0417, 0.0625)
    """

    pulls: tuple[float, ...]

    @property
    def mean(self) -> float:
        """Mean of the pulls, the value that is used."""
        first = self.pulls[0]
        # equal pulls give that value to the last bit
        return first + math.fsum(pull - first for pull in self.pulls) / len(self.pulls)

    @property
    def spread(self) -> float:
        """Greatest distance of a pull from the mean."""
        return max(abs(pull - self.mean) for pull in self.pulls)

    def uncertainty(self, least: float) -> float:
        """Return the spread, but never less than what the tool is good for."""
        return max(self.spread, least)


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundLayer:
    """One layer of the wall as found, from the room to the studs."""

    material: str
    thickness: Reading


@record
class AsFound:
    """Everything that can be measured on site; what is empty or None was not measured.

    A tuple of readings is one at each point. ``floor`` and ``legs`` go by corner; floor and board
    heights are above the datum, whichever way they were read.
    """

    width: tuple[Reading, ...] = spots_key(
        "width of the niche at each point",
        default=(),
        within=within_of(Niche, "width"),
    )
    depth: tuple[Reading, ...] = spots_key(
        "depth of the niche at each point",
        default=(),
        within=within_of(Niche, "depth"),
    )
    soffit: tuple[Reading, ...] = spots_key(
        "underside of the soffit above the datum at each point",
        default=(),
        within=within_of(Niche, "soffit"),
    )
    floor: Mapping[str, Reading] = spots_key(
        "floor above the datum at each leg spot",
        default_factory=dict,
        within=within_of(Floor, "front_left"),
    )
    path_high: Reading | None = length_key(
        "highest floor on the way in, above the datum",
        default=None,
        within=within_of(Floor, "path_high"),
    )
    stud_spots: tuple[Reading, ...] = spots_key(
        "centre of each stud from the left side of the niche",
        name="studs",
        default=(),
        within=Within(0, 144),
    )
    layers: tuple[FoundLayer, ...] = spots_key(
        "thickness of a layer, from the room to the studs",
        default=(),
        within=within_of(Layer, "thickness"),
    )
    board_left: Reading | None = length_key(
        "underside of the boards above the datum",
        name="board",
        default=None,
        within=within_of(Built, "underside"),
    )
    board_right: Reading | None = None
    projection: tuple[Reading, ...] = spots_key(
        "finished wall to the face of the front board",
        default=(),
        within=Within(0.25, 24),
    )
    fixed: tuple[CarriedScrew, ...] = spots_key(
        "length of the screw in each board that is up, from the wall outward",
        default=(),
        within=within_of(CarriedScrew, "lengths"),
    )
    fixed_at: tuple[Reading, ...] = spots_key(
        "places of the screws that are in, from the left side of the niche",
        default=(),
        within=Within(0, 144),
    )
    board_start: Reading | None = length_key(
        "left end of the boards from the left side of the niche",
        default=None,
        within=Within(0, 144),
    )
    board_length: Reading | None = length_key(
        "length of the boards that are up", default=None, within=Within(8, 144)
    )
    twist: Reading | None = length_key(
        "how much higher the boards' front edge stands than their edge at the wall",
        default=None,
        within=Within(0, 2),
    )
    soffit_solid: bool | None = flag_key("the soffit is solid; no: it is hollow", default=None)
    soffit_depth: Reading | None = length_key(
        "how far the soffit reaches out from the rear wall",
        default=None,
        within=within_of(Niche, "soffit_depth"),
    )
    stud_material: str | None = choice_key(
        "what the studs are found to be",
        name="framing",
        default=None,
        choices=tuple(StudMaterial),
    )
    blocking: bool | None = flag_key("solid blocking stands between the studs", default=None)
    unit_in: bool = flag_key("the appliance stands in the niche already", default=False)
    seized: tuple[str, ...] = spots_key(
        "legs that don't turn, by corner; how far out each is stands in legs",
        default=(),
    )
    trim: bool = flag_key("cover trim is in the way of the boards", default=False)
    screws: tuple[CarriedScrew, ...] = spots_key(  # on the van
        "length of a screw on the van",
        default=(),
        within=within_of(CarriedScrew, "lengths"),
    )
    legs: Mapping[str, float] = spots_key(
        "how far each leg is screwed out now",
        default_factory=dict,
        within=Within(0, 12),
    )

    @property
    def built(self) -> bool:
        """Whether the boards are up."""
        ends = self.board_left or self.board_right
        boards = self.board_start or self.board_length or self.twist
        return bool(ends or boards or self.projection or self.fixed or self.fixed_at)


class LimitKind(StrEnum):
    """What a measurement has room to."""

    LEG_TRAVEL = "leg travel"
    LEG_CARRYING = "leg carrying"
    REACH = "reach of the legs"
    ROLLING_IN = "rolling in"
    UNIT_WIDTH = "width of the appliance"
    UNIT_DEPTH = "depth of the appliance"
    OVERLAP = "overlap wanted"
    BOARD_END = "end distance of the screws"
    EMBEDMENT = "embedment of the screws"
    FAR_SIDE = "far side of the stud"
    STRENGTH = "strength"


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One measurement against the plan.

    ``found`` is None where it was not measured, or where what was found is no length (``note``).
    ``limit`` is what the margin is the room to; no margin where nothing limits it.
    """

    TOLD = (
        "key",
        "name",
        "planned",
        "found",
        "difference",
        "measured",
        "uncertainty",
        "limit",
        *MARGIN_TOLD,
        "verdict",
        "note",
    )

    key: str
    name: str
    planned: float | None
    found: float | None
    uncertainty: float | None
    limit: LimitKind | None
    margin: Margin | None
    verdict: Verdict
    measured: bool
    note: str = ""

    @property
    def difference(self) -> float | None:
        """Found less planned."""
        return None if self.found is None or self.planned is None else self.found - self.planned


@dataclass(frozen=True, slots=True, kw_only=True)
class LegTurn:
    """One leg: how far out at contact, and from where it is now. Negative: screw it in."""

    TOLD = ("extension", "now", "out", "turns", *MARGIN_TOLD, "verdict=margin.verdict")

    extension: float
    now: float | None
    out: float
    turns: float | None
    margin: Margin


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """Where the top touches the restraint, and what a gap at the other end costs.

    ``overlap_left`` is what is left after the rear has risen by the job's own rise and the gap;
    ``overlap_left_shimmed`` with the gap shimmed. None where it can't be worked out.
    """

    height: float
    first_end: str  # "left", "right", or "both"
    gap: float
    shims: tuple[str, ...]
    overlap: float | None
    overlap_left: float | None
    overlap_left_shimmed: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StudReport:
    """Studs found elsewhere: what was met, which old holes are lost, which spots look wrong."""

    planned: tuple[float, ...]
    found: tuple[float, ...]
    lost: tuple[float, ...]  # planned studs whose holes no longer hit wood well enough
    doubtful: tuple[str, ...]  # spots whose distance to the next one is none that is built


class NewScrews(NamedTuple):
    """The screws that the outermost board, or the lowest packer, gets instead of others."""

    row: ScrewRow
    packers: bool


class ChangedScrews(NamedTuple):
    """Screws of one board or packer that are others than planned, once everything is done."""

    row: ScrewRow
    was: ScrewRow | None  # None: the plan has none for it
    packers: bool
    on_hand: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """A change that mends a miss; it was applied to the job and worked out again.

    ``effort`` ranks: 1 is the least. ``job`` is the job with the change made. ``text`` says
    actions and screws in words; nothing is decided by it.
    """

    TOLD = ("mends", "effort", "text", "verdict", "needs", "worst_case_margin", "utilisation")

    mends: str  # code of the finding
    effort: int
    actions: tuple[Action, ...]  # in order
    screws: NewScrews | None  # None: those that it had
    text: str
    verdict: Verdict  # of the bracing once it is made; other misses may be left
    job: Job
    needs: tuple[Need, ...] = ()  # from the truck
    worst_case_margin: float | None = None  # of the restraint's height then, in
    utilisation: float | None = None  # of the stack in its worst case then


@dataclass(frozen=True, slots=True, kw_only=True)
class Miss:
    """Something that fails as found, and every change that mends it, least effort first."""

    TOLD = ("code=finding.code", "text=finding.text", "in_plan", "remedies")

    finding: Finding
    remedies: tuple[Remedy, ...]
    in_plan: bool = False  # the plan fails by it too, whatever was found


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteCheck:
    """As found against the plan: the verdict, what to do, and every point."""

    SCHEMA = "bracecalc check 1"  # of docs/json.md
    TOLD = (
        "schema=SCHEMA",
        "title",
        "verdict",
        "after",
        "todo",
        "changes",
        "misses",
        "points",
        "legs",
        "legs_after",
        "contact",
        "studs",
        "standing",
        "found",
        "mended",
    )

    title: str
    verdict: Verdict
    as_found: AsFound
    job: Job  # with what was found in it
    planned: Plan
    found: Plan
    points: tuple[Point, ...]
    legs: Mapping[str, LegTurn]
    contact: Contact | None
    studs: StudReport | None
    changed_screws: tuple[ChangedScrews, ...]  # what holds, but otherwise than planned
    changes: tuple[str, ...]  # the same in words
    misses: tuple[Miss, ...]
    todo: tuple[Remedy, ...]  # together they mend what can be mended, in this order
    after: Verdict  # of the whole once all of it is done
    mended: Plan  # then
    legs_after: Mapping[str, LegTurn]  # then

    @property
    def standing(self) -> tuple[ScrewState, ...]:
        """The screws of boards that are up, each judged where it is."""
        support = self.found.support
        return support.standing if isinstance(support, StackSupport) else ()

    def to_dict(self) -> dict[str, Any]:
        """Return the check as the JSON of docs/json.md: inches and lbf, unrounded."""
        told: dict[str, Any] = plain(self)
        return told
