"""The tiny book with contradictions of each sort, and with a size question that is worded by who owns the tool."""

from __future__ import annotations

from dataclasses import replace

from small_book import BOOK, GROUP

from firstfurrow.book.conditions import build
from firstfurrow.book.contradictions import rule
from firstfurrow.book.model import Group, OtherAsk, Question

RULES = (
    {
        "id": "tool_without_job",
        "asked_at": ["kind"],
        "with": ["jobs"],
        "no_job": {"but_for": ["trailer"]},
        "say": "You named {kind}, but its work is not among your jobs: {missing}.",
    },
    {
        "id": "overloaded",
        "asked_at": ["load"],
        "with": ["size"],
        "more_than": {"size_carries": True, "times": {"value": 1.5, "grade": "practice"}},
        "say": "{kind}: the load is {load}, but {size} carries {limit}.",
    },
    {
        "id": "job_without_tool",
        "asked_at": ["complete"],
        "with": ["jobs"],
        "no_tool": {"but_for": ["snow"]},
        "say": "Nothing does this work: {missing}.",
    },
    {
        "id": "gate_among_trees",
        "asked_at": ["gate"],
        "with": ["shape"],
        "when": {"all": [{"answer": "gate", "below": "1 m"}, {"not": [{"answer": "shape", "includes": "trees"}]}]},
        "say": "A gate of {gate} is for people. You said of the land: {shape}.",
    },
    {
        "id": "two_ways",
        "asked_at": ["size"],
        "with": ["when"],
        "when": {
            "all": [
                {"item": "when", "is": "later"},
                {"item": "kind", "is": "blade"},
                {"item": "size", "at_least": "3 m"},
            ]
        },
        "say": "{kind}: {said} at \"{asked}\", {when}.",
    },
)  # fmt: skip

OWNED = OtherAsk(build({"all": [{"item": "when", "is": "owned"}]}), "What size does its plate say?", choose=False)


def _worded(question: Question) -> Question:
    return replace(question, asks=(OWNED,)) if question.id == "size" else question


def _group(group: Group) -> Group:
    return replace(group, questions=tuple(map(_worded, group.questions)))


ODD = replace(
    BOOK,
    contradictions=tuple(map(rule, RULES)),
    sections=tuple(s if s.group is None else replace(s, group=_group(GROUP)) for s in BOOK.sections),
)
