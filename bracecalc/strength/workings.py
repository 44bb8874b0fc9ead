"""Shown work: each step is made by the call that computes it, never by a second copy.

A formula carries its equation, source and unit; the step adds the numbers put in.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from typing import Any, ParamSpec, TypeVar

from bracecalc.mechanics.formula import said_of
from bracecalc.records.plan import Step

Result = TypeVar("Result")
Inputs = ParamSpec("Inputs")


class Workings:
    """Collects steps while a verification runs; a silent one only calls.

    >>> from bracecalc.mechanics.geometry.reach import leg_extension
    >>> work = Workings(recording=True)
    >>> work.call("Legs", "rear right", leg_extension, top=81.625, height=80.625, spot=0.25)
    0.75
    >>> work.steps[0].result, work.steps[0].unit
    (0.75, 'in')
    """

    __slots__ = ("recording", "steps")

    def __init__(self, *, recording: bool = False) -> None:
        self.recording = recording
        self.steps: list[Step] = []

    def call(
        self,
        part: str,
        meaning: str,
        formula: Callable[Inputs, Result],
        /,
        *named: Inputs.args,
        **inputs: Inputs.kwargs,
    ) -> Result:
        """Return what the formula gives, and keep the step where work is shown.

        Every input is given by its name, by which the step shows it.
        """
        if named:
            raise ValueError(f"{formula} must be given its inputs by name")
        result = formula(**inputs)  # type: ignore[call-arg]
        if self.recording:
            self.keep(part, meaning, formula, inputs, result)
        return result

    def keep(
        self,
        part: str,
        meaning: str,
        formula: Callable[..., object],
        inputs: Mapping[str, Any],
        result: object,
    ) -> None:
        """Keep one step; the value of a named result is its first field."""
        equation, source, unit = said_of(formula)
        value = result[0] if isinstance(result, tuple) else result
        if not isinstance(value, int | float):
            raise ValueError(f"{formula.__name__} gives no number to show: {result!r}")
        shown = {name: _shown(given) for name, given in _flat(inputs).items()}
        self.steps.append(
            Step(
                part=part,
                meaning=meaning,
                equation=equation,
                inputs=shown,
                result=float(value),
                unit=unit,
                source=source,
            )
        )


def _flat(inputs: Mapping[str, Any]) -> dict[str, Any]:
    flat: dict[str, Any] = {}
    for name, given in inputs.items():
        if is_dataclass(given) and not isinstance(given, type):
            flat.update({field.name: getattr(given, field.name) for field in fields(given)})
        else:
            flat[name] = given
    return flat


def _shown(given: Any) -> float | str:
    if isinstance(given, bool):
        return "yes" if given else "no"
    if isinstance(given, int | float):
        return float(given)
    if isinstance(given, tuple | list):
        return ", ".join(
            f"({_shown(item)})"
            if isinstance(item, tuple)
            else format(item, ".6g")
            if isinstance(item, float)
            else str(item)
            for item in given
        )
    return str(given)
