"""Contradictions: each found in one way, between questions that exist, said with slots that are filled."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from firstfurrow.book.files import Files, Placed, PlacedQuestion
from firstfurrow.book.problems import Problem, did_you_mean
from firstfurrow.book.rules.conditions import condition_problems
from firstfurrow.book.rules.sentences import slots

WAYS = ("when", "more_than", "no_job", "no_tool")
FILLED = ("said", "asked")  # whatever the contradiction is; more come with the way it is found


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the contradictions; a book may do without them."""
    first: dict[str, Placed] = {}
    for rule in files.contradictions:
        if first.setdefault(rule.data["id"], rule) is not rule:
            yield rule.problem(f'the contradiction "{rule.data["id"]}" is there twice.', "id")
        yield from _rule(files, rule)


def _rule(files: Files, rule: Placed) -> Iterator[Problem]:
    unknown = [(key, n) for key in ("asked_at", "with") for n, name in enumerate(rule.data.get(key) or ())
               if name not in files.question]  # fmt: skip
    for key, index in unknown:
        name = rule.data[key][index]
        yield rule.problem(f'there is no question "{name}".{did_you_mean(name, files.question)}', key, index)
    ways = [way for way in WAYS if way in rule.data]
    if len(ways) != 1:
        yield rule.problem("a contradiction is found in one way: when, more_than, no_job or no_tool.")
    if unknown or len(ways) != 1:
        return
    asked = [files.question[name] for name in rule.data["asked_at"]]
    if len({question.inside for question in asked}) > 1:
        yield rule.problem("the questions of asked_at are all asked for each implement, or none is.", "asked_at")
    yield from _with(files, rule, asked[0].inside)
    yield from {"when": _when, "more_than": _more_than, "no_job": _no_job, "no_tool": _no_tool}[ways[0]](
        files, rule, asked
    )
    if ways[0] in ("no_job", "no_tool") and "jobs" not in (rule.data.get("with") or ()):
        yield rule.problem(f"{ways[0]} is about the jobs: write jobs under with.", ways[0])
    yield from _say(rule, ways[0], asked[0].inside)


def _with(files: Files, rule: Placed, inside: bool) -> Iterator[Problem]:
    for index, name in enumerate(rule.data.get("with") or ()):
        if files.question[name].inside and not inside:
            yield rule.problem(f"{name} is asked for each implement, the others are not.", "with", index)


def _when(files: Files, rule: Placed, asked: list[PlacedQuestion]) -> Iterator[Problem]:
    if len(asked) > 1:
        yield rule.problem("a condition is about one place: write one question under asked_at.", "asked_at")
    between = [files.question[name] for name in (*rule.data["asked_at"], *(rule.data.get("with") or ()))]
    last = max(between, key=files.questions.index)
    yield from condition_problems(files, rule["when"], last, itself=True)


def _more_than(files: Files, rule: Placed, asked: list[PlacedQuestion]) -> Iterator[Problem]:
    more = rule["more_than"]
    other = more.data.get("answer")
    if (other is None) == ("size_carries" not in more.data):
        yield more.problem("more_than compares with one thing: an answer, or what the size carries.")
        return
    dimension: object = "mass"
    if other is not None:
        if other not in (rule.data.get("with") or ()):
            yield more.problem(f"{other} must stand under with, too: it can be changed instead.", "answer")
            return
        dimension = _dimension(files.question[other])
    for index, question in enumerate(asked):
        if _dimension(question) is None or _dimension(question) != dimension:
            yield rule.problem(f"{question.id} cannot be compared: it is not of the same sort.", "asked_at", index)
        if other is None and not question.inside:
            yield rule.problem(f"{question.id} is not asked for each implement, so it has no size.", "asked_at", index)


def _dimension(question: PlacedQuestion) -> object:
    return question.at.data.get("dimension", "count") if question.at.data["type"] in ("quantity", "count") else None


def _no_job(files: Files, rule: Placed, asked: list[PlacedQuestion]) -> Iterator[Problem]:
    if [question.at.data["type"] for question in asked] != ["kind"]:
        yield rule.problem("no_job is asked about at the question of the type kind.", "asked_at")
    yield from _known(rule, "no_job", "kind of implement", {kind.data["kind"]: kind for _, kind in files.kinds})


def _no_tool(files: Files, rule: Placed, asked: list[PlacedQuestion]) -> Iterator[Problem]:
    if [question.closes for question in asked] != [True]:
        yield rule.problem("no_tool is asked about at the closing question of the group.", "asked_at")
    jobs = files.question.get("jobs")
    yield from _known(
        rule, "no_tool", "job", {} if jobs is None else {job.data["id"]: job for job in jobs.at.each("choices")}
    )


def _known(rule: Placed, way: str, what: str, known: Mapping[str, object]) -> Iterator[Problem]:
    for index, name in enumerate(rule.data[way]["but_for"]):
        if name not in known:
            yield rule.problem(f'there is no {what} "{name}".{did_you_mean(name, known)}', way, "but_for", index)


def _say(rule: Placed, way: str, inside: bool) -> Iterator[Problem]:
    found = slots(rule.data["say"])
    if found is None:
        yield rule.problem("a brace is open; write {{ and }} for braces that are meant.", "say")
        return
    filled = {*FILLED, *(rule.data.get("with") or ())}
    if len(rule.data["asked_at"]) == 1:
        filled |= set(rule.data["asked_at"])
    filled |= {"kind"} if inside else set()
    filled |= {"more_than": {"limit"}, "no_job": {"missing"}, "no_tool": {"missing"}}.get(way, set())
    for slot in sorted(found - filled):
        yield rule.problem(
            f"the slot {{{slot}}} is not filled in here; there is {', '.join(sorted(filled))}.", "say"
        )
