"""One line edited in a real terminal, with prompt_toolkit. Importing this takes long: only when a line is asked for."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterable
from threading import Thread

from prompt_toolkit import PromptSession
from prompt_toolkit.application import get_app
from prompt_toolkit.completion import CompleteEvent, Completer, Completion
from prompt_toolkit.document import Document
from prompt_toolkit.filters import Condition, is_done, shift_selection_mode
from prompt_toolkit.history import InMemoryHistory
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.keys import Keys
from prompt_toolkit.layout import ConditionalContainer, FormattedTextControl, HSplit, Window
from prompt_toolkit.output import create_output
from prompt_toolkit.output.vt100 import Vt100_Output
from prompt_toolkit.styles import Style

from firstfurrow.talk.foot import foot
from firstfurrow.talk.front import NO_HINTS, Hints

LOWEST = 8  # rows; a lower window has no room for a line at its foot
MENU = 6  # rows for the line and what Tab offers under it
LONGEST = 500  # characters; more than any answer has, so that its refusal is still told
_PART = re.compile(r".*(?:[,;+&]|\band\b)\s*", re.IGNORECASE)  # what stands before the part that is being typed


class LineEditor:
    """One session for all questions; the lines typed before are kept apart by question."""

    def __init__(self, colour: bool, idle: Callable[[], None] | None = None) -> None:
        self._hints = NO_HINTS
        self._idle = idle
        self._histories: dict[str, InMemoryHistory] = {}
        output = create_output(sys.stdout)
        if isinstance(output, Vt100_Output):
            # Never ask the terminal where its cursor is: some do not answer, and the next question would wait for it.
            output.enable_cpr = False
        self._session: PromptSession[str] = PromptSession(
            output=output,
            completer=_Words(self),
            complete_while_typing=False,
            enable_suspend=True,
            key_bindings=_keys(),
            style=None if colour else Style.from_dict({"bottom-toolbar": "noreverse"}),
        )
        # The toolbar of the library waits for the place of the cursor, so this is one of our own.
        shown = Condition(lambda: bool(self._foot()) and get_app().output.get_size().rows >= LOWEST)
        line = Window(
            FormattedTextControl(self._foot, style="class:bottom-toolbar.text"),
            style="class:bottom-toolbar", height=1, dont_extend_height=True,
        )  # fmt: skip
        outer = self._session.layout.container
        assert isinstance(outer, HSplit)
        outer.children.append(ConditionalContainer(line, filter=shown & ~is_done))
        self._session.app.after_render += self._rendered

    @property
    def words(self) -> tuple[str, ...]:
        """What the line may be completed to."""
        return self._hints.words

    def ask(self, prompt: str, hints: Hints) -> str:
        """One line as it was typed.

        Raises
        ------
        EOFError
            At the end of the input.
        KeyboardInterrupt
            When the key that stops a program was pressed.
        """
        self._hints = hints
        session = self._session
        session.history = session.default_buffer.history = self._histories.setdefault(hints.place, InMemoryHistory())
        session.reserve_space_for_menu = max(1, min(MENU, session.app.output.get_size().rows - 2))
        return session.prompt(prompt, default=hints.default, pre_run=self._mark)

    def _mark(self) -> None:
        """What stands in the line is marked: typing takes its place, an arrow key or backspace begins to mend it."""
        buffer = self._session.default_buffer
        if not buffer.text:
            return
        buffer.cursor_position = 0
        buffer.start_selection()
        if buffer.selection_state is not None:
            buffer.selection_state.enter_shift_mode()
        buffer.cursor_position = len(buffer.text)

    def _rendered(self, app: object) -> None:
        """The reader has something to read: time for what would delay the answers to come."""
        idle, self._idle = self._idle, None
        if idle is not None:
            Thread(target=idle, daemon=True).start()

    def _foot(self) -> str:
        return foot(self._hints.bottom, get_app().output.get_size().columns - 1)


class _Words(Completer):
    """Completes the line, or the part behind its last comma: by the start of a name, else by any word in it."""

    def __init__(self, editor: LineEditor) -> None:
        self._editor = editor

    def get_completions(self, document: Document, complete_event: CompleteEvent) -> Iterable[Completion]:
        """The words that go on with what is typed."""
        typed = document.text_before_cursor.lstrip()
        found = _PART.match(typed)
        for part in (typed, typed[found.end() :] if found is not None else ""):
            wanted = part.casefold()
            words = [word for word in self._editor.words if word.casefold().startswith(wanted)]
            words = words or [word for word in self._editor.words if f" {wanted}" in f" {word.casefold()}"]
            if words and (part or not typed):
                return [Completion(word, -len(part)) for word in words]
        return []


def _keys() -> KeyBindings:
    """The keys that do something else than usual."""
    keys = KeyBindings()

    @keys.add("enter")
    def _send(event: KeyPressEvent) -> None:
        event.current_buffer.exit_selection()
        event.current_buffer.validate_and_handle()

    @keys.add("backspace", filter=shift_selection_mode)
    def _mend(event: KeyPressEvent) -> None:
        buffer = event.current_buffer
        start, end = buffer.document.selection_range()
        if end - start < len(buffer.text):  # a part that the reader marked himself
            buffer.cut_selection()
        else:
            buffer.exit_selection()
            buffer.delete_before_cursor()

    @keys.add("delete", filter=shift_selection_mode)
    def _clear(event: KeyPressEvent) -> None:
        event.current_buffer.cut_selection()

    @keys.add(Keys.BracketedPaste)
    def _paste(event: KeyPressEvent) -> None:
        """Pasted lines become one line, to be looked at before it is sent."""
        buffer = event.current_buffer
        if buffer.selection_state is not None:
            buffer.cut_selection()
        buffer.insert_text(" ".join(event.data[: 4 * LONGEST].split())[: max(0, LONGEST - len(buffer.text))])

    @keys.add(Keys.Any, filter=Condition(lambda: len(get_app().current_buffer.text) >= LONGEST))
    def _enough(event: KeyPressEvent) -> None:
        """Text that rushes in without end would take seconds to draw."""

    return keys
