"""The class: a question for the room, guess first, reasoning one step at a time, recorded examples, pairs of plans."""

from __future__ import annotations

from typing import TYPE_CHECKING

from firstfurrow.asking.answers import NOT_SURE
from firstfurrow.asking.choosing import plain
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import ref_of
from firstfurrow.asking.typed import Problem, understand
from firstfurrow.talk.commands import Command, command
from firstfurrow.talk.front import LeaveError
from firstfurrow.talk.showing import answer_text

if TYPE_CHECKING:
    from firstfurrow.asking.answers import Answers, Given
    from firstfurrow.book.model import Kind, Question
    from firstfurrow.book.teaching import TeachingPair
    from firstfurrow.talk.conversation import Conversation

SETTING = "class"
PROMPT = "> "
LEAST_WORD = 4  # letters of a word that tells one requirement from another


class Lesson:
    """What a class sees beside the questions of one conversation."""

    def __init__(self, talk: Conversation) -> None:
        self.talk = talk
        self.screen = talk.screen
        self.guessing = True

    # ------------------------------------------------------------- notes

    def ask_the_room(self, question: Question) -> None:
        """What to ask the room; the common wrong answer is kept for `note`, because everybody sees the screen."""
        note = self.talk.book.teaching.notes.get(question.id)
        if note is not None:
            self.screen.message("room", text=note.room)

    def note(self, question: Question | None) -> None:
        """The whole note."""
        found = None if question is None else self.talk.book.teaching.notes.get(question.id)
        if found is None:
            self.screen.message("note_none")
            return
        self.screen.message("note_wrong", text=found.wrong)
        self.screen.message("note_because", text=found.because)
        self.screen.message("room", text=found.room)

    # ------------------------------------------------------------- guess first

    def guess(self, moved: tuple[str, ...]) -> None:
        """Before what moved is shown, the room says what will."""
        if not self.guessing or not moved:
            return
        self.screen.message("guess")
        line = self.talk.front.ask(PROMPT)
        said = command(line)
        if said is not None and said.name == "save":
            raise LeaveError
        if said is not None or not line:
            return
        words = [word for word in plain(line).split() if len(word) >= LEAST_WORD]
        right = [text for text in moved if any(word in plain(text) for word in words)]
        self.screen.message("guess_right" if right else "guess_other", count=len(moved))

    def switch(self) -> None:
        """Guessing on or off."""
        self.guessing = not self.guessing
        self.screen.message("guess_on" if self.guessing else "guess_off")

    # ------------------------------------------------------------- one step at a time

    def steps(self, word: str) -> None:
        """The reasoning of one requirement, a line for each Enter."""
        title, lines = self.talk.views.steps(self.talk.interview.applies(), word)
        if not lines:
            self.screen.message("steps_none", text=word)
            return
        self.screen.para(title, strong=True)
        for number, line in enumerate(lines, 1):
            self.screen.raw(line)
            if number < len(lines):
                typed = self.talk.front.ask(PROMPT)
                if typed:  # anything but Enter: enough of it
                    self.screen.message("steps_left", count=len(lines) - number)
                    return
        self.screen.message("steps_end")

    # ------------------------------------------------------------- examples and pairs

    def examples(self, said: Command) -> bool:
        """The list of recorded conversations, or one of them taken over. True when the plan is another one now."""
        known = self.talk.views.examples()
        if not said.rest:
            for number, (id_, title) in enumerate(known, 1):
                self.screen.entry(str(number), f"{title} ({id_})")
            self.screen.message("examples_hint")
            return False
        name = _one_of(said.rest, [name for name, _ in known])
        if name is None:
            self.screen.message("example_unknown", name=said.rest)
            return False
        self._take(self.talk.views.example(name))
        self.screen.message("example_taken", name=dict(known)[name])
        return True

    def pairs(self, said: Command) -> bool:
        """The list of pairs, or one of them shown: guess, then what differs, then why. True when one was shown."""
        pairs = self.talk.book.teaching.pairs
        if not said.rest:
            for number, pair in enumerate(pairs, 1):
                self.screen.entry(str(number), pair.title)
            self.screen.message("pairs_hint" if pairs else "pairs_none")
            return False
        wanted = _one_of(said.rest, [pair.id for pair in pairs])
        chosen = next((pair for pair in pairs if pair.id == wanted), None)
        if chosen is None:
            self.screen.message("pair_unknown", name=said.rest)
            return False
        self._show(chosen)
        return True

    def _show(self, pair: TeachingPair) -> None:
        before = self.talk.views.example(pair.recording)
        first = Interview.of(self.talk.book, before)
        ref = ref_of(pair.question)
        question, given = first.question(ref), first.given(ref)
        other = self._read(question, pair.other, before, first.kind(ref.item))
        if given is None or other is None:
            self.screen.message("pair_broken", name=pair.id)
            return
        self.screen.para(pair.title, strong=True)
        self.screen.message("pair_plan", name=before.name or pair.recording)
        names = (answer_text(self.screen, question, given, before.units),
                 answer_text(self.screen, question, other, before.units))  # fmt: skip
        self.screen.message("pair_answer", ask=question.ask, one=names[0], other=names[1])
        after = first.change(ref, other)
        moved = self.talk.views.moved(first.applies(), after.applies())
        self.guess(moved)
        self.screen.raw(self.talk.views.compared(first.applies(), after.applies(), names))
        self.screen.para(pair.say)
        self.screen.message("pair_stays")

    def _read(self, question: Question, text: str, answers: Answers, kind: Kind | None) -> Given | None:
        """The other answer of a pair; None where it is none."""
        said = command(text)
        if said is not None:
            return NOT_SURE if said.name == "unsure" else None
        found = understand(question, text, answers.units, kind, self.talk.book)
        return None if isinstance(found, Problem) else found.given

    def _take(self, answers: Answers) -> None:
        self.talk.restore(Interview.of(self.talk.book, answers, self.talk.interview.skips))


def _one_of(typed: str, names: list[str]) -> str | None:
    """The name that a number of the list or the words mean."""
    number = typed.strip(" .)")
    if number.isascii() and number.isdigit() and len(number) < 4:
        return names[int(number) - 1] if 1 <= int(number) <= len(names) else None
    wanted = "_".join(plain(typed).split())
    found = [name for name in names if name == wanted] or [name for name in names if name.startswith(wanted)]
    return found[0] if len(found) == 1 else None
