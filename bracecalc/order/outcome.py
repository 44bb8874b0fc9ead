"""What one niche comes to and needs, in the names and whole numbers that an order is made of."""

from __future__ import annotations

import math
from collections.abc import Iterator
from enum import StrEnum
from typing import NamedTuple

from bracecalc.planning.materials import materials
from bracecalc.planning.plan import make_bracing
from bracecalc.records.conversions import KG_PER_LB, MM_PER_INCH
from bracecalc.records.job import Job, Method, Units
from bracecalc.records.plan import Item, Need, Packers, PackerSupport, Severity, Verdict
from bracecalc.records.reference import (
    LumberSize,
    PackerKind,
    ScrewKind,
    Species,
    Tables,
    TimberClass,
)
from bracecalc.tables.load import own_files, tables_of
from bracecalc.text.lumber_names import section_name

PER_INCH = 32  # lengths of pieces are added up in 1/32 in
SAME = 1e-6  # in: two readings of one size
# what holds a block between its studs: two screws at each end, common practice
BLOCK_SCREWS = {
    Units.INCH: (ScrewKind.WOOD.value, "10", 3.0),
    Units.MM: (ScrewKind.WOOD.value, "5 mm", 80 / MM_PER_INCH),
}
SCREWS_A_BLOCK = 4


class Use(StrEnum):
    """What a piece is for."""

    BOARD = "board"
    BLOCKING = "solid blocking"
    SPACER = "spacer board"


class Lumber(NamedTuple):
    """What is bought as one: species or class by its table, size, and the measured size if given.

    A metric job calls a size by its millimetres, others by its name in the table.
    """

    species: str
    size: str
    measured: str = ""


class Section(NamedTuple):
    """What some lumber is: inches, and pounds per cubic foot when dry.

    ``table_size`` is its name in the lumber table, by which it may have a price too;
    ``shown`` its species as the job writes it.
    """

    thickness: float
    width: float
    nominal_thickness: float
    nominal_width: float
    density: float
    table_size: str = ""
    shown: str = ""


class Cut(NamedTuple):
    """Pieces cut from sticks; ``length`` in 1/32 in, rounded up."""

    use: Use
    lumber: Lumber
    length: int
    number: int


class Flat(NamedTuple):
    """Pieces of panel or shim: width and length in 1/32 in, rounded up."""

    name: str
    kind: PackerKind
    width: int
    length: int
    number: int


class Screw(NamedTuple):
    """Screws of one kind, size and length in inches."""

    kind: str
    size: str
    length: float
    number: int


class Outcome(NamedTuple):
    """What one niche comes to and needs; small, as it travels between processes."""

    verdict: Verdict
    codes: tuple[str, ...]  # of the findings that fail
    checked: bool  # whether all that tips the unit was worked out
    cuts: tuple[Cut, ...]
    flats: tuple[Flat, ...]
    screws: tuple[Screw, ...]
    washers: tuple[tuple[str, int], ...]  # size of the screw, count
    sections: tuple[tuple[Lumber, Section], ...]
    own: tuple[tuple[str, str], ...] = ()  # the job's own tables: which, and the file


def work_out(job: Job) -> Outcome:
    """Return what one niche comes to and what it needs.

    Raises:
        JobError: if a table that the job names has no row that it asks for.
    """
    tables = tables_of(job)
    verdict, core = make_bracing(job)
    needs = materials(job, core)
    packers = core.support.packers if isinstance(core.support, PackerSupport) else None
    lumber = _Lumber(job, tables)
    cuts: list[Cut] = []
    flats: list[Flat] = []
    blocks = 0
    for need in needs.boards:
        if need.item is Item.PACKER and packers is not None:
            _spacers(need, packers, lumber, cuts, flats)
        else:
            use = Use(need.item)
            blocks += need.count if use is Use.BLOCKING else 0
            cuts.append(Cut(use, lumber.of(need), _units(need.length), need.count))
    return Outcome(
        verdict=verdict,
        codes=tuple(f.code for f in core.findings if f.severity is Severity.FAILS),
        checked=core.demand.checked,
        cuts=tuple(cuts),
        flats=tuple(flats),
        screws=tuple(_screws(needs.screws, BLOCK_SCREWS[job.units], SCREWS_A_BLOCK * blocks)),
        washers=tuple((need.size, need.count) for need in needs.washers),
        sections=tuple(lumber.met.items()),
        own=own_files(tables),
    )


def _units(length: float | None) -> int:
    """Return a length in 1/32 in, rounded up, but not by what a float is off a mark."""
    if length is None:
        raise ValueError("a piece without a length")
    return math.ceil(length * PER_INCH - 1e-6)


def _screws(
    needs: tuple[Need, ...], of_blocks: tuple[str, str, float], fixing: int
) -> Iterator[Screw]:
    kind, size, length = of_blocks
    for need in needs:
        if need.length is None:
            raise ValueError(f"a screw without a length: {need!r}")
        more = 0
        if (need.item, need.size) == (kind, size) and abs(need.length - length) < SAME:
            more, fixing = fixing, 0
        yield Screw(need.item, need.size, need.length, need.count + more)
    if fixing:
        yield Screw(kind, size, length, fixing)


def _spacers(
    need: Need, packers: Packers, lumber: _Lumber, cuts: list[Cut], flats: list[Flat]
) -> None:
    """Put packers down as what they are cut from: sticks, panels, or shims as they come."""
    stock = lumber.tables.packers.get(need.size)
    kind = PackerKind.PIECE if stock is None else stock.kind
    length = _units(packers.length)
    if stock is not None and kind is PackerKind.LUMBER:
        side_by_side, wood = lumber.wide_enough(stock.thickness, packers.depth)
        cuts.append(Cut(Use.SPACER, wood, length, need.count * side_by_side))
    else:
        flats.append(Flat(need.size, kind, _units(packers.depth), length, need.count))


class _Lumber:
    """Names lumber as it is bought, and remembers what it is."""

    def __init__(self, job: Job, tables: Tables) -> None:
        self.job = job
        self.tables = tables
        self.met: dict[Lumber, Section] = {}

    def of(self, need: Need) -> Lumber:
        """Return what a board or a block is bought as."""
        row, boards = self.tables.lumber[need.size], self.job.boards
        size, real = boards.size, row
        if need.item is Item.BOARD and (size is None or row is self.tables.lumber.get(size)):
            real = boards.measured(row)
        return self._named(need.item, need.species, row, (real.thickness, real.width))

    def wide_enough(self, thickness: float, width: float) -> tuple[int, Lumber]:
        """Return how many side by side are wide enough, and the narrowest board that is.

        Raises:
            ValueError: if the lumber table has nothing of that thickness.
        """
        rows = [
            row
            for row in self.tables.lumber.values()
            if abs(row.thickness - thickness) < 1 / 64 and row.width > row.thickness
        ]
        if not rows:
            raise ValueError(f"no lumber {thickness!r} in thick in the table")
        rows.sort(key=lambda row: row.width)
        count = math.ceil(width / rows[-1].width - SAME)
        row = next(row for row in rows if row.width * count >= width - SAME)
        real = row.thickness, row.width
        return count, self._named(Use.SPACER, self.job.board_wood, row, real)

    def _named(self, item: str, shown: str, row: LumberSize, real: tuple[float, float]) -> Lumber:
        by_class = item != Use.BLOCKING and self.job.loads.method is Method.EC5
        wood = self.tables.timber_classes[shown] if by_class else self.tables.species[shown]
        nominal = row.nominal_thickness, row.nominal_width
        thickness, width = real
        same = abs(row.thickness - thickness) < SAME and abs(row.width - width) < SAME
        section = section_name(thickness, width, self.job.units)
        if self.job.units is Units.MM:
            lumber, nominal = Lumber(wood.name, section), real
        else:
            lumber = Lumber(wood.name, row.size, "" if same else section)
        self.met[lumber] = Section(
            thickness, width, *nominal, _density(wood), row.size if same else "", shown
        )
        return lumber


def _density(wood: Species | TimberClass) -> float:
    if isinstance(wood, TimberClass):
        return wood.density * (12 * MM_PER_INCH / 1000) ** 3 / KG_PER_LB
    return wood.density_pcf
