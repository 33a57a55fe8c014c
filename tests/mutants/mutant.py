"""A mutant: one module with one thing changed, and by what it is known again after edits elsewhere."""

from __future__ import annotations

import ast
import hashlib
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from changes import Piece, changes
from formulas_changed import IMPORTED, Edit, formulas_changed

ROOT = Path(__file__).resolve().parents[2]
HOUSE = ROOT / "src" / "firstfurrow"
Key = tuple[str, str, str, str, str, int]  # no line: it moves with every edit above


@dataclass(frozen=True, slots=True)
class Mutant:
    """One change of a module. No edits: the module as it is."""

    module: str  # within the package: mechanics.slope
    kind: str  # code, text, both, declared
    function: str
    old: str
    new: str
    nth: int  # of the same change in the same function, in reading order, from 1
    line: int
    edits: tuple[Edit, ...]

    @property
    def key(self) -> Key:
        """What it is known by."""
        return self.module, self.kind, self.function, self.old, self.new, self.nth

    @property
    def id(self) -> str:
        """The same, short enough to type."""
        return hashlib.sha256("\0".join(map(str, self.key)).encode()).hexdigest()[:8]

    def source(self, text: str) -> str:
        """The text of the module with the change in it."""
        data = text.encode()
        for start, end, put in sorted(self.edits, reverse=True):
            data = data[:start] + put.encode() + data[end:]
        return data.decode() + (IMPORTED if self.kind == "both" else "")

    def entry(self) -> dict[str, Any]:
        """As `accepted.yaml` names it; what is usual is left out."""
        said = {"module": self.module, "function": self.function, "old": self.old, "new": self.new}
        usual = {"kind": "code", "nth": 1}
        return said | {name: getattr(self, name) for name, value in usual.items() if getattr(self, name) != value}


def key_of(entry: Mapping[str, Any]) -> Key:
    """What an entry of `accepted.yaml` is known by."""
    return (
        entry["module"], entry.get("kind", "code"), entry["function"], entry["old"], entry["new"], entry.get("nth", 1)
    )  # fmt: skip


def file_of(module: str) -> Path:
    """The file of a module of the package."""
    path = HOUSE.joinpath(*module.split("."))
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


def module_of(path: Path) -> str:
    """The module of a file, within the package."""
    return ".".join(path.relative_to(HOUSE).with_suffix("").parts).removesuffix(".__init__")


def mutants(module: str, text: str) -> list[Mutant]:
    """Every mutant of the text of a module."""
    piece, tree = Piece(text), ast.parse(text)
    found: list[tuple[str, str, int, str, str, tuple[Edit, ...]]] = [
        ("code", c.function, c.line, c.old, c.new, ((c.start, c.end, c.put),))
        for c in changes(piece, tree, numbers=module.startswith("mechanics"))
    ]
    found += [(d.kind, d.function, d.line, d.old, d.new, d.edits) for d in formulas_changed(piece, tree)]
    times: Counter[tuple[str, ...]] = Counter()
    made = []
    for kind, function, line, old, new, edits in found:
        times[kind, function, old, new] += 1
        made.append(Mutant(module, kind, function, old, new, times[kind, function, old, new], line, edits))
    return made
