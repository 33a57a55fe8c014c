"""The counts of a class, against small classes counted by hand. All participants are invented."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfurrow.advice.class_words import Reader
from firstfurrow.advice.classroom import NUMBERS, Count, Crossing, Seen, class_of, seen
from firstfurrow.asking.complete import complete
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.pages import profile_of
from firstfurrow.talk.recordings import Recording, shipped
from making import Maker

SLOPE = Crossing("refusal", "side_slope", "Not across that slope", "It tips.")
HIRE = Crossing("refusal", "hire", "Hire the tedder", "It is strange.")
NARROW = Crossing("conflict", "outgrows_width", "Too wide", "")


def one(file: str, **more: Any) -> Seen:
    plain = Seen(file, "us", (), {}, (), (), (), None)
    return replace(plain, **more)


# Five people: what is counted below can be counted on this page.
FIVE = (
    one("a", deciding=("pto_power", "mass"), stated={"pto_power": 30.0, "pto_speed": ((540,),)}, kinds=("tedder",),
        unknown=("soil", "slope_up"), size_class="utility"),
    one("b", deciding=("pto_power",), stated={"pto_power": 10.0, "pto_speed": ((540,), (1000,))}, unknown=("soil",),
        kinds=("tedder", "box_blade"), size_class="utility", units="metric"),
    one("c", deciding=("refusal:side_slope", "mass", "pto_power"), stated={"pto_power": 20.0},
        crossings=(SLOPE,), unknown=("soil", "slope_up", "gate_width")),
    one("d", deciding=("refusal:hire", "refusal:side_slope", "conflict:outgrows_width", "mass"), kinds=("tedder",),
        stated={"pto_power": 50.0, "hitch_category": ("1", "2")}, crossings=(HIRE, SLOPE, SLOPE, NARROW)),
    one("e", stated={"pto_power": 40.0, "hitch_category": ("2",)}, size_class="subcompact"),
)  # fmt: skip


def test_what_decides(book: Book) -> None:
    counts = class_of(book, FIVE)
    assert counts.count == 5
    assert counts.nothing_decides == 1
    assert counts.deciding == (
        Count("pto_power", 3, 2), Count("mass", 3, 0), Count("refusal:side_slope", 2, 1),
        Count("refusal:hire", 1, 1), Count("conflict:outgrows_width", 1, 0),
    )  # fmt: skip


def test_how_far_a_number_lies_apart(book: Book) -> None:
    (power,) = class_of(book, FIVE).spreads
    assert (power.requirement, power.asked) == ("pto_power", 5)
    # 10, 20, 30, 40, 50: the second is enough for a quarter (one and a quarter of five), the fourth for three quarters
    assert (power.least, power.quarter, power.middle, power.three_quarters, power.most) == (10, 20, 30, 40, 50)


def test_words_are_counted_and_who_needs_both_counts_at_both(book: Book) -> None:
    speed, hitch = class_of(book, FIVE).wanted
    assert (speed.requirement, speed.asked, speed.values) == ("pto_speed", 2, (((540,), 2), ((1000,), 1)))
    assert (hitch.requirement, hitch.asked) == ("hitch_category", 2)
    assert dict(hitch.values) == {("1", "2"): 1, ("2",): 1}  # any one of a set: the set is one wish


def test_what_nobody_knows_and_which_implements(book: Book) -> None:
    counts = class_of(book, FIVE)
    assert [(c.id, c.count) for c in counts.unknown] == [("soil", 3), ("slope_up", 2), ("gate_width", 1)]
    assert [(c.id, c.count) for c in counts.kinds] == [("tedder", 3), ("box_blade", 1)]


def test_whose_plan_is_refused_or_crosses(book: Book) -> None:
    slope, hire, narrow = class_of(book, FIVE).crossed
    # d has it twice, for two implements, and counts once
    assert (slope.kind, slope.count, slope.caution) == ("side_slope", 2, "It tips.")
    assert slope.titles == (("Not across that slope", ("c", "d")),)
    assert (hire.kind, hire.count, hire.titles) == ("hire", 1, (("Hire the tedder", ("d",)),))
    assert (narrow.sort, narrow.count, narrow.caution) == ("conflict", 1, "")


def test_size_classes_stand_in_their_order_with_those_that_nobody_needs(book: Book) -> None:
    counts = class_of(book, FIVE)
    assert [c.id for c in counts.size_classes] == list(book.tables["size_classes"].rows)
    assert {c.id: c.count for c in counts.size_classes if c.count} == {"subcompact": 1, "utility": 2}
    assert counts.no_size_class == 2


def test_the_units_are_those_of_most(book: Book) -> None:
    assert class_of(book, FIVE).units == "us"
    assert class_of(book, FIVE[1:2]).units == "metric"
    assert class_of(book, FIVE[:2]).units == "us"  # one each


def test_a_class_of_nobody_has_no_counts(book: Book) -> None:
    counts = class_of(book, ())
    assert counts.count == 0
    assert not counts.deciding
    assert not counts.spreads


# ------------------------------------------------------------------------- laws

BOOK = load()
PEOPLE = st.builds(
    Seen,
    file=st.text("abc", min_size=1, max_size=3),
    units=st.sampled_from(("us", "metric")),
    deciding=st.lists(st.sampled_from(("pto_power", "mass", "refusal:hire")), unique=True).map(tuple),
    stated=st.dictionaries(st.sampled_from(("pto_power", "mass", "width_most")), st.floats(-1e6, 1e6)),
    unknown=st.lists(st.sampled_from(("soil", "slope_up", "size")), unique=True).map(tuple),
    kinds=st.lists(st.sampled_from(("tedder", "box_blade")), unique=True).map(tuple),
    crossings=st.lists(st.sampled_from((SLOPE, HIRE, NARROW)), unique=True).map(tuple),
    size_class=st.sampled_from((None, "utility", "subcompact")),
)


@settings(max_examples=40, deadline=None)
@given(st.lists(PEOPLE, max_size=9, unique_by=lambda p: p.file), st.randoms())
def test_the_order_of_the_files_moves_nothing(people: list[Seen], chance: Any) -> None:
    mixed = list(people)
    chance.shuffle(mixed)
    assert class_of(BOOK, mixed) == class_of(BOOK, people)


@settings(max_examples=40, deadline=None)
@given(st.lists(PEOPLE, min_size=1, max_size=6))
def test_a_class_doubled_doubles_every_count_and_moves_no_figure(people: list[Seen]) -> None:
    once, twice = class_of(BOOK, people), class_of(BOOK, people * 2)
    assert (twice.count, twice.nothing_decides) == (2 * once.count, 2 * once.nothing_decides)
    for before, after in (
        (once.deciding, twice.deciding), (once.unknown, twice.unknown), (once.kinds, twice.kinds),
        (once.size_classes, twice.size_classes),
    ):  # fmt: skip
        assert after == tuple(Count(c.id, 2 * c.count, 2 * c.first) for c in before)
    assert [(c.kind, c.count) for c in twice.crossed] == [(c.kind, 2 * c.count) for c in once.crossed]
    for spread, again in zip(once.spreads, twice.spreads, strict=True):
        assert again == replace(spread, asked=2 * spread.asked)


@settings(max_examples=40, deadline=None)
@given(st.lists(PEOPLE, min_size=1, max_size=12))
def test_quarters_lie_in_order_and_are_figures_that_somebody_has(people: list[Seen]) -> None:
    for spread in class_of(BOOK, people).spreads:
        said = [p.stated[spread.requirement] for p in people if spread.requirement in p.stated]
        five = [spread.least, spread.quarter, spread.middle, spread.three_quarters, spread.most]
        assert five == sorted(five)
        assert set(five) <= set(said)
        assert (spread.least, spread.most, spread.asked) == (min(said), max(said), len(said))
        for part, value in zip((0.25, 0.5, 0.75), five[1:4], strict=True):
            assert sum(v <= value for v in said) >= part * len(said)  # it is enough for that part of them
            assert sum(v < value for v in said) < part * len(said)  # and nothing less is


# ------------------------------------------------------------- of a real profile


@pytest.mark.parametrize("recording", shipped(), ids=lambda r: r.name)
def test_what_is_taken_of_a_profile(book: Book, recording: Recording) -> None:
    answers = recording.answers(book)
    profile, whole = profile_of(book, answers), complete(book, answers)
    found = seen(profile, whole, "x.yaml")
    assert found.stated.keys() == {id_ for id_, o in profile.outcomes.items() if o.status == "determined"}
    assert len(found.crossings) == len(profile.refusals) + len(profile.conflicts)
    wanted = [d for d in profile.deciding if ":" not in d]
    assert [d for d in found.deciding if ":" not in d] == wanted
    unsure = [q for g in (whole.given, *(i.given for i in whole.items)) for q, one in g.items() if one.unsure]
    assert set(found.unknown) == set(unsure)
    reader = Reader(book, answers.units)
    for id_, value in found.stated.items():
        widest = profile.outcomes[id_].widest
        assert widest is not None
        sense = book.requirements[id_].sense
        said = widest.told(value) if sense in NUMBERS else widest.shown
        parts = value if sense == "each_of" else (value,)  # one of each: they are counted apart, so they are said apart
        assert book.messages["reason.and"].join(reader.told(id_, part) for part in parts) == said


def test_three_real_plans_counted_by_hand(book: Book, maker: Maker) -> None:
    tiller = {"kind": "rotary_tiller", "size": "1.5 m"}
    people = []
    for file, items, said in (("a", [tiller], {}), ("b", [tiller, {"kind": "box_blade"}], {"soil": "not sure"}),
                              ("c", [], {})):  # fmt: skip
        answers = maker.answers(items, strict=False, **said)
        people.append(seen(profile_of(book, answers), complete(book, answers), file))
    counts = class_of(book, people)
    assert [(c.id, c.count) for c in counts.kinds] == [("rotary_tiller", 2), ("box_blade", 1)]
    assert next(s.asked for s in counts.spreads if s.requirement == "pto_power") == 2
    assert next(c.count for c in counts.unknown if c.id == "soil") == 1
    assert counts.units == "metric"
