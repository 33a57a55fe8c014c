"""One thing said otherwise than in an answers file: read as a typed line is, refused in one sentence."""

from __future__ import annotations

import pytest

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.setting import SettingError
from firstfurrow.asking.tried import tried
from firstfurrow.book.model import Book
from firstfurrow.talk.recordings import shipped


@pytest.fixture(scope="module")
def plan(book: Book) -> Answers:
    return next(r for r in shipped() if r.name == "garden_on_clay").answers(book)


def test_another_answer_to_a_question(book: Book, plan: Answers) -> None:
    found = tried(book, plan, "soil=sandy")
    assert (plan.given["soil"].value, found.answers.given["soil"].value) == ("clay", "sand")
    assert found.before != found.after
    assert found.ask.endswith("?")
    assert {k: v for k, v in found.answers.given.items() if k != "soil"} == {
        k: v for k, v in plan.given.items() if k != "soil"
    }


def test_another_answer_for_one_implement(book: Book, plan: Answers) -> None:
    item = plan.items[0].id
    found = tried(book, plan, f"{item}.size=not sure")
    assert found.answers.items[0].given["size"].unsure
    assert found.answers.items[1:] == plan.items[1:]


@pytest.mark.parametrize("by", ["id", "name"])
def test_one_implement_less(book: Book, plan: Answers, by: str) -> None:
    item = plan.items[0]
    word = item.id if by == "id" else book.kinds[item.given["kind"].value].name
    found = tried(book, plan, f"without={word}")
    assert [i.id for i in found.answers.items] == [i.id for i in plan.items[1:]]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("soil", "Write QUESTION=ANSWER"), ("soil=", "Write QUESTION=ANSWER"), ("=clay", "is not asked in this plan"),
        ("soyl=clay", "Do you mean soil?"), ("soil=clay", "is what the plan says already"),
        ("soil=cheese", "soil:"), ("i99.size=1.5 m", "is not asked in this plan"),
        ("without=i99", "is not one implement of this plan. There are: i1"),
    ],
)  # fmt: skip
def test_what_cannot_be_tried_is_refused_in_one_sentence(book: Book, plan: Answers, text: str, says: str) -> None:
    with pytest.raises(SettingError, match=says.replace("?", r"\?")) as error:
        tried(book, plan, text)
    assert "\n" not in str(error.value)
