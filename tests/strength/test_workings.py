"""Shown work: a step is made by the call that computes it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import pytest

from bracecalc.mechanics.formula import formula, formulas, said_of
from bracecalc.mechanics.statics import overturning
from bracecalc.strength.workings import Workings


class Found(NamedTuple):
    value: float
    mode: str


@dataclass(frozen=True)
class Bar:
    length: float
    stiff: bool


@formula(equation="s = P L and so on", source="made for this test.", unit="in")
def stretch(*, bar: Bar, pull: float, holes: tuple[float, ...]) -> Found:
    """Return the stretch of a bar.

    Args:
        bar: which.
        pull: force, P, lbf.
        holes: along it, in.

    Returns:
        Stretch, in. 0 where the bar is stiff.
    """
    return Found(0.0 if bar.stiff else pull * bar.length + sum(holes), "II")


def wordy(*, count: int) -> str:
    """Return words."""
    return "one" * count


def call(work: Workings) -> Found:
    return work.call("Part", "stretch", stretch, bar=Bar(2.0, False), pull=3.0, holes=(0.5, 1.0))


def test_a_silent_one_only_calls() -> None:
    work = Workings()
    assert call(work) == Found(7.5, "II")
    assert work.steps == []


def test_the_result_is_passed_through_whole_and_its_value_shown() -> None:
    work = Workings(recording=True)
    assert call(work) == Found(7.5, "II")
    (step,) = work.steps
    assert (step.part, step.meaning, step.result, step.unit) == ("Part", "stretch", 7.5, "in")


def test_inputs_of_a_record_are_shown_one_by_one() -> None:
    work = Workings(recording=True)
    call(work)
    assert work.steps[0].inputs == {"length": 2.0, "stiff": "no", "pull": 3.0, "holes": "0.5, 1"}


def test_equation_source_and_unit_stand_beside_the_formula() -> None:
    assert said_of(stretch) == ("s = P L and so on", "made for this test.", "in")
    equation, source, unit = said_of(overturning.restraint_force)
    assert equation == "F = max(0, (M_over - M_stab) / a)"
    assert source.startswith("statics")
    assert unit == "lbf"
    assert stretch in formulas()


def test_a_function_that_says_nothing_of_itself_has_none() -> None:
    assert said_of(wordy) == ("", "", "")


def test_inputs_are_given_by_name() -> None:
    with pytest.raises(ValueError, match="by name"):
        Workings().call("Part", "force", math.hypot, 3.0, 4.0)


def test_what_is_no_number_can_not_be_a_step() -> None:
    work = Workings(recording=True)
    with pytest.raises(ValueError, match="gives no number"):
        work.call("Part", "words", wordy, count=2)


def test_a_refusal_of_the_formula_is_not_swallowed() -> None:
    work = Workings(recording=True)
    with pytest.raises(ValueError, match="must be finite"):
        work.call(
            "Part",
            "force",
            overturning.restraint_force,
            overturning=math.nan,
            stabilising=0.0,
            arm=1.0,
        )
    assert work.steps == []
