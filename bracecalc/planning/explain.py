"""The verification again with each step kept: what an engineer checks by hand."""

from __future__ import annotations

from bracecalc.planning.bearing import place_of
from bracecalc.planning.bracing import Bracing
from bracecalc.records.job import Job
from bracecalc.records.plan import LoadCase, Step
from bracecalc.stack.boards import out_from_wall
from bracecalc.stack.check import Held, StackCheck, duration_factor
from bracecalc.stack.make import PUBLISHED_DURATION
from bracecalc.strength import parts
from bracecalc.strength.demand import load_cases
from bracecalc.strength.workings import Workings


def shown_steps(job: Job, core: Bracing) -> tuple[Step, ...]:
    """Return the steps for every load case, and for the governing screw in the governing case."""
    work = Workings(recording=True)
    governing = next((case for case in core.demand.cases if case.name == core.demand.governs), None)
    place = core.place
    if core.check is not None:
        out = core.check.out
        if governing is not None and governing.contact is not None:
            out = governing.contact.out
        place = place_of(job, core.check.niche.stack.overlap, out, place.extension)
    load_cases(job, place, work)
    if core.check is not None and core.held is not None and governing is not None:
        _show_stack(core.check, core.held, governing, work)
    return tuple(work.steps)


def _show_stack(check: StackCheck, held: Held, case: LoadCase, work: Workings) -> None:
    make, slot, niche = check.make, held.slot, check.niche
    if case.contact is None:
        raise ValueError("a judged case has its contact")
    parts.show_actions(held.counted.supports, check.overlap, work)
    duration = duration_factor(niche.job, case.name)
    on_screws = duration
    if held.choice.candidate.published is not None:
        on_screws = min(duration, PUBLISHED_DURATION)
    depths = make.depths(slot.heights)
    one = make.grouped(make.one_screw(held.choice, work), slot.size, depths, work)
    on_stud = parts.OnStud(
        case.force * held.counted.share,
        out_from_wall(niche.stack, case.contact.out),
        make.key.build_up.gap,
    )
    parts.screw_utilisation(
        one, make.key.method, on_stud=on_stud, depths=depths, duration=on_screws, work=work
    )
    make.bearing_uses(slot.size, on_stud, depths, work)
    board = check.board(slot)
    parts.bending_utilisation(
        board,
        make.board_strength,
        moment=case.force * held.counted.moment,
        heights=slot.heights,
        duration=duration,
        work=work,
    )
    for support in held.counted.supports:
        parts.splitting_capacity(
            board,
            make.board_strength,
            support=support,
            heights=slot.heights,
            duration=duration,
            work=work,
        )
