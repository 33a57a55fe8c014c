"""An empty offer to fill in: every key of the book with what it is and where to read it. It reads back as it is."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from firstfurrow.advice.offers.reading import FORMAT
from firstfurrow.book.model import Book, OfferKey
from firstfurrow.quantities import DIMENSIONS
from firstfurrow.quantities.harmless import harmless
from firstfurrow.report.sheets.wording import Say, saying

WIDTH = 100


def offer_template(book: Book) -> str:
    """The text of the template, with comments."""
    return harmless("\n".join(_lines(book)) + "\n")


def _lines(book: Book) -> Iterator[str]:
    say = saying(book)
    yield from _comment(say("template_head"), "")
    yield f"format: {FORMAT}"
    name = say("template_name")
    yield f"name: {name}"
    yield "offer:"
    for key in book.offer_keys.values():
        yield ""
        yield from _comment(say("template_key", what=key.what, where=key.where), "  ")
        yield from _comment(_how(say, key), "  ")
        yield f"  {key.id}:"


def _how(say: Say, key: OfferKey) -> str:
    many = say("template_many") if key.many else ""
    if key.words:
        listed = "; ".join(word.id if word.id == word.label else f"{word.id} ({word.label})" for word in key.words)
        return say("template_words", listed=listed) + many
    if key.printed:
        return say("template_tyre")
    assert key.dimension is not None
    return say("template_such_as", such_as=DIMENSIONS[key.dimension].such_as) + many


def _comment(text: str, indent: str) -> list[str]:
    lead = f"{indent}# "
    return textwrap.wrap(text, WIDTH, initial_indent=lead, subsequent_indent=lead, break_on_hyphens=False)
