"""What all stacks of one make share, whatever their niche.

A building has hundreds of niches and a handful of makes: boards, wall, studs and screws. What a
screw takes for one pound on its stud depends on the make alone.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import count, product
from typing import NamedTuple

from bracecalc.mechanics.nds.spacing import Place, Screw
from bracecalc.records.job import Loads, Method
from bracecalc.records.reference import ScrewSize, Tables
from bracecalc.records.scheme import Backing, Part
from bracecalc.stack import screws as seats
from bracecalc.stack.screws import Choice, Options, Path
from bracecalc.stack.slots import PerPound, Rated, Slot
from bracecalc.stack.studs import BuildUp
from bracecalc.strength import nds, parts
from bracecalc.strength.workings import Workings

ACROSS_GRAIN = 0.05  # E across the grain over E along it, NDS 2018 table 11.3.6 notes, from memory
SILENT = parts.SILENT
PUBLISHED_DURATION = 1.0  # for which a maker's values are given; shorter loads don't raise them


class MakeKey(NamedTuple):
    """Everything that tells one make from another. Inches."""

    tables: Tables
    options: Options
    counterbore: float | None  # that the job asks for; None: any
    thicknesses: tuple[float, ...]
    width: float  # within which all screws stand
    species: str
    stud_species: str
    stud_width: float
    stud_depth: float
    backing: Backing
    build_up: BuildUp
    crushing: float | None
    washer: float
    wanted: float
    under_head: float
    uncertainty: float
    pivot_ease: float
    method: Method
    wet: bool
    temperature: float
    timber_class: str
    gamma_m: float
    taken: tuple[tuple[Screw, Place], ...] = ()  # old holes, each from the centre of a stud


class StackMake:
    """One make of stack: what fixes its boards, what a screw takes for one pound on its stud."""

    def __init__(self, key: MakeKey, loads: Loads) -> None:
        self.key = key
        self.loads = loads
        self.species = key.tables.species[key.species]
        self.stud_species = key.tables.species[key.stud_species]
        self.board_strength = self._board_strength()
        self._groups: list[tuple[Slot, ...]] = []
        self._to_come = self._new_groups()
        self._rated: dict[tuple[int, float], tuple[Rated, ...]] = {}
        self._per_pound: dict[tuple[int, int, float], PerPound] = {}
        self._given: dict[tuple[Choice, tuple[float, ...]], Slot] = {}
        self._numbered = 0

    def path(self, board: int) -> Path:
        """Return what a screw of a board passes through; board 1 is at the wall."""
        key, thicknesses = self.key, self.key.thicknesses
        return Path(
            boards=sum(thicknesses[:board]),
            outer_board=thicknesses[board - 1],
            build_up=key.build_up.thickness,
            gap=key.build_up.gap,
            framing_depth=key.stud_depth,
            wanted=key.wanted,
            washer=key.washer,
            under_head=key.under_head,
        )

    @property
    def outer_path(self) -> Path:
        """What the outermost board's screws pass through."""
        return self.path(len(self.key.thicknesses))

    @property
    def counterbores(self) -> tuple[float, ...]:
        """Counterbores that may be tried, the shallowest first, in."""
        asked = self.key.counterbore
        return seats.COUNTERBORES if asked is None else (asked,)

    def covered(self) -> tuple[tuple[Choice, ...], ...]:
        """Return the ways to fix the covered boards, every family of screws in each of them."""
        return tuple(
            product(
                *(
                    seats.covered_choices(self.path(board), self.key.options)
                    for board in range(1, len(self.key.thicknesses))
                )
            )
        )

    def slot_groups(self) -> Iterator[tuple[Slot, ...]]:
        """Yield the slots in order of effort: fewer screws first, then the shallower counterbore.

        Of one group the sizes come by their shortest screw.
        """
        for index in count():
            group = self._nth(index)
            if group is None:
                return
            yield group

    def rated_groups(self, lever: float) -> Iterator[tuple[Rated, ...]]:
        """Yield the slots that have places, in the same order, rated with their longest screw."""
        for index in count():
            key = index, lever
            rated = self._rated.get(key)
            if rated is None:
                group = self._nth(index)
                if group is None:
                    return
                rated = self._rated[key] = tuple(
                    self._rate(slot, lever) for slot in group if slot.places is not None
                )
            yield rated

    def _rate(self, slot: Slot, lever: float) -> Rated:
        longest = len(slot.seated) - 1
        per = self.per_pound(slot, longest, lever)
        published = slot.seated[longest].candidate.published is not None
        return Rated(slot, per.screws, per.most_lasting, per.most_steady, published)

    def _nth(self, index: int) -> tuple[Slot, ...] | None:
        """Return a group of slots, made when it is first asked for; None after the last."""
        while index >= len(self._groups):
            group = next(self._to_come, None)
            if group is None:
                return None
            self._groups.append(group)
        return self._groups[index]

    def _new_groups(self) -> Iterator[tuple[Slot, ...]]:
        covered = self.covered()
        for rows, way, counterbore in product(seats.ROW_HEIGHTS, covered, self.counterbores):
            yield self._group(rows, way, counterbore)

    def _group(
        self, rows: int, covered: tuple[Choice, ...], counterbore: float
    ) -> tuple[Slot, ...]:
        key = self.key
        crowd = seats.Crowd(
            inner=tuple(seats.as_screw(one.candidate.size, key.backing) for one in covered),
            board_width=key.width,
            stud_width=key.stud_width,
            uncertainty=key.uncertainty,
            backing=key.backing,
            taken=key.taken,
        )
        ends = [seats.distances(one.candidate.size).end for one in covered]
        found = []
        for seated in seats.seated_by_size(self.outer_path, key.options, counterbore):
            size = seated[0].candidate.size
            places = seats.places(rows, size, crowd)
            self._numbered += 1
            found.append(
                Slot(
                    number=self._numbered,
                    size=size,
                    rows=rows,
                    counterbore=counterbore,
                    covered=covered,
                    seated=seated,
                    end=max(seats.distances(size).end, *ends, 0.0),
                    places=places,
                    heights=tuple([height for _, height in (places or ())[:rows]]),
                )
            )
        return tuple(found)

    def given_slot(self, choice: Choice, heights: tuple[float, ...]) -> Slot:
        """Return screws that are in already, in rows at these heights above the underside."""
        key = choice, heights
        if key not in self._given:
            self._numbered += 1
            self._given[key] = Slot(
                number=self._numbered,
                size=choice.candidate.size,
                rows=len(heights),
                counterbore=choice.seat.counterbore,
                covered=(),
                seated=(choice,),
                end=0.0,
                places=tuple((0.0, height) for height in heights),
                heights=heights,
            )
        return self._given[key]

    def one_screw(self, choice: Choice, work: Workings) -> nds.OneScrew:
        """Return what one screw of the outermost board holds in its seat."""
        key, thicknesses = self.key, self.key.thicknesses
        candidate, seat = choice
        if candidate.published is not None:
            thread = min(candidate.thread_length, seat.embedment)
            return nds.published_strength(candidate.published, thread=thread, gap=key.build_up.gap)
        in_place = nds.ScrewInPlace(
            size=candidate.size,
            thread_length=candidate.thread_length,
            embedment=seat.embedment,
            gap=key.build_up.gap,
            wall_board=thicknesses[0]
            if len(thicknesses) > 1
            else thicknesses[0] - seat.counterbore,
            outer_board=thicknesses[-1] - seat.counterbore,
            next_board=thicknesses[-2] if len(thicknesses) > 1 else None,
            board_gravity=self.species.specific_gravity,
            stud_gravity=self.stud_species.specific_gravity,
            wet=key.wet,
            temperature=key.temperature,
            backing=key.backing,
        )
        if key.method is Method.EC5:
            from bracecalc.strength.eurocode5 import ec5_strength

            return ec5_strength(in_place, self.loads, key.tables, work)
        if work.recording:
            return nds.show_nds_strength(in_place, work)
        return nds.nds_strength(in_place)

    def grouped(
        self, one: nds.OneScrew, size: ScrewSize, depths: tuple[float, ...], work: Workings
    ) -> nds.OneScrew:
        """Return the strength of one screw among others in its line."""
        key = self.key
        if key.method is Method.EC5:
            from bracecalc.strength.eurocode5 import group_shares

            share, pulled = group_shares(size, depths, work)
            return one._replace(lateral=one.lateral * share, axial=one.axial * pulled)
        board = key.thicknesses[0]
        share = parts.group_action(
            diameter=size.diameter,
            depths=depths,
            stud_stiffness=self.stud_species.modulus * key.stud_width * key.stud_depth,
            board_stiffness=ACROSS_GRAIN * self.species.modulus * board * key.stud_width,
            work=work,
        )
        return one._replace(lateral=one.lateral * share)

    def depths(self, heights: tuple[float, ...]) -> tuple[float, ...]:
        """Return the depths of rows below the pivot."""
        return parts.row_depths(heights, board_width=self.key.width, pivot_ease=self.key.pivot_ease)

    def per_pound(self, slot: Slot, index: int, out: float) -> PerPound:
        """Return the utilisations for one pound on a stud at a distance out from the wall.

        Args:
            slot: of this make.
            index: of the length among those that sit.
            out: in.
        """
        key = slot.number, index, out
        found = self._per_pound.get(key)
        if found is None:
            found = self._worked_out(slot.seated[index], slot.heights, out)
            self._per_pound[key] = found
        return found

    def _worked_out(self, choice: Choice, heights: tuple[float, ...], out: float) -> PerPound:
        depths = self.depths(heights)
        if max(depths) <= 0.0:  # all of them above the edge that the stack turns about
            return PerPound(math.inf, {}, {}, 0.0, 0.0)
        size = choice.candidate.size
        on_stud = parts.OnStud(1.0, out, self.key.build_up.gap)
        screws = parts.screw_utilisation(
            self.grouped(self.one_screw(choice, SILENT), size, depths, SILENT),
            self.key.method,
            on_stud=on_stud,
            depths=depths,
            duration=1.0,
            work=SILENT,
        )
        steady = dict(self.bearing_uses(size, on_stud, depths, SILENT))
        lasting = {}
        if self.key.method is Method.EC5:  # k_mod goes with compression across the grain too
            lasting[Part.EDGE] = steady.pop(Part.EDGE)
        return PerPound(
            screws,
            lasting,
            steady,
            max(lasting.values(), default=0.0),
            max(steady.values(), default=0.0),
        )

    def bearing_uses(
        self, size: ScrewSize, on_stud: parts.OnStud, depths: tuple[float, ...], work: Workings
    ) -> dict[Part, float]:
        """Return the utilisation of what is pressed: top edge, finish, washer."""
        return dict(
            parts.bearing_utilisations(
                size,
                self.board_strength,
                on_stud=on_stud,
                depths=depths,
                stud_width=self.key.stud_width,
                pivot_ease=self.key.pivot_ease,
                method=self.key.method,
                work=work,
            )
        )

    def _board_strength(self) -> parts.BoardStrength:
        if self.key.method is Method.EC5:
            from bracecalc.strength.eurocode5 import board_strength

            return board_strength(self.loads, self.key.tables, self.key.crushing)
        return parts.BoardStrength(
            bending=self.species.bending,
            shear=self.species.shear,
            crushing=self.key.crushing,
            wet=self.key.wet,
            across=self.species.compression_across,
        )
