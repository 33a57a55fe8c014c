"""What a tractor runs, as content blocks: the ground, what stands in the way most often, then each implement."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterable, Iterator
from functools import cached_property

from firstfurrow.advice.offers.sizes import KindSizes, Sizes, Tried
from firstfurrow.advice.offers.verdicts import LIFTS, Verdict
from firstfurrow.asking.resolve import size_label
from firstfurrow.asking.setting import outer_questions
from firstfurrow.book.model import Question
from firstfurrow.quantities import format_number, show
from firstfurrow.report.blocks import Block, Bullets, Document, Heading, Paragraph
from firstfurrow.report.offer_words import OPEN, Words

MOST_SAID = 3  # reasons in one line; more cannot be taken in
JOBS = "jobs"  # the section whose answers follow from the implement here
GROUND = frozenset({"mass", "side_slope"})  # what an answer about the ground moves
OFTEN = 5  # lines about what stands in the way of many


def sizes_document(sizes: Sizes) -> Document:
    """The whole page."""
    return tuple(_Page(sizes).blocks())


class _Page:
    def __init__(self, sizes: Sizes) -> None:
        self.sizes = sizes
        self.book = sizes.book
        self.words = Words(sizes.profile)
        self.say = self.words.say
        self.units = sizes.profile.units

    def blocks(self) -> Iterator[Block]:
        setting = self.book.settings["sizes"]
        yield Heading(str(setting["title"]), 1)
        yield Paragraph(self.say("sizes_tractor", name=self.sizes.offer.name), "strong")
        yield Paragraph(str(setting["intro"]))
        yield Paragraph(self._on())
        yield Paragraph(self._counts(), "strong")
        yield from self._often()
        yield from self._on_two()
        for family in self.book.families:
            mine = [self._kind(one) for one in self.sizes.kinds if one.kind.family == family.id]
            if mine:
                yield Heading(family.title)
                yield Bullets(tuple(mine))
        yield from self._ground()
        yield Paragraph(self.say("sizes_each"))
        yield Paragraph(self.say("not_covered"), "caution")
        yield Paragraph(self.say("manuals"), "caution")

    # -------------------------------------------------------------------- ground

    def _on(self) -> str:
        """The ground in a few words: what the weight of the tractor or a side slope follows from."""
        before = itertools.takewhile(lambda section: section.group is None, self.book.sections)
        early = {question.id for section in before for question in section.questions}
        said = [self._brief(q) for q in self._questions() if q.id in early and set(q.moves) & GROUND]
        return self.say("sizes_ground", answers="; ".join(said)) if said else ""

    def _brief(self, question: Question) -> str:
        answer = self._answer(question)
        known = f"report.sizes_on.{question.id}" in self.book.messages
        return self.say(f"sizes_on.{question.id}", answer=answer) if known else answer

    def _questions(self) -> list[Question]:
        """What was said, but for the jobs: those were chosen to fit each implement."""
        return [q for id_, q in outer_questions(self.book).items() if id_ in self.sizes.said and id_ not in self._jobs]

    @cached_property
    def _jobs(self) -> frozenset[str]:
        jobs = (section.questions for section in self.book.sections if section.id == JOBS)
        return frozenset(question.id for questions in jobs for question in questions)

    def _ground(self) -> Iterator[Block]:
        """Every answer that the result rests on, with its question."""
        yield Heading(self.say("sizes_taken"))
        said = [self.say("sizes_said", ask=q.ask, answer=self._answer(q)) for q in self._questions()]
        every = outer_questions(self.book)
        said += [
            self.say("sizes_assumed", ask=every[a.question].ask, answer=a.text)
            for a in self.sizes.assumptions
            if a.moves and a.question not in self._jobs
        ]
        yield Bullets(tuple(said))
        yield Paragraph(self.say("sizes_change"))

    def _answer(self, question: Question) -> str:
        given = self.sizes.said[question.id]
        if question.choices:
            wanted = given.value if isinstance(given.value, tuple) else (given.value,)
            return ", ".join(choice.label for choice in question.choices if choice.id in wanted)
        return given.text

    # ------------------------------------------------------------------- in short

    def _counts(self) -> str:
        runs = sum(one.largest is not None for one in self.sizes.kinds)
        perhaps = sum(one.largest is None and one.perhaps is not None for one in self.sizes.kinds)
        every = len(self.sizes.kinds)
        return self.say("sizes_counts", all=every, runs=runs, perhaps=perhaps, never=every - runs - perhaps)

    def _often(self) -> Iterator[Block]:
        """What most of them lack or hang on, said once: there lies what to ask, or the wrong tractor."""
        short: Counter[str] = Counter()
        ask: Counter[str] = Counter()
        verdicts: dict[str, Verdict] = {}
        for one in self.sizes.kinds:
            first = one.tried[0].verdict
            lacks = {v.requirement.id: v for v in _once((*first.never, *first.if_))}
            open_ = {f"{v.requirement.id} {v.how}": v for v in _once(first.ask)}
            short.update(lacks.keys())
            ask.update(open_.keys())
            verdicts |= open_ | lacks
        least = max(2, len(self.sizes.kinds) // 8)
        lines = [
            self.say(
                "sizes_often_open" if verdicts[r].how in OPEN else id_, title=verdicts[r].requirement.title,
                count=count, has=self.words.has(verdicts[r]),
            )
            for id_, counted in (("sizes_often_short", short), ("sizes_often_ask", ask))
            for r, count in counted.most_common(OFTEN)
            if count >= least
        ]  # fmt: skip
        if lines:
            yield Heading(self.say("sizes_often"))
            yield Bullets(tuple(lines))

    def _on_two(self) -> Iterator[Block]:
        """Two driven wheels where four are advised: what that asks of the driver."""
        asks = (verdict.how for one in self.sizes.kinds for tried in one.tried for verdict in tried.verdict.ask)
        if "two_enough" in asks:
            parts = (self.say("offers_two_enough"), self.say("offers_two_caution"))
            yield Paragraph(" ".join(parts), "caution")

    # ------------------------------------------------------------------- one kind

    def _kind(self, one: KindSizes) -> str:
        name = one.kind.name
        if len(one.kind.variants) > 1:
            name = self.say("sizes_name", kind=name, build=one.variant.name)
        best, perhaps = one.largest, one.perhaps
        single = len(one.tried) == 1
        parts = [self._head(one, name, single)]
        if best is not None and perhaps is not None:
            step = "sizes_if_next" if perhaps is one.next_size else "sizes_if"
            size = self._size(one, perhaps)
            parts.append(self.say(step, size=_begun(size), upto=size, what=self._what(perhaps)))
        if one.beyond is not None and (best is not None or perhaps is not None):
            parts.append(self._beyond(one, one.beyond))
        timed = best or perhaps
        if timed is not None and timed.hours is not None:
            parts.append(self._hours(one, timed))
        return " ".join(parts)

    def _head(self, one: KindSizes, name: str, single: bool) -> str:
        best, perhaps, first = one.largest, one.perhaps, one.tried[0]
        if best is not None:
            if single:
                return self.say("sizes_one", name=name)
            whole = best is one.tried[-1] and all(t.verdict.runs == "runs" for t in one.tried)
            return self.say("sizes_any" if whole else "sizes_upto", name=name, size=self._size(one, best))
        if perhaps is not None:
            id_ = "sizes_if_only" if single else "sizes_if_none"
            return self.say(id_, name=name, size=self._size(one, perhaps), what=self._what(perhaps))
        if first.verdict.hookup.refused is not None:
            return self.say("sizes_refused", name=name, title=first.verdict.hookup.refused)
        id_ = "sizes_none_only" if single else "sizes_none"
        return self.say(id_, name=name, size=self._size(one, first), what=self._lacks(first.verdict.never))

    def _beyond(self, one: KindSizes, tried: Tried) -> str:
        size, refused = self._size(one, tried), tried.verdict.hookup.refused
        if refused is not None:
            return self.say("sizes_refused_size", size=_begun(size), title=refused)
        return self.say("sizes_beyond", size=_begun(size), what=self._lacks(tried.verdict.never))

    def _what(self, tried: Tried) -> str:
        """What a size that may run hangs on."""
        what, ask = self._lacks(tried.verdict.if_), self._briefs(tried.verdict.ask)
        if tried.verdict.runs == "unknown":
            return self.say("sizes_ask", ask=ask)
        return self.say("sizes_put_right_ask" if ask else "sizes_put_right", what=what, ask=ask)

    def _hours(self, one: KindSizes, tried: Tried) -> str:
        assert tried.hours is not None
        assert tried.area is not None
        area = show(tried.area, "ha", self.units, dimension="area")
        hours = format_number(tried.hours, 1)
        return self.say("sizes_hours", area=area, hours=hours, size=self._size(one, tried))

    def _size(self, one: KindSizes, tried: Tried) -> str:
        return size_label(one.kind, tried.size, self.units)

    # -------------------------------------------------------------------- reasons

    def _lacks(self, verdicts: Iterable[Verdict]) -> str:
        return self._joined([self._short(v) for v in _once(verdicts)])

    def _briefs(self, verdicts: Iterable[Verdict]) -> str:
        return self._joined([self.words.open(v) for v in _once(verdicts)])

    def _short(self, verdict: Verdict) -> str:
        gap, brief = self.words.gap(verdict), self.words.brief(verdict)
        return brief if gap is None else self.say("offers_short_of_gap", what=brief, gap=gap)

    def _joined(self, parts: list[str]) -> str:
        listed = "; ".join(parts[:MOST_SAID])
        more = len(parts) - MOST_SAID
        return self.say("sizes_more", listed=listed, count=more) if more > 0 else listed


def _begun(text: str) -> str:
    """With a capital, where a sentence begins with it."""
    return text[:1].upper() + text[1:]


def _once(verdicts: Iterable[Verdict]) -> list[Verdict]:
    """The three lifts are one thing: the one that says how much is missing stands for them."""
    every = tuple(verdicts)
    lifts = sorted((v for v in every if v.requirement.id in LIFTS), key=lambda v: v.gap is None)
    return [v for v in every if v.requirement.id not in LIFTS] + lifts[:1]
