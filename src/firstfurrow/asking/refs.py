"""Names for places in a conversation: which question, for which item, and the flat key under which its answer lies."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Ref:
    """One question as asked: outside a group `item` is None."""

    question: str
    item: str | None = None

    @property
    def key(self) -> str:
        """The flat key of its answer, as in `Answers.aside`.

        >>> Ref("size", "i2").key, Ref("soil").key
        ('i2.size', 'soil')
        """
        return self.question if self.item is None else f"{self.item}.{self.question}"


def ref_of(key: str) -> Ref:
    """The place that a flat key names.

    >>> ref_of("i2.size")
    Ref(question='size', item='i2')
    """
    item, stop, question = key.partition(".")
    return Ref(question, item) if stop else Ref(key)


def item_number(item: str) -> int:
    """The number in an item id; 0 for an id that somebody made up.

    >>> item_number("i12"), item_number("tiller")
    (12, 0)
    """
    digits = item[1:]
    return int(digits) if item[:1] == "i" and digits.isascii() and digits.isdigit() else 0
