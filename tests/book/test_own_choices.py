"""Easy and hard answers: the lists in the table of our choices name real answers, and none is both."""

from __future__ import annotations

from firstfurrow.book.model import Book


def test_easy_and_hard_answers_are_answers_of_a_question_that_some_kind_looks_at(book: Book) -> None:
    rows = book.tables["our_choices"].rows
    easy, hard = (set(rows[f"place_{name}"].words["answers"]) for name in ("easy", "hard"))
    deciding = {s.hard_by for k in book.kinds.values() for s in (k.shaft, *(v.shaft for v in k.variants)) if s}
    for asked in filter(None, deciding):
        question = book.question(asked)
        assert question is not None
        ids = {choice.id for choice in question.choices}
        assert ids & easy, asked
        assert ids & hard, asked
    known = {c.id for asked in filter(None, deciding) for c in book.question(asked).choices}  # type: ignore[union-attr]
    assert easy | hard <= known
    assert not easy & hard


def test_a_digger_on_the_arms_is_never_asked_about_a_hydraulic_top_link(book: Book) -> None:
    """A loose or moving top link folds a digger up on to its driver (common practice, no source)."""
    assert "three_point" in book.kinds["backhoe"].features
    assert "tilts" not in book.kinds["backhoe"].features
    assert "tilts" in book.kinds["box_blade"].features
