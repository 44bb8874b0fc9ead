"""How much of each part of a stack one pound of restraint force uses."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from bracecalc import fixing, framing, strength, verification
from bracecalc.demand import Case, load_duration
from bracecalc.mechanics.spacing import Place
from bracecalc.records.job import Job, Method
from bracecalc.records.plan import LoadCase, Stack, Studs
from bracecalc.records.reference import ScrewSize, Tables
from bracecalc.stacking import lumber_of
from bracecalc.workings import Workings

SCREWS = "the screws of the outermost board"
FINISH = "the wall finish under the top edge"
ACROSS_GRAIN = 0.05  # E across the grain over E along it, NDS 2018 table 11.3.6 notes, from memory
SILENT = Workings()


class Setting(NamedTuple):
    """What the schedule of one stack is worked out from."""

    job: Job
    tables: Tables
    stack: Stack
    target: float | None
    cases: tuple[Case, ...]


class StackCheck:
    """Utilisation of one stack for one pound of restraint force and duration factor 1.

    All parts but the finish grow with the force over the duration factor, so that the worst case
    is the greatest of force / duration, and capacities follow by division.
    """

    def __init__(self, setting: Setting) -> None:
        job, tables = setting.job, setting.tables
        self.setting = setting
        self.build_up = framing.build_up(job.wall.layers, job.wall.finish_to_come, tables)
        self.species = tables.species[job.boards.species]
        stud_species = tables.species[job.wall.stud.species]
        self.stud_modulus = stud_species.modulus
        self.stud_gravity = stud_species.specific_gravity
        self.lumber = lumber_of(job, tables)
        self._on_stud: dict[tuple[float, ...], verification.StudLoad] = {}
        self._studs: dict[float, tuple[Studs, tuple[float, ...]]] = {}
        self._arrangements: dict[ScrewSize, verification.Arrangement] = {}
        self._ends: dict[ScrewSize, float] = {}
        self._crowds: dict[ScrewSize, fixing.Crowd | None] = {}
        self._inner: dict[ScrewSize, tuple[fixing.Choice, ...] | None] = {}
        self.options = fixing.options_of(job.screws, tables, job.loads.method)
        self.worst = max(
            (case.force / self.duration(case.name) for case in setting.cases), default=0.0
        )
        self.largest = max((case.force for case in setting.cases), default=0.0)

    def duration(self, case: str) -> float:
        """Return the factor of a case on every strength: C_D, or k_mod in Eurocode 5."""
        if self.setting.job.loads.method is Method.EC5:
            from bracecalc.strength_ec5 import modification

            return modification(self.setting.job, case)
        return load_duration(self.setting.job, case)

    def path(self, board: int) -> fixing.Path:
        """Return what a screw of a board passes through; board 1 is at the wall."""
        job, thicknesses = self.setting.job, self.setting.stack.thicknesses
        return fixing.Path(
            boards=sum(thicknesses[:board]),
            outer_board=thicknesses[board - 1],
            build_up=self.build_up.thickness,
            gap=self.build_up.gap,
            framing_depth=job.wall.stud.depth,
            wanted=job.rules.embedment,
            washer=job.screws.washer,
            under_head=job.rules.under_head,
        )

    def inner(self, size: ScrewSize) -> tuple[fixing.Choice, ...] | None:
        """Return the screws of the covered boards, from the wall outward; None: can't be fixed."""
        if size not in self._inner:
            found = [
                fixing.inner_choice(self.path(board), self.options, like=size)
                for board in range(1, self.setting.stack.boards)
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

    def studs(self, size: ScrewSize) -> tuple[Studs, tuple[float, ...]]:
        """Return the studs met by screws of a size, and the spots by which they are checked."""
        end = self.end_distance(size)
        if end not in self._studs:
            job, stack = self.setting.job, self.setting.stack
            studs = framing.meet_studs(job, stack, end=end, target=self.setting.target)
            self._studs[end] = studs, framing.strength_spots(job, stack, studs, end=end)
        return self._studs[end]

    def crowd(self, size: ScrewSize) -> fixing.Crowd | None:
        """Return what shares a stud with screws of a size in the outermost board.

        None where a covered board can't be fixed, or fewer than two studs are met.
        """
        if size not in self._crowds:
            inner, job = self.inner(size), self.setting.job
            usable = inner is not None and len(self.studs(size)[1]) > 1
            self._crowds[size] = None if inner is None or not usable else fixing.Crowd(
                inner=tuple(fixing.as_screw(one.candidate.size) for one in inner),
                board_height=self.lumber.height,
                stud_width=job.wall.stud.width,
                uncertainty=job.rules.tape_uncertainty,
            )  # fmt: skip
        return self._crowds[size]

    def arrangement(self, size: ScrewSize) -> verification.Arrangement:
        """Return the stack as the load sees it with screws of a size."""
        if size not in self._arrangements:
            self._arrangements[size] = self._arranged(size)
        return self._arrangements[size]

    def _arranged(self, size: ScrewSize) -> verification.Arrangement:
        job, stack = self.setting.job, self.setting.stack
        width = min(job.niche.width)
        left = max(stack.left_end, (width - job.unit.width) / 2.0)
        shared = sum(stack.thicknesses) if job.rules.shared_contact else stack.thicknesses[-1]
        return verification.Arrangement(
            spots=self.studs(size)[1],
            contact_left=left,
            contact_right=width - left,
            projection=stack.projection,
            overlap=stack.overlap,
            board_height=stack.height,
            board_thickness=shared,
            stud_width=job.wall.stud.width,
            pivot_ease=job.rules.pivot_ease,
            board_left=stack.left_end,
            board_right=stack.left_end + stack.length,
            hole=size.diameter,
            even_contact=job.rules.even_contact,
            stud_stiffness=self.stud_modulus * job.wall.stud.width * job.wall.stud.depth,
            board_stiffness=ACROSS_GRAIN
            * self.species.modulus
            * stack.thicknesses[0]
            * job.wall.stud.width,
        )

    def on_stud(self, size: ScrewSize) -> verification.StudLoad:
        """Return what one pound puts on the governing stud."""
        spots = self.studs(size)[1]
        if spots not in self._on_stud:
            arrangement = self.arrangement(size)
            self._on_stud[spots] = verification.stud_load(arrangement, load=1.0, work=SILENT)
        return self._on_stud[spots]

    def one_screw(
        self, candidate: fixing.Candidate, seat: fixing.Seat, work: Workings
    ) -> strength.OneScrew:
        """Return what one screw of the outermost board holds in its seat."""
        job, stack = self.setting.job, self.setting.stack
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
            wall_board=stack.thicknesses[0]
            if stack.boards > 1
            else stack.thicknesses[0] - seat.counterbore,
            outer_board=stack.thicknesses[-1] - seat.counterbore,
            next_board=stack.thicknesses[-2] if stack.boards > 1 else None,
            board_gravity=self.species.specific_gravity,
            stud_gravity=self.stud_gravity,
            wet=job.loads.wet_service,
            temperature=job.loads.temperature,
        )
        if job.loads.method is Method.EC5:
            from bracecalc.strength_ec5 import ec5_strength

            return ec5_strength(in_place, job, self.setting.tables, work)
        if work.recording:
            return strength.show_nds_strength(in_place, work)
        return strength.nds_strength(in_place)

    def use(
        self, candidate: fixing.Candidate, seat: fixing.Seat, heights: tuple[float, ...]
    ) -> float:
        """Return the utilisation of the weakest part of the stack in the worst load case."""
        screws = self.worst * self.screw_use_per_pound(candidate, seat, heights)
        if screws > 1.0:
            return screws
        boards, finish = self.other_uses_per_pound(candidate.size, heights)
        return max(
            screws,
            self.worst * max(boards.values()),
            0.0 if finish is None else self.largest * finish,
        )

    def screw_use_per_pound(
        self, candidate: fixing.Candidate, seat: fixing.Seat, heights: tuple[float, ...]
    ) -> float:
        """Return the utilisation of the screws for one pound and duration factor 1."""
        depths = self.depths(heights)
        one = self.grouped(self.one_screw(candidate, seat, SILENT), candidate.size, depths, SILENT)
        return verification.screw_utilisation(
            one, on_stud=self.on_stud(candidate.size), depths=depths, duration=1.0, work=SILENT
        )

    def grouped(
        self,
        one: strength.OneScrew,
        size: ScrewSize,
        depths: tuple[float, ...],
        work: Workings,
    ) -> strength.OneScrew:
        """Return the strength of one screw among others in its line."""
        if self.setting.job.loads.method is Method.EC5:
            from bracecalc.strength_ec5 import group_shares

            share, pulled = group_shares(size, depths, work)
            return one._replace(lateral=one.lateral * share, axial=one.axial * pulled)
        share = verification.group_action(
            self.arrangement(size), diameter=size.diameter, depths=depths, work=work
        )
        return one._replace(lateral=one.lateral * share)

    def depths(self, heights: tuple[float, ...]) -> tuple[float, ...]:
        """Return the depths of rows below the pivot."""
        return verification.row_depths(
            heights,
            board_height=self.setting.stack.height,
            pivot_ease=self.setting.job.rules.pivot_ease,
        )

    def board_strength(self) -> verification.BoardStrength:
        """Return the strengths of board and finish, psi, before load duration."""
        job, tables = self.setting.job, self.setting.tables
        crushing = tables.layers[job.wall.layers[0].material].crushing if job.wall.layers else None
        if job.loads.method is Method.EC5:
            from bracecalc.strength_ec5 import board_strength

            return board_strength(job, tables, crushing)
        return verification.BoardStrength(
            bending=self.species.bending,
            shear=self.species.shear,
            crushing=crushing,
            wet=job.loads.wet_service,
        )

    def other_uses_per_pound(
        self, size: ScrewSize, heights: tuple[float, ...]
    ) -> tuple[dict[str, float], float | None]:
        """Return the utilisation of board and finish for one pound and duration factor 1."""
        arrangement, on_stud = self.arrangement(size), self.on_stud(size)
        given = self.board_strength()
        boards = verification.board_utilisations(
            arrangement, given, on_stud=on_stud, heights=heights, duration=1.0, work=SILENT
        )
        finish = verification.finish_utilisation(
            arrangement, given, on_stud=on_stud, depths=self.depths(heights), work=SILENT
        )
        return dict(boards), finish

    def search(self) -> tuple[fixing.Choice | None, fixing.Choice | None]:
        """Return the choice that holds, or the strongest."""
        return fixing.search_outer(
            self.path(self.setting.stack.boards),
            self.options,
            counterbore=self.setting.job.screws.counterbore,
            crowd=self.crowd,
            use=self.use,
        )


class Loaded(NamedTuple):
    """A choice with its places on a stud and its uses for one pound."""

    choice: fixing.Choice
    places: tuple[Place, ...]
    uses: dict[str, float]  # grow with force / duration
    finish: float | None  # grows with the force alone


def loaded(check: StackCheck, choice: fixing.Choice) -> Loaded:
    """Return a choice with what one pound does to each part of the stack."""
    crowd = check.crowd(choice.candidate.size)
    found = None if crowd is None else fixing.places(choice.rows, choice.candidate.size, crowd)
    if found is None:
        raise ValueError("a choice must have places")
    heights = tuple(height for _, height in found[: choice.rows])
    boards, finish = check.other_uses_per_pound(choice.candidate.size, heights)
    screws = check.screw_use_per_pound(choice.candidate, choice.seat, heights)
    return Loaded(choice, found, {SCREWS: screws, **boards}, finish)


def judged(check: StackCheck, load: Loaded) -> tuple[LoadCase, ...]:
    """Return each load case with the capacity of the whole stack in it."""
    judged_cases = []
    for case in check.setting.cases:
        duration = check.duration(case.name)
        capacities = {part: duration / use for part, use in load.uses.items() if use > 0.0}
        if load.finish is not None and load.finish > 0.0:
            capacities[FINISH] = 1.0 / load.finish
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
