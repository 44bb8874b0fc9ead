"""What one screw, the board and the finish hold by Eurocode 5, in inches and lbf outside."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

from bracecalc.mechanics.eurocode5 import axial as eurocode5_axial
from bracecalc.mechanics.eurocode5 import design as eurocode5_design
from bracecalc.mechanics.eurocode5 import lateral as eurocode5
from bracecalc.mechanics.eurocode5.design import LoadDuration
from bracecalc.records.conversions import MM_PER_INCH, NEWTONS_PER_LBF
from bracecalc.records.job import Job, Loads
from bracecalc.records.plan import CaseName, Strength
from bracecalc.records.reference import ScrewKind, ScrewSize, Tables, TimberClass
from bracecalc.strength.nds import ACROSS, OneScrew, ScrewInPlace
from bracecalc.strength.parts import BoardStrength
from bracecalc.strength.workings import Workings

PSI = 145.03773773  # psi in a N/mm2
METHOD = "EN 1995-1-1 (Eurocode 5)"
LARGEST_MODIFICATION = 1.1  # EN 1995-1-1 table 3.1, instantaneous
TIMBER_GAMMA = 1.3  # EN 1995-1-1 table 2.3, solid timber

DURATIONS = {
    CaseName.MINIMUM: LoadDuration.SHORT,
    CaseName.CHILD_ALONE: LoadDuration.SHORT,
    CaseName.SERVICE: LoadDuration.LONG,
    CaseName.CLIMB: LoadDuration.SHORT,
    CaseName.PULL: LoadDuration.SHORT,
    CaseName.EARTHQUAKE: LoadDuration.INSTANTANEOUS,
}


def _mm(inches: float) -> float:
    # the table holds metric sizes in inches: back to the size on the box, 0.001 mm
    return round(inches * MM_PER_INCH, 3)


def modification(job: Job, case: CaseName) -> float:
    """Return k_mod of a load case, which stands where C_D does in the NDS; the job may lower it."""
    given = job.loads.load_duration.get(case.key)
    if given is not None:
        return min(given, LARGEST_MODIFICATION)
    return eurocode5_design.modification_factor(
        duration=DURATIONS[case], service_class=job.loads.service_class
    )


def ec5_strength(screw: ScrewInPlace, loads: Loads, tables: Tables, work: Workings) -> OneScrew:
    """Return what one screw holds, characteristic over gamma_M, before k_mod.

    A screw that the equations don't cover, as one under 6 mm pulled out, holds nothing here: it
    needs its maker's values.
    """
    timber = tables.timber_classes[loads.timber_class]
    if not work.recording:
        return _silent(screw, timber.density, timber.compression_across, loads.gamma_m)
    return _strength(screw, timber.density, timber.compression_across, loads.gamma_m, work)


@lru_cache(maxsize=4096)
def _silent(screw: ScrewInPlace, density: float, crushing: float, gamma: float) -> OneScrew:
    return _strength(screw, density, crushing, gamma, Workings())


def _strength(
    screw: ScrewInPlace, density: float, crushing: float, gamma: float, work: Workings
) -> OneScrew:
    if screw.size.kind is not ScrewKind.COACH:
        nothing = Strength(
            method=METHOD, gap=screw.gap, mode="not covered", lateral=0.0, withdrawal=0.0,
            pull_through=0.0, factors={},
        )  # fmt: skip
        return OneScrew(nothing, 0.0, 0.0)
    withdrawal, pull_through = _axial(screw, density, crushing, work)
    axial = min(withdrawal, pull_through)
    lateral = _lateral(screw, density, axial, work)
    strength = Strength(
        method=METHOD,
        gap=screw.gap,
        mode=lateral.mode.value,
        lateral=lateral.value / NEWTONS_PER_LBF,
        withdrawal=withdrawal / NEWTONS_PER_LBF,
        pull_through=pull_through / NEWTONS_PER_LBF,
        factors={"gamma_M": gamma},
    )
    return OneScrew(
        strength, lateral.value / NEWTONS_PER_LBF / gamma, axial / NEWTONS_PER_LBF / gamma
    )


def _axial(
    screw: ScrewInPlace, density: float, crushing: float, work: Workings
) -> tuple[float, float]:
    part = "One screw: withdrawal"
    size = screw.size
    diameter = _mm(size.diameter)
    thread = max(0.0, min(screw.embedment, screw.thread_length) - size.diameter) * MM_PER_INCH
    withdrawal = 0.0
    if thread > 0.0:
        strength = work.call(
            part,
            "withdrawal strength of the thread",
            eurocode5_axial.withdrawal_strength,
            diameter=diameter,
            root_diameter=_mm(size.root_diameter),
            thread=thread,
            density=density,
        )
        withdrawal = work.call(
            part,
            "withdrawal of the thread in the stud",
            eurocode5_axial.withdrawal_capacity,
            strength=strength,
            diameter=diameter,
            thread=thread,
            angle=90.0,
        )
    washer = size.head_diameter if size.washer_diameter is None else size.washer_diameter
    pull_through = work.call(
        part,
        "washer pressed into the outermost board",
        eurocode5_axial.washer_capacity,
        crushing=crushing,
        washer_diameter=_mm(washer),
        hole_diameter=diameter,
    )
    return withdrawal, pull_through


def _lateral(
    screw: ScrewInPlace, density: float, axial: float, work: Workings
) -> eurocode5.LateralCapacity:
    at_wall = _joint(screw, density, axial, work, wall=True)
    if screw.next_board is None:
        return at_wall
    between = _joint(screw, density, axial, work, wall=False)
    return min(at_wall, between, key=lambda capacity: capacity.value)


def _joint(
    screw: ScrewInPlace, density: float, axial: float, work: Workings, *, wall: bool
) -> eurocode5.LateralCapacity:
    part = (
        "One screw: lateral, first board against stud"
        if wall
        else "One screw: lateral, outermost board against the next"
    )
    size = screw.size
    diameter = work.call(
        part,
        "effective diameter",
        eurocode5.effective_diameter,
        root_diameter=_mm(size.root_diameter),
    )
    side, main = (
        work.call(
            part,
            f"embedment strength, {words}",
            eurocode5.embedment_strength,
            density=density,
            diameter=diameter,
            predrilled=True,
            angle=angle,
        )
        for words, angle in (
            ("board, across its grain", ACROSS),
            (
                "what it bites in" if wall else "next board, across",
                screw.main_angle if wall else ACROSS,
            ),
        )
    )
    moment = work.call(
        part,
        "yield moment of the screw",
        eurocode5.yield_moment,
        tensile_strength=size.bending_yield / PSI,
        diameter=diameter,
    )
    main_length = screw.embedment - size.diameter if wall else screw.next_board
    joint = eurocode5.TimberJoint(
        diameter=diameter,
        side_embedment=side,
        main_embedment=main,
        side_thickness=(screw.wall_board if wall else screw.outer_board) * MM_PER_INCH,
        main_thickness=(0.0 if main_length is None else main_length) * MM_PER_INCH,
        gap=screw.gap * MM_PER_INCH if wall else 0.0,
        yield_moment=moment,
    )
    return work.call(
        part,
        "characteristic lateral capacity, least of the failure modes",
        eurocode5.characteristic_lateral,
        joint=joint,
        axial=axial,
    )


def group_shares(size: ScrewSize, depths: tuple[float, ...], work: Workings) -> tuple[float, float]:
    """Return the share of each screw that counts, lateral and pulled, with several in one line."""
    if len(depths) < 2:
        return 1.0, 1.0
    ordered = sorted(depths)
    effective = work.call(
        "The stack: governing stud",
        "effective number of the screws in one line",
        eurocode5_design.effective_lateral_number,
        count=len(depths),
        spacing=min(after - before for before, after in pairwise(ordered)) * MM_PER_INCH,
        diameter=1.1 * _mm(size.root_diameter),
        staggered=False,
    )
    pulled = work.call(
        "The stack: governing stud",
        "effective number of the screws that are pulled",
        eurocode5_design.effective_axial_number,
        count=len(depths),
    )
    return effective / len(depths), pulled / len(depths)


def board_strength(loads: Loads, tables: Tables, crushing: float | None) -> BoardStrength:
    """Return the strengths of the outermost board over gamma_M, psi, before k_mod."""
    timber: TimberClass = tables.timber_classes[loads.timber_class]
    return BoardStrength(
        bending=timber.bending * PSI / TIMBER_GAMMA,
        shear=timber.shear * PSI / TIMBER_GAMMA,
        crushing=crushing,
        across=timber.compression_across * PSI / TIMBER_GAMMA,
    )
