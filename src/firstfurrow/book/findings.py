"""What the proof about the questions can find, and what is said of each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from firstfurrow.book.known import Place
from firstfurrow.book.model import Leaf
from firstfurrow.book.problems import Said, did_you_mean, one_of


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong with the graph, and the fewest answers that show it.

    It stands at a question, or at a requirement, or at a contradiction.
    """

    question: str
    said: Said
    witness: tuple[str, ...] = ()
    requirement: str = ""
    contradiction: str = ""

    @property
    def message(self) -> str:
        """What is wrong."""
        return self.said.what

    def __str__(self) -> str:
        shown = f" Answers that lead there: {'; '.join(self.witness)}." if self.witness else ""
        return f"{self.message}{shown}"


UNGUARDED = (
    "A test on an answer that is not there is never true, so the question may be left out where it matters, or be "
    "asked where it does not."
)
STUCK = "Who comes there can neither go on nor finish."
NO_ENTRY = "What a reader may choose there, he would never be offered."


def wrong_read(wrong: str, name: str, leaf: Leaf, places: Mapping[str, Place]) -> Said:
    """A test that can never see the answer that it names; `wrong` is what `known.wrong_read` gives."""
    subject = leaf.subject
    if wrong == "unknown":
        what = f'the condition of {name} reads "{subject}", which does not exist.{did_you_mean(subject, places)}'
        return Said(what, UNGUARDED, one_of(subject, places, "the sections"))
    if wrong == "later":
        write = f"Move {subject} before {name}, or read an answer that stands above."
        return Said(f"the condition of {name} reads {subject}, which is asked later.", UNGUARDED, write)
    if wrong == "open":
        write = f"Read it with item, or move {name} behind the group."
        return Said(f"the condition of {name} reads the group before it is closed.", UNGUARDED, write)
    write = "Write answer for what is asked once, item or any_item for what is asked of each implement."
    return Said(f"the condition of {name} cannot read {subject} as {leaf.scope}.", UNGUARDED, write)


def too_many(stage: str, far: str) -> Said:
    """The proof takes more room than there is."""
    return Said(
        f"there are too many states to prove at {stage}; read too far away: {far}.",
        "What cannot be proven may be wrong for somebody.",
        "Let conditions read answers that were given shortly before.",
    )


def unguarded(name: str, subject: str, *, other_words: bool, guarded: bool) -> Said:
    """A condition reads what may not have been asked; `guarded`: what it reads has a condition of its own."""
    such = f", such as the condition of {subject} itself" if guarded else ""
    where = "other wording" if other_words else "condition"
    return Said(
        f"the {where} of {name} reads {subject}, which may not have been asked.",
        UNGUARDED,
        f"Put a test before it that makes sure {subject} was asked{such}; put both under all.",
    )


def never_asked(name: str, apart: Sequence[Leaf] = ()) -> Said:
    """A question that no walk comes to; `apart`: a test of its condition that is never true, or two never together."""
    never = "What is never asked moves nothing, and who reads the book is led astray."
    tests = " and ".join(f'"{_in_words(leaf)}"' for leaf in apart)
    if len(apart) == 1:
        return Said(f"{name} is asked on no walk: {tests} is never true.", never, "Mend that test, or take it out.")
    if apart:
        what = f"{name} is asked on no walk: {tests} are never true together."
        return Said(what, never, "Take one of the two out, or put both under any if one of them is enough.")
    return Said(
        f"{name} is asked on no walk, and none of its choices can be taken.", never,
        "Look for two tests in its condition that exclude each other, mend one, or take the question out.",
    )  # fmt: skip


def _in_words(leaf: Leaf) -> str:
    value = " or ".join(map(str, leaf.value)) if isinstance(leaf.value, tuple) else leaf.value
    if isinstance(value, bool):
        return f"{leaf.subject} {leaf.test}" if value else f"{leaf.subject} {leaf.test}: false"
    shown = f"{value:g}" if isinstance(value, float) else value
    return f"{leaf.subject} {leaf.test} {shown}"


def stuck(name: str) -> Said:
    """A question that takes no answer at all."""
    return Said(
        f"nobody can answer {name}: no answer is allowed there.", STUCK,
        "Give it choices, or a range in which a number lies.",
    )  # fmt: skip


def idle_test(whose: str, leaf: Leaf) -> Said:
    """A test in a condition that is true on no walk."""
    value = "" if leaf.value is True else f" {leaf.value}"
    return Said(
        f'in the condition of {whose}, the test "{leaf.subject} {leaf.test}{value}" is true on no walk.',
        "A test that is never true says nothing.",
        "Mend its value, or take it out.",
    )


def never_said(name: str, number: int) -> Said:
    """Another wording of a question that is said on no walk."""
    return Said(
        f"other words for {name} (number {number} under asks) are said on no walk.",
        "Nobody would ever read them.",
        "Mend their condition, move them above those that always hold first, or take them out.",
    )


def lost_choices(name: str, kinds: Iterable[str], feature: str) -> Said:
    """A question about an implement that some kinds have choices for, and are never asked."""
    return Said(
        f"{name} is never asked for {', '.join(kinds)}; its choices there cannot be taken.", NO_ENTRY,
        f"Let its condition hold for them too: {{item: kind, has: {feature}}}.",
    )  # fmt: skip


def no_way_out(name: str) -> Said:
    """A closing question that no answer closes."""
    return Said(
        f"{name} has no choice that_is_all, so no walk leaves the group.", STUCK,
        "Add the choice {id: that_is_all, label: that is all}.",
    )  # fmt: skip


def no_other(name: str) -> Said:
    """A group for one item that asks for another."""
    return Said(
        f"the choice another of {name} can never be taken: at most one item.", NO_ENTRY, "Write most: 2 or more."
    )  # fmt: skip


def unnamed(requirement: str, named: Sequence[str]) -> Said:
    """A requirement that nobody who is asked could move, as far as the book says."""
    by = f"only by {', '.join(named)}, which nobody is asked" if named else "by no question"
    return Said(
        f"the requirement {requirement} is named under moves {by}.",
        "Nobody could tell which answers move it, and why reads them out.",
        f"Add {requirement} to the moves of a question whose answer moves it.",
    )


def never_stands(contradiction: str, at: str) -> Said:
    """A contradiction that no answers can run into."""
    return Said(
        f"the contradiction {contradiction} can stand on no walk at {at}.",
        "Nobody would ever be asked about it.",
        "Look whether all its questions can be asked on one walk, and whether its tests exclude each other.",
    )
