"""The interview: a frozen state machine over book and answers. Every step gives a new interview; nothing is lost.

One rule keeps it honest: after each step the answers are sorted anew by walking the book from the start. What applies
counts, what no longer applies lies aside and comes back by itself when it applies again, and what *back* dropped lies
aside as a suggestion until it is answered again. So a change and its reverse give the same state.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item, Kept
from firstfurrow.asking.refs import Ref, item_number, ref_of
from firstfurrow.asking.resolve import build, from_kind, resolve
from firstfurrow.asking.walk import Step, Walk, id_of_type
from firstfurrow.book.model import Book, Group, Kind, Question

ANOTHER = "another"
THAT_IS_ALL = "that_is_all"
NOTHING_SAID = Answers()


class NotAllowedError(ValueError):
    """The book does not allow this step here: an unknown place, a refused *not sure*, too many items."""


@dataclass(frozen=True, slots=True)
class _Draft:
    """The answers taken apart: all that counts or waits by flat key, suggestions apart, items by id."""

    pool: Mapping[str, Given]
    suggested: Mapping[str, Given]
    items: tuple[str, ...]
    made: int


@dataclass(frozen=True)  # no slots: walks are kept
class Interview:
    """Where the asking stands.

    suggested
        The answers aside that *back* dropped: shown, never put back.
    skips
        Questions that are not put; without an answer they count as *not sure*.
    """

    book: Book
    answers: Answers = NOTHING_SAID
    suggested: frozenset[str] = frozenset()
    skips: frozenset[str] = frozenset()

    @classmethod
    def of(cls, book: Book, answers: Answers, skips: frozenset[str] = frozenset()) -> Interview:
        """The interview for answers that were read from a file: an answer aside that applies is a suggestion."""
        new = cls(book, answers, skips=skips)
        begun = replace(new, suggested=frozenset(answers.aside) & {step.ref.key for step in new.waiting()})
        return begun._settled(begun._draft())

    # ------------------------------------------------------------- looking

    def steps(self) -> tuple[Step, ...]:
        """The questions that apply now with their answers, up to and with the first one not answered."""
        return self._to_the_gap

    def asked(self) -> tuple[Ref, ...]:
        """The places that apply now, in asking order, up to and with the first one not answered."""
        return tuple(step.ref for step in self.steps())

    def next(self) -> Ref | None:
        """The first place not answered; None when everything is answered."""
        steps = self.steps()
        return steps[-1].ref if steps and steps[-1].given is None else None

    def given(self, ref: Ref) -> Given | None:
        """The answer that counts at this place."""
        return self._flat.get(ref.key)

    def suggestion(self, ref: Ref) -> Given | None:
        """What was said at this place before *back*."""
        return self.answers.aside.get(ref.key) if ref.key in self.suggested else None

    def raw_question(self, ref: Ref) -> Question:
        """The question of the book at this place, without choices from an implement record."""
        for section in self.book.sections:
            if section.group is not None and ref.item is not None:
                pool: tuple[Question, ...] = section.group.questions
            elif section.group is not None:
                pool = (section.group.closes,)
            else:
                pool = section.questions if ref.item is None else ()
            for question in pool:
                if question.id == ref.question:
                    return question
        raise NotAllowedError(f"The book has no question {ref.key}.")

    def kind(self, item: str | None) -> Kind | None:
        """The kind of an item, where it is known."""
        value = self._sure("kind", item)
        return self.book.kinds.get(value) if isinstance(value, str) else None

    def variant(self, item: str | None) -> str | None:
        """The build of an item, where it is known."""
        question = id_of_type(self.book, "variant")
        given = self.given(Ref(question, item)) if question is not None and item is not None else None
        return None if given is None else build(self.kind(item), given)

    def question(self, ref: Ref) -> Question:
        """The question at this place with its choices filled in."""
        raw = self.raw_question(ref)
        if raw.asks:
            raw = next((step.question for step in self._every if step.ref == ref), raw)
        group = self.group_closed_by(raw)
        if group is not None and len(self.answers.items) >= group.most:
            return replace(raw, choices=tuple(c for c in raw.choices if c.id != ANOTHER))
        if not from_kind(raw):
            return raw
        return resolve(self.book, raw, self.answers.units, self.kind(ref.item), self.variant(ref.item))

    def left(self) -> int:
        """About how many questions are left: those that would be asked if every missing answer were *not sure*."""
        return len(self.waiting())

    def waiting(self) -> tuple[Step, ...]:
        """Every question that would be asked if every missing answer were *not sure*, and has no answer yet."""
        return tuple(s for s in self._every if s.given is None)

    def said(self) -> tuple[Step, ...]:
        """Every question that applies and is answered, those after a gap too."""
        return tuple(s for s in self._every if s.given is not None)

    def applies(self) -> Answers:
        """Only the answers that apply: what the advice reads. What is skipped is *not sure*."""
        steps = replace(self, skips=frozenset())._every if self.skips else self._every
        counted = {s.ref.key: s.given or NOT_SURE for s in steps if s.given or s.ref.question in self.skips}
        return self._only(counted)

    def filled(self, unsaid: Mapping[str, Given]) -> Answers:
        """What applies, with *not sure*, or what `unsaid` has for the question, where there is no answer yet."""
        steps = self._every
        return self._only({s.ref.key: s.given or unsaid.get(s.ref.question, NOT_SURE) for s in steps})

    def _only(self, counted: Mapping[str, Given]) -> Answers:
        items = tuple(i for i in _rows(counted, tuple(i.id for i in self.answers.items)) if i.given)
        return replace(self.answers, given=_outer(counted), items=items, aside={})

    def group_closed_by(self, question: Question) -> Group | None:
        """The group that this question closes; None for any other question."""
        for section in self.book.sections:
            if section.group is not None and section.group.closes.id == question.id:
                return section.group
        return None

    # -------------------------------------------------------------- moving

    def answer(self, ref: Ref, given: Given) -> Interview:
        """The interview after this answer, sorted anew.

        Raises
        ------
        NotAllowedError
            When the book has no such place, or refuses *not sure* or a further item there.
        """
        question = self.raw_question(ref)
        if given.unsure and question.not_sure.how == "refused":
            raise NotAllowedError(question.not_sure.say or f"{question.id} needs an answer.")
        draft = self._draft()
        group = self.group_closed_by(question)
        if group is not None and given.value == ANOTHER:
            return self._settled(_opened(_without(draft, ref.key), group))
        if group is not None and self.given(ref) != given:  # said once more, it ends nothing that was opened since
            draft = _trimmed(draft)
        elif ref.item is not None and ref.item not in draft.items:
            draft = self._first(draft, ref)
        suggested = {k: v for k, v in draft.suggested.items() if k != ref.key}
        return self._settled(replace(draft, pool={**draft.pool, ref.key: given}, suggested=suggested))

    def change(self, ref: Ref, given: Given) -> Interview:
        """The interview with an earlier answer changed; what no longer applies goes aside, what applies again returns.

        Raises
        ------
        NotAllowedError
            When there is no earlier answer at this place, or the book refuses the new one.
        """
        if self.given(ref) is None:
            raise NotAllowedError(f"{ref.key} is not answered yet.")
        return self.answer(ref, given)

    def back(self) -> tuple[Interview, Ref] | None:
        """The interview without the last answer, and its place; the answer stays as a suggestion. None at the start."""
        steps = self.steps()
        draft = self._draft()
        opened = self._just_opened(steps, draft)
        if opened is not None:
            return self._closed_again(draft, opened)
        answered = [step for step in steps if step.given is not None]
        if not answered:
            return None
        last = answered[-1]
        assert last.given is not None
        pool = {k: v for k, v in draft.pool.items() if k != last.ref.key}
        suggested = {**draft.suggested, last.ref.key: last.given}
        return self._settled(replace(draft, pool=pool, suggested=suggested)), last.ref

    def add_item(self) -> Interview:
        """The interview with one more item, not answered yet.

        Raises
        ------
        NotAllowedError
            When the book allows no further item.
        """
        return self._settled(_opened(self._draft(), self._group()))

    def remove_item(self, item: str) -> Interview:
        """The interview without this item and all that was said about it; its id is never given out again.

        Raises
        ------
        NotAllowedError
            When there is no such item.
        """
        draft = self._draft()
        if item not in draft.items:
            raise NotAllowedError(f"There is no item {item}.")
        own = f"{item}."
        return self._settled(
            replace(
                draft,
                pool={k: v for k, v in draft.pool.items() if not k.startswith(own)},
                suggested={k: v for k, v in draft.suggested.items() if not k.startswith(own)},
                items=tuple(i for i in draft.items if i != item),
            ),
            kept=tuple(kept for kept in self.answers.kept if not kept.at.startswith(own)),
        )

    # -------------------------------------------------------------- inside

    @cached_property
    def _every(self) -> tuple[Step, ...]:
        """Every step; an interview never changes, so one walk serves all that is asked of it."""
        return tuple(self._walk().steps())

    @cached_property
    def _flat(self) -> Mapping[str, Given]:
        """Every answer by its flat key."""
        flat = dict(self.answers.given)
        for item in self.answers.items:
            flat |= {f"{item.id}.{question}": given for question, given in item.given.items()}
        return flat

    @cached_property
    def _to_the_gap(self) -> tuple[Step, ...]:
        """The steps up to the first one without answer: those of the whole walk, for what is missing is not sure."""
        return tuple(self._walk(past_gaps=False).steps())

    def _walk(self, *, past_gaps: bool = True) -> Walk:
        items = [item.id for item in self.answers.items]
        return Walk(self.book, items, self.answers.items_made, self._flat.get, past_gaps=past_gaps, skips=self.skips)

    def _group(self) -> Group:
        for section in self.book.sections:
            if section.group is not None:
                return section.group
        raise NotAllowedError("The book has no group of items.")

    def _sure(self, sort: str, item: str | None) -> object:
        """What was said, and not as a guess, at the question of that type for an item."""
        question = id_of_type(self.book, sort)
        given = self.given(Ref(question, item)) if question is not None and item is not None else None
        return given.value if given is not None and not given.unsure else None

    def _draft(self) -> _Draft:
        waiting = {k: v for k, v in self.answers.aside.items() if k not in self.suggested}
        return _Draft(
            pool={**waiting, **self._flat},
            suggested={k: v for k, v in self.answers.aside.items() if k in self.suggested},
            items=tuple(item.id for item in self.answers.items),
            made=self.answers.items_made,
        )

    def _first(self, draft: _Draft, ref: Ref) -> _Draft:
        """The first item comes into being with its first answer."""
        if draft.items or ref.item != f"i{draft.made + 1}":
            raise NotAllowedError(f"There is no item {ref.item}.")
        return replace(draft, items=(ref.item,), made=draft.made + 1)

    def _just_opened(self, steps: tuple[Step, ...], draft: _Draft) -> str | None:
        """The last item when it is where the asking stands and nothing was said about it yet."""
        here = steps[-1] if steps else None
        if here is None or here.given is not None or len(draft.items) < 2 or here.ref.item != draft.items[-1]:
            return None
        item = draft.items[-1]
        return None if any(ref_of(key).item == item for key in draft.pool) else item

    def _closed_again(self, draft: _Draft, item: str) -> tuple[Interview, Ref]:
        """Undo the opening of an item about which nothing was said."""
        closes = self._group().closes.id
        undone = replace(
            draft,
            items=draft.items[:-1],
            made=draft.made - (item_number(item) == draft.made),
        )
        return self._settled(undone), Ref(closes)

    def keep(self, kept: Kept) -> Interview:
        """The interview that remembers that a contradiction was asked about and kept."""
        others = (k for k in self.answers.kept if (k.contradiction, k.at) != (kept.contradiction, kept.at))
        return replace(self, answers=replace(self.answers, kept=(*others, kept)))

    def _settled(self, draft: _Draft, kept: tuple[Kept, ...] | None = None) -> Interview:
        """The draft sorted: what applies counts, everything else waits aside."""
        walk = Walk(self.book, draft.items, draft.made, draft.pool.get, past_gaps=True, skips=self.skips)
        counted = {step.ref.key: step.given for step in walk.steps() if step.given is not None}
        waiting = {key: given for key, given in draft.pool.items() if key not in counted}
        answers = replace(
            self.answers,
            given=_outer(counted),
            items=_rows(counted, draft.items),
            aside={**waiting, **draft.suggested},
            items_made=draft.made,
            kept=self.answers.kept if kept is None else kept,
        )
        return replace(self, answers=answers, suggested=frozenset(draft.suggested))


def _outer(flat: Mapping[str, Given]) -> dict[str, Given]:
    return {key: given for key, given in flat.items() if ref_of(key).item is None}


def _rows(flat: Mapping[str, Given], items: tuple[str, ...]) -> tuple[Item, ...]:
    own: dict[str, dict[str, Given]] = {item: {} for item in items}
    for key, given in flat.items():
        ref = ref_of(key)
        if ref.item in own:
            own[ref.item][ref.question] = given
    return tuple(Item(item, given) for item, given in own.items())


def _without(draft: _Draft, key: str) -> _Draft:
    return replace(
        draft,
        pool={k: v for k, v in draft.pool.items() if k != key},
        suggested={k: v for k, v in draft.suggested.items() if k != key},
    )


def _opened(draft: _Draft, group: Group) -> _Draft:
    if len(draft.items) >= group.most:
        raise NotAllowedError(f"There can be no more than {group.most} items.")
    made = draft.made + 1
    suggested = {key: given for key, given in draft.suggested.items() if key != group.closes.id}
    return replace(draft, suggested=suggested, items=(*draft.items, f"i{made}"), made=made)


def _trimmed(draft: _Draft) -> _Draft:
    """Without the empty items at the end: opened, then nothing was said about them."""
    items, made = draft.items, draft.made
    while items and not any(ref_of(key).item == items[-1] for key in draft.pool):
        made -= item_number(items[-1]) == made
        items = items[:-1]
    return replace(draft, items=items, made=made)
