"""The answers that a failed proof shows: they lead there whatever else is answered, and no fewer do."""

from __future__ import annotations

import itertools
import random
from collections.abc import Mapping
from typing import Any

from book_making import book, closing, kind, question
from every_walk import EveryWalk, books
from hypothesis import HealthCheck, assume, given, settings

from firstfurrow.asking.resolve import pointless
from firstfurrow.book.conditions import Held
from firstfurrow.book.facts import Build, nothing_to_ask
from firstfurrow.book.findings import Finding
from firstfurrow.book.model import Book, ContradictionRule, Group, NotSure, OtherAsk, Question, Variant
from firstfurrow.book.proof import prove


def test_what_has_nothing_to_do_with_it_is_not_shown() -> None:
    """Whether there is mud is asked on the way and read by others; only the slope leads to the unasked question."""
    proof = prove(
        book(
            question("mud"),
            question("slope", choices=("flat", "hilly")),
            question("drain", when={"all": [{"answer": "mud", "is": "a"}]}),
            question("steep", when={"all": [{"answer": "slope", "is": "hilly"}]}),
            question("weight", when={"all": [{"answer": "steep", "is": "a"}, {"answer": "mud", "is": "b"}]}),
        )
    )
    (finding,) = proof.findings
    assert finding.witness == ("slope=flat",)


def test_the_shorter_of_two_ways_is_shown() -> None:
    long = {"all": [{"answer": "a", "is": "a"}, {"answer": "b", "is": "a"}]}
    proof = prove(
        book(
            question("a"), question("b"), question("c", choices=("x", "y")),
            question("read", when={"any": [long, {"answer": "c", "is": "x"}]}),
            question("last", when={"not": [{"answer": "read", "is": "a"}]}),
        )
    )  # fmt: skip
    (finding,) = proof.findings
    assert finding.witness in (("a=b", "c=y"), ("b=b", "c=y"))  # `read` is skipped then; the third one does not matter


def test_a_walk_that_always_leads_there_needs_no_answer() -> None:
    never = question("never", when={"all": [{"answer": "soil", "is": "a"}, {"answer": "soil", "is": "b"}]})
    proof = prove(book(question("soil"), never, question("last", when={"all": [{"answer": "never", "is": "a"}]})))
    assert [(f.question, f.witness) for f in proof.findings if "may not have been asked" in f.message] == [("last", ())]


def test_a_dead_end_is_shown_with_what_leads_there() -> None:
    broken = question("slope", "quantity", possible=(5.0, 1.0), when={"all": [{"answer": "land", "is": "b"}]})
    (finding,) = prove(book(question("land"), question("mud"), broken)).findings
    assert "nobody can answer slope" in finding.message
    assert finding.witness == ("land=b",)


def test_numbers_are_shown_with_their_unit_and_several_choices_as_they_are_typed() -> None:
    proof = prove(
        book(
            question("load", "quantity", possible=(0.0, 100.0), dimension="mass"),
            question("jobs", "several", choices=("hay", "snow", "tow", "none_of_these")),
            question("axle", when={"all": [
                {"answer": "load", "at_least": 40}, {"answer": "jobs", "includes": "hay"},
                {"answer": "jobs", "includes": "tow"},
            ]}),
            question("last", when={"all": [
                {"answer": "load", "at_least": 40}, {"answer": "jobs", "includes": "hay"},
                {"not": [{"answer": "axle", "is": "a"}]},
            ]}),
        )
    )  # fmt: skip
    (finding,) = proof.findings
    assert finding.witness == ("load=40 kg", "jobs=hay")


def test_implements_are_named_one_by_one_and_the_list_is_closed_where_others_would_spoil_it() -> None:
    kinds = [kind("mower"), kind("plough")]
    group = Group("tools", "Tool", (question("kind", "kind"),), closing(), 40)
    both = {"all": [{"any_item": "kind", "is": "mower"}, {"any_item": "kind", "is": "plough"}]}
    none = {"not": [{"any_item": "kind", "is": "mower"}]}
    gate = question("gate", when=none)
    last = question("last", when={"all": [{"answer": "gate", "is": "a"}]})
    (finding,) = prove(book(group, gate, last, kinds=kinds)).findings
    assert finding.witness == ("i1.kind=mower",)
    some = question("gate", when=both)
    (finding,) = prove(book(group, some, last, kinds=kinds)).findings
    assert finding.witness == ("complete=that_is_all",)  # one implement would do as well, but is a line more
    want = question("last", when={"all": [*both["all"], {"answer": "gate", "is": "a"}]})
    (finding,) = prove(book(question("soil"), group, question("gate", when={"all": [{"answer": "soil", "is": "a"}]}),
                            want, kinds=kinds)).findings  # fmt: skip
    assert finding.witness == ("soil=b", "i1.kind=mower", "i2.kind=plough")


def test_a_build_that_leaves_nothing_to_ask_is_a_walk_of_its_own() -> None:
    """What is pulled on wheels of its own is not asked about tilting links, though its kind has another build."""
    link = kind("hydraulic_top_link", way="link")
    box = kind("box", builds=2)
    carried, pulled = (Variant("carried", "carried", "three_point"), Variant("pulled", "pulled", "drawbar"))
    box = _with(box, variants=(carried, pulled))
    tilt = question("with", "several", choices=("hydraulic_top_link", "none_of_these"),
                    when={"all": [{"item": "kind", "has": "tilts"}]})  # fmt: skip
    build = question("build", "variant", when={"all": [{"item": "kind", "has": "variants"}]})
    reads = question("hoses", when={"all": [
        {"item": "kind", "has": "tilts"}, {"item": "with", "includes": "hydraulic_top_link"}]})  # fmt: skip
    group = Group("tools", "Tool", (question("kind", "kind"), build, tilt, reads), closing(), 3)
    made = book(group, kinds=[box, kind("plough")])
    made = _with(made, links={link.kind: link})
    (finding,) = prove(made).findings
    assert "hoses reads with, which may not have been asked" in finding.message
    assert finding.witness == ("i1.kind=box", "i1.build=pulled")


def test_what_is_left_to_ask_of_a_build_is_as_in_the_talk(book: Book) -> None:
    inner = [q for s in book.sections if s.group is not None for q in s.group.questions]
    several = [q for q in inner if q.type == "several"]
    assert len(several) == 2
    for each in several:
        for made in book.kinds.values():
            for variant in (None, *(v.id for v in made.variants)):
                same = pointless(each, made, variant)
                assert nothing_to_ask(each, Build(made, variant), book.links) is same, (each.id, made.kind, variant)


# ----------------------------------------------------- other wordings, requirements, contradictions


def test_another_wording_is_read_and_reached_like_a_question() -> None:
    other = question("soil", asks=(OtherAsk(_when({"answer": "steep", "is": "a"}), "Which?"),))
    steep = question("steep", when={"all": [{"answer": "land", "is": "a"}]})
    (finding,) = prove(book(question("land"), steep, other)).findings
    assert finding.message == "the other wording of soil reads steep, which may not have been asked."
    assert finding.witness == ("land=b",)
    twice = (
        OtherAsk(_when({"answer": "land", "in": ["a", "b"]}), "One?"),
        OtherAsk(_when({"answer": "land", "is": "a"}), "2?"),
    )
    (finding,) = prove(book(question("land"), question("soil", asks=twice))).findings
    assert "other words for soil (number 2 under asks) are said on no walk" in finding.message


def test_a_requirement_that_no_question_names_is_found() -> None:
    power: Any = object()
    made = _with(book(question("soil", moves=("power",))), requirements={"power": power, "mass": power})
    (finding,) = prove(made).findings
    assert (finding.requirement, finding.message) == (
        "mass",
        "the requirement mass is named under moves by no question.",
    )
    never = question("never", moves=("mass",),
                     when={"all": [{"answer": "soil", "is": "a"}, {"answer": "soil", "is": "b"}]})  # fmt: skip
    made = _with(book(question("soil", moves=("power",)), never), requirements={"power": power, "mass": power})
    said = [f.message for f in prove(made).findings if f.requirement]
    assert said == ["the requirement mass is named under moves only by never, which nobody is asked."]


def test_a_contradiction_that_can_never_stand_is_found() -> None:
    soil, wet = question("soil"), question("wet", when={"all": [{"answer": "soil", "is": "a"}]})
    dry = _rule("dry", ("wet",), ("soil",), {"answer": "soil", "is": "b"})
    damp = _rule("damp", ("wet",), ("soil",), {"answer": "wet", "is": "b"})
    proof = prove(_with(book(soil, wet), contradictions=(dry, damp)))
    assert [(f.contradiction, f.message) for f in proof.findings] == [
        ("dry", "the contradiction dry can stand on no walk at wet."),
    ]
    sure = question("wet", not_sure=NotSure("planned", planning="a"))
    unsure = _rule("unsure", ("wet",), (), {"answer": "wet", "not_sure": True})  # who is not sure contradicts nothing
    assert [f.contradiction for f in prove(_with(book(sure), contradictions=(unsure,))).findings] == ["unsure"]


def _rule(name: str, asked_at: tuple[str, ...], others: tuple[str, ...], when: Mapping[str, Any]) -> ContradictionRule:
    return ContradictionRule(name, asked_at, others, "It does not fit.", when=_when(when))


def _when(leaf: Mapping[str, Any]) -> Any:
    return question("x", when={"all": [leaf]}).when


def _with(thing: Any, **changes: Any) -> Any:
    from dataclasses import replace

    return replace(thing, **changes)


# ------------------------------------------------------------------------- against every walk

Line = tuple[str, Held]


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
@given(books(grouped=False))
def test_no_fewer_answers_lead_there(made: Book) -> None:
    """Held against every conversation through a book without implements, and every set of answers to keep fixed."""
    findings = [f for f in prove(made).findings if "may not have been asked" in f.message]
    assume(findings)
    questions = [q for section in made.sections for q in section.questions]
    walks = list(_conversations(made, questions, {}))
    lines = list(dict.fromkeys(line for given_, _ in walks for line in given_.items()))
    against = {line: {n for n, (given_, _) in enumerate(walks) if given_.get(line[0], line[1]) != line[1]}
               for line in lines}  # fmt: skip
    for finding in findings:
        there = {n for n, (_, unguarded) in enumerate(walks) if _pair(finding) in unguarded}
        fewest = next(
            number for number in range(len(questions) + 1)
            if any(_leads(there, [against[line] for line in chosen], len(walks))
                   for chosen in itertools.combinations(lines, number))
        )  # fmt: skip
        assert len(finding.witness) == fewest, finding


def _leads(there: set[int], against: list[set[int]], walks: int) -> bool:
    left = set(range(walks)).difference(*against)
    return bool(left) and left <= there


def _pair(finding: Finding) -> tuple[str, str]:
    return finding.question, finding.message.split(" reads ")[1].split(",")[0]


def _conversations(made: Book, questions: list[Question], given_: dict[str, Held]) -> Any:
    """Every conversation without implements: the answers, and what was read unasked."""
    tried = EveryWalk.of(made)
    if not questions:
        yield given_, frozenset()
        return
    first, *rest = questions
    for answer in tried.answers(first, given_, [], None):
        seen = frozenset(tried.unguarded)
        tried.unguarded.clear()
        for whole, unguarded in _conversations(made, rest, {**given_, **answer}):
            yield whole, seen | unguarded
        tried.unguarded |= seen


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
@given(books(grouped=True))
def test_with_implements_the_answers_lead_there_whatever_else_is_answered(made: Book) -> None:
    findings = [f for f in prove(made).findings if "may not have been asked" in f.message]
    assume(findings)
    for finding in findings[:2]:
        for seed in range(25):
            assert _pair(finding) in _played(made, finding.witness, random.Random(seed)), finding


def _played(made: Book, lines: tuple[str, ...], chance: random.Random) -> set[tuple[str, str]]:
    """One conversation in which these answers are given, and all others at random: what was read unasked."""
    said = dict(line.split("=", 1) for line in lines)
    tried = EveryWalk.of(made)
    given_: dict[str, Held] = {}
    items: list[dict[str, Held]] = []

    def take(asked: Question, key: str, item: dict[str, Held] | None) -> dict[str, Held]:
        found = list(tried.answers(asked, given_, items, item))
        wanted = [a for a in found if key not in said or asked.id not in a or _says(a[asked.id], said[key])]
        assert wanted, (key, said)
        return chance.choice(wanted)

    for section in made.sections:
        for asked in section.questions:
            given_ |= take(asked, asked.id, None)
        if section.group is None:
            continue
        named = len({key.split(".")[0] for key in said if "." in key})
        closed = section.group.closes.id in said
        number = named if closed else chance.randint(named, section.group.most)
        left = []
        for n in range(1, number + 1):
            item: dict[str, Held] = {}
            for asked in section.group.questions:
                item |= take(asked, f"i{n}.{asked.id}", item)
            left.append(item)
        items += left
    return tried.unguarded


def _says(held: Held, line: str) -> bool:
    """True where the typed line says this; of several choices the order is no matter."""
    return sorted(_as_typed(held).split(", ")) == sorted(line.split(", "))


def _as_typed(held: Held) -> str:
    if held.unsure:
        return "not sure"
    if isinstance(held.value, tuple):
        return ", ".join(held.value)
    return f"{held.value:g}" if isinstance(held.value, float) else str(held.value)
