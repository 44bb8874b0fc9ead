"""One job to one plan, told in the order in which the crew works."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from bracecalc.jobfile.numbers import looked_over
from bracecalc.mechanics.statics.contact import FrontToBack
from bracecalc.planning import bearing as gaps
from bracecalc.planning import packers as packing
from bracecalc.planning import reach
from bracecalc.planning.bearing import place_of
from bracecalc.planning.bracing import Bracing
from bracecalc.planning.design import designed, site_of
from bracecalc.planning.explain import shown_steps
from bracecalc.planning.materials import materials
from bracecalc.planning.open import not_measured, open_points, worst
from bracecalc.planning.options import Choice
from bracecalc.planning.restraint import choose_restraint
from bracecalc.planning.services import services_findings
from bracecalc.planning.unusual import unusual_findings
from bracecalc.records.job import Job
from bracecalc.records.plan import (
    Demand,
    Finding,
    Leg,
    LoadCase,
    Materials,
    PackerSupport,
    Plan,
    ReachBand,
    RestraintKind,
    Severity,
    SoffitSupport,
    StackSupport,
    TopSupport,
    Verdict,
)
from bracecalc.records.reference import Tables
from bracecalc.stack import advice, schedule
from bracecalc.stack import boards as stacking
from bracecalc.stack import studs as framing
from bracecalc.stack.check import duration_factor, governing
from bracecalc.stack.make import SILENT
from bracecalc.stack.studs import wall_findings
from bracecalc.strength.demand import Cases, load_cases
from bracecalc.surroundings.opening import check_surroundings
from bracecalc.tables.load import tables_of
from bracecalc.text.findings import Lengths, fails, joined, notes, warns


def brace(job: Job, tables: Tables, *, helps: bool = True, alternatives: bool = False) -> Bracing:
    """Return the bracing of a niche: restraint, stack, studs, screws, legs, strength.

    Args:
        job: one niche.
        tables: reference tables.
        helps: work out what would help where the stack is overstressed.
        alternatives: work out the schemes that cost more than the one chosen too.
    """
    band = reach.reach_band(job)
    choice = choose_restraint(job, tables, band)
    target, kind = choice.restraint.target_height, choice.restraint.kind
    legs = None if target is None else reach.legs_at(job, target)
    if kind is RestraintKind.STACK:
        return _brace_by_stack(job, tables, band, choice, helps=helps, whole=alternatives)
    overlap = gaps.soffit_overlap(job, choice.packers)
    # a soffit over the whole top is met at the housing's rear first: the least overlap counts
    bearing = job.rules.overlap if choice.packers is None else max(job.rules.overlap, overlap)
    place = place_of(job, bearing, FrontToBack.MIDDLE, _extension(legs))
    cases = load_cases(job, place, SILENT)
    demand = _unjudged(job, cases)
    findings = [*stacking.fit_findings(job), *choice.findings]
    support: TopSupport | None = None
    if choice.packers is not None:
        screws, said = packing.packer_screws(job, tables, choice.packers)
        findings.extend(said)
        support = PackerSupport(
            packers=choice.packers,
            overlap=overlap,
            overlap_known=job.built is None,
            screws=screws,
        )
    elif kind is RestraintKind.SOFFIT:
        support = SoffitSupport(overlap=overlap)
    if support is not None:
        findings.extend(gaps.contact_findings(job, target))
        findings.extend(gaps.gap_findings(job, support, place))
        findings.extend(_framing_answers(job, demand))
        findings.extend(_common_findings(job, demand, support))
    return Bracing(
        band=band,
        choice=choice,
        legs=legs,
        support=support,
        demand=demand,
        findings=tuple(findings),
        place=place,
    )


def _brace_by_stack(
    job: Job,
    tables: Tables,
    band: ReachBand,
    choice: Choice,
    *,
    helps: bool,
    whole: bool,
) -> Bracing:
    site = site_of(job, tables, band, choice)
    design, chosen = designed(site, helps=helps, whole=whole)
    check, held, stack = chosen.check, chosen.held, chosen.check.niche.stack
    if job.boards.size is None and job.built is None:  # its width may ask for another height
        boards = replace(job.boards, size=stack.board)
        choice = choose_restraint(replace(job, boards=boards), tables, band)
    target = choice.restraint.target_height
    legs = None if target is None else reach.legs_at(job, target)
    place = place_of(job, stack.overlap, FrontToBack.MIDDLE, _extension(legs))
    stood = chosen.stood
    if stood is not None:
        found = schedule.standing_schedule(stood, target)
    elif held is None or not chosen.scheme.per_place or wall_findings(job, tables):
        found = schedule.studs_alone(check, target)
        said = advice.no_screws(site, chosen, design) if not wall_findings(job, tables) else ()
        said = (*framing.stud_findings(job, found.studs, stack.backing), *said)
        found = found._replace(findings=said)
        held = None
    else:
        found = schedule.make_schedule(check, held, target)
    cases = check.niche.demand[check.out]
    demand = _judged(cases, found.cases) if found.cases else _unjudged(job, cases)
    support = StackSupport(
        stack=stack,
        studs=found.studs,
        screws=found.rows,
        strength=found.strength,
        standing=() if stood is None else stood.states,
    )
    findings = [
        *stacking.fit_findings(job),
        *choice.findings,
        *gaps.contact_findings(job, target),
        *stacking.stack_findings(job, stack),
        *found.findings,
        *gaps.gap_findings(job, support, place),
        *advice.overstressed(site, design, demand, helps=helps),
        *_common_findings(job, demand, support),
    ]
    return Bracing(
        band=band,
        choice=choice,
        legs=legs,
        support=support,
        demand=demand,
        findings=tuple(findings),
        place=place,
        design=design,
        check=check,
        held=held,
    )


def make_plan(job: Job, *, show_work: bool = False, alternatives: bool = False) -> Plan:
    """Return the whole plan of one job.

    Args:
        job: one niche, heights above the datum; numbers in inches and lbf, or pint quantities.
        show_work: keep each step of the verification in ``plan.steps``.
        alternatives: work out the schemes that cost more than the one chosen too.

    Returns:
        The plan, unrounded, in inches and lbf.

    Raises:
        JobError: if a table that the job names has no row that it asks for, a quantity has the
            wrong dimension, or a number is past what can be.
        ValueError: if a number in the job is NaN or an infinity.

    >>> from bracecalc.jobfile.read import read_job
    >>> from bracecalc.data import demo_path
    >>> plan = make_plan(read_job(demo_path("3b-kitchen.toml")))
    >>> plan.restraint.kind.value, plan.stack.boards
    ('stack', 2)
    """
    job, odd = looked_over(job)
    tables = tables_of(job)
    core = brace(job, tables, alternatives=alternatives)
    support = core.support
    checks, said = check_surroundings(job, behind_stack=_behind_stack(core))
    borne = gaps.bearing_findings(job, support)
    findings = _sorted((*core.findings, *said, *borne, *unusual_findings(odd, job.units)))
    if any(finding.severity is Severity.FAILS for finding in findings):
        findings = _with_fixes(job, tables, core, findings)
    still_open = open_points(job, support, core.demand, findings, checks)
    return Plan(
        job=job,
        verdict=worst(overall(core, findings), still_open, checks),
        reach_band=core.band,
        restraint=core.choice.restraint,
        legs=core.legs,
        support=support,
        demand=core.demand,
        findings=findings,
        materials=materials(job, core),
        open=still_open,
        checks=checks,
        scheme=core.design,
        sensitivity="",
        steps=shown_steps(job, core) if show_work else (),
    )


def _with_fixes(
    job: Job, tables: Tables, core: Bracing, findings: tuple[Finding, ...]
) -> tuple[Finding, ...]:
    """Return findings with what was planned again for them; loaded only where a plan fails."""
    from bracecalc.planning.remedies import with_fixes

    def again(changed: Job) -> tuple[Bracing, Verdict]:
        bracing = brace(changed, tables, helps=False)
        return bracing, overall(bracing, bracing.findings)

    return with_fixes(job, tables, core, findings, again)


def make_bracing(job: Job) -> tuple[Verdict, Bracing]:
    """Return verdict and bracing alone: what a takeoff over many niches is made of.

    The verdict is the plan's, and the findings those of the surroundings too.
    """
    core = brace(job, tables_of(job), helps=False)
    checks, said = check_surroundings(job, behind_stack=_behind_stack(core))
    core = core._replace(findings=(*core.findings, *said))
    unread = tuple(not_measured(job, core.support))
    return worst(overall(core, core.findings), unread, checks), core


def _behind_stack(core: Bracing) -> tuple[float, float] | None:
    """Return underside and top of the boards above the datum; None where there are none."""
    low = core.choice.restraint.target_height
    if low is None or not isinstance(core.support, StackSupport):
        return None
    return low, low + core.support.stack.width


def make_materials(job: Job) -> tuple[Verdict, Materials, tuple[Finding, ...]]:
    """Return verdict, materials and findings alone."""
    verdict, core = make_bracing(job)
    return verdict, materials(job, core), core.findings


def overall(core: Bracing, findings: tuple[Finding, ...]) -> Verdict:
    """Return what a bracing comes to as read: failing findings first, then the closest margin."""
    if any(finding.severity is Severity.FAILS for finding in findings):
        return Verdict.FAILS
    margins = [core.choice.restraint.margin]
    if core.legs is not None:
        margins.extend(leg.margin for leg in core.legs.values())
    if isinstance(core.support, StackSupport):
        margins.append(core.support.stack.overlap_margin)
    verdicts = {margin.verdict for margin in margins if margin is not None}
    if isinstance(core.support, StackSupport) and any(one.close for one in core.support.standing):
        verdicts.add(Verdict.CLOSE)
    for verdict in (Verdict.FAILS, Verdict.CLOSE):
        if verdict in verdicts:
            return verdict
    return Verdict.HOLDS


def _sorted(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    order = (Severity.FAILS, Severity.WARNS, Severity.NOTES)
    return tuple(sorted(findings, key=lambda finding: order.index(finding.severity)))


def _extension(legs: Mapping[str, Leg] | None) -> float:
    return 0.0 if legs is None else max(leg.extension for leg in legs.values())


def _judged(cases: Cases, judged: tuple[LoadCase, ...]) -> Demand:
    worst = governing(judged)
    return Demand(
        checked=cases.checked,
        governs=None if worst is None else worst.name,
        cases=judged,
        not_checked=", ".join(cases.missing),
    )


def _unjudged(job: Job, cases: Cases) -> Demand:
    largest = max(cases.cases, key=lambda case: case.force)
    return Demand(
        checked=cases.checked,
        governs=largest.name,
        cases=tuple(
            LoadCase(
                name=case.name,
                force=case.force,
                C_D=duration_factor(job, case.name),
                capacity=None,
                utilisation=None,
                moments=case.moments,
                limited_by=None,
                assumed=case.assumed,
            )
            for case in cases.cases
        ),
        not_checked=", ".join(cases.missing),
    )


def _framing_answers(job: Job, demand: Demand) -> tuple[Finding, ...]:
    force = max(case.force for case in demand.cases)
    return (
        warns(
            "framing-not-checked",
            "The soffit's own framing is not worked out here. There must be framing over the whole "
            f"overlap, and it must hold {Lengths(job).force_up(force)} upward from the appliance.",
            "Give that load to whoever is responsible for the framing.",
        ),
    )


def _common_findings(job: Job, demand: Demand, support: TopSupport) -> tuple[Finding, ...]:
    found, kind = [], support.kind
    keep = "keep" if kind is RestraintKind.PACKERS else "keeps"
    if not demand.checked:
        fully = "fully " if len(demand.cases) > 1 else ""
        found.append(
            warns(
                "demand-not-checked",
                f"Tip-over NOT {fully}checked: missing is "
                f"{demand.not_checked}. "
                f"Worked out: {joined([case.name for case in demand.cases])}.",
                "Read it off the spec sheet and give it in the job.",
            )
        )
    if job.loads.earthquake is not None and not job.loads.horizontal_stop:
        found.append(
            fails(
                "sliding-not-restrained",
                "In an earthquake nothing keeps the appliance from sliding: the restraint holds it "
                "down, not back, and friction does not count.",
                "Add a stop that holds it to the rear and to both sides, and say so with "
                "loads.horizontal_stop = true.",
            )
        )
    else:
        found.append(
            notes(
                "holds-down-only",
                f"The {kind.value} {keep} the top down only: sliding and pulling "
                "forward is not stopped.",
                "Follow the spec sheet for anchors that hold it back.",
            )
        )
    return (*found, *services_findings(job, support))
