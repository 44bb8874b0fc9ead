"""What may be changed on site to mend a miss. Nothing here is checked: remedies.py does that."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bracecalc.certainty.held import built_of, worked_out
from bracecalc.check.fastening import refastened, taken_down
from bracecalc.check.heights import (
    Change,
    Effort,
    Site,
    floor,
    floor_and_boards,
    heights_for,
    other_height,
    shims,
    shims_for,
)
from bracecalc.planning.bracing import Bracing
from bracecalc.planning.floor_change import mark_up
from bracecalc.records.actions import (
    AddBlocking,
    BoardInFront,
    FreeLeg,
    MoveScrews,
    OtherScrews,
    Piece,
    PutUp,
    Rebuild,
    ScrewSource,
    ShimGap,
    StandProuder,
    TakeDown,
    ThinnerInFront,
    TrimOff,
)
from bracecalc.records.job import Job, Screws
from bracecalc.records.plan import StackSupport
from bracecalc.records.site import AsFound
from bracecalc.stack.boards import LEAST_WIDTH, lumber_of
from bracecalc.tables.load import tables_of

OBSTACLE_CODES = ("leg-seized", "trim-in-the-way", "soffit-not-usable")
HEIGHT_CODES = ("leg-travel-exceeded", "restraint-too-low", "does-not-go-in", "reach-uncertain")


# of screws that are in, where they don't hold
STANDING_CODES = (
    "screws-miss-wood",
    "screws-too-short",
    "screws-too-long",
    "screws-too-close",
    "screws-near-end",
    "screws-hold-nothing",
)


def changes(job: Job, core: Bracing, code: str, site: Site) -> Iterator[Change]:
    """Yield what may mend a miss, in no order; nothing of it is checked yet.

    Args:
        job: as found, with the restraint that stands or is held to.
        core: of that job.
        code: of the finding that fails.
        site: what else is known of the site.
    """
    if code in HEIGHT_CODES:
        yield from _with_screws(other_height(job, site), job, site)
        yield from _shims_with_screws(job, site)
        yield from floor(job)
        yield from _with_screws(floor_and_boards(job, site), job, site)
    elif code == "floor-uses-up-travel":
        yield from floor(job)
        yield from _with_screws(floor_and_boards(job, site), job, site)
    elif code in ("overlap-lost", "overlap-too-small"):
        yield from _shimmed_gap(job, site)
        yield from _board_in_front(job, core, site)
        yield from _rebuilt(job, site, boards_more=1)
    elif code == "boards-through-soffit":
        yield from _with_screws(other_height(job, site), job, site)
        yield from _rebuilt(job, site, narrower=True)
    elif code in OBSTACLE_CODES:
        yield from _out_of_the_way(job, code, site)
    elif code in STANDING_CODES:
        yield from _moved_screws(job, core, site)
        yield from _taken_down(job, site)
        yield from _rebuilt(job, site)
        yield from _blocking(job, core, site)
    elif code == "screws-not-located":
        yield from _taken_down(job, site)
        yield from _blocking(job, core, site)
    elif code == "no-stock-screw-long-enough":
        yield from _other_screws(job, site)
        yield from _thinner_in_front(job, site)
        yield from _rebuilt(job, site)
    elif code == "overstressed":
        yield from _shimmed_gap(job, site)
        yield from _moved_screws(job, core, site)
        yield from _other_screws(job, site)
        yield from _taken_down(job, site)
        yield from _rebuilt(job, site)
        yield from _blocking(job, core, site)
    elif code == "too-few-studs":
        yield from _blocking(job, core, site)
    elif code == "niche-too-shallow":
        yield from _prouder(job)


def _out_of_the_way(job: Job, code: str, site: Site) -> Iterator[Change]:
    """Yield what clears the way for contact: trim off, a leg freed, boards where none were."""
    built = job.built
    if built is None:
        return
    if code == "trim-in-the-way":
        yield Change(Effort.MARK_ANEW, (TrimOff(),), replace(job, built=replace(built, trim=False)))
    elif code == "leg-seized":
        for corner, _ in built.stuck:
            left = tuple(one for one in built.stuck if one[0] != corner)
            freed = replace(job, built=replace(built, stuck=left))
            yield Change(Effort.FREE_LEG, (FreeLeg(corner),), freed)
    else:
        yield from _put_up(job, site)


def _put_up(job: Job, site: Site) -> Iterator[Change]:
    """Yield the boards that a plan of the niche as found puts up on the rear wall."""
    for effort, _, screws in _screw_choices(job, site):
        fresh = replace(job, built=None, screws=screws)
        core = worked_out(fresh)
        if not isinstance(core.support, StackSupport):
            continue
        under = core.choice.restraint.target_height
        if under is None:
            continue
        stack = core.support.stack
        put = PutUp(stack.board, stack.boards, under)
        sized = replace(fresh, boards=replace(job.boards, size=stack.board))
        up = replace(sized, built=built_of(core.support, under))
        yield Change(max(Effort.WIDER_BOARDS, effort + 1), (put,), up)


def _with_screws(found: Iterator[Change], job: Job, site: Site) -> Iterator[Change]:
    """Yield each change with the screws that it may be fastened with."""
    for change in found:
        for effort, _, screws in _screw_choices(job, site):
            yield change._replace(
                effort=max(change.effort, effort + 1), job=replace(change.job, screws=screws)
            )


def _moved_screws(job: Job, core: Bracing, site: Site) -> Iterator[Change]:
    """Yield screws backed out and driven elsewhere on boards that stay up."""
    for effort, source, screws in _screw_choices(job, site):
        for found in refastened(job, core, screws):
            action = MoveScrews(found.backed_out, found.driven, source)
            done = replace(job, built=found.built, screws=screws)
            yield Change(max(Effort.SCREW_AT_HAND, effort), (action,), done)


def _taken_down(job: Job, site: Site) -> Iterator[Change]:
    """Yield the same boards put up new where a plan would set them, fastened beside old holes."""
    built = job.built
    if built is None or not built.boards or not site.as_found.built:
        return
    for under in heights_for(job, lumber_of(job, tables_of(job)).width):
        down = replace(job, built=taken_down(built, under), rules=site.tight(job.rules))
        action = TakeDown(under)
        found = iter((Change(Effort.MOVE_BOARDS, (action,), down),))
        yield from _with_screws(found, job, site)


def _shims_with_screws(job: Job, site: Site) -> Iterator[Change]:
    """Yield the shims; more packers under a soffit need longer screws."""
    found = shims(job, site)
    stands = job.built is not None and job.built.boards
    yield from found if stands else _with_screws(found, job, site)


def _shimmed_gap(job: Job, site: Site) -> Iterator[Change]:
    if site.gap <= 0.0:
        return
    tight = replace(job, rules=site.tight(job.rules))
    shim = ShimGap(site.gap, site.end, shims_for(job, site.gap))
    yield Change(Effort.SHIM_GAP, (shim,), tight)


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
    if job.built is not None and job.built.boards and site.as_found.built:
        return  # those that are in stay what they are
    for effort, source, screws in _screw_choices(job, site):
        if effort > 0:
            yield Change(effort, (OtherScrews(source),), replace(job, screws=screws))


def _board_in_front(job: Job, core: Bracing, site: Site) -> Iterator[Change]:
    built = job.built
    if built is None or not built.boards:
        return
    for board in _front_boards(job):
        more = replace(job, built=replace(built, boards=(*built.boards, board.thickness)))
        effort = Effort.BOARD_IN_FRONT
        if not built.screws:
            found = iter((Change(effort, (BoardInFront(board),), more),))
            yield from _with_screws(found, job, site)
            continue
        for change in _moved_screws(more, worked_out(more), site):
            yield Change(
                max(effort, change.effort + 1), (BoardInFront(board), *change.actions), change.job
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
    if built is None or not built.boards or site.as_found.built:
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


def _sizes(job: Job, *, narrower: bool) -> tuple[str, ...]:
    """Return the next two board sizes of the same thickness."""
    lumber = tables_of(job).lumber
    here = lumber[job.boards.chosen]
    others = [
        size
        for size in lumber.values()
        if size.sold_in is here.sold_in
        and size.nominal_thickness == here.nominal_thickness
        and (size.width < here.width if narrower else size.width > here.width)
        and size.width >= LEAST_WIDTH
    ]
    ordered = sorted(others, key=lambda size: size.width, reverse=narrower)
    return tuple(size.size for size in ordered[:2])


def _rebuilt(
    job: Job, site: Site, *, boards_more: int = 0, narrower: bool = False
) -> Iterator[Change]:
    """Yield the stack built anew of other boards, where a plan would set them."""
    built = job.built
    if built is None or not built.boards:
        return
    for size in _sizes(job, narrower=narrower):
        of = replace(job, boards=replace(job.boards, size=size, width=None))
        under = next(iter(heights_for(of, tables_of(job).lumber[size].width)), None)
        if under is None:
            continue
        boards = (*built.boards, *built.boards[-1:] * boards_more)
        anew = replace(taken_down(built, under), boards=boards)
        action = Rebuild(size, under, len(boards) if boards_more else None)
        changed = replace(of, built=anew, rules=site.tight(job.rules))
        yield from _with_screws(iter((Change(Effort.WIDER_BOARDS, (action,), changed),)), job, site)


def _blocking(job: Job, core: Bracing, site: Site) -> Iterator[Change]:
    """Yield solid blocking behind the whole stack, with the screws in the blocking itself."""
    built = job.built
    if built is None or not built.boards or job.wall.blocking:
        return
    studs = core.support.studs if isinstance(core.support, StackSupport) else None
    action = AddBlocking(() if studs is None else studs.spots)
    if site.as_found.built:  # the wall is opened: what stands comes down for it
        downs = list(_taken_down(job, site))
    else:
        held = Change(Effort.BLOCKING, (), job)
        downs = list(_with_screws(iter((held,)), job, site))
    for down in downs:
        yield _blocked(down, action)
    for wider in _rebuilt(job, site):
        blocked = _blocked(wider, action)
        yield blocked._replace(effort=blocked.effort + 1)


def _blocked(change: Change, action: AddBlocking) -> Change:
    built = change.job.built
    blocked = None if built is None else replace(built, blocking=True)
    return Change(
        max(Effort.BLOCKING, change.effort),
        (action, *change.actions),
        replace(change.job, built=blocked, wall=replace(change.job.wall, blocking=True)),
    )


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
