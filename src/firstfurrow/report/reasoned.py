"""The reasoning of one requirement as lines, what is read first and what follows from it after."""

from __future__ import annotations

from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.strictest import Strictest
from firstfurrow.reasoning import Step, ancestors
from firstfurrow.report.blocks import StepLine
from firstfurrow.report.step_lines import step_line


def named_outcome(profile: Profile, word: str) -> Outcome | None:
    """The requirement that is asked for and that a word names: by its id, or by words of its title."""
    wanted = word.casefold().split()
    asked = [o for o in profile.outcomes.values() if o.widest is not None and o.widest.top_step is not None]
    for outcome in asked:
        if word.casefold() == outcome.requirement.id:
            return outcome
    for outcome in asked:
        title = outcome.requirement.title.casefold()
        if wanted and all(part in title for part in wanted):
            return outcome
    return None


def reasoned(profile: Profile, outcome: Outcome) -> tuple[StepLine, ...]:
    """One line for each step, in the order in which they rest on each other."""
    widest = outcome.widest
    if widest is None or widest.top_step is None:
        return ()
    names = {note.sized.item.id: note.sized.item.name for note in profile.hookups}
    names["tow"] = profile.book.messages["reason.tow_name"]
    about = widest.governed_by.name if widest.governed_by is not None else None
    chain = chain_of(profile.step(widest.top_step), widest)
    return tuple(step_line(step, profile.book, names, about) for step in chain)


def chain_of(top: Step, widest: Strictest) -> list[Step]:
    """The steps of the governing demand; of the others only the result, in what takes the greatest."""
    governing = widest.governed_by.top if widest.governed_by is not None else top
    steps = ancestors(top)
    greatest = next((s for s in steps if s.type == "greatest" and governing in (s.inputs or {}).values()), None)
    if greatest is None:
        return steps
    below = {s.index for s in ancestors(governing)}
    above = {s.index for s in steps if s.index >= greatest.index}
    return [s for s in steps if s.index in below or s.index in above]
