"""One measurement beside its plan: difference, margin to the nearest limit, verdict."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from bracecalc.records.plan import Margin, Verdict
from bracecalc.records.site import LimitKind, Point, Reading


class Limit(NamedTuple):
    """The room that one measurement has, to what, and whether the plan itself judges by it."""

    room: Margin | None
    kind: LimitKind | None
    judged: bool = True
    failed: bool = False  # where there is no room to tell it by


UNLIMITED = Limit(None, None)


def point(
    key: str,
    name: str,
    values: tuple[float | None, Reading | None],
    uncertainty: float,
    limit: Limit,
    *,
    note: str = "",
) -> Point:
    """Return one point, judged by its limit."""
    planned, reading = values
    return Point(
        key=key,
        name=name,
        planned=planned,
        found=None if reading is None else reading.mean,
        uncertainty=uncertainty if reading is None else reading.uncertainty(uncertainty),
        limit=limit.kind,
        margin=limit.room,
        verdict=_verdict(limit),
        measured=reading is not None,
        note="; ".join(part for part in (note, _pulls(reading)) if part),
    )


def _pulls(reading: Reading | None) -> str:
    if reading is None or len(reading.pulls) == 1:
        return ""
    return f"mean of {len(reading.pulls)} readings"


def _verdict(limit: Limit) -> Verdict:
    if limit.room is None:
        return Verdict.FAILS if limit.failed else Verdict.HOLDS
    if limit.room.verdict is Verdict.FAILS and not limit.judged and limit.room.nominal >= -1e-9:
        return Verdict.CLOSE
    return limit.room.verdict


def several(
    key: str, name: str, readings: Sequence[Reading], planned: float | None
) -> Iterator[tuple[str, str, float | None, Reading | None]]:
    """Yield one row for each reading, or one for the plan's value where none was taken."""
    if not readings:
        yield key, name, planned, None
    for number, reading in enumerate(readings, start=1):
        of = f", point {number}" if len(readings) > 1 else ""
        yield f"{key}[{number}]", name + of, planned, reading
