"""What mends a miss: each change is made to the job and worked out again before it is offered.

A change that leaves the miss, or brings another, is not offered. Efforts rank what a crew has to
do, least first; they are common practice, not a published scale.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from heapq import heappop, heappush
from typing import NamedTuple

from bracecalc.certainty.held import worked_out
from bracecalc.check.changes import STANDING_CODES, changes
from bracecalc.check.heights import Site
from bracecalc.check.needs import needs_of
from bracecalc.planning.bracing import Bracing
from bracecalc.planning.plan import make_plan, overall
from bracecalc.records.actions import Action, ActionKind, FreeLeg, RollOut, ShimGap, TrimOff
from bracecalc.records.job import Job
from bracecalc.records.plan import Finding, PackerSupport, Plan, Severity, StackSupport, Verdict
from bracecalc.records.site import Miss, NewScrews, Remedy
from bracecalc.stack.check import governing
from bracecalc.text.actions import remedy_words
from bracecalc.text.findings import Lengths

MOST_STEPS = 4  # changes that are put together to mend the whole
MOST_TRIED = 24  # states of the job that are looked at for that
BRANCHES = 4  # remedies of one miss that are tried
RANK = {Verdict.HOLDS: 0, Verdict.CLOSE: 1, Verdict.FAILS: 2}


def misses(found: Plan, site: Site, *, planned: Plan) -> tuple[Miss, ...]:
    """Return everything that fails as found, each with all that mends it, least effort first."""
    core, before = worked_out(found.job), failing_codes(planned.findings)
    return tuple(
        Miss(
            finding=one,
            remedies=remedies(found.job, core, one.code, site),
            in_plan=one.code in before,
        )
        for one in found.findings
        if one.severity is Severity.FAILS
    )


def remedies(job: Job, core: Bracing, code: str, site: Site) -> tuple[Remedy, ...]:
    """Return the changes that mend one miss and break nothing else, least effort first.

    Args:
        job: as found.
        core: of that job.
        code: of the finding that fails.
        site: what else is known of the site.
    """
    offered: dict[ActionKind, Remedy] = {}
    for change in sorted(changes(job, core, code, site), key=lambda one: one.effort):
        if change.kind in offered:  # the smallest of its kind mends already
            continue
        after = worked_out(change.job)
        if mends(core, code, after):
            screws = None if after_standing(after) else _new_screws(core, after)
            actions = change.actions
            if site.as_found.unit_in and not set(actions) <= set(_in_front(actions)):
                actions = (RollOut(), *actions)
            offered[change.kind] = Remedy(
                mends=code,
                effort=change.effort,
                actions=actions,
                screws=screws,
                text=remedy_words(job, actions, screws),
                verdict=overall(after, after.findings),
                job=change.job,
                needs=needs_of(change.job, change.actions, after),
                worst_case_margin=_worst_margin(after),
                utilisation=_utilisation(after),
            )
    return tuple(sorted(offered.values(), key=lambda one: (one.effort, RANK[one.verdict])))


def _in_front(actions: Sequence[Action]) -> Iterator[Action]:
    """Yield what can be done with the appliance in its niche."""
    for action in actions:
        if isinstance(action, ShimGap | FreeLeg | TrimOff):
            yield action


def _kind(remedy: Remedy) -> ActionKind:
    """Return what is mainly done; rolling the appliance out is on the way to it."""
    return next(one.kind for one in remedy.actions if not isinstance(one, RollOut))


def _worst_margin(after: Bracing) -> float | None:
    room = after.choice.restraint.margin
    return None if room is None else room.worst_case


def _utilisation(after: Bracing) -> float | None:
    worst = governing(after.demand.cases)
    return None if worst is None else worst.utilisation


def after_standing(after: Bracing) -> bool:
    """Return whether each screw is named by its place already."""
    return isinstance(after.support, StackSupport) and bool(after.support.standing)


def mends(before: Bracing, code: str, after: Bracing) -> bool:
    """Return whether a miss is gone and no other has come."""
    left = failing_codes(after.findings)
    return code not in left and left <= failing_codes(before.findings)


def failing_codes(findings: tuple[Finding, ...]) -> frozenset[str]:
    """Return the codes of what fails."""
    return frozenset(one.code for one in findings if one.severity is Severity.FAILS)


LOST_CODES = (*STANDING_CODES, "screws-not-located", "boards-through-soffit")


def lost(found: Plan) -> tuple[Remedy, ...]:
    """Return what stands and does not hold, as what is to be known before anything is done."""
    lengths = Lengths(found.job)
    return tuple(
        Remedy(
            mends=one.code,
            effort=0,
            actions=(),
            screws=None,
            text=lengths.say("standing.lost", text=one.text).removesuffix("."),
            verdict=found.verdict,
            job=found.job,
        )
        for one in found.findings
        if one.code in LOST_CODES
    )


class _State(NamedTuple):
    """A job with changes made, the one with the least effort of all tried first."""

    effort: int
    number: int  # the first made of equals
    job: Job
    site: Site
    done: tuple[Remedy, ...]


def mend_whole(
    job: Job, site: Site, missed: tuple[Miss, ...]
) -> tuple[tuple[Remedy, ...], Verdict]:
    """Return changes, in order, that together mend what can be mended, and what it then comes to.

    The least effort that does it, of what was tried. Where nothing mends the whole, the changes
    are the most that could be put together.

    Args:
        job: as found.
        site: what else is known of the site.
        missed: what fails there, with what mends each.
    """
    known = {miss.finding.code: miss.remedies for miss in missed}
    waiting, made, tried = [_State(0, 0, job, site, ())], 1, 0
    farthest: tuple[Remedy, ...] = ()
    while waiting and tried < MOST_TRIED:
        state = heappop(waiting)
        tried += 1
        core = worked_out(state.job)
        codes = [one.code for one in core.findings if one.severity is Severity.FAILS]
        if not codes and overall(core, core.findings) is not Verdict.FAILS:
            return state.done, make_plan(state.job).verdict
        if len(state.done) > len(farthest):
            farthest = state.done
        if len(state.done) == MOST_STEPS:
            continue
        for code in dict.fromkeys(codes):
            offered = known.get(code) if not state.done else None
            if offered is None:
                offered = remedies(state.job, core, code, state.site)
            for remedy in offered[:BRANCHES]:
                if _kind(remedy) in {_kind(one) for one in state.done}:
                    continue  # a spot named twice: one change of a kind is made at once
                after = _after(state.job, state.site, remedy)
                effort = state.effort + remedy.effort
                heappush(waiting, _State(effort, made, remedy.job, after, (*state.done, remedy)))
                made += 1
    last = farthest[-1].job if farthest else job
    return farthest, make_plan(last).verdict


def _after(job: Job, site: Site, remedy: Remedy) -> Site:
    """Return what is known of the site once a change is made: a gap that was shimmed is gone."""
    shimmed = job.rules.rear_rise - remedy.job.rules.rear_rise
    return replace(site, gap=max(0.0, site.gap - shimmed)) if shimmed > 0.0 else site


def _new_screws(before: Bracing, after: Bracing) -> NewScrews | None:
    """Return the screws that a change needs, where they are others than before."""
    was = [(row.size, row.length, row.per_stud) for row in before.screws]
    now = [(row.size, row.length, row.per_stud) for row in after.screws]
    if now == was or not now:
        return None
    return NewScrews(after.screws[-1], isinstance(after.support, PackerSupport))
