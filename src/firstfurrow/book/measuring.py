"""Guided measuring, from its YAML: what to stand before, steps, tolerances, look-alikes, words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from firstfurrow.book.figures import figure, number
from firstfurrow.book.lazy import LazyMapping
from firstfurrow.book.model import Choice, Measuring, MeasuringStep, NotSure, Question, Row, Station


def measuring(data: Callable[[], Mapping[str, Any]]) -> Measuring:
    """All of it, read when it is first looked at."""
    return Measuring(
        stations=LazyMapping(lambda: {s["id"]: _station(s) for s in data()["stations"]}),
        figures=LazyMapping(lambda: {name: figure(f) for name, f in data()["figures"].items()}),
        lookalikes=LazyMapping(lambda: {s: tuple(map(_row, rows)) for s, rows in data()["lookalikes"].items()}),
        words=LazyMapping(lambda: dict(data()["words"])),
    )


def _station(data: Mapping[str, Any]) -> Station:
    return Station(
        id=data["id"],
        label=data["label"],
        also=tuple(data.get("also") or ()),
        cautions=tuple(data["cautions"]),
        steps=tuple(map(_step, data["steps"])),
        usual=tuple(data.get("usual") or ()),
        anytime=data.get("anytime"),
    )


def _step(data: Mapping[str, Any]) -> MeasuringStep:
    dimension = data.get("dimension")

    def ends(key: str) -> tuple[float, float] | None:
        pair = data.get(key)
        return None if pair is None else (number(pair[0], dimension)[0], number(pair[1], dimension)[0])

    question = Question(
        id=data["id"],
        type=data["type"],
        ask=data["ask"],
        why=data["why"],
        not_sure=NotSure("not_determined"),
        choices=tuple(Choice(c["id"], c["label"], None, tuple(c.get("also") or ())) for c in data.get("choices") or ()),
        dimension=dimension,
        plausible=ends("plausible"),
        possible=ends("possible"),
    )
    only = {name: tuple(answers) for name, answers in (data.get("only") or {}).items()}
    return MeasuringStep(question, data["tape"], only, tuple(data.get("drawing") or ()))


def _row(data: Mapping[str, Any]) -> Row:
    figures = {column: figure(f) for column, f in (data.get("figures") or {}).items()}
    return Row(data["row"], data["name"], figures, data.get("words") or {})
