"""How one step is printed: title, formula in names, the same line with numbers, the result, and who says so.

The line with numbers is a promise: whoever evaluates its left side gets its right side to the printed digit.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from firstfurrow.book.model import Book, Source
from firstfurrow.quantities import format_number
from firstfurrow.reasoning import Step
from firstfurrow.report.blocks import StepLine

_NAME = re.compile(r"\b[A-Za-z_]\w*\b(?!\()")
_SIGNS = ((" * ", " × "), (" / ", " ÷ "), ("**2", "²"))


def step_line(step: Step, book: Book, names: Mapping[str, str] | None = None, about: str | None = None) -> StepLine:
    """The printed form of a step.

    `names` says what the ids of hookups stand for; `about` is the implement that the page is about at this place, whose
    name need not be said again in every line.
    """
    say = _sayer(book)
    formula, numbers = None, None
    if step.formula is not None and step.inputs is not None:
        if step.type == "greatest":
            formula = "; ".join(f"{s.id} {(names or {}).get(name, name)}" for name, s in step.inputs.items())
        else:
            formula = signs(step.formula) if step.type != "round" else None
        numbers = f"{signs(with_numbers(step.formula, step.inputs))} = {_result(step)}"
    title = step.title.replace(f": {about}", "") if about is not None else step.title
    # The title of a set names its members already.
    result = "" if step.type == "set" else _result(step)
    return StepLine(step.id, title, result, formula, numbers, _origin(step, book, say))


def signs(formula: str) -> str:
    """The formula with the signs that people learn at school."""
    for plain, sign in _SIGNS:
        formula = formula.replace(plain, sign)
    return formula


def plain(text: str) -> str:
    """The reverse of `signs`: what a program can evaluate."""
    for ascii_, sign in _SIGNS:
        text = text.replace(sign, ascii_)
    return text


def with_numbers(formula: str, inputs: Mapping[str, Step]) -> str:
    """The formula with the printed value of each input in place of its name."""

    def value(found: re.Match[str]) -> str:
        step = inputs[found[0]]
        text = format_number(step.value, step.digits)
        return f"({text})" if text.startswith("-") else text

    return _NAME.sub(value, formula)


def _result(step: Step) -> str:
    if isinstance(step.value, (int, float)):
        return f"{format_number(step.value, step.digits)} {step.unit}".strip()
    if isinstance(step.value, tuple):
        return ", ".join(str(value) for value in step.value)
    return str(step.value)


def _sayer(book: Book) -> Callable[..., str]:
    def say(id_: str, **slots: Any) -> str:
        return book.messages[f"report.{id_}"].format(**slots)

    return say


def _origin(step: Step, book: Book, say: Callable[..., str]) -> str | None:
    parts: list[str] = []
    if step.type in ("answer", "assumption", "constant"):
        parts.append(say(f"origin.{step.type}"))
    if step.low is not None and step.high is not None and step.low != step.high:
        low, high = (format_number(v, step.digits) for v in (step.low, step.high))
        parts.append(say("origin.reach", low=low, high=high))
    if step.grade is not None:
        parts.append(_graded(step, book, say))
    if step.note:
        parts.append(step.note)
    return "; ".join(parts) or None


def _graded(step: Step, book: Book, say: Callable[..., str]) -> str:
    if step.grade == "derived":
        if step.derived_from is None and step.formula is not None and step.source is None:
            return say("grade.formula")
        return say("grade.derived", source=step.derived_from or cited(book, step.source, step.where, say))
    if step.grade == "practice":
        return say("grade.practice")
    return say(f"grade.{step.grade}", source=cited(book, step.source, step.where, say))


def cited(book: Book, source: str | None, where: str | None, say: Callable[..., str]) -> str:
    """Title of a source and where in it."""
    if source is None:
        return where or ""
    title = short(book.sources[source])
    return title if not where else say("where", title=title, where=where)


def short(source: Source) -> str:
    """Title and year of a source."""
    return f"{source.title} ({source.year})" if source.year else source.title
