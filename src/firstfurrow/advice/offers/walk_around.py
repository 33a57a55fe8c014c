"""Boxes of the walk-around as an offer: each value read as in an offer file, told back, written, and read again."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from firstfurrow.advice.offers import consistent
from firstfurrow.advice.offers.offer import Offer, Said
from firstfurrow.advice.offers.reading import FORMAT, read_offers
from firstfurrow.advice.offers.tyre_size import TyreSize
from firstfurrow.advice.offers.values import as_text, is_not_known, value_of
from firstfurrow.book.model import Book, OfferKey
from firstfurrow.book.problems import BookError
from firstfurrow.book.walk_around import unit_of
from firstfurrow.book.yaml_strict import parse_marked
from firstfurrow.quantities import DIMENSIONS, Units, convert, format_number

IN_DOUBT = "in doubt "  # begins a note that holds a value which goes against another one
TYRE = "box_tyre"  # the sentence for the size of a tyre
TOLD = 4  # figures of a number that is told back
NOTHING = frozenset({"0", "none", "no", "nothing", "zero"})
_COMMENT = re.compile(r"(?:^|\s)#", re.MULTILINE)
_SPLIT = re.compile(r"\s*(?:[,;&+]|\band\b)\s*")
_NUMBER = re.compile(r"[\d\s.,/¼-¾⅛-⅞]*[\d¼-¾⅛-⅞]")  # and no unit behind it
_UNIT = re.compile(r"(?<=[\d¼-¾⅛-⅞])\s*[^\d\s.,/]+$")
_PLAIN_VALUE = re.compile(r"\d+(?:\.\d+)? [A-Za-z/]+|[A-Za-z][A-Za-z_ ]*[A-Za-z]")
_MEANT_OTHERWISE = frozenset({"null", "true", "false"})


@dataclass(frozen=True, slots=True)
class Kept:
    """What an offer file holds: the name, and what was written under each key, that in doubt too."""

    name: str
    filled: Mapping[str, str]
    notes: tuple[str, ...] = ()
    comments: bool = False  # comments are lost when the file is written again


@dataclass(frozen=True, slots=True)
class AtOdds:
    """What does not go together, and under which keys."""

    sentences: tuple[str, ...]
    keys: frozenset[str]


class OfferBoxes:
    """Reads what is typed into a box with the code that reads offer files, and writes such files.

    `units` are the measures of the reader: what a bare number means, and how values are told back. Without them a
    bare number is refused, as in a file.
    """

    def __init__(self, book: Book, units: Units | None = None) -> None:
        self.book = book
        self.units = units

    # ------------------------------------------------------------------ one box

    def take(self, key: str, line: str) -> tuple[str, tuple[str, ...]]:
        """A typed line as it is written into the file, and as it was understood; no words for none at all.

        Raises
        ------
        ValueError
            When it is no value for this box: one sentence.
        """
        found = self.book.offer_keys[key]
        text = self._with_unit(found, " ".join(line.split()))
        return text, self._words(found, text)

    def told(self, key: str, text: str) -> tuple[str, ...]:
        """What stands in a box, as it was understood."""
        return self._words(self.book.offer_keys[key], text)

    def _with_unit(self, key: OfferKey, text: str) -> str:
        """The text with the unit that the reader left out: behind a zero, and where his measures are known."""
        if key.dimension is None or key.bare is not None:
            return text
        unit = unit_of(self.book, key, self.units or "metric")
        if key.zero and text.casefold() in NOTHING:
            return f"0 {unit}".strip()
        parts = _SPLIT.split(text) if key.many else [text]
        own = _UNIT.search(parts[-1])  # one unit behind several numbers stands for all of them
        unit = own[0].strip() if own is not None and len(parts) > 1 else unit if self.units is not None else ""
        if not unit or not any(_NUMBER.fullmatch(part) for part in parts):
            return text
        return ", ".join(f"{part} {unit}" if _NUMBER.fullmatch(part) else part for part in parts)

    def _words(self, key: OfferKey, text: str) -> tuple[str, ...]:
        value = value_of(self.book, key, text)
        if isinstance(value, TyreSize):
            width, height = (self._shown(metres, "m", "in", "cm") for metres in (value.width, value.diameter))
            return (self.book.messages[f"report.{TYRE}"].format(text=text, width=width, height=height),)
        values = value if isinstance(value, tuple) else (value,)
        return tuple(self._word(key, each) for each in values)

    def _word(self, key: OfferKey, value: Any) -> str:
        if key.words:
            return next(word.label for word in key.words if word.id == value)
        if key.dimension is None:
            return str(value)
        us, metric = (unit_of(self.book, key, units) for units in ("us", "metric"))
        return self._shown(value, DIMENSIONS[key.dimension].working, us, metric)

    def _shown(self, value: float, working: str, us: str, metric: str) -> str:
        """A value in the units of the box, those of the reader first."""
        units = [us, metric] if self.units == "us" else [metric, us]
        own, *other = dict.fromkeys(_rounded(convert(value, working, unit), unit) for unit in units)
        return f"{own} ({other[0]})" if other else own

    # ---------------------------------------------------------------- all of them

    def at_odds(self, name: str, filled: Mapping[str, str], place: Callable[[str], str] = str) -> AtOdds:
        """What does not go together; `place` names a box."""
        said = {
            key: Said(value_of(self.book, self.book.offer_keys[key], text), text, place(key))
            for key, text in filled.items()
        }
        sentences = self._problems(name, said)
        doubtful: set[str] = set()
        rest = dict(said)
        while found := self._problems(name, rest):
            # A key is in it when there is less to say without it.
            involved = [key for key in rest if len(self._problems(name, {**rest, key: None})) < len(found)]
            if not involved:
                break
            doubtful |= set(involved)
            rest = {key: value for key, value in rest.items() if key not in doubtful}
        return AtOdds(tuple(sentences), frozenset(doubtful))

    def _problems(self, name: str, said: Mapping[str, Said | None]) -> list[str]:
        known = {key: value for key, value in said.items() if value is not None}
        return list(dict.fromkeys(consistent.problems(self.book, Offer(name, "", known), self.units or "us")))

    def name_problem(self, name: str) -> str | None:
        """Why an offer cannot be called so; None when it can."""
        found = read_offers(self.book, self.text(name, {}), "").problems
        return found[0].split(": ", 1)[-1] if found else None

    # ------------------------------------------------------------------ as a file

    def text(self, name: str, filled: Mapping[str, str], notes: Sequence[str] = ()) -> str:
        """The offer file: what is at odds stands in its notes, so that it counts as not known until it is settled."""
        doubtful = self.at_odds(name, filled).keys
        order = [key for key in self.book.offer_keys if key in filled]
        remarks = [*notes, *(f"{IN_DOUBT}{key}: {filled[key]}" for key in order if key in doubtful)]
        lines = [f"format: {FORMAT}", f"name: {_quoted(name)}"]
        lines += ["notes:", *(f"  - {_quoted(remark)}" for remark in remarks)] if remarks else []
        values = [f"  {key}: {_scalar(filled[key])}" for key in order if key not in doubtful]
        lines += ["offer:", *values] if values else ["offer: {}"]
        return "\n".join([*lines, ""])

    def read(self, text: str, file: str) -> Kept:
        """What a file holds. What is at odds in it is no hindrance: it can be settled on the walk.

        Raises
        ------
        ValueError
            When it is no offer, or holds what no box takes: one sentence with its place.
        """
        found = read_offers(self.book, text, file, self.units or "us")
        kept = self._kept(text, file)
        odd = {_bare(sentence, "") for sentence in self.at_odds(kept.name, kept.filled, lambda _: "").sentences}
        for problem in found.problems:
            if _bare(problem, file) not in odd:
                raise ValueError(problem)
        return kept

    def _kept(self, text: str, file: str) -> Kept:
        """All that can be read; what cannot be is a problem of the file, and said as such."""
        try:
            raw: Any = parse_marked(text.removeprefix("\ufeff"), file)[0]
        except BookError:
            raw = None
        raw = raw if isinstance(raw, dict) else {}
        offer, notes = raw.get("offer"), raw.get("notes")
        filled = self._filled(offer.items() if isinstance(offer, dict) else ())
        remarks = [as_text(note) for note in notes] if isinstance(notes, list) else []
        doubtful = [
            (key, value)
            for key, _, value in (note.removeprefix(IN_DOUBT).partition(": ") for note in remarks)
            if f"{IN_DOUBT}{key}: {value}" in remarks
        ]
        held = self._filled(doubtful)
        others = tuple(n for n in remarks if not any(n == f"{IN_DOUBT}{key}: {value}" for key, value in held.items()))
        return Kept(as_text(raw.get("name") or ""), {**held, **filled}, others, _COMMENT.search(text) is not None)

    def _filled(self, pairs: Iterable[tuple[Any, Any]]) -> dict[str, str]:
        found: dict[str, str] = {}
        for key, value in pairs:
            if key not in self.book.offer_keys or is_not_known(value):
                continue
            try:
                value_of(self.book, self.book.offer_keys[key], value)
            except ValueError:
                continue
            found[key] = as_text(value)
        return found


def _rounded(value: float, unit: str) -> str:
    return f"{format_number(float(f'{value:.{TOLD}g}'), 3)} {unit}".strip()


def _bare(problem: str, file: str) -> str:
    """A sentence without its place."""
    return problem.removeprefix(file).partition(": ")[2]


def _scalar(text: str) -> str:
    """A value as YAML: in quotes only where it would be read as something else."""
    plain = _PLAIN_VALUE.fullmatch(text) is not None and text.casefold() not in _MEANT_OTHERWISE
    return text if plain else _quoted(text)


def _quoted(text: str) -> str:
    return "'" + "".join(c if c.isprintable() else " " for c in text).replace("'", "''") + "'"
