"""The boards on the rear wall: how many, how long, how far over the housing."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from bracecalc.mechanics.geometry import stack as geometry
from bracecalc.mechanics.statics.contact import FrontToBack
from bracecalc.records.job import Job, Method
from bracecalc.records.margins import margin
from bracecalc.records.plan import Finding, Stack, Verdict
from bracecalc.records.reference import LumberSize, SoldIn, Tables
from bracecalc.records.scheme import Backing, Layup
from bracecalc.text.findings import Lengths, fails, warns

DEFAULT_SIZE = {SoldIn.INCH: "2x4", SoldIn.MM: "45x95"}  # of packers where no size is given
MOST_BOARDS = 4  # of one stack; past it the wall is furred out
STACK_NOMINAL = {SoldIn.INCH: 2.0, SoldIn.MM: 45.0 / 25.4}  # nominal thickness of what is stacked
THIN_NOMINAL = {SoldIn.INCH: 1.0, SoldIn.MM: 22.0 / 25.4}
LEAST_WIDTH = 3.0  # in: a narrower board gives the screws no lever


def lumber_of(job: Job, tables: Tables) -> LumberSize:
    """Return the job's board, measured sizes before those of the table.

    Without a size, the narrowest that the search of schemes may take.
    """
    boards = job.boards
    size = tables.lumber[DEFAULT_SIZE[sold_in(job)] if boards.size is None else boards.size]
    return boards.measured(size)


def sold_in(job: Job) -> SoldIn:
    """Return the unit in which this job's sizes are sold: with Eurocode 5 metric, as its screws."""
    return SoldIn.MM if job.loads.method is Method.EC5 else SoldIn.INCH


def stock_boards(job: Job, tables: Tables) -> tuple[LumberSize, ...]:
    """Return the boards that a stack may be made of, narrower before wider.

    The size that the job gives, alone; else every stocked one of the usual thickness.
    """
    if job.boards.size is not None:
        return (lumber_of(job, tables),)
    unit = sold_in(job)
    found = _stocked(tables, unit) or _stocked(tables, SoldIn.INCH)
    measured = (job.boards.measured(size) for size in found)
    # with a measured width they are all the same board
    return tuple({(size.thickness, size.width): size for size in measured}.values())


@lru_cache(maxsize=64)
def _stocked(tables: Tables, unit: SoldIn) -> tuple[LumberSize, ...]:
    found = [
        size
        for size in tables.lumber.values()
        if size.sold_in is unit
        and abs(size.nominal_thickness - STACK_NOMINAL[unit]) < 1e-6
        and size.width >= LEAST_WIDTH
    ]
    return tuple(sorted(found, key=lambda size: size.width))


@lru_cache(maxsize=256)
def thin_board(tables: Tables, lumber: LumberSize) -> LumberSize | None:
    """Return the thin board of the same width, if one is stocked."""
    return next(
        (
            size
            for size in tables.lumber.values()
            if size.sold_in is lumber.sold_in
            and abs(size.nominal_thickness - THIN_NOMINAL[lumber.sold_in]) < 1e-6
            and abs(size.nominal_width - lumber.nominal_width) < 1e-6
            and size.thickness < lumber.thickness
        ),
        None,
    )


class Laid(NamedTuple):
    """Boards laid on one another: thicknesses from the wall outward, heights of both ends, in."""

    layup: Layup
    thicknesses: tuple[float, ...]
    outer: float  # height of the outermost board
    least: float  # height that all boards have: the screws stand in it


def layups(tables: Tables, lumber: LumberSize, needed: float) -> tuple[Laid, ...]:
    """Return the ways in which boards of one size reach a projection, the usual one first.

    A way with more boards than the flat one, or as deep, only makes the lever longer.

    Args:
        tables: for the thin board of the same width.
        lumber: the board.
        needed: from what the boards stand on to the face of the outermost, in.
    """
    thick = lumber.thickness
    count = geometry.boards_needed(projection=needed, thickness=thick)
    wide = lumber.width
    found = [Laid(Layup.FLAT, (thick,) * count, wide, wide)]
    thin = thin_board(tables, lumber)
    if thin is not None and count > 1 and (count - 1) * thick + thin.thickness >= needed - 1e-9:
        layers = (*(thick,) * (count - 1), thin.thickness)
        found.append(Laid(Layup.THIN_LAST, layers, wide, wide))
    rest = 0
    if needed > wide + 1e-9:
        rest = geometry.boards_needed(projection=needed - wide, thickness=thick)
    if rest + 1 < count:
        layers = (wide, *(thick,) * rest)
        found.append(Laid(Layup.EDGE_FIRST, layers, wide if rest else thick, thick))
    return tuple(found)


def build_stack(
    job: Job,
    lumber: LumberSize,
    laid: Laid,
    *,
    backing: Backing = Backing.STUDS,
    cut_back: float = 0.0,
) -> Stack:
    """Return a stack as it is built, with the overlap that it gives.

    Args:
        job: for niche and unit.
        lumber: the board.
        laid: how the boards lie.
        backing: what the screws bite in.
        cut_back: build-up of the wall cut away behind the boards, in.
    """
    rules, gap = job.rules, job.rear_gap
    overlap = geometry.overlap_obtained(projection=sum(laid.thicknesses) - cut_back, rear_gap=gap)
    left, length = job.boards.end_gap, job.niche.narrowest - 2.0 * job.boards.end_gap
    built = job.built
    if built is not None and (built.start is not None or built.length is not None):
        left = left if built.start is None else built.start
        length = length if built.length is None else built.length
    return Stack(
        boards=len(laid.thicknesses),
        board=lumber.size,
        species=job.boards.species,
        thicknesses=laid.thicknesses,
        width=laid.outer,
        least_width=laid.least,
        length=length,
        left_end=left,
        rear_gap=gap,
        overlap=overlap,
        overlap_margin=margin(overlap - rules.overlap, (rules.tape_uncertainty,)),
        layup=laid.layup,
        backing=backing,
        cut_back=cut_back,
    )


def projection_needed(job: Job, *, cut_back: float = 0.0) -> float:
    """Return how far the boards must stand out from what they stand on, in."""
    return job.rear_gap + job.rules.overlap + job.rules.tape_uncertainty + cut_back


def most_boards(job: Job) -> int:
    """Return the most boards that a stack may have; fewer are flagged by the job's own rule."""
    return max(MOST_BOARDS, job.rules.most_boards)


def _too_deep(job: Job, stack: Stack) -> Finding:
    lengths = Lengths(job)
    text = (
        f"The stack needs {stack.boards} boards to reach {lengths.up(job.rules.overlap)} over the "
        f"appliance; more than {job.rules.most_boards} is deep."
    )
    out = (stack.boards - job.rules.most_boards) * stack.thicknesses[0]
    remedy = (
        f"Fur the wall out with solid blocking between the studs by {lengths.up(out)}, or set the "
        "unit farther back."
    )
    if stack.boards > most_boards(job):
        return fails("stack-too-deep", text, remedy)
    return warns("stack-too-deep", text, remedy)


def stack_findings(job: Job, stack: Stack) -> tuple[Finding, ...]:
    """Return what is to be said of the stack's own shape."""
    found, lengths = [], Lengths(job)
    if stack.boards > job.rules.most_boards:
        found.append(_too_deep(job, stack))
    if stack.cut_back > 0.0:
        found.append(
            warns(
                "finish-to-cut",
                "The boards stand on the framing: the wall's finish, "
                f"{lengths.near(stack.cut_back)} thick, is cut away behind them.",
                f"Cut it out {lengths.near(stack.width)} high over the whole length of the boards, "
                "and look for wires and pipes before cutting.",
            )
        )
    if stack.overlap_margin.verdict is Verdict.FAILS:  # only a stack that stands already
        found.append(
            fails(
                "overlap-too-small",
                f"The boards reach {lengths.down(stack.overlap)} over the appliance; "
                f"{lengths.up(job.rules.overlap + job.rules.tape_uncertainty)} is wanted, the "
                "uncertainty of the tape counted.",
                "Add a board in front.",
            )
        )
    if stack.length < job.unit.width - 1e-9:
        found.append(
            warns(
                "board-shorter-than-housing",
                f"The boards are {lengths.down(stack.length)} long, the appliance is "
                f"{lengths.near(job.unit.width)} wide.",
                "Make the niche wider or cut the boards tight to its sides.",
            )
        )
    return tuple(found)


def fit_findings(job: Job) -> tuple[Finding, ...]:
    """Return why the unit does not fit between the niche's sides or before its rear wall."""
    found, lengths = [], Lengths(job)
    narrow = job.unit.width - job.niche.narrowest
    if narrow > 1e-9:
        found.append(
            fails(
                "niche-too-narrow",
                f"The appliance is {lengths.up(narrow)} wider than the niche at its narrowest.",
                f"Make the niche wider by {lengths.up(narrow)} and the room that the spec sheet "
                "asks for.",
            )
        )
    least = job.least_rear_gap
    if least < -1e-9:
        found.append(
            fails(
                "niche-too-shallow",
                f"The appliance is {lengths.up(-least)} too deep for the niche at its shallowest "
                "reading.",
                f"Let the appliance stand {lengths.up(-least)} farther proud, or "
                "make the niche deeper.",
            )
        )
    return tuple(found)


def out_from_wall(stack: Stack, out: FrontToBack) -> float:
    """Return where the force counts, out from what the boards stand on, in.

    Where the niche is too shallow the housing reaches past the wall: only the boards bear.
    """
    projection = sum(stack.thicknesses)
    if out is FrontToBack.OUTER_EDGE:
        return projection
    return projection - min(max(stack.overlap, 0.0), projection) / 2.0
