"""Holes for screws: in what, with which bit."""

from __future__ import annotations

import math
from functools import lru_cache

from bracecalc.records.conversions import MM_PER_INCH
from bracecalc.records.plan import Hole, Purpose
from bracecalc.records.reference import ScrewKind, ScrewSize
from bracecalc.records.scheme import Backing

# NDS 2018 12.1.4.2: lead hole of the thread, share of D, by specific gravity
LAG_LEAD = ((0.5, 0.40, 0.70), (0.6, 0.60, 0.75), (9.9, 0.65, 0.85))
STACK_MEMBERS = ("boards", "stud")
BACKING_NAMES = {Backing.STUDS: "stud", Backing.BLOCKING: "blocking"}
COACH_LEAD = 0.70  # EN 1995-1-1 10.4.5: about that share of the shank's diameter, from memory
DENSE = 0.6  # NDS 2018 12.1.5.3: above it the lead hole is the root diameter


@lru_cache(maxsize=1024)
def drilled(
    size: ScrewSize,
    *,
    counterbore: float,
    layers: tuple[str, ...],
    gravity: float,
    members: tuple[str, str] = STACK_MEMBERS,
) -> tuple[Hole, ...]:
    """Return the holes of one screw through boards and wall into the framing.

    Bits for clearance are given up to the next 1/64 in, lead holes down to it; for metric screws
    the step is 1/2 mm. A screw with its maker's values has none here: it is set as its maker says.

    Args:
        size: of the screw.
        counterbore: depth, in; 0 for none.
        layers: what lies between wood and framing, from the room.
        gravity: specific gravity of the framing.
        members: names of the wood under the head and of the framing.
    """
    if size.kind is ScrewKind.PUBLISHED:
        return ()
    found = []
    fixed, framing = members
    fine, coarse = (MM_PER_INCH / 0.5, MM_PER_INCH) if size.metric else (64.0, 16.0)
    if counterbore > 0.0:
        head = size.head_diameter if size.washer_diameter is None else size.washer_diameter
        sunk = _bit_up(head, coarse)
        found.append(Hole(member=fixed.removesuffix("s"), bit=sunk, purpose=Purpose.COUNTERBORE))
    clearance = _bit_up(size.diameter, fine)
    found.append(Hole(member=fixed, bit=clearance, purpose=Purpose.CLEARANCE))
    if layers:
        found.append(Hole(member=" and ".join(layers), bit=clearance, purpose=Purpose.CLEARANCE))
    if size.kind is ScrewKind.COACH:
        bit = _bit_down(COACH_LEAD * size.diameter, fine)
    elif size.kind is ScrewKind.LAG:
        low, high = next((low, high) for most, low, high in LAG_LEAD if gravity <= most)
        bit = _bit_down((low + high) / 2.0 * size.diameter, fine)
    elif gravity <= DENSE:
        bit = _bit_down(0.875 * size.root_diameter, fine)
    else:
        bit = _bit_down(size.root_diameter, fine)
    found.append(Hole(member=framing, bit=bit, purpose=Purpose.LEAD))
    return tuple(found)


def _bit_up(diameter: float, parts: float) -> float:
    return math.ceil((diameter - 1e-9) * parts) / parts


def _bit_down(diameter: float, parts: float) -> float:
    return math.floor((diameter + 1e-9) * parts) / parts
