"""What the page shows of a job: every word and number of it comes from the engine's own rooms."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from bracecalc.check.check import check_site
from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.as_found import SIDES, read_as_found
from bracecalc.jobfile.build import build_job
from bracecalc.jobfile.paths import flatten
from bracecalc.page.entries import Asked, written
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CORNERS, Job, Units
from bracecalc.records.open import Open, OpenCode, OpenKind
from bracecalc.records.plan import Leg, Margin, Plan, Severity, Verdict
from bracecalc.records.site import LegTurn, SiteCheck
from bracecalc.render.check import check_document
from bracecalc.render.check import verdict_words as check_words
from bracecalc.render.document import STEPS, plan_document
from bracecalc.render.open_words import open_brief, open_items
from bracecalc.render.open_words import verdict_words as plan_words
from bracecalc.render.sections import Block, Grid, Items, Paragraph, Section, SectionCode
from bracecalc.render.words import Task, set_out
from bracecalc.text.findings import Lengths
from bracecalc.text.lengths import QuantityError, parse_length

NOTHING = "nothing"  # what a mistake says was read where a key is missing
SIGNS = {Verdict.HOLDS: "holds", Verdict.CLOSE: "close", Verdict.FAILS: "fails"}
OPEN = "open"  # the sign of a verdict that waits for something; never the green one
SETTLED_BY = {  # the key that settles what is open
    OpenCode.STUD_SPOTS: "wall.stud_spots",
    OpenCode.SOFFIT_DEPTH: "niche.soffit_depth",
    OpenCode.SOFFIT_BUILD_UP: "niche.soffit_layers.1.material",
    OpenCode.FLOOR_FINISH: "floor.finish_to_come",
    OpenCode.WALL_FINISH: "wall.finish_to_come",
    OpenCode.TIPPING: "unit.weight",
    OpenCode.BEARING_ZONE: "unit.bearing_zone",
    OpenCode.OUTSIDE_ZONE: "unit.bearing_zone",
    OpenCode.OTHER_HEIGHT: "unit.restraint_height",
}
TASKS = frozenset(STEPS.values())
PLACES = {  # where on the screen a section stands that isn't folded
    SectionCode.TODO: "first",
    SectionCode.PROBLEM: "first",
    **dict.fromkeys(STEPS.values(), "work"),
    SectionCode.CONTACT: "work",
    SectionCode.FINDINGS: "last",
    SectionCode.WARNINGS: "last",
    SectionCode.CAUTIONS: "end",
}
BY_CORNER = {SectionCode.LEGS, SectionCode.LEGS_AFTER}  # the page draws them instead
SKETCHED = {  # what the sketch of the niche takes from which key, the first that is there
    "width": ("as_found.width", "niche.width"),
    "depth": ("as_found.depth", "niche.depth"),
    "soffit": ("as_found.soffit", "niche.soffit"),
    "unit_height": ("unit.height",),
    "unit_width": ("unit.width",),
    "unit_depth": ("unit.depth",),
    "studs": ("as_found.studs", "wall.stud_spots"),
}


def job_of(nested: Mapping[str, Any]) -> Job:
    """Return the checked job of its tables.

    Raises:
        JobError: with every mistake.
    """
    return build_job(flatten(nested, where=""), where="")


def checked(asked: Asked) -> Plan | SiteCheck:
    """Return the plan, or where something was found on site the check against it.

    Raises:
        JobError: with every mistake in the job or in what was found.
    """
    job = job_of(asked.merged())
    if not asked.on_site:
        return make_plan(job)
    return check_site(job, read_as_found(job.as_found, job))


def plan_of(asked: Asked) -> Plan:
    """Return the plan, or where something was found on site the plan as it stands with that."""
    result = checked(asked)
    return result.found if isinstance(result, SiteCheck) else result


def look(asked: Asked) -> dict[str, Any]:
    """Return the quick answer to each entry: values, numbers to draw, mistakes, the verdict."""
    nested = asked.merged()
    metric = nested.get("units") == "mm"
    answer: dict[str, Any] = {
        "title": str(nested.get("title", "")),
        "units": "mm" if metric else "in",
        "values": written(asked.base(), units="mm" if metric else "in"),
        "known": _known(asked.base()),
        "numbers": _numbers(nested, Units.MM if metric else Units.INCH),
        "planned": {},
        "problems": [],
        "missing": [],
        "verdict": None,
        "sign": "open",
    }
    try:
        result = checked(asked)
    except JobError as error:
        answer |= _open(error)
    else:
        plan = result.found if isinstance(result, SiteCheck) else result
        answer |= {"verdict": word(result, plan), "sign": sign(result, plan)}
        answer["why"] = _first_reason(result, plan)
        answer["target"] = "" if result.verdict is Verdict.FAILS else _target(plan)
        answer["numbers"] |= _planned_numbers(plan)
        answer["planned"] = _planned(result.planned if isinstance(result, SiteCheck) else result)
    return answer


def check(asked: Asked) -> dict[str, Any]:
    """Return the whole verdict: headings, paragraphs, lists and tables, and the legs by corner."""
    result = checked(asked)
    sections = check_document(result) if isinstance(result, SiteCheck) else plan_document(result)
    plan = result.found if isinstance(result, SiteCheck) else result
    rest = list(sections[1:])
    if isinstance(result, SiteCheck) and not result.as_found.built:  # still to be built
        rest += [one for one in plan_document(plan) if one.code in TASKS]
    lengths = Lengths(plan.job)
    legs: Mapping[str, Leg | LegTurn] | None = plan.legs
    mended = False
    if isinstance(result, SiteCheck):
        mended = result.verdict is Verdict.FAILS and result.after is not Verdict.FAILS
        legs = result.legs_after if mended else result.legs
    return {
        "verdict": word(result, plan),
        "sign": sign(result, plan),
        "mark": "" if result.verdict is Verdict.FAILS else _mark(plan),
        "said": _said(result),
        "open": open_list(plan),
        "legs": None
        if not legs
        else {corner: _corner(legs[corner], lengths) for corner in CORNERS},
        "legs_mended": mended,
        "sections": [_section(one) for one in rest if one.code not in BY_CORNER],
        "drawings": drawings(plan),
    }


def drawings(plan: Plan) -> list[dict[str, str]]:
    """Return the drawings of a plan, to scale, each as SVG with what it shows in words.

    The legs are left out: the page shows them by corner.
    """
    from bracecalc.drawing.content import Subject
    from bracecalc.drawing.html import figures
    from bracecalc.drawing.showing import Shown
    from bracecalc.drawing.svg import svg_bytes

    shown = figures(Subject(plan=plan, job_text=""), Shown(plan.job, None))
    return [{"svg": svg_bytes(drawing).decode(), "told": caption} for drawing, caption in shown[:2]]


def work(asked: Asked) -> dict[str, Any]:
    """Return each step of the verification, part by part."""
    job = plan_of(asked).job
    parts = [
        {"name": section.of, **_section(section)}
        for section in plan_document(make_plan(job, show_work=True))
        if section.code is SectionCode.WORK
    ]
    return {"parts": parts}


def word(result: Plan | SiteCheck, plan: Plan) -> str:
    """Return a verdict as a heading; provisional while something was not measured."""
    unread = any(point.code.kind is OpenKind.NOT_MEASURED for point in plan.open)
    if unread and result.verdict is not Verdict.FAILS:
        return "Provisional"
    return result.verdict.value.capitalize()


def open_list(plan: Plan) -> list[dict[str, str]]:
    """Return what isn't settled yet, each with the key that settles it where there is one."""
    return [
        {"text": f"{sort}: {text}.", "key": _settled_by(point)}
        for point, (sort, text) in zip(plan.open, open_items(plan), strict=True)
    ]


def _settled_by(point: Open) -> str:
    if point.code is OpenCode.FLOOR:
        return f"floor.{point.of[0] if point.of else CORNERS[0]}"
    return SETTLED_BY.get(point.code, "")


def _said(result: Plan | SiteCheck) -> list[str]:
    if isinstance(result, SiteCheck):
        return [check_words(result)]
    failing = [one for one in result.findings if one.severity is Severity.FAILS]
    said = [plan_words(result), *(f"{one.code}: {one.text}" for one in failing)]
    return [*said, _why(result), *filter(None, [result.sensitivity])]


def _why(plan: Plan) -> str:
    return plan.restraint.why[:1].upper() + plan.restraint.why[1:] + "."


def sign(result: Plan | SiteCheck, plan: Plan) -> str:
    """Return which sign stands at a verdict: the green one only where nothing is open."""
    if plan.open and result.verdict is not Verdict.FAILS:
        return OPEN
    return SIGNS[result.verdict]


def _mark(plan: Plan) -> str:
    """Return the height to build to in the crew's way of marking it."""
    return next((one.text for one in set_out(plan) if one.task is Task.MARK), "")


def _target(plan: Plan) -> str:
    target = plan.restraint.target_height
    return "" if target is None else f"{Lengths(plan.job).near(target)} above the datum."


def _known(base: Mapping[str, Any]) -> dict[str, Any]:
    """Return what decides which questions the page asks."""
    doors = _table(base, "unit").get("doors")
    return {
        "floor_down": "down_from_line" in _table(base, "floor"),
        "doors": len(doors) if isinstance(doors, list) and doors else 1,
    }


def _open(error: JobError) -> dict[str, Any]:
    missing = [one.key for one in error.mistakes if one.read == NOTHING]
    wrong = [one for one in error.mistakes if one.read != NOTHING]
    more = f"{len(missing)} more to measure" if missing else ""
    look_again = f"{len(wrong)} to look at again" if wrong else ""
    return {
        "problems": [{"key": one.key, "text": told_of(one)} for one in wrong],
        "missing": missing,
        "why": " and ".join(part for part in (more, look_again) if part) + ".",
    }


def told_of(mistake: Mistake) -> str:
    """Return what to say of a mistake beside the field that it is about."""
    if mistake.read == NOTHING:
        return f"Needed: {mistake.right}."
    end = "" if mistake.right.endswith("?") else "."
    return f"Read {mistake.read}; expected {mistake.right}{end}"


def _first_reason(result: Plan | SiteCheck, plan: Plan) -> str:
    findings = [one for one in plan.findings if one.severity is Severity.FAILS]
    if isinstance(result, SiteCheck):
        findings = [miss.finding for miss in result.misses]
    if findings:
        return findings[0].text
    return f"{open_brief(plan)}.".capitalize() if plan.open else _why(plan)


def _corner(leg: Leg | LegTurn, lengths: Lengths) -> dict[str, Any]:
    turns = "" if leg.turns is None else f"{abs(leg.turns):.1f} turns"
    if isinstance(leg, LegTurn) and leg.now is not None and turns:
        turns = f"from now: {turns} {'in' if leg.out < 0.0 else 'out'}"
    return {
        "extension": lengths.near(leg.extension),
        "turns": turns,
        "margin": _room(leg.margin, lengths),
        "sign": SIGNS[leg.margin.verdict],
    }


def _room(margin: Margin, lengths: Lengths) -> str:
    spare, worst = (name.strip() for name in lengths.say("to-spare.columns").split("|"))
    return f"{spare} {lengths.down(margin.nominal)}, {worst} {lengths.down(margin.worst_case)}"


def _section(section: Section) -> dict[str, Any]:
    return {
        "code": section.code.value,
        "heading": section.heading,
        "place": PLACES.get(section.code, "folded"),
        "blocks": [_block(block) for block in section.blocks],
    }


def _block(block: Block) -> dict[str, Any]:
    if isinstance(block, Paragraph):
        return {"kind": "paragraph", "text": block.text}
    if isinstance(block, Items):
        return {"kind": "items", "items": [list(item) for item in block.items]}
    assert isinstance(block, Grid)
    return {
        "kind": "grid",
        "headings": list(block.headings),
        "rows": [list(row) for row in block.rows],
    }


def _table(nested: Mapping[str, Any], name: str) -> Mapping[str, Any]:
    table = nested.get(name)
    return table if isinstance(table, Mapping) else {}


def _numbers(nested: Mapping[str, Any], units: Units) -> dict[str, Any]:
    """Return inches for the sketch; what can't be read yet is left out."""
    numbers: dict[str, Any] = {}
    for name, keys in SKETCHED.items():
        for key in keys:
            table, _, last = key.rpartition(".")
            value = _table(nested, table).get(last)
            read = list(_lengths(value, units))
            if read:
                numbers[name] = read if name == "studs" else read[0]
                break
    return numbers


def _lengths(value: Any, units: Units) -> Iterator[float]:
    for one in value if isinstance(value, list) else [value]:
        try:
            yield parse_length(one, units=units)
        except QuantityError:
            continue


def _planned(plan: Plan) -> dict[str, str]:
    """Return what the plan says of what is measured once it is built, by its key."""
    lengths, target, found = Lengths(plan.job), plan.restraint.target_height, {}
    if plan.stack is not None and target is not None:
        found = {f"as_found.board.{side}": lengths.near(target) for side in SIDES}
        found["as_found.projection"] = lengths.near(plan.stack.projection)
    return found


def _planned_numbers(plan: Plan) -> dict[str, Any]:
    floor = plan.job.floor
    found: dict[str, Any] = {"floor": dict(zip(CORNERS, floor.spots, strict=True))}
    target = plan.restraint.target_height
    if plan.legs is not None and target is not None:
        found["raised"] = target - plan.job.unit.height
    if plan.stack is not None and target is not None:
        stack = plan.stack
        found["board"] = {
            "left": stack.left_end,
            "length": stack.length,
            "low": target,
            "high": target + stack.width,
        }
        found["boards"] = list(stack.thicknesses)
    return found
