"""Trade words: each one that a reader meets is explained, and none stands in a question without everyday words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby
from typing import Any

from firstfurrow.book.files import Files
from firstfurrow.book.problems import Problem, Said, did_you_mean, one_of
from firstfurrow.book.rules.texts import Text, conversation, of_questions
from firstfurrow.book.trade_words import Hit, hits

FILE = "glossary.yaml"
_BRACKETS = re.compile(r"\(([^()]*)\)")
_LISTED = re.compile(r",\s*|\s+(?:or|and)\s+|^(?:or|and|one|a|an|the)\s+")
_LETTER = re.compile(r"[^\W\d_]")


def problems(files: Files) -> Iterator[Problem]:
    """Trade words without an entry, named where a reader first meets them; and lists that name what is no entry."""
    glossary = files.read[FILE]
    words: Mapping[str, str] = glossary.data["words"]
    known = {word.casefold() for word in words}
    bare = [word for word in glossary.data.get("trade_words") or () if word.casefold() not in known]
    met = _first_met(bare, conversation(files))
    for word in bare:
        said = Said(
            f'the trade word "{word}" is not explained; give it an entry in {FILE}.{did_you_mean(word, words)}',
            "Who types words and the word would get no answer.",
            f"Add under words: {word}: and one sentence, or take it out of trade_words.",
        )
        index = glossary.data["trade_words"].index(word)
        yield met[word].problem(said) if word in met else glossary.problem(said, "trade_words", index)
    for key in ("everyday", "two_meanings"):
        for index, word in enumerate(glossary.data.get(key) or ()):
            if word not in words:
                said = Said(
                    f'no entry is called "{word}".{did_you_mean(word, words)}',
                    "The list says something of words that are explained.",
                    one_of(word, words, f"words of {FILE}"),
                )
                yield glossary.problem(said, key, index)


def hints(files: Files) -> Iterator[Problem]:
    """What is hard for a reader, and no mistake: brackets that nothing explains, bare trade words, hard words."""
    data: Mapping[str, Any] = files.read[FILE].data
    known = {word.casefold() for word in data["words"]}
    skipped = {*(data.get("everyday") or ()), *(data.get("two_meanings") or ())}
    trade = tuple(dict.fromkeys(w for w in (*data["words"], *(data.get("trade_words") or ())) if w not in skipped))
    hard: Mapping[str, str] = data.get("hard_words") or {}
    asked = [text for text in of_questions(files) if text.sort in ("ask", "label")]
    for text in asked:
        for word in _bracketed(trade, text.text):
            if word.casefold() not in known and not any(h.end - h.start == len(word) for h in hits(trade, word)):
                said = Said(
                    f'"{word}" stands in brackets as a trade word, but {FILE} does not explain it.',
                    "A reader who wonders can look up nothing.",
                    f"Add {word} under words, or say it without brackets.",
                )
                yield text.problem(said)
        for hit in hits(hard, text.text):
            what = f'"{hit.word}" is a hard word; write "{hard[hit.word]}".'
            yield text.problem(Said(what, "Some readers do not know it.", f'Write "{hard[hit.word]}" in its place.'))
    for _, group in groupby(asked, key=lambda text: text.question):
        yield from _bare(trade, tuple(group))


def _bare(trade: Iterable[str], texts: tuple[Text, ...]) -> Iterator[Problem]:
    """Trade words of one question that have everyday words beside them nowhere in it."""
    found = [(text, hit) for text in texts for hit in hits(trade, text.text)]
    explained = {hit.word for text, hit in found if _beside(text.text, hit)}
    for text, hit in found:
        if hit.word not in explained:
            said = Said(
                f'the trade word "{hit.word}" stands alone; say everyday words, and "({hit.word})" behind them.',
                "A buyer who does not know the word cannot answer.",
                f"Write what it is in everyday words, then ({hit.word}).",
            )
            yield text.problem(said)


def _beside(text: str, hit: Hit) -> bool:
    """True when the word stands in brackets behind other words, or has brackets of its own behind it."""
    for found in _BRACKETS.finditer(text):
        if found.start() <= hit.start and hit.end <= found.end():
            return bool(_LETTER.search(text[: found.start()]))
        if not text[hit.end : found.start()].strip() and found.start() >= hit.end:
            return True
    return False


def _bracketed(trade: Iterable[str], text: str) -> Iterator[str]:
    """What stands in brackets, word by word; not where the trade word stands before them and they explain it."""
    ends = {hit.end for hit in hits(trade, text)}
    for found in _BRACKETS.finditer(text):
        if len(text[: found.start()].rstrip()) in ends:
            continue
        yield from (word for word in _LISTED.split(found[1]) if _LETTER.search(word))


def _first_met(words: Iterable[str], texts: Iterable[Text]) -> dict[str, Text]:
    wanted = tuple(words)
    found: dict[str, Text] = {}
    for text in texts if wanted else ():
        for hit in hits(wanted, text.text):
            found.setdefault(hit.word, text)
    return found
