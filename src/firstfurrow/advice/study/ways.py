"""Ways out, recomputed: each change is made on this very plan, the road is run again, and what comes of it is said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from firstfurrow.advice import deciding
from firstfurrow.advice.changes import Change, changed
from firstfurrow.advice.plan import Plan
from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.advice.study.felt import Crossing, Scale, difference, stands, troubles
from firstfurrow.advice.study.model import Difference, Way, WaysOut
from firstfurrow.advice.study.words import TOW, Words
from firstfurrow.asking.resolve import size_label
from firstfurrow.quantities import format_number, show

MOST_FIGURES = 3  # how many figures of the crossing one sentence shows
MOST_TOGETHER = 3  # how many changes are tried together where no single one is enough


@dataclass(frozen=True, slots=True)
class _Tried:
    """A change that was made, and the profile after it."""

    changes: tuple[Change, ...]
    profile: Profile
    difference: Difference


class Trials:
    """Makes changes of one profile; each change is worked out once, however many conflicts name it."""

    def __init__(self, profile: Profile, scale: Scale, words: Words) -> None:
        self.profile = profile
        self.scale = scale
        self.words = words
        self.left = int(profile.book.tables["felt_steps"].rows["way_runs"]["most"].planning)
        self._known: dict[tuple[Change, ...], _Tried | None] = {}

    def all(self) -> tuple[WaysOut, ...]:
        """The ways out of every refusal and conflict, in the order in which the profile names them."""
        found: list[WaysOut] = []
        for index, refusal in enumerate(self.profile.refusals):
            found.append(self._of("refusal", index, refusal))
        for index, conflict in enumerate(self.profile.conflicts):
            found.append(self._of("conflict", index, conflict))
        return tuple(found)

    def _of(self, sort: Literal["refusal", "conflict"], index: int, crossing: Crossing) -> WaysOut:
        tried: list[tuple[_Tried, bool]] = []
        untried = 0
        for change in crossing.changes:
            if (change,) not in self._known and self.left <= 0:
                untried += changed(self.profile.plan, change) is not None
                continue
            one = self._try((change,))
            if one is not None:
                tried.append((one, not stands(self.scale, crossing, one.profile)))
        tried.sort(key=lambda pair: self._order(*pair))
        if tried and not any(ends for _, ends in tried):
            together = self._together(crossing, [one for one, _ in tried])
            if together is not None:
                tried.insert(0, (together, True))
        ways = tuple(self._way(crossing, one, ends) for one, ends in tried)
        return WaysOut(sort, index, crossing.kind, ways, untried, crossing.ways_out)

    def _try(self, changes: tuple[Change, ...]) -> _Tried | None:
        if changes not in self._known:
            plan: Plan | None = self.profile.plan
            for change in changes:
                plan = None if plan is None else changed(plan, change)
            made: _Tried | None = None
            if plan is not None:
                self.left -= 1
                after = advise_plan(self.profile.book, plan, lean=True)
                made = _Tried(changes, after, difference(self.scale, self.profile, after))
            self._known[changes] = made
        return self._known[changes]

    def _together(self, crossing: Crossing, tried: Sequence[_Tried]) -> _Tried | None:
        """No single change is enough: the best ones one after the other, at most one for each item."""
        taken: list[Change] = []
        for one in tried:
            change = one.changes[0]
            if any(other.item == change.item and (change.item or other.id == change.id) for other in taken):
                continue
            taken.append(change)
            if len(taken) > 1:
                made = self._try(tuple(taken)) if self.left > 0 else None
                if made is not None and not stands(self.scale, crossing, made.profile):
                    return made
            if len(taken) == MOST_TOGETHER:
                break
        return None

    # -- order

    def _order(self, one: _Tried, ends: bool) -> tuple[int, int]:
        """What ends it first, without new trouble before with; of these, what is nice to have gives way before a must.

        Equal ones stay in the order in which the conflict names them.
        """
        brings = troubles(self.scale, self.profile, one.profile)
        return (0 if ends and not brings else 1 if ends else 2, {"nice": 0, None: 1, "must": 2}[self._gives(one)])

    def _gives(self, one: _Tried) -> Literal["nice", "must"] | None:
        """The rank of what gives way: one must among several makes it a must."""
        ranks = {self._rank(change) for change in one.changes} - {None}
        return None if not ranks else "must" if "must" in ranks else "nice"

    def _rank(self, change: Change) -> Literal["nice", "must"] | None:
        if change.item is None:
            return None
        item = next((i for i in self.profile.plan.items if i.id == change.item), None)
        return None if item is None else "nice" if item.rank == "nice" else "must"

    # -- words

    def _way(self, crossing: Crossing, one: _Tried, ends: bool) -> Way:
        words, found = self.words, one.difference
        what = words.say("ways_and").join(self._what(change) for change in one.changes)
        if ends:
            verdict = (
                words.say("way_ends_but", comes=words.join(found.comes)) if found.comes else words.say("way_ends")
            )  # fmt: skip
        elif found.comes:
            verdict = words.say("way_stays_and", comes=words.join(found.comes))
        else:
            verdict = words.say("way_stays")
        parts = [words.say("way_line", what=what[:1].upper() + what[1:], verdict=verdict)]
        figures = list(self._figures(crossing, one))
        if figures:
            parts.append(words.say("way_figures", figures=words.join(figures)))
        for change in one.changes:
            parts += self._costs(change, one.profile)
        parts += dict.fromkeys(
            words.say("way_nice", item=words.item(self.profile.plan, change.item))
            for change in one.changes
            if self._rank(change) == "nice"
        )
        return Way(one.changes, ends, found.comes, self._gives(one), found, " ".join(parts))

    def _what(self, change: Change) -> str:
        plan, words = self.profile.plan, self.words
        item = next((i for i in plan.items if i.id == change.item), None)
        slots = {"item": words.item(plan, change.item or TOW), "value": change.value}
        if change.id in ("smaller_size", "larger_size") and item is not None:
            size = next(s for s in item.kind.sizes if s.id == change.value)
            slots["value"] = size_label(item.kind, size, words.units)
        elif change.id == "other_build" and item is not None:
            slots["value"] = next(v.name for v in item.kind.variants if v.id == change.value)
        elif change.id == "firmer":
            slots["value"] = self.profile.book.tables["surfaces"].rows[str(change.value)].name
        elif isinstance(change.value, float):
            slots["value"] = format_number(change.value, 1)
        return words.say(f"way.{change.id}", **slots)

    def _figures(self, crossing: Crossing, one: _Tried) -> Iterator[str]:
        """What crosses, as it is after the change; and the size class that then does it all."""
        row = self.profile.book.tables["way_figures"].rows.get(crossing.kind)
        words, shows = self.words, row.words.get("shows", ()) if row is not None else ()
        limit = next((id_ for id_ in shows if self.profile.book.requirements[id_].sense == "at_most"), None)
        given: list[str] = []
        for id_ in shows:
            was, now = self.profile.outcomes[id_].widest, one.profile.outcomes[id_].widest
            if now is None or id_ == limit or (was is not None and was.shown == now.shown):
                continue
            before = None if was is None else was.shown
            given.append(
                words.say("way_figure_new", what=words.brief(id_), now=now.shown)
                if before is None
                else words.say("way_figure", what=words.brief(id_), now=now.shown, was=before)
            )
        given += [words.move(m) for m in one.difference.leading if m.requirement not in shows]
        yield from given[:MOST_FIGURES]
        column = row.words.get("column") if row is not None else None
        after = deciding.smallest_class(one.profile.book, one.profile.outcomes, floors_only=True)
        if after is not None and column is not None:
            has = after[column]
            usual = show(has.planning, has.unit, words.units, 0 if has.unit == "kg" else None)
            most = None if limit is None else one.profile.outcomes[limit].widest
            yield (
                words.say("way_class_has", row=after.name, has=usual)
                if most is None
                else words.say("way_class_held", row=after.name, has=usual, most=most.shown)
            )
        elif one.difference.size_class is not None:
            yield words.size_class(one.difference.size_class)

    def _costs(self, change: Change, after: Profile) -> Iterator[str]:
        """What the change costs the buyer: hours, trips, money, a tool that stays away."""
        words = self.words
        name = words.item(self.profile.plan, change.item or TOW)
        hours = [_hours(profile, change.item) for profile in (self.profile, after)]
        if change.item is not None and None not in hours and hours[0] != hours[1]:
            yield words.say("cost_hours", item=name, now=hours[1], was=hours[0])
        elif change.item is not None and change.id in ("smaller_size", "larger_size"):
            widths = [_width(profile, change.item) for profile in (self.profile, after)]
            if widths[0] is not None and widths[1] is not None and widths[0] != widths[1]:
                now, was = (show(width, "m", words.units) for width in (widths[1], widths[0]))
                yield words.say("cost_width", now=now, was=was)
        own = words.may_say(f"cost.{change.id}")
        if own is not None:
            yield own.format(item=name)


def _hours(profile: Profile, item: str | None) -> str | None:
    """Hours for one pass of an item, as printed."""
    for note in profile.hookups:
        if note.sized.item.id == item and note.hours is not None:
            return format_number(note.hours.value, note.hours.digits)
    return None


def _width(profile: Profile, item: str) -> float | None:
    return next((note.sized.width for note in profile.hookups if note.sized.item.id == item), None)
