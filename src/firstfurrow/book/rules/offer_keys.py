"""Keys of an offer: each once, measured or in words, and every key that a requirement reads is there."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.book.files import Files
from firstfurrow.book.problems import Problem, Said, did_you_mean, one_of, twice
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
            yield key.problem(twice("key", name), "key")
        words = [word["id"] for word in key.data.get("words") or ()]
        known[name] = words
        if [bool(words), "dimension" in key.data, "printed" in key.data].count(True) != 1:
            said = Said(
                f'the key "{name}" has either a dimension or words, or what is printed there.',
                "That says how what is written in an offer is read.",
                "Keep one of dimension, words and printed.",
            )
            yield key.problem(said, "key")
        for word in {w for w in words if words.count(w) > 1}:
            yield key.problem(twice("word", word), "words")
        unit, bare = key.data.get("dimension"), key.data.get("bare")
        if bare is not None and bare not in (DIMENSIONS[unit].units if unit in DIMENSIONS else ()):
            units = DIMENSIONS[unit].units if unit in DIMENSIONS else ()
            said = Said(
                f'"{bare}" is not a unit of that dimension.',
                "A number without a unit would be read as something else.",
                one_of(str(bare), units, "the units of that dimension"),
            )
            yield key.problem(said, "bare")
    for requirement in files.requirements:
        for index, name in enumerate(requirement.data.get("offer_keys") or ()):
            if name not in known:
                said = Said(
                    f'an offer has no key "{name}".{did_you_mean(name, known)}',
                    "Without it no offer could ever meet this requirement.",
                    one_of(name, known, FILE),
                )
                yield requirement.problem(said, "offer_keys", index)
        levels = requirement.data.get("levels") or ()
        words = known.get((requirement.data.get("offer_keys") or [""])[0], [])
        if levels and [word for word in words if word in levels] != list(levels):
            said = Said(
                "the levels must be words of its offer key, in the same order.",
                "An offer is held against them word by word, from weak to strong.",
                f"Write those that stand in {FILE}, in that order.",
            )
            yield requirement.problem(said, "levels")
