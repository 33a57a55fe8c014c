"""The walk around a tractor: every key of an offer at exactly one stop, units that fit, prose without figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, Said, did_you_mean, one_of, twice
from firstfurrow.book.rules.digits import digits
from firstfurrow.book.walk_around import LAST
from firstfurrow.book.yaml_strict import read
from firstfurrow.quantities import DIMENSIONS

FILE, OFFER = "walk_around.yaml", "offer.yaml"
ONCE = "On the walk each thing is written down once, where it is seen."
MEASURED_IN = "The sheet prints the unit behind the box."


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
    yield from digits(file, "bring", "cautions")


def _stops(file: Placed, keys: Mapping[str, Any]) -> Iterator[Problem]:
    seen: dict[str, str] = {}
    ids: set[str] = set()
    for stop in file.each("stops"):
        id_ = stop.data["id"]
        if id_ in ids:
            yield stop.problem(twice("stop", id_), "id")
        ids.add(id_)
        yield from digits(stop, "title", "look", "cautions")
        for index, key in enumerate(stop.data["keys"]):
            if key not in keys:
                what = f'an offer has no key "{key}".{did_you_mean(key, keys)}'
                why = "What is filled in there could go into no offer."
                yield stop.problem(Said(what, why, one_of(key, keys, OFFER)), "keys", index)
            elif key in seen:
                what = f'the key "{key}" stands at {seen[key]} already.'
                yield stop.problem(Said(what, ONCE, "Take it out of one of the two stops."), "keys", index)
            seen.setdefault(key, id_)
    if LAST not in ids:
        what = f"there is no stop {LAST}: it takes the keys that are read and not seen."
        yield file.problem(Said(what, "They would have no place.", f"Add a stop with id: {LAST}."), "stops")
    for key in keys:
        if key not in seen:
            what = f'the key "{key}" of {OFFER} stands at no stop; put it where it is seen, or at {LAST}.'
            yield file.problem(Said(what, ONCE, f"Add {key} to the keys of a stop."), "stops")


def _units(units: Placed, keys: Mapping[str, Any]) -> Iterator[Problem]:
    for name, pair in units.data.items():
        measured = name if name in DIMENSIONS else keys.get(name)
        if measured is None:
            known = [*DIMENSIONS, *(key for key, found in keys.items() if found is not None)]
            what = f'"{name}" is no dimension and no measured key.{did_you_mean(name, known)}'
            write = one_of(name, known, f"the keys of {OFFER} and the dimensions")
            yield units.problem(Said(what, MEASURED_IN, write), name, key=True)
            continue
        for which, unit in pair.items():
            if unit not in DIMENSIONS[measured].units:
                what = f'"{unit}" is not a unit of that dimension.'
                write = one_of(str(unit), DIMENSIONS[measured].units, "the units of that dimension")
                yield units.problem(Said(what, MEASURED_IN, write), name, which)
    for key, measured in keys.items():
        # A plain number, such as a count, has no unit to print.
        if measured is not None and DIMENSIONS[measured].working and not {measured, key} & set(units.data):
            what = f'no unit is given for "{measured}", which the key "{key}" is measured in.'
            dimension = DIMENSIONS[measured]
            write = f"Add {measured}: {{us: {dimension.us}, metric: {dimension.metric}}}."
            yield units.problem(Said(what, MEASURED_IN, write))
