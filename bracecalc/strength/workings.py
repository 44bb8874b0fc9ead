"""Shown work: each step is made by the call that computes it, never by a second copy.

A formula's docstring carries its equation and source; the step adds the numbers put in.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any, TypeVar

from bracecalc.records.plan import Step

Result = TypeVar("Result")


@cache
def described(formula: Callable[..., object]) -> tuple[str, str, str]:
    """Return a formula's equation, source and unit of the result, from its docstring.

    >>> from bracecalc.mechanics.geometry.reach import leg_extension
    >>> described(leg_extension)[0]
    'e_i = z_top - H - z_i'
    """
    text = formula.__doc__ or ""
    return _section(text, "Equation"), _section(text, "Source"), _unit(text)


def _section(text: str, name: str) -> str:
    found = re.search(rf"^( *){name}: (.*(?:\n\1 +\S.*)*)", text, re.MULTILINE)
    return " ".join(found[2].split()) if found else ""


def _unit(text: str) -> str:
    found = re.search(r"Returns:\n +[^.\n]*, ([^\s,.]+(?: mm)?)[.\n]", text)
    return "" if found is None or found[1] == "dimensionless" else found[1]


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
        self, part: str, meaning: str, formula: Callable[..., Result], /, **inputs: Any
    ) -> Result:
        """Return what the formula gives, and keep the step where work is shown."""
        result = formula(**inputs)
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
        equation, source, unit = described(formula)
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
