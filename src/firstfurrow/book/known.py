"""What is known on a walk: the places where something is asked, what their conditions read, and the bits for it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from firstfurrow.book.conditions import Held, leaves
from firstfurrow.book.facts import (
    NOT_SURE,
    Bits,
    Build,
    Outcome,
    Subject,
    make_subject,
    nothing_to_ask,
    outcomes,
    pickable,
)
from firstfurrow.book.model import Book, Condition, Group, Leaf, Question

ANOTHER = "another"  # the choice of a closing question that leads back into the group
BitsOf = Callable[[Leaf], tuple[int, int] | None]  # asked bit (0: never unasked) and truth bit; None: no such thing


@dataclass(frozen=True, slots=True)
class Place:
    """A question, and when it comes up: its number in the order asked, and the group it stands in or closes."""

    question: Question
    order: int
    group: Group | None = None
    closes: bool = False

    @property
    def inside(self) -> bool:
        """True when it is asked for each implement."""
        return self.group is not None and not self.closes


@dataclass(frozen=True, slots=True)
class Reading:
    """A condition, and where it is looked at: it sees what was answered at places before `before`."""

    condition: Condition | None
    before: int
    inside: bool


def places_of(book: Book) -> Iterator[Place]:
    """Every question in the order asked."""
    order = 0
    for section in book.sections:
        for question in section.questions:
            yield Place(question, order)
            order += 1
        if section.group is not None:
            for question in section.group.questions:
                yield Place(question, order, section.group)
                order += 1
            yield Place(section.group.closes, order, section.group, closes=True)
            order += 1


def wrong_read(places: Mapping[str, Place], reading: Reading, leaf: Leaf) -> str | None:
    """Why a test can never see the answer that it names; None when it can."""
    read = places.get(leaf.subject)
    if read is None:
        return "unknown"
    if read.order >= reading.before:
        return "later"
    if (leaf.scope == "answer") == read.inside or (leaf.scope == "item" and not reading.inside):
        return "scope"
    return "open" if leaf.scope == "any_item" and reading.inside else None


@dataclass(slots=True)
class Known:
    """Bits for every answer that some conditions read, and the answers that they tell apart."""

    book: Book
    places: Mapping[str, Place]
    apart: bool = False  # choices of `several` are told apart when they are picked
    bits: Bits = field(default_factory=Bits)
    subjects: dict[str, Subject] = field(default_factory=dict)
    any_bits: dict[Leaf, int] = field(default_factory=dict)
    classes: dict[int, tuple[Build, ...]] = field(default_factory=dict)  # class bit: builds that nothing tells apart
    _kinds: dict[str, tuple[Outcome, ...]] = field(default_factory=dict)
    _next: dict[tuple[int, str, str | None], int] = field(default_factory=dict)  # class, kind, build: the class then
    _found: dict[tuple[str, int], tuple[Outcome, ...]] = field(default_factory=dict)

    def learn(self, readings: Iterable[Reading]) -> None:
        """Bits for everything that these conditions read."""
        read: dict[str, list[Leaf]] = {}
        for reading in readings:
            for leaf in leaves(reading.condition):
                if wrong_read(self.places, reading, leaf) is None:
                    read.setdefault(leaf.subject, []).append(leaf)
                    if leaf.scope == "any_item" and leaf not in self.any_bits:
                        self.any_bits[leaf] = self.bits.new(leaf.subject)
        for name, found in read.items():
            self.subjects[name] = make_subject(self.places[name].question, found, self.bits)
        for section in self.book.sections:
            if section.group is not None:
                self._sort_builds(section.group)

    def bits_of(self, reading: Reading) -> BitsOf:
        """The bits behind each test of a condition."""

        def bits(leaf: Leaf) -> tuple[int, int] | None:
            if wrong_read(self.places, reading, leaf) is not None or leaf.subject not in self.subjects:
                return None
            if leaf.scope == "any_item":
                return (0, self.any_bits[leaf]) if leaf in self.any_bits else None
            subject = self.subjects[leaf.subject]
            known = (leaf.test, leaf.value) in subject.leaves
            return (subject.asked, subject.bit(leaf)) if known else None

        return bits

    # ------------------------------------------------------------------ answers

    def answers(self, question: Question, state: int) -> tuple[Outcome, ...]:
        """Every distinguishable answer in a state."""
        own = self.class_bit(state)
        key = (question.id, own)
        found = self._found.get(key)
        if found is None:
            found = self._found[key] = self._answers(question, own)
        return found

    def _answers(self, question: Question, own: int) -> tuple[Outcome, ...]:
        if question.type == "kind":
            return self._kinds.get(question.id, ())
        builds = self.classes.get(own, ())
        subject = self.subjects.get(question.id)
        if question.type == "variant" and own:
            return self._variants(question, subject, own, builds)
        if self.places[question.id].closes:  # what leads back into the group is no answer that anything could read
            question = replace(question, choices=tuple(c for c in question.choices if c.id != ANOTHER))
        return outcomes(question, subject, builds, apart=self.apart)

    def _variants(
        self, question: Question, subject: Subject | None, own: int, builds: Sequence[Build]
    ) -> tuple[Outcome, ...]:
        found: dict[int, Outcome] = {}
        for build in builds:
            answers = [(Held(variant.id), variant.id, variant.id) for variant in build.kind.variants]
            if question.not_sure.how != "refused" and answers:  # the plan then takes the first build of the book
                answers.append((Held(question.not_sure.planning, unsure=True), NOT_SURE, answers[0][1]))
            for held, words, variant in answers:
                bits = _bits(subject, held) | self._next[own, build.kind.kind, variant]
                found.setdefault(bits, Outcome(bits, words, own))
        return tuple(found.values())

    def class_bit(self, state: int) -> int:
        """The bit that says what the implement is; 0 outside of one."""
        return next((bit for bit in self.classes if state & bit), 0)

    @property
    def class_bits(self) -> int:
        """All bits that say what an implement is."""
        return sum(self.classes)

    def skipped(self, question: Question, state: int) -> bool:
        """True when what the implement is leaves nothing to ask here."""
        builds = self.classes.get(self.class_bit(state), ())
        return bool(builds) and nothing_to_ask(question, builds[0], self.book.links)

    def choices(self, question: Question, state: int) -> tuple[str, ...]:
        """The choices of a question with several, in a state."""
        return pickable(question, self.classes.get(self.class_bit(state), ()))

    # -------------------------------------------------------------------- builds

    def _sort_builds(self, group: Group) -> None:
        """Put together the kinds, and then the builds, that no question of the group and no condition tells apart."""
        first = next((q for q in group.questions if q.type == "kind"), None)
        if first is None:
            return
        builds = [Build(kind) for kind in self.book.kinds.values()]
        classes = self._class(builds, lambda b: (self._kind_bits(first, b), self._ahead(group, b)), first.id)
        self._kinds[first.id] = tuple(
            Outcome(self._kind_bits(first, same[0]) | bit, same[0].kind.kind) for bit, same in classes.items()
        )
        for bit, same in classes.items():
            built = [Build(b.kind, v.id) for b in same for v in b.kind.variants]
            for after, alike in self._class(built, lambda b: self._signature(group, b), first.id).items():
                self._next |= {(bit, build.kind.kind, build.variant): after for build in alike}

    def _class(
        self, builds: Sequence[Build], key: Callable[[Build], object], about: str
    ) -> dict[int, tuple[Build, ...]]:
        found: dict[object, list[Build]] = {}
        for build in builds:
            found.setdefault(key(build), []).append(build)
        made = {self.bits.new(about): tuple(same) for same in found.values()}
        self.classes |= made
        return made

    def _kind_bits(self, question: Question, build: Build) -> int:
        return _bits(self.subjects.get(question.id), Held(build.kind.kind, features=build.kind.features))

    def _ahead(self, group: Group, build: Build) -> object:
        """What of a kind can make a difference later: as it is, and in each of its builds."""
        asked = next((q for q in group.questions if q.type == "variant"), None)
        subject = None if asked is None else self.subjects.get(asked.id)
        in_builds = frozenset(
            (_bits(subject, Held(v.id)), self._signature(group, Build(build.kind, v.id))) for v in build.kind.variants
        )
        first = build.kind.variants[0].id if build.kind.variants else None
        return (self._signature(group, build), in_builds, self._signature(group, Build(build.kind, first)))

    def _signature(self, group: Group, build: Build) -> object:
        found: list[object] = []
        for question in group.questions:
            subject = self.subjects.get(question.id)
            if question.type == "size" and subject is not None:
                found.append(frozenset(o.bits for o in outcomes(question, subject, [build])))
            elif question.type == "several":
                found.append(nothing_to_ask(question, build, self.book.links))
                if not question.choices and subject is not None:
                    read = frozenset(subject.revealed)
                    found += [read & set(build.wished), bool(set(build.wished) - read)]
        return tuple(found)


def _bits(subject: Subject | None, held: Held) -> int:
    return 0 if subject is None else subject.asked | subject.truths(held)
