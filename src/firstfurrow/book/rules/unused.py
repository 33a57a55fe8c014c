"""What stands in the book and nobody uses: no mistake, but worth knowing. Sources are looked at in `figures`."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.problems import Problem, Said
from firstfurrow.book.rules.references import GUIDE, NAMES
from firstfurrow.book.rules.texts import conversation, of_kinds, page
from firstfurrow.book.trade_words import hits

GLOSSARY = "glossary.yaml"


def hints(files: Files) -> Iterator[Problem]:
    """Kinds that no job leads to, jobs that no kind does, guides that nobody names, words that stand in no text."""
    yield from _kinds(files)
    yield from _guides(files)
    yield from _words(files)


def _kinds(files: Files) -> Iterator[Problem]:
    jobs = files.question.get("jobs")
    if jobs is None:
        return
    done: set[str] = set()
    led = {name for _, kind in files.kinds for name in kind.data.get("leads") or ()}
    for family, kind in files.kinds:
        done |= set(kind.data.get("jobs") or ())
        if family != "links" and not kind.data.get("jobs") and kind.data["kind"] not in led:
            said = Said(
                f"no job leads to {kind.data['kind']}.",
                "It is found by its name, and suggested to nobody.",
                "Name a job under jobs, if one of them is its work.",
            )
            yield kind.problem(said, "kind")
    for job in jobs.at.each("choices"):
        if job.data["id"] not in done:
            said = Said(
                f"no implement does the job {job.data['id']}.",
                "Whoever chooses it is offered no tool for it.",
                "Name it under jobs of an implement.",
            )
            yield job.problem(said, "id")


def _guides(files: Files) -> Iterator[Problem]:
    used = {question.at.data.get("how") for question in files.questions}
    for name, table in files.of("tables"):
        for column in (column for column, what in NAMES.get(name, {}).items() if what == GUIDE):
            used |= {row.data["words"].get(column) for row in table.each("rows") if row.data.get("words")}
    for guide in files.guides:
        if guide.data["id"] not in used:
            said = Said(
                f"nobody names the guide {guide.data['id']}.",
                "A reader comes to it from no question.",
                "Name it under how of a question, or take it out.",
            )
            yield guide.problem(said, "id")


def _words(files: Files) -> Iterator[Problem]:
    words: Placed = files.read[GLOSSARY]["words"]
    everything = "\n".join(text.text for text in (*conversation(files), *page(files), *of_kinds(files)))
    for word in words.data:
        if next(hits((word,), everything), None) is None:
            said = Said(
                f'the word "{word}" stands in no text.',
                "Nobody who meets it here needs it explained.",
                "Take it out, or keep it for those who meet it at a dealer.",
            )
            yield words.problem(said, word, key=True)
