"""What one answer moved: the requirements that differ between two profiles, each in one sentence."""

from __future__ import annotations

from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.say import say


def moved(before: Profile | None, after: Profile) -> tuple[str, ...]:
    """One sentence for each requirement that changed, in book order."""
    found: list[str] = []
    for id_, outcome in after.outcomes.items():
        old = before.outcomes[id_] if before is not None else None
        was, now = _stated(old), _stated(outcome)
        if was == now:
            continue
        title = outcome.requirement.title
        widest = outcome.widest
        if widest is None:
            found.append(say(after.book, "moved_gone", title=title))
        else:
            because = widest.governed_by.name if widest.governed_by is not None else ""
            found.append(say(after.book, "moved_now", title=title, shown=widest.shown, because=because))
    return tuple(found)


def _stated(outcome: Outcome | None) -> str | None:
    widest = outcome.widest if outcome is not None else None
    return None if widest is None else widest.shown
