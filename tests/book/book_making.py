"""Small books built in a test: questions, groups and kinds with nothing in them but what the test is about."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from firstfurrow.book.conditions import build
from firstfurrow.book.model import Book, Choice, Group, Kind, NotSure, OilFunction, Question, Section, Size, Variant

REFUSED = NotSure("refused", say="Answer it.")


def question(name: str, sort: str = "choice", choices: Sequence[str] = ("a", "b"), **more: Any) -> Question:
    """A question; `when` is written as in YAML."""
    when = more.pop("when", None)
    made = tuple(Choice(c, c) for c in choices) if sort in ("choice", "several") else ()
    more.setdefault("not_sure", REFUSED)
    return Question(
        id=name,
        type=sort,  # type: ignore[arg-type]
        ask=f"{name}?",
        why="It matters.",
        choices=made,
        when=None if when is None else build(when),
        **more,
    )


def closing(name: str = "complete") -> Question:
    """The closing question of a group."""
    return question(name, choices=("another", "that_is_all"))


def kind(name: str, *, way: str = "drawbar", builds: int = 1, sizes: int = 1, oil: bool = False, **more: Any) -> Kind:
    """A kind of implement with that many builds and sizes."""
    wish = OilFunction("tilt", "tilt it", "double", "brief", "stopped", False)
    return Kind(
        kind=name,
        family="family",
        name=name,
        plain=name,
        sized_by="none",
        size_is="label",
        sizes=tuple(Size(f"size {n}") for n in range(sizes)),
        variants=tuple(Variant(f"build_{n}", f"build {n}", way, (wish,) if oil else ()) for n in range(builds)),  # type: ignore[arg-type]
        **more,
    )


def book(*parts: Question | Group, kinds: Sequence[Kind] = ()) -> Book:
    """A book with one section for each run of questions and for each group."""
    sections = [
        Section(f"s{n}", "title", "intro", group=part) if isinstance(part, Group)
        else Section(f"s{n}", "title", "intro", questions=(part,))
        for n, part in enumerate(parts)
    ]  # fmt: skip
    nothing: Mapping[str, Any] = {}
    return Book(
        id="small", version=1, sections=tuple(sections), families=(), kinds={k.kind: k for k in kinds}, links={},
        tables={}, requirements={}, groups={}, sources={}, guides={}, glossary={}, messages={}, settings=nothing,
    )  # fmt: skip
