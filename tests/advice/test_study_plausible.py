"""Which size class a profile points to, what pushes it there, and what rarely stands together."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from studying import studied, with_category

from firstfurrow.advice import deciding
from firstfurrow.book.model import Book
from making import Maker

PLANS: list[tuple[list[dict[str, Any]], dict[str, Any]]] = [
    ([{"kind": "finish_mower", "size": "1.2 m"}, {"kind": "bale_spear", "load": "600 kg"}], {}),
    ([{"kind": "round_baler"}, {"kind": "finish_mower"}], {}),
    ([{"kind": "mouldboard_plough", "variant": "plain", "size": "2 x 0.35 m"}], {"soil": "clay"}),
    ([{"kind": "rotary_tiller", "size": "1.5 m"}], {"soil": "clay"}),
    ([{"kind": "dump_trailer", "load": "5000 kg"}], {}),
]


@pytest.mark.parametrize(("items", "said"), PLANS)
def test_without_what_pushes_alone_a_smaller_class_would_do(
    items: list[dict[str, Any]], said: dict[str, Any], maker: Maker
) -> None:
    profile, found = studied(maker, items, **said)
    what = found.plausibility
    rows = list(maker.book.tables["size_classes"].rows)
    assert what.size_class == (None if profile.points_to is None else profile.points_to.id)
    if what.size_class is None:
        return
    for id_ in what.pushed_by:
        rest = {k: o for k, o in profile.outcomes.items() if k != id_}
        less = deciding.smallest_class(maker.book, rest)
        assert less is not None
        assert (rows.index(less.id) < rows.index(what.size_class)) == what.alone, id_
        if what.alone:
            assert less.id == what.smaller


def test_some_plan_is_pushed_by_one_thing_alone(maker: Maker) -> None:
    assert any(studied(maker, items, **said)[1].plausibility.alone for items, said in PLANS)


def test_every_rare_mix_has_its_sentence_and_names_what_there_is(book: Book) -> None:
    rows = book.tables["size_classes"].rows
    for row in book.tables["rare_mixes"].rows.values():
        assert f"reason.rare.{row.id}" in book.messages
        assert set(row.words.get("classes", ())) <= set(rows), row.id
        named = [row.words["requirement"]] if "requirement" in row.words else [
            *row.words["larger"], *row.words["smaller"]
        ]  # fmt: skip
        assert set(named) <= set(book.requirements), row.id


def warned(maker: Maker, items: list[dict[str, Any]], words: str, **said: Any) -> bool:
    return any(words in text for text in studied(maker, items, **said)[1].plausibility.warnings)


@pytest.mark.practice
def test_rear_sets_on_the_smallest_tractors_are_rare(maker: Maker) -> None:
    """Common practice, no source: a subcompact usually has no rear ports; a dealer fits them at a price."""
    blade = {"kind": "rear_blade", "variant": "plain", "size": "1.2 m", "when": "owned", "mass": "90 kg"}
    with_link = {**blade, "with": ("hydraulic_top_link",)}
    assert warned(maker, [with_link], "rarely have rear remote sets")
    assert not warned(maker, [{**blade, "with": ("none_of_these",)}], "rarely have rear remote sets")
    assert not warned(maker, [with_link, {"kind": "round_baler"}], "rarely have rear remote sets")


def with_speeds(book: Book, kind_id: str, *speeds: int) -> Book:
    kind = book.kinds[kind_id]
    assert kind.shaft is not None
    return replace(book, kinds={**book.kinds, kind_id: replace(kind, shaft=replace(kind.shaft, speeds=speeds))})


@pytest.mark.practice
@pytest.mark.parametrize(("speeds", "rare"), [((1000,), True), ((540, 1000), False), ((540,), False)])
def test_the_faster_shaft_is_rare_on_a_compact(speeds: tuple[int, ...], rare: bool, book: Book) -> None:
    """Common practice, no source: compacts turn the slower speed; a tool that takes either asks for nothing rare."""
    maker = Maker(with_speeds(book, "finish_mower", *speeds))
    assert warned(maker, [{"kind": "finish_mower", "size": "1.2 m"}], "wants the faster shaft") is rare


@pytest.mark.practice
def test_much_power_for_little_weight_is_told(maker: Maker) -> None:
    """Common practice, no source: a wide tiller alone asks for the power of a far heavier tractor."""
    assert warned(maker, [{"kind": "rotary_tiller", "size": "2 m"}], "weight and lift would do with", soil="clay")
    assert not warned(maker, [{"kind": "finish_mower", "size": "1.2 m"}], "weight and lift would do with")


@pytest.mark.practice
def test_a_shaft_under_the_middle_is_rare_on_a_farm_tractor(maker: Maker) -> None:
    """Common practice, no source: mid-mount mowers belong to compact tractors."""
    mower, baler = {"kind": "mid_mount_mower"}, {"kind": "round_baler"}
    assert warned(maker, [mower, baler], "hangs under the middle")
    assert not warned(maker, [mower], "hangs under the middle")


@pytest.mark.practice
def test_the_larger_category_is_rare_under_little_power(book: Book) -> None:
    """Common practice, no source: tractors with less than about 30 kW have arms of the first category."""
    maker = Maker(with_category(book, "finish_mower", "2"))
    assert warned(maker, [{"kind": "finish_mower", "size": "1.2 m"}], "usual on tractors with smaller arms")
    assert not warned(Maker(book), [{"kind": "finish_mower", "size": "1.2 m"}], "usual on tractors with smaller arms")
    assert not warned(maker, [{"kind": "finish_mower"}, {"kind": "round_baler"}], "usual on tractors with smaller arms")


@pytest.mark.practice
def test_an_outlet_for_trailer_brakes_is_rare_on_a_compact(maker: Maker) -> None:
    """Common practice, no source: outlets for trailer brakes come with farm tractors."""
    trailer = {"kind": "dump_trailer", "load": "1500 kg"}
    assert warned(maker, [{**trailer, "brakes": "has_brakes"}], "outlet for trailer brakes")
    assert not warned(maker, [{**trailer, "brakes": "no_brakes", "load": "300 kg"}], "outlet for trailer brakes")
