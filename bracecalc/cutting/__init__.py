"""Exact cutting plans: pieces to sticks at least cost, with a bound that was checked.

``plan_cuts`` is the way in. Everything is whole: 1/32 in and the smallest coin. What the solver
says is used as a hint only; cost, coverage, room and bound are worked out anew in integers.

Imports nothing of bracecalc.
"""

from __future__ import annotations

from bracecalc.cutting.master import installed
from bracecalc.cutting.model import build_model, write_plan
from bracecalc.cutting.records import (
    PER_INCH,
    CutPlan,
    CutStick,
    CutTask,
    Piece,
    Saw,
    StickKind,
)
from bracecalc.cutting.search import find_cuts, quick_cuts
from bracecalc.cutting.state import start

__all__ = [
    "PER_INCH",
    "CutPlan",
    "CutStick",
    "CutTask",
    "Piece",
    "Saw",
    "StickKind",
    "first_fit_plan",
    "plan_cuts",
]

EXACT = "filling to the brim, column generation and whole-number search"
QUICK = "sticks filled to the brim: the solver of the extra 'takeoff' is not installed"
FIRST_FIT = "first-fit decreasing"


def plan_cuts(task: CutTask, *, time_limit: float = 10.0) -> CutPlan:
    """Return the cheapest plan that was found, and the bound that no plan can beat.

    Without the solver of the extra ``takeoff`` the search is shorter and the bound is that of
    total length.

    Args:
        task: pieces, sticks and saw.
        time_limit: seconds, after which the best plan so far is returned with its gap.

    Raises:
        ValueError: if the pieces can't be cut from the sticks, or time_limit is not more than 0.

    >>> foot = 12 * PER_INCH
    >>> sticks = (StickKind(length=8 * foot, price=400), StickKind(length=12 * foot, price=590))
    >>> task = CutTask(pieces=(Piece(length=47 * 32, count=5),), sticks=sticks)
    >>> plan = plan_cuts(task)
    >>> plan.cost, plan.bound, plan.proven
    (990, 990, True)
    """
    if not time_limit > 0:
        raise ValueError(f"the time limit must be more than 0 s, got {time_limit!r}")
    search, method = (find_cuts, EXACT) if installed() else (quick_cuts, QUICK)
    found = search(build_model(task), time_limit)
    return write_plan(task, found.best, found.bound, method)


def first_fit_plan(task: CutTask) -> CutPlan:
    """Return the first-fit-decreasing plan, beside the bound of the total length.

    Raises:
        ValueError: if the pieces can't be cut from the sticks.
    """
    found = start(build_model(task), seconds=1.0)
    return write_plan(task, found.best, found.bound, FIRST_FIT)
