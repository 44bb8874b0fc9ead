"""The boards on the rear wall: how many, how long, how far over the housing."""

from __future__ import annotations

import math
from dataclasses import replace

from bracecalc.mechanics.geometry import stack as geometry
from bracecalc.records.job import Job
from bracecalc.records.margins import margin
from bracecalc.records.plan import Finding, Stack, StackOption, Verdict
from bracecalc.records.reference import LumberSize, Tables
from bracecalc.text.findings import Lengths, fails, warns


def lumber_of(job: Job, tables: Tables) -> LumberSize:
    """Return the job's board, measured sizes before those of the table."""
    size, boards = tables.lumber[job.boards.size], job.boards
    if boards.thickness is None and boards.width is None:
        return size
    return LumberSize(
        size=size.size,
        thickness=size.thickness if boards.thickness is None else boards.thickness,
        width=size.width if boards.width is None else boards.width,
        nominal_thickness=size.nominal_thickness,
        nominal_width=size.nominal_width,
    )


def build_stack(job: Job, tables: Tables) -> Stack:
    """Return the stack that gives the overlap with the uncertainty of the depth taken off."""
    lumber, rules, gap = lumber_of(job, tables), job.rules, job.rear_gap
    needed = gap + rules.overlap + rules.tape_uncertainty
    if job.built is not None and job.built.boards:
        thicknesses = job.built.boards
    else:
        count = geometry.boards_needed(projection=needed, thickness=lumber.thickness)
        thicknesses = (lumber.thickness,) * count
    projection = sum(thicknesses)
    overlap = geometry.overlap_obtained(projection=projection, rear_gap=gap)
    width = job.niche.narrowest
    return Stack(
        boards=len(thicknesses),
        board=lumber.size,
        species=job.boards.species,
        thicknesses=thicknesses,
        width=lumber.width,
        length=width - 2.0 * job.boards.end_gap,
        left_end=job.boards.end_gap,
        rear_gap=gap,
        overlap=overlap,
        overlap_margin=margin(overlap - rules.overlap, (rules.tape_uncertainty,)),
        options=(),
    )


def stack_options(job: Job, tables: Tables, stack: Stack) -> tuple[StackOption, ...]:
    """Return other ways to build the stack that keep the overlap, and what each changes."""
    needed = stack.rear_gap + job.rules.overlap + job.rules.tape_uncertainty
    lengths, found = Lengths(job), []

    def offer(name: str, boards: int, projection: float, effect: str) -> None:
        if projection >= needed - 1e-9:
            shift = projection - stack.projection
            change = _screw_change(lengths, shift)
            found.append(
                StackOption(
                    name=name,
                    boards=boards,
                    projection=projection,
                    overlap=projection - stack.rear_gap,
                    change="; ".join(part for part in (change, effect) if part),
                )
            )

    first = stack.thicknesses[0]
    thin = tables.lumber.get(stack.board.replace("2x", "1x", 1))
    if stack.board.startswith("2x") and thin is not None:
        offer(
            f"outermost board a {thin.size}",
            stack.boards,
            stack.projection - first + thin.thickness,
            "the outermost board is weaker in bending",
        )
    edge_rest = max(0, math.ceil((needed - stack.width) / first - 1e-9))
    if edge_rest + 1 < stack.boards:
        offer(
            f"one {stack.board} on edge against the wall"
            + (f", then {edge_rest} flat" if edge_rest else ""),
            edge_rest + 1,
            stack.width + edge_rest * first,
            f"only {lengths.near(first)} of height for the screws of the board on edge",
        )
    wider = next_wider(tables, stack.board)
    if wider is not None:
        offer(
            f"{wider.size} boards",
            stack.boards,
            stack.projection,
            f"{lengths.near(wider.width - stack.width)} more height under the top edge "
            "for the screws to hold by",
        )
    return tuple(found)


def with_options(job: Job, tables: Tables, stack: Stack) -> Stack:
    """Return the stack with the other ways to build it."""
    return replace(stack, options=stack_options(job, tables, stack))


def next_wider(tables: Tables, board: str) -> LumberSize | None:
    """Return the next wider board of the same thickness, if there is one."""
    here = tables.lumber[board]
    wider = [
        size
        for size in tables.lumber.values()
        if size.nominal_thickness == here.nominal_thickness and size.width > here.width
    ]
    return min(wider, key=lambda size: size.width, default=None)


def _screw_change(lengths: Lengths, shift: float) -> str:
    if abs(shift) < 1e-9:
        return ""
    longer = "longer" if shift > 0.0 else "shorter"
    return f"screws of the outermost board {lengths.near(abs(shift))} {longer}"


def stack_findings(job: Job, stack: Stack) -> tuple[Finding, ...]:
    """Return what is to be said of the stack's own shape."""
    found, lengths = [], Lengths(job)
    if stack.boards > job.rules.most_boards:
        found.append(
            fails(
                "stack-too-deep",
                f"The stack needs {stack.boards} boards to reach "
                f"{lengths.up(job.rules.overlap)} over the housing; more than "
                f"{job.rules.most_boards} is too deep to hold well.",
                "Fur the wall out with solid blocking between the studs by "
                f"{lengths.up((stack.boards - job.rules.most_boards) * stack.thicknesses[0])}, "
                "or set the unit farther back.",
            )
        )
    if stack.overlap_margin.verdict is Verdict.FAILS:  # only a stack that stands already
        found.append(
            fails(
                "overlap-too-small",
                f"The boards reach {lengths.down(stack.overlap)} over the housing; "
                f"{lengths.up(job.rules.overlap + job.rules.tape_uncertainty)} is wanted, the "
                "uncertainty of the tape counted.",
                "Add a board in front.",
            )
        )
    if stack.length < job.unit.width - 1e-9:
        found.append(
            warns(
                "board-shorter-than-housing",
                f"The boards are {lengths.down(stack.length)} long, the housing is "
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
                f"The unit is {lengths.up(narrow)} wider than the niche at its narrowest.",
                f"Make the niche wider by {lengths.up(narrow)} and the room that the unit's sheet "
                "asks for.",
            )
        )
    least = job.least_rear_gap
    if least < -1e-9:
        found.append(
            fails(
                "niche-too-shallow",
                f"The housing is {lengths.up(-least)} too deep for the niche at its shallowest "
                "reading.",
                f"Let the unit stand {lengths.up(-least)} prouder, or make the niche deeper.",
            )
        )
    return tuple(found)
