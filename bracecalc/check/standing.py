"""What stands: the screws of boards that are up, as the plan had them or as they were found."""

from __future__ import annotations

from collections.abc import Iterator

from bracecalc.records.job import CarriedScrew, Screws, SetScrew
from bracecalc.records.plan import Plan, ScrewRow, StackSupport
from bracecalc.records.reference import ScrewKind, Tables
from bracecalc.records.site import AsFound


def standing_screws(
    planned: Plan, as_found: AsFound, boards: int, tables: Tables
) -> tuple[SetScrew, ...]:
    """Return the screws of boards that are up; none where their places aren't known.

    Args:
        planned: gives their places and sizes, as far as nothing else was found.
        as_found: what was found of them.
        boards: how many stand.
        tables: for the kinds of screws found.
    """
    if not as_found.built or not isinstance(planned.support, StackSupport):
        return ()
    rows = planned.support.screws
    if not rows or len(rows) != boards:
        return ()
    fixed = _fixed(as_found.fixed, len(rows))
    return tuple(
        screw
        for row, used in zip(rows, fixed, strict=True)
        for screw in _row(row, used, as_found, planned.job.screws, tables)
    )


def _fixed(found: tuple[CarriedScrew, ...], boards: int) -> tuple[CarriedScrew | None, ...]:
    """Return the screw found in each board, from the wall outward; one alone is in all of them."""
    if not found:
        return (None,) * boards
    return tuple(found[min(number, len(found) - 1)] for number in range(boards))


def _row(
    row: ScrewRow, used: CarriedScrew | None, as_found: AsFound, given: Screws, tables: Tables
) -> Iterator[SetScrew]:
    kind, size, length, thread = row.kind, row.size, row.length, row.thread_length
    if used is not None:
        known = tables.screws.get(used.size)
        kind = ScrewKind.PUBLISHED if known is None else known.kind
        size, length = used.size, used.lengths[0]
    published = next(
        (one for one in given.published if (one.size, one.length) == (size, length)), None
    )
    for spot in _spots(row, as_found):
        for across, above in row.offsets:
            yield SetScrew(
                board=row.board,
                kind=kind,
                size=size,
                length=length,
                counterbore=row.counterbore,
                thread_length=thread if used is None else used.thread_length,
                published=published,
                spot=spot,
                across=across,
                above=above,
            )


def _spots(row: ScrewRow, as_found: AsFound) -> tuple[float, ...]:
    """Return the centres that a row was set out for, or the places where its screws were found."""
    if as_found.fixed_at:
        return tuple(sorted(reading.mean for reading in as_found.fixed_at))
    if not row.offsets:
        return ()
    across, _ = row.offsets[0]
    return tuple(place - across for place, _ in row.positions[:: len(row.offsets)])
