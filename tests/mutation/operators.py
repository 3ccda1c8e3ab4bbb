"""The small faults that can be put into a module: each one named by what it changes, so that other lines do not rename it.

Comes in: a module's source. Goes out: `Fault`s, in the order of the source. Nothing is run here.
"""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Callable, Iterator
from typing import NamedTuple

Offer = tuple[str, ast.expr]
Members = dict[str, list[str]]
"""Names of an enum's members by the enum's name."""

_SWAPPED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_OPPOSITE: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
}  # fmt: skip
_OTHER = {"min": "max", "max": "min"}
_UNRUN = {"annotation", "returns", "type_comment", "type_params"}


class Fault(NamedTuple):
    """One fault: where it stands, what it changes, and how to put it in."""

    module: str
    function: str
    operator: str
    ordinal: int
    change: str
    put_in: Callable[[], None]

    @property
    def key(self) -> str:
        """Its name: module, function, the change, and which one where a function has the same change twice."""
        again = f"::{self.ordinal}" if self.ordinal > 1 else ""
        return f"{self.module}::{self.function}::{self.change}{again}"


def faults(module: str, tree: ast.Module, members: Members) -> Iterator[Fault]:
    """Every fault that `tree` could have; `put_in` changes that same tree."""
    counted: Counter[tuple[str, str]] = Counter()
    for function, old, replace in _places(tree, ()):
        for operator, new in _offers(old, members):
            change = f"{ast.unparse(old)} -> {ast.unparse(new)}"
            counted[function, change] += 1
            yield Fault(module, function, operator, counted[function, change], change, _later(replace, new))


def _later(replace: Callable[[ast.expr], None], new: ast.expr) -> Callable[[], None]:
    return lambda: replace(new)


def _places(
    node: ast.AST, within: tuple[str, ...]
) -> Iterator[tuple[str, ast.expr, Callable[[ast.expr], None]]]:
    """Expressions that are run, with the function they stand in and a way to replace them."""
    if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
        within = (*within, node.name)
    for name, value in ast.iter_fields(node):
        if name in _UNRUN:
            continue
        for place, child in enumerate(value) if isinstance(value, list) else [(None, value)]:
            if isinstance(child, ast.expr):
                yield ".".join(within) or "<module>", child, _replacer(node, name, place)
            if isinstance(child, ast.AST):
                yield from _places(child, within)


def _replacer(parent: ast.AST, name: str, place: int | None) -> Callable[[ast.expr], None]:
    def replace(new: ast.expr) -> None:
        if place is None:
            setattr(parent, name, new)
        else:
            getattr(parent, name)[place] = new

    return replace


def _offers(node: ast.expr, members: Members) -> Iterator[Offer]:
    """What may stand in the place of an expression."""
    match node:
        case ast.BinOp():
            yield from _sums(node)
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            yield "sign", operand
        case ast.UnaryOp(op=ast.Not(), operand=operand):
            yield "not", operand
        case ast.BoolOp(op=ast.And(), values=values):
            yield "and_or", ast.BoolOp(ast.Or(), values)
        case ast.BoolOp(op=ast.Or(), values=values):
            yield "and_or", ast.BoolOp(ast.And(), values)
        case ast.Compare(left=left, ops=[op, *more], comparators=comparators):
            yield "compare", ast.Compare(left, [_SWAPPED[type(op)](), *more], comparators)
        case ast.Call(func=ast.Name(id="min" | "max" as name), args=args, keywords=keywords):
            yield "min_max", ast.Call(ast.Name(_OTHER[name], ast.Load()), args, keywords)
        case ast.Constant() | ast.Attribute():
            yield from _values(node, members)


def _sums(node: ast.BinOp) -> Iterator[Offer]:
    if _is_text(node.left) or _is_text(node.right) or type(node.op) not in _OPPOSITE:
        return
    yield (
        "sign" if isinstance(node.op, ast.Add | ast.Sub) else "factor",
        ast.BinOp(node.left, _OPPOSITE[type(node.op)](), node.right),
    )
    yield "dropped", node.left


def _is_text(node: ast.expr) -> bool:
    """Where one side is text or a sequence the sum joins, and another sign would only be a wrong type."""
    joined = ast.JoinedStr | ast.List | ast.Tuple | ast.ListComp
    return isinstance(node, joined) or (isinstance(node, ast.Constant) and isinstance(node.value, str))


def _values(node: ast.Constant | ast.Attribute, members: Members) -> Iterator[Offer]:
    match node:
        case ast.Constant(value=bool()):
            pass
        case ast.Constant(value=int() as number):
            yield "plus_one", ast.Constant(number + 1)
            yield "minus_one", ast.Constant(number - 1)
        case ast.Constant(value=float() as number):
            yield "scaled", ast.Constant(round(number * 1.1, 12) if number else 0.1)
        case ast.Attribute(value=ast.Name(id=enum), attr=name) if name in members.get(enum, ()):
            own = members[enum]
            if len(own) > 1:
                other = own[(own.index(name) + 1) % len(own)]
                yield "enum", ast.Attribute(ast.Name(enum, ast.Load()), other, ast.Load())


def enums(source: str) -> Members:
    """The enums that a module declares, by their base's name."""
    return {
        each.name: [
            target.id for line in each.body if isinstance(line, ast.Assign) for target in line.targets
            if isinstance(target, ast.Name)
        ]
        for each in ast.parse(source).body
        if isinstance(each, ast.ClassDef) and any("Enum" in ast.unparse(base) for base in each.bases)
    }  # fmt: skip
