"""A picture as a reader sees it: its words with their places, its numbers, and what is said of them."""

from __future__ import annotations

import re
from typing import Any, TypeVar, cast

from firstfurrow.advice.profile import Profile
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Label
from firstfurrow.report.page import Page, Said
from firstfurrow.report.pictures.letters import box

NUMBER = re.compile(r"\d+(?:\.\d+)?")
_Shape = TypeVar("_Shape")


def page_of(profile: Profile) -> Page:
    """The pictures read no study of the plan."""
    return Page(profile, cast(Any, None), Said(), full=True)


def shapes(picture: Picture, sort: type[_Shape]) -> list[_Shape]:
    return [shape for shape in picture.drawing.shapes if isinstance(shape, sort)]


def words(picture: Picture) -> list[str]:
    return [label.text.replace("\u00a0", " ") for label in shapes(picture, Label)]


def numbers(text: str) -> set[str]:
    return set(NUMBER.findall(text))


def said(picture: Picture) -> set[str]:
    """Every number in the sentences."""
    return numbers(" ".join(picture.says))


def meeting(picture: Picture) -> list[str]:
    """Words that lie on other words or leave the sheet."""
    found, labels = [], shapes(picture, Label)
    for index, label in enumerate(labels):
        left, top, right, bottom = box(label)
        if left < 0 or top < 0 or right > picture.drawing.width or bottom > picture.drawing.height:
            found.append(f"{label.text} leaves the sheet")
        for other in labels[:index]:
            a, b, c, d = box(other)
            if min(right, c) - max(left, a) > 0.1 and min(bottom, d) - max(top, b) > 0.1:
                found.append(f"{label.text} on {other.text}")
    return found
