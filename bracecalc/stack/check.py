"""How much of each part of a stack one pound of restraint force uses."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from bracecalc.mechanics.nds.spacing import Place
from bracecalc.records.job import Job, Method
from bracecalc.records.plan import CaseName, LoadCase, Stack, Studs
from bracecalc.records.reference import ScrewSize, Tables
from bracecalc.records.scheme import Part
from bracecalc.stack import screws as fixing
from bracecalc.stack import studs as framing
from bracecalc.stack.make import SILENT, make_of
from bracecalc.strength import parts as verification
from bracecalc.strength.demand import Case, load_duration

Uses = tuple[dict[Part, float], dict[Part, float]]
PUBLISHED_DURATION = 1.0  # for which a maker's values are given; shorter loads don't raise them


class Setting(NamedTuple):
    """What the schedule of one stack is worked out from."""

    job: Job
    tables: Tables
    stack: Stack
    target: float | None
    cases: tuple[Case, ...]


def duration_factor(job: Job, case: CaseName) -> float:
    """Return the factor of a load case on every strength: C_D, or k_mod in Eurocode 5."""
    if job.loads.method is Method.EC5:
        from bracecalc.strength.eurocode5 import modification

        return modification(job, case)
    return load_duration(job, case)


class StackCheck:
    """Utilisation of one stack for one pound of restraint force and duration factor 1.

    All parts but what bears on the wall grow with the force over the duration factor, so that the
    worst case is the greatest of force / duration, and capacities follow by division.
    """

    def __init__(self, setting: Setting) -> None:
        job, tables = setting.job, setting.tables
        self.setting = setting
        self.make = make_of(job, tables, setting.stack)
        self._on_spots: dict[tuple[float, ...], verification.StudLoad] = {}
        self._on_stud: dict[ScrewSize, verification.StudLoad] = {}
        self._spots_at: dict[float, tuple[float, ...]] = {}  # by end distance
        self._spots: dict[ScrewSize, tuple[float, ...]] = {}
        self._others: dict[tuple[ScrewSize, tuple[float, ...]], Uses] = {}
        self._arrangements: dict[ScrewSize, verification.Arrangement] = {}
        self.options = self.make.options
        self._given: verification.BoardStrength | None = None
        self.worst = self._worst(most=math.inf)
        self.worst_published = self._worst(most=PUBLISHED_DURATION)
        self.largest = max((case.force for case in setting.cases), default=0.0)

    def duration(self, case: CaseName) -> float:
        """Return the factor of a case on every strength: C_D, or k_mod in Eurocode 5."""
        return duration_factor(self.setting.job, case)

    def screw_duration(self, candidate: fixing.Candidate, case: CaseName) -> float:
        """Return the factor of a case on a screw; a maker's values are not raised by it."""
        duration = self.duration(case)
        return duration if candidate.published is None else min(duration, PUBLISHED_DURATION)

    def _worst(self, *, most: float) -> float:
        forces = (case.force / min(self.duration(case.name), most) for case in self.setting.cases)
        return max(forces, default=0.0)

    def path(self, board: int) -> fixing.Path:
        """Return what a screw of a board passes through; board 1 is at the wall."""
        return self.make.path(board)

    def inner(self, size: ScrewSize) -> tuple[fixing.Choice, ...] | None:
        """Return the screws of the covered boards, from the wall outward; None: can't be fixed."""
        return self.make.inner(size)

    def studs(self, size: ScrewSize) -> Studs:
        """Return the studs met by screws of a size."""
        job, stack = self.setting.job, self.setting.stack
        end = self.make.end_distance(size)
        return framing.meet_studs(job, stack, end=end, target=self.setting.target)

    def spots(self, size: ScrewSize) -> tuple[float, ...]:
        """Return the spots by which a stack with screws of a size is checked."""
        found = self._spots.get(size)
        if found is None:
            found = self._spots[size] = self._spots_from(self.make.end_distance(size))
        return found

    def _spots_from(self, end: float) -> tuple[float, ...]:
        if end not in self._spots_at:
            job, stack = self.setting.job, self.setting.stack
            self._spots_at[end] = framing.strength_spots(job, stack, end=end)
        return self._spots_at[end]

    def places(self, rows: int, size: ScrewSize) -> tuple[Place, ...] | None:
        """Return the places of so many rows of a size on a stud, and of what is covered.

        None where they have no room, a covered board can't be fixed, or fewer than two studs are
        met.
        """
        spots = self._spots.get(size)
        if spots is None:
            spots = self.spots(size)
        return self.make.places(rows, size) if len(spots) > 1 else None

    def arrangement(self, size: ScrewSize) -> verification.Arrangement:
        """Return the stack as the load sees it with screws of a size."""
        if size not in self._arrangements:
            self._arrangements[size] = self._arranged(size)
        return self._arrangements[size]

    def _arranged(self, size: ScrewSize) -> verification.Arrangement:
        job, stack = self.setting.job, self.setting.stack
        width = job.niche.narrowest
        left = max(stack.left_end, (width - job.unit.width) / 2.0)
        shared = sum(stack.thicknesses) if job.rules.shared_contact else stack.thicknesses[-1]
        return verification.Arrangement(
            spots=self.spots(size),
            contact_left=left,
            contact_right=width - left,
            projection=stack.projection,
            overlap=stack.overlap,
            board_width=stack.width,
            board_thickness=shared,
            stud_width=job.wall.stud.width,
            pivot_ease=job.rules.pivot_ease,
            board_left=stack.left_end,
            board_right=stack.left_end + stack.length,
            hole=size.diameter,
            even_contact=job.rules.even_contact,
        )

    def on_stud(self, size: ScrewSize) -> verification.StudLoad:
        """Return what one pound puts on the governing stud."""
        found = self._on_stud.get(size)
        if found is None:
            spots = self.spots(size)
            if spots not in self._on_spots:
                arrangement = self.arrangement(size)
                self._on_spots[spots] = verification.stud_load(arrangement, load=1.0, work=SILENT)
            found = self._on_stud[size] = self._on_spots[spots]
        return found

    def use(
        self, candidate: fixing.Candidate, seat: fixing.Seat, heights: tuple[float, ...]
    ) -> float:
        """Return the utilisation of the weakest part of the stack in the worst load case."""
        worst = self.worst if candidate.published is None else self.worst_published
        on_stud = self._on_stud.get(candidate.size)
        if on_stud is None:
            on_stud = self.on_stud(candidate.size)
        screws = worst * (on_stud.share * self.make.screw_use(candidate, seat, heights))
        if screws > 1.0:
            return screws
        lasting, steady = self.other_uses_per_pound(candidate.size, heights)
        return max(
            screws,
            self.worst * max(lasting.values()),
            self.largest * max(steady.values(), default=0.0),
        )

    def screw_use_per_pound(
        self, candidate: fixing.Candidate, seat: fixing.Seat, heights: tuple[float, ...]
    ) -> float:
        """Return the utilisation of the screws for one pound and duration factor 1."""
        share = self.on_stud(candidate.size).share
        return share * self.make.screw_use(candidate, seat, heights)

    def board_strength(self) -> verification.BoardStrength:
        """Return the strengths of board and finish, psi, before load duration."""
        if self._given is None:
            self._given = self._board_strength()
        return self._given

    def _board_strength(self) -> verification.BoardStrength:
        job, tables = self.setting.job, self.setting.tables
        crushing = tables.layers[job.wall.layers[0].material].crushing if job.wall.layers else None
        if job.loads.method is Method.EC5:
            from bracecalc.strength.eurocode5 import board_strength

            return board_strength(job.loads, tables, crushing)
        return verification.BoardStrength(
            bending=self.make.species.bending,
            shear=self.make.species.shear,
            crushing=crushing,
            wet=job.loads.wet_service,
            across=self.make.species.compression_across,
        )

    def other_uses_per_pound(self, size: ScrewSize, heights: tuple[float, ...]) -> Uses:
        """Return the utilisation of board and finish for one pound.

        First the parts whose strength goes with the duration of the load, for factor 1; then those
        whose strength doesn't: the NDS raises no compression across the grain, nor a finish.
        """
        key = size, heights
        found = self._others.get(key)
        if found is None:
            found = self._others[key] = self._other_uses(size, heights)
        return found

    def _other_uses(self, size: ScrewSize, heights: tuple[float, ...]) -> Uses:
        arrangement, on_stud = self.arrangement(size), self.on_stud(size)
        given = self.board_strength()
        boards = verification.board_utilisations(
            arrangement, given, on_stud=on_stud, heights=heights, duration=1.0, work=SILENT
        )
        depths = self.make.depths(heights)
        finish = verification.finish_utilisation(
            arrangement, given, on_stud=on_stud, depths=depths, work=SILENT
        )
        edge = verification.edge_utilisation(
            arrangement, given, on_stud=on_stud, depths=depths, work=SILENT
        )
        lasting, steady = dict(boards), {} if finish is None else {Part.FINISH: finish}
        bearing = lasting if self.setting.job.loads.method is Method.EC5 else steady
        bearing[Part.EDGE] = edge
        if self.setting.job.loads.method is not Method.EC5:  # there it is in the pull-through
            washer = verification.washer_utilisation(
                size, given, on_stud=on_stud, depths=depths, work=SILENT
            )
            steady.update({Part.WASHER: washer} if washer > 0.0 else {})
        return lasting, steady

    def search(self) -> tuple[fixing.Choice | None, fixing.Choice | None]:
        """Return the choice that holds, or the strongest."""
        return fixing.search_outer(
            self.path(self.setting.stack.boards),
            self.options,
            counterbore=self.setting.job.screws.counterbore,
            places_of=self.places,
            use=self.use,
        )


class Loaded(NamedTuple):
    """A choice with its places on a stud and its uses for one pound."""

    choice: fixing.Choice
    places: tuple[Place, ...]
    uses: dict[Part, float]  # grow with force / duration
    steady: dict[Part, float]  # grow with the force alone


def loaded(check: StackCheck, choice: fixing.Choice) -> Loaded:
    """Return a choice with what one pound does to each part of the stack."""
    found = check.places(choice.rows, choice.candidate.size)
    if found is None:
        raise ValueError("a choice must have places")
    heights = tuple(height for _, height in found[: choice.rows])
    lasting, steady = check.other_uses_per_pound(choice.candidate.size, heights)
    screws = check.screw_use_per_pound(choice.candidate, choice.seat, heights)
    return Loaded(choice, found, {Part.SCREWS: screws, **lasting}, steady)


def judged(check: StackCheck, load: Loaded) -> tuple[LoadCase, ...]:
    """Return each load case with the capacity of the whole stack in it."""
    judged_cases = []
    for case in check.setting.cases:
        duration = check.duration(case.name)
        on_screws = check.screw_duration(load.choice.candidate, case.name)
        capacities = {
            part: (on_screws if part == Part.SCREWS else duration) / use
            for part, use in load.uses.items()
            if use > 0.0
        }
        capacities.update({part: 1.0 / use for part, use in load.steady.items() if use > 0.0})
        part = min(capacities, key=capacities.__getitem__)
        judged_cases.append(
            LoadCase(
                name=case.name,
                force=case.force,
                C_D=duration,
                capacity=capacities[part],
                utilisation=case.force / capacities[part],
                moments=case.moments,
                limited_by=part,
            )
        )
    return tuple(judged_cases)


def governing(cases: Sequence[LoadCase]) -> LoadCase | None:
    """Return the case with the greatest utilisation, the first of equals."""
    rated = [case for case in cases if case.utilisation is not None]
    return max(rated, key=lambda case: case.utilisation or 0.0, default=None)
