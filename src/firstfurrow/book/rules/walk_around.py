"""The walk around a tractor: every key of an offer at exactly one stop, units that fit, prose without figures."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, did_you_mean
from firstfurrow.book.walk_around import LAST
from firstfurrow.book.yaml_strict import read
from firstfurrow.quantities import DIMENSIONS

FILE, OFFER = "walk_around.yaml", "offer.yaml"
_DIGIT = re.compile(r"[0-9]")


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the meaning of the file; nothing when the book does without it."""
    file = files.read.get(FILE)
    if file is None:
        return
    offer = files.read.get(OFFER)
    data: Mapping[str, Any] = read(book_folder() / OFFER, OFFER) if offer is None else offer.data
    dimension = {key["key"]: key.get("dimension") for key in data["keys"]}
    yield from _stops(file, dimension)
    yield from _units(file["units"], dimension)
    yield from _prose(file, "bring", "cautions")


def _stops(file: Placed, keys: Mapping[str, Any]) -> Iterator[Problem]:
    seen: dict[str, str] = {}
    ids: set[str] = set()
    for stop in file.each("stops"):
        id_ = stop.data["id"]
        if id_ in ids:
            yield stop.problem(f"there are two stops {id_}.", "id")
        ids.add(id_)
        yield from _prose(stop, "title", "look", "cautions")
        for index, key in enumerate(stop.data["keys"]):
            if key not in keys:
                yield stop.problem(f'an offer has no key "{key}".{did_you_mean(key, keys)}', "keys", index)
            elif key in seen:
                yield stop.problem(f'the key "{key}" stands at {seen[key]} already.', "keys", index)
            seen.setdefault(key, id_)
    if LAST not in ids:
        yield file.problem(f"there is no stop {LAST}: it takes the keys that are read and not seen.", "stops")
    for key in keys:
        if key not in seen:
            said = f'the key "{key}" of {OFFER} stands at no stop; put it where it is seen, or at {LAST}.'
            yield file.problem(said, "stops")


def _units(units: Placed, keys: Mapping[str, Any]) -> Iterator[Problem]:
    for name, pair in units.data.items():
        measured = name if name in DIMENSIONS else keys.get(name)
        if measured is None:
            known = [*DIMENSIONS, *(key for key, found in keys.items() if found is not None)]
            said = f'"{name}" is no dimension and no measured key.{did_you_mean(name, known)}'
            yield units.problem(said, name, key=True)
            continue
        for which, unit in pair.items():
            if unit not in DIMENSIONS[measured].units:
                yield units.problem(f'"{unit}" is not a unit of that dimension.', name, which)
    for key, measured in keys.items():
        # A plain number, such as a count, has no unit to print.
        if measured is not None and DIMENSIONS[measured].working and not {measured, key} & set(units.data):
            yield units.problem(f'no unit is given for "{measured}", which the key "{key}" is measured in.')


def _prose(part: Placed, *keys: str) -> Iterator[Problem]:
    for key in keys:
        value = part.data[key]
        for index, text in enumerate([value] if isinstance(value, str) else value):
            if _DIGIT.search(text):
                path = (key,) if isinstance(value, str) else (key, index)
                yield part.problem("a figure stands in a sentence; put it into words.", *path)
