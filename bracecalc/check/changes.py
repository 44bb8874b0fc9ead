"""What may be changed on site to mend a miss. Nothing here is checked: remedies.py does that."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bracecalc.check.heights import Change, Effort, Site, floor, other_height, shims
from bracecalc.planning.bracing import Bracing
from bracecalc.planning.floor_change import mark_up
from bracecalc.records.actions import (
    AddBlocking,
    BoardInFront,
    OtherScrews,
    Piece,
    Rebuild,
    ScrewSource,
    ShimGap,
    StandProuder,
    ThinnerInFront,
)
from bracecalc.records.job import Job, Screws
from bracecalc.records.plan import StackSupport
from bracecalc.records.site import AsFound
from bracecalc.tables.load import tables_of

HEIGHT_CODES = ("leg-travel-exceeded", "restraint-too-low", "does-not-go-in", "reach-uncertain")


def changes(job: Job, core: Bracing, code: str, site: Site) -> Iterator[Change]:
    """Yield what may mend a miss, in no order; nothing of it is checked yet.

    Args:
        job: as found, with the restraint that stands or is held to.
        core: of that job.
        code: of the finding that fails.
        site: what else is known of the site.
    """
    if code in HEIGHT_CODES:
        yield from other_height(job, site)
        yield from _shims_with_screws(job, site)
        yield from floor(job)
    elif code == "floor-uses-up-travel":
        yield from floor(job)
    elif code in ("overlap-lost", "overlap-too-small"):
        yield from _shimmed_gap(job, site)
        yield from _board_in_front(job, site)
        if job.built is not None and job.built.boards:
            yield from _wider_boards(job, site, boards_more=1)
    elif code == "no-stock-screw-long-enough":
        yield from _other_screws(job, site)
        yield from _thinner_in_front(job, site)
    elif code == "overstressed":
        yield from _other_screws(job, site)
        yield from _wider_boards(job, site)
        yield from _blocking(job, core, site)
    elif code == "too-few-studs":
        yield from _blocking(job, core, site)
    elif code == "niche-too-shallow":
        yield from _prouder(job)


def _shims_with_screws(job: Job, site: Site) -> Iterator[Change]:
    """Yield the shims; more packers under a soffit need longer screws."""
    for change in shims(job, site):
        if job.built is not None and job.built.boards:
            yield change
            continue
        for effort, _, screws in _screw_choices(job, site):
            yield change._replace(
                effort=max(change.effort, effort + 1), job=replace(change.job, screws=screws)
            )


def _shimmed_gap(job: Job, site: Site) -> Iterator[Change]:
    if site.gap <= 0.0:
        return
    rules = replace(job.rules, rear_rise=job.rules.rear_rise - site.gap)
    yield Change(Effort.SHIM_GAP, (ShimGap(site.gap),), replace(job, rules=rules))


def _screw_choices(job: Job, site: Site) -> Iterator[tuple[int, ScrewSource, Screws]]:
    """Yield what screws may be used: those held to, those at hand, any that is stocked."""
    held = job.screws
    yield 0, ScrewSource.HELD, held
    if site.as_found.screws:
        at_hand = van_screws(site.screws, site.as_found)
        if at_hand != held:
            yield Effort.SCREW_AT_HAND, ScrewSource.ON_HAND, at_hand
    elif site.screws != held and (site.screws.carried or site.screws.published):
        yield Effort.SCREW_AT_HAND, ScrewSource.LISTED, site.screws
    yield Effort.SCREW_TO_FETCH, ScrewSource.TO_FETCH, replace(held, carried=(), published=())


def van_screws(given: Screws, as_found: AsFound) -> Screws:
    """Return the screws on the van; those with published values keep them."""
    on_van = {(screw.size, length) for screw in as_found.screws for length in screw.lengths}
    published = tuple(one for one in given.published if (one.size, one.length) in on_van)
    names = {one.size for one in published}
    return replace(
        given,
        carried=tuple(one for one in as_found.screws if one.size not in names),
        published=published,
    )


def _other_screws(job: Job, site: Site) -> Iterator[Change]:
    for effort, source, screws in _screw_choices(job, site):
        if effort > 0:
            yield Change(effort, (OtherScrews(source),), replace(job, screws=screws))


def _board_in_front(job: Job, site: Site) -> Iterator[Change]:
    built = job.built
    if built is None or not built.boards:
        return
    for board in _front_boards(job):
        boards = (*built.boards, board.thickness)
        for effort, _, screws in _screw_choices(job, site):
            yield Change(
                max(Effort.BOARD_IN_FRONT, effort + 1),
                (BoardInFront(board),),
                replace(job, built=replace(built, boards=boards), screws=screws),
            )


def _front_boards(job: Job) -> tuple[Piece, ...]:
    """Return boards that may go in front: the one-by of the same width, and one more alike."""
    tables, size = tables_of(job), job.boards.chosen
    found = []
    thin = tables.lumber.get(size.replace("2x", "1x", 1))
    if thin is not None:
        found.append(Piece(thin.size, thin.thickness))
    if thin is None or thin.size != size:
        full = job.boards.thickness
        found.append(Piece(size, tables.lumber[size].thickness if full is None else full))
    return tuple(found)


def _thinner_in_front(job: Job, site: Site) -> Iterator[Change]:
    built = job.built
    if built is None or not built.boards:
        return
    for board in _front_boards(job):
        if board.thickness >= built.boards[-1] - 1e-9:
            continue
        boards = (*built.boards[:-1], board.thickness)
        for effort, _, screws in _screw_choices(job, site):
            yield Change(
                max(Effort.BOARD_IN_FRONT, effort + 1),
                (ThinnerInFront(board),),
                replace(job, built=replace(built, boards=boards), screws=screws),
            )


def _wider(job: Job) -> tuple[str, ...]:
    """Return the next two board sizes of the same thickness."""
    lumber = tables_of(job).lumber
    here = lumber[job.boards.chosen]
    wider = sorted(
        (
            size
            for size in lumber.values()
            if size.nominal_thickness == here.nominal_thickness and size.width > here.width
        ),
        key=lambda size: size.width,
    )
    return tuple(size.size for size in wider[:2])


def _wider_boards(job: Job, site: Site, *, boards_more: int = 0) -> Iterator[Change]:
    """Yield the stack built anew of wider boards, and of more of them where that is asked."""
    for size in _wider(job):
        boards, built = replace(job.boards, size=size, width=None), job.built
        action = Rebuild(size)
        if built is not None and boards_more:
            added = (*built.boards, *built.boards[-1:] * boards_more)
            built = replace(built, boards=added)
            action = Rebuild(size, len(added))
        for effort, _, screws in _screw_choices(job, site):
            changed = replace(job, boards=boards, screws=screws, built=built)
            yield Change(max(Effort.WIDER_BOARDS, effort + 1), (action,), changed)


def _blocking(job: Job, core: Bracing, site: Site) -> Iterator[Change]:
    """Yield solid blocking behind the whole stack: screws may then stand at any place of it."""
    if not isinstance(core.support, StackSupport):
        return
    stack, studs = core.support.stack, core.support.studs
    end = stack.length / 8.0
    places = tuple(stack.left_end + end + stack.length * step / 4.0 for step in range(4))
    wall = replace(job.wall, stud_spots=places, stud_layout=None)
    action = AddBlocking(() if studs is None else studs.spots)
    for effort, _, screws in _screw_choices(job, site):
        blocked = replace(job, wall=wall, screws=screws)
        yield Change(max(Effort.BLOCKING, effort + 1), (action,), blocked)
    for wider in _wider_boards(replace(job, wall=wall), site):
        yield Change(Effort.BLOCKING + 1, (action, *wider.actions), wider.job)


def _prouder(job: Job) -> Iterator[Change]:
    least = job.least_rear_gap
    if least >= 0.0:
        return
    amount = mark_up(-least + job.rules.tape_uncertainty)
    yield Change(
        Effort.UNIT_PROUDER,
        (StandProuder(amount),),
        replace(job, unit=replace(job.unit, proud=job.unit.proud + amount)),
    )
