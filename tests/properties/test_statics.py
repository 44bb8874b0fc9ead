"""Statics that must hold for any layout: balance, bounds, no NaN taken for nothing."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bracecalc.mechanics.statics import beam, earthquake, overturning, sharing
from bracecalc.mechanics.statics.beam import beam_diagram, beam_reactions

EIGHTH = 0.125
LOADS = st.floats(0.0, 5000.0)
MOMENTS = st.floats(-1e6, 1e6)


def layouts(least: int, most: int = 6) -> st.SearchStrategy[tuple[float, ...]]:
    """Studs in 1/8 in over a 72 in wall."""
    marks = st.sets(st.integers(0, 576), min_size=least, max_size=most)
    return marks.map(lambda found: tuple(sorted(EIGHTH * mark for mark in found)))


PLACES = st.integers(-80, 656).map(lambda mark: EIGHTH * mark)
CONTACTS = st.tuples(PLACES, st.integers(1, 400)).map(
    lambda drawn: (drawn[0], drawn[0] + EIGHTH * drawn[1])
)


def moment_of(forces: Sequence[float], places: Sequence[float]) -> float:
    return math.fsum(force * place for force, place in zip(forces, places, strict=True))


def by_flexibility(supports: tuple[float, ...], load: float, load_at: float) -> list[float]:
    """Reactions by another method: inner supports as forces that bring the deflection back to 0.

    Deflection of a simple beam and of its overhang under one load, from any table of beam
    formulas: P b x (L^2 - b^2 - x^2) / (6 EI L) and -P a x (L^2 - x^2) / (6 EI L); EI = 1.
    """
    first, last = supports[0], supports[-1]
    span = last - first

    def deflection(at: float, of: float) -> float:
        x, a = at - first, of - first
        if a < 0.0:
            return a * (span - x) * (span**2 - (span - x) ** 2) / (6.0 * span)
        if a > span:
            return -(a - span) * x * (span**2 - x**2) / (6.0 * span)
        if x > a:
            x, a = span - x, span - a
        b = span - a
        return b * x * (span**2 - b**2 - x**2) / (6.0 * span)

    inner = list(supports[1:-1])
    rows = [[deflection(at, of) for of in inner] for at in inner]
    wanted = [load * deflection(at, load_at) for at in inner]
    held = gauss(rows, wanted)
    far = (load * (load_at - first) - moment_of(held, [x - first for x in inner])) / span
    return [load - math.fsum(held) - far, *held, far]


def gauss(rows: list[list[float]], right: list[float]) -> list[float]:
    size = len(right)
    table = [[*row, value] for row, value in zip(rows, right, strict=True)]
    for k in range(size):
        pivot = max(range(k, size), key=lambda r: abs(table[r][k]))
        table[k], table[pivot] = table[pivot], table[k]
        for r in range(size):
            if r != k:
                factor = table[r][k] / table[k][k]
                table[r] = [x - factor * y for x, y in zip(table[r], table[k], strict=True)]
    return [table[k][size] / table[k][k] for k in range(size)]


@given(spots=layouts(2), load=LOADS, load_at=PLACES)
def test_shares_balance_forces_and_moments(
    spots: tuple[float, ...], load: float, load_at: float
) -> None:
    shares = sharing.stud_shares(spots=spots, load=load, load_at=load_at)
    assert math.fsum(shares) == pytest.approx(load, abs=1e-6)
    # studs 1/8 in apart far from the load multiply the rounding: scale by the greatest share
    scale = max(map(abs, shares)) * 100.0 + 1.0
    assert moment_of(shares, spots) == pytest.approx(load * load_at, abs=1e-9 * scale)


@given(spots=layouts(2), load=LOADS, place=st.floats(0.0, 1.0))
def test_studs_only_push_between_the_outermost(
    spots: tuple[float, ...], load: float, place: float
) -> None:
    load_at = spots[0] + place * (spots[-1] - spots[0])
    shares = sharing.stud_shares(spots=spots, load=load, load_at=load_at)
    assert min(shares) >= 0.0
    assert max(shares) <= load * (1.0 + 1e-9)


@given(spots=layouts(2), load=st.floats(1.0, 5000.0), outside=st.floats(0.125, 40.0))
def test_outside_the_last_stud_it_takes_more_than_all(
    spots: tuple[float, ...], load: float, outside: float
) -> None:
    shares = sharing.stud_shares(spots=spots, load=load, load_at=spots[-1] + outside)
    assert shares[-1] > load
    assert max(map(abs, shares)) == shares[-1]
    mirrored = sharing.stud_shares(
        spots=tuple(-spot for spot in reversed(spots)), load=load, load_at=-spots[-1] - outside
    )
    assert mirrored[::-1] == pytest.approx(shares)


@given(spots=layouts(1), load=LOADS, contact=CONTACTS)
def test_the_governing_share_is_at_least_the_even_share(
    spots: tuple[float, ...], load: float, contact: tuple[float, float]
) -> None:
    governing = sharing.governing_share(spots=spots, load=load, left=contact[0], right=contact[1])
    assert governing.share >= load / len(spots) * (1.0 - 1e-9)
    for place in (contact[0], sum(contact) / 2.0, contact[1]):
        shares = sharing.stud_shares(spots=spots, load=load, load_at=place)
        assert governing.share >= max(map(abs, shares)) * (1.0 - 1e-9)


@given(spots=layouts(1), contact=CONTACTS, load=LOADS, more=st.floats(0.0, 1000.0))
def test_more_load_never_less_share(
    spots: tuple[float, ...], contact: tuple[float, float], load: float, more: float
) -> None:
    one, other = (
        sharing.governing_share(spots=spots, load=each, left=contact[0], right=contact[1])
        for each in (load, load + more)
    )
    assert other.share >= one.share * (1.0 - 1e-12)


@given(moment=LOADS, depths=st.lists(st.floats(0.05, 20.0), min_size=1, max_size=4))
def test_rows_balance_the_moment(moment: float, depths: Sequence[float]) -> None:
    tensions = sharing.row_tensions(moment=moment, depths=depths)
    assert moment_of(tensions, depths) == pytest.approx(moment, abs=1e-9)
    assert max(tensions) == tensions[depths.index(max(depths))]


@given(supports=layouts(2), contact=CONTACTS, load=LOADS)
def test_a_beam_is_in_balance(
    supports: tuple[float, ...], contact: tuple[float, float], load: float
) -> None:
    reactions = beam_reactions(supports=supports, left=contact[0], right=contact[1], load=load)
    scale = max(map(abs, reactions)) * 100.0 + 1.0
    assert math.fsum(reactions) == pytest.approx(load, abs=1e-8 * scale)
    assert moment_of(reactions, supports) == pytest.approx(
        load * sum(contact) / 2.0, abs=1e-8 * scale
    )


@given(supports=layouts(2), load=st.floats(1.0, 5000.0), load_at=PLACES)
def test_three_moments_agree_with_the_flexibility_method(
    supports: tuple[float, ...], load: float, load_at: float
) -> None:
    ours = beam_reactions(supports=supports, left=load_at, right=load_at, load=load)
    other = by_flexibility(supports, load, load_at)
    scale = max(map(abs, other))
    if scale < 1e4 * load:  # studs that all but touch leave both methods without digits
        assert ours == pytest.approx(other, abs=1e-5 * scale)


@given(supports=layouts(2, 4), contact=CONTACTS)
def test_a_spread_load_is_many_small_ones(
    supports: tuple[float, ...], contact: tuple[float, float]
) -> None:
    left, right = contact
    pieces = 200
    step = (right - left) / pieces
    summed = [0.0] * len(supports)
    for k in range(pieces):
        place = left + (k + 0.5) * step
        part = beam_reactions(supports=supports, left=place, right=place, load=1.0 / pieces)
        summed = [x + y for x, y in zip(summed, part, strict=True)]
    whole = beam_reactions(supports=supports, left=left, right=right, load=1.0)
    scale = max(1.0, *map(abs, whole))
    assert summed == pytest.approx(whole, abs=1e-2 * scale)


@given(supports=layouts(2), contact=CONTACTS, load=LOADS)
def test_the_envelope_is_no_less_than_any_of_its_contacts(
    supports: tuple[float, ...], contact: tuple[float, float], load: float
) -> None:
    left, right = contact
    actions = beam.board_actions(supports=supports, left=left, right=right, load=load)
    for start, end in ((left, right), (left, left), (right, right)):
        reactions = beam_reactions(supports=supports, left=start, right=end, load=load)
        drawn = beam_diagram(
            supports=supports, reactions=reactions, left=start, right=end, load=load
        )
        slack = 1e-9 * (1.0 + drawn.moment + drawn.shear)
        assert actions.moment >= drawn.moment - slack
        assert actions.shear >= drawn.shear - slack
    assert actions.moment >= max(actions.support_moments) * (1.0 - 1e-12)
    assert actions.shear >= max(actions.support_shears) * (1.0 - 1e-12)


@given(overturning_moment=MOMENTS, stabilising=MOMENTS, arm=st.floats(1.0, 60.0))
def test_the_restraint_force_balances_or_is_not_needed(
    overturning_moment: float, stabilising: float, arm: float
) -> None:
    force = overturning.restraint_force(
        overturning=overturning_moment, stabilising=stabilising, arm=arm
    )
    assert force >= 0.0
    left = overturning_moment - stabilising - force * arm
    assert left == pytest.approx(0.0, abs=1e-6) if force else left <= 0.0


@given(
    bad=st.sampled_from([math.nan, math.inf, -math.inf]),
    slot=st.sampled_from(["overturning", "stabilising", "arm"]),
    value=st.floats(1.0, 1e6),
)
def test_a_nan_is_never_no_force(bad: float, slot: str, value: float) -> None:
    inputs = {"overturning": value, "stabilising": 2.0 * value, "arm": 20.0, slot: bad}
    with pytest.raises(ValueError, match=slot):
        overturning.restraint_force(**inputs)


@given(
    s_ds=st.floats(0.01, earthquake.GREATEST_S_DS),
    weight=st.floats(0.0, 3000.0),
    z_over_h=st.floats(0.0, 1.0),
    i_p=st.floats(1.0, 1.5),
    r_p=st.floats(1.0, 12.0),
)
def test_the_earthquake_force_stays_within_its_limits(
    s_ds: float, weight: float, z_over_h: float, i_p: float, r_p: float
) -> None:
    force = earthquake.component_force_7_16(
        s_ds=s_ds, weight=weight, a_p=1.0, r_p=r_p, i_p=i_p, z_over_h=z_over_h
    )
    base = s_ds * i_p * weight
    assert 0.3 * base * (1.0 - 1e-12) <= force <= 1.6 * base * (1.0 + 1e-12)


@given(
    s_ds=st.floats(0.01, earthquake.GREATEST_S_DS),
    weight=st.floats(0.0, 3000.0),
    behind=st.floats(0.0, 30.0),
)
def test_the_weight_never_turns_its_sign(s_ds: float, weight: float, behind: float) -> None:
    moments = earthquake.earthquake_moments(
        s_ds=s_ds, force=0.0, height=0.0, weight=weight, behind_front_legs=behind
    )
    assert 0.0 <= moments.stabilising <= 0.6 * weight * behind
