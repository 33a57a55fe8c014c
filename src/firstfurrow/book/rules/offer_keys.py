"""Keys of an offer: each once, measured or in words, and every key that a requirement reads is there."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.book.files import Files
from firstfurrow.book.problems import Problem, did_you_mean
from firstfurrow.quantities import DIMENSIONS

FILE = "offer.yaml"


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the keys; a book without them uses the shipped ones."""
    file = files.read.get(FILE)
    if file is None:
        return
    known: dict[str, list[str]] = {}
    for key in file.each("keys"):
        name = key.data["key"]
        if name in known:
            yield key.problem(f'the key "{name}" is there twice.', "key")
        words = [word["id"] for word in key.data.get("words") or ()]
        known[name] = words
        if [bool(words), "dimension" in key.data, "printed" in key.data].count(True) != 1:
            yield key.problem(f'the key "{name}" has either a dimension or words, or what is printed there.', "key")
        for word in {w for w in words if words.count(w) > 1}:
            yield key.problem(f'the word "{word}" is there twice.', "words")
        unit, bare = key.data.get("dimension"), key.data.get("bare")
        if bare is not None and bare not in (DIMENSIONS[unit].units if unit in DIMENSIONS else ()):
            yield key.problem(f'"{bare}" is not a unit of that dimension.', "bare")
    for requirement in files.requirements:
        for index, name in enumerate(requirement.data.get("offer_keys") or ()):
            if name not in known:
                said = f'an offer has no key "{name}".{did_you_mean(name, known)}'
                yield requirement.problem(said, "offer_keys", index)
        levels = requirement.data.get("levels") or ()
        words = known.get((requirement.data.get("offer_keys") or [""])[0], [])
        if levels and [word for word in words if word in levels] != list(levels):
            yield requirement.problem("the levels must be words of its offer key, in the same order.", "levels")
