"""The search of schemes: every way to build the stack, in order of effort, until one holds.

No blocking before blocking, the finish kept before cut away, narrower boards before wider, boards
all flat before others, fewer screws before more. Nothing is skipped because a first try seated.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from bracecalc.mechanics.statics.contact import FrontToBack
from bracecalc.records.job import Built, Job, StudMaterial
from bracecalc.records.plan import Stack
from bracecalc.records.reference import Tables
from bracecalc.records.scheme import Backing, Lack, Layup, Scheme, Shortfall
from bracecalc.stack import boards as lumber
from bracecalc.stack import screws as seats
from bracecalc.stack import studs as framing
from bracecalc.stack.check import Held, Niche, StackCheck
from bracecalc.stack.kept import make_of
from bracecalc.stack.slots import Slot
from bracecalc.stack.standing import Stood, stand
from bracecalc.strength.demand import Cases

ALL_USED = math.nextafter(1.0, 2.0)  # a use that is not below it does not hold
BLOCKING_PLACES = (2, 3, 4)  # screws anywhere along the boards; four as two more studs would give

DemandOf = Callable[[Stack], Mapping[FrontToBack, Cases]]
HeightOf = Callable[[float], float | None]  # of the underside for a board's width; None: no room


class Site(NamedTuple):
    """What every scheme of one niche is worked out from."""

    job: Job
    tables: Tables
    demand_of: DemandOf
    height_of: HeightOf


class Tried(NamedTuple):
    """One scheme worked out: its strongest or cheapest screws, or why there are none."""

    scheme: Scheme
    check: StackCheck
    held: Held | None
    stood: Stood | None = None  # of a stack whose screws are in already

    @property
    def use(self) -> float:
        """Utilisation in the worst case, infinite without screws."""
        return math.inf if self.held is None else self.held.use


class Found(NamedTuple):
    """What a search came to: the cheapest scheme that holds, and all that were worked out."""

    holds: Tried | None
    tried: tuple[Tried, ...]

    @property
    def strongest(self) -> Tried:
        """The scheme with the least utilisation, the first of equals.

        Those that are strong enough, and fail for another reason, are equals.
        """
        return min(self.tried, key=lambda tried: max(1.0, tried.use))


def search(site: Site, *, whole: bool) -> Found:
    """Return the cheapest scheme that holds; all are worked out where none does.

    Args:
        site: the niche.
        whole: work out for comparison what costs more too, of each backing and finish up to the
            board wider than the first that holds.
    """
    holds: Tried | None = None
    tried: list[Tried] = []
    enough: dict[tuple[Backing, bool], float] = {}  # width that holds
    for stack, places in _stacks(site):
        kind = stack.backing, stack.cut_back > 0.0
        wide = enough.get(kind)
        if wide is not None and _wider(tried, kind) > wide and stack.width > _wider(tried, kind):
            continue
        one = _try(site, stack, places)
        tried.append(one)
        if one.scheme.holds:
            enough.setdefault(kind, stack.width)
            if holds is None:
                holds = one
                if not whole:
                    break
    return Found(holds, tuple(tried))


def _wider(tried: list[Tried], kind: tuple[Backing, bool]) -> float:
    """Return the widest board worked out so far on a backing, with or without the finish."""
    return max(
        one.check.niche.stack.width
        for one in tried
        if (one.scheme.backing, one.scheme.finish_cut) == kind
    )


def _stacks(site: Site) -> Iterator[tuple[Stack, tuple[int, ...]]]:
    """Yield every stack in order of effort, with the numbers of places of its screws."""
    job, tables = site.job, site.tables
    sizes = lumber.stock_boards(job, tables)
    if job.built is not None and job.built.boards:
        wide = sizes[0].width
        laid = lumber.Laid(Layup.AS_BUILT, job.built.boards, wide, wide)
        backing, cut = _as_built(job, tables)
        stack = lumber.build_stack(job, sizes[0], laid, backing=backing, cut_back=cut)
        yield stack, _places(backing)
        return
    for backing in _backings(job):
        for cut in _cuts(job, tables):
            needed = lumber.projection_needed(job, cut_back=cut)
            for size in sizes:
                for laid in lumber.layups(tables, size, needed):
                    stack = lumber.build_stack(job, size, laid, backing=backing, cut_back=cut)
                    yield stack, _places(backing)


def _places(backing: Backing) -> tuple[int, ...]:
    return (0,) if backing is Backing.STUDS else BLOCKING_PLACES


def _as_built(job: Job, tables: Tables) -> tuple[Backing, float]:
    """Return what the screws of boards that stand bite in, and what was cut away behind them."""
    built = job.built
    backing = Backing.STUDS
    if (built is not None and built.blocking) or job.wall.blocking:
        backing = Backing.BLOCKING
    cut = framing.build_up(job.wall.layers, job.wall.finish_to_come, tables).thickness
    return backing, cut if built is not None and built.finish_cut else 0.0


def _backings(job: Job) -> tuple[Backing, ...]:
    if job.wall.stud.material is not StudMaterial.WOOD:
        return (Backing.STUDS,)
    if job.wall.blocking:
        return (Backing.BLOCKING, Backing.STUDS)
    return (Backing.STUDS, Backing.BLOCKING)


def _cuts(job: Job, tables: Tables) -> tuple[float, ...]:
    thickness = framing.build_up(job.wall.layers, job.wall.finish_to_come, tables).thickness
    if thickness <= 0.0 or job.wall.stud.material is not StudMaterial.WOOD:
        return (0.0,)
    return (0.0, thickness)


def _try(site: Site, stack: Stack, places: tuple[int, ...]) -> Tried:
    """Return a stack with its cheapest screws that hold, or its strongest, or why it has none."""
    height = site.height_of(stack.width)
    built = site.job.built
    if built is not None and built.screws:
        return _standing(site, stack, built)
    found = [_with_places(site, stack, count) for count in places]
    holding = [one for one in found if one[1] is not None and one[1].use <= 1.0]
    if holding:
        check, held = min(holding, key=lambda one: _screws_of(one[1]))
    else:
        check, held = min(found, key=lambda one: math.inf if one[1] is None else one[1].use)
    scheme = _scheme(stack, height)
    if held is None or math.isinf(held.use):
        return Tried(scheme._replace(shortfall=_shortfall(site, check, height)), check, held)
    return Tried(_told(scheme, check, held, _outside(site, stack, height)), check, held)


def _scheme(stack: Stack, height: float | None) -> Scheme:
    return Scheme(
        board=stack.board,
        boards=stack.boards,
        layup=stack.layup,
        backing=stack.backing,
        finish_cut=stack.cut_back > 0.0,
        height=height,
    )


def _standing(site: Site, stack: Stack, built: Built) -> Tried:
    """Return a stack with the screws that are in it already."""
    make = make_of(site.job, site.tables, stack)
    niche = Niche(site.job, stack, make, site.demand_of(stack))
    stood = stand(niche, built, site.tables)
    check, held = stood.check, stood.held
    height = site.height_of(stack.width)
    scheme = _scheme(stack, height)
    if held is None or math.isinf(held.use):
        lack = Shortfall(Lack.STUDS, wanted=2)
        return Tried(scheme._replace(shortfall=lack), check, None, stood)
    told = _told(scheme, check, held, _outside(site, stack, height))
    return Tried(told, check, held, stood)


def _with_places(site: Site, stack: Stack, places: int) -> tuple[StackCheck, Held | None]:
    make = make_of(site.job, site.tables, stack)
    check = StackCheck(Niche(site.job, stack, make, site.demand_of(stack), places))
    return check, best_screws(check)


def _screws_of(held: Held | None) -> tuple[int, int]:
    if held is None:
        return 0, 0
    return held.slot.rows * len(held.supports), len(held.supports)


def best_screws(check: StackCheck) -> Held | None:
    """Return the cheapest screws that hold, else the strongest; None where none can be placed.

    Of one size and seat the longest is the strongest, so that where it fails the shorter ones do.
    """
    strongest: Held | None = None
    worst = check.worst
    for group in check.make.rated_groups(check.lever):
        cheapest: Held | None = None
        for rated in group:
            slot = rated.slot
            if cheapest is not None and not _shorter(slot, 0, cheapest):
                break  # sizes come by their shortest screw: no later one is shorter
            over = math.inf if strongest is None else max(strongest.use, ALL_USED)
            if check.least_share(slot.end) * rated.use(*worst) >= over:
                continue
            longest = check.held(slot, len(slot.seated) - 1)
            if longest is None or longest.use >= over:
                continue
            if longest.use > 1.0:
                strongest = longest
                continue
            cheapest = _shortest(check, slot, cheapest) or cheapest
        if cheapest is not None:
            return cheapest
    return strongest


def _shorter(slot: Slot, index: int, than: Held) -> bool:
    return seats.order(slot.seated[index].candidate) < seats.order(than.choice.candidate)


def _shortest(check: StackCheck, slot: Slot, than: Held | None) -> Held | None:
    """Return the shortest screw of a slot that holds, if it is shorter than another."""
    for index in range(len(slot.seated)):
        if than is not None and not _shorter(slot, index, than):
            return None
        held = check.held(slot, index)
        if held is not None and held.use <= 1.0:
            return held
    return None


def _told(scheme: Scheme, check: StackCheck, held: Held, outside: Shortfall | None) -> Scheme:
    case, part = check.governing(held)
    candidate, slot = held.choice.candidate, held.slot
    shortfall = outside
    if shortfall is None and held.use > 1.0:
        shortfall = Shortfall(Lack.STRENGTH)
    return scheme._replace(
        kind=candidate.size.kind,
        screw=candidate.size.size,
        length=candidate.length,
        counterbore=slot.counterbore,
        per_place=slot.rows + len(slot.covered),
        places=len(held.supports),
        case=case.name.value,
        capacity=case.force / held.use if held.use > 0.0 else None,
        use=held.use,
        limited_by=part,
        shortfall=shortfall,
    )


def _outside(site: Site, stack: Stack, height: float | None) -> Shortfall | None:
    """Return what stands against a scheme besides its strength."""
    if height is None:
        return Shortfall(Lack.SOFFIT, wanted=stack.width)
    most = lumber.most_boards(site.job)
    if stack.boards > most:
        return Shortfall(Lack.TOO_DEEP, wanted=stack.boards, there=most)
    return None


def _shortfall(site: Site, check: StackCheck, height: float | None) -> Shortfall:
    """Return why a stack has no screws, the first reason on the way from board to stud."""
    stack, make = check.niche.stack, check.make
    outside = _outside(site, stack, height)
    if outside is not None:
        return outside
    seated = [
        group
        for counterbore in make.counterbores
        for group in seats.seated_by_size(make.outer_path, make.key.options, counterbore)
    ]
    if not seated:
        return _no_seat(make.outer_path, make.key.options, stack.boards)
    if not make.covered():
        for board in range(1, stack.boards):
            if not seats.covered_choices(make.path(board), make.key.options):
                lack = _no_seat(make.path(board), make.key.options, board)
                return lack._replace(lack=Lack.COVERED_BOARD)
    slots = [slot for group in make.slot_groups() for slot in group]
    met = [slot for slot in slots if len(check.supports(slot.end)) > 1]
    if not met:
        return _too_few(site.job, stack, min(slot.end for slot in slots))
    if all(slot.places is None for slot in met):
        return Shortfall(Lack.CROWDED, board=stack.boards)
    return Shortfall(Lack.NOT_COVERED, board=stack.boards)


def _no_seat(path: seats.Path, options: seats.Options, board: int) -> Shortfall:
    needed = path.boards + path.build_up + path.wanted
    longest = max((option.length for option in options.screws), default=0.0)
    lack = Lack.SCREW_TOO_SHORT if longest < needed else Lack.SCREW_DOES_NOT_SEAT
    return Shortfall(lack, board=board, wanted=needed, there=longest)


def _too_few(job: Job, stack: Stack, end: float) -> Shortfall:
    spots = framing.known_spots(job) or ()
    first, last = stack.left_end, stack.left_end + stack.length
    inside = [spot for spot in spots if first <= spot <= last]
    if len(inside) < 2 or stack.backing is Backing.BLOCKING:
        return Shortfall(Lack.STUDS, wanted=2, there=len(inside))
    nearest = sorted((min(spot - first, last - spot) for spot in inside), reverse=True)
    return Shortfall(Lack.END_DISTANCE, wanted=end + job.rules.tape_uncertainty, there=nearest[1])
