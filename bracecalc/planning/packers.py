"""Packers under a soffit: what keeps them in place."""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import accumulate, combinations_with_replacement

from bracecalc.mechanics.nds.spacing import SIXTEENTH
from bracecalc.records.job import Job
from bracecalc.records.plan import Finding, Packers, ScrewRow
from bracecalc.records.reference import PackerStock, Tables
from bracecalc.stack import screws as seats
from bracecalc.stack.drilling import drilled
from bracecalc.stack.studs import build_up, compressible
from bracecalc.text.findings import Lengths, fails, warns

FRAMING_SPACING = 16.0  # in: of the soffit's framing where it isn't known, common practice
MOST_PACKERS = 4
PACKER_MEMBERS = ("packers", "soffit's framing")
THINNEST_ALONE = 0.45  # in: a thinner packer is fixed through the one under it


@lru_cache(maxsize=256)
def stock_pieces(
    stocks: tuple[PackerStock, ...], least: float, most: float, best: float
) -> tuple[PackerStock, ...] | None:
    """Return the fewest stock pieces with a sum within limits, then those nearest the best.

    Args:
        stocks: thickest first, which is the order from the soffit down.
        least: thickness of all, in.
        most: thickness of all, in.
        best: thickness of all, in.
    """
    for count in range(1, MOST_PACKERS + 1):
        fitting = [
            pieces
            for pieces in combinations_with_replacement(stocks, count)
            if least - 1e-9 <= sum(piece.thickness for piece in pieces) <= most + 1e-9
        ]
        if fitting:
            return min(
                fitting, key=lambda pieces: abs(sum(piece.thickness for piece in pieces) - best)
            )
    return None


def packer_screws(
    job: Job, tables: Tables, packers: Packers
) -> tuple[tuple[ScrewRow, ...], tuple[Finding, ...]]:
    """Return the screws that keep packers up in the soffit's framing, by the embedment rule.

    Packers work in compression; the screws only keep them in place. Piece 1 is at the soffit. The
    lowest piece's screws go through all of it; thin shims have none of their own.
    """
    layers = job.niche.soffit_layers
    if layers is None:
        return (), (
            warns(
                "soffit-build-up-not-given",
                "The layers of the soffit are not given, so the screws of the packers can't be "
                "sized.",
                "Give niche.soffit_layers, from the room to the framing.",
            ),
        )
    soft = compressible(layers, tables)
    if soft:
        return (), (
            fails(
                "compressible-soffit",
                f"The soffit has {', '.join(soft)} between the packers and its framing.",
                "Take that layer out over the packers and fill with solid wood.",
            ),
        )
    wall = build_up(layers, 0.0, tables)
    options = seats.options_of(job.screws, tables, job.loads.method)
    rows, findings = [], []
    for number, depth in enumerate(accumulate(packers.pieces), start=1):
        if packers.pieces[number - 1] < THINNEST_ALONE and number < len(packers.pieces):
            continue
        path = seats.Path(
            boards=depth,
            outer_board=packers.pieces[number - 1],
            build_up=wall.thickness,
            gap=wall.gap,
            framing_depth=job.wall.stud.depth,
            wanted=job.rules.embedment,
            washer=0.0,
            under_head=min(job.rules.under_head, packers.pieces[number - 1]),
        )
        choice = next(iter(seats.covered_choices(path, options)), None)
        if choice is None:
            findings.append(_too_long(job, path))
            continue
        rows.append(_row(job, tables, packers, number, choice))
    return tuple(rows), tuple(findings)


def _too_long(job: Job, path: seats.Path) -> Finding:
    needed = path.boards + path.build_up + path.wanted
    return fails(
        "no-stock-screw-long-enough",
        f"The packers need a screw of {Lengths(job).up(needed)} or more; none at hand fits.",
        "Carry longer screws, or build the soffit down with framing instead of packers.",
    )


def _row(job: Job, tables: Tables, packers: Packers, number: int, choice: seats.Choice) -> ScrewRow:
    candidate, seat = choice.candidate, choice.seat
    end = seats.distances(candidate.size).end
    run = packers.length - 2.0 * end
    count = max(2, math.floor(run / FRAMING_SPACING) + 1)
    # each piece's screws stand beside those of the other pieces, spread over the width
    share = number / (len(packers.pieces) + 1)
    across = round(packers.depth * share / SIXTEENTH) * SIXTEENTH
    return ScrewRow(
        board=number,
        size=candidate.size.size,
        kind=candidate.size.kind,
        length=candidate.length,
        counterbore=seat.counterbore,
        thread_length=candidate.thread_length,
        embedment=seat.embedment,
        required_embedment=seat.required,
        per_stud=1,
        count=count,
        tip_to_far_side=job.wall.stud.depth - seat.embedment,
        holes=drilled(
            candidate.size,
            counterbore=seat.counterbore,
            layers=tuple(layer.material for layer in job.niche.soffit_layers or ()),
            gravity=tables.species[job.wall.stud.species].specific_gravity,
            members=PACKER_MEMBERS,
        ),
        positions=(),
        offsets=((0.0, across),),
        metric=candidate.size.metric,
    )
