"""The page docs/typical-niches.md: what the plan chooses in 64 typical niches, and its margin.

    python tests/house/make_typical_niches_page.py

The test beside it fails while the page is not what this writes.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Floor, Job, Layer, Niche, StudLayout, Unit, Wall
from bracecalc.records.plan import Plan, Severity
from bracecalc.records.scheme import Backing
from bracecalc.text.findings import used
from bracecalc.text.screw_names import counter_name

PAGE = Path(__file__).parents[2] / "docs" / "typical-niches.md"
WIDTHS = (30.0, 36.0, 42.0, 48.0)
SPACING = 16.0
UNIT_DEPTH = 23.125
GYPSUM, THICK = (Layer(material="gypsum board", thickness=size) for size in (0.5, 0.625))
TILED = (
    Layer(material="tile", thickness=0.3125),
    Layer(material="cement board", thickness=0.5),
)
# name of the column: layers of the wall, space behind the unit
KINDS: dict[str, tuple[tuple[Layer, ...], float]] = {
    '1/2" gypsum board': ((GYPSUM,), 0.75),
    '5/8" gypsum board': ((THICK,), 0.75),
    "tile over cement board": (TILED, 0.75),
    '2-1/4" behind the appliance': ((GYPSUM,), 2.25),
}
HEAD = """\
# Typical niches

What the plan chooses where nothing but the niche is known: SPF boards and studs, any stocked screw,
niches {widths} in wide, studs 16 in apart with the first at every inch from the
left side, a unit 1/2 in narrower than its niche and 23-1/8 in deep with 3/4 in behind it, 1/2 in of
gypsum board; no weight, no doors and no place of the legs given. So the least force of 60 lbf
counts, and a child of 60 lbf at the edge of one door as wide as the appliance, legs 3 in behind the
front. Beside them the same niches with 5/8 in of gypsum board, with 5/16 in of tile over 1/2 in of
cement board, and with 2-1/4 in behind the appliance.

A cell has the boards, the screws of the outermost board on each stud, and how much of the strength
is used in the worst case. "One stud" or "no stud": the boards meet fewer than two usable studs; the
plan fails for that, and the same boards on solid blocking stand beside it.

{summary}

In version 0.1.0, whose floor was 100 lbf with the whole force at one end of the boards, two 2x4
failed in all 64, and two 2x6 in 31 of them.

"""


def niche(width: float, first: float, layers: tuple[Layer, ...], gap: float) -> Job:
    """Return one typical niche."""
    return Job(
        title="typical",
        niche=Niche(width=(width,), depth=(UNIT_DEPTH + gap,)),
        floor=Floor(front_left=0.0, front_right=0.0, rear_left=0.0, rear_right=0.0),
        wall=Wall(layers=layers, stud_layout=StudLayout(spacing=SPACING, first=first)),
        unit=Unit(
            height=80.625,
            width=width - 0.5,
            depth=UNIT_DEPTH,
            leg_travel_front=1.375,
            leg_travel_rear=1.375,
        ),
    )


def plans() -> dict[tuple[str, float, float], Plan]:
    """Return the plan of every niche by kind, width and first stud."""
    return {
        (kind, width, float(first)): make_plan(niche(width, float(first), layers, gap))
        for kind, (layers, gap) in KINDS.items()
        for width in WIDTHS
        for first in range(16)
    }


def holds(plan: Plan) -> bool:
    """Whether nothing fails."""
    return all(finding.severity is not Severity.FAILS for finding in plan.findings)


def cell(plan: Plan) -> str:
    """Return what is chosen, or the true reason against it."""
    if plan.studs is not None and plan.studs.sure < 2:
        return ("no stud", "one stud")[plan.studs.sure]
    if plan.scheme is None or not holds(plan):
        return "; ".join(one.code for one in plan.findings if one.severity is Severity.FAILS)
    scheme = plan.scheme.chosen
    kind = "" if scheme.kind is None else scheme.kind.value
    screw = counter_name(kind, scheme.screw, scheme.length).removesuffix(f" {kind}")
    eased = " on blocking" if scheme.backing is Backing.BLOCKING else ""
    eased += ", finish cut" if scheme.finish_cut else ""
    rows = scheme.per_place - scheme.boards + 1
    boards = f"{scheme.boards} x {scheme.board}{eased}"
    return f"{boards}, {rows} x {screw}, {used(scheme.use or 0.0)}"


def page() -> str:
    """Return the page."""
    every = plans()
    lines = []
    for kind in KINDS:
        own = [plan for (name, *_), plan in every.items() if name == kind]
        met = [plan for plan in own if plan.studs is not None and plan.studs.sure >= 2]
        sizes = Counter(
            plan.scheme.chosen.board for plan in met if plan.scheme is not None and holds(plan)
        )
        with_boards = ", ".join(f"{count} with {size}" for size, count in sorted(sizes.items()))
        lines.append(
            f"| {kind} | {len(own)} | {len(met)} | {sum(map(holds, met))} | {with_boards} |"
        )
    summary = "\n".join(
        [
            "| wall | niches | with two usable studs | of these hold | boards |",
            "| --- | --- | --- | --- | --- |",
            *lines,
        ]
    )
    text = HEAD.format(widths=", ".join(f"{width:.0f}" for width in WIDTHS), summary=summary)
    for width in WIDTHS:
        text += f"## {width:.0f} in wide\n\n| first stud | {' | '.join(KINDS)} |\n"
        text += "| --- |" + " --- |" * len(KINDS) + "\n"
        for first in range(16):
            cells = (cell(every[kind, width, float(first)]) for kind in KINDS)
            text += f"| {first} in | {' | '.join(cells)} |\n"
        text += "\n"
    return text.rstrip() + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
