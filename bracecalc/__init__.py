"""Sizes and checks the bracing of a tall, heavy, top-heavy built-in appliance in its niche.

>>> from bracecalc import make_plan, read_job
>>> from bracecalc.data import demo_path
>>> make_plan(read_job(demo_path("3b-kitchen.toml"))).restraint.kind.value
'stack'
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from bracecalc.api import (
        Job,
        Plan,
        check_site,
        draw_sheet,
        make_plan,
        read_job,
        takeoff,
    )

__version__ = "0.1.0"
__all__ = [
    "Job",
    "Plan",
    "__version__",
    "check_site",
    "draw_sheet",
    "make_plan",
    "read_job",
    "takeoff",
]


def __getattr__(name: str) -> Any:
    # loaded when first asked for, so that `bracecalc --help` starts in a blink
    if name in __all__:
        from bracecalc import api

        return getattr(api, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
