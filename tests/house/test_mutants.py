"""The maker of mutants makes what it says; whether tests notice them is tried by hand and in CI."""

from __future__ import annotations

import ast
import doctest
from itertools import islice

import pytest
from mutation import mutants
from mutation.mutants import how_many, mutants_of
from mutation.run import ROOT, modules


def test_its_own_example() -> None:
    assert doctest.testmod(mutants).failed == 0


@pytest.mark.parametrize("module", modules())
def test_each_mutant_is_another_module_that_can_be_read(module: str) -> None:
    source = (ROOT / "bracecalc" / module).read_text(encoding="utf-8")
    for mutant in islice(mutants_of(source), 10):
        assert mutant.before != mutant.after
        ast.parse(mutant.source)


def test_texts_types_and_messages_are_left_alone() -> None:
    source = 'def f(a: int = 3) -> str:\n    """Say 4."""\n    raise ValueError(f"{5} is {a}")\n'
    assert list(mutants_of(source)) == []


def test_there_are_enough() -> None:
    sources = ((ROOT / "bracecalc" / m).read_text(encoding="utf-8") for m in modules())
    assert sum(map(how_many, sources)) > 600
