"""Reads a page of hand calculation: its given values, and its equations with the numbers put in.

An equation is an indented block: ``F = M/a``, then ``= 1606/18.25``, then ``= 88 lbf``; or all on
one line without the numbers. Symbols are given in a table, or by an equation above.
"""

from __future__ import annotations

import ast
import math
import operator
import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import NamedTuple

GIVEN = re.compile(r"^\| `(\w+)` \| .* \| (-?[\d/ .]+?)(?: [a-z]+)? \| .* \|$", re.MULTILINE)
LONG = re.compile(r"^( +(\w+)) = ([^=\n]+)\n +=[^=\n]+\n +=([^=\n]+)$", re.MULTILINE)
SHORT = re.compile(r"^( +(\w+)) = ([^=\n]+) =([^=\n]+)$", re.MULTILINE)
NAME = re.compile(r"[A-Za-z_]\w*")
OPERATORS: dict[type, Callable[..., float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
    ast.USub: operator.neg,
}
FUNCTIONS: dict[str, Callable[..., float]] = {
    "max": max, "min": min, "sqrt": math.sqrt, "round": round, "ceil": math.ceil,
}  # fmt: skip


class Equation(NamedTuple):
    """One equation of the page."""

    symbol: str
    formula: str
    result: float  # as printed
    unit: str


def evaluate(formula: str, values: Mapping[str, float]) -> float:
    """Return what a formula of plain arithmetic comes to with the values of its symbols."""

    def worth(node: ast.expr) -> float:
        match node:
            case ast.Constant(value=float() | int() as number):
                return float(number)
            case ast.Name(id="pi"):
                return math.pi
            case ast.Name(id=name):
                return values[name]
            case ast.UnaryOp(op=op, operand=operand):
                return OPERATORS[type(op)](worth(operand))
            case ast.BinOp(left=left, op=op, right=right):
                return OPERATORS[type(op)](worth(left), worth(right))
            case ast.Call(func=ast.Name(id=name), args=args):
                return FUNCTIONS[name](*map(worth, args))
        raise ValueError(f"not arithmetic: {ast.dump(node)}")

    return worth(ast.parse(formula.strip().replace("^", "**"), mode="eval").body)


def given(text: str) -> dict[str, float]:
    """Return the values of the page's table, by symbol."""
    return {
        symbol: float(sum(map(Fraction, value.split()))) for symbol, value in GIVEN.findall(text)
    }


def equations(text: str) -> list[Equation]:
    """Return the equations in the order of the page."""
    found = [*LONG.finditer(text), *SHORT.finditer(text)]
    return [
        Equation(one[2], one[3], float(number), unit)
        for one in sorted(found, key=lambda one: one.start())
        for number, _, unit in [one[4].strip().partition(" ")]
    ]


def filled(text: str) -> str:
    """Return the page with its numbers as the formulas that it prints give them."""
    values = given(text)

    def shown(found: re.Match[str]) -> str:
        start, symbol, formula = found[1], found[2], found[3]
        values[symbol] = evaluate(formula, values)
        _, _, unit = found[4].strip().partition(" ")
        result = f"{values[symbol]:.5g} {unit}".rstrip()
        if found.re is SHORT:
            return f"{start} = {formula} = {result}"
        before = " " * len(start)
        return f"{start} = {formula}\n{before} = {_put_in(formula, values)}\n{before} = {result}"

    # in the order of the page, since an equation uses those above it
    parts, end = [], 0
    found = [*LONG.finditer(text), *SHORT.finditer(text)]
    for one in sorted(found, key=lambda one: one.start()):
        parts += [text[end : one.start()], shown(one)]
        end = one.end()
    return "".join([*parts, text[end:]])


def _put_in(formula: str, values: Mapping[str, float]) -> str:
    def number(found: re.Match[str]) -> str:
        if found[0] in FUNCTIONS or found[0] == "pi":
            return found[0]
        value = f"{values[found[0]]:.5g}"
        return f"({value})" if value.startswith("-") else value

    return NAME.sub(number, formula)
