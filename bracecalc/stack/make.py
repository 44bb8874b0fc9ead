"""What all stacks of one make share, whatever their niche: worked out once and kept.

A building has hundreds of niches and a handful of makes: boards, wall, studs and screws. What a
screw can take for one pound on its stud depends on the make alone.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from bracecalc.mechanics.nds.spacing import Place
from bracecalc.records.job import Job, Layer, Loads, Method, Screws, Stud, StudMaterial
from bracecalc.records.plan import Stack
from bracecalc.records.reference import ScrewSize, Tables
from bracecalc.stack import screws as fixing
from bracecalc.stack import studs as framing
from bracecalc.strength import nds as strength
from bracecalc.strength import parts as verification
from bracecalc.strength.workings import Workings

ACROSS_GRAIN = 0.05  # E across the grain over E along it, NDS 2018 table 11.3.6 notes, from memory
SILENT = Workings()


class MakeKey(NamedTuple):
    """Everything that tells one make from another. Inches."""

    tables: Tables
    options: fixing.Options
    thicknesses: tuple[float, ...]
    board_width: float
    species: str
    layers: tuple[Layer, ...]
    finish_to_come: float
    stud: Stud
    washer: float
    wanted: float
    under_head: float
    uncertainty: float
    pivot_ease: float
    out_from_wall: float  # where the force counts
    method: Method
    wet: bool
    temperature: float
    timber_class: str
    gamma_m: float


class StackMake:
    """One make of stack: what fixes its boards, what a screw takes for one pound on its stud."""

    def __init__(self, key: MakeKey, loads: Loads) -> None:
        self.key = key
        self.loads = loads
        self.options = key.options
        self.build_up = framing.build_up(key.layers, key.finish_to_come, key.tables)
        self.species = key.tables.species[key.species]
        self.stud_species = key.tables.species[key.stud.species]
        self._ends: dict[ScrewSize, float] = {}
        self._crowds: dict[ScrewSize, fixing.Crowd | None] = {}
        self._places: dict[tuple[int, ScrewSize], tuple[Place, ...] | None] = {}
        self._inner: dict[ScrewSize, tuple[fixing.Choice, ...] | None] = {}
        self._uses: dict[tuple[fixing.Candidate, fixing.Seat, tuple[float, ...]], float] = {}

    def path(self, board: int) -> fixing.Path:
        """Return what a screw of a board passes through; board 1 is at the wall."""
        key, thicknesses = self.key, self.key.thicknesses
        return fixing.Path(
            boards=sum(thicknesses[:board]),
            outer_board=thicknesses[board - 1],
            build_up=self.build_up.thickness,
            gap=self.build_up.gap,
            framing_depth=key.stud.depth,
            wanted=key.wanted,
            washer=key.washer,
            under_head=key.under_head,
        )

    def inner(self, size: ScrewSize) -> tuple[fixing.Choice, ...] | None:
        """Return the screws of the covered boards, from the wall outward; None: can't be fixed."""
        if size not in self._inner:
            found = [
                fixing.inner_choice(self.path(board), self.options, like=size)
                for board in range(1, len(self.key.thicknesses))
            ]
            known = tuple(one for one in found if one is not None)
            self._inner[size] = known if len(known) == len(found) else None
        return self._inner[size]

    def end_distance(self, size: ScrewSize) -> float:
        """Return the greatest end distance among the screws that go with a size."""
        if size not in self._ends:
            inner = self.inner(size)
            sizes = [size, *(one.candidate.size for one in (() if inner is None else inner))]
            self._ends[size] = max(fixing.distances(one).end for one in sizes)
        return self._ends[size]

    def crowd(self, size: ScrewSize) -> fixing.Crowd | None:
        """Return what shares a stud with screws of a size; None: a covered board can't be fixed."""
        if size not in self._crowds:
            inner = self.inner(size)
            self._crowds[size] = None if inner is None else fixing.Crowd(
                inner=tuple(fixing.as_screw(one.candidate.size) for one in inner),
                board_width=self.key.board_width,
                stud_width=self.key.stud.width,
                uncertainty=self.key.uncertainty,
            )  # fmt: skip
        return self._crowds[size]

    def places(self, rows: int, size: ScrewSize) -> tuple[Place, ...] | None:
        """Return the places of so many rows on a stud, and of the covered boards' screws."""
        key = rows, size
        if key not in self._places:
            crowd = self.crowd(size)
            self._places[key] = None if crowd is None else fixing.places(rows, size, crowd)
        return self._places[key]

    def one_screw(
        self, candidate: fixing.Candidate, seat: fixing.Seat, work: Workings
    ) -> strength.OneScrew:
        """Return what one screw of the outermost board holds in its seat."""
        key, thicknesses = self.key, self.key.thicknesses
        if candidate.published is not None:
            thread = min(candidate.thread_length, seat.embedment)
            return strength.published_strength(
                candidate.published, thread=thread, gap=self.build_up.gap
            )
        in_place = strength.ScrewInPlace(
            size=candidate.size,
            thread_length=candidate.thread_length,
            embedment=seat.embedment,
            gap=self.build_up.gap,
            wall_board=thicknesses[0]
            if len(thicknesses) > 1
            else thicknesses[0] - seat.counterbore,
            outer_board=thicknesses[-1] - seat.counterbore,
            next_board=thicknesses[-2] if len(thicknesses) > 1 else None,
            board_gravity=self.species.specific_gravity,
            stud_gravity=self.stud_species.specific_gravity,
            wet=key.wet,
            temperature=key.temperature,
        )
        if key.method is Method.EC5:
            from bracecalc.strength.eurocode5 import ec5_strength

            return ec5_strength(in_place, self.loads, key.tables, work)
        if work.recording:
            return strength.show_nds_strength(in_place, work)
        return strength.nds_strength(in_place)

    def grouped(
        self,
        one: strength.OneScrew,
        size: ScrewSize,
        depths: tuple[float, ...],
        work: Workings,
    ) -> strength.OneScrew:
        """Return the strength of one screw among others in its line."""
        if self.key.method is Method.EC5:
            from bracecalc.strength.eurocode5 import group_shares

            share, pulled = group_shares(size, depths, work)
            return one._replace(lateral=one.lateral * share, axial=one.axial * pulled)
        stud, board = self.key.stud, self.key.thicknesses[0]
        share = verification.group_action(
            diameter=size.diameter,
            depths=depths,
            stud_stiffness=self.stud_species.modulus * stud.width * stud.depth,
            board_stiffness=ACROSS_GRAIN * self.species.modulus * board * stud.width,
            work=work,
        )
        return one._replace(lateral=one.lateral * share)

    def depths(self, heights: tuple[float, ...]) -> tuple[float, ...]:
        """Return the depths of rows below the pivot."""
        return verification.row_depths(
            heights,
            board_width=self.key.board_width,
            pivot_ease=self.key.pivot_ease,
        )

    def screw_use(
        self, candidate: fixing.Candidate, seat: fixing.Seat, heights: tuple[float, ...]
    ) -> float:
        """Return the utilisation of the screws for one pound on their stud, duration factor 1."""
        key = candidate, seat, heights
        found = self._uses.get(key)
        if found is None:
            depths = self.depths(heights)
            if max(depths) <= 0.0:  # all of them above the edge that the stack turns about
                return math.inf
            one = self.one_screw(candidate, seat, SILENT)
            found = verification.screw_utilisation(
                self.grouped(one, candidate.size, depths, SILENT),
                share=1.0,
                arm=self.key.out_from_wall,
                depths=depths,
                duration=1.0,
                work=SILENT,
            )
            self._uses[key] = found
        return found


def screws_for(job: Job) -> Screws:
    """Return what may be used in the wall: where it has no wood, a maker's own anchors alone."""
    if job.wall.stud.material is StudMaterial.WOOD:
        return job.screws
    return replace(job.screws, carried=())


def make_of(job: Job, tables: Tables, stack: Stack) -> StackMake:
    """Return the make of a stack."""
    wall, rules, loads = job.wall, job.rules, job.loads
    key = MakeKey(
        tables=tables,
        options=fixing.options_of(screws_for(job), tables, loads.method),
        thicknesses=stack.thicknesses,
        board_width=stack.width,
        species=job.boards.species,
        layers=wall.layers,
        finish_to_come=wall.finish_to_come,
        stud=wall.stud,
        washer=job.screws.washer,
        wanted=rules.embedment,
        under_head=rules.under_head,
        uncertainty=rules.tape_uncertainty,
        pivot_ease=rules.pivot_ease,
        out_from_wall=verification.out_from_wall(
            projection=stack.projection, overlap=stack.overlap, even_contact=rules.even_contact
        ),
        method=loads.method,
        wet=loads.wet_service,
        temperature=loads.temperature,
        timber_class=loads.timber_class,
        gamma_m=loads.gamma_m,
    )
    return _kept(key, _Companion(loads))


class _Companion:
    """Loads beside the key: what the make uses of them is in the key already."""

    __slots__ = ("loads",)

    def __init__(self, loads: Loads) -> None:
        self.loads = loads

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Companion)

    def __hash__(self) -> int:
        return 0


@lru_cache(maxsize=256)
def _kept(key: MakeKey, companion: _Companion) -> StackMake:
    return StackMake(key, companion.loads)
