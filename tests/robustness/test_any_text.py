"""Any text at all, as hypothesis finds it: typed at a question, in a box, a list, a file; taken, or one sentence."""

from __future__ import annotations

from typing import Any

import pytest
from breaking import NASTY_WORDS, as_yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from inputs import LIST, OFFER, PLAN, TYPED
from watched import UNSEEN

from firstfurrow.advice.measuring import find
from firstfurrow.advice.offers.reading import read_offers
from firstfurrow.advice.offers.walk_around import OfferBoxes
from firstfurrow.asking.answers import Answers
from firstfurrow.asking.answers_file import AnswersError, read
from firstfurrow.asking.answers_text import write
from firstfurrow.book.model import Book
from firstfurrow.book.yaml_strict import parse_marked
from firstfurrow.quantities import DIMENSIONS, QuantityError, parse
from firstfurrow.shown import Shown
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.measure import Measure
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore
from firstfurrow.talk.walk_around import WalkAround

# The same examples each time, and nothing is kept on disk.
FIXED: dict[str, Any] = {
    "derandomize": True,
    "database": None,
    "deadline": None,
    "suppress_health_check": list(HealthCheck),
}
ANY_SIGN = st.characters(codec=None, exclude_categories=())  # halves of a sign too
WORDS = st.one_of(
    st.sampled_from(NASTY_WORDS), st.text(ANY_SIGN, max_size=20), st.text("0123456789 .,/'\"%-ftincmkg½", max_size=12)
)
LINES = st.lists(WORDS, max_size=12)
NUMBERS = st.one_of(st.integers(), st.floats(allow_nan=False, allow_infinity=False))
TREES = st.recursive(
    st.none() | st.booleans() | NUMBERS | WORDS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3),
    max_leaves=6,
)


def harmless(text: str) -> bool:
    return UNSEEN.search(text) is None


@settings(max_examples=60, **FIXED)
@given(lines=LINES, begun=st.integers(0, len(TYPED)), setting=st.sampled_from(["home", "floor", "class"]))
def test_any_lines_are_a_talk(book: Book, lines: list[str], begun: int, setting: str) -> None:
    front = ScriptFront([*TYPED[1:begun], *lines])
    talk = Conversation(book, front, RehearsalStore(), Answers(), Shown(book, lambda: 80), setting)
    assert talk.run() in (0, 130)
    assert harmless(front.screen)
    assert read(write(talk.interview.answers, book), "a.yaml", book).given == talk.interview.answers.given


@settings(max_examples=100, **FIXED)
@given(lines=LINES, station=st.sampled_from(["hitch", "shaft", "drawbar", "slope", "area"]))
def test_any_lines_are_measured_or_refused(book: Book, lines: list[str], station: str) -> None:
    front = ScriptFront(lines)
    assert Measure(book, front, lambda name, readings: find(book, name, readings), "us").run(station) in (0, 130)
    assert harmless(front.screen)


@settings(max_examples=100, **FIXED)
@given(name=WORDS, lines=LINES)
def test_any_lines_are_a_walk_around_a_tractor(book: Book, name: str, lines: list[str]) -> None:
    front = ScriptFront([name, *lines])
    text = WalkAround(book, front, "us", OfferBoxes(book, "us")).run()
    assert harmless(front.screen)
    if text is not None:
        assert read_offers(book, text, "t.yaml").problems == ()


@pytest.mark.parametrize("dimension", sorted(DIMENSIONS))
@settings(max_examples=40, **FIXED)
@given(text=WORDS)
def test_any_text_is_a_quantity_or_a_sentence(dimension: str, text: str) -> None:
    try:
        found: float | str = abs(parse(text, dimension).working)
    except QuantityError as error:
        found = str(error)
    assert found.endswith((".", "?")) if isinstance(found, str) else found < float("inf")


@settings(max_examples=120, **FIXED)
@given(st.data())
def test_any_data_in_place_of_an_answer_is_taken_or_refused_with_its_line(book: Book, data: st.DataObject) -> None:
    plan: dict[str, Any] = parse_marked(PLAN, "a.yaml")[0]
    parts = (plan, plan["answers"], plan["answers"]["implements"][0], plan["kept"][0], plan["aside"])
    around = parts[data.draw(st.integers(0, len(parts) - 1))]
    around[data.draw(st.sampled_from([*around]) | WORDS)] = data.draw(TREES)
    said = ""
    try:
        read(_text(plan), "a.yaml", book)
    except AnswersError as error:
        said = str(error)
    assert not said or (said.startswith("a.yaml:") and "\n" not in said)


@settings(max_examples=120, **FIXED)
@given(st.data())
def test_any_data_in_an_offer_is_taken_or_refused_with_its_line(book: Book, data: st.DataObject) -> None:
    offer: dict[str, Any] = parse_marked(OFFER, "o.yaml")[0]
    around = offer["offer"] if data.draw(st.integers(0, 2)) else offer
    around[data.draw(st.sampled_from([*around, *book.offer_keys]) | WORDS)] = data.draw(TREES)
    found = read_offers(book, _text(offer), "o.yaml")
    assert bool(found.offers) != bool(found.problems)
    assert all(
        problem.startswith("o.yaml:") and harmless(problem) and "\n" not in problem for problem in found.problems
    )


@settings(max_examples=120, **FIXED)
@given(rows=st.lists(st.lists(WORDS, max_size=6), max_size=4), sign=st.sampled_from(";,\t"), quoted=st.booleans())
def test_any_cells_are_a_list_of_offers_or_problems_with_their_row(
    book: Book, rows: list[list[str]], sign: str, quoted: bool
) -> None:
    written = [[f'"{cell}"' if quoted else cell for cell in row] for row in rows]
    text = LIST.replace(";", sign) + "\n".join(sign.join(row) for row in written)
    found = read_offers(book, text, "l.csv")
    assert all(
        problem.startswith("l.csv: row ") and harmless(problem) and "\n" not in problem for problem in found.problems
    )
    assert found.offers or found.problems


def _text(data: Any) -> str:
    """YAML with signs that no file of text can hold left out."""
    return as_yaml(data).encode("utf-8", "ignore").decode("utf-8")
