"""Plausibility: the size class that a profile points to, what pushes it there, and asks that rarely stand together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from firstfurrow.advice import deciding
from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study.model import Plausibility
from firstfurrow.advice.study.words import Words
from firstfurrow.book.model import Row


def plausibility(profile: Profile, words: Words) -> Plausibility:
    """Which size class, what pushes the profile there, and what is rare."""
    warnings = tuple(_rare(profile, words))
    row = profile.points_to
    determined = [id_ for id_, o in profile.outcomes.items() if o.widest is not None]
    if not determined:
        return Plausibility(None, (), False, None, "", ())
    if row is None:
        return Plausibility(None, *_beyond(profile, words), warnings)
    rows = list(profile.book.tables["size_classes"].rows.values())
    at, plain = rows.index(row), row.words["plain"]
    if at == 0:
        return Plausibility(row.id, (), False, None, words.say("class_smallest", row=row.name, plain=plain), warnings)
    alone = {id_: less for id_ in determined if rows.index(less := _without(profile, id_) or row) < at}
    if alone:
        smallest = min(alone.values(), key=rows.index)
        pushed = tuple(id_ for id_, less in alone.items() if less is smallest)
        text = words.say(
            "class_pushed", what=_named(profile, words, pushed[0]), row=row.name, plain=plain, smaller=smallest.name
        )
        return Plausibility(row.id, pushed, True, smallest.id, text, warnings)
    together = deciding.pushing(profile.book, profile.outcomes, row)
    text = words.say(
        "class_pushed_together", row=row.name, plain=plain, smaller=rows[at - 1].name,
        what=words.join([_named(profile, words, id_) for id_ in together]),
    )  # fmt: skip
    return Plausibility(row.id, together, False, None, text, warnings)


def _named(profile: Profile, words: Words, id_: str) -> str:
    widest = profile.outcomes[id_].widest
    assert widest is not None
    because = widest.governed_by.name if widest.governed_by is not None else ""
    return words.say("class_because", what=words.brief(id_), shown=widest.shown, because=because)


def _without(profile: Profile, id_: str) -> Row | None:
    """The smallest class that meets everything but one requirement."""
    return deciding.smallest_class(profile.book, _less(profile.outcomes, (id_,)))


def _less(outcomes: Mapping[str, Outcome], ids: Sequence[str]) -> Mapping[str, Outcome]:
    return {id_: outcome for id_, outcome in outcomes.items() if id_ not in ids}


def _beyond(profile: Profile, words: Words) -> tuple[tuple[str, ...], bool, str | None, str]:
    """No class meets all of it: what alone stands in the way, else what goes beyond the largest, else a crossing."""
    book, outcomes = profile.book, profile.outcomes
    alone = {id_: row for id_ in outcomes if (row := _without(profile, id_)) is not None}
    if alone:
        rows = list(book.tables["size_classes"].rows.values())
        id_, row = min(alone.items(), key=lambda pair: rows.index(pair[1]))
        text = words.say("class_none_but", what=_named(profile, words, id_), smaller=row.name)
        return (id_,), True, row.id, text
    floors = deciding.smallest_class(book, outcomes, floors_only=True)
    if floors is not None:
        limits = tuple(
            id_
            for id_, o in outcomes.items()
            if (w := o.widest) is not None and not deciding.meets(o.requirement, w.stated, floors)
        )
        what = words.join([_named(profile, words, id_) for id_ in limits])
        return limits, False, None, words.say("class_limits", row=floors.name, what=what)
    largest = list(book.tables["size_classes"].rows.values())[-1]
    over = tuple(
        id_
        for id_, o in outcomes.items()
        if (w := o.widest) is not None
        and o.requirement.sense == "at_least"
        and not deciding.meets(o.requirement, w.stated, largest)
    )
    if over:
        what = words.join([_named(profile, words, id_) for id_ in over])
        return over, False, None, words.say("class_beyond", row=largest.name, what=what)
    return (), False, None, words.say("class_crossed")


# ------------------------------------------------------------------------ what is rare


def _rare(profile: Profile, words: Words) -> Iterator[str]:
    for row in profile.book.tables["rare_mixes"].rows.values():
        said = _apart(profile, row, words) if "larger" in row.words else _unusual(profile, row, words)
        if said is not None:
            yield said


def _unusual(profile: Profile, mix: Row, words: Words) -> str | None:
    """Something that the class which the rest of the profile points to rarely has."""
    id_ = str(mix.words["requirement"])
    outcome = profile.outcomes.get(id_)
    widest = None if outcome is None else outcome.widest
    if widest is None or not _asks(mix, widest.stated):
        return None
    rest = _less(profile.outcomes, (id_, *mix.words.get("without", ())))
    row = deciding.smallest_class(profile.book, rest, floors_only=True)
    name = "" if row is None else row.name
    if "classes" in mix.words and (row is None or row.id not in mix.words["classes"]):
        return None
    power = profile.outcomes["pto_power"].widest
    if "power_below" in mix.figures and (power is None or power.stated >= mix["power_below"].planning):
        return None
    because = widest.governed_by.name if widest.governed_by is not None else ""
    return words.say(
        f"rare.{mix.id}", row=name, shown=widest.shown, because=because, power="" if power is None else power.shown
    )


def _asks(mix: Row, stated: Any) -> bool:
    """True when what is asked for is what the mix is about; a set asks for it only when nothing else would do."""
    if "least" in mix.figures:
        return bool(stated >= mix["least"].planning)
    has = mix.words.get("has")
    if has is None:
        return True
    if not isinstance(stated, tuple):
        return stated in has
    sets = stated if stated and isinstance(stated[0], tuple) else (stated,)
    return any(one and all(value in has for value in one) for one in sets)


def _apart(profile: Profile, mix: Row, words: Words) -> str | None:
    """One group of requirements points to a far larger class than another."""
    large, small = (_class_of(profile, mix.words[side]) for side in ("larger", "smaller"))
    if large is None or small is None:
        return None
    rows = list(profile.book.tables["size_classes"].rows.values())
    if rows.index(large) - rows.index(small) < mix["rows"].planning:
        return None
    id_ = max(
        (i for i in mix.words["larger"] if profile.outcomes[i].widest is not None),
        key=lambda i: rows.index(_class_of(profile, (i,)) or large),
    )  # fmt: skip
    widest = profile.outcomes[id_].widest
    assert widest is not None
    because = widest.governed_by.name if widest.governed_by is not None else ""
    return words.say(
        f"rare.{mix.id}", what=words.brief(id_), shown=widest.shown, because=because, large=large.name,
        small=small.name,
    )  # fmt: skip


def _class_of(profile: Profile, ids: Sequence[str]) -> Row | None:
    """The class that some requirements point to by themselves; None when none of them is asked for."""
    mine = {id_: profile.outcomes[id_] for id_ in ids if id_ in profile.outcomes}
    if all(outcome.widest is None for outcome in mine.values()):
        return None
    return deciding.smallest_class(profile.book, mine)
