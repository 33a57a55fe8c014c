"""The changes of a declared formula: its text alone, text and code together, its directions, its unit, its digits.

Text alone and code alone are caught wherever the two are compared. Both together are caught only by what comes from
outside of them: a published number, a worked example, a law of physics.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from changes import Piece, changes

Edit = tuple[int, int, str]  # from one byte of the module to another, and what is put there
WAYS = ("raises", "lowers", "either")
# Appended to a module whose code is made from a text: the functions that a formula text may name.
IMPORTED = "\nfrom firstfurrow.reasoning.formula_text import FUNCTIONS\n"


@dataclass(frozen=True, slots=True)
class Declared:
    """One change of a declaration."""

    kind: str  # text, both or declared
    function: str
    line: int
    old: str
    new: str
    edits: tuple[Edit, ...]


def formulas_changed(piece: Piece, tree: ast.Module) -> Iterator[Declared]:
    """Every single change of the formulas that a module declares."""
    for node in tree.body:
        for call in node.decorator_list if isinstance(node, ast.FunctionDef) else ():
            if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "formula":
                assert isinstance(node, ast.FunctionDef)
                yield from _texts(piece, node, call)
                for old, new, keywords in _declarations(call):
                    edit = (*piece.span(call), _written(call, call.args, keywords))
                    yield Declared("declared", node.name, node.lineno, old, new, (edit,))


def _texts(piece: Piece, node: ast.FunctionDef, call: ast.Call) -> Iterator[Declared]:
    returns = [n for n in ast.walk(node) if isinstance(n, ast.Return) and n.value is not None]
    result = max(returns, key=lambda n: n.lineno).value
    assert result is not None
    text = Piece(ast.literal_eval(call.args[0]))
    for change in changes(text, ast.parse(text.data, mode="eval").body, numbers=True):
        changed = (text.data[: change.start] + change.put.encode() + text.data[change.end :]).decode()
        declaration = (*piece.span(call), _written(call, [ast.Constant(changed)], call.keywords))
        code = (*piece.span(result), as_code(changed))
        for kind, edits in (("text", (declaration,)), ("both", (declaration, code))):
            yield Declared(kind, node.name, node.lineno, change.old, change.new, edits)


def _declarations(call: ast.Call) -> Iterator[tuple[str, str, list[ast.keyword]]]:
    said: dict[str, Any] = {str(k.arg): k.value.value for k in call.keywords if isinstance(k.value, ast.Constant)}

    def but(**values: object) -> list[ast.keyword]:
        return [ast.keyword(name, ast.Constant(value)) for name, value in {**said, **values}.items()]

    for step in (1, -1):
        yield f"digits={said['digits']}", f"digits={said['digits'] + step}", but(digits=said["digits"] + step)
    unit = "m" if said["unit"] == "kg" else "kg"
    yield f"unit={said['unit']!r}", f"unit={unit!r}", but(unit=unit)
    for way in WAYS:
        for name in said.get(way, "").split():
            for other in WAYS:
                if other != way:
                    fewer = " ".join(n for n in said[way].split() if n != name)
                    more = f"{said.get(other, '')} {name}"
                    yield f"{way}={name!r}", f"{other}={name!r}", but(**{way: fewer, other: more})


def _written(call: ast.Call, args: list[ast.expr], keywords: list[ast.keyword]) -> str:
    return ast.unparse(ast.Call(call.func, args, keywords))


def as_code(text: str) -> str:
    """The code that does what a formula text says."""
    tree = ast.parse(text, mode="eval").body
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            node.func = ast.parse(f"FUNCTIONS[{node.func.id!r}]", mode="eval").body
    return ast.unparse(tree)
