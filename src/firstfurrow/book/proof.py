"""The proof about the question graph: exact, over every walk, with answers that show what is wrong.

Proven: every question is asked on some walk and every choice can be taken; no walk gets stuck; no condition reads an
answer that was not asked for; every id that a condition names exists. A group ends because it holds a fixed number of
items at most. The item questions are proven once for each outer state that they can see; outside, an implement leaves
one bit for each `any_item` test, and bits only turn on.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial

from firstfurrow.book.conditions import leaves
from firstfurrow.book.facts import Bits, Outcome, Subject, kind_classes, make_subject, outcomes
from firstfurrow.book.model import Book, Group, Kind, Leaf, Question
from firstfurrow.book.problems import did_you_mean
from firstfurrow.book.sweep import Reader, Stage, Step, Sweep, TooManyStatesError, ask, reveal


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong with the graph, and answers that show it."""

    question: str
    message: str
    witness: tuple[str, ...] = ()

    def __str__(self) -> str:
        shown = f" Answers that lead there: {'; '.join(self.witness)}." if self.witness else ""
        return f"{self.message}{shown}"


@dataclass(frozen=True, slots=True)
class Proof:
    """What was proven, or what was found instead."""

    findings: tuple[Finding, ...]
    questions: int
    choices: int
    tests: int  # single tests in conditions
    widest: int  # the most states kept at one stage

    @property
    def holds(self) -> bool:
        """True when nothing was found."""
        return not self.findings


def prove(book: Book) -> Proof:
    """Prove the graph of the book, or find what is wrong with it."""
    return _Prover(book).proof()


@dataclass(slots=True)
class _Place:
    question: Question
    order: int
    inside: bool
    closes: Group | None = None


@dataclass(slots=True)
class _Prover:
    book: Book
    places: dict[str, _Place] = field(default_factory=dict)
    bits: Bits = field(default_factory=Bits)
    subjects: dict[str, Subject] = field(default_factory=dict)
    any_bits: dict[Leaf, int] = field(default_factory=dict)
    readers: dict[str, Reader] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    class_of: dict[int, list[Kind]] = field(default_factory=dict)  # class bit: its kinds
    kinds_asked: dict[str, set[str]] = field(default_factory=dict)  # question: kinds for which it is asked
    witness_of: dict[str, Callable[[int], tuple[str, ...]]] = field(default_factory=dict)
    widest: int = 0

    def proof(self) -> Proof:
        self._lay_out()
        self._name_facts()
        try:
            self._sweep()
        except TooManyStatesError as error:
            far = ", ".join(self.bits.about(error.live))
            message = f"there are too many states to prove at {error.stage}; read too far away: {far}."
            self.findings.append(Finding(error.stage, message))
        else:
            self._judge()
        return Proof(
            tuple(dict.fromkeys(self.findings)),
            len(self.places),
            sum(len(p.question.choices) for p in self.places.values()),
            sum(1 for p in self.places.values() for _ in leaves(p.question.when)),
            self.widest,
        )

    # ------------------------------------------------------------ what there is

    def _lay_out(self) -> None:
        for section in self.book.sections:
            for question in section.questions:
                self._place(question, False)
            if section.group is not None:
                for question in section.group.questions:
                    self._place(question, True)
                self._place(section.group.closes, False, section.group)

    def _place(self, question: Question, inside: bool, closes: Group | None = None) -> None:
        if question.id in self.places:
            self.findings.append(Finding(question.id, f"the question {question.id} is there twice."))
            return
        self.places[question.id] = _Place(question, len(self.places), inside, closes)

    def _name_facts(self) -> None:
        """Bits for every answer that a condition reads."""
        read: dict[str, list[Leaf]] = {}
        for place in self.places.values():
            for leaf in leaves(place.question.when):
                if self._readable(place, leaf):
                    read.setdefault(leaf.subject, []).append(leaf)
                    if leaf.scope == "any_item" and leaf not in self.any_bits:
                        self.any_bits[leaf] = self.bits.new(leaf.subject)
        for name, found in read.items():
            self.subjects[name] = make_subject(self.places[name].question, found, self.bits)
        for place in self.places.values():
            self.readers[place.question.id] = Reader(place.question, self._bits_for(place))

    def _readable(self, reader: _Place, leaf: Leaf) -> bool:
        read = self.places.get(leaf.subject)
        name = reader.question.id
        if read is None:
            meant = did_you_mean(leaf.subject, self.places)
            self.findings.append(
                Finding(name, f'the condition of {name} reads "{leaf.subject}", which does not exist.{meant}')
            )
        elif read.order >= reader.order:
            self.findings.append(Finding(name, f"the condition of {name} reads {leaf.subject}, which is asked later."))
        elif (leaf.scope == "answer") == read.inside or (leaf.scope == "item") > reader.inside:
            self.findings.append(Finding(name, f"the condition of {name} cannot read {leaf.subject} as {leaf.scope}."))
        elif leaf.scope == "any_item" and reader.inside:
            self.findings.append(Finding(name, f"the condition of {name} reads the group before it is closed."))
        else:
            return True
        return False

    def _bits_for(self, reader: _Place) -> Callable[[Leaf], tuple[int, int] | None]:
        def bits(leaf: Leaf) -> tuple[int, int] | None:
            read = self.places.get(leaf.subject)
            if read is None or leaf.subject not in self.subjects or read.order >= reader.order:
                return None
            if leaf.scope == "any_item":
                return (0, self.any_bits[leaf]) if leaf in self.any_bits else None
            subject = self.subjects[leaf.subject]
            if (leaf.test, leaf.value) not in subject.leaves:
                return None
            return subject.asked, subject.bit(leaf)

        return bits

    # ---------------------------------------------------------------- the walks

    def _sweep(self) -> None:
        stages: list[Stage] = []
        asked_at: dict[str, int] = {}
        shown: set[tuple[str, str]] = set()
        outer: Sweep | None = None

        def trace(stage: int, state: int) -> tuple[str, ...]:
            return outer.trace(stage, state)[1] if outer is not None else ()

        for section in self.book.sections:
            for question in section.questions:
                stages += self._reveals([question], shown, inside=False)
                asked_at[question.id] = len(stages)
                stages.append(ask(self.readers[question.id], self._outcomes(question)))
            if section.group is not None:
                stages += self._reveals(section.group.questions, shown, inside=False)
                stages.append(self._group(section.group, len(stages), trace))
                closes = section.group.closes
                asked_at[closes.id] = len(stages)
                stages.append(ask(self.readers[closes.id], self._outcomes(closes)))
        outer = Sweep(stages, [0])
        for name, stage in asked_at.items():
            self.witness_of[name] = partial(trace, stage)
        outer.run()
        self.widest = max(self.widest, outer.widest)

    def _reveals(
        self, readers: Sequence[Question], shown: set[tuple[str, str]], *, inside: bool, end: bool = False
    ) -> Iterator[Stage]:
        """Stages that tell which choices were picked, just before they are first read; `end`: of an item."""
        wanted = [leaf for question in readers for leaf in leaves(question.when)] if not end else list(self.any_bits)
        for leaf in wanted:
            subject = self.subjects.get(leaf.subject)
            if subject is None or leaf.value not in subject.revealed or (leaf.subject, leaf.value) in shown:
                continue
            if self.places[leaf.subject].inside is not inside or (leaf.scope == "any_item" and not end):
                continue  # told inside the item, or at its end
            shown.add((leaf.subject, leaf.value))
            told = {choice for name, choice in shown if name == leaf.subject}
            every = {c.id for c in subject.question.choices if c.id != "none_of_these"}
            yield reveal(subject, leaf.value, last=bool(every) and told >= every)

    def _outcomes(self, question: Question) -> Callable[[int], Sequence[Outcome]]:
        found = outcomes(question, self.subjects.get(question.id), ())
        if not found:
            self._dead_end(question)
        return lambda _state: found

    def _dead_end(self, question: Question) -> None:
        self.findings.append(Finding(question.id, f"nobody can answer {question.id}: no answer is allowed there."))

    # ---------------------------------------------------------------- the group

    def _group(self, group: Group, at: int, trace: Callable[[int, int], tuple[str, ...]]) -> Stage:
        seen = 0  # the outer bits that the item questions can see
        for question in group.questions:
            for leaf in leaves(question.when):
                bits = self.readers[question.id].bit_of(leaf) if leaf.scope == "answer" else None
                seen |= 0 if bits is None else bits[0] | bits[1]
        stages, asked_at = self._item_stages(group)
        result = sum(self.any_bits.values())
        known: dict[int, dict[int, tuple[str, ...]]] = {}
        first: dict[int, tuple[int, Sweep]] = {}  # outer state as seen inside: the whole outer state, the sweep

        def inside(state: int) -> dict[int, tuple[str, ...]]:
            """What one item can leave behind, with answers; once for each outer state that items can see."""
            if state & seen not in known:
                sweep = Sweep(stages, [state & seen], keep=result)
                first[state & seen] = (state, sweep)
                left = sweep.run()
                self.widest = max(self.widest, sweep.widest)
                known[state & seen] = {s: ("an item", *sweep.trace(len(stages), s)[1]) for s in left}
            return known[state & seen]

        def steps(state: int) -> Iterator[Step]:
            one = inside(state)
            together: dict[int, tuple[str, ...]] = {0: ()}
            fresh = [0]
            for _ in range(group.most):  # bits only turn on, so this ends long before the last item
                grown: list[int] = []
                for before in fresh:
                    for item, words in one.items():
                        if before | item not in together:
                            together[before | item] = (*together[before], *words)
                            grown.append(before | item)
                fresh = grown
                if not fresh:
                    break
            for bits, words in together.items():
                yield state | bits, words

        for name, stage in asked_at.items():
            self.witness_of[name] = self._item_witness(first, stage, at, trace)
        return Stage(group.id, seen, steps)

    def _item_witness(
        self,
        first: Mapping[int, tuple[int, Sweep]],
        stage: int,
        at: int,
        trace: Callable[[int, int], tuple[str, ...]],
    ) -> Callable[[int], tuple[str, ...]]:
        def witness(state: int) -> tuple[str, ...]:
            for whole, sweep in first.values():
                if stage == 0 or (stage <= len(sweep.parents) and state in sweep.parents[stage - 1]):
                    return (*trace(at, whole), *sweep.trace(stage, state)[1])
            return ()

        return witness

    def _item_stages(self, group: Group) -> tuple[list[Stage], dict[str, int]]:
        stages: list[Stage] = []
        asked_at: dict[str, int] = {}
        shown: set[tuple[str, str]] = set()
        for question in group.questions:
            stages += self._reveals([question], shown, inside=True)
            asked_at[question.id] = len(stages)
            kinds = question.type == "kind"
            answers = self._kind_outcomes(question, group) if kinds else self._item_outcomes(question)
            stage = ask(self.readers[question.id], answers)
            stage.reads |= sum(self.class_of)
            stages.append(stage)
        stages += self._reveals((), shown, inside=True, end=True)
        stages.append(self._item_end())
        return stages, asked_at

    def _kind_outcomes(self, question: Question, group: Group) -> Callable[[int], Sequence[Outcome]]:
        subject = self.subjects.get(question.id)
        dependent = {
            q.id: self.subjects[q.id]
            for q in group.questions
            if q.type in ("variant", "size") and q.id in self.subjects
        }
        found: list[Outcome] = []
        for bits, kinds in kind_classes(question, subject, dependent, tuple(self.book.kinds.values())):
            bit = self.bits.new(question.id)
            self.class_of[bit] = kinds
            found.append(Outcome(bits | bit, f"{question.id}: {kinds[0].kind}"))
        if not found:
            self._dead_end(question)
        return lambda _state: found

    def _item_outcomes(self, question: Question) -> Callable[[int], Sequence[Outcome]]:
        subject = self.subjects.get(question.id)
        asked = self.kinds_asked.setdefault(question.id, set())
        known: dict[int, Sequence[Outcome]] = {}

        def answers(state: int) -> Sequence[Outcome]:
            own = next((bit for bit in self.class_of if state & bit), 0)
            if own not in known:
                kinds = self.class_of.get(own, [])
                asked.update(kind.kind for kind in kinds)
                known[own] = outcomes(question, subject, kinds)
                if not known[own]:
                    self._dead_end(question)
            return known[own]

        return answers

    def _item_end(self) -> Stage:
        """What an item leaves behind: the bits of the `any_item` tests."""
        pairs = [(self.subjects[leaf.subject].bit(leaf), bit) for leaf, bit in self.any_bits.items()]

        def steps(state: int) -> Iterator[Step]:
            yield sum(bit for own, bit in pairs if state & own), None

        return Stage("item", sum({own for own, _ in pairs}), steps)

    # --------------------------------------------------------------- the verdict

    def _judge(self) -> None:
        for name, reader in self.readers.items():
            for leaf, state in reader.unguarded.items():
                message = f"the condition of {name} reads {leaf.subject}, which may not have been asked."
                self.findings.append(Finding(name, message, self.witness_of[name](state)))
            if reader.held is None:
                message = f"{name} is asked on no walk, and none of its choices can be taken."
                self.findings.append(Finding(name, message))
                continue
            for leaf in leaves(reader.question.when):
                if leaf not in reader.true and reader.bit_of(leaf) is not None:
                    value = "" if leaf.value is True else f" {leaf.value}"
                    test = f"{leaf.subject} {leaf.test}{value}"
                    message = f'in the condition of {name}, the test "{test}" is true on no walk.'
                    self.findings.append(Finding(name, message))
        self._judge_kinds()
        for place in self.places.values():
            if place.closes is not None:
                self._judge_closing(place.closes)

    def _judge_kinds(self) -> None:
        """Choices that come from the kinds: each build, each size, each wish for oil can be taken."""
        for section in self.book.sections:
            for question in section.group.questions if section.group is not None else ():
                feature = {"variant": "variants", "size": "sizes"}.get(question.type)
                if question.type == "several" and not question.choices:
                    feature = "oil_options"
                if feature is None or self.readers[question.id].held is None:
                    continue
                asked = self.kinds_asked[question.id]
                lost = [k.kind for k in self.book.kinds.values() if feature in k.features and k.kind not in asked]
                if lost:
                    message = f"{question.id} is never asked for {', '.join(lost)}; its choices there cannot be taken."
                    self.findings.append(Finding(question.id, message))

    def _judge_closing(self, group: Group) -> None:
        name = group.closes.id
        if group.closes.choices and not any(c.id == "that_is_all" for c in group.closes.choices):
            self.findings.append(Finding(name, f"{name} has no choice that_is_all, so no walk leaves the group."))
        if group.most < 2:
            self.findings.append(Finding(name, f"the choice another of {name} can never be taken: at most one item."))
