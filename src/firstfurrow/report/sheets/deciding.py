"""What a profile says decides, entry by entry in words, and what one requirement asks for."""

from __future__ import annotations

from dataclasses import dataclass

from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.report.sheets.wording import Say, because, need

REFUSAL, CONFLICT = "refusal", "conflict"


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry: its name ("pto_power", "refusal:bank"), its title, what is asked for, and the implement behind it."""

    name: str
    title: str
    shown: str = ""
    because: str = ""


def entries(profile: Profile) -> tuple[Entry, ...]:
    """What decides, in the order of the profile."""
    return tuple(_entry(profile, entry) for entry in profile.deciding)


def _entry(profile: Profile, entry: str) -> Entry:
    sort, _, index = entry.partition(":")
    if sort in (REFUSAL, CONFLICT):
        found = (profile.refusals if sort == REFUSAL else profile.conflicts)[int(index)]
        return Entry(f"{sort}:{found.kind}", found.title)
    outcome = profile.outcomes[entry]
    widest = outcome.widest
    assert widest is not None
    return Entry(entry, outcome.requirement.title, need(profile.book, outcome, widest), because(widest))


def asked_for(profile: Profile, say: Say, outcome: Outcome) -> str:
    """What one requirement asks for, for what is sure and with what may come where the two differ."""
    if outcome.status == "not_determined":
        return say("not_determined")
    sure, later = (None if one is None else need(profile.book, outcome, one)
                   for one in (outcome.sure, outcome.with_later))  # fmt: skip
    if later is None or sure == later:
        return sure or later or say("nothing")
    return say("sure_and_later", sure=sure or say("nothing"), later=later)
