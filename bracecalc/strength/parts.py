"""What each part of the stack holds: screws, outermost board and wall finish, weakest first."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from bracecalc.mechanics.nds import factors, withdrawal
from bracecalc.mechanics.statics import beam, sharing
from bracecalc.mechanics.statics.contact import Along, contact_points
from bracecalc.records.job import Method
from bracecalc.records.reference import ScrewSize
from bracecalc.records.scheme import Part
from bracecalc.strength.nds import OneScrew
from bracecalc.strength.workings import Workings

# NDS Supplement 2018 table 4A, wet service, from memory
LARGE = 0.25  # in: from here on group action counts, NDS 2018 11.3.6
WET_BENDING, WET_SHEAR, WET_ACROSS = 0.85, 0.97, 0.67
SHARES, ON_STUD, BOARD = (
    "The stack: shares",
    "The stack: governing stud",
    "The stack: outermost board",
)
SILENT = Workings()


class BoardStrength(NamedTuple):
    """Reference strengths of the board, and of the finish that it turns against, psi."""

    bending: float
    shear: float
    crushing: float | None  # None where the finish has no known value
    wet: bool = False
    across: float = math.inf  # of the board, under the top edge


class Overlap(NamedTuple):
    """Where along the boards the housing can bear, in, from the left side of the niche."""

    left: float
    right: float
    one_end: bool = False  # it may touch at one end alone


class Board(NamedTuple):
    """The outermost board as a beam: inches, ends from the left side of the niche."""

    thickness: float  # of what bends: the outermost board, or all where contact is shared
    width: float
    left: float
    right: float
    hole: float  # diameter of the clearance hole


class Actions(NamedTuple):
    """What one pound of restraint force puts on a set of supports, worst along the overlap.

    ``share`` is the greatest of a support, whichever way it holds; ``moment`` in-lbf and
    ``shears`` beside each support are the outermost board's.
    """

    supports: tuple[float, ...]
    share: float
    share_at: Along
    moment: float
    moment_at: Along
    shears: tuple[float, ...]


@lru_cache(maxsize=8192)
def actions(supports: tuple[float, ...], overlap: Overlap) -> Actions:
    """Return what one pound puts on a set of supports, worst of the points of contact."""
    return show_actions(supports, overlap, SILENT)


def show_actions(supports: tuple[float, ...], overlap: Overlap, work: Workings) -> Actions:
    """Return what one pound puts on a set of supports, each step kept in the workings."""
    points = contact_points(left=overlap.left, right=overlap.right, one_end=overlap.one_end)
    share = moment = 0.0
    share_at = moment_at = Along.MIDDLE
    shears = [0.0] * len(supports)
    for along, place in points.items():
        shares = work.call(
            SHARES,
            f"shares of the studs, one pound at the {along}",
            sharing.stud_shares,
            spots=supports,
            load=1.0,
            load_at=place,
        )
        largest = max(map(abs, shares))
        if largest > share:
            share, share_at = largest, along
        for spread in beam.contact_spreads(at=place, left=overlap.left, right=overlap.right):
            drawn = work.call(
                SHARES,
                f"bending of the outermost board, one pound at the {along}",
                beam.beam_diagram,
                supports=supports,
                reactions=shares,
                loads=spread,
            )
            if drawn.moment > moment:
                moment, moment_at = drawn.moment, along
            shears = list(map(max, shears, drawn.shears))
    return Actions(supports, share, share_at, moment, moment_at, tuple(shears))


def row_depths(
    heights: tuple[float, ...], *, board_width: float, pivot_ease: float
) -> tuple[float, ...]:
    """Return the depths of screw rows below the edge about which the stack turns up, in.

    >>> row_depths((0.5, 1.125), board_width=3.5, pivot_ease=0.25)
    (2.75, 2.125)
    """
    return tuple(board_width - height - pivot_ease for height in heights)


def group_action(
    *,
    diameter: float,
    depths: tuple[float, ...],
    stud_stiffness: float,
    board_stiffness: float,
    work: Workings,
) -> float:
    """Return the factor for screws one above another that share a load unevenly.

    Args:
        diameter: of the screws, in.
        depths: of the screw rows below the pivot, in.
        stud_stiffness: E A of the stud along its grain, lbf.
        board_stiffness: E A of the first board across its grain, lbf.
        work: keeps the step.
    """
    if len(depths) < 2 or diameter < LARGE:
        return 1.0
    ordered = sorted(depths)
    return work.call(
        ON_STUD,
        "group action of the screws in one line",
        factors.group_action_factor,
        row=factors.FastenerRow(
            diameter=diameter,
            count=len(depths),
            spacing=max(after - before for before, after in pairwise(ordered)),
            main_stiffness=stud_stiffness,
            side_stiffness=board_stiffness,
        ),
    )


class OnStud(NamedTuple):
    """What a restraint force puts on the governing stud: share, lbf, and its lever, in."""

    share: float
    out_from_wall: float
    gap: float

    def moment(self, work: Workings) -> float:
        """Return the moment that turns the stack up about its top edge, in-lbf."""
        return work.call(
            ON_STUD,
            "moment that turns the stack up about its top edge",
            sharing.prying_moment,
            share=self.share,
            out_from_wall=self.out_from_wall,
            gap=self.gap,
        )


def screw_utilisation(
    one: OneScrew,
    method: Method,
    *,
    on_stud: OnStud,
    depths: tuple[float, ...],
    duration: float,
    work: Workings,
) -> float:
    """Return the utilisation of the most loaded screw of the governing stud.

    Args:
        one: strength of one screw, service and group factors in.
        method: the standard by whose rule tension and shear go together.
        on_stud: what the restraint force puts on the stud.
        depths: of the screw rows below the pivot, in.
        duration: load duration factor C_D (k_mod in Eurocode 5).
        work: keeps the steps.

    Returns:
        Share of the strength that is used, dimensionless.

    Source: statics; NDS 2018 eq. 12.4-1, its ends too, or EN 1995-1-1 8.3.3 and 8.7.3 for both at
        once.
    """
    moment = on_stud.moment(work)
    tensions = sharing.row_tensions(moment=moment, depths=depths)
    if work.recording:
        work.keep(
            ON_STUD,
            "tension of the lowest row, from the moment about the top edge",
            sharing.row_tensions,
            {"moment": moment, "depths": depths},
            max(tensions),
        )
    if one.lateral <= 0.0 or one.axial <= 0.0:
        return math.inf
    tension, shear = max(tensions), on_stud.share / len(depths)
    if method is Method.EC5:
        return work.call(
            ON_STUD,
            "tension and shear together",
            factors.combined_use_squares,
            axial=tension / (one.axial * duration),
            lateral=shear / (one.lateral * duration),
        )
    return _nds_use(one, tension, shear, duration, work)


def _nds_use(one: OneScrew, tension: float, shear: float, duration: float, work: Workings) -> float:
    resistance = work.call(
        ON_STUD,
        "resistance of one screw to tension and shear together",
        factors.combined_resistance,
        lateral=one.lateral * duration,
        withdrawal=one.axial * duration,
        angle=math.degrees(math.atan2(tension, shear)),
    )
    together = work.call(
        ON_STUD,
        "use of the lowest screw, tension and shear together",
        factors.combined_use,
        tension=tension,
        shear=shear,
        resistance=resistance,
    )
    alone = work.call(
        ON_STUD,
        "use of a screw by shear alone or tension alone; the greater of both uses counts",
        factors.separate_use,
        tension=tension,
        shear=shear,
        withdrawal=one.axial * duration,
        lateral=one.lateral * duration,
    )
    return max(together, alone)


def bending_utilisation(
    board: Board,
    strength: BoardStrength,
    *,
    moment: float,
    heights: tuple[float, ...],
    duration: float,
    work: Workings,
) -> float:
    """Return the utilisation of the outermost board in bending, its holes taken off."""
    bending = work.call(
        BOARD,
        "bending stress, load on the edge, holes taken off",
        beam.bending_stress,
        moment=moment,
        breadth=board.thickness,
        depth=board.width,
        hole=board.hole,
        hole_heights=heights,
    )
    return bending / (strength.bending * duration * (WET_BENDING if strength.wet else 1.0))


def splitting_capacity(
    board: Board,
    strength: BoardStrength,
    *,
    support: float,
    heights: tuple[float, ...],
    duration: float,
    work: Workings,
) -> float:
    """Return the shear that the outermost board holds beside its screws at a support, lbf."""
    return work.call(
        BOARD,
        f"shear that the board holds beside its screws at {support:.6g} in"
        if work.recording
        else "",
        beam.connection_shear_capacity,
        shear_strength=strength.shear * duration * (WET_SHEAR if strength.wet else 1.0),
        breadth=board.thickness,
        depth=board.width,
        effective_depth=max(heights),
        from_end=min(support - board.left, board.right - support),
    )


def bearing_utilisations(
    size: ScrewSize,
    strength: BoardStrength,
    *,
    on_stud: OnStud,
    depths: tuple[float, ...],
    stud_width: float,
    pivot_ease: float,
    method: Method,
    work: Workings,
) -> Mapping[Part, float]:
    """Return the utilisation of what is pressed: board and finish under the top edge, washer.

    The mean pressure counts for the board across its grain, the greatest for the finish. In
    Eurocode 5 the washer is in the screw's pull-through.
    """
    across = strength.across * (WET_ACROSS if strength.wet else 1.0)
    tensions = sharing.row_tensions(moment=on_stud.moment(work), depths=depths)
    pressure = work.call(
        ON_STUD,
        "greatest pressure under the top edge, the mean is half of it",
        sharing.pivot_bearing,
        tension_sum=sum(tensions),
        width=stud_width,
        depth=pivot_ease,
    )
    uses = {Part.EDGE: pressure / 2.0 / across}
    if strength.crushing is not None:
        uses[Part.FINISH] = pressure / strength.crushing
    if size.washer_diameter is not None and method is Method.NDS:
        capacity = work.call(
            ON_STUD,
            "bearing of the outermost board under a washer",
            withdrawal.washer_bearing,
            across=across,
            washer_diameter=size.washer_diameter,
            hole_diameter=size.diameter,
        )
        uses[Part.WASHER] = max(tensions) / capacity
    return uses
