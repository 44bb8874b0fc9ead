"""What a plan rests on that nobody has read, and what it leaves to others."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bracecalc.records.job import CORNERS, Job, StudMaterial
from bracecalc.records.open import Open, OpenCode, OpenKind
from bracecalc.records.plan import (
    Check,
    Demand,
    Finding,
    StackSupport,
    TopSupport,
    Verdict,
)
from bracecalc.records.scheme import Backing

# warnings whose answer the plan leaves open
WARNED = {
    "soffit-build-up-not-given": OpenCode.SOFFIT_BUILD_UP,
    "bearing-zone-not-given": OpenCode.BEARING_ZONE,
    "highest-point-meets-soffit": OpenCode.HIGHEST_POINT,
    "bears-outside-zone": OpenCode.OUTSIDE_ZONE,
    "sheet-height-out-of-reach": OpenCode.OTHER_HEIGHT,
    "sheet-height-not-kept": OpenCode.OTHER_HEIGHT,
}


def open_points(
    job: Job,
    support: TopSupport | None,
    demand: Demand,
    findings: Sequence[Finding],
    checks: Sequence[Check],
) -> tuple[Open, ...]:
    """Return what isn't settled yet, what was not measured first.

    Args:
        job: one niche.
        support: what the top bears against.
        demand: the load cases.
        findings: of the whole plan.
        checks: of the surroundings.
    """
    if support is None:
        return tuple(not_measured(job, support))
    return (
        *not_measured(job, support),
        *_not_checked(support, demand),
        *_warned(findings),
        *_not_met(checks),
        *_to_build(job, support),
    )


def not_measured(job: Job, support: TopSupport | None) -> Iterator[Open]:
    """Yield what is assumed in the place of a reading."""
    unread = job.floor.unread
    if unread:
        yield Open(OpenCode.FLOOR, unread if len(unread) < len(CORNERS) else ())
    if job.floor.finish_to_come:
        yield Open(OpenCode.FLOOR_FINISH, amount=job.floor.finish_to_come)
    if job.wall.finish_to_come:
        yield Open(OpenCode.WALL_FINISH, amount=job.wall.finish_to_come)
    if isinstance(support, StackSupport):
        layout = job.wall.stud_layout
        if job.wall.stud.material is StudMaterial.WOOD and job.wall.stud_spots is None:
            yield Open(OpenCode.STUD_SPOTS, amount=None if layout is None else layout.spacing)
    elif support is not None and job.niche.soffit_depth is None:
        yield Open(OpenCode.SOFFIT_DEPTH)


def _not_checked(support: TopSupport, demand: Demand) -> Iterator[Open]:
    if not demand.checked:
        yield Open(OpenCode.TIPPING, (demand.not_checked,))
    if not isinstance(support, StackSupport):
        yield Open(OpenCode.SOFFIT_FRAMING, amount=max(case.force for case in demand.cases))
    if support.screws:
        yield Open(OpenCode.SERVICES, amount=max(row.embedment for row in support.screws))


def _warned(findings: Sequence[Finding]) -> Iterator[Open]:
    codes = [WARNED[one.code] for one in findings if one.code in WARNED]
    yield from (Open(code) for code in dict.fromkeys(codes))


def _not_met(checks: Sequence[Check]) -> Iterator[Open]:
    missed = tuple(check.name for check in checks if check.verdict is Verdict.FAILS)
    if missed:
        yield Open(OpenCode.SURROUNDINGS, missed)


def _to_build(job: Job, support: TopSupport) -> Iterator[Open]:
    if not isinstance(support, StackSupport) or job.wall.blocking:
        return
    few = support.studs is not None and support.studs.sure < 2
    if few or support.stack.backing is Backing.BLOCKING:
        yield Open(OpenCode.BLOCKING)


def worst(bracing: Verdict, still_open: Sequence[Open], checks: Sequence[Check]) -> Verdict:
    """Return what a plan comes to: never kinder than the worst of its parts.

    What rests on a reading that nobody took, or is close elsewhere in the niche, holds only if it
    is measured closely.
    """
    if bracing is not Verdict.HOLDS:
        return bracing
    unread = any(point.code.kind is OpenKind.NOT_MEASURED for point in still_open)
    close = any(check.verdict is Verdict.CLOSE for check in checks)
    return Verdict.CLOSE if unread or close else Verdict.HOLDS
