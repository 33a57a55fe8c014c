"""Every single change of a piece of Python: where it stands, what stands there, and what would stand there instead."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass

ARITHMETIC = {
    ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*", ast.Pow: "*", ast.FloorDiv: "/", ast.Mod: "*",
    ast.BitOr: "&", ast.BitAnd: "|", ast.LShift: ">>", ast.RShift: "<<",
}  # fmt: skip
COMPARISONS = {
    ast.Lt: ("<=", ">="), ast.LtE: ("<", ">"), ast.Gt: (">=", "<="), ast.GtE: (">", "<"), ast.Eq: ("!=",),
    ast.NotEq: ("==",), ast.Is: ("is not",), ast.IsNot: ("is",), ast.In: ("not in",), ast.NotIn: ("in",),
}  # fmt: skip
OTHER_FUNCTIONS = {
    "min": ("max",), "max": ("min",), "any": ("all",), "all": ("any",), "sin": ("cos",), "cos": ("sin", "tan"),
    "tan": ("sin", "atan"), "atan": ("tan",), "floor": ("ceil",), "ceil": ("floor",), "up": ("down", "nearest"),
    "down": ("up", "nearest"), "nearest": ("up",),
}  # fmt: skip
ARGUMENT_ALONE = {
    "sqrt", "radians", "degrees", "round", "sorted", "exp", "max", "min", "sin", "cos", "tan", "atan", "floor", "ceil",
    "up", "down", "float", "tuple", "frozenset", "set",
}  # fmt: skip
TYPES = {"Callable", "Literal", "Mapping", "Sequence", "dict", "frozenset", "list", "tuple", "type"}


@dataclass(frozen=True, slots=True)
class Change:
    """One change. `start` and `end` are bytes of the piece; `function` is the outermost one, "" outside of any."""

    start: int
    end: int
    line: int
    function: str
    old: str
    new: str
    put: str  # what is written in the place; an expression stands in brackets


class Piece:
    """A piece of Python, and the text of each of its nodes."""

    def __init__(self, text: str) -> None:
        self.data = text.encode()
        self._lines = [0, *(at + 1 for at, byte in enumerate(self.data) if byte == ord("\n"))]

    def span(self, node: ast.expr | ast.stmt) -> tuple[int, int]:
        """Where the node begins and ends, in bytes."""
        assert node.end_lineno is not None
        assert node.end_col_offset is not None
        return self._lines[node.lineno - 1] + node.col_offset, self._lines[node.end_lineno - 1] + node.end_col_offset

    def of(self, node: ast.expr | ast.stmt) -> str:
        """The text of the node."""
        start, end = self.span(node)
        return self.data[start:end].decode()

    def part(self, node: ast.expr) -> str:
        """The text of the node as part of a greater expression."""
        whole = isinstance(node, ast.Name | ast.Constant | ast.Attribute | ast.Call | ast.Subscript)
        return self.of(node) if whole else f"({self.of(node)})"


def changes(piece: Piece, tree: ast.AST, *, numbers: bool = False) -> list[Change]:
    """Every single change of the tree of a piece; `numbers`: every number by one hundredth as well."""
    found: dict[tuple[int, int, str], Change] = {}
    for node, function in _nodes(tree, "", ""):
        for place, new in _instead(piece, node, numbers):
            start, end = piece.span(place)
            old = " ".join(piece.of(place).split())
            new = " ".join(new.split())
            if new != old:
                put = new if isinstance(place, ast.stmt) else f"({new})"
                found.setdefault((start, end, new), Change(start, end, place.lineno, function, old, new, put))
    return list(found.values())


def _nodes(node: ast.AST, names: str, function: str) -> Iterator[tuple[ast.AST, str]]:
    """Every node that may be changed, with its function."""
    yield node, function
    if isinstance(node, ast.ClassDef):
        names += node.name + "."
    elif isinstance(node, ast.FunctionDef):
        function = function or names + node.name
    for below in _below(node):
        yield from _nodes(below, names, function)


def _below(node: ast.AST) -> list[ast.AST]:
    """What may be changed inside of a node: no annotations, decorators, docstrings, nor the words of an error."""
    match node:
        case ast.Import() | ast.ImportFrom() | ast.Assert() | ast.JoinedStr() | ast.Expr(value=ast.Constant()):
            return []
        case ast.Assign(targets=[ast.Name(id="__all__")]) | ast.Call(func=ast.Name(id="TypeVar")):
            return []
        case ast.Subscript(value=ast.Name(id=name)) if name in TYPES:
            return []
        case ast.Call(func=ast.Name(id=name)) if name.endswith("Error"):
            return []
        case ast.FunctionDef():
            return [*node.args.defaults, *(d for d in node.args.kw_defaults if d is not None), *node.body]
        case ast.ClassDef():
            return list(node.body)
        case ast.AnnAssign():
            return [] if node.value is None else [node.value]
    return list(ast.iter_child_nodes(node))


def _instead(piece: Piece, node: ast.AST, numbers: bool) -> Iterator[tuple[ast.expr | ast.stmt, str]]:
    """What could stand in the place of a node, or of one right below it."""
    of, part = piece.of, piece.part
    match node:
        case ast.BinOp(left=left, op=op, right=right):
            if not (isinstance(left, ast.Constant) and isinstance(left.value, str)):
                yield node, f"{part(left)} {ARITHMETIC[type(op)]} {part(right)}"
                if isinstance(op, ast.Add | ast.Sub):
                    yield node, of(left)
                if isinstance(op, ast.Add):
                    yield node, of(right)
        case ast.UnaryOp(op=ast.Not() | ast.USub() | ast.Invert()):
            yield node, of(node.operand)
        case ast.Compare(left=left, ops=[op], comparators=[right]):
            for sign in COMPARISONS[type(op)]:
                yield node, f"{part(left)} {sign} {part(right)}"
        case ast.BoolOp(values=values):
            words = (" and ", " or ") if isinstance(node.op, ast.And) else (" or ", " and ")
            yield node, words[1].join(map(part, values))
            for one in values:
                rest = [value for value in values if value is not one]
                yield node, of(rest[0]) if len(rest) == 1 else words[0].join(map(part, rest))
        case ast.Constant(value=value):
            yield from ((node, new) for new in _other_values(value, numbers))
        case ast.JoinedStr():
            yield node, '"XX"'
        case ast.Call():
            yield from _other_calls(piece, node)
        case ast.If(test=test) | ast.IfExp(test=test):
            yield test, f"not {part(test)}"
        case ast.While(test=test):
            yield test, "False"
        case ast.comprehension(ifs=tests):
            for test in tests:
                yield test, "True"
                yield test, f"not {part(test)}"
        case ast.AugAssign(target=target, op=op, value=value):
            yield node, f"{of(target)} = {of(value)}"
            yield node, f"{of(target)} {ARITHMETIC[type(op)]}= {of(value)}"
            yield node, "pass"
        case ast.Return(value=None | ast.Constant(value=None)) | ast.Raise() | ast.Break():
            yield node, "pass"
        case ast.Return(value=ast.expr() as value):
            yield value, "None"
        case ast.Continue():
            yield node, "pass"
            yield node, "break"
        case ast.Expr(value=value) if not isinstance(value, ast.Constant):
            yield node, "pass"
        case ast.ExceptHandler(type=ast.expr() as error):
            yield error, "ZeroDivisionError"


def _other_values(value: object, numbers: bool) -> Iterator[str]:
    if isinstance(value, bool):
        yield str(not value)
    elif isinstance(value, int | float):
        yield repr(value + 1)
        yield repr(value - 1)
        if value and (numbers or isinstance(value, float)):
            yield repr(value * 1.01)
    elif isinstance(value, str):
        yield repr("XX" + value)


def _other_calls(piece: Piece, call: ast.Call) -> Iterator[tuple[ast.expr, str]]:
    name, before = "", ""
    if isinstance(call.func, ast.Name):
        name = call.func.id
    elif isinstance(call.func, ast.Attribute):
        name, before = call.func.attr, piece.part(call.func.value) + "."
    for other in OTHER_FUNCTIONS.get(name, ()):
        yield call.func, before + other
    first = call.args[0] if call.args else None
    if name in ARGUMENT_ALONE and first is not None and not isinstance(first, ast.GeneratorExp | ast.Starred):
        for argument in call.args if name in ("min", "max") else [first]:
            yield call, piece.of(argument)
    if name == "round" and len(call.args) == 2:
        yield call.args[1], f"{piece.part(call.args[1])} + 1"
        yield call.args[1], f"{piece.part(call.args[1])} - 1"
    if name == "get" and len(call.args) == 2:
        yield call.args[1], "None"
