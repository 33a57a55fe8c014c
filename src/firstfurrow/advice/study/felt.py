"""How far two profiles lie apart, in steps that a buyer feels: the scale stands in the book."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from firstfurrow.advice import deciding
from firstfurrow.advice.conflicts import Conflict
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.refusals import Refusal
from firstfurrow.advice.study.model import Difference, Move, furthest_first
from firstfurrow.book.model import Book, Requirement, Row

Crossing = Conflict | Refusal

# Refusals of a slope stand for one another, and hide the weights that would be asked for: no weight is enough there.
_SLOPES = ("climb", "stop", "unbraked")
_HIDDEN = ("mass", "mass_towing")


@dataclass(frozen=True, slots=True)
class Scale:
    """The table of felt steps, ready to count with."""

    things: Mapping[str, Row]  # requirement id: the row that it belongs to
    comes_or_goes: float
    size_class: float
    crossing: float
    each: frozenset[str]  # kinds of conflict and refusal of which every item has its own
    relief: frozenset[str]  # kinds that are no trouble when they come


def scale_of(book: Book) -> Scale:
    """The scale of a book."""
    rows = book.tables["felt_steps"].rows
    things = {id_: row for row in rows.values() for id_ in row.words.get("requirements", ())}
    counts = {name: rows[name]["counts"].planning for name in ("comes_or_goes", "size_class", "crossing")}
    kinds = tuple(book.tables["way_figures"].rows.values())
    return Scale(
        things, counts["comes_or_goes"], counts["size_class"], counts["crossing"],
        *(frozenset(kind.id for kind in kinds if kind.words.get(word)) for word in ("each", "relief")),
    )  # fmt: skip


def difference(scale: Scale, before: Profile, after: Profile) -> Difference:
    """Everything that differs between two profiles, furthest first."""
    moves: list[Move] = []
    hidden = _HIDDEN if any(refusal.kind in _SLOPES for refusal in after.refusals) else ()
    for id_, outcome in before.outcomes.items():
        was, now = outcome.widest, after.outcomes[id_].widest
        a, b = (None if w is None else w.stated for w in (was, now))
        steps = 0.0 if b is None and id_ in hidden else apart(scale, outcome.requirement, a, b)
        if steps > 0:
            thing = scale.things[id_].id if id_ in scale.things else id_
            moves.append(
                Move(id_, thing, None if was is None else was.shown, None if now is None else now.shown, steps)
            )  # fmt: skip
    rows = list(before.book.tables["size_classes"].rows.values())
    first, second = (deciding.smallest_class(p.book, p.outcomes, floors_only=True) for p in (before, after))
    classes = None
    if first is not None and second is not None and first.id != second.id:
        classes = (first.name, second.name)
    levels = [len(rows) if row is None else next(i for i, r in enumerate(rows) if r.id == row.id)
              for row in (first, second)]  # fmt: skip
    comes = titles(scale, _crossings(after), _crossings(before))
    gone = [one for one in _crossings(before) if not (hidden and one.kind in _SLOPES)]
    goes = titles(scale, gone, _crossings(after))
    furthest: dict[str, float] = {}
    for move in moves:
        furthest[move.thing] = max(furthest.get(move.thing, 0), move.steps)
    steps = (
        sum(furthest.values()) + scale.size_class * abs(levels[0] - levels[1])
        + scale.crossing * (len(comes) + len(goes))
    )  # fmt: skip
    return Difference(furthest_first(moves), classes, comes, goes, round(steps, 3))


def apart(scale: Scale, requirement: Requirement, before: Any, after: Any) -> float:
    """Felt steps between two stated values of one requirement; None means that nothing asks for it."""
    if before == after:
        return 0.0
    row = scale.things.get(requirement.id)
    counts = 1.0 if row is None else row["counts"].planning
    if before is None or after is None:
        return counts * scale.comes_or_goes
    if requirement.sense == "level":
        return counts * abs(requirement.levels.index(before) - requirement.levels.index(after))
    figures = {} if row is None else row.figures
    if requirement.sense in ("at_least", "at_most"):
        if "share" in figures:
            changed = abs(float(after) - float(before)) / max(abs(float(after)), abs(float(before)))
            return counts * changed * 100 / figures["share"].planning
        if "step" in figures:
            return counts * abs(float(after) - float(before)) / figures["step"].planning
    return counts


def _crossings(profile: Profile) -> tuple[Crossing, ...]:
    return (*profile.refusals, *profile.conflicts)


def titles(scale: Scale, here: Sequence[Crossing], there: Sequence[Crossing]) -> tuple[str, ...]:
    """The titles of what stands here and not there."""
    return tuple(one.title for one in here if not any(same(scale, one, other) for other in there))


def same(scale: Scale, one: Crossing, other: Crossing) -> bool:
    """True when two profiles have the same trouble, though its figures may differ."""
    if one.kind != other.kind:
        return False
    return one.kind not in scale.each or bool(set(one.about) & set(other.about))


def troubles(scale: Scale, before: Profile, after: Profile) -> int:
    """How many conflicts and refusals come that are a trouble."""
    mine = [one for one in _crossings(after) if one.kind not in scale.relief]
    return len(titles(scale, mine, _crossings(before)))


def stands(scale: Scale, one: Crossing, profile: Profile) -> bool:
    """True when the profile has this trouble too."""
    return any(same(scale, one, other) for other in _crossings(profile))
