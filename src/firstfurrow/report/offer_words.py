"""Needs and offers in the words and units of the reader."""

from __future__ import annotations

from typing import Any, Literal

from firstfurrow.advice.offers.verdicts import Verdict
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Requirement
from firstfurrow.quantities import convert, dimension_of, format_number, reader_unit, round_down, round_up, show

_ENDLESS = float("inf")
Toward = Literal["up", "down"]
OPEN = ("two_enough", "limited", "band")  # verdicts that say themselves what is open


class Words:
    """Says the figures of one profile and its offers."""

    def __init__(self, profile: Profile) -> None:
        self.profile = profile
        self.book = profile.book
        self.units = profile.units

    def say(self, id_: str, **slots: Any) -> str:
        """A sentence of the report."""
        return self.book.messages[f"report.{id_}"].format(**slots)

    def of(self, value: float, unit: str) -> str:
        """A measure for this reader."""
        return show(value, unit, self.units)

    def short_name(self, requirement: Requirement) -> str:
        """A short name."""
        return self.book.messages.get(f"reason.brief.{requirement.id}") or requirement.title

    def brief(self, verdict: Verdict) -> str:
        """A short name of what a verdict is about."""
        return self.short_name(verdict.requirement)

    def open(self, verdict: Verdict) -> str:
        """A short name, and where more is known than nothing, what is open about it."""
        if verdict.how in OPEN:
            return self.say(f"offers_open.{verdict.how}", what=self.brief(verdict))
        return self.brief(verdict)

    def need(self, verdict: Verdict) -> str:
        """What is asked for; as the profile prints it where it is the same."""
        requirement = verdict.requirement
        outcome = self.profile.outcomes[requirement.id]
        if outcome.widest is not None and outcome.widest.stated == verdict.need:
            shown = outcome.widest.shown
        else:
            shown = self._value(requirement, verdict.need, "up" if requirement.sense == "at_least" else "down")
        return self.say(f"sense.{requirement.sense}", shown=shown)

    def has(self, verdict: Verdict) -> str:
        """What the offer proves."""
        requirement, has = verdict.requirement, verdict.has
        if has is None or has == ():
            return self.say("offers_nothing")
        if requirement.sense not in ("at_least", "at_most"):
            values = (has,) if isinstance(has, str) else has
            return ", ".join(self._label(requirement, v) for v in values)
        low, high = has
        if low == high:
            return self._value(requirement, low, "down" if requirement.sense == "at_least" else "up")
        if high == _ENDLESS:
            return self.say("offers_at_least_known", value=self._value(requirement, low, "down"))
        return self.say("offers_at_most_known", value=self._value(requirement, high, "up"))

    def gap(self, verdict: Verdict) -> str | None:
        """By how much it is short; None where that is no number."""
        if verdict.gap is None or verdict.gap == _ENDLESS:
            return None
        return self._number(verdict.requirement, verdict.gap, "up")

    # ------------------------------------------------------------------- values

    def _value(self, requirement: Requirement, value: Any, toward: Toward) -> str:
        if isinstance(value, int | float):
            words = self.book.messages.get(f"reason.shown.{requirement.id}")
            number = self._number(requirement, float(value), toward)
            return words.format(value=number) if words is not None and not requirement.unit else number
        if isinstance(value, str):
            return self._word(requirement, value)
        joint = self.book.messages["reason.or"] if requirement.sense == "one_of" else ", "
        return joint.join(self._value(requirement, part, toward) for part in value)

    def _number(self, requirement: Requirement, value: float, toward: Toward) -> str:
        """The number in the reader's unit, with the working unit in brackets where it is another."""
        step = requirement.round_to or 1
        own = _rounded(value, min(step, 10), toward)
        if not requirement.unit:
            return own
        mine = f"{own} {requirement.unit}"
        if self.units == "metric":
            return mine
        unit = requirement.shown.get("us") or reader_unit(dimension_of(requirement.unit).name, "us")
        if unit == requirement.unit:
            return mine
        there = convert(value, requirement.unit, unit)
        return f"{_rounded(there, min(float(requirement.shown.get('us_round_to', 1)), 10), toward)} {unit} ({mine})"

    def _word(self, requirement: Requirement, value: Any) -> str:
        messages = self.book.messages
        for id_ in (f"reason.word.{requirement.id}.{value}", f"reason.level.{value}"):
            if id_ in messages:
                return messages[id_]
        return self._label(requirement, value)

    def _label(self, requirement: Requirement, value: Any) -> str:
        """What a seller would say."""
        if isinstance(value, int | float):
            return f"{format_number(value, 1)} {requirement.unit}".strip()
        key = self.book.offer_keys[requirement.offer_keys[0]]
        return next((word.label for word in key.words if word.id == value), str(value))


def _rounded(value: float, step: float, toward: Toward) -> str:
    found = round_up(value, step) if toward == "up" else round_down(value, step)
    return format_number(found, 2 if step < 0.1 else 1 if step < 1 else 0)
