"""Eurocode 5: Johansen modes against an independent writing, rope effect, ranges, factors."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bracecalc.mechanics.eurocode5 import axial as eurocode5_axial
from bracecalc.mechanics.eurocode5 import design as eurocode5_design
from bracecalc.mechanics.eurocode5 import lateral as eurocode5
from bracecalc.mechanics.eurocode5.design import LoadDuration
from bracecalc.mechanics.eurocode5.lateral import Failure, TimberJoint
from bracecalc.mechanics.nds import dowel

JOINT = TimberJoint(
    diameter=4.4,
    side_embedment=27.4,
    main_embedment=27.4,
    side_thickness=38.0,
    main_thickness=50.0,
    gap=0.0,
    yield_moment=5651.0,
)
JOINTS = st.builds(
    TimberJoint,
    diameter=st.floats(2.5, 12.0),
    side_embedment=st.floats(8.0, 60.0),
    main_embedment=st.floats(8.0, 60.0),
    side_thickness=st.floats(5.0, 150.0),
    main_thickness=st.floats(10.0, 150.0),
    gap=st.just(0.0),
    yield_moment=st.floats(500.0, 2e5),
)


@given(JOINTS)
def test_johansen_is_the_equilibrium_at_gap_0(joint: TimberJoint) -> None:
    printed = eurocode5.johansen_loads(joint)
    for mode, load in eurocode5.gapped_johansen_loads(joint).items():
        assert load == pytest.approx(printed[mode], rel=1e-7)


@given(JOINTS, st.floats(0.0, 60.0), st.floats(0.0, 60.0))
def test_a_wider_gap_never_holds_more(joint: TimberJoint, one: float, other: float) -> None:
    narrow = eurocode5.gapped_johansen_loads(dataclasses.replace(joint, gap=min(one, other)))
    wide = eurocode5.gapped_johansen_loads(dataclasses.replace(joint, gap=max(one, other)))
    for mode in Failure:
        assert 0.0 < wide[mode] <= narrow[mode] * (1.0 + 1e-12)


@given(JOINTS, st.floats(0.0, 60.0))
def test_over_a_gap_only_the_factors_set_it_apart_from_the_general_dowel_equations(
    joint: TimberJoint, gap: float
) -> None:
    # their free body is tested in test_dowel.py; a consistent set of units serves both
    general = dowel.yield_loads(
        dowel.Joint(
            diameter=joint.diameter,
            side_bearing=joint.side_embedment,
            main_bearing=joint.main_embedment,
            side_length=joint.side_thickness,
            main_length=joint.main_thickness,
            gap=gap,
            bending_yield=6.0 * joint.yield_moment / joint.diameter**3,
        )
    )
    ours = eurocode5.gapped_johansen_loads(dataclasses.replace(joint, gap=gap))
    for factor, mode, same in (
        (1.0, Failure.A, dowel.Mode.I_s),
        (1.0, Failure.B, dowel.Mode.I_m),
        (1.0, Failure.C, dowel.Mode.II),
        (1.05, Failure.D, dowel.Mode.III_s),
        (1.05, Failure.E, dowel.Mode.III_m),
        (1.15, Failure.F, dowel.Mode.IV),
    ):
        assert ours[mode] == pytest.approx(factor * general[same], rel=1e-9)


def test_rope_effect_is_a_quarter_of_the_axial_on_modes_c_to_f() -> None:
    bare = eurocode5.characteristic_lateral(JOINT, axial=0.0).by_mode
    roped = eurocode5.characteristic_lateral(JOINT, axial=400.0).by_mode
    for mode in Failure:
        extra = 0.0 if mode in (Failure.A, Failure.B) else 100.0
        assert roped[mode] - bare[mode] == pytest.approx(extra)


def test_rope_effect_at_most_doubles_the_johansen_part() -> None:
    bare = eurocode5.characteristic_lateral(JOINT, axial=0.0).by_mode
    roped = eurocode5.characteristic_lateral(JOINT, axial=1e6).by_mode
    assert roped[Failure.F] == pytest.approx(2.0 * bare[Failure.F])


def test_no_rope_effect_over_a_gap() -> None:
    gapped = dataclasses.replace(JOINT, gap=0.5)
    without = eurocode5.characteristic_lateral(gapped, axial=0.0)
    assert eurocode5.characteristic_lateral(gapped, axial=1e4) == without
    assert without.value < eurocode5.characteristic_lateral(JOINT, axial=0.0).value


def test_the_printed_equations_refuse_a_gap() -> None:
    with pytest.raises(ValueError, match="gap of 0 only"):
        eurocode5.johansen_loads(dataclasses.replace(JOINT, gap=1.0))


def test_embedment_turns_with_the_grain_only_above_6_mm() -> None:
    def at(diameter: float, angle: float) -> float:
        return eurocode5.embedment_strength(
            density=350.0, diameter=diameter, predrilled=True, angle=angle
        )

    assert at(6.0, 90.0) == at(6.0, 0.0) == pytest.approx(0.082 * 0.94 * 350.0)
    assert at(8.0, 90.0) == pytest.approx(0.082 * 0.92 * 350.0 / 1.47)
    assert at(8.0, 0.0) == pytest.approx(0.082 * 0.92 * 350.0)


def test_thick_screws_need_a_drilled_hole() -> None:
    driven = eurocode5.embedment_strength(density=350.0, diameter=1.0, predrilled=False, angle=0.0)
    assert driven == pytest.approx(28.7)
    with pytest.raises(ValueError, match="must be drilled"):
        eurocode5.embedment_strength(density=350.0, diameter=6.5, predrilled=False, angle=0.0)
    with pytest.raises(ValueError, match="embedment_strength"):
        eurocode5.embedment_strength(density=350.0, diameter=100.0, predrilled=True, angle=0.0)


def test_withdrawal_has_a_range() -> None:
    def strength(diameter: float, root: float) -> float:
        return eurocode5_axial.withdrawal_strength(
            diameter=diameter, root_diameter=root, thread=60.0, density=350.0
        )

    assert strength(6.0, 4.0) > 0.0
    for diameter, root in ((5.9, 4.0), (12.1, 8.0)):
        with pytest.raises(ValueError, match="6 to 12 mm"):
            strength(diameter, root)
    for diameter, root in ((8.0, 4.7), (8.0, 6.1)):
        with pytest.raises(ValueError, match=r"0\.6 to 0\.75"):
            strength(diameter, root)


def test_thin_screws_are_reduced_by_d_over_8() -> None:
    # f_ax,k goes with d^-0.5; k_d with d/8 below 8 mm
    thin, thick = (
        eurocode5_axial.withdrawal_strength(
            diameter=d, root_diameter=0.7 * d, thread=60.0, density=350.0
        )
        for d in (6.0, 8.0)
    )
    assert thin / thick == pytest.approx((8.0 / 6.0) ** 0.5 * 6.0 / 8.0)


def test_short_thread_counts_for_nothing() -> None:
    def capacity(thread: float) -> float:
        return eurocode5_axial.withdrawal_capacity(
            strength=12.0, diameter=8.0, thread=thread, angle=90.0
        )

    assert capacity(0.0) == capacity(47.9) == 0.0
    assert capacity(48.0) == pytest.approx(12.0 * 8.0 * 48.0)


def test_slanting_screws_hold_less_and_below_30_degrees_nothing_is_known() -> None:
    capacity = eurocode5_axial.withdrawal_capacity
    across = capacity(strength=12.0, diameter=8.0, thread=60.0, angle=90.0)
    half = capacity(strength=12.0, diameter=8.0, thread=60.0, angle=45.0)
    assert half == pytest.approx(across / 1.1)
    with pytest.raises(ValueError, match="30 degrees"):
        capacity(strength=12.0, diameter=8.0, thread=60.0, angle=29.0)


def test_a_washer_bears_at_three_times_the_crushing_strength_on_its_ring() -> None:
    # sizes for which the ring is pi/4 (5^2 - 3^2) = 4 pi mm2
    capacity = eurocode5_axial.washer_capacity(crushing=1.0, washer_diameter=5.0, hole_diameter=3.0)
    assert capacity == pytest.approx(12.0 * math.pi)
    with pytest.raises(ValueError, match="hole must be smaller"):
        eurocode5_axial.washer_capacity(crushing=1.0, washer_diameter=3.0, hole_diameter=3.0)


def test_row_of_thin_screws_between_the_steps() -> None:
    def number(spacing: float, count: int = 4) -> float:
        return eurocode5_design.effective_lateral_number(
            count=count, spacing=spacing * 4.0, diameter=4.0, staggered=False
        )

    assert number(4.0) == pytest.approx(2.0)  # 4^0.5
    assert number(7.0) == pytest.approx(4.0**0.7)
    assert number(8.5) == pytest.approx(4.0**0.775)
    assert number(14.0) == number(30.0) == 4.0
    assert number(4.0, count=1) == 1.0
    with pytest.raises(ValueError, match="at least 4 d"):
        number(3.9)


def test_staggered_thin_screws_all_count() -> None:
    assert (
        eurocode5_design.effective_lateral_number(
            count=3, spacing=20.0, diameter=5.0, staggered=True
        )
        == 3.0
    )


def test_row_of_thick_screws() -> None:
    def number(spacing: float) -> float:
        return eurocode5_design.effective_lateral_number(
            count=3, spacing=spacing, diameter=8.0, staggered=False
        )

    assert number(104.0) == pytest.approx(3.0**0.9)
    assert number(8.0 * 13.0 / 16.0) == pytest.approx(3.0**0.9 / 2.0)
    assert number(8.0 * 13.0 * 16.0) == 3.0


def test_service_classes_are_three() -> None:
    with pytest.raises(ValueError, match="service class must be 1, 2 or 3"):
        eurocode5_design.modification_factor(duration=LoadDuration.SHORT, service_class=4)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, 0.0, -1.0])
@pytest.mark.parametrize("name", [f.name for f in dataclasses.fields(TimberJoint)])
def test_a_joint_refuses_what_is_no_size(name: str, bad: float) -> None:
    if name == "gap" and bad == 0.0:
        return
    with pytest.raises(ValueError, match=name):
        dataclasses.replace(JOINT, **{name: bad})


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, -1.0])
def test_what_is_no_number_is_refused(bad: float) -> None:
    for call in (
        lambda: eurocode5.characteristic_lateral(JOINT, axial=bad),
        lambda: eurocode5.effective_diameter(root_diameter=bad),
        lambda: eurocode5.yield_moment(tensile_strength=bad, diameter=5.0),
        lambda: eurocode5_axial.withdrawal_capacity(
            strength=12.0, diameter=8.0, thread=bad, angle=90.0
        ),
        lambda: eurocode5_design.effective_lateral_number(
            count=2, spacing=bad, diameter=5.0, staggered=False
        ),
    ):
        with pytest.raises(ValueError, match="must be finite"):
            call()


def test_sizes_beyond_floats_never_become_a_strength() -> None:
    huge = dataclasses.replace(JOINT, main_embedment=1e308, side_embedment=1e308)
    for gap in (0.0, 1.0):
        with pytest.raises((ValueError, OverflowError)):
            eurocode5.characteristic_lateral(dataclasses.replace(huge, gap=gap), axial=0.0)
