"""What must never happen: engineering properties of the verdict, each over random niches.

More studs, more screws, longer embedment, a thinner finish, more sizes on hand or a lower demand
never turn a plan that holds into one that fails, nor lower what one and the same scheme holds; a
failing plan prints its strongest arrangement; and the search finds what a plain enumeration finds.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise, product

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from jobs import sixteenths, unit

from bracecalc.mechanics.nds.spacing import place_screws
from bracecalc.mechanics.statics.contact import FrontToBack
from bracecalc.planning.design import designed, site_of
from bracecalc.planning.plan import make_plan
from bracecalc.planning.reach import reach_band
from bracecalc.planning.restraint import choose_restraint
from bracecalc.records.job import (
    Boards,
    Built,
    CarriedScrew,
    Floor,
    Job,
    Layer,
    Loads,
    Niche,
    Screws,
    Wall,
)
from bracecalc.records.plan import Plan, RestraintKind, Severity
from bracecalc.records.reference import ScrewSize
from bracecalc.records.scheme import Backing
from bracecalc.stack import screws as seats
from bracecalc.stack.check import Held, StackCheck
from bracecalc.stack.search import Site, best_screws, search
from bracecalc.tables.load import load_tables

TABLES = load_tables()
FEW = settings(max_examples=6, deadline=None)
SIZES = ("8", "10", "12", "14", "1/4", "5/16", "3/8")
CARRIED = st.lists(
    st.builds(
        CarriedScrew,
        size=st.sampled_from(SIZES),
        lengths=st.lists(
            st.sampled_from([3.0, 3.5, 4.0, 5.0, 5.5, 6.0, 7.0, 8.0]), min_size=1, max_size=3
        ).map(lambda lengths: tuple(sorted(set(lengths)))),
    ),
    min_size=1,
    max_size=4,
    unique_by=lambda one: one.size,
).map(tuple)
FINISHES = st.sampled_from([0.0, 0.375, 0.5, 0.625, 0.8125])


@st.composite
def niches(draw: st.DrawFn) -> Job:
    """Niches with boards on the wall, some of which hold."""
    width = draw(sixteenths(28, 48))
    spots = draw(st.sets(sixteenths(1, width - 1), min_size=2, max_size=4))
    finish = draw(FINISHES)
    layers = (Layer(material="gypsum board", thickness=finish),) if finish else ()
    known = draw(st.booleans())
    return Job(
        title="Quillet Yard, generated",
        niche=Niche(width=(width,), depth=(23.125 + draw(sixteenths(0, 3)),)),
        floor=Floor(front_left=0.0, front_right=0.0, rear_left=0.0, rear_right=0.0),
        wall=Wall(layers=layers, stud_spots=tuple(sorted(spots))),
        unit=unit(
            width=width - 0.5, **({"weight": 200.0} if known else {"weight": None, "doors": None})
        ),
        boards=Boards(size=draw(st.sampled_from([None, None, "2x4", "2x6", "2x8"]))),
        screws=Screws(carried=draw(st.just(()) | CARRIED)),
        loads=Loads(minimum=draw(st.sampled_from([40.0, 60.0, 120.0, 250.0]))),
    )


def holds(plan: Plan) -> bool:
    return all(finding.severity is not Severity.FAILS for finding in plan.findings)


def use(plan: Plan) -> float:
    """Use of what is printed, infinite without screws."""
    uses = [one.utilisation for one in plan.demand.cases if one.utilisation is not None]
    return max(uses, default=math.inf)


def never_worse(before: Plan, after: Plan) -> None:
    """What held holds still; what failed is printed with a use no greater than before."""
    if holds(before):
        assert holds(after), [one.code for one in after.findings]
    elif not holds(after):  # a scheme that is strong enough fails for another reason
        assert max(1.0, use(after)) <= max(1.0, use(before)) * (1.0 + 1e-9)


@FEW
@given(job=niches(), more=sixteenths(1, 47))
def test_one_stud_more_never_fails_a_plan(job: Job, more: float) -> None:
    spots = job.wall.stud_spots or ()
    assume(all(abs(more - spot) >= 1.5 for spot in spots) and more < job.niche.narrowest)
    wider = replace(job.wall, stud_spots=tuple(sorted({*spots, more})))
    before = make_plan(job)
    # screws in blocking stand clear of every stud, so that one more stud moves their places
    assume(before.stack is None or before.stack.backing is Backing.STUDS)
    never_worse(before, make_plan(replace(job, wall=wider)))


@FEW
@given(job=niches(), more=CARRIED)
def test_more_sizes_on_hand_never_fail_a_plan(job: Job, more: tuple[CarriedScrew, ...]) -> None:
    assume(job.screws.carried)
    names = {one.size for one in more}
    kept = tuple(one for one in job.screws.carried if one.size not in names)
    old = {one.size: one for one in job.screws.carried}
    joined = tuple(
        replace(one, lengths=tuple(sorted({*one.lengths, *old[one.size].lengths})))
        if one.size in old
        else one
        for one in more
    )
    richer = replace(job, screws=Screws(carried=(*kept, *joined)))
    never_worse(make_plan(job), make_plan(richer))


@FEW
@given(job=niches())
def test_the_whole_stock_is_never_worse_than_a_part_of_it(job: Job) -> None:
    part = tuple(
        replace(one, lengths=lengths)
        for one in job.screws.carried
        if (lengths := tuple(x for x in one.lengths if x in TABLES.screws[one.size].lengths))
    )
    assume(part)
    few = make_plan(replace(job, screws=Screws(carried=part)))
    never_worse(few, make_plan(replace(job, screws=Screws())))


@FEW
@given(job=niches(), less=st.floats(0.1, 1.0))
def test_a_lower_demand_never_fails_a_plan(job: Job, less: float) -> None:
    loads = job.loads
    lower = replace(loads, minimum=less * loads.minimum, climb=less * loads.climb)
    never_worse(make_plan(job), make_plan(replace(job, loads=lower)))


@FEW
@given(job=niches(), thinner=FINISHES)
def test_a_thinner_finish_never_fails_a_plan_from_stock(job: Job, thinner: float) -> None:
    # of one length on hand the tip may come out of the stud's far side: the stock has others; and
    # with the finish cut away the boards reach less far over the housing, so one stack is kept
    thick = math.ceil((job.rear_gap + 2.0625) / 1.5)
    built = Built(underside=81.375, boards=(1.5,) * thick)
    boards = replace(job.boards, size=job.boards.size or "2x4")
    job = replace(job, screws=Screws(), built=built, boards=boards)
    finish = sum(layer.thickness for layer in job.wall.layers)
    assume(thinner < finish)
    layers = (Layer(material="gypsum board", thickness=thinner),) if thinner else ()
    never_worse(make_plan(job), make_plan(replace(job, wall=replace(job.wall, layers=layers))))


def site(job: Job) -> Site | None:
    band = reach_band(job)
    choice = choose_restraint(job, TABLES, band)
    if choice.restraint.kind is not RestraintKind.STACK:
        return None
    return site_of(job, TABLES, band, choice)


def every_held(check: StackCheck) -> Iterator[Held]:
    """Every screw in every slot, nothing pruned."""
    for group in check.make.slot_groups():
        for slot in group:
            for index in range(len(slot.seated)):
                found = check.held(slot, index)
                if found is not None:
                    yield found


@FEW
@given(job=niches())
def test_a_longer_screw_in_the_same_seat_is_never_used_more(job: Job) -> None:
    where = site(job)
    assume(where is not None)
    for tried in search(where, whole=False).tried if where is not None else ():
        for group in tried.check.make.slot_groups():
            for slot in group:
                found = [tried.check.held(slot, index) for index in range(len(slot.seated))]
                uses = [one.use for one in found if one is not None]
                assert all(after <= before * (1.0 + 1e-12) for before, after in pairwise(uses))


@FEW
@given(job=niches())
def test_the_search_finds_what_a_plain_enumeration_finds(job: Job) -> None:
    where = site(job)
    assume(where is not None)
    if where is None:
        return
    for tried in search(where, whole=False).tried:
        every = list(every_held(tried.check))
        found = best_screws(tried.check)
        if not every:
            assert found is None
            continue
        assert found is not None
        least = min(one.use for one in every)
        if least > 1.0:
            assert found.use == least  # the strongest is told
            continue
        holding = [one for one in every if one.use <= 1.0]
        assert found.use <= 1.0
        rows = min(one.slot.rows for one in holding)
        assert found.slot.rows == rows  # fewer screws before more
        same = [
            one
            for one in holding
            if one.slot.rows == rows
            and one.slot.counterbore == found.slot.counterbore
            and one.slot.covered == found.slot.covered
        ]
        order = min(seats.order(one.choice.candidate) for one in same)
        assert seats.order(found.choice.candidate) == order


@FEW
@given(job=niches())
def test_the_outer_edge_governs_wherever_both_points_count(job: Job) -> None:
    plan = make_plan(job)
    for case in plan.demand.cases:
        if case.contact is not None:
            assert case.contact.out is FrontToBack.OUTER_EDGE


@FEW
@given(job=niches())
def test_a_failing_plan_tells_the_least_use_of_all_its_schemes(job: Job) -> None:
    where = site(job)
    assume(where is not None)
    if where is None:
        return
    design, chosen = designed(where, helps=False, whole=False)
    if design.chosen.holds:
        return
    found = search(where, whole=False)
    assert all(max(1.0, chosen.use) <= max(1.0, one.use) for one in found.tried)
    assert make_plan(job).scheme is not None


@FEW
@given(job=niches())
def test_what_one_choice_holds_in_a_wider_search_it_holds_alone(job: Job) -> None:
    job = replace(job, boards=Boards())
    where = site(job)
    assume(where is not None)
    if where is None:
        return
    first, whole = search(where, whole=False), search(where, whole=True)
    assert (first.holds is None) == (whole.holds is None)
    if first.holds is not None and whole.holds is not None:
        assert first.holds.scheme == whole.holds.scheme


WOOD = tuple(TABLES.screws[size] for size in ("8", "9", "10", "12", "14"))


@given(
    outer=st.sampled_from(SIZES).map(TABLES.screws.__getitem__),
    covered=st.lists(st.sampled_from(WOOD), min_size=1, max_size=2),
    rows=st.sampled_from([1, 2, 3]),
    width=st.sampled_from([3.5, 5.5, 7.25]),
)
def test_a_thinner_screw_in_a_covered_board_never_takes_room_away(
    outer: ScrewSize, covered: list[ScrewSize], rows: int, width: float
) -> None:
    def room(inner: tuple[ScrewSize, ...]) -> bool:
        one = seats.as_screw(outer, Backing.STUDS)
        others = tuple(seats.as_screw(size, Backing.STUDS) for size in inner)
        outers = tuple(one._replace(height=height) for height in seats.ROW_HEIGHTS[rows])
        placed = place_screws(
            outers + others, board_width=width, stud_width=1.5, uncertainty=0.0625
        )
        return placed is not None

    thinner = tuple(WOOD[max(0, WOOD.index(size) - 1)] for size in covered)
    for mixed in product(*zip(covered, thinner, strict=True)):
        if room(tuple(covered)):
            assert room(mixed)
