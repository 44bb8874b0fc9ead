"""The same order with boards of another size, to be looked at beside it."""

from __future__ import annotations

from typing import NamedTuple

from bracecalc.order.order import Order


class Alternate(NamedTuple):
    """An order with every stack built of one size of board."""

    name: str
    order: Order
