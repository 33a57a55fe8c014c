"""What an answer did to the other answers: which no longer count, which count again; each said once, in one line."""

from __future__ import annotations

from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import Ref, ref_of
from firstfurrow.talk.screen import Screen
from firstfurrow.talk.showing import short_name


class Changes:
    """Remembers which answers the reader believes to count, so that going back and forth says nothing needless."""

    def __init__(self, interview: Interview) -> None:
        self._counted = _counting(interview)

    def dropped(self, ref: Ref) -> None:
        """The reader took this answer back himself."""
        self._counted.discard(ref.key)

    def removed(self, item: str) -> None:
        """The reader took this item off the list himself."""
        self._counted = {key for key in self._counted if ref_of(key).item != item}

    def show(self, screen: Screen, after: Interview, answered: Ref | None) -> None:
        """Say what changed beside the answered place. While a place waits to be answered again, nothing is settled."""
        if answered is not None:
            self._counted.add(answered.key)
        waits = after.next()
        if waits is not None and after.suggestion(waits) is not None:
            return
        counting = {step.ref.key: None for step in after.said()}  # in asking order
        gone = [key for key in after.answers.aside if key in self._counted and key not in after.suggested]
        back = [key for key in counting if key not in self._counted]
        back = [key for key in back if after.group_closed_by(after.raw_question(ref_of(key))) is None]
        if gone:
            screen.message("moved_aside", what=", ".join(short_name(after, key) for key in gone))
        if back:
            screen.message("moved_back", what=", ".join(short_name(after, key) for key in back))
        self._counted = set(counting)


def _counting(interview: Interview) -> set[str]:
    return {step.ref.key for step in interview.said()}
