"""Which restraint: soffit, packers, rear-wall stack or none; all are worked out and ranked."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from bracecalc.planning.packers import MOST_PACKERS, stock_pieces
from bracecalc.planning.reach import (
    ROLLING_IN,
    height_margin,
    legs_at,
    level_short,
    rolling_height,
)
from bracecalc.records.job import CORNERS, Built, Job
from bracecalc.records.plan import (
    Alternative,
    Finding,
    Margin,
    OverSpot,
    Packers,
    ReachBand,
    Restraint,
    RestraintKind,
    Verdict,
)
from bracecalc.records.reference import Tables
from bracecalc.stack.boards import lumber_of
from bracecalc.stack.studs import compressible, wall_findings
from bracecalc.text.findings import Lengths, fails, joined, warns

PAPER = 1.0 / 32.0  # in: a gap up to which paper still drags at both ends
MARK = 0.125  # in: heights are set to eighths, common practice; in a metric job too, so that
# one job has one plan in whichever system it is written
MARKS = (MARK, MARK / 2.0, MARK / 4.0)
NOTHING_HOLDS = (
    "No plate, floor taken out, or soffit or boards elsewhere makes it hold by itself: see what "
    "else fails, and ask the appliance's maker for other legs."
)
REAR = ("rear_left", "rear_right")
RANK = {Verdict.HOLDS: 0, Verdict.CLOSE: 1, Verdict.FAILS: 2}


class Option(NamedTuple):
    """A restraint that is possible: where its underside stands, and its room in the band."""

    kind: RestraintKind
    height: float
    margin: Margin
    packers: Packers | None = None


class Impossible(NamedTuple):
    """A restraint that is not possible, and why."""

    kind: RestraintKind
    why_not: str


class Choice(NamedTuple):
    """The restraint chosen, its packers if any, and what is to be said."""

    restraint: Restraint
    packers: Packers | None
    findings: tuple[Finding, ...]


def choose_restraint(job: Job, tables: Tables, band: ReachBand) -> Choice:
    """Return the best restraint that is possible, and every other with its reason."""
    choice = _chosen(job, tables, band)
    target = choice.restraint.target_height
    if target is None:
        return choice
    line = job.floor.line
    told = replace(
        choice.restraint,
        from_line=None if line is None else target - line,
        over_spot=_over_rear(job, target),
    )
    return choice._replace(restraint=told)


def _over_rear(job: Job, target: float) -> OverSpot | None:
    """Return the height over the higher leg spot of the rear: the top comes to it first."""
    rear = [
        (spot, corner)
        for spot, corner in zip(job.floor.spots, CORNERS, strict=True)
        if corner in REAR and corner not in job.floor.unread
    ]
    if not rear:
        return None
    spot, corner = max(rear, key=lambda read: read[0])
    return OverSpot(corner, target - spot)


def _chosen(job: Job, tables: Tables, band: ReachBand) -> Choice:
    lengths = Lengths(job)
    if band.high < band.low - 1e-9:
        return _no_band(job, band, lengths)
    if job.built is not None:
        return _as_built(job, job.built, tables, band)
    soffit = _soffit(job, tables, band)
    packers = _packers(job, tables, band, lengths)
    stack = _stack(job, tables, band, lengths)
    worked_out = (soffit, packers, stack)
    possible = sorted(
        (option for option in worked_out if isinstance(option, Option)),
        key=lambda option: RANK[option.margin.verdict],
    )
    if not possible:
        return _none_possible(job, tables, band, worked_out)
    best = possible[0]
    others = tuple(
        Alternative(kind=one.kind, why_not=_ranked_after(one, best, lengths))
        if isinstance(one, Option)
        else Alternative(kind=one.kind, why_not=one.why_not)
        for one in worked_out
        if one is not best
    )
    restraint = Restraint(
        kind=best.kind,
        target_height=best.height,
        margin=best.margin,
        why=_why(best, job, lengths),
        alternatives=others,
    )
    return Choice(restraint, best.packers, _height_findings(job, band, best, lengths))


def _as_built(job: Job, built: Built, tables: Tables, band: ReachBand) -> Choice:
    kind, lengths = RestraintKind.SOFFIT, Lengths(job)
    if built.boards:
        kind = RestraintKind.STACK
    elif built.packers:
        kind = RestraintKind.PACKERS
    room = height_margin(job, band, built.underside)
    restraint = Restraint(
        kind=kind, target_height=built.underside, margin=room, why="it stands already",
        alternatives=(),
    )  # fmt: skip
    packers = None
    if built.packers:
        packers = Packers(
            sizes=tuple(f"{lengths.near(piece)} piece" for piece in built.packers),
            pieces=built.packers,
            length=job.niche.narrowest - 2.0 * job.boards.end_gap,
            depth=job.rules.overlap,
            from_wall=max(0.0, job.least_rear_gap),
        )
    findings = [*_out_of_band(built.underside, band, lengths)]
    if not findings:
        option = Option(kind, built.underside, room, packers)
        findings.extend(_height_findings(job, band, option, lengths))
    if kind is RestraintKind.STACK:
        findings.extend(_through_soffit(job, built, tables))
        if built.unlocated:
            said = lengths.say("standing.not-located")
            remedy = lengths.say("standing.not-located-remedy")
            findings.append(fails("screws-not-located", said, remedy))
        findings.extend(wall_findings(job, tables))
    elif job.niche.soffit:
        against = _usable_soffit(job, tables)
        if isinstance(against, str):
            said = lengths.say("standing.soffit-not-usable", why=against)
            remedy = lengths.say("standing.soffit-not-usable-remedy")
            findings.append(fails("soffit-not-usable", said, remedy))
    findings.extend(_in_the_way(job, built))
    return Choice(restraint, packers, tuple(findings))


def _in_the_way(job: Job, built: Built) -> Iterator[Finding]:
    """Yield what was found to keep the top from meeting the restraint."""
    lengths = Lengths(job)
    legs = legs_at(job, built.underside)
    for corner, now in built.stuck:
        wanted = legs[corner].extension
        if abs(wanted - now) > PAPER + 1e-9:
            said = lengths.say(
                "standing.leg-seized",
                corner=corner.replace("_", " "),
                now=lengths.near(now),
                wanted=lengths.near(wanted),
            )
            yield fails("leg-seized", said, lengths.say("standing.leg-seized-remedy"))
    if built.trim:
        said = lengths.say("standing.trim")
        yield fails("trim-in-the-way", said, lengths.say("standing.trim-remedy"))


def _through_soffit(job: Job, built: Built, tables: Tables) -> tuple[Finding, ...]:
    """Return whether boards that stand reach past the soffit by their own readings."""
    if not job.niche.soffit:
        return ()
    lengths = Lengths(job)
    top = built.underside + built.rises + lumber_of(job, tables).width
    over = top - job.niche.lowest_soffit
    if over <= 1e-9:
        return ()
    return (
        fails(
            "boards-through-soffit",
            lengths.say(
                "standing.through-soffit",
                top=lengths.up(top),
                over=lengths.up(over),
                soffit=lengths.down(job.niche.lowest_soffit),
            ),
            lengths.say("standing.through-soffit-remedy", over=lengths.up(over)),
        ),
    )


def _out_of_band(height: float, band: ReachBand, lengths: Lengths) -> tuple[Finding, ...]:
    over, under = height - band.high, band.low - height
    if over > 1e-9:
        corner = band.high_set_by.replace("_", " ")
        return (
            fails(
                "leg-travel-exceeded",
                f"The restraint is {lengths.up(over)} above reach: the {corner} leg would have to "
                "come out past its travel.",
                NOTHING_HOLDS,
            ),
        )
    if under > 1e-9:
        if band.low_set_by == ROLLING_IN:
            return (
                fails(
                    "does-not-go-in",
                    f"The restraint is {lengths.up(under)} too low for the "
                    "appliance to roll in under "
                    "it.",
                    NOTHING_HOLDS,
                ),
            )
        return (
            fails(
                "restraint-too-low",
                f"The restraint is {lengths.up(under)} too low: the "
                f"{band.low_set_by.replace('_', ' ')} leg would not be taking weight.",
                NOTHING_HOLDS,
            ),
        )
    return ()


def _why(best: Option, job: Job, lengths: Lengths) -> str:
    if best.kind is RestraintKind.SOFFIT:
        return "the soffit is solid and within reach of the legs"
    if best.kind is RestraintKind.PACKERS and best.packers is not None:
        total = lengths.near(best.packers.total)
        return f"the soffit is solid; packers of {total} bring it into reach"
    if best.height == job.unit.restraint_height:
        return "boards on the rear wall, at the height that the spec sheet asks for"
    return "boards on the rear wall, near the middle of the reach band"


def _ranked_after(one: Option, best: Option, lengths: Lengths) -> str:
    at = f"possible at {lengths.near(one.height)}"
    if RANK[one.margin.verdict] > RANK[best.margin.verdict]:
        return f"{at}, but it only {one.margin.verdict.value}"
    return f"{at}; the {best.kind.value} needs less work"


def _soffit(job: Job, tables: Tables, band: ReachBand) -> Option | Impossible:
    kind, lengths = RestraintKind.SOFFIT, Lengths(job)
    height = _usable_soffit(job, tables)
    if isinstance(height, str):
        return Impossible(kind, height)
    if height > band.high + 1e-9:
        return Impossible(
            kind, f"it is {lengths.up(height - band.high)} above what the legs can reach"
        )
    if height < band.low - 1e-9:
        return Impossible(kind, f"it is {lengths.up(band.low - height)} below the reach band")
    return Option(kind, height, height_margin(job, band, height))


def _usable_soffit(job: Job, tables: Tables) -> float | str:
    niche, lengths = job.niche, Lengths(job)
    if not niche.soffit:
        return "there is no soffit"
    if not niche.soffit_solid:
        return "the soffit is not solid"
    soft = () if niche.soffit_layers is None else compressible(niche.soffit_layers, tables)
    if soft:
        return f"the soffit gives: {joined(soft)} lies below its framing"
    if niche.soffit_depth is not None:
        over = niche.soffit_depth - job.rear_gap
        if over < job.rules.overlap - 1e-9:
            return (
                f"the soffit reaches {lengths.down(max(0.0, over))} over the appliance; "
                f"{lengths.up(job.rules.overlap)} is wanted"
            )
    return niche.lowest_soffit


def _packers(job: Job, tables: Tables, band: ReachBand, lengths: Lengths) -> Option | Impossible:
    kind, height = RestraintKind.PACKERS, _usable_soffit(job, tables)
    if isinstance(height, str):
        return Impossible(kind, height)
    if height <= band.high + 1e-9:
        return Impossible(kind, "the soffit is not above the reach band, nothing to pack")
    width = lumber_of(job, tables).width
    uneven = job.rear_gap - job.least_rear_gap
    if width - uneven < job.rules.overlap - 1e-9:
        return Impossible(
            kind,
            f"packers as wide as the boards ({lengths.near(width)}) reach too little over the "
            f"housing; {lengths.up(job.rules.overlap)} is wanted",
        )
    stocks = tuple(sorted(tables.packers.values(), key=lambda stock: -stock.thickness))
    middle = (band.low + band.high) / 2.0
    pieces = stock_pieces(stocks, height - band.high, height - band.low, height - middle)
    if pieces is None:
        return Impossible(
            kind,
            f"the soffit is {lengths.up(height - band.high)} above reach; "
            f"{MOST_PACKERS} stock packers at most don't bring it into the band",
        )
    packers = Packers(
        sizes=tuple(piece.name for piece in pieces),
        pieces=tuple(piece.thickness for piece in pieces),
        length=job.niche.narrowest - 2.0 * job.boards.end_gap,
        depth=width,
        from_wall=max(0.0, job.least_rear_gap),
    )
    under = height - packers.total
    return Option(kind, under, height_margin(job, band, under), packers)


def _stack(job: Job, tables: Tables, band: ReachBand, lengths: Lengths) -> Option | Impossible:
    kind = RestraintKind.STACK
    against = wall_findings(job, tables)
    if against:
        return Impossible(kind, " ".join(finding.text for finding in against))
    board = lumber_of(job, tables).width
    height = stack_height(job, band, board)
    if height is None:
        return Impossible(
            kind,
            f"boards {lengths.near(board)} high in reach of the legs need a soffit at "
            f"{lengths.up(band.low + board)} or higher; it is at "
            f"{lengths.down(job.niche.lowest_soffit)}",
        )
    return Option(kind, height, height_margin(job, band, height))


def stack_height(job: Job, band: ReachBand, board: float) -> float | None:
    """Return where the underside of boards of a width goes; None without room under the soffit."""
    high = min(band.high, job.niche.lowest_soffit - board)
    return None if high < band.low - 1e-9 else _target(job, band, high)


def _target(job: Job, band: ReachBand, high: float) -> float:
    asked = job.unit.restraint_height
    if asked is not None and asked <= high + 1e-9:
        room = height_margin(job, band, asked)
        if room.worst_case >= -1e-9:
            return asked
    middle = min((band.low + band.high) / 2.0, high)
    best = height_margin(job, band, middle).verdict
    for grid in MARKS:  # a coarse mark only where it loses nothing that the best height has
        marks = (math.floor(middle / grid) * grid, math.ceil(middle / grid) * grid)
        inside = [
            mark
            for mark in marks
            if band.low - 1e-9 <= mark <= high + 1e-9
            and height_margin(job, band, mark).verdict is best
        ]
        if inside:
            return min(inside, key=lambda mark: abs(mark - middle))
    return middle


def _height_findings(
    job: Job, band: ReachBand, best: Option, lengths: Lengths
) -> tuple[Finding, ...]:
    found = []
    asked = job.unit.restraint_height
    if asked is not None and abs(best.height - asked) > 1e-9:
        found.append(_other_than_asked(job, band, best, asked))
    if best.margin.verdict is Verdict.FAILS:
        found.append(
            fails(
                "reach-uncertain",
                f"At {lengths.near(best.height)} the legs have {lengths.down(best.margin.nominal)} "
                "to spare, less than the readings are uncertain by.",
                "Read the floor and the height again more closely and give their uncertainty "
                "(floor.uncertainty, rules.height_uncertainty), or level the floor.",
            )
        )
    return tuple(found)


def _other_than_asked(job: Job, band: ReachBand, best: Option, asked: float) -> Finding:
    lengths, height = Lengths(job), best.height
    sheet = f"The spec sheet asks for a restraint at {lengths.near(asked)}"
    if job.built is not None or best.kind is not RestraintKind.STACK:
        stands = "boards stand" if best.kind is RestraintKind.STACK else f"{best.kind.value} is"
        if best.kind is RestraintKind.PACKERS:
            stands = "packers' underside is"
        return warns(
            "sheet-height-not-kept",
            f"{sheet}; the {stands} at {lengths.near(height)}.",
            "Ask the appliance's maker whether that height may be used.",
        )
    side = "too near the end of"
    if asked > band.high or asked < band.low:
        side = "above" if asked > band.high else "below"
    return warns(
        "sheet-height-out-of-reach",
        f"{sheet}; that is {side} the reach band here. The boards are set at "
        f"{lengths.near(height)}.",
        "Ask the appliance's maker whether that height may be used, or level the floor.",
    )


def _nothing(worked_out: tuple[Option | Impossible, ...], why: str) -> Restraint:
    alternatives = tuple(
        Alternative(kind=one.kind, why_not=one.why_not)
        for one in worked_out
        if isinstance(one, Impossible)
    )
    return Restraint(
        kind=RestraintKind.NONE,
        target_height=None,
        margin=None,
        why=why,
        alternatives=alternatives,
    )


def _does_not_go_in(job: Job, lengths: Lengths) -> Finding | None:
    if not job.niche.soffit:
        return None
    short = rolling_height(job) - job.niche.lowest_soffit
    if short <= 1e-9:
        return None
    return fails(
        "does-not-go-in",
        f"The soffit is {lengths.up(short)} too low for the appliance to roll in under it.",
        NOTHING_HOLDS,
    )


def _no_band(job: Job, band: ReachBand, lengths: Lengths) -> Choice:
    missing = band.low - band.high
    short = level_short(job)
    level_would_do = short <= 1e-9
    remedy = NOTHING_HOLDS
    if not level_would_do:
        remedy = (
            f"Not even a level floor would do: the legs are {lengths.up(short)} short of raising "
            "the appliance past the appliance's highest point. Take that part "
            "off while rolling in, or "
            "ask the appliance's maker for longer legs."
        )
    cause = "The floor is so far out of level that no" if level_would_do else "No"
    findings = [
        fails(
            "floor-uses-up-travel",
            f"{cause} height is in reach of all legs: {lengths.up(missing)} of leg travel is "
            "missing.",
            remedy,
        )
    ]
    blocked = _does_not_go_in(job, lengths)
    if blocked is not None:
        findings.insert(0, blocked)
    why_not = "the legs have no reach band on this floor"
    kinds = (RestraintKind.SOFFIT, RestraintKind.PACKERS, RestraintKind.STACK)
    return Choice(
        _nothing(tuple(Impossible(kind, why_not) for kind in kinds), why_not),
        None,
        tuple(findings),
    )


def _none_possible(
    job: Job, tables: Tables, band: ReachBand, worked_out: tuple[Option | Impossible, ...]
) -> Choice:
    lengths = Lengths(job)
    findings: list[Finding] = []
    blocked = _does_not_go_in(job, lengths)
    if blocked is not None:
        findings.append(blocked)
    else:
        soffit = _usable_soffit(job, tables)
        if isinstance(soffit, float) and soffit > band.high:
            over = soffit - band.high
            findings.append(
                fails(
                    "leg-travel-exceeded",
                    f"To reach the soffit the {band.high_set_by.replace('_', ' ')} leg would have "
                    f"to come out {lengths.up(over)} past its travel.",
                    NOTHING_HOLDS,
                )
            )
        findings.extend(wall_findings(job, tables))
        findings.append(
            fails(
                "no-restraint",
                "Nothing solid to bear against between "
                f"{lengths.up(band.low)} and {lengths.down(band.high)} above the datum.",
                "Have the builder make the soffit solid, or build wood backing into the rear wall, "
                "in that band.",
            )
        )
    why = "nothing solid to bear against in reach of the legs"
    if blocked is not None:
        why = "the appliance does not go in under the soffit"
    return Choice(_nothing(worked_out, why), None, tuple(findings))
