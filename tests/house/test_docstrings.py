"""Every public formula says what it takes, in which unit, from which source."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator

import pytest

from bracecalc import mechanics
from bracecalc.mechanics.formula import said_of

UNITS = re.compile(
    r"\b(in|in-lbf|lbf|lbf/in|psi|degrees|dimensionless|g|psf|mm|N|N/mm2|N mm|kg/m3|F|"
    r"1/in|lbf/in2|sq ft|square feet|turn|angle|per inch|of thread)\b"
)
HELPERS = {"bracecalc.mechanics.guards", "bracecalc.mechanics.formula"}


def formulas() -> Iterator[tuple[str, Callable[..., object]]]:
    """Every public function of the modules in the rooms of formulas."""
    for info in pkgutil.walk_packages(mechanics.__path__, "bracecalc.mechanics."):
        if info.name in HELPERS:
            continue
        module = importlib.import_module(info.name)
        for name, member in vars(module).items():
            if name.startswith("_") or getattr(member, "__module__", "") != module.__name__:
                continue
            if inspect.isfunction(member) or hasattr(member, "__wrapped__"):
                yield f"{info.name.removeprefix('bracecalc.mechanics.')}.{name}", member


def test_there_are_formulas_in_every_room() -> None:
    rooms = {name.split(".")[0] for name, _ in formulas()}
    assert rooms == {"eurocode5", "geometry", "nds", "statics"}


@pytest.mark.parametrize(
    ("name", "formula"), list(formulas()), ids=lambda v: v if isinstance(v, str) else ""
)
def test_docstring_names_every_argument_and_shows_an_example(
    name: str, formula: Callable[..., object]
) -> None:
    text = inspect.getdoc(formula) or ""
    for argument in inspect.signature(formula).parameters:
        assert re.search(rf"^\s+{argument}: \S", text, re.MULTILINE) or argument in text, argument
    assert ">>>" in text


@pytest.mark.parametrize(
    ("name", "formula"),
    [(name, formula) for name, formula in formulas() if said_of(formula).equation],
    ids=lambda v: v if isinstance(v, str) else "",
)
def test_an_equation_has_a_source_and_its_numbers_have_units(
    name: str, formula: Callable[..., object]
) -> None:
    text = inspect.getdoc(formula) or ""
    assert said_of(formula).source
    assert "Equation:" not in text  # it stands once
    for argument, parameter in inspect.signature(formula).parameters.items():
        if parameter.annotation in ("float", float):
            block = re.search(rf"^\s+{argument}: (.*(?:\n\s{{8,}}\S.*)*)", text, re.MULTILINE)
            assert block is not None, argument
            assert UNITS.search(block[1]), f"{argument} has no unit: {block[1]}"
