"""The pairs for a class: run through the real road, each requirement to look at moves, and as the words say."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.strictest import Strictest
from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item
from firstfurrow.asking.complete import complete
from firstfurrow.asking.resolve import build, resolve
from firstfurrow.asking.setting import UNSURE, with_answers
from firstfurrow.asking.typed import Understood, understand
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.book.places import recordings_folder
from firstfurrow.book.teaching import TeachingPair
from firstfurrow.pages import profile_of
from firstfurrow.talk.recordings import Recording
from making import Maker

pytestmark = pytest.mark.xdist_group("teaching")  # one worker keeps the profiles of the recordings

PAIRS = tuple(load().teaching.pairs)
each_pair = pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: pair.id)
Run = Callable[[TeachingPair], tuple[Profile, Profile]]


def recorded(pair: TeachingPair, book: Book) -> Answers:
    return Recording(recordings_folder() / pair.recording).answers(book)


def changed(pair: TeachingPair, book: Book, answers: Answers) -> Answers:
    """The answers with the one of the pair instead, read as a typed line is."""
    item_id, dot, question = pair.question.rpartition(".")
    if not dot:
        return with_answers(book, answers, [f"{pair.question}={pair.other}"])
    items = tuple(
        Item(item.id, {**item.given, question: _typed(pair, question, item, book, answers)})
        if item.id == item_id
        else item
        for item in answers.items
    )
    return replace(answers, items=items)


def _typed(pair: TeachingPair, question: str, item: Item, book: Book, answers: Answers) -> Given:
    if pair.other in UNSURE:
        return NOT_SURE
    kind = book.kinds[item.given["kind"].value]
    variant = build(kind, item.given.get("variant", NOT_SURE))
    asked = resolve(book, Maker(book).questions[question], answers.units, kind, variant)
    found = understand(asked, pair.other, answers.units, kind, book)
    assert isinstance(found, Understood), found
    return found.given


@pytest.fixture(scope="module")
def run(book: Book) -> Run:
    """The profiles before and after; each recording is worked out once."""

    @cache
    def before(recording: str) -> Profile:
        return profile_of(book, Recording(recordings_folder() / recording).answers(book))

    @cache
    def both(pair: TeachingPair) -> tuple[Profile, Profile]:
        return before(pair.recording), profile_of(book, changed(pair, book, recorded(pair, book)))

    return both


def stated(outcome: Outcome) -> tuple[Any, ...]:
    """What is asked for, for what is sure and with what may come."""
    return outcome.status, *(None if s is None else s.stated for s in (outcome.sure, outcome.with_later))


def directions(before: Outcome, after: Outcome) -> set[int]:
    """1 for up, -1 for down, of what is sure and with what may come; what is newly asked for goes up."""
    found = set()
    for old, new in ((before.sure, after.sure), (before.with_later, after.with_later)):
        low, high = _amount(before, old), _amount(after, new)
        if low != high:
            found.add(1 if high > low else -1)
    return found


def _amount(outcome: Outcome, strictest: Strictest | None) -> float:
    """A number to compare by; for words and sets whether anything is asked for at all."""
    if strictest is None:
        # a limit that nobody measured is no limit of nothing
        assert outcome.requirement.sense != "at_most", outcome.requirement.id
        return float("-inf")
    if isinstance(strictest.stated, (int, float)):
        return float(strictest.stated)
    return 0.0


def moved(before: Profile, after: Profile) -> set[str]:
    return {id_ for id_, outcome in before.outcomes.items() if stated(outcome) != stated(after.outcomes[id_])}


def test_there_are_pairs_enough_of_many_recordings_and_questions() -> None:
    assert len(PAIRS) >= 10
    assert len({pair.recording for pair in PAIRS}) >= 8
    assert len({pair.question for pair in PAIRS}) >= 15


@each_pair
def test_one_answer_differs_and_it_is_asked(pair: TeachingPair, book: Book) -> None:
    before = recorded(pair, book)
    old, new = flat(complete(book, before)), flat(complete(book, changed(pair, book, before)))
    assert old[pair.question] != new[pair.question]
    assert {key for key in old.keys() & new.keys() if old[key] != new[key]} == {pair.question}


def flat(answers: Answers) -> dict[str, Given]:
    items = {f"{item.id}.{question}": given for item in answers.items for question, given in item.given.items()}
    return {**answers.given, **items}


@each_pair
def test_each_requirement_to_look_at_really_moves(pair: TeachingPair, run: Run) -> None:
    assert set(pair.look_at) <= moved(*run(pair))


@each_pair
def test_it_moves_in_the_direction_that_is_claimed(pair: TeachingPair, run: Run) -> None:
    before, after = run(pair)
    for direction, ids in ((1, pair.rises), (-1, pair.falls)):
        for id_ in ids:
            assert directions(before.outcomes[id_], after.outcomes[id_]) == {direction}, id_


@each_pair
def test_a_direction_is_claimed_of_every_number(pair: TeachingPair, run: Run) -> None:
    for id_ in set(pair.look_at) - {*pair.rises, *pair.falls}:
        assert run(pair)[0].outcomes[id_].requirement.sense == "one_of", id_  # sets have no up and down


# ------------------------------------------------- what else the words of a pair claim


def one(id_: str) -> TeachingPair:
    return next(pair for pair in PAIRS if pair.id == id_)


@pytest.mark.parametrize("id_", ["woody_growth", "stronger_bridge", "higher_door"])
def test_where_the_words_say_that_nothing_else_moves_nothing_else_does(id_: str, run: Run) -> None:
    assert moved(*run(one(id_))) == set(one(id_).look_at)


def test_the_figures_with_what_may_come_stay_when_the_spear_may_come_later(run: Run) -> None:
    before, after = run(one("bale_later"))
    for id_ in one("bale_later").look_at:
        old, new = before.outcomes[id_].widest, after.outcomes[id_].widest
        assert old is not None
        assert new is not None
        assert old.stated == new.stated


def test_the_limit_and_the_work_cross_no_longer_with_the_bigger_trailer(run: Run) -> None:
    before, after = run(one("bigger_trailer"))
    assert "outgrows_mass" in {conflict.kind for conflict in before.conflicts}
    assert "outgrows_mass" not in {conflict.kind for conflict in after.conflicts}


def test_two_refusals_stay_whatever_the_bridge_bears(run: Run) -> None:
    before, after = run(one("stronger_bridge"))
    assert [r.kind for r in before.refusals] == [r.kind for r in after.refusals]
    assert len(after.refusals) == 2


def test_the_wagon_with_brakes_goes_with_a_lighter_tractor(run: Run, book: Book) -> None:
    before, after = run(one("wagon_with_brakes"))
    classes = list(book.tables["size_classes"].rows)
    assert classes.index(after.stand_in.id) < classes.index(before.stand_in.id)


def test_the_auger_asked_for_the_turning_shaft_before(run: Run) -> None:
    before, _ = run(one("own_pump"))
    governing = before.outcomes["pto_speed"].widest
    assert governing is not None
    assert governing.governed_by is not None
    assert governing.governed_by.hookup == "i3"
    assert one("own_pump").recording == "build_and_split"


def test_the_bale_is_twice_as_heavy(book: Book) -> None:
    pair = one("heavier_bale")
    before = recorded(pair, book)
    old, new = (flat(answers)["i1.load"].value for answers in (before, changed(pair, book, before)))
    assert new == pytest.approx(2 * old)


def test_the_lawn_takes_a_third_of_the_time(book: Book) -> None:
    pair = one("lawn_in_a_third")
    before = recorded(pair, book)
    old, new = (answers.given[pair.question].value for answers in (before, changed(pair, book, before)))
    assert new == pytest.approx(old / 3)
