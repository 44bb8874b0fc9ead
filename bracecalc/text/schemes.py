"""Schemes in words: what each needs, what it is used, why it isn't had."""

from __future__ import annotations

from collections.abc import Callable

from bracecalc.records.scheme import Backing, Lack, Layup, Scheme, Shortfall
from bracecalc.text.findings import Lengths, used
from bracecalc.text.screw_names import counter_name

NUMBERS = {1: "one", 2: "two", 3: "three", 4: "four"}
LAID = {
    Layup.FLAT: "",
    Layup.AS_BUILT: "",
    Layup.THIN_LAST: ", the outermost a 1-by",
    Layup.EDGE_FIRST: ", the one at the wall on edge",
}


def board_words(scheme: Scheme) -> str:
    """Return a scheme's boards and what they stand on, in words."""
    number = NUMBERS.get(scheme.boards, str(scheme.boards))
    name = f"{number} {scheme.board}{LAID[scheme.layup]}"
    if scheme.backing is Backing.BLOCKING:
        name += " on solid blocking"
    if scheme.finish_cut:
        name += " with the finish cut away behind them"
    return name


def scheme_words(lengths: Lengths, scheme: Scheme) -> str:
    """Return a scheme in words: boards, what they stand on, screws."""
    name = board_words(scheme)
    if scheme.kind is None:
        return name
    screw = counter_name(scheme.kind.value, scheme.screw, scheme.length)
    at = "place" if scheme.backing is Backing.BLOCKING else "stud"
    sunk = f", sunk {lengths.near(scheme.counterbore)}" if scheme.counterbore > 0.0 else ""
    return f"{name}, {scheme.per_place - scheme.boards + 1} x {screw} per {at}{sunk}"


def shortfall_words(lengths: Lengths, scheme: Scheme) -> str:
    """Return why a scheme isn't had, in words; its use where strength alone is short."""
    short = scheme.shortfall
    if short is None:
        return "" if scheme.use is None else f"{used(scheme.use)} used"
    if short.lack is Lack.STRENGTH:
        return (
            "" if scheme.use is None else f"{used(scheme.use)} used, limited by {scheme.limited_by}"
        )
    return _LACKS[short.lack](lengths, short, scheme)


def _screw_too_short(lengths: Lengths, short: Shortfall, scheme: Scheme) -> str:
    board = "the outermost board" if short.board == scheme.boards else f"board {short.board}"
    return (
        f"{board} needs a screw of {lengths.up(short.wanted or 0.0)} or more, the longest at hand "
        f"is {lengths.down(short.there or 0.0)}"
    )


def _does_not_seat(lengths: Lengths, short: Shortfall, scheme: Scheme) -> str:
    board = "the outermost board" if short.board == scheme.boards else f"board {short.board}"
    return (
        f"no screw at hand of {lengths.up(short.wanted or 0.0)} or a little more for {board} keeps "
        "its tip inside the stud with its thread filling it"
    )


def _covered(lengths: Lengths, short: Shortfall, scheme: Scheme) -> str:
    return (
        f"board {short.board} is covered by the next and needs a screw of its own of "
        f"{lengths.up(short.wanted or 0.0)} or a little more, whose head does not stand out"
    )


def _end_distance(lengths: Lengths, short: Shortfall, scheme: Scheme) -> str:
    return (
        f"the second stud is {lengths.down(short.there or 0.0)} from the board's end, screws need "
        f"{lengths.up(short.wanted or 0.0)}"
    )


_LACKS: dict[Lack, Callable[[Lengths, Shortfall, Scheme], str]] = {
    Lack.STUDS: lambda lengths, short, scheme: (
        "the boards meet fewer than two studs"
        if scheme.backing is Backing.STUDS
        else "the blocking has no room for two places of screws"
    ),
    Lack.END_DISTANCE: _end_distance,
    Lack.SCREW_TOO_SHORT: _screw_too_short,
    Lack.SCREW_DOES_NOT_SEAT: _does_not_seat,
    Lack.COVERED_BOARD: _covered,
    Lack.CROWDED: lambda lengths, short, scheme: "the screws have no room beside each other",
    Lack.SOFFIT: lambda lengths, short, scheme: (
        f"{lengths.near(short.wanted or 0.0)} of board has no room under the soffit"
    ),
    Lack.TOO_DEEP: lambda lengths, short, scheme: (
        f"{scheme.boards} boards, {short.there:.0f} are the most"
    ),
    Lack.NOT_COVERED: lambda lengths, short, scheme: (
        "the standard covers no screw at hand; one with its maker's values may do"
    ),
}
