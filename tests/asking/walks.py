"""Random histories of an interview: answers typed as people type them, steps back, changes, items taken away."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import strategies as st

from firstfurrow.asking.answers import NOT_SURE, Answers, Given
from firstfurrow.asking.interview import Interview, NotAllowedError
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.typed import Problem, understand
from firstfurrow.book.model import Book, Question

State = tuple[Answers, frozenset[str]]  # an interview is Interview(book, *state)

NUMBERS = {
    "area": ("14 acre", "3", "0.5 ha", "2 1/2 acres", "6000 m2"),
    "slope": ("5 %", "30 %", "1:4", "8 degrees", "25"),
    "length": ("12 ft", "5 ft 6", "3.2 m", "150 in", "4"),
    "mass": ("250 kg", "600", "1,200 lb", "2 tonne"),
    "time": ("3 h", "90 min", "6"),
    "altitude": ("400 m", "1300 ft"),
    "power": ("30 hp", "22 kW"),
    "depth": ("6 in", "20 cm"),
}


def typed(draw: st.DrawFn, question: Question) -> str:
    """A line that somebody might type at this question."""
    if question.type == "quantity":
        return draw(st.sampled_from(NUMBERS[question.dimension or ""]))
    if question.type == "count":
        return str(draw(st.integers(1, 5)))
    if question.type == "text":
        return draw(st.sampled_from(("a narrow bridge", "no: nothing", "# 'quoted'")))
    if question.type == "several":
        return " ".join(
            map(str, draw(st.sets(st.integers(1, max(1, len(question.choices) - 1)), min_size=1, max_size=3)))
        )
    return str(draw(st.integers(1, len(question.choices))))


def an_answer(draw: st.DrawFn, interview: Interview, ref: Ref, book: Book) -> Given:
    """An answer that the question takes."""
    question = interview.question(ref)
    if question.not_sure.how != "refused" and draw(st.integers(0, 5)) == 0:
        return NOT_SURE
    found = understand(question, typed(draw, question), interview.answers.units, interview.kind(ref.item), book)
    return NOT_SURE if isinstance(found, Problem) else found.given


def one_step(draw: st.DrawFn, interview: Interview, book: Book) -> Interview:
    """The interview after one more step of any sort."""
    step = draw(st.sampled_from(("answer", "answer", "answer", "answer", "back", "change", "remove", "add")))
    ref = interview.next()
    said = interview.said()
    try:
        if step == "answer" and ref is not None:
            return interview.answer(ref, an_answer(draw, interview, ref, book))
        if step == "back" and (found := interview.back()) is not None:
            return found[0]
        if step == "change" and said:
            place = draw(st.sampled_from(said)).ref
            return interview.change(place, an_answer(draw, interview, place, book))
        if step == "remove" and interview.answers.items:
            return interview.remove_item(draw(st.sampled_from(interview.answers.items)).id)
        if step == "add":
            return interview.add_item()
    except NotAllowedError:
        return interview
    return interview


@st.composite
def histories(draw: st.DrawFn, book_of: Callable[[], Book], most: int = 25) -> State:
    """Where an interview stands after a random history; without the book, which makes no readable report."""
    book = book_of()
    interview = Interview(book)
    for _ in range(draw(st.integers(0, most))):
        interview = one_step(draw, interview, book)
    return interview.answers, interview.suggested
