"""What could hold the top: soffit, packers or boards, each at a height or with why not."""

from __future__ import annotations

import math
from typing import NamedTuple

from bracecalc.planning.packers import MOST_PACKERS, stock_pieces
from bracecalc.planning.reach import height_margin
from bracecalc.records.job import Job
from bracecalc.records.plan import (
    Finding,
    Margin,
    Packers,
    ReachBand,
    Restraint,
    RestraintKind,
    Verdict,
)
from bracecalc.records.reference import Tables
from bracecalc.stack.boards import lumber_of
from bracecalc.stack.studs import compressible, wall_findings
from bracecalc.text.findings import Lengths, joined

MARK = 0.125  # in: heights are set to eighths, common practice; in a metric job too, so that
# one job has one plan in whichever system it is written
MARKS = (MARK, MARK / 2.0, MARK / 4.0)
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


def soffit_option(job: Job, tables: Tables, band: ReachBand) -> Option | Impossible:
    """Return the soffit as it is as a restraint, or why it isn't one."""
    kind, lengths = RestraintKind.SOFFIT, Lengths(job)
    height = usable_soffit(job, tables)
    if isinstance(height, str):
        return Impossible(kind, height)
    if height > band.high + 1e-9:
        return Impossible(
            kind, f"it is {lengths.up(height - band.high)} above what the legs can reach"
        )
    if height < band.low - 1e-9:
        return Impossible(kind, f"it is {lengths.up(band.low - height)} below the reach band")
    return Option(kind, height, height_margin(job, band, height))


def usable_soffit(job: Job, tables: Tables) -> float | str:
    """Return the height of a soffit that may be borne against, in, or why it may not."""
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


def packers_option(
    job: Job, tables: Tables, band: ReachBand, lengths: Lengths
) -> Option | Impossible:
    """Return packers under the soffit as a restraint, or why they aren't one."""
    kind, height = RestraintKind.PACKERS, usable_soffit(job, tables)
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


def stack_option(
    job: Job, tables: Tables, band: ReachBand, lengths: Lengths
) -> Option | Impossible:
    """Return boards on the rear wall as a restraint, or why they aren't one."""
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
