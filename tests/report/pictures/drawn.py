"""For the tests of pictures: a page of each recorded conversation, made once, and what stands on a drawing."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import cast

from firstfurrow.advice.plan import Plan
from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.advice.study import Study
from firstfurrow.book.model import Book
from firstfurrow.pages import profile_of
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Area, Drawing, Label, Shape
from firstfurrow.report.page import Page, Said
from firstfurrow.talk.recordings import shipped

NAMES = tuple(recording.name for recording in shipped())
_PROFILES: dict[str, Profile] = {}

Box = tuple[float, float, float, float]


def profile_named(book: Book, name: str) -> Profile:
    """The profile of a recorded conversation."""
    if name not in _PROFILES:
        recording = next(one for one in shipped() if one.name == name)
        _PROFILES[name] = profile_of(book, recording.answers(book))
    return _PROFILES[name]


def page_of(profile: Profile) -> Page:
    """A page about the profile; no picture reads the study."""
    return Page(profile, cast(Study, None), Said(), full=True)


def renamed(book: Book, plan: Plan, name: str) -> Profile:
    """The profile of a plan all of whose tools have this name."""
    items = tuple(replace(item, kind=replace(item.kind, name=name)) for item in plan.items)
    return advise_plan(book, replace(plan, items=items))


def labels(drawing: Drawing) -> list[Label]:
    """Everything that is written on it."""
    return [shape for shape in drawing.shapes if isinstance(shape, Label)]


def written(drawing: Drawing) -> str:
    """The same as one text."""
    return "\n".join(label.text.replace("\u00a0", " ") for label in labels(drawing))


def numbers(text: str) -> set[str]:
    """The numbers in a text."""
    return set(re.findall(r"\d+(?:\.\d+)?", text))


def said(picture: Picture) -> str:
    """Its sentences as one text."""
    return "\n".join(picture.says)


def boxes(shapes: Iterable[Shape], *fills: str) -> Iterator[Box]:
    """Left, top, right and bottom of the areas that are filled in one of these ways."""
    for shape in shapes:
        if isinstance(shape, Area) and shape.fill in fills:
            xs, ys = zip(*shape.points, strict=True)
            yield min(xs), min(ys), max(xs), max(ys)
