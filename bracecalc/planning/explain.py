"""The verification again with each step kept: what an engineer checks by hand."""

from __future__ import annotations

from bracecalc.planning.bracing import Bracing
from bracecalc.records.job import Job, Method
from bracecalc.records.plan import LoadCase, Step
from bracecalc.stack.check import Loaded, StackCheck
from bracecalc.strength import parts as verification
from bracecalc.strength.demand import load_cases
from bracecalc.strength.workings import Workings


def shown_steps(job: Job, core: Bracing) -> tuple[Step, ...]:
    """Return the steps for every load case, and for the governing screw in the governing case."""
    work = Workings(recording=True)
    load_cases(job, core.place, work)
    governing = next((case for case in core.demand.cases if case.name == core.demand.governs), None)
    if core.check is not None and core.load is not None and governing is not None:
        _show_stack(core.check, core.load, governing, work)
    return tuple(work.steps)


def _show_stack(check: StackCheck, load: Loaded, case: LoadCase, work: Workings) -> None:
    choice = load.choice
    size = choice.candidate.size
    one = check.make.one_screw(choice.candidate, choice.seat, work)
    arrangement = check.arrangement(size)
    on_stud = verification.stud_load(arrangement, load=case.force, work=work)
    heights = tuple(height for _, height in load.places[: choice.rows])
    depths = check.make.depths(heights)
    one = check.make.grouped(one, size, depths, work)
    verification.screw_utilisation(
        one,
        share=on_stud.share,
        arm=on_stud.arm,
        depths=depths,
        duration=check.screw_duration(choice.candidate, case.name),
        work=work,
    )
    given = check.board_strength()
    if check.setting.job.loads.method is not Method.EC5:
        verification.washer_utilisation(size, given, on_stud=on_stud, depths=depths, work=work)
    verification.edge_utilisation(arrangement, given, on_stud=on_stud, depths=depths, work=work)
    verification.board_utilisations(
        arrangement, given, on_stud=on_stud, heights=heights, duration=case.C_D, work=work
    )
