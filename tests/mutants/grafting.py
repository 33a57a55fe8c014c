"""Puts a changed module into the running program, in memory, so that tests which were collected before meet it."""

from __future__ import annotations

import sys
from dataclasses import fields
from types import FunctionType, ModuleType
from typing import Any

from mutant import HOUSE, file_of

FORMULAS = "firstfurrow.reasoning.formulas"


def put_in(module: str, text: str) -> None:
    """Put a changed text in place of a module. Whatever is raised, the changed module cannot be loaded."""
    _read_again(module, text)
    if f"firstfurrow.{module}" == FORMULAS:  # what it does, it did when the formulas were declared
        for path in HOUSE.glob("mechanics/[!_]*.py"):
            _read_again(f"mechanics.{path.stem}", path.read_text(encoding="utf-8"))


def _read_again(module: str, text: str) -> None:
    running = sys.modules[f"firstfurrow.{module}"]
    fresh: dict[str, Any] = {"__name__": running.__name__, "__file__": running.__file__}
    exec(compile(text, str(file_of(module)), "exec"), fresh)
    for name, new in fresh.items():
        if name != "FORMULAS" and not name.startswith("__") and not isinstance(new, ModuleType):
            _replace(running, name, new)
    _declare(running, fresh)


def _replace(running: ModuleType, name: str, new: Any) -> None:
    """A function or class stays the one that others hold, with new code; all else is replaced where it is held."""
    old = vars(running).get(name)
    if isinstance(old, FunctionType) and isinstance(new, FunctionType):
        _take(old, new)
    elif isinstance(old, type) and isinstance(new, type):
        if new.__module__ == running.__name__ and old is not new:
            for key, value in vars(new).items():
                _take_member(old, key, value)
    elif old is not new:
        setattr(running, name, new)
        for holder in list(sys.modules.values()):
            if old is not None and vars(holder).get(name) is old:
                setattr(holder, name, new)


def _take(old: FunctionType, new: FunctionType) -> None:
    if old is not new:
        old.__code__, old.__defaults__, old.__kwdefaults__ = new.__code__, new.__defaults__, new.__kwdefaults__


def _take_member(owner: type, name: str, new: Any) -> None:
    old = vars(owner).get(name)
    if isinstance(old, FunctionType) and isinstance(new, FunctionType):
        _take(old, new)
    elif isinstance(old, property) and isinstance(new, property):
        assert isinstance(old.fget, FunctionType)
        assert isinstance(new.fget, FunctionType)
        _take(old.fget, new.fget)
    elif not hasattr(new, "__get__") and not name.startswith("__"):
        setattr(owner, name, new)


def _declare(running: ModuleType, fresh: dict[str, Any]) -> None:
    """What the fresh module declared, into the declarations that others hold."""
    declared = vars(sys.modules[FORMULAS])["FORMULAS"]
    for run in [run for run in declared if run.__globals__ is fresh]:
        new, old = declared.pop(run), declared[vars(running)[run.__name__]]
        for field in fields(old):
            if field.name != "run":
                object.__setattr__(old, field.name, getattr(new, field.name))
