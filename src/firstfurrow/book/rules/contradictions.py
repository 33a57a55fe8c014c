"""Contradictions: each found in one way, between questions that exist, said with slots that are filled."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from firstfurrow.book.files import Files, Placed, PlacedQuestion
from firstfurrow.book.problems import Problem, Said, unknown
from firstfurrow.book.rules.conditions import condition_problems
from firstfurrow.book.rules.sentences import NOBODY_FILLS, OPEN_BRACE, slots

WAYS = ("when", "more_than", "no_job", "no_tool")
FILLED = ("said", "asked")  # whatever the contradiction is; more come with the way it is found
NEVER_FOUND = "Nobody would ever be asked about this contradiction."
ONE_WAY = Said(
    "a contradiction is found in one way: when, more_than, no_job or no_tool.",
    "With none, or with two, nobody knows when it stands.",
    "Keep the one that is meant, and take the others out.",
)
MIXED = Said(
    "the questions of asked_at are all asked for each implement, or none is.",
    "The places are looked at in the same way, one after the other.",
    "Write two contradictions, one for each sort.",
)
ONE_PLACE = Said(
    "a condition is about one place: write one question under asked_at.",
    "The condition reads the answers of one place.",
    "Leave one question under asked_at, or write a contradiction for each.",
)
ONE_THING = Said(
    "more_than compares with one thing: an answer, or what the size carries.",
    "With none, or with both, there is nothing to compare with.",
    "Write answer: and a question, or size_carries: true.",
)


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the contradictions; a book may do without them."""
    first: dict[str, Placed] = {}
    for rule in files.contradictions:
        if first.setdefault(rule.data["id"], rule) is not rule:
            said = Said(
                f'the contradiction "{rule.data["id"]}" is there twice.',
                "Answers files remember by the id what somebody kept.",
                "Give one of them another id.",
            )
            yield rule.problem(said, "id")
        yield from _rule(files, rule)


def _rule(files: Files, rule: Placed) -> Iterator[Problem]:
    strange = [(key, n) for key in ("asked_at", "with") for n, name in enumerate(rule.data.get(key) or ())
               if name not in files.question]  # fmt: skip
    for key, index in strange:
        yield rule.problem(
            unknown("question", rule.data[key][index], files.question, "sections/", NEVER_FOUND), key, index
        )
    ways = [way for way in WAYS if way in rule.data]
    if len(ways) != 1:
        yield rule.problem(ONE_WAY)
    if strange or len(ways) != 1:
        return
    asked = [files.question[name] for name in rule.data["asked_at"]]
    if len({question.inside for question in asked}) > 1:
        yield rule.problem(MIXED, "asked_at")
    yield from _with(files, rule, asked[0].inside)
    yield from {"when": _when, "more_than": _more_than, "no_job": _no_job, "no_tool": _no_tool}[ways[0]](
        files, rule, asked
    )
    if ways[0] in ("no_job", "no_tool") and "jobs" not in (rule.data.get("with") or ()):
        said = Said(
            f"{ways[0]} is about the jobs: write jobs under with.",
            "The reader may want to mend the other answer, and that is the one to the jobs.",
            "Add the line: with: [jobs].",
        )
        yield rule.problem(said, ways[0])
    yield from _say(rule, ways[0], asked[0].inside)


def _with(files: Files, rule: Placed, inside: bool) -> Iterator[Problem]:
    for index, name in enumerate(rule.data.get("with") or ()):
        if files.question[name].inside and not inside:
            said = Said(
                f"{name} is asked for each implement, the others are not.",
                "There may be many answers to it, and nobody knows which one is meant.",
                f"Take {name} out of with, or ask about it at a question of an implement.",
            )
            yield rule.problem(said, "with", index)


def _when(files: Files, rule: Placed, asked: list[PlacedQuestion]) -> Iterator[Problem]:
    if len(asked) > 1:
        yield rule.problem(ONE_PLACE, "asked_at")
    between = [files.question[name] for name in (*rule.data["asked_at"], *(rule.data.get("with") or ()))]
    last = max(between, key=files.questions.index)
    yield from condition_problems(files, rule["when"], last, itself=True)


def _more_than(files: Files, rule: Placed, asked: list[PlacedQuestion]) -> Iterator[Problem]:
    more = rule["more_than"]
    other = more.data.get("answer")
    if (other is None) == ("size_carries" not in more.data):
        yield more.problem(ONE_THING)
        return
    dimension: object = "mass"
    if other is not None:
        if other not in (rule.data.get("with") or ()):
            said = Said(
                f"{other} must stand under with, too: it can be changed instead.",
                "The reader is offered to mend either answer.",
                f"Add {other} under with.",
            )
            yield more.problem(said, "answer")
            return
        dimension = _dimension(files.question[other])
    for index, question in enumerate(asked):
        if _dimension(question) is None or _dimension(question) != dimension:
            said = Said(
                f"{question.id} cannot be compared: it is not of the same sort.",
                "Only two masses, two areas and so on can be more or less than each other.",
                f"Take {question.id} out of asked_at, or compare it with an answer of its own sort.",
            )
            yield rule.problem(said, "asked_at", index)
        if other is None and not question.inside:
            said = Said(
                f"{question.id} is not asked for each implement, so it has no size.",
                "What a size carries is known for an implement only.",
                f"Take {question.id} out of asked_at, or write answer: instead of size_carries.",
            )
            yield rule.problem(said, "asked_at", index)


def _dimension(question: PlacedQuestion) -> object:
    return question.at.data.get("dimension", "count") if question.at.data["type"] in ("quantity", "count") else None


def _no_job(files: Files, rule: Placed, asked: list[PlacedQuestion]) -> Iterator[Problem]:
    if [question.at.data["type"] for question in asked] != ["kind"]:
        said = Said(
            "no_job is asked about at the question of the type kind.",
            "Only there it is known which implement is meant.",
            "Write the id of that question under asked_at, and no other.",
        )
        yield rule.problem(said, "asked_at")
    kinds = {kind.data["kind"]: kind for _, kind in files.kinds}
    yield from _known(rule, "no_job", "kind of implement", kinds, "implements/")


def _no_tool(files: Files, rule: Placed, asked: list[PlacedQuestion]) -> Iterator[Problem]:
    if [question.closes for question in asked] != [True]:
        said = Said(
            "no_tool is asked about at the closing question of the group.",
            "Only there the list of implements is complete.",
            "Write the id of the closing question under asked_at, and no other.",
        )
        yield rule.problem(said, "asked_at")
    jobs = files.question.get("jobs")
    known = {} if jobs is None else {job.data["id"]: job for job in jobs.at.each("choices")}
    yield from _known(rule, "no_tool", "job", known, "the choices of jobs")


def _known(rule: Placed, way: str, what: str, known: Mapping[str, object], home: str) -> Iterator[Problem]:
    why = "What is left out of the search must be there."
    for index, name in enumerate(rule.data[way]["but_for"]):
        if name not in known:
            yield rule.problem(unknown(what, name, known, home, why), way, "but_for", index)


def _say(rule: Placed, way: str, inside: bool) -> Iterator[Problem]:
    found = slots(rule.data["say"])
    if found is None:
        yield rule.problem(OPEN_BRACE, "say")
        return
    filled = {*FILLED, *(rule.data.get("with") or ())}
    if len(rule.data["asked_at"]) == 1:
        filled |= set(rule.data["asked_at"])
    filled |= {"kind"} if inside else set()
    filled |= {"more_than": {"limit"}, "no_job": {"missing"}, "no_tool": {"missing"}}.get(way, set())
    for slot in sorted(found - filled):
        there = ", ".join(sorted(filled))
        what = f"the slot {{{slot}}} is not filled in here; there is {there}."
        yield rule.problem(Said(what, NOBODY_FILLS, f"Use one of these, or take {{{slot}}} out."), "say")
