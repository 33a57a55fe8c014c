"""The class pack: a card for each recorded buyer, every pair without its solution, the key from a fresh run."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest

from firstfurrow import __version__
from firstfurrow.advice.profile import Profile
from firstfurrow.asking.answers import NOT_SURE, Answers, Item
from firstfurrow.asking.resolve import build, resolve
from firstfurrow.asking.said import said
from firstfurrow.asking.setting import UNSURE, with_answers
from firstfurrow.asking.typed import Understood, understand
from firstfurrow.book.model import Book
from firstfurrow.book.teaching import TeachingPair
from firstfurrow.pages import profile_of
from firstfurrow.report.blocks import FillIn, Heading, Paragraph, Part, Table
from firstfurrow.report.sheets.class_pack import TASKS, Card, class_parts
from firstfurrow.report.sheets.deciding import entries
from firstfurrow.report.sheets.forms import in_form
from firstfurrow.talk.recordings import shipped

pytestmark = pytest.mark.xdist_group("class_pack")  # one worker makes the pack


@pytest.fixture(scope="module")
def answers(book: Book) -> dict[str, Answers]:
    return {recording.name: recording.answers(book) for recording in shipped()}


@pytest.fixture(scope="module")
def pack(book: Book, answers: dict[str, Answers]) -> dict[str, Part]:
    cards = [Card(name, given, f"Story of {name}.") for name, given in answers.items()]
    return {part.name: part for part in class_parts(book, cards, partial(profile_of, book))}


@pytest.fixture(scope="module")
def fresh(book: Book, answers: dict[str, Answers]) -> dict[str, Profile]:
    return {name: profile_of(book, given) for name, given in answers.items()}


def below(part: Part, title: str) -> list[object]:
    """The blocks under a heading of level 3, up to the next one."""
    start = next(n for n, b in enumerate(part.document) if isinstance(b, Heading) and b.text.endswith(title))
    rest = part.document[start + 1 :]
    end = next((n for n, block in enumerate(rest) if isinstance(block, Heading)), len(rest))
    return list(rest[:end])


def test_the_key_comes_last_and_every_card_stands_apart(pack: dict[str, Part], answers: dict[str, Answers]) -> None:
    cards = [f"card-{name}" for name in answers]
    assert list(pack) == ["class", *cards, "card-pairs", "card-room", "key", "key-pairs"]


def test_a_card_tells_every_answer_and_asks_every_task(
    book: Book, pack: dict[str, Part], answers: dict[str, Answers]
) -> None:
    for name, given in answers.items():
        card = pack[f"card-{name}"].document
        texts = [block.text for block in card if isinstance(block, Paragraph)]
        assert f"Story of {name}." in texts
        assert set(given.notes) <= set(texts)  # they say that it is invented
        (table,) = [block for block in card if isinstance(block, Table)]
        lines = [line for line in said(book, given) if line.key != "implements_complete"]
        assert [row[1] for row in table.rows] == [line.answer for line in lines]
        tasks = [block for block in card if isinstance(block, FillIn)]
        assert len(tasks) == len(TASKS)
        assert all(task.lines for task in tasks)


def test_every_pair_is_there_without_its_solution(book: Book, pack: dict[str, Part]) -> None:
    cards = [block for block in pack["card-pairs"].document if isinstance(block, FillIn)]
    assert [card.ask for card in cards] == [pair.title for pair in book.teaching.pairs]
    handed_out = in_form([part for name, part in pack.items() if not name.startswith("key")], "text")
    for pair, card in zip(book.teaching.pairs, cards, strict=True):
        assert [blank.lead for blank in card.blanks] == [f"{book.requirements[id_].title}:" for id_ in pair.look_at]
        assert not any(blank.written for blank in card.blanks)
        assert "Before:" in card.lead
        assert pair.say[:40] not in " ".join(handed_out.split())


def test_the_key_of_a_card_says_what_decides_now(pack: dict[str, Part], fresh: dict[str, Profile]) -> None:
    for profile in fresh.values():
        assert profile.scenario is not None
        tables = [block for block in below(pack["key"], profile.scenario) if isinstance(block, Table)]
        assert list(tables[0].rows) == [(e.title, e.shown, e.because) for e in entries(profile)[:5]]
        assert entries(profile)
        for refusal in profile.refusals:
            assert refusal.caution in str(below(pack["key"], profile.scenario))


def other_plan(book: Book, given: Answers, pair: TeachingPair) -> Answers:
    """The answers with the one of the pair instead, put into them by hand."""
    item_id, dot, question_id = pair.question.rpartition(".")
    if not dot:
        return with_answers(book, given, [f"{pair.question}={pair.other}"])
    found = next(item for item in given.items if item.id == item_id)
    kind = book.kinds[found.given["kind"].value]
    question = book.question(question_id)
    assert question is not None
    asked = resolve(book, question, given.units, kind, build(kind, found.given.get("variant", NOT_SURE)))
    read = understand(asked, pair.other, given.units, kind, book)
    new = NOT_SURE if pair.other in UNSURE else read.given if isinstance(read, Understood) else None
    assert new is not None, pair.id
    changed = Item(item_id, {**found.given, question_id: new})
    return replace(given, items=tuple(changed if item.id == item_id else item for item in given.items))


def test_the_key_of_every_pair_agrees_with_a_fresh_run(
    book: Book, pack: dict[str, Part], answers: dict[str, Answers], fresh: dict[str, Profile]
) -> None:
    for pair in book.teaching.pairs:
        blocks = below(pack["key-pairs"], pair.title)
        (table,) = [block for block in blocks if isinstance(block, Table)]
        plans = (fresh[pair.recording], profile_of(book, other_plan(book, answers[pair.recording], pair)))
        assert [row[0] for row in table.rows] == [book.requirements[id_].title for id_ in pair.look_at]
        for id_, row in zip(pair.look_at, table.rows, strict=True):
            for profile, cell in zip(plans, row[1:], strict=True):
                outcome = profile.outcomes[id_]
                stated = [one.shown for one in (outcome.sure, outcome.with_later) if one is not None]
                assert all(shown in cell for shown in stated), pair.id
                assert stated or cell == "nothing"
            assert row[1] != row[2]  # it moves, or it were no pair
        assert any(isinstance(block, Paragraph) and block.text == pair.say for block in blocks)


def test_every_note_for_the_room_is_there(book: Book, pack: dict[str, Part]) -> None:
    (table,) = [block for block in pack["card-room"].document if isinstance(block, Table)]
    assert [row[1:] for row in table.rows] == [(n.wrong, n.because, n.room) for n in book.teaching.notes.values()]


def test_it_says_who_made_it_and_that_all_of_it_is_invented(book: Book, pack: dict[str, Part]) -> None:
    texts = " ".join(block.text for block in pack["class"].document if isinstance(block, Paragraph))
    assert "invented" in texts
    assert __version__ in texts
    assert f"{book.id}, version {book.version}" in texts
    assert "People die of these." in texts


def test_a_pair_that_an_edited_book_spoils_is_named_and_left_out(book: Book, answers: dict[str, Answers]) -> None:
    pair = replace(book.teaching.pairs[0], id="spoiled", other="no such answer at all")
    spoiled = replace(book, teaching=replace(book.teaching, pairs=(pair, *book.teaching.pairs[1:2])))
    name = pair.recording
    made = class_parts(spoiled, [Card(name, answers[name])], partial(profile_of, spoiled))
    parts = {part.name: part for part in made}
    assert any(isinstance(b, Paragraph) and "left out: spoiled" in b.text for b in parts["class"].document)
    assert len([b for b in parts["card-pairs"].document if isinstance(b, FillIn)]) == 1


def test_it_prints_in_every_form(pack: dict[str, Part]) -> None:
    parts = tuple(pack.values())
    assert max(map(len, in_form(parts, "text").splitlines())) <= 80
    page = in_form(parts, "html")
    assert page.count('class="report apart"') == len(pack) - 1
    assert in_form(parts, "markdown").count('<a id="key-pairs-') == len(pack["key-pairs"].document)
