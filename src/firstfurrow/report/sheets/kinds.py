"""Every implement of the book with its builds and sizes and what oil moves: the list behind the worksheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from firstfurrow.asking.resolve import pointless, size_label, wished_functions
from firstfurrow.book.model import Book, Kind, Question
from firstfurrow.quantities import Units
from firstfurrow.report.blocks import Block, Heading, Paragraph, Terms
from firstfurrow.report.sheets.conditions import may_hold, reads_kind
from firstfurrow.report.sheets.wording import Say


def kinds_list(book: Book, say: Say, numbers: Mapping[str, int], units: Units | None) -> Iterator[Block]:
    """The families, and each implement in plain words with what may be answered about it."""
    yield Heading(say("kinds"))
    yield Paragraph(say("kinds_head"))
    group = [question for section in book.sections if section.group for question in section.group.questions]
    for family in book.families:
        yield Heading(family.title, 3)
        yield Terms(tuple((kind.name, _about(say, kind, group, numbers, units)) for kind in family.kinds))


def _about(say: Say, kind: Kind, group: list[Question], numbers: Mapping[str, int], units: Units | None) -> str:
    parts = [kind.plain]
    its_own = [
        str(numbers[question.id])
        for question in group
        if question.id in numbers and reads_kind(question.when)
        if may_hold(question.when, kind) and not pointless(question, kind, None)
    ]
    if its_own:
        parts.append(say("kind_questions", numbers=", ".join(its_own)))
    if len(kind.variants) > 1:
        parts.append(say("kind_built", listed="; ".join(variant.name for variant in kind.variants)))
    if len(kind.sizes) > 1:
        sizes = dict.fromkeys(size_label(kind, size, units or "us") for size in kind.sizes)
        parts.append(say("kind_sizes", listed="; ".join(sizes)))
    wished = wished_functions(kind, None)
    if wished:
        parts.append(say("kind_oil", listed="; ".join(function.job for function in wished)))
    return " ".join(parts)
