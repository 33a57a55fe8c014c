"""What a setting skips: known questions, in the order of the book, none that needs an answer."""

from __future__ import annotations

import pytest
from edited import said_of

from firstfurrow.book.files import Files
from firstfurrow.book.places import book_folder
from firstfurrow.book.rules import settings

NAME = "settings.yaml"
FIRST = "  skips:\n    [land_area, "


@pytest.fixture(scope="module")
def shipped() -> Files:
    return Files(book_folder())


def found(shipped: Files, old: str = "", new: str = "") -> list[str]:
    return said_of(shipped, NAME, old, new, settings.problems)


def test_the_shipped_settings_are_right(shipped: Files) -> None:
    assert found(shipped) == []


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (FIRST, FIRST.replace("land_area", "land_aera"), 'there is no question "land_aera". Did you mean "land_area"?'),
        (FIRST, FIRST + "kind, ", "kind needs an answer, so it cannot be skipped"),
        (FIRST, FIRST + "implements_complete, ", "implements_complete needs an answer"),
        (FIRST, "  skips:\n    [surface, land_area, ", "land_area is asked before the one above it"),
        ("    soil: loam", "    siol: loam", 'there is no question "siol" to answer. Did you mean "soil"?'),
        ("    soil: loam", "    size: loam", 'there is no question "size" to answer'),
        ("  title: What this tractor runs\n", "", "title"),
    ],
)  # fmt: skip
def test_a_mistake_is_found_at_its_place(shipped: Files, old: str, new: str, said: str) -> None:
    wrong = found(shipped, old, new)
    assert any(said in problem for problem in wrong), wrong
    assert all(problem.startswith(f"{NAME}:") for problem in wrong)
