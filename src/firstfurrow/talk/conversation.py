"""The conversation: questions one after the other, commands at any of them, answers on disk before the next."""

from __future__ import annotations

from dataclasses import replace

from firstfurrow.asking.answers import NOT_SURE, Answers, Given
from firstfurrow.asking.answers_file import write
from firstfurrow.asking.contradictions import Contradiction, contradictions
from firstfurrow.asking.interview import ANOTHER, THAT_IS_ALL, Interview, NotAllowedError
from firstfurrow.asking.kinds import named, search
from firstfurrow.asking.refs import Ref, item_number
from firstfurrow.asking.resolve import fits
from firstfurrow.asking.trade_words import glossary_words_in
from firstfurrow.asking.typed import Doubt, Problem, Understood, understand
from firstfurrow.book.model import Book, Question
from firstfurrow.talk.at_odds import AT_ODDS, at_odds_question, chosen
from firstfurrow.talk.changes import Changes
from firstfurrow.talk.commands import ENDING, LESSONS, Command, command
from firstfurrow.talk.ending import Ending
from firstfurrow.talk.front import EndOfInputError, Front, InterruptedTalkError, LeaveError
from firstfurrow.talk.hints import at_question
from firstfurrow.talk.kinds_list import KindsList
from firstfurrow.talk.lesson import SETTING as LESSON
from firstfurrow.talk.lesson import Lesson
from firstfurrow.talk.opening import UNITS, units_question
from firstfurrow.talk.owned import OwnedTractor
from firstfurrow.talk.review import item_named, numbered, places, show_answers
from firstfurrow.talk.screen import Screen
from firstfurrow.talk.showing import answer_text, show_how, show_question, show_ways, show_why, show_words, unsure_text
from firstfurrow.talk.store import Store
from firstfurrow.talk.together import Together, with_kinds
from firstfurrow.talk.views import Views

PROMPT = "> "
HINTED = 2  # the first questions carry the hint line
STUCK = 100  # the same line so often at one question is a pipe that never ends, not a reader
MOVED_SHOWN = 4  # more lines would scroll the next question away
KEEP = frozenset({"keep", "keep it", "yes", "y", "right"})
OURS = (UNITS, AT_ODDS)  # questions that no book asks
NO_ITEM = frozenset({"no", "none", "nothing", "no implement", "no more", "that is all", "done"})


class _NextError(Exception):
    """The next customer is waiting."""


class Conversation:
    """One conversation on one front.

    `ask_units` is False when the reader's units are known; `tractor` is there where one is held against implements.
    """

    def __init__(
        self,
        book: Book,
        front: Front,
        store: Store,
        answers: Answers,
        views: Views,
        setting: str,
        ask_units: bool = True,
        resumed: bool = False,
        tractor: OwnedTractor | None = None,
    ) -> None:
        self.book = book
        self.front = front
        self.store = store
        here = book.settings.get(setting) or {}
        skips = frozenset(here.get("skips") or ()) | book.retired
        self._together = bool(here.get("together"))  # all implements at one question
        self.interview = Interview.of(book, answers, skips) if resumed else Interview(book, answers, skips=skips)
        self.screen = Screen(front, book.messages)
        self.views: Views = views if tractor is None else tractor.views
        self.setting = setting
        self._ask_units = ask_units
        self._resumed = resumed
        self.tractor = tractor
        self.ending = Ending(self, looked_over=resumed)
        self.lesson = Lesson(self) if setting == LESSON else None
        self._explained: set[str] = set()  # words of the trade that were offered already
        self.section = ""
        self._item: str | None = None
        self._hints = 0
        self._told_failed = store.path is None or store.private
        self.next_customer = False
        self._unsaved = False
        self._naming = Together()
        self._ways = ""  # the place at which the ways on without knowing are shown
        self._ahead = ""  # a line typed one question early: the name of the next implement
        self._refused = ""  # the line that was no answer, to be mended
        self._introduced: set[str] = set()
        self._changes = Changes(self.interview)
        self._doubt: Doubt | None = None
        self._at_odds: Contradiction | None = None  # the one that is asked about now
        self.listed: tuple[Ref, ...] = ()  # as the reader saw the list: its numbers stay until it is shown again

    # ------------------------------------------------------------- running

    def run(self) -> int:
        """Talk to the end. 0: done, saved or no further input; 130: interrupted. Answers are kept either way."""
        try:
            self._open()
            if self._ask_units:
                self._ask(Ref(UNITS))
            self._talk()
        except LeaveError:
            return self._close("close_saved", 0)
        except _NextError:
            self.next_customer = True
            return self._close("close_done", 0)
        except EndOfInputError:
            return self._close("close_end", 0)
        except (InterruptedTalkError, KeyboardInterrupt):
            return self._close("close_interrupted", 130)
        return self._close("close_done", 0)

    def _talk(self) -> None:
        while True:
            ref = self.interview.next()
            self._at_odds = self.contradiction()
            if self._at_odds is not None:
                self._ask(Ref(AT_ODDS))
            elif ref is not None:
                self._ask(ref)
            elif self.ending.finish():
                return

    def _open(self) -> None:
        setting = self.book.settings.get(self.setting) or {}
        self.screen.para(str(setting.get("title", "")), strong=True)
        if self._resumed:
            self.screen.message("open_resumed", count=len(self.interview.said()), where=self.store.path)
            self._tell_carried()
        else:
            self.screen.para(str(setting.get("intro", "")))
            kept = "open_kept" if self.store.path is not None else "open_nowhere"
            kept = "open_private" if self.store.private else kept
            self.screen.message(kept, where=self.store.path)
        if self.tractor is not None and self.tractor.path is not None:
            self.screen.message("open_tractor", where=self.tractor.path)

    def _tell_carried(self) -> None:
        """What an older edition of the book had and this one does not have."""
        carried = self.interview.answers.carried
        if carried:
            self.screen.message("carried_over")
            for line in carried:
                self.screen.entry("-", line)
            answers = replace(self.interview.answers, carried=())
            self.interview = replace(self.interview, answers=answers)

    def _close(self, message: str, code: int) -> int:
        """The last lines: where the answers are, and how to go on."""
        self.screen.blank()
        if self.store.private:
            self.store.leave()
            self.screen.message("close_private")
            return code
        if not self.interview.said() and not self._resumed:
            self.store.leave()
            self.screen.message("close_nothing")
            return code
        if self._unsaved and not self._save():
            self.store.leave()
            self.screen.message("close_printed")
            self.screen.raw(write(self.interview.answers, self.book))
            return code
        self.screen.message(message, where=self.store.path)
        tractor = None if self.tractor is None else self.tractor.file
        self.screen.pasted(self.store.resume_command(tractor))
        if message == "close_done":
            self.screen.message("close_working")
            self.screen.pasted(self.store.working_command(tractor))
        return code

    def show_profile(self) -> None:
        """What came of the answers so far."""
        self.screen.raw(self.views.profile(self.interview.applies()))

    # -------------------------------------------------------- one question

    def _question(self, ref: Ref) -> Question:
        if ref.question == UNITS:
            return units_question(self.book)
        if ref.question == AT_ODDS and self._at_odds is not None:
            return at_odds_question(self.interview, self._at_odds)
        return self.interview.question(ref)

    def contradiction(self) -> Contradiction | None:
        """The first contradiction that the reader was not asked about, or not with these answers."""
        found = contradictions(self.book, self.interview.answers)
        return next((each for each in found if not each.kept), None)

    def _ask(self, ref: Ref, changing: bool = False) -> None:
        """Ask one question until it is answered or the reader went elsewhere."""
        question = self._question(ref)
        kinds = KindsList(self.book, self.screen) if question.type == "kind" else None
        self._doubt = None
        self._ways = ""
        if self._ahead and kinds is not None:
            self._heading(ref)
        else:
            self._show(ref, question, kinds, changing)
        last, repeated = "", 0
        while True:
            hints = at_question(self.book, question, self._refused)
            line, self._ahead, self._refused = self._ahead or self.front.ask(PROMPT, hints), "", ""
            last, repeated = line, repeated + 1 if line == last else 0
            if repeated == STUCK:
                raise EndOfInputError
            said = command(line)
            if said is not None:
                if self.do(said, ref, question, changing):
                    return
            elif not line:
                if self._empty(ref, question, kinds, changing):
                    return
            elif self._typed(ref, question, kinds, line, changing):
                return

    def _show(self, ref: Ref, question: Question, kinds: KindsList | None, changing: bool) -> None:
        self.screen.blank()
        if not changing:
            self._heading(ref)
        if kinds is not None:
            show_question(self.screen, replace(question, choices=()), self.interview.answers.units)
            kinds.suggest(self._jobs())
            if self._together:
                self.screen.message("together_hint")
        else:
            show_question(self.screen, question, self.interview.answers.units)
        self._offer_words(question)
        if self.lesson is not None:
            self.lesson.ask_the_room(question)
        now = self.interview.given(ref) if changing else self._suggestion(ref, question)
        if now is not None:
            text = answer_text(self.screen, question, now, self.interview.answers.units)
            self.screen.message("now" if changing else "before", what=text)
        if self._hints < HINTED and ref.question not in OURS:
            self._hints += 1
            self.screen.message("hint")

    def _offer_words(self, question: Question) -> None:
        """Where words of the trade stand in a question for the first time: how to have them explained."""
        words = [word for word in glossary_words_in(self.book, question) if word not in self._explained]
        if words:
            self._explained.update(words)
            self.screen.message("words_here", words=", ".join(words), first=words[0])

    def _heading(self, ref: Ref) -> None:
        """The title of a section when it changes, and that of an implement."""
        if ref.question in OURS:
            return
        section = next(s for s in self.interview.steps() if s.ref == ref).section
        found = next(s for s in self.book.sections if s.id == section)
        if section != self.section:
            self.section = section
            self.screen.message("section", title=found.title, count=self.interview.left())
            if section not in self._introduced:
                self._introduced.add(section)
                self.screen.para(found.intro)
            self.screen.blank()
        if ref.item is not None and found.group is not None and ref.item != self._item:
            self.screen.message("item", title=found.group.title, number=item_number(ref.item))
        self._item = ref.item

    def _jobs(self) -> tuple[str, ...]:
        given = self.interview.given(Ref("jobs"))
        return tuple(given.value) if given is not None and isinstance(given.value, tuple) else ()

    def _suggestion(self, ref: Ref, question: Question) -> Given | None:
        """The answer before *back*, where it is still one that can be given."""
        given = self.interview.suggestion(ref)
        if given is None:
            return None
        kind, variant = self.interview.kind(ref.item), self.interview.variant(ref.item)
        allowed = fits(self.book, self.interview.raw_question(ref), given, kind, variant)
        return given if allowed and given.value != ANOTHER else None

    def _empty(self, ref: Ref, question: Question, kinds: KindsList | None, changing: bool) -> bool:
        """Enter alone: keeps what stands there, else the hint; after *unsure* it leaves the question open."""
        if self._ways == ref.key:
            return self._unsure(ref, question, changing)
        if self._naming.unclear and kinds is not None:
            return self._several_kinds(question, kinds, "")
        if changing:
            self.screen.message("unchanged")
            return True
        before = self._suggestion(ref, question)
        if before is None:
            self.screen.message("hint")
            return False
        return self._accept(ref, before, "", changing)

    def _typed(self, ref: Ref, question: Question, kinds: KindsList | None, line: str, changing: bool) -> bool:
        """A line that is no command. True when it moved the conversation on."""
        if self._doubt is not None and line.casefold().rstrip(" .!") in KEEP:
            return self._accept(ref, self._doubt.given, self._doubt.note, changing)
        if kinds is not None:
            word = line.casefold().strip(" .!")
            if word in NO_ITEM and not changing:
                self._no_item(ref)
                return True
            if kinds.browse(line):
                return False
            if self._together and not changing:
                return self._several_kinds(question, kinds, line)
            question = replace(question, choices=kinds.choices())
        units = self.interview.answers.units
        found = understand(question, line, units, self.interview.kind(ref.item), self.book)
        if isinstance(found, Problem):
            self._doubt = None
            if not changing and not found.unclear and self._names_the_next(ref, question, line):
                return True
            self.screen.para(found.sentence)
            self._refused = line
            if kinds is not None and found.kinds:
                kinds.show([self.book.kinds[k] for k in found.kinds])
            return False
        if isinstance(found, Doubt) and not (self._doubt is not None and self._doubt.settled_by(found.given)):
            self._doubt = found
            self.screen.para(found.sentence)
            return False
        assert isinstance(found, Understood | Doubt)
        return self._accept(ref, found.given, found.note, changing)

    def _several_kinds(self, question: Question, kinds: KindsList, line: str) -> bool:
        """Every implement of the plan in one line; what is not clear in it is asked about, one thing at a time."""
        self._naming.take(self.book, question, kinds, line, self.interview.answers.units)
        names = self._naming.names(self.book)
        if self._naming.unclear:
            problem = self._naming.unclear[0]
            if names:
                self.screen.message("together_so_far", names=names)
            self.screen.para(problem.sentence)
            kinds.show([self.book.kinds[k] for k in problem.kinds])
            self.screen.message("together_leave")
            return False
        if not names:
            self.screen.message("together_hint")
            return False
        self.screen.message("taken", what=names)
        named, self._naming = tuple(self._naming.named), Together()
        self._move_to(with_kinds(self.interview, named))
        return True

    def _names_the_next(self, ref: Ref, question: Question, line: str) -> bool:
        """True when the question was whether there is another implement, and the line already names it."""
        may = any(choice.id == ANOTHER for choice in question.choices)
        if not may or self.interview.group_closed_by(question) is None:
            return False
        if not (named(self.book, line) or search(self.book, line)):
            return False
        self._ahead = line
        return self._accept(ref, Given(ANOTHER, ANOTHER), "", changing=False)

    def _no_item(self, ref: Ref) -> None:
        """No implement here after all: the open item goes, and the list is closed."""
        interview = self.interview
        if any(item.id == ref.item for item in interview.answers.items):
            interview = interview.remove_item(ref.item or "")
        closes = next(s.group.closes.id for s in self.book.sections if s.group is not None)
        self._changes.removed(ref.item or "")
        self._move_to(interview.answer(Ref(closes), Given(THAT_IS_ALL, THAT_IS_ALL)), Ref(closes))

    # ------------------------------------------------------------- answers

    def _accept(self, ref: Ref, given: Given, note: str, changing: bool) -> bool:
        """Take the answer over; False when the book does not allow it here."""
        if ref.question == AT_ODDS:
            return self._settle(given)
        if note:
            self.screen.para(note)
        if ref.question == UNITS:
            answers = replace(self.interview.answers, units=given.value or "us")
            self.interview = replace(self.interview, answers=answers)
            if self.interview.said():
                self._save()
            return True
        try:
            after = self.interview.change(ref, given) if changing else self.interview.answer(ref, given)
        except NotAllowedError as error:
            self.screen.para(str(error))
            return False
        self._move_to(after, ref)
        return True

    def _settle(self, given: Given) -> bool:
        """What the reader wants to do about answers that do not go together; left as they are, they are kept."""
        found = self._at_odds
        assert found is not None
        place = chosen(found, given.value)
        if place is not None and self.interview.group_closed_by(self._question(place)) is not None:
            self._accept(place, Given(ANOTHER, ANOTHER), "", changing=True)
        elif place is not None:
            self._ask(place, changing=True)
        if found in contradictions(self.book, self.interview.answers):
            self.interview = self.interview.keep(found.memory)
            self._save()
            self.screen.message("at_odds_kept")
        return True

    def _move_to(self, after: Interview, answered: Ref | None = None) -> None:
        """The new state: on disk first, then what it did."""
        self._unsaved = True  # a program stopped before the next line writes them while it closes
        before, self.interview = self.interview, after
        self._doubt = None
        self._save()
        self._changes.show(self.screen, after, answered)
        moved = self.views.moved(before.applies(), after.applies())
        if self.lesson is not None:
            self.lesson.guess(moved)
        for line in moved[:MOVED_SHOWN]:
            self.screen.para(line, hang=2)
        if len(moved) > MOVED_SHOWN:
            self.screen.message("moved_more", count=len(moved) - MOVED_SHOWN)

    def restore(self, interview: Interview) -> None:
        """An earlier state, whole: on disk as well."""
        self._unsaved = True
        self.interview = interview
        self._changes = Changes(interview)
        self._save()

    def _save(self) -> bool:
        """Write the answers; the first failure is said once, and we go on."""
        self._unsaved = not self.store.save(self.interview.answers, self.book)
        if self._unsaved and not self._told_failed:
            self._told_failed = True
            self.screen.message("save_failed", where=self.store.path)
        return not self._unsaved

    def _unsure(self, ref: Ref, question: Question, changing: bool) -> bool:
        """Not sure: where there is a rough answer, the ways on first; then say what happens now."""
        if question.bands and self._ways != ref.key:
            self._ways = ref.key
            show_ways(self.screen, question)
            return False
        if self.interview.group_closed_by(question) is not None:
            self.screen.message("unsure_no_more")
            return self._accept(ref, Given(THAT_IS_ALL, THAT_IS_ALL), "", changing)
        if question.not_sure.how == "refused":
            self.screen.para(question.not_sure.say or self.screen.text("unsure_refused"))
            return False
        self.screen.para(unsure_text(self.screen, question, self.interview.answers.units))
        given = Given("us", "us") if ref.question == UNITS else NOT_SURE
        return self._accept(ref, given, "", changing)

    # ------------------------------------------------------------ commands

    def do(self, said: Command, ref: Ref | None, question: Question | None, changing: bool = False) -> bool:
        """Do a command. True when another question is to be asked now."""
        if said.name == "save":
            raise LeaveError
        if said.name == "next" and self.store.private:
            raise _NextError
        if said.name == "next":
            self.screen.message("next_elsewhere")
        elif said.name == "tractor":
            self.ending.about_the_tractor()
        elif said.name == "help":
            self.screen.para(self.screen.text("help"), hang=2)
        elif said.name == "words":
            show_words(self.screen, self.book, said.rest)
        elif said.name == "so_far":
            self.screen.blank()
            self.show_profile()
        elif said.name == "answers":
            self.listed = show_answers(self.screen, self.interview)
        elif said.name in ("change", "remove", "add", "units"):
            return self.elsewhere(said)
        elif said.name in ENDING:
            if question is None:
                self.ending.command(said)
            else:
                self.screen.message("what_if_later")
        elif said.name in LESSONS:
            return self._in_class(said, question)
        elif said.name == "back":
            return self._back(changing)
        elif question is None or ref is None:
            self.screen.message("end_unknown")
            return False
        elif said.name == "unsure":
            return self._unsure(ref, question, changing)
        elif said.name == "why":
            show_why(self.screen, self.book, question)
        elif said.name == "how":
            show_how(self.screen, self.book, question)
        self._again(question)
        return False

    def _in_class(self, said: Command, question: Question | None) -> bool:
        """A command of the class. True when the plan is another one now."""
        if said.name == "steps":
            (self.lesson or Lesson(self)).steps(said.rest)
        elif self.lesson is None:
            self.screen.message("class_elsewhere")
        elif said.name == "note":
            self.lesson.note(question)
        elif said.name == "guess":
            self.lesson.switch()
        elif said.name == "examples":
            return self.lesson.examples(said)
        else:
            self.lesson.pairs(said)
        self._again(question)
        return False

    def _again(self, question: Question | None) -> None:
        """After a command: the question once more, in one line."""
        if question is not None:
            self.screen.blank()
            self.screen.para(question.ask, strong=True)

    def _back(self, changing: bool) -> bool:
        if changing:
            self.screen.message("unchanged")
            return True
        found = self.interview.back()
        if found is None:
            self.screen.message("back_none")
            return False
        self._item = None
        self._changes.dropped(found[1])
        self._move_to(found[0])
        return True

    def elsewhere(self, said: Command) -> bool:
        """Commands that change something other than the question at hand."""
        if said.name == "units":
            self._ask(Ref(UNITS))
            return True
        if said.name == "change":
            ref = numbered(self.listed or places(self.interview), said.rest)
            if ref is None or self.interview.given(ref) is None:
                self.screen.message("change_unknown" if ref is None else "change_gone", number=said.rest)
                return False
            self._ask(ref, changing=True)
            return True
        if said.name == "remove":
            item = item_named(self.interview, said.rest)
            if item is None:
                self.screen.message("remove_unknown")
                return False
            kind = self.interview.kind(item)
            self.screen.message("removed", what=item if kind is None else kind.name)
            self._changes.removed(item)
            self._move_to(self.interview.remove_item(item))
            return True
        try:
            self._move_to(self.interview.add_item())
        except NotAllowedError as error:
            self.screen.para(str(error))
            return False
        return True
