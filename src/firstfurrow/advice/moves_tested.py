"""What answers move, tried on random plans: a pair of plans for each claim of the book, and what moves unclaimed.

The book claims under `moves` which requirements an answer can move. Two plans that differ in one answer only show a
claim to hold. A requirement that differs although its question does not claim it is a mistake of the book.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from firstfurrow.advice.plan import Plan, make_plan
from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item
from firstfurrow.asking.complete import complete
from firstfurrow.asking.random_walk import other_answer, random_answers
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.resolve import CHOOSE
from firstfurrow.book.model import Book, Kind, Question

UNSURE = (0.0, 0.1, 0.5)  # shares of the answers of a random plan that are not sure
MOST = 3  # implements in a random plan; with many the strictest hides what another moves
TOWARDS_OPEN = 0.8  # share of the plans that try a question with a claim not seen yet
LEFT_TO_US = 0.6  # share of the plans in which all sizes are left to the program
OTHERS = 3  # other answers that are tried beside one plan
TRIES = 12  # random plans that are made until one asks the question
Claim = tuple[str, str]  # question, requirement


@dataclass(frozen=True, slots=True)
class Pair:
    """Two plans that differ in the answer at one place, and what differs between them."""

    answers: Answers
    ref: Ref
    other: Given
    moved: frozenset[str]


@dataclass(frozen=True, slots=True)
class Tried:
    """What was tried and seen.

    seen
        For each claim that was seen to hold the pair that shows it.
    unseen
        Claims that no pair showed: they may hold all the same.
    unclaimed
        For each requirement that an answer moved without its question claiming it, the first such pair.
    """

    pairs: int
    seed: int
    seen: Mapping[Claim, Pair]
    unseen: tuple[Claim, ...]
    unclaimed: Mapping[Claim, Pair]


def try_moves(book: Book, seed: int, pairs: int, step: Callable[[], None]) -> Tried:
    """Try so many pairs of plans; `step` is called after each."""
    search = _Search(book)
    number = 0
    for plan in range(pairs * TRIES):  # a plan that does not ask the question gives no pair
        for pair in search.pairs(random.Random(f"{seed} plan {plan}")):
            if number < pairs:
                search.note(pair)
                number += 1
                step()
        if number == pairs:
            break
    unseen = tuple(claim for claim in sorted(search.claims) if claim not in search.seen)
    shortened = {claim: _shortened(book, claim, pair) for claim, pair in search.unclaimed.items()}
    return Tried(number, seed, search.seen, unseen, shortened)


def _questions(book: Book) -> Iterator[Question]:
    for section in book.sections:
        yield from section.questions
        if section.group is not None:
            yield from section.group.questions


class _Search:
    """Looks where something is likely to move: for claims not seen yet, with implements that ask for that at all."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.questions = {q.id: q for q in _questions(book)}
        self.kinds = tuple(book.kinds.values())
        self.inner = {q.id for s in book.sections if s.group is not None for q in s.group.questions}
        self.sizes = {q.id for q in self.questions.values() if q.type == "size"}
        self.claims = {(q.id, requirement) for q in self.questions.values() for requirement in q.moves}
        self.seen: dict[Claim, Pair] = {}
        self.unclaimed: dict[Claim, Pair] = {}
        self.asks_for: dict[str, list[Kind]] = {}  # requirement: kinds that ask for it
        self.moved_with: dict[str, list[Kind]] = {}  # question: kinds with which it moved something

    def pairs(self, chance: random.Random) -> Iterator[Pair]:
        """A random plan, and some others that differ in the answer to one of its questions."""
        open_ = sorted(self.claims - self.seen.keys())
        if open_ and chance.random() < TOWARDS_OPEN:
            question, requirement = chance.choice(open_)
        else:
            question, requirement = chance.choice(list(self.questions)), ""
        for _ in range(TRIES):
            answers = self._answers(chance, question, requirement)
            places = [Ref(question)] if question in answers.given else []
            places += [Ref(question, item.id) for item in answers.items if question in item.given]
            if places:
                yield from self._others(answers, chance.choice(places), chance)
                return

    def _answers(self, chance: random.Random, question: str, requirement: str) -> Answers:
        number = chance.choice((1, 1, 1, 2, MOST) if question in self.inner else (0, 1, 1, 1, 2, MOST))
        likely = [kind for of in (self.asks_for.get(requirement), self.moved_with.get(question)) for kind in of or ()]
        kinds = [chance.choice(likely if likely and chance.random() < 0.7 else self.kinds) for _ in range(number)]
        unsure = chance.choice(UNSURE)
        answers = random_answers(self.book, chance.getrandbits(48), unsure=unsure, kinds=kinds)
        if chance.random() < LEFT_TO_US:  # sizes that are said hide what area and time do
            for item in answers.items:
                for id_ in self.sizes & item.given.keys():
                    answers = _with(answers, Ref(id_, item.id), Given(CHOOSE, CHOOSE))
        return answers

    def _others(self, answers: Answers, ref: Ref, chance: random.Random) -> Iterator[Pair]:
        before = _Looked.at(self.book, answers)
        for id_, outcome in before.profile.outcomes.items():
            if outcome.status == "determined" and len(answers.items) == 1:
                _note(self.asks_for, id_, _kinds(self.book, answers))
        for _ in range(OTHERS):
            other = other_answer(self.book, answers, ref, chance)
            if other is not None:
                yield Pair(answers, ref, other, before.moved(_with(answers, ref, other)))

    def note(self, pair: Pair) -> None:
        """What a pair showed."""
        for requirement in pair.moved:
            claim = (pair.ref.question, requirement)
            (self.seen if claim in self.claims else self.unclaimed).setdefault(claim, pair)
        if pair.moved:
            _note(self.moved_with, pair.ref.question, _kinds(self.book, pair.answers))


def _note(known: dict[str, list[Kind]], name: str, kinds: Iterable[Kind]) -> None:
    found = known.setdefault(name, [])
    found += [kind for kind in kinds if kind not in found]


def _kinds(book: Book, answers: Answers) -> list[Kind]:
    said = {given.value for item in answers.items for given in item.given.values() if isinstance(given.value, str)}
    return [kind for kind in book.kinds.values() if kind.kind in said]


@dataclass(slots=True)
class _Looked:
    """A plan and its profile, to compare others with."""

    book: Book
    plan: Plan
    profile: Profile

    @classmethod
    def at(cls, book: Book, answers: Answers) -> _Looked:
        plan = make_plan(book, complete(book, answers))
        return cls(book, plan, advise_plan(book, plan, lean=True, hiring=False))

    def moved(self, answers: Answers) -> frozenset[str]:
        """The requirements that differ with these answers."""
        plan = make_plan(self.book, complete(self.book, answers))
        if plan == self.plan:
            return frozenset()
        before, after = self.profile, advise_plan(self.book, plan, lean=True, hiring=False)
        widths, grown = _tracked(before), _tracked(after)
        both = widths.keys() & grown.keys()
        if any(grown[item] != widths[item] for item in both):
            return frozenset()
        if both and before.stand_in_sure.id != after.stand_in_sure.id:
            return frozenset()  # among what is sure they may have grown, too
        same = (before.stand_in.id, before.stand_in_sure.id) == (after.stand_in.id, after.stand_in_sure.id)
        found = {id_ for id_ in before.outcomes if _stated(before, id_) != _stated(after, id_)}
        return frozenset(id_ for id_ in found if same or not self.book.requirements[id_].stand_in)


def moved(book: Book, answers: Answers, ref: Ref, other: Given) -> frozenset[str]:
    """The requirements that differ when one answer is another one; what opens because of it counts as not sure.

    A question names what its answer moves by itself. A tool whose width was left to the program, and that must cover
    the wheel tracks, grows with the size class, which nearly every answer can move: the question of the size names
    that, and pairs of plans in which such a tool grew show nothing. Figures for the class that stands in are compared
    where it is the same.
    """
    return _Looked.at(book, answers).moved(_with(answers, ref, other))


def _with(answers: Answers, ref: Ref, given: Given) -> Answers:
    if ref.item is None:
        return replace(answers, given={**answers.given, ref.question: given})
    items = tuple(
        Item(item.id, {**item.given, ref.question: given}) if item.id == ref.item else item for item in answers.items
    )
    return replace(answers, items=items)


def _stated(profile: Profile, id_: str) -> tuple[Any, ...]:
    outcome = profile.outcomes[id_]
    return (
        outcome.status,
        None if outcome.sure is None else outcome.sure.stated,
        None if outcome.with_later is None else outcome.with_later.stated,
    )


def _tracked(profile: Profile) -> dict[str, float | None]:
    """The widths that were chosen to cover the wheel tracks of the size class."""
    return {
        note.sized.item.id: note.sized.width
        for note in profile.hookups
        if note.sized.item.size is None and note.sized.item.kind.sized_by == "track"
    }


def _shortened(book: Book, claim: Claim, pair: Pair) -> Pair:
    """The same pair with as many answers not sure, and as few implements, as still show it."""
    _, requirement = claim
    answers = pair.answers
    for item in answers.items:
        fewer = replace(answers, items=tuple(one for one in answers.items if one.id != item.id))
        if item.id != pair.ref.item and requirement in moved(book, fewer, pair.ref, pair.other):
            answers = fewer
    places = [Ref(id_) for id_ in answers.given] + [Ref(id_, item.id) for item in answers.items for id_ in item.given]
    refused = {q.id for q in _questions(book) if q.not_sure.how == "refused"}
    closing = {s.group.closes.id for s in book.sections if s.group is not None}
    for ref in places:
        if ref == pair.ref or ref.question in refused | closing:
            continue
        less = _with(answers, ref, NOT_SURE)
        if requirement in moved(book, less, pair.ref, pair.other):
            answers = less
    return Pair(answers, pair.ref, pair.other, moved(book, answers, pair.ref, pair.other))
