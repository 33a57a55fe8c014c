"""The fewest answers that lead to a place, whatever else is answered: what a failed proof shows.

The search keeps beliefs: all states that a walk may be in when only some answers are fixed. A belief of which every
state is at the place is a witness; of all of them one with the fewest answers is shown. Only questions that the place
depends on are looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from firstfurrow.book.conditions import leaves
from firstfurrow.book.known import Known, Place, Reading
from firstfurrow.book.model import Book, Condition, Group, Leaf
from firstfurrow.book.sweep import Reader

MOST_BELIEFS = 3000  # at one place; beyond that the fewest answers are kept, and the witness may not be the shortest
THAT_IS_ALL = "that_is_all"

Belief = frozenset[int]
Layer = dict[Belief, tuple[str, ...]]  # belief: the answers that lead there


def shortest(
    book: Book, places: Mapping[str, Place], target: str, *, reads: Leaf | None = None, wording: int | None = None
) -> tuple[str, ...]:
    """The fewest answers after which a question is asked; or after which its condition reads an unasked question.

    reads
        The test that reads what was not asked.
    wording
        That test stands in the condition of another wording of the question: which one.
    """
    place = places[target]
    conditions = [place.question.when, *(other.when for other in place.question.asks)]
    if wording is None:
        conditions = conditions[:1]
    search = _Search(book, places, place, conditions[: 1 if wording is None else wording + 2])
    return search.shortest(reads, wording)


@dataclass(slots=True)
class _Search:
    book: Book
    places: Mapping[str, Place]
    target: Place
    conditions: Sequence[Condition | None]
    known: Known = field(init=False)
    readers: dict[str, Reader] = field(init=False, default_factory=dict)
    needed: tuple[str, ...] = field(init=False)  # what the target depends on, in the order asked
    _free: dict[int, Belief] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self.needed = tuple(self._needed())
        readings = {name: Reading(p.question.when, p.order, p.inside) for name, p in self._places()}
        goals = [Reading(c, self.target.order, self.target.inside) for c in self.conditions]
        self.known = Known(self.book, self.places, apart=True)
        self.known.learn([*readings.values(), *goals])
        self.readers = {name: Reader(r.condition, self.known.bits_of(r)) for name, r in readings.items()}

    def _places(self) -> Iterator[tuple[str, Place]]:
        return ((name, self.places[name]) for name in self.needed)

    def _needed(self) -> list[str]:
        """The questions that the target depends on, however indirectly."""
        found: set[str] = set()
        open_ = [leaf.subject for condition in self.conditions for leaf in leaves(condition)]
        if self.target.inside:
            open_ += self._builds(self.target.group)
        while open_:
            name = open_.pop()
            place = self.places.get(name)
            if place is None or name in found or place.order >= self.target.order:
                continue
            found.add(name)
            open_ += [leaf.subject for leaf in leaves(place.question.when)]
            open_ += self._builds(place.group) if place.inside else []
        return sorted(found, key=lambda name: self.places[name].order)

    @staticmethod
    def _builds(group: Group | None) -> list[str]:
        """What says what an implement is."""
        return [q.id for q in group.questions if q.type in ("kind", "variant")] if group is not None else []

    # --------------------------------------------------------------------- the search

    def shortest(self, reads: Leaf | None, wording: int | None) -> tuple[str, ...]:
        """The answers; nothing when no walk leads there, or when every walk does."""
        meets = self._meets(reads, wording)
        layer: Layer = {frozenset([0]): ()}
        done: set[str] = set()
        for name, place in self._places():
            if name in done:
                continue
            group = place.group
            if place.inside and group is not None and group is self.target.group and self.target.inside:
                break
            if place.inside and group is not None:
                layer = self._group(layer, group)
                done |= {q.id for q in group.questions}
            else:
                layer = self._answered(layer, name, "")
        if self.target.inside:
            layer = self._item(layer, "i1", until=self.target)
        fits = [told for belief, told in layer.items() if belief and all(meets(state) for state in belief)]
        return min(fits, key=len, default=())

    def _meets(self, reads: Leaf | None, wording: int | None) -> Callable[[int], bool]:
        bits_of = self.known.bits_of(Reading(None, self.target.order, self.target.inside))
        readers = [Reader(condition, bits_of) for condition in self.conditions]

        def asked(state: int) -> bool:
            return readers[0](state) and not self.known.skipped(self.target.question, state)

        def meets(state: int) -> bool:
            if reads is None:
                return asked(state)
            if wording is not None and (not asked(state) or any(other(state) for other in readers[1 : wording + 1])):
                return False
            reader = readers[0 if wording is None else wording + 1]
            reader.unguarded.clear()
            reader(state)
            return reads in reader.unguarded

        return meets

    def _answered(self, layer: Layer, name: str, item: str) -> Layer:
        """The layer after a question: left free, or each answer fixed."""
        found: Layer = {}
        for belief, told in layer.items():
            for words in (None, *self._fixed(name, belief)):
                after = self._after(name, belief, words)
                if after is not None:
                    _keep(found, after, told if words is None else (*told, f"{item}{name}={words}"))
        return _trimmed(found)

    def _asked(self, name: str, state: int) -> bool:
        return self.readers[name](state) and not self.known.skipped(self.places[name].question, state)

    def _fixed(self, name: str, belief: Belief) -> Iterable[str]:
        """The answers worth fixing: where they are told apart."""
        question = self.places[name].question
        answers = [o for s in belief if self._asked(name, s) for o in self.known.answers(question, s)]
        return dict.fromkeys(o.words for o in answers) if len({(o.bits, o.clears) for o in answers}) > 1 else ()

    def _after(self, name: str, belief: Belief, words: str | None) -> Belief | None:
        """Where the walk may be after a question; None when that answer is not to be had everywhere it is asked."""
        found: set[int] = set()
        question = self.places[name].question
        for state in belief:
            if not self._asked(name, state):
                found.add(state)
                continue
            answers = self.known.answers(question, state)
            chosen = [o for o in answers if words is None or o.words == words]
            if words is not None and not chosen:
                return None
            found |= {(state & ~o.clears) | o.bits for o in chosen} or {state}
        return frozenset(found)

    # ---------------------------------------------------------------------- implements

    def _item(self, layer: Layer, item: str, until: Place | None = None) -> Layer:
        """The layer after the questions of one implement, or before one of them."""
        for name, place in self._places():
            if not place.inside or (until is not None and place.order >= until.order):
                continue
            if until is None or place.group is until.group:
                layer = self._kind(layer, name, item) if place.question.type == "kind" else (
                    self._answered(layer, name, f"{item}.")
                )  # fmt: skip
        return layer

    def _kind(self, layer: Layer, name: str, item: str) -> Layer:
        """An implement that is named has a kind: of those that nothing tells apart any one is as good."""
        found: Layer = {}
        for belief, told in layer.items():
            for outcome in self.known.answers(self.places[name].question, 0):
                after = self._after(name, belief, outcome.words)
                if after is not None:
                    _keep(found, after, (*told, f"{item}.{name}={outcome.words}"))
        return _trimmed(found)

    def _group(self, layer: Layer, group: Group) -> Layer:
        """The layer after a group: left free, or some implements named, with or without others behind them."""
        marks = sum(self.known.any_bits.values())
        found: Layer = {}
        for number in range(1, min(group.most, len(self.known.any_bits)) + 2):
            for belief, told in layer.items():
                _keep(found, frozenset(s for state in belief for s in self._with_others(state, group)), told)
                _keep(found, belief, (*told, f"{group.closes.id}={THAT_IS_ALL}"))
            if number > min(group.most, len(self.known.any_bits)):
                break
            grown: Layer = {}
            for belief, told in self._item(layer, f"i{number}").items():
                _keep(grown, frozenset(self._end(state) for state in belief), told)
            layer = grown
        assert marks or found
        return _trimmed(found)

    def _with_others(self, state: int, group: Group) -> Belief:
        """What further implements, of any sort, can leave behind."""
        known = self._free.get(state)
        if known is None:
            reached = {state}
            fresh = [state]
            for _ in range(group.most):
                fresh = [after for s in fresh for after in self._one_more(s) if after not in reached]
                if not fresh:
                    break
                reached |= set(fresh)
            known = self._free[state] = frozenset(reached)
        return known

    def _one_more(self, state: int) -> Belief:
        belief: Belief = frozenset([state])
        for name, place in self._places():
            if place.inside:
                belief = self._after(name, belief, None) or belief
        return frozenset(self._end(s) for s in belief)

    def _end(self, state: int) -> int:
        """An item is left: what holds of it holds of at least one item; the rest is forgotten."""
        for leaf, bit in self.known.any_bits.items():
            if state & self.known.subjects[leaf.subject].bit(leaf):
                state |= bit
        return state & ~self._own_bits()

    def _own_bits(self) -> int:
        own = self.known.class_bits
        for name, place in self._places():
            subject = self.known.subjects.get(name)
            if place.inside and subject is not None:
                own |= subject.asked | subject.picking | subject.planned | subject.picked
                own |= sum(bit for _, bit in subject.leaves.values())
        return own


def _keep(layer: Layer, belief: Belief, told: tuple[str, ...]) -> None:
    if belief not in layer or len(told) < len(layer[belief]):
        layer[belief] = told


def _trimmed(layer: Layer) -> Layer:
    if len(layer) <= MOST_BELIEFS:
        return layer
    best = sorted(layer.items(), key=lambda pair: (len(pair[0]) > 1, len(pair[1])))
    return dict(best[:MOST_BELIEFS])
