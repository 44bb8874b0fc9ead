"""Sizes and checks the bracing of a tall, heavy, top-heavy built-in appliance in its niche.

>>> from bracecalc import make_plan, read_job  # doctest: +SKIP
>>> plan = make_plan(read_job("niche.toml"))  # doctest: +SKIP
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from bracecalc.jobfile.read import read_job
    from bracecalc.planning.plan import make_plan

__version__ = "0.1.0"
__all__ = ["__version__", "make_plan", "read_job"]


def __getattr__(name: str) -> Any:
    # loaded when first asked for, so that `bracecalc --help` starts in a blink
    if name == "read_job":
        from bracecalc.jobfile.read import read_job

        return read_job
    if name == "make_plan":
        from bracecalc.planning.plan import make_plan

        return make_plan
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
