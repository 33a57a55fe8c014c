"""What `firstfurrow book check --deep` says: claims about what answers move that were seen, and what nobody claims."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from firstfurrow.advice.moves_tested import Pair, Tried
    from firstfurrow.asking.answers import Answers, Given
    from firstfurrow.book.model import Book
    from firstfurrow.book.problems import Problem

FEW = 5  # questions with claims not seen that are named where nobody asked for all


def unclaimed(folder: Path, book: Book, found: Tried) -> Iterator[Problem]:
    """A problem at each question that moved what it does not claim, with the answers that show it."""
    from dataclasses import replace

    from firstfurrow.book.files import Files
    from firstfurrow.book.problems import Said

    if not found.unclaimed:
        return
    files = Files(folder)
    for (question, requirement), pair in sorted(found.unclaimed.items()):
        said = Said(
            f"{question} moves {requirement}, and does not say so under moves.",
            "Who asks why is told what the answer moves, and the plan would change where nobody expects it.",
            f"Add {requirement} to its moves, if that is meant.",
        )
        at = files.question[question].at
        yield replace(at.problem(said, "moves" if "moves" in at.data else "id"), leads=tuple(lines_of(pair)))


def lines_of(pair: Pair) -> Iterator[str]:
    """The answers of a pair as they can be typed; what is not sure in both is left out."""
    for id_, given in pair.answers.given.items():
        if pair.ref.key == id_ or not given.unsure:
            yield f"{id_}={_both(pair, id_, given)}"
    for item in pair.answers.items:
        for id_, given in item.given.items():
            key = f"{item.id}.{id_}"
            if pair.ref.key == key or not given.unsure:
                yield f"{key}={_both(pair, key, given)}"


def _both(pair: Pair, key: str, given: Given) -> str:
    shown = _shown(given)
    return f"{shown}, then {_shown(pair.other)}" if pair.ref.key == key else shown


def _shown(given: Given) -> str:
    return "not sure" if given.unsure else given.text


def own_questions(folder: Path) -> frozenset[str]:
    """The questions that a local edition adds or changes."""
    from firstfurrow.book.shelf import Shelf

    shelf = Shelf(folder)
    names = [override.what.split(", ") for override in shelf.overrides() if override.file.startswith("sections/")]
    # The id stands behind the list that the question is in: questions, soil, ask.
    return frozenset(name[name.index("questions") + 1] for name in names if "questions" in name[:-1])


def verdict(found: Tried, own: Collection[str] = (), *, every_note: bool) -> Iterator[str]:
    """What was tried, and what of it was seen: first the questions of which nothing was seen, then `own` ones."""
    claims = len(found.seen) + len(found.unseen)
    yield f"Tried on {found.pairs} pairs of random plans that differ in one answer (seed {found.seed}):"
    yield f"  of {claims} claims that a question moves a requirement, {len(found.seen)} were seen in a pair of plans;"
    if found.unclaimed:
        yield f"  {len(found.unclaimed)} times an answer moved what its question does not claim, see above."
    else:
        yield "  no answer moved a requirement that its question does not name."
    if not found.unseen:
        return
    by_question: dict[str, list[str]] = defaultdict(list)
    for question, requirement in found.unseen:
        by_question[question].append(requirement)
    yield f"Note. Not seen, which may be chance: {len(found.unseen)}. Try more with --count, or another --seed."
    seen = {question for question, _ in found.seen}
    shown = sorted(by_question.items(), key=lambda one: (one[0] in seen, one[0] not in own))
    for question, requirements in shown if every_note else shown[:FEW]:
        nothing = "" if question in seen else " (nothing that it claims was seen)"
        yield f"  {question}: {', '.join(requirements)}{nothing}"
    if not every_note and len(shown) > FEW:
        yield f"  and of {len(shown) - FEW} more questions: --notes shows all of them."


def as_text(book: Book, found: Tried) -> str:
    """Every pair that showed a claim, as YAML: the answers of the first plan, and the other answer of the second."""
    lines = [
        "# Pairs of plans that differ in one answer, and what that moved. Written by firstfurrow book check --deep.",
        "# answers is an answers file; change is what the second plan says instead.",
        f"# seed {found.seed}, {found.pairs} pairs",
    ]
    by_pair: dict[int, list[str]] = defaultdict(list)
    pairs = {id(pair): pair for pair in found.seen.values()}
    for (_, requirement), pair in found.seen.items():
        by_pair[id(pair)].append(requirement)
    for key, pair in pairs.items():
        lines.append(f"- question: {pair.ref.question}")
        lines.append(f"  moves: [{', '.join(sorted(by_pair[key]))}]")
        lines.append(f"  change: '{pair.ref.key}={_shown(pair.other).replace(chr(39), chr(39) * 2)}'")
        lines.append("  answers: |")
        lines += [f"    {line}" for line in _text(book, pair.answers).splitlines()]
    return "\n".join([*lines, ""])


def _text(book: Book, answers: Answers) -> str:
    from firstfurrow.asking.answers_text import write

    return write(answers, book)
