"""Sentences: one that is edited uses only the slots that the program fills for it, and none that is said is missing."""

from __future__ import annotations

from collections.abc import Iterator
from string import Formatter

from firstfurrow.book.files import Files
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, Said, did_you_mean, one_of
from firstfurrow.book.sentences import SENTENCES, sentences

NOBODY_FILLS = "The reader would see the braces, and not the words that belong there."
NOBODY_SAYS = "The program looks sentences up by their id, and never asks for this one."
OPEN_BRACE = Said(
    "a brace is open; write {{ and }} for braces that are meant.",
    "What stands between braces is filled in, and here nobody can tell where that ends.",
    "Close the brace, or write it twice where it is meant.",
)


def problems(files: Files) -> Iterator[Problem]:
    """Every slot that nobody fills, every brace that is no slot, every id that nobody says, and what is taken out."""
    shipped = sentences(book_folder())
    new = _may_be_new(files)
    for name, before in SENTENCES.items():
        if name not in files.read:
            continue
        texts = files.read[name]["messages"]
        yield from _taken_out(files, name)
        for id_, text in texts.data.items():
            if f"{before}{id_}" not in shipped and f"{before}{id_}" not in new:
                known = [key.removeprefix(before) for key in (*shipped, *sorted(new)) if key.startswith(before)]
                what = f'nothing is ever said by the id "{id_}".{did_you_mean(id_, known)}'
                write = one_of(id_, known, f"the shipped {name}")
                yield texts.problem(Said(what, NOBODY_SAYS, write), id_, key=True)
                continue
            found = slots(text)
            if found is None:
                yield texts.problem(OPEN_BRACE, id_)
                continue
            filled = slots(shipped.get(f"{before}{id_}", "")) or set()
            for slot in sorted(found - filled):
                there = "there is " + ", ".join(sorted(filled)) if filled else "there are none"
                what = f"the slot {{{slot}}} is not filled in here; {there}."
                yield texts.problem(Said(what, NOBODY_FILLS, f"Take {{{slot}}} out, or use what is filled."), id_)


def _taken_out(files: Files, name: str) -> Iterator[Problem]:
    """Sentences that a local edition takes out; of a whole book that lacks some the shipped ones are said."""
    for override in files.shelf.laid(name).overrides if files.shelf.local else ():
        if override.after is None:
            said = Said(
                f"a sentence that is said cannot be taken out: {override.what.removeprefix('messages, ')}.",
                "The reader would see its id in its place.",
                "Write other words for it, or take this line out.",
            )
            yield Problem(name, override.line, 1, said.what, said.why, said.write)


def _may_be_new(files: Files) -> set[str]:
    """Ids that the program makes from names of the book, so that an edition's own job or question may have one."""
    jobs = files.question.get("jobs")
    named = set() if jobs is None else {f"reason.job.{choice.data['id']}" for choice in jobs.at.each("choices")}
    return named | {f"reason.about.{id_}" for id_ in files.question}


def slots(text: str) -> set[str] | None:
    """The names in braces; None when the braces do not fit.

    What stands behind a name there could ask for a width without an end, so it belongs to the name, which nobody fills.

    >>> sorted(slots("{a} and {b:>999}") or ())
    ['a', 'b:>999']
    """
    try:
        return {
            "".join((name, f"!{how}" if how else "", f":{form}" if form else ""))
            for _, name, form, how in Formatter().parse(text)
            if name is not None
        }
    except ValueError:
        return None
