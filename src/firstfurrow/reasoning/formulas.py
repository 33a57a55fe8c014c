"""Formulas: what is printed for a mechanics function, and which way each of its inputs moves the result."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeVar

RAISES, LOWERS, EITHER = 1, 2, 3


class NoSolutionError(ValueError):
    """A formula has no answer for these values, however large the tractor; the text says why."""


@dataclass(frozen=True, slots=True)
class Formula:
    """What is printed for a mechanics function, and which way each of its inputs moves the result.

    A test shows on random values that text and code agree and that the declared directions hold.
    """

    name: str
    text: str
    run: Callable[..., float]
    unit: str
    digits: int
    directions: Mapping[str, int]
    grade: str
    source: str | None
    where: str | None


FORMULAS: dict[Callable[..., float], Formula] = {}
_Function = TypeVar("_Function", bound=Callable[..., float])


def formula(
    text: str,
    *,
    unit: str,
    digits: int,
    raises: str = "",
    lowers: str = "",
    either: str = "",
    grade: str = "derived",
    source: str | None = None,
    where: str | None = None,
) -> Callable[[_Function], _Function]:
    """Declare a mechanics function: its printed text, result unit and digits, and which way each input moves it.

    The function itself stays an ordinary function, so that its docstring and doctest stay where a reader looks.
    """
    directions = {
        **dict.fromkeys(raises.split(), RAISES),
        **dict.fromkeys(lowers.split(), LOWERS),
        **dict.fromkeys(either.split(), EITHER),
    }

    def declare(run: _Function) -> _Function:
        FORMULAS[run] = Formula(run.__name__, text, run, unit, digits, directions, grade, source, where)
        return run

    return declare
