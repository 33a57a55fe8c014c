"""The laws of the asking, on random histories: nothing is lost, steps can be undone, walks end."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from small_book import BOOK
from walks import State, an_answer, histories

from firstfurrow.asking.answers import Given
from firstfurrow.asking.answers_file import read, write
from firstfurrow.asking.complete import complete, not_asked
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import ref_of
from firstfurrow.book.load import load
from firstfurrow.book.model import Book

SHIPPED = load()


def small() -> Book:
    return BOOK


def shipped() -> Book:
    return SHIPPED


ANOTHER = Given("another", "another")
ANSWERS = st.composite(an_answer)  # made once: to make it costs more than to draw from it
MANY = settings(max_examples=60, deadline=None)
FEW = settings(max_examples=8, deadline=None)


@MANY
@given(histories(small))
def test_back_and_the_same_answer_is_the_same_state(state: State) -> None:
    interview = Interview(BOOK, *state)
    found = interview.back()
    if found is None:
        assert not [step for step in interview.steps() if step.given is not None]
        return
    before, ref = found
    dropped = before.suggestion(ref)
    if dropped is not None:
        assert before.answer(ref, dropped) == interview
        return
    # An item about which nothing was said is closed again.
    again = before.answer(ref, ANOTHER) if before.given(ref) is None else before.add_item()
    if f"i{interview.answers.items_made}" == interview.answers.items[-1].id:
        assert again == interview
    else:  # a later item was taken away in between: its id stays used up, so the new one gets the next
        assert again.answers.given == interview.answers.given
        assert again.answers.items[:-1] == interview.answers.items[:-1]


@MANY
@given(histories(small), st.data())
def test_a_change_and_its_reverse_is_the_same_state(state: State, data: st.DataObject) -> None:
    interview = Interview(BOOK, *state)
    said = interview.said()
    if not said:
        return
    step = data.draw(st.sampled_from(said))
    assert step.given is not None
    new = data.draw(ANSWERS(interview, step.ref, BOOK))
    changed = interview.change(step.ref, new)
    if changed.given(step.ref) is None:  # "another" opens an item and leaves the closing question open
        assert changed.answer(step.ref, step.given).answers.given == interview.answers.given
    else:
        assert changed.change(step.ref, step.given) == interview


@MANY
@given(histories(small))
def test_what_counts_applies_and_nothing_is_in_two_places(state: State) -> None:
    interview = Interview(BOOK, *state)
    answers = interview.answers
    counted = {step.ref.key for step in interview.said()}
    flat = set(answers.given) | {f"{i.id}.{q}" for i in answers.items for q in i.given}
    assert flat == counted
    assert not flat & set(answers.aside)
    assert interview.suggested <= set(answers.aside)
    assert interview.applies().given == answers.given


@MANY
@given(histories(small), st.data())
def test_item_ids_are_never_given_out_twice(state: State, data: st.DataObject) -> None:
    interview = Interview(BOOK, *state)
    ids = [item.id for item in interview.answers.items]
    assert len(ids) == len(set(ids))
    if not ids:
        return
    gone = data.draw(st.sampled_from(ids))
    after = interview.remove_item(gone).add_item()
    assert gone not in [item.id for item in after.answers.items]
    assert not [key for key in after.answers.aside if ref_of(key).item == gone and key in after.suggested]


@MANY
@given(histories(small))
def test_a_file_gives_back_what_was_written(state: State) -> None:
    interview = Interview(BOOK, *state)
    text = write(interview.answers, BOOK)
    again = read(text, "answers.yaml", BOOK)
    assert replace(again, aside={}) == replace(interview.answers, aside={})
    # Aside, the size of an implement that the item no longer is comes back as the text it was.
    assert {k: g.text for k, g in again.aside.items()} == {k: g.text for k, g in interview.answers.aside.items()}
    assert write(read(text, "answers.yaml", BOOK), BOOK) == text


@MANY
@given(histories(small))
def test_what_nobody_asked_is_told_from_what_nobody_knows(state: State) -> None:
    interview = Interview(BOOK, *state)
    open_ = not_asked(BOOK, interview.answers)
    assert len(open_) == interview.left()
    assert not open_ & {step.ref.key for step in interview.said()}  # not even what was answered with not sure
    assert ("gate" in open_) == ("gate" not in interview.answers.given)
    assert not_asked(BOOK, complete(BOOK, interview.answers)) == frozenset()


def finish(interview: Interview, data: st.DataObject, most: int) -> Interview:
    """Answer whatever is asked until nothing is; items are closed after a while."""
    for count in range(most):
        ref = interview.next()
        if ref is None:
            return interview
        question = interview.question(ref)
        given_now = data.draw(ANSWERS(interview, ref, interview.book))
        if interview.group_closed_by(question) is not None and count > most // 3:
            given_now = Given("that_is_all", "that_is_all")
        interview = interview.answer(ref, given_now)
    raise AssertionError(f"not finished after {most} answers, next is {interview.next()}")


@MANY
@given(st.data())
def test_every_walk_of_the_small_book_ends(data: st.DataObject) -> None:
    done = finish(Interview(BOOK, *data.draw(histories(small, most=10))), data, 120)
    assert done.left() == 0
    assert done.back() is not None


@FEW
@given(st.data())
def test_every_walk_of_the_shipped_book_ends(data: st.DataObject) -> None:
    done = finish(Interview(SHIPPED), data, 200)
    assert done.left() == 0
    assert read(write(done.answers, SHIPPED), "answers.yaml", SHIPPED) == done.answers


@FEW
@given(histories(shipped, most=40))
def test_back_and_the_same_answer_in_the_shipped_book(state: State) -> None:
    interview = Interview(SHIPPED, *state)
    found = interview.back()
    if found is not None and (dropped := found[0].suggestion(found[1])) is not None:
        assert found[0].answer(found[1], dropped) == interview
