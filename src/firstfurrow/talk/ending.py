"""The end of a conversation: look it over, the result, then what if, undo and named plans."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from firstfurrow.talk import what_if
from firstfurrow.talk.commands import Command, command
from firstfurrow.talk.front import LeaveError
from firstfurrow.talk.hints import AT_THE_END, LOOKING_OVER, at_choices, at_end
from firstfurrow.talk.review import show_answers
from firstfurrow.talk.what_if import BOTH, KEEP, UNDO, WhatIf

if TYPE_CHECKING:
    from firstfurrow.asking.interview import Interview
    from firstfurrow.talk.conversation import Conversation

PROMPT = "> "
WITHOUT = ("without ", "no ", "remove ")  # what if it were not on the list
FLOOR = "floor"
ONE_MORE = frozenset({"add", "one more", "another", "add implement", "add an implement"})


class Ending:
    """What comes after the last question of one conversation."""

    def __init__(self, talk: Conversation, *, looked_over: bool) -> None:
        self.talk = talk
        self.screen = talk.screen
        self._looked_over = looked_over
        self._what_if = WhatIf()

    def finish(self) -> bool:
        """True when the reader has had enough, False when there is something to ask again."""
        self.screen.blank()
        if self._what_if.before is not None:
            self._tried()
        elif not self._look_over():
            return False
        else:
            self._result()
        self.talk.section = ""
        while self._complete():
            self.screen.blank()
            self.screen.message("end_hint" if self.talk.tractor is None else "end_hint_tractor")
            line = self.talk.front.ask(PROMPT, at_end(self.talk.book, AT_THE_END))
            said = command(line)
            if said is None and line:
                self.screen.message("end_unknown")
            elif said is None:
                return True
            else:
                self.talk.do(said, None, None)
        return False

    def _complete(self) -> bool:
        return self.talk.interview.next() is None and self.talk.contradiction() is None

    def _look_over(self) -> bool:
        """Once, before the first result: all answers, to be mended in place. False when a change opened a question."""
        if self._looked_over:
            return True
        self._looked_over = True
        self.screen.message("look_over")
        self.talk.listed = show_answers(self.screen, self.talk.interview, hint=False)
        while self._complete():
            self.screen.message("look_over_hint")
            line = self.talk.front.ask(PROMPT, at_end(self.talk.book, LOOKING_OVER))
            said = command(line)
            if said is None and not line:
                return True
            if said is None:
                self.screen.message("look_over_unknown")
            else:
                self.talk.do(said, None, None)
        return False

    def _result(self) -> None:
        tractor = self.talk.tractor
        if tractor is not None and not tractor.asked:
            tractor.fill(self.talk.front, self.talk.interview.applies())
        self.screen.message("thanks" if tractor is None else "thanks_tractor")
        self.screen.blank()
        self.talk.show_profile()
        if self.talk.setting == FLOOR:  # nothing is kept there, so what is taken along is shown at once
            self.screen.blank()
            self.show_sheet()

    def show_sheet(self) -> None:
        """The sheet to take to the yard."""
        self.screen.raw(self.talk.views.sheet(self.talk.interview.applies()))

    def _print(self) -> None:
        """The whole report as a page beside the answers, to be opened and printed."""
        where = self.talk.store.save_page(self.talk.views.report(self.talk.interview.applies()))
        if where is None:
            self.screen.message("print_failed")
        else:
            self.screen.message("print_private" if self.talk.store.private else "print_written")
            self.screen.raw(f"  {where}")

    def about_the_tractor(self) -> None:
        """Ask for what is not known of it, then the verdicts again."""
        if self.talk.tractor is None:
            self.screen.message("tractor_elsewhere")
            return
        self.talk.tractor.fill(self.talk.front, self.talk.interview.applies())
        self.screen.blank()
        self.talk.show_profile()

    # ------------------------------------------------------------- what if

    def command(self, said: Command) -> None:
        """One of the commands that work once there is a result."""
        if said.name == "what_if":
            self._begin(said.rest)
        elif said.name == "sheet":
            self.show_sheet()
        elif said.name == "print":
            self._print()
        elif said.name == "undo":
            self._undo()
        elif said.name == "plans":
            names = "; ".join(self._what_if.plans)
            self.screen.message("plans" if names else "plans_none", names=names)
        else:
            self._other_plan(said)

    def _begin(self, rest: str) -> None:
        """Try one change: an answer by its number, an implement taken off the list, or one more."""
        word = rest.strip(" .")
        if not word:
            self.talk.listed = show_answers(self.screen, self.talk.interview, hint=False)
            self.screen.message("what_if_hint")
            return
        before = self.talk.interview
        self._what_if.before = before
        off = next((word[len(lead) :] for lead in WITHOUT if word.startswith(lead)), None)
        if off is not None:
            self.talk.elsewhere(Command("remove", off))
        elif word in ONE_MORE:
            self.talk.elsewhere(Command("add"))
        else:
            self.talk.elsewhere(Command("change", word))
        if self.talk.interview == before:
            self._what_if.before = None
        elif self._complete():
            self._tried()

    def _tried(self) -> None:
        """What the change made of the plan, and what becomes of the change."""
        before, self._what_if.before = self._what_if.before, None
        assert before is not None
        self._show(before, self.screen.text("plan_before"), self.screen.text("plan_after"))
        done = self._what_becomes()
        if done == UNDO:
            self._restore(before)
            return
        self._what_if.past.append(before)
        if done == BOTH:
            self._name_plan(before)
        else:
            self.screen.message("what_if_kept")

    def _show(self, other: Interview, its_name: str, my_name: str) -> None:
        names = (its_name, my_name)
        self.screen.raw(self.talk.views.compared(other.applies(), self.talk.interview.applies(), names))

    def _what_becomes(self) -> str:
        self.screen.message("what_if_ask")
        for number, choice in enumerate(what_if.choices(self.talk.book), 1):
            self.screen.entry(str(number), choice.label)
        hints = at_choices(what_if.choices(self.talk.book), "what_if")
        while True:
            line = self.talk.front.ask(PROMPT, hints)
            said = command(line)
            if said is not None and said.name == "save":
                raise LeaveError
            if not line:
                return KEEP
            if said is not None and said.name in ("back", "undo"):
                return UNDO
            done = what_if.chosen(self.talk.book, self.screen, line) if said is None else None
            if done is not None:
                return done
            self.screen.message("what_if_choose")

    def _name_plan(self, plan: Interview) -> None:
        """A name for the plan as it was, and a file of its own beside the other."""
        self.screen.message("plan_name")
        line = self.talk.front.ask(PROMPT)
        plans: Mapping[str, Interview] = self._what_if.plans
        name = what_if.name_of(line or self.screen.text("plan_before"), plans)
        self._what_if.plans[name] = plan
        where = self.talk.store.save_beside(name, plan.answers, self.talk.book)
        self.screen.message("plan_kept" if where is None else "plan_kept_in", name=name, where=where)

    def _undo(self) -> None:
        if self._what_if.past:
            self._restore(self._what_if.past.pop())
        else:
            self.screen.message("undo_none")

    def _restore(self, plan: Interview) -> None:
        self.talk.restore(plan)
        self.screen.message("undone")

    def _other_plan(self, said: Command) -> None:
        """Compare with a plan that has a name, or go on with it."""
        name = self._what_if.named(said.rest)
        if name is None:
            self.screen.message("plan_unknown", name=said.rest, names="; ".join(self._what_if.plans) or "-")
            return
        other = self._what_if.plans[name]
        if said.name == "compare":
            self._show(other, name, self.screen.text("plan_now"))
        else:
            self._what_if.past.append(self.talk.interview)
            self._restore(other)
