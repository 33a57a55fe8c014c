"""Answers given for an older edition of the book: what this edition knows is carried over, the rest is named."""

from __future__ import annotations

from dataclasses import replace

import pytest
from talking import Plain

from firstfurrow.asking.answers_file import AnswersError, read
from firstfurrow.asking.answers_text import write
from firstfurrow.book.load import load
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore

SHIPPED = load()
BOOK = replace(SHIPPED, version=SHIPPED.version + 1)  # the next edition
HEAD = "format: firstfurrow-answers/1\nbook: {id: firstfurrow, version: 1}\nunits: us\nanswers:\n"
OLD = HEAD + """\
  soil: peat
  surface: firm
  moon_phase: full
  slope_up: 12 %
  implements:
    - {item: i1, kind: rotary_cutter_light, when: now, size: 5 ft, colour: red}
    - {item: i2, kind: steam_plough, when: now, size: 5 ft}
    - {item: i3, kind: box_blade, when: someday}
aside: {old_question: 3, i1.load: 200 kg}
"""


def test_what_is_still_known_is_carried_over_and_the_rest_is_named() -> None:
    answers = read(OLD, "old.yaml", BOOK)
    assert [item.given["kind"].value for item in answers.items] == ["rotary_cutter_light", "box_blade"]
    assert answers.given["surface"].value == "firm"
    assert answers.given["slope_up"].value == pytest.approx(12)
    assert set(answers.given) == {"surface", "slope_up"}
    assert "when" not in answers.items[1].given
    said = " ".join(answers.carried)
    for gone in ("soil was peat", "moon_phase was full", "colour was red", "steam_plough", "someday"):
        assert gone in said
    assert len(answers.carried) == 5


def test_the_same_file_for_this_very_edition_is_refused_at_its_first_fault() -> None:
    with pytest.raises(AnswersError, match=r"old.yaml:\d+: "):
        read(OLD, "old.yaml", SHIPPED)


def test_a_newer_edition_is_refused() -> None:
    with pytest.raises(AnswersError, match="edition 9"):
        read(OLD.replace("version: 1", "version: 9"), "new.yaml", BOOK)


def test_damage_is_damage_in_an_older_file_too() -> None:
    with pytest.raises(AnswersError, match="item id"):
        read(HEAD + "  implements:\n    - {kind: box_blade}\n", "old.yaml", BOOK)


def test_what_was_carried_is_told_once_and_written_for_this_edition() -> None:
    answers = read(OLD, "old.yaml", BOOK)
    front = ScriptFront(["save"], 80)
    talk = Conversation(BOOK, front, RehearsalStore(), answers, Plain(), "home", False, resumed=True)
    talk.run()
    assert "another edition of the book" in " ".join(front.screen.split())
    assert "steam_plough" in front.screen
    again = read(write(talk.interview.answers, BOOK), "new.yaml", BOOK)
    assert again.carried == ()
    assert [item.given["kind"].value for item in again.items] == ["rotary_cutter_light", "box_blade"]
