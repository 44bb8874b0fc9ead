"""Yield modes: identities, limits with closed answers, and what must never pass."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published.closed_forms import bending_yield_strength, yield_limits_table

from bracecalc.mechanics.nds import dowel
from bracecalc.mechanics.nds.dowel import Joint, Mode

SCREW = Joint(  # No. 10 in SPF
    diameter=0.152,
    side_bearing=3350.0,
    main_bearing=3350.0,
    side_length=1.5,
    main_length=1.9,
    gap=0.0,
    bending_yield=80_000.0,
)


def of_size(least: float, most: float) -> st.SearchStrategy[float]:
    return st.floats(least, most, allow_nan=False)


JOINTS = st.builds(
    Joint,
    diameter=of_size(0.1, 0.5),
    side_bearing=of_size(1000.0, 70_000.0),
    main_bearing=of_size(1000.0, 20_000.0),
    side_length=of_size(0.05, 6.0),
    main_length=of_size(0.5, 6.0),
    gap=st.just(0.0),
    bending_yield=of_size(30_000.0, 150_000.0),
)


@given(JOINTS)
def test_the_two_writings_agree_at_gap_0(joint: Joint) -> None:
    table = yield_limits_table(joint)
    for mode, load in dowel.yield_loads(joint).items():
        assert load == pytest.approx(table[mode], rel=1e-7)


@given(JOINTS, of_size(0.0, 4.0), of_size(0.0, 4.0))
def test_a_wider_gap_never_holds_more(joint: Joint, one: float, other: float) -> None:
    narrow = dowel.yield_loads(dataclasses.replace(joint, gap=min(one, other)))
    wide = dowel.yield_loads(dataclasses.replace(joint, gap=max(one, other)))
    for mode in Mode:
        assert wide[mode] <= narrow[mode] * (1.0 + 1e-12)
        assert wide[mode] > 0.0


@given(JOINTS)
def test_turning_the_joint_round_swaps_the_members(joint: Joint) -> None:
    turned = dataclasses.replace(
        joint,
        side_bearing=joint.main_bearing,
        main_bearing=joint.side_bearing,
        side_length=joint.main_length,
        main_length=joint.side_length,
    )
    loads, other = dowel.yield_loads(joint), dowel.yield_loads(turned)
    assert loads[Mode.III_m] == pytest.approx(other[Mode.III_s], rel=1e-12)
    assert loads[Mode.I_m] == other[Mode.I_s]
    assert loads[Mode.II] == pytest.approx(other[Mode.II], rel=1e-12)
    assert loads[Mode.IV] == pytest.approx(other[Mode.IV], rel=1e-12)


@given(JOINTS, st.sampled_from(["side_bearing", "main_bearing", "bending_yield", "diameter"]))
def test_stronger_material_never_holds_less(joint: Joint, part: str) -> None:
    stronger = dataclasses.replace(joint, **{part: 1.1 * getattr(joint, part)})
    for mode, load in dowel.yield_loads(joint).items():
        assert dowel.yield_loads(stronger)[mode] >= load * (1.0 - 1e-12)


def test_far_apart_the_screw_is_a_cantilever_bent_both_ways() -> None:
    # two plastic hinges a gap apart: P g = 2 M once the gap is long against the crushed wood
    gap = 1.0e4
    load = dowel.yield_loads(dataclasses.replace(SCREW, gap=gap))[Mode.IV]
    moment = SCREW.bending_yield * SCREW.diameter**3 / 6.0
    assert load * gap == pytest.approx(2.0 * moment, rel=1e-6)


def held_by_a_hinge(load: float, q: float, moment: float) -> float:
    """Moment at the face of a member in which the screw bends: crushed over load / q."""
    return moment - load * (load / q) / 2.0


def held_by_turning(load: float, q: float, length: float) -> float:
    """Moment at the face of a member in which the straight screw turns.

    It crushes the wood one way over ``near`` next to the face, and the other way behind it.
    """
    near = (load / q + length) / 2.0
    back = length - near
    return q * back * (near + back / 2.0) - q * near * near / 2.0


@given(JOINTS, of_size(0.0, 3.0))
def test_the_free_body_over_the_gap_is_in_balance(joint: Joint, gap: float) -> None:
    # the two members' moments at their faces carry the shear across the gap: m_s + m_m = P g
    loads = dowel.yield_loads(dataclasses.replace(joint, gap=gap))
    q_s, q_m = joint.side_bearing * joint.diameter, joint.main_bearing * joint.diameter
    moment = joint.bending_yield * joint.diameter**3 / 6.0
    l_s, l_m = joint.side_length, joint.main_length
    for mode, side_turns, main_turns in (
        (Mode.II, True, True),
        (Mode.III_m, False, True),
        (Mode.III_s, True, False),
        (Mode.IV, False, False),
    ):
        load = loads[mode]
        side = held_by_turning(load, q_s, l_s) if side_turns else held_by_a_hinge(load, q_s, moment)
        main = held_by_turning(load, q_m, l_m) if main_turns else held_by_a_hinge(load, q_m, moment)
        scale = moment + q_s * l_s**2 + q_m * l_m**2 + load * load * (1.0 / q_s + 1.0 / q_m)
        assert side + main - load * gap == pytest.approx(0.0, abs=1e-9 * scale)


def test_half_an_inch_of_gypsum_board_costs_nearly_half() -> None:
    # No. 10 x 3-1/2 in through a 2-by, G 0.42; 99.3 and 57.0 lbf by an independent script
    bare = dataclasses.replace(SCREW, main_length=2.0)
    over = dataclasses.replace(SCREW, main_length=1.5 - 0.19, gap=0.5)
    values = [
        dowel.reference_lateral(joint, nominal_diameter=0.190, angle=90.0).value
        for joint in (bare, over)
    ]
    assert values == pytest.approx([99.3, 57.0], abs=0.05)


def test_the_least_mode_is_named() -> None:
    z = dowel.reference_lateral(SCREW, nominal_diameter=0.190, angle=90.0)
    assert z.value == min(z.by_mode.values()) == z.by_mode[z.mode]


@pytest.mark.parametrize(
    ("mode", "diameter", "root", "angle", "expected"),
    [
        (Mode.IV, 0.190, 0.152, 90.0, 2.2),  # K_D; the angle plays no part
        (Mode.I_m, 0.242, 0.196, 0.0, 2.46),  # 10 D_r + 0.5
        (Mode.II, 0.242, 0.17, 0.0, 2.2),
        (Mode.II, 0.25, 0.173, 90.0, 2.23 * 1.25),  # K_D K_theta
        (Mode.I_s, 0.5, 0.371, 0.0, 4.0),
        (Mode.II, 0.5, 0.371, 0.0, 3.6),
        (Mode.III_m, 0.5, 0.371, 0.0, 3.2),
        (Mode.III_s, 0.375, 0.265, 90.0, 4.0),
        (Mode.IV, 0.375, 0.265, 45.0, 3.2 * 1.125),
    ],
)
def test_reduction_term(
    mode: Mode, diameter: float, root: float, angle: float, expected: float
) -> None:
    term = dowel.reduction_term(mode=mode, diameter=diameter, root_diameter=root, angle=angle)
    assert term == pytest.approx(expected, rel=1e-12)


def test_hankinson_ends_and_middle() -> None:
    assert dowel.hankinson(along=5600.0, across=4450.0, angle=0.0) == 5600.0
    assert dowel.hankinson(along=5600.0, across=4450.0, angle=90.0) == 4450.0
    # at 45 degrees sin2 = cos2 = 1/2: the harmonic mean
    mean = 2.0 / (1.0 / 5600.0 + 1.0 / 4450.0)
    assert dowel.hankinson(along=5600.0, across=4450.0, angle=45.0) == pytest.approx(mean)


@given(of_size(0.3, 0.9), of_size(0.1, 0.75), of_size(0.0, 90.0))
def test_rounding_moves_bearing_strength_by_25_psi_at_most_at_the_ends(
    gravity: float, diameter: float, angle: float
) -> None:
    for end in (0.0, 90.0):
        exact = dowel.unrounded_bearing_strength(
            specific_gravity=gravity, diameter=diameter, angle=end
        )
        table = dowel.dowel_bearing_strength(specific_gravity=gravity, diameter=diameter, angle=end)
        assert abs(exact - table) <= 25.0 + 1e-6
        assert table % 50.0 == 0.0
    between = dowel.dowel_bearing_strength(specific_gravity=gravity, diameter=diameter, angle=angle)
    ends = [
        dowel.dowel_bearing_strength(specific_gravity=gravity, diameter=diameter, angle=end)
        for end in (0.0, 90.0)
    ]
    assert min(ends) * (1 - 1e-12) <= between <= max(ends) * (1 + 1e-12)


@pytest.mark.parametrize(
    ("diameter", "strength"),
    [
        (0.099, 100_000.0),
        (0.142, 100_000.0),
        (0.164, 90_000.0),
        (0.177, 90_000.0),
        (0.216, 80_000.0),
        (0.236, 80_000.0),
        (0.242, 70_000.0),
        (0.25, 70_000.0),
        (0.273, 70_000.0),
        (0.3125, 60_000.0),
        (0.344, 60_000.0),
        (0.375, 45_000.0),
        (1.0, 45_000.0),
    ],
)
def test_bending_yield_steps(diameter: float, strength: float) -> None:
    assert bending_yield_strength(diameter=diameter) == strength


def test_below_the_table_there_is_no_bending_yield() -> None:
    with pytest.raises(ValueError, match=r"0\.099 in or more"):
        bending_yield_strength(diameter=0.09)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, 0.0, -1.0])
@pytest.mark.parametrize("name", [f.name for f in dataclasses.fields(Joint)])
def test_a_joint_refuses_what_is_no_size(name: str, bad: float) -> None:
    if name == "gap" and bad == 0.0:
        return
    with pytest.raises(ValueError, match=name):
        dataclasses.replace(SCREW, **{name: bad})


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0, 90.1])
def test_an_angle_is_0_to_90(bad: float) -> None:
    with pytest.raises(ValueError, match="angle"):
        dowel.dowel_bearing_strength(specific_gravity=0.5, diameter=0.19, angle=bad)
    with pytest.raises(ValueError, match="angle"):
        dowel.reference_lateral(SCREW, nominal_diameter=0.19, angle=bad)


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0, -0.5])
def test_bearing_strength_refuses_what_is_no_number(bad: float) -> None:
    with pytest.raises(ValueError, match="specific_gravity"):
        dowel.dowel_bearing_strength(specific_gravity=bad, diameter=0.19, angle=0.0)
    with pytest.raises(ValueError, match="diameter"):
        dowel.dowel_bearing_strength(specific_gravity=0.5, diameter=bad, angle=0.0)


def test_the_closed_forms_refuse_a_gap() -> None:
    with pytest.raises(ValueError, match="gap of 0 only"):
        yield_limits_table(dataclasses.replace(SCREW, gap=0.25))


def test_root_diameter_is_not_more_than_nominal() -> None:
    with pytest.raises(ValueError, match="not be more than D"):
        dowel.reference_lateral(SCREW, nominal_diameter=0.15, angle=0.0)


def test_sizes_beyond_floats_never_become_a_strength() -> None:
    huge = dataclasses.replace(SCREW, main_bearing=1e308, side_bearing=1e308, main_length=1e308)
    with pytest.raises((ValueError, OverflowError)):
        dowel.reference_lateral(huge, nominal_diameter=0.19, angle=90.0)
