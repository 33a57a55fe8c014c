"""The proof about the question graph: exact, over every walk, with answers that show what is wrong.

Proven: every question is asked on some walk and every choice can be taken; no walk gets stuck; no condition reads an
answer that was not asked for; every walk ends; every id that a condition names exists; every requirement is named by a
question that is asked; every contradiction can stand. A walk ends because a group holds a fixed number of items at
most. The item questions are proven once for each outer state that they can see; outside, an implement leaves one bit
for each `any_item` test, and bits only turn on.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import partial
from itertools import combinations

from firstfurrow.book import findings
from firstfurrow.book.conditions import leaves
from firstfurrow.book.facts import outcomes
from firstfurrow.book.findings import Finding
from firstfurrow.book.known import Known, Place, Reading, places_of, wrong_read
from firstfurrow.book.model import Book, Condition, ContradictionRule, Group, Leaf, Question
from firstfurrow.book.problems import twice
from firstfurrow.book.sweep import Reader, Stage, Sweep, TooManyStatesError, ask, look, reveal
from firstfurrow.book.witness import shortest


@dataclass(frozen=True, slots=True)
class Proof:
    """What was proven, or what was found instead."""

    findings: tuple[Finding, ...]
    questions: int
    choices: int
    tests: int  # single tests in conditions
    widest: int  # the most states kept at one stage
    requirements: int = 0
    contradictions: int = 0

    @property
    def holds(self) -> bool:
        """True when nothing was found."""
        return not self.findings


def prove(book: Book) -> Proof:
    """Prove the graph of the book, or find what is wrong with it."""
    return _Prover(book).proof()


@dataclass(slots=True)
class _Asked:
    """The conditions of one question: when it is asked, and when in other words; and whether it ever is."""

    place: Place
    when: Reader
    wordings: tuple[Reader, ...]
    ever: bool = False
    classes: set[int] = field(default_factory=set)  # what an implement may be when it is asked: bits
    stuck: bool = False


@dataclass(slots=True)
class _Contradiction:
    rule: ContradictionRule
    asked_at: str
    reading: Reading
    reader: Reader


@dataclass(slots=True)
class _Prover:
    book: Book
    places: dict[str, Place] = field(default_factory=dict)
    known: Known = field(init=False)
    asked: dict[str, _Asked] = field(default_factory=dict)
    contradictions: list[_Contradiction] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    widest: int = 0

    def proof(self) -> Proof:
        for place in places_of(self.book):
            self._place(place)
        self.known = Known(self.book, self.places)
        self._read()
        try:
            self._sweep()
        except TooManyStatesError as error:
            self._too_many(error)
        else:
            self._judge()
        return Proof(
            tuple(dict.fromkeys(self.findings)),
            len(self.places),
            sum(len(p.question.choices) for p in self.places.values()),
            sum(1 for p in self.places.values() for _ in leaves(p.question.when)),
            self.widest,
            len(self.book.requirements),
            len(self.book.contradictions),
        )

    # ------------------------------------------------------------ what there is

    def _place(self, place: Place) -> None:
        name = place.question.id
        if name in self.places:
            self.findings.append(Finding(name, twice("question", name)))
        self.places.setdefault(name, place)

    def _read(self) -> None:
        """Every condition, and bits for every answer that one of them reads."""
        readings = {name: [_at(p, p.question.when), *(_at(p, o.when) for o in p.question.asks)]
                    for name, p in self.places.items()}  # fmt: skip
        looks = [pair for rule in self.book.contradictions for pair in self._looks(rule)]
        self.known.learn([*(r for found in readings.values() for r in found), *(r for _, _, r in looks)])
        for name, (when, *wordings) in readings.items():
            for reading in (when, *wordings):
                for leaf in leaves(reading.condition):
                    self._readable(name, reading, leaf)
            self.asked[name] = _Asked(self.places[name], self._reader(when), tuple(map(self._reader, wordings)))
        self.contradictions = [_Contradiction(rule, at, r, self._reader(r)) for rule, at, r in looks]

    def _reader(self, reading: Reading) -> Reader:
        return Reader(reading.condition, self.known.bits_of(reading))

    def _looks(self, rule: ContradictionRule) -> Iterator[tuple[ContradictionRule, str, Reading]]:
        """When a contradiction is looked at: once all its answers are there and sure."""
        for at in rule.asked_at:
            named = [self.places.get(name) for name in (at, *rule.others)]
            between = [place for place in named if place is not None]
            if len(between) < len(named):
                continue  # said by the rules of the book
            inside = self.places[at].inside
            group = self.places[at].group if inside else None
            if inside and any(p.order > self.places[at].order and p.group is not group for p in between):
                continue  # the other answer comes when the implement is left already
            sure = [Leaf("item" if p.inside else "answer", p.question.id, "not_sure", False) for p in between]
            parts: list[Condition | Leaf] = [*sure, *([] if rule.when is None else [rule.when])]
            last = max(place.order for place in between)
            yield rule, at, Reading(Condition("all", tuple(parts)), last + 1, inside)

    def _readable(self, name: str, reading: Reading, leaf: Leaf) -> None:
        wrong = wrong_read(self.places, reading, leaf)
        if wrong is None:
            return
        self.findings.append(Finding(name, findings.wrong_read(wrong, name, leaf, self.places)))

    # ---------------------------------------------------------------- the walks

    def _sweep(self) -> None:
        stages: list[Stage] = []
        told: set[tuple[str, str]] = set()
        for section in self.book.sections:
            for question in section.questions:
                stages += self._question(question, told)
            if section.group is not None:
                inner = [self.places[q.id].order for q in section.group.questions]
                stages += self._reveals(self._conditions(inner), told, inside=False)
                stages.append(self._group(section.group))
                stages += self._question(section.group.closes, told)
        outer = Sweep(stages)
        outer.run()
        self.widest = max(self.widest, outer.widest)

    def _question(self, question: Question, told: set[tuple[str, str]]) -> Iterator[Stage]:
        """The stages of one question: what was picked before is told, it is asked, contradictions are looked at."""
        asked = self.asked[question.id]
        inside = asked.place.inside
        yield from self._reveals([asked.when.when, *(w.when for w in asked.wordings)], told, inside=inside)
        yield ask(self.known, question, asked.when, asked.wordings, partial(self._ask, asked), partial(_stick, asked))
        for one in self.contradictions:
            if one.reading.before == asked.place.order + 1 and one.reading.inside is inside:
                yield from self._reveals([one.reading.condition], told, inside=inside)
                yield look(one.rule.id, one.reader)

    def _ask(self, asked: _Asked, state: int) -> None:
        asked.ever = True
        if asked.place.inside:
            asked.classes.add(self.known.class_bit(state))

    def _conditions(self, inner: Iterable[int]) -> Iterator[Condition | None]:
        """Every condition that is looked at inside a group."""
        orders = set(inner)
        for asked in self.asked.values():
            if asked.place.order in orders:
                yield from (asked.when.when, *(w.when for w in asked.wordings))
        for one in self.contradictions:
            if one.reading.inside and one.reading.before - 1 in orders:
                yield one.reading.condition

    def _reveals(
        self, readers: Iterable[Condition | None], told: set[tuple[str, str]], *, inside: bool, end: bool = False
    ) -> Iterator[Stage]:
        """Stages that tell which choices were picked, just before they are first read; `end`: of an item."""
        wanted = list(self.known.any_bits) if end else [leaf for when in readers for leaf in leaves(when)]
        for leaf in wanted:
            subject = self.known.subjects.get(leaf.subject)
            if subject is None or leaf.value not in subject.revealed or (leaf.subject, leaf.value) in told:
                continue
            if self.places[leaf.subject].inside is not inside or (leaf.scope == "any_item" and not end):
                continue  # told inside the item, or at its end
            told.add((leaf.subject, leaf.value))
            so_far = frozenset(choice for name, choice in told if name == leaf.subject)
            yield reveal(self.known, subject, leaf.value, so_far)

    # ---------------------------------------------------------------- the group

    def _group(self, group: Group) -> Stage:
        inner = [self.places[q.id].order for q in group.questions]
        seen = 0  # the outer bits that the item questions can see
        for condition in self._conditions(inner):
            for leaf in leaves(condition):
                if leaf.scope == "answer" and leaf.subject in self.known.subjects:
                    subject = self.known.subjects[leaf.subject]
                    known = (leaf.test, leaf.value) in subject.leaves
                    seen |= subject.asked | (subject.bit(leaf) if known else 0)
        told: set[tuple[str, str]] = set()
        stages = [stage for question in group.questions for stage in self._question(question, told)]
        stages += self._reveals((), told, inside=True, end=True)
        stages.append(self._item_end())
        result = sum(self.known.any_bits.values())
        left: dict[int, frozenset[int]] = {}

        def one(state: int) -> frozenset[int]:
            """What one item can leave behind; once for each outer state that items can see."""
            if state & seen not in left:
                sweep = Sweep(stages, keep=result)
                left[state & seen] = sweep.run(state & seen)
                self.widest = max(self.widest, sweep.widest)
            return left[state & seen]

        def steps(state: int) -> Iterator[int]:
            items = one(state)
            together, fresh = {0}, {0}
            for _ in range(group.most):  # bits only turn on, so this ends long before the last item
                fresh = {before | item for before in fresh for item in items} - together
                if not fresh:
                    break
                together |= fresh
            yield from (state | bits for bits in together)

        return Stage(group.id, seen, steps)

    def _item_end(self) -> Stage:
        """What an item leaves behind: the bits of the `any_item` tests."""
        pairs = [(self.known.subjects[leaf.subject].bit(leaf), bit) for leaf, bit in self.known.any_bits.items()]

        def steps(state: int) -> Iterator[int]:
            yield sum(bit for own, bit in pairs if state & own)

        return Stage("item", sum({own for own, _ in pairs}), steps)

    # --------------------------------------------------------------- the verdict

    def _too_many(self, error: TooManyStatesError) -> None:
        far = ", ".join(self.known.bits.about(error.live))
        self.findings.append(Finding(error.stage, findings.too_many(error.stage, far)))

    def _judge(self) -> None:
        for name, asked in self.asked.items():
            self._unguarded(name, asked.when, None)
            if not asked.ever:
                self.findings.append(Finding(name, findings.never_asked(name, self._apart(asked.when.when))))
                continue
            if asked.stuck:
                self.findings.append(Finding(name, findings.stuck(name), shortest(self.book, self.places, name)))
            self._idle(name, asked.when, name)
            for number, wording in enumerate(asked.wordings):
                self._unguarded(name, wording, number)
                self._wording(name, number, wording)
        self._judge_kinds()
        for place in self.places.values():
            if place.closes and place.group is not None:
                self._judge_closing(place.group)
        self._judge_requirements()
        for one in self.contradictions:
            if not one.reader.held:
                said = findings.never_stands(one.rule.id, one.asked_at)
                self.findings.append(Finding("", said, contradiction=one.rule.id))

    def _apart(self, when: Condition | None) -> tuple[Leaf, ...]:
        """A test of the condition that no answer passes, or two that none passes together; nothing when it is more."""
        tests = [] if when is None or when.op != "all" else [part for part in when.parts if isinstance(part, Leaf)]
        for some in (*((leaf,) for leaf in tests), *combinations(tests, 2)):
            subject = self.known.subjects.get(some[0].subject)
            one = all((leaf.subject, leaf.scope) == (some[0].subject, some[0].scope) for leaf in some)
            if subject is None or not one or subject.question.type not in ("choice", "quantity", "count"):
                continue
            bits = [subject.bit(leaf) for leaf in some]
            if not any(all(answer.bits & bit for bit in bits) for answer in outcomes(subject.question, subject)):
                return some
        return ()

    def _unguarded(self, name: str, reader: Reader, wording: int | None) -> None:
        """One finding for each answer that may not be there, with the shortest way to a test that reads it."""
        for subject in dict.fromkeys(leaf.subject for leaf in reader.unguarded):
            guarded = self.places[subject].question.when is not None
            said = findings.unguarded(name, subject, other_words=wording is not None, guarded=guarded)
            tests = [leaf for leaf in reader.unguarded if leaf.subject == subject]
            ways = [shortest(self.book, self.places, name, reads=leaf, wording=wording) for leaf in tests]
            self.findings.append(Finding(name, said, min(ways, key=len)))

    def _idle(self, name: str, reader: Reader, whose: str) -> None:
        for leaf in leaves(reader.when):
            if leaf not in reader.true and reader.bits_of(leaf) is not None:
                self.findings.append(Finding(name, findings.idle_test(whose, leaf)))

    def _wording(self, name: str, number: int, wording: Reader) -> None:
        if wording.held:
            self._idle(name, wording, f"other words for {name}")
        else:
            self.findings.append(Finding(name, findings.never_said(name, number + 1)))

    def _judge_kinds(self) -> None:
        """Choices that come from the kinds: each build, each size, each wish for oil can be taken."""
        for section in self.book.sections:
            for question in section.group.questions if section.group is not None else ():
                feature = {"variant": "variants", "size": "sizes"}.get(question.type)
                if question.type == "several" and not question.choices:
                    feature = "oil_options"
                asked = self.asked[question.id]
                if feature is None or not asked.ever:
                    continue
                kinds = {build.kind.kind for bit in asked.classes for build in self.known.classes.get(bit, ())}
                lost = [k.kind for k in self.book.kinds.values() if feature in k.features and k.kind not in kinds]
                if lost:
                    self.findings.append(Finding(question.id, findings.lost_choices(question.id, lost, feature)))

    def _judge_closing(self, group: Group) -> None:
        name = group.closes.id
        if group.closes.choices and not any(c.id == "that_is_all" for c in group.closes.choices):
            self.findings.append(Finding(name, findings.no_way_out(name), shortest(self.book, self.places, name)))
        if group.most < 2:
            self.findings.append(Finding(name, findings.no_other(name)))

    def _judge_requirements(self) -> None:
        """Every requirement is named by a question that is asked on some walk."""
        ever = {r for asked in self.asked.values() if asked.ever for r in asked.place.question.moves}
        for id_ in self.book.requirements:
            if id_ in ever:
                continue
            named = [name for name, asked in self.asked.items() if id_ in asked.place.question.moves]
            self.findings.append(Finding("", findings.unnamed(id_, named), requirement=id_))


def _at(place: Place, condition: Condition | None) -> Reading:
    return Reading(condition, place.order, place.inside)


def _stick(asked: _Asked) -> None:
    asked.stuck = True
