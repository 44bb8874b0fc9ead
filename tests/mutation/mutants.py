"""Small changes to formulas, one at a time: the tests must notice each.

A mutant is a module with one operator, comparison, constant, argument or return changed, as a slip
of the pen would. ``mutants_of`` makes them from the source, so that they follow the code.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from typing import NamedTuple

_SWAPS: dict[type[ast.AST], type[ast.AST]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Lt: ast.GtE,
    ast.LtE: ast.Gt,
    ast.Gt: ast.LtE,
    ast.GtE: ast.Lt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.And: ast.Or,
    ast.Or: ast.And,
}
_CALLS = {"min": "max", "max": "min", "ceil": "floor", "floor": "ceil", "any": "all", "all": "any"}


class Mutant(NamedTuple):
    """One changed module: where, what stood there, what stands there now, the whole source."""

    line: int
    before: str
    after: str
    source: str


def mutants_of(source: str) -> Iterator[Mutant]:
    """Yield every mutant of a module, in the order of its lines.

    >>> [(m.before, m.after) for m in mutants_of("def f(a):\\n    return max(a, 2.0) - 1")]
    [('max(a, 2.0) - 1', 'max(a, 2.0) + 1'), ('max(a, 2.0)', 'min(a, 2.0)'), ('2.0', '2.2'), \
('1', '2')]
    """
    tree = ast.parse(source)
    for node, change in _spots(tree):
        kept, before = dict(vars(node)), ast.unparse(node)
        change(node)
        after, changed = ast.unparse(node), ast.unparse(tree)
        vars(node).update(kept)
        yield Mutant(node.lineno, before, after, changed)


def how_many(source: str) -> int:
    """Return how many mutants a module has, without making them."""
    return len(_spots(ast.parse(source)))


def _spots(tree: ast.Module) -> list[tuple[ast.expr, Callable[[ast.expr], None]]]:
    return [(node, change) for node in _working(tree) for change in _changes(node)]


def _working(tree: ast.Module) -> Iterator[ast.expr]:
    """Yield the expressions that work something out: no docstrings, types, messages, defaults."""
    found: list[ast.expr] = []

    def visit(node: ast.AST) -> None:
        if isinstance(node, ast.Raise | ast.AnnAssign | ast.JoinedStr | ast.Assert):
            if isinstance(node, ast.AnnAssign) and node.value is not None:
                visit(node.value)
            return
        if isinstance(node, ast.FunctionDef):
            for part in node.body:
                visit(part)
            return
        if isinstance(node, ast.expr) and hasattr(node, "lineno"):
            found.append(node)
        for child in ast.iter_child_nodes(node):
            visit(child)

    visit(tree)
    yield from found


def _changes(node: ast.expr) -> Iterator[Callable[[ast.expr], None]]:
    if isinstance(node, ast.BinOp | ast.BoolOp) and type(node.op) in _SWAPS:
        yield _swap_operator
    elif isinstance(node, ast.Compare):
        if type(node.ops[0]) in _SWAPS:
            yield _swap_comparison
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield _drop_minus
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name | ast.Attribute):
        if _name(node.func) in _CALLS:
            yield _swap_call
    elif isinstance(node, ast.Constant) and _is_number(node.value):
        yield _change_number


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _swap_operator(node: ast.expr) -> None:
    assert isinstance(node, ast.BinOp | ast.BoolOp)
    node.op = _SWAPS[type(node.op)]()  # type: ignore[assignment]


def _swap_comparison(node: ast.expr) -> None:
    assert isinstance(node, ast.Compare)
    node.ops = [_SWAPS[type(node.ops[0])](), *node.ops[1:]]  # type: ignore[list-item]


def _drop_minus(node: ast.expr) -> None:
    assert isinstance(node, ast.UnaryOp)
    node.op = ast.UAdd()


def _swap_call(node: ast.expr) -> None:
    assert isinstance(node, ast.Call)
    if isinstance(node.func, ast.Name):
        node.func = ast.Name(_CALLS[node.func.id], node.func.ctx)
    elif isinstance(node.func, ast.Attribute):
        node.func = ast.Attribute(node.func.value, _CALLS[node.func.attr], node.func.ctx)


def _change_number(node: ast.expr) -> None:
    assert isinstance(node, ast.Constant)
    value = node.value
    assert isinstance(value, int | float)
    node.value = value + 1 if isinstance(value, int) else round(value * 1.1, 12) or 0.1


def _name(node: ast.Name | ast.Attribute) -> str:
    return node.id if isinstance(node, ast.Name) else node.attr
