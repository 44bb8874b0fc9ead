"""What isn't settled yet, in words; and the verdict that stands over it."""

from __future__ import annotations

from bracecalc.records.open import Open, OpenCode, OpenKind
from bracecalc.records.plan import Plan, Verdict
from bracecalc.text.findings import Lengths, joined

VERDICTS = {
    Verdict.HOLDS: "It holds.",
    Verdict.CLOSE: "It holds if measured closely: measure again before you build.",
    Verdict.FAILS: "It fails: don't build it like this.",
}
PROVISIONAL = "Provisional: it holds only if what was not measured is as assumed. Measure it first."


def verdict_words(plan: Plan) -> str:
    """Return the verdict in a sentence; provisional while something was not measured."""
    unread = any(point.code.kind is OpenKind.NOT_MEASURED for point in plan.open)
    return PROVISIONAL if plan.verdict is Verdict.CLOSE and unread else VERDICTS[plan.verdict]


def open_items(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return each open point: of what sort it is, and what it is."""
    lengths = Lengths(plan.job)
    return tuple(
        (point.code.kind.value.capitalize(), point_words(point, lengths)) for point in plan.open
    )


def open_words(plan: Plan) -> str:
    """Return all that is open in one line; empty where nothing is."""
    return "; ".join(text for _, text in open_items(plan))


def open_brief(plan: Plan) -> str:
    """Return all that is open in a few words, sort by sort; empty where nothing is."""
    told = []
    for kind in OpenKind:
        names = [point.code.value.replace("-", " ") for point in plan.open
                 if point.code.kind is kind]  # fmt: skip
        if names:
            told.append(f"{kind.value}: {', '.join(names)}")
    return "; ".join(told)


def point_words(point: Open, lengths: Lengths) -> str:
    """Return one open point in words."""
    amount = 0.0 if point.amount is None else point.amount
    of = joined(point.of)
    match point.code:
        case OpenCode.FLOOR:
            spots = joined([corner.replace("_", " ") for corner in point.of])
            return f"the floor at the {spots}: taken as on the datum" if spots else FLAT
        case OpenCode.STUD_SPOTS:
            spaced = "" if point.amount is None else f", taken as {lengths.near(amount)} apart"
            return f"where the studs are{spaced}: find them before you drill"
        case OpenCode.SOFFIT_DEPTH:
            return "how far the soffit reaches out: taken as over the whole top"
        case OpenCode.FLOOR_FINISH:
            return f"the flooring, {lengths.near(amount)} still to come: measure again when it lies"
        case OpenCode.WALL_FINISH:
            return f"the wall finish, {lengths.near(amount)} still to come: measure again then"
        case OpenCode.TIPPING:
            return f"tip-over not fully checked: {of} not given"
        case OpenCode.SOFFIT_FRAMING:
            return f"the framing over the restraint: it must hold {lengths.force_up(amount)} upward"
        case OpenCode.SERVICES:
            return f"wires and pipes where the screws go, {lengths.up(amount)} into the framing"
        case OpenCode.SURROUNDINGS:
            return of
        case _:
            return PLAIN[point.code]


FLAT = "the floor: taken as level"
PLAIN = {
    OpenCode.SOFFIT_BUILD_UP: "the layers of the soffit: the packers' screws could not be sized",
    OpenCode.BEARING_ZONE: "where the top may bear: the spec sheet does not say",
    OpenCode.HIGHEST_POINT: "the appliance's highest point: under the soffit it would touch first",
    OpenCode.OUTSIDE_ZONE: "where the top is pushed on: the spec sheet doesn't allow it there",
    OpenCode.OTHER_HEIGHT: "the height: the spec sheet asks for another",
    OpenCode.BLOCKING: "solid blocking between the studs, before the wall is closed",
}
