"""What is said where the stack does not hold, and what would help, each worked out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bracecalc.records.job import Job, Screws
from bracecalc.records.plan import Demand, Finding
from bracecalc.stack import boards as stacking
from bracecalc.stack.check import Setting, StackCheck, governing
from bracecalc.stack.schedule import make_schedule
from bracecalc.stack.studs import usable_length
from bracecalc.text.findings import Lengths, fails, used

LEAST_HELP = 0.01  # of the strength: less is not worth the saying
BLOCKING_PLACES = 4  # screws anywhere along the boards; as many places as two more studs would give


def findings(check: StackCheck, demand: Demand, *, helps: bool) -> tuple[Finding, ...]:
    """Return the finding of a stack whose worst case asks for more than it holds."""
    worst = governing(demand.cases)
    if worst is None or worst.utilisation is None or worst.utilisation <= 1.0 + 1e-9:
        return ()
    lengths = Lengths(check.setting.job)
    offered = list(_helps(check, worst.utilisation)) if helps else []
    if not any(enough for _, enough in offered):
        offered.append(("have an engineer design the restraint", True))
    remedy = "; ".join(words for words, _ in offered)
    return (
        fails(
            "overstressed",
            f"In the {worst.name} case the stack must hold {lengths.force_up(worst.force)}; it "
            f"holds {lengths.force_down(worst.capacity or 0.0)} ({used(worst.utilisation)} used), "
            f"limited by {worst.limited_by}.",
            remedy[0].upper() + remedy[1:] + ".",
        ),
    )


def _helps(check: StackCheck, now: float) -> Iterator[tuple[str, bool]]:
    """Yield each change that lowers the use, in words, and whether it is enough by itself."""
    setting = check.setting
    tables = setting.tables
    for words, changed in _changes(check):
        stack = stacking.build_stack(changed, tables)
        use = _use(setting._replace(job=changed, stack=stack))
        if use is not None and use < now - LEAST_HELP:
            enough = use <= 1.0
            yield f"{words}: {used(use)} used" + ("" if enough else ", not enough"), enough


def _use(setting: Setting) -> float | None:
    worst = governing(make_schedule(StackCheck(setting)).cases)
    return None if worst is None else worst.utilisation


def _changes(check: StackCheck) -> Iterator[tuple[str, Job]]:
    job, tables, stack = check.setting.job, check.setting.tables, check.setting.stack
    wider = stacking.next_wider(tables, stack.board)
    if wider is not None:
        boards = replace(job.boards, size=wider.size, width=None)
        yield f"with {wider.size} boards", replace(job, boards=boards)
    if job.screws.carried or job.screws.published:
        yield "with any stocked screw", replace(job, screws=Screws(washer=job.screws.washer))
    blocked = _with_blocking(check)
    yield "with solid blocking between the studs and screws at four places", blocked
    if wider is not None:
        boards = replace(job.boards, size=wider.size, width=None)
        yield f"with {wider.size} boards on solid blocking", replace(blocked, boards=boards)
    if not job.rules.even_contact:
        rules = replace(job.rules, even_contact=True)
        yield (
            "if the housing is shown to bear evenly front to back (rules.even_contact)",
            replace(job, rules=rules),
        )


def _with_blocking(check: StackCheck) -> Job:
    job, stack = check.setting.job, check.setting.stack
    # places that every screw at hand may take
    sizes = {option.size for option in check.options.screws}
    end = max((check.make.end_distance(size) for size in sizes), default=0.0)
    left, usable = usable_length(stack, end, job.rules.tape_uncertainty)
    step = usable / (BLOCKING_PLACES - 1)
    spots = tuple(left + index * step for index in range(BLOCKING_PLACES))
    return replace(job, wall=replace(job.wall, stud_spots=spots, stud_layout=None))
