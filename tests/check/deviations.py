"""Deviations by kind and size, boards up or not, each with what must come of it and why.

Worked out by hand for one niche: two 2x6 on studs at 4, 16 5/8 and 29 in behind 1/2 in of gypsum
board, underside at 81 3/8 in. The legs reach 80 3/4 to 82 in; each height is uncertain by 1/8 in
and the floor by 1/8 in, so that 1/4 in to either limit holds at worst. Rear gap 5/8 in, projection
3 in: 2 3/8 in of overlap, 2 1/16 in wanted with the tape. Screws 1 1/2 in into the stud, the least
that is wanted, in lines 0.324 in beside a stud's middle; a No. 12 wants 0.324 in to the edge, so
that the stud may be found 0.102 in off as read, and 0.04 in with the tape.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from bracecalc.records.actions import ActionKind as Do
from bracecalc.records.job import CarriedScrew
from bracecalc.records.plan import Verdict
from bracecalc.records.site import FoundLayer, Reading

TARGET = 81.375
HOLDS, CLOSE, FAILS = Verdict.HOLDS, Verdict.CLOSE, Verdict.FAILS
ALL_LEGS = ("front_left", "front_right", "rear_left", "rear_right")


class Deviation(NamedTuple):
    """What was found, and what must come of it.

    ``first`` is the first thing to do and ``offered`` every remedy, both by kind.
    """

    name: str
    found: dict[str, Any]
    verdict: Verdict
    why: str
    code: str = ""
    first: Do | None = None
    offered: frozenset[Do] = frozenset()


def once(*values: float) -> tuple[Reading, ...]:
    return tuple(Reading((value,)) for value in values)


def at(value: float) -> Reading:
    return Reading((value,))


def layer(thickness: float, material: str = "gypsum board") -> tuple[FoundLayer, ...]:
    return (FoundLayer(material=material, thickness=at(thickness)),)


def up(left: float = 0.0, right: float | None = None, **found: Any) -> dict[str, Any]:
    """Boards up, their ends so much over the target, and what else was found."""
    other = left if right is None else right
    return {"board_left": at(TARGET + left), "board_right": at(TARGET + other), **found}


def floor(**corners: float) -> dict[str, Any]:
    return {"floor": {corner: at(height) for corner, height in corners.items()}}


def stuck(corner: str, out: float) -> dict[str, Any]:
    return {"seized": (corner,), "legs": {corner: out}}


def screw(size: str, length: float) -> CarriedScrew:
    return CarriedScrew(size=size, lengths=(length,))


ANEW = frozenset({Do.MOVE_SCREWS, Do.TAKE_DOWN, Do.REBUILD, Do.BLOCKING})
MORE_OVERLAP = frozenset({Do.BOARD_IN_FRONT, Do.REBUILD})
LOWER = frozenset({Do.SHIM_UNDER, Do.LOWER_BOARDS, Do.PLATES})
HIGHER = frozenset({Do.RAISE_BOARDS, Do.TAKE_FLOOR_OUT})
FLOOR = frozenset({Do.PLATES, Do.TAKE_FLOOR_OUT})

BOARDS_DOWN = (
    Deviation("nothing", {}, HOLDS, "it is the plan"),
    Deviation("studs 1 in off", {"stud_spots": once(5, 17.625, 30)}, HOLDS, "marked anew"),
    Deviation("studs 4 in off", {"stud_spots": once(8, 20.625)}, HOLDS, "two studs are enough"),
    Deviation(
        "five studs", {"stud_spots": once(4, 10, 16.625, 23, 29)}, HOLDS, "more studs hold more"
    ),
    Deviation(
        "one stud", {"stud_spots": once(16.625)}, FAILS, "two are the least",
        "too-few-studs", Do.BLOCKING, frozenset({Do.BLOCKING}),
    ),
    Deviation(
        "a stud in the corner alone", {"stud_spots": once(0.5)}, FAILS, "beyond the boards' end",
        "too-few-studs", Do.BLOCKING, frozenset({Do.BLOCKING}),
    ),
    Deviation("layer 5/8", {"layers": layer(0.625)}, HOLDS, "planned anew with what is held to"),
    Deviation("plaster 7/8", {"layers": layer(0.875, "plaster")}, HOLDS, "with a counterbore"),
    Deviation(
        "layer 1 1/4", {"layers": layer(1.25)}, FAILS, "3/4 in more than the screws have",
        "no-stock-screw-long-enough", Do.OTHER_SCREWS, frozenset({Do.OTHER_SCREWS, Do.REBUILD}),
    ),
    Deviation(
        "foam", {"layers": layer(1.0, "rigid foam")}, FAILS, "boards can't be pulled tight",
        "compressible-wall",
    ),
    Deviation(
        "steel studs", {"stud_material": "steel"}, FAILS, "no wood to bite in", "no-wood-to-bite"
    ),
    Deviation(
        "studs of nobody knows what", {"stud_material": "unknown"}, FAILS,
        "a safety never rests on what nobody knows", "no-wood-to-bite",
    ),
    Deviation("depth + 1/4", {"depth": once(24.0)}, HOLDS, "2 1/8 in of overlap, 2 1/16 wanted"),
    Deviation(
        "depth + 3/8", {"depth": once(24.125)}, FAILS, "2 in of overlap, 2 1/16 wanted",
        "overlap-too-small", Do.BOARD_IN_FRONT, MORE_OVERLAP,
    ),
    Deviation(
        "depth + 1/2", {"depth": once(24.25)}, FAILS, "1 7/8 in of overlap",
        "overlap-too-small", Do.BOARD_IN_FRONT, MORE_OVERLAP,
    ),
    Deviation("depth - 1/2", {"depth": once(23.25)}, HOLDS, "1/8 in is left behind the appliance"),
    Deviation(
        "depth - 3/4", {"depth": once(23.0)}, FAILS, "1/8 in too shallow",
        "niche-too-shallow", Do.STAND_PROUDER, frozenset({Do.STAND_PROUDER}),
    ),
    Deviation("width - 1/4", {"width": once(33.0)}, HOLDS, "the appliance is 32 3/4 in wide"),
    Deviation(
        "width - 3/4", {"width": once(32.5)}, FAILS, "1/4 in narrower than the appliance",
        "niche-too-narrow",
    ),
    Deviation(
        "rear floor 1/4 up", floor(rear_left=0.25, rear_right=0.25), HOLDS,
        "reach from 81: 3/8 in to spare",
    ),
    Deviation(
        "rear left floor 5/8 up", floor(rear_left=0.625), FAILS, "reach from 81 3/8: none to spare",
        "reach-uncertain", Do.RAISE_BOARDS, HIGHER,
    ),
    Deviation(
        "whole floor 3/4 up", floor(**dict.fromkeys(ALL_LEGS, 0.75)), FAILS,
        "reach from 81 1/2, 1/8 in over the boards", "restraint-too-low", Do.RAISE_BOARDS, HIGHER,
    ),
    Deviation(
        "rear floor 1 1/2 up", floor(rear_left=1.5, rear_right=1.5), FAILS,
        "1 3/8 in of travel for 1 1/2 in of floor", "floor-uses-up-travel", Do.PLATES, FLOOR,
    ),
    Deviation("front left 3/8 low", floor(front_left=-0.375), HOLDS, "1 1/8 in of 1 3/8 in out"),
    Deviation(
        "front left 1 low", floor(front_left=-1.0), FAILS, "1 3/4 in out of 1 3/8 in",
        "leg-travel-exceeded", Do.PLATES, frozenset({Do.PLATES}),
    ),
    Deviation(
        "threshold 1/2", {"path_high": at(0.5)}, FAILS, "1/8 in to roll under, 1/4 in of doubt",
        "reach-uncertain", Do.RAISE_BOARDS, HIGHER,
    ),
    Deviation(
        "threshold 1", {"path_high": at(1.0)}, FAILS, "3/8 in too low to roll under",
        "does-not-go-in", Do.PLATES, FLOOR,
    ),
    Deviation(
        "soffit at 86", {"soffit": once(86.0)}, FAILS, "4 5/8 in over the target for 5 1/2 in",
        "boards-through-soffit", Do.REBUILD, frozenset({Do.REBUILD}),
    ),
    Deviation(
        "soffit at 80", {"soffit": once(80.0)}, FAILS, "the appliance itself is higher",
        "boards-through-soffit",
    ),
    Deviation(
        "trim", {"trim": True}, FAILS, "the top can't meet the boards",
        "trim-in-the-way", Do.TRIM_OFF, frozenset({Do.TRIM_OFF}),
    ),
    Deviation(
        "a leg stuck in", stuck("rear_left", 0.0), FAILS, "3/4 in is wanted",
        "leg-seized", Do.FREE_LEG, frozenset({Do.FREE_LEG}),
    ),
    Deviation("a leg stuck as it must be", stuck("rear_left", 0.75), HOLDS, "3/4 in is wanted"),
    Deviation(
        "a leg stuck 1 in out", stuck("front_right", 1.0), FAILS, "3/4 in is wanted",
        "leg-seized", Do.FREE_LEG, frozenset({Do.FREE_LEG}),
    ),
)  # fmt: skip

BOARDS_UP = (
    Deviation("as planned", up(), HOLDS, "the screws of the plan in the studs of the plan"),
    Deviation("1/16 low", up(-0.0625), HOLDS, "9/16 in to spare"),
    Deviation("3/8 high", up(0.375), HOLDS, "1/4 in to spare, just what the doubts are"),
    Deviation(
        "5/8 high", up(0.625), FAILS, "at the end of the travel", "reach-uncertain",
        Do.SHIM_UNDER, LOWER,
    ),
    Deviation(
        "7/8 high", up(0.875), FAILS, "1/4 in past the travel", "leg-travel-exceeded",
        Do.SHIM_UNDER, LOWER,
    ),
    Deviation(
        "1 1/2 high", up(1.5), FAILS, "7/8 in past the travel; shims of 1 1/8 in will do",
        "leg-travel-exceeded", Do.SHIM_UNDER, LOWER,
    ),
    Deviation(
        "5/8 low", up(-0.625), FAILS, "a leg would only just be off its roller",
        "reach-uncertain", Do.RAISE_BOARDS, HIGHER,
    ),
    Deviation(
        "7/8 low", up(-0.875), FAILS, "1/8 in under the reach", "restraint-too-low",
        Do.RAISE_BOARDS, HIGHER,
    ),
    Deviation("right 1/32 higher", up(0.0, 1 / 32), HOLDS, "paper drags at both ends"),
    Deviation(
        "right 1/16 higher", up(0.0, 1 / 16), HOLDS, "one-end contact, which these screws hold"
    ),
    Deviation(
        "right 1/4 higher", up(0.0, 0.25), FAILS, "the rear rises 3/8 in, some four times as far "
        "forward", "overlap-lost", Do.SHIM_GAP, MORE_OVERLAP | {Do.SHIM_GAP},
    ),
    Deviation(
        "left 5/8 higher", up(0.625, 0.0), FAILS, "the rear rises 3/4 in: no front board makes up",
        "overlap-lost", Do.SHIM_GAP, frozenset({Do.SHIM_GAP, Do.REBUILD}),
    ),
    Deviation(
        "projection 2 15/16", up(projection=once(2.9375)), HOLDS, "2 5/16 in of overlap"
    ),
    Deviation(
        "projection 2 1/2", up(projection=once(2.5)), FAILS, "1 7/8 in of overlap",
        "overlap-too-small", Do.BOARD_IN_FRONT, MORE_OVERLAP,
    ),
    Deviation(
        "three boards stand", up(projection=once(4.5)), FAILS,
        "the plan placed screws for two boards", "screws-not-located", None,
    ),
    Deviation(
        "studs 1/16 off", up(stud_spots=once(4.0625, 16.6875, 29.0625)), CLOSE,
        "0.04 in to the edge distance as read, less than the tape's 1/16 in",
    ),
    Deviation(
        "studs 1/4 off", up(stud_spots=once(4.25, 16.875, 29.25)), FAILS,
        "0.176 in from the edge, 0.324 wanted", "screws-miss-wood", Do.MOVE_SCREWS, ANEW,
    ),
    Deviation(
        "studs 1 off", up(stud_spots=once(5, 17.625, 30)), FAILS, "no wood behind any screw",
        "screws-miss-wood", Do.MOVE_SCREWS, ANEW,
    ),
    Deviation(
        "studs 4 off", up(stud_spots=once(8, 20.625, 25)), FAILS, "no wood behind any screw",
        "screws-miss-wood", Do.MOVE_SCREWS, ANEW,
    ),
    Deviation(
        "the middle stud is not there", up(stud_spots=once(4, 29)), FAILS,
        "two screws in plaster alone", "screws-miss-wood", Do.MOVE_SCREWS, ANEW,
    ),
    Deviation(
        "one stud more", up(stud_spots=once(4, 10, 16.625, 29)), HOLDS, "no screw is lost by it"
    ),
    Deviation(
        "one stud alone", up(stud_spots=once(16.625)), FAILS, "four screws in plaster alone",
        "screws-miss-wood", Do.BLOCKING, frozenset({Do.BLOCKING}),
    ),
    Deviation(
        "layer 9/16", up(layers=layer(0.5625)), FAILS, "1 7/16 in into the stud",
        "screws-too-short", Do.MOVE_SCREWS, ANEW,
    ),
    Deviation(
        "layer 5/8", up(layers=layer(0.625)), FAILS, "1 3/8 in into the stud",
        "screws-too-short", Do.MOVE_SCREWS, ANEW,
    ),
    Deviation(
        "plaster 7/8", up(layers=layer(0.875, "plaster")), FAILS, "1 1/8 in into the stud",
        "screws-too-short", Do.MOVE_SCREWS, ANEW,
    ),
    Deviation("layer 3/8", up(layers=layer(0.375)), HOLDS, "1 5/8 in into the stud"),
    Deviation("paint alone", up(layers=layer(0.0625)), HOLDS, "1 15/16 in into the stud"),
    Deviation(
        "foam behind", up(layers=layer(0.5, "rigid foam")), FAILS, "the boards are not tight",
        "compressible-wall",
    ),
    Deviation(
        "steel behind", up(stud_material="steel"), FAILS, "no wood to bite in", "no-wood-to-bite"
    ),
    Deviation("soffit at their top", up(soffit=once(TARGET + 5.5)), HOLDS, "a 2x6 is 5 1/2 in"),
    Deviation(
        "soffit 1/16 under their top", up(soffit=once(TARGET + 5.4375)), FAILS,
        "wood can't stand there: one reading is wrong", "boards-through-soffit",
        Do.LOWER_BOARDS, frozenset({Do.LOWER_BOARDS, Do.REBUILD}),
    ),
    Deviation(
        "soffit 1 under their top", up(soffit=once(TARGET + 4.5)), FAILS,
        "3/8 in lower is as far as they may go", "boards-through-soffit",
        Do.REBUILD, frozenset({Do.REBUILD}),
    ),
    Deviation(
        "3 in screws used", up(fixed=(screw("10", 3.0),)), FAILS, "1 in into the stud, and none",
        "screws-too-short", Do.MOVE_SCREWS, ANEW,
    ),
    Deviation(
        "6 in screws in front", up(fixed=(screw("10", 3.5), screw("12", 6.0))), HOLDS,
        "2 1/2 in into a stud of 3 1/2 in",
    ),
    Deviation(
        "screws 1 in beside", up(fixed_at=once(5, 17.625, 30)), FAILS, "no wood behind any screw",
        "screws-miss-wood", Do.MOVE_SCREWS, ANEW,
    ),
    Deviation(
        "screws at two studs of three", up(fixed_at=once(4, 29)), HOLDS,
        "half the force on each instead of a third",
    ),
    Deviation(
        "boards 24 in long from 4 in", up(board_length=at(24.0), board_start=at(4.0)), FAILS,
        "screws at 3 11/16 and 28 11/16 in, boards from 4 to 28 in", "screws-near-end",
        Do.TAKE_DOWN, frozenset({Do.TAKE_DOWN, Do.REBUILD, Do.BLOCKING}),
    ),
    Deviation("front edge 1/8 higher", up(twist=at(0.125)), HOLDS, "the rear rises 1/4 in"),
    Deviation(
        "front edge 3/8 higher", up(twist=at(0.375)), FAILS, "the rear rises 1/2 in",
        "overlap-lost", Do.BOARD_IN_FRONT, MORE_OVERLAP,
    ),
    Deviation(
        "trim before them", up(trim=True), FAILS, "the top can't meet the boards",
        "trim-in-the-way", Do.TRIM_OFF, frozenset({Do.TRIM_OFF}),
    ),
    Deviation("the appliance is in", up(unit_in=True), HOLDS, "as planned"),
    Deviation(
        "depth + 1/2 behind them", up(depth=once(24.25)), FAILS, "1 7/8 in of overlap",
        "overlap-too-small", Do.BOARD_IN_FRONT, MORE_OVERLAP,
    ),
    Deviation(
        "depth + 1 behind them", up(depth=once(24.75)), FAILS, "1 3/8 in of overlap",
        "overlap-too-small", Do.BOARD_IN_FRONT, MORE_OVERLAP,
    ),
    Deviation(
        "rear left floor 5/8 up", up(**floor(rear_left=0.625)), FAILS, "none to spare",
        "reach-uncertain", Do.RAISE_BOARDS, HIGHER,
    ),
    Deviation(
        "rear floor 1 1/2 up", up(**floor(rear_left=1.5, rear_right=1.5)), FAILS,
        "1 3/8 in of travel for 1 1/2 in of floor", "floor-uses-up-travel", Do.PLATES, FLOOR,
    ),
    Deviation(
        "front left 1 low", up(**floor(front_left=-1.0)), FAILS, "1 3/4 in out of 1 3/8 in",
        "leg-travel-exceeded", Do.PLATES, frozenset({Do.PLATES}),
    ),
    Deviation(
        "a leg stuck in", up(**stuck("rear_left", 0.0)), FAILS, "3/4 in is wanted",
        "leg-seized", Do.FREE_LEG, frozenset({Do.FREE_LEG}),
    ),
)  # fmt: skip
