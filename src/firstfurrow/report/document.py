"""A profile as content blocks: the page that a beginner reads, short or with all the working."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import HookupNote, Profile
from firstfurrow.advice.strictest import Strictest
from firstfurrow.asking.resolve import size_label
from firstfurrow.quantities import format_number
from firstfurrow.reasoning import Step, ancestors
from firstfurrow.report.blocks import Block, Bullets, Document, Heading, Paragraph, Table, Working
from firstfurrow.report.step_lines import short, step_line

_STEP = re.compile(r"\bs[0-9]+\b")  # a step that a sentence names
FIRST = 3  # how many deciding entries the summary names


def document(profile: Profile, *, full: bool) -> Document:
    """The whole page: summary, table, implements; with `full` also one by one, assumptions and sources."""
    return tuple(_Page(profile, full).blocks())


class _Page:
    """Writes one page; remembers which steps were printed, so that no figure points at a line that is not there."""

    def __init__(self, profile: Profile, full: bool) -> None:
        self.profile = profile
        self.book = profile.book
        self.full = full
        self.printed: set[int] = set()
        self.pointed: set[int] = set()
        self.sources: list[str] = []
        self.names = {note.sized.item.id: note.sized.item.name for note in profile.hookups}
        self.names["tow"] = profile.book.messages["reason.tow_name"]

    def say(self, id_: str, **slots: Any) -> str:
        """A sentence of the report."""
        return self.book.messages[f"report.{id_}"].format(**slots)

    def blocks(self) -> Iterator[Block]:
        """Everything in reading order."""
        profile = self.profile
        yield Heading(self.say("title"), 1)
        if profile.scenario is not None:
            yield Paragraph(self.say("scenario", name=profile.scenario), "strong")
            for note in profile.plan.notes:
                yield Paragraph(note)
        determined = [o for o in profile.outcomes.values() if o.status == "determined"]
        if not determined and not profile.refusals:
            yield Paragraph(self.say("nothing_yet"))
            yield from self._open_ceilings()
            return
        yield Paragraph(self.say("intro" if self.full else "intro_short"))
        yield from self._short()
        yield from self._refusals_and_conflicts()
        yield from self._table()
        yield from self._hookups()
        yield from self._unbraked()
        if self.full:
            yield Heading(self.say("one_by_one"))
            for outcome in determined:
                yield from self._outcome(outcome)
        yield from self._open_ceilings()
        yield from self._assumptions()
        yield from self._left_out()
        if self.full:
            yield from self._further()
            yield from self._sources()
        yield Paragraph(self.say("not_covered"), "caution")
        yield Paragraph(self.say("manuals"), "caution")

    # -- summary

    def _short(self) -> Iterator[Block]:
        profile = self.profile
        yield Heading(self.say("short"))
        lines: list[str] = []
        for entry in profile.deciding[:FIRST]:
            sort, _, index = entry.partition(":")
            if sort == "refusal":
                lines.append(self.say("decides_refusal", title=profile.refusals[int(index)].title))
            elif sort == "conflict":
                lines.append(self.say("decides_conflict", title=profile.conflicts[int(index)].title))
            else:
                outcome = profile.outcomes[entry]
                widest = outcome.widest
                assert widest is not None
                because = widest.governed_by.name if widest.governed_by is not None else ""
                lines.append(
                    self.say(
                        "decides", title=outcome.requirement.title, shown=self._sense(outcome, widest),
                        because=because,
                    )
                )  # fmt: skip
        yield Bullets(tuple(lines) or (self.say("nothing_decides"),))
        row = profile.points_to
        if row is None:
            yield Paragraph(self.say("points_nowhere"))
        else:
            yield Paragraph(self.say("points_to", row=row.name, plain=row.words["plain"]))

    def _sense(self, outcome: Outcome, strictest: Strictest) -> str:
        return self.say(f"sense.{outcome.requirement.sense}", shown=strictest.shown)

    def _refusals_and_conflicts(self) -> Iterator[Block]:
        if self.profile.refusals:
            yield Heading(self.say("refusals"))
            for refusal in self.profile.refusals:
                yield Paragraph(refusal.title, "strong")
                yield Paragraph(refusal.reason)
                yield Bullets(tuple(self.say("way_out", way=way) for way in refusal.ways_out))
                yield Paragraph(self.say("careful", caution=refusal.caution), "caution")
        if self.profile.conflicts:
            yield Heading(self.say("conflicts"))
            for conflict in self.profile.conflicts:
                yield Paragraph(conflict.title, "strong")
                ways = tuple(self.say("way_out", way=way) for way in conflict.ways_out)
                yield Bullets(conflict.reasons + ways)

    # -- the table

    def _table(self) -> Iterator[Block]:
        profile = self.profile
        shown = [o for o in profile.outcomes.values() if o.status != "not_needed"]
        apart = any(
            (o.sure.shown if o.sure is not None else None) != (o.with_later.shown if o.with_later is not None else None)
            for o in shown
        )
        headers = (
            ("column_what", "column_sure", "column_later", "column_because")
            if apart
            else ("column_what", "column_need", "column_because")
        )
        yield Heading(self.say("profile"))
        yield Table(tuple(self.say(h) for h in headers), tuple(self._row(o, apart) for o in shown))
        rest = [o.requirement.title for o in profile.outcomes.values() if o.status == "not_needed"]
        if rest:
            yield Paragraph(self.say("not_needed", titles="; ".join(rest)), "quiet")

    def _row(self, outcome: Outcome, apart: bool) -> tuple[str, ...]:
        def cell(strictest: Strictest | None) -> str:
            if outcome.status == "not_determined":
                return self.say("not_determined")
            return self.say("nothing") if strictest is None else self._sense(outcome, strictest)

        widest = outcome.widest
        because = widest.governed_by.name if widest is not None and widest.governed_by is not None else ""
        if not apart:
            return (outcome.requirement.title, cell(widest), because)
        sure, later = cell(outcome.sure), cell(outcome.with_later)
        return (outcome.requirement.title, sure, self.say("the_same") if sure == later else later, because)

    # -- implements

    def _hookups(self) -> Iterator[Block]:
        if not self.profile.hookups:
            return
        yield Heading(self.say("hookups"))
        for note in self.profile.hookups:
            yield from self._hookup(note)

    def _unbraked(self) -> Iterator[Block]:
        """What is towed and not on the list has no lines of its own; that nothing brakes it must stand somewhere."""
        tow = self.profile.plan.tow
        if tow is not None and tow.brakes != "has_brakes":
            said = self.book.messages["reason.holding"].format(item=self.names["tow"])
            yield Paragraph(self.say("careful", caution=said), "caution")

    def _hookup(self, note: HookupNote) -> Iterator[Block]:
        sized = note.sized
        kind = sized.item.kind
        when = self.say(f"when.{sized.item.when}")
        size = self._size(note)
        yield Paragraph(
            self.say("hookup", name=kind.name, size=size, when=when)
            if size
            else self.say("hookup_no_size", name=kind.name, when=when),
            "strong",
        )
        lines: list[str] = []
        if len(kind.variants) > 1:
            lines.append(self.say("build", variant=sized.item.variant.name))
        if note.hours is not None:
            hours = format_number(note.hours.value, note.hours.digits)
            step = ""
            if self.full:
                self._point(note.hours)
                step = f" ({note.hours.id})"
            if note.times:
                year = format_number(note.hours.value * note.times, 0)
                lines.append(self.say("hours_a_year", hours=hours, year=year, step=step))
            else:
                lines.append(self.say("hours", hours=hours, step=step))
        if note.sets_must or note.sets_comfortable:
            lines.append(self.say("sets", must=note.sets_must, comfortable=note.sets_comfortable))
        if self.full:
            needs = (*kind.needs, self.say("draft_control")) if kind.draft_control else kind.needs
            if needs:
                lines.append(self.say("needs", needs="; ".join(needs)))
            if self.profile.plan.stones.value == "many" and (kind.pull is not None or kind.shaft is not None):
                lines.append(self.say("stones"))
            lines += [self.say("often_wrong", mistake=mistake) for mistake in kind.mistakes]
        # What can hurt stands on the short page too: many a reader never opens the long one.
        lines += [self.say("careful", caution=caution) for caution in kind.cautions]
        if lines:
            yield Bullets(tuple(lines))

    def _size(self, note: HookupNote) -> str | None:
        sized = note.sized
        if sized.item.size_text is not None:
            return sized.item.size_text
        if len(sized.item.kind.sizes) < 2:
            return None
        return size_label(sized.item.kind, sized.size, self.profile.units)

    # -- one requirement

    def _outcome(self, outcome: Outcome) -> Iterator[Block]:
        widest = outcome.widest
        assert widest is not None
        requirement = outcome.requirement
        yield Heading(f"{requirement.title}: {self._sense(outcome, widest)}", 3)
        yield Paragraph(requirement.what)
        yield Paragraph(self._governed(outcome, widest))
        if widest.top_step is not None:
            yield Paragraph(self.say("working"))
            yield self._working(self.profile.step(widest.top_step), widest)
        for remark in outcome.remarks:
            self._point(remark.step)
        for note in widest.notes:
            for step in _STEP.findall(note):
                self._point(self.profile.step(step))
        said = tuple(self.say("with_step", text=r.text, step=r.step.id) for r in outcome.remarks)
        notes = (*widest.notes, *said, *requirement.caveats)
        if notes:
            yield Bullets(notes)
        yield Paragraph(self.say("at_the_tractor", check=requirement.check))
        yield Paragraph(self.say(f"later.{requirement.later}", what=requirement.later_what))
        if requirement.cautions:
            yield Bullets(tuple(self.say("careful", caution=c) for c in requirement.cautions), "caution")

    def _governed(self, outcome: Outcome, widest: Strictest) -> str:
        parts: list[str] = []
        if widest.governed_by is not None:
            parts.append(self.say("governed", name=widest.governed_by.name))
        if widest.runner_up is not None and widest.runner_up_shown is not None:
            parts.append(self.say("next_below", name=widest.runner_up.name, shown=widest.runner_up_shown))
        if outcome.requirement.decides == "unfavourable" and widest.ranged:
            parts.append(
                self.say("range_unfavourable", high=widest.high_shown or "", planning=widest.planning_shown)
            )  # fmt: skip
        elif widest.high_shown is None:
            parts.append(self.say("range_open", low=widest.low_shown, planning=widest.planning_shown))
        elif widest.ranged:
            parts.append(
                self.say("range_planning", low=widest.low_shown, high=widest.high_shown, planning=widest.planning_shown)
            )
        if outcome.sure is None and outcome.with_later is not None:
            parts.append(self.say("only_later"))
        elif outcome.sure is not None and outcome.with_later is not None:
            sure, later = outcome.sure.shown, outcome.with_later.shown
            if sure != later:
                parts.append(self.say("sure_and_later", sure=sure, later=later))
        return " ".join(parts)

    def _working(self, top: Step, widest: Strictest) -> Working:
        """The chain of the governing demand; of the others only the result, which the further working shows."""
        chain = self._chain(top, widest)
        self.printed |= {step.index for step in chain}
        for step in chain:
            self._cite(step)
            for below in (step.inputs or {}).values():
                self._point(below)
        about = widest.governed_by.name if widest.governed_by is not None else None
        return Working(tuple(step_line(step, self.book, self.names, about) for step in chain))

    def _chain(self, top: Step, widest: Strictest) -> list[Step]:
        governing = widest.governed_by.top if widest.governed_by is not None else top
        steps = ancestors(top)
        greatest = next((s for s in steps if s.type == "greatest" and governing in (s.inputs or {}).values()), None)
        if greatest is None:
            return steps
        below = {s.index for s in ancestors(governing)}
        above = {s.index for s in steps if s.index >= greatest.index}
        return [s for s in steps if s.index in below or s.index in above]

    def _point(self, step: Step) -> None:
        """A figure points at this step: it and what it rests on must stand somewhere on the page."""
        self.pointed |= {s.index for s in ancestors(step)}

    def _further(self) -> Iterator[Block]:
        missing = sorted(self.pointed - self.printed)
        if not missing:
            return
        yield Heading(self.say("further"))
        yield Paragraph(self.say("further_intro"))
        steps = [self.profile.steps[index] for index in missing]
        for step in steps:
            self._cite(step)
        yield Working(tuple(step_line(step, self.book, self.names) for step in steps))

    # -- what nobody knows

    def _open_ceilings(self) -> Iterator[Block]:
        lines = []
        for outcome in self.profile.outcomes.values():
            for question_id in outcome.open_questions:
                question = self.book.question(question_id)
                assert question is not None
                guide = self.book.guides[question.how].title if question.how is not None else ""
                lines.append(
                    self.say("not_measured_line", title=outcome.requirement.title, ask=question.ask, guide=guide)
                )
        if lines:
            yield Heading(self.say("not_measured"))
            yield Bullets(tuple(lines))
        cautions = tuple(
            self.say("careful", caution=caution)
            for outcome in self.profile.outcomes.values()
            if outcome.open_questions
            for caution in outcome.requirement.cautions
        )
        if cautions:
            yield Bullets(cautions, "caution")

    def _assumptions(self) -> Iterator[Block]:
        lines: list[str] = []
        names = self.names
        titles = {id_: r.title for id_, r in self.book.requirements.items()}
        for assumption in self.profile.assumptions:
            question = self.book.question(assumption.question)
            own = question is None or assumption.question in ("size", "variant")
            text = assumption.text
            if not own:
                assert question is not None
                item = f"{names[assumption.item]}: " if assumption.item in names else ""
                text = item + self.say("assumed_question", ask=question.ask, text=assumption.text)
            parts = [text]
            if assumption.range is not None:
                parts.append(assumption.range if own else self.say("assumed_range", range=assumption.range))
            if own and self.full and assumption.item is not None:
                parts += self._size_step(assumption.item)
            asked = [titles[m] for m in assumption.moves if self.profile.outcomes[m].status == "determined"]
            if asked and self.full:
                parts.append(self.say("assumed_moves", moves="; ".join(asked)))
            if assumption.how is not None and self.full:
                parts.append(self.say("assumed_how", guide=self.book.guides[assumption.how].title))
            lines.append(" ".join(parts))
        if lines:
            yield Heading(self.say("assumed"))
            yield Bullets(tuple(lines))

    def _size_step(self, item: str) -> list[str]:
        """Where the width that chose a size was worked out."""
        for note in self.profile.hookups:
            step = note.sized.reason_step
            if note.sized.item.id == item and step is not None:
                self._point(step)
                return [self.say("see_step", step=step.id)]
        return []

    def _left_out(self) -> Iterator[Block]:
        names = self.names
        lines = tuple(
            (f"{names[left.item]}: " if left.item in names else "") + left.text for left in self.profile.left_out
        )
        if lines:
            yield Heading(self.say("left_out"))
            yield Bullets(lines)

    # -- sources

    def _cite(self, step: Step) -> None:
        if step.source is not None and step.source not in self.sources:
            self.sources.append(step.source)

    def _sources(self) -> Iterator[Block]:
        if not self.sources:
            return
        yield Heading(self.say("sources"))
        lines = []
        for id_ in self.sources:
            source = self.book.sources[id_]
            lines.append(". ".join(part for part in (short(source), source.publisher, source.link) if part) + ".")
        yield Bullets(tuple(lines))
