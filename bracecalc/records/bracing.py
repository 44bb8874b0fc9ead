"""What the unit is braced with: boards, screws, the rules of the trade, and what stands already."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum

from bracecalc.records.keys import (
    Kind,
    Readings,
    Within,
    choice_key,
    flag_key,
    force_key,
    key,
    length_key,
    lengths_key,
    name_key,
    record,
    spots_key,
    table,
    text_key,
)
from bracecalc.records.reference import LumberSize, ScrewKind

_SCREW_LENGTH = Within(0.25, 24, usual=(0.75, 16))
_DOUBT = Within(0, 2, usual=(0, 0.5))


class Contact(StrEnum):
    """Where along the boards the housing is found, or set, to bear."""

    BOTH_ENDS = "both ends"  # a strip of paper just drags at both
    ONE_END = "one end"  # a gap of more than 1/32 in was found at the other


class Wiring(StrEnum):
    """Whose rules say where wires and pipes may run in a wall."""

    IRC_NEC = "IRC/NEC"
    BS_7671 = "BS 7671"
    NONE = "none"


@record
class Boards:
    """The lumber of the stack. A measured thickness or width overrides the table's.

    Without a size the plan looks for the cheapest stack that holds.
    """

    size: str | None = name_key(
        "nominal size",
        default=None,
        table="lumber",
        otherwise="the plan chooses the cheapest stack that holds",
    )
    species: str = name_key("species group", default="SPF", table="species", told=True)
    thickness: float | None = length_key(
        "measured thickness, in place of the table's",
        default=None,
        within=Within(0.25, 6, usual=(0.5, 4)),
    )
    width: float | None = length_key(
        "measured width of the board, in place of the table's",
        default=None,
        within=Within(0.75, 16, usual=(1.25, 12)),
    )
    end_gap: float = length_key(
        "from each end of the board to the side of the niche",
        default=0.125,
        within=Within(0, 6, usual=(0, 2)),
    )

    @property
    def chosen(self) -> str:
        """The size, of boards that are planned or stand already.

        Raises:
            ValueError: if the plan has yet to choose it.
        """
        if self.size is None:
            raise ValueError("the size of these boards has not been chosen yet")
        return self.size

    def measured(self, size: LumberSize) -> LumberSize:
        """Return a size of the table with those sides that were measured in their place."""
        if self.thickness is None and self.width is None:
            return size
        return replace(
            size,
            thickness=size.thickness if self.thickness is None else self.thickness,
            width=size.width if self.width is None else self.width,
        )


@record
class CarriedScrew:
    """A screw that the crew has: a size of the table in these lengths."""

    size: str = name_key("size, as in the table of screws", table="screws")
    lengths: tuple[float, ...] = lengths_key("the lengths there are", within=_SCREW_LENGTH)
    thread_length: float | None = length_key(
        "length of the thread, if its maker gives it",
        default=None,
        within=_SCREW_LENGTH,
    )


@record
class PublishedScrew:
    """A screw outside the equations, with its maker's allowable values for this use.

    ``lateral`` and ``pull_through`` are lbf a screw, ``withdrawal`` lbf per inch of thread in
    the stud, for load duration factor 1.0 and with the gap of this wall.
    """

    size: str = text_key("what it is called")
    diameter: float = length_key(
        "diameter of the shank", within=Within(0.05, 1.5, usual=(0.09, 0.75))
    )
    head_diameter: float = length_key(
        "diameter of the head", within=Within(0.05, 4, usual=(0.15, 2))
    )
    length: float = length_key("length under the head", within=_SCREW_LENGTH)
    thread_length: float = length_key("length of the thread", within=_SCREW_LENGTH)
    least_embedment: float = length_key(
        "least length in the stud that the values ask for",
        within=Within(0.25, 24, usual=(0.75, 6)),
    )
    lateral: float = force_key(
        "allowable lateral load of one screw at this gap",
        within=Within(1, 20_000, usual=(20, 2000)),
    )
    withdrawal: float = key(
        Kind.RATE,
        "allowable withdrawal per length of thread",
        within=Within(1, 20_000, usual=(30, 1500)),
    )
    pull_through: float = force_key(
        "allowable head pull-through",
        within=Within(1, 20_000, usual=(20, 3000)),
    )
    largest_gap: float = length_key(
        "largest gap that the values hold for",
        within=Within(0, 6, usual=(0, 3)),
    )
    source: str = text_key("the document that publishes them: number, date, table")


@record
class Screws:
    """What may be used; with nothing carried the stock table is searched."""

    counterbore: float = length_key(
        "how deep the heads are sunk",
        default=0.0,
        within=Within(0, 5, usual=(0, 1.5)),
    )
    washer: float = length_key(
        "thickness of the washer under the head",
        default=0.0,
        within=Within(0, 1, usual=(0, 0.25)),
    )
    carried: tuple[CarriedScrew, ...] = table(
        CarriedScrew, "screws that the crew has", default=(), many=True
    )
    published: tuple[PublishedScrew, ...] = table(
        PublishedScrew,
        "screws outside the equations, with their maker's allowable values for this use",
        default=(),
        many=True,
    )


@record
class Rules:
    """Rules of the trade and tolerances; each default is common practice unless said otherwise."""

    overlap: float = length_key(
        "least overlap of the boards over the appliance",
        default=2.0,
        within=Within(above=0, most=12, usual=(1, 6)),
    )
    overlap_left: float = length_key(
        "least overlap left when the rear has risen",
        default=1.0,
        within=Within(0, 12, usual=(0.5, 6)),
    )
    embedment: float = length_key(
        "least length of a screw in the stud",
        default=1.5,
        within=Within(above=0, most=12, usual=(1, 4)),
    )
    leg_least: float = length_key(
        "least leg extension, just off the rollers",
        default=0.125,
        within=Within(0, 4, usual=(0, 1)),
    )
    roll_in: float = length_key(
        "clearance over the appliance to roll it in",
        default=0.125,
        within=Within(0, 6, usual=(0, 1)),
    )
    rear_rise: float = length_key(
        "how far the rear may rise before the boards hold",
        default=0.125,
        within=Within(0, 4, usual=(0, 1)),
    )
    most_boards: int = key(
        Kind.COUNT,
        "most boards in a stack before it is flagged",
        default=3,
        within=Within(1, 20, usual=(1, 6)),
    )
    under_head: float = length_key(
        "least wood left under a counterbored head",
        default=1.0,
        within=Within(above=0, most=6, usual=(0.5, 3)),
    )
    pivot_ease: float = length_key(
        "taken off the lever arm for eased edge and crushing",
        default=0.25,
        within=Within(above=0, most=6, usual=(0.0625, 1)),
    )
    plate_depth: float = length_key(
        "depth in the stud beyond which wires may run without a steel plate (IRC and NEC)",
        default=1.25,
        within=Within(above=0, most=12, usual=(1, 3)),
    )
    tape_uncertainty: float = length_key(
        "how far a tape reading may be off", default=0.0625, within=_DOUBT
    )
    height_uncertainty: float = length_key(
        "how far a reading over the datum may be off", default=0.125, within=_DOUBT
    )
    rounding: float = length_key(
        "what lengths are rounded to when printed",
        default=0.0625,
        within=Within(0.001, 1, usual=(0.01, 0.25)),
    )
    wiring: Wiring | None = choice_key(
        "whose rules say where wires and pipes may run in the wall",
        default=None,
        choices=tuple(Wiring),
        otherwise="IRC/NEC in an inch job; BS 7671 where english is uk; else none",
    )
    contact: Contact = choice_key(
        "where along the boards the appliance bears: paper drags at both ends, or at one",
        default=Contact.BOTH_ENDS,
        choices=tuple(Contact),
    )
    even_contact: bool = flag_key(
        "the appliance is shown to bear evenly, front to back of the overlap",
        default=False,
    )
    shared_contact: bool = flag_key(
        "all boards of the stack are shown to bear, not the outermost alone",
        default=False,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SetScrew:
    """A screw that is in, or was: ``spot`` is the centre of the stud that it was set out for.

    ``across`` is from that centre to the right, ``above`` from the boards' underside upward.
    """

    board: int  # 1 is at the wall
    kind: ScrewKind
    size: str
    length: float
    counterbore: float
    thread_length: float | None  # None: as its kind has it
    spot: float
    across: float
    above: float
    published: PublishedScrew | None = None  # its maker's values, where it has them
    in_stud_alone: bool = False  # a hole whose board has gone

    @property
    def from_left(self) -> float:
        """Its place from the left side of the niche."""
        return self.spot + self.across


@record
class Built:
    """A restraint that stands already: a plan then checks it and chooses nothing.

    ``underside`` is the lowest measured point over the unit, above the datum. ``boards`` are the
    thicknesses of a rear-wall stack from the wall outward; ``packers`` those of the pieces under a
    soffit. Both empty: the soffit itself. With ``screws`` the boards are judged by those very
    screws; without, the plan chooses them, clear of the ``holes`` that others left behind.
    """

    underside: float = length_key(
        "its lowest measured point over the appliance, above the datum",
        within=Within(12, 240),
    )
    boards: Readings = spots_key(
        "thickness of each board, from the wall outward",
        default=(),
        within=Within(0.25, 6, usual=(0.5, 4)),
    )
    packers: Readings = spots_key(
        "thickness of each packer under the soffit",
        default=(),
        within=Within(above=0, most=12, usual=(0, 4)),
    )
    finish_cut: bool = flag_key(
        "the finish is cut away: the boards stand on the studs", default=False
    )
    blocking: bool = flag_key("the boards' screws are in solid blocking", default=False)
    unlocated: bool = False  # boards are up, and nobody read where their screws are
    rises: float = 0.0  # how much higher its other end stands
    start: float | None = None  # left end of boards that are up, from the left side of the niche
    length: float | None = None  # of boards that are up
    stuck: tuple[tuple[str, float], ...] = ()  # legs that don't turn, and how far out each is
    trim: bool = False  # cover trim stands where the boards reach
    screws: tuple[SetScrew, ...] = field(default=())
    holes: tuple[SetScrew, ...] = field(default=())  # of screws that were backed out
