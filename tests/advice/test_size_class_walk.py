"""The size class that stands in: the walk upward always ends, and more to do never gives a smaller class."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfurrow.advice.profile import Profile
from firstfurrow.book.load import load
from making import Maker

quick = settings(max_examples=40, derandomize=True, deadline=None, report_multiple_bugs=False)
MAKER = Maker(load())
CLASSES = list(MAKER.book.tables["size_classes"].rows)
LOADED = [k.kind for k in MAKER.book.kinds.values() if "load" in k.features]
HILL: dict[str, Any] = {"land_shape": ("slopes",)}


def rank(profile: Profile) -> int:
    """Where its class stands; beyond all classes where none covers it or the slope is refused."""
    slopes = {"climb", "stop", "unbraked"} & {refusal.kind for refusal in profile.refusals}
    if slopes or "no_class" in {conflict.kind for conflict in profile.conflicts}:
        return len(CLASSES)
    return CLASSES.index(profile.stand_in.id)


def profile(items: list[dict[str, Any]], **said: Any) -> Profile:
    return MAKER.profile(items, strict=False, lean=True, **said)


@pytest.mark.parametrize("kind", list(MAKER.book.kinds))
def test_every_implement_in_its_largest_size_comes_to_a_class(kind: str) -> None:
    sold = MAKER.kind(kind).sizes
    found = profile([{"kind": kind, "size": sold[-1].id}], **HILL, slope_up="12 %", soil="clay", surface="soft")
    assert found.stand_in.id in CLASSES


@quick
@given(st.sampled_from(LOADED), st.integers(100, 4000), st.integers(100, 3000), st.integers(0, 18))
def test_a_heavier_load_never_gives_a_smaller_class(kind: str, kg: int, more: int, slope: int) -> None:
    said = {**HILL, "slope_up": f"{slope} %", "surface": "firm"}
    light, heavy = (rank(profile([{"kind": kind, "load": f"{mass} kg"}], **said)) for mass in (kg, kg + more))
    assert light <= heavy


@quick
@given(st.integers(200, 8000), st.integers(100, 4000), st.integers(0, 18), st.booleans())
def test_a_heavier_other_load_never_gives_a_smaller_class(kg: int, more: int, slope: int, braked: bool) -> None:
    said: dict[str, Any] = {
        **HILL, "slope_up": f"{slope} %", "surface": "firm", "tow_other": "often", "tow_place": "fields",
        "tow_brakes": "has_brakes" if braked else "no_brakes",
    }  # fmt: skip
    light, heavy = (rank(profile([], **said, tow_mass=f"{mass} kg")) for mass in (kg, kg + more))
    assert light <= heavy


@quick
@given(st.lists(st.sampled_from(list(MAKER.book.kinds)), min_size=1, max_size=3), st.integers(0, 14))
def test_one_more_implement_never_gives_a_smaller_class(kinds: list[str], slope: int) -> None:
    said = {**HILL, "slope_up": f"{slope} %", "surface": "firm"}
    items = [{"kind": kind} for kind in kinds]
    some, one_more = rank(profile(items[:-1], **said)), rank(profile(items, **said))
    assert some <= one_more or some == len(CLASSES)
