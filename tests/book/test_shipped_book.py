"""The shipped book: every rule holds, and the graph is proven."""

from __future__ import annotations

from firstfurrow.book.check import examine
from firstfurrow.book.places import book_folder


def test_the_shipped_book_passes_every_check_and_the_proof() -> None:
    checked = examine(book_folder())
    assert [str(problem) for problem in checked.problems] == []
    assert checked.proof is not None
    assert checked.proof.holds
    assert checked.proof.questions > 40
    assert checked.proof.tests > 30
