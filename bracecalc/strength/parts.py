"""What the whole stack holds: screws, outermost board and wall finish, weakest first."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import NamedTuple

from bracecalc.mechanics.nds import factors, withdrawal
from bracecalc.mechanics.statics import beam, sharing
from bracecalc.records.reference import ScrewSize
from bracecalc.records.scheme import Part
from bracecalc.strength.nds import OneScrew
from bracecalc.strength.workings import Workings

# NDS Supplement 2018 table 4A, wet service, from memory
LARGE = 0.25  # in: from here on group action counts, NDS 2018 11.3.6
WET_BENDING, WET_SHEAR, WET_ACROSS = 0.85, 0.97, 0.67


class BoardStrength(NamedTuple):
    """Reference strengths of the board, and of the finish that it turns against, psi."""

    bending: float
    shear: float
    crushing: float | None  # None where the finish has no known value
    wet: bool = False
    across: float = math.inf  # of the board, under the top edge


class Arrangement(NamedTuple):
    """The stack as the load sees it. Inches; spots and contact from the left side of the niche."""

    spots: tuple[float, ...]
    contact_left: float
    contact_right: float
    projection: float
    overlap: float
    board_width: float
    board_thickness: float  # of what bends: the outermost board, or all where contact is shared
    stud_width: float
    pivot_ease: float
    board_left: float
    board_right: float
    hole: float  # diameter of the clearance hole in the board
    even_contact: bool = False  # front to back shown to bear evenly


class StudLoad(NamedTuple):
    """What one pound of restraint force puts on the governing stud."""

    share: float  # lbf
    arm: float  # in, out from the wall
    board: beam.BoardActions


def stud_load(arrangement: Arrangement, *, load: float, work: Workings) -> StudLoad:
    """Return what a restraint force puts on the governing stud and into the outermost board.

    Where the housing bears evenly the force acts at the middle of the overlap; until that is shown
    it counts at the outer edge of the boards, the worse of the two.
    """
    part = "The stack: shares"
    share = work.call(
        part,
        "greatest share of one stud, even contact or contact at one end only",
        sharing.governing_share,
        spots=arrangement.spots,
        load=load,
        left=arrangement.contact_left,
        right=arrangement.contact_right,
    )
    actions = work.call(
        part,
        "bending of the outermost board on the studs",
        beam.board_actions,
        supports=arrangement.spots,
        left=arrangement.contact_left,
        right=arrangement.contact_right,
        load=load,
    )
    arm = out_from_wall(
        projection=arrangement.projection,
        overlap=arrangement.overlap,
        even_contact=arrangement.even_contact,
    )
    return StudLoad(share.share, arm, actions)


def out_from_wall(*, projection: float, overlap: float, even_contact: bool) -> float:
    """Return where the restraint force counts, out from the wall, in.

    >>> out_from_wall(projection=3.0, overlap=2.0, even_contact=True)
    2.0
    """
    # where the niche is too shallow the housing reaches past the wall: only the boards bear
    return projection - min(overlap, projection) / 2.0 if even_contact else projection


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
        "The stack: governing stud",
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


def screw_utilisation(
    one: OneScrew,
    *,
    share: float,
    arm: float,
    depths: tuple[float, ...],
    duration: float,
    work: Workings,
) -> float:
    """Return the utilisation of the most loaded screw of the governing stud.

    Args:
        one: strength of one screw, service and group factors in.
        share: what the restraint force puts on the stud, lbf.
        arm: where it acts, out from the wall, in.
        depths: of the screw rows below the pivot, in.
        duration: load duration factor C_D (k_mod in Eurocode 5).
        work: keeps the steps.

    Returns:
        Share of the strength that is used, dimensionless.

    Source: statics; NDS 2018 eq. 12.4-1, its ends too, or EN 1995-1-1 8.3.3 and 8.7.3 for both at
        once.
    """
    moment = work.call(
        "The stack: governing stud",
        "moment that turns the stack up about its top edge",
        sharing.prying_moment,
        share=share,
        out_from_wall=arm,
    )
    tensions = sharing.row_tensions(moment=moment, depths=depths)
    if work.recording:
        work.keep(
            "The stack: governing stud",
            "tension of the lowest row, from the moment about the top edge",
            sharing.row_tensions,
            {"moment": moment, "depths": depths},
            max(tensions),
        )
    tension, shear = max(tensions), share / len(depths)
    if one.lateral <= 0.0 or one.axial <= 0.0:
        return math.inf
    if one.strength.method.startswith("EN"):
        return work.call(
            "The stack: governing stud",
            "tension and shear together",
            factors.combined_use_squares,
            axial=tension / (one.axial * duration),
            lateral=shear / (one.lateral * duration),
        )
    angle = math.degrees(math.atan2(tension, shear))
    resistance = work.call(
        "The stack: governing stud",
        "resistance of one screw to tension and shear together",
        factors.combined_resistance,
        lateral=one.lateral * duration,
        withdrawal=one.axial * duration,
        angle=angle,
    )
    together = work.call(
        "The stack: governing stud",
        "use of the lowest screw, tension and shear together",
        factors.combined_use,
        tension=tension,
        shear=shear,
        resistance=resistance,
    )
    alone = work.call(
        "The stack: governing stud",
        "use of a screw by shear alone or tension alone; the greater of both uses counts",
        factors.separate_use,
        tension=tension,
        shear=shear,
        withdrawal=one.axial * duration,
        lateral=one.lateral * duration,
    )
    return max(together, alone)


def board_utilisations(
    arrangement: Arrangement,
    strength: BoardStrength,
    *,
    on_stud: StudLoad,
    heights: tuple[float, ...],
    duration: float,
    work: Workings,
) -> Mapping[Part, float]:
    """Return the utilisation of the outermost board in bending and in shear at its screws."""
    part = "The stack: outermost board"
    bending = work.call(
        part,
        "bending stress, load on the edge, holes taken off",
        beam.bending_stress,
        moment=on_stud.board.moment,
        breadth=arrangement.board_thickness,
        depth=arrangement.board_width,
        hole=arrangement.hole,
        hole_heights=heights,
    )
    wet_bending = WET_BENDING if strength.wet else 1.0
    wet_shear = WET_SHEAR if strength.wet else 1.0
    uses = []
    for spot, shear in zip(arrangement.spots, on_stud.board.support_shears, strict=True):
        capacity = work.call(
            part,
            f"shear that the board holds beside its screws, stud at {spot:.6g} in"
            if work.recording
            else "",
            beam.connection_shear_capacity,
            shear_strength=strength.shear * duration * wet_shear,
            breadth=arrangement.board_thickness,
            depth=arrangement.board_width,
            effective_depth=max(heights),
            from_end=min(spot - arrangement.board_left, arrangement.board_right - spot),
        )
        uses.append(shear / capacity)
    return {
        Part.BENDING: bending / (strength.bending * duration * wet_bending),
        Part.SPLITTING: max(uses),
    }


def finish_utilisation(
    arrangement: Arrangement,
    strength: BoardStrength,
    *,
    on_stud: StudLoad,
    depths: tuple[float, ...],
    work: Workings,
) -> float | None:
    """Return the utilisation of the finish under the edge about which the stack turns up."""
    if strength.crushing is None:
        return None
    return edge_pressure(arrangement, on_stud, depths, work) / strength.crushing


def edge_utilisation(
    arrangement: Arrangement,
    strength: BoardStrength,
    *,
    on_stud: StudLoad,
    depths: tuple[float, ...],
    work: Workings,
) -> float:
    """Return the utilisation of the board across its grain under that edge, by mean pressure."""
    across = strength.across * (WET_ACROSS if strength.wet else 1.0)
    return edge_pressure(arrangement, on_stud, depths, work) / 2.0 / across


def washer_utilisation(
    size: ScrewSize,
    strength: BoardStrength,
    *,
    on_stud: StudLoad,
    depths: tuple[float, ...],
    work: Workings,
) -> float:
    """Return the utilisation of the board under the washer of the lowest screw; 0 without one."""
    if size.washer_diameter is None:
        return 0.0
    tensions = sharing.row_tensions(moment=on_stud.share * on_stud.arm, depths=depths)
    capacity = work.call(
        "The stack: governing stud",
        "bearing of the outermost board under a washer",
        withdrawal.washer_bearing,
        across=strength.across * (WET_ACROSS if strength.wet else 1.0),
        washer_diameter=size.washer_diameter,
        hole_diameter=size.diameter,
    )
    return max(tensions) / capacity


def edge_pressure(
    arrangement: Arrangement, on_stud: StudLoad, depths: tuple[float, ...], work: Workings
) -> float:
    """Return the greatest pressure under the edge about which the stack turns up, psi."""
    tensions = sharing.row_tensions(moment=on_stud.share * on_stud.arm, depths=depths)
    return work.call(
        "The stack: governing stud",
        "greatest pressure under the top edge, the mean is half of it",
        sharing.pivot_bearing,
        tension_sum=sum(tensions),
        width=arrangement.stud_width,
        depth=arrangement.pivot_ease,
    )
