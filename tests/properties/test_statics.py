"""Statics that must hold for any layout: balance, bounds, no NaN taken for nothing."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bracecalc.mechanics.statics import earthquake, overturning, sharing
from bracecalc.mechanics.statics.beam import beam_diagram, contact_spreads
from bracecalc.mechanics.statics.contact import contact_points

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


@given(spots=layouts(2), load=LOADS, load_at=PLACES)
def test_shares_balance_forces_and_moments(
    spots: tuple[float, ...], load: float, load_at: float
) -> None:
    shares = sharing.stud_shares(spots=spots, load=load, load_at=load_at)
    assert math.fsum(shares) == pytest.approx(load, abs=1e-6)
    # studs 1/8 in apart far from the load multiply the rounding: scale by the greatest share
    scale = max(map(abs, shares)) * 100.0 + 1.0
    assert moment_of(shares, spots) == pytest.approx(load * load_at, abs=1e-9 * scale)


@given(spots=layouts(2), load=st.floats(1.0, 5000.0), load_at=PLACES)
def test_shares_mirror(spots: tuple[float, ...], load: float, load_at: float) -> None:
    shares = sharing.stud_shares(spots=spots, load=load, load_at=load_at)
    mirrored = sharing.stud_shares(
        spots=tuple(-spot for spot in reversed(spots)), load=load, load_at=-load_at
    )
    scale = max(map(abs, shares))
    assert mirrored[::-1] == pytest.approx(shares, abs=1e-9 * scale)


@given(spots=layouts(2), load=st.floats(1.0, 5000.0), outside=st.floats(0.125, 40.0))
def test_outside_the_last_of_two_studs_it_takes_more_than_all(
    spots: tuple[float, ...], load: float, outside: float
) -> None:
    ends = spots[0], spots[-1]
    shares = sharing.stud_shares(spots=ends, load=load, load_at=ends[1] + outside)
    assert shares[1] > load
    assert shares[0] < 0.0


def least_share(spots: tuple[float, ...], contact: tuple[float, float], *, one_end: bool) -> float:
    points = contact_points(left=contact[0], right=contact[1], one_end=one_end).values()
    return min(
        max(
            max(map(abs, sharing.stud_shares(spots=subset, load=1.0, load_at=place)))
            for place in points
        )
        for subset in sharing.subsets(spots)
    )


@given(spots=layouts(2, 5), more=st.integers(0, 576), contact=CONTACTS, one_end=st.booleans())
def test_one_stud_more_never_raises_the_least_share(
    spots: tuple[float, ...], more: int, contact: tuple[float, float], one_end: bool
) -> None:
    wider = tuple(sorted({*spots, EIGHTH * more}))
    before = least_share(spots, contact, one_end=one_end)
    assert least_share(wider, contact, one_end=one_end) <= before


@given(spots=layouts(2, 4), contact=CONTACTS)
def test_contact_at_one_end_is_never_the_kinder(
    spots: tuple[float, ...], contact: tuple[float, float]
) -> None:
    one_end = least_share(spots, contact, one_end=True)
    assert one_end >= least_share(spots, contact, one_end=False) * (1.0 - 1e-12)


@given(moment=LOADS, depths=st.lists(st.floats(0.05, 20.0), min_size=1, max_size=4))
def test_rows_balance_the_moment(moment: float, depths: Sequence[float]) -> None:
    tensions = sharing.row_tensions(moment=moment, depths=depths)
    assert moment_of(tensions, depths) == pytest.approx(moment, abs=1e-9)
    assert max(tensions) == tensions[depths.index(max(depths))]


@given(supports=layouts(2, 4), contact=CONTACTS, at=st.floats(0.0, 1.0), data=st.data())
def test_no_spread_with_the_same_middle_bends_the_board_more(
    supports: tuple[float, ...], contact: tuple[float, float], at: float, data: st.DataObject
) -> None:
    left, right = contact
    middle = left + at * (right - left)
    shares = sharing.stud_shares(spots=supports, load=1.0, load_at=middle)
    if max(map(abs, shares)) > 1e3:  # studs that all but touch leave no digits
        return
    worst = max(
        beam_diagram(supports=supports, reactions=shares, loads=spread).moment
        for spread in contact_spreads(at=middle, left=left, right=right)
    )
    # any spread over the overlap, moved to the same middle by two loads beside it
    before = data.draw(st.floats(left, middle))
    after = data.draw(st.floats(middle, right))
    if after - before < 1e-6:
        return
    share = (after - middle) / (after - before)
    part = data.draw(st.floats(0.0, 1.0))
    loads = ((before, part * share), (after, part * (1.0 - share)), (middle, 1.0 - part))
    drawn = beam_diagram(supports=supports, reactions=shares, loads=loads)
    assert drawn.moment <= worst + 1e-6 * (1.0 + worst)


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
