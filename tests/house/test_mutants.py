"""The maker of mutants makes what it says; that the tests notice them is tried by hand and in CI."""

from __future__ import annotations

import ast
import doctest

import pytest
from mutation import mutants
from mutation.mutants import mutants_of
from mutation.run import cases_of, modules


def test_its_own_example() -> None:
    assert doctest.testmod(mutants).failed == 0


@pytest.mark.parametrize("module", modules())
def test_each_mutant_is_another_module_that_can_be_read(module: str) -> None:
    for case in cases_of(module)[:20]:
        assert case.mutant.before != case.mutant.after
        ast.parse(case.mutant.source)


def test_texts_types_and_messages_are_left_alone() -> None:
    source = 'def f(a: int = 3) -> str:\n    """Say 4."""\n    raise ValueError(f"{5} is {a}")\n'
    assert list(mutants_of(source)) == []


def test_there_are_enough() -> None:
    assert sum(len(cases_of(module)) for module in modules()) > 600
