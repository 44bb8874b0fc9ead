"""Two writings of the same equations, each from another source, over a grid of joints."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from bracecalc.mechanics.eurocode5 import lateral as eurocode5
from bracecalc.mechanics.eurocode5.lateral import TimberJoint
from bracecalc.mechanics.nds import dowel
from bracecalc.mechanics.nds.dowel import Joint
from published.closed_forms import yield_limits_table


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """How far two writings are apart over the grid, as a share of the value."""

    name: str
    joints: int
    worst_share: float


def _joints() -> Iterator[Joint]:
    for root, side, main, l_s, l_m in product(
        (0.131, 0.152, 0.196, 0.265),
        (2400.0, 3350.0, 4650.0, 61_850.0),
        (2400.0, 4650.0, 7950.0),
        (0.075, 0.5, 1.5),
        (1.0, 1.9, 3.0),
    ):
        yield Joint(
            diameter=root,
            side_bearing=side,
            main_bearing=main,
            side_length=l_s,
            main_length=l_m,
            gap=0.0,
            bending_yield=80_000.0,
        )


def _timber_joints() -> Iterator[TimberJoint]:
    for diameter, side, main, t_1, t_2 in product(
        (3.7, 4.2, 4.8, 7.4), (14.0, 21.0, 28.0), (14.0, 21.0, 28.0), (19.0, 38.0), (30.0, 60.0)
    ):
        yield TimberJoint(
            diameter=diameter,
            side_embedment=side,
            main_embedment=main,
            side_thickness=t_1,
            main_thickness=t_2,
            gap=0.0,
            yield_moment=eurocode5.yield_moment(tensile_strength=400.0, diameter=diameter),
        )


def _american() -> Pair:
    shares = [
        abs(load / yield_limits_table(joint)[mode] - 1.0)
        for joint in _joints()
        for mode, load in dowel.yield_loads(joint).items()
    ]
    return Pair(
        name="AWC TR12 general dowel equations at gap 0, against NDS table 12.3.1A",
        joints=len(shares) // 6,
        worst_share=max(shares),
    )


def _european() -> Pair:
    shares = [
        abs(load / eurocode5.johansen_loads(joint)[mode] - 1.0)
        for joint in _timber_joints()
        for mode, load in eurocode5.gapped_johansen_loads(joint).items()
    ]
    return Pair(
        name="our equilibria with a gap, at gap 0, against EN 1995-1-1 eq. 8.6",
        joints=len(shares) // 6,
        worst_share=max(shares),
    )


PAIRS = (_american(), _european())
