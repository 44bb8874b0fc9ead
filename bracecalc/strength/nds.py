"""What one screw holds where it stands, by the method that the job chooses."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

from bracecalc.mechanics.nds import dowel, factors, penetration, withdrawal
from bracecalc.records.job import PublishedScrew
from bracecalc.records.plan import Strength
from bracecalc.records.reference import ScrewKind, ScrewSize
from bracecalc.records.scheme import Backing
from bracecalc.strength.workings import Workings

ACROSS, ALONG = 90.0, 0.0  # the unit pushes up: across the board's grain, along the stud's
MAIN_MEMBER = {
    Backing.STUDS: "bearing strength of the stud, along its grain",
    Backing.BLOCKING: "bearing strength of the blocking, across its grain",
}


class ScrewInPlace(NamedTuple):
    """One screw of the outermost board and what it passes through. Inches, specific gravities."""

    size: ScrewSize
    thread_length: float
    embedment: float
    gap: float
    wall_board: float
    outer_board: float  # less the counterbore
    next_board: float | None  # None where the stack is one board
    board_gravity: float
    stud_gravity: float
    wet: bool = False
    temperature: float = 70.0
    backing: Backing = Backing.STUDS

    @property
    def main_angle(self) -> float:
        """Angle of the load to the grain of what the screw bites in, degrees."""
        return ALONG if self.backing is Backing.STUDS else ACROSS


class OneScrew(NamedTuple):
    """Strength of one screw before load duration, lbf: shown, and as the checks use it."""

    strength: Strength
    lateral: float
    axial: float


@lru_cache(maxsize=4096)
def nds_strength(screw: ScrewInPlace) -> OneScrew:
    """Return what one screw holds by the NDS, without showing the work."""
    return show_nds_strength(screw, Workings())


def show_nds_strength(screw: ScrewInPlace, work: Workings) -> OneScrew:
    """Return what one screw holds by the NDS, each step kept in the workings.

    Source: NDS 2018 chapters 11 and 12; AWC TR12 where the wall finish keeps the members apart.
    """
    lateral = _lateral_at_wall(screw, work)
    if screw.next_board is not None:
        between = _lateral_between_boards(screw, work, screw.next_board)
        lateral = min(lateral, between, key=lambda value: value.value)
    axial, pull_through = _axial(screw, work)
    service = _service_factors(screw, work)
    factor = math.prod(service.values())
    strength = Strength(
        method="NDS 2018 (ASD)",
        gap=screw.gap,
        mode=lateral.mode.value,
        lateral=lateral.value,
        withdrawal=axial,
        pull_through=pull_through,
        factors=service,
    )
    return OneScrew(strength, lateral.value * factor, min(axial, pull_through) * factor)


def _lateral_at_wall(screw: ScrewInPlace, work: Workings) -> dowel.LateralValue:
    part = "One screw: lateral, first board against stud"
    size = screw.size
    if size.kind is ScrewKind.LAG:
        tip = work.call(
            part,
            "tip of the screw, not counted",
            penetration.lag_tip_length,
            diameter=size.diameter,
        )
        bearing = max(0.0, screw.embedment - tip)
    else:
        bearing = work.call(
            part,
            "bearing length in the stud",
            penetration.bearing_length,
            penetration=screw.embedment,
            diameter=size.diameter,
        )
    return _lateral(screw, work, part=part, side=screw.wall_board, main=bearing, main_is_stud=True)


def _lateral_between_boards(
    screw: ScrewInPlace, work: Workings, next_board: float
) -> dowel.LateralValue:
    return _lateral(
        screw,
        work,
        part="One screw: lateral, outermost board against the next",
        side=screw.outer_board,
        main=next_board,
        main_is_stud=False,
    )


def _lateral(
    screw: ScrewInPlace,
    work: Workings,
    *,
    part: str,
    side: float,
    main: float,
    main_is_stud: bool,
) -> dowel.LateralValue:
    size = screw.size
    side_bearing = work.call(
        part,
        "bearing strength of the board, across its grain",
        dowel.dowel_bearing_strength,
        specific_gravity=screw.board_gravity,
        diameter=size.diameter,
        angle=ACROSS,
    )
    main_bearing = work.call(
        part,
        MAIN_MEMBER[screw.backing]
        if main_is_stud
        else "bearing strength of the next board, across its grain",
        dowel.dowel_bearing_strength,
        specific_gravity=screw.stud_gravity if main_is_stud else screw.board_gravity,
        diameter=size.diameter,
        angle=screw.main_angle if main_is_stud else ACROSS,
    )
    joint = dowel.Joint(
        diameter=size.root_diameter,
        side_bearing=side_bearing,
        main_bearing=main_bearing,
        side_length=side,
        main_length=main,
        gap=screw.gap if main_is_stud else 0.0,
        bending_yield=size.bending_yield,
    )
    return work.call(
        part,
        "reference lateral value, least of the yield modes",
        dowel.reference_lateral,
        joint=joint,
        nominal_diameter=size.diameter,
        angle=ACROSS,
    )


def _axial(screw: ScrewInPlace, work: Workings) -> tuple[float, float]:
    part = "One screw: withdrawal"
    size, lag = screw.size, screw.size.kind is ScrewKind.LAG
    per_inch = work.call(
        part,
        "withdrawal per inch of thread",
        withdrawal.lag_screw_withdrawal if lag else withdrawal.wood_screw_withdrawal,
        specific_gravity=screw.stud_gravity,
        diameter=size.diameter,
    )
    tip = penetration.lag_tip_length(diameter=size.diameter) if lag else 0.0
    thread = max(0.0, min(screw.embedment, screw.thread_length) - tip)
    held = work.call(
        part,
        "withdrawal, thread in the stud",
        withdrawal.thread_hold,
        per_inch=per_inch,
        thread=thread,
    )
    head = size.head_diameter if size.washer_diameter is None else size.washer_diameter
    pull_through = work.call(
        part,
        "head pull-through at the outermost board",
        withdrawal.head_pull_through,
        head_diameter=head,
        specific_gravity=screw.board_gravity,
        thickness=screw.outer_board,
    )
    return held, pull_through


def _service_factors(screw: ScrewInPlace, work: Workings) -> dict[str, float]:
    part = "One screw: factors of service"
    wet = work.call(part, "wet service", factors.wet_service_factor, wet=screw.wet)
    heat = work.call(
        part,
        "temperature",
        factors.temperature_factor,
        temperature=screw.temperature,
        wet=screw.wet,
    )
    return {"C_M": wet, "C_t": heat}


def published_strength(screw: PublishedScrew, *, thread: float, gap: float) -> OneScrew:
    """Return what a screw with its maker's values holds; no equation stands in for them.

    The values are taken for load duration 1.0 and not raised for shorter loads.
    """
    held = screw.withdrawal * thread
    strength = Strength(
        method=f"maker's published values ({screw.source})",
        gap=gap,
        mode="published",
        lateral=screw.lateral,
        withdrawal=held,
        pull_through=screw.pull_through,
        factors={},
    )
    return OneScrew(strength, screw.lateral, min(held, screw.pull_through))
