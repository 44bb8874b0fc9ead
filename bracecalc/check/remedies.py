"""What mends a miss: each change is made to the job and worked out again before it is offered.

A change that leaves the miss, or brings another, is not offered. Efforts rank what a crew has to
do, least first; they are common practice, not a published scale.
"""

from __future__ import annotations

from dataclasses import replace

from bracecalc.certainty.held import worked_out
from bracecalc.check.changes import changes
from bracecalc.check.heights import Site
from bracecalc.planning.bracing import Bracing
from bracecalc.planning.plan import make_plan, overall
from bracecalc.records.actions import ActionKind
from bracecalc.records.job import Job
from bracecalc.records.plan import Finding, PackerSupport, Plan, Severity, Verdict
from bracecalc.records.site import Miss, NewScrews, Remedy
from bracecalc.text.actions import remedy_words

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
            screws = _new_screws(core, after)
            offered[change.kind] = Remedy(
                mends=code,
                effort=change.effort,
                actions=change.actions,
                screws=screws,
                text=remedy_words(job, change.actions, screws),
                verdict=overall(after, after.findings),
                job=change.job,
            )
    return tuple(sorted(offered.values(), key=lambda one: (one.effort, RANK[one.verdict])))


def mends(before: Bracing, code: str, after: Bracing) -> bool:
    """Return whether a miss is gone and no other has come."""
    left = failing_codes(after.findings)
    return code not in left and left <= failing_codes(before.findings)


def failing_codes(findings: tuple[Finding, ...]) -> frozenset[str]:
    """Return the codes of what fails."""
    return frozenset(one.code for one in findings if one.severity is Severity.FAILS)


class _Search:
    """Puts remedies together, least effort first, within a number of states looked at."""

    def __init__(self) -> None:
        self.tried = 0
        self.farthest: tuple[Remedy, ...] = ()

    def mend(self, job: Job, site: Site, done: tuple[Remedy, ...]) -> tuple[Remedy, ...] | None:
        """Return changes that mend everything; None where none were found."""
        core = worked_out(job)
        self.tried += 1
        codes = [one.code for one in core.findings if one.severity is Severity.FAILS]
        if len(done) > len(self.farthest):
            self.farthest = done
        if not codes and overall(core, core.findings) is not Verdict.FAILS:
            return done
        if len(done) == MOST_STEPS:
            return None
        for code in dict.fromkeys(codes):
            for remedy in remedies(job, core, code, site)[:BRANCHES]:
                if self.tried >= MOST_TRIED:
                    return None
                found = self.mend(remedy.job, _after(job, site, remedy), (*done, remedy))
                if found is not None:
                    return found
        return None


def mend_whole(job: Job, site: Site) -> tuple[tuple[Remedy, ...], Verdict]:
    """Return changes, in order, that together mend what can be mended, and what it then comes to.

    Where nothing mends the whole, the changes are the most that could be put together.
    """
    search = _Search()
    found = search.mend(job, site, ())
    chosen = search.farthest if found is None else found
    last = chosen[-1].job if chosen else job
    return chosen, make_plan(last).verdict


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
