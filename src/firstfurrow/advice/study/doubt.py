"""Doubts in order: the whole road at each end of what nobody knows, everything else as planned.

Ranked by how far the requirements move in steps that a buyer feels, both ends together. The number of runs is bounded
by the book: what the buyer can answer comes first, then the estimates that reach furthest by a rough look at the steps.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.advice.study.candidates import Candidate, unknowns
from firstfurrow.advice.study.estimates import estimates
from firstfurrow.advice.study.felt import Scale, difference
from firstfurrow.advice.study.model import Doubt, Doubts, End
from firstfurrow.advice.study.reach import Reach
from firstfurrow.advice.study.words import Words

WORTH_A_RUN = 0.1  # rough steps of an estimate below which no run is spent on it
CANNOT_TELL = 0.5  # an unknown that stands in no step is tried after those that surely reach


def doubts(profile: Profile, scale: Scale, words: Words) -> Doubts:
    """Everything that nobody knows, ranked."""
    most = int(profile.book.tables["felt_steps"].rows["runs"]["most"].planning)
    reach = Reach(profile, scale)
    ranked: list[Doubt] = []
    still: list[Candidate] = []
    untried: list[str] = []
    runs = 0
    for candidate in _worth_a_look(profile, words, reach):
        if not candidate.moves or not candidate.cases:
            still.append(candidate)
            continue
        if runs + len(candidate.cases) > most:
            untried.append(candidate.what)
            continue
        ends, ran = _ends(profile, scale, words, candidate)
        runs += ran
        if ends:
            ranked.append(_doubt(candidate, ends, words))
        elif candidate.sort == "unknown":
            still.append(candidate)
    ranked.sort(key=lambda doubt: -doubt.steps)
    return Doubts(
        tuple(ranked), tuple((c.question, c.item) for c in still), tuple(c.what for c in still), tuple(untried), runs
    )  # fmt: skip


def _worth_a_look(profile: Profile, words: Words, reach: Reach) -> Iterator[Candidate]:
    """What the buyer can answer first, each sort in the order of its rough reach."""
    every = (*unknowns(profile, words), *estimates(profile, words))
    rough = {id(c): reach.of(c) for c in every}

    def far(candidate: Candidate) -> float:
        found = rough[id(candidate)]
        return CANNOT_TELL if found is None else found

    yield from sorted((c for c in every if c.sort == "unknown"), key=lambda c: -far(c))
    guessed = [c for c in every if c.sort == "estimate" and (rough[id(c)] or 0.0) >= WORTH_A_RUN]
    yield from sorted(guessed, key=lambda c: -far(c))


def _ends(profile: Profile, scale: Scale, words: Words, candidate: Candidate) -> tuple[tuple[End, ...], int]:
    """The ways that it may turn out and that move something, and the runs that it took."""
    found: list[End] = []
    runs = 0
    for case in candidate.cases:
        made = case.make()
        if made is None:
            continue
        runs += 1
        apart = difference(scale, profile, advise_plan(*made, lean=True))
        if not apart.nothing:
            lead = words.say(f"doubt_{case.sort}", words=case.words)
            found.append(End(case.words, lead, apart))
    return tuple(found), runs


def _doubt(candidate: Candidate, ends: Sequence[End], words: Words) -> Doubt:
    steps = round(sum(end.difference.steps for end in ends), 3)
    parts = [words.say("doubt_what", what=candidate.what[:1].upper() + candidate.what[1:], taken=candidate.taken)]
    parts += [words.say("doubt_end", lead=end.lead, moves=words.moves(end.difference)) for end in ends]
    guide = words.guide(candidate.how)
    if guide is not None:
        parts.append(words.say("doubt_how", guide=guide))
    return Doubt(
        candidate.sort, candidate.question, candidate.item, candidate.what, candidate.taken, tuple(ends), steps,
        candidate.how if guide is not None else None, " ".join(parts),
    )  # fmt: skip
