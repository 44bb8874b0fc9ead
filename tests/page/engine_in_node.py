"""Runs pytest on the Python of the page; what that Python can't have is skipped, with the reason.

Imported under Node alone (engine_in_node.mjs).
"""

from __future__ import annotations

import os
import sys
from importlib.util import module_from_spec, spec_from_file_location
from typing import Any

import pytest

NATIVE = ("highspy", "numpy", "openpyxl", "typst", "scipy")
NOT_THERE = ("emscripten does not support processes", "can't start new thread")


class WhatIsNotThere:
    """Turns a failure for want of a native package, a process or a thread into a skip."""

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_makereport(self, item: Any, call: Any) -> Any:
        outcome = yield
        report = outcome.get_result()
        if report.failed and call.excinfo is not None:
            reason = _reason(call.excinfo.value)
            if reason:
                report.outcome = "skipped"
                report.longrepr = (str(item.path), 0, f"Skipped: {reason}")


def _reason(error: BaseException | None) -> str:
    while error is not None:
        if isinstance(error, ModuleNotFoundError) and error.name in NATIVE:
            return f"{error.name} is native"
        for words in NOT_THERE:
            if words in str(error):
                return words
        error = error.__cause__ or error.__context__
    return ""


def run(options: list[str]) -> int:
    """Return pytest's exit status."""
    place = "/project/data"  # in a clone the tables lie there, not inside the package
    spec = spec_from_file_location(
        "bracecalc.data", f"{place}/__init__.py", submodule_search_locations=[place]
    )
    assert spec is not None
    assert spec.loader is not None
    module = sys.modules["bracecalc.data"] = module_from_spec(spec)
    import bracecalc

    bracecalc.data = module
    spec.loader.exec_module(module)
    from hypothesis import settings

    settings.register_profile("page", max_examples=15, deadline=None, database=None)
    os.environ["BRACECALC_PROFILE"] = "page"
    return int(pytest.main(["-p", "no:cacheprovider", *options], plugins=[WhatIsNotThere()]))
