"""What is to be bought or cut, in the words of the counter and the saw."""

from __future__ import annotations

from bracecalc.records.plan import SCREWS, Item, Need
from bracecalc.text.findings import Lengths
from bracecalc.text.screw_names import counter_name


def is_screw(need: Need) -> bool:
    """Return whether something to buy is a screw."""
    return need.item in SCREWS.values()


def need_words(need: Need, lengths: Lengths) -> str:
    """Return something to buy as people ask for it; a screw with its length.

    >>> from bracecalc.records.job import Job, Niche, Unit, Wall
    >>> unit = Unit(height=80.625, width=32, depth=23, leg_travel_front=1.25, leg_travel_rear=1.25)
    >>> niche, wall = Niche(width=(33.0,), depth=(24.0,)), Wall(layers=())
    >>> lengths = Lengths(Job(title="x", niche=niche, wall=wall, unit=unit))
    >>> need_words(Need(item=Item.LAG_SCREW, size="1/4", length=6.0, count=4), lengths)
    '1/4 x 6 in lag screw'
    """
    if is_screw(need) and need.length is not None:
        return counter_name(need.item, need.size, need.length)
    parts = item_words(need, lengths), need.asked_for, need.species
    return " ".join(part for part in parts if part)


def item_words(need: Need, lengths: Lengths) -> str:
    """Return what kind of thing is to be bought or cut."""
    return lengths.say("sheet.spacer") if need.item is Item.PACKER else need.item


def cut_length(need: Need, lengths: Lengths) -> str:
    """Return how long a piece is cut: no longer than it fits; empty where nothing is cut."""
    # a screw's length is in its name
    return "" if is_screw(need) or need.length is None else lengths.down(need.length)
